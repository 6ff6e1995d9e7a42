// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "planning/dice.h"
#include "planning/hindsight.h"
#include "support/testmain.h"

#include <QTest>

#include <cmath>

using namespace ramplight::planning;

namespace {

constexpr PlanMinute oneDay = 24 * 60;
constexpr PlanMinute noPromise = never;

/// Eight hours a day from the first minute on.
WorkTimes eightHours()
{
    std::vector<Span> spans;
    for (int d = 0; d < 90; ++d)
        spans.push_back({d * oneDay, d * oneDay + 480});
    return WorkTimes(spans);
}

/// Where so many minutes of work are done.
PlanMinute after(const WorkTimes& hours, double worked)
{
    return hours.fit(0, std::max(1, static_cast<int>(std::lround(worked))), Pause::Overnight).to;
}

/// A forecast whose runs lie about a number of minutes of work, with a spread of the logarithm.
CarForecast about(const WorkTimes& hours, double median, double spread, Dice& dice)
{
    CarForecast car;
    for (int run = 0; run < 400; ++run)
        car.runs.push_back(after(hours, median * std::exp(spread * dice.normal())));
    std::sort(car.runs.begin(), car.runs.end());
    tell(car, noPromise);
    return car;
}

/// How often what comes lies in an interval, in percent.
struct Inside
{
    double half = 0;
    double most = 0; ///< within90
};

Inside insideOf(const Hindsight& hindsight, const WorkTimes& hours, double median, Dice& dice,
                double truth, double spread)
{
    constexpr int cars = 2'000;
    Inside inside;
    for (int car = 0; car < cars; ++car) {
        const CarForecast said = about(hours, median, 0.1, dice);
        const CarForecast corrected = hindsight.corrected(said, hours, noPromise);
        const PlanMinute came = after(hours, median * truth * std::exp(spread * dice.normal()));
        inside.half += came >= corrected.within50.from && came <= corrected.within50.to;
        inside.most += came >= corrected.within90.from && came <= corrected.within90.to;
    }
    return {100 * inside.half / cars, 100 * inside.most / cars};
}

} // namespace

// What came of earlier forecasts corrects the next.
class TestHindsight : public QObject
{
    Q_OBJECT

private slots:
    void intervals_afterAWhile_holdAsOftenAsTheySay_data()
    {
        QTest::addColumn<double>("median");
        QTest::newRow("same day") << 200.0;
        QTest::newRow("some days") << 1'000.0;
        QTest::newRow("more") << 4'000.0;
    }

    void intervals_afterAWhile_holdAsOftenAsTheySay()
    {
        QFETCH(double, median);
        const WorkTimes hours = eightHours();
        Dice dice(11);
        // Said with a spread of 0.1; things come a fifth later, and three times as scattered.
        std::vector<SaidThen> past;
        for (int car = 0; car < 3'000; ++car) {
            const auto one =
                SaidThen::of(about(hours, median, 0.1, dice), hours,
                             after(hours, median * 1.2 * std::exp(0.3 * dice.normal())));
            QVERIFY(one);
            past.push_back(*one);
        }
        const Inside before = insideOf(Hindsight::none(), hours, median, dice, 1.2, 0.3);
        QVERIFY2(before.half < 25, qPrintable(QString::number(before.half)));
        const Inside now = insideOf(Hindsight(past), hours, median, dice, 1.2, 0.3);
        QVERIFY2(std::abs(now.half - 50) < 4, qPrintable(QString::number(now.half)));
        QVERIFY2(std::abs(now.most - 90) < 4, qPrintable(QString::number(now.most)));
    }

    void withoutAPast_intervalsAreWider_andTheMiddleHardlyMoves()
    {
        const WorkTimes hours = eightHours();
        Dice dice(12);
        const CarForecast said = about(hours, 1'000, 0.2, dice);
        const CarForecast corrected = Hindsight().corrected(said, hours, noPromise);
        QVERIFY(corrected.within90.from < said.within90.from);
        QVERIFY(corrected.within90.to > said.within90.to);
        QVERIFY(hours.minutesIn({said.ready50, corrected.ready50}) < 150);
        QVERIFY(std::is_sorted(corrected.runs.begin(), corrected.runs.end()));
        QCOMPARE(corrected.runs.size(), said.runs.size());
    }

    void promise_isHeldAgainstWhatIsSaidNow()
    {
        const WorkTimes hours = eightHours();
        Dice dice(13);
        const CarForecast said = about(hours, 1'000, 0.2, dice);
        const CarForecast corrected = Hindsight().corrected(said, hours, said.ready90);
        QVERIFY(corrected.late > 0.1);
        QVERIFY(corrected.late < 0.5);
    }

    void none_leavesItAsItWasDrawn()
    {
        const WorkTimes hours = eightHours();
        Dice dice(14);
        const CarForecast said = about(hours, 1'000, 0.2, dice);
        QCOMPARE(Hindsight::none().corrected(said, hours, noPromise).runs, said.runs);
    }

    void whatTakesNoChances_staysAsItIs_data()
    {
        QTest::addColumn<PlanMinute>("at");
        QTest::newRow("ready now") << 0;
        QTest::newRow("curing until the evening") << 900;
        QTest::newRow("no end") << never;
    }

    void whatTakesNoChances_staysAsItIs()
    {
        QFETCH(PlanMinute, at);
        CarForecast said;
        said.runs.assign(40, at);
        tell(said, noPromise);
        const CarForecast corrected = Hindsight().corrected(said, eightHours(), noPromise);
        QCOMPARE(corrected.runs, said.runs);
        QCOMPARE(corrected.ready90, at);
        QCOMPARE(SaidThen::of(said, eightHours(), 100).has_value(), at < never);
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestHindsight)
#include "tst_hindsight.moc"
