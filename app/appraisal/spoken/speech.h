// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "appraisal/spoken/lexicon.h"
#include "appraisal/spoken/transcript.h"

// Speech as words: split, written alike, numbers put together, slips of the transcription mended.
namespace ramplight::spoken {

enum class Break : std::uint8_t { None, Weak, Strong };

struct Token
{
    WordId word = 0;
    std::uint32_t begin = 0; ///< bytes of Speech::text
    std::uint32_t end = 0;
    std::int32_t tenths = -1; ///< a number's value times ten; -1: no number
    Break before = Break::None;
    bool paragraph = false; ///< begins one
    bool asks = false;      ///< the last of a question
    bool turn = false;      ///< somebody else begins to speak
    bool several = false;   ///< a number like "fives"
    bool mended = false;
    bool money = false;
};

struct Stretch
{
    std::uint32_t begin = 0; ///< bytes of Speech::text
    int milliseconds = -1;
    int endMilliseconds = -1;
};

struct Speech
{
    std::string text;
    std::vector<Stretch> stretches;
    std::vector<Token> tokens;
    bool punctuated = false;

    /// Seconds from the start at which a byte is said; -1 where the transcript has no times.
    [[nodiscard]] double secondsAt(std::uint32_t byte) const;
};

/// Words alone, no meaning: the first step, also what the bench compares with.
[[nodiscard]] Speech splitWords(const Transcript& transcript, const Lexicon& lexicon);
void joinNumbers(Speech& speech, const Lexicon& lexicon);
/// The pieces of a number that is written as one word ("dreiundvierzig"); empty when it is none.
[[nodiscard]] std::vector<WordId> numberPieces(std::string_view word, const Lexicon& lexicon);
void mendSlips(Speech& speech, const Lexicon& lexicon);
/// All of it.
[[nodiscard]] Speech speechOf(const Transcript& transcript, const Lexicon& lexicon);

} // namespace ramplight::spoken
