// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "bench/flicks.h"
#include "bench/report.h"
#include "bench/scene.h"
#include "kiosk/kioskapp.h"
#include "kiosk/planday.h"
#include "screens/benchhouse.h"

#include <QQmlApplicationEngine>
#include <QQuickItem>
#include <QQuickWindow>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

// The demo workshop's plan is dragged through its days, against a bare flickable with as many
// rectangles of the same sizes.
class BenchPlanning : public QObject
{
    Q_OBJECT

public:
    static void initMain() { qputenv("QTEST_FUNCTION_TIMEOUT", "3600000"); }

private slots:
    void dragging()
    {
        constexpr int rounds = 100;
        constexpr int framesPerRound = 30;
        BenchHouse house(BenchHouse::Start::Demo);
        KioskOptions options;
        options.windowed = true;
        options.planning = {.on = true, .schedules = 200, .quietMs = 0};
        KioskApp app(options, {house.desk(), house.clock, house.catalogue, house.photos(),
                               house.demoMaker()});
        QVERIFY(app.show());
        QQuickWindow* window = app.window();
        QVERIFY(QTest::qWaitFor(
            [&] { return app.shell().plan()->planned() && !app.shell().plan()->working(); },
            60'000));
        auto* navigator = window->property("navigator").value<QObject*>();
        QVERIFY(QMetaObject::invokeMethod(navigator, "openBays"));
        QVERIFY(QTest::qWaitFor(
            [&] { return !visibleOfType(window->contentItem(), "BaysScreen").empty(); }));
        QQuickItem* screen = visibleOfType(window->contentItem(), "BaysScreen").at(0);
        screen->setProperty("look", 2); // by person
        QVERIFY(QTest::qWaitFor([&] { return !visibleOfType(screen, "PlanLanes").empty(); }));
        (void)window->grabWindow();
        auto* days =
            visibleOfType(screen, "PlanLanes").at(0)->property("daysView").value<QQuickItem*>();

        QQmlApplicationEngine engine;
        engine.setInitialProperties(bareLike(app.shell(), days, window));
        engine.load(QUrl(QStringLiteral("qrc:/qt/qml/Ramplight/Bare/BareLanes.qml")));
        QVERIFY(!engine.rootObjects().isEmpty());
        auto* bareWindow = qobject_cast<QQuickWindow*>(engine.rootObjects().constFirst());
        QQuickItem* bareDays = visibleOfType(bareWindow->contentItem(), "QQuickFlickable").at(0);
        (void)bareWindow->grabWindow();

        Flicks ours(window, days, Qt::Horizontal);
        Flicks bare(bareWindow, bareDays, Qt::Horizontal);
        std::vector<double> ourFrames;
        std::vector<double> bareFrames;
        for (int round = 0; round < rounds; ++round) {
            ours.frames(framesPerRound, ourFrames);
            bare.frames(framesPerRound, bareFrames);
        }
        qInfo("ours: %s", qPrintable(spread(ourFrames)));
        qInfo("bare: %s, %d rectangles", qPrintable(spread(bareFrames)), m_bars);
        tell(QStringLiteral("dragging the plan, p99 of a frame"), quantile(ourFrames, 0.99),
             quantile(bareFrames, 0.99), QStringLiteral("ms"), Aim::AtMost, 1.5);
    }

private:
    /// The plan's bars as they lie, each with its stock number.
    QVariantMap bareLike(Shell& shell, QQuickItem* days, QQuickWindow* window)
    {
        QList<QRectF> boxes;
        QStringList words;
        const PlanSheet& sheet = shell.plan()->sheet();
        const double day = days->property("contentWidth").toReal() / shell.plan()->days();
        const double lane = days->height() / static_cast<double>(sheet.people.size() + 1);
        for (std::size_t d = 0; d < sheet.days.size(); ++d) {
            const SheetDay& one = sheet.days[d];
            const double minute = day / (one.closes - one.opens);
            for (const SheetBar& bar : sheet.byPerson[d]) {
                boxes.append(QRectF(static_cast<double>(d) * day + (bar.from - one.opens) * minute,
                                    (bar.lane + 1) * lane,
                                    std::max(6.0, (bar.to - bar.from) * minute), lane - 4));
                words.append(bar.stock);
            }
        }
        m_bars = static_cast<int>(boxes.size());
        return {{QStringLiteral("width"), window->width()},
                {QStringLiteral("height"), window->height()},
                {QStringLiteral("place"), QRectF(days->mapToScene({}), days->size())},
                {QStringLiteral("wide"), days->property("contentWidth")},
                {QStringLiteral("boxes"), QVariant::fromValue(boxes)},
                {QStringLiteral("words"), words},
                {QStringLiteral("size"), 17}};
    }

    int m_bars = 0;
};

QTEST_MAIN(BenchPlanning)
#include "bench_planning.moc"
