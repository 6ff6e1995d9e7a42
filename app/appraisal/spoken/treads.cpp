// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "appraisal/spoken/discourse.h"

#include <algorithm>

namespace ramplight::spoken {

namespace {

constexpr int limitTenths = 16; ///< what "on the limit" means
constexpr int leastTenths = 3;
constexpr int mostTenths = 120;

bool isRolling(Place place)
{
    const PlaceKind kind = allPlaces()[std::size_t(place)].kind;
    return kind == PlaceKind::Tyre || kind == PlaceKind::Wheel;
}

} // namespace

/// Whether a number alone would be a depth here.
bool Discourse::tyreTalk() const
{
    if (m_focus.base >= 0 && !m_focus.places.empty())
        return m_lexicon.base(m_focus.base).kind == "tyre";
    return false;
}

/// "one of these", "that one's finished": no number.
bool Discourse::isPronoun(std::size_t i) const
{
    const auto& tokens = m_speech.tokens;
    const std::uint32_t at = m_items[i].first;
    if (tokens[at].word == 0 || tokens[at].word != m_lexicon.oneWord())
        return false;
    if (at + 1 < tokens.size() && tokens[at + 1].before == Break::None &&
        m_lexicon.isGlue(tokens[at + 1].word) && m_lexicon.wordIs(tokens[at + 1].word, Cue::On))
        return true;
    return at > 0 && tokens[at].before == Break::None &&
           (m_lexicon.isArticle(tokens[at - 1].word) ||
            m_lexicon.wordIs(tokens[at - 1].word, Cue::It));
}

/// What follows a number says that it counts something else.
bool Discourse::countsOther(std::size_t i) const
{
    const Item* next = at(i + 1);
    if (next == nullptr || next->first - m_items[i].last > 2 || next->before != Break::None)
        return false;
    return next->is(Cue::Unit) || next->is(Cue::New) || next->is(Cue::Months) ||
           next->is(Cue::Years) || next->is(Cue::Miles) || next->is(Cue::Kilometres) ||
           next->is(Cue::Keys) || next->is(Cue::Stamps) || next->is(Cue::Owners) ||
           (next->kind == Item::Kind::Condition && next->extra == 0) ||
           next->kind == Item::Kind::Remedy ||
           (next->kind == Item::Kind::Place && next->lead == Lead::None &&
            next->first - m_items[i].last == 1 && naming(*next).base >= 0);
}

/// "five, no, I read the wrong scale, it is three": what was said up to a token is replaced.
bool Discourse::takenBackSince(std::uint32_t token, std::size_t i) const
{
    for (std::size_t k = i; k-- > 0 && m_items[k].last > token && m_items[i].first - token <= 25;)
        if (m_items[k].is(Cue::Correction) ||
            (m_items[k].is(Cue::No) && m_items[k + 1].kind != Item::Kind::Condition))
            return true;
    return false;
}

/// "five front, four rear": the depth comes first. Not where the place belongs to the next number.
bool Discourse::placeFollows(std::size_t i, std::size_t behind) const
{
    const Item* place = at(behind);
    if (place == nullptr || place->kind != Item::Kind::Place || place->before != Break::None ||
        place->lead != Lead::None || place->first != m_items[behind - 1].last + 1 ||
        place->andBefore)
        return false;
    const Naming& it = naming(*place);
    if (it.base >= 0 || it.amountSaid || it.one || it.positions.front().axle == Axle::None)
        return false;
    const Item* after = at(behind + 1);
    const bool own = speaks(behind) || (after != nullptr && after->kind == Item::Kind::Number &&
                                        after->before != Break::Strong);
    if (m_focus.depthFirst || (!m_focus.axled && m_focus.statements == 0))
        return true;
    return !own && m_focus.statements > 0 && i > 0 && m_items[i - 1].last + 2 < m_items[i].first;
}

/// "five and four, front and rear": each depth to its place.
bool Discourse::sharedOut(std::size_t i)
{
    std::vector<std::size_t> numbers;
    std::size_t k = i;
    for (; k < m_items.size() && k <= i + 5; ++k) {
        if (k > i &&
            (m_items[k].before == Break::Strong || m_items[k].first - m_items[k - 1].last > 2))
            return false;
        if (m_items[k].kind == Item::Kind::Number)
            numbers.push_back(k);
        else if (m_items[k].is(Cue::To) &&
                 m_lexicon.wordIs(m_speech.tokens[m_items[k].first].word, Cue::And))
            continue;
        else if (!m_items[k].is(Cue::Depth))
            break;
    }
    if (numbers.size() != 2 || k >= m_items.size() || m_items[k].kind != Item::Kind::Place)
        return false;
    const Naming& both = naming(m_items[k]);
    if (both.positions.size() != 2 || both.amountSaid ||
        (both.base >= 0 && m_lexicon.base(both.base).kind != "tyre"))
        return false;
    for (std::size_t n = 0; n < 2; ++n) {
        Naming one = both;
        one.positions = {both.positions[n]};
        one.base = m_lexicon.baseNamed("tyre");
        one.several = one.several || !m_along;
        const Resolved resolved = resolve(one);
        const int tenths = m_items[numbers[n]].id;
        if (!resolved.places.empty() && tenths >= leastTenths && tenths <= mostTenths)
            addTread(resolved.places, tenths, tenths, numbers[n]);
    }
    for (std::size_t n = i + 1; n <= k; ++n)
        m_taken[n] = 1;
    return true;
}

void Discourse::addTread(const std::vector<Place>& places, int low, int high, std::size_t i)
{
    const Item& item = m_items[i];
    const bool refused = i > 0 &&
                         (m_items[i - 1].is(Cue::No) || m_items[i - 1].is(Cue::Correction)) &&
                         item.first - m_items[i - 1].last <= 3;
    const bool instead = refused || (m_corrected && item.first - m_correctedAt <= 12);
    for (const Place place : places) {
        auto known = std::ranges::find(m_treads, place, &Tread::place);
        if (known == m_treads.end()) {
            const std::uint32_t first =
                item.first - m_focus.first < 25 ? m_focus.first : item.first;
            m_treads.push_back({place, low, high, m_run, places.size(), first, item.last});
            continue;
        }
        if (known->run != m_run || instead || takenBackSince(known->last, i) ||
            known->among > places.size()) {
            known->low = low;
            known->high = high;
        } else {
            known->low = std::min(known->low, low);
            known->high = std::max(known->high, high);
        }
        known->run = m_run;
        known->among = places.size();
        known->last = item.last;
    }
    if (instead)
        m_corrected = false;
    int shownLow = low;
    int shownHigh = high;
    if (!places.empty())
        if (const auto known = std::ranges::find(m_treads, places.front(), &Tread::place);
            known != m_treads.end()) {
            shownLow = known->low;
            shownHigh = known->high;
        }
    // A tyre on the limit that is also a finding is the same again in both respects.
    const bool also = m_stated.kind == Stated::Kind::Finding && m_stated.places == places;
    if (!also)
        m_stated = {Stated::Kind::Tread, places, {}, shownLow, shownHigh, item.last};
    ++m_focus.statements;
    m_focus.last = std::max(m_focus.last, item.last);
    for (const Place place : places)
        m_mentioned[std::size_t(place)] = 1;
}

void Discourse::onNumber(std::size_t i)
{
    const Item& item = m_items[i];
    const bool limit = item.is(Cue::Limit);
    const int tenths = limit ? limitTenths : item.id;
    const Item* next = at(i + 1);
    std::size_t behind = i + 1;
    bool millimetres = limit;
    if (next != nullptr && next->is(Cue::Depth) && next->first - item.last <= 2 &&
        next->before != Break::Strong) {
        millimetres = true;
        ++behind;
    }
    // "5 to 6 mil": the unit comes behind the second.
    if (!millimetres && next != nullptr && next->first - item.last <= 3 && !tyreTalk()) {
        std::size_t k = i + 1;
        while (k < m_items.size() && k <= i + 3 &&
               (m_items[k].kind == Item::Kind::Number || m_items[k].is(Cue::To)))
            ++k;
        millimetres = k > i + 1 && k < m_items.size() && m_items[k].is(Cue::Depth);
    }
    if (tenths < leastTenths || tenths > mostTenths)
        return;
    // "one eighty each": a price
    if (!millimetres && next != nullptr && next->kind == Item::Kind::Number &&
        next->first == item.last + 1 && next->before == Break::None && next->id >= 200)
        return;
    if (!millimetres && !limit) {
        if (!tyreTalk())
            return;
        if (countsOther(i) || isPronoun(i))
            return;
        // "the rear's a funny one": the word alone is hardly ever a depth
        const Item* before = i > 0 ? &m_items[i - 1] : nullptr;
        if (!limit && item.id == 10 && m_speech.tokens[item.first].word == m_lexicon.oneWord() &&
            !(next != nullptr && next->kind == Item::Kind::Number &&
              next->first - item.last <= 4) &&
            !(before != nullptr && before->kind == Item::Kind::Number &&
              item.first - before->last <= 4) &&
            !(next != nullptr && next->is(Cue::Inside)))
            return;
    }
    if (tyreTalk() && !isSupposed(i) && sharedOut(i))
        return;
    std::vector<Place> places;
    const Item* place = at(behind);
    const bool depthFirst = tyreTalk() && placeFollows(i, behind);
    if (depthFirst ||
        (place != nullptr && place->kind == Item::Kind::Place && place->lead == Lead::On &&
         place->before != Break::Strong && place->first - item.last <= 4)) {
        Naming it = naming(*place);
        if (depthFirst && !it.positions.front().sideSaid && !m_along)
            it.several = true;
        const bool echo = it.base >= 0 && !m_focus.places.empty() &&
                          m_lexicon.base(it.base).kind == "tyre" &&
                          !it.positions.front().sideSaid && it.positions.front().axle == Axle::None;
        if (it.base < 0 && (m_focus.base >= 0 || millimetres) && !tellsApart(m_topic, it))
            it.base = m_lexicon.baseNamed("tyre");
        const Resolved resolved = echo ? Resolved{} : resolve(it);
        if (echo)
            m_taken[behind] = 1;
        if (!resolved.places.empty() && std::ranges::all_of(resolved.places, isRolling)) {
            m_taken[behind] = 1;
            carry(it, resolved);
            setFocus(behind, resolved, false);
            m_focus.depthFirst = depthFirst;
            places = resolved.places;
        }
    }
    if (places.empty()) {
        if (!fresh(item.first, 30))
            return;
        places = m_focus.places;
    }
    if (!std::ranges::all_of(places, isRolling) || isSupposed(i))
        return;
    // A bare number said of all tyres, when each has been measured, is about something else.
    if (!millimetres && places.size() > 2 && std::ranges::any_of(m_treads, [&](const Tread& tread) {
            return tread.among < places.size() && tread.run != m_run &&
                   std::ranges::find(places, tread.place) != places.end();
        }))
        return;
    addTread(through(places, true), tenths, tenths, i);
}

} // namespace ramplight::spoken
