// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "support/testmain.h"
#include "workbench.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

// What happens around the work: bays, other kiosks, identity, double entries, leaving. What it
// waits for: tst_waiting.cpp.
class TestAround : public QObject
{
    Q_OBJECT

private slots:
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

    void vin_isKeptInOneSpelling()
    {
        Workbench bench;
        Identity identity = bench.car(bench.bringIn()).identity;
        identity.stockNumber = QStringLiteral("K900");
        identity.vin = QStringLiteral("zz0-zzz005 00000456");
        const CarId id{QStringLiteral("spelled")};
        bench.must(bench.appraiser, id, car::BringIn{identity, {}, QDate(2031, 3, 20), {}});
        QCOMPARE(bench.car(id).identity.vin, QStringLiteral("ZZ0ZZZ00500000456"));
        identity.vin = QStringLiteral("ZZ0ZZZ005-00000457");
        bench.must(bench.appraiser, id, car::CorrectIdentity{identity, "misread"});
        QCOMPARE(bench.car(id).identity.vin, QStringLiteral("ZZ0ZZZ00500000457"));
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
