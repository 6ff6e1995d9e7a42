// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/kepttimers.h"

#include "domain/say.h"

#include <algorithm>

namespace ramplight {

tl::expected<QString, StoreError> whyItWaits(const KeptRequest& kept, Ledger& ledger)
{
    const auto* asked = std::get_if<CarRequest>(&kept.asked);
    if (asked == nullptr || std::ranges::none_of(asked->commands, [](const CarCommand& command) {
            return std::holds_alternative<car::StartWork>(command);
        }))
        return QString();
    const auto known = ledger.isKnown(asked->id);
    if (!known)
        return tl::unexpected(known.error());
    if (*known)
        return QString();
    const auto running = ledger.runningWork(asked->actor);
    if (!running)
        return tl::unexpected(running.error());
    if (!*running)
        return QString();
    const auto car = ledger.car((*running)->car);
    if (!car)
        return tl::unexpected(car.error());
    const Segment* runs = car->runningSegment(asked->actor, nullptr);
    if (runs == nullptr || runs->start <= kept.at)
        return QString();
    const auto site = ledger.site();
    if (!site)
        return tl::unexpected(site.error());
    const Person* person = site->person(asked->actor);
    return say("%1 is at work on %2 now. What %1 began on %3 while the server was away goes to it "
               "once that timer has ended.")
        .arg(person == nullptr ? QString() : person->name, (*running)->stockNumber,
             kept.works.empty() ? QString() : kept.works.front().stockNumber);
}

tl::expected<std::shared_ptr<StartedTimers>, StoreError> timersOf(const KeptRequest& kept,
                                                                  Ledger& ledger, qint64 steadyMs)
{
    auto timers = std::make_shared<StartedTimers>();
    for (const KeptWork& work : kept.works) {
        if (work.timers.empty())
            continue;
        const auto car = ledger.car(work.car);
        if (!car)
            return tl::unexpected(car.error());
        for (SteadyTimer timer : work.timers) {
            // One that others started later is not stopped by this: it was overtaken.
            if (const Segment* runs = car->runningSegment(timer.person, nullptr))
                timer.start = std::max(timer.start, runs->start);
            timers->add(work.car, timer, steadyMs);
        }
    }
    return timers;
}

} // namespace ramplight
