// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "demo/atwork.h"

#include "demo/plausible.h"

#include <algorithm>
#include <map>

namespace ramplight::demo {

namespace {

std::vector<PlaceId> placesOf(const ReadingSpec& spec)
{
    return spec.places.empty() ? std::vector<PlaceId>{PlaceId{}} : spec.places;
}

/// The first of the house that is in date; null where the reading wants none or there is none.
ToolId toolFor(const ReadingSpec& spec, const SiteState& site, QDate day)
{
    if (spec.tool)
        for (const Tool* tool : site.toolsOf(*spec.tool))
            if (tool->isInDate(day))
                return tool->id;
    return {};
}

} // namespace

tl::expected<SiteState, QString> openHouse(Workshop& workshop, const WorkshopFile& file,
                                           const Opening& opening)
{
    SiteState site;
    const auto ask = [&](PersonId by, const SiteCommand& what, const QString& name = {}) {
        auto done = workshop.run(SiteRequest{opening.command(), by, what, name});
        if (!done)
            return words(done.error());
        site = std::move(done->site);
        return QString();
    };
    site::SetUp setUp;
    setUp.name = file.site;
    setUp.demo = opening.isDemo;
    setUp.firstPersonsSkills = file.people.front().skills;
    if (const QString fault = ask({}, setUp, file.people.front().name); !fault.isEmpty())
        return tl::unexpected(fault);
    for (std::size_t i = 1; i < file.people.size(); ++i) {
        const PersonEntry& entry = file.people[i];
        if (const QString fault =
                ask(manager, site::AddPerson{entry.skills, entry.rights}, entry.name);
            !fault.isEmpty())
            return tl::unexpected(fault);
    }
    HouseRules rules = site.rules;
    rules.limits = file.limits;
    std::vector<SiteCommand> commands{site::SetHouseRules{rules}};
    for (const Bay& bay : file.bays)
        commands.emplace_back(site::SetBay{bay});
    for (std::size_t i = 0; i < file.people.size(); ++i) {
        const PersonEntry& entry = file.people[i];
        site::SetCompetence competence{PersonId{static_cast<int>(i) + 1}, {}, entry.specialities};
        for (const QualifiedEntry& held : entry.qualifications)
            competence.qualifications.push_back({held.qualification, opening.until(held.days)});
        commands.emplace_back(competence);
    }
    for (const ToolEntry& entry : file.tools)
        commands.emplace_back(
            site::SetTool{{{}, entry.number, entry.kind, opening.until(entry.days), true}});
    for (const SiteCommand& command : commands) {
        if (const QString fault = ask(manager, command); !fault.isEmpty())
            return tl::unexpected(fault);
    }
    return site;
}

car::FindSound foundSound(const std::vector<FindingData>& findings,
                          const std::vector<PlaceId>& unseen)
{
    car::FindSound sound;
    for (const PlaceInfo& place : allPlaces()) {
        const bool isFound =
            std::ranges::find(findings, place.id, &FindingData::place) != findings.end();
        const bool isForgotten = std::ranges::find(unseen, place.id) != unseen.end();
        const bool isVisible =
            place.kind != PlaceKind::Brake && place.kind != PlaceKind::Underbody &&
            place.kind != PlaceKind::Steering && place.kind != PlaceKind::Suspension &&
            place.kind != PlaceKind::HighVoltage;
        if (isVisible && !isFound && !isForgotten)
            sound.places.push_back(place.id);
    }
    return sound;
}

std::vector<CarCommand> missingFigures(const Operation& operation, const QString& source)
{
    std::vector<CarCommand> commands;
    for (const ReadingSpec& spec : operation.spec->readings) {
        if (!spec.neededFrom && spec.kind != ReadingKind::Figure)
            continue;
        for (const PlaceId& place : placesOf(spec)) {
            if (operation.figure(spec.key, place) == nullptr)
                commands.emplace_back(
                    car::SetFigure{operation.id, spec.key, place, plausibleFigure(spec), source});
        }
    }
    return commands;
}

std::vector<CarCommand> evidence(const Operation& operation, const SiteState& site, QDate day,
                                 QRandomGenerator& random, const PictureAt& picture)
{
    std::vector<CarCommand> commands;
    for (const ReadingSpec& spec : operation.spec->readings) {
        if (spec.optional)
            continue;
        const ToolId tool = toolFor(spec, site, day);
        for (const PlaceId& place : placesOf(spec)) {
            if (operation.reading(spec.key, place) == nullptr)
                commands.emplace_back(
                    car::TakeReading{operation.id, spec.key, place,
                                     plausibleReading(operation, spec, place, random), tool});
        }
    }
    std::map<PhotoMoment, int> asked;
    for (const PhotoSpec& photo : operation.spec->photos) {
        // Each is another picture, and work that was opened again is photographed again.
        const int again = operation.timesReopened * static_cast<int>(operation.spec->photos.size());
        commands.emplace_back(car::AttachPhoto{picture(photo.moment, asked[photo.moment]++ + again),
                                               photo.moment,
                                               operation.place,
                                               operation.id,
                                               {}});
    }
    return commands;
}

} // namespace ramplight::demo
