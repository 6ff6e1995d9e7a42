// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "cli/logging.h"
#include "cli/privacy.h"
#include "cli/program.h"
#include "storage/privatefile.h"
#include "support/testmain.h"

#include <QDir>
#include <QDirIterator>
#include <QFile>
#include <QProcess>
#include <QRegularExpression>
#include <QTemporaryDir>
#include <QTest>

#include <spdlog/sinks/sink.h>
#include <spdlog/spdlog.h>

#include <sys/prctl.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

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

    void filesThatOthersCanRead_areClosedToThem_andTheLogSaysSoOnce()
    {
        const QStringList files{"workshop.sqlite",
                                "workshop.sqlite.moved-20310508-134000",
                                "settings.ini",
                                "backup.json",
                                "place.json",
                                "corrections.jsonl",
                                "ramplight.log",
                                "ramplight.1.log",
                                "standby/mirror.sqlite",
                                "standby/working.sqlite-wal",
                                "standby/outbox.sqlite",
                                "standby/photos/ab/abcd",
                                "transcripts/ef01"};
        const QStringList folders{"photos",  "drop",           "records",
                                  "standby", "standby/photos", "transcripts"};
        const QTemporaryDir folder;
        const QString home = folder.filePath(QStringLiteral("house"));
        const auto inHome = [&home](const QString& name) { return home + QLatin1Char('/') + name; };
        QVERIFY(copyFolder(m_home, home));
        QVERIFY(QDir(home).mkpath(QStringLiteral("standby/photos/ab")));
        QVERIFY(QDir(home).mkpath(QStringLiteral("transcripts")));
        for (const QString& file : files) {
            const QString path = inHome(file);
            QVERIFY(QFile::exists(path) || write(path, {}));
            QVERIFY(QFile::setPermissions(path, QFile::permissions(path) | QFile::ReadGroup |
                                                    QFile::WriteOther));
        }
        for (const QString& name : folders)
            QVERIFY(QFile::setPermissions(inHome(name), QFile::permissions(inHome(name)) |
                                                            QFile::ReadGroup | QFile::ExeOther));
        QVERIFY(QFile::setPermissions(home, QFile::permissions(home) | QFile::ExeOther));

        const Ran ran = runProgram(home, {"verify"});
        QCOMPARE(ran.code, 0);
        QCOMPARE(ran.err.count(QStringLiteral("could be read by other accounts")), 1);
        for (const QString& file : files) {
            QVERIFY2(!isOpenToOthers(inHome(file)), qPrintable(file));
            QVERIFY2(ran.err.contains(inHome(file)), qPrintable(file));
        }
        for (const QString& name : folders) {
            QVERIFY2(!isOpenToOthers(inHome(name)), qPrintable(name));
            QVERIFY2(QFile::permissions(inHome(name)).testFlag(QFile::ExeOwner), qPrintable(name));
        }
        QVERIFY(!isOpenToOthers(home));
        const Ran again = runProgram(home, {"verify"});
        QCOMPARE(again.code, 0);
        QVERIFY2(!again.err.contains(QStringLiteral("other accounts")), qPrintable(again.err));
    }

    // Closing it would not make it secret again.
    void keyFileThatOthersCouldRead_isRefused_andLeftAsItIs()
    {
        const QString keys = inHome(QStringLiteral("site.keys"));
        const QFile::Permissions closed = QFile::permissions(keys);
        QVERIFY(QFile::setPermissions(keys, closed | QFile::ReadGroup));
        const Ran ran = runProgram(m_home, {"verify"});
        QVERIFY(ran.code != 0);
        QVERIFY2(ran.err.contains(words(AccessError::KeyFileTooOpen)), qPrintable(ran.err));
        QVERIFY(isOpenToOthers(keys));
        QVERIFY(QFile::setPermissions(keys, closed));
    }

    void kioskThatStarts_saysSoInItsLog()
    {
        const QTemporaryDir folder;
        const QString home = folder.filePath(QStringLiteral("house"));
        const QString log = home + QStringLiteral("/ramplight.log");
        const QString database = home + QStringLiteral("/workshop.sqlite");
        QVERIFY(copyFolder(m_home, home));
        QFile::remove(log);
        QVERIFY(QFile::setPermissions(database, QFile::permissions(database) | QFile::ReadOther));
        const UsualMask usual;
        QProcess kiosk;
        kiosk.setProcessEnvironment(programEnvironment());
        kiosk.start(programPath(), {"--home", home, "--windowed"});
        const auto said = [&] {
            return bytesOf(log).count("could be read by other accounts of this machine") == 1;
        };
        QVERIFY(QTest::qWaitFor([&] { return said() || kiosk.state() == QProcess::NotRunning; },
                                60'000));
        kiosk.kill();
        QVERIFY(kiosk.waitForFinished());
        QVERIFY2(said(), qPrintable(QString::fromUtf8(kiosk.readAllStandardError())));
        QVERIFY(bytesOf(log).contains(database.toUtf8()));
        QCOMPARE(openBelow(home), QStringList());
    }

    void whatTheProgramMakes_isForItsAccountOnly_butWhatOthersGet()
    {
        const QTemporaryDir folder;
        const auto in = [&folder](const char* name) {
            return folder.filePath(QString::fromLatin1(name));
        };
        const UsualMask usual;
        QVERIFY(QDir().mkpath(in("house")));
        const QString stock = QStringLiteral("T-321");
        const QString said = in("round.vtt");
        QVERIFY(
            write(said, "WEBVTT\n\n00:01.000 --> 00:05.000\nNear side wing, dent, dent man.\n"));
        for (const auto& [home, arguments] :
             {std::pair{m_home, QStringList{"backup", "--to", in("backups")}},
              std::pair{in("house"), QStringList{"restore", in("backups"), "--keys",
                                                 inHome(QStringLiteral("site.keys"))}},
              std::pair{in("house"),
                        QStringList{"read", said, "--stock", stock, "--as", "Runa Talbeck"}},
              std::pair{in("house"), QStringList{"record", stock, "--out", in("record.pdf")}},
              std::pair{in("house"), QStringList{"house", "export", in("house.json")}},
              std::pair{in("house"), QStringList{"export", "car", stock, "--out", in("export")}}}) {
            const Ran ran = runProgram(home, arguments);
            QVERIFY2(ran.code == 0, qPrintable(arguments.first() + ran.err));
        }
        QCOMPARE(openBelow(in("house")), QStringList());
        QCOMPARE(openBelow(in("backups")), QStringList());
        QVERIFY(QDir(in("house/transcripts")).entryList(QDir::Files).size() == 1);
        for (const char* file : {"record.pdf", "house.json", "export/manifest.json"})
            QVERIFY2(QFile::permissions(in(file)).testFlags(QFile::ReadGroup | QFile::ReadOther),
                     file);
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
        const QFileInfo file(QStringLiteral("/proc/%1/limits").arg(program.processId()));
        const QString limits = bytesOf(file.filePath());
        const uint owner = file.ownerId();
        program.kill();
        program.waitForFinished();
        // What may not be dumped is root's to look at, whoever runs it.
        QCOMPARE(owner, uint{0});
        static const QRegularExpression none(QStringLiteral("Max core file size +0 +0 "));
        QVERIFY2(limits.contains(none), qPrintable(limits));
    }

    // A limit of zero holds for files only: where the kernel hands cores to a program, that gets
    // them all the same.
    void cores_areNotHandedToAProgram_either()
    {
        const pid_t child = ::fork();
        QVERIFY(child >= 0);
        if (child == 0) {
            leaveNoCoreFile();
            ::_exit(::prctl(PR_GET_DUMPABLE, 0, 0, 0, 0));
        }
        int status = 0;
        QCOMPARE(::waitpid(child, &status, 0), child);
        QVERIFY(WIFEXITED(status));
        QCOMPARE(WEXITSTATUS(status), 0);
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
    /// As most accounts have it, and what they start with it.
    class UsualMask
    {
    public:
        UsualMask()
            : m_before(::umask(S_IWGRP | S_IWOTH))
        {
        }
        UsualMask(const UsualMask&) = delete;
        UsualMask& operator=(const UsualMask&) = delete;
        ~UsualMask() { ::umask(m_before); }

    private:
        mode_t m_before;
    };

    [[nodiscard]] QString inHome(const QString& name) const
    {
        return m_home + QLatin1Char('/') + name;
    }

    /// What other accounts could read, if they came so far.
    static QStringList openBelow(const QString& folder)
    {
        QStringList open;
        QDirIterator all(folder,
                         QDir::AllEntries | QDir::Hidden | QDir::System | QDir::NoDotAndDotDot,
                         QDirIterator::Subdirectories);
        while (all.hasNext())
            if (const QString path = all.next(); isOpenToOthers(path))
                open.append(path);
        return open;
    }

    QTemporaryDir m_folder;
    QString m_home = m_folder.filePath(QStringLiteral("house"));
};

RAMPLIGHT_TEST(QCoreApplication, TestPrivacy)
#include "tst_privacy.moc"
