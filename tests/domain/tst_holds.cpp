// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "support/testmain.h"
#include "workbench.h"

#include "domain/carcard.h"
#include "domain/words.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

// What a car's state means: holds, status, order of work, and the card that the wall shows.
class TestHolds : public QObject
{
    Q_OBJECT

private slots:
    void status_followsTheCar()
    {
        Workbench bench;
        const CarId id = bench.bringIn();
        QCOMPARE(bench.status(id), CarStatus::Arriving);
        bench.must(bench.appraiser, id, car::FinishAppraisal{});
        QCOMPARE(bench.status(id), CarStatus::Held);
        bench.closeAll(id);
        bench.clock.pass(120);
        QCOMPARE(bench.status(id), CarStatus::ReadyForRelease);
        bench.must(bench.seller, id, car::Release{});
        QCOMPARE(bench.status(id), CarStatus::Released);
    }

    void status_onlyCosmeticWorkLeft_isInPrep()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        CarState car = bench.car(id);
        for (auto& [number, operation] : car.operations)
            if (operation.spec->safety)
                operation.state = OperationState::Closed;
        QCOMPARE(statusOf(car, {}, bench.clock.now()), CarStatus::InPrep);
    }

    void holds_ofAnOperation_sayWhatItWaitsFor_data()
    {
        QTest::addColumn<QString>("what");
        QTest::addColumn<QString>("words");
        QTest::newRow("nobody began") << "waiting"
                                      << "is waiting";
        QTest::newRow("in hand") << "hand"
                                 << "is in hand";
        QTest::newRow("part") << "part"
                              << "waits for a part: rod end";
        QTest::newRow("outside") << "outside"
                                 << "is with Cove Steering";
        QTest::newRow("back from outside") << "back"
                                           << "is back and awaits our own check";
        QTest::newRow("one signature of two") << "signed"
                                              << "awaits a second signature";
        QTest::newRow("outside, one signature of two") << "backSigned"
                                                       << "awaits a second signature";
        QTest::newRow("sent back") << "failed"
                                   << "was sent back: loose";
    }

    void holds_ofAnOperation_sayWhatItWaitsFor()
    {
        QFETCH(QString, what);
        QFETCH(QString, words);
        Workbench bench;
        const CarId id = bench.appraised();
        bench.found(id, "steering", Condition::Loose);
        const OperationId op = bench.open(id, "steering-part");
        const QDate day(2031, 3, 19);
        if (what == "hand" || what == "signed" || what == "failed")
            bench.start(id, op, bench.mechanic);
        if (what == "part")
            bench.must(bench.mechanic, id,
                       car::BlockForPart{op, {"rod end", "Harbour Parts", day}});
        if (what == "outside" || what == "back" || what == "backSigned")
            bench.must(bench.mechanic, id,
                       car::SendOut{op, {"Cove Steering", day, 1, {}, false, {}}});
        if (what == "back" || what == "backSigned")
            bench.must(bench.mechanic, id, car::ReceiveBack{op, {}, 1});
        if (what == "signed" || what == "failed" || what == "backSigned") {
            bench.prove(id, op, bench.mechanic);
            bench.must(bench.mechanic, id, car::SignOff{op, {}});
        }
        if (what == "failed")
            bench.must(bench.checker, id, car::FailCheck{op, "loose", {}});
        for (const Hold& hold : bench.holds(id))
            if (hold.operation == op)
                QVERIFY2(hold.words.contains(words), qPrintable(hold.words));
    }

    void cameBack_waitsForItsSkill_andHoldsAsSafety()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        bench.found(id, "steering", Condition::Loose);
        const OperationId op = bench.open(id, "steering-part");
        const auto line = [&] {
            const CarCard card = cardOf(bench.car(id), {});
            return *std::ranges::find(card.outstanding, op, &CardLine::operation);
        };
        const auto onlyThisIsSafety = [&] {
            CarCard card = cardOf(bench.car(id), {});
            std::erase_if(card.outstanding, [&](const CardLine& other) {
                return other.safety && other.operation != op;
            });
            card.safetyHolds = 1;
            return card;
        };
        bench.must(bench.mechanic, id,
                   car::SendOut{op, {"Cove Steering", QDate(2031, 3, 19), 1, {}, false, {}}});
        bench.must(bench.mechanic, id, car::ReceiveBack{op, {}, 1});
        QVERIFY(bench.operation(id, op).awaitsReceipt());
        QVERIFY(!line().check);
        QVERIFY(onlyThisIsSafety().isHeldBySafety(bench.clock.now()));
        bench.prove(id, op, bench.mechanic);
        bench.must(bench.mechanic, id, car::SignOff{op, {}});
        // Now a second person is owed, and nothing else.
        QVERIFY(bench.operation(id, op).awaitsSecond());
        QVERIFY(line().check);
        QVERIFY(!onlyThisIsSafety().isHeldBySafety(bench.clock.now()));
    }

    void order_ofWork_namesWhatComesFirst()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        for (const char* place : {"bonnet", "roof", "tailgate", "wing-left", "wing-right"})
            bench.found(id, place, Condition::Scratch);
        const QString why = whyNotYet(bench.car(id), bench.operation(id, bench.open(id, "valet")),
                                      {}, bench.clock.now());
        QVERIFY2(why.contains("first finish"), qPrintable(why));
        QVERIFY2(why.contains("and 2 more"), qPrintable(why));
        // Titles have commas of their own.
        QVERIFY2(why.contains("“"), qPrintable(why));
    }

    void order_atOnePlace_doesNotMindTheOthers()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        bench.found(id, "wheel-front-left", Condition::Kerbed);
        bench.found(id, "wheel-rear-left", Condition::Kerbed);
        bench.close(id, bench.open(id, "wheel-refurb", "wheel-front-left"));
        const OperationId check = bench.open(id, "wheel-true-check", "wheel-front-left");
        // It bakes.
        QCOMPARE(bench.ask(bench.checker, id, car::StartWork{check}), no(RefusalId::NotYet));
        bench.clock.pass(60);
        bench.must(bench.checker, id, car::StartWork{check});
    }

    // ---- the card

    void card_ofACar_hasSafetyFirstAndCountsHolds()
    {
        Workbench bench;
        const CarId id = bench.bringIn();
        bench.found(id, "bonnet", Condition::Scratch);
        bench.must(bench.appraiser, id, car::FinishAppraisal{});
        const CarCard card = cardOf(bench.car(id), {});
        QCOMPARE(card.identity.stockNumber, QStringLiteral("K1"));
        QCOMPARE(card.outstanding.size(), 6u);
        QVERIFY(std::ranges::is_partitioned(card.outstanding, &CardLine::safety));
        QCOMPARE(card.notLookedAtCount, 11);
        QCOMPARE(card.safetyHolds, 11 + 3);
        QCOMPARE(card.status, CarStatus::Held);
    }

    void card_places_areMarkedWhereTheyAre()
    {
        Workbench bench;
        const CarId id = bench.bringIn();
        bench.found(id, "bonnet", Condition::Scratch);
        bench.found(id, "tailgate", Condition::Scratch);
        bench.close(id, bench.open(id, "touch-in", "tailgate"));
        std::map<PlaceId, PlaceMark> marks;
        for (const MarkedPlace& mark : cardOf(bench.car(id), {}).marks)
            marks[mark.place] = mark.mark;
        QCOMPARE(marks.at(at("bonnet")), PlaceMark::Outstanding);
        QCOMPARE(marks.at(at("tailgate")), PlaceMark::Closed);
        QCOMPARE(marks.at(at("steering")), PlaceMark::NotLookedAt);
        QVERIFY(!marks.contains(at("roof")));
        QVERIFY(!marks.contains(wholeCar()));
    }

    void card_line_showsWhoIsOnItAndSince()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const OperationId op = bench.open(id, "inspection");
        bench.start(id, op, bench.mechanic);
        const Moment since = bench.clock.now();
        bench.clock.pass(10);
        bench.start(id, op, bench.technician);
        const CarCard card = cardOf(bench.car(id), {});
        const auto line = std::ranges::find(card.outstanding, op, &CardLine::operation);
        const std::vector both{bench.mechanic, bench.technician};
        QCOMPARE(line->people, both);
        QCOMPARE(line->runningSince, since);
        QCOMPARE(line->state, OperationState::InHand);
    }

    void lookUp_thatIsTooOld_holdsUntilItIsDoneOnceMore_data()
    {
        QTest::addColumn<int>("days");
        QTest::addColumn<QString>("ago");
        QTest::addColumn<QString>("counts");
        QTest::newRow("that day only") << 0 << "1 day ago"
                                       << "0 days";
        QTest::newRow("a day") << 1 << "2 days ago"
                               << "1 day";
        QTest::newRow("a week") << 7 << "8 days ago"
                                << "7 days";
    }

    void lookUp_thatIsTooOld_holdsUntilItIsDoneOnceMore()
    {
        QFETCH(int, days);
        QFETCH(QString, ago);
        QFETCH(QString, counts);
        Workbench bench;
        bench.spec("valet").fresh = Limit{LimitOwner::House, "house default", {}, days, {}};
        const CarId id = bench.appraised();
        bench.closeAll(id);
        const CarCard card = cardOf(bench.car(id), {});
        const auto status = [&] { return statusOf(bench.car(id), {}, bench.clock.now()); };
        QCOMPARE(status(), CarStatus::ReadyForRelease);
        constexpr int day = 24 * 60;
        bench.clock.pass(days * day);
        QCOMPARE(status(), CarStatus::ReadyForRelease);
        QCOMPARE(card.statusAt(bench.clock.now()), CarStatus::ReadyForRelease);
        bench.clock.pass(day);
        QCOMPARE(status(), CarStatus::InPrep);
        QCOMPARE(card.statusAt(bench.clock.now()), CarStatus::InPrep);
        QCOMPARE(card.oldTitles, bench.spec("valet").title);
        const auto hold = holds(bench.car(id), {}, bench.clock.now()).front();
        QCOMPARE(hold.kind, HoldKind::TooOld);
        QCOMPARE(hold.words,
                 QStringLiteral("%1 was done %2, and counts for %3 (house). Do it once more.")
                     .arg(bench.spec("valet").title, ago, counts));
        QCOMPARE(bench.ask(bench.seller, id, car::Release{}), no(RefusalId::CarHeld));
        // The one of its day stays; the new one takes its place.
        bench.must(bench.manager, id, car::OpenOperation{"valet", wholeCar(), "too old"});
        for (const Hold& open : holds(bench.car(id), {}, bench.clock.now()))
            QCOMPARE(open.kind == HoldKind::TooOld, false);
        bench.closeAll(id);
        QCOMPARE(status(), CarStatus::ReadyForRelease);
    }

    void spokenFindings_hold_untilEachIsDecided()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        bench.closeAll(id);
        const auto status = [&] { return statusOf(bench.car(id), {}, bench.clock.now()); };
        const auto held = [&] { return holds(bench.car(id), {}, bench.clock.now()); };
        QCOMPARE(status(), CarStatus::ReadyForRelease);
        const SpokenRound round = spokenRound(2);
        bench.must(bench.appraiser, id, car::TakeSpeech{round});
        QCOMPARE(status(), CarStatus::Held);
        QCOMPARE(held().size(), 1u);
        QCOMPARE(held().front().kind, HoldKind::SpokenNotReviewed);
        QVERIFY(held().front().safety);
        QCOMPARE(held().front().words,
                 QStringLiteral("A spoken walk-round has 2 findings that nobody has decided about. "
                                "Review them."));
        const CarCard card = cardOf(bench.car(id), {});
        QCOMPARE(card.status, CarStatus::Held);
        QCOMPARE(card.safetyHolds, 1);
        QVERIFY(card.isHeldBySafety(bench.clock.now()));
        bench.must(bench.appraiser, id, car::DropDraft{{round.transcript, 0}});
        QCOMPARE(held().front().words,
                 QStringLiteral("A spoken walk-round has one finding that nobody has decided "
                                "about. Review it."));
        bench.must(bench.appraiser, id, car::DropDraft{{round.transcript, 1}});
        QCOMPARE(status(), CarStatus::ReadyForRelease);
        bench.must(bench.appraiser, id, car::DropDraft{{round.transcript, 1}, false});
        QCOMPARE(status(), CarStatus::Held);
        // Recorded, it is decided: what holds the car is the work that answers it.
        bench.must(bench.appraiser, id,
                   car::RecordFinding{round.drafts[1].data, {}, {round.transcript, 1}});
        for (const Hold& hold : held())
            QVERIFY2(hold.kind != HoldKind::SpokenNotReviewed, qPrintable(hold.words));
    }

    void card_whileItCures_isHeld_thenReadyByItself_data()
    {
        QTest::addColumn<QString>("besides");
        QTest::addColumn<int>("after");
        QTest::newRow("nothing else") << "" << int(CarStatus::ReadyForRelease);
        QTest::newRow("undecided at a safety place") << "undecided" << int(CarStatus::Held);
        QTest::newRow("isolated") << "isolated" << int(CarStatus::Held);
        QTest::newRow("cosmetic work") << "cosmetic" << int(CarStatus::InPrep);
        QTest::newRow("not looked at") << "unseen" << int(CarStatus::Held);
        QTest::newRow("spoken, and not reviewed") << "spoken" << int(CarStatus::Held);
    }

    void card_whileItCures_isHeld_thenReadyByItself()
    {
        QFETCH(QString, besides);
        QFETCH(int, after);
        Workbench bench;
        const CarId id = bench.appraised();
        bench.found(id, "windscreen", Condition::Crack);
        bench.closeAll(id);
        CarState car = bench.car(id);
        car.operations.at(bench.newest(id, "windscreen-fit")).waitUntil =
            car.lastAt.plusMinutes(30);
        if (besides == "isolated")
            car.isolation = Isolation{OperationId{1}, bench.mechanic, car.lastAt, "key safe"};
        if (besides == "unseen")
            car.seen.remove(at("steering"));
        if (besides == "cosmetic")
            car.operations.at(bench.newest(id, "valet")).state = OperationState::Waiting;
        if (besides == "spoken")
            car.spoken.push_back({spokenRound(1), {}, {}, std::vector<DraftDecision>(1)});
        if (besides == "undecided") {
            Finding noise;
            noise.id = FindingId{9};
            noise.versions.push_back({finding("steering", Condition::Noise), true, {}, {}, {}, {}});
            noise.undecided = true;
            car.findings[noise.id] = noise;
        }
        const CarCard card = cardOf(car, {});
        QCOMPARE(card.statusAt(car.lastAt), CarStatus::Held);
        const Moment later = car.lastAt.plusMinutes(30);
        QCOMPARE(int(card.statusAt(later)), after);
        // The card says the same as the rules.
        QCOMPARE(card.statusAt(later), statusOf(car, {}, later));
    }

    void card_thatMustNotBeMoved_saysWhy()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        bench.found(id, "tyre-front-left", Condition::Cut);
        bench.start(id, bench.open(id, "tyre-fit"), bench.wheels);
        const CarCard card = cardOf(bench.car(id), {});
        const std::vector both{Restraint::Move, Restraint::Drive};
        QCOMPARE(card.restraintsAt(bench.clock.now()), both);
        QCOMPARE(card.restraintWordsAt(bench.clock.now()), QStringLiteral("a wheel is off"));
    }

    void card_whoseAdhesiveHasCured_mayBeMoved()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        bench.found(id, "windscreen", Condition::Crack);
        bench.close(id, bench.open(id, "windscreen-fit"));
        const CarState car = bench.car(id);
        const CarCard card = cardOf(car, {});
        QVERIFY(!card.restraintsAt(car.lastAt).empty());
        // Nobody does anything: the card says the same as the rules.
        for (const int minutes : {0, 30, 59, 60, 61, 24 * 60}) {
            const Moment then = car.lastAt.plusMinutes(minutes);
            QCOMPARE(card.restraintsAt(then).empty(), restraints(car, then).empty());
            QCOMPARE(card.restraintWordsAt(then).isEmpty(), card.restraintsAt(then).empty());
        }
        QVERIFY(card.restraintsAt(car.lastAt.plusMinutes(24 * 60)).empty());
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestHolds)
#include "tst_holds.moc"
