// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/carwork.h"

#include <QDate>

// What readings of operations say about the car itself: the tyre survey's tread, a new tyre's
// marks. They count like what an appraiser recorded. Internal to the domain.
namespace ramplight {

/// The day of the ledger's clock; a tyre's age is no matter of hours.
[[nodiscard]] QDate dayOf(Moment moment);

/// The three points of a tyre as the readings of an operation have them; empty until all are there,
/// each of them taken since a moment.
[[nodiscard]] std::optional<Tread> treadOf(const Operation& operation, const PlaceId& tyre,
                                           Moment since = {});
/// Open work that measures both of these tyres has measured one of them so far: what is known of
/// the other was read some other day, by another hand.
[[nodiscard]] bool isHalfSurveyed(const CarState& car, const PlaceId& tyre, const PlaceId& other);
/// What open work has read of a tyre, other than the work that fits another one. What was signed
/// stands as it was.
[[nodiscard]] std::vector<ReadingId> readingsOfTyre(const CarState& car, const PlaceId& tyre,
                                                    OperationId fitting);
/// What the odometer showed last by then.
[[nodiscard]] std::optional<OdometerReading> shownBy(const CarState& car, Moment then);
/// When what a reading corrects was read first; of one that corrects nothing, when it was taken.
[[nodiscard]] Moment readFirst(const Operation& operation, const Reading& reading);
/// What a reading cannot be, over its kind: a date code that is none, a cure that takes no time, an
/// odometer that shows less than before. The last can be corrected to with a reason.
[[nodiscard]] MaybeRefusal readingFault(const CarWork& work, const Operation& operation,
                                        const QString& key, const PlaceId& place,
                                        const ReadingValue& value, bool correction);
/// A reading was taken or corrected: once all three points of a tyre are there, they are its tread;
/// the key "odometer" is the car's, in the unit of its odometer. What an earlier reading of a tyre
/// had shown and this one does not is taken back with it.
void noteReading(CarWork& work, OperationId operation, const QString& key, const PlaceId& place,
                 const QString& correction, const PhotoId& evidence);
/// Another tyre is on: what was measured of the old one is gone, and so is what that made due.
void noteTyreFitted(CarWork& work, OperationId operation);
/// What the tyres give cause for as things stand, each of them.
[[nodiscard]] std::vector<FindingData> allTyreConcerns(const CarWork& work);
/// The car's own tyre data was wrong: what only that had shown is taken back, whoever read the tyre
/// and whenever. before: what the tyres gave cause for by the wrong data.
void takeBackTyreConcerns(CarWork& work, const std::vector<FindingData>& before, const QString& why,
                          const PhotoId& evidence);
/// Finds what the tyres give cause for and nothing says yet.
void concludeFromTyres(CarWork& work);

} // namespace ramplight
