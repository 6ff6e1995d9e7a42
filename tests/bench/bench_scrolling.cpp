// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "bench/flicks.h"
#include "bench/report.h"
#include "bench/scene.h"
#include "kiosk/kioskapp.h"
#include "screens/benchhouse.h"

#include <QQmlApplicationEngine>
#include <QQuickItem>
#include <QQuickWindow>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

namespace {

constexpr int cars = 200;

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

        Flicks ours(wall, grid, Qt::Vertical);
        Flicks bare(bareWindow, bareGrid, Qt::Vertical);
        std::vector<double> ourFrames;
        std::vector<double> bareFrames;
        for (int round = 0; round < rounds; ++round) {
            ours.frames(framesPerRound, ourFrames);
            bare.frames(framesPerRound, bareFrames);
        }
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
