// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "appraisal/spoken/discourse.h"

#include <algorithm>

// How a statement is meant: denied, supposed, asked for, of another time.
namespace ramplight::spoken {

/// A cue of this kind before the item, in the same sentence and near.
bool cueBefore(const std::vector<Item>& items, std::size_t i, Cue cue, std::uint32_t reach)
{
    const std::uint32_t token = items[i].first;
    for (std::size_t k = i; k-- > 0 && i - k <= 8;) {
        const Item& behind = items[k + 1];
        if (behind.before == Break::Strong || behind.turn || behind.butBefore)
            return false;
        if (token - items[k].last > reach)
            return false;
        // "might be the chain, so get it checked": what follows is meant
        if ((cue == Cue::Supposed || cue == Cue::History) && items[k].is(Cue::So))
            return false;
        if (items[k].is(cue))
            return true;
    }
    return false;
}

/// "no dents", "not a mark", "without any chips or scratches".
/// "none of them broke the paint": what is denied follows.
bool Discourse::isOfThem(const Item& none) const
{
    const std::uint32_t behind = none.last + 1;
    return behind < m_speech.tokens.size() && m_speech.tokens[behind].before == Break::None &&
           m_lexicon.isGlue(m_speech.tokens[behind].word);
}

bool Discourse::isNegated(std::size_t i) const
{
    const Item* item = &m_items[i];
    // Behind: "scratches, none".
    if (const Item* next = at(i + 1);
        next != nullptr && next->is(Cue::None) && next->first - item->last <= 2 && !isOfThem(*next))
        return true;
    for (std::size_t k = i; k-- > 0;) {
        const Item& before = m_items[k];
        const bool linked = item->orBefore || (item->before != Break::Strong &&
                                               before.kind == Item::Kind::Condition &&
                                               item->kind == Item::Kind::Condition &&
                                               !(item->before == Break::Weak && item->extra == 1) &&
                                               item->first - before.last <= 2 && !item->butBefore);
        if (item->before == Break::Strong || item->turn || item->butBefore ||
            (m_items[i].kind == Item::Kind::Remedy && item->andBefore))
            return false;
        // "oh no, dog hair" denies nothing
        if (before.is(Cue::So))
            return false;
        if (before.is(Cue::No) && before.last != before.first)
            return false;
        if (before.is(Cue::Negation) || before.is(Cue::No))
            return item->before == Break::None && item->first - before.last <= 6;
        if (before.kind == Item::Kind::Condition) {
            if (!linked)
                return false;
        } else if (before.kind != Item::Kind::Severity && before.kind != Item::Kind::Number &&
                   !before.is(Cue::Any) && !before.is(Cue::Want) && !before.is(Cue::Another) &&
                   !before.is(Cue::It) && !before.is(Cue::Them)) {
            return false;
        } else if (item->before == Break::Weak) {
            return false;
        }
        item = &before;
        if (i - k > 6)
            return false;
    }
    return false;
}

bool Discourse::isSupposed(std::size_t i) const
{
    return cueBefore(m_items, i, Cue::Supposed, m_speech.punctuated ? 18 : 9);
}

bool Discourse::isHistory(std::size_t i) const
{
    if (cueBefore(m_items, i, Cue::History, 7))
        return true;
    const Item* next = at(i + 1);
    return next != nullptr && next->is(Cue::History) && next->before == Break::None &&
           next->first - m_items[i].last <= 4;
}

bool Discourse::isAsked(std::size_t i) const
{
    const auto& tokens = m_speech.tokens;
    if (cueBefore(m_items, i, Cue::Any, 4))
        return true;
    // "a big one is that, so ..." asks nothing
    for (std::size_t k = i; k-- > 0 && i - k <= 6 && m_items[k + 1].before != Break::Strong &&
                            !m_items[k + 1].turn && m_items[i].first - m_items[k].last <= 8;)
        if (m_items[k].is(Cue::Question))
            return tokens[m_items[k].last + 1].before == Break::None;
    // "it's peeling, so new plate?": the work is asked for, not the defect
    if (m_items[i].kind == Item::Kind::Condition)
        for (std::size_t k = i + 1;
             k < m_items.size() && k <= i + 4 && m_items[k].before != Break::Strong; ++k)
            if (m_items[k].kind == Item::Kind::Remedy || m_items[k].is(Cue::New) ||
                (m_items[k].kind == Item::Kind::Cue && m_items[k].extra > 0))
                return false;
    for (std::uint32_t t = m_items[i].last; t < tokens.size() && t < m_items[i].last + 14; ++t) {
        if (t > m_items[i].last && tokens[t].before == Break::Strong)
            return false;
        if (tokens[t].asks)
            return true;
    }
    return false;
}

int Discourse::countBefore(std::size_t i) const
{
    for (std::size_t k = i; k-- > 0 && i - k <= 2;) {
        const Item& before = m_items[k];
        if (m_items[i].first - before.last > 3 || m_items[k + 1].before == Break::Strong)
            return -1;
        if (before.kind == Item::Kind::Number)
            return before.id % 10 == 0 && before.id < 1000 ? before.id / 10 : -1;
        if (before.kind != Item::Kind::Severity)
            return -1;
    }
    return -1;
}

} // namespace ramplight::spoken
