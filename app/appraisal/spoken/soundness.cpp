// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "appraisal/spoken/discourse.h"

#include <algorithm>

// Praise, and what is taken back.
namespace ramplight::spoken {

void Discourse::sayNothingWrong(const std::vector<Place>& places, std::uint32_t token)
{
    for (const Place place : places) {
        _sound[std::size_t(place)] = int(token) + 1;
        _mentioned[std::size_t(place)] = 1;
    }
    _stated = {Stated::Kind::Sound, places, {}, 0, 0, token};
    ++_focus.statements;
    _focus.last = std::max(_focus.last, token);
    _asked.open = false;
}

void Discourse::onSound(std::size_t i)
{
    const Item& item = _items[i];
    if (item.extra > 0) {
        // A word that is praise or work: work, where a defect waits for it or it is wanted.
        const bool waits = std::ranges::any_of(_drafts, [&](const Draft& draft) {
            return draft.alive && draft.run == _run && draft.remedies.empty();
        });
        if (isNegated(i))
            return;
        if (wantedBefore(i) || waits) {
            applyRemedy(i, _lexicon.remedy(item.extra - 1).ids, 0);
            return;
        }
    }
    if (item.first < _asideUntil && item.before == Break::None)
        return;
    if (item.is(Cue::Working) && isAsked(i) && !_focus.places.empty() && fresh(item.first, 8)) {
        _askedWorking = _focus.base >= 0 && _lexicon.base(_focus.base).workBase >= 0
                            ? placesOf(_lexicon.base(_focus.base).workBase)
                            : _focus.places;
        return;
    }
    if (isSupposed(i) || cueBefore(_items, i, Cue::Equipment, 8) || isNegated(i))
        return;
    const std::size_t behind = placeBehind(i, true);
    std::vector<Place> places;
    int base = _focus.base;
    if (behind != 0) {
        const Resolved resolved = resolve(naming(_items[behind]));
        if (!resolved.places.empty()) {
            _taken[behind] = 1;
            carry(naming(_items[behind]), resolved);
            if (naming(_items[behind]).base >= 0)
                _topic = resolved.base;
            setFocus(behind, resolved, false);
            places = resolved.places;
            base = resolved.base;
        }
    }
    if (places.empty()) {
        if (!fresh(item.first, 14))
            return;
        places = _focus.places;
    }
    if (base >= 0) {
        const Base& it = _lexicon.base(base);
        if (it.insideBase >= 0 && (_inside || item.is(Cue::Tidy)))
            places = placesOf(it.insideBase);
        if (it.workBase >= 0 && item.is(Cue::Working))
            places = placesOf(it.workBase);
        // "So the quarter's fine": named again, it takes back what was only half said.
        const bool takenBack = _retractedAt != 0 && item.first - _retractedAt <= 25;
        if (_focus.statements == 0 || takenBack)
            for (Draft& draft : _drafts)
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
    const Item& item = _items[i];
    if (isSupposed(i))
        return;
    std::vector<Place> places;
    for (Draft& draft : _drafts)
        if (draft.alive && draft.statement == _statement && draft.run == _run &&
            draft.remedies.empty() && item.first - draft.last <= 22) {
            draft.alive = false;
            places.push_back(draft.place);
        }
    if (places.empty() && fresh(item.first, 10))
        places = _focus.places;
    if (!places.empty())
        sayNothingWrong(places, item.last);
}

/// "No, that has wiped off": the last finding was none. A bare "no" counts only where it closes
/// what was just said.
void Discourse::retract(std::size_t i, bool certain)
{
    const Item& item = _items[i];
    if (certain)
        _retractedAt = item.last;
    if (_asked.open) {
        _asked.open = false;
        sayNothingWrong(_asked.places, item.last);
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
        const Item* before = i > 0 ? &_items[i - 1] : nullptr;
        if (!closed || before == nullptr || before->kind != Item::Kind::Condition ||
            item.first - before->last > 8)
            return;
    }
    const std::uint32_t reach = certain ? 45 : 10;
    std::vector<Place> places;
    for (Draft& draft : _drafts)
        if (draft.alive && draft.run == _run && draft.statement == _statement &&
            item.first - draft.last <= reach && draft.remedies.empty() &&
            !(certain && draft.condition == Condition::Dirty)) {
            draft.alive = false;
            places.push_back(draft.place);
        }
    // "I thought that was damage but it's only dirt"
    if (places.empty() && certain && _supposedAt != 0 && item.first - _supposedAt <= 15)
        places = _supposed;
    else if (places.empty() && certain && fresh(item.first, 14))
        for (std::size_t k = i; k-- > 0 && i - k <= 5 && _items[k + 1].before != Break::Strong;)
            if (_items[k].is(Cue::Supposed))
                places = _focus.places;
    if (!places.empty())
        sayNothingWrong(places, item.last);
}

} // namespace ramplight::spoken
