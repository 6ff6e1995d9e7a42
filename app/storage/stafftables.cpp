// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/stafftables.h"

#include "log/log.h"
#include "storage/staffseal.h"

#include <array>
#include <utility>
#include <vector>

namespace ramplight {
namespace {

tl::unexpected<AccessError> away(const QString& why)
{
    log::error(QStringLiteral("staff tables: %1").arg(why));
    return tl::unexpected(AccessError::StoreAway);
}

struct Change
{
    const char* sql;
    QVariantList values;
};

/// One small transaction of its own.
tl::expected<void, SqlFault> change(SqlLedger& ledger, const std::vector<Change>& changes)
{
    auto transaction = Transaction::write(ledger.connection(), ledger.siteId());
    if (!transaction)
        return tl::unexpected(transaction.error());
    const auto isWhole = maySealStaffAgain(ledger.connection(), ledger.siteId(), ledger.keeper());
    if (!isWhole)
        return tl::unexpected(isWhole.error());
    Writer writer(ledger.connection());
    for (const Change& one : changes)
        writer.run(one.sql, one.values);
    if (!writer.good())
        return tl::unexpected(writer.fault());
    if (auto sealed = sealStaff(ledger.connection(), ledger.siteId(), ledger.keeper(), *isWhole);
        !sealed)
        return sealed;
    return transaction->commit();
}

tl::expected<void, AccessError> changeStaff(SqlLedger& ledger, const std::vector<Change>& changes)
{
    if (auto done = change(ledger, changes); !done)
        return away(done.error().text);
    return {};
}

Change pinChange(const SiteId& site, PersonId person, const QByteArray& hash)
{
    return {"INSERT INTO credential (site, person, pin_hash) VALUES (?, ?, ?)"
            " ON CONFLICT (site, person) DO UPDATE SET pin_hash = excluded.pin_hash",
            {site.text, person.value, QString::fromLatin1(hash)}};
}

/// It is taken from whoever had it.
std::vector<Change> badgeChanges(const SiteId& site, PersonId person, const QString& code)
{
    std::vector<Change> changes{{"DELETE FROM badge WHERE site = ? AND (person = ? OR code = ?)",
                                 {site.text, person.value, code}}};
    if (!code.isEmpty())
        changes.push_back({"INSERT INTO badge (site, code, person) VALUES (?, ?, ?)",
                           {site.text, code, person.value}});
    return changes;
}

Change marksForgotten(const SiteId& site, PersonId person)
{
    return {"DELETE FROM pin_failure WHERE site = ? AND person = ?", {site.text, person.value}};
}

constexpr std::array markNames{
    std::pair{SignInMark::Kind::WrongPin, "failure"},
    std::pair{SignInMark::Kind::Success, "success"},
    std::pair{SignInMark::Kind::ClockBack, "clock-back"},
    std::pair{SignInMark::Kind::Lock, "lock"},
    std::pair{SignInMark::Kind::Row, "row"},
    std::pair{SignInMark::Kind::Spread, "spread"},
};

QString nameOfMark(SignInMark::Kind kind)
{
    for (const auto& [value, name] : markNames)
        if (value == kind)
            return QString::fromLatin1(name);
    return {};
}

/// A word that only a newer program knows counts as a wrong PIN: never in the guesser's favour.
SignInMark::Kind markOf(const QString& name)
{
    for (const auto& [value, text] : markNames)
        if (name == QLatin1StringView(text))
            return value;
    return SignInMark::Kind::WrongPin;
}

} // namespace

void writeAccess(Writer& writer, const SiteId& site, const Append::PersonAccess& access)
{
    std::vector<Change> changes;
    if (access.badge)
        changes = badgeChanges(site, access.person, *access.badge);
    if (access.pinHash) {
        changes.push_back(pinChange(site, access.person, *access.pinHash));
        changes.push_back(marksForgotten(site, access.person));
    }
    for (const Change& one : changes)
        writer.run(one.sql, one.values);
}

tl::expected<bool, AccessError> SqlCredentials::isActive(PersonId person)
{
    const auto site = m_ledger.siteView();
    if (!site)
        return away(site.error().words);
    const Person* found = site->state.person(person);
    return found != nullptr && found->active;
}

tl::expected<std::optional<QByteArray>, AccessError> SqlCredentials::pinHash(PersonId person)
{
    const auto active = isActive(person);
    if (!active)
        return tl::unexpected(active.error());
    auto rows =
        m_ledger.connection().run("SELECT pin_hash FROM credential WHERE site = ? AND person = ?",
                                  {m_ledger.siteId().text, person.value});
    if (!rows)
        return away(rows.error().text);
    if (!rows->next() || !*active)
        return std::optional<QByteArray>();
    return std::optional<QByteArray>(rows->text(0).toLatin1());
}

tl::expected<void, AccessError> SqlCredentials::setPinHash(PersonId person, const QByteArray& kept)
{
    return changeStaff(m_ledger, {pinChange(m_ledger.siteId(), person, kept)});
}

tl::expected<std::optional<PersonId>, AccessError>
SqlCredentials::personOfBadge(const QString& code)
{
    std::optional<PersonId> person;
    {
        auto rows = m_ledger.connection().run(
            "SELECT person FROM badge WHERE site = ? AND code = ?", {m_ledger.siteId().text, code});
        if (!rows)
            return away(rows.error().text);
        if (rows->next())
            person = PersonId{rows->whole(0)};
    }
    if (!person)
        return person;
    const auto active = isActive(*person);
    if (!active)
        return tl::unexpected(active.error());
    return *active ? person : std::nullopt;
}

tl::expected<void, AccessError> SqlCredentials::setBadge(PersonId person, const QString& code)
{
    return changeStaff(m_ledger, badgeChanges(m_ledger.siteId(), person, code));
}

tl::expected<bool, AccessError> SqlCredentials::hasBadge(PersonId person)
{
    auto rows = m_ledger.connection().run("SELECT 1 FROM badge WHERE site = ? AND person = ?",
                                          {m_ledger.siteId().text, person.value});
    if (!rows)
        return away(rows.error().text);
    return rows->next();
}

tl::expected<void, AccessError> SqlFailureBook::add(PersonId person, const SignInMark& mark)
{
    const QString& site = m_ledger.siteId().text;
    return changeStaff(
        m_ledger, {{"INSERT INTO pin_failure (site, person, number, kind, at)"
                    " SELECT ?, ?, coalesce(max(number), 0) + 1, ?, ? FROM pin_failure"
                    " WHERE site = ? AND person = ?",
                    {site, person.value, nameOfMark(mark.kind), mark.at.ms, site, person.value}}});
}

tl::expected<std::vector<SignInMark>, AccessError> SqlFailureBook::marks(PersonId person)
{
    auto rows = m_ledger.connection().run("SELECT kind, at FROM pin_failure"
                                          " WHERE site = ? AND person = ? ORDER BY number",
                                          {m_ledger.siteId().text, person.value});
    if (!rows)
        return away(rows.error().text);
    std::vector<SignInMark> marks;
    while (rows->next())
        marks.push_back({markOf(rows->text(0)), Moment{rows->number(1)}});
    return marks;
}

tl::expected<std::map<PersonId, std::vector<SignInMark>>, AccessError>
SqlFailureBook::marksSince(Moment from)
{
    auto rows = m_ledger.connection().run("SELECT person, kind, at FROM pin_failure"
                                          " WHERE site = ? AND at >= ? ORDER BY person, number",
                                          {m_ledger.siteId().text, from.ms});
    if (!rows)
        return away(rows.error().text);
    std::map<PersonId, std::vector<SignInMark>> marks;
    while (rows->next())
        marks[PersonId{rows->whole(0)}].push_back({markOf(rows->text(1)), Moment{rows->number(2)}});
    return marks;
}

tl::expected<std::vector<PersonId>, AccessError> SqlFailureBook::guessedAt()
{
    using Kind = SignInMark::Kind;
    auto rows = m_ledger.connection().run(
        "SELECT DISTINCT person FROM pin_failure WHERE site = ? AND kind IN (?, ?, ?)"
        " ORDER BY person",
        {m_ledger.siteId().text, nameOfMark(Kind::Lock), nameOfMark(Kind::Row),
         nameOfMark(Kind::Spread)});
    if (!rows)
        return away(rows.error().text);
    std::vector<PersonId> people;
    while (rows->next())
        people.push_back(PersonId{rows->whole(0)});
    return people;
}

tl::expected<void, AccessError> SqlFailureBook::clear(PersonId person)
{
    return changeStaff(m_ledger, {marksForgotten(m_ledger.siteId(), person)});
}

tl::expected<std::optional<QString>, StoreError> SqlSettings::value(const QString& name)
{
    auto rows = m_ledger.connection().run("SELECT value FROM setting WHERE site = ? AND name = ?",
                                          {m_ledger.siteId().text, name});
    if (!rows)
        return tl::unexpected(storeError(rows.error()));
    if (!rows->next())
        return std::optional<QString>();
    return std::optional<QString>(rows->text(0));
}

tl::expected<void, StoreError> SqlSettings::set(const QString& name, const QString& value)
{
    return change(m_ledger, {{"INSERT INTO setting (site, name, value) VALUES (?, ?, ?)"
                              " ON CONFLICT (site, name) DO UPDATE SET value = excluded.value",
                              {m_ledger.siteId().text, name, value}}})
        .map_error(storeError);
}

tl::expected<void, StoreError> SqlSettings::remove(const QString& name)
{
    return change(m_ledger, {{"DELETE FROM setting WHERE site = ? AND name = ?",
                              {m_ledger.siteId().text, name}}})
        .map_error(storeError);
}

} // namespace ramplight
