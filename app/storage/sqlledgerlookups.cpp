// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
// What a command's rules ask beside its car: who works, where cars stand, who has a PIN.
#include "domain/words.h"
#include "storage/sqlledger.h"

#include <utility>

namespace ramplight {

tl::expected<std::optional<CarId>, StoreError>
SqlLedger::carByStockNumber(const QString& stockNumber)
{
    // Older entries may have a number in small letters, beside one in capitals.
    auto rows = m_connection->run("SELECT car, stock_number FROM car"
                                  " WHERE site = ? AND stock_number IN (?, ?) AND gone = 0",
                                  {m_site.text, stockNumber, stockNumber.toUpper()});
    if (!rows)
        return tl::unexpected(loggedError(rows.error()));
    std::optional<CarId> found;
    while (rows->next())
        if (!found || rows->text(1) == stockNumber)
            found = CarId{rows->text(0)};
    return found;
}

tl::expected<RunningWork, StoreError> SqlLedger::described(const CarId& car, OperationId operation)
{
    const auto state = load(car);
    if (!state)
        return tl::unexpected(state.error());
    const auto site = loadSite();
    if (!site)
        return tl::unexpected(site.error());
    RunningWork work{car, (*state)->identity.stockNumber, operation, {}};
    if (const Operation* found = (*state)->operation(operation))
        work.title = operationTitle(found->spec, found->place, (*site)->state.rules);
    return work;
}

tl::expected<std::optional<RunningWork>, StoreError> SqlLedger::runningWork(PersonId person)
{
    CarId car;
    OperationId operation;
    {
        auto rows = m_connection->run("SELECT car, operation FROM work_segment"
                                      " WHERE site = ? AND person = ? AND end_at IS NULL",
                                      {m_site.text, person.value});
        if (!rows)
            return tl::unexpected(loggedError(rows.error()));
        if (!rows->next())
            return std::optional<RunningWork>();
        car = {rows->text(0)};
        operation = {rows->whole(1)};
    }
    return described(car, operation).map([](const RunningWork& work) {
        return std::optional<RunningWork>(work);
    });
}

tl::expected<std::vector<RunningWork>, StoreError> SqlLedger::allRunningWork()
{
    std::vector<std::pair<CarId, OperationId>> running;
    {
        auto rows = m_connection->run("SELECT car, operation FROM work_segment"
                                      " WHERE site = ? AND end_at IS NULL ORDER BY person",
                                      {m_site.text});
        if (!rows)
            return tl::unexpected(loggedError(rows.error()));
        while (rows->next())
            running.emplace_back(CarId{rows->text(0)}, OperationId{rows->whole(1)});
    }
    std::vector<RunningWork> all;
    for (const auto& [car, operation] : running) {
        auto work = described(car, operation);
        if (!work)
            return tl::unexpected(work.error());
        all.push_back(std::move(*work));
    }
    return all;
}

tl::expected<Moment, StoreError> SqlLedger::momentOf(const char* sql, const QVariantList& values)
{
    auto rows = m_connection->run(sql, values);
    if (!rows)
        return tl::unexpected(loggedError(rows.error()));
    return rows->next() ? Moment{rows->number(0)} : Moment{};
}

tl::expected<Moment, StoreError> SqlLedger::busyUntil(PersonId person)
{
    return momentOf("SELECT coalesce(max(end_at), 0) FROM work_segment"
                    " WHERE site = ? AND person = ?",
                    {m_site.text, person.value});
}

tl::expected<Moment, StoreError> SqlLedger::nextWorkAfter(PersonId person, Moment after)
{
    return momentOf("SELECT coalesce(min(start_at), 0) FROM work_segment"
                    " WHERE site = ? AND person = ? AND start_at > ?",
                    {m_site.text, person.value, after.ms});
}

tl::expected<QString, StoreError> SqlLedger::bayTakenBy(BayId bay)
{
    auto rows = m_connection->run("SELECT stock_number FROM car"
                                  " WHERE site = ? AND bay = ? AND bay <> 0",
                                  {m_site.text, bay.value});
    if (!rows)
        return tl::unexpected(loggedError(rows.error()));
    return rows->next() ? rows->text(0) : QString();
}

tl::expected<std::set<PersonId>, StoreError> SqlLedger::peopleWithPin()
{
    auto rows = m_connection->run("SELECT person FROM credential WHERE site = ?", {m_site.text});
    if (!rows)
        return tl::unexpected(loggedError(rows.error()));
    std::set<PersonId> people;
    while (rows->next())
        people.insert(PersonId{rows->whole(0)});
    return people;
}

} // namespace ramplight
