// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "appraisal/spoken/speech.h"

#include <algorithm>

namespace ramplight::spoken {

namespace {

bool isLetter(char c)
{
    const auto byte = static_cast<unsigned char>(c);
    return (byte >= 'a' && byte <= 'z') || (byte >= 'A' && byte <= 'Z') || byte >= 0x80;
}

bool isDigit(char c)
{
    return c >= '0' && c <= '9';
}

/// Splits one utterance after another.
class Splitter
{
public:
    Splitter(Speech& speech, const Lexicon& lexicon)
        : _speech(speech)
        , _lexicon(lexicon)
    {
    }

    void add(const Utterance& utterance)
    {
        const bool turn = !utterance.voice.empty() && !_voice.empty() && utterance.voice != _voice;
        if (!utterance.voice.empty())
            _voice = utterance.voice;
        if (!_speech.text.empty())
            _speech.text += ' ';
        const auto begin = std::uint32_t(_speech.text.size());
        _speech.stretches.push_back({begin, utterance.milliseconds, utterance.endMilliseconds});
        _speech.text += utterance.text;
        if (utterance.paragraph || turn) {
            _break = Break::Strong;
            _paragraph = utterance.paragraph;
        }
        _turn = _turn || turn;
        _begin = begin;
        words(begin);
    }

    void finish() { _speech.punctuated = _stops * 60 > _speech.tokens.size(); }

private:
    char at(std::size_t i) const { return i < _speech.text.size() ? _speech.text[i] : ' '; }

    void words(std::size_t i)
    {
        const std::string& text = _speech.text;
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
        switch (_speech.text[i]) {
        case '.':
        case '!':
        case ';':
        case '?':
            if (_speech.text[i] == '?' && !_speech.tokens.empty())
                _speech.tokens.back().asks = true;
            if (_break != Break::Strong)
                ++_stops;
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
            if (at(i + 1) == ' ' && (i == _begin || _break == Break::Strong)) {
                // A dash in front of what somebody else says.
                raise(Break::Strong);
                _turn = !_speech.tokens.empty();
            } else if (at(i + 1) == ' ' || at(i + 1) == '-') {
                raise(Break::Weak);
            }
            break;
        case '$':
            _money = true;
            break;
        default:
            break;
        }
        return i + 1;
    }

    void raise(Break to) { _break = std::max(_break, to); }

    Token& put(std::size_t begin, std::size_t end, WordId word)
    {
        Token token;
        token.word = word;
        token.begin = std::uint32_t(begin);
        token.end = std::uint32_t(end);
        token.before = _break;
        token.paragraph = _paragraph;
        token.turn = _turn;
        token.money = _money;
        _break = Break::None;
        _paragraph = false;
        _turn = false;
        _money = false;
        return _speech.tokens.emplace_back(token);
    }

    /// A filler is heard as a short pause.
    void putWord(std::size_t begin, std::size_t end, WordId word)
    {
        if (_lexicon.isFiller(word))
            return;
        Token& token = put(begin, end, word);
        if (const NumberWord* number = _lexicon.number(word);
            number != nullptr &&
            (number->kind == NumberWord::Kind::Unit || number->kind == NumberWord::Kind::Tens)) {
            token.tenths = number->value * 10;
            token.several = number->plural;
        }
    }

    void putSpelled(std::size_t begin, std::size_t end, std::string_view lower)
    {
        const auto rewritten = _lexicon.rewrite(lower);
        const WordId known = _lexicon.word(lower);
        if (rewritten.empty() && known == 0 && _lexicon.compoundNumbers()) {
            const auto pieces = numberPieces(lower, _lexicon);
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
        const std::string& text = _speech.text;
        _lower.clear();
        std::size_t i = begin;
        std::size_t apostrophe = 0;
        for (; i < text.size(); ++i) {
            const char c = text[i];
            const bool curly = text.compare(i, 3, "\xe2\x80\x99") == 0;
            if ((c == '\'' || curly) && i > begin && isLetter(at(i + (curly ? 3 : 1)))) {
                apostrophe = _lower.size();
                _lower += '\'';
                i += curly ? 2 : 0;
            } else if (text.compare(i, 2, "\xe2\x80") == 0 || !isLetter(c)) {
                break;
            } else {
                // Latin capitals of two bytes: C3 80 to C3 9E.
                const auto byte = static_cast<unsigned char>(c);
                const bool capital = i > begin && text[i - 1] == '\xc3' && byte >= 0x80 &&
                                     byte <= 0x9e && byte != 0x97;
                _lower += (c >= 'A' && c <= 'Z') || capital ? char(c + 32) : c;
            }
        }
        // "ANN: roof?" names who speaks, unless it is a word of the trade.
        if (apostrophe == 0 && at(i) == ':' && (at(i + 1) == ' ' || at(i + 1) == '\n') &&
            (begin == _begin || _break == Break::Strong || allCapitals(begin, i)) &&
            text[begin] >= 'A' && text[begin] <= 'Z' && _lexicon.word(_lower) == 0 &&
            _lexicon.rewrite(_lower).empty()) {
            raise(Break::Strong);
            _turn = !_speech.tokens.empty();
            return i + 1;
        }
        // "runnin'" is running; "no'" and "wi'" are words of their own.
        if (apostrophe == 0 && at(i) == '\'' && !isLetter(at(i + 1))) {
            if (!_lexicon.rewrite(_lower + "'").empty()) {
                putSpelled(begin, i + 1, _lower + "'");
                return i + 1;
            }
            if (_lower.size() > 3 && _lower.ends_with("in") && _lexicon.word(_lower + "g") != 0)
                _lower += 'g';
        }
        if (apostrophe == 0 || !_lexicon.rewrite(_lower).empty()) {
            putSpelled(begin, i, _lower);
            return i;
        }
        // "front's" is the front and 's.
        const std::string tail = _lower.substr(apostrophe);
        _lower.resize(apostrophe);
        const std::size_t cut = i - (tail.size() - 1) - 1;
        if (_lower.ends_with("in") && _lexicon.word(_lower) == 0 &&
            _lexicon.word(_lower + "g") != 0)
            _lower += 'g';
        const std::string head = _lower;
        putSpelled(begin, cut, head);
        putWord(cut, i, _lexicon.word(tail));
        return i;
    }

    bool allCapitals(std::size_t begin, std::size_t end) const
    {
        for (std::size_t i = begin; i < end; ++i)
            if (_speech.text[i] < 'A' || _speech.text[i] > 'Z')
                return false;
        return end > begin + 2;
    }

    std::size_t number(std::size_t begin)
    {
        const std::string& text = _speech.text;
        const char decimal = _lexicon.decimalSign();
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
        const bool fraction =
            (at(i) == decimal || (at(i) == ',' && decimal != '.')) && isDigit(at(i + 1));
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
        token.word = tenth == 0 && value <= 20 ? _lexicon.digitWord(int(value)) : 0;
        token.tenths = std::int32_t(value * 10 + tenth);
        if (at(i) == 's' && !isLetter(at(i + 1))) {
            token.several = true;
            ++i;
        }
        return i;
    }

    Speech& _speech;
    const Lexicon& _lexicon;
    std::string _lower;
    std::string _voice;
    std::size_t _stops = 0;
    std::size_t _begin = 0;
    Break _break = Break::None;
    bool _paragraph = false;
    bool _turn = false;
    bool _money = false;
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
