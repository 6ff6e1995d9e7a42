// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "support/testmain.h"
#include "wheelwork.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

/// Work that takes another turn, by touch: a check that fails, a signature by mistake, what is left
/// for the buyer to read, what was added and is not needed.
class tst_TurnsOfWork : public QObject
{
    Q_OBJECT

private slots:
    void init() { failOnQmlWarnings(); }
    void failedCheck_goesBackToItsDoer();
    void checkOfEverything_saysWhichWorkGoesBack_data() { sizes(); }
    void checkOfEverything_saysWhichWorkGoesBack();
    void checkOfTheOnlyWorkDone_sendsThatBack();
    void signedByMistake_isOpenedAgain_andItsCheckIsOwedOnceMore();
    void cosmeticWork_isLeft_inWordsForTheBuyer_data() { sizes(); }
    void cosmeticWork_isLeft_inWordsForTheBuyer();
    void addedByHand_isTakenOut();
};

void tst_TurnsOfWork::failedCheck_goesBackToItsDoer()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const Wheel wheel(house);
    BenchCrew crew(house);
    const OperationId doer = house.open(wheel.car, "wheels-on");
    // All but what the check is to come before.
    crew.finishAll(wheel.car, QStringLiteral("wheel-fixing-check road-test full-valet sale-photos "
                                             "final-check")
                                  .split(QLatin1Char(' ')));
    const OperationId check = house.open(wheel.car, "wheel-fixing-check");
    QVERIFY(!check.isNull());
    bench.show();
    QVERIFY(goTo(bench, QStringLiteral("Ivo Kesteven"), wheel.car, check));
    QVERIFY(bench.tap(QStringLiteral("Something in the way")));
    QVERIFY(bench.tap(QStringLiteral("The check fails")));
    QVERIFY(bench.write(QStringLiteral("What is to be put right"), QStringLiteral("one is loose")));
    bench.shoot(QStringLiteral("turns-check-fails"));
    QVERIFY(bench.tap(QStringLiteral("Back to its doer")));
    QVERIFY(bench.until([&] { return house.car(wheel.car).operation(doer)->isOpen(); },
                        QStringLiteral("the work open again")));
    QVERIFY(house.car(wheel.car).operation(check)->signatures.empty());
}

void tst_TurnsOfWork::checkOfEverything_saysWhichWorkGoesBack()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const Wheel wheel(house);
    BenchCrew(house).finishAll(wheel.car, {QStringLiteral("final-check")});
    const OperationId check = house.open(wheel.car, "final-check");
    bench.show(size);
    QVERIFY(goTo(bench, QStringLiteral("Ivo Kesteven"), wheel.car, check));
    QVERIFY(bench.tap(QStringLiteral("Something in the way")));
    QVERIFY(bench.tap(QStringLiteral("The check fails")));
    QVERIFY(bench.untilSays(QStringLiteral("What goes back")));
    QVERIFY(
        bench.write(QStringLiteral("What is to be put right"), QStringLiteral("a run in the lip")));
    QVERIFY(bench.says(QStringLiteral("choose what goes back")));
    bench.shoot(QStringLiteral("turns-final-check-fails"));
    QVERIFY(bench.tap(QStringLiteral("Back to its doer"))); // nothing is chosen: nothing happens
    QVERIFY(!bench.shell().operation()->ask()->refused());
    QVERIFY(bench.tap(bench.titleOf(bench.shell().operation()->checkedWork(),
                                    QString::number(wheel.work.value))));
    bench.shoot(QStringLiteral("turns-final-check-chosen"));
    QVERIFY(bench.tap(QStringLiteral("Back to its doer")));
    QVERIFY(bench.until([&] { return wheel.now(house).isOpen(); },
                        QStringLiteral("the work open again")));
    QCOMPARE(wheel.now(house).sentBackWhy, QStringLiteral("a run in the lip"));
}

void tst_TurnsOfWork::checkOfTheOnlyWorkDone_sendsThatBack()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const CarId car = house.bringIn(QStringLiteral("K-7"));
    const OperationId done = house.open(car, "arrival-check");
    BenchCrew(house).finish(car, "arrival-check");
    const OperationId check = house.open(car, "final-check");
    bench.show();
    QVERIFY(goTo(bench, QStringLiteral("Ivo Kesteven"), car, check));
    QVERIFY(bench.tap(QStringLiteral("Something in the way")));
    QVERIFY(bench.tap(QStringLiteral("The check fails")));
    QVERIFY(bench.untilSays(QStringLiteral("What goes back")));
    QVERIFY(
        bench.write(QStringLiteral("What is to be put right"), QStringLiteral("a key is missing")));
    bench.shoot(QStringLiteral("turns-only-work-fails"));
    QVERIFY(bench.tap(QStringLiteral("Back to its doer")));
    QVERIFY(bench.until([&] { return house.car(car).operation(done)->isOpen(); },
                        QStringLiteral("the work open again")));
}

void tst_TurnsOfWork::signedByMistake_isOpenedAgain_andItsCheckIsOwedOnceMore()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const Wheel wheel(house);
    BenchCrew crew(house);
    crew.finish(wheel.car, "wheel-refurb");
    QVERIFY(!wheel.now(house).isOpen());
    const OperationId check = house.open(wheel.car, "wheel-true-check");
    QVERIFY(!check.isNull());
    bench.show();
    QVERIFY(goTo(bench, QStringLiteral("Odo Farlane"), wheel.car, wheel.work));
    QVERIFY(bench.tap(QStringLiteral("Something in the way")));
    QVERIFY(bench.tap(QStringLiteral("Open it again")));
    QVERIFY(bench.write(QStringLiteral("Why"), QStringLiteral("the other wheel")));
    QVERIFY(bench.tap(QStringLiteral("Open it again")));
    QVERIFY(bench.until([&] { return wheel.now(house).isOpen(); }, QStringLiteral("open again")));
    QVERIFY(!house.car(wheel.car).operation(check)->isOpen());
}

void tst_TurnsOfWork::cosmeticWork_isLeft_inWordsForTheBuyer()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const CarId car = house.bringIn(
        QStringLiteral("K-7"), {finding("front-door-left", Condition::Dent, {Remedy::DentRepair})});
    const OperationId work = house.open(car, "dent-push");
    bench.show(size);
    QVERIFY(goTo(bench, QStringLiteral("Odo Farlane"), car, work));
    QVERIFY(bench.tap(QStringLiteral("Something in the way")));
    QVERIFY(bench.tap(QStringLiteral("Leave it as it is")));
    // The buyer's page is one page: more than it has room for is not taken.
    QQuickItem* words = bench.ofType("NoteField", "label", QStringLiteral("What the buyer reads"));
    QVERIFY(words != nullptr);
    words->setProperty("text", QStringLiteral("small ").repeated(100) + QStringLiteral("dents"));
    QVERIFY(bench.untilSays(QStringLiteral("605 of 600 characters")));
    bench.shoot(QStringLiteral("turns-left-too-long"));
    QVERIFY(bench.tap(QStringLiteral("Leave it")));
    QVERIFY(bench.says(QStringLiteral("605 of 600 characters")));
    QVERIFY(house.car(car).operation(work)->isOpen());
    words->setProperty("text", QString());
    QVERIFY(bench.write(QStringLiteral("What the buyer reads"), QStringLiteral("a small dent")));
    QVERIFY(bench.untilSays(QStringLiteral("12 of 600 characters")));
    bench.shoot(QStringLiteral("turns-left"));
    QVERIFY(bench.tap(QStringLiteral("Leave it")));
    QVERIFY(bench.until(
        [&] { return house.car(car).operation(work)->state == OperationState::LeftAsIs; },
        QStringLiteral("left")));
}

void tst_TurnsOfWork::addedByHand_isTakenOut()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const CarId car = house.bringIn(QStringLiteral("K-7"));
    house.must(
        house.person(QStringLiteral("Runa")), car,
        {car::OpenOperation{QStringLiteral("odour-treat"), wholeCar(), QStringLiteral("smoke")}});
    const OperationId work = house.open(car, "odour-treat");
    QVERIFY(!work.isNull());
    bench.show();
    QVERIFY(goTo(bench, QStringLiteral("Runa Talbeck"), car, work));
    QVERIFY(bench.tap(QStringLiteral("Something in the way")));
    QVERIFY(bench.tap(QStringLiteral("Take it out")));
    QVERIFY(bench.write(QStringLiteral("Why"), QStringLiteral("another car")));
    QVERIFY(bench.tap(QStringLiteral("Take it out")));
    QVERIFY(bench.until([&] { return !house.car(car).operation(work)->isOpen(); },
                        QStringLiteral("taken out")));
    QCOMPARE(house.car(car).operation(work)->state, OperationState::Withdrawn);
}

RAMPLIGHT_TEST(QGuiApplication, tst_TurnsOfWork)
#include "tst_turnsofwork.moc"
