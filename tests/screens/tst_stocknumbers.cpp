// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "planhands.h"

#include "support/testmain.h"

#include <QFontMetricsF>
#include <QJSValue>
#include <QQuickItem>
#include <QQuickWindow>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

/// Houses number their stock as they like: what is asked of the wall from across the shop stands
/// beside a number of any length, and is large enough for who stands there.
class tst_StockNumbers : public QObject
{
    Q_OBJECT

private slots:
    void init() { failOnQmlWarnings(); }
    void numberOfAnyLength_leavesRoomOnTheWall_data();
    void numberOfAnyLength_leavesRoomOnTheWall();
    void countsAndBays_areReadFromAcrossTheShop_data();
    void countsAndBays_areReadFromAcrossTheShop();
};

namespace {

/// Twenty arc-minutes at 3 m; the longest numbers may be smaller, down to this.
constexpr double farCapitals = 17.5;
constexpr double leastCapitals = 12;
/// Names, counts' words and what must not be done with a car.
constexpr double nameCapitals = 7;
/// As long as an ordinary number is.
constexpr qsizetype ordinary = 7;

/// How high its capitals are painted, whatever was asked for.
double capitalsOf(KioskBench& bench, const QQuickItem* words)
{
    QFont font = words->property("font").value<QFont>();
    font.setPixelSize(words->property("fontInfo")
                          .value<QJSValue>()
                          .property(QStringLiteral("pixelSize"))
                          .toInt());
    return QFontMetricsF(font).capHeight() / bench.window()->property("pxPerMm").toDouble();
}

void openBays(KioskBench& bench, int wanted)
{
    BenchHouse& house = bench.house();
    const int there = static_cast<int>(house.site().bays.size());
    for (int number = there + 1; number <= wanted; ++number) {
        Bay bay;
        bay.number = number;
        bay.name = QStringLiteral("Lift %1").arg(number);
        house.must(house.person(QStringLiteral("Odo")), site::SetBay{bay});
    }
}

} // namespace

void tst_StockNumbers::numberOfAnyLength_leavesRoomOnTheWall_data()
{
    QTest::addColumn<QString>("stock");
    QTest::addColumn<int>("bays");
    QTest::addColumn<QSize>("size");
    for (const int bays : {6, 8})
        for (const char* stock : {"7", "T-321", "RL 2041", "QR-2041-17-B", "WORKSHOP-20413"}) {
            QTest::addRow("%s, %d bays, wide", stock, bays)
                << QString::fromLatin1(stock) << bays << QSize(1920, 1080);
            QTest::addRow("%s, %d bays, tall", stock, bays)
                << QString::fromLatin1(stock) << bays << QSize(1080, 1920);
        }
}

void tst_StockNumbers::numberOfAnyLength_leavesRoomOnTheWall()
{
    QFETCH(const QString, stock);
    QFETCH(const int, bays);
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    openBays(bench, bays);
    const CarId car = house.bringIn(stock);
    const PersonId runa = house.person(QStringLiteral("Runa"));
    const OperationId work = house.open(car, "arrival-check");
    house.must(
        runa, car,
        {car::MoveCar{bayNumbered(bench, 2), {}}, car::ReadCautions{work}, car::StartWork{work}});
    bench.show(size);
    QQuickItem* card = nullptr;
    QVERIFY(bench.until(
        [&] {
            card = bench.ofType("CarCard", "stockNumber", stock);
            return card != nullptr && !card->property("forecastNote").toString().isEmpty();
        },
        stock));
    QCOMPARE(bench.ofType("BayTile").size(), static_cast<std::size_t>(bays));
    QQuickItem* tile = bench.ofType("BayTile", "stockNumber", stock);
    QVERIFY(tile != nullptr);
    const double number = stock.size() <= ordinary ? farCapitals : leastCapitals;
    struct Said
    {
        QQuickItem* on;
        QString words;
        double capitals;
    };
    for (const Said& said :
         {Said{card, stock, number}, Said{card, card->property("forecastNote").toString(), 0},
          Said{tile, stock, number}, Said{tile, QStringLiteral("2"), farCapitals},
          Said{tile, QStringLiteral("Runa Talbeck"), nameCapitals}}) {
        // A long number may stand in two lines, a name by itself.
        const QQuickItem* words = wordsIn(said.on, said.words);
        for (qsizetype at = 1; words == nullptr && at < said.words.size(); ++at)
            words = wordsIn(said.on, QString(said.words).insert(at, QLatin1Char('\n')));
        if (words == nullptr)
            words = wordsIn(said.on, said.words.section(QLatin1Char(' '), 0, 0));
        QVERIFY2(words != nullptr, qPrintable(said.words));
        QVERIFY2(!words->property("truncated").toBool(), qPrintable(said.words));
        QVERIFY2(words->property("contentWidth").toReal() <= words->width() + 1,
                 qPrintable(said.words));
        QVERIFY2(capitalsOf(bench, words) >= said.capitals - 0.1,
                 qPrintable(QStringLiteral("%1: %2 mm")
                                .arg(said.words)
                                .arg(capitalsOf(bench, words), 0, 'f', 1)));
    }
    bench.shoot(
        QStringLiteral("stock-%1-%2").arg(stock.toLower().replace(QLatin1Char(' '), "")).arg(bays));
}

void tst_StockNumbers::countsAndBays_areReadFromAcrossTheShop_data()
{
    sizes();
}

// The demo week has somebody on a car that must not be powered, and one that must not be driven.
void tst_StockNumbers::countsAndBays_areReadFromAcrossTheShop()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::Demo);
    bench.show(size);
    const auto isLarge = [&bench](QQuickItem* on, const QString& words, double capitals) {
        const QQuickItem* said = wordsIn(on, words);
        return said != nullptr && !said->property("truncated").toBool() &&
               capitalsOf(bench, said) >= capitals - 0.1;
    };
    for (QQuickItem* count : bench.ofType("CountFigure")) {
        QVERIFY(isLarge(count, QString::number(count->property("count").toInt()), farCapitals));
        QVERIFY(isLarge(count, count->property("words").toString(), nameCapitals));
    }
    int manned = 0;
    int restrained = 0;
    for (QQuickItem* tile : bench.ofType("BayTile")) {
        if (tile->property("free").toBool())
            continue;
        const auto saysOf = [tile](const char* role) { return tile->property(role).toString(); };
        QVERIFY2(isLarge(tile, saysOf("stockNumber"), farCapitals),
                 qPrintable(saysOf("stockNumber")));
        if (const QString who = saysOf("who"); !who.isEmpty()) {
            ++manned;
            QVERIFY2(isLarge(tile, who, nameCapitals) ||
                         isLarge(tile, saysOf("whoShort"), nameCapitals),
                     qPrintable(who));
        }
        if (const QString words = saysOf("restraintWords"); !words.isEmpty()) {
            ++restrained;
            QVERIFY2(isLarge(tile, words, nameCapitals), qPrintable(words));
        }
    }
    QVERIFY(manned >= 3 && restrained >= 2);
    // The largest type that a card has, next to its number.
    for (QQuickItem* card : bench.ofType("CarCard"))
        if (const QString words = card->property("restraintShort").toString(); !words.isEmpty())
            QVERIFY2(isLarge(card, words, 10), qPrintable(words));
}

RAMPLIGHT_TEST(QGuiApplication, tst_StockNumbers)
#include "tst_stocknumbers.moc"
