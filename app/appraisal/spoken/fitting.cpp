// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "appraisal/spoken/discourse.h"

#include <algorithm>

// Which defect can be on which place.
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

/// Whether a place is one of a kind ("wheel") or of a name ("bonnet").
bool Discourse::isOne(const PlaceId& place, const std::string& what) const
{
    return std::ranges::any_of(m_lexicon.bases(), [&](const Base& base) {
        return !base.group && (base.kind == what || base.name == what) &&
               std::ranges::find(base.members, place, &Member::place) != base.members.end();
    });
}

/// Of all that the same words can be, what fits the place that is spoken of: a lamp that is out is
/// not out of line.
const ConditionWords& Discourse::meantBy(const Item& item) const
{
    const ConditionWords& first = m_lexicon.condition(item.id);
    const auto fits = [&](const ConditionWords& words) {
        bool bent = false;
        return !fitting(m_focus.places, m_focus.base, words, bent).empty() && !bent;
    };
    if (first.only.empty() || m_focus.places.empty() || fits(first))
        return first;
    int node = 0;
    for (std::uint32_t t = item.first; t <= item.last && node >= 0; ++t)
        node = m_lexicon.step(node, m_speech.tokens[t].word);
    if (node > 0)
        for (const Sense& sense : m_lexicon.senses(node))
            if (sense.kind == SenseKind::Condition && fits(m_lexicon.condition(sense.id)))
                return m_lexicon.condition(sense.id);
    return first;
}

Condition Discourse::conditionOn(Place place, const ConditionWords& words) const
{
    const PlaceInfo& info = allPlaces()[std::size_t(place)];
    if (m_trims && info.kind == PlaceKind::Wheel && words.id == Condition::Scuff)
        return words.id;
    for (const auto& [what, condition] : words.on)
        if (isOne(info.id, what))
            return condition;
    return words.id;
}

/// The places that a defect can be on: a bulge on the wheel is on its tyre.
std::vector<Place> Discourse::fitting(std::vector<Place> places, int base,
                                      const ConditionWords& words, bool& bent) const
{
    if (base >= 0) {
        const Base& it = m_lexicon.base(base);
        if (it.insideBase >= 0 && (isInsideCondition(words.id) || m_inside))
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
        return std::ranges::any_of(words.only, [&](const std::string& what) {
            return isOne(allPlaces()[std::size_t(place)].id, what);
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

} // namespace ramplight::spoken
