// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "appraisal/spoken/discourse.h"

#include <algorithm>

namespace ramplight::spoken {

namespace {

void addOnce(std::vector<Place>& places, Place place)
{
    if (std::ranges::find(places, place) == places.end())
        places.push_back(place);
}

} // namespace

Side Discourse::toSide(SideWord word) const
{
    const bool leftHand = m_traffic == Traffic::Left;
    switch (word) {
    case SideWord::Left:
        return Side::Left;
    case SideWord::Right:
        return Side::Right;
    case SideWord::Near:
    case SideWord::Passenger:
        return leftHand ? Side::Left : Side::Right;
    case SideWord::Off:
    case SideWord::Driver:
        return leftHand ? Side::Right : Side::Left;
    case SideWord::This:
    case SideWord::Other:
        break;
    }
    return Side::None;
}

std::optional<Side> Discourse::sideOf(const Position& position) const
{
    if (!position.sideSaid)
        return std::nullopt;
    if (position.side == SideWord::This)
        return m_side;
    if (position.side == SideWord::Other) {
        if (!m_side)
            return std::nullopt;
        return *m_side == Side::Left ? Side::Right : Side::Left;
    }
    return toSide(position.side);
}

std::vector<Place> Discourse::placesOf(int base) const
{
    std::vector<Place> places;
    for (const Member& member : m_lexicon.base(base).members)
        places.push_back(member.index);
    return places;
}

/// Whether a position alone tells the places of a base apart.
bool Discourse::tellsApart(int base, const Naming& naming) const
{
    if (base < 0)
        return false;
    const Base& it = m_lexicon.base(base);
    if (it.group || it.members.size() < 2)
        return false;
    for (const Position& position : naming.positions) {
        const bool axle = position.axle != Axle::None;
        if (!position.sideSaid && !axle && !naming.amountSaid)
            return false;
        if (position.sideSaid && !it.sides)
            return false;
        // "Lights. The off side rear": all of them are at the rear
        const bool there = std::ranges::all_of(
            it.members, [&](const Member& member) { return member.axle == position.axle; });
        if (axle && !it.axles && it.frontBase < 0 && it.rearBase < 0 && !(there && it.sides))
            return false;
    }
    return true;
}

/// What a position alone tells apart from here on: behind "driver's seat", "passenger's" is the
/// seat.
int Discourse::topicOf(int base) const
{
    const Base& it = m_lexicon.base(base);
    if (it.kind != "seat" || it.members.size() != 1)
        return base;
    for (std::size_t other = 0; other < m_lexicon.bases().size(); ++other) {
        const Base& all = m_lexicon.base(int(other));
        if (all.kind == it.kind && all.sides && !all.part &&
            std::ranges::find(all.members, it.members.front().place, &Member::place) !=
                all.members.end())
            return int(other);
    }
    return base;
}

/// "the discs", "the tread": what is spoken of already, said again without a position.
bool Discourse::echoes(const Naming& naming) const
{
    if (naming.base < 0 || m_focus.places.empty() || m_focus.base < 0 || naming.amountSaid ||
        m_focus.list)
        return false;
    for (const Position& position : naming.positions)
        if (position.sideSaid || position.axle != Axle::None)
            return false;
    if (naming.base == m_focus.base)
        return true;
    // "Steering wheel fine. Wheels": several are no part of one
    if (naming.several && !m_lexicon.base(naming.base).remedy && m_focus.places.size() == 1 &&
        m_lexicon.base(naming.base).members.size() > 1)
        return false;
    const Base& its = m_lexicon.base(naming.base);
    const std::string& name = m_lexicon.base(m_focus.base).name;
    return (its.part && its.partOf.empty()) ||
           std::ranges::find(its.partOf, name) != its.partOf.end();
}

int Discourse::baseFor(const Naming& naming) const
{
    int base = naming.base;
    if (base < 0)
        base = tellsApart(m_topic, naming) ? m_topic : -1;
    if (base < 0)
        return -1;
    // Of mirrors, "passenger glass" is that mirror.
    if (naming.base >= 0 && naming.positions.front().sideSaid && m_topic >= 0 &&
        std::ranges::find(m_lexicon.base(base).partOf, m_lexicon.base(m_topic).name) !=
            m_lexicon.base(base).partOf.end() &&
        tellsApart(m_topic, naming))
        return m_topic;
    // The back doors of a van.
    if (m_van && m_lexicon.base(base).name == "door" &&
        naming.positions.front().axle == Axle::Rear && m_lexicon.baseNamed("tailgate") >= 0)
        return m_lexicon.baseNamed("tailgate");
    if (m_van && m_lexicon.base(base).name == "door" && m_focus.base >= 0 &&
        m_lexicon.base(m_focus.base).name == "tailgate" &&
        naming.positions.front().axle == Axle::None && !naming.positions.front().sideSaid &&
        !naming.amountSaid)
        return m_focus.base;
    if (m_electric && m_lexicon.base(base).electricBase >= 0)
        return m_lexicon.base(base).electricBase;
    const Base& it = m_lexicon.base(base);
    Axle axle = Axle::None;
    bool side = false;
    for (const Position& position : naming.positions) {
        axle = position.axle != Axle::None ? position.axle : axle;
        side = side || position.sideSaid;
    }
    if (it.frontBase >= 0 && it.rearBase >= 0 && axle == Axle::None && it.members.empty())
        axle = m_axle == Axle::None ? Axle::Front : m_axle;
    if (axle == Axle::Front && it.frontBase >= 0)
        return it.frontBase;
    if (axle == Axle::Rear && it.rearBase >= 0 && !(it.axles && (side || naming.several)))
        return it.rearBase;
    return base;
}

/// The places at one position.
void Discourse::resolveAt(const Base& base, const Naming& naming, const Position& position,
                          Resolved& out) const
{
    const bool many = naming.several || naming.amountSaid || base.group;
    const bool all = (naming.amountSaid && naming.amount == Amount::All) || base.group;
    std::optional<Side> side = sideOf(position);
    Axle axle = position.axle;
    const bool both = base.sides && base.axles;
    if (base.sides && !side) {
        if (position.severalAxle || (both && many && axle != Axle::None) || (many && !both)) {
            // "rear tyres", "the fronts", "headlights": on both sides
            if (many && !both && base.group && m_along)
                side = m_side;
        } else if (many) {
            // Wheels and tyres are a topic of their own on most walks.
            const bool rolling = (base.kind == "wheel" || base.kind == "tyre") &&
                                 !(naming.amountSaid && naming.amount == Amount::Both);
            if (m_along && !rolling && !(all && !base.group))
                side = m_side;
        } else {
            side = m_side;
            if (!side) {
                side = toSide(SideWord::Driver);
                out.guessed = true;
            }
        }
    }
    if (m_twoDoor && both && base.kind != "wheel" && base.kind != "tyre" && base.name != "arch" &&
        base.rearBase < 0 && !base.group)
        axle = Axle::Front;
    // The driver's side of a carpet is in front.
    if (base.axles && !base.sides && axle == Axle::None && position.sideSaid)
        axle = Axle::Front;
    // "both door cards" without a side are the two in front.
    if (both && axle == Axle::None && !side && naming.amountSaid && naming.amount == Amount::Both &&
        base.kind == "interior")
        axle = Axle::Front;
    if (base.axles && axle == Axle::None && !many) {
        const bool seatWord =
            position.sideSaid && base.kind != "wheel" && base.kind != "tyre" &&
            (position.side == SideWord::Driver || position.side == SideWord::Passenger);
        axle = seatWord || m_axle == Axle::None ? Axle::Front : m_axle;
        if (m_axle == Axle::None && !seatWord)
            out.guessed = true;
    }
    for (const Member& member : base.members) {
        const Side its = member.side == SideWord::This ? Side::None : toSide(member.side);
        if (base.sides && its != Side::None && side && its != *side)
            continue;
        if (base.axles && member.axle != Axle::None && axle != Axle::None && member.axle != axle)
            continue;
        addOnce(out.places, member.index);
    }
}

/// "the other three", "the rest": those of which nothing was said that stands.
void Discourse::resolveRest(const Naming& naming, Resolved& out) const
{
    const int base = naming.base >= 0 ? naming.base : m_topic;
    if (base < 0)
        return;
    out.base = base;
    std::vector<Place> all = placesOf(base);
    if (const Base& it = m_lexicon.base(base); it.kind == "seat" && it.rearBase >= 0)
        for (const Place place : placesOf(it.rearBase)) // "the other seats"
            addOnce(all, place);
    for (const Place place : all) {
        const bool named = std::ranges::any_of(m_drafts, [&](const Draft& draft) {
            return draft.alive && draft.place == place && draft.run + 5 > m_run;
        });
        if (!named)
            addOnce(out.places, place);
    }
}

Discourse::Resolved Discourse::resolve(const Naming& naming) const
{
    Resolved out;
    const bool others = naming.amountSaid && naming.amount == Amount::Other && naming.several &&
                        naming.base >= 0 &&
                        (m_lexicon.base(naming.base).kind == "seat" ||
                         m_lexicon.base(naming.base).members.size() > 2);
    if ((naming.amountSaid && naming.amount == Amount::Rest) || others) {
        resolveRest(naming, out);
        return out;
    }
    out.base = baseFor(naming);
    if (out.base < 0)
        return out;
    if (naming.amountSaid && naming.amount == Amount::Other && !m_focus.places.empty() &&
        m_lexicon.base(out.base).sides) {
        out.places = mirrored(m_focus.places);
        if (naming.base < 0 || naming.base == m_focus.base)
            return out;
        out.places.clear();
    }
    const Base& base = m_lexicon.base(out.base);
    // "the tyre" behind a wheel is the tyre on it.
    if (naming.base >= 0 && base.kind == "tyre" && !naming.several && !naming.amountSaid &&
        !m_focus.places.empty() && m_focus.base >= 0 &&
        m_lexicon.base(m_focus.base).kind == "wheel" && !naming.positions.front().sideSaid &&
        naming.positions.front().axle == Axle::None) {
        out.places = through(m_focus.places, true);
        return out;
    }
    for (const Position& position : naming.positions)
        resolveAt(base, naming, position, out);
    return out;
}

std::vector<Place> Discourse::mirrored(const std::vector<Place>& places) const
{
    std::vector<Place> out;
    for (const Place place : places) {
        QString id = allPlaces()[std::size_t(place)].id.text;
        if (id.endsWith(QLatin1String("-left")))
            id = id.chopped(4) + QLatin1String("right");
        else if (id.endsWith(QLatin1String("-right")))
            id = id.chopped(5) + QLatin1String("left");
        else if (id == QLatin1String("driver-seat"))
            id = QStringLiteral("passenger-seat");
        else if (id == QLatin1String("passenger-seat"))
            id = QStringLiteral("driver-seat");
        const auto it = std::ranges::find(allPlaces(), PlaceId{id}, &PlaceInfo::id);
        if (it != allPlaces().end())
            out.push_back(int(it - allPlaces().begin()));
    }
    return out;
}

/// Tyres of wheels, or wheels of tyres; other places stay.
std::vector<Place> Discourse::through(const std::vector<Place>& places, bool toTyre)
{
    std::vector<Place> out;
    for (const Place place : places) {
        const PlaceId& id = allPlaces()[std::size_t(place)].id;
        const PlaceId other = toTyre ? tyreOf(id) : wheelOf(id);
        const auto it = std::ranges::find(allPlaces(), other, &PlaceInfo::id);
        addOnce(out, it == allPlaces().end() ? place : int(it - allPlaces().begin()));
    }
    return out;
}

} // namespace ramplight::spoken
