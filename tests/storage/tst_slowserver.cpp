// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kioskbench.h"

#include "support/testmain.h"

#include <QElapsedTimer>

using namespace ramplight;
using namespace ramplight::test;

// A kiosk whose server answers, and takes its time. One that is slower than a kiosk waits is away
// (tst_standby).
class TestSlowServer : public QObject
{
    Q_OBJECT

private slots:
    void initTestCase()
    {
        if (qEnvironmentVariableIsEmpty("RAMPLIGHT_TEST_PG"))
            QSKIP("RAMPLIGHT_TEST_PG names no server (tests/run starts one)");
    }

    void init() { m_folder = std::make_unique<QTemporaryDir>(); }

    // Every answer comes late, and in time: everything takes longer, and nothing else is different.
    void slowServer_isWorkedWith_data()
    {
        QTest::addColumn<bool>("drops");
        QTest::newRow("late") << false;
        QTest::newRow("drop by drop") << true;
    }

    void slowServer_isWorkedWith()
    {
        QFETCH(bool, drops);
        House house;
        Kiosk kiosk(house, m_folder->path());
        QVERIFY(resultOf(kiosk.opening));
        QTRY_VERIFY_WITH_TIMEOUT(!kiosk.standing().knownAt.isNull(), patientMs);
        bool everAway = false;
        connect(&kiosk.thread(), &StoreThread::standingChanged, &kiosk.thread(),
                [&](const ServerStanding& standing) { everAway = everAway || standing.away; });
        if (drops)
            house.wire.trickle(50'000);
        else
            house.wire.delay(std::chrono::milliseconds(60));
        QCOMPARE(kiosk.ask(house.who, house.car, {car::StartWork{house.work}}), done);
        house.clock.pass(7);
        QCOMPARE(kiosk.ask(house.who, house.car,
                           {car::TakeReading{house.work, "papers", {}, answer("agree"), {}}}),
                 done);
        QCOMPARE(kiosk.ask(house.who, house.car, {car::SignOff{house.work, "both keys"}}), done);
        QCOMPARE(house.entries(house.car).count(QStringLiteral("operation-signed")), 1);
        QCOMPARE(kiosk.wall().size(), 2);
        QVERIFY(!everAway);
        QCOMPARE(kiosk.standing().kept.size(), std::size_t(0));
        // What others do is seen, too.
        QSignalSpy changed(&kiosk.thread(), &StoreThread::changed);
        const auto store = house.database.open();
        Hand hand(store->ledger());
        QCOMPARE(
            outcome(store->ledger().append(hand.with(CarId{"late"}, {Hand::arrival("LATE-1")}))),
            QStringLiteral("ok"));
        QTRY_VERIFY_WITH_TIMEOUT(!changed.isEmpty(), patientMs);
        QVERIFY(!everAway);
    }

    // Each answer comes just in time: a signature is some twenty of them, and nobody stands at a
    // wall for a minute until it is taken. So that counts as away, and what was touched is kept.
    void eachAnswerJustInTime_countsAsAway()
    {
        House house;
        Kiosk kiosk(house, m_folder->path());
        QVERIFY(resultOf(kiosk.opening));
        QTRY_VERIFY_WITH_TIMEOUT(!kiosk.standing().knownAt.isNull(), patientMs);
        house.wire.delay(kioskPatience * 2 / 3);
        QElapsedTimer timer;
        timer.start();
        QCOMPARE(kiosk.ask(house.who, house.car, {car::StartWork{house.work}}), done);
        qInfo("a touch was taken after %lld ms", timer.elapsed());
        QTRY_VERIFY_WITH_TIMEOUT(kiosk.standing().away, patientMs);
        house.clock.pass(7);
        QCOMPARE(kiosk.ask(house.who, house.car,
                           {car::TakeReading{house.work, "papers", {}, answer("agree"), {}}}),
                 done);
        QCOMPARE(kiosk.ask(house.who, house.car, {car::SignOff{house.work, "both keys"}}), done);
        QTRY_COMPARE(kiosk.standing().kept.size(), std::size_t(3));
        house.wire.heal();
        QTRY_VERIFY_WITH_TIMEOUT(!kiosk.standing().away, patientMs);
        QCOMPARE(kiosk.standing().kept.size(), std::size_t(0));
        const QString entries = house.entries(house.car);
        QCOMPARE(entries.count(QStringLiteral("work-started")), 1);
        QCOMPARE(entries.count(QStringLiteral("operation-signed")), 1);
    }

    // Wherever the line breaks while a kiosk starts: it is the line's fault, and not the
    // database's.
    void lineBreaksWhileItStarts_comesBack()
    {
        struct Start
        {
            explicit Start(const PostgresAddress& server)
                : wire(server)
            {
            }
            QTemporaryDir folder;
            Wire wire;
            std::unique_ptr<Kiosk> kiosk;
        };
        House house;
        std::vector<std::unique_ptr<Start>> starts;
        do {
            auto& start =
                *starts.emplace_back(std::make_unique<Start>(house.database.settings().server));
            start.wire.cutAfter(static_cast<int>(starts.size()));
            StoreSettings settings = house.kiosk(start.folder.path());
            settings.server = start.wire.address();
            start.kiosk = std::make_unique<Kiosk>(house, settings);
            std::ignore = resultOf(start.kiosk->opening);
        } while (starts.back()->wire.isCut());
        QVERIFY(starts.size() > 8);
        for (const auto& start : starts)
            start->wire.heal();
        for (std::size_t i = 0; i < starts.size(); ++i) {
            Kiosk& kiosk = *starts[i]->kiosk;
            QTRY_VERIFY2_WITH_TIMEOUT(kiosk.standing().shared && !kiosk.standing().away,
                                      qPrintable(QStringLiteral("after %1 answers").arg(i + 1)),
                                      patientMs);
            QCOMPARE(kiosk.wall().size(), 2);
        }
    }

private:
    std::unique_ptr<QTemporaryDir> m_folder;
};

RAMPLIGHT_TEST(QCoreApplication, TestSlowServer)
#include "tst_slowserver.moc"
