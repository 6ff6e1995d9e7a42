// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "appraisal/spoken/transcript.h"

#include <optional>
#include <string_view>

// What the three kinds of transcript share: lines, times, warnings.
namespace ramplight::spoken {

/// Walks over the lines of a text; CR, LF and CRLF each end one.
class TextLines
{
public:
    explicit TextLines(std::string_view text)
        : m_rest(text)
    {
    }
    /// The next line without its end; nothing after the last.
    [[nodiscard]] std::optional<std::string_view> next();
    /// The same without stepping on.
    [[nodiscard]] std::optional<std::string_view> peek() const;
    /// Of the line that next() gave last, counted from 1.
    [[nodiscard]] int number() const { return m_number; }

private:
    std::string_view m_rest;
    int m_number = 0;
};

[[nodiscard]] bool isDigit(char c);
[[nodiscard]] std::string_view trimmed(std::string_view text);
[[nodiscard]] bool isBlank(std::string_view text);
void warn(Transcript& transcript, int line, const char* words);

/// "[hh:]mm:ss.ttt" at the start of the text, which is moved behind it. SubRip separates the
/// thousandths by a comma, and some of its writers leave digits out: strict is WebVTT.
[[nodiscard]] std::optional<int> takeTime(std::string_view& text, bool strict);
/// "start --> end" and what follows; nothing when the line is not one.
struct Timing
{
    int start = 0;
    int end = 0;
};
[[nodiscard]] std::optional<Timing> timing(std::string_view line, bool strict);

/// Tags out, the voice of a <v> kept, character references resolved.
void appendCueText(std::string_view raw, Utterance& cue);
/// Character references of HTML that speech has use for; an unknown one stays as it is.
void appendUnescaped(std::string_view raw, std::string& out);

/// Live captions roll: a cue shows the line before once more above its own. Keeps each line once.
class RollingLines
{
public:
    /// False for a line that was shown by the cue before.
    [[nodiscard]] bool isNew(const std::string& line);
    void endCue();

private:
    std::vector<std::string> m_before;
    std::vector<std::string> m_now;
    bool m_fresh = false; ///< this cue showed something of its own
};

void parseWebVtt(std::string_view text, Transcript& out);
void parseSubRip(std::string_view text, Transcript& out);
void parsePlain(std::string_view text, Transcript& out);

} // namespace ramplight::spoken
