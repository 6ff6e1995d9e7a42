// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "appraisal/spoken/discourse.h"

#include <algorithm>

namespace ramplight::spoken {

Discourse::Discourse(const Speech& speech, const Lexicon& lexicon, const Spotted& spotted,
                     Traffic traffic)
    : m_speech(speech)
    , m_lexicon(lexicon)
    , m_items(spotted.items)
    , m_namings(spotted.namings)
    , m_traffic(traffic)
    , m_taken(spotted.items.size(), 0)
    , m_sound(allPlaces().size(), 0)
    , m_mentioned(allPlaces().size(), 0)
{
}

const Item* Discourse::at(std::size_t i) const
{
    return i < m_items.size() ? &m_items[i] : nullptr;
}

const Naming& Discourse::naming(const Item& item) const
{
    return m_namings[std::size_t(item.id)];
}

bool Discourse::fresh(std::uint32_t token, int reach) const
{
    return !m_focus.places.empty() && int(token) - int(m_focus.last) <= reach;
}

SpokenReading Discourse::run()
{
    for (std::size_t i = 0; i < m_items.size(); ++i) {
        if (m_items[i].before == Break::Strong) {
            ++m_sentence;
            settle(m_items[i].first);
            m_asideUntil = m_speech.punctuated ? 0 : m_asideUntil;
            m_elsewhereUntil = 0;
        }
        if (m_items[i].butBefore)
            m_elsewhereUntil = 0;
        // "my mum had one of these and the exhaust fell off": another car
        if (m_items[i].is(Cue::Elsewhere))
            m_elsewhereUntil = m_items[i].last + (m_speech.punctuated ? 40 : 16);
        if (m_taken[i] != 0 || m_items[i].last < m_elsewhereUntil)
            continue;
        switch (m_items[i].kind) {
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
    const Item& item = m_items[i];
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
        if (item.first < m_asideUntil && item.before == Break::None)
            break;
        // "that'll come off" is cleaning, "that's come off" was nothing.
        if (wantedBefore(i) && !isNegated(i) && !m_items[i - 1].is(Cue::So)) {
            applyRemedy(i, {Remedy::Clean}, 0);
            break;
        }
        if (i > 0 && m_items[i - 1].kind == Item::Kind::Remedy &&
            item.first - m_items[i - 1].last <= 6) {
            m_corrected = true;
            m_correctedAt = item.last + 18;
            break;
        }
        retract(i, true);
        break;
    case Cue::No:
    case Cue::None:
        // "none of them broke the paint"
        if (const Item* next = at(i + 1);
            item.is(Cue::None) && next != nullptr && next->kind == Item::Kind::Condition &&
            next->before == Break::None && next->first - item.last <= 4) {
            m_taken[i + 1] = 1;
            break;
        }
        if (item.is(Cue::None) && isOfThem(item))
            break;
        // "Polish? No, paint": other work comes instead.
        if (const Base* base = m_focus.base >= 0 ? &m_lexicon.base(m_focus.base) : nullptr;
            (item.is(Cue::None) || item.turn || item.before == Break::Strong) && base != nullptr &&
            base->name == "warning-lamps" && m_focus.statements == 0 && fresh(item.first, 4)) {
            sayNothingWrong(m_focus.places, item.last);
            return;
        }
        for (std::size_t k = i; k-- > 0 && i - k <= 3;)
            if (m_items[k].kind == Item::Kind::Remedy && item.first - m_items[k].last <= 8) {
                m_corrected = true;
                m_correctedAt = item.last + 18;
                return;
            }
        if (!m_askedWorking.empty() && fresh(item.first, 10)) {
            ConditionWords words;
            words.id = Condition::Inoperative;
            const std::vector<Place> places = m_askedWorking;
            m_askedWorking.clear();
            addFindings(i, places, words, 0.15);
            return;
        }
        // "No it's not through": what was said of the work is said anew.
        if (item.before == Break::Strong && !m_worked.empty() && !item.turn &&
            item.first - m_drafts[m_worked.back()].last <= 16 &&
            m_drafts[m_worked.back()].run == m_run) {
            m_corrected = true;
            m_correctedAt = item.last + 18;
            return;
        }
        retract(i, false);
        break;
    case Cue::Yes:
        // "Any warning lights? Yes."
        if (m_focus.base >= 0 && m_lexicon.base(m_focus.base).name == "warning-lamps" &&
            m_focus.statements == 0 && fresh(item.first, 4)) {
            ConditionWords lit;
            lit.id = Condition::Lit;
            addFindings(i, m_focus.places, lit, 0.1);
            break;
        }
        // "The horn, yes."
        if (m_focus.base >= 0 && m_lexicon.base(m_focus.base).kind == "system" &&
            m_lexicon.base(m_focus.base).name != "warning-lamps" && m_focus.statements == 0 &&
            fresh(item.first, 2) && item.before == Break::Weak && !m_asked.open &&
            (at(i + 1) == nullptr || at(i + 1)->before == Break::Strong)) {
            sayNothingWrong(m_focus.places, item.last);
            break;
        }
        if (!m_askedWorking.empty()) {
            sayNothingWrong(m_askedWorking, item.last);
            m_askedWorking.clear();
        }
        if (m_asked.open) {
            m_asked.open = false;
            const Item& asked = m_items[m_asked.item];
            addFindings(m_asked.item, m_asked.places, m_lexicon.condition(asked.id), 0.1);
        } else if (m_askedOnce && m_focus.statements == 0 && fresh(item.first, 6) &&
                   item.first - m_items[m_lastAsked].last <= 45) {
            // "Kerbed? Yes. Off side rear? Yes."
            bool bent = false;
            const ConditionWords& words = m_lexicon.condition(m_items[m_lastAsked].id);
            addFindings(i, fitting(m_focus.places, m_focus.base, words, bent), words, 0.15);
        }
        break;
    case Cue::Electric:
        m_electric = true;
        break;
    case Cue::Van:
        m_van = true;
        break;
    case Cue::TwoDoor:
        m_twoDoor = true;
        break;
    case Cue::Where:
        m_asideUntil = item.last + (m_speech.punctuated ? 9U : 7U);
        break;
    case Cue::So:
        m_asideUntil = 0;
        break;
    case Cue::Correction:
        m_corrected = true;
        m_correctedAt = item.last;
        break;
    case Cue::Operate:
        if (isAsked(i) && !m_focus.places.empty() && fresh(item.first, 8))
            m_askedWorking = m_focus.places;
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
        m_inside = true;
        m_along = false;
        m_focus.places.clear();
        break;
    case Cue::Outside:
        m_inside = false;
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
    std::uint32_t last = m_items[i].last;
    for (; k < m_items.size() && k <= i + 5; ++k) {
        const Item& item = m_items[k];
        if (item.before == Break::Strong || item.turn || item.first - last > 6)
            return 0;
        if (item.kind == Item::Kind::Place) {
            const Naming& it = naming(item);
            if (item.lead == Lead::On && it.base < 0 && it.amountSaid &&
                it.amount != Amount::Rest && !it.positions.front().sideSaid &&
                it.positions.front().axle == Axle::None)
                return 0; // "on both corners"
            // "on the front edge of the roof"
            if (const Item* next = at(k + 1);
                item.lead == Lead::On && it.base < 0 && next != nullptr &&
                next->kind == Item::Kind::Place && next->lead == Lead::On &&
                naming(*next).base >= 0 &&
                next->first - item.last <= (baseFor(it) < 0 && m_focus.places.empty() ? 7U : 4U) &&
                next->before == Break::None)
                return k + 1;
            if (item.lead == Lead::On)
                return k;
            if (item.lead == Lead::From) {
                const Condition what = m_items[i].kind == Item::Kind::Condition
                                           ? m_lexicon.condition(m_items[i].id).id
                                           : Condition::Mark;
                return what == Condition::Noise || what == Condition::Vibration ||
                               what == Condition::Leak || what == Condition::Odour ||
                               what == Condition::Missing
                           ? k
                           : 0;
            }
            if (adjective && k == i + 1 && item.lead == Lead::None && item.first - last <= 2 &&
                item.before == Break::None && naming(item).base >= 0 &&
                (m_focus.places.empty() || m_focus.statements > 0))
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
    if (singular && m_focus.lastPart > 0 && m_focus.lastPart < m_focus.places.size())
        return {m_focus.places.begin() + std::ptrdiff_t(m_focus.lastPart), m_focus.places.end()};
    return m_focus.places;
}

} // namespace ramplight::spoken
