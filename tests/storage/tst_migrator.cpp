// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storagebench.h"
#include "wire.h"

#include "storage/migrator.h"
#include "storage/photorows.h"
#include "support/testmain.h"

#include <QFile>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

namespace {

Migration step(int version, const QStringList& statements)
{
    return {version, QStringLiteral("step-%1").arg(version), statements};
}

const Migration firstStep = step(1, {"CREATE TABLE a (x BIGINT)", "INSERT INTO a VALUES (1)"});
const Migration secondStep = step(2, {"ALTER TABLE a ADD COLUMN y BIGINT"});
const Migration thirdStep = step(3, {"UPDATE a SET y = 3"});

/// All rows of all tables.
QString contentOf(TestDatabase& database)
{
    QStringList rows;
    for (const char* table :
         {"schema_version", "site", "command", "ledger", "car", "work_segment", "photo_use",
          "person_name", "credential", "badge", "pin_failure", "setting"})
        rows += database.dump(QStringLiteral("SELECT * FROM %1").arg(QLatin1StringView(table)))
                    .split(QLatin1Char('\n'));
    rows.sort();
    return rows.join(QLatin1Char('\n'));
}

} // namespace

// Each outcome of bringing a database to the program's schema.
class TestMigrator : public QObject
{
    Q_OBJECT

private slots:
    void nothingThere_isFresh_data() { addKinds(); }

    void nothingThere_isFresh()
    {
        QFETCH(StoreKind, kind);
        TestDatabase database(kind);
        const auto connection = Connection::open(database.settings()).value();
        const MigrationResult result = migrate(*connection, {firstStep, secondStep});
        QCOMPARE(result.outcome, MigrationOutcome::Fresh);
        QCOMPARE(result.from, 0);
        QCOMPARE(result.to, 2);
        QCOMPARE(database.ask("SELECT count(*) FROM schema_version").toInt(), 2);
        QCOMPARE(database.ask("SELECT name FROM schema_version WHERE version = 2").toString(),
                 QStringLiteral("step-2"));
    }

    void allThere_isUpToDate_data() { addKinds(); }

    void allThere_isUpToDate()
    {
        QFETCH(StoreKind, kind);
        TestDatabase database(kind);
        const auto connection = Connection::open(database.settings()).value();
        (void)migrate(*connection, {firstStep, secondStep});
        const MigrationResult result = migrate(*connection, {firstStep, secondStep});
        QCOMPARE(result.outcome, MigrationOutcome::UpToDate);
        QCOMPARE(result.to, 2);
        QCOMPARE(database.ask("SELECT count(*) FROM a").toInt(), 1);
    }

    void olderDatabase_isUpgradedWithItsContent_data() { addKinds(); }

    void olderDatabase_isUpgradedWithItsContent()
    {
        QFETCH(StoreKind, kind);
        TestDatabase database(kind);
        const auto connection = Connection::open(database.settings()).value();
        (void)migrate(*connection, {firstStep});
        const MigrationResult result = migrate(*connection, {firstStep, secondStep, thirdStep});
        QCOMPARE(result.outcome, MigrationOutcome::Upgraded);
        QCOMPARE(result.from, 1);
        QCOMPARE(result.to, 3);
        QCOMPARE(database.ask("SELECT x + y FROM a").toInt(), 4);
    }

    void newerDatabase_isRefusedUnharmed_data() { addKinds(); }

    void newerDatabase_isRefusedUnharmed()
    {
        QFETCH(StoreKind, kind);
        TestDatabase database(kind);
        const auto connection = Connection::open(database.settings()).value();
        (void)migrate(*connection, {firstStep, secondStep, thirdStep});
        const MigrationResult result = migrate(*connection, {firstStep, secondStep});
        QCOMPARE(result.outcome, MigrationOutcome::TooNew);
        QCOMPARE(result.to, 3);
        QVERIFY(result.words.contains(QStringLiteral("newer version")));
        QCOMPARE(database.ask("SELECT count(*) FROM schema_version").toInt(), 3);
    }

    void stepThatFails_leavesTheLastGoodState_data() { addKinds(); }

    void stepThatFails_leavesTheLastGoodState()
    {
        QFETCH(StoreKind, kind);
        TestDatabase database(kind);
        const auto connection = Connection::open(database.settings()).value();
        const Migration broken =
            step(3, {"UPDATE a SET x = 7", "CREATE TABLE b (z BIGINT)", "nonsense"});
        const MigrationResult result = migrate(*connection, {firstStep, secondStep, broken});
        QCOMPARE(result.outcome, MigrationOutcome::Broken);
        QCOMPARE(result.to, 2);
        QVERIFY(result.words.contains(QStringLiteral("stays at schema 2")));
        QCOMPARE(database.ask("SELECT max(version) FROM schema_version").toInt(), 2);
        QCOMPARE(database.ask("SELECT x FROM a").toInt(), 1);
        QVERIFY(!database.sql("SELECT z FROM b").isEmpty());
        // The connection works on, and the mended step goes through.
        QCOMPARE(migrate(*connection, {firstStep, secondStep, thirdStep}).outcome,
                 MigrationOutcome::Upgraded);
    }

    // A disk that is full for now: nothing is damaged, and the same goes through later.
    void noRoom_isForNow()
    {
        TestDatabase database(StoreKind::Sqlite);
        const auto connection = Connection::open(database.settings()).value();
        (void)migrate(*connection, {firstStep});
        QVERIFY(connection->plain("PRAGMA max_page_count = 1"));
        const Migration large =
            step(2, {"CREATE TABLE b (z TEXT)", "INSERT INTO b VALUES (zeroblob(100000))"});
        const MigrationResult result = migrate(*connection, {firstStep, large});
        QCOMPARE(result.outcome, MigrationOutcome::NotNow);
        QCOMPARE(result.to, 1);
        QVERIFY2(result.words.contains(QStringLiteral("stays at schema 1")) &&
                     result.words.contains(QStringLiteral("disk is full")),
                 qPrintable(result.words));
        QCOMPARE(migrationError(result)->kind, StoreErrorKind::Unavailable);
        QVERIFY(connection->plain("PRAGMA max_page_count = 1000000"));
        QCOMPARE(migrate(*connection, {firstStep, large}).outcome, MigrationOutcome::Upgraded);
    }

    // A line that breaks says nothing of the database.
    void lostServer_isForNow()
    {
        if (qEnvironmentVariableIsEmpty("RAMPLIGHT_TEST_PG"))
            QSKIP("RAMPLIGHT_TEST_PG names no server (tests/run starts one)");
        TestDatabase database(StoreKind::PostgreSql);
        Wire wire(database.settings().server);
        StoreSettings settings = database.settings();
        settings.server = wire.address();
        const auto connection = Connection::open(settings).value();
        (void)migrate(*connection, {firstStep});
        wire.cut();
        const MigrationResult result = migrate(*connection, {firstStep, secondStep});
        QCOMPARE(result.outcome, MigrationOutcome::NotNow);
        QCOMPARE(migrationError(result)->kind, StoreErrorKind::Unavailable);
        wire.heal();
        const auto again = Connection::open(settings).value();
        QCOMPARE(migrate(*again, {firstStep, secondStep}).outcome, MigrationOutcome::Upgraded);
    }

    void versionsWithGaps_areBroken_data() { addKinds(); }

    void versionsWithGaps_areBroken()
    {
        QFETCH(StoreKind, kind);
        TestDatabase database(kind);
        const auto connection = Connection::open(database.settings()).value();
        (void)migrate(*connection, {firstStep, secondStep, thirdStep});
        QCOMPARE(database.sql("DELETE FROM schema_version WHERE version = 2"), QString());
        const MigrationResult result = migrate(*connection, {firstStep, secondStep, thirdStep});
        QCOMPARE(result.outcome, MigrationOutcome::Broken);
        QVERIFY(result.words.contains(QStringLiteral("gaps")));
    }

    void programWithoutSteps_isBroken_data() { addKinds(); }

    void programWithoutSteps_isBroken()
    {
        QFETCH(StoreKind, kind);
        TestDatabase database(kind);
        const auto connection = Connection::open(database.settings()).value();
        QCOMPARE(migrate(*connection, {}).outcome, MigrationOutcome::Broken);
    }

    void programsOwnSteps_areNumberedWithoutGaps_data() { addKinds(); }

    void programsOwnSteps_areNumberedWithoutGaps()
    {
        QFETCH(StoreKind, kind);
        const auto steps = migrationsIn(Dialect::of(kind)->migrations());
        QVERIFY(!steps.empty());
        for (std::size_t i = 0; i < steps.size(); ++i) {
            QCOMPARE(steps[i].version, static_cast<int>(i) + 1);
            QVERIFY(!steps[i].name.isEmpty());
            QVERIFY(!steps[i].statements.isEmpty());
        }
        const auto other = migrationsIn(
            Dialect::of(kind == StoreKind::Sqlite ? StoreKind::PostgreSql : StoreKind::Sqlite)
                ->migrations());
        QCOMPARE(other.size(), steps.size());
    }

    void store_openedByAnOlderProgram_isTooNew_data() { addKinds(); }

    void store_openedByAnOlderProgram_isTooNew()
    {
        QFETCH(StoreKind, kind);
        TestDatabase database(kind);
        {
            const auto store = database.open();
            QCOMPARE(store->ledger().opening(), MigrationOutcome::Fresh);
            Workbench bench;
            tellStory(bench);
            QVERIFY(replay(bench.ledger.accepted(), store->ledger()));
        }
        QCOMPARE(database.open()->ledger().opening(), MigrationOutcome::UpToDate);
        const int next = database.ask("SELECT max(version) + 1 FROM schema_version").toInt();
        QCOMPARE(
            database.sql(
                QStringLiteral("INSERT INTO schema_version VALUES (%1, 'later', 0)").arg(next)),
            QString());
        const QString before = contentOf(database);
        const auto store = Store::open(database.settings(), keeperWith());
        QVERIFY(!store);
        QCOMPARE(store.error().kind, StoreErrorKind::TooNew);
        QVERIFY2(store.error().words.contains(QStringLiteral("made by a newer version")),
                 qPrintable(store.error().words));
        // Unharmed: the newer program finds everything as it left it.
        QCOMPARE(contentOf(database), before);
        QCOMPARE(database.sql("DELETE FROM schema_version WHERE name = 'later'"), QString());
        QCOMPARE(told(Verifier(database.open()->ledger()).run()), QString());
    }

    // The scheme for sites that no longer fit on one server (db/distributed).
    void schemaInShardsBySite_isThatOfTheProgram()
    {
        if (qEnvironmentVariable("RAMPLIGHT_TEST_PG").isEmpty())
            QSKIP("RAMPLIGHT_TEST_PG names no server (tests/run starts one)");
        TestDatabase sharded(StoreKind::PostgreSql);
        TestDatabase plain(StoreKind::PostgreSql);
        plain.open().reset();
        QFile file(QStringLiteral(RAMPLIGHT_SOURCE_DIR "/db/distributed/postgresql.sql"));
        QVERIFY(file.open(QIODevice::ReadOnly));
        for (const QString& statement :
             Migration::fromText(0, {}, QString::fromUtf8(file.readAll())).statements)
            QCOMPARE(sharded.sql(statement), QString());
        const auto store = sharded.open();
        // Nothing is left for migrations, which know no shards; and the versions are theirs.
        QCOMPARE(store->ledger().opening(), MigrationOutcome::UpToDate);
        const char* versions = "SELECT version, name FROM schema_version ORDER BY version";
        QCOMPARE(sharded.dump(versions), plain.dump(versions));
        // Whatever is a site's is cut by it.
        QCOMPARE(sharded.dump("SELECT c.relname FROM pg_class c"
                              " JOIN pg_namespace n ON n.oid = c.relnamespace"
                              " JOIN pg_attribute a ON a.attrelid = c.oid AND a.attname = 'site'"
                              " WHERE n.nspname = current_schema() AND c.relkind = 'r'"
                              " AND NOT c.relispartition AND c.relname <> 'site'"),
                 QString());
        const char* columns = "SELECT table_name, column_name, data_type, is_nullable"
                              " FROM information_schema.columns"
                              " WHERE table_schema = current_schema()"
                              " AND table_name !~ '_[0-9]+$' ORDER BY 1, 2";
        QCOMPARE(sharded.dump(columns), plain.dump(columns));
        // What is unique is so inside one shard.
        for (TestDatabase* database : {&sharded, &plain})
            QCOMPARE(database->dump("SELECT c.relname, a.attname FROM pg_index i"
                                    " JOIN pg_class c ON c.oid = i.indrelid"
                                    " JOIN pg_namespace n ON n.oid = c.relnamespace"
                                    " JOIN pg_attribute a ON a.attrelid = c.oid"
                                    " AND a.attnum = i.indkey[0]"
                                    " WHERE n.nspname = current_schema() AND i.indisunique"
                                    " AND a.attname <> 'site' AND c.relname <> 'schema_version'"),
                     QString());
        Workbench bench;
        tellStory(bench);
        QCOMPARE(outcome(replay(bench.ledger.accepted(), store->ledger())), QStringLiteral("ok"));
        QCOMPARE(told(Verifier(store->ledger()).run()), QString());
        // Who loses a race is told so, whatever a shard calls its own indexes.
        const auto other = sharded.open();
        Hand first(store->ledger());
        Hand second(other->ledger());
        const auto named = [](Append append, const char* name) {
            append.command = {QString::fromLatin1(name)};
            return append;
        };
        const CarId north{"north"};
        const CarId south{"south"};
        QCOMPARE(outcome(store->ledger().append(
                     named(first.with(north, {Hand::arrival("N-1"), Hand::opened(1)}), "a"))),
                 QStringLiteral("ok"));
        QCOMPARE(outcome(store->ledger().append(
                     named(first.with(south, {Hand::arrival("S-1"), Hand::opened(1)}), "b"))),
                 QStringLiteral("ok"));
        const CarEvent moved{CarMoved{BayId{4}, {}}};
        const Append late = named(second.with(north, {moved}), "c");
        QCOMPARE(outcome(store->ledger().append(named(first.with(north, {moved}), "d"))),
                 QStringLiteral("ok"));
        QCOMPARE(outcome(other->ledger().append(late)), QStringLiteral("conflict"));
        QCOMPARE(outcome(other->ledger().append(named(second.with(south, {moved}), "e"))),
                 QStringLiteral("busy"));
        QCOMPARE(outcome(other->ledger().append(
                     named(second.with(CarId{"west"}, {Hand::arrival("N-1")}), "f"))),
                 QStringLiteral("conflict"));
        QVERIFY(sharded.sql("DELETE FROM ledger").contains("append only"));
        // What a table refuses, each of its shards does.
        for (const char* table : {"ledger", "command", "site_move"})
            for (int shard = 0; shard < 16; ++shard) {
                const QString said = sharded.sql(QStringLiteral("TRUNCATE %1_%2 CASCADE")
                                                     .arg(QLatin1StringView(table))
                                                     .arg(shard));
                QVERIFY2(said.contains("ramplight: append only"), qPrintable(said));
            }
        for (const char* asked : {"DELETE FROM %1", "UPDATE %1 SET body = '{}'"}) {
            const QString said = sharded.sql(
                QString::fromLatin1(asked).arg(sharded
                                                   .ask("SELECT CAST(tableoid AS regclass)"
                                                        " FROM ledger LIMIT 1")
                                                   .toString()));
            QVERIFY2(said.contains("ramplight: append only"), qPrintable(said));
        }
        const PhotoId photo{QString(64, QLatin1Char('a'))};
        QVERIFY(writePhotoRows(store->ledger().connection(), store->ledger().siteId(), photo,
                               {{PhotoForm::Full, "bytes"}}));
        QVERIFY(
            hasPhotoRows(store->ledger().connection(), store->ledger().siteId(), photo).value());
        QCOMPARE(sharded.ask("SELECT count(*) FROM ONLY photo_bytes").toInt(), 0);
    }

    void text_isSplitAtItsSteps()
    {
        const Migration migration =
            Migration::fromText(4, "x",
                                "-- a comment\n\n-- step: a table\nCREATE TABLE a (x TEXT);\n\n"
                                "-- step\n-- said here\nCREATE TRIGGER t BEGIN\n  SELECT 1;\nEND;\n"
                                "-- step\n");
        QCOMPARE(migration.statements,
                 (QStringList{"CREATE TABLE a (x TEXT);",
                              "-- said here\nCREATE TRIGGER t BEGIN\n  SELECT 1;\nEND;"}));
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestMigrator)
#include "tst_migrator.moc"
