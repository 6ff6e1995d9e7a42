// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/ids.h"
#include "evidence/photoalignment.h"

#include <QRectF>
#include <QString>

#include <optional>

// Addresses under which QML finds pictures; photoprovider.h answers them. Pure.
namespace ramplight {

/// Fitted: as large as the Image asks for (sourceSize), its sides in proportion.
enum class PhotoSize { Card, Panel, Fitted, Full };

/// "image://photo/panel/<id>"; empty for no photo.
[[nodiscard]] QString photoUrl(const PhotoId& photo, PhotoSize size);
/// A kept photo as it lies on another one that was taken before it; of the earlier one itself the
/// similarity says nothing. Both with the same part lie on each other.
struct LaidPhoto
{
    PhotoId photo;
    Similarity fromBefore;
    QRectF part; ///< what is shown, in the measure of Similarity on the earlier photo

    friend bool operator==(const LaidPhoto&, const LaidPhoto&) = default;
};
/// "image://photo/laid/<id>/<similarity>/<part>". Ask for it at the size at which it is seen.
[[nodiscard]] QString laidUrl(const LaidPhoto& laid);
/// What stands behind "image://photo/laid/"; nothing when it cannot be read.
[[nodiscard]] std::optional<LaidPhoto> laidPhoto(QStringView address);
/// A file in the drop folder, made small: "image://photo/drop/<path>".
[[nodiscard]] QString droppedUrl(const QString& path);
/// A page of the record on the screen; edition tells two records apart.
[[nodiscard]] QString pageUrl(int edition, int page);
/// The page of PaperView.
[[nodiscard]] QString paperUrl(int edition);

} // namespace ramplight
