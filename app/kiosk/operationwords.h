// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/carevents.h"
#include "kiosk/sitebook.h"

// What the operation screen says about an operation, and how it stands to a person. Pure; GUI
// thread or any other.
namespace ramplight {

/// This person has read the cautions, or there are none to read.
[[nodiscard]] bool hasReadCautions(const Operation& operation, PersonId person);
/// This person's time runs on it.
[[nodiscard]] bool isRunBy(const Operation& operation, PersonId person);
/// What will open when it closes, by title; empty for what is closed.
[[nodiscard]] QStringList openingTitles(const Operation& operation, const CarFacts& facts,
                                        const Catalogue& catalogue);
/// A line per name under it: "Did the work: Ines, today 14:20".
[[nodiscard]] QStringList signatureLines(const Operation& operation, const SiteBook& book,
                                         Moment now);
/// Who has read its cautions and when, newest first: "read by Ines 09:10, Marek 09:05"; empty.
[[nodiscard]] QString cautionReaders(const Operation& operation,
                                     const std::vector<CarEnvelope>& envelopes,
                                     const SiteBook& book, Moment now);
/// How a file's date lies to the work: "while the work ran", "25 min before the work began", "2
/// days after it"; empty for work that nobody has begun.
[[nodiscard]] QString besideWork(Moment file, const Operation& operation, Moment now);
/// Whose timers on it were probably forgotten; empty.
[[nodiscard]] std::vector<PersonId> forgottenBy(const Operation& operation, const CarState& car,
                                                const HouseRules& rules, Moment now);
/// "Ines: the timer runs since 07:40, for 6 h 20; this usually takes 20 min. Still working?";
/// empty.
[[nodiscard]] QString forgottenWords(const Operation& operation, const CarState& car,
                                     const SiteBook& book, Moment now);
/// Who is on it now: "Ines, Oskar"; empty.
[[nodiscard]] QString peopleOn(const Operation& operation, const SiteBook& book);

} // namespace ramplight
