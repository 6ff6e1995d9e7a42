// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "support/testmain.h"
#include "workbench.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

// What happens around the work: parts, outside firms, bays, other kiosks, identity, double entries,
// leaving.
class TestAround : public QObject
{
    Q_OBJECT

private slots:
    // ---- parts

    void part_onOrder_blocksAndStopsTheTimers()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        bench.found(id, "brakes-front", Condition::Worn);
        const OperationId op = bench.open(id, "brake-pads");
        bench.start(id, op, bench.mechanic);
        bench.must(bench.mechanic, id,
                   car::BlockForPart{op, {"front pads", "Harbour Parts", QDate(2031, 3, 22)}});
        const Operation blocked = bench.operation(id, op);
        QCOMPARE(blocked.state, OperationState::Blocked);
        QCOMPARE(blocked.part->supplier, QStringLiteral("Harbour Parts"));
        QVERIFY(!blocked.isRunning());
        QCOMPARE(blocked.segments.front().stop, StopKind::Blocked);
        QCOMPARE(bench.ask(bench.mechanic, id, car::StartWork{op}), no(RefusalId::Blocked));
        QCOMPARE(bench.ask(bench.mechanic, id, car::SignOff{op, {}}), no(RefusalId::Blocked));
        // The supplier rings: it comes later.
        QVERIFY(bench.must(bench.mechanic, id, car::ChangeDue{op, QDate(2031, 3, 22), {}}).empty());
        QCOMPARE(bench.ask(bench.mechanic, id, car::ChangeDue{op, {}, {}}),
                 no(RefusalId::FieldMissing));
        QCOMPARE(bench.ask(bench.appraiser, id, car::ChangeDue{op, QDate(2031, 3, 26), {}}),
                 no(RefusalId::NotAllowed));
        bench.must(bench.mechanic, id,
                   car::ChangeDue{op, QDate(2031, 3, 26), " the supplier says so "});
        QCOMPARE(bench.operation(id, op).part->due, QDate(2031, 3, 26));
        QCOMPARE(bench.operation(id, op).part->part, blocked.part->part);
        QCOMPARE(std::get<DueChanged>(bench.ledger.history(id).value().back().event).reason,
                 QStringLiteral("the supplier says so"));
        bench.must(bench.mechanic, id, car::Unblock{op});
        QCOMPARE(bench.ask(bench.mechanic, id, car::ChangeDue{op, QDate(2031, 3, 27), {}}),
                 no(RefusalId::NotBlocked));
        QCOMPARE(bench.state(id, op), OperationState::Paused);
        QVERIFY(!bench.operation(id, op).part);
        bench.close(id, op);
    }

    void part_order_needsWhatAndWhen_data()
    {
        QTest::addColumn<QString>("part");
        QTest::addColumn<QDate>("due");
        QTest::addColumn<QString>("expected");
        QTest::newRow("complete") << "front pads" << QDate(2031, 3, 22) << done;
        QTest::newRow("which part?") << " " << QDate(2031, 3, 22) << no(RefusalId::FieldMissing);
        QTest::newRow("when?") << "front pads" << QDate() << no(RefusalId::FieldMissing);
    }

    void part_order_needsWhatAndWhen()
    {
        QFETCH(QString, part);
        QFETCH(QDate, due);
        QFETCH(QString, expected);
        Workbench bench;
        const CarId id = bench.appraised();
        QCOMPARE(bench.ask(
                     bench.mechanic, id,
                     car::BlockForPart{bench.open(id, "inspection"), {part, "Harbour Parts", due}}),
                 expected);
    }

    void part_onOrder_survivesThatItsWorkIsOpenedAgain()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        bench.found(id, "tyre-front-left", Condition::Cut);
        bench.found(id, "tyre-rear-left", Condition::Cut);
        const OperationId front = bench.open(id, "tyre-fit", "tyre-front-left");
        bench.close(id, front);
        bench.close(id, bench.open(id, "tyre-fit"));
        const OperationId check = bench.open(id, "wheel-fixing-check");
        bench.start(id, check, bench.checker);
        bench.must(bench.manager, id,
                   car::BlockForPart{check, {"locking key", "Harbour Parts", QDate(2031, 3, 22)}});
        bench.must(bench.manager, id, car::Reopen{front, "wrong size"});
        const Operation again = bench.operation(id, check);
        QVERIFY(again.part.has_value());
        QCOMPARE(again.state, OperationState::Blocked);
    }

    // ---- outside firms

    void outsideWork_isSentReceivedAndCheckedByOurOwnPerson()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        bench.found(id, "wheel-front-left", Condition::Kerbed);
        const OperationId op = bench.open(id, "wheel-refurb");
        bench.must(bench.manager, id,
                   car::SendOut{op, {"Cove Wheels", QDate(2031, 3, 19), 1, "D 77", false, {}}});
        QCOMPARE(bench.state(id, op), OperationState::Blocked);
        QCOMPARE(bench.operation(id, op).outside->document, QStringLiteral("D 77"));
        QCOMPARE(bench.ask(bench.wheels, id, car::StartWork{op}), no(RefusalId::Blocked));
        QCOMPARE(bench.ask(bench.manager, id, car::Unblock{op}), no(RefusalId::NotBlocked));
        bench.must(bench.wheels, id, car::ChangeDue{op, QDate(2031, 3, 21), {}});
        QCOMPARE(bench.operation(id, op).outside->dueBack, QDate(2031, 3, 21));
        QCOMPARE(bench.operation(id, op).outside->keys, 1);
        bench.must(bench.wheels, id, car::ReceiveBack{op, "D 77 back"});
        QCOMPARE(bench.ask(bench.wheels, id, car::ChangeDue{op, QDate(2031, 3, 22), {}}),
                 no(RefusalId::NotBlocked));
        QCOMPARE(bench.state(id, op), OperationState::AwaitingCheck);
        // Back is not good: it needs its readings, photos and a name, as if made here.
        QCOMPARE(bench.ask(bench.wheels, id, car::SignOff{op, {}}), no(RefusalId::EvidenceOpen));
        QCOMPARE(bench.ask(bench.painter, id, car::SignOff{op, {}}), no(RefusalId::WrongSkill));
        bench.prove(id, op, bench.wheels);
        bench.must(bench.wheels, id, car::SignOff{op, {}});
        const Operation closed = bench.operation(id, op);
        QCOMPARE(closed.state, OperationState::Closed);
        QCOMPARE(closed.signatures.front().meaning, SignatureMeaning::ReceivedFromOutside);
        QVERIFY(!bench.open(id, "wheel-true-check").isNull());
    }

    void outsideWork_needsFirmDayAndKeys_data()
    {
        QTest::addColumn<QString>("firm");
        QTest::addColumn<QDate>("due");
        QTest::addColumn<int>("keys");
        QTest::addColumn<QString>("expected");
        const QDate day(2031, 3, 19);
        QTest::newRow("complete") << "Cove Wheels" << day << 1 << done;
        QTest::newRow("which firm?") << "" << day << 1 << no(RefusalId::FieldMissing);
        QTest::newRow("back when?") << "Cove Wheels" << QDate() << 1 << no(RefusalId::FieldMissing);
        QTest::newRow("too many keys")
            << "Cove Wheels" << day << 10 << no(RefusalId::ValueOutOfRange);
        QTest::newRow("minus a key")
            << "Cove Wheels" << day << -1 << no(RefusalId::ValueOutOfRange);
    }

    void outsideWork_needsFirmDayAndKeys()
    {
        QFETCH(QString, firm);
        QFETCH(QDate, due);
        QFETCH(int, keys);
        QFETCH(QString, expected);
        Workbench bench;
        const CarId id = bench.appraised();
        QCOMPARE(bench.ask(bench.manager, id,
                           car::SendOut{bench.open(id, "valet"), {firm, due, keys, {}, false, {}}}),
                 expected);
    }

    void outsideWork_refusedOnReturn_isByOneOfThisHouse_data()
    {
        QTest::addColumn<QString>("who");
        QTest::addColumn<QString>("expected");
        QTest::newRow("a wheel man") << "wheels" << done;
        QTest::newRow("the checker") << "checker" << done;
        QTest::newRow("no right to work or check") << "seller" << no(RefusalId::NotAllowed);
        QTest::newRow("nobody of this house") << "nobody" << no(RefusalId::PersonUnknown);
    }

    void outsideWork_refusedOnReturn_isByOneOfThisHouse()
    {
        QFETCH(QString, who);
        QFETCH(QString, expected);
        Workbench bench;
        const CarId id = bench.appraised();
        bench.found(id, "wheel-front-left", Condition::Kerbed);
        const OperationId op = bench.open(id, "wheel-refurb");
        bench.must(bench.manager, id,
                   car::SendOut{op, {"Cove Wheels", QDate(2031, 3, 19), 1, {}, false, {}}});
        bench.must(bench.manager, id, car::ReceiveBack{op, {}});
        const PersonId person = who == "wheels"    ? bench.wheels
                                : who == "checker" ? bench.checker
                                : who == "seller"  ? bench.seller
                                                   : PersonId{99};
        QCOMPARE(bench.ask(person, id, car::FailCheck{op, "wrong colour", {}}), expected);
    }

    void check_isNotGivenAway()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        QCOMPARE(bench.ask(bench.manager, id,
                           car::SendOut{bench.open(id, "final-check"),
                                        {"Cove Checks", QDate(2031, 3, 19), 1, {}, false, {}}}),
                 no(RefusalId::NotAllowed));
    }

    // ---- bays

    void move_toABay_takesItUntilTheCarGoes()
    {
        Workbench bench;
        const CarId first = bench.appraised();
        const CarId second = bench.appraised();
        bench.must(bench.painter, first, car::MoveCar{bench.lift, {}});
        QCOMPARE(bench.ask(bench.painter, second, car::MoveCar{bench.lift, {}}),
                 no(RefusalId::BayTaken));
        QVERIFY(bench.lastWords().contains("K1"));
        bench.must(bench.painter, first, car::MoveCar{{}, "yard, row 2"});
        QCOMPARE(bench.car(first).parking, QStringLiteral("yard, row 2"));
        bench.must(bench.painter, second, car::MoveCar{bench.lift, {}});
        QCOMPARE(bench.car(second).bay, bench.lift);
        QVERIFY(bench.car(second).parking.isEmpty());
    }

    void bay_takenMeanwhile_isToldAndChangesNothing()
    {
        Workbench bench;
        const CarId first = bench.appraised();
        const CarId second = bench.appraised();
        // The other kiosk puts its car there after this one has looked.
        bench.ledger.beforeNextAppend([&] {
            bench.must(bench.painter, second, car::MoveCar{bench.lift, {}});
        });
        QVERIFY(bench.ask(bench.painter, first, car::MoveCar{bench.lift, {}}) != done);
        QVERIFY(bench.car(first).bay.isNull());
    }

    // ---- other kiosks meanwhile

    void rightTakenAwayMeanwhile_isDecidedAgain()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const OperationId operation = bench.open(id, "valet");
        bench.ledger.beforeNextAppend([&] {
            bench.ask(bench.manager,
                      site::ChangePerson{bench.painter, {}, {Right::Appraise}, true});
        });
        QCOMPARE(bench.ask(bench.painter, id, car::StartWork{operation}),
                 no(RefusalId::NotAllowed));
        QVERIFY(!bench.operation(id, operation).wasStarted());
    }

    // A person's timers lie on several cars, which no stream orders.
    void workedElsewhereMeanwhile_startsAfterIt()
    {
        Workbench bench;
        const CarId other = bench.appraised();
        const CarId id = bench.appraised();
        bench.ledger.beforeNextAppend([&] {
            bench.start(other, bench.open(other, "valet"), bench.painter);
            bench.clock.pass(2);
            bench.must(bench.painter, other,
                       car::PauseWork{bench.open(other, "valet"), {}, StopKind::Paused});
        });
        bench.start(id, bench.open(id, "valet"), bench.painter);
        const Moment end = bench.operation(other, bench.newest(other, "valet")).segments[0].end;
        QVERIFY(bench.operation(id, bench.newest(id, "valet")).segments[0].start > end);
    }

    // ---- identity

    void identity_isCorrectedWithAReason_data()
    {
        QTest::addColumn<QString>("stock");
        QTest::addColumn<QString>("vin");
        QTest::addColumn<QString>("reason");
        QTest::addColumn<QString>("expected");
        QTest::newRow("complete") << "K100"
                                  << "11111111111111111"
                                  << "misread" << done;
        QTest::newRow("no reason") << "K100"
                                   << ""
                                   << " " << no(RefusalId::ReasonMissing);
        QTest::newRow("no stock number") << " "
                                         << ""
                                         << "misread" << no(RefusalId::FieldMissing);
        QTest::newRow("small letters") << "k100"
                                       << ""
                                       << "misread" << done;
        QTest::newRow("another car's number") << "K2"
                                              << ""
                                              << "misread" << no(RefusalId::StockNumberTaken);
        QTest::newRow("the same in small letters") << " k2 "
                                                   << ""
                                                   << "misread" << no(RefusalId::StockNumberTaken);
        QTest::newRow("no VIN at all") << "K100"
                                       << "ABC"
                                       << "misread" << no(RefusalId::VinMalformed);
    }

    void identity_isCorrectedWithAReason()
    {
        QFETCH(QString, stock);
        QFETCH(QString, vin);
        QFETCH(QString, reason);
        QFETCH(QString, expected);
        Workbench bench;
        const CarId id = bench.bringIn();
        bench.bringIn();
        Identity identity = bench.car(id).identity;
        identity.stockNumber = stock;
        identity.vin = vin;
        QCOMPARE(bench.ask(bench.appraiser, id, car::CorrectIdentity{identity, reason}), expected);
        QCOMPARE(bench.car(id).identity.stockNumber,
                 expected == done ? QStringLiteral("K100") : QStringLiteral("K1"));
    }

    // ---- entered twice

    void duplicate_findingsAndPhotosComeOver_andTheSecondEntryLeaves()
    {
        Workbench bench;
        const CarId keep = bench.appraised();
        const CarId second = bench.appraised();
        bench.found(keep, "bonnet", Condition::Scratch);
        bench.found(second, "bonnet", Condition::Scratch);
        const FindingId cut = bench.found(second, "tyre-front-left", Condition::Cut);
        const PhotoId photo = bench.photo();
        bench.must(bench.appraiser, second,
                   car::AttachPhoto{photo, PhotoMoment::Before, {}, {}, cut});
        const auto merged = bench.workshop.mergeDuplicate(bench.command(), bench.manager, keep,
                                                          second, "typed in twice");
        QVERIFY2(merged, merged ? "" : qPrintable(words(merged.error())));
        const CarState car = bench.car(keep);
        QCOMPARE(car.findings.size(), 2u);
        QVERIFY(!bench.open(keep, "tyre-fit").isNull());
        QCOMPARE(car.photos.front().photo, photo);
        QCOMPARE(car.photos.front().finding, FindingId{2});
        QCOMPARE(bench.status(second), CarStatus::Withdrawn);
        QCOMPARE(bench.car(second).sameAs, keep);
        QCOMPARE(*bench.car(second).left, LeavingHow::EnteredTwice);
    }

    void duplicate_withClocksApart_keepsBothStreamsInOrder()
    {
        Workbench bench;
        const CarId keep = bench.appraised();
        const CarId second = bench.appraised();
        bench.clock.pass(30);
        bench.found(second, "bonnet", Condition::Scratch);
        bench.clock.pass(-20);
        const auto merged = bench.workshop.mergeDuplicate(bench.command(), bench.manager, keep,
                                                          second, "typed in twice");
        QVERIFY2(merged, merged ? "" : qPrintable(words(merged.error())));
    }

    void duplicate_whileTheClockGoesOn_isWrittenAtOneTime()
    {
        Workbench bench;
        const CarId keep = bench.appraised();
        const CarId second = bench.appraised();
        bench.found(second, "bonnet", Condition::Scratch);
        bench.clock.goOnWithEachLook();
        const auto merged = bench.workshop.mergeDuplicate(bench.command(), bench.manager, keep,
                                                          second, "typed in twice");
        QVERIFY2(merged, merged ? "" : qPrintable(words(merged.error())));
        QCOMPARE(bench.car(keep).lastAt, bench.car(second).lastAt);
        QVERIFY(merged->car == bench.car(keep));
    }

    void duplicate_ofItselfOrNothing_isRefused()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        QVERIFY(!bench.workshop.mergeDuplicate(bench.command(), bench.manager, id, id, "twice"));
        QVERIFY(!bench.workshop.mergeDuplicate(bench.command(), bench.manager, id, CarId{"nowhere"},
                                               "twice"));
        QCOMPARE(bench.status(id), CarStatus::Held);
    }

    // ---- leaving

    void leaving_unreleased_isSaidAndEndsEverything_data()
    {
        QTest::addColumn<int>("how");
        QTest::newRow("trade") << int(LeavingHow::Trade);
        QTest::newRow("scrap") << int(LeavingHow::Scrap);
        QTest::newRow("back to owner") << int(LeavingHow::BackToOwner);
    }

    void leaving_unreleased_isSaidAndEndsEverything()
    {
        QFETCH(int, how);
        Workbench bench;
        const CarId id = bench.appraised();
        bench.must(bench.manager, id, car::MoveCar{bench.lift, {}});
        bench.start(id, bench.open(id, "inspection"), bench.mechanic);
        const car::LeaveUnreleased leave{LeavingHow(how), "costs more than it brings"};
        QCOMPARE(bench.ask(bench.appraiser, id, leave), no(RefusalId::NotAllowed));
        QCOMPARE(bench.ask(bench.manager, id, car::LeaveUnreleased{LeavingHow(how), " "}),
                 no(RefusalId::ReasonMissing));
        bench.must(bench.manager, id, leave);
        QCOMPARE(bench.status(id), CarStatus::Withdrawn);
        QVERIFY(bench.car(id).bay.isNull());
        QVERIFY(bench.ledger.allRunningWork().value().empty());
        QCOMPARE(bench.ask(bench.appraiser, id,
                           car::RecordFinding{finding("bonnet", Condition::Scratch), {}}),
                 no(RefusalId::CarGone));
        QCOMPARE(bench.ask(bench.seller, id, car::Release{}, true), no(RefusalId::CarGone));
    }

    void leaving_thenBroughtBack_goesOnWhereItWas()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        QCOMPARE(bench.ask(bench.manager, id, car::BringBack{"changed our mind"}),
                 no(RefusalId::NotGone));
        bench.must(bench.manager, id, car::LeaveUnreleased{LeavingHow::Trade, "old"});
        bench.must(bench.manager, id, car::BringBack{"the buyer stepped back"});
        QCOMPARE(bench.status(id), CarStatus::Held);
        bench.release(id);
    }

    void leaving_afterRelease_thenBroughtBack_isNotReleasedAnyMore()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        bench.release(id);
        bench.must(bench.manager, id, car::LeaveUnreleased{LeavingHow::Trade, "sold to a dealer"});
        bench.must(bench.manager, id, car::BringBack{"the dealer sent it back"});
        QVERIFY(!bench.car(id).released);
        QVERIFY(!bench.car(id).heldAgainWhy.isEmpty());
        QCOMPARE(bench.status(id), CarStatus::ReadyForRelease);
    }

    void leaving_freesTheStockNumber_untilItIsWantedBack()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        bench.must(bench.manager, id, car::LeaveUnreleased{LeavingHow::Trade, "old"});
        const CarId other = bench.bringIn();
        Identity identity = bench.car(other).identity;
        identity.stockNumber = "K1";
        bench.must(bench.appraiser, other, car::CorrectIdentity{identity, "as on the key tag"});
        QCOMPARE(bench.ask(bench.manager, id, car::BringBack{"sent back"}),
                 no(RefusalId::StockNumberTaken));
    }

    void promise_isChangedByAManager()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        QCOMPARE(bench.ask(bench.appraiser, id, car::ChangePromise{QDate(2031, 3, 30), {}}),
                 no(RefusalId::NotAllowed));
        bench.must(bench.manager, id, car::ChangePromise{QDate(2031, 3, 30), "part late"});
        QCOMPARE(bench.car(id).promised, QDate(2031, 3, 30));
        QCOMPARE(bench.car(id).importance, PromiseImportance::Usual);
        // What it counts for, with the day as it was; the same once more says nothing new.
        const car::ChangePromise sold{QDate(2031, 3, 30), "sold", PromiseImportance::MustBeKept};
        QCOMPARE(bench.must(bench.manager, id, sold).size(), std::size_t{1});
        QCOMPARE(bench.car(id).importance, PromiseImportance::MustBeKept);
        QVERIFY(bench.must(bench.manager, id, sold).empty());
        // Another day leaves it as it was.
        bench.must(bench.manager, id, car::ChangePromise{QDate(2031, 4, 2), "part later still"});
        QCOMPARE(bench.car(id).importance, PromiseImportance::MustBeKept);
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestAround)
#include "tst_around.moc"
