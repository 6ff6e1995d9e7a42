// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "appraisal/spoken/discourse.h"

#include <algorithm>

namespace ramplight::spoken {

namespace {

void addOnce(std::vector<Remedy>& remedies, Remedy remedy)
{
    if (std::ranges::find(remedies, remedy) == remedies.end())
        remedies.push_back(remedy);
}

bool overlap(const std::vector<Place>& places, Place place)
{
    return std::ranges::find(places, place) != places.end();
}

} // namespace

/// A word of wanting right before: "needs", "that'll", "get it".
bool Discourse::wantedBefore(std::size_t i) const
{
    for (std::size_t k = i; k-- > 0 && i - k <= 3;) {
        if (_items[k + 1].before == Break::Strong || _items[i].first - _items[k].last > 4)
            return false;
        if (_items[k].is(Cue::Want) || _items[k].is(Cue::So))
            return true;
    }
    return false;
}

/// Findings that still wait for work: of what is spoken of, or of several places.
std::vector<std::size_t> Discourse::openDrafts(std::size_t i, bool several) const
{
    std::vector<std::size_t> open;
    const std::uint32_t token = _items[i].first;
    for (std::size_t d = _drafts.size(); d-- > 0;) {
        const Draft& draft = _drafts[d];
        if (!draft.alive)
            continue;
        if (token - draft.last > (several ? 60U : 45U))
            continue;
        const bool waiting = draft.remedies.empty() || draft.borrowed;
        if (waiting && (draft.run == _run || several))
            open.push_back(d);
    }
    std::ranges::reverse(open);
    std::ranges::stable_sort(open, {}, [&](std::size_t d) { return _drafts[d].last; });
    return open;
}

void Discourse::applyRemedy(std::size_t i, const std::vector<Remedy>& ids, std::size_t object)
{
    const Item& item = _items[i];
    std::vector<Place> places;
    int base = -1;
    if (object != 0) {
        const Resolved resolved = resolve(naming(_items[object]));
        places = resolved.places;
        base = resolved.base;
        _taken[object] = 1;
        for (const Place place : places)
            _mentioned[std::size_t(place)] = 1;
    }
    bool several = false;
    for (std::uint32_t t = item.first; t <= item.last; ++t)
        several = several || _lexicon.wordIs(_speech.tokens[t].word, Cue::Them);
    for (std::size_t k = i > 2 ? i - 2 : 0; k < _items.size() && k <= i + 2; ++k)
        if (k != i &&
            (_items[k].is(Cue::Them) ||
             (_items[k].kind == Item::Kind::Place && naming(_items[k]).base < 0 &&
              naming(_items[k]).amountSaid && !naming(_items[k]).positions.front().sideSaid)) &&
            (k < i ? _items[i].first - _items[k].last <= 6 && _items[k + 1].before != Break::Strong
                   : _items[k].first - _items[i].last <= 4 && _items[k].before != Break::Strong))
            several = true;
    // "three to refurb", "refurb the three"
    for (const std::size_t k : {i - 1, i - 2, i + 1})
        if (k < _items.size() && _items[k].kind == Item::Kind::Number && _items[k].id >= 20 &&
            _items[k].id <= 50 &&
            (k < i ? item.first - _items[k].last <= 3 && item.before != Break::Strong
                   : _items[k].first - item.last <= 3 && _items[k].before == Break::None))
            several = true;
    std::vector<std::size_t> open = openDrafts(i, several || object != 0);
    if (several && object == 0 && !open.empty()) {
        // Of several places only those with the same thing wrong.
        const Condition condition = _drafts[open.back()].condition;
        std::erase_if(open, [&](std::size_t d) {
            return _drafts[d].run != _run && _drafts[d].condition != condition;
        });
    }
    if (object != 0) {
        std::erase_if(open, [&](std::size_t d) {
            const Draft& draft = _drafts[d];
            return !overlap(places, draft.place) && !(draft.run == _run && base == _focus.base);
        });
        if (open.empty())
            for (std::size_t d = 0; d < _drafts.size(); ++d)
                if (_drafts[d].alive && overlap(places, _drafts[d].place) &&
                    item.first - _drafts[d].last < 60)
                    open.push_back(d);
        if (open.empty() && !places.empty()) {
            _pending.push_back({places, base, ids, item.last, item.first, _sentence, false, true});
            return;
        }
    }
    if (_referred && item.first - _referredAt <= 8) {
        Draft& draft = _drafts[*_referred];
        for (const Remedy id : ids)
            addOnce(draft.remedies, id);
        draft.last = std::max(draft.last, item.last);
        _referred.reset();
        return;
    }
    // A screen that was renewed is what the camera is set up for.
    if (ids.size() == 1 && ids.front() == Remedy::Calibrate)
        for (Draft& draft : _drafts)
            if (draft.alive && allPlaces()[std::size_t(draft.place)].kind == PlaceKind::Glass &&
                item.first - draft.last <= 60) {
                addOnce(draft.remedies, Remedy::Calibrate);
                draft.last = item.last;
                return;
            }
    bool again = false;
    const bool instead = _corrected && item.first <= _correctedAt + 12;
    if (instead && open.empty() && !_worked.empty() &&
        item.first - _drafts[_worked.back()].last <= 30) {
        // Other work for all that the last went to.
        for (const std::size_t d : _worked) {
            Draft& draft = _drafts[d];
            std::erase_if(draft.remedies, [&](Remedy one) {
                return std::ranges::find(_lastWork, one) != _lastWork.end();
            });
            for (const Remedy id : ids)
                addOnce(draft.remedies, id);
            draft.last = std::max(draft.last, item.last);
        }
        _lastWork = ids;
        _corrected = false;
        return;
    }
    if (open.empty() && object == 0) {
        // Praise of another place came between.
        for (std::size_t d = _drafts.size(); d-- > 0;)
            if (_drafts[d].alive && _drafts[d].statement == _statement &&
                _drafts[d].remedies.empty() && item.first - _drafts[d].last <= 30 &&
                (_stated.kind == Stated::Kind::Sound || _stated.kind == Stated::Kind::Finding) &&
                !std::ranges::any_of(
                    _drafts, [&](const Draft& draft) { return draft.alive && draft.run == _run; }))
                open.push_back(d);
    }
    if (open.empty()) {
        // More work on what has work already, or other work instead of it.
        for (std::size_t d = 0; d < _drafts.size(); ++d)
            if (_drafts[d].alive && _drafts[d].run == _run && item.first - _drafts[d].last <= 40)
                open.push_back(d);
        if (!open.empty() && open.size() > 1) {
            const int last = _drafts[open.back()].statement;
            std::erase_if(open, [&](std::size_t d) { return _drafts[d].statement != last; });
        }
        again = true;
    }
    if (open.empty()) {
        if (!_focus.places.empty() && fresh(item.first, 12)) {
            std::vector<Place> meant = _focus.places;
            // "new ones on the pair of them": the tyres that were just measured
            if (several && tyreTalk())
                for (const Tread& tread : _treads)
                    if (item.first - tread.last <= 45 && !overlap(meant, tread.place))
                        meant.push_back(tread.place);
            _pending.push_back(
                {meant, _focus.base, ids, item.last, item.first, _sentence, false, false});
        } else {
            _pending.push_back({{}, -1, ids, item.last, item.first, _sentence, false, false});
        }
        return;
    }
    _worked = open;
    _lastWork = ids;
    for (const std::size_t d : open) {
        Draft& draft = _drafts[d];
        if (draft.borrowed || instead ||
            (again && draft.remedies.size() == 1 && draft.remedies.front() == Remedy::Leave)) {
            draft.remedies.clear();
            draft.borrowed = false;
        }
        for (const Remedy id : ids)
            addOnce(draft.remedies, id);
        draft.last = std::max(draft.last, item.last);
    }
    if (instead)
        _corrected = false;
    _focus.last = std::max(_focus.last, item.last);
}

void Discourse::onRemedy(std::size_t i)
{
    const Item& item = _items[i];
    const RemedyWords& words = _lexicon.remedy(item.id);
    if (isNegated(i) || isSupposed(i) || isHistory(i))
        return;
    // Work that is only asked for counts when it is agreed to.
    if (isAsked(i)) {
        const Item* one = at(i + 1);
        const Item* two = at(i + 2);
        const bool agreed =
            (one != nullptr && one->is(Cue::Yes)) || (two != nullptr && two->is(Cue::Yes));
        if (!agreed)
            return;
    } else if (_asked.open && item.first - _items[_asked.item].last <= 30) {
        _asked.open = false;
        addFindings(_asked.item, _asked.places, _lexicon.condition(_items[_asked.item].id), 0.2);
    }
    if (_retractedAt != 0 && item.first - _retractedAt <= 6 && item.before != Break::Strong)
        return;
    // "polish won't touch it"
    for (std::size_t k = i + 1; k < _items.size() && k <= i + 2; ++k) {
        if (_items[k].before != Break::None || _items[k].first - item.last > 3)
            break;
        if (_items[k].is(Cue::Negation))
            return;
    }
    if (words.needsCue && !wantedBefore(i))
        return;
    std::size_t object = 0;
    const Item* next = at(i + 1);
    if (next != nullptr && next->kind == Item::Kind::Place && next->before == Break::None &&
        next->lead != Lead::Beside && next->first - item.last <= 3 && !next->turn &&
        !next->andBefore && !next->butBefore && !speaks(i + 1)) {
        const Naming& it = naming(*next);
        const bool amountOnly = it.base < 0 && !it.positions.front().sideSaid &&
                                it.positions.front().axle == Axle::None;
        // "polish the bonnet", "new pads on the front"; but not "paint, front bumper next"
        if (!amountOnly && (next->lead == Lead::On || next->first - item.last == 2 || it.base < 0))
            object = i + 1;
    }
    if (object != 0 && echoes(naming(*next))) {
        _taken[object] = 1;
        object = 0;
    }
    // "dent man for the dents": work on one of several things
    if (next != nullptr && next->kind == Item::Kind::Condition && next->before == Break::None &&
        next->first - item.last <= 3 && next->first > 0 &&
        _lexicon.isArticle(_speech.tokens[next->first - 1].word)) {
        const Condition said = _lexicon.condition(next->id).id;
        bool found = false;
        for (Draft& draft : _drafts)
            if (draft.alive && draft.run == _run && draft.condition == said) {
                for (const Remedy id : words.ids)
                    addOnce(draft.remedies, id);
                draft.last = std::max(draft.last, next->last);
                found = true;
            }
        if (found) {
            _taken[i + 1] = 1;
            return;
        }
    }
    // "refurbish the two that are kerbed": those of which it was said.
    for (std::size_t k = i + 1; k < _items.size() && k <= i + 3; ++k) {
        if (_items[k].before != Break::None || _items[k].first - item.last > 6 ||
            _items[k].kind == Item::Kind::Place)
            break;
        if (_items[k].kind == Item::Kind::Condition && k > i + 1 &&
            _items[k - 1].kind == Item::Kind::Number) {
            const Condition said = _lexicon.condition(_items[k].id).id;
            for (Draft& draft : _drafts)
                if (draft.alive && draft.condition == said && draft.remedies.empty() &&
                    item.first - draft.last <= 90)
                    draft.remedies = words.ids;
            _taken[k] = 1;
            return;
        }
    }
    applyRemedy(i, words.ids, object);
}

/// "a new wing", "new one": what is to be replaced.
void Discourse::onNew(std::size_t i)
{
    const Item& item = _items[i];
    if (isNegated(i) || isSupposed(i) || isHistory(i))
        return;
    const Item* next = at(i + 1);
    const bool noun = next != nullptr && next->kind == Item::Kind::Place &&
                      next->before == Break::None && next->first - item.last <= 2 &&
                      !next->andBefore && naming(*next).base >= 0;
    for (std::size_t k = i + 1; noun && k < _items.size() && k <= i + 3; ++k) {
        if (_items[k].before == Break::Strong || _items[k].first - item.last > 7)
            break;
        if (_items[k].is(Cue::History) && _items[k].first - next->last <= 2)
            return;
    }
    if (isAsked(i)) {
        const Item* two = at(i + 2);
        if (!((next != nullptr && next->is(Cue::Yes)) || (two != nullptr && two->is(Cue::Yes))))
            return;
    }
    const bool wanted = wantedBefore(i);
    const bool waits = std::ranges::any_of(_drafts, [&](const Draft& draft) {
        return draft.alive && draft.run == _run && item.first - draft.last <= 40;
    });
    if (!wanted && !waits && !noun)
        return;
    std::size_t object = 0;
    if (noun) {
        const Base& base = _lexicon.base(naming(*next).base);
        const std::vector<Place> meant = resolve(naming(*next)).places;
        const bool found = std::ranges::any_of(_drafts, [&](const Draft& draft) {
            return draft.alive && item.first - draft.last <= 60 && overlap(meant, draft.place);
        });
        if (found) {
            applyRemedy(i, {Remedy::Replace}, echoes(naming(*next)) ? 0 : i + 1);
            _taken[i + 1] = 1;
            return;
        }
        if (!base.part && !echoes(naming(*next)))
            object = i + 1;
        else
            _taken[i + 1] = 1;
        const bool terse = item.before != Break::None || i == 0;
        if (!wanted && !waits && !terse)
            return;
    }
    applyRemedy(i, {Remedy::Replace}, object);
}

/// Work that was said before its finding.
void Discourse::claimPending(std::size_t index)
{
    Draft& draft = _drafts[index];
    for (std::size_t k = _pending.size(); k-- > 0;) {
        PendingWork& work = _pending[k];
        if (work.token + 80 < draft.last)
            break;
        if (draft.first > work.token + 30 || draft.last < work.first)
            continue;
        const bool fits = work.places.empty() ? draft.last - work.token <= 12 && !work.used &&
                                                    work.sentence == _sentence
                                              : overlap(work.places, draft.place);
        if (!fits || !draft.remedies.empty())
            continue;
        draft.remedies = work.ids;
        work.used = true;
    }
}

/// Where only the work was said: "two new tyres on the front".
void Discourse::implyFindings()
{
    std::vector<char> found(allPlaces().size(), 0);
    for (const Draft& draft : _drafts)
        if (draft.alive)
            found[std::size_t(draft.place)] = 1;
    for (const PendingWork& work : _pending) {
        if (work.used || work.base < 0)
            continue;
        const Base& base = _lexicon.base(work.base);
        for (const Implied& implied : _lexicon.implied()) {
            if (implied.what != base.name && implied.what != base.kind)
                continue;
            if (std::ranges::find(work.ids, implied.remedy) == work.ids.end())
                continue;
            for (const Place place : work.places) {
                if ((_sound[std::size_t(place)] != 0 && !work.named) ||
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
