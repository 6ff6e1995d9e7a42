// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "support/testmain.h"
#include "wheelwork.h"
#include "workhands.h"

#include <QQuickItem>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

/// A reading that is there already, by touch: typed over, measured again, or put right by somebody
/// else. What came of it is read from the ledger.
class tst_ReadingCorrection : public QObject
{
    Q_OBJECT

private slots:
    void init() { failOnQmlWarnings(); }
    void ownSlip_isTypedOver();
    void safetyReading_isPutRightBySomebodyElse_withReasonAndPhoto_data();
    void safetyReading_isPutRightBySomebodyElse_withReasonAndPhoto();
    void safetyReading_isNotPutRightByWhoTookIt();
    void readingThatHoldsTheCar_isTakenAgain_onceTheWorkWasBegunAgain();
};

namespace {

constexpr auto firstTyre = "tyre-front-left";

/// Tyres that Petra measures; the inner groove of the first one has been read.
struct Survey
{
    Survey(BenchHouse& house, int tenths)
        : car(house.bringIn(QStringLiteral("K-7")))
        , petra(house.person(QStringLiteral("Petra")))
    {
        BenchCrew(house).finish(car, "arrival-check");
        work = house.open(car, "tyre-survey");
        house.must(
            petra, car,
            {car::ReadCautions{work}, car::StartWork{work},
             car::TakeReading{work, QStringLiteral("tread-inner"),
                              PlaceId{QString::fromLatin1(firstTyre)}, ReadingValue{tenths, {}}}});
    }

    [[nodiscard]] std::vector<Reading> readings(BenchHouse& house) const
    {
        return house.car(car).operation(work)->readings;
    }

    CarId car;
    PersonId petra;
    OperationId work;
};

/// Touches the first reading, which stands, and says that it was wrong.
bool sayMisread(KioskBench& bench)
{
    const QString stands = bench.shell().operation()->readings()->rows().front().standsWords;
    return bench.tap(bench.ofType("ReadingLine").front()) && bench.untilSays(stands) &&
           bench.tap(QStringLiteral("It was misread"));
}

} // namespace

void tst_ReadingCorrection::ownSlip_isTypedOver()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const Survey survey(house, 52);
    bench.show();
    WorkHands hands(bench);
    QVERIFY(goTo(bench, QStringLiteral("Petra Lowrie"), survey.car, survey.work));
    QVERIFY(bench.tap(bench.ofType("ReadingLine").front()));
    QVERIFY(hands.typeReading(QStringLiteral("5.3")));
    QVERIFY(bench.until([&] { return survey.readings(house).size() == 2; },
                        QStringLiteral("the second reading")));
    const std::vector<Reading> readings = survey.readings(house);
    QVERIFY(readings.front().superseded);
    QCOMPARE(readings.back().value.number, std::optional(53));
}

void tst_ReadingCorrection::safetyReading_isPutRightBySomebodyElse_withReasonAndPhoto_data()
{
    sizes();
}

void tst_ReadingCorrection::safetyReading_isPutRightBySomebodyElse_withReasonAndPhoto()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const Survey survey(house, 12);
    QVERIFY(!house.open(survey.car, "tyre-fit", firstTyre).isNull());
    house.drop(QStringLiteral("tread.jpg"));
    bench.show(size);
    WorkHands hands(bench);
    QVERIFY(goTo(bench, QStringLiteral("Tamsin Orr"), survey.car, survey.work));
    QVERIFY(sayMisread(bench));
    bench.shoot(QStringLiteral("operation-misread"));
    QVERIFY(bench.type(QStringLiteral("5.2")));
    QVERIFY(bench.tap(QStringLiteral("typed wrongly")));
    QVERIFY(bench.tap(QStringLiteral("A photo that shows it")));
    QVERIFY(hands.photo(QStringLiteral("tread.jpg")));
    QVERIFY(bench.untilSays(QStringLiteral("The photo is there")));
    bench.shoot(QStringLiteral("operation-correct"));
    QVERIFY(bench.tap(QStringLiteral("Correct it")));
    QVERIFY(bench.until([&] { return survey.readings(house).size() == 2; },
                        QStringLiteral("the correction")));
    const std::vector<Reading> readings = survey.readings(house);
    QCOMPARE(readings.front().value.number, std::optional(12));
    QVERIFY(readings.front().superseded);
    QCOMPARE(readings.back().value.number, std::optional(52));
    QCOMPARE(readings.back().by, house.person(QStringLiteral("Tamsin")));
    QCOMPARE(readings.back().correction, QStringLiteral("typed wrongly"));
    // What only the wrong digit had opened goes.
    QVERIFY(house.open(survey.car, "tyre-fit", firstTyre).isNull());
    QVERIFY(bench.untilGone(QStringLiteral("Correct it")));
}

void tst_ReadingCorrection::safetyReading_isNotPutRightByWhoTookIt()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const Survey survey(house, 12);
    house.drop(QStringLiteral("tread.jpg"));
    bench.show();
    WorkHands hands(bench);
    QVERIFY(goTo(bench, QStringLiteral("Petra Lowrie"), survey.car, survey.work));
    QVERIFY(sayMisread(bench));
    QVERIFY(bench.type(QStringLiteral("5.2")));
    // Nothing is asked of the workshop before it is whole.
    QVERIFY(bench.tap(QStringLiteral("Correct it")));
    QVERIFY(!bench.shell().operation()->ask()->refused());
    QVERIFY(bench.tap(QStringLiteral("misread")));
    QVERIFY(bench.tap(QStringLiteral("A photo that shows it")));
    QVERIFY(hands.photo(QStringLiteral("tread.jpg")));
    QVERIFY(bench.untilSays(QStringLiteral("The photo is there")));
    QVERIFY(bench.tap(QStringLiteral("Correct it")));
    OperationView& view = *bench.shell().operation();
    QVERIFY(bench.until([&] { return view.ask()->refused(); }, QStringLiteral("the refusal")));
    QCOMPARE(view.ask()->refusalId(), QStringLiteral("second-person-needed"));
    QVERIFY(bench.untilSays(view.ask()->words()));
    bench.shoot(QStringLiteral("operation-second-person"));
    QCOMPARE(survey.readings(house).size(), std::size_t{1});
}

void tst_ReadingCorrection::readingThatHoldsTheCar_isTakenAgain_onceTheWorkWasBegunAgain()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const CarId car = house.bringIn(QStringLiteral("K-7"));
    const PersonId tamsin = house.person(QStringLiteral("Tamsin"));
    BenchCrew(house).finish(car, "arrival-check");
    house.must(house.person(QStringLiteral("Runa")), car,
               {car::OpenOperation{QStringLiteral("battery-service"), wholeCar(),
                                   QStringLiteral("slow to start")}});
    const OperationId work = house.open(car, "battery-service");
    house.must(tamsin, car,
               {car::ReadCautions{work}, car::StartWork{work},
                car::TakeReading{work, QStringLiteral("rest"), {}, ReadingValue{110, {}}}});
    bench.show();
    WorkHands hands(bench);
    QVERIFY(goTo(bench, QStringLiteral("Tamsin Orr"), car, work));
    OperationView& view = *bench.shell().operation();
    const auto stands = [&] { return view.readings()->rows().front().standsWords; };
    QVERIFY2(stands().contains(QStringLiteral("pause, put it right, go on with it")),
             qPrintable(stands()));
    QVERIFY(bench.tap(bench.ofType("ReadingLine").front()));
    QVERIFY(bench.untilSays(stands()));
    QVERIFY(bench.tap(QStringLiteral("Close")));
    house.clock.goOn(5);
    QVERIFY(bench.tap(QStringLiteral("Pause")));
    QVERIFY(bench.tap(QStringLiteral("Go on with it")));
    QVERIFY(bench.until([&] { return stands().isEmpty(); }, QStringLiteral("begun again")));
    QVERIFY(bench.tap(bench.ofType("ReadingLine").front()));
    QVERIFY(hands.typeReading(QStringLiteral("12.7")));
    QVERIFY(bench.until([&] { return house.car(car).operation(work)->readings.size() == 2; },
                        QStringLiteral("the second reading")));
    QCOMPARE(house.car(car).operation(work)->readings.back().outcome, ReadingOutcome::Inside);
}

RAMPLIGHT_TEST(QGuiApplication, tst_ReadingCorrection)
#include "tst_readingcorrection.moc"
