// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storagebench.h"

#include "storage/sitesquery.h"
#include "support/testmain.h"

#include <QSqlQuery>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

namespace {

QStringList stockNumbers(const WallQuery::Cards& cards)
{
    QStringList numbers;
    for (const CarCard& card : cards.value())
        numbers.append(card.identity.stockNumber);
    return numbers;
}

QStringList sorted(QStringList list)
{
    list.sort();
    return list;
}

} // namespace

// Cards as the wall asks for them.
class TestWallQuery : public QObject
{
    Q_OBJECT

private slots:
    void wall_hasTheCarsInPreparation_data() { addKinds(); }

    void wall_hasTheCarsInPreparation()
    {
        QFETCH(StoreKind, kind);
        Workbench bench;
        tellStory(bench);
        TestDatabase database(kind);
        const auto store = database.open();
        QVERIFY(replay(bench.ledger.accepted(), store->ledger()));
        QCOMPARE(sorted(stockNumbers(store->wall().wall())), (QStringList{"K3", "K4", "K5"}));
        const HouseRules rules = bench.ledger.site().value().rules;
        const std::vector<CarCard> cards = store->wall().wall().value();
        for (const CarCard& card : cards)
            QVERIFY(card == cardOf(bench.ledger.cars().at(card.car), rules));
        QCOMPARE(stockNumbers(store->wall().recentlyReleased()), QStringList{"K1"});
        QCOMPARE(stockNumbers(store->wall().cards({"car-2", "no such car", "car-1"})),
                 (QStringList{"K2", "K1"}));
    }

    void inHouse_hasTheCarsOfThoseDays_data() { addKinds(); }

    void inHouse_hasTheCarsOfThoseDays()
    {
        QFETCH(StoreKind, kind);
        Workbench bench;
        const int day = 24 * 60;
        const Moment start = bench.clock.now();
        bench.release(bench.appraised()); // K1
        const Moment released = bench.clock.now();
        bench.clock.pass(5 * day);
        const CarId traded = bench.bringIn(); // K2
        bench.clock.pass(day);
        bench.must(bench.manager, traded, car::LeaveUnreleased{LeavingHow::Trade, "sold on"});
        const Moment left = bench.clock.now();
        bench.clock.pass(5 * day);
        bench.bringIn(); // K3, which stays
        const Moment arrived = bench.clock.now();
        TestDatabase database(kind);
        const auto store = database.open();
        QVERIFY(replay(bench.ledger.accepted(), store->ledger()));
        const auto between = [&](Moment from, Moment before) {
            QStringList numbers;
            const auto cars = store->wall().inHouse(from, before);
            for (const CarId& car : cars.value())
                numbers.append(bench.car(car).identity.stockNumber);
            return numbers;
        };
        QCOMPARE(between(start, arrived.plusMinutes(day)), (QStringList{"K1", "K2", "K3"}));
        QCOMPARE(between(start.plusMinutes(-day), start), QStringList());
        QCOMPARE(between(released, released.plusMinutes(day)), QStringList{"K1"});
        QCOMPARE(between(released.plusMinutes(1), left), QStringList{"K2"});
        QCOMPARE(between(left.plusMinutes(1), left.plusMinutes(day)), QStringList());
        QCOMPARE(between(arrived.plusMinutes(90 * day), arrived.plusMinutes(91 * day)),
                 QStringList{"K3"});
    }

    void find_byPartOfNumberOrRegistration_data()
    {
        QTest::addColumn<StoreKind>("kind");
        QTest::addColumn<QString>("text");
        QTest::addColumn<QStringList>("expected");
        forEachKind([](const char* prefix, StoreKind kind) {
            const auto row = [&](const char* name, const QString& text, const QStringList& cars) {
                QTest::addRow("%s, %s", prefix, name) << kind << text << cars;
            };
            row("stock number", "A-100", {"A-100"});
            row("part of several", "A-1", {"A-101", "A-100"});
            row("registration without its space", "qk7zzz", {"A-101"});
            row("case and spaces", " Q k 7 ", {"A-101"});
            row("one that left", "B-7", {"B-7"});
            row("other letters", QStringLiteral("ünlü"), {QStringLiteral("ÜNLÜ 1")});
            row("a whole VIN", "zz0 ZZZ-00000000007", {"B-7"});
            row("a VIN of no car", "ZZ0ZZZ00000000008", {});
            row("nothing", "", {});
            row("marks alone", "%_", {});
            row("unknown", "C", {});
        });
    }

    void find_byPartOfNumberOrRegistration()
    {
        QFETCH(StoreKind, kind);
        QFETCH(QString, text);
        QFETCH(QStringList, expected);
        TestDatabase database(kind);
        const auto store = database.open();
        Hand hand(store->ledger());
        const auto bring = [&](const QString& stock, const QString& registration) {
            hand.now = hand.now.plusMinutes(1);
            QCOMPARE(outcome(store->ledger().append(
                         hand.with(CarId{stock}, {Hand::arrival(stock, registration)}))),
                     QStringLiteral("ok"));
        };
        bring("A-100", "QA12 AAA");
        bring("A-101", "QK7 ZZZ");
        bring("B-7", "QB1");
        Identity known = store->ledger().car(CarId{"B-7"}).value().identity;
        known.vin = QStringLiteral("ZZ0ZZZ00000000007");
        QCOMPARE(outcome(store->ledger().append(
                     hand.with(CarId{"B-7"}, {IdentityCorrected{known, QStringLiteral("read")}}))),
                 QStringLiteral("ok"));
        bring(QStringLiteral("ÜNLÜ 1"), "");
        QCOMPARE(outcome(store->ledger().append(hand.with(
                     CarId{"B-7"}, {CarLeft{LeavingHow::Scrap, QStringLiteral("rust"), {}}}))),
                 QStringLiteral("ok"));
        QCOMPARE(stockNumbers(store->wall().find(text)), expected);
        QVERIFY(store->wall().find(text, 1).value().size() <= 1);
    }

    void stockNumber_isFoundInSmallLetters_data() { addKinds(); }

    void stockNumber_isFoundInSmallLetters()
    {
        QFETCH(StoreKind, kind);
        TestDatabase database(kind);
        const auto store = database.open();
        SqlLedger& ledger = store->ledger();
        const CarId carOne{QStringLiteral("first")};
        const CarId carTwo{QStringLiteral("second")};
        Hand hand(ledger);
        QCOMPARE(outcome(ledger.append(hand.with(carOne, {Hand::arrival("A1")}))),
                 QStringLiteral("ok"));
        QCOMPARE(ledger.carByStockNumber("a1").value()->text, carOne.text);
        QVERIFY(!ledger.carByStockNumber("a2").value());
        // As an older program wrote it.
        QCOMPARE(outcome(ledger.append(hand.with(carTwo, {Hand::arrival("a1")}))),
                 QStringLiteral("ok"));
        QCOMPARE(ledger.carByStockNumber("a1").value()->text, carTwo.text);
        QCOMPARE(ledger.carByStockNumber("A1").value()->text, carOne.text);
    }

    void houseRules_changed_wordTheWallAnew_data() { addKinds(); }

    void houseRules_changed_wordTheWallAnew()
    {
        QFETCH(StoreKind, kind);
        Workbench bench;
        tellStory(bench);
        HouseRules rules;
        rules.sideWords = SideWords::LeftRight;
        rules.trafficSide = TrafficSide::Right;
        QCOMPARE(bench.ask(bench.manager, site::SetHouseRules{rules}), done);
        TestDatabase database(kind);
        const auto store = database.open();
        QVERIFY(replay(bench.ledger.accepted(), store->ledger()));
        const std::vector<CarCard> cards = store->wall().wall().value();
        for (const CarCard& card : cards)
            QVERIFY(card == cardOf(bench.ledger.cars().at(card.car), rules));
        QVERIFY(Verifier(store->ledger()).run().faults.empty());
    }

    // The wall must not get slower with the years: its query reads the cars on it and no others.
    void sites_areCountedEachByItself_data() { addKinds(); }

    void sites_areCountedEachByItself()
    {
        QFETCH(StoreKind, kind);
        TestDatabase database(kind);
        Workbench bench;
        tellStory(bench);
        // Whose timer runs could not work on the car that gets ready.
        QVERIFY(bench.workshop.stopAllWork(bench.command()));
        const CarId held = bench.appraised();
        bench.found(held, "brakes-front", Condition::Worn);
        bench.must(bench.manager, held, car::ChangePromise{bench.today().addDays(-1), "agreed"});
        bench.closeAll(bench.appraised());
        for (const char* site : {"b", "c", "a"}) {
            StoreSettings settings = database.settings();
            settings.site = {QString::fromLatin1(site)};
            const auto store = Store::open(settings, keeperWith());
            QVERIFY(store);
            // The one in the middle was never set up.
            if (*site != 'b')
                QVERIFY(replay(bench.ledger.accepted(), (*store)->ledger()));
        }
        StoreSettings settings = database.settings();
        settings.site = {QStringLiteral("c")};
        const auto store = Store::open(settings, keeperWith()).value();
        SitesQuery query(store->ledger());
        const Moment now = bench.clock.now();
        const std::vector<SiteFacts> first = query.after({}, 2, now).value();
        QCOMPARE(first.size(), std::size_t(2));
        QCOMPARE(first.back(), (SiteFacts{{QStringLiteral("b")}}));
        const std::vector<SiteFacts> rest = query.after(first.back().site, 2, now).value();
        QCOMPARE(rest.size(), std::size_t(1));
        QVERIFY(query.after(rest.back().site, 2, now).value().empty());
        SiteFacts counted{{QStringLiteral("c")}, bench.ledger.site().value().name};
        const std::vector<CarCard> cards = store->wall().wall().value();
        for (const CarCard& card : cards) {
            ++counted.inPrep;
            counted.held += card.isHeldBySafety(now) ? 1 : 0;
            counted.ready += card.statusAt(now) == CarStatus::ReadyForRelease ? 1 : 0;
            counted.late += card.car == held ? 1 : 0;
            if (counted.oldestChange.isNull() || card.lastAt < counted.oldestChange)
                counted.oldestChange = card.lastAt;
        }
        QVERIFY(counted.held > 0 && counted.ready > 0 && counted.late == 1);
        QCOMPARE(rest.front(), counted);
        counted.site = {QStringLiteral("a")};
        QCOMPARE(first.front(), counted);
    }

    void wall_readsItsOwnIndexOnly()
    {
        TestDatabase database(StoreKind::Sqlite);
        const auto store = database.open();
        QSqlQuery plan(store->ledger().connection().database());
        QVERIFY(plan.exec("EXPLAIN QUERY PLAN SELECT card FROM car WHERE site = 's'"
                          " AND on_wall = 1"));
        QVERIFY(plan.next());
        QVERIFY2(plan.value("detail").toString().contains("USING INDEX car_on_wall"),
                 qPrintable(plan.value("detail").toString()));
        QVERIFY(!plan.next());
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestWallQuery)
#include "tst_wallquery.moc"
