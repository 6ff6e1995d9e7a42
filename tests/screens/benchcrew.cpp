// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "benchcrew.h"

#include "demo/plausible.h"

#include <QRandomGenerator>
#include <QTest>

namespace ramplight::test {

namespace {

constexpr unsigned seed = 88;
constexpr int dryingMinutes = 30;
constexpr int mostRounds = 60;

std::vector<PlaceId> placesOf(const ReadingSpec& spec)
{
    return spec.places.empty() ? std::vector<PlaceId>{PlaceId{}} : spec.places;
}

} // namespace

void BenchCrew::finish(const CarId& car, const char* kind, const char* place, Where where)
{
    const OperationId id = m_house.open(car, kind, place);
    for (int i = 0; i < mostRounds && !id.isNull(); ++i) {
        if (tryFinish(car, id))
            return;
        m_house.clock.goOn(dryingMinutes);
    }
    QTest::qFail(kind, where.file_name(), static_cast<int>(where.line()));
}

void BenchCrew::makeReady(const CarId& car, Where where)
{
    finishAll(car, {}, where);
    m_house.clock.goOn(24 * 60);
}

void BenchCrew::finishAll(const CarId& car, const QStringList& butFor, Where where)
{
    for (int i = 0; i < mostRounds; ++i) {
        bool all = true;
        bool some = false;
        const CarState state = m_house.car(car);
        for (const auto& [id, operation] : state.operations) {
            if (!operation.isOpen() || butFor.contains(operation.spec->id))
                continue;
            all = false;
            some = tryFinish(car, id) || some;
        }
        if (all)
            return;
        if (!some)
            m_house.clock.goOn(dryingMinutes);
    }
    QStringList left;
    for (const Operation* operation : m_house.car(car).openOperations())
        left.append(operation->spec->id);
    QTest::qFail(qPrintable(left.join(QLatin1Char(' '))), where.file_name(),
                 static_cast<int>(where.line()));
}

bool BenchCrew::tryFinish(const CarId& car, OperationId id)
{
    const SiteState site = m_house.site();
    // The last first: the manager and the checkers stay free of work that they check.
    for (auto it = site.people.rbegin(); it != site.people.rend(); ++it) {
        const PersonId doer = it->first;
        if (!m_house.tries(doer, car, {car::ReadCautions{id}, car::StartWork{id}}))
            continue;
        m_house.clock.goOn(10);
        const Operation started = *m_house.car(car).operation(id);
        enterFigures(car, started, doer);
        std::vector<CarCommand> commands = evidence(started);
        commands.emplace_back(car::SignOff{id, {}});
        if (!m_house.tries(doer, car, commands)) {
            m_house.must(doer, car, {car::PauseWork{id, doer, StopKind::Paused}});
            return false;
        }
        if (m_house.car(car).operation(id)->state == OperationState::AwaitingCheck)
            for (const auto& [second, person] : site.people)
                if (m_house.tries(second, car, {car::Countersign{id}}))
                    break;
        return true;
    }
    return false;
}

void BenchCrew::enterFigures(const CarId& car, const Operation& operation, PersonId doer)
{
    std::vector<CarCommand> commands;
    for (const ReadingSpec& spec : operation.spec->readings)
        if (!spec.optional && (spec.neededFrom || spec.kind == ReadingKind::Figure))
            for (const PlaceId& place : placesOf(spec))
                commands.emplace_back(car::SetFigure{operation.id, spec.key, place,
                                                     demo::plausibleFigure(spec),
                                                     QStringLiteral("workshop data")});
    if (commands.empty())
        return;
    for (const auto& [id, person] : m_house.site().people)
        if (id != doer && person.can(Right::Manage)) {
            m_house.must(id, car, commands);
            return;
        }
}

ToolId BenchCrew::toolFor(const ReadingSpec& spec)
{
    const SiteState site = m_house.site();
    if (spec.tool)
        for (const Tool* tool : site.toolsOf(*spec.tool))
            if (tool->isInDate(dayOf(m_house.clock.now(), site.rules)))
                return tool->id;
    return {};
}

std::vector<CarCommand> BenchCrew::evidence(const Operation& operation)
{
    QRandomGenerator random(seed);
    std::vector<CarCommand> commands;
    for (const ReadingSpec& spec : operation.spec->readings)
        if (!spec.optional)
            for (const PlaceId& place : placesOf(spec))
                if (operation.reading(spec.key, place) == nullptr)
                    commands.emplace_back(car::TakeReading{
                        operation.id, spec.key, place,
                        demo::plausibleReading(operation, spec, place, random), toolFor(spec)});
    for (const PhotoSpec& spec : operation.spec->photos)
        commands.emplace_back(
            car::AttachPhoto{m_house.photo(), spec.moment, operation.place, operation.id, {}});
    return commands;
}

} // namespace ramplight::test
