// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "cli/program.h"
#include "faults/aftermath.h"
#include "faults/amount.h"
#include "support/seed.h"
#include "support/testmain.h"

#include <QDir>
#include <QProcess>
#include <QRandomGenerator>
#include <QTemporaryDir>
#include <QTest>

#include <iterator>
#include <limits>

using namespace ramplight::test;

// The kiosk itself, with its screens, its store thread and its pool, is killed while somebody at
// the wall signs one operation after the other (the tour does). Each signature that the screen had
// shown as taken is in the ledger once, and what is left is whole.
class TestKilledKiosk : public QObject
{
    Q_OBJECT

public:
    // Every round plays the demo week first.
    static void initMain() { qputenv("QTEST_FUNCTION_TIMEOUT", "900000"); }

private slots:
    void killedAtTheWall_leavesAWholeWorkshop_data()
    {
        QTest::addColumn<int>("milliseconds");
        QRandomGenerator random = toldRandom();
        for (int round = 1; round <= m_rounds; ++round)
            QTest::addRow("round %d", round) << random.bounded(m_longestWork);
    }

    void killedAtTheWall_leavesAWholeWorkshop()
    {
        QFETCH(int, milliseconds);
        QTemporaryDir folder;
        const QString pictures = folder.filePath(QStringLiteral("pictures"));
        QProcessEnvironment environment = programEnvironment();
        // The tour's workshop is made below it, and stays there when nobody tidies up.
        environment.insert(QStringLiteral("TMPDIR"), folder.path());
        QStringList arguments{QStringLiteral("tour"), QStringLiteral("--tell"),
                              QStringLiteral("--out"), pictures};
        const QString demo = folder.filePath(QStringLiteral("ramplight-demo"));
        if (!m_isWhole) {
            QCOMPARE(makeDemo(demo), QString());
            arguments += {QStringLiteral("--small"), QStringLiteral("--work-in"), demo};
        }
        QProcess program;
        program.setProcessEnvironment(environment);
        program.start(programPath(), arguments);
        QByteArray out;
        const auto signs = [&] {
            out += program.readAllStandardOutput();
            return !toldTourIn(out).shown.empty();
        };
        const bool came = QTest::qWaitFor(
            [&] { return signs() || program.state() == QProcess::NotRunning; }, patience);
        QVERIFY2(came && signs(), program.readAllStandardError().constData());
        // Not a wait for something: the kill comes at any moment of the work.
        QTest::qWait(milliseconds);
        program.kill();
        QVERIFY(program.waitForFinished(patience));
        QVERIFY2(program.exitStatus() == QProcess::CrashExit,
                 "the program had ended before it was killed");
        const QStringList homes =
            m_isWhole ? QDir(folder.path()).entryList({QStringLiteral("ramplight-*")}, QDir::Dirs)
                      : QStringList{QStringLiteral("ramplight-demo")};
        QCOMPARE(homes.size(), 1);
        const ToldTour told = toldTourIn(out + program.readAllStandardOutput());
        QVERIFY(told.from);
        ++m_killed;
        m_shown += std::ssize(told.shown);
        const QStringList faults = aftermathOfTour(folder.filePath(homes.front()), told);
        QVERIFY2(faults.isEmpty(), qPrintable(faults.join(QLatin1Char('\n'))));
    }

    // The check itself: a signature that is not in the ledger is missed.
    void lostSignature_isMissed()
    {
        QTemporaryDir folder;
        const QString home = folder.filePath(QStringLiteral("home"));
        QCOMPARE(makeDemo(home), QString());
        ToldTour told{std::numeric_limits<qint64>::max(), {}};
        QCOMPARE(signaturesAgainst(home, told), QStringList());
        told.shown.push_back({QStringLiteral("car-never"), 7, 3, 1});
        QCOMPARE(
            signaturesAgainst(home, told),
            QStringList{QStringLiteral("car-never, operation 7, by 3: 0 times in the ledger")});
        told = {0, {}};
        QVERIFY(signaturesAgainst(home, told).join(' ').contains("were kept without a word"));
    }

    void cleanupTestCase()
    {
        qInfo("open again after %lld ms at most", static_cast<long long>(slowestOpening()));
        qInfo("%d times killed; %lld signatures had been shown", m_killed,
              static_cast<long long>(m_shown));
        QVERIFY(m_killed == 0 || m_shown > 0);
    }

private:
    int m_killed = 0;
    qint64 m_shown = 0;

    static constexpr int patience = 240'000;
    const int m_rounds = amount("ROUNDS", 1);
    const int m_longestWork = amount("LONGEST_WORK_MS", 2'000);
    /// The tour with the week that it plays first, or the work alone in a week that was played.
    const bool m_isWhole = amount("WHOLE_TOUR", 0) != 0;
};

RAMPLIGHT_TEST(QCoreApplication, TestKilledKiosk)
#include "tst_killedkiosk.moc"
