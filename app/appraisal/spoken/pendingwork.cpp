// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "appraisal/spoken/discourse.h"

#include <algorithm>

// Work that was said before its finding, or without one.
namespace ramplight::spoken {

/// Work that was said before its finding.
void Discourse::claimPending(std::size_t index)
{
    Draft& draft = m_drafts[index];
    for (std::size_t k = m_pending.size(); k-- > 0;) {
        PendingWork& work = m_pending[k];
        if (work.token + 80 < draft.last)
            break;
        if (draft.first > work.token + 30 || draft.last < work.first)
            continue;
        const bool fits =
            work.places.empty()
                ? draft.last - work.token <= 12 && !work.used && work.sentence == m_sentence
                : std::ranges::find(work.places, draft.place) != work.places.end();
        // "new rollers, they're worn. And there's a dent as well": of the first
        const bool other = work.statement != 0 && work.statement != m_statement && !work.named;
        if (!fits || other || !draft.remedies.empty())
            continue;
        draft.remedies = work.ids;
        work.used = true;
        work.statement = m_statement;
    }
}

/// Where only the work was said: "two new tyres on the front".
void Discourse::implyFindings()
{
    std::vector<char> found(allPlaces().size(), 0);
    for (const Draft& draft : m_drafts)
        if (draft.alive)
            found[std::size_t(draft.place)] = 1;
    for (const PendingWork& work : m_pending) {
        if (work.used || work.base < 0)
            continue;
        const Base& base = m_lexicon.base(work.base);
        for (const Implied& implied : m_lexicon.implied()) {
            if (implied.what != base.name && implied.what != base.kind)
                continue;
            if (std::ranges::find(work.ids, implied.remedy) == work.ids.end())
                continue;
            for (const Place place : work.places) {
                if ((m_sound[std::size_t(place)] != 0 && !work.named) ||
                    found[std::size_t(place)] != 0)
                    continue;
                Draft draft;
                draft.place = place;
                draft.condition = implied.condition;
                draft.remedies = work.ids;
                draft.first = work.first;
                draft.last = work.token;
                draft.doubt = 0.3;
                (void)keep(draft);
                found[std::size_t(place)] = 1;
            }
            break;
        }
    }
}

} // namespace ramplight::spoken
