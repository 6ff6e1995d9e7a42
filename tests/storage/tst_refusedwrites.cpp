// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storagebench.h"
#include "support/testmain.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

namespace {

const CarId refusedCar{QStringLiteral("first")};

} // namespace

// A database that does not take a write: it is told in words, nothing is half kept, and the same
// connection works on once the cause is gone.
class TestRefusedWrites : public QObject
{
    Q_OBJECT

private slots:
    void write_isRefused_isToldAndCanBeRepeated_data()
    {
        QTest::addColumn<StoreKind>("kind");
        QTest::addColumn<QString>("breakIt");
        QTest::addColumn<QString>("mendIt");
        QTest::addColumn<QString>("words");
        QTest::newRow("SQLite, read-only") << StoreKind::Sqlite << "PRAGMA query_only = ON"
                                           << "PRAGMA query_only = OFF"
                                           << "read-only";
        QTest::newRow("SQLite, disk full") << StoreKind::Sqlite << "PRAGMA max_page_count = 1"
                                           << "PRAGMA max_page_count = 1000000"
                                           << "disk is full";
        forEachKind([](const char* prefix, StoreKind kind) {
            if (kind == StoreKind::PostgreSql)
                QTest::addRow("%s, read-only", prefix)
                    << kind << "SET default_transaction_read_only = on"
                    << "SET default_transaction_read_only = off"
                    << "read-only";
        });
    }

    void write_isRefused_isToldAndCanBeRepeated()
    {
        QFETCH(StoreKind, kind);
        QFETCH(QString, breakIt);
        QFETCH(QString, mendIt);
        QFETCH(QString, words);
        TestDatabase database(kind);
        const auto store = database.open();
        SqlLedger& ledger = store->ledger();
        Hand hand(ledger);
        QCOMPARE(outcome(ledger.append(hand.with(refusedCar, {Hand::arrival("A1")}))),
                 QStringLiteral("ok"));

        // Large enough that it cannot fit into a page that is there already.
        const Append append =
            hand.with(refusedCar, {PromiseChanged{QDate(2031, 4, 1), QString(200'000, 'x'), {}}});
        QVERIFY(ledger.connection().plain(breakIt));
        const auto refused = ledger.append(append);
        QCOMPARE(outcome(refused), QStringLiteral("unavailable"));
        QVERIFY2(refused.error().words.contains(words), qPrintable(refused.error().words));
        QVERIFY(refused.error().words.contains(QStringLiteral("Nothing was kept")));
        QCOMPARE(ledger.car(refusedCar).value().seq, 1);
        QCOMPARE(outcome(store->settings().set("a", QString(200'000, 'x'))),
                 QStringLiteral("unavailable"));

        QVERIFY(ledger.connection().plain(mendIt));
        QCOMPARE(outcome(ledger.append(append)), QStringLiteral("ok"));
        QCOMPARE(ledger.car(refusedCar).value().seq, 2);
        QCOMPARE(ledger.history(refusedCar).value().size(), std::size_t{2});
        QCOMPARE(database.ask("SELECT count(*) FROM ledger WHERE stream = 'heads'").toInt(), 2);
    }

    void write_whileAnotherProgramHoldsTheFile_isToldAndCanBeRepeated()
    {
        TestDatabase database(StoreKind::Sqlite);
        const auto store = database.open();
        SqlLedger& ledger = store->ledger();
        Hand hand(ledger);
        QVERIFY(ledger.connection().plain(QStringLiteral("PRAGMA busy_timeout = 1")));
        const Append append = hand.with(refusedCar, {Hand::arrival("A1")});
        QCOMPARE(database.sql("BEGIN IMMEDIATE"), QString());
        const auto refused = ledger.append(append);
        QCOMPARE(outcome(refused), QStringLiteral("unavailable"));
        QVERIFY(refused.error().words.contains(QStringLiteral("busy for too long")));
        QCOMPARE(database.sql("ROLLBACK"), QString());
        QCOMPARE(outcome(ledger.append(append)), QStringLiteral("ok"));
    }

    void commit_isRefused_leavesNothing_data() { addKinds(); }

    void commit_isRefused_leavesNothing()
    {
        QFETCH(StoreKind, kind);
        TestDatabase database(kind);
        const auto store = database.open();
        SqlLedger& ledger = store->ledger();
        Hand hand(ledger);
        // A check that the database makes only while it commits, and that fails.
        QCOMPARE(database.sql("CREATE TABLE parent (id INTEGER PRIMARY KEY)"), QString());
        QCOMPARE(database.sql("CREATE TABLE child (id INTEGER REFERENCES parent (id)"
                              " DEFERRABLE INITIALLY DEFERRED)"),
                 QString());
        if (kind == StoreKind::Sqlite) {
            QCOMPARE(database.sql("CREATE TRIGGER trap AFTER INSERT ON car"
                                  " BEGIN INSERT INTO child VALUES (7); END"),
                     QString());
        } else {
            QCOMPARE(database.sql("CREATE FUNCTION trap() RETURNS trigger LANGUAGE plpgsql AS"
                                  " 'BEGIN INSERT INTO child VALUES (7); RETURN NEW; END;'"),
                     QString());
            QCOMPARE(database.sql("CREATE TRIGGER trap AFTER INSERT ON car FOR EACH ROW"
                                  " EXECUTE FUNCTION trap()"),
                     QString());
        }
        const Append append = hand.with(refusedCar, {Hand::arrival("A1")});
        QCOMPARE(outcome(ledger.append(append)), QStringLiteral("unavailable"));
        QVERIFY(!ledger.car(refusedCar).value().exists());
        QVERIFY(!ledger.isKnown(append.command).value());
        QCOMPARE(database.sql(kind == StoreKind::Sqlite ? "DROP TRIGGER trap"
                                                        : "DROP TRIGGER trap ON car"),
                 QString());
        QCOMPARE(outcome(ledger.append(append)), QStringLiteral("ok"));
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestRefusedWrites)
#include "tst_refusedwrites.moc"
