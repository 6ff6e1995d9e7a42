// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "planhands.h"

#include "domain/holds.h"
#include "support/testmain.h"

#include <QQuickWindow>
#include <QTest>

#include <algorithm>

using namespace ramplight;
using namespace ramplight::test;

/// Bays, the plan and what comes next for somebody, by touch.
class tst_BaysScreen : public QObject
{
    Q_OBJECT

private slots:
    void init() { failOnQmlWarnings(); }
    void demoWeek_isShownNowAndAhead_data();
    void demoWeek_isShownNowAndAhead();
    void bayTiles_sayHowLongAndWhatComesNext_data();
    void bayTiles_sayHowLongAndWhatComesNext();
    void everybody_hasRoomAboveTheFoot_data();
    void everybody_hasRoomAboveTheFoot();
    void cars_sayWhenTheyAreReady();
    void forecasts_areCorrectedOnceADayByWhatCameOfEarlierOnes();
    void carThatIsHeldAgain_teachesOnce();
    void workInHand_isNamedWhereverItsBarBegan();
    void myNext_showsThree_andLeadsToTheOperation_data();
    void myNext_showsThree_andLeadsToTheOperation();
    void wallCards_showForecastAgainstPromise_data();
    void wallCards_showForecastAgainstPromise();
};

void tst_BaysScreen::demoWeek_isShownNowAndAhead_data()
{
    sizes();
}

void tst_BaysScreen::demoWeek_isShownNowAndAhead()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::Demo);
    bench.letPlan();
    bench.show(size);
    QVERIFY(goToBays(bench));
    const std::vector<QQuickItem*> tiles = bench.ofType("BoardTile");
    std::size_t active = 0;
    for (const auto& [id, bay] : bench.house().site().bays)
        active += bay.active ? 1 : 0;
    QCOMPARE(tiles.size(), active);
    for (const CarCard& card : bench.house().cards())
        if (!card.bay.isNull())
            QVERIFY2(bench.says(card.identity.stockNumber), qPrintable(card.identity.stockNumber));
    QVERIFY(bench.says(QStringLiteral("Not in a bay")));
    QVERIFY(bench.says(QStringLiteral("Blocked")));
    bench.shoot(QStringLiteral("bays"));

    QVERIFY(showPlan(bench, QStringLiteral("By bay")));
    bench.shoot(QStringLiteral("plan-bays"));
    QVERIFY(bench.tap(QStringLiteral("By person")));
    bench.shoot(QStringLiteral("plan-people"));

    QVERIFY(bench.tap(QStringLiteral("Cars")));
    QVERIFY(bench.until([&] { return !bench.ofType("PlanCarLine").empty(); },
                        QStringLiteral("the cars")));
    // The late ones are first, and say why when they are touched.
    QVERIFY(bench.shell().plan()->lateCount() > 0);
    QQuickItem* first = bench.ofType("PlanCarLine").front();
    QVERIFY(first->property("late").toBool());
    const QString why = first->property("whyWords").toString();
    QVERIFY(!why.isEmpty());
    QVERIFY(bench.tap(first));
    QVERIFY(bench.untilSays(why));
    bench.shoot(QStringLiteral("plan-cars"));
}

void tst_BaysScreen::bayTiles_sayHowLongAndWhatComesNext_data()
{
    sizes();
}

void tst_BaysScreen::bayTiles_sayHowLongAndWhatComesNext()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::Demo);
    bench.letPlan();
    bench.show(size);
    QVERIFY(goToBays(bench));
    const planning::HousePlan& plan = *bench.shell().plan()->plan();
    const TimeWords times = timesOf(bench);
    const Moment now = bench.house().clock.now();
    int inHand = 0;
    int followed = 0;
    int out = 0;
    for (QQuickItem* tile : bench.ofType("BoardTile")) {
        const BayId bay = bayNumbered(bench, tile->property("number").toInt());
        const std::vector<CarCard> cards = bench.house().cards();
        const auto card = std::ranges::find(cards, bay, &CarCard::bay);
        const CarId here = card == cards.end() ? CarId{} : card->car;
        if (card != cards.end())
            for (const CardLine& line : card->outstanding) {
                if (line.people.empty())
                    continue;
                ++inHand;
                const int minutes = line.minutesBefore + minutesBetween(line.runningSince, now);
                QString words = QStringLiteral("%1 of %2")
                                    .arg(minutesWords(minutes), minutesWords(line.usual.usual));
                if (minutes > line.usual.usual)
                    words += QStringLiteral(", over");
                QVERIFY2(wordsIn(tile, words) != nullptr, qPrintable(words));
                break;
            }
        // What comes next is another car, with its time; where the one that stands there has
        // nothing left to be done in it, that one goes first.
        int first = -1;
        bool hasTurn = false;
        for (int job = 0; job < static_cast<int>(plan.plan.jobs.size()); ++job) {
            const planning::Placement& placed = plan.plan.jobs[static_cast<std::size_t>(job)];
            const bool isHere =
                placed.bay >= 0 && plan.house.bays[static_cast<std::size_t>(placed.bay)] == bay;
            if (isHere && plan.carOf(job) != here &&
                (first < 0 || placed.start < plan.plan.jobs[static_cast<std::size_t>(first)].start))
                first = job;
        }
        if (first < 0)
            continue;
        ++followed;
        const planning::PlanMinute start = plan.plan.jobs[static_cast<std::size_t>(first)].start;
        for (int job = 0; job < static_cast<int>(plan.plan.jobs.size()); ++job) {
            const planning::Placement& placed = plan.plan.jobs[static_cast<std::size_t>(job)];
            hasTurn |=
                plan.carOf(job) == here && placed.isPlanned() && placed.start < start &&
                (placed.bay < 0 || plan.house.bays[static_cast<std::size_t>(placed.bay)] == bay);
        }
        QString words = QStringLiteral("then %1 %2")
                            .arg(bench.house().car(plan.carOf(first)).identity.stockNumber,
                                 times.shortly(plan.clock().momentOf(start), now));
        if (card != cards.end() && !hasTurn) {
            ++out;
            words = QStringLiteral("%1 out, %2").arg(card->identity.stockNumber, words);
        }
        QVERIFY2(wordsIn(tile, words) != nullptr, qPrintable(words));
    }
    QVERIFY(inHand > 0);
    QVERIFY(followed > 0);
    QVERIFY(out > 0);
}

void tst_BaysScreen::everybody_hasRoomAboveTheFoot_data()
{
    QTest::addColumn<QSize>("size");
    QTest::addColumn<int>("more");
    for (const int more : {0, 3, 30}) {
        QTest::addRow("1920x1080, %d more", more) << QSize(1920, 1080) << more;
        QTest::addRow("1080x1920, %d more", more) << QSize(1080, 1920) << more;
    }
}

void tst_BaysScreen::everybody_hasRoomAboveTheFoot()
{
    QFETCH(const QSize, size);
    QFETCH(const int, more);
    KioskBench bench(BenchHouse::Start::Demo);
    bench.letPlan();
    const PersonId manager = bench.house().person(QStringLiteral("Odo"));
    for (int i = 1; i <= more; ++i)
        bench.house().must(manager, SiteCommand{site::AddPerson{{Skill::Valet}, {Right::Work}}},
                           QStringLiteral("Helper %1").arg(i));
    bench.show(size);
    QVERIFY(goToBays(bench));
    QQuickItem* screen = bench.window()->contentItem();
    QQuickItem* crowd = bench.ofType("QQuickFlickable", "objectName", QStringLiteral("notInABay"));
    QVERIFY(crowd != nullptr);
    const auto box = [&](const QQuickItem* item) {
        return item->mapRectToItem(screen, {0, 0, item->width(), item->height()});
    };
    const QRectF people = box(crowd);
    QQuickItem* back = bench.ofType("ActionButton", "text", QStringLiteral("Back to the wall"));
    QVERIFY(back != nullptr);
    QVERIFY2(people.bottom() + 8 <= box(back).top(),
             qPrintable(QStringLiteral("%1 %2").arg(people.bottom()).arg(box(back).top())));
    for (QQuickItem* tile : bench.ofType("BoardTile"))
        QVERIFY(box(tile).bottom() < people.top());
    // Two that are blocked are in sight beside few people as well, and that there is room for more.
    const std::vector<QQuickItem*> lists = bench.ofType("QQuickListView");
    QCOMPARE(lists.size(), 1U);
    const double line = lists.front()->property("contentHeight").toDouble() /
                        lists.front()->property("count").toDouble();
    QVERIFY(lists.front()->height() > 2.2 * line);
    QCOMPARE(crowd->property("interactive").toBool(), more > 3);
    // Whoever is not in sight comes there by a swipe.
    if (more > 3) {
        QVERIFY(people.height() > 100);
        QVERIFY(crowd->property("contentHeight").toDouble() > people.height());
    } else {
        QCOMPARE(crowd->property("contentHeight").toDouble(), people.height());
    }
    bench.shoot(QStringLiteral("bays-%1-more").arg(more));
}

void tst_BaysScreen::cars_sayWhenTheyAreReady()
{
    KioskBench bench(BenchHouse::Start::Demo);
    bench.letPlan();
    bench.show();
    QVERIFY(goToBays(bench));
    const planning::HousePlan& plan = *bench.shell().plan()->plan();
    const TimeWords times = timesOf(bench);
    const Moment now = bench.house().clock.now();
    int signatures = 0;
    int stuck = 0;
    const PlanCars& cars = *bench.shell().plan()->cars();
    for (int row = 0; row < cars.rowCount(); ++row) {
        const auto role = [&](const char* name) {
            return cars.data(cars.index(row), cars.roleNames().key(name)).toString();
        };
        const CarId id{role("carId")};
        const int car = plan.numberOf(id);
        const QString head = role("headWords");
        const planning::PlanMinute ready = plan.forecasts[static_cast<std::size_t>(car)].ready50;
        const CarState state = bench.house().car(id);
        if (statusOf(state, bench.house().site().rules, now) == CarStatus::ReadyForRelease) {
            ++signatures;
            QVERIFY2(head.startsWith(QStringLiteral("ready now, wants a signature")),
                     qPrintable(head));
            QCOMPARE(role("sureWords"), QString());
        } else if (ready == planning::never) {
            ++stuck;
            QVERIFY2(head.startsWith(QStringLiteral("cannot be finished: nobody can do ")),
                     qPrintable(head));
            QVERIFY2(role("whyWords").contains(QStringLiteral("a manager can ")),
                     qPrintable(role("whyWords")));
        } else if (!plan.hasNoWork(car)) {
            const QString at = times.dayAndClock(plan.clock().momentOf(ready), now);
            QVERIFY2(head.startsWith(QStringLiteral("ready %1").arg(at)), qPrintable(head));
        }
    }
    QVERIFY(signatures > 0);
    qInfo("%d cars wait for a signature, %d for somebody who can", signatures, stuck);
    QVERIFY(bench.says(QStringLiteral("%1 late").arg(bench.shell().plan()->lateCount())));
}

void tst_BaysScreen::carThatIsHeldAgain_teachesOnce()
{
    KioskBench bench(BenchHouse::Start::Demo);
    bench.letPlan();
    bench.show();
    QVERIFY(goToBays(bench));
    BenchHouse& house = bench.house();
    const std::vector<CarCard> cards = house.cards();
    const auto ready = std::ranges::find_if(cards, [&](const CarCard& card) {
        return card.statusAt(house.clock.now()) == CarStatus::ReadyForRelease;
    });
    QVERIFY(ready != cards.end());
    PlanService& plans = bench.shell().plans();
    const PersonId seller = house.person(QStringLiteral("Odo"));
    house.must(seller, ready->car, {car::Release{}});
    QVERIFY(bench.until([&] { return plans.car(ready->car) == nullptr && !plans.isWorking(); },
                        QStringLiteral("a plan without it")));
    const auto used = [&] {
        return std::ranges::count(plans.input().records, ready->car, &planning::WorkRecord::car);
    };
    const auto done = [&] { return std::ssize(planning::recordsOf(house.car(ready->car))); };
    QVERIFY(done() > 0);
    QCOMPARE(used(), done());

    house.must(seller, ready->car,
               {car::RecordFinding{finding("bonnet", Condition::Chip, {Remedy::TouchIn}), {}}});
    QVERIFY(bench.until([&] { return plans.car(ready->car) != nullptr && !plans.isWorking(); },
                        QStringLiteral("a plan with it")));
    QVERIFY(done() > 0);
    QCOMPARE(used(), done());
}

// What has been in hand since before the left edge is written into what can be seen of it.
void tst_BaysScreen::workInHand_isNamedWhereverItsBarBegan()
{
    KioskBench bench(BenchHouse::Start::Demo);
    bench.letPlan();
    bench.show({1080, 1920});
    QVERIFY(goToBays(bench));
    QVERIFY(showPlan(bench, QStringLiteral("By person")));
    const PlanSheet& sheet = bench.shell().plan()->sheet();
    // To where the bars of what is in hand stand over the edge.
    const QQuickItem* lanes = bench.ofType("PlanLanes").front();
    auto* days = lanes->property("daysView").value<QQuickItem*>();
    const double middle = days->mapToScene({days->width() / 2, days->height() / 2}).x();
    int cut = 0;
    int named = 0;
    const auto look = [&] {
        cut = named = 0;
        for (QQuickItem* item : bench.ofType("ramplight::PlanDay")) {
            auto* day = qobject_cast<PlanDay*>(item);
            if (day->day() != 0)
                continue;
            const double from = days->mapToItem(day, QPointF{}).x();
            for (const SheetBar& bar : sheet.byPerson.front()) {
                const QPointF at = day->middleOf(bar.job);
                const QRectF words = day->wordsOf(bar.job);
                const double left = 2 * at.x() - words.right();
                if (!bar.running || words.right() < from + 20 || left >= from)
                    continue;
                ++cut;
                named += words.left() >= from ? 1 : 0;
            }
        }
    };
    for (int drags = 0; drags < 8 && cut == 0; ++drags) {
        look();
        if (cut == 0)
            bench.drag({middle, 900}, {middle - 60, 900});
        QVERIFY(bench.until([&] { return !days->property("moving").toBool(); },
                            QStringLiteral("it rests")));
        look();
    }
    QVERIFY(cut > 0);
    QCOMPARE(named, cut);
    bench.shoot(QStringLiteral("plan-cut"));
}

void tst_BaysScreen::myNext_showsThree_andLeadsToTheOperation_data()
{
    sizes();
}

void tst_BaysScreen::myNext_showsThree_andLeadsToTheOperation()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::Demo);
    bench.letPlan();
    bench.show(size);
    Shell& shell = bench.shell();
    QVERIFY(isPlanned(bench));
    const PlanSheet& sheet = shell.plan()->sheet();
    // Whoever has most planned.
    const planning::HousePlan& plan = *shell.plan()->plan();
    const auto busiest = std::ranges::max_element(sheet.people, {}, [&](const SheetLane& lane) {
        return plan.jobsOfPerson(lane.number).size();
    });
    const std::vector<int> jobs = plan.jobsOfPerson(busiest->number);
    QVERIFY(jobs.size() > 3);
    QVERIFY(bench.tap(QStringLiteral("Who are you?")));
    QVERIFY(bench.signIn(busiest->title));
    QVERIFY(bench.tap(QStringLiteral("My next")));
    QVERIFY(bench.until([&] { return !bench.ofType("MyNextScreen").empty(); },
                        QStringLiteral("what comes next")));
    QCOMPARE(shell.myNext()->rowCount(), 3);
    for (std::size_t i = 0; i < 3; ++i) {
        const QString title = plan.house.shop.jobs[static_cast<std::size_t>(jobs[i])].title;
        QVERIFY2(bench.says(title), qPrintable(title));
    }
    // What must not be done with a car stands beside its number.
    for (const QQuickItem* line : bench.ofType("NextLine")) {
        const CarId car{line->property("carId").toString()};
        const bool isRestrained =
            !restraints(bench.house().car(car), bench.house().clock.now()).empty();
        QCOMPARE(!line->property("restraintWords").toString().isEmpty(), isRestrained);
        const std::vector<QQuickItem*> straps = bench.ofType("Strap");
        QCOMPARE(std::ranges::any_of(straps,
                                     [&](QQuickItem* strap) { return line->isAncestorOf(strap); }),
                 isRestrained);
    }
    bench.shoot(QStringLiteral("my-next"));
    // Upright there is room for what comes after that.
    QVERIFY(shell.myNext()->later()->rowCount() > 0);
    QCOMPARE(bench.says(QStringLiteral("After that")), size.height() > size.width());
    // Nobody is told to wait for themselves.
    for (int row = 0; row < 3; ++row) {
        const MyNext& next = *shell.myNext();
        const QString why = next.data(next.index(row), next.roleNames().key("whyWords")).toString();
        QVERIFY(bench.says(why));
        QVERIFY2(!why.contains(busiest->title), qPrintable(why));
    }
    // The same work may be planned on several cars; the stock number tells them apart.
    const OperationId work = plan.house.jobs[static_cast<std::size_t>(jobs[0])];
    const CarState first = bench.house().car(plan.carOf(jobs[0]));
    QVERIFY(bench.tap(first.identity.stockNumber));
    QVERIFY(bench.until(
        [&] {
            return !bench.ofType("OperationScreen").empty() && shell.operation()->loaded() &&
                   shell.operation()->operationId() == work.value;
        },
        QStringLiteral("the operation")));
}

void tst_BaysScreen::wallCards_showForecastAgainstPromise_data()
{
    sizes();
}

void tst_BaysScreen::wallCards_showForecastAgainstPromise()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::Demo);
    bench.letPlan();
    bench.show(size);
    QVERIFY(isPlanned(bench));
    const planning::HousePlan& plan = *bench.shell().plan()->plan();
    const TimeWords times = timesOf(bench);
    const Moment now = bench.house().clock.now();
    // A weekday is one to come.
    const auto shortDay = [&](QDate day) {
        const qint64 away = times.dateOf(now).daysTo(day);
        return away == 0
                   ? QStringLiteral("today")
                   : QLocale::c().toString(day, away > 0 && away < 7 ? QStringLiteral("ddd")
                                                                     : QStringLiteral("d MMM"));
    };
    int shown = 0;
    int overdue = 0;
    for (QQuickItem* card : bench.ofType("CarCard")) {
        const CarId id{card->property("carId").toString()};
        const int number = plan.numberOf(id);
        const CarState car = bench.house().car(id);
        const bool isReady =
            statusOf(car, bench.house().site().rules, now) == CarStatus::ReadyForRelease;
        if (number < 0 || (car.openOperations().empty() && !isReady))
            continue;
        ++shown;
        const planning::PlanMinute ready = plan.forecasts[static_cast<std::size_t>(number)].ready50;
        const planning::PlanMinute promised =
            plan.house.shop.cars[static_cast<std::size_t>(number)].promised;
        const bool late = car.promised.isValid() &&
                          (times.dateOf(now) > car.promised || (!isReady && ready > promised));
        const QString word =
            isReady ? QStringLiteral("now")
            : ready == planning::never
                ? QStringLiteral("no end yet")
                : QStringLiteral("%1 %2").arg(shortDay(times.dateOf(plan.clock().momentOf(ready))),
                                              times.clock(plan.clock().momentOf(ready)));
        QQuickItem* value = wordsIn(card, word);
        QVERIFY2(value != nullptr, qPrintable(id.text + QLatin1Char(' ') + word));
        // The large value says what it is, and the promise stands apart from it.
        overdue += late ? 1 : 0;
        const QString verb = isReady ? QStringLiteral("ready") : QStringLiteral("will be ready");
        QQuickItem* lead = wordsIn(card, ready == planning::never ? QStringLiteral("late")
                                         : !late                  ? verb
                                         : isReady                ? QStringLiteral("late, ready")
                                                   : QStringLiteral("late: will be ready"));
        QVERIFY2(lead != nullptr, qPrintable(car.identity.stockNumber));
        QVERIFY(placeIn(card, lead).center().y() < placeIn(card, value).center().y());
        QQuickItem* name = wordsIn(card, card->property("makeModel").toString());
        QVERIFY(name != nullptr);
        double foot = placeIn(card, value).bottom();
        if (car.promised.isValid()) {
            QQuickItem* note =
                wordsIn(card, QStringLiteral("promised %1").arg(shortDay(car.promised)));
            QVERIFY2(note != nullptr, qPrintable(car.identity.stockNumber));
            QVERIFY(!note->property("truncated").toBool());
            QVERIFY(placeIn(card, note).center().y() > placeIn(card, value).center().y());
            foot = placeIn(card, note).bottom();
        }
        QVERIFY2(foot <= name->mapToItem(card, {0, name->baselineOffset()}).y() -
                             name->baselineOffset() * 0.7,
                 qPrintable(car.identity.stockNumber));
    }
    QVERIFY(overdue > 0);
    QVERIFY(overdue < shown);
    QVERIFY(shown > 0);
    bench.shoot(QStringLiteral("wall-forecast"));
}

void tst_BaysScreen::forecasts_areCorrectedOnceADayByWhatCameOfEarlierOnes()
{
    KioskBench bench(BenchHouse::Start::Demo);
    bench.letPlan();
    bench.show();
    QVERIFY(goToBays(bench));
    const auto used = [&] { return bench.shell().plans().input().hindsight.stretches(); };
    const auto expected = [&] {
        auto ledger = bench.house().store().run([](Workshop&, Store& store) {
            std::vector<CarId> cars;
            const auto here = store.wall().wall().value();
            const auto released = store.wall().recentlyReleased(planning::learnedCars).value();
            for (const auto* cards : {&here, &released})
                std::ranges::transform(*cards, std::back_inserter(cars), &CarCard::car);
            return planning::houseLedger(store.ledger(), cars);
        });
        return planning::lookBack(ledger.result().value(), bench.shell().plans().input().catalogue,
                                  bench.house().clock.now(), bench.planning().back)
            .stretches();
    };
    QVERIFY(used() == expected());
    QVERIFY(used() != planning::Hindsight().stretches());

    // A day on which nobody did a thing.
    const auto before = used();
    bench.house().clock.goOn(24 * 60);
    QVERIFY(bench.until([&] { return used() != before; }, QStringLiteral("another look back")));
    QVERIFY(used() == expected());
}

RAMPLIGHT_TEST(QGuiApplication, tst_BaysScreen)
#include "tst_baysscreen.moc"
