// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "randomworkshop.h"
#include "shippedcatalogue.h"
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
        if (!hold(tally, usual, stepsPerSequence,
                  [&](quint64 seed) { return RandomWorkshop(seed, tally); }))
            return;
        for (std::size_t kind = 0; kind < commandKinds; ++kind)
            QVERIFY2(tally.carriedOut[kind] > 0, commandNames()[kind]);
        QVERIFY(tally.released * 3 > tally.sequences);
        QVERIFY(tally.heldAgain * 10 > tally.sequences);
        QVERIFY(tally.releasedAgain * 20 > tally.sequences);
        QVERIFY(tally.reopened * 3 > tally.sequences);
        QVERIFY(tally.checksVoided * 20 > tally.sequences);
        QVERIFY(tally.followUps * 5 > tally.sequences);
    }

    // All operations that are shipped, at every place of a car, for whatever was found there.
    void promises_underTheShippedCatalogue_hold()
    {
        Tally tally;
        if (!hold(tally, usual / 10, 4 * stepsPerSequence,
                  [&](quint64 seed) { return RandomWorkshop(seed, tally, theShippedCatalogue()); }))
            return;
        QVERIFY(tally.released > 0);
        QVERIFY(tally.heldAgain > 0);
        QVERIFY(tally.reopened * 3 > tally.sequences);
        QVERIFY(tally.checksVoided > 0);
        QVERIFY(tally.followUps > 0);
    }

private:
    static constexpr int stepsPerSequence = 60;
    static constexpr int usual = 300; ///< sequences

    /// RAMPLIGHT_SEQUENCES is for the usual number of the small catalogue; others follow it. False:
    /// one did not hold (the test has failed), or too few were driven to have met every rule, which
    /// would otherwise not have been tried.
    template <class Make>
    static bool hold(const Tally& tally, int often, int steps, const Make& make)
    {
        const bool single = qEnvironmentVariableIsSet("RAMPLIGHT_SEED");
        const int asked = qEnvironmentVariableIntValue("RAMPLIGHT_SEQUENCES");
        const int wanted = single ? 1 : asked > 0 ? std::max(1, asked * often / usual) : often;
        for (int i = 0; i < wanted; ++i) {
            const quint64 seed =
                single ? qEnvironmentVariable("RAMPLIGHT_SEED").toULongLong() : quint64(i) + 1;
            RandomWorkshop workshop = make(seed);
            const bool held = workshop.run(steps);
            if (!held || single)
                qInfo().noquote() << workshop.story();
            if (!held) {
                QTest::qFail(
                    qPrintable(QStringLiteral("seed %1: %2").arg(seed).arg(workshop.what())),
                    __FILE__, __LINE__);
                return false;
            }
        }
        tell(tally);
        return wanted >= often;
    }

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
