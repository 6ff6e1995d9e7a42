// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/ids.h"

#include <QString>

// Addresses under which QML finds pictures; photoprovider.h answers them. Pure.
namespace ramplight {

enum class PhotoSize { Card, Panel, Full };

/// "image://photo/panel/<id>"; empty for no photo.
[[nodiscard]] QString photoUrl(const PhotoId& photo, PhotoSize size);
/// A file in the drop folder, made small: "image://photo/drop/<path>".
[[nodiscard]] QString droppedUrl(const QString& path);
/// A page of the record on the screen; edition tells two records apart.
[[nodiscard]] QString pageUrl(int edition, int page);
/// The page of PaperView.
[[nodiscard]] QString paperUrl(int edition);

} // namespace ramplight
