// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "appraisal/spoken/discourse.h"

#include <algorithm>

// "The same", "another one": what was said of one place holds for the next.
namespace ramplight::spoken {

void Discourse::same(std::size_t i)
{
    const Item& item = _items[i];
    const Item* next = at(i + 1);
    if (next != nullptr && next->kind == Item::Kind::Condition && next->first - item.last <= 2)
        return; // "the same scratch": the defect is said again
    if (_stated.kind == Stated::Kind::Nothing || item.first - _stated.last > 60)
        return;
    const Stated stated = _stated;
    std::vector<Place> places;
    // "same as the front one" names what it is like, not what is spoken of.
    const bool likened = next != nullptr && next->kind == Item::Kind::Place &&
                         item.last > item.first &&
                         _lexicon.wordIs(_speech.tokens[item.last].word, Cue::Talk);
    if (likened)
        _taken[i + 1] = 1;
    const std::size_t behind = next != nullptr && next->kind == Item::Kind::Place &&
                                       next->before != Break::Strong &&
                                       next->first - item.last <= 5 &&
                                       (_focus.statements > 0 || _focus.places.empty()) && !likened
                                   ? i + 1
                                   : 0;
    if (behind != 0) {
        const Naming& it = naming(_items[behind]);
        const bool otherSide =
            it.base < 0 && it.positions.front().sideSaid && it.positions.front().axle == Axle::None;
        Resolved resolved = resolve(it);
        if (otherSide) {
            const Side before = _side.value_or(Side::None);
            std::vector<Place> mirror = mirrored(stated.places);
            if (!mirror.empty()) {
                resolved.places = mirror;
                resolved.base = _topic >= 0 ? _topic : _focus.base;
            }
            // The walk itself stays on its side, unless the side is named.
            if (it.positions.front().side != SideWord::Other && before != Side::None)
                if (const auto side = sideOf(it.positions.front()))
                    _side = side;
        }
        if (resolved.places.empty())
            return;
        _taken[behind] = 1;
        if (!otherSide)
            carry(it, resolved);
        setFocus(behind, resolved, false);
        places = resolved.places;
    } else if (_focus.statements == 0) {
        places = _focus.places;
    }
    if (places.empty())
        return;
    ++_focus.statements;
    _focus.last = std::max(_focus.last, item.last);
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
        ++_statement;
        std::vector<std::size_t> made;
        for (const std::size_t index : stated.drafts)
            for (const Place place : places) {
                Draft copy = _drafts[index];
                const PlaceKind from = allPlaces()[std::size_t(copy.place)].kind;
                const PlaceKind to = allPlaces()[std::size_t(place)].kind;
                const bool rolling = from == PlaceKind::Tyre || to == PlaceKind::Tyre ||
                                     from == PlaceKind::Wheel || to == PlaceKind::Wheel;
                if (!copy.alive || copy.place == place || (rolling && from != to))
                    continue;
                copy.place = place;
                copy.first = _focus.first;
                copy.last = item.last;
                copy.run = _run;
                copy.statement = _statement;
                copy.count = {};
                copy.borrowed = true;
                copy.doubt += 0.08;
                const bool known = std::ranges::any_of(_drafts, [&](const Draft& draft) {
                    return draft.alive && draft.place == place && draft.condition == copy.condition;
                });
                if (known)
                    continue;
                made.push_back(keep(copy));
            }
        _stated.drafts = made;
        _stated.places = places;
        _stated.last = item.last;
        break;
    }
    case Stated::Kind::Nothing:
        break;
    }
}

} // namespace ramplight::spoken
