// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QImage>
#include <QString>

#include <vector>

// What may be wrong with a photo as evidence. Warnings only: there is no threshold that fits every
// panel, so the person who took it decides. Pure, any thread, some milliseconds.
namespace ramplight {

enum class PhotoWarning {
    TooDark,    ///< nearly all of it is black
    TooBright,  ///< most of it is washed out
    Blurred,    ///< no fine edges anywhere; a clean flat panel can look like that, too
    AlmostSame, ///< almost the same picture as an earlier one of the same work and place
};

/// Defaults of the house to begin with, tried on drawn panels; every house has its own light, so
/// they are settings.
struct QualityRules
{
    int darkLuma = 32;       ///< 0 to 255; a pixel below counts as dark
    int darkPercent = 85;    ///< this share of dark pixels is too dark
    int brightLuma = 247;    ///< a pixel above counts as washed out
    int brightPercent = 60;  ///< this share of them is too bright
    double sharpness = 40.0; ///< less is blurred

    friend bool operator==(const QualityRules&, const QualityRules&) = default;
};

struct PhotoQuality
{
    int darkPercent = 0;
    int brightPercent = 0;
    double sharpness = 0; ///< variance of the Laplacian at 1024 pixels on the long side
    std::vector<PhotoWarning> warnings;

    friend bool operator==(const PhotoQuality&, const PhotoQuality&) = default;
};

/// What can be told from the picture alone; AlmostSame is for who knows the others
/// (photolikeness.h). An empty picture gives no warnings.
[[nodiscard]] PhotoQuality judgePhoto(const QImage& image, const QualityRules& rules = {});

/// What the person who took it is told.
[[nodiscard]] QString words(PhotoWarning warning);

} // namespace ramplight
