// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/startedtimers.h"

#include "domain/ports.h"

namespace ramplight {

void StartedTimers::note(const CarAppend& written, qint64 steadyMs)
{
    std::erase_if(m_started, [&](const Started& started) {
        if (started.car != written.after.id)
            return false;
        const Segment* runs = written.after.runningSegment(started.person, nullptr);
        return runs == nullptr || runs->start != started.start;
    });
    for (const CarEvent& event : written.events)
        if (const auto* start = std::get_if<WorkStarted>(&event))
            m_started.push_back({written.after.id, start->person, start->at, steadyMs});
}

void StartedTimers::add(const CarId& car, const SteadyTimer& timer, qint64 steadyMs)
{
    m_started.push_back({car, timer.person, timer.start, steadyMs - timer.ranMs});
}

std::vector<SteadyTimer> StartedTimers::of(const CarId& car, qint64 steadyMs) const
{
    std::vector<SteadyTimer> timers;
    for (const Started& started : m_started)
        if (started.car == car)
            timers.push_back({started.person, started.start, steadyMs - started.steadyMs});
    return timers;
}

} // namespace ramplight
