// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/photosfirstledger.h"

#include "domain/retention.h"

#include <QCoreApplication>

namespace ramplight {

tl::expected<void, StoreError> PhotosFirstLedger::append(const Append& append)
{
    for (const CarAppend& car : append.cars)
        for (const CarEvent& event : car.events) {
            const PhotoId photo = photoOf(event);
            if (photo.isEmpty())
                continue;
            const auto there = m_photos.bring(photo, m_server.connection(), m_server.siteId());
            if (!there)
                return tl::unexpected(storeError(there.error()));
            if (!*there)
                return tl::unexpected(StoreError{
                    StoreErrorKind::PhotoGone,
                    QCoreApplication::translate(
                        "ramplight", "Its photo can no longer be read, here or on the server. Take "
                                     "the photo again and enter it again.")});
        }
    return behind().append(append);
}

} // namespace ramplight
