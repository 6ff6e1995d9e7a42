// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "randomworkshop.h"
#include "support/testmain.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

// Whatever people ask of the workshop, in whatever order, its promises hold. RAMPLIGHT_SEQUENCES
// says how many random sequences are driven, RAMPLIGHT_SEED drives a single one and tells it.
class TestInvariants : public QObject
{
    Q_OBJECT

private slots:
    void promises_underRandomCommands_hold()
    {
        Tally tally;
        const bool single = qEnvironmentVariableIsSet("RAMPLIGHT_SEED");
        const int sequences = single ? 1 : qEnvironmentVariableIntValue("RAMPLIGHT_SEQUENCES");
        const int wanted = sequences > 0 ? sequences : usual;
        for (int i = 0; i < wanted; ++i) {
            const quint64 seed =
                single ? qEnvironmentVariable("RAMPLIGHT_SEED").toULongLong() : quint64(i) + 1;
            RandomWorkshop workshop(seed, tally);
            const bool held = workshop.run(stepsPerSequence);
            if (!held || single)
                qInfo().noquote() << workshop.story();
            QVERIFY2(held,
                     qPrintable(QStringLiteral("seed %1: %2").arg(seed).arg(workshop.what())));
        }
        tell(tally);
        // A few sequences cannot meet every rule.
        if (wanted < usual)
            return;
        // Were a rule never met, it would not have been tried.
        for (std::size_t kind = 0; kind < commandKinds; ++kind)
            QVERIFY2(tally.carriedOut[kind] > 0, commandNames()[kind]);
        QVERIFY(tally.released * 3 > tally.sequences);
        QVERIFY(tally.heldAgain * 10 > tally.sequences);
        QVERIFY(tally.releasedAgain * 20 > tally.sequences);
        QVERIFY(tally.reopened * 3 > tally.sequences);
        QVERIFY(tally.checksVoided * 20 > tally.sequences);
        QVERIFY(tally.followUps * 5 > tally.sequences);
    }

private:
    static constexpr int stepsPerSequence = 60;
    static constexpr int usual = 300; ///< sequences

    static void tell(const Tally& tally)
    {
        QStringList lines;
        for (std::size_t kind = 0; kind < commandKinds; ++kind)
            lines.append(QStringLiteral("%1 %2 of %3")
                             .arg(QLatin1StringView(commandNames()[kind]), -18)
                             .arg(tally.carriedOut[kind], 7)
                             .arg(tally.asked[kind], 7));
        qInfo().noquote() << QStringLiteral("carried out, of asked:\n%1").arg(lines.join('\n'));
        qInfo().noquote() << QStringLiteral(
                                 "of %1 sequences: released %2, held again %3, released once more "
                                 "%4, reopened %5, a check voided %6, a follow-up opened %7")
                                 .arg(tally.sequences)
                                 .arg(tally.released)
                                 .arg(tally.heldAgain)
                                 .arg(tally.releasedAgain)
                                 .arg(tally.reopened)
                                 .arg(tally.checksVoided)
                                 .arg(tally.followUps);
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestInvariants)
#include "tst_invariants.moc"
