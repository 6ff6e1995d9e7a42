// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/car.h"
#include "domain/site.h"
#include "domain/wheeltag.h"

#include <QByteArray>
#include <QImage>
#include <QString>

#include <tl/expected.hpp>

// A wheel's tag on paper: 100 by 60 mm, the stock number and the corner large, and a code that the
// kiosk's reader reads. Needs a QGuiApplication (fonts); any thread.
namespace ramplight {

struct TagModel
{
    WheelTag tag;
    QString codePrefix;  ///< of the house, before tagCode()
    QString cornerWords; ///< "Near side front wheel"
    QString carWords;    ///< "Halden Skerry, plate"
    QString workWords;   ///< titles of what is open at this wheel; may be empty
};

/// What stands on the tag of a car's wheel.
[[nodiscard]] TagModel tagOf(const CarState& car, const PlaceId& wheel, const HouseRules& rules,
                             const QString& codePrefix);
/// Error: words, where the stock number cannot stand in a bar code.
[[nodiscard]] tl::expected<QByteArray, QString> renderTagPdf(const TagModel& model);
/// The same for the screen.
[[nodiscard]] QImage renderTagImage(const TagModel& model, double dpi);

} // namespace ramplight
