// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "cli/program.h"
#include "support/testmain.h"

#include <QDir>
#include <QFile>
#include <QProcess>
#include <QTemporaryDir>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

// What a stick is not: a disk like the house's.
class TestBackupSticks : public QObject
{
    Q_OBJECT

private slots:
    void initTestCase()
    {
        QVERIFY(m_folder.isValid());
        QCOMPARE(makeDemo(in("demo"), DemoWorkshop::One), QString());
    }

    void stickThatTakesNothing_isNamedForWhatItIs_data()
    {
        QTest::addColumn<QString>("stick"); // how it is mounted at $1
        QTest::addColumn<QString>("words");
        const QString readOnly = "can only be read.";
        const QString full = "is full.";
        QTest::newRow("read-only, with the folder")
            << "mount -t tmpfs none $1 && mkdir $1/backups && mount -o remount,ro "
               "$1"
            << readOnly;
        QTest::newRow("read-only, without it") << "mount -t tmpfs -o ro none $1" << readOnly;
        QTest::newRow("full, with the folder")
            << "mount -t tmpfs -o nr_inodes=2 none $1 && mkdir $1/backups" << full;
        QTest::newRow("full, without it") << "mount -t tmpfs -o nr_inodes=1 none $1" << full;
        QTest::newRow("full before the ledger is in it")
            << "mount -t tmpfs -o size=64k none $1" << full;
    }

    void stickThatTakesNothing_isNamedForWhatItIs()
    {
        QFETCH(const QString, stick);
        QFETCH(const QString, words);
        const auto mounted = [this](const QString& command) {
            QProcess shell;
            shell.setProcessEnvironment(programEnvironment());
            shell.start("unshare", {"-rm", "sh", "-c", command, "sh", in("mounted"), programPath(),
                                    in("demo")});
            const bool isOver = shell.waitForFinished(60'000);
            return Ran{isOver ? shell.exitCode() : -1, shell.readAllStandardOutput(),
                       shell.readAllStandardError()};
        };
        QVERIFY(QDir().mkpath(in("mounted")));
        if (mounted("mount -t tmpfs none $1").code != 0)
            QSKIP("this machine lets no test mount a disk of its own");
        const Ran kept = mounted(stick + " && exec $2 --home $3 backup --to $1/backups");
        QVERIFY(kept.code > 0);
        QVERIFY2(kept.err.contains(in("mounted/backups")), qPrintable(kept.err));
        QVERIFY2(kept.err.contains(words), qPrintable(kept.err));
    }

    void keysFromAStick_thatAnybodyCanRead_bringItBack()
    {
        // A stick's file system knows no modes.
        const auto open =
            QFile::ReadOwner | QFile::WriteOwner | QFile::ReadGroup | QFile::ReadOther;
        const auto own = QFile::ReadOwner | QFile::WriteOwner | QFile::ReadUser | QFile::WriteUser;
        QVERIFY(QFile::copy(in("demo/site.keys"), in("copied.keys")));
        QVERIFY(QFile::setPermissions(in("copied.keys"), open));
        const Ran kept = runProgram(in("demo"), {"backup", "--to", in("stick")});
        QVERIFY2(kept.code == 0, qPrintable(kept.err));
        QVERIFY(QDir().mkpath(in("house")));
        const Ran restored =
            runProgram(in("house"), {"restore", in("stick"), "--keys", in("copied.keys")});
        QVERIFY2(restored.code == 0, qPrintable(restored.err));
        QCOMPARE(QFile::permissions(in("house/site.keys")), own);
        // The house's own is still refused, however it is named.
        QVERIFY(QFile::setPermissions(in("house/site.keys"), open));
        for (const QStringList& named :
             {QStringList(), QStringList{"--keys", in("house/../house/site.keys")}}) {
            const Ran refused =
                runProgram(in("house"), QStringList{"restore", in("stick")} + named);
            QVERIFY(refused.code != 0);
            QVERIFY2(refused.err.contains("mode 0600"), qPrintable(refused.err));
        }
        QCOMPARE(QFile::permissions(in("house/site.keys")),
                 open | QFile::ReadUser | QFile::WriteUser);
    }

private:
    [[nodiscard]] QString in(const QString& name) const { return m_folder.filePath(name); }

    QTemporaryDir m_folder;
};

RAMPLIGHT_TEST(QCoreApplication, TestBackupSticks)
#include "tst_backupsticks.moc"
