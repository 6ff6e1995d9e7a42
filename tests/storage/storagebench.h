// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "../domain/workbench.h"

#include "storage/store.h"
#include "storage/verifier.h"

#include <QSqlDatabase>
#include <QTemporaryDir>
#include <QTest>

#include <memory>

// Databases of a test's own and ways to write to them, also behind the program's back.
namespace ramplight::test {

/// Adds the column "kind" with a row for each database: SQLite always, PostgreSQL when
/// RAMPLIGHT_TEST_PG (a libpq keyword string) names a server. Says so when it does not.
void addKinds();
/// As addKinds(), in front of rows of the test's own: calls add(prefix, kind) for each.
void forEachKind(const std::function<void(const char* prefix, StoreKind kind)>& add);
/// Under the sanitizers, where tests take four times as long (RAMPLIGHT_SEQUENCES).
[[nodiscard]] bool aPartIsEnough();

/// HMAC-SHA-256 with a key of the test's own.
[[nodiscard]] HeadKeeper keeperWith(const QByteArray& key = "a key of the bench");

/// A SQLite file, or a schema on the server. Gone with the object.
class TestDatabase
{
public:
    explicit TestDatabase(StoreKind kind);
    ~TestDatabase();
    TestDatabase(const TestDatabase&) = delete;
    TestDatabase& operator=(const TestDatabase&) = delete;

    [[nodiscard]] const StoreSettings& settings() const { return m_settings; }
    [[nodiscard]] StoreKind kind() const { return m_settings.kind; }
    /// Fails the program when it cannot be opened.
    [[nodiscard]] std::unique_ptr<Store> open(const HeadKeeper& keeper = keeperWith()) const;

    /// Plain SQL on a connection of its own. Empty when it was done, else the database's words.
    QString sql(const QString& statement);
    /// First column of the first row.
    [[nodiscard]] QVariant ask(const QString& query);
    /// All rows and columns in one text.
    [[nodiscard]] QString dump(const QString& query);
    /// As sql(), with the ledger's guards taken off and put back: what somebody with the file and
    /// the knowledge can do.
    QString forge(const QString& statement);

private:
    QTemporaryDir m_folder;
    StoreSettings m_settings;
    QString m_name;
    QSqlDatabase m_raw;
};

/// Writes what another ledger accepted; the states come from the ledger itself.
[[nodiscard]] tl::expected<void, StoreError> replay(const std::vector<Append>& appends,
                                                    Ledger& ledger);

/// Hand-made appends, for what no command would ask.
class Hand
{
public:
    explicit Hand(Ledger& ledger)
        : m_ledger(ledger)
    {
    }

    /// Events on one car, at the seq that the ledger has for it.
    [[nodiscard]] Append with(const CarId& car, std::vector<CarEvent> events);
    [[nodiscard]] Append with(std::vector<std::pair<CarId, std::vector<CarEvent>>> cars);
    [[nodiscard]] Append withSite(std::vector<SiteEvent> events);
    [[nodiscard]] static CarEvent arrival(const QString& stockNumber,
                                          const QString& registration = {});
    /// An operation of a few fields.
    [[nodiscard]] static CarEvent opened(int operation);
    [[nodiscard]] static CarEvent started(int operation, int segment, PersonId person, Moment at);
    [[nodiscard]] static CarEvent stopped(int operation, int segment, Moment at);

    Moment now{1'930'000'000'000};
    PersonId by{1};

private:
    [[nodiscard]] Append blank();
    Ledger& m_ledger;
    int m_commands = 0;
};

/// Cars in many states: one released, one left, one in a bay with a timer running, one with photos
/// and corrections. Made by commands, so that it verifies.
void tellStory(Workbench& bench);
/// That, written into a database that is still empty.
[[nodiscard]] std::unique_ptr<Store> storyIn(const TestDatabase& database);

/// Every fault in a line of its own; empty: all is whole.
[[nodiscard]] QString told(const VerifyReport& report);
/// "ok", or the kind of error by name.
[[nodiscard]] QString outcome(const tl::expected<void, StoreError>& result);

} // namespace ramplight::test
