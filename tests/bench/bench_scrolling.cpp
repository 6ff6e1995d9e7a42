// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "bench/report.h"
#include "bench/scene.h"
#include "kiosk/kioskapp.h"
#include "screens/benchhouse.h"

#include <QElapsedTimer>
#include <QQmlApplicationEngine>
#include <QQuickItem>
#include <QQuickWindow>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

namespace {

constexpr int cars = 200;

/// Scrolls a grid up and down by flicks of a finger: quick at first, slower and slower, 60 steps a
/// second.
class Flicks
{
public:
    Flicks(QQuickWindow* window, QQuickItem* grid)
        : m_window(window)
        , m_grid(grid)
        , m_end(grid->property("contentHeight").toReal() - grid->height())
    {
    }

    /// Milliseconds of each frame: moving on, what follows from it, drawing.
    std::vector<double> frames(int count)
    {
        std::vector<double> took;
        QElapsedTimer timer;
        for (int i = 0; i < count; ++i) {
            step();
            timer.start();
            m_grid->setProperty("contentY", m_at);
            QCoreApplication::processEvents();
            QEvent update(QEvent::UpdateRequest);
            QCoreApplication::sendEvent(m_window, &update);
            took.push_back(double(timer.nsecsElapsed()) / 1e6);
        }
        return took;
    }

private:
    void step()
    {
        constexpr qreal stepsPerSecond = 60;
        constexpr qreal slowest = 60;   // pixels per second
        constexpr qreal fastest = 5000; // as a quick flick of a hand
        constexpr qreal friction = 0.965;
        if (m_speed < slowest)
            m_speed = fastest;
        m_at += m_direction * m_speed / stepsPerSecond;
        if (m_at < 0 || m_at > m_end) {
            m_direction = -m_direction;
            m_at = std::clamp(m_at, 0.0, m_end);
        }
        m_speed *= friction;
    }

    QQuickWindow* m_window;
    QQuickItem* m_grid;
    qreal m_end;
    qreal m_at = 0;
    qreal m_speed = 0;
    int m_direction = 1;
};

} // namespace

// The wall with 200 cars scrolls, against a bare grid of the same size.
class BenchScrolling : public QObject
{
    Q_OBJECT

public:
    // A bench takes as long as it takes.
    static void initMain() { qputenv("QTEST_FUNCTION_TIMEOUT", "3600000"); }

private slots:
    void scrolling()
    {
        constexpr int rounds = 100;
        constexpr int framesPerRound = 30;
        BenchHouse house(BenchHouse::Start::House);
        house.fill(cars);
        giveShapes(house);
        KioskOptions options;
        options.windowed = true;
        KioskApp app(options, {house.desk(), house.clock, house.catalogue, house.photos(),
                               house.demoMaker()});
        QVERIFY(app.show());
        QVERIFY(QTest::qWaitFor([&] { return app.shell().wall()->loaded(); }));
        QQuickWindow* wall = app.window();
        QQuickItem* content = wall->contentItem();
        QVERIFY(QTest::qWaitFor([&] { return !visibleOfType(content, "CarCard").empty(); }));
        (void)wall->grabWindow();
        QQuickItem* grid = visibleOfType(content, "QQuickGridView").at(0);
        QCOMPARE(grid->property("count").toInt(), cars);

        QQmlApplicationEngine engine;
        engine.setInitialProperties(bareLike(grid, wall));
        engine.load(QUrl(QStringLiteral("qrc:/qt/qml/Ramplight/Bare/BareGrid.qml")));
        QVERIFY(!engine.rootObjects().isEmpty());
        auto* bareWindow = qobject_cast<QQuickWindow*>(engine.rootObjects().constFirst());
        QQuickItem* bareGrid = visibleOfType(bareWindow->contentItem(), "QQuickGridView").at(0);
        (void)bareWindow->grabWindow();
        QCOMPARE(bareGrid->property("contentHeight").toReal(),
                 grid->property("contentHeight").toReal());

        Flicks ours(wall, grid);
        Flicks bare(bareWindow, bareGrid);
        std::vector<double> ourFrames;
        std::vector<double> bareFrames;
        for (int round = 0; round < rounds; ++round) {
            add(ourFrames, ours.frames(framesPerRound));
            add(bareFrames, bare.frames(framesPerRound));
        }
        const auto spread = [](const std::vector<double>& frames) {
            return QStringLiteral("p50 %1, p95 %2, p99 %3, most %4 ms")
                .arg(quantile(frames, 0.5), 0, 'f', 2)
                .arg(quantile(frames, 0.95), 0, 'f', 2)
                .arg(quantile(frames, 0.99), 0, 'f', 2)
                .arg(quantile(frames, 1), 0, 'f', 2);
        };
        const Drawn drawn = drawnIn(grid);
        const Drawn bareDrawn = drawnIn(bareGrid);
        qInfo("ours: %s, %d rectangles, %d texts", qPrintable(spread(ourFrames)), drawn.rectangles,
              drawn.texts);
        qInfo("bare: %s, %d rectangles, %d texts", qPrintable(spread(bareFrames)),
              bareDrawn.rectangles, bareDrawn.texts);
        tell(QStringLiteral("scrolling, p99 of a frame"), quantile(ourFrames, 0.99),
             quantile(bareFrames, 0.99), QStringLiteral("ms"), Aim::AtMost, 1.5);
    }

private:
    /// Cars of every shape, as they come.
    static void giveShapes(BenchHouse& house)
    {
        const PersonId appraiser = house.person(QStringLiteral("Odo"));
        std::size_t at = 0;
        for (const CarCard& card : house.cards()) {
            Identity identity = card.identity;
            identity.shape =
                Names<BodyShape>::table.at(at++ % Names<BodyShape>::table.size()).first;
            house.must(appraiser, card.car,
                       {car::CorrectIdentity{identity, QStringLiteral("seen beside it")}});
        }
    }

    static void add(std::vector<double>& all, const std::vector<double>& more)
    {
        all.insert(all.end(), more.begin(), more.end());
    }

    /// The wall's geometry, and the first seven texts of a card of it.
    static QVariantMap bareLike(QQuickItem* grid, QQuickWindow* window)
    {
        QQuickItem* card = visibleOfType(grid, "CarCard").at(0);
        QStringList words;
        QList<int> sizes;
        for (QQuickItem* text : visibleOfType(card, "QQuickText")) {
            if (words.size() == 7)
                break;
            words.append(text->property("text").toString());
            sizes.append(text->property("font").value<QFont>().pixelSize());
        }
        while (words.size() < 7) {
            words.append(QStringLiteral("a text"));
            sizes.append(sizes.last());
        }
        return {{QStringLiteral("width"), window->width()},
                {QStringLiteral("height"), window->height()},
                {QStringLiteral("place"), QRectF(grid->mapToScene({}), grid->size())},
                {QStringLiteral("cellWidth"), grid->property("cellWidth")},
                {QStringLiteral("cellHeight"), grid->property("cellHeight")},
                {QStringLiteral("cardWidth"), card->width()},
                {QStringLiteral("cardHeight"), card->height()},
                {QStringLiteral("buffer"), grid->property("cacheBuffer")},
                {QStringLiteral("cells"), cars},
                {QStringLiteral("words"), words},
                {QStringLiteral("sizes"), QVariant::fromValue(sizes)}};
    }
};

QTEST_MAIN(BenchScrolling)
#include "bench_scrolling.moc"
