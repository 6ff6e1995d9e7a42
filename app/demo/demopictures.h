// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "demo/democrew.h"
#include "evidence/photovault.h"

#include <QImage>

// Drawn stand-ins for the demo workshop's photos: a wheel, a panel, a screen, in workshop light, so
// that before and after can be told apart at a glance. Marked as demo pictures, and each a picture
// of its own by what stands under it.
namespace ramplight::demo {

[[nodiscard]] QImage drawPicture(const PlaceId& place, PhotoMoment moment,
                                 const QString& stockNumber, int number = 0);

/// Keeps each picture once in the vault. The vault outlives the function.
[[nodiscard]] PictureFor picturesInto(PhotoVault& vault);

} // namespace ramplight::demo
