// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "appraisal/spoken/speech.h"

#include <vector>

// What is spotted in speech: places as they are named, defects, work, numbers, and the small words
// that steer them, in the order in which they are said.
namespace ramplight::spoken {

struct Position
{
    bool sideSaid = false;
    SideWord side = SideWord::This;
    Axle axle = Axle::None;
    bool severalAxle = false; ///< "the fronts"
};

/// One naming of a place or places: "both near side doors", "the front one", "bonnet".
struct Naming
{
    std::vector<Position> positions; ///< at least one
    int base = -1;                   ///< -1: only a position was said
    bool several = false;
    bool amountSaid = false;
    Amount amount = Amount::Both;
    bool one = false;       ///< "the rear one"
    bool corrected = false; ///< the side was put right within
    bool spoken = true;     ///< false: a position behind the noun only
};

enum class Lead : std::uint8_t { None, On, From, Beside };

struct Item
{
    enum class Kind : std::uint8_t { Place, Condition, Severity, Remedy, Cue, Number };
    Kind kind = Kind::Cue;
    int id = 0;              ///< naming, condition, severity, remedy, cue; a number's tenths
    int extra = 0;           ///< condition: an adjective; sound: the remedy it may be plus one
    std::uint32_t first = 0; ///< tokens
    std::uint32_t last = 0;
    Break before = Break::None; ///< the strongest since the item before
    Lead lead = Lead::None;
    bool andBefore = false;
    bool orBefore = false;
    bool butBefore = false;
    bool turn = false; ///< somebody else speaks from here on
    bool paragraph = false;

    [[nodiscard]] bool is(Cue cue) const { return kind == Kind::Cue && id == int(cue); }
};

struct Spotted
{
    std::vector<Item> items;
    std::vector<Naming> namings;
};

/// What is said of one of several positions holds for the others: "near side front and rear".
void shareOut(Naming& naming);
[[nodiscard]] Spotted spot(const Speech& speech, const Lexicon& lexicon);

} // namespace ramplight::spoken
