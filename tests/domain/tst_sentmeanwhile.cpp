// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "keptscene.h"

#include "domain/holds.h"
#include "domain/kepttimers.h"
#include "support/testmain.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

/// What was kept, beside what others did on the car and on other cars meanwhile.
class TestSentMeanwhile : public QObject
{
    Q_OBJECT

private:
    /// All but the final check is closed.
    static OperationId untilTheFinalCheck(KeptScene& scene)
    {
        Workbench& bench = scene.bench;
        bench.found(scene.car, "bonnet", Condition::Chip);
        const OperationId last = bench.open(scene.car, "final-check");
        for (OperationId next = scene.work; !next.isNull();) {
            bench.close(scene.car, next);
            bench.clock.pass(120);
            const CarState car = bench.car(scene.car);
            next = {};
            for (const Operation* operation : car.openOperations())
                if (operation->id != last &&
                    whyNotYet(car, *operation, {}, bench.clock.now()).isEmpty())
                    next = operation->id;
        }
        return last;
    }

    /// An hour of work that was begun at a kiosk without its server.
    struct KeptHour
    {
        explicit KeptHour(KeptScene& scene)
        {
            Workbench& bench = scene.bench;
            bench.must(bench.mechanic, scene.car, car::PauseWork{scene.work, {}, StopKind::Paused});
            bench.clock.pass(5);
            began = bench.clock.now();
            start = scene.kept(bench.mechanic, car::StartWork{scene.work});
        }
        /// Sends its beginning and its end.
        void send(KeptScene& scene, KeptRequest stop) const
        {
            stop.works.front().timers = {{scene.bench.mechanic, began, qint64(60) * 60 * 1000}};
            QCOMPARE(scene.send(start), QStringLiteral("sent"));
            QCOMPARE(scene.send(stop, {idOf(start.asked)}), QStringLiteral("sent"));
        }

        Moment began;
        KeptRequest start;
    };

private slots:
    void finalCheck_ofACarWhoseWorkWasDoneAnewUnseen_isLookedAtAgain_data()
    {
        QTest::addColumn<bool>("opened");
        QTest::newRow("opened again and done") << false;
        QTest::newRow("found, opened and done") << true;
    }

    void finalCheck_ofACarWhoseWorkWasDoneAnewUnseen_isLookedAtAgain()
    {
        QFETCH(bool, opened);
        KeptScene scene;
        Workbench& bench = scene.bench;
        const OperationId last = untilTheFinalCheck(scene);
        const PersonId who = bench.checker;
        const CarState before = bench.car(scene.car);
        QCOMPARE(before.openOperations().size(), std::size_t{1});
        const ReadingSpec& spec = before.operation(last)->spec->readings.front();
        const car::TakeReading read{
            last, spec.key, {}, Workbench::goodValue(*before.operation(last), spec, {}), {}};
        const KeptRequest start = scene.kept(who, car::StartWork{last});
        const KeptRequest reading = scene.kept(who, read);
        const KeptRequest signature = scene.kept(who, car::SignOff{last, {}});

        bench.clock.pass(10);
        if (opened)
            bench.found(scene.car, "roof", Condition::Chip);
        else
            bench.must(bench.manager, scene.car,
                       car::Reopen{bench.newest(scene.car, "touch-in"), "it has a run"});
        const OperationId again = bench.open(scene.car, "touch-in");
        QVERIFY(!again.isNull());
        bench.close(scene.car, again);
        bench.clock.pass(120);
        const CarState since = bench.car(scene.car);
        for (const Operation* operation : since.openOperations())
            QVERIFY(operation->id == last || operation->spec->id == "valet");
        if (const OperationId valet = bench.open(scene.car, "valet"); !valet.isNull())
            bench.close(scene.car, valet);

        QCOMPARE(scene.send(start), QStringLiteral("sent"));
        QVERIFY2(scene.send(reading).contains("measured again"), qPrintable(scene.send(reading)));
        QVERIFY2(scene.send(signature).contains("Others were at this work since"),
                 qPrintable(scene.send(signature)));
        // Whoever looks now, sees what was done.
        QCOMPARE(scene.send(scene.kept(who, read)), QStringLiteral("sent"));
        QCOMPARE(scene.send(scene.kept(who, car::SignOff{last, {}})), QStringLiteral("sent"));
        QCOMPARE(bench.state(scene.car, last), OperationState::Closed);
    }

    void photoOfWorkThatWasOpenedAgain_isNoEvidenceOfIt()
    {
        KeptScene scene;
        Workbench& bench = scene.bench;
        bench.close(scene.car, scene.work);
        const auto photoOf = [&](PhotoMoment moment) {
            return scene.kept(bench.mechanic,
                              car::AttachPhoto{bench.photo(), moment, {}, scene.work, {}});
        };
        const KeptRequest before = photoOf(PhotoMoment::Before);
        const KeptRequest after = photoOf(PhotoMoment::After);
        bench.clock.pass(10);
        bench.must(bench.manager, scene.car, car::Reopen{scene.work, "look again"});
        bench.clock.pass(10);
        QCOMPARE(scene.send(before), QStringLiteral("sent"));
        QVERIFY2(scene.send(after).contains("before the work was opened again"),
                 qPrintable(scene.send(after)));
        QCOMPARE(scene.send(photoOf(PhotoMoment::After)), QStringLiteral("sent"));
    }

    void minutes_areThoseOfTheTimer_whateverOthersWroteOfTheCarMeanwhile_data()
    {
        QTest::addColumn<bool>("after");
        QTest::newRow("while it ran") << false;
        QTest::newRow("after it") << true;
    }

    void minutes_areThoseOfTheTimer_whateverOthersWroteOfTheCarMeanwhile()
    {
        QFETCH(bool, after);
        KeptScene scene;
        Workbench& bench = scene.bench;
        const KeptHour hour(scene);
        bench.clock.pass(30);
        if (!after)
            bench.found(scene.car, "bonnet", Condition::Chip);
        bench.clock.pass(30);
        const KeptRequest pause =
            scene.kept(bench.mechanic, car::PauseWork{scene.work, {}, StopKind::Paused});
        bench.clock.pass(30);
        if (after)
            bench.found(scene.car, "bonnet", Condition::Chip);
        bench.clock.pass(120);
        hour.send(scene, pause);
        QCOMPARE(scene.segments().back().minutes(), 60);
        QCOMPARE(bench.broken(scene.car), QStringList());
    }

    void minutes_endWithTheShift_whateverOthersWroteOfTheCarAfterIt()
    {
        KeptScene scene;
        Workbench& bench = scene.bench;
        const KeptHour hour(scene);
        bench.clock.pass(40);
        const Moment end = bench.clock.now();
        bench.clock.pass(20);
        const KeptRequest stop =
            scene.kept({}, car::PauseWork{scene.work, bench.mechanic, StopKind::ShiftEnd, end});
        bench.clock.pass(60);
        bench.found(scene.car, "bonnet", Condition::Chip);
        hour.send(scene, stop);
        QCOMPARE(scene.segments().back().minutes(), 40);
        QCOMPARE(bench.broken(scene.car), QStringList());
    }

    void workOfSomebodyWhoIsAtOtherWorkByNow_waitsForItsEnd()
    {
        KeptScene scene;
        Workbench& bench = scene.bench;
        const PersonId who = bench.technician;
        const CarId other = bench.appraised();
        const OperationId elsewhere = bench.open(other, "inspection");
        bench.must(who, scene.car, car::ReadCautions{scene.work});
        const KeptRequest start = scene.kept(who, car::StartWork{scene.work});
        const auto waits = [&](const KeptRequest& kept) {
            return whyItWaits(kept, bench.ledger).value();
        };
        QCOMPARE(waits(start), QString());
        bench.clock.pass(30);
        bench.start(other, elsewhere, who);
        const QString why = waits(start);
        QVERIFY2(why.contains(bench.car(other).identity.stockNumber), qPrintable(why));
        QVERIFY2(why.contains(bench.car(scene.car).identity.stockNumber), qPrintable(why));
        // What does not begin a timer is no matter of it.
        QCOMPARE(waits(scene.kept(who, loose())), QString());
        bench.clock.pass(30);
        bench.must(who, other, car::PauseWork{elsewhere, {}, StopKind::Paused});
        QCOMPARE(waits(start), QString());
        QCOMPARE(scene.send(start), QStringLiteral("sent"));
        QCOMPARE(scene.segments().back().person, who);
        // Sent already, whatever runs now.
        QCOMPARE(waits(start), QString());
    }

    void workOfSomebodyWhoWasAtOtherWorkThen_isRefused()
    {
        KeptScene scene;
        Workbench& bench = scene.bench;
        const PersonId who = bench.technician;
        const CarId other = bench.appraised();
        bench.must(who, scene.car, car::ReadCautions{scene.work});
        bench.start(other, bench.open(other, "inspection"), who);
        bench.clock.pass(5);
        const KeptRequest start = scene.kept(who, car::StartWork{scene.work});
        QCOMPARE(whyItWaits(start, bench.ledger).value(), QString());
        QVERIFY2(scene.send(start) != "sent", qPrintable(scene.send(start)));
    }
};

RAMPLIGHT_TEST(NoApplication, TestSentMeanwhile)
#include "tst_sentmeanwhile.moc"
