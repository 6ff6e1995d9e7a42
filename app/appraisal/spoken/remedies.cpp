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

/// Work that is never done to a defect: nobody cleans a tear or pulls a stain.
bool isAbsurd(Remedy remedy, Condition condition)
{
    const auto any = [&](std::initializer_list<Condition> these) {
        return std::ranges::find(these, condition) != these.end();
    };
    switch (remedy) {
    case Remedy::Clean:
        return any({Condition::Tear, Condition::Crack, Condition::Broken, Condition::Hole,
                    Condition::Dent, Condition::Missing, Condition::Burn, Condition::Loose,
                    Condition::Kerbed, Condition::Chip});
    case Remedy::DentRepair:
        return any({Condition::Stain, Condition::Dirty, Condition::Tear, Condition::Odour,
                    Condition::Chip, Condition::Scratch, Condition::Missing, Condition::Worn,
                    Condition::Cut, Condition::Flat, Condition::Lit, Condition::Noise,
                    Condition::Leak, Condition::Fade, Condition::Kerbed, Condition::Crack});
    case Remedy::TouchIn:
        return any({Condition::Dent, Condition::Tear, Condition::Stain, Condition::Dirty,
                    Condition::Broken, Condition::Missing, Condition::Odour, Condition::Loose});
    case Remedy::Recharge:
        return !any({Condition::Inoperative, Condition::Flat, Condition::Leak, Condition::Worn,
                     Condition::Noise, Condition::Lit});
    case Remedy::Refurbish:
        return any({Condition::Dent, Condition::Missing, Condition::Stain, Condition::Dirty,
                    Condition::Odour, Condition::Worn, Condition::Cut, Condition::Bulge});
    case Remedy::Polish:
    case Remedy::FlatAndPolish:
        return any({Condition::Tear, Condition::Missing, Condition::Odour, Condition::Dent,
                    Condition::Broken, Condition::Loose, Condition::Hole, Condition::Crack,
                    Condition::Lit, Condition::Inoperative, Condition::Leak, Condition::Worn});
    case Remedy::Refinish:
        return any({Condition::Stain, Condition::Odour, Condition::Dirty, Condition::Lit,
                    Condition::Inoperative, Condition::Noise, Condition::Vibration, Condition::Flat,
                    Condition::Cut, Condition::Bulge, Condition::Tear});
    default:
        return false;
    }
}

} // namespace

/// A word of wanting right before: "needs", "that'll", "get it".
bool Discourse::wantedBefore(std::size_t i) const
{
    for (std::size_t k = i; k-- > 0 && i - k <= 3;) {
        if (m_items[k + 1].before == Break::Strong || m_items[i].first - m_items[k].last > 4)
            return false;
        if (m_items[k].is(Cue::Want) || m_items[k].is(Cue::So))
            return true;
    }
    return false;
}

/// Findings that still wait for work: of what is spoken of, or of several places.
std::vector<std::size_t> Discourse::openDrafts(std::size_t i, bool several) const
{
    std::vector<std::size_t> open;
    const std::uint32_t token = m_items[i].first;
    for (std::size_t d = m_drafts.size(); d-- > 0;) {
        const Draft& draft = m_drafts[d];
        if (!draft.alive)
            continue;
        if (token - draft.last > (several ? 60U : 45U))
            continue;
        const bool waiting = draft.remedies.empty() || draft.borrowed;
        if (waiting && (draft.run == m_run || several))
            open.push_back(d);
    }
    std::ranges::reverse(open);
    std::ranges::stable_sort(open, {}, [&](std::size_t d) { return m_drafts[d].last; });
    return open;
}

/// "All these, we paint", "these three we polish", "refurb the lot": said of a whole list.
bool Discourse::ofAll(std::size_t i) const
{
    if (const Item* next = at(i + 1);
        next != nullptr && next->kind == Item::Kind::Place && next->before == Break::None &&
        next->first - m_items[i].last <= 3 && naming(*next).base < 0 && naming(*next).amountSaid &&
        naming(*next).amount == Amount::All)
        return true;
    for (std::size_t k = i; k-- > 0 && i - k <= 3 && m_items[k + 1].before != Break::Strong;) {
        const Item& item = m_items[k];
        if (item.kind == Item::Kind::Number && item.id >= 30 && item.id <= 90 &&
            m_items[i].first - item.last <= 4)
            return true;
        if (item.kind == Item::Kind::Place && naming(item).base < 0 && naming(item).amountSaid &&
            naming(item).amount == Amount::All && m_items[i].first - item.last <= 5)
            return true;
    }
    return false;
}

void Discourse::applyRemedy(std::size_t i, const std::vector<Remedy>& ids, std::size_t object)
{
    const Item& item = m_items[i];
    std::vector<Place> places;
    int base = -1;
    if (object != 0) {
        const Resolved resolved = resolve(naming(m_items[object]));
        places = resolved.places;
        base = resolved.base;
        // "replace the spare", of which the tyre is perished
        if (base >= 0 && m_lexicon.base(base).name == "spare-wheel" &&
            std::ranges::none_of(m_drafts, [&](const Draft& draft) {
                return draft.alive && overlap(places, draft.place);
            }))
            places = through(places, true);
        m_taken[object] = 1;
        for (const Place place : places)
            m_mentioned[std::size_t(place)] = 1;
    }
    bool several = false;
    for (std::uint32_t t = item.first; t <= item.last; ++t)
        several = several || m_lexicon.wordIs(m_speech.tokens[t].word, Cue::Them);
    for (std::size_t k = i > 2 ? i - 2 : 0; k < m_items.size() && k <= i + 2; ++k)
        if (k != i &&
            (m_items[k].is(Cue::Them) ||
             (m_items[k].kind == Item::Kind::Place && naming(m_items[k]).base < 0 &&
              naming(m_items[k]).amountSaid && !naming(m_items[k]).positions.front().sideSaid)) &&
            (k < i
                 ? m_items[i].first - m_items[k].last <= 6 && m_items[k + 1].before != Break::Strong
                 : m_items[k].first - m_items[i].last <= 4 && m_items[k].before != Break::Strong))
            several = true;
    // "three to refurb", "refurb the three"
    for (const std::size_t k : {i - 1, i - 2, i + 1})
        if (k < m_items.size() && m_items[k].kind == Item::Kind::Number && m_items[k].id >= 20 &&
            m_items[k].id <= 50 &&
            (k < i ? item.first - m_items[k].last <= 3 && item.before != Break::Strong
                   : m_items[k].first - item.last <= 3 && m_items[k].before == Break::None))
            several = true;
    std::vector<std::size_t> open = openDrafts(i, several || object != 0);
    if (several && object == 0 && !open.empty()) {
        // Of several places only those with the same thing wrong, unless it is said of all.
        const Condition condition = m_drafts[open.back()].condition;
        std::erase_if(open, [&](std::size_t d) {
            return m_drafts[d].run != m_run && m_drafts[d].condition != condition && !ofAll(i);
        });
    }
    // "Stained, and a split in the seam. Clean it, and stitch it": each to what it mends.
    const auto absurd = [&](std::size_t d) {
        return std::ranges::all_of(ids,
                                   [&](Remedy id) { return isAbsurd(id, m_drafts[d].condition); });
    };
    if (!std::ranges::all_of(open, absurd))
        std::erase_if(open, absurd);
    if (object != 0) {
        // "refurb the fronts": of all that wait only those, if they do
        const bool named = std::ranges::any_of(
            open, [&](std::size_t d) { return overlap(places, m_drafts[d].place); });
        std::erase_if(open, [&](std::size_t d) {
            const Draft& draft = m_drafts[d];
            return !overlap(places, draft.place) &&
                   (named || !(draft.run == m_run && base == m_focus.base));
        });
        if (open.empty())
            for (std::size_t d = 0; d < m_drafts.size(); ++d)
                if (m_drafts[d].alive && overlap(places, m_drafts[d].place) &&
                    item.first - m_drafts[d].last < 60)
                    open.push_back(d);
        if (open.empty() && !places.empty()) {
            m_pending.push_back(
                {places, base, ids, item.last, item.first, m_sentence, false, true, 0});
            return;
        }
    }
    if (m_referred && item.first - m_referredAt <= 8) {
        Draft& draft = m_drafts[*m_referred];
        for (const Remedy id : ids)
            addOnce(draft.remedies, id);
        draft.last = std::max(draft.last, item.last);
        m_referred.reset();
        return;
    }
    // A screen that was renewed is what the camera is set up for.
    if (ids.size() == 1 && ids.front() == Remedy::Calibrate)
        for (Draft& draft : m_drafts)
            if (draft.alive && allPlaces()[std::size_t(draft.place)].kind == PlaceKind::Glass &&
                item.first - draft.last <= 60) {
                addOnce(draft.remedies, Remedy::Calibrate);
                draft.last = item.last;
                return;
            }
    bool again = false;
    const bool instead = m_corrected && item.first <= m_correctedAt + 12;
    if (instead && open.empty() && !m_worked.empty() &&
        item.first - m_drafts[m_worked.back()].last <= 30) {
        // Other work for all that the last went to.
        for (const std::size_t d : m_worked) {
            Draft& draft = m_drafts[d];
            std::erase_if(draft.remedies, [&](Remedy one) {
                return std::ranges::find(m_lastWork, one) != m_lastWork.end();
            });
            for (const Remedy id : ids)
                addOnce(draft.remedies, id);
            draft.last = std::max(draft.last, item.last);
        }
        m_lastWork = ids;
        m_corrected = false;
        return;
    }
    if (open.empty() && object == 0) {
        // "Both are kerbed, the front heavy, so refurbish": of those the one that is named again
        if (fresh(item.first, 12))
            for (std::size_t d = 0; d < m_drafts.size(); ++d)
                if (m_drafts[d].alive && m_drafts[d].remedies.empty() &&
                    m_drafts[d].statement == m_statement && item.first - m_drafts[d].last <= 30 &&
                    overlap(m_focus.places, m_drafts[d].place))
                    open.push_back(d);
        // Praise of another place came between.
        const bool named = !open.empty();
        for (std::size_t d = m_drafts.size(); d-- > 0 && !named;)
            if (m_drafts[d].alive && m_drafts[d].statement == m_statement &&
                m_drafts[d].remedies.empty() && item.first - m_drafts[d].last <= 30 &&
                (m_stated.kind == Stated::Kind::Sound || m_stated.kind == Stated::Kind::Finding) &&
                !std::ranges::any_of(m_drafts, [&](const Draft& draft) {
                    return draft.alive && draft.run == m_run;
                }))
                open.push_back(d);
    }
    // "repair and paint the pair of them": the second goes where the first went
    if (open.empty() && object == 0 && item.andBefore && i > 0 && !m_corrected &&
        m_items[i - 1].kind == Item::Kind::Remedy && item.first - m_items[i - 1].last <= 2)
        for (const std::size_t d : m_worked)
            if (m_drafts[d].alive && item.first - m_drafts[d].last <= 3)
                open.push_back(d);
    if (open.empty()) {
        // More work on what has work already, or other work instead of it.
        for (std::size_t d = 0; d < m_drafts.size(); ++d)
            if (m_drafts[d].alive && m_drafts[d].run == m_run &&
                item.first - m_drafts[d].last <= 40)
                open.push_back(d);
        if (!open.empty() && open.size() > 1) {
            const int last = m_drafts[open.back()].statement;
            std::erase_if(open, [&](std::size_t d) { return m_drafts[d].statement != last; });
        }
        // "held on with string, he mended it": another time, another thing
        if (!m_corrected)
            std::erase_if(
                open, [&](std::size_t d) { return isAbsurd(ids.front(), m_drafts[d].condition); });
        again = true;
    }
    if (open.empty()) {
        if (!m_focus.places.empty() && fresh(item.first, 12)) {
            std::vector<Place> meant = m_focus.places;
            // "new ones on the pair of them": the tyres that were just measured
            if (several && tyreTalk())
                for (const Tread& tread : m_treads)
                    if (item.first - tread.last <= 45 && !overlap(meant, tread.place))
                        meant.push_back(tread.place);
            m_pending.push_back(
                {meant, m_focus.base, ids, item.last, item.first, m_sentence, false, false, 0});
        } else {
            m_pending.push_back({{}, -1, ids, item.last, item.first, m_sentence, false, false, 0});
        }
        return;
    }
    m_worked = open;
    m_lastWork = ids;
    for (const std::size_t d : open) {
        Draft& draft = m_drafts[d];
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
        m_corrected = false;
    m_focus.last = std::max(m_focus.last, item.last);
}

/// "the paint's faded all around it": what the work is named for, not the work.
bool Discourse::isSubject(std::size_t i) const
{
    const Item& item = m_items[i];
    const Item* next = at(i + 1);
    if (item.first != item.last || item.first == 0 || next == nullptr ||
        next->before != Break::None || next->first - item.last > 4)
        return false;
    const bool verb = item.last + 1 < m_speech.tokens.size() &&
                      m_lexicon.wordIs(m_speech.tokens[item.last + 1].word, Cue::Is);
    const bool article = m_lexicon.isArticle(m_speech.tokens[item.first - 1].word);
    return (verb || (article && !wantedBefore(i))) &&
           (next->kind == Item::Kind::Condition || next->is(Cue::Sound));
}

void Discourse::onRemedy(std::size_t i)
{
    const Item& item = m_items[i];
    const RemedyWords& words = m_lexicon.remedy(item.id);
    // "painted before, leave that": what is left is left now
    const bool left = words.ids.front() == Remedy::Leave;
    if (isNegated(i) || (isHistory(i) && !left))
        return;
    if (isSupposed(i)) {
        // "if it was mine I'd paint it": so, until other work is said
        const std::vector<std::size_t> open = openDrafts(i, false);
        if (!isAsked(i))
            for (const std::size_t d : open)
                if (m_drafts[d].remedies.empty() && m_drafts[d].statement == m_statement &&
                    !isAbsurd(words.ids.front(), m_drafts[d].condition)) {
                    m_drafts[d].remedies = words.ids;
                    m_drafts[d].borrowed = true;
                    m_drafts[d].doubt += 0.2;
                }
        return;
    }
    // Work that is only asked for counts when it is agreed to.
    if (isAsked(i)) {
        const Item* one = at(i + 1);
        const Item* two = at(i + 2);
        const bool agreed =
            (one != nullptr && one->is(Cue::Yes)) || (two != nullptr && two->is(Cue::Yes));
        if (!agreed)
            return;
    } else if (m_asked.open && item.first - m_items[m_asked.item].last <= 30) {
        m_asked.open = false;
        addFindings(m_asked.item, m_asked.places, m_lexicon.condition(m_items[m_asked.item].id),
                    0.2);
    }
    if (m_retractedAt != 0 && item.first - m_retractedAt <= 6 && item.before != Break::Strong)
        return;
    // "polish won't touch it"
    for (std::size_t k = i + 1; k < m_items.size() && k <= i + 2; ++k) {
        if (m_items[k].before != Break::None || m_items[k].first - item.last > 3)
            break;
        // "pull it without painting" denies what follows
        if (m_items[k].is(Cue::Negation)) {
            const Item* denied = at(k + 1);
            if (denied == nullptr || denied->kind != Item::Kind::Remedy ||
                denied->first != m_items[k].last + 1)
                return;
        }
    }
    if (words.needsCue && !wantedBefore(i))
        return;
    if (isSubject(i))
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
    // "leave it the sill's rotten": what is left was said already
    if (const WordId last = m_speech.tokens[item.last].word;
        object != 0 && next->lead == Lead::None && item.first != item.last &&
        (m_lexicon.wordIs(last, Cue::It) || m_lexicon.wordIs(last, Cue::Them)) &&
        m_lexicon.isArticle(m_speech.tokens[next->first - 1].word) && next->first - item.last == 2)
        object = 0;
    if (object != 0 && echoes(naming(*next))) {
        m_taken[object] = 1;
        object = 0;
    }
    // "dent man for the dents": work on one of several things
    if (next != nullptr && next->kind == Item::Kind::Condition && next->before == Break::None &&
        next->first - item.last <= 3 && next->first > 0 &&
        m_lexicon.isArticle(m_speech.tokens[next->first - 1].word)) {
        const Condition said = m_lexicon.condition(next->id).id;
        bool found = false;
        const bool here = std::ranges::any_of(m_drafts, [&](const Draft& draft) {
            return draft.alive && draft.run == m_run && draft.condition == said;
        });
        for (Draft& draft : m_drafts)
            if (draft.alive && draft.condition == said &&
                (draft.run == m_run ||
                 (!here && draft.remedies.empty() && item.first - draft.last <= 30))) {
                for (const Remedy id : words.ids)
                    addOnce(draft.remedies, id);
                draft.last = std::max(draft.last, next->last);
                found = true;
            }
        if (found) {
            m_taken[i + 1] = 1;
            return;
        }
    }
    // "refurbish the two that are kerbed": those of which it was said.
    for (std::size_t k = i + 1; k < m_items.size() && k <= i + 3; ++k) {
        if (m_items[k].before != Break::None || m_items[k].first - item.last > 6 ||
            m_items[k].kind == Item::Kind::Place)
            break;
        if (m_items[k].kind == Item::Kind::Condition && k > i + 1 &&
            m_items[k - 1].kind == Item::Kind::Number) {
            const Condition said = m_lexicon.condition(m_items[k].id).id;
            for (Draft& draft : m_drafts)
                if (draft.alive && draft.condition == said && draft.remedies.empty() &&
                    item.first - draft.last <= 90)
                    draft.remedies = words.ids;
            m_taken[k] = 1;
            return;
        }
    }
    applyRemedy(i, words.ids, object);
}

/// "a new wing", "new one": what is to be replaced.
void Discourse::onNew(std::size_t i)
{
    const Item& item = m_items[i];
    if (isNegated(i) || isSupposed(i) || isHistory(i))
        return;
    const Item* next = at(i + 1);
    // "new handle rear bumper's rusty": the bumper is spoken of next
    const bool noun = next != nullptr && next->kind == Item::Kind::Place &&
                      next->before == Break::None && next->first - item.last <= 2 &&
                      !next->andBefore && naming(*next).base >= 0 &&
                      !(next->first - item.last == 2 && speaks(i + 1));
    for (std::size_t k = i + 1; noun && k < m_items.size() && k <= i + 3; ++k) {
        if (m_items[k].before == Break::Strong || m_items[k].first - item.last > 7)
            break;
        if (m_items[k].is(Cue::History) && m_items[k].first - next->last <= 2)
            return;
    }
    if (isAsked(i)) {
        const Item* two = at(i + 2);
        if (!((next != nullptr && next->is(Cue::Yes)) || (two != nullptr && two->is(Cue::Yes))))
            return;
    }
    const bool wanted = wantedBefore(i);
    const bool waits = std::ranges::any_of(m_drafts, [&](const Draft& draft) {
        return draft.alive && draft.run == m_run && item.first - draft.last <= 40;
    });
    if (!wanted && !waits && !noun)
        return;
    std::size_t object = 0;
    // "two new ones on the back"
    if (!noun && next != nullptr && next->kind == Item::Kind::Place && next->lead == Lead::On &&
        next->before == Break::None && next->first - item.last <= 4 && naming(*next).base < 0 &&
        !naming(*next).amountSaid && baseFor(naming(*next)) >= 0 && tyreTalk())
        object = i + 1;
    // "a new handle for the passenger door"
    if (!noun && !waits && next != nullptr && next->kind == Item::Kind::Place &&
        next->lead == Lead::On && next->before == Break::None && next->first - item.last <= 6 &&
        naming(*next).base >= 0)
        object = i + 1;
    if (noun) {
        const Base& base = m_lexicon.base(naming(*next).base);
        const std::vector<Place> meant = resolve(naming(*next)).places;
        const bool found = std::ranges::any_of(m_drafts, [&](const Draft& draft) {
            return draft.alive && item.first - draft.last <= 60 && overlap(meant, draft.place);
        });
        if (found) {
            applyRemedy(i, {Remedy::Replace}, echoes(naming(*next)) ? 0 : i + 1);
            m_taken[i + 1] = 1;
            return;
        }
        if (!base.part && !echoes(naming(*next)))
            object = i + 1;
        else
            m_taken[i + 1] = 1;
        const bool terse = item.before != Break::None || i == 0;
        if (!wanted && !waits && !terse)
            return;
    }
    applyRemedy(i, {Remedy::Replace}, object);
}

} // namespace ramplight::spoken
