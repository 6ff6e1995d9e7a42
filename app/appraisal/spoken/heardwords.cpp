// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "appraisal/spoken/heardwords.h"

#include "appraisal/spoken/items.h"

#include <algorithm>
#include <optional>

namespace ramplight {

using namespace spoken;

namespace {

std::optional<Heard> heardAs(const Item& item)
{
    switch (item.kind) {
    case Item::Kind::Place:
        return Heard::Place;
    case Item::Kind::Condition:
        return Heard::Defect;
    case Item::Kind::Remedy:
        return Heard::Work;
    case Item::Kind::Severity:
    case Item::Kind::Cue:
    case Item::Kind::Number:
        break;
    }
    return std::nullopt;
}

bool isStop(char c)
{
    return c == '.' || c == '!' || c == '?';
}

/// Begin of the stretch in which a byte stands.
std::uint32_t stretchOf(const HeardWords& heard, std::uint32_t byte)
{
    std::uint32_t begin = 0;
    for (const HeardStretch& stretch : heard.stretches)
        if (stretch.begin <= byte)
            begin = stretch.begin;
    return begin;
}

} // namespace

HeardWords heardWords(const Transcript& transcript, const Lexicon& lexicon)
{
    const Speech speech = speechOf(transcript, lexicon);
    HeardWords heard;
    heard.text = speech.text;
    for (const Stretch& stretch : speech.stretches)
        heard.stretches.push_back({stretch.begin, stretch.milliseconds});
    const Spotted spotted = spot(speech, lexicon);
    std::uint32_t free = 0;
    for (const Item& item : spotted.items) {
        const auto what = heardAs(item);
        if (!what || item.last >= speech.tokens.size())
            continue;
        const std::uint32_t begin = std::max(free, speech.tokens[item.first].begin);
        const std::uint32_t end = speech.tokens[item.last].end;
        if (end <= begin)
            continue;
        heard.marks.push_back({*what, begin, end});
        free = end;
    }
    return heard;
}

std::string wordsAround(const HeardWords& heard, std::uint32_t begin, std::uint32_t end)
{
    const std::string& text = heard.text;
    const auto size = static_cast<std::uint32_t>(text.size());
    begin = std::min(begin, size);
    end = std::clamp(end, begin, size);
    // Nothing is taken from farther than this, and in speech without stops one cue at most.
    constexpr std::uint32_t reach = 240;
    const std::uint32_t own = stretchOf(heard, begin);
    const std::uint32_t floor =
        std::max(begin > reach ? begin - reach : 0, own == 0 ? 0 : stretchOf(heard, own - 1));
    std::uint32_t from = begin;
    for (int sentence = 0; sentence < 2 && from > floor; ++sentence) {
        std::uint32_t at = from >= 2 ? from - 2 : 0;
        while (at > floor && !(isStop(text[at]) && text[at + 1] == ' '))
            --at;
        from = at > floor ? at + 2 : floor;
    }
    // Not in the middle of a word.
    while (from > 0 && from < begin && text[from - 1] != ' ')
        ++from;
    std::uint32_t to = end;
    const std::uint32_t ceiling = std::min(size, end + reach / 2);
    while (to < ceiling && !isStop(text[to]))
        ++to;
    to = to < ceiling ? to + 1 : ceiling == size ? size : end;
    return text.substr(from, to - from);
}

} // namespace ramplight
