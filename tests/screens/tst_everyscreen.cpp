// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "screenwalk.h"
#include "support/testmain.h"
#include "walkhands.h"

#include <QGuiApplication>
#include <QImage>
#include <QJSValue>
#include <QQuickItem>
#include <QQuickWindow>
#include <QSignalSpy>
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
    void eachFont_isAddedOnce_beforeThereIsAWindow();
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
    ScreenWalk walk(bench);
    QVERIFY(walk.isPrepared());
    bench.show(size);
    QImage onWall;
    QVERIFY(walk.goesRound(
        [&](const QString& screen) {
            if (onWall.isNull())
                onWall = strip(bench);
            return !onWall.isNull() &&
                   bench.until(
                       [&] { return isMarked(bench) && looksTheSame(strip(bench), onWall); },
                       QStringLiteral("the mark on %1").arg(screen));
        },
        [&] {
            return bench.house().tries(bench.house().person(QStringLiteral("Odo")), walk.ready(),
                                       {car::Release{}});
        }));
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

// One that comes later has all text laid out and drawn once more.
void tst_EveryScreen::eachFont_isAddedOnce_beforeThereIsAWindow()
{
    KioskBench bench(BenchHouse::Start::House);
    const QSignalSpy added(qGuiApp, &QGuiApplication::fontDatabaseChanged);
    bench.show();
    QCOMPARE(added.count(), 2); // regular and bold
    QCOMPARE(bench.ofType("Label")
                 .front()
                 ->property("fontInfo")
                 .value<QJSValue>()
                 .property(QStringLiteral("family"))
                 .toString(),
             QStringLiteral("B612 Ramplight"));
}

RAMPLIGHT_TEST(QGuiApplication, tst_EveryScreen)
#include "tst_everyscreen.moc"
