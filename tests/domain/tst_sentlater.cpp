// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "keptscene.h"

#include "support/testmain.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

/// What waited for the server is sent to a workshop that went on meanwhile.
class TestSentLater : public QObject
{
    Q_OBJECT

private:
    using Scene = KeptScene;

private slots:
    void ownPause_stopsItsTimer()
    {
        Scene scene;
        const Moment asked = scene.bench.clock.now();
        const KeptRequest kept =
            scene.kept(scene.bench.mechanic, car::PauseWork{scene.work, {}, StopKind::Paused, {}});
        scene.bench.clock.pass(600);
        QCOMPARE(scene.send(kept), QStringLiteral("sent"));
        QCOMPARE(scene.segments().back().end, asked);
        QCOMPARE(scene.segments().back().minutes(), 30);
    }

    void whatIsNoPause_isSentAsItWas()
    {
        Scene scene;
        const KeptRequest kept = scene.kept(scene.bench.technician, car::StartWork{scene.work});
        scene.bench.must(scene.bench.technician, scene.car, car::ReadCautions{scene.work});
        QCOMPARE(scene.send(kept), QStringLiteral("sent"));
        QCOMPARE(scene.segments().back().person, scene.bench.technician);
    }

    void ownPause_leavesALaterTimerAlone_andSaysSo()
    {
        Scene scene;
        const KeptRequest kept =
            scene.kept(scene.bench.mechanic, car::PauseWork{scene.work, {}, StopKind::Paused, {}});
        // At another kiosk.
        scene.bench.must(scene.bench.mechanic, scene.car,
                         car::PauseWork{scene.work, {}, StopKind::Paused});
        scene.bench.clock.pass(14 * 60);
        scene.bench.must(scene.bench.mechanic, scene.car, car::StartWork{scene.work});
        scene.bench.clock.pass(30);
        QVERIFY(scene.send(kept).contains(QStringLiteral("started later")));
        QCOMPARE(scene.segments().size(), std::size_t{2});
        QVERIFY(scene.segments().back().running());
    }

    void ownPause_ofWhatWasStoppedElsewhere_isRefused()
    {
        Scene scene;
        const KeptRequest kept =
            scene.kept(scene.bench.mechanic, car::PauseWork{scene.work, {}, StopKind::Paused, {}});
        scene.bench.must(scene.bench.mechanic, scene.car,
                         car::PauseWork{scene.work, {}, StopKind::Paused});
        QCOMPARE(scene.send(kept), words(Refusal{RefusalId::NotRunning, {}}));
    }

    void endOfShift_isAskedByEveryKiosk_andStopsOnce()
    {
        Scene scene;
        const Moment end = scene.bench.clock.now();
        scene.bench.clock.pass(5);
        const car::PauseWork pause{scene.work, scene.bench.mechanic, StopKind::ShiftEnd, end};
        const KeptRequest first = scene.kept({}, pause);
        const KeptRequest second = scene.kept({}, pause);
        scene.bench.clock.pass(600);
        QCOMPARE(scene.send(first), QStringLiteral("sent"));
        QCOMPARE(scene.send(second), QStringLiteral("sent"));
        QCOMPARE(scene.segments().size(), std::size_t{1});
        QCOMPARE(scene.segments().back().end, end);
    }

    void endOfShift_leavesTheNextMorningAlone()
    {
        Scene scene;
        const Moment end = scene.bench.clock.now();
        const car::PauseWork pause{scene.work, scene.bench.mechanic, StopKind::ShiftEnd, end};
        const KeptRequest kept = scene.kept({}, pause);
        QCOMPARE(scene.bench.workshop.stopAllWork(scene.bench.command()).value(), 1);
        scene.bench.clock.pass(14 * 60);
        scene.bench.must(scene.bench.mechanic, scene.car, car::StartWork{scene.work});
        scene.bench.clock.pass(30);
        QCOMPARE(scene.send(kept), QStringLiteral("sent"));
        QVERIFY(scene.segments().back().running());
        // Nor is it stopped by whoever asks for the end of that shift now.
        const CarRequest again{scene.bench.command(), {}, scene.car, {pause}, false};
        QVERIFY(!scene.bench.workshop.run(again));
        QVERIFY(scene.segments().back().running());
    }

    void finding_madeDuringWork_isSentOnce_withTheWorkThatItOpens()
    {
        Scene scene;
        const KeptRequest kept = scene.kept(scene.bench.mechanic, loose(scene.work));
        QCOMPARE(kept.works.size(), std::size_t{2});
        QVERIFY2(kept.works.front().title.contains("loose"), qPrintable(kept.works.front().title));
        QCOMPARE(kept.works.back().operation, scene.work);
        QCOMPARE(deedWords(kept.asked), QStringLiteral("A finding"));
        scene.bench.clock.pass(600);
        QCOMPARE(scene.send(kept), QStringLiteral("sent"));
        QCOMPARE(scene.send(kept), QStringLiteral("sent"));
        QCOMPARE(scene.bench.car(scene.car).findings.size(), std::size_t{1});
        QCOMPARE(scene.last().versions.front().at, kept.at);
        QCOMPARE(scene.last().during, std::optional(scene.work));
        QVERIFY(!scene.bench.open(scene.car, "steering-part").isNull());
    }

    // What is wrong with the car is so, whatever became of the work in which it was found.
    void finding_ofWorkThatIsNumberedOtherwise_standsWithoutIt()
    {
        Scene here;
        const KeptRequest opened = here.keptAndDone(
            here.bench.manager, car::OpenOperation{"touch-in", {"bonnet"}, "stone chips"});
        const KeptRequest kept =
            here.kept(here.bench.mechanic, loose(here.bench.open(here.car, "touch-in")));
        Scene there;
        there.bench.found(there.car, "tyre-front-left", Condition::Cut);
        QCOMPARE(there.send(kept), QStringLiteral("sent"));
        QVERIFY(!there.last().during);
        QCOMPARE(there.last().data().place, PlaceId{"steering"});
    }

    void finding_onACarThatWasReleasedMeanwhile_holdsItAgain()
    {
        Scene scene;
        const KeptRequest kept = scene.kept(scene.bench.technician, loose(scene.work));
        scene.bench.closeAll(scene.car);
        scene.bench.release(scene.car);
        QCOMPARE(scene.send(kept), QStringLiteral("sent"));
        QVERIFY(!scene.bench.car(scene.car).released);
        QVERIFY(!scene.bench.holds(scene.car).empty());
    }

    void finding_onACarThatLeft_isRefused()
    {
        Scene scene;
        const KeptRequest kept = scene.kept(scene.bench.technician, loose());
        scene.bench.must(scene.bench.mechanic, scene.car,
                         car::PauseWork{scene.work, {}, StopKind::Paused});
        scene.bench.must(scene.bench.manager, scene.car,
                         car::LeaveUnreleased{LeavingHow::Trade, "sold as it is"});
        QVERIFY2(scene.send(kept).contains("left"), qPrintable(scene.send(kept)));
        QVERIFY(scene.bench.car(scene.car).findings.empty());
    }

    // Findings are counted in the car's ledger, and others found something meanwhile.
    void photoOfAKeptFinding_goesToItsNumberThere()
    {
        Scene here;
        const KeptRequest found = here.keptAndDone(here.bench.mechanic, loose());
        const PhotoId picture{QString(64, QLatin1Char('a'))};
        const KeptRequest photo = here.kept(
            here.bench.mechanic,
            car::AttachPhoto{picture, PhotoMoment::Before, {"steering"}, {}, here.last().id});
        QVERIFY2(photo.works.front().title.contains("loose"),
                 qPrintable(photo.works.front().title));
        Scene there;
        there.bench.found(there.car, "tyre-front-left", Condition::Cut);
        QCOMPARE(there.send(photo), there.send(photo)); // nothing of it is there yet
        QVERIFY(there.bench.car(there.car).photos.empty());
        QCOMPARE(there.send(found), QStringLiteral("sent"));
        QCOMPARE(there.send(photo), QStringLiteral("sent"));
        const CarState car = there.bench.car(there.car);
        QCOMPARE(car.findings.size(), std::size_t{2});
        QCOMPARE(car.photos.size(), std::size_t{1});
        QCOMPARE(car.finding(car.photos.front().finding)->data().place, PlaceId{"steering"});
    }

    void photoOfAnEarlierFinding_staysWithIt()
    {
        Scene scene;
        const FindingId first = scene.bench.found(scene.car, "tyre-front-left", Condition::Cut);
        const PhotoId picture{QString(64, QLatin1Char('b'))};
        const KeptRequest photo = scene.kept(
            scene.bench.mechanic,
            car::AttachPhoto{picture, PhotoMoment::Before, {"tyre-front-left"}, {}, first});
        // The same was entered once more.
        scene.bench.found(scene.car, "tyre-front-left", Condition::Cut);
        QCOMPARE(scene.send(photo), QStringLiteral("sent"));
        QCOMPARE(scene.bench.car(scene.car).photos.front().finding, first);
    }

    void workThatAKeptFindingOpened_isDoneThere_whereItHasItsNumber()
    {
        for (const bool others : {false, true}) {
            Scene here;
            const KeptRequest found = here.keptAndDone(here.bench.mechanic, loose());
            const OperationId opened = here.bench.open(here.car, "steering-part");
            const KeptRequest read = here.kept(here.bench.technician, car::ReadCautions{opened});
            Scene there;
            if (others)
                there.bench.found(there.car, "tyre-front-left", Condition::Cut);
            QCOMPARE(there.send(found), QStringLiteral("sent"));
            const QString sent = there.send(read);
            QVERIFY2(others ? sent.contains("numbered anew") : sent == "sent", qPrintable(sent));
        }
    }

    void checkThatFailed_sendsTheWorkBack()
    {
        Scene scene;
        Workbench& bench = scene.bench;
        const auto [fit, check] = scene.tyreFitted();
        bench.start(scene.car, check, bench.checker);
        const KeptRequest kept = scene.kept(bench.checker, car::FailCheck{check, "runs out", fit});
        QCOMPARE(kept.works.front().operation, check);
        QCOMPARE(deedWords(kept.asked), QStringLiteral("Check failed: \"runs out\""));
        bench.clock.pass(60);
        QCOMPARE(scene.send(kept), QStringLiteral("sent"));
        QCOMPARE(scene.send(kept), QStringLiteral("sent"));
        QVERIFY(bench.operation(scene.car, fit).isOpen());
        QCOMPARE(bench.operation(scene.car, fit).sentBackWhy, QStringLiteral("runs out"));
    }

    // Both stories are read then: one says it is good, one says it is not.
    void checkThatFailed_andWasSignedElsewhere_isRefused()
    {
        Scene scene;
        Workbench& bench = scene.bench;
        const OperationId check = scene.tyreFitted().check;
        const KeptRequest kept = scene.kept(bench.checker, car::FailCheck{check, "runs out", {}});
        bench.close(scene.car, check, bench.technician);
        QCOMPARE(scene.send(kept), words(Refusal{RefusalId::NotACheck, {}}));
        QCOMPARE(bench.state(scene.car, check), OperationState::Closed);
    }

    void checkThatFailed_ofWorkThatIsNumberedOtherwise_sendsNothingBack()
    {
        Scene scene;
        Workbench& bench = scene.bench;
        const auto [fit, check] = scene.tyreFitted();
        KeptRequest kept = scene.kept(bench.checker, car::FailCheck{check, "runs out", fit});
        kept.works.back().kind = QStringLiteral("valet");
        QVERIFY(scene.send(kept).contains("numbered anew"));
        QCOMPARE(bench.state(scene.car, fit), OperationState::Closed);
    }

    void handingOverAndWaitingForAPart_leaveALaterTimerAlone_data()
    {
        QTest::addColumn<bool>("part");
        QTest::newRow("handed over") << false;
        QTest::newRow("waits for a part") << true;
    }

    void handingOverAndWaitingForAPart_leaveALaterTimerAlone()
    {
        QFETCH(bool, part);
        for (const bool wentOn : {false, true}) {
            Scene scene;
            Workbench& bench = scene.bench;
            const KeptRequest kept = scene.kept(
                bench.mechanic,
                part ? CarCommand(car::BlockForPart{
                           scene.work, {"track rod end", "Orrin", bench.today().addDays(2)}})
                     : CarCommand(car::HandOver{scene.work, bench.technician}));
            if (wentOn) {
                bench.must(bench.mechanic, scene.car,
                           car::PauseWork{scene.work, {}, StopKind::Paused});
                bench.clock.pass(14 * 60);
                bench.must(bench.mechanic, scene.car, car::StartWork{scene.work});
            }
            bench.clock.pass(30);
            const QString sent = scene.send(kept);
            QVERIFY2(wentOn ? sent.contains("started later") : sent == "sent", qPrintable(sent));
            QCOMPARE(scene.segments().back().running(), wentOn);
            if (!wentOn && part)
                QCOMPARE(bench.state(scene.car, scene.work), OperationState::Blocked);
            if (!wentOn && !part)
                QCOMPARE(bench.operation(scene.car, scene.work).assigned, bench.technician);
        }
    }

    // What others did since, nobody saw who signed before: the signature waits for another look.
    void countersignature_onWorkThatWasDoneAnew_isRefused()
    {
        Scene scene;
        Workbench& bench = scene.bench;
        bench.found(scene.car, "steering", Condition::Loose);
        const OperationId op = bench.open(scene.car, "steering-part");
        const auto signOff = [&] {
            bench.start(scene.car, op, bench.technician);
            bench.prove(scene.car, op, bench.technician);
            bench.must(bench.technician, scene.car, car::SignOff{op, {}});
        };
        signOff();
        const KeptRequest kept = scene.kept(bench.checker, car::Countersign{op});
        bench.must(bench.manager, scene.car, car::Reopen{op, "the other arm"});
        bench.clock.pass(20);
        signOff();
        const QString sent = scene.send(kept);
        QVERIFY2(sent.contains("Others were at this work since"), qPrintable(sent));
        QVERIFY(bench.operation(scene.car, op).awaitsSecond());
        // With another look it goes.
        QCOMPARE(scene.send(scene.kept(bench.checker, car::Countersign{op})),
                 QStringLiteral("sent"));
    }

    void check_signedBeforeItsWorkWasMeasuredAgain_isRefused()
    {
        Scene scene;
        Workbench& bench = scene.bench;
        const auto [fit, check] = scene.tyreFitted();
        bench.start(scene.car, check, bench.checker);
        bench.prove(scene.car, check, bench.checker);
        const KeptRequest kept = scene.kept(bench.checker, car::SignOff{check, {}});
        const Reading& first = bench.operation(scene.car, fit).readings.front();
        bench.must(bench.manager, scene.car,
                   car::CorrectReading{fit, first.id, first.value, "read again", bench.photo()});
        const QString sent = scene.send(kept);
        QVERIFY2(sent.contains("Others were at this work since"), qPrintable(sent));
        QVERIFY(bench.operation(scene.car, check).isOpen());
    }

    void signature_underTheHandsOfSomebodyWhoStartedSince_isRefused()
    {
        Scene scene;
        Workbench& bench = scene.bench;
        bench.prove(scene.car, scene.work, bench.mechanic);
        const KeptRequest kept = scene.kept(bench.mechanic, car::SignOff{scene.work, {}});
        bench.clock.pass(10);
        bench.must(bench.technician, scene.car, car::ReadCautions{scene.work});
        bench.must(bench.technician, scene.car, car::StartWork{scene.work});
        bench.clock.pass(50);
        const QString sent = scene.send(kept);
        QVERIFY2(sent.contains("Others were at this work since"), qPrintable(sent));
        QVERIFY(scene.segments().back().running());
    }

    void signature_onWorkThatNobodyTouched_isSent_whateverElseWasDoneOnTheCar()
    {
        Scene scene;
        Workbench& bench = scene.bench;
        bench.prove(scene.car, scene.work, bench.mechanic);
        const KeptRequest kept = scene.kept(bench.mechanic, car::SignOff{scene.work, {}});
        bench.clock.pass(10);
        bench.found(scene.car, "bonnet", Condition::Scratch);
        QCOMPARE(scene.send(kept), QStringLiteral("sent"));
        QVERIFY(!bench.operation(scene.car, scene.work).isOpen());
    }

    void reading_neverStandsForOnesOwnLaterOne()
    {
        Scene scene;
        Workbench& bench = scene.bench;
        const Operation operation = bench.operation(scene.car, scene.work);
        const ReadingSpec spec = operation.spec->readings.front();
        const PlaceId place = spec.places.empty() ? PlaceId{} : spec.places.front();
        const car::TakeReading read{scene.work, spec.key, place,
                                    Workbench::goodValue(operation, spec, place)};
        const KeptRequest kept = scene.kept(bench.mechanic, read);
        bench.clock.pass(30);
        bench.must(bench.mechanic, scene.car, read);
        QVERIFY(scene.send(kept).contains("measured again later"));
        QCOMPARE(bench.operation(scene.car, scene.work).readings.size(), std::size_t{1});
    }

    // Whenever they did it: whoever signs here could not see it.
    void signature_onWhatOthersDidBefore_andUnseen_isRefused()
    {
        Scene scene;
        Workbench& bench = scene.bench;
        bench.prove(scene.car, scene.work, bench.mechanic);
        KeptRequest kept = scene.kept(bench.mechanic, car::SignOff{scene.work, {}});
        bench.must(bench.technician, scene.car, car::ReadCautions{scene.work});
        bench.must(bench.technician, scene.car, car::StartWork{scene.work});
        bench.clock.pass(10);
        kept.at = bench.clock.now();
        QVERIFY(scene.send(kept).contains("Others were at this work since"));
        // A row of before it was noted up to where the car was known goes by the clock.
        kept.works.front().knownTo = 0;
        QCOMPARE(scene.send(kept), QStringLiteral("sent"));
    }

    void placesFoundSound_whereSomethingWasFoundMeanwhile_areRefused()
    {
        Scene scene;
        scene.car = scene.bench.bringIn();
        const car::FindSound sound{{{"bonnet"}, {"steering"}}};
        const KeptRequest first = scene.kept(scene.bench.appraiser, sound);
        const KeptRequest second = scene.kept(scene.bench.appraiser, sound);
        QCOMPARE(first.works.front().title, QStringLiteral("2 places"));
        QCOMPARE(scene.send(first), QStringLiteral("sent"));
        QVERIFY(scene.bench.car(scene.car).seen.contains(PlaceId{"steering"}));
        scene.bench.found(scene.car, "steering", Condition::Loose);
        QVERIFY(scene.send(second).contains("has a finding"));
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestSentLater)
#include "tst_sentlater.moc"
