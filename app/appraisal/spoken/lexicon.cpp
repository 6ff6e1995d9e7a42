// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "appraisal/spoken/lexicon.h"

#include <algorithm>

namespace ramplight::spoken {

WordId Lexicon::word(std::string_view text) const
{
    const auto it = m_words.find(text);
    return it == m_words.end() ? 0 : it->second;
}

std::span<const WordId> Lexicon::rewrite(std::string_view text) const
{
    const auto it = m_rewrites.find(text);
    if (it == m_rewrites.end())
        return {};
    return it->second;
}

const NumberWord* Lexicon::number(WordId word) const
{
    return word < m_numbers.size() && m_numbers[word] ? &*m_numbers[word] : nullptr;
}

WordId Lexicon::digitWord(int value) const
{
    return value >= 0 && std::size_t(value) < m_digits.size() ? m_digits[std::size_t(value)] : 0;
}

std::span<const Slip> Lexicon::slips(WordId word) const
{
    if (word == 0)
        return {};
    const auto it = m_slips.find(word);
    if (it == m_slips.end())
        return {};
    return it->second;
}

bool Lexicon::isArticle(WordId word) const
{
    return word != 0 && word < m_articles.size() && m_articles[word];
}

bool Lexicon::isOnes(WordId word) const
{
    return word != 0 && word < m_ones.size() && m_ones[word];
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
    return word != 0 && word < m_fillers.size() && m_fillers[word];
}

bool Lexicon::isGlue(WordId word) const
{
    return word != 0 && word < m_glue.size() && m_glue[word];
}

int Lexicon::step(int node, WordId word) const
{
    const auto it = m_steps.find((std::uint64_t(unsigned(node)) << 32) | word);
    return it == m_steps.end() ? -1 : it->second;
}

std::span<const Sense> Lexicon::senses(int node) const
{
    return m_senses[std::size_t(node)];
}

int Lexicon::baseNamed(std::string_view name) const
{
    const auto it = std::ranges::find(m_bases, name, &Base::name);
    return it == m_bases.end() ? -1 : int(it - m_bases.begin());
}

} // namespace ramplight::spoken
