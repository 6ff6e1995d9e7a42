// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "cli/program.h"
#include "faults/aftermath.h"
#include "faults/amount.h"
#include "support/seed.h"
#include "support/testmain.h"

#include <QProcess>
#include <QRandomGenerator>
#include <QTemporaryDir>
#include <QTest>
#include <QThread>

using namespace ramplight::test;

// The real program plays the demo week: some hundred signatures, each named on its standard output
// once it is kept. It is killed somewhere in it, and nothing that it named may be missing.
class TestKilledSignOffs : public QObject
{
    Q_OBJECT

private slots:
    void cleanupTestCase()
    {
        qInfo("open again after %lld ms at most", static_cast<long long>(slowestOpening()));
    }

    void killedWhileSigning_losesNoAcknowledgedSignOff_data()
    {
        QTest::addColumn<int>("afterSignatures");
        QTest::addColumn<int>("microseconds");
        QRandomGenerator random = toldRandom();
        for (int round = 1; round <= m_rounds; ++round)
            QTest::addRow("round %d", round)
                << random.bounded(1, m_mostSignatures) << random.bounded(longestPause);
    }

    void killedWhileSigning_losesNoAcknowledgedSignOff()
    {
        QFETCH(int, afterSignatures);
        QFETCH(int, microseconds);
        QTemporaryDir home;
        const std::vector<Acknowledged> acknowledged =
            killedAfter(afterSignatures, microseconds, home.path());
        QCOMPARE_GE(std::ssize(acknowledged), afterSignatures);
        const QStringList faults = aftermath(home.path(), acknowledged);
        QVERIFY2(faults.isEmpty(), qPrintable(faults.join(QLatin1Char('\n'))));
    }

    // The check itself: a signature that is not in the ledger is missed.
    void lostSignOff_isMissed()
    {
        QTemporaryDir home;
        std::vector<Acknowledged> acknowledged = killedAfter(2, 0, home.path());
        QVERIFY(!acknowledged.empty());
        acknowledged.push_back({acknowledged.front().car, acknowledged.front().operation,
                                QStringLiteral("never-kept")});
        QVERIFY(aftermath(home.path(), acknowledged)
                    .join(QLatin1Char('\n'))
                    .contains(QStringLiteral("never-kept: 0 times in the ledger")));
    }

private:
    /// What the program had called kept when it was killed; empty when it ended before that.
    static std::vector<Acknowledged> killedAfter(int signatures, int microseconds,
                                                 const QString& home)
    {
        QProcess program;
        program.setProcessEnvironment(programEnvironment());
        program.start(programPath(), {QStringLiteral("--home"), home, QStringLiteral("demo"),
                                      QStringLiteral("--tell")});
        QByteArray output;
        while (std::ssize(acknowledgedIn(output)) < signatures &&
               program.waitForReadyRead(patience))
            output += program.readAllStandardOutput();
        // Not a wait for something: the moment of the kill lies anywhere in a command.
        QThread::usleep(static_cast<unsigned long>(microseconds));
        program.kill();
        if (!program.waitForFinished(patience) || program.exitStatus() != QProcess::CrashExit)
            return {};
        output += program.readAllStandardOutput();
        return acknowledgedIn(output);
    }

    static constexpr int patience = 60'000;
    /// Some commands long.
    static constexpr int longestPause = 20'000;
    const int m_rounds = amount("ROUNDS", 5);
    const int m_mostSignatures = amount("MOST_SIGNATURES", 40);
};

RAMPLIGHT_TEST(QCoreApplication, TestKilledSignOffs)
#include "tst_killedsignoffs.moc"
