// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/car.h"
#include "domain/catalogue.h"

// From what was seen to what has to be done, by the rules of the catalogue. Pure.
namespace ramplight {

/// What the catalogue makes of a finding: kinds of operations, and how it is to be shown.
struct Answer
{
    QString rule; ///< id of the rule that decided; empty when none did
    QString why;  ///< its words
    QStringList kinds;
    bool undecided = false;
    bool disclosed = false;
    friend bool operator==(const Answer&, const Answer&) = default;
};

/// The rule that answers a finding; null when none does.
[[nodiscard]] const FindingRule* ruleFor(const Catalogue& catalogue, const CarFacts& facts,
                                         const FindingData& finding);
/// A tyre below the least tread is replaced, whatever else was said of it.
[[nodiscard]] Answer answerTo(const Catalogue& catalogue, const CarFacts& facts,
                              const FindingData& finding);
[[nodiscard]] bool fits(const std::optional<Fact>& fact, const CarFacts& facts);

} // namespace ramplight
