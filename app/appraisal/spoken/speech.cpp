// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "appraisal/spoken/speech.h"

#include "appraisal/spoken/textlines.h"

#include <algorithm>

namespace ramplight::spoken {

namespace {

bool isLetter(char c)
{
    const auto byte = static_cast<unsigned char>(c);
    return (byte >= 'a' && byte <= 'z') || (byte >= 'A' && byte <= 'Z') || byte >= 0x80;
}

/// Splits one utterance after another.
class Splitter
{
public:
    Splitter(Speech& speech, const Lexicon& lexicon)
        : m_speech(speech)
        , m_lexicon(lexicon)
    {
    }

    void add(const Utterance& utterance)
    {
        const bool turn =
            !utterance.voice.empty() && !m_voice.empty() && utterance.voice != m_voice;
        if (!utterance.voice.empty())
            m_voice = utterance.voice;
        if (!m_speech.text.empty())
            m_speech.text += ' ';
        const auto begin = std::uint32_t(m_speech.text.size());
        m_speech.stretches.push_back({begin, utterance.milliseconds, utterance.endMilliseconds});
        m_speech.text += utterance.text;
        if (utterance.paragraph || turn) {
            m_break = Break::Strong;
            m_paragraph = utterance.paragraph;
        }
        m_turn = m_turn || turn;
        m_begin = begin;
        words(begin);
    }

    void finish() { m_speech.punctuated = m_stops * 60 > m_speech.tokens.size(); }

private:
    char at(std::size_t i) const { return i < m_speech.text.size() ? m_speech.text[i] : ' '; }

    void words(std::size_t i)
    {
        const std::string& text = m_speech.text;
        while (i < text.size()) {
            // Typographic apostrophes and dashes are three bytes: E2 80 xx.
            if (text.compare(i, 2, "\xe2\x80") == 0) {
                const auto third =
                    i + 2 < text.size() ? static_cast<unsigned char>(text[i + 2]) : 0;
                if (third == 0x93 || third == 0x94 || third == 0xa6)
                    raise(Break::Weak);
                i += 3;
                continue;
            }
            if (isDigit(text[i]))
                i = number(i);
            else if (isLetter(text[i]))
                i = word(i);
            else
                i = sign(i);
        }
    }

    std::size_t sign(std::size_t i)
    {
        switch (m_speech.text[i]) {
        case '.':
        case '!':
        case ';':
        case '?':
            if (m_speech.text[i] == '?' && !m_speech.tokens.empty())
                m_speech.tokens.back().asks = true;
            if (m_break != Break::Strong)
                ++m_stops;
            raise(Break::Strong);
            break;
        case ',':
        case ':':
        case '(':
        case ')':
        case '"':
            raise(Break::Weak);
            break;
        case '-':
            if (at(i + 1) == ' ' && (i == m_begin || m_break == Break::Strong)) {
                // A dash in front of what somebody else says.
                raise(Break::Strong);
                m_turn = !m_speech.tokens.empty();
            } else if (at(i + 1) == ' ' || at(i + 1) == '-') {
                raise(Break::Weak);
            }
            break;
        case '$':
            m_money = true;
            break;
        default:
            break;
        }
        return i + 1;
    }

    void raise(Break to) { m_break = std::max(m_break, to); }

    Token& put(std::size_t begin, std::size_t end, WordId word)
    {
        Token token;
        token.word = word;
        token.begin = std::uint32_t(begin);
        token.end = std::uint32_t(end);
        token.before = m_break;
        token.paragraph = m_paragraph;
        token.turn = m_turn;
        token.money = m_money;
        m_break = Break::None;
        m_paragraph = false;
        m_turn = false;
        m_money = false;
        return m_speech.tokens.emplace_back(token);
    }

    /// A filler is heard as a short pause.
    void putWord(std::size_t begin, std::size_t end, WordId word)
    {
        if (m_lexicon.isFiller(word))
            return;
        Token& token = put(begin, end, word);
        if (const NumberWord* number = m_lexicon.number(word);
            number != nullptr &&
            (number->kind == NumberWord::Kind::Unit || number->kind == NumberWord::Kind::Tens)) {
            token.tenths = number->value * 10;
            token.several = number->plural;
        }
    }

    void putSpelled(std::size_t begin, std::size_t end, std::string_view lower)
    {
        const auto rewritten = m_lexicon.rewrite(lower);
        const WordId known = m_lexicon.word(lower);
        if (rewritten.empty() && known == 0 && m_lexicon.compoundNumbers()) {
            const auto pieces = numberPieces(lower, m_lexicon);
            for (const WordId piece : pieces)
                putWord(begin, end, piece);
            if (!pieces.empty())
                return;
        }
        if (rewritten.empty())
            putWord(begin, end, known);
        for (const WordId word : rewritten)
            putWord(begin, end, word);
    }

    std::size_t word(std::size_t begin)
    {
        const std::string& text = m_speech.text;
        m_lower.clear();
        std::size_t i = begin;
        // "N/S/F" is one word
        if (at(begin + 1) == '/' && isLetter(at(begin + 2)) &&
            (begin == 0 || !isLetter(at(begin - 1)))) {
            for (; isLetter(at(i)) && !isLetter(at(i + 1)); i += at(i + 1) == '/' ? 2U : 1U)
                m_lower += at(i) >= 'A' && at(i) <= 'Z' ? char(at(i) + 32) : at(i);
            if (!isLetter(at(i)) && at(i - 1) != '/' && !m_lexicon.rewrite(m_lower).empty()) {
                putSpelled(begin, i, m_lower);
                return i;
            }
            m_lower.clear();
            i = begin;
        }
        std::size_t apostrophe = 0;
        for (; i < text.size(); ++i) {
            const char c = text[i];
            const bool curly = text.compare(i, 3, "\xe2\x80\x99") == 0;
            if ((c == '\'' || curly) && i > begin && isLetter(at(i + (curly ? 3 : 1)))) {
                apostrophe = m_lower.size();
                m_lower += '\'';
                i += curly ? 2 : 0;
            } else if (text.compare(i, 2, "\xe2\x80") == 0 || !isLetter(c)) {
                break;
            } else {
                // Latin capitals of two bytes: C3 80 to C3 9E.
                const auto byte = static_cast<unsigned char>(c);
                const bool capital = i > begin && text[i - 1] == '\xc3' && byte >= 0x80 &&
                                     byte <= 0x9e && byte != 0x97;
                m_lower += (c >= 'A' && c <= 'Z') || capital ? char(c + 32) : c;
            }
        }
        // "ANN: roof?" names who speaks, unless it is a word of the trade.
        if (apostrophe == 0 && at(i) == ':' && (at(i + 1) == ' ' || at(i + 1) == '\n') &&
            (begin == m_begin || m_break == Break::Strong || allCapitals(begin, i)) &&
            text[begin] >= 'A' && text[begin] <= 'Z' && m_lexicon.word(m_lower) == 0 &&
            m_lexicon.rewrite(m_lower).empty()) {
            raise(Break::Strong);
            m_turn = !m_speech.tokens.empty();
            return i + 1;
        }
        // "runnin'" is running; "no'" and "wi'" are words of their own.
        if (apostrophe == 0 && at(i) == '\'' && !isLetter(at(i + 1))) {
            if (!m_lexicon.rewrite(m_lower + "'").empty()) {
                putSpelled(begin, i + 1, m_lower + "'");
                return i + 1;
            }
            if (m_lower.size() > 3 && m_lower.ends_with("in") && m_lexicon.word(m_lower + "g") != 0)
                m_lower += 'g';
        }
        if (apostrophe == 0 || !m_lexicon.rewrite(m_lower).empty()) {
            putSpelled(begin, i, m_lower);
            return i;
        }
        // "front's" is the front and 's.
        const std::string tail = m_lower.substr(apostrophe);
        m_lower.resize(apostrophe);
        const std::size_t cut = i - (tail.size() - 1) - 1;
        if (m_lower.ends_with("in") && m_lexicon.word(m_lower) == 0 &&
            m_lexicon.word(m_lower + "g") != 0)
            m_lower += 'g';
        const std::string head = m_lower;
        putSpelled(begin, cut, head);
        putWord(cut, i, m_lexicon.word(tail));
        return i;
    }

    bool allCapitals(std::size_t begin, std::size_t end) const
    {
        for (std::size_t i = begin; i < end; ++i)
            if (m_speech.text[i] < 'A' || m_speech.text[i] > 'Z')
                return false;
        return end > begin + 2;
    }

    std::size_t number(std::size_t begin)
    {
        const std::string& text = m_speech.text;
        const char decimal = m_lexicon.decimalSign();
        const char group = decimal == '.' ? ',' : '.';
        std::int64_t value = 0;
        std::size_t i = begin;
        int tenth = 0;
        constexpr std::int64_t most = 100'000'000;
        for (; i < text.size(); ++i) {
            if (isDigit(text[i])) {
                value = std::min(most, value * 10 + (text[i] - '0'));
            } else if (text[i] == group && isDigit(at(i + 1)) && isDigit(at(i + 2)) &&
                       isDigit(at(i + 3)) && !isDigit(at(i + 4))) {
                continue;
            } else {
                break;
            }
        }
        // "4,5 millimetres" is said by those who learnt to write it so
        const bool comma = at(i) == ',' && value < 20 && i - begin <= 2 && !isDigit(at(i + 2)) &&
                           at(i + 2) != ',' && (begin == 0 || at(begin - 1) != ',');
        const bool fraction =
            (at(i) == decimal || comma || (at(i) == ',' && decimal != '.')) && isDigit(at(i + 1));
        if (fraction) {
            tenth = at(i + 1) - '0';
            i += 2;
            while (isDigit(at(i)))
                ++i;
        } else if (text.compare(i, 2, "½") == 0) {
            tenth = 5;
            i += 2;
        }
        Token& token = put(begin, i, 0);
        token.word = tenth == 0 && value <= 20 ? m_lexicon.digitWord(int(value)) : 0;
        token.tenths = std::int32_t(value * 10 + tenth);
        if (at(i) == 's' && !isLetter(at(i + 1))) {
            token.several = true;
            ++i;
        }
        return i;
    }

    Speech& m_speech;
    const Lexicon& m_lexicon;
    std::string m_lower;
    std::string m_voice;
    std::size_t m_stops = 0;
    std::size_t m_begin = 0;
    Break m_break = Break::None;
    bool m_paragraph = false;
    bool m_turn = false;
    bool m_money = false;
};

} // namespace

double Speech::secondsAt(std::uint32_t byte) const
{
    auto it = std::ranges::upper_bound(stretches, byte, {}, &Stretch::begin);
    if (it == stretches.begin())
        return -1;
    const Stretch& stretch = *std::prev(it);
    if (stretch.milliseconds < 0)
        return -1;
    const std::uint32_t until = it == stretches.end() ? std::uint32_t(text.size()) : it->begin;
    double ms = stretch.milliseconds;
    if (stretch.endMilliseconds > stretch.milliseconds && until > stretch.begin)
        ms += double(stretch.endMilliseconds - stretch.milliseconds) *
              double(byte - stretch.begin) / double(until - stretch.begin);
    return ms / 1000.0;
}

Speech splitWords(const Transcript& transcript, const Lexicon& lexicon)
{
    Speech speech;
    std::size_t bytes = 0;
    for (const Utterance& utterance : transcript.utterances)
        bytes += utterance.text.size() + 1;
    speech.text.reserve(bytes);
    speech.stretches.reserve(transcript.utterances.size());
    speech.tokens.reserve(bytes / 4);
    Splitter splitter(speech, lexicon);
    for (const Utterance& utterance : transcript.utterances)
        splitter.add(utterance);
    splitter.finish();
    return speech;
}

Speech speechOf(const Transcript& transcript, const Lexicon& lexicon)
{
    Speech speech = splitWords(transcript, lexicon);
    mendSlips(speech, lexicon);
    joinNumbers(speech, lexicon);
    return speech;
}

} // namespace ramplight::spoken
