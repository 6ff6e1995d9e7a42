// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "appraisal/spoken/discourse.h"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace ramplight {

using namespace spoken;

namespace spoken {

std::pair<std::uint32_t, std::uint32_t> Discourse::span(std::uint32_t first,
                                                        std::uint32_t last) const
{
    if (m_speech.tokens.empty())
        return {};
    const auto most = std::uint32_t(m_speech.tokens.size() - 1);
    const std::uint32_t begin = m_speech.tokens[std::min(first, most)].begin;
    // What was said of it again much later is not part of the quote.
    constexpr std::uint32_t longest = 50;
    const std::uint32_t end = m_speech.tokens[std::min({last, first + longest, most})].end;
    return {begin, std::max(begin, end)};
}

std::string Discourse::quote(std::uint32_t first, std::uint32_t last) const
{
    const auto [begin, end] = span(first, last);
    return m_speech.text.substr(begin, end - begin);
}

/// Numbers that are said of the vehicle, by the word beside them.
void Discourse::readFacts(SpokenReading& reading) const
{
    SpokenFacts& facts = reading.facts;
    const auto beside = [&](std::size_t i, Cue cue, std::uint32_t reach) {
        for (std::size_t k = i + 1; k < m_items.size() && k <= i + 3; ++k) {
            if (m_items[k].before == Break::Strong && k > i + 1)
                return false;
            if (m_items[k].first - m_items[i].last > reach)
                return false;
            if (m_items[k].is(cue))
                return true;
            if (cue == Cue::Keys && m_items[k].kind == Item::Kind::Place &&
                naming(m_items[k]).base >= 0 &&
                m_lexicon.base(naming(m_items[k]).base).name == "keys")
                return true;
            if (m_items[k].kind == Item::Kind::Number)
                return false;
        }
        return false;
    };
    const auto isKeys = [&](const Item& it) {
        return it.is(Cue::Keys) || (it.kind == Item::Kind::Place && naming(it).base >= 0 &&
                                    m_lexicon.base(naming(it).base).name == "keys");
    };
    // "Keys? Two.", "owner is one only": what is asked for comes first.
    const auto behind = [&](std::size_t i, auto&& is, std::uint32_t reach) {
        for (std::size_t k = i; k-- > 0 && i - k <= 3;) {
            if (m_items[i].first - m_items[k].last > reach ||
                (k + 1 < i && m_items[k].kind == Item::Kind::Number))
                return false;
            if (is(m_items[k]))
                return true;
        }
        return false;
    };
    for (std::size_t i = 0; i < m_items.size(); ++i) {
        const Item& item = m_items[i];
        if (item.is(Cue::Single))
            facts.owners = 1;
        if (item.kind == Item::Kind::Place && isKeys(item) && naming(item).amountSaid &&
            naming(item).amount == Amount::Both && !facts.keys)
            facts.keys = 2;
        if (item.kind != Item::Kind::Number || item.id % 10 != 0)
            continue;
        const int value = item.id / 10;
        const bool miles = beside(i, Cue::Miles, 4);
        const bool kilometres = !miles && beside(i, Cue::Kilometres, 4);
        if ((miles || kilometres) && value >= 10) {
            int whole = value;
            if (value < 1000)
                continue;
            facts.odometer = whole;
            facts.odometerUnit = miles ? DistanceUnit::Miles : DistanceUnit::Kilometres;
        } else if (beside(i, Cue::Keys, 3) && value <= 6) {
            facts.keys = value;
        } else if (beside(i, Cue::Months, 2) && value <= 48) {
            bool test = false;
            for (std::size_t k = i >= 4 ? i - 4 : 0; k < m_items.size() && k <= i + 5; ++k)
                test = test ||
                       (m_items[k].is(Cue::Test) && (k > i ? m_items[k].first - item.last <= 12
                                                           : item.first - m_items[k].last <= 10));
            if (test)
                facts.testMonths = value;
        } else if (beside(i, Cue::Stamps, 3) && value <= 40) {
            facts.serviceStamps = value;
        } else if (beside(i, Cue::Owners, 4) && value <= 20) {
            facts.owners = value;
        } else if (value >= 1000 &&
                   behind(
                       i, [](const Item& it) { return it.is(Cue::Mileage) || it.is(Cue::Miles); },
                       8)) {
            if (!facts.odometer ||
                behind(
                    i, [](const Item& it) { return it.is(Cue::Correction) || it.is(Cue::No); }, 3))
                facts.odometer = value;
        } else if (!facts.keys && value <= 6 && behind(i, isKeys, 3)) {
            facts.keys = value;
        } else if (!facts.owners && value <= 20 &&
                   behind(
                       i, [](const Item& it) { return it.is(Cue::Owners); }, 3)) {
            facts.owners = value;
        } else if (!facts.testMonths && value <= 24 && beside(i, Cue::Months, 2) &&
                   behind(
                       i, [](const Item& it) { return it.is(Cue::Test); }, 10)) {
            facts.testMonths = value;
        }
    }
}

/// How often such findings are right on texts that nobody learned from
/// (tests/bench/calibration.py).
double Discourse::confidence(const Draft& draft, int ofItsPlace) const
{
    double sure = 0.93 - draft.doubt;
    // Mostly one of them belongs to another place: of those 122 in 643 every second was right.
    if (ofItsPlace > 1)
        sure -= 0.36;
    if (draft.remedies.empty())
        sure -= 0.3;
    if (!m_speech.punctuated)
        sure -= 0.02;
    // A place that was named in another sentence, or long before.
    if (draft.carried)
        sure -= 0.05;
    if (draft.last - draft.first > 30)
        sure -= 0.05;
    return std::round(std::clamp(sure, 0.3, 0.99) * 100) / 100;
}

/// Paint on a wheel is its refurbishing.
std::vector<Remedy> Discourse::workOn(const Draft& draft)
{
    std::vector<Remedy> work = draft.remedies;
    if (allPlaces()[std::size_t(draft.place)].kind != PlaceKind::Wheel)
        return work;
    const bool both = std::ranges::find(work, Remedy::Refurbish) != work.end();
    if (both)
        std::erase(work, Remedy::Refinish);
    else
        std::ranges::replace(work, Remedy::Refinish, Remedy::Refurbish);
    return work;
}

SpokenReading Discourse::outcome()
{
    SpokenReading reading;
    std::vector<const Draft*> alive;
    for (const Draft& draft : m_drafts)
        if (draft.alive)
            alive.push_back(&draft);
    std::ranges::stable_sort(alive, {}, &Draft::last);
    std::vector<int> found(allPlaces().size(), 0);
    for (const Draft* draft : alive)
        ++found[std::size_t(draft->place)];
    for (const Draft* draft : alive) {
        SpokenFinding finding;
        finding.place = allPlaces()[std::size_t(draft->place)].id;
        finding.condition = draft->condition;
        finding.severity = draft->severity;
        finding.remedies = workOn(*draft);
        finding.count = draft->count;
        finding.quote = quote(draft->first, draft->last);
        std::tie(finding.begin, finding.end) = span(draft->first, draft->last);
        finding.seconds = m_speech.secondsAt(m_speech.tokens[draft->first].begin);
        finding.confidence = confidence(*draft, found[std::size_t(draft->place)]);
        reading.findings.push_back(std::move(finding));
    }
    for (const Tread& tread : m_treads) {
        SpokenTread said;
        said.place = allPlaces()[std::size_t(tread.place)].id;
        said.lowTenthsMm = tread.low;
        said.highTenthsMm = tread.high;
        said.quote = quote(tread.first, tread.last);
        said.seconds = m_speech.secondsAt(m_speech.tokens[tread.first].begin);
        reading.treads.push_back(std::move(said));
    }
    for (std::size_t place = 0; place < m_sound.size(); ++place)
        if (m_sound[place] != 0 && found[place] == 0)
            reading.sound.push_back(allPlaces()[place].id);
    for (const int place : m_lexicon.walkRound())
        if (m_mentioned[std::size_t(place)] == 0)
            reading.notMentioned.push_back(allPlaces()[std::size_t(place)].id);
    readFacts(reading);
    return reading;
}

} // namespace spoken

SpokenReading readSpeech(const Transcript& transcript, const Lexicon& lexicon, Traffic traffic)
{
    const Speech speech = speechOf(transcript, lexicon);
    const Spotted spotted = spot(speech, lexicon);
    return Discourse(speech, lexicon, spotted, traffic).run();
}

} // namespace ramplight
