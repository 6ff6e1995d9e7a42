// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "workbench.h"

#include <array>

// Rights against commands: a row for each command, or case of one, a cell for each right.
namespace ramplight::test {

inline constexpr std::array eachRight{Right::Appraise, Right::Work, Right::Check, Right::Manage,
                                      Right::Release};

/// Whether a right alone opens a command: not asked yet, never refused for want of a right, always
/// refused; or now this, now that, which no row may.
enum class RightsCell { Unseen, May, MayNot, Depends };

[[nodiscard]] inline RightsCell seenTo(RightsCell cell, bool may)
{
    const RightsCell seen = may ? RightsCell::May : RightsCell::MayNot;
    return cell == RightsCell::Unseen || cell == seen ? seen : RightsCell::Depends;
}

/// Nobody's right, then those above in their order.
inline constexpr std::size_t holderCount = eachRight.size() + 1;
using RightsRow = std::array<RightsCell, holderCount>;

/// "-x--x-": x may, - may not, ~ now this, now that
[[nodiscard]] inline QString cellText(const RightsRow& row)
{
    QString text;
    for (const RightsCell cell : row)
        text.append(QLatin1Char(" x-~"[static_cast<std::size_t>(cell)]));
    return text;
}

inline const std::vector<Skill> allSkills{Skill::Mechanical, Skill::Wheels, Skill::SmartRepair,
                                          Skill::Glass,      Skill::Trim,   Skill::Valet,
                                          Skill::Checks,     Skill::Office};

[[nodiscard]] inline std::vector<Right> rightsOf(std::size_t holder)
{
    return holder == 0 ? std::vector<Right>{} : std::vector<Right>{eachRight[holder - 1]};
}

/// Somebody for each cell.
using Holders = std::array<PersonId, holderCount>;

[[nodiscard]] inline Holders hireHolders(Workbench& bench,
                                         const std::vector<Skill>& skills = allSkills)
{
    Holders people;
    const std::size_t others = bench.ledger.site().value().people.size();
    for (std::size_t i = 0; i < people.size(); ++i)
        people[i] = bench.hire(QStringLiteral("Holder %1").arg(others + i), skills, rightsOf(i));
    return people;
}

} // namespace ramplight::test
