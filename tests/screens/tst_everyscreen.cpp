// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "managerhands.h"
#include "planhands.h"
#include "support/testmain.h"
#include "touchtargets.h"
#include "walkhands.h"

#include <QDir>
#include <QImage>
#include <QQuickWindow>
#include <QTest>

#include <algorithm>
#include <cstdlib>

using namespace ramplight;
using namespace ramplight::test;

/// What holds of every screen: the demo workshop's mark, that a glove hits what can be touched, and
/// that a touch opens it and it is drawn.
class tst_EveryScreen : public QObject
{
    Q_OBJECT

private slots:
    void init() { failOnQmlWarnings(); }
    void everyScreen_isMarked_andIsMeantForGloves_data();
    void everyScreen_isMarked_andIsMeantForGloves();
    void mainScreens_openByTouch_andAreDrawn();
    void firstStart_isDrawn();
};

namespace {

const QSize small(1280, 720); // the same screen in fewer pixels

/// Words, lines and paper, on the software backend and on OpenGL alike.
bool isDrawn(KioskBench& bench)
{
    const QImage picture = bench.window()->grabWindow().convertToFormat(QImage::Format_RGB32);
    QHash<QRgb, int> points;
    int all = 0;
    for (int y = 0; y < picture.height(); y += 2)
        for (int x = 0; x < picture.width(); x += 2) {
            ++points[picture.pixel(x, y)];
            ++all;
        }
    return points.size() >= 16 && *std::ranges::max_element(points) <= all * 99 / 100;
}

/// Waits for a screen, and looks at its picture.
bool comesUp(KioskBench& bench, const char* type)
{
    return bench.until([&] { return !bench.ofType(type).empty(); }, QString::fromLatin1(type)) &&
           bench.until([&] { return isDrawn(bench); }, QStringLiteral("its picture"));
}

bool isMarked(const KioskBench& bench)
{
    const QQuickItem* mark = bench.find(QStringLiteral("Demo workshop: nothing here is real"));
    return mark != nullptr && liesWithin(mark, mark->window()->contentItem());
}

/// The strip above every screen, as it is seen.
QImage strip(KioskBench& bench)
{
    const QQuickItem* mark = bench.find(QStringLiteral("Demo workshop: nothing here is real"));
    if (mark == nullptr || mark->parentItem() == nullptr)
        return {};
    const QQuickItem* around = mark->parentItem();
    return bench.window()->grabWindow().copy(
        around->mapRectToScene(around->boundingRect()).toRect());
}

/// To two of 255: where a letter lies in the memory of a graphics card moves its edges by that.
bool looksTheSame(const QImage& one, const QImage& other)
{
    const QImage a = one.convertToFormat(QImage::Format_RGB32);
    const QImage b = other.convertToFormat(QImage::Format_RGB32);
    if (a.size() != b.size() || a.isNull())
        return false;
    for (int y = 0; y < a.height(); ++y)
        for (int x = 0; x < a.width(); ++x) {
            const QRgb p = a.pixel(x, y);
            const QRgb q = b.pixel(x, y);
            if (std::abs(qRed(p) - qRed(q)) > 2 || std::abs(qGreen(p) - qGreen(q)) > 2 ||
                std::abs(qBlue(p) - qBlue(q)) > 2)
                return false;
        }
    return true;
}

} // namespace

void tst_EveryScreen::everyScreen_isMarked_andIsMeantForGloves_data()
{
    sizes();
}

void tst_EveryScreen::everyScreen_isMarked_andIsMeantForGloves()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::Demo);
    bench.letPlan();
    BenchHouse& house = bench.house();
    // A car whose walk-round was spoken, and one that is ready to go.
    house.putTranscript(QStringLiteral("walk.vtt"),
                        BenchHouse::spoken(QStringLiteral("K-7 walk.vtt")));
    const CarId spoken = house.carByStock(QStringLiteral("T-323"));
    const auto read = house.desk()
                          .readTranscript(house.dropFolder() + QStringLiteral("/walk.vtt"), spoken,
                                          house.person(QStringLiteral("Odo")))
                          .result();
    QVERIFY2(read, qPrintable(read ? QString() : read.error()));
    const std::vector<CarCard> cards = house.cards();
    const auto ready = std::ranges::find_if(cards, [&](const CarCard& card) {
        return card.statusAt(house.clock.now()) == CarStatus::ReadyForRelease;
    });
    QVERIFY(ready != cards.end());
    bench.show(size);

    QStringList seen;
    QImage onWall;
    const auto marked = [&](const char* screen) {
        const QByteArray type = screen + QByteArray("Screen");
        if (!bench.until([&] { return !bench.ofType(type).empty(); }, QString::fromLatin1(type)))
            return false;
        seen.append(QString::fromLatin1(type) + QStringLiteral(".qml"));
        if (onWall.isNull())
            onWall = strip(bench);
        if (const QStringList hard = hardToHit(bench); !hard.isEmpty()) {
            QTest::qFail(
                qPrintable(QString::fromLatin1(type + ": ") + hard.join(QStringLiteral("; "))),
                __FILE__, __LINE__);
            return false;
        }
        return bench.until([&] { return isMarked(bench) && looksTheSame(strip(bench), onWall); },
                           QStringLiteral("the mark on %1").arg(QString::fromLatin1(screen)));
    };
    const auto touch = [&](const QString& words, const char* screen) {
        return bench.tap(words) && marked(screen);
    };
    QVERIFY(marked("Wall"));
    QVERIFY(!onWall.isNull());
    QVERIFY(touch(QStringLiteral("Who are you?"), "Person"));
    QVERIFY(bench.signIn(QStringLiteral("Runa Talbeck")));
    QVERIFY(touch(QStringLiteral("My next"), "MyNext"));
    QVERIFY(touch(QStringLiteral("Back to the wall"), "Wall"));
    QVERIFY(touch(QStringLiteral("Bays"), "Bays"));
    QVERIFY(isPlanned(bench));
    QVERIFY(touch(QStringLiteral("What if"), "WhatIf"));
    QVERIFY(touch(QStringLiteral("Back to the plan as it is"), "Bays"));
    QVERIFY(touch(QStringLiteral("Back to the wall"), "Wall"));
    QVERIFY(touch(QStringLiteral("Staff and bays"), "Staff"));
    QVERIFY(touch(QStringLiteral("Settings"), "Settings"));
    QVERIFY(touch(QStringLiteral("Back"), "Staff"));
    QVERIFY(touch(QStringLiteral("Back to the wall"), "Wall"));
    QVERIFY(touch(QStringLiteral("Bring a car in"), "Arrival"));
    QVERIFY(touch(QStringLiteral("Spoken walk-rounds"), "Transcripts"));
    QVERIFY(touch(QStringLiteral("Back"), "Arrival"));
    QVERIFY(touch(QStringLiteral("Back to the wall"), "Wall"));

    // By the search, because a car may stand below the edge.
    const auto openCar = [&](const QString& stock) {
        return bench.tap(QStringLiteral("Search")) && bench.type(stock.toLower()) &&
               bench.until([&] { return bench.shell().wall()->count() == 1; }, stock) &&
               bench.tap(QStringLiteral("enter")) && // puts the keyboard away
               bench.until([&] { return bench.ofType("KeyCap").empty(); },
                           QStringLiteral("no keyboard")) &&
               bench.openCar(stock) && marked("Car");
    };
    const CarState car = house.car(spoken);
    QVERIFY(openCar(car.identity.stockNumber));
    QVERIFY(touch(QStringLiteral("Review what was said: %1").arg(car.openDrafts()), "Review"));
    QVERIFY(touch(QStringLiteral("Back"), "Car"));
    QVERIFY(touch(QStringLiteral("Walk round it"), "WalkRound"));
    QVERIFY(touch(QStringLiteral("Back"), "Car"));
    QVERIFY(bench.openWork(car.openOperations().front()->id));
    QVERIFY(marked("Operation"));
    QVERIFY(touch(QStringLiteral("Back"), "Car"));
    QVERIFY(touch(QStringLiteral("Back to the wall"), "Wall"));
    QVERIFY(bench.tap(QStringLiteral("End search")));

    QVERIFY(openCar(ready->identity.stockNumber));
    QVERIFY(touch(QStringLiteral("Release"), "Release"));
    QVERIFY(touch(QStringLiteral("Back"), "Car"));
    house.must(house.person(QStringLiteral("Odo")), ready->car, {car::Release{}});
    QVERIFY(touch(QStringLiteral("Handover record"), "Record"));

    // Whatever screen there is, but those of a start without any workshop.
    QStringList all = QDir(QStringLiteral(RAMPLIGHT_SOURCE_DIR "/qml/screens"))
                          .entryList({QStringLiteral("*Screen.qml")});
    QVERIFY(all.removeOne(QStringLiteral("SetupScreen.qml")));
    QVERIFY(all.removeOne(QStringLiteral("RecoveryScreen.qml")));
    for (const QString& file : all)
        QVERIFY2(seen.contains(file), qPrintable(file));
}

void tst_EveryScreen::mainScreens_openByTouch_andAreDrawn()
{
    KioskBench bench(BenchHouse::Start::House);
    bench.house().bringIn(QStringLiteral("K-7"),
                          {finding("front-door-left", Condition::Dent, {Remedy::DentRepair})});
    bench.show(small);
    QVERIFY(comesUp(bench, "WallScreen"));
    QVERIFY(bench.tap(QStringLiteral("Who are you?")));
    QVERIFY(comesUp(bench, "PersonScreen"));
    QVERIFY(bench.signIn(QStringLiteral("Odo Farlane")));

    QVERIFY(bench.openCar(QStringLiteral("K-7")));
    QVERIFY(comesUp(bench, "CarScreen"));
    QVERIFY(bench.tap(bench.ofType("FilterTab", "text", QStringLiteral("Findings"))));
    QVERIFY(bench.until([&] { return !bench.ofType("FindingLine").empty(); },
                        QStringLiteral("the finding")));

    QVERIFY(bench.tap(QStringLiteral("Release")));
    QVERIFY(comesUp(bench, "ReleaseScreen"));
    QVERIFY(bench.tap(QStringLiteral("Open it")));
    QVERIFY(comesUp(bench, "OperationScreen"));
    QVERIFY(bench.tap(QStringLiteral("Back")) && bench.tap(QStringLiteral("Back")));
    QVERIFY(comesUp(bench, "CarScreen"));

    QVERIFY(bench.tap(QStringLiteral("Found something")));
    QVERIFY(comesUp(bench, "WalkRoundScreen"));
    WalkHands hands(bench);
    QVERIFY(hands.ready() && hands.place("bonnet"));
    QVERIFY(isDrawn(bench));
    QVERIFY(bench.tap(QStringLiteral("Back")) && bench.tap(QStringLiteral("Back to the wall")));

    QVERIFY(bench.tap(QStringLiteral("Staff and bays")));
    QVERIFY(comesUp(bench, "StaffScreen"));
    QVERIFY(bench.tap(QStringLiteral("Dilys Marne")));
    QVERIFY(bench.untilSays(QStringLiteral("Qualifications")));
    QVERIFY(bench.tap(QStringLiteral("Cancel")));
    QVERIFY(bench.tap(QStringLiteral("Back to the wall")));

    QVERIFY(bench.tap(QStringLiteral("Bring a car in")));
    QVERIFY(comesUp(bench, "ArrivalScreen"));
    QVERIFY(bench.write(QStringLiteral("Stock number"), QStringLiteral("K-8")));
    QCOMPARE(bench.shell().arrival()->identity()->property("stockNumber").toString(),
             QStringLiteral("K-8"));
    QVERIFY(isDrawn(bench));
}

void tst_EveryScreen::firstStart_isDrawn()
{
    KioskBench bench(BenchHouse::Start::Empty);
    bench.show(small);
    QVERIFY(bench.untilSays(QStringLiteral("Set up this workshop")));
    QVERIFY(comesUp(bench, "SetupScreen"));
    QVERIFY(bench.tap(QStringLiteral("Set up this workshop")));
    QVERIFY(bench.until([&] { return !bench.ofType("Field").empty(); }, QStringLiteral("form")));
    QVERIFY(isDrawn(bench));
}

RAMPLIGHT_TEST(QGuiApplication, tst_EveryScreen)
#include "tst_everyscreen.moc"
