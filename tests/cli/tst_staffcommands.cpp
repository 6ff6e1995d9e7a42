// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "cli/house.h"
#include "cli/program.h"
#include "support/testmain.h"

#include <QDir>
#include <QTemporaryDir>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

// People by command: their badges, and that nobody is there who cannot sign in. Each works on a
// copy of the demo workshop.
class TestStaffCommands : public QObject
{
    Q_OBJECT

private slots:
    void initTestCase()
    {
        QVERIFY(m_folder.isValid());
        QCOMPARE(makeDemo(m_folder.filePath(QStringLiteral("demo"))), QString());
    }

    void init() { QVERIFY(copyFolder(m_folder.filePath(QStringLiteral("demo")), m_home)); }
    void cleanup() { QDir(m_home).removeRecursively(); }

    void badge_isWhatTheReaderMakesOfIt_data()
    {
        QTest::addColumn<QString>("printed");
        QTest::newRow("with the prefix") << QStringLiteral("RLB-00417");
        QTest::newRow("without") << QStringLiteral("00417");
        QTest::newRow("in small letters") << QStringLiteral("rlb-00417");
    }

    void badge_isWhatTheReaderMakesOfIt()
    {
        QFETCH(QString, printed);
        const auto badge = [&](const QString& code) {
            return runProgram(m_home,
                              {"staff", "badge", "Dilys Marne", code, "--as", "Runa Talbeck"});
        };
        const auto whose = [&]() -> QString {
            const SystemClock clock;
            const auto house = OpenHouse::open(HousePaths(m_home), clock, false);
            const auto person = (*house)->store().credentials().personOfBadge("00417");
            return *person ? (*house)->store().ledger().site()->people.at(**person).name
                           : QString();
        };
        QCOMPARE(badge(printed).code, 0);
        QCOMPARE(whose(), QStringLiteral("Dilys Marne"));
        const Ran label = badge(QStringLiteral("RLC-T-301"));
        QCOMPARE(label.code, 65);
        QVERIFY2(label.err.contains("no badge's code"), qPrintable(label.err));
        QCOMPARE(whose(), QStringLiteral("Dilys Marne"));
        QCOMPARE(badge(QStringLiteral("none")).code, 0);
        QCOMPARE(whose(), QString());
    }

    // A manager who cannot sign in would count as one.
    void person_withoutAPin_isNotAdded()
    {
        for (const char* pins : {"482913\n482914\n", "4829\n4829\n"}) {
            const Ran added = runProgram(m_home,
                                         {"staff", "add", "Wenna Carne", "--skills", "glass",
                                          "--rights", "manage", "--as", "Runa Talbeck"},
                                         pins);
            QCOMPARE(added.code, 65);
            QVERIFY(!runProgram(m_home, {"staff", "list"}).out.contains("Wenna Carne"));
        }
        const Ran twice = runProgram(m_home,
                                     {"staff", "add", "dilys marne", "--skills", "glass",
                                      "--rights", "work", "--as", "Runa Talbeck"},
                                     "482913\n482913\n");
        QCOMPARE(twice.code, 65);
        QVERIFY2(twice.err.contains("already"), qPrintable(twice.err));
    }

private:
    QTemporaryDir m_folder;
    const QString m_home = m_folder.filePath(QStringLiteral("house"));
};

RAMPLIGHT_TEST(QCoreApplication, TestStaffCommands)
#include "tst_staffcommands.moc"
