// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "bench/history.h"
#include "bench/report.h"

#include <QElapsedTimer>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

// The wall's query with 200 cars in preparation, over a short and over a long history. Both
// databases are asked in turns.
class BenchWallQuery : public QObject
{
    Q_OBJECT

public:
    // A bench takes as long as it takes.
    static void initMain() { qputenv("QTEST_FUNCTION_TIMEOUT", "3600000"); }

private slots:
    void askingForTheWall()
    {
        constexpr int open = 200;
        constexpr int asks = 60;
        const Stories stories = demoStories();
        QVERIFY(!stories.open.empty());
        QVERIFY(!stories.released.empty());
        const History small(1'000, open, stories);
        const History large(20'000, open, stories);
        std::vector<double> smallWarm;
        std::vector<double> largeWarm;
        std::vector<double> smallFirst;
        std::vector<double> largeFirst;
        const auto ask = [](Store& store) {
            QElapsedTimer timer;
            timer.start();
            const auto cards = store.wall().wall();
            const double took = double(timer.nsecsElapsed()) / 1e6;
            if (!cards || cards->size() != std::size_t{open})
                qFatal("the wall does not have %d cars", open);
            return took;
        };
        for (int i = 0; i < asks; ++i) {
            // First as after a start, then as it goes on.
            const auto smallStore = small.open();
            const auto largeStore = large.open();
            smallFirst.push_back(ask(*smallStore));
            largeFirst.push_back(ask(*largeStore));
            smallWarm.push_back(ask(*smallStore));
            largeWarm.push_back(ask(*largeStore));
        }
        qInfo("histories of %lld and %lld entries, filled in %.0f s and %.0f s", small.entries(),
              large.entries(), small.seconds(), large.seconds());
        tell(QStringLiteral("wall, 20,000 cars (ours) by 1,000 cars (bare), first query"),
             quantile(largeFirst, 0.5), quantile(smallFirst, 0.5), QStringLiteral("ms"), Aim::Under,
             1.2);
        tell(QStringLiteral("wall, 20,000 cars (ours) by 1,000 cars (bare)"),
             quantile(largeWarm, 0.5), quantile(smallWarm, 0.5), QStringLiteral("ms"), Aim::Under,
             1.2);
    }
};

QTEST_MAIN(BenchWallQuery)
#include "bench_wallquery.moc"
