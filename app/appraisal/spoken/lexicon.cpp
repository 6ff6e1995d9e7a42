// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "appraisal/spoken/lexicon.h"

#include <algorithm>

namespace ramplight::spoken {

WordId Lexicon::word(std::string_view text) const
{
    const auto it = _words.find(text);
    return it == _words.end() ? 0 : it->second;
}

std::span<const WordId> Lexicon::rewrite(std::string_view text) const
{
    const auto it = _rewrites.find(text);
    if (it == _rewrites.end())
        return {};
    return it->second;
}

const NumberWord* Lexicon::number(WordId word) const
{
    return word < _numbers.size() && _numbers[word] ? &*_numbers[word] : nullptr;
}

WordId Lexicon::digitWord(int value) const
{
    return value >= 0 && std::size_t(value) < _digits.size() ? _digits[std::size_t(value)] : 0;
}

std::span<const Slip> Lexicon::slips(WordId word) const
{
    if (word == 0)
        return {};
    const auto it = _slips.find(word);
    if (it == _slips.end())
        return {};
    return it->second;
}

bool Lexicon::isArticle(WordId word) const
{
    return word != 0 && word < _articles.size() && _articles[word];
}

bool Lexicon::isOnes(WordId word) const
{
    return word != 0 && word < _ones.size() && _ones[word];
}

bool Lexicon::wordIs(WordId word, Cue cue) const
{
    const int node = word == 0 ? -1 : step(0, word);
    if (node < 0)
        return false;
    for (const Sense& sense : senses(node))
        if (sense.kind == SenseKind::Cue && sense.id == int(cue))
            return true;
    return false;
}

bool Lexicon::isFiller(WordId word) const
{
    return word != 0 && word < _fillers.size() && _fillers[word];
}

bool Lexicon::isGlue(WordId word) const
{
    return word != 0 && word < _glue.size() && _glue[word];
}

int Lexicon::step(int node, WordId word) const
{
    const auto it = _steps.find((std::uint64_t(unsigned(node)) << 32) | word);
    return it == _steps.end() ? -1 : it->second;
}

std::span<const Sense> Lexicon::senses(int node) const
{
    return _senses[std::size_t(node)];
}

int Lexicon::baseNamed(std::string_view name) const
{
    const auto it = std::ranges::find(_bases, name, &Base::name);
    return it == _bases.end() ? -1 : int(it - _bases.begin());
}

} // namespace ramplight::spoken
