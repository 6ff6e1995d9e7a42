// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "cli/program.h"
#include "cli/smallhome.h"
#include "diskfault.h"
#include "support/testmain.h"

#include <QCryptographicHash>
#include <QDir>
#include <QDirIterator>
#include <QProcess>
#include <QTemporaryDir>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

// A stick that is smaller than it says takes every write, and confirms it; what is read back from
// there, and not from memory, is something else. Whoever has the only copy on it has none.
class TestFalseStick : public QObject
{
    Q_OBJECT

private slots:
    void initTestCase()
    {
        QCOMPARE(makeSmallHome(in("house")), QString());
        const QByteArray said = "the near side front tyre is down to two millimetres";
        const QByteArray id = QCryptographicHash::hash(said, QCryptographicHash::Sha256).toHex();
        QVERIFY(QDir().mkpath(in("house/transcripts")));
        QVERIFY(write(in("house/transcripts/") + QString::fromLatin1(id) + ".txt", said));
        QVERIFY(write(in("house/corrections.jsonl"), "{\"draft\":1}\n"));
    }

    void init() { QVERIFY(QDir(in("stick")).removeRecursively() && QDir().mkpath(in("stick"))); }

    void backup_whoseFileComesToNothing_isToldAsFailed()
    {
        const QStringList backingUp{"backup", "--to", in("stick")};
        QCOMPARE(carriedOut(backingUp, {}), QString());
        const int files = filesOf(in("stick"));
        QVERIFY2(files > 5, qPrintable(QString::number(files)));
        int failed = 0;
        // Whichever it is. Some are written in two steps, and may come to nothing after either.
        for (int forgets = 1;; ++forgets) {
            init();
            const QString said = carriedOut(backingUp, {.forgets = forgets});
            if (said.isEmpty())
                break;
            ++failed;
            QVERIFY2(said.contains("that disk does not keep what it is given. No backup was made"),
                     qPrintable(said));
            QCOMPARE(runProgram(in("house"), {"backup", "list", "--to", in("stick")}).out,
                     "There is no backup in " + in("stick") + ".\n");
            // Nothing of it is taken for whole by the next.
            QCOMPARE(carriedOut(backingUp, {}), QString());
            QCOMPARE(faultsOfBackup(), QString());
        }
        QVERIFY2(failed >= files, qPrintable(QStringLiteral("%1 of %2").arg(failed).arg(files)));
        QCOMPARE(faultsOfBackup(), QString());
        qInfo("%d of the steps in which %d files are written came to nothing, each once", failed,
              files);
    }

    void copyOfTheKeys_thatComesToNothing_isToldAsFailed()
    {
        const QStringList copying{"key", "copy", in("stick")};
        const QString said = carriedOut(copying, {.forgets = 1});
        QVERIFY2(said.contains("cannot be read back. Try another stick."), qPrintable(said));
        QVERIFY(!QFile::exists(in("stick/site.keys")));
        QVERIFY(!QFile::exists(in("house/keycopy.json")));
        QCOMPARE(carriedOut(copying, {}), QString());
        QCOMPARE(bytesOf(in("stick/site.keys")), bytesOf(in("house/site.keys")));
    }

private:
    [[nodiscard]] QString in(const QString& name) const { return m_folder.filePath(name); }

    static int filesOf(const QString& folder)
    {
        int files = 0;
        QDirIterator all(folder, QDir::Files, QDirIterator::Subdirectories);
        for (; all.hasNext(); all.next())
            ++files;
        return files;
    }

    /// What was said of it; empty: it was done.
    [[nodiscard]] QString carriedOut(const QStringList& arguments, const DiskFault& fault) const
    {
        const FailingDisk disk;
        QProcess program;
        program.setProcessEnvironment(disk.under(in("stick"), fault, programEnvironment()));
        program.start(programPath(), QStringList{"--home", in("house")} + arguments);
        if (!program.waitForFinished(120'000) || program.exitStatus() != QProcess::NormalExit)
            return QStringLiteral("it did not end by itself");
        const QByteArray said = program.readAllStandardError() + program.readAllStandardOutput();
        return program.exitCode() == 0 ? QString() : QString::fromUtf8(said);
    }

    /// Of the only one that is on the stick.
    [[nodiscard]] QString faultsOfBackup() const
    {
        const QStringList names = QDir(in("stick")).entryList({"2*-*"}, QDir::Dirs);
        if (names.size() != 1)
            return QStringLiteral("there are %1 backups").arg(names.size());
        const Ran ran = runProgram(in("house"), {"backup", "check", in("stick/") + names.front()});
        return ran.code == 0 ? QString() : ran.out + ran.err;
    }

    QTemporaryDir m_folder;
};

RAMPLIGHT_TEST(QCoreApplication, TestFalseStick)
#include "tst_falsestick.moc"
