// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "appraisal/spoken/discourse.h"

#include <algorithm>
#include <array>

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

/// Paint and panels are not what an engine or a gearbox has: such words belong elsewhere.
bool Discourse::canBe(Condition condition, Place place)
{
    static constexpr std::array mechanical = {
        "engine",        "engine-bay",       "gearbox", "clutch", "steering", "suspension",
        "warning-lamps", "air-conditioning", "windows", "locks",  "horn"};
    const QString& id = allPlaces()[std::size_t(place)].id.text;
    if (std::ranges::none_of(mechanical, [&](const char* its) { return id == QLatin1String(its); }))
        return true;
    switch (condition) {
    case Condition::Chip:
    case Condition::Pepper:
    case Condition::Fade:
    case Condition::Peel:
    case Condition::Kerbed:
    case Condition::Overspray:
    case Condition::PreviousRepair:
    case Condition::Scratch:
    case Condition::Scuff:
    case Condition::Dent:
    case Condition::Stain:
    case Condition::Burn:
        return false;
    case Condition::Misaligned:
        return id == QLatin1String("steering") || id == QLatin1String("locks");
    default:
        return true;
    }
}

/// Words that are praise where they cannot be a defect: cold air that freezes.
bool Discourse::praises(const Item& item) const
{
    int node = 0;
    for (std::uint32_t t = item.first; t <= item.last && node >= 0; ++t)
        node = m_lexicon.step(node, m_speech.tokens[t].word);
    return node > 0 && std::ranges::any_of(m_lexicon.senses(node), [](const Sense& sense) {
               return sense.kind == SenseKind::Cue && Cue(sense.id) == Cue::Sound;
           });
}

/// "rust coming through from the stone chips", "scratched near the crack": why or where it is.
bool Discourse::isCause(std::size_t i) const
{
    const Item& item = m_items[i];
    if (item.extra != 0 || i == 0 || m_items[i - 1].kind != Item::Kind::Condition ||
        item.before != Break::None || item.first - m_items[i - 1].last > 7)
        return false;
    for (std::uint32_t t = item.first; t-- > m_items[i - 1].last + 1 && item.first - t <= 3;)
        if (m_lexicon.wordIs(m_speech.tokens[t].word, Cue::From) ||
            m_lexicon.wordIs(m_speech.tokens[t].word, Cue::Beside))
            return true;
    return false;
}

/// "The head lining's sagging at the back glass": where on the place that the sentence is about.
bool Discourse::isLandmark(std::size_t i, std::size_t behind, const ConditionWords& words) const
{
    const Item& item = m_items[i];
    const Naming& it = naming(m_items[behind]);
    if (it.base < 0 || m_focus.places.empty() || m_focus.base < 0 || it.base == m_focus.base ||
        m_focus.statements > 0 || !fresh(item.first, 20))
        return false;
    bool bent = false;
    const std::vector<Place> fit = fitting(m_focus.places, m_focus.base, words, bent);
    const auto can = [&](Place place) { return canBe(words.id, place); };
    if (fit.empty() || bent || !std::ranges::all_of(fit, can))
        return false;
    // "a line up under the hood": of the wing
    if (const std::vector<Place> there = resolve(it).places;
        !there.empty() && std::ranges::none_of(there, can))
        return true;
    if (item.first - m_focus.last > 7 || m_focus.sentence != m_sentence)
        return false;
    for (std::uint32_t t = m_focus.last + 1; t <= item.first; ++t)
        if (m_speech.tokens[t].before != Break::None || m_speech.tokens[t].turn)
            return false;
    return m_lexicon.wordIs(m_speech.tokens[m_focus.last + 1].word, Cue::Is);
}

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
            (it.name == "spare-wheel" ||
             std::ranges::none_of(words.only, [](const auto& k) { return k == "wheel"; })))
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
