// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "cli/program.h"
#include "storage/tornpage.h"
#include "support/testmain.h"

#include <QDir>
#include <QTemporaryDir>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

// The disk damaged a workshop's file: what the ledger can make is made anew by one command, and
// what it cannot is left for a backup.
class TestRebuildCommand : public QObject
{
    Q_OBJECT

private slots:
    void initTestCase()
    {
        QCOMPARE(makeDemo(in("demo")), QString());
        m_verified = runProgram(in("demo"), {"verify"}).out;
        QVERIFY2(m_verified.contains("all is whole"), qPrintable(m_verified));
    }

    void readTablesThatAreHurt_areMadeAnew_data()
    {
        QTest::addColumn<QByteArray>("name");
        QTest::newRow("the cards") << QByteArray("car");
        QTest::newRow("an index of theirs") << QByteArray("car_on_wall");
    }

    void readTablesThatAreHurt_areMadeAnew()
    {
        QFETCH(QByteArray, name);
        QVERIFY(copyFolder(in("demo"), in(name)));
        tearPageOf(in(name + "/workshop.sqlite"), name);
        QVERIFY(runProgram(in(name), {"verify"}).code != 0);
        const Ran ran = runProgram(in(name), {"rebuild"});
        QVERIFY2(ran.code == 0, qPrintable(ran.err));
        QVERIFY2(ran.out.contains("its ledger is whole"), qPrintable(ran.out));
        QCOMPARE(runProgram(in(name), {"verify"}).out, m_verified);
        QCOMPARE(QDir(in(name)).entryList({"workshop.sqlite.damaged-*"}, QDir::Files).size(), 1);
    }

    void ledgerThatIsHurt_isLeftForABackup()
    {
        QVERIFY(copyFolder(in("demo"), in("torn")));
        tearPageOf(in("torn/workshop.sqlite"), "sqlite_autoindex_ledger_1");
        const QByteArray before = bytesOf(in("torn/workshop.sqlite"));
        const Ran ran = runProgram(in("torn"), {"rebuild"});
        QVERIFY(ran.code != 0);
        QVERIFY2(ran.err.contains("bring back a backup"), qPrintable(ran.err));
        QCOMPARE(bytesOf(in("torn/workshop.sqlite")), before);
    }

private:
    [[nodiscard]] QString in(const QString& name) const { return m_folder.filePath(name); }

    QTemporaryDir m_folder;
    QString m_verified;
};

RAMPLIGHT_TEST(QCoreApplication, TestRebuildCommand)
#include "tst_rebuildcommand.moc"
