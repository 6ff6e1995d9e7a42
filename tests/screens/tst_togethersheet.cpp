// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "support/testmain.h"
#include "wheelwork.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

/// An oven load at the wall: wheels of two cars, one with a reading of its own, one signature.
class tst_TogetherSheet : public QObject
{
    Q_OBJECT

private slots:
    void init() { failOnQmlWarnings(); }
    void load_isSignedInOneGo_data();
    void load_isSignedInOneGo();
    void wheelsMeasuredWithARegisteredTool_areSignedInOneGo();
    void oneThatLacksItsPhotos_isNamed_andNothingIsSigned();
    void tag_ofAnotherWheel_isSaidOnTheScreen();
};

namespace {

/// Two cars with a wheel off each, all but signed: the first in Bram's hands.
struct Load
{
    explicit Load(BenchHouse& house, bool secondHasPhotos = true)
        : first(house)
        , second(
              house.bringIn(QStringLiteral("K-8"),
                            {finding("wheel-rear-right", Condition::Kerbed, {Remedy::Refurbish})}))
        , bram(house.person(QStringLiteral("Bram")))
    {
        BenchCrew crew(house);
        crew.finish(second, "arrival-check");
        crew.finish(second, "wheels-off");
        secondWork = house.open(second, "wheel-refurb");
        house.must(bram, first.car, {car::ReadCautions{first.work}, car::StartWork{first.work}});
        photograph(house, first.car, first.work);
        if (secondHasPhotos)
            photograph(house, second, secondWork);
        const Operation begun = first.now(house);
        for (const ReadingSpec& spec : begun.spec->readings) {
            ReadingValue value;
            if (spec.kind == ReadingKind::Choice)
                value.text = spec.options.front().id;
            else
                value.number = spec.key == QLatin1String("metal-temperature") ? 170 : 2;
            house.must(bram, first.car, {car::TakeReading{first.work, spec.key, {}, value}});
        }
        house.clock.goOn(91);
    }

    void photograph(BenchHouse& house, const CarId& car, OperationId work) const
    {
        const std::vector<PhotoSpec> photos = house.car(car).operation(work)->spec->photos;
        for (const PhotoSpec& spec : photos)
            house.must(bram, car, {car::AttachPhoto{house.photo(), spec.moment, {}, work, {}}});
    }

    [[nodiscard]] Operation other(BenchHouse& house) const
    {
        return *house.car(second).operation(secondWork);
    }

    Wheel first;
    CarId second;
    PersonId bram;
    OperationId secondWork;
};

} // namespace

void tst_TogetherSheet::load_isSignedInOneGo_data()
{
    QTest::addColumn<QSize>("size");
    QTest::newRow("wide") << QSize(1920, 1080);
    QTest::newRow("tall") << QSize(1080, 1920);
}

void tst_TogetherSheet::load_isSignedInOneGo()
{
    QFETCH(QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const Load load(house);
    bench.show(size);
    QVERIFY(goTo(bench, QStringLiteral("Bram Holloway"), load.first.car, load.first.work));
    QVERIFY(bench.tap(QStringLiteral("Sign off with others")));
    QVERIFY(bench.untilSays(QStringLiteral("Choose the wheels that were done with this one.")));
    QVERIFY(bench.tap(QStringLiteral("K-8 · off side rear wheel")));
    QVERIFY(bench.untilSays(QStringLiteral("Your minutes are split evenly over 2 wheels.")));
    bench.shoot(QStringLiteral("together"));
    QVERIFY(bench.tap(QStringLiteral("Highest temperature of the metal")));
    QVERIFY(bench.untilSays(
        QStringLiteral("K-8 · off side rear wheel: Highest temperature of the metal")));
    bench.shoot(QStringLiteral("together-own"));
    QVERIFY(bench.type(QStringLiteral("175")));
    QVERIFY(bench.tap(QStringLiteral("Done")));
    QVERIFY(bench.untilSays(QStringLiteral("175 °C")));
    QVERIFY(bench.tap(QStringLiteral("Sign all of them")));
    QVERIFY(bench.until([&] { return load.other(house).state == OperationState::Closed; },
                        QStringLiteral("signed")));
    const Operation one = load.first.now(house);
    const Operation two = load.other(house);
    QCOMPARE(one.state, OperationState::Closed);
    QCOMPARE(one.minutes() + two.minutes(), 91);
    QCOMPARE(one.minutes(), 46);
    QCOMPARE(one.reading("metal-temperature", {})->value.number, std::optional(170));
    QCOMPARE(two.reading("metal-temperature", {})->value.number, std::optional(175));
    QCOMPARE(two.readings.size(), one.readings.size());
    QCOMPARE(two.signatures.back().by, load.bram);
}

void tst_TogetherSheet::wheelsMeasuredWithARegisteredTool_areSignedInOneGo()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const PersonId bram = house.person(QStringLiteral("Bram"));
    house.must(house.person(QStringLiteral("Runa")),
               SiteCommand{site::SetTool{
                   {{}, QStringLiteral("DG 4"), ToolKind::DialGauge, QDate(2032, 5, 5), true}}});
    BenchCrew crew(house);
    const auto bent = [&](const char* stock, const char* wheel) {
        const CarId car =
            house.bringIn(QString::fromLatin1(stock), {finding(wheel, Condition::Dent)});
        crew.finish(car, "arrival-check");
        crew.finish(car, "wheels-off");
        return std::pair{car, house.open(car, "wheel-inspect")};
    };
    const auto [first, work] = bent("K-7", "wheel-front-left");
    const auto [second, other] = bent("K-8", "wheel-rear-right");
    house.must(bram, first, {car::ReadCautions{work}, car::StartWork{work}});
    const SiteState site = house.site();
    const auto tools = site.toolsOf(ToolKind::DialGauge);
    QCOMPARE(tools.size(), std::size_t{1});
    const OperationSpec& spec = *house.car(first).operation(work)->spec;
    for (const ReadingSpec& reading : spec.readings) {
        ReadingValue value;
        if (reading.kind == ReadingKind::Choice)
            value.text = reading.options.front().id;
        else
            value.number = 2;
        house.must(bram, first,
                   {car::TakeReading{
                       work, reading.key, {}, value, reading.tool ? tools.front()->id : ToolId{}}});
    }
    bench.show();
    QVERIFY(goTo(bench, QStringLiteral("Bram Holloway"), first, work));
    QVERIFY(bench.tap(QStringLiteral("Sign off with others")));
    QVERIFY(bench.tap(QStringLiteral("K-8 · off side rear wheel")));
    QVERIFY(bench.tap(QStringLiteral("Sign all of them")));
    QVERIFY(bench.until(
        [&] { return house.car(second).operation(other)->state == OperationState::Closed; },
        QStringLiteral("signed")));
    QCOMPARE(house.car(first).operation(work)->state, OperationState::Closed);
    const Operation signedToo = *house.car(second).operation(other);
    QCOMPARE(signedToo.reading("run-out-up", {})->tool.number, QStringLiteral("DG 4"));
}

void tst_TogetherSheet::oneThatLacksItsPhotos_isNamed_andNothingIsSigned()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const Load load(house, false);
    bench.show();
    QVERIFY(goTo(bench, QStringLiteral("Bram Holloway"), load.first.car, load.first.work));
    QVERIFY(bench.tap(QStringLiteral("Sign off with others")));
    QVERIFY(bench.tap(QStringLiteral("K-8 · off side rear wheel")));
    QVERIFY(bench.tap(QStringLiteral("Sign all of them")));
    QVERIFY(bench.until([&] { return bench.shell().together()->ask()->refused(); },
                        QStringLiteral("refused")));
    const QString words = bench.shell().together()->ask()->words();
    QVERIFY2(words.startsWith(QStringLiteral("K-8")), qPrintable(words));
    QVERIFY(bench.untilSays(words));
    bench.shoot(QStringLiteral("together-refused"));
    QCOMPARE(load.first.now(house).state, OperationState::InHand);
    QVERIFY(load.other(house).segments.empty());
}

void tst_TogetherSheet::tag_ofAnotherWheel_isSaidOnTheScreen()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const Load load(house);
    bench.show();
    // From the wall a tag leads to the work at its corner.
    emit bench.shell().scans()->wheelScanned(QStringLiteral("FL-K-7"));
    QVERIFY(bench.until(
        [&] { return bench.shell().operation()->operationId() == load.first.work.value; },
        QStringLiteral("the wheel's operation")));
    QVERIFY(bench.until([&] { return bench.shell().operation()->placeId().size() > 0; },
                        QStringLiteral("loaded")));
    emit bench.shell().scans()->wheelScanned(QStringLiteral("RR-K-8"));
    QVERIFY(bench.until(
        [&] { return bench.shell().note().startsWith(QStringLiteral("Another wheel")); },
        QStringLiteral("another wheel")));
    QVERIFY(bench.untilSays(bench.shell().note()));
    bench.shoot(QStringLiteral("tag-another"));
    QCOMPARE(bench.shell().operation()->operationId(), load.first.work.value);
}

RAMPLIGHT_TEST(QGuiApplication, tst_TogetherSheet)
#include "tst_togethersheet.moc"
