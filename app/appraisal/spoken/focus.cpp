// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "appraisal/spoken/discourse.h"

#include <algorithm>
#include <utility>

// Which place is spoken of.
namespace ramplight::spoken {

/// The walk turns to a side or an end; nothing is said of a place yet.
void Discourse::heading(const Naming& naming)
{
    for (const Position& position : naming.positions) {
        if (const auto side = sideOf(position)) {
            m_side = side;
            m_along = true;
        } else if (position.axle != Axle::None) {
            m_along = false;
        }
        if (position.axle != Axle::None)
            m_axle = position.axle;
    }
    m_focus.places.clear();
    ++m_run;
}

bool Discourse::speaks(std::size_t i) const
{
    const Item* next = at(i + 1);
    if (next != nullptr && next->before == Break::None && next->first - m_items[i].last <= 2 &&
        (next->kind == Item::Kind::Condition || next->kind == Item::Kind::Number ||
         next->is(Cue::Sound) || next->is(Cue::Tidy) || next->is(Cue::Working)))
        return true;
    const std::uint32_t behind = m_items[i].last + 1;
    return behind < m_speech.tokens.size() && m_speech.tokens[behind].before == Break::None &&
           m_lexicon.wordIs(m_speech.tokens[behind].word, Cue::Is);
}

/// What a named place leaves behind for places named less fully after it.
void Discourse::carry(const Naming& naming, const Resolved& resolved)
{
    if (resolved.base < 0)
        return;
    const Base& base = m_lexicon.base(resolved.base);
    if (base.sides)
        for (const Position& position : naming.positions)
            if (position.sideSaid && position.side != SideWord::This)
                if (const auto side = sideOf(position)) {
                    m_along = m_along && m_side == side;
                    m_side = side;
                    if (naming.positions.size() == 1 && base.kind != "seat")
                        m_along = true;
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
        m_axle = *axle;
    // "Tyres, five front, four rear" while going along a side
    const bool topic = base.kind == "tyre" && !naming.amountSaid;
    if (base.sides && resolved.places.size() == base.members.size() && !base.group && !topic)
        m_along = false;
    if (!base.sides && (base.kind == "body" || base.kind == "glass") && !base.part)
        m_along = false;
    if (base.kind == "interior" || base.kind == "seat")
        m_inside = true;
    else if (base.kind == "body" && !(base.sides && base.insideBase >= 0))
        m_inside = false;
}

void Discourse::setFocus(std::size_t i, const Resolved& resolved, bool join)
{
    const Item& item = m_items[i];
    if (join) {
        m_focus.lastPart = m_focus.places.size();
        for (const Place place : resolved.places)
            if (std::ranges::find(m_focus.places, place) == m_focus.places.end())
                m_focus.places.push_back(place);
        m_focus.several = true;
        m_focus.list = true;
    } else {
        m_before = std::exchange(m_focus, {});
        m_focus.places = resolved.places;
        m_focus.several = resolved.places.size() > 1;
        m_focus.first = item.first;
        m_focus.sentence = m_sentence;
        ++m_run;
    }
    m_focus.base = resolved.base;
    m_focus.last = item.last;
    m_focus.axled = std::ranges::any_of(naming(item).positions, [](const Position& position) {
        return position.axle != Axle::None;
    });
    m_focus.guessed = resolved.guessed;
    m_focus.part = m_lexicon.base(resolved.base).part;
    for (const Place place : resolved.places)
        m_mentioned[std::size_t(place)] = 1;
}

/// "Near side then.": a position alone, and the next thing said names a place of its own.
bool Discourse::isHeading(std::size_t i) const
{
    const Naming& it = naming(m_items[i]);
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

/// "Load area. The floor's all scratched": of what the sentence before was about.
bool Discourse::isPart(std::size_t i) const
{
    const Item& item = m_items[i];
    const Base& its = m_lexicon.base(naming(item).base);
    return item.first > 0 && m_lexicon.isArticle(m_speech.tokens[item.first - 1].word) &&
           fresh(item.first, 10) && its.kind == "interior" && m_focus.statements <= 1;
}

/// Whether a defect, praise or work of its own follows a place in its clause.
bool Discourse::says(std::size_t i) const
{
    const Item* next = at(i + 1);
    return next != nullptr && next->before == Break::None && next->first - m_items[i].last <= 3 &&
           (next->kind == Item::Kind::Condition || next->kind == Item::Kind::Remedy ||
            next->is(Cue::Sound) || next->is(Cue::Working));
}

/// "that needs a camera", "needs clutch": the place is the part to be fitted.
bool Discourse::isOrdered(std::size_t i) const
{
    const Item& item = m_items[i];
    if (item.first < 2 || item.before != Break::None || naming(item).base < 0)
        return false;
    std::uint32_t t = item.first - 1;
    const NumberWord* number = m_lexicon.number(m_speech.tokens[t].word);
    if (number != nullptr && number->kind == NumberWord::Kind::Article)
        --t;
    const WordId word = m_speech.tokens[t].word;
    return m_speech.tokens[t + 1].before == Break::None && m_lexicon.wordIs(word, Cue::Want) &&
           m_lexicon.wordIs(word, Cue::Is);
}

void Discourse::onPlace(std::size_t i)
{
    const Item& item = m_items[i];
    const Naming& it = naming(item);
    if (item.lead == Lead::Beside)
        return;
    // "a crease from the lamp to the arch": only how far it goes
    if (item.lead == Lead::On && item.before == Break::None && i > 1 && m_taken[i - 1] == 0 &&
        m_items[i - 1].kind == Item::Kind::Place && m_items[i - 1].lead == Lead::From &&
        m_items[i - 1].before == Break::None && m_items[i - 2].kind == Item::Kind::Condition &&
        it.base >= 0 && !speaks(i) && !m_focus.places.empty())
        return;
    // "the same rust as the other side": only what it is like
    if (item.first > 1 && i > 1 && cueBefore(m_items, i, Cue::Same, 5) &&
        m_items[i - 1].kind == Item::Kind::Condition && m_items[i - 1].last + 2 >= item.first - 1 &&
        (m_lexicon.wordIs(m_speech.tokens[item.first - 1].word, Cue::Talk) ||
         m_lexicon.wordIs(m_speech.tokens[item.first - 2].word, Cue::Talk)))
        return;
    if (item.before == Break::None && item.first < m_asideUntil)
        return;
    if (it.base >= 0 && m_lexicon.base(it.base).opening && i > 0 &&
        (item.lead != Lead::None || item.before == Break::None))
        return;
    if (it.base < 0 && it.amountSaid && it.amount != Amount::Rest && it.amount != Amount::Other &&
        !it.positions.front().sideSaid && it.positions.front().axle == Axle::None) {
        // "all four of them": the same kind of place, all of it
        if (it.amount == Amount::All && !m_focus.places.empty() && !m_focus.rest &&
            m_focus.base >= 0 && m_lexicon.base(m_focus.base).members.size() > 2 &&
            m_focus.statements == 0) {
            m_focus.places = placesOf(m_focus.base);
            m_focus.several = true;
        }
        // "On the passenger side, now, they're both kerbed": both of what was spoken of, there
        if (it.amount == Amount::Both && m_focus.places.empty() && m_topic >= 0 && m_side &&
            m_along && m_lexicon.base(m_topic).sides && m_lexicon.base(m_topic).axles) {
            Naming meant = it;
            meant.base = m_topic;
            meant.positions.front().sideSaid = true;
            meant.positions.front().side = SideWord::This;
            if (const Resolved resolved = resolve(meant); !resolved.places.empty())
                setFocus(i, resolved, false);
        }
        // "front door keyed all along and on to the wing, both of them scratched badly"
        if (it.amount == Amount::Both && m_focus.places.size() == 1 && m_focus.statements == 0 &&
            fresh(item.first, 12) && m_before.statements == 0 && m_before.places.size() == 1 &&
            m_before.base >= 0 && m_before.base != m_focus.base &&
            m_focus.first - m_before.last <= 20 &&
            m_lexicon.base(m_before.base).kind == m_lexicon.base(m_focus.base).kind)
            m_focus.places.insert(m_focus.places.begin(), m_before.places.front());
        m_focus.several = m_focus.several || m_focus.places.size() > 1;
        if (fresh(item.first, 30))
            m_focus.last = item.last;
        return;
    }
    if (narrows(i) || widens(i))
        return;
    // "Fronts five, rears six" before anybody said tyre
    if (const Item* next = at(i + 1);
        it.base < 0 && !tellsApart(m_topic, it) && next != nullptr &&
        next->kind == Item::Kind::Number && next->before != Break::Strong &&
        next->first - item.last <= 4 && next->id >= 10 && next->id <= 110 &&
        (it.positions.front().severalAxle ||
         (it.positions.front().sideSaid && it.positions.front().axle != Axle::None))) {
        const Item* unit = at(i + 2);
        const bool depth = unit == nullptr || unit->is(Cue::Depth) ||
                           unit->kind == Item::Kind::Place || unit->kind == Item::Kind::Number ||
                           unit->before == Break::Strong;
        if (depth)
            m_topic = m_lexicon.baseNamed("tyre");
    }
    if (isHeading(i)) {
        // A corner of the place that is spoken of is no new place.
        const Item* next = at(i + 1);
        const bool aside = m_speech.tokens[item.first].before == Break::Weak &&
                           it.positions.front().axle == Axle::None && fresh(item.first, 12);
        const bool corner = !m_focus.places.empty() && (item.before != Break::Strong || aside) &&
                            !(next != nullptr && next->kind == Item::Kind::Place &&
                              naming(*next).base >= 0 && next->lead == Lead::None);
        if (it.positions.front().sideSaid && it.positions.front().axle != Axle::None &&
            m_focus.statements == 0 && fresh(item.first, 6) && next != nullptr &&
            next->kind != Item::Kind::Place)
            return; // "Windows. The passenger rear doesn't come up": one of what is one place
        if (it.one && !m_focus.places.empty() && fresh(item.first, 30))
            return; // "the near side one's dropped": one of two that are one place here
        if (!corner)
            heading(it);
        else if (const auto side = sideOf(it.positions.front()))
            m_side = side;
        return;
    }
    // "the rear one's bald, so that's a tyre": one of what waits for its work
    if (const NumberWord* number = item.first > 1 && it.base >= 0 && item.before == Break::None
                                       ? m_lexicon.number(m_speech.tokens[item.first - 1].word)
                                       : nullptr;
        i > 0 && !speaks(i) &&
        (isOrdered(i) || (number != nullptr && number->kind == NumberWord::Kind::Article)) &&
        it.base >= 0 && !m_lexicon.base(it.base).part && !isNegated(i) && !isSupposed(i) &&
        !isHistory(i) && !isAsked(i) && item.lead == Lead::None && !says(i)) {
        const std::vector<std::size_t> open = openDrafts(i, false);
        const std::vector<Place> meant = echoes(it) ? m_focus.places : resolve(it).places;
        if (std::ranges::any_of(open, [&](std::size_t d) {
                return item.first - m_drafts[d].last <= 20 &&
                       std::ranges::find(meant, m_drafts[d].place) != meant.end();
            })) {
            m_taken[i] = 1;
            applyRemedy(i, {Remedy::Replace}, 0);
            return;
        }
    }
    if (echoes(it) && fresh(item.first, 30) &&
        !(item.before == Break::Strong && naming(item).base != m_focus.base && !isPart(i))) {
        m_focus.last = item.last;
        const std::string& kind = m_lexicon.base(it.base).kind;
        if ((item.before != Break::None || item.butBefore) &&
            (kind == "body" || kind == "glass" || kind == "lamp" || kind == "system") &&
            it.base == m_focus.base)
            m_focus.statements = 0; // named again: what follows is said anew
        if (const auto& remedy = m_lexicon.base(it.base).remedy;
            remedy && !openDrafts(i, false).empty())
            applyRemedy(i, {*remedy}, 0);
        if (m_lexicon.base(it.base).name.ends_with("trim"))
            m_trims = true;
        return;
    }
    // "there's seven seats in it": a number of them, not these
    if (i > 0 && m_items[i - 1].kind == Item::Kind::Number && m_items[i - 1].id >= 30 &&
        it.several && item.first - m_items[i - 1].last == 1 && item.before == Break::None)
        return;
    const Resolved resolved = resolve(it);
    if (resolved.places.empty())
        return;
    if (extends(i)) {
        extend(i);
        return;
    }
    if (movesTo(i) || filedUnder(i))
        return;
    if (isOrdered(i) && i > 0 && !isNegated(i) && !isSupposed(i)) {
        const bool found = std::ranges::any_of(m_drafts, [&](const Draft& draft) {
            return draft.alive && item.first - draft.last <= 60 &&
                   std::ranges::find(resolved.places, draft.place) != resolved.places.end();
        });
        applyRemedy(i - 1, {Remedy::Replace}, found || openDrafts(i, false).empty() ? i : 0);
        m_taken[i] = 1;
        return;
    }
    // "never been on the floor": a circumstance of what is spoken of.
    if (item.lead == Lead::From ||
        (item.lead == Lead::On && item.before == Break::None && m_focus.statements == 0 &&
         fresh(item.first, 12) && i > 0 && m_items[i - 1].kind != Item::Kind::Place))
        return;
    const Base& base = m_lexicon.base(resolved.base);
    m_van = m_van || base.name == "slider";
    if (it.base >= 0 && m_lexicon.base(it.base).name.ends_with("trim"))
        m_trims = true;
    if (base.name == "warning-lamps" && i > 0 && item.first - m_items[i - 1].last <= 2 &&
        item.before == Break::None &&
        (m_items[i - 1].is(Cue::No) || m_items[i - 1].is(Cue::Negation))) {
        setFocus(i, resolved, false);
        for (Draft& draft : m_drafts)
            if (draft.remedies.empty() &&
                std::ranges::find(resolved.places, draft.place) != resolved.places.end())
                draft.alive = false;
        sayNothingWrong(resolved.places, item.last);
        if (const Item* next = at(i + 1);
            next != nullptr && next->kind == Item::Kind::Condition && next->before == Break::None)
            m_taken[i + 1] = 1;
        return;
    }
    if (it.base >= 0 && resolved.places == m_focus.places && fresh(item.first, 30) &&
        item.before != Break::Strong) {
        m_focus.last = item.last;
        return;
    }
    const bool moved = m_corrected && item.first - m_correctedAt <= 8 && m_focus.statements > 0 &&
                       item.before != Break::Strong &&
                       (m_statementSentence == m_sentence ||
                        (item.lead == Lead::On && m_statementSentence + 1 == m_sentence));
    carry(it, resolved);
    if (it.base >= 0)
        m_topic = topicOf(resolved.base);
    if (moved) {
        // "a dent in the near side wing, sorry, off side wing": what was said moves along.
        if (std::ranges::count_if(m_drafts, [&](const Draft& d) { return justSaid(d); }) > 1)
            return;
        for (Draft& draft : m_drafts)
            if (justSaid(draft))
                draft.place = resolved.places.front();
        m_corrected = false;
        m_focus.places = resolved.places;
        m_focus.base = resolved.base;
        m_focus.last = item.last;
        for (const Place place : resolved.places)
            m_mentioned[std::size_t(place)] = 1;
        return;
    }
    // "Rear bumper, the sensor's pushed in", "the glass in the off side mirror": the first only
    // leads to the second, or is a part of it
    const Naming* before =
        i > 0 && m_items[i - 1].kind == Item::Kind::Place ? &naming(m_items[i - 1]) : nullptr;
    const bool leads = before != nullptr && before->base >= 0 && it.base >= 0 && !item.andBefore &&
                       ((item.before == Break::Weak && speaks(i) && base.kind == "system" &&
                         m_lexicon.base(before->base).kind != base.kind) ||
                        (item.lead == Lead::On &&
                         std::ranges::find(m_lexicon.base(before->base).partOf, base.name) !=
                             m_lexicon.base(before->base).partOf.end()));
    const bool list = !leads && !m_focus.places.empty() && m_focus.statements == 0 &&
                      item.before != Break::Strong && i > 0 && m_taken[i - 1] == 0 &&
                      m_items[i - 1].kind == Item::Kind::Place && !m_corrected &&
                      (naming(m_items[i - 1]).base >= 0 || !naming(m_items[i - 1]).amountSaid);
    const auto corner = [](const Naming& one) {
        return one.positions.front().sideSaid && one.positions.front().axle != Axle::None;
    };
    const bool corners = it.base < 0 && corner(it) && list && naming(m_items[i - 1]).base < 0 &&
                         corner(naming(m_items[i - 1]));
    const bool refine = list && !item.andBefore && !corners &&
                        (it.base < 0 || (it.base == m_focus.base && it.positions.front().sideSaid));
    setFocus(i, resolved, list && !refine);
    if (list && item.andBefore)
        m_focus.lastPart = 0;
    m_focus.rest = it.amountSaid && it.amount == Amount::Rest;
    // "there's an airbag light"
    if (base.name == "warning-lamps" && i > 0 && m_items[i - 1].is(Cue::Still) &&
        item.before != Break::Strong && item.first - m_items[i - 1].last <= 2 && !isSupposed(i) &&
        !isHistory(i) && !isAsked(i)) {
        ConditionWords lit;
        lit.id = Condition::Lit;
        addFindings(i, m_focus.places, lit, 0.1);
    }
}

} // namespace ramplight::spoken
