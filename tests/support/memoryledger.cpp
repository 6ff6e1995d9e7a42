// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "support/memoryledger.h"

#include "domain/words.h"

#include <utility>

namespace ramplight::test {

namespace {

tl::unexpected<StoreError> error(StoreErrorKind kind, const char* words)
{
    return tl::unexpected(StoreError{kind, QString::fromLatin1(words)});
}

template <class Visit>
void forEachSegment(const std::map<CarId, CarState>& cars, Visit visit)
{
    for (const auto& [id, car] : cars)
        for (const auto& [number, operation] : car.operations)
            for (const Segment& segment : operation.segments)
                visit(car, operation, segment);
}

} // namespace

std::optional<StoreError> MemoryLedger::fault() const
{
    if (!m_fault)
        return std::nullopt;
    return StoreError{*m_fault, QStringLiteral("the test lets the store fail")};
}

tl::expected<CarState, StoreError> MemoryLedger::car(const CarId& id)
{
    if (auto broken = fault())
        return tl::unexpected(*broken);
    const auto it = m_cars.find(id);
    if (it != m_cars.end())
        return it->second;
    CarState none;
    none.id = id;
    return none;
}

tl::expected<std::vector<CarEnvelope>, StoreError> MemoryLedger::history(const CarId& id)
{
    if (auto broken = fault())
        return tl::unexpected(*broken);
    const auto it = m_histories.find(id);
    std::vector<CarEnvelope> entries;
    if (it == m_histories.end())
        return entries;
    entries.reserve(it->second.size());
    for (const auto& envelope : it->second)
        entries.push_back(*envelope);
    return entries;
}

tl::expected<std::optional<CarId>, StoreError>
MemoryLedger::carByStockNumber(const QString& stockNumber)
{
    if (auto broken = fault())
        return tl::unexpected(*broken);
    std::optional<CarId> found;
    for (const auto& [id, car] : m_cars) {
        const QString& known = car.identity.stockNumber;
        if (!car.left && (known == stockNumber || (!found && known == stockNumber.toUpper())))
            found = id;
    }
    return found;
}

tl::expected<const SiteState*, StoreError> MemoryLedger::currentSite()
{
    if (auto broken = fault())
        return tl::unexpected(*broken);
    return &m_named;
}

tl::expected<std::vector<SiteEnvelope>, StoreError> MemoryLedger::siteHistory()
{
    if (auto broken = fault())
        return tl::unexpected(*broken);
    return m_siteHistory;
}

tl::expected<bool, StoreError> MemoryLedger::isKnown(const CommandId& command)
{
    if (auto broken = fault())
        return tl::unexpected(*broken);
    return m_commands.contains(command);
}

std::optional<StoreError> MemoryLedger::clash(const std::map<CarId, CarState>& changed) const
{
    std::set<PersonId> busy;
    std::set<BayId> taken;
    std::set<QString> numbers;
    std::optional<StoreError> found;
    const auto look = [&](const CarState& car) {
        for (const auto& [number, operation] : car.operations)
            for (const Segment& segment : operation.segments)
                if (segment.running() && !busy.insert(segment.person).second)
                    found = StoreError{StoreErrorKind::Busy, QStringLiteral("a second timer")};
        if (!car.bay.isNull() && !taken.insert(car.bay).second)
            found = StoreError{StoreErrorKind::Busy, QStringLiteral("a second car in the bay")};
        if (!car.left && !numbers.insert(car.identity.stockNumber).second)
            found = StoreError{StoreErrorKind::Conflict, QStringLiteral("stock number taken")};
    };
    for (const auto& [id, car] : m_cars)
        if (!changed.contains(id))
            look(car);
    for (const auto& [id, car] : changed)
        look(car);
    return found;
}

bool MemoryLedger::startsInThePast(const Append& append) const
{
    bool past = false;
    for (const CarAppend& part : append.cars)
        for (const CarEvent& event : part.events)
            if (const auto* started = std::get_if<WorkStarted>(&event))
                forEachSegment(
                    m_cars, [&](const CarState&, const Operation&, const Segment& segment) {
                        past = past ||
                               (segment.person == started->person && segment.end >= started->at);
                    });
    return past;
}

tl::expected<void, StoreError> MemoryLedger::append(const Append& append)
{
    if (m_hook)
        std::exchange(m_hook, nullptr)();
    if (auto broken = fault())
        return tl::unexpected(*broken);
    if (m_takesNothing)
        return error(StoreErrorKind::Unavailable, "nothing is to be written");
    if (m_commands.contains(append.command))
        return error(StoreErrorKind::Conflict, "the command is known");
    if (append.siteSeq && *append.siteSeq != m_site.seq)
        return error(StoreErrorKind::Conflict, "the site went on");
    if (startsInThePast(append))
        return error(StoreErrorKind::Conflict, "the person worked meanwhile");
    std::map<CarId, CarState> changed;
    std::map<CarId, std::vector<std::shared_ptr<const CarEnvelope>>> added;
    for (const CarAppend& part : append.cars) {
        const auto known = m_cars.find(part.car);
        CarState& car = changed[part.car];
        if (known != m_cars.end())
            car = known->second;
        car.id = part.car;
        if (car.seq != part.afterSeq)
            return error(StoreErrorKind::Conflict, "the car's stream went on");
        if (append.at < car.lastAt)
            return error(StoreErrorKind::Damaged, "an entry before the one in front of it");
        for (const CarEvent& event : part.events) {
            const CarEnvelope envelope{car.seq + 1, append.at, append.by, append.command, event};
            apply(car, envelope);
            added[part.car].push_back(std::make_shared<const CarEnvelope>(envelope));
        }
        if (car != part.after)
            return error(StoreErrorKind::Damaged, "the state is not what the events make");
    }
    if (auto no = clash(changed))
        return tl::unexpected(*no);
    if (append.site) {
        if (m_site.seq != append.site->afterSeq)
            return error(StoreErrorKind::Conflict, "the site's stream went on");
        for (const SiteEvent& event : append.site->events) {
            m_siteHistory.push_back({m_site.seq + 1, append.at, append.by, append.command, event});
            apply(m_site, m_siteHistory.back());
        }
    }
    for (auto& [id, car] : changed)
        m_cars[id] = std::move(car);
    for (auto& [id, envelopes] : added)
        m_histories[id].insert(m_histories[id].end(), envelopes.begin(), envelopes.end());
    for (const Append::PersonName& name : append.names)
        m_names[name.person] = name.name;
    if (append.site || !append.names.empty()) {
        m_named = m_site;
        for (const auto& [id, name] : m_names)
            if (const auto it = m_named.people.find(id); it != m_named.people.end())
                it->second.name = name;
    }
    m_commands.insert(append.command);
    Append kept = append;
    for (CarAppend& part : kept.cars)
        part.after = {};
    m_accepted.push_back(std::make_shared<const Append>(std::move(kept)));
    return {};
}

std::vector<Append> MemoryLedger::accepted() const
{
    std::vector<Append> all;
    all.reserve(m_accepted.size());
    for (const auto& append : m_accepted)
        all.push_back(*append);
    return all;
}

std::vector<RunningWork> MemoryLedger::running(std::optional<PersonId> person) const
{
    std::vector<RunningWork> list;
    forEachSegment(
        m_cars, [&](const CarState& car, const Operation& operation, const Segment& segment) {
            if (segment.running() && (!person || segment.person == *person))
                list.push_back({car.id, car.identity.stockNumber, operation.id,
                                operationTitle(operation.spec, operation.place, m_site.rules)});
        });
    return list;
}

tl::expected<std::optional<RunningWork>, StoreError> MemoryLedger::runningWork(PersonId person)
{
    if (auto broken = fault())
        return tl::unexpected(*broken);
    const std::vector<RunningWork> list = running(person);
    return list.empty() ? std::optional<RunningWork>{} : std::optional(list.front());
}

tl::expected<std::vector<RunningWork>, StoreError> MemoryLedger::allRunningWork()
{
    if (auto broken = fault())
        return tl::unexpected(*broken);
    return running(std::nullopt);
}

tl::expected<Moment, StoreError> MemoryLedger::busyUntil(PersonId person)
{
    if (auto broken = fault())
        return tl::unexpected(*broken);
    Moment until;
    forEachSegment(m_cars, [&](const CarState&, const Operation&, const Segment& segment) {
        if (segment.person == person)
            until = std::max(until, segment.end);
    });
    return until;
}

tl::expected<QString, StoreError> MemoryLedger::bayTakenBy(BayId bay)
{
    if (auto broken = fault())
        return tl::unexpected(*broken);
    for (const auto& [id, car] : m_cars)
        if (!car.bay.isNull() && car.bay == bay)
            return car.identity.stockNumber;
    return QString();
}

tl::expected<std::set<PersonId>, StoreError> MemoryLedger::peopleWithPin()
{
    if (auto broken = fault())
        return tl::unexpected(*broken);
    std::set<PersonId> people;
    for (const auto& [id, person] : m_site.people)
        if (!m_withoutPin.contains(id))
            people.insert(id);
    return people;
}

tl::expected<Moment, StoreError> MemoryLedger::nextWorkAfter(PersonId person, Moment after)
{
    if (auto broken = fault())
        return tl::unexpected(*broken);
    Moment next;
    forEachSegment(m_cars, [&](const CarState&, const Operation&, const Segment& segment) {
        if (segment.person == person && segment.start > after &&
            (next.isNull() || segment.start < next))
            next = segment.start;
    });
    return next;
}

} // namespace ramplight::test
