// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "support/testmain.h"
#include "wheelwork.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

namespace {

/// An electric car whose traction battery is hurt, and its repair.
struct Electric
{
    explicit Electric(BenchHouse& house)
        : car(house.bringIn(QStringLiteral("K-7")))
    {
        const PersonId odo = house.person(QStringLiteral("Odo"));
        CarFacts facts = house.car(car).facts;
        facts.has = {Fact::TractionBattery};
        house.must(odo, car,
                   {car::CorrectFacts{facts, QStringLiteral("it is electric"), house.photo()}});
        house.must(odo, car,
                   {car::RecordFinding{
                       finding("traction-battery", Condition::Dent, {Remedy::Repair}), {}}});
        BenchCrew(house).finish(car, "arrival-check");
        work = house.open(car, "high-voltage-repair");
    }

    /// Begun, and set apart by that person.
    void isolatedBy(BenchHouse& house, const char* firstName) const
    {
        house.must(house.person(QString::fromLatin1(firstName)), car,
                   {car::ReadCautions{work}, car::StartWork{work},
                    car::SetIsolation{work, QStringLiteral("key safe")}});
    }

    CarId car;
    OperationId work;
};

} // namespace

/// High voltage is set apart and lifted by touch: by who set it without a word, by another
/// qualified person only with the procedure, and by nobody else.
class tst_Isolation : public QObject
{
    Q_OBJECT

private slots:
    void init() { failOnQmlWarnings(); }
    void isSet_andLiftedByWhoSetIt_data() { sizes(); }
    void isSet_andLiftedByWhoSetIt();
    void ofSomebodyElse_wantsTheProcedure();
    void byWhoMayNot_isNotOffered();
};

void tst_Isolation::isSet_andLiftedByWhoSetIt()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const Electric electric(house);
    bench.show(size);
    QVERIFY(goTo(bench, QStringLiteral("Tamsin Orr"), electric.car, electric.work));
    // Not before the cautions are read and the work is begun.
    QVERIFY(bench.tap(QStringLiteral("High voltage is isolated")));
    QVERIFY(!house.car(electric.car).isolation);
    QVERIFY(bench.tap(QStringLiteral("I have read this: start")));
    QVERIFY(
        bench.until([&] { return house.car(electric.car).operation(electric.work)->isRunning(); },
                    QStringLiteral("timer")));
    bench.shoot(QStringLiteral("isolation-due"));
    QVERIFY(bench.tap(QStringLiteral("High voltage is isolated")));
    QVERIFY(bench.write(QStringLiteral("Where lock and key are kept"), QStringLiteral("key safe")));
    bench.shoot(QStringLiteral("isolation-set"));
    QVERIFY(bench.tap(QStringLiteral("It is isolated")));
    QVERIFY(bench.until([&] { return house.car(electric.car).isolation.has_value(); },
                        QStringLiteral("isolated")));
    QCOMPARE(house.car(electric.car).isolation->lockKeptAt, QStringLiteral("key safe"));
    QCOMPARE(house.car(electric.car).isolation->by, house.person(QStringLiteral("Tamsin")));
    QVERIFY(bench.untilSays(
        QStringLiteral("Do not move, drive or power: high voltage is isolated"))); // over her work

    QVERIFY(bench.tap(QStringLiteral("Lift the isolation")));
    QVERIFY(bench.untilSays(
        QStringLiteral("The high voltage can be live again from then on. Everybody clear of the "
                       "car, its parts and covers back, by the vehicle maker's procedure. You set "
                       "it.")));
    bench.shoot(QStringLiteral("isolation-lift"));
    QVERIFY(bench.tap(QStringLiteral("Lift it")));
    QVERIFY(
        bench.until([&] { return !house.car(electric.car).isolation; }, QStringLiteral("lifted")));
}

void tst_Isolation::ofSomebodyElse_wantsTheProcedure()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const Electric electric(house);
    electric.isolatedBy(house, "Tamsin");
    bench.show();
    QVERIFY(goTo(bench, QStringLiteral("Ivo Kesteven"), electric.car, electric.work));
    QVERIFY(bench.tap(QStringLiteral("Lift the isolation")));
    // Nothing happens without it.
    QVERIFY(bench.tap(QStringLiteral("Lift it")));
    QVERIFY(house.car(electric.car).isolation);
    QVERIFY(bench.write(QStringLiteral("Procedure"), QStringLiteral("maker sheet 12")));
    QVERIFY(bench.tap(QStringLiteral("Lift it")));
    QVERIFY(
        bench.until([&] { return !house.car(electric.car).isolation; }, QStringLiteral("lifted")));
}

void tst_Isolation::byWhoMayNot_isNotOffered()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const Electric electric(house);
    electric.isolatedBy(house, "Tamsin");
    bench.show();
    // A mechanic, and not qualified.
    QVERIFY(goTo(bench, QStringLiteral("Petra Lowrie"), electric.car, electric.work));
    QVERIFY(bench.untilSays(QStringLiteral("Lift the isolation")));
    QVERIFY(!bench.shell().operation()->liftOffer().can);
    QVERIFY(bench.tap(QStringLiteral("Lift the isolation")));
    QVERIFY(!bench.says(QStringLiteral("Lift it")));
    QVERIFY(house.car(electric.car).isolation);
}

RAMPLIGHT_TEST(QGuiApplication, tst_Isolation)
#include "tst_isolation.moc"
