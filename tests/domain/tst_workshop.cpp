// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "support/testmain.h"
#include "workbench.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

// The one way in: a command is carried out once and whole, whoever is quicker.
class TestWorkshop : public QObject
{
    Q_OBJECT

private slots:
    void command_sentTwice_changesNothing()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const CarRequest request{bench.command(),
                                 bench.mechanic,
                                 id,
                                 {car::OpenOperation{"touch-in", at("bonnet"), "chips"}},
                                 false};
        QVERIFY(bench.workshop.run(request));
        const CarState once = bench.car(id);
        const auto again = bench.workshop.run(request);
        QVERIFY(again);
        QVERIFY(again->events.empty());
        QVERIFY(bench.car(id) == once);
    }

    void command_sentTwice_isNotCarriedOutAnewWhereItCouldBe()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const CarRequest toTheBack{
            bench.command(), bench.mechanic, id, {car::MoveCar{{}, QStringLiteral("back")}}, false};
        QVERIFY(bench.workshop.run(toTheBack));
        bench.must(bench.mechanic, id, car::MoveCar{{}, QStringLiteral("front")});
        const auto again = bench.workshop.run(toTheBack);
        QVERIFY(again);
        QVERIFY(again->events.empty());
        QCOMPARE(bench.car(id).parking, QStringLiteral("front"));
    }

    void request_withOneRefusedCommand_changesNothing()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const CarState before = bench.car(id);
        const auto outcome = bench.workshop.run(
            CarRequest{bench.command(),
                       bench.mechanic,
                       id,
                       {car::OpenOperation{"touch-in", at("bonnet"), "chips"}, car::Release{}},
                       false});
        QVERIFY(!outcome);
        QVERIFY(bench.car(id) == before);
    }

    void anotherKiosk_first_isDecidedAgain()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        bench.closeAll(id);
        bench.clock.pass(120);
        // While the release is on its way, somebody records a finding.
        bench.ledger.beforeNextAppend([&] { bench.found(id, "tyre-front-left", Condition::Cut); });
        QCOMPARE(bench.ask(bench.seller, id, car::Release{}, true), no(RefusalId::CarHeld));
        QVERIFY(!bench.car(id).released);
    }

    void store_thatFails_isSaidAndChangesNothing()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const CarState before = bench.car(id);
        bench.ledger.failWith(StoreErrorKind::Unavailable);
        const auto outcome = bench.workshop.run(
            CarRequest{bench.command(), bench.manager, id, {car::MoveCar{bench.lift, {}}}, false});
        bench.ledger.failWith(std::nullopt);
        QVERIFY(!outcome);
        QVERIFY(std::holds_alternative<StoreError>(outcome.error()));
        QVERIFY(bench.car(id) == before);
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestWorkshop)
#include "tst_workshop.moc"
