// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "joinbench.h"
#include "support/testmain.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

// A car that was entered twice is one again: what was seen and measured under the second entry
// comes over with who said it; work and its signatures do not.
class TestJoining : public QObject
{
    Q_OBJECT

private slots:
    void measured_underTheSecondEntry_comesOver()
    {
        Twice bench;
        const PlaceId tyre = at("tyre-front-left");
        bench.say(bench.appraiser, bench.second,
                  car::RecordTyre{tyre, Tread{60, 61, 62}, "1930", "205/55 R16"});
        bench.say(bench.appraiser, bench.second,
                  car::RecordPaintDepth{at("bonnet"), {104, 110, 98}});
        bench.say(bench.mechanic, bench.second, car::ReadOdometer{48'003, DistanceUnit::Miles});
        bench.say(bench.appraiser, bench.second, car::FindSound{{at("steering"), at("roof")}});
        const CarState second = bench.car(bench.second);
        QVERIFY(bench.join());
        const CarState car = bench.now();
        QCOMPARE(car.treads, second.treads);
        QCOMPARE(car.tyres, second.tyres);
        QCOMPARE(car.paint, second.paint);
        QCOMPARE(car.lastOdometer(), second.lastOdometer());
        QCOMPARE(car.lastOdometer()->by, bench.mechanic);
        QCOMPARE(car.tyresMeasured, second.tyresMeasured);
        QCOMPARE(car.paintMeasured, second.paintMeasured);
        for (const char* place : {"steering", "roof", "tyre-front-left"}) {
            QCOMPARE(car.seen.value(at(place)), second.seen.value(at(place)));
            QCOMPARE(car.seen.value(at(place)).by, bench.appraiser);
        }
    }

    void measured_underBoth_theNewerCounts_data()
    {
        QTest::addColumn<bool>("secondIsNewer");
        QTest::newRow("there") << true;
        QTest::newRow("here") << false;
    }

    void measured_underBoth_theNewerCounts()
    {
        QFETCH(bool, secondIsNewer);
        Twice bench;
        const PlaceId tyre = at("tyre-front-left");
        const CarId& older = secondIsNewer ? bench.keep : bench.second;
        const CarId& newer = secondIsNewer ? bench.second : bench.keep;
        bench.say(bench.appraiser, older, car::RecordTyre{tyre, Tread{50, 50, 50}, "1930", {}});
        bench.say(bench.appraiser, older, car::RecordPaintDepth{at("bonnet"), {104, 110, 98}});
        bench.say(bench.appraiser, older, car::ReadOdometer{48'010, DistanceUnit::Miles});
        bench.say(bench.appraiser, newer,
                  car::RecordTyre{tyre, Tread{60, 60, 60}, {}, "205/55 R16"});
        bench.say(bench.appraiser, newer, car::RecordPaintDepth{at("bonnet"), {204, 210, 198}});
        bench.say(bench.appraiser, newer, car::ReadOdometer{48'020, DistanceUnit::Miles});
        QVERIFY(bench.join());
        const CarState car = bench.now();
        QCOMPARE(car.treads.at(tyre), (Tread{60, 60, 60}));
        QCOMPARE(car.paint.at(at("bonnet")), (std::vector{204, 210, 198}));
        QCOMPARE(car.lastOdometer()->value, 48'020);
        // What only one of them read is known from that one.
        QCOMPARE(car.tyres.at(tyre).dateCode, QStringLiteral("1930"));
        QCOMPARE(car.tyres.at(tyre).fitment.size, QStringLiteral("205/55 R16"));
        QVERIFY(std::ranges::is_sorted(car.odometer, {}, &OdometerReading::at));
    }

    void odometer_readThereBeforeThisEntry_isNotTheNewest()
    {
        Twice bench;
        const CarId late = bench.bringIn();
        bench.clock.pass(10);
        QVERIFY(bench.workshop.mergeDuplicate(bench.command(), bench.manager, late, bench.second,
                                              "typed in twice"));
        // Both showed the same on arrival: nothing new.
        QVERIFY(bench.car(late).odometer.empty());
        CarFacts more = carWith({Fact::CombustionEngine});
        more.odometer = 48'100;
        bench.clock.pass(10);
        const CarId later = bench.bringIn(more);
        QVERIFY(bench.workshop.mergeDuplicate(bench.command(), bench.manager, later, bench.keep,
                                              "typed in twice"));
        QCOMPARE(bench.car(later).odometer.size(), 1u);
        QCOMPARE(bench.car(later).odometer.front().value, 48'000);
        QCOMPARE(bench.car(later).lastOdometer()->value, 48'100);
    }

    void odometer_thatShowsLessThere_saysWhy()
    {
        Twice bench;
        bench.say(bench.appraiser, bench.keep, car::ReadOdometer{48'500, DistanceUnit::Miles});
        bench.say(bench.appraiser, bench.second, car::ReadOdometer{48'050, DistanceUnit::Miles});
        QVERIFY(bench.join());
        const OdometerReading last = *bench.now().lastOdometer();
        QCOMPARE(last.value, 48'050);
        QVERIFY2(last.lowerWhy.contains("K2"), qPrintable(last.lowerWhy));
    }

    void tread_tooLow_opensItsWorkHereToo()
    {
        Twice bench;
        const PlaceId tyre = at("tyre-front-left");
        // By a reading of work: there is no finding to come over, but the tyre is what it is.
        bench.say(bench.appraiser, bench.second, car::FinishAppraisal{});
        const OperationId survey = bench.open(bench.second, "tyre-survey");
        bench.start(bench.second, survey, bench.wheels);
        for (const char* key : {"tread-inner", "tread-centre", "tread-outer"})
            bench.say(bench.wheels, bench.second,
                      car::TakeReading{survey, QString::fromLatin1(key), tyre, number(20)});
        QVERIFY(bench.car(bench.second).findings.empty());
        bench.must(bench.wheels, bench.second, car::PauseWork{survey, {}, StopKind::Paused});
        QVERIFY(bench.join());
        QCOMPARE(bench.now().treads.at(tyre), (Tread{20, 20, 20}));
        QVERIFY(!bench.open(bench.keep, "tyre-fit", "tyre-front-left").isNull());
        // A reading of work over there says nothing about a place here.
        bench.must(bench.appraiser, bench.keep, car::FinishAppraisal{});
        QVERIFY(
            bench.operation(bench.keep, bench.open(bench.keep, "tyre-survey")).readings.empty());
    }

    void tyre_fittedUnderTheSecondEntry_isNotTheOneMeasuredHere()
    {
        Twice bench;
        const PlaceId tyre = at("tyre-front-left");
        bench.say(bench.appraiser, bench.keep,
                  car::RecordTyre{tyre, Tread{50, 50, 50}, "1930", "205/55 R16"});
        bench.say(bench.appraiser, bench.second, car::RecordTread{tyre, {20, 20, 20}});
        bench.close(bench.second, bench.open(bench.second, "tyre-fit"));
        bench.close(bench.second, bench.open(bench.second, "wheel-fixing-check"));
        QVERIFY(bench.join());
        QVERIFY(!bench.now().treads.contains(tyre));
        QVERIFY(!bench.now().tyres.contains(tyre));
    }

    // ---- places

    void place_clearedByWork_isToBeLookedAtHere()
    {
        Twice bench;
        bench.say(bench.appraiser, bench.second, car::FindSound{{at("steering")}});
        bench.say(bench.appraiser, bench.second, car::FinishAppraisal{});
        bench.close(bench.second, bench.open(bench.second, "inspection"));
        QVERIFY(bench.car(bench.second).seen.contains(at("brakes-front")));
        QVERIFY(bench.join());
        QVERIFY(bench.now().seen.contains(at("steering")));
        QVERIFY(!bench.now().seen.contains(at("brakes-front")));
        // What is signed there signs nothing here.
        const Operation here = bench.operation(bench.keep, bench.open(bench.keep, "inspection"));
        QCOMPARE(here.state, OperationState::Waiting);
        QVERIFY(here.signatures.empty() && here.readings.empty());
    }

    void place_withAFinding_isNotCalledSound()
    {
        Twice bench;
        bench.found(bench.keep, "roof", Condition::Dent);
        bench.say(bench.appraiser, bench.second, car::FindSound{{at("roof"), at("bonnet")}});
        bench.found(bench.second, "bonnet", Condition::Chip);
        QVERIFY(bench.join());
        QVERIFY(!bench.now().seen.value(at("roof")).sound);
        QVERIFY(!bench.now().seen.value(at("bonnet")).sound);
    }

    // ---- work that only the second entry owes

    void safetyWork_owedThereAlone_isDoneThereFirst()
    {
        Twice bench;
        bench.found(bench.second, "tyre-front-left", Condition::Cut);
        bench.close(bench.second, bench.open(bench.second, "tyre-fit"));
        const OperationId fixings = bench.open(bench.second, "wheel-fixing-check");
        QVERIFY(!fixings.isNull());
        QVERIFY(!bench.join());
        QCOMPARE(bench.lastRefusal().id, RefusalId::SecondEntryOpen);
        QVERIFY2(bench.lastWords().contains("fixing"), qPrintable(bench.lastWords()));
        QVERIFY(!bench.car(bench.second).left && bench.now().findings.empty());
        bench.close(bench.second, fixings);
        QVERIFY2(bench.join(), qPrintable(bench.lastWords()));
    }

    void findingThatSaysMore_comesOver_andOneThatSaysNoMoreDoesNot()
    {
        Twice bench;
        FindingData light = finding("bonnet", Condition::Scratch);
        light.severity = Severity::Light;
        FindingData heavy = light;
        heavy.severity = Severity::Heavy;
        heavy.sizeMm = 200;
        bench.must(bench.appraiser, bench.keep, car::RecordFinding{light, {}});
        bench.must(bench.appraiser, bench.second, car::RecordFinding{heavy, {}});
        bench.must(bench.appraiser, bench.second, car::RecordFinding{light, {}});
        QVERIFY2(bench.join(), qPrintable(bench.lastWords()));
        QCOMPARE(bench.now().findings.size(), std::size_t{2});
        QCOMPARE(bench.now().findings.rbegin()->second.data().severity, Severity::Heavy);
    }

    void whatWasSaidThere_isDecidedFirst()
    {
        Twice bench;
        SpokenRound round;
        round.transcript = {"walk"};
        round.drafts.resize(2);
        for (SpokenDraft& draft : round.drafts)
            draft.data = finding("bonnet", Condition::Scratch);
        bench.must(bench.appraiser, bench.second, car::TakeSpeech{round});
        QVERIFY(!bench.join());
        QCOMPARE(bench.lastRefusal().id, RefusalId::SecondEntryOpen);
        QVERIFY2(bench.lastWords().contains("spoken walk-round"), qPrintable(bench.lastWords()));
        for (int draft = 0; draft < static_cast<int>(round.drafts.size()); ++draft)
            bench.must(bench.appraiser, bench.second, car::DropDraft{{round.transcript, draft}});
        QVERIFY2(bench.join(), qPrintable(bench.lastWords()));
    }

    void safetyWork_thatAFindingAsksFor_isAskedForHere()
    {
        Twice bench;
        bench.found(bench.second, "brakes-front", Condition::Worn);
        QVERIFY2(bench.join(), qPrintable(bench.lastWords()));
        QVERIFY(!bench.open(bench.keep, "brake-pads").isNull());
    }

    void safetyWork_openHereToo_isNotLost()
    {
        Twice bench;
        const car::OpenOperation look{"steering-part", at("steering"), "noise"};
        bench.must(bench.manager, bench.second, look);
        QVERIFY(!bench.join());
        bench.must(bench.manager, bench.keep, look);
        QVERIFY2(bench.join(), qPrintable(bench.lastWords()));
    }

    void work_thatIsNotInTheHouse_isTakenBackFirst_data()
    {
        QTest::addColumn<bool>("outside");
        QTest::newRow("a part on order") << false;
        QTest::newRow("with a firm") << true;
    }

    void work_thatIsNotInTheHouse_isTakenBackFirst()
    {
        QFETCH(bool, outside);
        Twice bench;
        bench.found(bench.second, "wheel-front-left", Condition::Kerbed);
        const OperationId op = bench.open(bench.second, "wheel-refurb");
        const QDate day(2031, 3, 19);
        if (outside)
            bench.must(bench.wheels, bench.second,
                       car::SendOut{op, {"Cove Wheels", day, 1, {}, false, {}}});
        else
            bench.must(bench.wheels, bench.second,
                       car::BlockForPart{op, {"centre cap", "Harbour Parts", day}});
        QVERIFY(!bench.join());
        QCOMPARE(bench.lastRefusal().id, RefusalId::SecondEntryOpen);
        if (outside)
            bench.must(bench.wheels, bench.second, car::ReceiveBack{op, "D 7", 1});
        else
            bench.must(bench.wheels, bench.second, car::Unblock{op});
        QVERIFY2(bench.join(), qPrintable(bench.lastWords()));
    }

    void appraisedAndReleased_theSecondEntryStillComesOver()
    {
        Twice bench;
        const CarId sold = bench.appraised();
        bench.release(sold);
        bench.say(bench.appraiser, bench.second, car::FindSound{{at("roof")}});
        QVERIFY(bench.workshop.mergeDuplicate(bench.command(), bench.manager, sold, bench.second,
                                              "typed in twice"));
        QVERIFY(bench.car(sold).seen.value(at("roof")).sound);
        QVERIFY(!bench.car(sold).released);
    }

    // ---- whose word it is

    void finding_carriedOver_isOfWhoFoundItAndOfWhoJoinedTheTwo()
    {
        Twice bench;
        const FindingId there = bench.found(bench.second, "tyre-front-left", Condition::Cut);
        const Moment found = bench.clock.now();
        bench.clock.pass(10);
        QVERIFY(bench.join());
        const FindingId cut{1};
        const Finding here = *bench.now().finding(cut);
        QCOMPARE(here.data(), bench.car(bench.second).finding(there)->data());
        QCOMPARE(here.versions.front().by, bench.appraiser);
        QCOMPARE(here.versions.front().at, found);
        QCOMPARE(here.recorders(), (std::set{bench.appraiser, bench.manager}));
        // It is nobody's slip of the tongue any more, whatever the appraisal does.
        for (const PersonId one : {bench.appraiser, bench.manager})
            QCOMPARE(bench.ask(one, bench.keep,
                               car::CorrectFinding{cut, {}, false, "a mark", bench.photo()}),
                     no(RefusalId::SecondPersonNeeded));
        bench.must(bench.checker, bench.keep,
                   car::CorrectFinding{cut, {}, false, "a mark", bench.photo()});
    }

    void finding_correctedThere_isOfBothOfThem()
    {
        Twice bench;
        const FindingId cut = bench.found(bench.second, "tyre-front-left", Condition::Cut);
        bench.say(bench.checker, bench.second,
                  car::CorrectFinding{cut, finding("tyre-front-left", Condition::Bulge), true,
                                      "looked closer", bench.photo()});
        QVERIFY(bench.join());
        const Finding here = *bench.now().finding(FindingId{1});
        QCOMPARE(here.data().condition, Condition::Bulge);
        QCOMPARE(here.versions.back().by, bench.checker);
        QCOMPARE(here.recorders(), (std::set{bench.appraiser, bench.checker, bench.manager}));
    }

    void photos_comeOver_onceAndWithWhoTookThem()
    {
        Twice bench;
        const FindingId scratch = bench.found(bench.keep, "bonnet", Condition::Scratch);
        const FindingId same = bench.found(bench.second, "bonnet", Condition::Scratch);
        const PhotoId ofIt = bench.photo();
        const PhotoId ofCar = bench.photo();
        const PhotoId both = bench.photo();
        bench.say(bench.appraiser, bench.second,
                  car::AttachPhoto{ofIt, PhotoMoment::Before, at("bonnet"), {}, same});
        bench.say(bench.painter, bench.second,
                  car::AttachPhoto{ofCar, PhotoMoment::During, at("roof"), {}, {}});
        for (const CarId& id : {bench.keep, bench.second})
            bench.say(bench.painter, id,
                      car::AttachPhoto{both, PhotoMoment::During, at("roof"), {}, {}});
        QVERIFY(bench.join());
        const std::vector<AttachedPhoto> photos = bench.now().photos;
        QCOMPARE(photos.size(), 3u);
        const auto of = [&](const PhotoId& photo) {
            return *std::ranges::find(photos, photo, &AttachedPhoto::photo);
        };
        // The finding is known here: it is a photo of that one.
        QCOMPARE(of(ofIt).finding, scratch);
        QCOMPARE(of(ofIt).by, bench.appraiser);
        QCOMPARE(of(ofCar).by, bench.painter);
        QVERIFY(of(ofCar).at < of(both).at);
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestJoining)
#include "tst_joining.moc"
