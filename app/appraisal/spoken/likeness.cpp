// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "appraisal/spoken/discourse.h"

#include <algorithm>

// "The same", "another one": what was said of one place holds for the next.
namespace ramplight::spoken {

/// "a scratch from the wing through both doors to the quarter": all of these places; nothing where
/// the statement names no stretch.
std::vector<Place> Discourse::stretch(std::size_t i)
{
    const auto belongs = [&](std::size_t k) {
        return k < m_items.size() && m_items[k].kind == Item::Kind::Place &&
               m_items[k].before != Break::Strong && m_items[k].first - m_items[k - 1].last <= 5 &&
               !speaks(k);
    };
    // "Quarter, a scratch from the flap to the bumper": these only say where on the quarter
    if (m_focus.statements == 0 && fresh(m_items[i].first, 12))
        return {};
    std::size_t end = i + 1;
    if (!belongs(end) || m_items[end].lead != Lead::From || m_items[end].before != Break::None)
        return {};
    bool reaches = false;
    for (++end; belongs(end); ++end) {
        const Naming& it = naming(m_items[end]);
        const Lead lead = m_items[end].lead;
        if (lead == Lead::None && !m_items[end].andBefore && m_items[end].before == Break::None)
            break;
        reaches = reaches || (it.base >= 0 && (lead == Lead::On || lead == Lead::Beside));
        if (it.positions.front().sideSaid)
            if (const auto side = sideOf(it.positions.front()))
                m_side = side;
    }
    if (!reaches)
        return {};
    const Side along = m_side.value_or(toSide(SideWord::Driver));
    std::vector<Place> places;
    for (std::size_t k = i + 1; k < end; ++k) {
        if (naming(m_items[k]).base < 0)
            continue;
        const Resolved resolved = resolve(naming(m_items[k]));
        for (const Place place : resolved.places)
            if (const Side its = allPlaces()[std::size_t(place)].side;
                its == Side::None || its == along)
                places.push_back(place);
        carry(naming(m_items[k]), resolved);
    }
    if (places.size() < 2)
        return {};
    for (std::size_t k = i + 1; k < end; ++k)
        m_taken[k] = 1;
    return places;
}

void Discourse::same(std::size_t i)
{
    const Item& item = m_items[i];
    const Item* next = at(i + 1);
    if (next != nullptr && next->kind == Item::Kind::Condition && next->first - item.last <= 2)
        return; // "the same scratch": the defect is said again
    if (m_stated.kind == Stated::Kind::Nothing || item.first - m_stated.last > 60)
        return;
    // "rear left, also": only behind a place of which nothing else is said
    const bool also =
        item.first == item.last && m_lexicon.wordIs(m_speech.tokens[item.first].word, Cue::Talk);
    if (also && (m_focus.statements > 0 || m_focus.places.empty() ||
                 m_focus.sentence != m_sentence || item.first - m_focus.last > 3 ||
                 item.before == Break::Strong || m_stated.kind != Stated::Kind::Finding ||
                 (next != nullptr && next->before != Break::Strong && !next->butBefore &&
                  next->first - item.last <= 6)))
        return;
    // "a dozen dings, pull them. Roof, five more, same remedy": of what waits for its work
    if (const std::vector<std::size_t> open = openDrafts(i, false);
        !also && m_focus.statements > 0 && !open.empty() && !m_lastWork.empty() &&
        item.before != Break::Strong &&
        (next == nullptr || next->kind != Item::Kind::Place || next->before == Break::Strong)) {
        for (const std::size_t d : open) {
            m_drafts[d].remedies = m_lastWork;
            m_drafts[d].borrowed = true;
            m_drafts[d].last = item.last;
        }
        return;
    }
    const Stated stated = m_stated;
    std::vector<Place> places;
    // "same as the front one" names what it is like, not what is spoken of.
    const bool likened = next != nullptr && next->kind == Item::Kind::Place &&
                         item.last > item.first &&
                         m_lexicon.wordIs(m_speech.tokens[item.last].word, Cue::Talk);
    if (likened)
        m_taken[i + 1] = 1;
    const std::size_t behind =
        next != nullptr && next->kind == Item::Kind::Place && next->before != Break::Strong &&
                next->first - item.last <= 5 &&
                (m_focus.statements > 0 || m_focus.places.empty()) && !likened
            ? i + 1
            : 0;
    if (behind != 0) {
        const Naming& it = naming(m_items[behind]);
        const bool otherSide =
            it.base < 0 && it.positions.front().sideSaid && it.positions.front().axle == Axle::None;
        Resolved resolved = resolve(it);
        if (otherSide) {
            const Side before = m_side.value_or(Side::None);
            std::vector<Place> mirror = mirrored(stated.places);
            if (!mirror.empty()) {
                resolved.places = mirror;
                resolved.base = m_topic >= 0 ? m_topic : m_focus.base;
            }
            // The walk itself stays on its side, unless the side is named.
            if (it.positions.front().side != SideWord::Other && before != Side::None)
                if (const auto side = sideOf(it.positions.front()))
                    m_side = side;
        }
        if (resolved.places.empty())
            return;
        m_taken[behind] = 1;
        if (!otherSide)
            carry(it, resolved);
        // "it runs through the front door, the back door, down to the quarter"
        for (std::size_t k = behind + 1;
             !otherSide && stated.kind == Stated::Kind::Finding && k < m_items.size() &&
             m_items[k].kind == Item::Kind::Place && m_items[k].before != Break::Strong &&
             m_items[k].first - m_items[k - 1].last <= 5 && naming(m_items[k]).base >= 0 &&
             !speaks(k);
             ++k) {
            for (const Place place : resolve(naming(m_items[k])).places)
                if (std::ranges::find(resolved.places, place) == resolved.places.end())
                    resolved.places.push_back(place);
            m_taken[k] = 1;
        }
        setFocus(behind, resolved, false);
        places = resolved.places;
    } else if (m_focus.statements == 0) {
        places = m_focus.places;
    }
    if (places.empty())
        return;
    ++m_focus.statements;
    m_focus.last = std::max(m_focus.last, item.last);
    switch (stated.kind) {
    case Stated::Kind::Sound:
        sayNothingWrong(places, item.last);
        break;
    case Stated::Kind::Tread:
        if (std::ranges::all_of(places, [](Place p) {
                return allPlaces()[std::size_t(p)].kind == PlaceKind::Tyre ||
                       allPlaces()[std::size_t(p)].kind == PlaceKind::Wheel;
            }))
            addTread(through(places, true), stated.low, stated.high, i);
        break;
    case Stated::Kind::Finding: {
        ++m_statement;
        std::vector<std::size_t> made;
        for (const std::size_t index : stated.drafts)
            for (const Place place : places) {
                Draft copy = m_drafts[index];
                const PlaceKind from = allPlaces()[std::size_t(copy.place)].kind;
                const PlaceKind to = allPlaces()[std::size_t(place)].kind;
                const bool rolling = from == PlaceKind::Tyre || to == PlaceKind::Tyre ||
                                     from == PlaceKind::Wheel || to == PlaceKind::Wheel;
                if (!copy.alive || copy.place == place || (rolling && from != to))
                    continue;
                copy.place = place;
                copy.first = m_focus.first;
                copy.last = item.last;
                copy.run = m_run;
                copy.statement = m_statement;
                copy.count = {};
                copy.borrowed = true;
                copy.doubt += 0.08;
                const bool known = std::ranges::any_of(m_drafts, [&](const Draft& draft) {
                    return draft.alive && draft.place == place && draft.condition == copy.condition;
                });
                if (known)
                    continue;
                made.push_back(keep(copy));
            }
        m_stated.drafts = made;
        m_stated.places = places;
        m_stated.last = item.last;
        break;
    }
    case Stated::Kind::Nothing:
        break;
    }
}

} // namespace ramplight::spoken
