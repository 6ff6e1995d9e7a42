// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "evidence/photostore.h"

#include <memory>

namespace ramplight {

/// A shelf that other kiosks share, and a folder of this one: what the shelf cannot take because
/// its database is away is kept here, as durably, and read from here until somebody has brought it
/// there and taken it away (storage/photooutbox.h). What both have is the same, since photos are
/// named by their content.
class StandbyShelf : public PhotoShelf
{
public:
    /// The folder above it is made where it is missing, for this account only.
    StandbyShelf(std::unique_ptr<PhotoShelf> shared, const QString& folder);

    [[nodiscard]] tl::expected<QByteArray, EvidenceError> read(const PhotoId& id,
                                                               PhotoForm form) const override;
    [[nodiscard]] tl::expected<void, EvidenceError>
    write(const PhotoId& id, const std::vector<ShelvedBytes>& forms) override;
    [[nodiscard]] tl::expected<void, EvidenceError> touch(const PhotoId& id) override;
    /// False also for what waits here: somebody is about to name it.
    [[nodiscard]] tl::expected<bool, EvidenceError> remove(const PhotoId& id,
                                                           Moment keptBefore) override;
    /// Of both places.
    [[nodiscard]] tl::expected<std::vector<PhotoId>, EvidenceError> list() const override;
    [[nodiscard]] QStringList unfinished() const override { return m_here.unfinished(); }

private:
    [[nodiscard]] bool isHere(const PhotoId& id) const;

    std::unique_ptr<PhotoShelf> m_shared;
    QString m_above;
    FolderShelf m_here;
};

} // namespace ramplight
