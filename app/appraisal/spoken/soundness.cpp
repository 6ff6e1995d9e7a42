// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "appraisal/spoken/discourse.h"

#include <algorithm>

// Praise, and what is taken back.
namespace ramplight::spoken {

void Discourse::sayNothingWrong(const std::vector<Place>& places, std::uint32_t token)
{
    for (const Place place : places) {
        m_sound[std::size_t(place)] = int(token) + 1;
        m_mentioned[std::size_t(place)] = 1;
    }
    m_stated = {Stated::Kind::Sound, places, {}, 0, 0, token};
    ++m_focus.statements;
    m_focus.last = std::max(m_focus.last, token);
    m_asked.open = false;
}

/// "All fine: gearbox, brakes, steering.": places listed behind praise, up to the stop.
void Discourse::praiseList(std::size_t i)
{
    std::size_t end = i + 1;
    while (end < m_items.size() && m_items[end].kind == Item::Kind::Place &&
           m_items[end].before != Break::Strong && !m_items[end].turn &&
           naming(m_items[end]).base >= 0 && m_items[end].lead == Lead::None && !speaks(end) &&
           (m_items[end].before == Break::Weak || m_items[end].andBefore) &&
           m_items[end].first - m_items[end - 1].last <= 4)
        ++end;
    const bool closed = end == m_items.size() || m_items[end].before == Break::Strong;
    if (!m_speech.punctuated || end - i < 3 || !closed)
        return;
    for (std::size_t k = i + 1; k < end; ++k) {
        const Resolved resolved = resolve(naming(m_items[k]));
        for (const Place place : resolved.places) {
            m_sound[std::size_t(place)] = int(m_items[k].last) + 1;
            m_mentioned[std::size_t(place)] = 1;
        }
        m_taken[k] = 1;
    }
}

void Discourse::onSound(std::size_t i)
{
    const Item& item = m_items[i];
    if (item.extra > 0) {
        // A word that is praise or work: work, where a defect waits for it or it is wanted.
        const bool waits = std::ranges::any_of(m_drafts, [&](const Draft& draft) {
            return draft.alive && draft.run == m_run && draft.remedies.empty();
        });
        if (isNegated(i))
            return;
        if (m_asked.open && item.first - m_items[m_asked.item].last <= 12 && !isAsked(i)) {
            m_asked.open = false;
            addFindings(m_asked.item, m_asked.places, m_lexicon.condition(m_items[m_asked.item].id),
                        0.2);
            applyRemedy(i, m_lexicon.remedy(item.extra - 1).ids, 0);
            return;
        }
        if (wantedBefore(i) || waits) {
            applyRemedy(i, m_lexicon.remedy(item.extra - 1).ids, 0);
            return;
        }
    }
    if (item.first < m_asideUntil && item.before == Break::None)
        return;
    if (item.is(Cue::Working) && isAsked(i) && !m_focus.places.empty() && fresh(item.first, 8)) {
        m_askedWorking = m_focus.base >= 0 && m_lexicon.base(m_focus.base).workBase >= 0
                             ? placesOf(m_lexicon.base(m_focus.base).workBase)
                             : m_focus.places;
        return;
    }
    if (isSupposed(i) || cueBefore(m_items, i, Cue::Equipment, 8) || isNegated(i))
        return;
    // "the rest are eight okay tailgate handle's busted": only a turn to the next place
    if (const Item* next = at(i + 1);
        !m_speech.punctuated && item.first == item.last &&
        m_lexicon.wordIs(m_speech.tokens[item.first].word, Cue::Talk) && m_focus.statements > 0 &&
        next != nullptr && next->kind == Item::Kind::Place && next->first == item.last + 1 &&
        naming(*next).base >= 0)
        return;
    praiseList(i);
    const std::size_t behind = placeBehind(i, true);
    std::vector<Place> places;
    int base = m_focus.base;
    if (behind != 0) {
        const Resolved resolved = resolve(naming(m_items[behind]));
        if (!resolved.places.empty()) {
            m_taken[behind] = 1;
            carry(naming(m_items[behind]), resolved);
            if (naming(m_items[behind]).base >= 0)
                m_topic = topicOf(resolved.base);
            setFocus(behind, resolved, false);
            places = resolved.places;
            base = resolved.base;
        }
    }
    if (places.empty()) {
        if (!fresh(item.first, 14))
            return;
        places = m_focus.places;
    }
    if (base >= 0) {
        const Base& it = m_lexicon.base(base);
        if (it.insideBase >= 0 && (m_inside || item.is(Cue::Tidy)))
            places = placesOf(it.insideBase);
        if (it.workBase >= 0 && item.is(Cue::Working))
            places = placesOf(it.workBase);
        // "So the quarter's fine": named again, it takes back what was only half said.
        const bool takenBack =
            m_retractedAt != 0 && item.first - m_retractedAt <= 25 && m_run - m_retractedRun <= 1;
        if (m_focus.statements == 0 || takenBack)
            for (Draft& draft : m_drafts)
                if (draft.alive && (draft.remedies.empty() || draft.borrowed) &&
                    draft.statement != 0 && item.first - draft.last <= 60 &&
                    std::ranges::find(places, draft.place) != places.end())
                    draft.alive = false;
    }
    // "It's fine" behind a question or a doubt answers it.
    sayNothingWrong(places, item.last);
}

/// What the age explains is no finding: the last one, if nobody wants work on it.
void Discourse::onNormal(std::size_t i)
{
    const Item& item = m_items[i];
    if (isSupposed(i))
        return;
    std::vector<Place> places;
    for (Draft& draft : m_drafts)
        if (draft.alive && draft.statement == m_statement && draft.run == m_run &&
            draft.remedies.empty() && item.first - draft.last <= 22) {
            draft.alive = false;
            places.push_back(draft.place);
        }
    if (places.empty() && fresh(item.first, 10))
        places = m_focus.places;
    if (!places.empty())
        sayNothingWrong(places, item.last);
}

/// "No, that has wiped off": the last finding was none. A bare "no" counts only where it closes
/// what was just said.
void Discourse::retract(std::size_t i, bool certain)
{
    const Item& item = m_items[i];
    if (certain) {
        m_retractedAt = item.last;
        m_retractedRun = m_run;
    }
    if (m_asked.open) {
        m_asked.open = false;
        sayNothingWrong(m_asked.places, item.last);
        return;
    }
    if (!certain) {
        const Item* next = at(i + 1);
        const bool closed =
            next == nullptr || next->before == Break::Strong ||
            (next->before == Break::Weak && (next->is(Cue::No) || next->is(Cue::Retraction) ||
                                             next->is(Cue::Sound) || next->is(Cue::It) ||
                                             (next->is(Cue::Correction) && at(i + 2) != nullptr &&
                                              at(i + 2)->kind == Item::Kind::Cue)));
        const Item* before = i > 0 ? &m_items[i - 1] : nullptr;
        if (!closed || before == nullptr || before->kind != Item::Kind::Condition ||
            item.first - before->last > 8)
            return;
    }
    const std::uint32_t reach = certain ? 45 : 10;
    std::vector<Place> places;
    for (Draft& draft : m_drafts)
        if (justSaid(draft) && item.first - draft.last <= reach && draft.remedies.empty() &&
            !(certain && draft.condition == Condition::Dirty)) {
            draft.alive = false;
            places.push_back(draft.place);
        }
    // "I thought that was damage but it's only dirt"
    if (places.empty() && certain && m_supposedAt != 0 && item.first - m_supposedAt <= 15)
        places = m_supposed;
    else if (places.empty() && certain && fresh(item.first, 14))
        for (std::size_t k = i; k-- > 0 && i - k <= 5 && m_items[k + 1].before != Break::Strong;)
            if (m_items[k].is(Cue::Supposed))
                places = m_focus.places;
    if (!places.empty())
        sayNothingWrong(places, item.last);
}

} // namespace ramplight::spoken
