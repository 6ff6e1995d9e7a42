// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "appraisal/spoken/discourse.h"

#include <algorithm>

// Which place is spoken of.
namespace ramplight::spoken {

/// The walk turns to a side or an end; nothing is said of a place yet.
void Discourse::heading(const Naming& naming)
{
    for (const Position& position : naming.positions) {
        if (const auto side = sideOf(position)) {
            _side = side;
            _along = true;
        } else if (position.axle != Axle::None) {
            _along = false;
        }
        if (position.axle != Axle::None)
            _axle = position.axle;
    }
    _focus.places.clear();
    ++_run;
}

bool Discourse::speaks(std::size_t i) const
{
    const Item* next = at(i + 1);
    if (next != nullptr && next->before == Break::None && next->first - _items[i].last <= 2 &&
        (next->kind == Item::Kind::Condition || next->kind == Item::Kind::Number ||
         next->is(Cue::Sound) || next->is(Cue::Tidy) || next->is(Cue::Working)))
        return true;
    const std::uint32_t behind = _items[i].last + 1;
    return behind < _speech.tokens.size() && _speech.tokens[behind].before == Break::None &&
           _lexicon.wordIs(_speech.tokens[behind].word, Cue::Is);
}

/// What a named place leaves behind for places named less fully after it.
void Discourse::carry(const Naming& naming, const Resolved& resolved)
{
    if (resolved.base < 0)
        return;
    const Base& base = _lexicon.base(resolved.base);
    if (base.sides)
        for (const Position& position : naming.positions)
            if (position.sideSaid && position.side != SideWord::This)
                if (const auto side = sideOf(position)) {
                    _along = _along && _side == side;
                    _side = side;
                    if (naming.positions.size() == 1 && base.kind != "seat")
                        _along = true;
                }
    std::optional<Axle> axle;
    bool mixed = false;
    for (const Place place : resolved.places) {
        const auto member = std::ranges::find(base.members, place, &Member::index);
        const Axle its = member == base.members.end() ? Axle::None : member->axle;
        mixed = mixed || (axle && *axle != its);
        axle = its;
    }
    if (axle && !mixed && *axle != Axle::None)
        _axle = *axle;
    if (base.sides && resolved.places.size() == base.members.size() && !base.group)
        _along = false;
    if (!base.sides && (base.kind == "body" || base.kind == "glass") && !base.part)
        _along = false;
    if (base.kind == "interior" || base.kind == "seat")
        _inside = true;
    else if (base.kind == "body")
        _inside = false;
}

void Discourse::setFocus(std::size_t i, const Resolved& resolved, bool join)
{
    const Item& item = _items[i];
    if (join) {
        _focus.lastPart = _focus.places.size();
        for (const Place place : resolved.places)
            if (std::ranges::find(_focus.places, place) == _focus.places.end())
                _focus.places.push_back(place);
        _focus.several = true;
        _focus.list = true;
    } else {
        _focus = {};
        _focus.places = resolved.places;
        _focus.several = resolved.places.size() > 1;
        _focus.first = item.first;
        _focus.sentence = _sentence;
        ++_run;
    }
    _focus.base = resolved.base;
    _focus.last = item.last;
    _focus.guessed = resolved.guessed;
    _focus.part = _lexicon.base(resolved.base).part;
    for (const Place place : resolved.places)
        _mentioned[std::size_t(place)] = 1;
}

/// "Near side then.": a position alone, and the next thing said names a place of its own.
bool Discourse::isHeading(std::size_t i) const
{
    const Naming& it = naming(_items[i]);
    if (it.base >= 0)
        return false;
    if (baseFor(it) < 0 && !(it.amountSaid && it.amount == Amount::Rest))
        return true;
    const Item* next = at(i + 1);
    if (next == nullptr)
        return true;
    const Position& position = it.positions.front();
    const bool whole = it.one || it.amountSaid || position.severalAxle ||
                       (position.sideSaid && position.axle != Axle::None);
    if (next->kind == Item::Kind::Place)
        return naming(*next).base >= 0 && next->lead == Lead::None && !it.one &&
               !(next->andBefore && next->before != Break::Strong && whole);
    return next->before == Break::Strong && !whole;
}

void Discourse::onPlace(std::size_t i)
{
    const Item& item = _items[i];
    const Naming& it = naming(item);
    if (item.lead == Lead::Beside)
        return;
    if (item.before == Break::None && item.first < _asideUntil)
        return;
    if (it.base >= 0 && _lexicon.base(it.base).opening && i > 0 &&
        (item.lead != Lead::None || item.before == Break::None))
        return;
    if (it.base < 0 && it.amountSaid && it.amount != Amount::Rest && it.amount != Amount::Other &&
        !it.positions.front().sideSaid && it.positions.front().axle == Axle::None) {
        // "all four of them": the same kind of place, all of it
        if (it.amount == Amount::All && !_focus.places.empty() && !_focus.rest &&
            _focus.base >= 0 && _lexicon.base(_focus.base).members.size() > 2 &&
            _focus.statements == 0) {
            _focus.places = placesOf(_focus.base);
            _focus.several = true;
        }
        _focus.several = _focus.several || _focus.places.size() > 1;
        return;
    }
    // "Fronts five, rears six" before anybody said tyre
    if (const Item* next = at(i + 1);
        it.base < 0 && !tellsApart(_topic, it) && next != nullptr &&
        next->kind == Item::Kind::Number && next->before != Break::Strong &&
        next->first - item.last <= 4 && next->id >= 10 && next->id <= 110 &&
        (it.positions.front().severalAxle ||
         (it.positions.front().sideSaid && it.positions.front().axle != Axle::None))) {
        const Item* unit = at(i + 2);
        const bool depth = unit == nullptr || unit->is(Cue::Depth) ||
                           unit->kind == Item::Kind::Place || unit->kind == Item::Kind::Number ||
                           unit->before == Break::Strong;
        if (depth)
            _topic = _lexicon.baseNamed("tyre");
    }
    if (isHeading(i)) {
        // A corner of the place that is spoken of is no new place.
        const Item* next = at(i + 1);
        const bool aside = _speech.tokens[item.first].before == Break::Weak &&
                           it.positions.front().axle == Axle::None && fresh(item.first, 12);
        const bool corner = !_focus.places.empty() && (item.before != Break::Strong || aside) &&
                            !(next != nullptr && next->kind == Item::Kind::Place &&
                              naming(*next).base >= 0 && next->lead == Lead::None);
        if (it.positions.front().sideSaid && it.positions.front().axle != Axle::None &&
            _focus.statements == 0 && fresh(item.first, 6) && next != nullptr &&
            next->kind != Item::Kind::Place)
            return; // "Windows. The passenger rear doesn't come up": one of what is one place
        if (it.one && !_focus.places.empty() && fresh(item.first, 30))
            return; // "the near side one's dropped": one of two that are one place here
        if (!corner)
            heading(it);
        else if (const auto side = sideOf(it.positions.front()))
            _side = side;
        return;
    }
    if (echoes(it) && fresh(item.first, 30) &&
        !(item.before == Break::Strong && naming(item).base != _focus.base)) {
        _focus.last = item.last;
        const std::string& kind = _lexicon.base(it.base).kind;
        if ((item.before != Break::None || item.butBefore) &&
            (kind == "body" || kind == "glass" || kind == "lamp" || kind == "system") &&
            it.base == _focus.base)
            _focus.statements = 0; // named again: what follows is said anew
        if (const auto& remedy = _lexicon.base(it.base).remedy;
            remedy && !openDrafts(i, false).empty())
            applyRemedy(i, {*remedy}, 0);
        if (_lexicon.base(it.base).name.ends_with("trim"))
            _trims = true;
        return;
    }
    // "there's seven seats in it": a number of them, not these
    if (i > 0 && _items[i - 1].kind == Item::Kind::Number && _items[i - 1].id >= 30 && it.several &&
        item.first - _items[i - 1].last == 1 && item.before == Break::None)
        return;
    const Resolved resolved = resolve(it);
    if (resolved.places.empty())
        return;
    if (extends(i)) {
        extend(i);
        return;
    }
    // "never been on the floor": a circumstance of what is spoken of.
    if (item.lead == Lead::From ||
        (item.lead == Lead::On && item.before == Break::None && _focus.statements == 0 &&
         fresh(item.first, 12) && i > 0 && _items[i - 1].kind != Item::Kind::Place))
        return;
    const Base& base = _lexicon.base(resolved.base);
    if (it.base >= 0 && _lexicon.base(it.base).name.ends_with("trim"))
        _trims = true;
    if (base.name == "warning-lamps" && i > 0 && item.first - _items[i - 1].last <= 2 &&
        item.before == Break::None &&
        (_items[i - 1].is(Cue::No) || _items[i - 1].is(Cue::Negation))) {
        setFocus(i, resolved, false);
        for (Draft& draft : _drafts)
            if (draft.remedies.empty() &&
                std::ranges::find(resolved.places, draft.place) != resolved.places.end())
                draft.alive = false;
        sayNothingWrong(resolved.places, item.last);
        if (const Item* next = at(i + 1);
            next != nullptr && next->kind == Item::Kind::Condition && next->before == Break::None)
            _taken[i + 1] = 1;
        return;
    }
    if (it.base >= 0 && resolved.places == _focus.places && fresh(item.first, 30) &&
        item.before != Break::Strong) {
        _focus.last = item.last;
        return;
    }
    const bool moved = _corrected && item.first - _correctedAt <= 8 && _focus.statements > 0 &&
                       item.before != Break::Strong && _statementSentence == _sentence;
    carry(it, resolved);
    if (it.base >= 0)
        _topic = resolved.base;
    if (moved) {
        // "a dent in the near side wing, sorry, off side wing": what was said moves along.
        if (std::ranges::count_if(_drafts, [&](const Draft& draft) {
                return draft.alive && draft.run == _run && draft.statement == _statement;
            }) > 1)
            return;
        for (Draft& draft : _drafts)
            if (draft.alive && draft.run == _run && draft.statement == _statement)
                draft.place = resolved.places.front();
        _corrected = false;
        _focus.places = resolved.places;
        _focus.base = resolved.base;
        _focus.last = item.last;
        for (const Place place : resolved.places)
            _mentioned[std::size_t(place)] = 1;
        return;
    }
    const bool list = !_focus.places.empty() && _focus.statements == 0 &&
                      item.before != Break::Strong && i > 0 && _taken[i - 1] == 0 &&
                      _items[i - 1].kind == Item::Kind::Place && !_corrected &&
                      (naming(_items[i - 1]).base >= 0 || !naming(_items[i - 1]).amountSaid);
    const bool refine = list && !item.andBefore &&
                        (it.base < 0 || (it.base == _focus.base && it.positions.front().sideSaid));
    setFocus(i, resolved, list && !refine);
    if (list && item.andBefore)
        _focus.lastPart = 0;
    _focus.rest = it.amountSaid && it.amount == Amount::Rest;
}

/// "sap all over the roof and all over the bonnet", "chips on the bonnet and the roof": another
/// place of the statement before, when nothing of its own follows.
bool Discourse::extends(std::size_t i) const
{
    const Item& item = _items[i];
    if (i == 0 || !item.andBefore || item.before == Break::Strong || _taken[i - 1] == 0 ||
        _items[i - 1].kind != Item::Kind::Place || naming(item).base < 0 ||
        _stated.kind != Stated::Kind::Finding || item.first - _items[i - 1].last > 5)
        return false;
    return !speaks(i);
}

void Discourse::extend(std::size_t i)
{
    const Resolved resolved = resolve(naming(_items[i]));
    carry(naming(_items[i]), resolved);
    const std::vector<std::size_t> said = _stated.drafts;
    for (const std::size_t d : said)
        for (const Place place : resolved.places) {
            Draft copy = _drafts[d];
            if (!copy.alive || copy.place == place)
                continue;
            copy.place = place;
            copy.last = _items[i].last;
            copy.count = {};
            _stated.drafts.push_back(keep(copy));
            _stated.places.push_back(place);
            _mentioned[std::size_t(place)] = 1;
        }
    _focus.places.insert(_focus.places.end(), resolved.places.begin(), resolved.places.end());
    _focus.last = _items[i].last;
}

void Discourse::except(std::size_t i)
{
    // All places named right behind are out.
    std::vector<Place> out;
    std::size_t k = i + 1;
    for (; k < _items.size() && _items[k].kind == Item::Kind::Place &&
           _items[k].before != Break::Strong;
         ++k) {
        const Resolved resolved = resolve(naming(_items[k]));
        if (resolved.places.empty()) {
            // One of what is one place here: the windows but for one.
            _taken[k] = 1;
            _focus.last = _items[k].last;
            break;
        }
        out.insert(out.end(), resolved.places.begin(), resolved.places.end());
        carry(naming(_items[k]), resolved);
        _taken[k] = 1;
        setFocus(k, resolved, false);
        --_run;
    }
    if (out.empty())
        return;
    bool dropped = false;
    for (Draft& draft : _drafts)
        if (draft.statement == _statement && _stated.kind == Stated::Kind::Finding &&
            std::ranges::find(out, draft.place) != out.end()) {
            draft.alive = false;
            dropped = true;
        }
    for (const Place place : out)
        _sound[std::size_t(place)] = dropped ? int(_items[i].first) + 1 : 0;
    _focus.statements = dropped ? 1 : 0;
}

} // namespace ramplight::spoken
