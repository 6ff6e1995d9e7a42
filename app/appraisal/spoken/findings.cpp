// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "appraisal/spoken/discourse.h"

#include <algorithm>

namespace ramplight::spoken {

namespace {

bool isInsideCondition(Condition condition)
{
    switch (condition) {
    case Condition::Dirty:
    case Condition::Stain:
    case Condition::Odour:
    case Condition::Leak:
    case Condition::Tear:
    case Condition::Wear:
    case Condition::Contamination:
    case Condition::Burn:
        return true;
    default:
        return false;
    }
}

bool isWorking(Condition condition)
{
    return condition == Condition::Inoperative || condition == Condition::Noise;
}

bool isOfTyre(Condition condition)
{
    switch (condition) {
    case Condition::Bulge:
    case Condition::Perished:
    case Condition::Worn:
    case Condition::Cut:
    case Condition::Flat:
    case Condition::Wear:
        return true;
    default:
        return false;
    }
}

bool isOfWheel(Condition condition)
{
    switch (condition) {
    case Condition::Kerbed:
    case Condition::Scuff:
    case Condition::Scratch:
    case Condition::Corrosion:
    case Condition::Dent:
    case Condition::Chip:
    case Condition::Peel:
    case Condition::Missing:
    case Condition::PreviousRepair:
    case Condition::Overspray:
    case Condition::Contamination:
    case Condition::Dirty:
    case Condition::Fade:
        return true;
    default:
        return false;
    }
}

} // namespace

// ---- how a statement is meant

/// "no dents", "not a mark", "without any chips or scratches".
bool Discourse::isNegated(std::size_t i) const
{
    const Item* item = &_items[i];
    // Behind: "scratches, none".
    if (const Item* next = at(i + 1);
        next != nullptr && next->is(Cue::None) && next->first - item->last <= 2)
        return true;
    for (std::size_t k = i; k-- > 0;) {
        const Item& before = _items[k];
        const bool linked = item->orBefore || (item->before != Break::Strong &&
                                               before.kind == Item::Kind::Condition &&
                                               item->kind == Item::Kind::Condition &&
                                               !(item->before == Break::Weak && item->extra == 1) &&
                                               item->first - before.last <= 2 && !item->butBefore);
        if (item->before == Break::Strong || item->turn || item->butBefore ||
            (_items[i].kind == Item::Kind::Remedy && item->andBefore))
            return false;
        // "oh no, dog hair" denies nothing
        if (before.is(Cue::So))
            return false;
        if (before.is(Cue::No) && before.last != before.first)
            return false;
        if (before.is(Cue::Negation) || before.is(Cue::No))
            return item->before == Break::None && item->first - before.last <= 6;
        if (before.kind == Item::Kind::Condition) {
            if (!linked)
                return false;
        } else if (before.kind != Item::Kind::Severity && before.kind != Item::Kind::Number &&
                   !before.is(Cue::Any) && !before.is(Cue::Want) && !before.is(Cue::Another) &&
                   !before.is(Cue::It) && !before.is(Cue::Them)) {
            return false;
        } else if (item->before == Break::Weak) {
            return false;
        }
        item = &before;
        if (i - k > 6)
            return false;
    }
    return false;
}

/// A cue of this kind before the item, in the same sentence and near.
static bool cueBefore(const std::vector<Item>& items, std::size_t i, Cue cue, std::uint32_t reach)
{
    const std::uint32_t token = items[i].first;
    for (std::size_t k = i; k-- > 0 && i - k <= 8;) {
        const Item& behind = items[k + 1];
        if (behind.before == Break::Strong || behind.turn || behind.butBefore)
            return false;
        if (token - items[k].last > reach)
            return false;
        if (items[k].is(cue))
            return true;
    }
    return false;
}

bool Discourse::isSupposed(std::size_t i) const
{
    return cueBefore(_items, i, Cue::Supposed, _speech.punctuated ? 18 : 9);
}

bool Discourse::isHistory(std::size_t i) const
{
    if (cueBefore(_items, i, Cue::History, 7))
        return true;
    const Item* next = at(i + 1);
    return next != nullptr && next->is(Cue::History) && next->before == Break::None &&
           next->first - _items[i].last <= 4;
}

bool Discourse::isAsked(std::size_t i) const
{
    const auto& tokens = _speech.tokens;
    if (cueBefore(_items, i, Cue::Any, 4))
        return true;
    // "a big one is that, so ..." asks nothing
    for (std::size_t k = i; k-- > 0 && i - k <= 6 && _items[k + 1].before != Break::Strong &&
                            !_items[k + 1].turn && _items[i].first - _items[k].last <= 8;)
        if (_items[k].is(Cue::Question))
            return tokens[_items[k].last + 1].before == Break::None;
    for (std::uint32_t t = _items[i].last; t < tokens.size() && t < _items[i].last + 14; ++t) {
        if (t > _items[i].last && tokens[t].before == Break::Strong)
            return false;
        if (tokens[t].asks)
            return true;
    }
    return false;
}

int Discourse::countBefore(std::size_t i) const
{
    for (std::size_t k = i; k-- > 0 && i - k <= 2;) {
        const Item& before = _items[k];
        if (_items[i].first - before.last > 3 || _items[k + 1].before == Break::Strong)
            return -1;
        if (before.kind == Item::Kind::Number)
            return before.id % 10 == 0 && before.id < 1000 ? before.id / 10 : -1;
        if (before.kind != Item::Kind::Severity)
            return -1;
    }
    return -1;
}

// ---- defects

Condition Discourse::conditionOn(Place place, const ConditionWords& words) const
{
    const PlaceInfo& info = allPlaces()[std::size_t(place)];
    if (_trims && info.kind == PlaceKind::Wheel && words.id == Condition::Scuff)
        return words.id;
    for (const auto& [what, condition] : words.on)
        for (const Base& base : _lexicon.bases())
            if (base.kind == what || base.name == what)
                for (const Member& member : base.members)
                    if (member.place == info.id && !base.group)
                        return condition;
    return words.id;
}

/// The places that a defect can be on: a bulge on the wheel is on its tyre.
std::vector<Place> Discourse::fitting(std::vector<Place> places, int base,
                                      const ConditionWords& words, bool& bent) const
{
    if (base >= 0) {
        const Base& it = _lexicon.base(base);
        if (it.insideBase >= 0 && (isInsideCondition(words.id) || _inside))
            places = placesOf(it.insideBase);
        if (it.workBase >= 0 && isWorking(words.id))
            places = placesOf(it.workBase);
        if (it.kind == "wheel" && isOfTyre(words.id) &&
            std::ranges::none_of(words.only, [](const auto& k) { return k == "wheel"; }))
            places = through(places, true);
        else if (it.kind == "tyre" && isOfWheel(words.id))
            places = through(places, false);
    }
    if (words.only.empty())
        return places;
    const auto allowed = [&](Place place) {
        const PlaceId& id = allPlaces()[std::size_t(place)].id;
        return std::ranges::any_of(_lexicon.bases(), [&](const Base& one) {
            return !one.group &&
                   (std::ranges::find(words.only, one.kind) != words.only.end() ||
                    std::ranges::find(words.only, one.name) != words.only.end()) &&
                   std::ranges::any_of(one.members, [&](const Member& m) { return m.place == id; });
        });
    };
    std::vector<Place> fit;
    for (const Place place : places)
        if (allowed(place))
            fit.push_back(place);
    if (fit.empty() && words.base >= 0 && words.bends && !places.empty()) {
        Naming meant;
        meant.positions.emplace_back();
        meant.base = words.base;
        bent = true;
        fit = resolve(meant).places;
    }
    return fit;
}

std::size_t Discourse::keep(const Draft& draft)
{
    const auto dead = std::ranges::find_if(_drafts, [&](const Draft& other) {
        return !other.alive && other.place == draft.place && other.condition == draft.condition;
    });
    if (dead != _drafts.end()) {
        *dead = draft;
        return std::size_t(dead - _drafts.begin());
    }
    _drafts.push_back(draft);
    return _drafts.size() - 1;
}

void Discourse::addFindings(std::size_t i, const std::vector<Place>& places,
                            const ConditionWords& words, double doubt)
{
    const Item& item = _items[i];
    // A correction or "well, more of a ..." puts another word for the same thing.
    if (_corrected && item.first - _correctedAt <= 6 &&
        std::ranges::any_of(_drafts, [&](const Draft& draft) {
            return draft.alive && draft.statement == _statement && draft.run == _run;
        })) {
        for (Draft& draft : _drafts)
            if (draft.statement == _statement)
                draft.alive = false;
        _corrected = false;
    }
    // A more exact word takes the place of "sticky".
    for (Draft& draft : _drafts)
        if (draft.alive && draft.weak && !words.weak && draft.run == _run &&
            draft.remedies.empty() && item.first - draft.last <= 14 &&
            std::ranges::find(places, draft.place) != places.end())
            draft.alive = false;
    ++_statement;
    const int count = countBefore(i);
    std::optional<Severity> severity = words.severity;
    for (std::size_t k = i; k-- > 0 && i - k <= 2 && _items[k + 1].before == Break::None;)
        if (_items[k].kind == Item::Kind::Severity && item.first - _items[k].last <= 3)
            severity = Severity(_items[k].id);
    _stated = {Stated::Kind::Finding, places, {}, 0, 0, item.last};
    for (const Place place : places) {
        const Condition condition = conditionOn(place, words);
        auto known = std::ranges::find_if(_drafts, [&](const Draft& draft) {
            return draft.alive && draft.place == place && draft.condition == condition;
        });
        if (known == _drafts.end()) {
            Draft draft;
            draft.place = place;
            draft.condition = condition;
            draft.first = std::min(item.first, _focus.places.empty()            ? item.first
                                               : item.first - _focus.first < 25 ? _focus.first
                                                                                : item.first);
            known = _drafts.begin() + std::ptrdiff_t(keep(draft));
            known->doubt = doubt;
            known->weak = words.weak;
            if (count > 0)
                known->count = count;
        }
        known->run = _run;
        known->statement = _statement;
        known->sentence = _sentence;
        known->last = std::max(known->last, item.last);
        if (severity)
            known->severity = severity;
        if (_speech.tokens[item.first].mended)
            known->doubt += 0.05;
        _mentioned[std::size_t(place)] = 1;
        _stated.drafts.push_back(std::size_t(known - _drafts.begin()));
        claimPending(std::size_t(known - _drafts.begin()));
    }
    ++_focus.statements;
    _statementSentence = _sentence;
    _focus.last = std::max(_focus.last, item.last);
}

void Discourse::onCondition(std::size_t i)
{
    const Item& item = _items[i];
    const ConditionWords& words = _lexicon.condition(item.id);
    // "that's dirt, it's coming off": still of what was taken back
    if (_retractedAt != 0 && item.first - _retractedAt <= 8 && item.before != Break::Strong &&
        (words.id == Condition::Loose || words.id == Condition::Dirty ||
         words.id == Condition::Contamination))
        return;
    if (i > 0 && _items[i - 1].is(Cue::Me) && item.first - _items[i - 1].last <= 2 &&
        item.before == Break::None)
        return;
    // "sticky marks", "rusty scratch": the more exact of the two is meant.
    if (const Item* next = at(i + 1); next != nullptr && item.extra == 1 &&
                                      next->kind == Item::Kind::Condition && next->extra == 0 &&
                                      next->first == item.last + 1 && next->before == Break::None) {
        if (!_lexicon.condition(next->id).weak)
            return;
        _taken[i + 1] = 1;
    }
    // "kerb nicks"
    if (const Item* next = at(i + 1); next != nullptr && words.id == Condition::Kerbed &&
                                      next->kind == Item::Kind::Condition &&
                                      next->first == item.last + 1 && next->before == Break::None)
        _taken[i + 1] = 1;
    if (words.weak && std::ranges::any_of(_drafts, [&](const Draft& draft) {
            return draft.alive && draft.run == _run && draft.sentence == _sentence &&
                   !(i > 0 && item.andBefore);
        }))
        return;
    std::vector<Place> places;
    int base = _focus.base;
    double doubt = 0;
    const std::size_t behind = placeBehind(i, item.extra == 1);
    if (words.always && words.base >= 0) {
        Naming meant;
        meant.positions.emplace_back();
        meant.base = words.base;
        const Resolved resolved = resolve(meant);
        places = resolved.places;
        base = resolved.base;
        if (places != _focus.places) {
            _focus = {};
            _focus.places = places;
            _focus.base = base;
            _focus.first = _focus.last = item.first;
            ++_run;
        }
    } else if (behind != 0) {
        // "down the off side, across both doors": the side holds for the doors.
        for (std::size_t k = i + 1; k < behind; ++k)
            if (_items[k].kind == Item::Kind::Place && naming(_items[k]).base < 0) {
                if (const auto side = sideOf(naming(_items[k]).positions.front()))
                    _side = side;
                _along = true;
                _taken[k] = 1;
            }
        const Naming& it = naming(_items[behind]);
        const Resolved resolved = resolve(it);
        const bool part = echoes(it) && fresh(item.first, 30);
        const bool corner = it.base < 0 && !_focus.places.empty() && !tellsApart(_focus.base, it);
        if (!resolved.places.empty() && !part && !corner) {
            _taken[behind] = 1;
            carry(it, resolved);
            if (it.base >= 0)
                _topic = resolved.base;
            setFocus(behind, resolved, false);
            _focus.first = std::min(_focus.first, item.first);
            places = resolved.places;
            base = resolved.base;
        } else {
            _taken[behind] = 1;
            if (corner)
                if (const auto side = sideOf(it.positions.front()))
                    _side = side;
        }
    }
    if (places.empty()) {
        const bool singular = !isNegated(i) && item.extra == 0;
        places = focusPlaces(singular);
        base = _focus.base;
        if (!fresh(item.first, 25))
            doubt += 0.1;
        if (!fresh(item.first, item.extra == 1 ? 30 : 55))
            places.clear();
    }
    if (_focus.guessed)
        doubt += 0.15;
    // "one trim missing, off side front": which of them comes behind.
    if (const Item* next = at(i + 1);
        behind == 0 && places.size() > 1 && base >= 0 && !_lexicon.base(base).group &&
        next != nullptr && next->kind == Item::Kind::Place && next->before == Break::Weak &&
        next->lead == Lead::None && naming(*next).base < 0 && !naming(*next).amountSaid &&
        naming(*next).positions.front().axle != Axle::None && tellsApart(base, naming(*next))) {
        const Item* after = at(i + 2);
        const std::uint32_t behindIt = next->last + 1;
        const WordId is = _lexicon.word("'s");
        const bool own =
            (after != nullptr && after->before == Break::None && after->kind != Item::Kind::Cue) ||
            (behindIt < _speech.tokens.size() && is != 0 && _speech.tokens[behindIt].word == is);
        if (!own) {
            Naming meant = naming(*next);
            meant.base = base;
            const Resolved resolved = resolve(meant);
            if (!resolved.places.empty()) {
                _taken[i + 1] = 1;
                carry(meant, resolved);
                places = resolved.places;
            }
        }
    }
    bool bent = false;
    std::vector<Place> fit = fitting(places, base, words, bent);
    if (fit.empty() && places.empty() && words.base >= 0 && words.bends) {
        Naming meant;
        meant.positions.emplace_back();
        meant.base = words.base;
        fit = resolve(meant).places;
        bent = true;
    }
    if (bent)
        doubt += 0.15;
    if (fit.empty())
        return;
    if (bent && _focus.places.empty()) {
        _focus.places = fit;
        _focus.base = words.base;
        _focus.first = _focus.last = item.first;
        _focus.statements = 0;
        ++_run;
        _topic = words.base;
    }
    // "the tear wants stitching": the one that was spoken of before
    if (item.extra == 0 && item.first > 0 && _focus.statements > 0 &&
        _lexicon.isArticle(_speech.tokens[item.first - 1].word) && behind == 0) {
        const auto old = std::ranges::find_if(_drafts, [&](const Draft& draft) {
            return draft.alive && draft.condition == conditionOn(draft.place, words) &&
                   draft.run != _run && item.first - draft.last <= 90 &&
                   std::ranges::find(fit, draft.place) == fit.end();
        });
        if (old != _drafts.end()) {
            old->run = _run;
            old->last = item.last;
            return;
        }
    }
    // Peppered with chips is one thing.
    if (words.id == Condition::Chip && std::ranges::any_of(_drafts, [&](const Draft& draft) {
            return draft.alive && draft.condition == Condition::Pepper && draft.run == _run;
        }))
        return;
    // "only straw": what was taken for a defect was dirt.
    if ((words.id == Condition::Dirty || words.id == Condition::Contamination) && item.first > 0 &&
        _lexicon.wordIs(_speech.tokens[item.first - 1].word, Cue::Want) && item.extra == 0 &&
        (cueBefore(_items, i, Cue::But, 1) || std::ranges::any_of(_drafts, [&](const Draft& draft) {
             return draft.alive && draft.run == _run && draft.remedies.empty() &&
                    item.first - draft.last <= 12 && draft.condition != words.id;
         }))) {
        retract(i, true);
        return;
    }
    // What only says more of the same: "not working, it's jammed".
    if (!item.andBefore && std::ranges::any_of(_drafts, [&](const Draft& draft) {
            const bool more =
                (draft.condition == Condition::Inoperative && words.id == Condition::Broken) ||
                (draft.condition == Condition::Broken &&
                 (words.id == Condition::Loose || words.id == Condition::Inoperative)) ||
                (draft.condition == Condition::Missing &&
                 (words.id == Condition::Hole || words.id == Condition::Loose)) ||
                (draft.condition == Condition::Loose && words.id == Condition::Misaligned) ||
                (draft.condition == Condition::Kerbed &&
                 (words.id == Condition::Chip || words.id == Condition::Mark));
            return draft.alive && more && draft.run == _run && item.first - draft.last <= 12 &&
                   std::ranges::find(fit, draft.place) != fit.end();
        }))
        return;
    const bool denied = words.always && i > 0 && item.first - _items[i - 1].last <= 1 &&
                        (_items[i - 1].is(Cue::No) || _items[i - 1].is(Cue::Negation));
    if (words.always ? denied : isNegated(i)) {
        // "no crack after all"
        for (Draft& draft : _drafts)
            if (draft.alive && (draft.remedies.empty() || draft.borrowed) &&
                draft.condition == conditionOn(draft.place, words) &&
                std::ranges::find(fit, draft.place) != fit.end())
                draft.alive = false;
        sayNothingWrong(fit, item.last);
        return;
    }
    // "has to be painted before I fit it" is work, too
    if (words.id == Condition::PreviousRepair && item.extra == 1 && i > 0 &&
        _items[i - 1].is(Cue::Want) && item.first - _items[i - 1].last <= 1) {
        applyRemedy(i, {Remedy::Refinish}, 0);
        return;
    }
    // "that's gonna be filler and paint" is work
    if (words.id == Condition::PreviousRepair && item.extra == 0 && wantedBefore(i))
        return;
    if (isSupposed(i)) {
        _supposed = fit;
        _supposedAt = item.last;
        return;
    }
    if (isHistory(i))
        return;
    if (isAsked(i)) {
        _asked = {i, fit, true};
        _lastAsked = i;
        _askedOnce = true;
        return;
    }
    _asked.open = false;
    addFindings(i, fit, words, doubt);
}

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

void Discourse::onSeverity(std::size_t i)
{
    const Item& item = _items[i];
    if (_drafts.empty() || item.before == Break::Strong)
        return;
    for (Draft& draft : _drafts)
        if (draft.alive && draft.statement == _statement && draft.run == _run &&
            item.first - draft.last <= 8 && !draft.severity) {
            draft.severity = Severity(item.id);
        }
}

// ---- good order

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

// ---- "the same"

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
