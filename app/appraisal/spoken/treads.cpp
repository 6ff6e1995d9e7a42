// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "appraisal/spoken/discourse.h"

#include <algorithm>

namespace ramplight::spoken {

namespace {

constexpr int limitTenths = 16; ///< what "on the limit" means
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
    if (_focus.base >= 0 && !_focus.places.empty())
        return _lexicon.base(_focus.base).kind == "tyre";
    return false;
}

void Discourse::addTread(const std::vector<Place>& places, int low, int high, std::size_t i)
{
    const Item& item = _items[i];
    const bool refused = i > 0 &&
                         (_items[i - 1].is(Cue::No) || _items[i - 1].is(Cue::Correction)) &&
                         item.first - _items[i - 1].last <= 3;
    const bool instead = refused || (_corrected && item.first - _correctedAt <= 12);
    for (const Place place : places) {
        auto known = std::ranges::find(_treads, place, &Tread::place);
        if (known == _treads.end()) {
            const std::uint32_t first = item.first - _focus.first < 25 ? _focus.first : item.first;
            _treads.push_back({place, low, high, _run, places.size(), first, item.last});
            continue;
        }
        if (known->run != _run || instead || known->among > places.size()) {
            known->low = low;
            known->high = high;
        } else {
            known->low = std::min(known->low, low);
            known->high = std::max(known->high, high);
        }
        known->run = _run;
        known->among = places.size();
        known->last = item.last;
    }
    if (instead)
        _corrected = false;
    int shownLow = low;
    int shownHigh = high;
    if (!places.empty())
        if (const auto known = std::ranges::find(_treads, places.front(), &Tread::place);
            known != _treads.end()) {
            shownLow = known->low;
            shownHigh = known->high;
        }
    // A tyre on the limit that is also a finding is the same again in both respects.
    const bool also = _stated.kind == Stated::Kind::Finding && _stated.places == places;
    if (!also)
        _stated = {Stated::Kind::Tread, places, {}, shownLow, shownHigh, item.last};
    ++_focus.statements;
    _focus.last = std::max(_focus.last, item.last);
    for (const Place place : places)
        _mentioned[std::size_t(place)] = 1;
}

void Discourse::onNumber(std::size_t i)
{
    const Item& item = _items[i];
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
        while (k < _items.size() && k <= i + 3 &&
               (_items[k].kind == Item::Kind::Number || _items[k].is(Cue::To)))
            ++k;
        millimetres = k > i + 1 && k < _items.size() && _items[k].is(Cue::Depth);
    }
    if (tenths < 3 || tenths > mostTenths)
        return;
    if (!millimetres && !limit) {
        if (!tyreTalk())
            return;
        if (next != nullptr && next->first - item.last <= 2 && next->before == Break::None) {
            const bool other = next->is(Cue::Unit) || next->is(Cue::New) || next->is(Cue::Months) ||
                               next->is(Cue::Years) || next->is(Cue::Miles) ||
                               next->is(Cue::Kilometres) || next->is(Cue::Keys) ||
                               next->is(Cue::Stamps) || next->is(Cue::Owners) ||
                               (next->kind == Item::Kind::Condition && next->extra == 0) ||
                               next->kind == Item::Kind::Remedy ||
                               (next->kind == Item::Kind::Place && next->lead == Lead::None &&
                                next->first - item.last == 1 && naming(*next).base >= 0);
            if (other)
                return;
        }
        // "the rear's a funny one": the word alone is hardly ever a depth
        const Item* before = i > 0 ? &_items[i - 1] : nullptr;
        if (!limit && item.id == 10 && _speech.tokens[item.first].word == _lexicon.oneWord() &&
            !(next != nullptr && next->kind == Item::Kind::Number &&
              next->first - item.last <= 4) &&
            !(before != nullptr && before->kind == Item::Kind::Number &&
              item.first - before->last <= 4) &&
            !(next != nullptr && next->is(Cue::Inside)))
            return;
    }
    std::vector<Place> places;
    const Item* place = at(behind);
    if (place != nullptr && place->kind == Item::Kind::Place && place->lead == Lead::On &&
        place->before != Break::Strong && place->first - item.last <= 4) {
        Naming it = naming(*place);
        const bool echo = it.base >= 0 && !_focus.places.empty() &&
                          _lexicon.base(it.base).kind == "tyre" && !it.positions.front().sideSaid &&
                          it.positions.front().axle == Axle::None;
        if (it.base < 0 && (_focus.base >= 0 || millimetres) && !tellsApart(_topic, it))
            it.base = _lexicon.baseNamed("tyre");
        const Resolved resolved = echo ? Resolved{} : resolve(it);
        if (echo)
            _taken[behind] = 1;
        if (!resolved.places.empty() && std::ranges::all_of(resolved.places, isRolling)) {
            _taken[behind] = 1;
            carry(it, resolved);
            setFocus(behind, resolved, false);
            places = resolved.places;
        }
    }
    if (places.empty()) {
        if (!fresh(item.first, 30))
            return;
        places = _focus.places;
    }
    if (!std::ranges::all_of(places, isRolling) || isSupposed(i))
        return;
    addTread(through(places, true), tenths, tenths, i);
}

} // namespace ramplight::spoken
