// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "demo/democrew.h"

#include "demo/atwork.h"
#include "domain/checking.h"
#include "domain/holds.h"

#include <QDateTime>

#include <algorithm>

// What the story of the demo workshop adds to the work itself.
namespace ramplight::demo {

void Crew::storyTurns(PlayedCar& car, Moment at)
{
    const CarEntry& entry = *car.entry;
    const QDate today = QDateTime::fromMSecsSinceEpoch(m_end.ms, m_zone).date();
    for (const PartEntry& part : entry.parts)
        for (const auto& [id, operation] : car.state.operations)
            if (operation.spec->id == part.op && operation.isOpen() &&
                car.used.insert(part.op).second) {
                run(car, manager,
                    {car::BlockForPart{id, {part.part, part.supplier, today.addDays(part.due)}}});
                break;
            }
    for (const OutsideEntry& outside : entry.outside)
        for (const auto& [id, operation] : car.state.operations)
            if (operation.spec->id == outside.op && operation.isOpen() &&
                car.used.insert(outside.op).second) {
                run(car, manager,
                    {car::SendOut{id,
                                  {outside.firm,
                                   today.addDays(outside.due),
                                   outside.keys,
                                   outside.document,
                                   false,
                                   {}}}});
                break;
            }
    for (const LeaveEntry& leave : entry.leave)
        for (const auto& [id, operation] : car.state.operations)
            if (operation.spec->id == leave.op && operation.isOpen() && !operation.wasStarted() &&
                car.used.insert(leave.op).second) {
                run(car, manager, {car::LeaveAsIs{id, leave.words}});
                break;
            }
    for (const MistakenEntry& mistaken : entry.mistaken)
        for (const auto& [id, finding] : car.state.findings)
            if (finding.stands() && finding.data().place == mistaken.place &&
                car.used.insert(mistaken.place.text).second) {
                // A fresh one: so many are on the car.
                const int number = static_cast<int>(car.state.photoFates.size());
                run(car, manager,
                    {car::CorrectFinding{
                        id, finding.data(), false, mistaken.reason,
                        m_pictures(entry, mistaken.place, PhotoMoment::After, number)}});
                break;
            }
    if (entry.leaves && at >= car.arrives.plusMinutes(entry.leaves->after * 24 * 60) &&
        car.used.insert(QStringLiteral("leaves")).second) {
        for (auto it = m_jobs.begin(); it != m_jobs.end();)
            it = it->second.car == car.id ? m_jobs.erase(it) : std::next(it);
        if (run(car, manager, {car::LeaveUnreleased{entry.leaves->how, entry.leaves->reason}}))
            car.away = true;
        else
            car.used.erase(QStringLiteral("leaves"));
        return;
    }
    countersignWhatWaits(car, at);
    tryRelease(car, at);
}

void Crew::countersignWhatWaits(PlayedCar& car, Moment at)
{
    // What was signed since yesterday morning still waits for its second signature.
    if (m_end.ms - at.ms < qint64{30} * 3'600'000)
        return;
    for (const auto& [id, operation] : car.state.operations)
        if (operation.state == OperationState::AwaitingCheck && !operation.outside &&
            m_random.bounded(90) == 0)
            for (const auto& [person, details] : m_site.people)
                if (details.can(Right::Check) && !operation.doers().contains(person) &&
                    readAgainstFigureOf(operation, person) == nullptr) {
                    run(car, person, {car::Countersign{id}});
                    return;
                }
}

void Crew::tryRelease(PlayedCar& car, Moment at)
{
    const CarStatus status = statusOf(car.state, m_site.rules, at);
    if (status == CarStatus::ReadyForRelease) {
        // Somebody has to walk over and sign; what came ready since yesterday noon waits for that.
        const int patience = m_end.ms - at.ms < qint64{22} * 3'600'000 ? 100'000 : 120;
        if (m_random.bounded(patience) == 0)
            run(car, appraiser, {car::Release{}}, true);
    } else if (status == CarStatus::Released && car.entry->holdAgain && !car.heldAgain &&
               m_random.bounded(60) == 0) {
        car.heldAgain = run(car, appraiser, {car::RecordFinding{*car.entry->holdAgain, {}}});
    }
}

void Crew::leaveSomethingForLater()
{
    // Somebody was called away.
    if (m_jobs.size() < 2)
        return;
    const auto [person, job] = *m_jobs.begin();
    const auto car = std::ranges::find(m_cars, job.car, &PlayedCar::id);
    if (run(*car, person, {car::PauseWork{job.operation, person, StopKind::Paused}}))
        m_jobs.erase(person);
}

} // namespace ramplight::demo
