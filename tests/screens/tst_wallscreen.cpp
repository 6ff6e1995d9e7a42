// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "planhands.h"
#include "wallcards.h"

#include "kiosk/kioskenums.h"
#include "kiosk/wallrow.h"
#include "support/testmain.h"
#include "touchtargets.h"

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
    void everySkill_isInReach_andShowsWhatWaitsForItAlone_data();
    void everySkill_isInReach_andShowsWhatWaitsForItAlone();
    void person_inTwoTouches_showsTheirWorkAlone_data();
    void person_inTwoTouches_showsTheirWorkAlone();
    void lineBelowTheCards_leavesTwoRowsOfThem();
    void forgottenTimer_isAskedAboutOnTheCard_data();
    void forgottenTimer_isAskedAboutOnTheCard();
    void search_showsTheOneCar_andEndsWithAll();
    void card_opensItsCar_andBackReturns();
    void commandFromElsewhere_changesTheWall();
    void ownWork_isOneTouchAway();
    void firstDay_offersToBringACarIn();
    void manyCars_scrollWithFewDelegates();
    void filters_whenTheyFit_standInOneRow();
};

namespace {

QString textOf(QQuickItem* card, const char* role)
{
    return card->property(role).toString();
}

/// In order, so that two lists of the same cars are equal.
QStringList sorted(QStringList stockNumbers)
{
    stockNumbers.sort();
    return stockNumbers;
}

QStringList stockNumbersOn(const WallModel& wall)
{
    QStringList shown;
    for (int row = 0; row < wall.rowCount(); ++row)
        shown.append(stockNumberOf(wall, row));
    return sorted(shown);
}

/// Of the cars that have a line of this kind.
QStringList stockNumbersOf(const std::vector<CarCard>& cards,
                           const std::function<bool(const CardLine&)>& isMeant)
{
    QStringList meant;
    for (const CarCard& card : cards)
        if (std::ranges::any_of(card.outstanding, isMeant))
            meant.append(card.identity.stockNumber);
    return sorted(meant);
}

/// The whole of it can be touched where it is, by a gloved finger.
bool isInReach(KioskBench& bench, const QQuickItem* item)
{
    const double touch = targetPixels(bench);
    return item->width() >= touch && item->height() >= touch && isInSight(item);
}

bool isTooNear(KioskBench& bench, const QQuickItem* one, const QQuickItem* other)
{
    const auto box = [](const QQuickItem* item) {
        return item->mapRectToScene(item->boundingRect());
    };
    return areTooNear(bench, box(one), box(other));
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

void tst_WallScreen::everySkill_isInReach_andShowsWhatWaitsForItAlone_data()
{
    QTest::addColumn<QSize>("size");
    QTest::addColumn<QString>("who");
    for (const QString& who : {QString(), QStringLiteral("Tamsin Orr")}) {
        const char* state = who.isEmpty() ? "signed out" : "signed in";
        QTest::addRow("wide, %s", state) << QSize(1920, 1080) << who;
        QTest::addRow("tall, %s", state) << QSize(1080, 1920) << who;
    }
}

void tst_WallScreen::everySkill_isInReach_andShowsWhatWaitsForItAlone()
{
    QFETCH(const QSize, size);
    QFETCH(const QString, who);
    KioskBench bench(BenchHouse::Start::Demo);
    bench.show(size);
    if (!who.isEmpty())
        QVERIFY(bench.tap(QStringLiteral("Who are you?")) && bench.signIn(who));
    const WallModel& wall = *bench.shell().wall();
    const std::vector<CarCard> cards = bench.house().cards();
    int waited = 0;
    for (const auto& [skill, name] : Names<Skill>::table) {
        const QString id = QString::fromLatin1(name);
        const QStringList expected = stockNumbersOf(
            cards, [&, what = skill](const CardLine& line) { return waitsFor(line, what); });
        QQuickItem* tab = bench.ofType("FilterTab", "skill", id);
        // The office's tab is there when something waits for the office.
        if (tab == nullptr) {
            QVERIFY2(skill == Skill::Office && expected.isEmpty(), name);
            continue;
        }
        // One touch, without a drag before it.
        QVERIFY(bench.until([&] { return isInReach(bench, tab); }, id));
        QVERIFY(bench.tap(tab));
        QVERIFY(bench.until([&] { return wall.skill() == id; }, id));
        QCOMPARE(tab->property("count").toInt(), static_cast<int>(expected.size()));
        QCOMPARE(stockNumbersOn(wall), expected);
        QVERIFY(bench.until([&] { return showsItsRows(bench); }, id));
        if (expected.isEmpty())
            QVERIFY(bench.untilSays(QStringLiteral("Nothing here for this filter")));
        waited += static_cast<int>(expected.size());
    }
    QVERIFY(waited > 0);
    QVERIFY(bench.tap(QStringLiteral("All")));
    QVERIFY(bench.until([&] { return wall.skill().isEmpty(); }, QStringLiteral("all cars")));
    QCOMPARE(wall.count(), static_cast<int>(cards.size()));
    QVERIFY(bench.until([&] { return showsItsRows(bench); }, QStringLiteral("the cards of all")));
    bench.shoot(who.isEmpty() ? QStringLiteral("wall-tabs") : QStringLiteral("wall-tabs-own"));
    // What is first to do is on each card, however low it is.
    for (QQuickItem* card : bench.ofType("CarCard"))
        QVERIFY2(!card->isVisible() || card->property("hiddenCount").toInt() == 0 ||
                     card->property("shown").toInt() > 0,
                 qPrintable(textOf(card, "stockNumber")));
    // Each tab and each way on has its gap to the next.
    std::vector<QQuickItem*> touched = bench.ofType("FilterTab");
    for (QQuickItem* way : bench.ofType("ActionButton"))
        touched.push_back(way);
    touched.push_back(bench.ofType("PersonChip").front());
    for (std::size_t i = 0; i < touched.size(); ++i)
        for (std::size_t j = 0; j < i; ++j)
            QVERIFY2(!isTooNear(bench, touched[i], touched[j]),
                     qPrintable(textOf(touched[i], "spoken") + QLatin1Char('/') +
                                textOf(touched[j], "spoken")));
}

void tst_WallScreen::person_inTwoTouches_showsTheirWorkAlone_data()
{
    sizes();
}

void tst_WallScreen::person_inTwoTouches_showsTheirWorkAlone()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::Demo);
    BenchHouse& house = bench.house();
    // Something is handed to somebody who is not at the wall.
    const PersonId sefton = house.person(QStringLiteral("Sefton"));
    const PersonId manager = house.person(QStringLiteral("Odo"));
    const std::vector<CarCard> before = house.cards();
    int handed = 0;
    for (const CarCard& card : before)
        for (const CardLine& line : card.outstanding)
            if (handed < 2 && line.skill == Skill::SmartRepair &&
                line.state == OperationState::Waiting &&
                house.tries(manager, card.car, {car::HandOver{line.operation, sefton}})) {
                ++handed;
                break;
            }
    QCOMPARE(handed, 2);
    bench.show(size);
    const WallModel& wall = *bench.shell().wall();
    const QStringList expected = stockNumbersOf(
        house.cards(), [&](const CardLine& line) { return isOfPerson(line, sefton); });
    QVERIFY(expected.size() >= 2);
    QVERIFY(expected.size() < wall.count());

    QQuickItem* tab = bench.ofType("FilterTab", "spoken", QStringLiteral("Person"));
    QVERIFY(tab != nullptr && isInReach(bench, tab));
    QVERIFY(bench.tap(tab));
    QVERIFY(bench.untilSays(QStringLiteral("Whose work?")));
    bench.shoot(QStringLiteral("wall-people"));
    for (const auto& [id, person] : house.site().people)
        QCOMPARE(bench.says(person.name), person.can(Right::Work) || person.can(Right::Check));
    for (QQuickItem* chip : bench.ofType("ChoiceChip"))
        QVERIFY2(isInReach(bench, chip), qPrintable(textOf(chip, "text")));
    QVERIFY(bench.tap(QStringLiteral("Sefton Ayre")));
    QVERIFY(bench.until([&] { return wall.person() == sefton.value; }, QStringLiteral("filter")));
    QCOMPARE(stockNumbersOn(wall), expected);
    QVERIFY(bench.until([&] { return showsItsRows(bench); }, QStringLiteral("the cards")));
    // The tab says whose work it is, and of how many cars.
    QVERIFY(bench.untilSays(QStringLiteral("Sefton Ayre %1").arg(expected.size())));
    bench.shoot(QStringLiteral("wall-person"));

    // A skill is another question; the name once more in the list shows all again.
    QVERIFY(bench.tap(bench.ofType("FilterTab", "skill", QStringLiteral("trim"))));
    QVERIFY(bench.until([&] { return wall.person() == 0; }, QStringLiteral("the skill alone")));
    QVERIFY(bench.tap(QStringLiteral("Person")) && bench.tap(QStringLiteral("Sefton Ayre")));
    QVERIFY(bench.until([&] { return wall.person() == sefton.value; }, QStringLiteral("filter")));
    QVERIFY(wall.skill().isEmpty());
    QVERIFY(bench.tap(QStringLiteral("Sefton Ayre %1").arg(expected.size())));
    QVERIFY(bench.untilSays(QStringLiteral("Whose work?")));
    QVERIFY(bench.tap(bench.ofType("ChoiceChip", "text", QStringLiteral("Sefton Ayre"))));
    QVERIFY(bench.until([&] { return wall.count() == static_cast<int>(before.size()); },
                        QStringLiteral("all cars")));
}

// Who has work in hand has a line of their own above the filters.
void tst_WallScreen::lineBelowTheCards_leavesTwoRowsOfThem()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    house.fill(12);
    const CarId car = house.carByStock(QStringLiteral("K-100"));
    const PersonId runa = house.person(QStringLiteral("Runa"));
    const OperationId work = house.open(car, "arrival-check");
    house.must(runa, car, {car::ReadCautions{work}, car::StartWork{work}});
    bench.show();
    QVERIFY(bench.tap(QStringLiteral("Who are you?")));
    QVERIFY(bench.signIn(QStringLiteral("Runa Talbeck")));
    QVERIFY(bench.untilSays(QStringLiteral("go on")));
    const auto rows = [&] {
        QSet<int> tops;
        for (const QQuickItem* card : bench.ofType("CarCard"))
            if (liesWithin(card, bench.window()->contentItem()))
                tops.insert(qRound(card->mapToScene({0, 0}).y()));
        return tops.size();
    };
    QVERIFY(bench.until([&] { return rows() == 2; }, QStringLiteral("two rows of cards")));
    bench.shoot(QStringLiteral("wall-two-rows"));
}

void tst_WallScreen::forgottenTimer_isAskedAboutOnTheCard_data()
{
    sizes();
}

void tst_WallScreen::forgottenTimer_isAskedAboutOnTheCard()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const CarId car = house.bringIn(QStringLiteral("K-7"));
    const PersonId runa = house.person(QStringLiteral("Runa"));
    const OperationId work = house.open(car, "arrival-check");
    house.must(
        runa, car,
        {car::MoveCar{bayNumbered(bench, 2), {}}, car::ReadCautions{work}, car::StartWork{work}});
    bench.show(size);
    const QString asked = QStringLiteral("runs since 13:40: still working?");
    house.clock.goOn(120);
    QVERIFY(bench.untilSays(QStringLiteral("2 h")));
    QVERIFY(!bench.says(asked));
    house.clock.goOn(1);
    QVERIFY(bench.untilSays(asked));
    // On the card and on the bay's tile, whole.
    QQuickItem* card = bench.ofType("CarCard").front();
    QVERIFY(wordsIn(card, asked) != nullptr);
    QVERIFY(!wordsIn(card, asked)->property("truncated").toBool());
    QQuickItem* tile = bench.ofType("BayTile", "stockNumber", QStringLiteral("K-7"));
    QVERIFY(tile != nullptr);
    QCOMPARE(textOf(tile, "stateWords"), QStringLiteral("since 13:40?"));
    QVERIFY(wordsIn(tile, QStringLiteral("since 13:40?")) != nullptr);
    bench.shoot(QStringLiteral("wall-forgotten"));
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
    // The whole of it, between what is asked for and the keys.
    const QQuickItem* found = bench.ofType("CarCard", "stockNumber", stock);
    QVERIFY(found != nullptr && isInSight(found));
    const auto isAboveTheKeys = [&] {
        const double foot = found->mapToScene({0, found->height()}).y();
        return std::ranges::all_of(bench.ofType("KeyCap"), [foot](const QQuickItem* key) {
            return key->mapToScene({0, 0}).y() >= foot;
        });
    };
    QVERIFY(bench.until(isAboveTheKeys, QStringLiteral("the card above the keys")));
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

// With the office among them the last one fits by a hair.
void tst_WallScreen::filters_whenTheyFit_standInOneRow()
{
    KioskBench bench(BenchHouse::Start::House);
    bench.house().fill(5);
    bench.show();
    QVERIFY(bench.tap(QStringLiteral("Who are you?")));
    QVERIFY(bench.signIn(QStringLiteral("Nell Quarrie")));
    QVERIFY(bench.untilSays(QStringLiteral("Office")));
    QSet<int> rows;
    for (QQuickItem* tab : bench.ofType("FilterTab"))
        if (tab->property("stacked").toBool())
            rows.insert(qRound(tab->mapToScene(QPointF()).y()));
    QCOMPARE(rows.size(), 1);
}

RAMPLIGHT_TEST(QGuiApplication, tst_WallScreen)
#include "tst_wallscreen.moc"
