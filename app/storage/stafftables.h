// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "access/accessports.h"
#include "storage/sqlledger.h"

#include <QString>
#include <QStringList>

#include <tl/expected.hpp>

#include <optional>

// What is kept about staff outside the ledger, so that it can be changed and erased. On the
// ledger's thread; the ledger outlives each of them.
namespace ramplight {

/// Writes what somebody opens the door with. The transaction is the caller's, who seals the staff
/// again in it.
void writeAccess(Writer& writer, const SiteId& site, const Append::PersonAccess& access);

class SqlCredentials : public CredentialStore
{
public:
    explicit SqlCredentials(SqlLedger& ledger)
        : m_ledger(ledger)
    {
    }

    [[nodiscard]] tl::expected<std::optional<QByteArray>, AccessError>
    pinHash(PersonId person) override;
    [[nodiscard]] tl::expected<void, AccessError> setPinHash(PersonId person,
                                                             const QByteArray& kept) override;
    [[nodiscard]] tl::expected<std::optional<PersonId>, AccessError>
    personOfBadge(const QString& code) override;

    /// The person's only badge from now on; it is taken from whoever had it. An empty code takes
    /// the person's badge away.
    [[nodiscard]] tl::expected<void, AccessError> setBadge(PersonId person, const QString& code);
    [[nodiscard]] tl::expected<bool, AccessError> hasBadge(PersonId person);

private:
    [[nodiscard]] tl::expected<bool, AccessError> isActive(PersonId person);
    SqlLedger& m_ledger;
};

class SqlFailureBook : public FailureBook
{
public:
    explicit SqlFailureBook(SqlLedger& ledger)
        : m_ledger(ledger)
    {
    }

    [[nodiscard]] tl::expected<void, AccessError> add(PersonId person,
                                                      const SignInMark& mark) override;
    [[nodiscard]] tl::expected<std::vector<SignInMark>, AccessError>
    marks(PersonId person) override;
    [[nodiscard]] tl::expected<std::map<PersonId, std::vector<SignInMark>>, AccessError>
    marksSince(Moment from) override;
    [[nodiscard]] tl::expected<std::vector<PersonId>, AccessError> guessedAt() override;
    [[nodiscard]] tl::expected<void, AccessError> clear(PersonId person) override;

private:
    SqlLedger& m_ledger;
};

/// Settings of the site that are neither rules nor secrets, by name.
class SqlSettings
{
public:
    explicit SqlSettings(SqlLedger& ledger)
        : m_ledger(ledger)
    {
    }

    [[nodiscard]] tl::expected<std::optional<QString>, StoreError> value(const QString& name);
    [[nodiscard]] tl::expected<void, StoreError> set(const QString& name, const QString& value);
    [[nodiscard]] tl::expected<void, StoreError> remove(const QString& name);

private:
    SqlLedger& m_ledger;
};

} // namespace ramplight
