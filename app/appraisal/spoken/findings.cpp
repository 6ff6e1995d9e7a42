// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "appraisal/spoken/discourse.h"

#include <algorithm>

namespace ramplight::spoken {

std::optional<Draft>& Discourse::settled(Place place, Condition condition)
{
    constexpr std::size_t defects = Names<Condition>::table.size();
    if (m_settled.empty())
        m_settled.resize(allPlaces().size() * defects);
    return m_settled[std::size_t(place) * defects + std::size_t(condition)];
}

void Discourse::settle(std::uint32_t token)
{
    constexpr std::uint32_t reach = 250;
    if (m_drafts.size() < m_settleAt)
        return;
    std::vector<Draft> near;
    for (Draft& draft : m_drafts)
        if (draft.last + reach >= token)
            near.push_back(std::move(draft));
        else if (draft.alive)
            settled(draft.place, draft.condition) = std::move(draft);
    if (near.size() != m_drafts.size()) {
        // What points at drafts by number points at nothing near any more.
        m_stated.drafts.clear();
        m_worked.clear();
        m_referred.reset();
    }
    m_drafts = std::move(near);
    m_settleAt = std::max<std::size_t>(64, m_drafts.size() * 2);
}

void Discourse::unsettle()
{
    for (std::optional<Draft>& draft : m_settled)
        if (draft)
            m_drafts.push_back(std::move(*draft));
    m_settled.clear();
}

std::size_t Discourse::keep(const Draft& draft)
{
    settled(draft.place, draft.condition).reset();
    const auto dead = std::ranges::find_if(m_drafts, [&](const Draft& other) {
        return !other.alive && other.place == draft.place && other.condition == draft.condition;
    });
    if (dead != m_drafts.end()) {
        *dead = draft;
        return std::size_t(dead - m_drafts.begin());
    }
    m_drafts.push_back(draft);
    return m_drafts.size() - 1;
}

void Discourse::addFindings(std::size_t i, const std::vector<Place>& places,
                            const ConditionWords& words, double doubt)
{
    const Item& item = m_items[i];
    // A correction or "well, more of a ..." puts another word for the same thing.
    if (m_corrected && item.first - m_correctedAt <= 4 &&
        std::ranges::any_of(m_drafts, [&](const Draft& draft) {
            return draft.alive && draft.statement == m_statement && draft.run == m_run;
        })) {
        for (Draft& draft : m_drafts)
            if (draft.statement == m_statement)
                draft.alive = false;
        m_corrected = false;
    }
    // A more exact word takes the place of "sticky".
    for (Draft& draft : m_drafts)
        if (draft.alive && draft.weak && !words.weak && draft.run == m_run &&
            draft.remedies.empty() && item.first - draft.last <= 14 &&
            std::ranges::find(places, draft.place) != places.end())
            draft.alive = false;
    ++m_statement;
    const int count = countBefore(i);
    std::optional<Severity> severity = words.severity;
    for (std::size_t k = i; k-- > 0 && i - k <= 2 && m_items[k + 1].before == Break::None;)
        if (m_items[k].kind == Item::Kind::Severity && item.first - m_items[k].last <= 3)
            severity = Severity(m_items[k].id);
    m_stated = {Stated::Kind::Finding, places, {}, 0, 0, item.last};
    for (const Place place : places) {
        const Condition condition = conditionOn(place, words);
        auto known = std::ranges::find_if(m_drafts, [&](const Draft& draft) {
            return draft.alive && draft.place == place && draft.condition == condition;
        });
        if (auto& old = settled(place, condition); known == m_drafts.end() && old) {
            m_drafts.push_back(std::move(*old));
            old.reset();
            known = std::prev(m_drafts.end());
        }
        if (known == m_drafts.end()) {
            Draft draft;
            draft.place = place;
            draft.condition = condition;
            draft.first = std::min(item.first, m_focus.places.empty()            ? item.first
                                               : item.first - m_focus.first < 25 ? m_focus.first
                                                                                 : item.first);
            // First kept, then looked for: keeping moves what begin() was.
            const std::size_t kept = keep(draft);
            known = m_drafts.begin() + std::ptrdiff_t(kept);
            known->doubt = doubt;
            known->weak = words.weak;
            known->carried = m_focus.sentence + 1 < m_sentence;
            if (count > 0)
                known->count = count;
        }
        known->run = m_run;
        known->statement = m_statement;
        known->sentence = m_sentence;
        known->last = std::max(known->last, item.last);
        if (severity)
            known->severity = severity;
        if (m_speech.tokens[item.first].mended)
            known->doubt += 0.05;
        m_mentioned[std::size_t(place)] = 1;
        m_stated.drafts.push_back(std::size_t(known - m_drafts.begin()));
        claimPending(std::size_t(known - m_drafts.begin()));
    }
    ++m_focus.statements;
    m_statementSentence = m_sentence;
    m_focus.last = std::max(m_focus.last, item.last);
}

void Discourse::onCondition(std::size_t i)
{
    const Item& item = m_items[i];
    const ConditionWords& words = meantBy(item);
    // "that's dirt, it's coming off": still of what was taken back
    if (m_retractedAt != 0 && item.first - m_retractedAt <= 8 && item.before != Break::Strong &&
        (words.id == Condition::Loose || words.id == Condition::Dirty ||
         words.id == Condition::Contamination))
        return;
    if (i > 0 && m_items[i - 1].is(Cue::Me) && item.first - m_items[i - 1].last <= 2 &&
        item.before == Break::None)
        return;
    // "smells of wet straw": what it smells of is not there
    if (words.id != Condition::Odour)
        for (std::size_t k = i; k-- > 0 && i - k <= 2 && m_items[k + 1].before == Break::None &&
                                m_items[k].kind == Item::Kind::Condition &&
                                m_items[k + 1].first - m_items[k].last <= 3 &&
                                !m_items[k + 1].andBefore;)
            if (m_lexicon.condition(m_items[k].id).id == Condition::Odour)
                return;
    // "is gone a bit shiny"
    if (const Item* next = at(i + 1); words.id == Condition::Missing && item.extra == 1 &&
                                      next != nullptr && next->before == Break::None &&
                                      next->first - item.last <= 4) {
        const Item* after = next->kind == Item::Kind::Severity ? at(i + 2) : next;
        if (after != nullptr && after->kind == Item::Kind::Condition && after->extra == 1 &&
            after->before == Break::None && !after->andBefore && after->first - item.last <= 5)
            return;
    }
    // "sticky marks", "rusty scratch": the more exact of the two is meant.
    if (const Item* next = at(i + 1); next != nullptr && item.extra == 1 &&
                                      next->kind == Item::Kind::Condition && next->extra == 0 &&
                                      next->first == item.last + 1 && next->before == Break::None) {
        if (!m_lexicon.condition(next->id).weak)
            return;
        m_taken[i + 1] = 1;
    }
    // "kerb nicks"
    if (const Item* next = at(i + 1); next != nullptr && words.id == Condition::Kerbed &&
                                      next->kind == Item::Kind::Condition &&
                                      next->first == item.last + 1 && next->before == Break::None)
        m_taken[i + 1] = 1;
    if (isCause(i))
        return;
    if (words.weak && std::ranges::any_of(m_drafts, [&](const Draft& draft) {
            return draft.alive && draft.run == m_run && draft.sentence == m_sentence &&
                   !(i > 0 && item.andBefore);
        }))
        return;
    std::vector<Place> places;
    int base = m_focus.base;
    double doubt = 0;
    std::size_t behind = placeBehind(i, item.extra == 1);
    if (behind != 0 && isLandmark(i, behind, words)) {
        m_taken[behind] = 1;
        behind = 0;
    }
    if (words.always && words.base >= 0) {
        Naming meant;
        meant.positions.emplace_back();
        meant.base = words.base;
        const Resolved resolved = resolve(meant);
        places = resolved.places;
        base = resolved.base;
        if (places != m_focus.places) {
            m_focus = {};
            m_focus.places = places;
            m_focus.base = base;
            m_focus.first = m_focus.last = item.first;
            ++m_run;
        }
    } else if (const std::vector<Place> run = behind == 0 ? stretch(i) : std::vector<Place>{};
               !run.empty()) {
        m_focus = {};
        m_focus.places = places = run;
        m_focus.first = m_focus.last = item.first;
        m_focus.several = m_focus.list = true;
        base = m_focus.base = -1;
        ++m_run;
    } else if (behind != 0) {
        // "down the off side, across both doors": the side holds for the doors.
        for (std::size_t k = i + 1; k < behind; ++k)
            if (m_items[k].kind == Item::Kind::Place && naming(m_items[k]).base < 0) {
                if (const auto side = sideOf(naming(m_items[k]).positions.front()))
                    m_side = side;
                m_along = true;
                m_taken[k] = 1;
            }
        const Naming& it = naming(m_items[behind]);
        const Resolved resolved = resolve(it);
        const bool part = echoes(it) && fresh(item.first, 30);
        const bool corner = it.base < 0 && !m_focus.places.empty() && !tellsApart(m_focus.base, it);
        if (!resolved.places.empty() && !part && !corner) {
            m_taken[behind] = 1;
            carry(it, resolved);
            if (it.base >= 0)
                m_topic = topicOf(resolved.base);
            setFocus(behind, resolved, false);
            m_focus.first = std::min(m_focus.first, item.first);
            places = resolved.places;
            base = resolved.base;
        } else {
            m_taken[behind] = 1;
            if (corner)
                if (const auto side = sideOf(it.positions.front()))
                    m_side = side;
        }
    }
    if (places.empty()) {
        const bool singular = !isNegated(i) && item.extra == 0;
        places = focusPlaces(singular);
        base = m_focus.base;
        if (!fresh(item.first, 25))
            doubt += 0.1;
        if (!fresh(item.first, item.extra == 1 ? 30 : 55))
            places.clear();
    }
    if (m_focus.guessed)
        doubt += 0.15;
    // "one trim missing, off side front": which of them comes behind.
    if (const Item* next = at(i + 1);
        behind == 0 && places.size() > 1 && base >= 0 && !m_lexicon.base(base).group &&
        next != nullptr && next->kind == Item::Kind::Place && next->before == Break::Weak &&
        next->lead == Lead::None && naming(*next).base < 0 && !naming(*next).amountSaid &&
        naming(*next).positions.front().axle != Axle::None && tellsApart(base, naming(*next))) {
        const Item* after = at(i + 2);
        const std::uint32_t behindIt = next->last + 1;
        const WordId is = m_lexicon.word("'s");
        const bool own =
            (after != nullptr && after->before == Break::None && after->kind != Item::Kind::Cue) ||
            (behindIt < m_speech.tokens.size() && is != 0 && m_speech.tokens[behindIt].word == is);
        if (!own) {
            Naming meant = naming(*next);
            meant.base = base;
            const Resolved resolved = resolve(meant);
            if (!resolved.places.empty()) {
                m_taken[i + 1] = 1;
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
    if (fit.empty() && praises(item) && !places.empty() && !isNegated(i) && !isSupposed(i))
        sayNothingWrong(places, item.last);
    std::erase_if(fit, [&](Place place) { return !canBe(words.id, place); });
    if (fit.empty())
        return;
    // "the spare is smooth, canvas showing": from here on its tyre is spoken of
    if (places.size() == 1 && fit.size() == 1 && fit != places && base >= 0 &&
        m_lexicon.base(base).name == "spare-wheel") {
        m_focus.places = fit;
        m_focus.base = m_lexicon.baseNamed("spare-tyre");
    }
    if (bent && m_focus.places.empty()) {
        m_focus.places = fit;
        m_focus.base = words.base;
        m_focus.first = m_focus.last = item.first;
        m_focus.statements = 0;
        ++m_run;
        m_topic = words.base;
    }
    if (item.extra == 0 && relocated(i, words))
        return;
    // "the tear wants stitching": the one that was spoken of before
    if (item.extra == 0 && item.first > 0 && m_focus.statements > 0 &&
        m_lexicon.isArticle(m_speech.tokens[item.first - 1].word) && behind == 0) {
        const auto old = std::ranges::find_if(m_drafts, [&](const Draft& draft) {
            return draft.alive && draft.condition == conditionOn(draft.place, words) &&
                   draft.run != m_run && item.first - draft.last <= 90 &&
                   std::ranges::find(fit, draft.place) == fit.end();
        });
        if (old != m_drafts.end()) {
            old->run = m_run;
            old->last = item.last;
            return;
        }
    }
    // "the hole, repair": one of several that were found here
    if (item.extra == 0 && item.first > 0 && behind == 0 &&
        m_lexicon.isArticle(m_speech.tokens[item.first - 1].word)) {
        const auto here = std::ranges::find_if(m_drafts, [&](const Draft& draft) {
            return draft.alive && draft.run == m_run &&
                   draft.condition == conditionOn(draft.place, words) &&
                   std::ranges::find(fit, draft.place) != fit.end();
        });
        if (here != m_drafts.end()) {
            m_referred = std::size_t(here - m_drafts.begin());
            m_referredAt = item.last;
            return;
        }
    }
    // Peppered with chips is one thing.
    if (words.id == Condition::Chip && std::ranges::any_of(m_drafts, [&](const Draft& draft) {
            return draft.alive && draft.condition == Condition::Pepper && draft.run == m_run;
        }))
        return;
    // "only straw": what was taken for a defect was dirt.
    if ((words.id == Condition::Dirty || words.id == Condition::Contamination) && item.first > 0 &&
        m_lexicon.wordIs(m_speech.tokens[item.first - 1].word, Cue::Want) && item.extra == 0 &&
        (cueBefore(m_items, i, Cue::But, 1) ||
         std::ranges::any_of(m_drafts, [&](const Draft& draft) {
             return draft.alive && draft.run == m_run && draft.remedies.empty() &&
                    item.first - draft.last <= 12 && draft.condition != words.id;
         }))) {
        retract(i, true);
        return;
    }
    // What only says more of the same: "not working, it's jammed".
    if (!item.andBefore && std::ranges::any_of(m_drafts, [&](const Draft& draft) {
            const bool more =
                (draft.condition == Condition::Inoperative && words.id == Condition::Broken) ||
                (draft.condition == Condition::Broken &&
                 (words.id == Condition::Loose || words.id == Condition::Inoperative)) ||
                (draft.condition == Condition::Missing &&
                 (words.id == Condition::Hole || words.id == Condition::Loose)) ||
                (draft.condition == Condition::Loose && words.id == Condition::Misaligned) ||
                (draft.condition == Condition::Misaligned && words.id == Condition::Loose) ||
                (draft.condition == Condition::Leak && words.id == Condition::Hole) ||
                (draft.condition == Condition::Loose && words.id == Condition::Broken) ||
                (draft.condition == Condition::Kerbed &&
                 (words.id == Condition::Chip || words.id == Condition::Mark));
            return draft.alive && more && draft.run == m_run && item.first - draft.last <= 12 &&
                   std::ranges::find(fit, draft.place) != fit.end();
        }))
        return;
    const bool denied = words.always && i > 0 && item.first - m_items[i - 1].last <= 1 &&
                        (m_items[i - 1].is(Cue::No) || m_items[i - 1].is(Cue::Negation));
    if (words.always ? denied : isNegated(i)) {
        // "no crack after all"; "it's not a crack" takes back what had its work already
        const bool flatly = i > 0 && m_items[i - 1].is(Cue::Negation) &&
                            item.first == m_items[i - 1].last + 1 &&
                            m_items[i - 1].first < m_items[i - 1].last && item.extra == 0;
        for (Draft& draft : m_drafts)
            if (draft.alive && (flatly || draft.remedies.empty() || draft.borrowed) &&
                draft.condition == conditionOn(draft.place, words) &&
                std::ranges::find(fit, draft.place) != fit.end())
                draft.alive = false;
        sayNothingWrong(fit, item.last);
        return;
    }
    // "has to be painted before I fit it" is work, too
    if (words.id == Condition::PreviousRepair && item.extra == 1 && i > 0 &&
        m_items[i - 1].is(Cue::Want) && item.first - m_items[i - 1].last <= 1) {
        applyRemedy(i, {Remedy::Refinish}, 0);
        return;
    }
    // "that's gonna be filler and paint" is work
    if (words.id == Condition::PreviousRepair && item.extra == 0 && wantedBefore(i))
        return;
    if (isSupposed(i)) {
        m_supposed = fit;
        m_supposedAt = item.last;
        return;
    }
    if (isHistory(i))
        return;
    if (isAsked(i)) {
        m_asked = {i, fit, true};
        m_lastAsked = i;
        m_askedOnce = true;
        return;
    }
    m_asked.open = false;
    addFindings(i, fit, words, doubt);
}

/// "That long scratch, it is on the rear door", "the dent is on the front door": a defect that was
/// put elsewhere before moves there.
bool Discourse::relocated(std::size_t i, const ConditionWords& words)
{
    const Item& item = m_items[i];
    bool known = false;
    for (std::uint32_t back = 1; back <= 2 && back <= item.first; ++back) {
        const WordId word = m_speech.tokens[item.first - back].word;
        known = known || m_lexicon.isArticle(word) || m_lexicon.wordIs(word, Cue::It);
    }
    const std::size_t k = i + 1;
    std::size_t there = 0;
    for (std::size_t n = k; known && n < m_items.size() && n <= i + 4; ++n) {
        const Item& next = m_items[n];
        if (next.before == Break::Strong || next.first - item.last > 14 ||
            next.kind == Item::Kind::Condition || next.kind == Item::Kind::Remedy)
            break;
        if (next.kind == Item::Kind::Place && next.lead == Lead::On && naming(next).base >= 0 &&
            next.first - item.last >= 3) {
            there = n;
            break;
        }
    }
    if (there == 0)
        return false;
    const Resolved resolved = resolve(naming(m_items[there]));
    if (resolved.places.size() != 1)
        return false;
    const Place place = resolved.places.front();
    std::size_t old = m_drafts.size();
    for (std::size_t d = 0; d < m_drafts.size(); ++d)
        if (m_drafts[d].alive && m_drafts[d].condition == conditionOn(m_drafts[d].place, words)) {
            if (m_drafts[d].place == place)
                return false;
            if (allPlaces()[std::size_t(m_drafts[d].place)].kind ==
                    allPlaces()[std::size_t(place)].kind &&
                (old == m_drafts.size() || m_drafts[d].last > m_drafts[old].last))
                old = d;
        }
    // One that waits for its work is spoken of for the first time.
    if (old == m_drafts.size() || m_drafts[old].run == m_run)
        return false;
    carry(naming(m_items[there]), resolved);
    setFocus(there, resolved, false);
    for (std::size_t n = k; n <= there; ++n)
        m_taken[n] = 1;
    m_drafts[old].place = place;
    m_drafts[old].run = m_run;
    m_drafts[old].last = m_items[there].last;
    ++m_focus.statements;
    return true;
}

void Discourse::onSeverity(std::size_t i)
{
    const Item& item = m_items[i];
    if (m_drafts.empty() || item.before == Break::Strong)
        return;
    for (Draft& draft : m_drafts)
        if (draft.alive && draft.statement == m_statement && draft.run == m_run &&
            item.first - draft.last <= 8 && !draft.severity) {
            draft.severity = Severity(item.id);
        }
}

} // namespace ramplight::spoken
