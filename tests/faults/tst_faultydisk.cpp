// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "cli/program.h"
#include "faults/aftermath.h"
#include "faults/amount.h"
#include "faults/diskfault.h"
#include "support/seed.h"
#include "support/testmain.h"

#include <QFile>
#include <QProcess>
#include <QRandomGenerator>
#include <QTemporaryDir>
#include <QTest>

#include <cerrno>

using namespace ramplight::test;

namespace {

/// What came of the program on a disk like that.
struct Course
{
    int code = -1;
    QByteArray out;
    QByteArray err;
    int calls = 0;
};

/// Calls that the program makes through the libraries it uses, or may once make.
constexpr const char* kindsOfCall = R"(
import ctypes, os, sys
libc = ctypes.CDLL(None, use_errno=True)
folder = os.open(sys.argv[1], os.O_RDONLY)
file = os.open(sys.argv[1] + '/a', os.O_RDWR | os.O_CREAT)
for name in 'abcd':
    open(sys.argv[1] + '/' + name, 'a').close()

def renameat2():
    if libc.renameat2(folder, b'b', folder, b'e', 1) != 0:
        raise OSError(ctypes.get_errno(), 'renameat2')

for call in (lambda: os.writev(file, [b'x', b'y']),
             lambda: os.pwritev(file, [b'x'], 0),
             lambda: os.rename('a', 'f', src_dir_fd=folder, dst_dir_fd=folder),
             renameat2,
             lambda: os.link('c', 'g', src_dir_fd=folder, dst_dir_fd=folder)):
    try:
        call()
        print('done')
    except OSError as fault:
        print(fault.errno)
)";

/// Plays the demo week.
Course play(const QString& home, const DiskFault& fault)
{
    const FailingDisk disk;
    QProcess program;
    program.setProcessEnvironment(disk.under(home, fault, programEnvironment()));
    program.start(programPath(), {QStringLiteral("--home"), home, QStringLiteral("demo"),
                                  QStringLiteral("--tell")});
    Course course;
    if (program.waitForFinished(900'000) && program.exitStatus() == QProcess::NormalExit)
        course.code = program.exitCode();
    course.out = program.readAllStandardOutput();
    course.err = program.readAllStandardError();
    course.calls = disk.calls();
    return course;
}

} // namespace

// The disk fails under the real program while people sign: a write, a sync, a truncation or a
// renaming, once or from then on. Whatever it had called kept is there, once, and the ledger whole.
class TestFaultyDisk : public QObject
{
    Q_OBJECT

public:
    // A disk that is busy with other things takes as long as it takes.
    static void initMain() { qputenv("QTEST_FUNCTION_TIMEOUT", "1800000"); }

private slots:
    void cleanupTestCase()
    {
        qInfo("open again after %lld ms at most", static_cast<long long>(slowestOpening()));
    }

    void failingDisk_losesNoAcknowledgedSignOff_data()
    {
        const QTemporaryDir home;
        const Course whole = play(home.path(), {});
        QVERIFY2(whole.code == 0, whole.err.constData());
        QVERIFY(whole.calls > 1000);
        qInfo("%d calls", whole.calls);
        QRandomGenerator random = toldRandom();
        QTest::addColumn<int>("at");
        QTest::addColumn<int>("code");
        QTest::addColumn<bool>("stays");
        for (int round = 1; round <= m_rounds; ++round) {
            const bool full = round % 2 == 0;
            const bool stays = round % 4 < 2;
            // The first tenth is the workshop being set up, before anybody signs.
            QTest::addRow("round %d: %s, %s", round, full ? "no room" : "disk fault",
                          stays ? "from then on" : "once")
                << random.bounded(whole.calls / 10, whole.calls * m_mostPercent / 100)
                << (full ? ENOSPC : EIO) << stays;
        }
    }

    void failingDisk_losesNoAcknowledgedSignOff()
    {
        QFETCH(int, at);
        QFETCH(int, code);
        QFETCH(bool, stays);
        const QTemporaryDir home;
        const Course course = play(home.path(), {at, code, stays});
        // It ends by itself, in words where the fault reached it: never in a crash.
        QVERIFY2(course.code >= 0, course.err.constData());
        QVERIFY2(course.code == 0 || !course.err.trimmed().isEmpty(), "no words");
        const QStringList faults = aftermath(home.path(), acknowledgedIn(course.out));
        QVERIFY2(faults.isEmpty(), qPrintable(faults.join(QLatin1Char('\n'))));
    }

    // The shim itself: every way to write and to rename counts, and can be made to fail.
    void everyKindOfCall_canFail_data()
    {
        QTest::addColumn<int>("at");
        for (int at = 0; at <= 5; ++at)
            QTest::addRow("call %d", at) << at;
    }

    void everyKindOfCall_canFail()
    {
        QFETCH(int, at);
        const QTemporaryDir folder;
        const FailingDisk disk;
        QProcess program;
        program.setProcessEnvironment(disk.under(folder.path(), {.at = at, .code = EIO},
                                                 QProcessEnvironment::systemEnvironment()));
        program.start(QStringLiteral("python3"),
                      {QStringLiteral("-c"), QString::fromLatin1(kindsOfCall), folder.path()});
        QVERIFY(program.waitForFinished(60'000));
        QVERIFY2(program.exitCode() == 0, program.readAllStandardError().constData());
        QByteArrayList expected(5, "done");
        if (at > 0)
            expected[at - 1] = QByteArray::number(EIO);
        QCOMPARE(program.readAllStandardOutput().trimmed().split('\n'), expected);
        QCOMPARE(disk.calls(), 5);
    }

    // Where nothing can be written from the start on, nothing is.
    void nothingCanBeWritten_thatIsSaid()
    {
        const QTemporaryDir home;
        const Course course = play(home.path(), {1, ENOSPC, true});
        QVERIFY(course.code > 0);
        QVERIFY2(!course.err.trimmed().isEmpty(), "no words");
        QCOMPARE(acknowledgedIn(course.out).size(), 0U);
    }

private:
    const int m_rounds = amount("ROUNDS", 4);
    const int m_mostPercent = amount("MOST_PERCENT", 40);
};

RAMPLIGHT_TEST(QCoreApplication, TestFaultyDisk)
#include "tst_faultydisk.moc"
