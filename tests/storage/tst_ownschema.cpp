// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storagebench.h"

#include "support/testmain.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

// A schema that is not the program's own: what is extra, missing or other is named.
class TestOwnSchema : public QObject
{
    Q_OBJECT

private slots:
    void guard_takenAway_isNamed_data()
    {
        QTest::addColumn<StoreKind>("kind");
        QTest::addColumn<QString>("statement");
        QTest::addColumn<QString>("guard");
        const auto row = [](StoreKind kind, const char* name, const char* statement,
                            const char* guard) {
            QTest::addRow("%s, %s", kind == StoreKind::Sqlite ? "SQLite" : "PostgreSQL", name)
                << kind << statement << guard;
        };
        row(StoreKind::Sqlite, "trigger", "DROP TRIGGER ledger_no_update",
            "the trigger ledger_no_update is not there");
        row(StoreKind::Sqlite, "index", "DROP INDEX one_car_per_bay",
            "the index one_car_per_bay is not there");
        // Wrong PINs are forgotten as they come.
        row(StoreKind::Sqlite, "trigger of another",
            "CREATE TRIGGER forgets AFTER INSERT ON pin_failure BEGIN DELETE FROM pin_failure; END",
            "the trigger forgets of pin_failure is none of the program's");
        // What was called kept is not there.
        row(StoreKind::Sqlite, "trigger that drops entries",
            "CREATE TRIGGER loses BEFORE INSERT ON ledger BEGIN SELECT RAISE(IGNORE); END",
            "the trigger loses of ledger is none of the program's");
        row(StoreKind::Sqlite, "view", "CREATE VIEW seen AS SELECT * FROM ledger",
            "the view seen of seen is none of the program's");
        row(StoreKind::Sqlite, "index of another", "CREATE UNIQUE INDEX one ON badge (site)",
            "the index one of badge is none of the program's");
        row(StoreKind::Sqlite, "table of another", "CREATE TABLE mine (x TEXT)",
            "the table mine of mine is none of the program's");
        forEachKind([&](const char*, StoreKind kind) {
            if (kind != StoreKind::PostgreSql)
                return;
            row(kind, "trigger", "DROP TRIGGER ledger_no_update ON ledger",
                "the trigger ledger_no_update of ledger is not there");
            row(kind, "trigger switched off", "ALTER TABLE ledger DISABLE TRIGGER ledger_follows",
                "the trigger ledger_follows of ledger is switched off");
            row(kind, "index", "DROP INDEX one_car_per_bay",
                "the index one_car_per_bay is not there");
            row(kind, "trigger of another",
                "CREATE TRIGGER forgets BEFORE INSERT ON pin_failure FOR EACH ROW EXECUTE FUNCTION"
                " ramplight_append_only()",
                "the trigger forgets of pin_failure is none of the program's");
            row(kind, "trigger of another time",
                "CREATE OR REPLACE TRIGGER ledger_no_update AFTER UPDATE ON ledger FOR EACH ROW"
                " EXECUTE FUNCTION ramplight_append_only()",
                "the trigger ledger_no_update of ledger is not as the program makes it");
            row(kind, "trigger under a condition",
                "CREATE OR REPLACE TRIGGER ledger_no_update BEFORE UPDATE ON ledger FOR EACH ROW"
                " WHEN (false) EXECUTE FUNCTION ramplight_append_only()",
                "the trigger ledger_no_update of ledger is not as the program makes it");
            row(kind, "rule", "CREATE RULE forgets AS ON INSERT TO pin_failure DO INSTEAD NOTHING",
                "the rule forgets of pin_failure is none of the program's");
            row(kind, "policy", "ALTER TABLE pin_failure ENABLE ROW LEVEL SECURITY",
                "a policy says which rows of pin_failure are shown");
        });
    }

    void guard_takenAway_isNamed()
    {
        QFETCH(StoreKind, kind);
        QFETCH(QString, statement);
        QFETCH(QString, guard);
        TestDatabase database(kind);
        const auto store = storyIn(database);
        QCOMPARE(database.sql(statement), QString());
        const VerifyReport report = Verifier(store->ledger()).run();
        QCOMPARE(report.faults.size(), std::size_t{1});
        QCOMPARE(report.faults.front().words, guard);
    }

    // Its name is there, and it guards nothing.
    void guard_emptied_isNamed_data() { addKinds(); }

    void guard_emptied_isNamed()
    {
        QFETCH(StoreKind, kind);
        TestDatabase database(kind);
        const auto store = storyIn(database);
        if (kind == StoreKind::Sqlite) {
            QCOMPARE(database.sql("DROP TRIGGER ledger_no_update"), QString());
            QCOMPARE(database.sql("CREATE TRIGGER ledger_no_update BEFORE UPDATE ON ledger BEGIN"
                                  " SELECT 1; END"),
                     QString());
            QCOMPARE(told(Verifier(store->ledger()).run()),
                     QStringLiteral("schema: the trigger ledger_no_update is not as the program "
                                    "makes it"));
            return;
        }
        QCOMPARE(database.sql("CREATE OR REPLACE FUNCTION ramplight_follows() RETURNS trigger"
                              " LANGUAGE plpgsql AS 'BEGIN RETURN NEW; END;'"),
                 QString());
        QCOMPARE(told(Verifier(store->ledger()).run()),
                 QStringLiteral("schema: the trigger ledger_follows of ledger has another "
                                "function than the program gives it"));
    }

    // The rows are those that were written, and another may show through it tomorrow.
    void tableThatIsAView_isNamed_data() { addKinds(); }

    void tableThatIsAView_isNamed()
    {
        QFETCH(StoreKind, kind);
        TestDatabase database(kind);
        const auto store = storyIn(database);
        QCOMPARE(database.sql("ALTER TABLE badge RENAME TO badge_of_before"), QString());
        QCOMPARE(database.sql("CREATE VIEW badge AS SELECT * FROM badge_of_before"), QString());
        const QString found = told(Verifier(store->ledger()).run());
        QVERIFY2(found.contains("schema: the table badge is not there"), qPrintable(found));
    }

    void whatEachEarlierVersionMade_isBroughtToOurs_data()
    {
        QTest::addColumn<StoreKind>("kind");
        QTest::addColumn<int>("steps");
        forEachKind([](const char* prefix, StoreKind kind) {
            const std::size_t all = migrationsIn(Dialect::of(kind)->migrations()).size();
            for (int steps = 1; steps < static_cast<int>(all); ++steps)
                QTest::addRow("%s, step %d", prefix, steps) << kind << steps;
        });
    }

    void whatEachEarlierVersionMade_isBroughtToOurs()
    {
        QFETCH(StoreKind, kind);
        QFETCH(int, steps);
        TestDatabase database(kind);
        {
            const auto connection = Connection::open(database.settings()).value();
            auto all = migrationsIn(connection->dialect().migrations());
            all.resize(static_cast<std::size_t>(steps));
            QCOMPARE(migrate(*connection, all).to, steps);
        }
        const auto store = storyIn(database);
        QCOMPARE(store->ledger().opening(), MigrationOutcome::Upgraded);
        QCOMPARE(told(Verifier(store->ledger()).run()), QString());
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestOwnSchema)
#include "tst_ownschema.moc"
