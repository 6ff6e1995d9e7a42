// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "amount.h"
#include "diskfault.h"
#include "houseworker.h"
#include "promises.h"
#include "support/testmain.h"

#include <QElapsedTimer>
#include <QProcess>
#include <QTemporaryDir>
#include <QTest>

#include <cerrno>

using namespace ramplight;
using namespace ramplight::test;

namespace {

/// What came of some commands on a disk that fails once.
struct CallCourse
{
    int code = -1;
    QByteArray out;
    int calls = 0; ///< writes, syncs, truncations and renamings
};

/// at: the call that fails, from 1 on.
CallCourse work(const QString& folder, const StoreSettings& settings, int commands, int at,
                int code)
{
    const FailingDisk disk;
    QProcess kiosk;
    kiosk.setProcessEnvironment(
        disk.under(folder, {.at = at, .code = code}, QProcessEnvironment::systemEnvironment()));
    kiosk.start(QStringLiteral(HOUSE_WORKER),
                {settings.file, QStringLiteral("7"), QString::number(commands)});
    CallCourse course;
    if (kiosk.waitForFinished(patience) && kiosk.exitStatus() == QProcess::NormalExit)
        course.code = kiosk.exitCode();
    course.out = kiosk.readAllStandardOutput();
    course.calls = disk.calls();
    return course;
}

} // namespace

// Every single write, sync, truncation and renaming of a workshop's file fails in turn, from its
// being opened to its being closed. The people go on, and nothing that was called kept is lost.
class TestEveryCall : public QObject
{
    Q_OBJECT

public:
    static void initMain() { qputenv("QTEST_FUNCTION_TIMEOUT", "7200000"); }

private slots:
    void failsOnce_losesNothing_data()
    {
        QTest::addColumn<int>("code");
        QTest::newRow("disk fault") << EIO;
        QTest::newRow("no room") << ENOSPC;
    }

    void failsOnce_losesNothing()
    {
        QFETCH(int, code);
        int failed = 0;
        qint64 kept = 0;
        QElapsedTimer timer;
        timer.start();
        for (int at = 1;; at += m_stride) {
            const QTemporaryDir folder;
            StoreSettings settings;
            settings.file = folder.filePath(QStringLiteral("workshop.sqlite"));
            setUpHouse(settings);
            const CallCourse course = work(folder.path(), settings, m_commands, at, code);
            const auto where = [&] { return QStringLiteral("call %1").arg(at); };
            QVERIFY2(course.code == 0, qPrintable(where()));
            const QStringList own = keptIn(course.out);
            QVERIFY2(own.size() > m_commands / 4, qPrintable(where()));
            const QStringList broken = brokenPromises(settings, own, 0);
            QVERIFY2(broken.isEmpty(),
                     qPrintable(where() + QLatin1Char('\n') + broken.join(QLatin1Char('\n'))));
            if (course.calls < at)
                break; // it had ended before
            ++failed;
            kept += own.size();
        }
        QVERIFY(failed > 100 / m_stride);
        qInfo("%d calls failed, each once; %lld commands kept, %lld s", failed,
              static_cast<long long>(kept), static_cast<long long>(timer.elapsed() / 1000));
    }

private:
    const int m_stride = amount("STRIDE", 41);
    const int m_commands = amount("COMMANDS", 20);
};

RAMPLIGHT_TEST(QCoreApplication, TestEveryCall)
#include "tst_everycall.moc"
