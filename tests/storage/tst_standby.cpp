// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kioskbench.h"

#include "storage/sitekeycheck.h"
#include "support/testmain.h"

#include <QElapsedTimer>
#include <QFile>

#include <algorithm>
#include <csignal>
#include <cstddef>

using namespace ramplight;
using namespace ramplight::test;

namespace {

/// All its work is done at the server, so that nothing holds it any more.
void makeReadyForRelease(House& house, const CarId& car)
{
    house.onBench([&] {
        house.bench.closeAll(car);
        house.bench.clock.pass(120);
    });
}

} // namespace

// A kiosk whose server is away: what it knows, what it keeps, what becomes of it.
class TestStandby : public QObject
{
    Q_OBJECT

private slots:
    void initTestCase()
    {
        if (qEnvironmentVariableIsEmpty("RAMPLIGHT_TEST_PG"))
            QSKIP("RAMPLIGHT_TEST_PG names no server (tests/run starts one)");
    }

    void init() { m_folder = std::make_unique<QTemporaryDir>(); }

    void serverAway_workGoesOn_andArrivesOnce_data()
    {
        QTest::addColumn<QString>("how");
        for (const char* how : {"cut", "hangs", "stopped", "slower than is waited", "trickles"})
            QTest::newRow(how) << how;
    }

    void serverAway_workGoesOn_andArrivesOnce()
    {
        QFETCH(QString, how);
        House house;
        makeReadyForRelease(house, house.other);
        Kiosk kiosk(house, m_folder->path());
        QVERIFY(resultOf(kiosk.opening));
        QTRY_VERIFY_WITH_TIMEOUT(!kiosk.standing().knownAt.isNull(), patientMs);
        const QStringList wall = kiosk.wall();
        QCOMPARE(wall.size(), 2);
        const QString before = house.entries(house.car);

        const pid_t backend =
            how == QLatin1StringView("stopped")
                ? resultOf(kiosk.thread().run([](Workshop&, Store& store) {
                      auto rows = store.ledger().connection().run("SELECT pg_backend_pid()");
                      return rows && rows->next() ? static_cast<pid_t>(rows->whole(0)) : 0;
                  }))
                : 0;
        QElapsedTimer timer;
        timer.start();
        if (how == QLatin1StringView("cut")) {
            house.wire.cut();
        } else if (how == QLatin1StringView("hangs")) {
            house.wire.hang();
        } else if (how == QLatin1StringView("slower than is waited")) {
            house.wire.delay(kioskPatience + std::chrono::seconds(1));
        } else if (how == QLatin1StringView("trickles")) {
            house.wire.trickle(20);
        } else {
            QVERIFY(backend > 0);
            QCOMPARE(::kill(backend, SIGSTOP), 0);
            // Otherwise the next connection would be a whole one.
            house.wire.hang();
        }
        QTRY_VERIFY_WITH_TIMEOUT(kiosk.standing().away, patientMs);
        qInfo("%s: noticed after %lld ms", qPrintable(how), timer.elapsed());
        if (backend > 0)
            ::kill(backend, SIGCONT);

        // The wall as it was; what is refused is told at once, what may wait is kept.
        QCOMPARE(kiosk.wall(), wall);
        const QString left = house.entries(house.other);
        QCOMPARE(kiosk.ask(house.bench.seller, house.other, {car::Release{}}), notKeptWords());
        QVERIFY(kiosk
                    .ask(house.bench.manager, house.car,
                         {car::ChangePromise{QDate(2031, 4, 1), "asked for"}})
                    .contains(QStringLiteral("server is away")));
        QCOMPARE(kiosk.ask(house.who, house.car, {car::SignOff{house.work, {}}}),
                 no(RefusalId::NotStarted));
        QCOMPARE(kiosk.standing().kept.size(), std::size_t(0));
        QCOMPARE(kiosk.ask(house.who, house.car, {car::StartWork{house.work}}), done);
        house.clock.pass(7);
        QCOMPARE(kiosk.ask(house.who, house.car,
                           {car::TakeReading{house.work, "papers", {}, answer("agree"), {}}}),
                 done);
        QCOMPARE(kiosk.ask(house.who, house.car, {car::SignOff{house.work, "both keys"}}), done);
        QVERIFY(!kiosk.car(house.car).operation(house.work)->isOpen());
        QTRY_COMPARE(kiosk.standing().kept.size(), std::size_t(3));
        QCOMPARE(kiosk.standing().kept.front().works.front().operation, house.work);
        QCOMPARE(house.entries(house.car), before);
        const Moment made = kiosk.standing().kept.front().at;
        QCOMPARE(house.entries(house.other), left);

        house.clock.pass(45);
        house.wire.heal();
        QTRY_VERIFY_WITH_TIMEOUT(!kiosk.standing().away, patientMs);
        QCOMPARE(kiosk.standing().kept.size(), std::size_t(0));
        const QStringList lines = house.entries(house.car)
                                      .mid(before.size())
                                      .split(QLatin1Char('\n'), Qt::SkipEmptyParts);
        QVERIFY2(lines.size() >= 3, qPrintable(lines.join(QLatin1Char('\n'))));
        QCOMPARE(lines.front(),
                 QStringLiteral("work-started|%1|%2").arg(house.who.value).arg(made.ms));
        QCOMPARE(lines.filter(QStringLiteral("operation-signed")).size(), 1);
        QVERIFY(!kiosk.car(house.car).operation(house.work)->isOpen());
        QCOMPARE(kiosk.car(house.car).operation(house.work)->segments.front().start, made);
        // The same release, now that the server is back.
        QCOMPARE(house.entries(house.other), left);
        QCOMPARE(kiosk.ask(house.bench.seller, house.other, {car::Release{}}), done);
        QVERIFY(house.entries(house.other).size() > left.size());
        QVERIFY(kiosk.car(house.other).released);
        const auto store = house.database.open();
        QCOMPARE(
            told(Verifier(store->ledger(), [](const std::set<PhotoId>&) { return VaultReport{}; })
                     .run()),
            QString());
        // And what others do is seen again.
        QSignalSpy changed(&kiosk.thread(), &StoreThread::changed);
        Hand hand(store->ledger());
        QCOMPARE(
            outcome(store->ledger().append(hand.with(CarId{"late"}, {Hand::arrival("LATE-1")}))),
            QStringLiteral("ok"));
        QTRY_VERIFY_WITH_TIMEOUT(!changed.isEmpty(), patientMs);
        QVERIFY(kiosk.wall().contains(QStringLiteral("late")));
    }

    void killedKiosk_sendsWhatItKept_once()
    {
        House house;
        const QString copy = m_folder->filePath(QStringLiteral("as-it-lay"));
        const QString folder = m_folder->filePath(QStringLiteral("standby"));
        {
            Kiosk kiosk(house, folder);
            QVERIFY(resultOf(kiosk.opening));
            QTRY_VERIFY_WITH_TIMEOUT(!kiosk.standing().knownAt.isNull(), patientMs);
            house.wire.cut();
            QTRY_VERIFY_WITH_TIMEOUT(kiosk.standing().away, patientMs);
            QCOMPARE(kiosk.ask(house.who, house.car, {car::StartWork{house.work}}), done);
            // The folder as a kill leaves it: copied while it is at work.
            QVERIFY(QDir().mkpath(copy));
            for (const QString& name : QDir(folder).entryList(QDir::Files))
                QVERIFY(QFile::copy(folder + '/' + name, copy + '/' + name));
        }
        // Started again without its server, it knows what it knew and what was done here.
        {
            Kiosk kiosk(house, copy);
            QVERIFY(resultOf(kiosk.opening));
            QTRY_COMPARE(kiosk.standing().kept.size(), std::size_t(1));
            QVERIFY(kiosk.standing().away);
            QCOMPARE(kiosk.wall().size(), 2);
            QVERIFY(kiosk.car(house.car).runningSegment(house.who, nullptr) != nullptr);
            house.wire.heal();
            QTRY_VERIFY_WITH_TIMEOUT(!kiosk.standing().away, patientMs);
            QCOMPARE(kiosk.standing().kept.size(), std::size_t(0));
        }
        // The other folder has the same request: it stands in the ledger already.
        Kiosk kiosk(house, folder);
        QVERIFY(resultOf(kiosk.opening));
        QTRY_VERIFY_WITH_TIMEOUT(kiosk.standing().shared, patientMs);
        QCOMPARE(kiosk.standing().kept.size(), std::size_t(0));
        QCOMPARE(house.entries(house.car).count(QStringLiteral("work-started")), 1);
    }

    void whatTheServersStateRefuses_isKeptUntilSomebodySawIt()
    {
        House house;
        Kiosk kiosk(house, m_folder->path());
        QVERIFY(resultOf(kiosk.opening));
        QTRY_VERIFY_WITH_TIMEOUT(!kiosk.standing().knownAt.isNull(), patientMs);
        house.wire.cut();
        QTRY_VERIFY_WITH_TIMEOUT(kiosk.standing().away, patientMs);
        QCOMPARE(kiosk.ask(house.who, house.car, {car::StartWork{house.work}}), done);
        house.clock.pass(2);

        // Meanwhile the car leaves at another kiosk.
        {
            const auto store = house.database.open();
            Workshop workshop(store->ledger(), house.clock, house.bench.catalogue);
            const auto left =
                workshop.run(CarRequest{CommandId{"left"},
                                        house.bench.manager,
                                        house.car,
                                        {car::LeaveUnreleased{LeavingHow::Trade, "sold as it is"}},
                                        true});
            QVERIFY2(left, left ? "" : qPrintable(words(left.error())));
        }
        const QString before = house.entries(house.car);
        house.wire.heal();
        QTRY_VERIFY_WITH_TIMEOUT(!kiosk.standing().away, patientMs);
        QCOMPARE(kiosk.standing().kept.size(), std::size_t(1));
        const KeptRequest refused = kiosk.standing().kept.front();
        QVERIFY(!refused.waits());
        QVERIFY(!refused.refusal.isEmpty());
        QCOMPARE(refused.works.front().operation, house.work);
        QVERIFY(!refused.works.front().title.isEmpty());
        QCOMPARE(house.entries(house.car), before);
        QVERIFY(!kiosk.wall().contains(house.car.text));

        QVERIFY(resultOf(kiosk.thread().note(refused.number, house.bench.manager)));
        QTRY_COMPARE(kiosk.standing().kept.size(), std::size_t(0));
    }

    void whatMayHaveBeenDone_isNotCalledUndone()
    {
        House house;
        Kiosk kiosk(house, m_folder->path());
        QVERIFY(resultOf(kiosk.opening));
        QTRY_VERIFY_WITH_TIMEOUT(!kiosk.standing().knownAt.isNull(), patientMs);
        const auto promise = [&](const char* id, int days) {
            return CarRequest{CommandId{QString::fromLatin1(id)},
                              house.bench.manager,
                              house.other,
                              {car::ChangePromise{QDate(2031, 4, 1).addDays(days), "asked for"}},
                              true};
        };
        // The server does it, and goes away before anybody hears of it.
        const auto asked = resultOf(kiosk.thread().run(
            [&house, request = promise("unheard", 1)](Workshop& workshop, Store& store) {
                auto outcome = workshop.run(request);
                if (!store.isCopy())
                    for (house.wire.cut(); !store.ledger().connection().isLost();)
                        std::ignore = store.ledger().isKnown(request.id);
                return outcome;
            }));
        QVERIFY(!asked);
        QCOMPARE(words(asked.error()), perhapsDoneWords());
        QVERIFY(house.database.open()->ledger().isKnown(CommandId{"unheard"}).value());
        const auto next = resultOf(
            kiosk.thread().run([request = promise("later", 2)](Workshop& workshop, Store&) {
                return workshop.run(request);
            }));
        QVERIFY(!next);
        QCOMPARE(words(next.error()), notKeptWords());
    }

    void workThatIsNumberedOtherwiseOnTheServer_isNotSignedThere()
    {
        House house;
        // Two pieces of work that each ledger opens under the same number.
        Kiosk kiosk(house, m_folder->path());
        QVERIFY(resultOf(kiosk.opening));
        QTRY_VERIFY_WITH_TIMEOUT(!kiosk.standing().knownAt.isNull(), patientMs);
        KeptRequest request{
            0,
            CarRequest{
                CommandId{"strayed"}, house.who, house.car, {car::StartWork{house.work}}, false},
            house.clock.now(),
            {}};
        const auto store = house.database.open();
        request.works = worksOf(request.asked, store->ledger()).value();
        request.works.front().kind = QStringLiteral("valet");
        const auto sent = sendKept(request, store->ledger(), house.bench.catalogue);
        QVERIFY(sent && *sent);
        QVERIFY2((*sent)->contains(QStringLiteral("numbered anew")), qPrintable(**sent));
        QVERIFY(!store->ledger().isKnown(CommandId{"strayed"}).value());
    }

    void staffCopy_isPrivate_andItsSealIsChecked()
    {
        House house;
        const QString mirror = m_folder->filePath(QStringLiteral("mirror.sqlite"));
        const auto look = [](Workshop&, Store& store) {
            return std::pair{store.isCopy(), store.staffIsSealed()};
        };
        {
            Kiosk kiosk(house, m_folder->path());
            QVERIFY(resultOf(kiosk.opening));
            QTRY_VERIFY_WITH_TIMEOUT(!kiosk.standing().knownAt.isNull(), patientMs);
            QVERIFY(resultOf(kiosk.thread().run(look)) == std::pair(false, true));
            // A PIN that is changed later arrives, too.
            QVERIFY(house.database.open()->credentials().setPinHash(house.who, "another hash"));
            QTRY_VERIFY_WITH_TIMEOUT(QFile::exists(mirror), patientMs);
            const auto hash = [&] {
                const auto copied = Mirror::open(mirror, keeperWith(), {})
                                        .value()
                                        ->store()
                                        .credentials()
                                        .pinHash(house.who);
                return copied.value().value_or(QByteArray());
            };
            QTRY_COMPARE_WITH_TIMEOUT(hash(), QByteArray("another hash"), patientMs);
            house.wire.cut();
            QTRY_VERIFY_WITH_TIMEOUT(kiosk.standing().away, patientMs);
            QVERIFY(resultOf(kiosk.thread().run(look)) == std::pair(true, true));
            for (const QString& name : QDir(m_folder->path()).entryList(QDir::Files))
                QVERIFY2((QFile::permissions(m_folder->filePath(name)) &
                          (QFile::ReadGroup | QFile::ReadOther | QFile::WriteGroup |
                           QFile::WriteOther)) == 0,
                         qPrintable(name));
        }
        // Somebody with the disk gives a person another PIN.
        {
            const auto changed = Mirror::open(mirror, {}, {}).value();
            QVERIFY(changed->store().ledger().connection().run(
                "UPDATE credential SET pin_hash = 'forged'"));
        }
        QFile::remove(m_folder->filePath(QStringLiteral("working.sqlite")));
        Kiosk kiosk(house, m_folder->path());
        QVERIFY(resultOf(kiosk.opening));
        QVERIFY(resultOf(kiosk.thread().run(look)) == std::pair(true, false));
    }

    void wrongPinsOfTheMeantime_countOnTheServer()
    {
        House house;
        Kiosk kiosk(house, m_folder->path());
        QVERIFY(resultOf(kiosk.opening));
        QTRY_VERIFY_WITH_TIMEOUT(!kiosk.standing().knownAt.isNull(), patientMs);
        house.wire.cut();
        QTRY_VERIFY_WITH_TIMEOUT(kiosk.standing().away, patientMs);
        for (int i = 0; i < 3; ++i)
            QVERIFY(resultOf(kiosk.thread().run([&](Workshop&, Store& store) {
                return store.failures().add(house.who,
                                            {SignInMark::Kind::WrongPin, house.clock.now()});
            })));
        house.wire.heal();
        QTRY_VERIFY_WITH_TIMEOUT(!kiosk.standing().away, patientMs);
        QCOMPARE(house.database.open()->failures().marks(house.who).value().size(), std::size_t(3));
    }

    void serverAwayAtFirst_isUsedOnceItIsThere()
    {
        House house;
        house.wire.cut();
        Kiosk kiosk(house, m_folder->path());
        QSignalSpy changed(&kiosk.thread(), &StoreThread::changed);
        const auto opened = resultOf(kiosk.opening);
        QVERIFY(!opened);
        QVERIFY2(opened.error().words.contains(QStringLiteral("goes on trying")),
                 qPrintable(opened.error().words));
        changed.clear();
        house.wire.heal();
        QTRY_VERIFY_WITH_TIMEOUT(!changed.isEmpty(), patientMs);
        QCOMPARE(kiosk.wall().size(), 2);
    }

    // Somebody renewed the site's keys: a kiosk with the old ones seals nothing more.
    void renewedKeys_stopAKioskUntilItHasThem()
    {
        House house;
        HeadKeeper renewed = keeperWith("a second key");
        renewed.keyId = QStringLiteral("second");
        renewed.past = {{keeperWith().keyId, keeperWith().digest}};
        {
            Kiosk kiosk(house, m_folder->path());
            QVERIFY(resultOf(kiosk.opening));
            QTRY_VERIFY_WITH_TIMEOUT(!kiosk.standing().knownAt.isNull(), patientMs);
            {
                const auto store = house.database.open();
                QVERIFY(renewKeys(store->ledger().connection(), store->ledger().siteId(), renewed));
                // Not even what is under way at that moment.
                Hand hand(store->ledger());
                QCOMPARE(outcome(store->ledger().append(
                             hand.with(CarId{"late"}, {Hand::arrival("LATE-1")}))),
                         QStringLiteral("wrong keys"));
                QVERIFY(!store->credentials().setPinHash(house.who, "with the old key"));
            }
            QTRY_VERIFY_WITH_TIMEOUT(!kiosk.standing().hindrance.isEmpty(), patientMs);
            QVERIFY2(kiosk.standing().hindrance.contains(QStringLiteral("renewed")),
                     qPrintable(kiosk.standing().hindrance));
            QCOMPARE(kiosk.ask(house.who, house.car, {car::StartWork{house.work}}), done);
            QTRY_COMPARE(kiosk.standing().kept.size(), std::size_t(1));
            QVERIFY(!house.entries(house.car).contains(QStringLiteral("work-started")));
        }
        const auto early = Store::open(house.database.settings(), keeperWith());
        QVERIFY(!early && early.error().kind == StoreErrorKind::WrongKeys);
        // The file was copied, and the kiosk started again.
        Kiosk kiosk(house, m_folder->path(), renewed);
        QVERIFY(resultOf(kiosk.opening));
        QTRY_VERIFY_WITH_TIMEOUT(kiosk.standing().shared && !kiosk.standing().away, patientMs);
        QCOMPARE(kiosk.standing().kept.size(), std::size_t(0));
        QCOMPARE(house.entries(house.car).count(QStringLiteral("work-started")), 1);
        const auto whole = [](const std::set<PhotoId>&) { return VaultReport{}; };
        const auto store = house.database.open(renewed);
        QCOMPARE(told(Verifier(store->ledger(), whole).run()), QString());
        // Who has the old key alone can no longer write what passes.
        QCOMPARE(
            house.database.forge(QStringLiteral("DELETE FROM setting WHERE name = 'site-key'")),
            QString());
        {
            const auto thief = SqlLedger::open(house.database.settings(), keeperWith()).value();
            Hand hand(*thief);
            QCOMPARE(outcome(thief->append(hand.with(CarId{"late"}, {Hand::arrival("LATE-1")}))),
                     QStringLiteral("ok"));
        }
        const QString faults = told(
            Verifier(*SqlLedger::open(house.database.settings(), renewed).value(), whole).run());
        QVERIFY2(faults.contains(QStringLiteral("that was renewed before")), qPrintable(faults));
    }

    // It has the new keys, and what it knows of the workshop is sealed with those before.
    void renewedKeys_ofAKioskThatIsStartedBeforeItsServer_areThoseOnceItIsThere()
    {
        House house;
        const auto named = [](const char* id) {
            HeadKeeper keeper = keeperWith(id);
            keeper.keyId = QString::fromLatin1(id);
            keeper.past = {{keeperWith().keyId, keeperWith().digest}};
            return keeper;
        };
        const auto renew = [&](const char* id, const HeadKeeper& before) {
            const auto store = house.database.open(before);
            return renewKeys(store->ledger().connection(), store->ledger().siteId(), named(id))
                .has_value();
        };
        QVERIFY(renew("second", keeperWith()));
        {
            Kiosk kiosk(house, m_folder->path(), named("second"));
            QVERIFY(resultOf(kiosk.opening));
            QTRY_VERIFY_WITH_TIMEOUT(!kiosk.standing().knownAt.isNull(), patientMs);
        }
        QVERIFY(renew("third", named("second")));
        house.wire.cut();
        Kiosk kiosk(house, m_folder->path(), named("third"));
        QVERIFY(!resultOf(kiosk.opening));
        house.wire.heal();
        QTRY_VERIFY_WITH_TIMEOUT(kiosk.standing().shared && !kiosk.standing().away, patientMs);
        QCOMPARE(kiosk.wall().size(), 2);
    }

    void whatMayNotBeOpened_saysWhy()
    {
        House house;
        StoreSettings settings = house.kiosk(m_folder->path());
        settings.hindrance = QStringLiteral("The key file is missing.");
        StoreThread thread(settings, keeperWith("made up"), house.clock, house.bench.catalogue);
        const auto opened = resultOf(thread.start());
        QVERIFY(!opened);
        QCOMPARE(opened.error().words, settings.hindrance);
        const auto site =
            resultOf(thread.run([](Workshop&, Store& store) { return store.ledger().site(); }));
        QVERIFY(!site);
        QCOMPARE(site.error().words, settings.hindrance);
    }

    void otherKiosksChange_arrives()
    {
        House house;
        Kiosk here(house, m_folder->filePath(QStringLiteral("here")));
        Kiosk there(house, m_folder->filePath(QStringLiteral("there")));
        QVERIFY(resultOf(here.opening));
        QVERIFY(resultOf(there.opening));
        QTRY_VERIFY_WITH_TIMEOUT(!here.standing().knownAt.isNull(), patientMs);
        constexpr int rounds = 40;
        std::vector<qint64> took;
        for (int i = 0; i < rounds; ++i) {
            QSignalSpy changed(&here.thread(), &StoreThread::changed);
            QElapsedTimer timer;
            timer.start();
            QCOMPARE(there.ask(house.bench.manager, house.other,
                               {car::ChangePromise{QDate(2031, 4, 1).addDays(i), "asked for"}}),
                     done);
            QTRY_VERIFY_WITH_TIMEOUT(!changed.isEmpty(), patientMs);
            took.push_back(timer.elapsed());
        }
        std::ranges::sort(took);
        qInfo("a change arrives at another kiosk after %lld ms (median), %lld ms (p95)",
              took.at(rounds / 2), took.at(rounds * 95 / 100));
        QCOMPARE(here.car(house.other).promised, QDate(2031, 4, 1).addDays(rounds - 1));
    }

private:
    std::unique_ptr<QTemporaryDir> m_folder;
};

RAMPLIGHT_TEST(QCoreApplication, TestStandby)
#include "tst_standby.moc"
