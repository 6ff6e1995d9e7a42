// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/backgroundpool.h"
#include "support/testmain.h"

#include <QTest>
#include <QThread>

#include <algorithm>
#include <atomic>
#include <vector>

#include <sys/resource.h>
#include <unistd.h>

using namespace ramplight;

namespace {

int niceness()
{
    return getpriority(PRIO_PROCESS, static_cast<id_t>(gettid()));
}

} // namespace

class TestBackgroundPool : public QObject
{
    Q_OBJECT

private slots:
    void work_givesWayToTheScreen()
    {
        QThreadPool plain;
        BackgroundPool background;
        const int ours = niceness();
        auto there = onPool(plain, niceness);
        auto behind = onPool(background, niceness);
        there.waitForFinished();
        behind.waitForFinished();
        QCOMPARE(there.result(), ours);
        QVERIFY(behind.result() > ours);
        QCOMPARE(niceness(), ours);
    }

    void work_isDoneOneByOne()
    {
        BackgroundPool pool;
        std::atomic<int> busy = 0;
        std::atomic<int> most = 0;
        std::vector<QFuture<int>> all;
        for (int i = 0; i < 20; ++i)
            all.push_back(onPool(pool, [&busy, &most, i] {
                most = std::max(most.load(), ++busy);
                QThread::msleep(1);
                --busy;
                return i;
            }));
        for (int i = 0; i < 20; ++i) {
            all[static_cast<std::size_t>(i)].waitForFinished();
            QCOMPARE(all[static_cast<std::size_t>(i)].result(), i);
        }
        QCOMPARE(most.load(), 1);
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestBackgroundPool)
#include "tst_backgroundpool.moc"
