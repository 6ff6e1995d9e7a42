// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "cli/program.h"
#include "faults/aftermath.h"
#include "support/seed.h"

#include <QDir>
#include <QProcess>
#include <QRandomGenerator>
#include <QTemporaryDir>
#include <QTest>

using namespace ramplight::test;

// The kiosk itself, with its screens, its store thread and its pool, is killed while somebody at
// the wall signs one operation after the other (the tour does). What it leaves is whole.
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
        for (int round = 1; round <= rounds; ++round)
            QTest::addRow("round %d", round) << random.bounded(longestWork);
    }

    void killedAtTheWall_leavesAWholeWorkshop()
    {
        QFETCH(int, milliseconds);
        QTemporaryDir folder;
        const QString pictures = folder.filePath(QStringLiteral("pictures"));
        QProcessEnvironment environment = programEnvironment();
        // The tour's workshop is made below it, and stays there when nobody tidies up.
        environment.insert(QStringLiteral("TMPDIR"), folder.path());
        QProcess program;
        program.setProcessEnvironment(environment);
        program.start(programPath(), {QStringLiteral("tour"), QStringLiteral("--out"), pictures});
        // From then on it signs.
        const auto signs = [&] {
            return !QDir(pictures)
                        .entryList({QStringLiteral("*-ready-to-sign.png")}, QDir::Files)
                        .isEmpty();
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
            QDir(folder.path()).entryList({QStringLiteral("ramplight-*")}, QDir::Dirs);
        QCOMPARE(homes.size(), 1);
        const QStringList faults = wholeAfterKill(folder.filePath(homes.front()));
        QVERIFY2(faults.isEmpty(), qPrintable(faults.join(QLatin1Char('\n'))));
    }

private:
    static constexpr int rounds = 6;
    static constexpr int patience = 240'000;
    static constexpr int longestWork = 8'000;
};

QTEST_GUILESS_MAIN(TestKilledKiosk)
#include "tst_killedkiosk.moc"
