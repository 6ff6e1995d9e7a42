// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kioskbench.h"

#include "storage/tryingagain.h"
#include "support/testmain.h"

#include <QScopeGuard>
#include <QSqlError>
#include <QUuid>

#include <set>

using namespace ramplight;
using namespace ramplight::test;

namespace {

/// How long after each refusal the next try comes, of a kiosk that looks every so often.
std::vector<qint64> waitsOf(TryingAgain& tries, int refusals)
{
    std::vector<qint64> waits;
    qint64 now = 5'000'000;
    for (int i = 0; i < refusals; ++i) {
        tries.refused(now);
        const qint64 since = now;
        while (!tries.isDue(now))
            now += 10;
        waits.push_back(now - since);
    }
    return waits;
}

} // namespace

// A server that answers and takes nobody is left in peace for a while, longer each time.
class TestTryingAgain : public QObject
{
    Q_OBJECT

private slots:
    void waits_grow_areBounded_andDiffer()
    {
        std::set<std::vector<qint64>> courses;
        for (quint32 seed = 0; seed < 200; ++seed) {
            TryingAgain tries(seed);
            QVERIFY(tries.isDue(0));
            const std::vector<qint64> waits = waitsOf(tries, 12);
            QVERIFY(waits.front() >= TryingAgain::shortestMs);
            QVERIFY(waits.front() <= 2 * TryingAgain::shortestMs);
            for (std::size_t i = 1; i < waits.size(); ++i) {
                QVERIFY(waits.at(i) >= TryingAgain::longestMs / 2);
                QVERIFY(waits.at(i) <= TryingAgain::longestMs);
            }
            courses.insert(waits);
        }
        // Kiosks that were refused together do not come again together.
        QVERIFY(courses.size() > 190);
    }

    void success_beginsAnew()
    {
        TryingAgain tries(7);
        waitsOf(tries, 5);
        tries.reset();
        QVERIFY(tries.isDue(0));
        QVERIFY(waitsOf(tries, 1).front() <= 2 * TryingAgain::shortestMs);
    }

    void whatTheServerSays_tellsACrowdFromALostLine_data()
    {
        QTest::addColumn<QString>("text");
        QTest::addColumn<bool>("isCrowded");
        QTest::newRow("too many") << "connection to server at \"127.0.0.1\", port 5432 failed: "
                                     "FATAL:  sorry, too many clients already"
                                  << true;
        QTest::newRow("too many of one account")
            << "FATAL:  too many connections for role \"kiosk\"" << true;
        QTest::newRow("the rest is kept for others")
            << "FATAL:  remaining connection slots are reserved for non-replication superuser "
               "connections"
            << true;
        QTest::newRow("starts") << "FATAL:  the database system is starting up" << true;
        QTest::newRow("recovers") << "FATAL:  the database system is in recovery mode" << true;
        QTest::newRow("ends") << "FATAL:  the database system is shutting down" << true;
        QTest::newRow("is not ready")
            << "FATAL:  the database system is not yet accepting connections" << true;
        QTest::newRow("in the server's own language")
            << "FATAL:  tut mir leid, schon zu viele Verbindungen" << true;
        QTest::newRow("nobody listens") << "connection to server at \"127.0.0.1\", port 5432 "
                                           "failed: Connection refused\n\tIs the server running "
                                           "on that host and accepting TCP/IP connections?"
                                        << false;
        QTest::newRow("no answer") << "connection to server at \"192.0.2.1\", port 5432 failed: "
                                      "timeout expired"
                                   << false;
        QTest::newRow("ended in between")
            << "connection to server at \"127.0.0.1\", port 5432 failed: server closed the "
               "connection unexpectedly"
            << false;
        QTest::newRow("no such name") << "could not translate host name \"wall-1\" to address: "
                                         "Name or service not known"
                                      << false;
    }

    void whatTheServerSays_tellsACrowdFromALostLine()
    {
        QFETCH(QString, text);
        QFETCH(bool, isCrowded);
        const QSqlError error(QStringLiteral("QPSQL: Unable to connect"), text,
                              QSqlError::ConnectionError);
        const SqlFault fault = Dialect::of(StoreKind::PostgreSql)->classify(error);
        const StoreError told = storeError(fault);
        QCOMPARE(told.kind, StoreErrorKind::Unavailable);
        QCOMPARE(told.crowded, isCrowded);
    }

    // As long as its steady clock stands still, a kiosk that was refused does not knock again; once
    // that went on and the server takes connections again, the kiosk is back.
    void crowdedServer_isLeftInPeace_andUsedWhenItTakesConnections()
    {
        if (qEnvironmentVariableIsEmpty("RAMPLIGHT_TEST_PG"))
            QSKIP("RAMPLIGHT_TEST_PG names no server (tests/run starts one)");
        House house;
        const QString account =
            QStringLiteral("crowd_") + QUuid::createUuid().toString(QUuid::Id128);
        const auto tell = [&](const QString& statement) {
            QCOMPARE(house.database.sql(statement.arg(account)), QString());
        };
        tell(QStringLiteral("CREATE ROLE %1 LOGIN PASSWORD 'of the tests' IN ROLE ramplight"));
        const auto gone = qScopeGuard([&] { house.database.sql("DROP ROLE " + account); });
        const QTemporaryDir folder;
        StoreSettings settings = house.kiosk(folder.path());
        settings.server.user = account;
        settings.server.password = QStringLiteral("of the tests");
        {
            Kiosk kiosk(house, settings);
            QVERIFY(resultOf(kiosk.opening));
            QTRY_VERIFY_WITH_TIMEOUT(!kiosk.standing().knownAt.isNull(), patientMs);
            const int first = house.wire.taken();
            tell(QStringLiteral("ALTER ROLE %1 CONNECTION LIMIT 0"));
            tell(QStringLiteral("SELECT pg_terminate_backend(pid) FROM pg_stat_activity"
                                " WHERE usename = '%1'"));
            QTRY_VERIFY_WITH_TIMEOUT(kiosk.standing().away, patientMs);
            QTRY_VERIFY_WITH_TIMEOUT(house.wire.taken() > first, patientMs);
            const int refused = house.wire.taken();
            QTest::qWait(3'500); // some of the kiosk's looks
            QCOMPARE(house.wire.taken(), refused);
            // Work goes on meanwhile, and it asks again in its time.
            QCOMPARE(kiosk.ask(house.who, house.car, {car::StartWork{house.work}}), done);
            house.clock.pass(1);
            QTRY_VERIFY_WITH_TIMEOUT(house.wire.taken() > refused, patientMs);
            tell(QStringLiteral("ALTER ROLE %1 CONNECTION LIMIT -1"));
            // The last refusal may only now reach the kiosk: its wait begins then.
            const auto isBackInTime = [&] {
                house.clock.pass(1);
                return !kiosk.standing().away;
            };
            QTRY_VERIFY_WITH_TIMEOUT(isBackInTime(), patientMs);
            QCOMPARE(house.entries(house.car).count(QStringLiteral("work-started")), 1);
        }
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestTryingAgain)
#include "tst_tryingagain.moc"
