// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "keptbench.h"

#include "storage/standbyfiles.h"
#include "support/testmain.h"

#include <QJsonDocument>
#include <QJsonObject>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

// What a kiosk kept and counted goes to its server once, also to one that was brought back from a
// backup; and what that lacks is told. The server is a file here: what is asked of it is the same.
class TestHandBack : public QObject
{
    Q_OBJECT

private slots:
    // The server is brought back from a backup that is older than what this kiosk saw of it.
    void olderServer_getsWhatIsKept_once_andWhatItLacksIsTold()
    {
        StandbyHouse house;
        const auto kiosk = house.kiosk();
        QVERIFY(kiosk->open(*house.server));
        house.follow(*kiosk);
        QVERIFY(house.backUp(house.backupName()));

        // Others go on, and this kiosk sees it.
        house.bench.clock.pass(30);
        const PersonId manager = house.bench.manager;
        const qint64 before = house.server->ledger().head(house.other)->seq;
        QCOMPARE(house.ask(manager, house.other,
                           {car::ChangePromise{QDate(2031, 4, 1), QStringLiteral("asked for")}}),
                 done);
        house.bench.clock.pass(5);
        QCOMPARE(house.ask(manager, house.other,
                           {car::ChangePromise{QDate(2031, 4, 2), QStringLiteral("asked again")}}),
                 done);
        const Moment last = house.bench.clock.now();
        const auto lost = static_cast<int>(house.server->ledger().head(house.other)->seq - before);
        QVERIFY(lost >= 2);
        QVERIFY(!house.follow(*kiosk));
        // Then it is away, and something is kept here.
        QVERIFY(kiosk->takeOver());
        QCOMPARE(house.run(kiosk->workshop(false)), done);
        house.bench.clock.pass(10);

        QVERIFY(house.restore(house.backupName()));
        QVERIFY(!house.server->ledger().isKnown(CommandId{"kept"}).value());
        for (int again = 0; again < 2; ++again) {
            QVERIFY(kiosk->open(*house.server));
            QVERIFY(kiosk->handBack(*house.server, house.server->ledger()));
            QCOMPARE(house.follow(*kiosk), again == 0);
        }
        QVERIFY(house.server->ledger().isKnown(CommandId{"kept"}).value());
        QCOMPARE(house.database
                     .ask(QStringLiteral("SELECT count(*) FROM ledger WHERE type = 'work-started'"
                                         " AND stream = '%1'")
                              .arg(carStream(house.car)))
                     .toInt(),
                 1);
        // The mirror is the server's again.
        QVERIFY(kiosk->isInStep());
        QVERIFY(kiosk->takeOver());
        for (const CarId& car : {house.car, house.other})
            QVERIFY(kiosk->store().ledger().car(car).value() ==
                    house.server->ledger().car(car).value());
        // And somebody is told what the server does not have any more.
        const auto kept = kiosk->kept().value();
        QCOMPARE(kept.size(), std::size_t(1));
        QVERIFY(kept.front().trouble);
        const KeptTrouble& trouble = *kept.front().trouble;
        QCOMPARE(trouble.kind, TroubleKind::ServerOlder);
        QCOMPARE(trouble.entries(), lost);
        QCOMPARE(trouble.until(), last);
        QCOMPARE(trouble.missing.size(), std::size_t(1));
        QCOMPARE(trouble.missing.front().stockNumber,
                 house.server->ledger().car(house.other)->identity.stockNumber);
        const QString list = house.folder() + QLatin1Char('/') + trouble.file;
        const QByteArrayList lines = bytesIn(list).trimmed().split('\n');
        QCOMPARE(lines.size(), qsizetype{lost});
        QCOMPARE(QJsonDocument::fromJson(lines.front())
                     .object()
                     .value(QStringLiteral("stream"))
                     .toString(),
                 carStream(house.other));
        QVERIFY((QFile::permissions(list) & (QFile::ReadGroup | QFile::ReadOther)) == 0);
        QVERIFY(kiosk->note(kept.front().number, manager));
        QVERIFY(kiosk->kept()->empty());
    }

    // The only place that has it is not thrown away before somebody can be told.
    void minutesOfWhatWasKept_areTheTimers_whateverTheClockWasSetTo_data()
    {
        QTest::addColumn<bool>("begunBefore");
        QTest::newRow("begun while the server was away") << false;
        QTest::newRow("begun before") << true;
    }

    void minutesOfWhatWasKept_areTheTimers_whateverTheClockWasSetTo()
    {
        QFETCH(bool, begunBefore);
        StandbyHouse house;
        const auto timers = std::make_shared<StartedTimers>();
        Standby kiosk(house.folder(), keeperWith(), house.bench.clock, house.bench.catalogue,
                      timers);
        QVERIFY(kiosk.open(*house.server));
        Workshop there(house.server->ledger(), house.bench.clock, house.bench.catalogue, timers);
        if (begunBefore)
            QCOMPARE(house.run(there), done);
        house.follow(kiosk);
        QVERIFY(kiosk.takeOver());
        if (!begunBefore)
            QCOMPARE(house.run(kiosk.workshop(false)), done);
        house.bench.clock.pass(15);
        house.bench.clock.putBy(8 * 60);
        house.bench.clock.pass(10);
        QVERIFY(
            kiosk.workshop(false).run(CarRequest{CommandId{"paused"},
                                                 house.who,
                                                 house.car,
                                                 {car::PauseWork{house.work, {}, StopKind::Paused}},
                                                 true}));
        const auto stretch = [&](SqlLedger& ledger) {
            return ledger.car(house.car)->operation(house.work)->segments.back();
        };
        const Segment kept = stretch(kiosk.store().ledger());
        QCOMPARE(kept.minutes(), 25);
        house.bench.clock.pass(60);
        QVERIFY(kiosk.handBack(*house.server, house.server->ledger()));
        QVERIFY(house.server->ledger().isKnown(CommandId{"paused"}).value());
        QVERIFY(stretch(house.server->ledger()) == kept);
    }

    // Somebody wrote into it behind the program's back, or its disk lies.
    void carThatIsDamagedOnTheServer_keepsNothingElseHere()
    {
        StandbyHouse house;
        const auto kiosk = house.kiosk();
        QVERIFY(kiosk->open(*house.server));
        house.follow(*kiosk);
        QVERIFY(kiosk->takeOver());
        QCOMPARE(house.run(kiosk->workshop(false)), done);
        const QString found = QStringLiteral("on-the-other");
        {
            const auto outcome = kiosk->workshop(false).run(
                CarRequest{CommandId{found},
                           house.bench.manager,
                           house.other,
                           {car::MoveCar{{}, QStringLiteral("behind the shed")}},
                           true});
            QVERIFY(outcome);
        }
        const QString entry =
            QStringLiteral(" WHERE stream = '%1' AND seq = 2").arg(carStream(house.car));
        const QString body = house.database.ask("SELECT body FROM ledger" + entry).toString();
        QCOMPARE(house.database.forge("UPDATE ledger SET body = '{}'" + entry), QString());
        house.reopen();
        for (int again = 0; again < 2; ++again) {
            QVERIFY(kiosk->open(*house.server));
            QVERIFY(kiosk->handBack(*house.server, house.server->ledger()));
            QVERIFY(house.server->ledger().isKnown(CommandId{found}).value());
            QCOMPARE(kiosk->kept()->size(), std::size_t(1));
            QVERIFY2(kiosk->owedWhy().contains(
                         house.bench.ledger.cars().at(house.car).identity.stockNumber),
                     qPrintable(kiosk->owedWhy()));
            // And the copy goes on with the others.
            house.follow(*kiosk);
            QVERIFY(kiosk->isInStep());
            QVERIFY(kiosk->fault().isEmpty());
        }
        QCOMPARE(house.database.forge("UPDATE ledger SET body = '" + body + "'" + entry),
                 QString());
        house.reopen();
        QVERIFY(kiosk->handBack(*house.server, house.server->ledger()));
        QVERIFY(house.server->ledger().isKnown(CommandId{"kept"}).value());
        QCOMPARE(kiosk->kept()->size(), std::size_t(0));
        QCOMPARE(kiosk->owedWhy(), QString());
    }

    // At another kiosk, by a timer that was started later: it is at one place in the end.
    void workOfSomebodyWhoIsAtOtherWorkNow_waitsForItsEnd_andKeepsItsMinutes()
    {
        StandbyHouse house;
        const auto kiosk = house.kiosk();
        QVERIFY(kiosk->open(*house.server));
        house.follow(*kiosk);
        QVERIFY(kiosk->takeOver());
        const auto pause = [&](OperationId work) {
            return car::PauseWork{work, {}, StopKind::Paused};
        };
        const auto keep = [&](const char* id, const CarId& car, const CarCommand& command) {
            return kiosk->workshop(false)
                .run(CarRequest{CommandId{id}, house.who, car, {command}, true})
                .has_value();
        };
        QCOMPARE(house.run(kiosk->workshop(false)), done);
        house.bench.clock.pass(50);
        QVERIFY(keep("paused", house.car, pause(house.work)));
        QVERIFY(keep("moved", house.other, car::MoveCar{{}, QStringLiteral("behind the shed")}));
        house.bench.clock.pass(5);
        const OperationId elsewhere = house.bench.open(house.other, "arrival-check");
        QCOMPARE(house.ask(house.who, house.other, {car::StartWork{elsewhere}}), done);
        house.bench.clock.pass(20);

        QVERIFY(kiosk->handBack(*house.server, house.server->ledger()));
        const auto isThere = [&](const char* id) {
            return house.server->ledger().isKnown(CommandId{id}).value();
        };
        QVERIFY(isThere("moved"));
        QVERIFY(!isThere("kept"));
        QCOMPARE(kiosk->kept()->size(), std::size_t(2));
        QVERIFY2(kiosk->owedWhy().contains(QStringLiteral("once that timer has ended")),
                 qPrintable(kiosk->owedWhy()));

        QCOMPARE(house.ask(house.who, house.other, {pause(elsewhere)}), done);
        QVERIFY(kiosk->handBack(*house.server, house.server->ledger()));
        QVERIFY(isThere("kept"));
        QVERIFY(isThere("paused"));
        QCOMPARE(kiosk->kept()->size(), std::size_t(0));
        QCOMPARE(kiosk->owedWhy(), QString());
        const auto worked = house.server->ledger().car(house.car);
        QCOMPARE(worked->operation(house.work)->segments.back().minutes(), 50);
    }

    void whatAnOlderServerLacks_andCannotBeWrittenDown_staysInTheMirror()
    {
        StandbyHouse house;
        const auto kiosk = house.kiosk();
        QVERIFY(kiosk->open(*house.server));
        house.follow(*kiosk);
        QVERIFY(house.backUp(house.backupName()));
        const PersonId manager = house.bench.manager;
        QCOMPARE(house.ask(manager, house.other,
                           {car::ChangePromise{QDate(2031, 4, 1), QStringLiteral("asked for")}}),
                 done);
        house.follow(*kiosk);
        QVERIFY(house.restore(house.backupName()));
        QVERIFY(kiosk->open(*house.server));
        // Another lies where the list is to be.
        const QString list =
            house.folder() +
            QDateTime::fromMSecsSinceEpoch(house.bench.clock.now().ms, Qt::UTC)
                .toString(QStringLiteral("'/missing-on-server-'yyyyMMdd-HHmmss'.jsonl'"));
        QVERIFY(QDir().mkpath(list));
        for (int again = 0; again < 2; ++again) {
            kiosk->want({});
            kiosk->wantSite();
            house.follow(*kiosk);
            QVERIFY(kiosk->isUntold());
            QVERIFY(!kiosk->isInStep());
            QVERIFY(!kiosk->hasToFollow());
            QVERIFY(kiosk->knownAt().isNull());
            QVERIFY2(kiosk->fault().contains(QStringLiteral("does not have 1 entries any more")),
                     qPrintable(kiosk->fault()));
            QVERIFY(!kiosk->takeOver());
            QVERIFY(kiosk->kept()->empty());
        }

        QVERIFY(QDir().rmdir(list));
        kiosk->want({});
        house.follow(*kiosk);
        QVERIFY(!kiosk->isUntold());
        QCOMPARE(kiosk->fault(), QString());
        QVERIFY(kiosk->isInStep());
        const auto kept = kiosk->kept().value();
        QCOMPARE(kept.size(), std::size_t(1));
        QCOMPARE(kept.front().trouble->entries(), 1);
        QCOMPARE(house.folder() + QLatin1Char('/') + kept.front().trouble->file, list);
        QCOMPARE(bytesIn(list).trimmed().count('\n'), qsizetype{0});
        QVERIFY(bytesIn(list).contains("asked for"));
    }

    // Work on the same car went on there since the backup, so that numbers and hashes part.
    void serverThatWentAnotherWay_isFoundOnTheCarThatIsSent()
    {
        StandbyHouse house;
        const auto kiosk = house.kiosk();
        QVERIFY(kiosk->open(*house.server));
        QVERIFY(house.backUp(house.backupName()));
        const PersonId manager = house.bench.manager;
        QCOMPARE(house.ask(manager, house.car,
                           {car::ChangePromise{QDate(2031, 4, 1), QStringLiteral("seen here")}}),
                 done);
        house.follow(*kiosk);
        QVERIFY(kiosk->takeOver());
        QCOMPARE(house.run(kiosk->workshop(false)), done);

        QVERIFY(house.restore(house.backupName()));
        house.bench.clock.pass(1);
        for (int day = 2; day < 5; ++day)
            QCOMPARE(
                house.ask(manager, house.car,
                          {car::ChangePromise{QDate(2031, 4, day), QStringLiteral("another way")}}),
                done);
        QVERIFY(kiosk->open(*house.server));
        QVERIFY(kiosk->handBack(*house.server, house.server->ledger()));
        QVERIFY(house.server->ledger().isKnown(CommandId{"kept"}).value());
        // It does not call itself whole before it is.
        QVERIFY(kiosk->knownAt().isNull());
        house.follow(*kiosk);
        QVERIFY(!kiosk->knownAt().isNull());
        const auto kept = kiosk->kept().value();
        QCOMPARE(kept.size(), std::size_t(1));
        QVERIFY(kept.front().trouble);
        QCOMPARE(kept.front().trouble->entries(), 1);
        QVERIFY(kiosk->takeOver());
        QVERIFY(kiosk->store().ledger().car(house.car).value() ==
                house.server->ledger().car(house.car).value());
    }

    // The line is lost while wrong PINs are told, and the power before they are forgotten here.
    void wrongPins_areCountedOnce()
    {
        StandbyHouse house;
        const auto count = [&] { return house.server->failures().marks(house.who).value().size(); };
        // One that the server has already, at the very same moment.
        const SignInMark mark{SignInMark::Kind::WrongPin, house.bench.clock.now()};
        QVERIFY(house.server->failures().add(house.who, mark));
        auto kiosk = house.kiosk();
        QVERIFY(kiosk->open(*house.server));
        house.follow(*kiosk);
        QVERIFY(kiosk->takeOver());
        for (int i = 0; i < 3; ++i)
            QVERIFY(kiosk->store().failures().add(house.who, mark));
        QCOMPARE(house.database.sql("CREATE TRIGGER no_room BEFORE INSERT ON pin_failure"
                                    " WHEN (SELECT count(*) FROM pin_failure) >= 2"
                                    " BEGIN SELECT RAISE(ABORT, 'no room'); END"),
                 QString());
        QVERIFY(kiosk->open(*house.server));
        QVERIFY(!kiosk->handBack(*house.server, house.server->ledger()));
        QCOMPARE(count(), std::size_t(2));
        QCOMPARE(house.database.sql("DROP TRIGGER no_room"), QString());
        const QString aside = house.backupName();
        kiosk.reset();
        QVERIFY(QFile::copy(house.file(standbyfiles::working), aside));
        for (int again = 0; again < 2; ++again) {
            kiosk = house.kiosk();
            QVERIFY(kiosk->open(*house.server));
            QVERIFY(kiosk->handBack(*house.server, house.server->ledger()));
            QCOMPARE(count(), std::size_t(4));
            kiosk.reset();
            QVERIFY(!QFile::exists(house.file(standbyfiles::working)));
            QVERIFY(QFile::copy(aside, house.file(standbyfiles::working)));
        }
        // A manager forgives, and it does not come back by the copy.
        QVERIFY(house.server->failures().clear(house.who));
        QVERIFY(house.leaveStandby());
        kiosk = house.kiosk();
        QVERIFY(kiosk->open(SiteId{}));
        QVERIFY(QFile::remove(house.file(standbyfiles::working)));
        QVERIFY(kiosk->takeOver());
        QVERIFY(kiosk->handBack(*house.server, house.server->ledger()));
        QCOMPARE(count(), std::size_t(0));
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestHandBack)
#include "tst_handback.moc"
