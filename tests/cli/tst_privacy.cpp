// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "cli/logging.h"
#include "cli/program.h"
#include "support/testmain.h"

#include <QDir>
#include <QFile>
#include <QProcess>
#include <QRegularExpression>
#include <QTemporaryDir>
#include <QTest>

#include <spdlog/sinks/sink.h>
#include <spdlog/spdlog.h>

#include <sys/resource.h>

using namespace ramplight;
using namespace ramplight::test;

// What a workshop leaves lying about on its machine: nothing that other accounts can read, no core
// file, a log within bounds.
class TestPrivacy : public QObject
{
    Q_OBJECT

private slots:
    void initTestCase()
    {
        QVERIFY(m_folder.isValid());
        QCOMPARE(makeDemo(m_home), QString());
    }

    void cleanup() { QFile::remove(m_home + QStringLiteral("/settings.ini")); }

    void databaseThatOthersCanRead_isClosedToThem()
    {
        const QString database = m_home + QStringLiteral("/workshop.sqlite");
        QFile::setPermissions(database, QFile::ReadOwner | QFile::WriteOwner | QFile::ReadGroup |
                                            QFile::ReadOther);
        const Ran ran = runProgram(m_home, {"verify"});
        QCOMPARE(ran.code, 0);
        QVERIFY2(ran.err.contains("could be read by other accounts"), qPrintable(ran.err));
        for (const char* file : {"/workshop.sqlite", "/site.keys"})
            QVERIFY(!QFile::permissions(m_home + QString::fromLatin1(file))
                         .testAnyFlags(QFile::ReadGroup | QFile::ReadOther | QFile::WriteGroup |
                                       QFile::WriteOther));
        QVERIFY(!QFile::permissions(m_home).testAnyFlags(QFile::ReadGroup | QFile::ReadOther |
                                                         QFile::ExeGroup | QFile::ExeOther));
    }

    // The site's keys would be in one.
    void coreFiles_areOff()
    {
        const QTemporaryDir home;
        QProcess program;
        program.setProcessEnvironment(programEnvironment());
        program.setChildProcessModifier([] {
            const rlimit all{RLIM_INFINITY, RLIM_INFINITY};
            ::setrlimit(RLIMIT_CORE, &all);
        });
        program.start(programPath(), {"--home", home.path(), "demo", "--tell"});
        QVERIFY(program.waitForReadyRead(60'000));
        const QString limits = bytesOf(QStringLiteral("/proc/%1/limits").arg(program.processId()));
        program.kill();
        program.waitForFinished();
        static const QRegularExpression none(QStringLiteral("Max core file size +0 +0 "));
        QVERIFY2(limits.contains(none), qPrintable(limits));
    }

    void muchIsLogged_theLogRotatesWithinItsBound()
    {
        const QTemporaryDir folder;
        startLogging(HousePaths(folder.path()));
        // To the file only: the tests' own output is not for it.
        spdlog::default_logger()->sinks().front()->set_level(spdlog::level::off);
        const std::string line(1000, 'x');
        constexpr int lines = 40'000; // 40 MB
        for (int i = 0; i < lines; ++i)
            spdlog::info("{} {}", i, line);
        spdlog::warn("the last word");
        qint64 bytes = 0;
        const QFileInfoList files =
            QDir(folder.path()).entryInfoList({QStringLiteral("ramplight*.log")}, QDir::Files);
        for (const QFileInfo& file : files)
            bytes += file.size();
        QCOMPARE(files.size(), 5);
        QCOMPARE_LE(bytes, 5 * 5 * 1024 * 1024);
        QFile newest(HousePaths(folder.path()).log());
        QVERIFY(newest.open(QIODevice::ReadOnly));
        QVERIFY(newest.readAll().contains("the last word"));
    }

private:
    QTemporaryDir m_folder;
    QString m_home = m_folder.filePath(QStringLiteral("house"));
};

RAMPLIGHT_TEST(QCoreApplication, TestPrivacy)
#include "tst_privacy.moc"
