// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "appraisal/spoken/lexicon.h"
#include "appraisal/spoken/transcript.h"

#include <cstdint>
#include <string>
#include <vector>

// The words of a transcript as one text, with what was understood in them: for showing. Pure.
namespace ramplight {

enum class Heard { Place, Defect, Work };

struct HeardMark
{
    Heard what = Heard::Place;
    std::uint32_t begin = 0; ///< bytes of the text
    std::uint32_t end = 0;

    friend bool operator==(const HeardMark&, const HeardMark&) = default;
};

struct HeardStretch
{
    std::uint32_t begin = 0;
    int milliseconds = -1; ///< from the start; -1: not said
};

struct HeardWords
{
    std::string text;                    ///< UTF-8
    std::vector<HeardStretch> stretches; ///< in order; a cue or a paragraph each
    std::vector<HeardMark> marks;        ///< in order, never overlapping
};

[[nodiscard]] HeardWords heardWords(const Transcript& transcript, const spoken::Lexicon& lexicon);

/// The words around a quote that stand for themselves: from the sentence before it to the end of
/// its own.
[[nodiscard]] std::string wordsAround(const HeardWords& heard, std::uint32_t begin,
                                      std::uint32_t end);

} // namespace ramplight
