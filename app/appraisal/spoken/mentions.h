// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "appraisal/spoken/speech.h"

#include <span>

// Phrases of the lexicon found in speech, before places are put together from them.
namespace ramplight::spoken {

struct Mention
{
    std::uint32_t first = 0; ///< tokens
    std::uint32_t last = 0;
    std::span<const Sense> senses;

    [[nodiscard]] const Sense* sense(SenseKind kind) const;
    [[nodiscard]] bool has(Cue cue) const;
    /// Side, axle, amount or noun: part of how a place is named.
    [[nodiscard]] const Sense* placeSense() const;
};

/// The longest phrases, from left to right.
[[nodiscard]] std::vector<Mention> mentionsIn(const Speech& speech, const Lexicon& lexicon);

} // namespace ramplight::spoken
