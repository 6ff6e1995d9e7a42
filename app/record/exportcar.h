// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "record/recordmodel.h"

#include <QByteArray>

// A car as a file for other programs, described by db/schema/export-car.schema.json: ids as in the
// appraisal file, times in UTC, and the words that people saw beside the ids. Pure.
namespace ramplight {

/// Every photo that a record shows, each once, in the order in which it shows them; without those
/// that the house's retention removed.
[[nodiscard]] std::vector<PhotoId> photosOf(const RecordModel& car);

/// Where a photo lies in a car's folder: "photos/<id>.jpg".
[[nodiscard]] QString exportedPhoto(const PhotoId& photo);

/// missing: photos that could not be read; they are named as such.
[[nodiscard]] QByteArray exportedCar(const RecordModel& car, const std::vector<PhotoId>& missing);

} // namespace ramplight
