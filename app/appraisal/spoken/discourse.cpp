// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "appraisal/spoken/discourse.h"

#include <algorithm>

namespace ramplight::spoken {

Discourse::Discourse(const Speech& speech, const Lexicon& lexicon, const Spotted& spotted,
                     Traffic traffic)
    : _speech(speech)
    , _lexicon(lexicon)
    , _items(spotted.items)
    , _namings(spotted.namings)
    , _traffic(traffic)
    , _taken(spotted.items.size(), 0)
    , _sound(allPlaces().size(), 0)
    , _mentioned(allPlaces().size(), 0)
{
}

const Item* Discourse::at(std::size_t i) const
{
    return i < _items.size() ? &_items[i] : nullptr;
}

const Naming& Discourse::naming(const Item& item) const
{
    return _namings[std::size_t(item.id)];
}

bool Discourse::fresh(std::uint32_t token, int reach) const
{
    return !_focus.places.empty() && int(token) - int(_focus.last) <= reach;
}

SpokenReading Discourse::run()
{
    for (std::size_t i = 0; i < _items.size(); ++i) {
        if (_items[i].before == Break::Strong) {
            ++_sentence;
            settle(_items[i].first);
        }
        if (_taken[i] != 0)
            continue;
        switch (_items[i].kind) {
        case Item::Kind::Place:
            onPlace(i);
            break;
        case Item::Kind::Condition:
            onCondition(i);
            break;
        case Item::Kind::Severity:
            onSeverity(i);
            break;
        case Item::Kind::Remedy:
            onRemedy(i);
            break;
        case Item::Kind::Number:
            onNumber(i);
            break;
        case Item::Kind::Cue:
            onCue(i);
            break;
        }
    }
    unsettle();
    implyFindings();
    return outcome();
}

void Discourse::onCue(std::size_t i)
{
    const Item& item = _items[i];
    switch (Cue(item.id)) {
    case Cue::Sound:
    case Cue::Tidy:
    case Cue::Working:
        onSound(i);
        break;
    case Cue::Normal:
        onNormal(i);
        break;
    case Cue::Retraction:
        if (item.first < _asideUntil && item.before == Break::None)
            break;
        // "that'll come off" is cleaning, "that's come off" was nothing.
        if (wantedBefore(i) && !isNegated(i)) {
            applyRemedy(i, {Remedy::Clean}, 0);
            break;
        }
        if (i > 0 && _items[i - 1].kind == Item::Kind::Remedy &&
            item.first - _items[i - 1].last <= 6) {
            _corrected = true;
            _correctedAt = item.last + 18;
            break;
        }
        retract(i, true);
        break;
    case Cue::No:
    case Cue::None:
        // "Polish? No, paint": other work comes instead.
        if (const Base* base = _focus.base >= 0 ? &_lexicon.base(_focus.base) : nullptr;
            (item.is(Cue::None) || item.turn || item.before == Break::Strong) && base != nullptr &&
            base->name == "warning-lamps" && _focus.statements == 0 && fresh(item.first, 4)) {
            sayNothingWrong(_focus.places, item.last);
            return;
        }
        for (std::size_t k = i; k-- > 0 && i - k <= 3;)
            if (_items[k].kind == Item::Kind::Remedy && item.first - _items[k].last <= 8) {
                _corrected = true;
                _correctedAt = item.last + 18;
                return;
            }
        if (!_askedWorking.empty() && fresh(item.first, 10)) {
            ConditionWords words;
            words.id = Condition::Inoperative;
            const std::vector<Place> places = _askedWorking;
            _askedWorking.clear();
            addFindings(i, places, words, 0.15);
            return;
        }
        // "No it's not through": what was said of the work is said anew.
        if (item.before == Break::Strong && !_worked.empty() && !item.turn &&
            item.first - _drafts[_worked.back()].last <= 16 &&
            _drafts[_worked.back()].run == _run) {
            _corrected = true;
            _correctedAt = item.last + 18;
            return;
        }
        retract(i, false);
        break;
    case Cue::Yes:
        // "Any warning lights? Yes."
        if (_focus.base >= 0 && _lexicon.base(_focus.base).name == "warning-lamps" &&
            _focus.statements == 0 && fresh(item.first, 4)) {
            ConditionWords lit;
            lit.id = Condition::Lit;
            addFindings(i, _focus.places, lit, 0.1);
            break;
        }
        if (!_askedWorking.empty()) {
            sayNothingWrong(_askedWorking, item.last);
            _askedWorking.clear();
        }
        if (_asked.open) {
            _asked.open = false;
            const Item& asked = _items[_asked.item];
            addFindings(_asked.item, _asked.places, _lexicon.condition(asked.id), 0.1);
        } else if (_askedOnce && _focus.statements == 0 && fresh(item.first, 6) &&
                   item.first - _items[_lastAsked].last <= 45) {
            // "Kerbed? Yes. Off side rear? Yes."
            bool bent = false;
            const ConditionWords& words = _lexicon.condition(_items[_lastAsked].id);
            addFindings(i, fitting(_focus.places, _focus.base, words, bent), words, 0.15);
        }
        break;
    case Cue::Electric:
        _electric = true;
        break;
    case Cue::Van:
        _van = true;
        break;
    case Cue::TwoDoor:
        _twoDoor = true;
        break;
    case Cue::Where:
        _asideUntil = item.last + (_speech.punctuated ? 9U : 7U);
        break;
    case Cue::So:
        _asideUntil = 0;
        break;
    case Cue::Correction:
        _corrected = true;
        _correctedAt = item.last;
        break;
    case Cue::Operate:
        if (isAsked(i) && !_focus.places.empty() && fresh(item.first, 8))
            _askedWorking = _focus.places;
        break;
    case Cue::Another:
        // "I'd put another seat in it"
        if (const Item* next = at(i + 1); next != nullptr && next->kind == Item::Kind::Place &&
                                          next->before == Break::None &&
                                          next->first == item.last + 1 && naming(*next).base >= 0) {
            onNew(i);
            break;
        }
        [[fallthrough]];
    case Cue::Same:
        same(i);
        break;
    case Cue::Except:
        except(i);
        break;
    case Cue::Inside:
        _inside = true;
        _along = false;
        _focus.places.clear();
        break;
    case Cue::Outside:
        _inside = false;
        break;
    case Cue::New:
        onNew(i);
        break;
    case Cue::Limit:
        onNumber(i);
        break;
    default:
        break;
    }
}

/// The place that a statement names behind itself, as an item; 0 where there is none.
std::size_t Discourse::placeBehind(std::size_t i, bool adjective) const
{
    std::size_t k = i + 1;
    std::uint32_t last = _items[i].last;
    for (; k < _items.size() && k <= i + 5; ++k) {
        const Item& item = _items[k];
        if (item.before == Break::Strong || item.turn || item.first - last > 6)
            return 0;
        if (item.kind == Item::Kind::Place) {
            const Naming& it = naming(item);
            if (item.lead == Lead::On && it.base < 0 && it.amountSaid &&
                !it.positions.front().sideSaid && it.positions.front().axle == Axle::None)
                return 0; // "on both corners"
            // "on the front edge of the roof"
            if (const Item* next = at(k + 1);
                item.lead == Lead::On && it.base < 0 && next != nullptr &&
                next->kind == Item::Kind::Place && next->lead == Lead::On &&
                naming(*next).base >= 0 &&
                next->first - item.last <= (baseFor(it) < 0 && _focus.places.empty() ? 7U : 4U) &&
                next->before == Break::None)
                return k + 1;
            if (item.lead == Lead::On)
                return k;
            if (item.lead == Lead::From) {
                const Condition what = _items[i].kind == Item::Kind::Condition
                                           ? _lexicon.condition(_items[i].id).id
                                           : Condition::Mark;
                return what == Condition::Noise || what == Condition::Vibration ||
                               what == Condition::Leak || what == Condition::Odour ||
                               what == Condition::Missing
                           ? k
                           : 0;
            }
            if (adjective && k == i + 1 && item.lead == Lead::None && item.first - last <= 2 &&
                item.before == Break::None && naming(item).base >= 0 &&
                (_focus.places.empty() || _focus.statements > 0))
                return k;
            return 0;
        }
        const bool shared = item.kind == Item::Kind::Condition && (item.andBefore || item.orBefore);
        if (!shared && item.kind != Item::Kind::Severity && item.kind != Item::Kind::Number)
            return 0;
        last = item.last;
    }
    return 0;
}

std::vector<Place> Discourse::focusPlaces(bool singular) const
{
    if (singular && _focus.lastPart > 0 && _focus.lastPart < _focus.places.size())
        return {_focus.places.begin() + std::ptrdiff_t(_focus.lastPart), _focus.places.end()};
    return _focus.places;
}

} // namespace ramplight::spoken
