// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "appraisal/spoken/speech.h"

namespace ramplight::spoken {

namespace {

using Kind = NumberWord::Kind;

/// Reads one number in words from a place in the speech.
class NumberReader
{
public:
    NumberReader(const Speech& speech, const Lexicon& lexicon)
        : m_tokens(speech.tokens)
        , m_lexicon(lexicon)
    {
    }

    struct Found
    {
        std::size_t count = 0; ///< tokens; 0: none
        std::int64_t tenths = 0;
        bool several = false;
    };

    Found at(std::size_t first) const
    {
        std::size_t i = first;
        std::int64_t total = 0;
        std::int64_t current = -1; // below a thousand, not yet said: -1
        int fraction = 0;
        bool several = false;
        bool scaled = false; // behind "hundred" or "thousand" more may follow
        int last = 1000;     // the size of the last piece: smaller ones may follow
        for (; i < m_tokens.size(); ++i) {
            if (i > first && m_tokens[i].before == Break::Strong)
                break;
            const Kind kind = kindAt(i);
            const std::int64_t value = m_tokens[i].tenths;
            if (value >= 0) { // unit, tens or digits
                if (value % 10 != 0 || value >= 100'000) {
                    if (i == first)
                        return {1, value, m_tokens[i].several};
                    break;
                }
                const int whole = int(value / 10);
                if (whole >= 1000 && i > first)
                    break;
                const int size = whole >= 100  ? 100
                                 : whole >= 10 ? (whole % 10 == 0 && whole > 19 ? 10 : 2)
                                               : 1;
                const bool german = m_lexicon.unitsBeforeTens();
                if (current >= 0 && !fits(last, size, whole) &&
                    !(german && last == 1 && size == 10))
                    break;
                if (current < 0 && total > 0 && !scaled)
                    break;
                current = std::max<std::int64_t>(current, 0) + whole;
                last = whole >= 1000 ? 1 : size;
                several = m_tokens[i].several;
                scaled = false;
                if (several) {
                    ++i;
                    break;
                }
            } else if (kind == Kind::Hundred && (current < 0 || (current < 100 && current > 0))) {
                current = std::max<std::int64_t>(current, 1) * 100;
                last = 100;
                scaled = true;
            } else if (kind == Kind::Thousand && total == 0 && current != 0) {
                total = std::max<std::int64_t>(current, 1) * 1000;
                current = -1;
                last = 1000;
                scaled = true;
            } else if (kind == Kind::Article && i == first && i + 1 < m_tokens.size() &&
                       (kindAt(i + 1) == Kind::Hundred || kindAt(i + 1) == Kind::Thousand)) {
                continue;
            } else if (kind == Kind::Half && i > first && m_lexicon.unitsBeforeTens() &&
                       total == 0 && last == 1) {
                fraction = 5;
                ++i;
                break;
            } else if (kind == Kind::And && i > first) {
                const int half = fractionAt(i + 1);
                if (half > 0 && total == 0) {
                    fraction = half;
                    i += kindAt(i + 1) == Kind::Article ? 3U : 2U;
                    break;
                }
                const bool more = scaled && i + 1 < m_tokens.size() &&
                                  m_tokens[i + 1].tenths >= 0 && m_tokens[i + 1].tenths < 1000;
                const bool tens = m_lexicon.unitsBeforeTens() && last == 1 &&
                                  i + 1 < m_tokens.size() && m_tokens[i + 1].tenths >= 200 &&
                                  m_tokens[i + 1].tenths < 1000;
                if (!more && !tens)
                    break;
            } else if (kind == Kind::Point && i + 1 < m_tokens.size() && total == 0 &&
                       m_tokens[i + 1].tenths >= 0 && m_tokens[i + 1].tenths < 100) {
                fraction = m_tokens[i + 1].tenths / 10;
                current = std::max<std::int64_t>(current, 0);
                i += 2;
                while (i < m_tokens.size() && m_tokens[i].tenths >= 0 && m_tokens[i].tenths < 100 &&
                       m_tokens[i].before == Break::None)
                    ++i;
                break;
            } else {
                break;
            }
        }
        if (total == 0 && current < 0)
            return {};
        return {i - first, (total + std::max<std::int64_t>(current, 0)) * 10 + fraction, several};
    }

private:
    Kind kindAt(std::size_t i) const
    {
        if (i >= m_tokens.size())
            return Kind::Unit;
        const NumberWord* number = m_lexicon.number(m_tokens[i].word);
        return number == nullptr ? Kind::Unit : number->kind;
    }

    /// "a half", "half", "a quarter": in tenths.
    int fractionAt(std::size_t i) const
    {
        if (kindAt(i) == Kind::Article)
            ++i;
        if (i >= m_tokens.size())
            return 0;
        return kindAt(i) == Kind::Half ? 5 : kindAt(i) == Kind::Quarter ? 3 : 0;
    }

    static bool fits(int last, int size, int whole)
    {
        if (last == 100)
            return size < 100;
        return last == 10 && size == 1 && whole > 0;
    }

    const std::vector<Token>& m_tokens;
    const Lexicon& m_lexicon;
};

} // namespace

std::vector<WordId> numberPieces(std::string_view word, const Lexicon& lexicon)
{
    std::vector<WordId> pieces;
    // No number is longer than this many letters.
    while (!word.empty() && word.size() < 80) {
        std::size_t longest = 0;
        WordId piece = 0;
        for (std::size_t n = word.size(); n >= 3 && longest == 0; --n)
            if (const WordId id = lexicon.word(word.substr(0, n));
                id != 0 && lexicon.number(id) != nullptr) {
                longest = n;
                piece = id;
            }
        if (longest == 0)
            return {};
        pieces.push_back(piece);
        word.remove_prefix(longest);
    }
    return word.empty() && pieces.size() > 1 ? pieces : std::vector<WordId>{};
}

void joinNumbers(Speech& speech, const Lexicon& lexicon)
{
    const NumberReader reader(speech, lexicon);
    std::vector<Token> joined;
    joined.reserve(speech.tokens.size());
    for (std::size_t i = 0; i < speech.tokens.size();) {
        Token token = speech.tokens[i];
        const NumberWord* word = lexicon.number(token.word);
        const bool begins =
            token.tenths >= 0 ||
            (word != nullptr && (word->kind == Kind::Hundred || word->kind == Kind::Thousand ||
                                 word->kind == Kind::Article || word->kind == Kind::Point));
        const NumberReader::Found found = begins ? reader.at(i) : NumberReader::Found{};
        if (found.count == 0) {
            joined.push_back(token);
            ++i;
            continue;
        }
        token.tenths = std::int32_t(std::min<std::int64_t>(found.tenths, 1'000'000'000));
        token.several = found.several;
        token.end = speech.tokens[i + found.count - 1].end;
        token.asks = speech.tokens[i + found.count - 1].asks;
        if (found.count > 1)
            token.word = 0;
        joined.push_back(token);
        i += found.count;
    }
    speech.tokens = std::move(joined);
}

} // namespace ramplight::spoken
