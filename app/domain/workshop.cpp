// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/workshop.h"

#include "domain/housecatalogue.h"
#include "domain/worktotals.h"

#include <algorithm>
#include <iterator>

namespace ramplight {

namespace {

bool workedOn(const Operation& operation, PersonId person)
{
    return std::ranges::any_of(operation.segments,
                               [&](const Segment& segment) { return segment.person == person; });
}

/// How often a command is decided anew when another kiosk was quicker. Each round somebody wins,
/// so only a very crowded car comes near it.
constexpr int attempts = 8;

template <class T>
tl::unexpected<Failure> fail(T&& why)
{
    return tl::unexpected(Failure(std::forward<T>(why)));
}

const StoreError tooCrowded{
    StoreErrorKind::Conflict,
    QStringLiteral("Others were changing this car at the same time. Nothing "
                   "was changed for you; try again.")};

/// Retries while the ledger answers that somebody else was first.
template <class Attempt>
auto retrying(Attempt attempt) -> decltype(attempt())
{
    for (int i = 0; i < attempts; ++i) {
        auto result = attempt();
        const StoreError* error = result ? nullptr : std::get_if<StoreError>(&result.error());
        if (error == nullptr || error->kind != StoreErrorKind::Conflict)
            return result;
    }
    return fail(tooCrowded);
}

} // namespace

QString words(const Failure& failure)
{
    if (const Refusal* refusal = std::get_if<Refusal>(&failure))
        return words(*refusal);
    return std::get<StoreError>(failure).words;
}

Workshop::Workshop(Ledger& ledger, const Clock& clock, const Catalogue& catalogue,
                   std::shared_ptr<StartedTimers> timers)
    : m_ledger(ledger)
    , m_clock(clock)
    , m_catalogue(catalogue)
    , m_timers(timers ? std::move(timers) : std::make_shared<StartedTimers>())
{
}

const Catalogue& Workshop::houseCatalogueFor(const SiteState& site)
{
    if (m_houseSeq != site.seq) {
        m_house = houseCatalogue(m_catalogue, site);
        m_houseSeq = site.seq;
    }
    return m_house;
}
/// What the wheels that are signed at once share.
struct Workshop::Together
{
    const TogetherRequest& request;
    Moment busyUntil;

    [[nodiscard]] bool has(const CarId& car, OperationId operation) const
    {
        return std::ranges::any_of(request.items, [&](const TogetherRequest::Item& item) {
            return item.car == car && item.operation == operation;
        });
    }
};

tl::expected<CarContext, Failure>
Workshop::contextFor(const CarState& car, const CarCommand& command, const CarRequest& request,
                     const SiteState& site, Moment now, Together* together)
{
    CarContext context;
    context.actor = request.actor;
    context.now = now;
    context.catalogue = &houseCatalogueFor(site);
    context.site = &site;
    context.pinFresh = request.pinFresh;
    context.together = together != nullptr;
    context.steadyTimers = m_timers->of(car.id, m_clock.steadyMs());
    if (std::holds_alternative<car::StartWork>(command)) {
        auto running = m_ledger.runningWork(request.actor);
        if (!running)
            return fail(running.error());
        // Work that this very request already stopped is not running any more.
        if (*running &&
            ((*running)->car != car.id || car.runningSegment(request.actor, nullptr) != nullptr))
            context.running = **running;
        auto busy = m_ledger.busyUntil(request.actor);
        if (!busy)
            return fail(busy.error());
        context.busyUntil = *busy;
        if (together != nullptr) {
            if (context.running && together->has(context.running->car, context.running->operation))
                context.running.reset();
            // One after the other by a thousandth: stretches that begin at once could not be told
            // apart by a correction.
            context.busyUntil = std::max({*busy, now, together->busyUntil});
            together->busyUntil = Moment{context.busyUntil.ms + 1};
        }
    } else if (const auto* move = std::get_if<car::MoveCar>(&command)) {
        if (!move->bay.isNull()) {
            auto taken = m_ledger.bayTakenBy(move->bay);
            if (!taken)
                return fail(taken.error());
            context.bayTakenBy = *taken;
        }
    } else if (const auto* correct = std::get_if<car::CorrectMinutes>(&command)) {
        if (const Operation* operation = car.operation(correct->operation))
            for (const Segment& segment : operation->segments)
                if (segment.id == correct->segment && !segment.running()) {
                    auto next = m_ledger.nextWorkAfter(segment.person, segment.start);
                    if (!next)
                        return fail(next.error());
                    const Moment limit = next->isNull() ? std::max(now, segment.end) : *next;
                    context.minutesRoom = minutesBetween(segment.start, limit);
                }
    }
    QString stockNumber;
    if (const auto* bring = std::get_if<car::BringIn>(&command))
        stockNumber = bring->identity.stockNumber.trimmed().toUpper();
    else if (const auto* identity = std::get_if<car::CorrectIdentity>(&command))
        stockNumber = identity->identity.stockNumber.trimmed().toUpper();
    else if (std::holds_alternative<car::BringBack>(command))
        stockNumber = car.identity.stockNumber;
    if (!stockNumber.isEmpty()) {
        auto other = m_ledger.carByStockNumber(stockNumber);
        if (!other)
            return fail(other.error());
        context.stockNumberTaken = *other && **other != request.car;
    }
    return context;
}

tl::expected<CarAppend, Failure> Workshop::prepare(const CarRequest& request, CarState car,
                                                   const SiteState& site, const CarState* other,
                                                   Moment now, Moment notBefore, Together* together)
{
    CarAppend prepared{request.car, car.seq, {}, std::move(car)};
    CarState& after = prepared.after;
    after.id = request.car;
    for (const CarCommand& command : request.commands) {
        auto context = contextFor(after, command, request, site, now, together);
        if (!context)
            return tl::unexpected(context.error());
        context->notBefore = notBefore;
        context->other = other;
        auto events = decide(after, *context, command);
        if (!events)
            return fail(events.error());
        std::ranges::move(*events, std::back_inserter(prepared.events));
    }
    return prepared;
}

tl::expected<CarOutcome, Failure> Workshop::carryOut(const CarRequest& request)
{
    auto found = m_ledger.siteAndCar(request.car);
    if (!found)
        return fail(found.error());
    const SiteState& site = *found->site;
    auto prepared = prepare(request, std::move(found->car), site, nullptr, m_clock.now(), {});
    if (!prepared)
        return tl::unexpected(prepared.error());
    if (prepared->events.empty())
        return CarOutcome{std::move(prepared->after), {}};
    // A list in braces would copy the car.
    Append append{request.id, request.actor, prepared->after.lastAt, {}, {}, {}};
    append.siteSeq = site.seq;
    append.cars.push_back(std::move(*prepared));
    append.asked = request;
    if (auto written = m_ledger.append(append); !written)
        return fail(written.error());
    CarAppend& done = append.cars.front();
    m_timers->note(done, m_clock.steadyMs());
    return CarOutcome{std::move(done.after), std::move(done.events)};
}

tl::expected<CarOutcome, Failure> Workshop::run(const CarRequest& request)
{
    return retrying([&]() -> tl::expected<CarOutcome, Failure> {
        auto outcome = carryOut(request);
        if (outcome)
            return outcome;
        // What was carried out before is mostly refused now, and never written twice.
        const auto known = m_ledger.isKnown(request.id);
        if (!known || !*known)
            return outcome;
        auto car = m_ledger.car(request.car);
        if (!car)
            return fail(car.error());
        return CarOutcome{std::move(*car), {}};
    });
}

tl::expected<SiteOutcome, Failure> Workshop::run(const SiteRequest& request)
{
    return retrying([&]() -> tl::expected<SiteOutcome, Failure> {
        auto site = m_ledger.site();
        if (!site)
            return fail(site.error());
        auto known = m_ledger.isKnown(request.id);
        if (!known)
            return fail(known.error());
        if (*known)
            return SiteOutcome{std::move(*site), {}};
        SiteContext context;
        context.actor = request.actor;
        context.now = m_clock.now();
        context.catalogue = &baseCatalogue(m_catalogue, *site);
        if (const auto* bay = std::get_if<site::SetBay>(&request.command);
            bay && !bay->bay.id.isNull()) {
            auto taken = m_ledger.bayTakenBy(bay->bay.id);
            if (!taken)
                return fail(taken.error());
            context.bayIsTaken = !taken->isEmpty();
        } else if (const auto* person = std::get_if<site::ChangePerson>(&request.command)) {
            auto running = m_ledger.runningWork(person->person);
            if (!running)
                return fail(running.error());
            context.personIsWorking = running->has_value();
            const auto withPin = m_ledger.peopleWithPin();
            if (!withPin)
                return fail(withPin.error());
            for (const auto& [id, someone] : site->people)
                if (!withPin->contains(id))
                    context.withoutPin.insert(id);
        }
        auto events = decide(*site, context, request.command);
        if (!events)
            return fail(events.error());
        const bool named = std::holds_alternative<site::SetUp>(request.command) ||
                           std::holds_alternative<site::AddPerson>(request.command);
        const QString name = request.personName.trimmed();
        if (named && name.isEmpty())
            return fail(Refusal{RefusalId::NameMissing, {}});
        Append append{request.id,
                      request.actor,
                      std::max(context.now, site->lastAt),
                      {},
                      SiteAppend{site->seq, *events},
                      {}};
        SiteOutcome outcome{std::move(*site), {}};
        PersonId opens; // the door, with something else than before
        for (const SiteEvent& event : *events) {
            apply(outcome.site,
                  SiteEnvelope{outcome.site.seq + 1, append.at, request.actor, request.id, event});
            if (const auto* added = std::get_if<PersonAdded>(&event))
                outcome.person = added->person;
            else if (const auto* changed = std::get_if<PersonChanged>(&event))
                outcome.person = changed->person;
            else if (const auto* access = std::get_if<AccessChanged>(&event))
                opens = access->person;
        }
        if (opens.isNull())
            opens = outcome.person;
        if (request.access && request.access->person != opens)
            return fail(Refusal{RefusalId::PersonUnknown, {}});
        append.access = request.access;
        if (!outcome.person.isNull() && !name.isEmpty()) {
            // Those who left, too: their names stand under what they signed.
            if (const Person* other = outcome.site.personNamed(name, outcome.person))
                return fail(Refusal{RefusalId::NameTaken, {other->name}});
            append.names.push_back({outcome.person, name});
            outcome.site.people[outcome.person].name = name;
        }
        // The very first event of a workshop is signed by the person whom it makes.
        if (append.by.isNull() && std::holds_alternative<site::SetUp>(request.command))
            append.by = outcome.person;
        if (events->empty() && append.names.empty())
            return outcome; // it is so already
        if (auto written = m_ledger.append(append); !written)
            return fail(written.error());
        return outcome;
    });
}

tl::expected<CarOutcome, Failure> Workshop::mergeDuplicate(const CommandId& id, PersonId actor,
                                                           const CarId& keep, const CarId& second,
                                                           const QString& reason)
{
    return retrying([&]() -> tl::expected<CarOutcome, Failure> {
        auto known = m_ledger.isKnown(id);
        auto kept = m_ledger.car(keep);
        auto closed = m_ledger.car(second);
        auto site = m_ledger.site();
        if (!known)
            return fail(known.error());
        if (!kept)
            return fail(kept.error());
        if (!closed)
            return fail(closed.error());
        if (!site)
            return fail(site.error());
        if (*known)
            return CarOutcome{std::move(*kept), {}};
        // Both streams get the same time, and neither goes back.
        const Moment now = m_clock.now();
        const Moment at = std::max({now, kept->lastAt, closed->lastAt});
        auto link = prepare({id, actor, keep, {car::LinkDuplicate{second}}, false}, *kept, *site,
                            &*closed, now, at);
        if (!link)
            return tl::unexpected(link.error());
        auto leave = prepare({id, actor, second, {car::CloseDuplicate{keep, reason}}, false},
                             *closed, *site, &*kept, now, at);
        if (!leave)
            return tl::unexpected(leave.error());
        Append append{id, actor, at, {}, {}, {}};
        append.siteSeq = site->seq;
        append.cars.push_back(std::move(*link));
        append.cars.push_back(std::move(*leave));
        if (auto written = m_ledger.append(append); !written)
            return fail(written.error());
        CarAppend& merged = append.cars.front();
        return CarOutcome{std::move(merged.after), std::move(merged.events)};
    });
}

tl::expected<std::vector<CarOutcome>, Failure>
Workshop::signTogether(const TogetherRequest& request)
{
    const auto cannot = [](const QString& why) {
        return fail(Refusal{RefusalId::NotTogether, {why}});
    };
    return retrying([&]() -> tl::expected<std::vector<CarOutcome>, Failure> {
        auto known = m_ledger.isKnown(request.id);
        if (!known)
            return fail(known.error());
        auto site = m_ledger.site();
        if (!site)
            return fail(site.error());
        // The cars, each once, in the order of their first wheel.
        std::vector<CarState> cars;
        const Moment now = m_clock.now();
        Moment at = now;
        for (const TogetherRequest::Item& item : request.items) {
            if (std::ranges::find(cars, item.car, &CarState::id) != cars.end())
                continue;
            auto car = m_ledger.car(item.car);
            if (!car)
                return fail(car.error());
            car->id = item.car;
            at = std::max(at, car->lastAt);
            cars.push_back(std::move(*car));
        }
        if (*known) {
            std::vector<CarOutcome> before;
            for (CarState& car : cars)
                before.push_back({std::move(car), {}});
            return before;
        }
        if (request.items.size() < 2)
            return cannot(QStringLiteral("there are not two of them"));
        QString kind;
        int total = 0;
        bool begun = false;
        QStringList cautionsRead;
        for (const TogetherRequest::Item& item : request.items) {
            const CarState& car = *std::ranges::find(cars, item.car, &CarState::id);
            const Operation* operation = car.operation(item.operation);
            if (operation == nullptr)
                return fail(Refusal{RefusalId::OperationUnknown, {}});
            const PlaceInfo* place = placeInfo(operation->place);
            if (place == nullptr ||
                (place->kind != PlaceKind::Wheel && place->kind != PlaceKind::Tyre))
                return cannot(
                    QStringLiteral("%1 is no work on a wheel").arg(operation->spec->title));
            if (!kind.isEmpty() && operation->spec->id != kind)
                return cannot(QStringLiteral("they are not the same work"));
            if (std::ranges::count_if(request.items, [&](const TogetherRequest::Item& other) {
                    return other.car == item.car && other.operation == item.operation;
                }) > 1)
                return cannot(QStringLiteral("one of them is named twice"));
            kind = operation->spec->id;
            total += minutesUntil(*operation, request.actor, at);
            begun = begun || workedOn(*operation, request.actor);
            if (operation->cautionsReadBy.contains(request.actor))
                cautionsRead = operation->spec->cautions;
        }
        if (!begun)
            return fail(Refusal{RefusalId::NotStarted, {}});
        const int wheels = static_cast<int>(request.items.size());
        Together together{request, {}};
        Append append{request.id, request.actor, at, {}, {}, {}};
        append.siteSeq = site->seq;
        for (const CarState& car : cars) {
            CarRequest asked{request.id, request.actor, car.id, {}, false};
            for (int i = 0; i < wheels; ++i) {
                const TogetherRequest::Item& item = request.items.at(static_cast<std::size_t>(i));
                if (item.car != car.id)
                    continue;
                const Operation& operation = *car.operation(item.operation);
                if (!workedOn(operation, request.actor)) {
                    // Read once for the load, where they are the same.
                    if (operation.spec->cautions == cautionsRead)
                        asked.commands.emplace_back(car::ReadCautions{item.operation});
                    asked.commands.emplace_back(car::StartWork{item.operation});
                    asked.commands.emplace_back(
                        car::PauseWork{item.operation, request.actor, StopKind::Finished});
                }
                for (car::TakeReading reading : item.readings) {
                    reading.operation = item.operation;
                    asked.commands.emplace_back(std::move(reading));
                }
                const int share = total / wheels + (i < total % wheels ? 1 : 0);
                asked.commands.emplace_back(car::SignOff{item.operation, item.note,
                                                         car::MinutesShare{share, total, wheels}});
            }
            auto prepared = prepare(asked, car, *site, nullptr, now, at, &together);
            if (!prepared) {
                if (const auto* refusal = std::get_if<Refusal>(&prepared.error()))
                    return fail(Refusal{RefusalId::OneOfTogether,
                                        {car.identity.stockNumber, words(*refusal)}});
                return tl::unexpected(prepared.error());
            }
            append.cars.push_back(std::move(*prepared));
        }
        append.asked = request;
        if (auto written = m_ledger.append(append); !written)
            return fail(written.error());
        std::vector<CarOutcome> outcomes;
        for (CarAppend& car : append.cars)
            outcomes.push_back({std::move(car.after), std::move(car.events)});
        return outcomes;
    });
}

tl::expected<int, Failure> Workshop::stopAllWork(const CommandId& id, PersonId by, Moment shiftEnd)
{
    // Before the first timer is stopped: their own they may stop, and then no further one.
    if (!by.isNull()) {
        const auto site = m_ledger.site();
        if (!site)
            return fail(site.error());
        if (const auto refusal = whyNotAllowed(site->person(by), {Right::Manage}))
            return fail(*refusal);
    }
    auto running = m_ledger.allRunningWork();
    if (!running)
        return fail(running.error());
    int stopped = 0;
    for (const RunningWork& work : *running) {
        auto car = m_ledger.car(work.car);
        if (!car)
            return fail(car.error());
        std::vector<CarCommand> commands;
        for (const Segment& segment : car->operation(work.operation)->segments)
            if (segment.running() && (shiftEnd.isNull() || segment.start < shiftEnd))
                commands.emplace_back(
                    car::PauseWork{work.operation, segment.person, StopKind::ShiftEnd, shiftEnd});
        // Several people on one operation stand in the list several times; the first stops all.
        if (commands.empty())
            continue;
        const CommandId part{
            QStringLiteral("%1/%2/%3").arg(id.text, work.car.text).arg(work.operation.value)};
        auto outcome = run(CarRequest{part, by, work.car, commands, false});
        if (!outcome)
            return tl::unexpected(outcome.error());
        stopped += static_cast<int>(outcome->events.size());
    }
    return stopped;
}

} // namespace ramplight
