// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "appraisal/spoken/discourse.h"

#include <algorithm>
#include <utility>

// What a place does to the statement before it: it narrows, widens, moves or extends that, or is
// excepted from it.
namespace ramplight::spoken {

/// "Two trims missing, both on the near side": of those just found only the ones there.
bool Discourse::narrows(std::size_t i)
{
    const Item& item = m_items[i];
    const Naming& it = naming(item);
    if (it.base >= 0 || !it.amountSaid || it.amount != Amount::Both ||
        !it.positions.front().sideSaid || item.before == Break::Strong ||
        m_stated.kind != Stated::Kind::Finding || item.first - m_stated.last > 6 || speaks(i) ||
        m_focus.base < 0 || !tellsApart(m_focus.base, it))
        return false;
    Naming meant = it;
    meant.base = m_focus.base;
    const std::vector<Place> there = resolve(meant).places;
    const auto stays = [&](Place place) { return std::ranges::find(there, place) != there.end(); };
    if (!std::ranges::any_of(m_stated.places, stays))
        return false;
    for (const std::size_t d : m_stated.drafts)
        if (!stays(m_drafts[d].place))
            m_drafts[d].alive = false;
    std::erase_if(m_stated.drafts, [&](std::size_t d) { return !m_drafts[d].alive; });
    std::erase_if(m_stated.places, [&](Place place) { return !stays(place); });
    m_focus.places = m_stated.places;
    m_focus.last = item.last;
    return true;
}

/// "The carpet's good, front and back": what was said of one holds for its like.
bool Discourse::widens(std::size_t i)
{
    const Item& item = m_items[i];
    const Naming& it = naming(item);
    const auto axle = [&](Axle which) {
        return std::ranges::any_of(it.positions,
                                   [&](const Position& p) { return p.axle == which; });
    };
    if (it.base >= 0 || it.amountSaid || it.positions.size() != 2 || !axle(Axle::Front) ||
        !axle(Axle::Rear) || item.before == Break::Strong || m_focus.base < 0 ||
        m_focus.statements == 0 || item.first - m_focus.last > 4 || speaks(i) ||
        !m_lexicon.base(m_focus.base).axles)
        return false;
    Naming meant = it;
    meant.base = m_focus.base;
    meant.several = m_focus.several;
    const std::vector<Place> all = resolve(meant).places;
    if (m_stated.kind == Stated::Kind::Sound) {
        sayNothingWrong(all, item.last);
    } else if (m_stated.kind == Stated::Kind::Finding) {
        const std::vector<std::size_t> said = m_stated.drafts;
        for (const std::size_t d : said)
            for (const Place place : all) {
                Draft copy = m_drafts[d];
                const bool known = std::ranges::any_of(m_drafts, [&](const Draft& draft) {
                    return draft.alive && draft.place == place && draft.condition == copy.condition;
                });
                if (!copy.alive || known)
                    continue;
                copy.place = place;
                copy.last = item.last;
                m_stated.drafts.push_back(keep(copy));
                m_stated.places.push_back(place);
            }
    } else {
        return false;
    }
    for (const Place place : all)
        m_mentioned[std::size_t(place)] = 1;
    m_focus.places = all;
    m_focus.several = true;
    m_focus.last = item.last;
    return true;
}

bool Discourse::justSaid(const Draft& draft) const
{
    return draft.alive && draft.run == m_run && draft.statement == m_statement;
}

/// The place becomes what is spoken of, and the draft is on it.
void Discourse::rehang(Draft& draft, std::size_t i, const Resolved& resolved)
{
    carry(naming(m_items[i]), resolved);
    setFocus(i, resolved, false);
    draft.place = resolved.places.front();
    draft.run = m_run;
    draft.last = m_items[i].last;
    ++m_focus.statements;
}

/// "by the, hmm, it is on the arch itself": what waits for its work was put in the wrong place.
bool Discourse::movesTo(std::size_t i)
{
    const Item& item = m_items[i];
    if (item.lead != Lead::On || item.before != Break::None || naming(item).base < 0 || i == 0 ||
        !m_items[i - 1].is(Cue::It) || item.first - m_items[i - 1].last > 5 ||
        m_items[i - 1].before == Break::None || speaks(i))
        return false;
    bool is = false;
    for (std::uint32_t t = m_items[i - 1].last + 1; t < item.first; ++t)
        is = is || m_lexicon.wordIs(m_speech.tokens[t].word, Cue::Is);
    const Resolved resolved = resolve(naming(item));
    if (!is || resolved.places.size() != 1 || resolved.base == m_focus.base)
        return false;
    for (Draft& draft : m_drafts)
        if (justSaid(draft) && draft.remedies.empty() && item.first - draft.last <= 12) {
            rehang(draft, i, resolved);
            return true;
        }
    return false;
}

/// "There's an oil leak, so engine bay": the place that a finding is put down under.
bool Discourse::filedUnder(std::size_t i)
{
    const Item& item = m_items[i];
    if (i == 0 || !m_items[i - 1].is(Cue::So) || item.first - m_items[i - 1].last > 2 ||
        item.before == Break::Strong || naming(item).base < 0 || speaks(i))
        return false;
    const Resolved resolved = resolve(naming(item));
    if (resolved.places.size() != 1 || resolved.places == m_focus.places)
        return false;
    const auto system = [](Place place) {
        const PlaceKind kind = allPlaces()[std::size_t(place)].kind;
        return kind == PlaceKind::Drivetrain || kind == PlaceKind::Steering ||
               kind == PlaceKind::Suspension || kind == PlaceKind::Electrical;
    };
    for (Draft& draft : m_drafts)
        if (justSaid(draft) && draft.remedies.empty() && item.first - draft.last <= 25 &&
            system(draft.place) && system(resolved.places.front())) {
            rehang(draft, i, resolved);
            return true;
        }
    return false;
}

/// "sap all over the roof and all over the bonnet", "chips on the bonnet and the roof": another
/// place of the statement before, when nothing of its own follows.
bool Discourse::extends(std::size_t i) const
{
    const Item& item = m_items[i];
    if (i == 0 || !item.andBefore || item.before == Break::Strong || m_taken[i - 1] == 0 ||
        m_items[i - 1].kind != Item::Kind::Place || naming(item).base < 0 ||
        m_stated.kind != Stated::Kind::Finding || item.first - m_items[i - 1].last > 5)
        return false;
    return !speaks(i);
}

void Discourse::extend(std::size_t i)
{
    const Resolved resolved = resolve(naming(m_items[i]));
    carry(naming(m_items[i]), resolved);
    const std::vector<std::size_t> said = m_stated.drafts;
    for (const std::size_t d : said)
        for (const Place place : resolved.places) {
            Draft copy = m_drafts[d];
            if (!copy.alive || copy.place == place)
                continue;
            copy.place = place;
            copy.last = m_items[i].last;
            copy.count = {};
            m_stated.drafts.push_back(keep(copy));
            m_stated.places.push_back(place);
            m_mentioned[std::size_t(place)] = 1;
        }
    m_focus.places.insert(m_focus.places.end(), resolved.places.begin(), resolved.places.end());
    m_focus.last = m_items[i].last;
}

void Discourse::except(std::size_t i)
{
    // All places named right behind are out.
    std::vector<Place> out;
    std::size_t k = i + 1;
    for (; k < m_items.size() && m_items[k].kind == Item::Kind::Place &&
           m_items[k].before != Break::Strong;
         ++k) {
        const Resolved resolved = resolve(naming(m_items[k]));
        if (resolved.places.empty()) {
            // One of what is one place here: the windows but for one.
            m_taken[k] = 1;
            m_focus.last = m_items[k].last;
            break;
        }
        out.insert(out.end(), resolved.places.begin(), resolved.places.end());
        carry(naming(m_items[k]), resolved);
        m_taken[k] = 1;
        setFocus(k, resolved, false);
        --m_run;
    }
    if (out.empty())
        return;
    bool dropped = false;
    for (Draft& draft : m_drafts)
        if (draft.statement == m_statement && m_stated.kind == Stated::Kind::Finding &&
            std::ranges::find(out, draft.place) != out.end()) {
            draft.alive = false;
            dropped = true;
        }
    for (const Place place : out)
        m_sound[std::size_t(place)] = dropped ? int(m_items[i].first) + 1 : 0;
    m_focus.statements = dropped ? 1 : 0;
}

} // namespace ramplight::spoken
