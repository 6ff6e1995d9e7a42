// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kioskbench.h"

#include "kiosk/kioskenums.h"
#include "kiosk/wallrow.h"
#include "support/testmain.h"

#include <QQuickItem>
#include <QQuickWindow>
#include <QTest>

#include <algorithm>

using namespace ramplight;
using namespace ramplight::test;

/// The wall, by touch: what stands where, and what a touch leads to.
class tst_WallScreen : public QObject
{
    Q_OBJECT

private slots:
    void init() { failOnQmlWarnings(); }
    void demoWeek_shows_countsBaysAndCards_data();
    void demoWeek_shows_countsBaysAndCards();
    void cards_touchNoOther_andKeepTheirWordsInside_data();
    void cards_touchNoOther_andKeepTheirWordsInside();
    void skill_inOneTouch_showsWhatWaitsForIt();
    void search_showsTheOneCar_andEndsWithAll();
    void card_opensItsCar_andBackReturns();
    void commandFromElsewhere_changesTheWall();
    void ownWork_isOneTouchAway();
    void firstDay_offersToBringACarIn();
    void manyCars_scrollWithFewDelegates();
};

namespace {

QString textOf(QQuickItem* card, const char* role)
{
    return card->property(role).toString();
}

} // namespace

void tst_WallScreen::demoWeek_shows_countsBaysAndCards_data()
{
    sizes();
}

void tst_WallScreen::demoWeek_shows_countsBaysAndCards()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::Demo);
    bench.show(size);
    bench.shoot(QStringLiteral("wall"));

    const auto cards = bench.house().cards();
    const Moment now = bench.house().clock.now();
    // Counted are those that carry the hatch: where only checks are owed, the card says that.
    const auto held = std::ranges::count_if(
        cards, [&](const CarCard& card) { return bandOf(card, now) == Wall::Held; });
    QVERIFY(std::ranges::count_if(cards, [&](const CarCard& card) {
                return card.statusAt(now) == CarStatus::Held;
            }) >= held);
    QVERIFY(held > 0);
    const auto counts = bench.ofType("CountFigure");
    QCOMPARE(counts.size(), std::size_t{4});
    QVERIFY(std::ranges::any_of(counts, [&](QQuickItem* figure) {
        return figure->property("hatched").toBool() && figure->property("count").toInt() == held;
    }));
    QCOMPARE(bench.ofType("BayTile").size(), bench.house().site().bays.size());
    QVERIFY(bench.ofType("CarCard").size() >= 6);
    QVERIFY(bench.says(QStringLiteral("Demo workshop: nothing here is real")));
}

void tst_WallScreen::cards_touchNoOther_andKeepTheirWordsInside_data()
{
    sizes();
}

void tst_WallScreen::cards_touchNoOther_andKeepTheirWordsInside()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::Demo);
    bench.show(size);
    for (QQuickItem* card : bench.ofType("CarCard")) {
        const QRectF paper = card->mapRectToScene({0, 0, card->width(), card->height()});
        const auto inside = [&](QQuickItem* item, auto&& self) -> void {
            for (QQuickItem* child : item->childItems()) {
                if (!child->isVisible())
                    continue;
                const QRectF place = child->mapRectToScene({0, 0, child->width(), child->height()});
                QVERIFY2(paper.adjusted(-1, -1, 1, 1).contains(place),
                         qPrintable(textOf(card, "stockNumber") + QLatin1Char(' ') +
                                    child->property("text").toString()));
                self(child, self);
            }
        };
        inside(card, inside);
    }
}

void tst_WallScreen::skill_inOneTouch_showsWhatWaitsForIt()
{
    KioskBench bench(BenchHouse::Start::Demo);
    bench.show();
    SkillCounts* skills = bench.shell().wall()->skills();
    QVERIFY(skills->count() > 1);
    int row = 0;
    const auto cell = [&](const char* role) {
        return skills->data(skills->index(row), skills->roleNames().key(role));
    };
    while (row < skills->count() && (cell("skill") != QStringLiteral("mechanical")))
        ++row;
    QVERIFY(row < skills->count());
    const int waiting = cell("cars").toInt();
    QVERIFY(waiting > 0);
    QVERIFY(bench.tap(QStringLiteral("Mechanical %1").arg(waiting)));
    QVERIFY(
        bench.until([&] { return bench.shell().wall()->skill() == QLatin1String("mechanical"); },
                    QStringLiteral("the filter")));
    QVERIFY(bench.shell().wall()->count() >= waiting);
    bench.shoot(QStringLiteral("wall-mechanical"));
    QVERIFY(bench.tap(QStringLiteral("All")));
    QVERIFY(bench.until([&] { return bench.shell().wall()->skill().isEmpty(); },
                        QStringLiteral("all cars")));
}

void tst_WallScreen::search_showsTheOneCar_andEndsWithAll()
{
    KioskBench bench(BenchHouse::Start::Demo);
    bench.show();
    const QString stock = bench.house().cards().front().identity.stockNumber;
    const int all = bench.shell().wall()->count();
    QVERIFY(bench.tap(QStringLiteral("Search")));
    QVERIFY(bench.type(stock.toLower()));
    QVERIFY(bench.until([&] { return bench.shell().wall()->count() == 1; }, stock));
    bench.shoot(QStringLiteral("wall-search"));
    QVERIFY(bench.tap(QStringLiteral("End search")));
    QVERIFY(bench.until([&] { return bench.shell().wall()->count() == all; },
                        QStringLiteral("all cars")));
    QVERIFY(
        bench.until([&] { return bench.ofType("KeyCap").empty(); }, QStringLiteral("no keyboard")));
}

void tst_WallScreen::card_opensItsCar_andBackReturns()
{
    KioskBench bench(BenchHouse::Start::Demo);
    bench.show();
    QQuickItem* card = bench.ofType("CarCard").front();
    const QString id = textOf(card, "carId");
    QVERIFY(bench.tap(card));
    QVERIFY(bench.until(
        [&] { return bench.shell().car()->carId() == id && bench.shell().car()->loaded(); },
        QStringLiteral("the car")));
    QVERIFY(bench.tap(QStringLiteral("Back to the wall")));
    QVERIFY(
        bench.until([&] { return !bench.ofType("CarCard").empty(); }, QStringLiteral("the wall")));
}

void tst_WallScreen::commandFromElsewhere_changesTheWall()
{
    KioskBench bench(BenchHouse::Start::House);
    bench.show();
    QVERIFY(bench.shell().wall()->isEmpty());
    bench.house().bringIn(QStringLiteral("K-7"));
    QVERIFY(bench.untilSays(QStringLiteral("K-7")));
    QVERIFY(!bench.says(QStringLiteral("No car in prep")));
}

void tst_WallScreen::ownWork_isOneTouchAway()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const CarId car = house.bringIn(QStringLiteral("K-7"));
    const PersonId runa = house.person(QStringLiteral("Runa"));
    const OperationId work = house.open(car, "arrival-check"); // the first of a new car
    QVERIFY(!work.isNull());
    if (!house.car(car).operation(work)->spec->cautions.isEmpty())
        house.must(runa, car, {car::ReadCautions{work}});
    house.must(runa, car, {car::StartWork{work}});
    bench.show();
    QVERIFY(bench.tap(QStringLiteral("Who are you?")));
    QVERIFY(bench.signIn(QStringLiteral("Runa Talbeck")));
    QVERIFY(bench.until([&] { return bench.shell().myOperationId() == work.value; },
                        QStringLiteral("own work")));
    bench.shoot(QStringLiteral("wall-own-work"));
    QVERIFY(bench.tap(QStringLiteral("go on")));
    QVERIFY(bench.until([&] { return bench.shell().operation()->operationId() == work.value; },
                        QStringLiteral("the operation")));
}

void tst_WallScreen::firstDay_offersToBringACarIn()
{
    KioskBench bench(BenchHouse::Start::House);
    bench.show();
    QVERIFY(bench.untilSays(QStringLiteral("No car in prep")));
    QVERIFY(!bench.says(QStringLiteral("Demo workshop: nothing here is real")));
    bench.shoot(QStringLiteral("wall-first-day"));
}

void tst_WallScreen::manyCars_scrollWithFewDelegates()
{
    KioskBench bench(BenchHouse::Start::House);
    bench.house().fill(60);
    bench.show();
    QCOMPARE(bench.shell().wall()->count(), 60);
    const QSizeF size = bench.window()->size();
    const QPointF middle(size.width() / 2, size.height() * 0.6);
    std::size_t most = 0;
    QSet<QString> seen;
    for (int i = 0; i < 40; ++i) {
        for (QQuickItem* card : bench.ofType("CarCard"))
            seen.insert(textOf(card, "stockNumber"));
        most = std::max(most, bench.ofType("CarCard").size());
        bench.drag(middle, middle - QPointF(0, size.height() * 0.3));
    }
    QCOMPARE(seen.size(), 60);
    QVERIFY2(most <= 30, qPrintable(QString::number(most))); // half of them
}

RAMPLIGHT_TEST(QGuiApplication, tst_WallScreen)
#include "tst_wallscreen.moc"
