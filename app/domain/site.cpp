// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/siteevents.h"

#include <QDateTime>
#include <QTimeZone>

#include <algorithm>

namespace ramplight {

SiteState::SiteState() = default;
SiteState::SiteState(const SiteState& other) = default;
SiteState::SiteState(SiteState&& other) noexcept = default;
SiteState& SiteState::operator=(const SiteState& other) = default;
SiteState& SiteState::operator=(SiteState&& other) noexcept = default;
SiteState::~SiteState() = default;

bool Person::can(Right right) const
{
    return active && std::ranges::find(rights, right) != rights.end();
}

bool Person::has(Skill skill) const
{
    return std::ranges::find(skills, skill) != skills.end();
}

const HeldQualification* Person::held(Qualification qualification) const
{
    const auto it =
        std::ranges::find(qualifications, qualification, &HeldQualification::qualification);
    return it == qualifications.end() ? nullptr : &*it;
}

const Person* SiteState::person(PersonId id) const
{
    const auto it = people.find(id);
    return it == people.end() ? nullptr : &it->second;
}

const Person* SiteState::personNamed(const QString& wanted, PersonId but) const
{
    for (const auto& [id, person] : people)
        if (id != but && person.name.compare(wanted, Qt::CaseInsensitive) == 0)
            return &person;
    return nullptr;
}

bool suits(const Bay& bay, BayKind wanted)
{
    return bay.kind != BayKind::Parking &&
           (bay.kind == BayKind::Any || wanted == BayKind::Any || bay.kind == wanted);
}

const Bay* SiteState::bay(BayId id) const
{
    const auto it = bays.find(id);
    return it == bays.end() ? nullptr : &it->second;
}

const Tool* SiteState::tool(ToolId id) const
{
    const auto it = tools.find(id);
    return it == tools.end() ? nullptr : &it->second;
}

std::vector<const Tool*> SiteState::toolsOf(ToolKind kind) const
{
    std::vector<const Tool*> found;
    for (const auto& [id, tool] : tools)
        if (tool.active && tool.kind == kind)
            found.push_back(&tool);
    return found;
}

QTimeZone zoneOf(const HouseRules& rules)
{
    // Looked up for each day of each car, and nearly always the same one.
    thread_local QString name;
    thread_local QTimeZone zone = QTimeZone::utc();
    if (name != rules.timeZone) {
        name = rules.timeZone;
        zone = QTimeZone(name.toLatin1());
        if (!zone.isValid())
            zone = QTimeZone::utc();
    }
    return zone;
}

QDate dayOf(Moment moment, const HouseRules& rules)
{
    return QDateTime::fromMSecsSinceEpoch(moment.ms, zoneOf(rules)).date();
}

Moment startOf(QDate day, const HouseRules& rules)
{
    return {day.startOfDay(zoneOf(rules)).toMSecsSinceEpoch()};
}

namespace {

struct SiteApplier
{
    SiteState& site;

    void operator()(const SiteSetUp& e) const
    {
        site.name = e.name;
        site.demo = e.demo;
        site.rules = e.rules;
    }
    void operator()(const PersonAdded& e) const
    {
        site.people.insert_or_assign(e.person, Person{e.person, {}, e.skills, e.rights, true});
    }
    void operator()(const PersonChanged& e) const
    {
        Person& person = site.people[e.person];
        person.id = e.person;
        person.skills = e.skills;
        person.rights = e.rights;
        person.active = e.active;
    }
    void operator()(const AccessChanged&) const {}
    void operator()(const PinAlarm&) const {}
    void operator()(const BaySet& e) const { site.bays.insert_or_assign(e.bay.id, e.bay); }
    void operator()(const HouseRulesSet& e) const { site.rules = e.rules; }
    void operator()(const QualificationSet& e) const
    {
        std::vector<HeldQualification>& held = site.people[e.person].qualifications;
        std::erase_if(held, [&](const HeldQualification& one) {
            return one.qualification == e.qualification;
        });
        if (e.until.isValid())
            held.push_back({e.qualification, e.until});
        std::ranges::sort(held, {}, &HeldQualification::qualification);
    }
    void operator()(const SpecialitiesSet& e) const
    {
        site.people[e.person].specialities = e.specialities;
    }
    void operator()(const PersonTimesSet& e) const { site.people[e.person].times = e.times; }
    void operator()(const ToolSet& e) const { site.tools.insert_or_assign(e.tool.id, e.tool); }
    void operator()(const OperationAdjusted& e) const
    {
        if (e.adjustment.isEmpty())
            site.adjustments.erase(e.adjustment.operation);
        else
            site.adjustments.insert_or_assign(e.adjustment.operation, e.adjustment);
    }
    void operator()(const CatalogueAdopted& e) const
    {
        site.adopted = {};
        if (!e.catalogue)
            return;
        auto catalogue = std::make_shared<Catalogue>(*e.catalogue);
        catalogue->hash = e.hash;
        site.adopted.catalogue = std::move(catalogue);
    }
};

} // namespace

void apply(SiteState& state, const SiteEnvelope& envelope)
{
    std::visit(SiteApplier{state}, envelope.event);
    state.seq = envelope.seq;
    state.lastAt = envelope.at;
}

} // namespace ramplight
