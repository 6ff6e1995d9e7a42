// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/carcard.h"
#include "domain/holds.h"
#include "domain/restraintwords.h"
#include "domain/words.h"
#include "kiosk/sitebook.h"

#include <QVariantMap>

// What several views say about a car in the same words. Pure; GUI thread or any other.
namespace ramplight {

/// Wall.Band of an operation in this state.
[[nodiscard]] int bandOf(OperationState state);
/// Place id -> Wall.Mark.
[[nodiscard]] QVariantMap marksOf(const std::vector<MarkedPlace>& marks);
[[nodiscard]] QString words(CarStatus status);
/// The same, "held by safety" for no other cars than those that the wall hatches and counts so.
[[nodiscard]] QString statusWords(const CarCard& card, Moment now);
/// The first letter as a capital.
[[nodiscard]] QString sentence(QString words);
/// "Pellew Anda 1.4"
[[nodiscard]] QString makeModelOf(const Identity& identity);
/// Whether a car is meant by these words: a part of its stock number, registration or name, or the
/// end of its VIN. Empty words mean every car.
[[nodiscard]] bool answersTo(const Identity& identity, const QString& words);
/// "hatch · slate"
[[nodiscard]] QString shapeColourOf(const Identity& identity);
/// "bay 1 Wheels", the parking place, or empty.
[[nodiscard]] QString placeOf(BayId bay, const QString& parking, const SiteBook& book);
/// "Ines, Oskar"
[[nodiscard]] QString namesOf(const std::vector<PersonId>& people, const SiteBook& book);
/// Promised and the day is over.
[[nodiscard]] bool isLate(QDate promised, Moment now, const SiteBook& book);
/// What somebody who releases the car puts a name to: the safety work and the names under it, what
/// was found, what is left as it is, the photos.
[[nodiscard]] QStringList signedForWords(const CarState& car, const SiteBook& book);
/// Joins what is not empty by " · ".
[[nodiscard]] QString dotted(const QStringList& parts);

/// Why an operation exists: "from the appraisal: kerbed, moderate", "every car gets it".
[[nodiscard]] QString whyWords(const CarState& car, const Operation& operation,
                               const HouseRules& rules);
/// What keeps it: part and date, firm and date, sent back because, left with these words; empty.
[[nodiscard]] QString situationWords(const Operation& operation, const TimeWords& times,
                                     Moment now);

} // namespace ramplight
