// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "appraisal/spoken/speech.h"

#include <algorithm>

// What the transcription misheard. A word is mended only where the trade's meaning fits what stands
// beside it; everywhere else it stays what it is.
namespace ramplight::spoken {

namespace {

class Mender
{
public:
    Mender(const Speech& speech, const Lexicon& lexicon)
        : m_tokens(speech.tokens)
        , m_lexicon(lexicon)
    {
    }

    bool fits(const Slip& slip, std::size_t i) const
    {
        switch (slip.when) {
        case Slip::When::Positioned:
            return position(i, -1) || (position(i, +1) && startsClause(i));
        case Slip::When::Counted:
            return counted(i);
        case Slip::When::Wheel:
            return near(slip, i, 16);
        case Slip::When::Wanted:
            return wanted(i);
        case Slip::When::Before:
            return near(slip, i, 3);
        }
        return false;
    }

private:
    /// All that the single word at a place can mean; nothing behind the end.
    std::span<const Sense> sensesOf(std::size_t i) const
    {
        if (i >= m_tokens.size() || m_tokens[i].word == 0)
            return {};
        const int node = m_lexicon.step(0, m_tokens[i].word);
        return node < 0 ? std::span<const Sense>() : m_lexicon.senses(node);
    }

    /// The sense of the single word at a place, if it has one of this kind.
    const Sense* senseOf(std::size_t i, SenseKind kind) const
    {
        for (const Sense& sense : sensesOf(i))
            if (sense.kind == kind)
                return &sense;
        return nullptr;
    }

    bool startsClause(std::size_t i) const { return i == 0 || m_tokens[i].before != Break::None; }

    /// Words of side or axle right before or behind, at most one word between.
    bool position(std::size_t i, int step) const
    {
        for (int k = 1; k <= 2; ++k) {
            const std::ptrdiff_t at = std::ptrdiff_t(i) + step * k;
            if (at < 0 || at >= std::ptrdiff_t(m_tokens.size()))
                return false;
            const auto index = std::size_t(at);
            if (senseOf(index, SenseKind::Side) != nullptr ||
                senseOf(index, SenseKind::Axle) != nullptr)
                return true;
            // "near side", "left hand": two words that are one sense.
            if (step < 0 && index > 0 && m_tokens[index - 1].word != 0) {
                const int first = m_lexicon.step(0, m_tokens[index - 1].word);
                const int node = first < 0 ? -1 : m_lexicon.step(first, m_tokens[index].word);
                if (node >= 0)
                    for (const Sense& sense : m_lexicon.senses(node))
                        if (sense.kind == SenseKind::Side)
                            return true;
            }
            if (step < 0 && m_tokens[index].before == Break::Strong)
                return false;
        }
        return false;
    }

    bool hasCue(std::size_t i, std::initializer_list<Cue> wanted) const
    {
        for (const Sense& sense : sensesOf(i))
            if (sense.kind == SenseKind::Cue &&
                std::ranges::find(wanted, Cue(sense.id)) != wanted.end())
                return true;
        return false;
    }

    /// A number, an article, "no", a severity or a place stands right before.
    bool counted(std::size_t i) const
    {
        if (i == 0)
            return false;
        const Token& before = m_tokens[i - 1];
        if (before.tenths >= 0 || senseOf(i - 1, SenseKind::Severity) != nullptr)
            return true;
        const NumberWord* number = m_lexicon.number(before.word);
        return (number != nullptr && number->kind == NumberWord::Kind::Article) ||
               hasCue(i - 1, {Cue::Negation, Cue::No, Cue::Any, Cue::Another});
    }

    bool wanted(std::size_t i) const
    {
        for (std::size_t k = 1; k <= 3 && k <= i; ++k)
            if (hasCue(i - k, {Cue::Want}))
                return true;
        return false;
    }

    bool near(const Slip& slip, std::size_t i, std::size_t reach) const
    {
        const std::size_t from = i > reach ? i - reach : 0;
        const std::size_t to = std::min(m_tokens.size(), i + reach * 3 / 4 + 1);
        for (std::size_t k = from; k < to; ++k)
            if (k != i && m_tokens[k].word != 0 &&
                std::ranges::find(slip.beside, m_tokens[k].word) != slip.beside.end())
                return true;
        return false;
    }

    const std::vector<Token>& m_tokens;
    const Lexicon& m_lexicon;
};

} // namespace

void mendSlips(Speech& speech, const Lexicon& lexicon)
{
    const Mender mender(speech, lexicon);
    for (std::size_t i = 0; i < speech.tokens.size(); ++i) {
        Token& token = speech.tokens[i];
        for (const Slip& slip : lexicon.slips(token.word))
            if (!slip.meant.empty() && mender.fits(slip, i)) {
                token.word = slip.meant.front();
                token.mended = true;
                break;
            }
    }
}

} // namespace ramplight::spoken
