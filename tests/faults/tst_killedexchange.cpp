// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "cli/program.h"
#include "cli/smallhome.h"
#include "diskfault.h"
#include "storage/tornpage.h"
#include "support/testmain.h"

#include <QDir>
#include <QFileInfo>
#include <QProcess>
#include <QTemporaryDir>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

// The program is killed while a workshop that was brought back, or a file that was made anew, takes
// the place of the one that was there: before each of the last calls to the disk. What starts next
// finds a workshop, and never sets up an empty one.
class TestKilledExchange : public QObject
{
    Q_OBJECT

private slots:
    void initTestCase()
    {
        QCOMPARE(makeSmallHome(in("first/house")), QString());
        const Ran kept = runProgram(in("first/house"), {"backup", "--to", in("first/stick")});
        QVERIFY2(kept.code == 0, qPrintable(kept.err));
        QVERIFY(copyFolder(in("first"), in("torn")));
        tearPageOf(in("torn/house/workshop.sqlite"), "car");
        m_keys = bytesOf(in("first/house/site.keys"));
        QVERIFY(!m_keys.isEmpty());
    }

    void killedAtItsEnd_leavesAWorkshop_data()
    {
        QTest::addColumn<bool>("remakes");
        QTest::addColumn<bool>("noExchange");
        QTest::newRow("brought back") << false << false;
        QTest::newRow("brought back, one name after the other") << false << true;
        QTest::newRow("made anew") << true << false;
        QTest::newRow("made anew, one name after the other") << true << true;
    }

    void killedAtItsEnd_leavesAWorkshop()
    {
        QFETCH(const bool, remakes);
        QFETCH(const bool, noExchange);
        const int calls = carryOut(remakes, {.noExchange = noExchange});
        QVERIFY(calls > lastCalls);
        int isNew = 0;
        int isFinished = 0;
        for (int at = calls - lastCalls + 1; at <= calls; ++at) {
            carryOut(remakes, {.at = at, .kills = true, .noExchange = noExchange});
            // Also where an order to an empty place would make one.
            const Ran verified = runProgram(home(), {"verify"});
            const QString where = QStringLiteral("call %1 of %2: %3%4")
                                      .arg(at)
                                      .arg(calls)
                                      .arg(verified.out, verified.err);
            QCOMPARE(bytesOf(home() + "/site.keys"), m_keys);
            const bool isWhole = verified.out.contains("3 photos: all is whole");
            const bool isAsItWas = remakes && verified.err.contains("damaged");
            QVERIFY2(isWhole || isAsItWas ||
                         (remakes && verified.code != 0 && verified.out.contains("3 photos")),
                     qPrintable(where));
            isNew += isWhole ? 1 : 0;
            isFinished += verified.err.contains("it was finished") ? 1 : 0;
        }
        // The kills fell on both sides of the exchange.
        QVERIFY(isNew > 0);
        QVERIFY(!remakes || isNew < lastCalls);
        // In one step there is no between.
        QCOMPARE(isFinished > 0, noExchange);
    }

    void houseThatIsNotThere_besideOneThatWasSetAside_isNotSetUpAnew()
    {
        fresh("first");
        QVERIFY(QDir().rename(home(), in("now/house.before-20310308-120000")));
        const auto isRefused = [&](const QString& names) {
            const Ran made = runProgram(home(), {"demo"});
            QVERIFY2(made.code != 0, qPrintable(made.out));
            QVERIFY2(made.err.contains(names), qPrintable(made.err));
            QVERIFY2(made.err.contains("Nothing was made"), qPrintable(made.err));
            QVERIFY(!QFile::exists(home() + "/site.keys"));
            QVERIFY(!QFile::exists(home() + "/workshop.sqlite"));
        };
        isRefused(in("now/house.before-20310308-120000"));
        // Nor with the folder that the refusal left, or a part of a restore.
        QVERIFY(QDir().mkpath(in("now/house.restoring/.drafts")));
        isRefused(in("now/house.before-20310308-120000"));
        const Ran back = runProgram(home(), {"restore", in("now/stick"), "--keys",
                                             in("now/house.before-20310308-120000/site.keys")});
        QVERIFY2(back.code == 0, qPrintable(back.err));
        QVERIFY(runProgram(home(), {"verify"}).out.contains("all is whole"));
    }

    void fileThatIsNotThere_besideOneThatWasSetAside_isNotMadeAnew_data()
    {
        QTest::addColumn<bool>("isEmpty");
        QTest::newRow("missing") << false;
        QTest::newRow("empty") << true;
    }

    void fileThatIsNotThere_besideOneThatWasSetAside_isNotMadeAnew()
    {
        QFETCH(const bool, isEmpty);
        fresh("first");
        const QString file = home() + "/workshop.sqlite";
        QVERIFY(QFile::rename(file, file + ".damaged-20310308-120000"));
        QVERIFY(!isEmpty || write(file, {}));
        const Ran made = runProgram(home(), {"demo"});
        QVERIFY2(made.code != 0, qPrintable(made.out));
        QVERIFY2(made.err.contains(file + ".damaged-20310308-120000"), qPrintable(made.err));
        QCOMPARE(QFileInfo(file).size(), qint64{0});
        QCOMPARE(bytesOf(home() + "/site.keys"), m_keys);
    }

private:
    static constexpr int lastCalls = 6;

    [[nodiscard]] QString in(const QString& name) const { return m_folder.filePath(name); }
    [[nodiscard]] QString home() const { return in("now/house"); }

    void fresh(const QString& as)
    {
        QVERIFY(QDir(in("now")).removeRecursively());
        QVERIFY(copyFolder(in(as), in("now")));
    }

    /// How many calls there were; 0 where it was killed.
    int carryOut(bool remakes, const DiskFault& fault)
    {
        fresh(remakes ? QStringLiteral("torn") : QStringLiteral("first"));
        const FailingDisk disk;
        QProcess program;
        program.setProcessEnvironment(disk.under(in("now"), fault, programEnvironment()));
        QStringList arguments{"--home", home()};
        if (remakes)
            arguments += "rebuild";
        else
            arguments += {"restore", in("now/stick")};
        program.start(programPath(), arguments);
        program.waitForFinished(120'000);
        return disk.calls();
    }

    QTemporaryDir m_folder;
    QByteArray m_keys;
};

RAMPLIGHT_TEST(QCoreApplication, TestKilledExchange)
#include "tst_killedexchange.moc"
