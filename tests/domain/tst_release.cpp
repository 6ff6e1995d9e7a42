// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/audit.h"
#include "support/testmain.h"
#include "workbench.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

// The gate: a car goes to sale when nothing holds it, by the right person, under more than one
// name.
class TestRelease : public QObject
{
    Q_OBJECT

private slots:
    void release_ofAHeldCar_namesEveryHold()
    {
        Workbench bench;
        const CarId id = bench.bringIn();
        bench.must(bench.appraiser, id, car::FindSound{{at("brakes-front"), at("brakes-rear")}});
        bench.found(id, "bonnet", Condition::Scratch);
        QCOMPARE(bench.ask(bench.seller, id, car::Release{}, true), no(RefusalId::CarHeld));
        const std::vector<Hold> all = bench.holds(id);
        QCOMPARE(bench.lastRefusal().details.size(), qsizetype(all.size()));
        // The appraisal, nine places, three safety operations, three others.
        QCOMPARE(all.size(), 1u + 9u + 3u + 3u);
        for (const Hold& hold : all)
            QVERIFY(bench.lastWords().contains(hold.words));
        QVERIFY(std::ranges::is_partitioned(all, &Hold::safety));
    }

    void release_holdsOfEveryKind_areRefused_data()
    {
        QTest::addColumn<QString>("what");
        QTest::newRow("open cosmetic work") << "cosmetic";
        QTest::newRow("open safety work") << "safety";
        QTest::newRow("curing") << "curing";
        QTest::newRow("undecided at a safety place") << "undecided";
        QTest::newRow("spoken, and not reviewed") << "spoken";
    }

    void release_holdsOfEveryKind_areRefused()
    {
        QFETCH(QString, what);
        Workbench bench;
        const CarId id = bench.appraised();
        if (what == "curing")
            bench.found(id, "windscreen", Condition::Crack);
        bench.closeAll(id);
        if (what == "curing")
            // Everything else was quicker than the adhesive.
            bench.clock.set(bench.operation(id, bench.newest(id, "windscreen-fit")).closedAt);
        if (what == "cosmetic")
            bench.found(id, "bonnet", Condition::Scratch);
        if (what == "safety")
            bench.found(id, "tyre-front-left", Condition::Cut);
        if (what == "undecided")
            bench.found(id, "steering", Condition::Noise);
        if (what == "spoken")
            bench.must(bench.appraiser, id, car::TakeSpeech{spokenRound(1)});
        const Moment now = std::max(bench.clock.now(), bench.car(id).lastAt);
        if (what == "curing") {
            // The final check waits for every waiting time, so only the bare rule shows it.
            CarState state = bench.car(id);
            state.operations.at(bench.newest(id, "windscreen-fit")).waitUntil = now.plusMinutes(5);
            const std::vector<Hold> all = holds(state, {}, now);
            QCOMPARE(all.size(), 1u);
            QCOMPARE(all.front().kind, HoldKind::Curing);
            QVERIFY(all.front().safety);
            QVERIFY(all.front().words.contains("5 min"));
            return;
        }
        QCOMPARE(bench.ask(bench.seller, id, car::Release{}, true), no(RefusalId::CarHeld));
    }

    // Earlier versions let a car go with them.
    void release_withSpokenFindingsLongAgo_isNotBlamed()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        bench.closeAll(id);
        bench.must(bench.appraiser, id, car::TakeSpeech{spokenRound(1)});
        CarState car = bench.car(id);
        const auto blamed = [&] {
            const CarEnvelope entry{
                car.seq + 1, bench.clock.now(), bench.seller, {}, CarReleased{car.seq}};
            return rulesBroken(car, {entry}, bench.ledger.site().value());
        };
        QCOMPARE(blamed(), QStringList());
        // It is judged at all.
        car.seen.remove(at("steering"));
        QVERIFY(blamed().join(u' ').contains("releases a held car"));
    }

    void release_complete_needsRightAndFreshPin()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        bench.must(bench.manager, id, car::MoveCar{bench.lift, {}});
        bench.closeAll(id);
        QCOMPARE(bench.status(id), CarStatus::ReadyForRelease);
        QCOMPARE(bench.ask(bench.checker, id, car::Release{}, true), no(RefusalId::NotAllowed));
        QCOMPARE(bench.ask(bench.seller, id, car::Release{}, false), no(RefusalId::PinNotFresh));
        bench.must(bench.seller, id, car::Release{});
        const CarState car = bench.car(id);
        QCOMPARE(bench.status(id), CarStatus::Released);
        QCOMPARE(car.released->by, bench.seller);
        QVERIFY(car.bay.isNull());
        QCOMPARE(bench.ask(bench.seller, id, car::Release{}, true), no(RefusalId::AlreadyReleased));
    }

    void release_byTheOnlyNameUnderTheSafetyWork_isRefused()
    {
        HouseRules rules;
        rules.finalCheckByWorker = true;
        Workbench bench(rules);
        const PersonId alone =
            bench.hire("Mote", {Skill::Mechanical, Skill::Wheels, Skill::Valet},
                       {Right::Appraise, Right::Work, Right::Check, Right::Manage, Right::Release});
        const CarId id = bench.appraised();
        for (const char* kind :
             {"arrival-check", "inspection", "tyre-survey", "valet", "final-check"})
            bench.close(id, bench.open(id, kind), alone);
        QCOMPARE(bench.ask(alone, id, car::Release{}, true), no(RefusalId::ReleaserAlone));
        bench.must(bench.seller, id, car::Release{});
    }

    void release_byOneOfSeveralNames_isFine()
    {
        Workbench bench;
        const PersonId both =
            bench.hire("Mote", {Skill::Mechanical}, {Right::Work, Right::Release});
        const CarId id = bench.appraised();
        bench.close(id, bench.open(id, "inspection"), both);
        bench.closeAll(id);
        bench.must(both, id, car::Release{});
    }

    void cosmetic_isLeftByAManagerWithWordsForTheBuyer_data()
    {
        QTest::addColumn<bool>("manager");
        QTest::addColumn<QString>("words");
        QTest::addColumn<QString>("expected");
        QTest::newRow("with words") << true << "small chips on the bonnet" << done;
        QTest::newRow("without words") << true << " " << no(RefusalId::ReasonMissing);
        QTest::newRow("all that the page has room for") << true << QString(600, 'w') << done;
        QTest::newRow("more than that") << true << QString(601, 'w') << no(RefusalId::WordsTooLong);
        QTest::newRow("blanks round it")
            << true << QString(' ' + QString(600, 'w') + QString(40, ' ')) << done;
        QTest::newRow("no manager") << false << "chips" << no(RefusalId::NotAllowed);
    }

    void cosmetic_isLeftByAManagerWithWordsForTheBuyer()
    {
        QFETCH(bool, manager);
        QFETCH(QString, words);
        QFETCH(QString, expected);
        Workbench bench;
        const CarId id = bench.appraised();
        bench.found(id, "bonnet", Condition::Chip);
        const OperationId op = bench.open(id, "touch-in");
        QCOMPARE(bench.ask(manager ? bench.manager : bench.painter, id, car::LeaveAsIs{op, words}),
                 expected);
        if (expected != done)
            return;
        QCOMPARE(bench.operation(id, op).leftWords, words.trimmed());
        bench.release(id);
        QCOMPARE(bench.state(id, op), OperationState::LeftAsIs);
    }

    void cosmetic_leftWithLongWordsLongAgo_isNotBlamed()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        bench.found(id, "bonnet", Condition::Chip);
        bench.must(bench.manager, id, car::LeaveAsIs{bench.open(id, "touch-in"), "chips"});
        std::vector<CarEnvelope> history = bench.ledger.history(id).value();
        CarEnvelope last = history.back();
        history.pop_back();
        CarState car;
        car.id = id;
        for (const CarEnvelope& entry : history)
            apply(car, entry);
        OperationLeft left = std::get<OperationLeft>(last.event);
        left.words = QString(5'000, QLatin1Char('c'));
        last.event = left;
        QCOMPARE(rulesBroken(car, {last}, bench.ledger.site().value()), QStringList());
        apply(car, last);
        QCOMPARE(car.operation(left.operation)->leftWords.size(), qsizetype(5'000));
        // It is judged at all: without words it is blamed.
        left.words.clear();
        last.event = left;
        CarState again;
        again.id = id;
        for (const CarEnvelope& entry : history)
            apply(again, entry);
        QVERIFY(!rulesBroken(again, {last}, bench.ledger.site().value()).isEmpty());
    }

    void cosmetic_someoneIsOnOrAway_isNotLeft()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        bench.found(id, "bonnet", Condition::Chip);
        const OperationId op = bench.open(id, "touch-in");
        bench.start(id, op, bench.painter);
        QCOMPARE(bench.ask(bench.manager, id, car::LeaveAsIs{op, "chips"}),
                 no(RefusalId::OperationRunning));
        bench.must(bench.painter, id,
                   car::SendOut{op, {"Cove Paint", QDate(2031, 3, 19), 1, {}, false, {}}});
        // The car, or a part of it, stands in somebody else's yard.
        QCOMPARE(bench.ask(bench.manager, id, car::LeaveAsIs{op, "chips"}), no(RefusalId::Blocked));
    }

    void released_car_takesFindingsButNoWork()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const OperationId valet = bench.open(id, "valet");
        bench.release(id);
        for (const CarCommand& command :
             {CarCommand{car::StartWork{valet}}, CarCommand{car::ChangePromise{{}, {}}},
              CarCommand{car::OpenOperation{"touch-in", at("bonnet"), "chips"}},
              CarCommand{car::SignOff{valet, {}}}})
            QCOMPARE(bench.ask(bench.manager, id, command), no(RefusalId::AlreadyReleased));
        bench.must(bench.seller, id, car::MoveCar{{}, "forecourt"});
        QCOMPARE(bench.status(id), CarStatus::Released);
        bench.found(id, "bonnet", Condition::Scratch);
        QVERIFY(!bench.car(id).released);
        // Work again, and the final check again: it was made before the finding.
        QVERIFY(!bench.open(id, "final-check").isNull());
        bench.release(id);
        QVERIFY(bench.car(id).heldAgainWhy.isEmpty());
    }

    void released_car_treadIsTaken_andHoldsItWhereItIsTooLow()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        bench.release(id);
        const PlaceId tyre = at("tyre-front-left");
        bench.must(bench.appraiser, id, car::RecordTyre{tyre, Tread{60, 61, 60}, {}, {}});
        QVERIFY(bench.car(id).released);
        QCOMPARE(bench.car(id).treads.at(tyre), (Tread{60, 61, 60}));
        bench.must(bench.appraiser, id, car::RecordTyre{tyre, Tread{12, 20, 20}, {}, {}});
        QVERIFY(!bench.car(id).released);
        QVERIFY(!bench.open(id, "tyre-fit", "tyre-front-left").isNull());
        QCOMPARE(bench.status(id), CarStatus::Held);
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestRelease)
#include "tst_release.moc"
