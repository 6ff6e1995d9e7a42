// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "benchcrew.h"
#include "failedwrite.h"
#include "support/testmain.h"
#include "walkhands.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

/// The same of writes about a car and about the house: a signature to sale, a place to stand, a
/// finding, a car that comes in, a bay.
class tst_FailedCarWrites : public QObject
{
    Q_OBJECT

private slots:
    void init() { failOnQmlWarnings(); }
    void release_isGivenOnce_andAsksForNoSecondPin_data() { waysToFail(); }
    void release_isGivenOnce_andAsksForNoSecondPin();
    void parkingPlace_staysTyped_andIsWrittenOnce_data() { waysToFail(); }
    void parkingPlace_staysTyped_andIsWrittenOnce();
    void finding_isRecordedOnce_data() { waysToFail(); }
    void finding_isRecordedOnce();
    void carThatComesIn_staysOnTheForm_andIsBroughtInOnce_data() { waysToFail(); }
    void carThatComesIn_staysOnTheForm_andIsBroughtInOnce();
    void bay_staysOnItsSheet_andIsWrittenOnce_data() { waysToFail(); }
    void bay_staysOnItsSheet_andIsWrittenOnce();
};

void tst_FailedCarWrites::release_isGivenOnce_andAsksForNoSecondPin()
{
    QFETCH(const QSize, size);
    QFETCH(const WriteFault, fault);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const CarId car = house.bringIn(QStringLiteral("K-7"));
    BenchCrew(house).makeReady(car);
    const auto releases = [&] {
        const auto history = house.desk().history(car).result();
        return std::ranges::count_if(*history, [](const CarEnvelope& entry) {
            return std::holds_alternative<CarReleased>(entry.event);
        });
    };
    bench.show(size);
    QVERIFY(bench.tap(QStringLiteral("Who are you?")));
    QVERIFY(bench.signIn(QStringLiteral("Odo Farlane")));
    QVERIFY(bench.openCar(QStringLiteral("K-7")));
    QVERIFY(bench.tap(QStringLiteral("Release")));
    QVERIFY(bench.tap(QStringLiteral("Sign and release to sale")));
    QVERIFY(bench.until([&] { return !bench.ofType("PinPad").empty(); },
                        QStringLiteral("the PIN again")));

    house.desk().failOnce(fault);
    QVERIFY(bench.enterPin());
    QVERIFY(isTold(bench, bench.shell().car()->ask()));
    bench.shoot(QStringLiteral("failed-release"));
    // What was done to the car is read below it, not through it.
    const auto boxOf = [](const QQuickItem* item) {
        return item->mapRectToScene(item->boundingRect());
    };
    const QQuickItem* done = bench.find(bench.shell().car()->signedForWords().front());
    QVERIFY(done != nullptr);
    QVERIFY(!boxOf(bench.ofType("Banner").front()).intersects(boxOf(done)));
    QVERIFY(!bench.ofType("ReleaseScreen").empty());
    QCOMPARE(releases(), fault == WriteFault::AnswerLost ? 1 : 0);

    // The PIN was entered for this very signature.
    QVERIFY(bench.tap(tryAgain));
    QVERIFY(
        bench.until([&] { return bench.shell().record()->made(); }, QStringLiteral("the record")));
    QCOMPARE(releases(), 1);
    QCOMPARE(house.car(car).released->by, house.person(QStringLiteral("Odo")));
}

void tst_FailedCarWrites::parkingPlace_staysTyped_andIsWrittenOnce()
{
    QFETCH(const QSize, size);
    QFETCH(const WriteFault, fault);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const CarId car = house.bringIn(QStringLiteral("K-7"));
    const QString label = QStringLiteral("Or a parking place");
    bench.show(size);
    QVERIFY(bench.tap(QStringLiteral("Who are you?")));
    QVERIFY(bench.signIn(QStringLiteral("Bram Holloway")));
    QVERIFY(bench.openCar(QStringLiteral("K-7")));
    QVERIFY(bench.tap(QStringLiteral("Move it")));
    QVERIFY(bench.write(label, QStringLiteral("row 2")));

    house.desk().failOnce(fault);
    QVERIFY(bench.tap(QStringLiteral("Park it there")));
    QVERIFY(isTold(bench, bench.shell().car()->ask()));
    bench.shoot(QStringLiteral("failed-move"));
    QCOMPARE(typedIn(bench, "Field", label), QStringLiteral("row 2"));
    QCOMPARE(house.car(car).parking == QLatin1StringView("row 2"), fault == WriteFault::AnswerLost);

    const qint64 before = house.car(car).seq;
    QVERIFY(bench.tap(tryAgain));
    QVERIFY(bench.untilGone(label));
    QCOMPARE(house.car(car).seq, before + (fault == WriteFault::AnswerLost ? 0 : 1));
    QCOMPARE(house.car(car).parking, QStringLiteral("row 2"));
}

void tst_FailedCarWrites::finding_isRecordedOnce()
{
    QFETCH(const QSize, size);
    QFETCH(const WriteFault, fault);
    KioskBench bench(BenchHouse::Start::House);
    Arrived car(bench);
    QVERIFY(car.open(size));
    QVERIFY(car.hands.place("wheel-front-left"));
    QVERIFY(car.hands.condition(Condition::Kerbed));
    QVERIFY(car.hands.severity(Severity::Moderate));

    bench.house().desk().failOnce(fault);
    WalkRound& walk = *bench.shell().walkRound();
    QVERIFY(bench.tap(bench.titleOf(walk.remedies(), QStringLiteral("refurbish"))));
    QVERIFY(isTold(bench, walk.ask()));
    bench.shoot(QStringLiteral("failed-finding"));
    QCOMPARE(car.now().findings.size(), std::size_t{fault == WriteFault::AnswerLost ? 1U : 0U});

    QVERIFY(bench.tap(tryAgain));
    QVERIFY(bench.until([&] { return !walk.ask()->busy() && !walk.ask()->refused(); },
                        QStringLiteral("written")));
    QCOMPARE(car.now().findings.size(), std::size_t{1});
    QCOMPARE(car.now().findings.begin()->second.data().condition, Condition::Kerbed);
}

void tst_FailedCarWrites::carThatComesIn_staysOnTheForm_andIsBroughtInOnce()
{
    QFETCH(const QSize, size);
    QFETCH(const WriteFault, fault);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    bench.show(size);
    QVERIFY(bench.tap(QStringLiteral("Who are you?")));
    QVERIFY(bench.signIn(QStringLiteral("Odo Farlane")));
    QVERIFY(bench.tap(QStringLiteral("Bring a car in")));
    for (const auto& [label, text] :
         {std::pair{"Stock number", "K-7"}, std::pair{"Make", "Orrel"}, std::pair{"Model", "Tarn"}})
        QVERIFY(bench.write(QString::fromLatin1(label), QString::fromLatin1(text)));
    ArrivalView& view = *bench.shell().arrival();
    QVERIFY(bench.tap(bench.titleOf(view.identity()->shapes(), QStringLiteral("hatch"))));
    QVERIFY(bench.tap(bench.titleOf(view.days(), QStringLiteral("2031-05-12"))));

    house.desk().failOnce(fault);
    QVERIFY(bench.tap(QStringLiteral("Bring it in and walk round")));
    QVERIFY(isTold(bench, view.ask()));
    bench.shoot(QStringLiteral("failed-arrival"));
    QCOMPARE(typedIn(bench, "Field", QStringLiteral("Make")), QStringLiteral("Orrel"));
    QCOMPARE(house.cards().size(), std::size_t{fault == WriteFault::AnswerLost ? 1U : 0U});

    QVERIFY(bench.tap(tryAgain));
    QVERIFY(bench.until([&] { return !bench.ofType("WalkRoundScreen").empty(); },
                        QStringLiteral("the walk-round")));
    QCOMPARE(house.cards().size(), std::size_t{1});
    QCOMPARE(house.cards().front().identity.make, QStringLiteral("Orrel"));
}

void tst_FailedCarWrites::bay_staysOnItsSheet_andIsWrittenOnce()
{
    QFETCH(const QSize, size);
    QFETCH(const WriteFault, fault);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const std::size_t before = house.site().bays.size();
    bench.show(size);
    QVERIFY(bench.tap(QStringLiteral("Who are you?")));
    QVERIFY(bench.signIn(QStringLiteral("Odo Farlane")));
    QVERIFY(bench.tap(QStringLiteral("Staff and bays")));
    QVERIFY(bench.tap(QStringLiteral("Add a bay")));
    QVERIFY(bench.write(QStringLiteral("Number"), QStringLiteral("7")));
    QVERIFY(bench.write(QStringLiteral("Name"), QStringLiteral("tents")));
    QVERIFY(bench.tap(bench.titleOf(bench.shell().staff()->bayKinds(), QStringLiteral("valet"))));
    QVERIFY(bench.tap(QStringLiteral("Save")));
    QVERIFY(bench.until([&] { return !bench.ofType("PinPad").empty(); },
                        QStringLiteral("the PIN again")));

    house.desk().failOnce(fault);
    QVERIFY(bench.enterPin());
    QVERIFY(isTold(bench, bench.shell().staff()->ask()));
    bench.shoot(QStringLiteral("failed-bay"));
    QCOMPARE(bench.shell().staff()->property("bayName").toString(), QStringLiteral("tents"));
    QCOMPARE(house.site().bays.size(), before + (fault == WriteFault::AnswerLost ? 1 : 0));

    QVERIFY(bench.tap(tryAgain));
    QVERIFY(bench.until([&] { return !bench.shell().staff()->ask()->refused(); },
                        QStringLiteral("written")));
    QVERIFY(bench.until([&] { return house.site().bays.size() == before + 1; },
                        QStringLiteral("the bay")));
    QCOMPARE(house.site().bays.rbegin()->second.name, QStringLiteral("tents"));
}

RAMPLIGHT_TEST(QGuiApplication, tst_FailedCarWrites)
#include "tst_failedcarwrites.moc"
