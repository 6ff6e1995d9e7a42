// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "support/testmain.h"
#include "wheelwork.h"
#include "workhands.h"

#include <QQuickItem>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

/// A figure of this car by touch: entered, typed over while nobody read against it, and put right
/// by somebody else once somebody did. What came of it is read from the ledger.
class tst_FigureCorrection : public QObject
{
    Q_OBJECT

private slots:
    void init() { failOnQmlWarnings(); }
    void figure_isEntered_typedOver_andNotSignedAgainstByWhoDid_data();
    void figure_isEntered_typedOver_andNotSignedAgainstByWhoDid();
    void figureThatHoldsTheCar_isCorrectedBySomebodyElse_data();
    void figureThatHoldsTheCar_isCorrectedBySomebodyElse();
    void figure_isNotCorrectedByWhoEnteredIt();
};

namespace {

const QString torqueRow = QStringLiteral("wheel-torque");
const QString discRow = QStringLiteral("disc-front@brakes-front");
const QString front = QStringLiteral("brakes-front");
const QString whereFrom = QStringLiteral("Where it was looked up");
const QString isWrong = QStringLiteral("The figure is wrong");

/// A car on the lift, inspected by this person.
struct Inspection
{
    Inspection(BenchHouse& house, const char* who)
        : car(house.bringIn(QStringLiteral("K-7")))
    {
        BenchCrew crew(house);
        crew.finish(car, "arrival-check");
        crew.finish(car, "first-wash");
        house.clock.goOn(60); // it dries
        work = house.open(car, "lift-inspection");
        house.must(house.person(QString::fromLatin1(who)), car,
                   {car::ReadCautions{work}, car::StartWork{work}});
    }

    /// Runa types a nought too many, and Petra reads a good disc.
    void readAgainstWrongFigure(BenchHouse& house) const
    {
        const SiteState site = house.site();
        const std::vector<const Tool*> gauges = site.toolsOf(ToolKind::BrakeGauge);
        house.must(house.person(QStringLiteral("Runa")), car,
                   {car::SetFigure{work, QStringLiteral("disc-front"), PlaceId{front}, 2250,
                                   QStringLiteral("data book, brakes")}});
        house.must(house.person(QStringLiteral("Petra")), car,
                   {car::TakeReading{work, QStringLiteral("disc-front"), PlaceId{front},
                                     ReadingValue{230, {}},
                                     gauges.empty() ? ToolId{} : gauges.front()->id}});
    }

    [[nodiscard]] Operation now(BenchHouse& house) const { return *house.car(car).operation(work); }

    CarId car;
    OperationId work;
};

bool tapRow(KioskBench& bench, const QString& row)
{
    return bench.until([&] { return bench.ofType("ReadingLine", "rowId", row) != nullptr; }, row) &&
           bench.tap(bench.ofType("ReadingLine", "rowId", row));
}

/// What is to be entered beside the figure itself; the photo comes by itself.
bool enterCorrection(KioskBench& bench, WorkHands& hands)
{
    return bench.type(QStringLiteral("22.5")) &&
           bench.write(whereFrom, QStringLiteral("book page 7")) &&
           bench.tap(QStringLiteral("typed wrongly")) &&
           bench.tap(QStringLiteral("A photo that shows it")) &&
           hands.photo(QStringLiteral("book.jpg")) &&
           bench.untilSays(QStringLiteral("The photo is there"));
}

} // namespace

void tst_FigureCorrection::figure_isEntered_typedOver_andNotSignedAgainstByWhoDid_data()
{
    sizes();
}

void tst_FigureCorrection::figure_isEntered_typedOver_andNotSignedAgainstByWhoDid()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const Inspection inspection(house, "Tamsin");
    bench.show(size);
    WorkHands hands(bench);
    QVERIFY(goTo(bench, QStringLiteral("Tamsin Orr"), inspection.car, inspection.work));
    QVERIFY(tapRow(bench, torqueRow));
    QVERIFY(bench.type(QStringLiteral("12")));
    QVERIFY(bench.write(whereFrom, QStringLiteral("data sheet")));
    bench.shoot(QStringLiteral("figure-first"));
    QVERIFY(bench.tap(QStringLiteral("Enter")));
    const auto figures = [&] { return inspection.now(house).figures; };
    QVERIFY(bench.until([&] { return figures().size() == 1; }, QStringLiteral("the figure")));
    QCOMPARE(figures().front().value, 12);
    QCOMPARE(figures().front().source, QStringLiteral("data sheet"));

    QVERIFY(bench.untilSays(QStringLiteral("This car's figure: 12 N·m, data sheet, Tamsin Orr")));
    bench.shoot(QStringLiteral("figure-beside"));
    QVERIFY(bench.tap(isWrong));
    QVERIFY(bench.type(QStringLiteral("120")));
    bench.shoot(QStringLiteral("figure-typed-over"));
    QVERIFY(bench.tap(QStringLiteral("Enter")));
    QVERIFY(bench.until([&] { return figures().size() == 2; }, QStringLiteral("the second one")));
    QCOMPARE(figures().back().value, 120);
    QCOMPARE(figures().back().source, QStringLiteral("data sheet"));

    // Somebody else reads and signs against it.
    QVERIFY(bench.untilSays(QStringLiteral("This car's figure: 120 N·m, data sheet, Tamsin Orr")));
    QVERIFY(hands.typeReading(QStringLiteral("120")));
    OperationView& view = *bench.shell().operation();
    QVERIFY(bench.until([&] { return view.ask()->refused(); }, QStringLiteral("the refusal")));
    QCOMPARE(view.ask()->refusalId(), QStringLiteral("figure-by-signer"));
    QVERIFY(bench.untilSays(view.ask()->words()));
    bench.shoot(QStringLiteral("figure-by-signer"));
    QVERIFY(inspection.now(house).readings.empty());
}

void tst_FigureCorrection::figureThatHoldsTheCar_isCorrectedBySomebodyElse_data()
{
    sizes();
}

void tst_FigureCorrection::figureThatHoldsTheCar_isCorrectedBySomebodyElse()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const Inspection inspection(house, "Petra");
    inspection.readAgainstWrongFigure(house);
    QVERIFY(!house.open(inspection.car, "brake-discs").isNull());
    house.drop(QStringLiteral("book.jpg"));
    bench.show(size);
    WorkHands hands(bench);
    QVERIFY(goTo(bench, QStringLiteral("Tamsin Orr"), inspection.car, inspection.work));
    QVERIFY(tapRow(bench, discRow));
    QVERIFY(bench.untilSays(isWrong));
    bench.shoot(QStringLiteral("figure-stands"));
    QVERIFY(bench.tap(isWrong));
    // Nothing is asked of the workshop before it is whole.
    QVERIFY(bench.tap(QStringLiteral("Correct it")));
    QVERIFY(!bench.shell().operation()->ask()->refused());
    QVERIFY(enterCorrection(bench, hands));
    bench.shoot(QStringLiteral("figure-correct"));
    QVERIFY(bench.tap(QStringLiteral("Correct it")));
    QVERIFY(bench.until([&] { return inspection.now(house).figures.size() == 2; },
                        QStringLiteral("the correction")));
    const Figure figure = inspection.now(house).figures.back();
    QCOMPARE(figure.value, 225);
    QCOMPARE(figure.source, QStringLiteral("book page 7"));
    QCOMPARE(figure.correction, QStringLiteral("typed wrongly"));
    QCOMPARE(figure.by, house.person(QStringLiteral("Tamsin")));
    // What was read goes, and what only that had opened.
    QVERIFY(inspection.now(house).readings.front().superseded);
    QVERIFY(house.open(inspection.car, "brake-discs").isNull());
    QVERIFY(bench.untilGone(QStringLiteral("Correct it")));
    QVERIFY(bench.until(
        [&] {
            return !bench.ofType("ReadingLine", "rowId", discRow)->property("hasValue").toBool();
        },
        QStringLiteral("to be read again")));
    bench.shoot(QStringLiteral("figure-corrected"));
}

void tst_FigureCorrection::figure_isNotCorrectedByWhoEnteredIt()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const Inspection inspection(house, "Petra");
    inspection.readAgainstWrongFigure(house);
    house.drop(QStringLiteral("book.jpg"));
    bench.show();
    WorkHands hands(bench);
    QVERIFY(goTo(bench, QStringLiteral("Runa Talbeck"), inspection.car, inspection.work));
    QVERIFY(tapRow(bench, discRow));
    QVERIFY(bench.tap(isWrong));
    QVERIFY(enterCorrection(bench, hands));
    QVERIFY(bench.tap(QStringLiteral("Correct it")));
    OperationView& view = *bench.shell().operation();
    QVERIFY(bench.until([&] { return view.ask()->refused(); }, QStringLiteral("the refusal")));
    QCOMPARE(view.ask()->refusalId(), QStringLiteral("second-person-needed"));
    QVERIFY(bench.untilSays(view.ask()->words()));
    bench.shoot(QStringLiteral("figure-second-person"));
    QCOMPARE(inspection.now(house).figures.size(), std::size_t{1});
}

RAMPLIGHT_TEST(QGuiApplication, tst_FigureCorrection)
#include "tst_figurecorrection.moc"
