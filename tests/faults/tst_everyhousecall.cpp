// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "amount.h"
#include "cli/program.h"
#include "cli/smallhome.h"
#include "diskfault.h"
#include "support/scratchdatabase.h"
#include "support/seed.h"
#include "support/testmain.h"

#include <QDir>
#include <QElapsedTimer>
#include <QFileInfo>
#include <QProcess>
#include <QRandomGenerator>
#include <QTemporaryDir>
#include <QTest>

#include <cerrno>
#include <optional>

using namespace ramplight;
using namespace ramplight::test;

namespace {

/// What somebody does to the whole of a workshop.
enum class Deed {
    BackUp,
    Restore,
    RestoreDamaged,
    MoveToServer,
    MoveToFile,
    RenewKeys,
    CopyKeys,
    TakeKeys,
    Settings
};

} // namespace

Q_DECLARE_METATYPE(Deed)

// Every single write, sync, truncation and renaming fails in turn, in the workshop's folder and on
// the stick, while a workshop is backed up, brought back, moved, given other keys or settings.
// Afterwards the workshop is whole, the backup, keys and settings of before are there or the new
// ones are, what failed was said, and the same once more succeeds.
class TestEveryHouseCall : public QObject
{
    Q_OBJECT

public:
    static void initMain() { qputenv("QTEST_FUNCTION_TIMEOUT", "7000000"); }

private slots:
    void initTestCase()
    {
        QCOMPARE(makeSmallHome(in("first/house")), QString());
        QVERIFY(write(in("first/house/settings.ini"), "[print]\nqueue=office\n"));
        const Ran kept = runProgram(in("first/house"), {QStringLiteral("backup"),
                                                        QStringLiteral("--to"), in("first/stick")});
        QVERIFY2(kept.code == 0, qPrintable(kept.err));
        m_backup = backups(in("first/stick")).front();
        nextSecond();
        QVERIFY(QDir().mkpath(in("first/drawer")));
        QVERIFY(QFile::copy(in("first/house/site.keys"), in("first/drawer/site.keys")));
        // The same house later, with another car, and a letter of an entry turned on its disk.
        QVERIFY(copyFolder(in("first/house"), in("later")));
        const Ran later = runProgram(
            in("later"), {QStringLiteral("import"),
                          demoAppraisals() + QStringLiteral("rl-2042-velm-strand.json"),
                          QStringLiteral("--as"), QString::fromLatin1(smallHomesManager)});
        QVERIFY2(later.code == 0, qPrintable(later.err));
        m_damaged = bytesOf(in("later/workshop.sqlite"));
        const qsizetype letter = m_damaged.indexOf("photo-attached");
        QVERIFY(letter > 0);
        m_damaged[letter] = 'q';
    }

    void failsOnce_leavesAWholeWorkshop_data()
    {
        QTest::addColumn<Deed>("deed");
        QTest::addColumn<int>("code");
        for (const auto& [name, deed] :
             {std::pair{"backed up", Deed::BackUp}, std::pair{"brought back", Deed::Restore},
              std::pair{"brought back with what is newer", Deed::RestoreDamaged},
              std::pair{"moved to a server", Deed::MoveToServer},
              std::pair{"moved to a file", Deed::MoveToFile},
              std::pair{"other keys", Deed::RenewKeys},
              std::pair{"keys for the safe", Deed::CopyKeys},
              std::pair{"keys from the safe", Deed::TakeKeys},
              std::pair{"settings", Deed::Settings}}) {
            // The short round has one of them for each deed.
            const bool isFault = m_random.bounded(2) == 0;
            if (m_points == 0 || isFault)
                QTest::addRow("%s, disk fault", name) << deed << EIO;
            if (m_points == 0 || !isFault)
                QTest::addRow("%s, no room", name) << deed << ENOSPC;
        }
    }

    void failsOnce_leavesAWholeWorkshop()
    {
        QFETCH(Deed, deed);
        QFETCH(int, code);
        m_wantsServer = deed == Deed::MoveToServer || deed == Deed::MoveToFile;
        if (m_wantsServer && qEnvironmentVariableIsEmpty("RAMPLIGHT_TEST_PG"))
            QSKIP("RAMPLIGHT_TEST_PG names no server (tests/run starts one)");
        QElapsedTimer timer;
        timer.start();
        prepare(deed);
        const Course undisturbed = carryOut(deed, 0, 0);
        QVERIFY2(undisturbed.code == 0, qPrintable(undisturbed.said));
        const int calls = undisturbed.calls;
        QVERIFY(calls > 0);
        int told = 0;
        int failed = 0;
        for (const int at : pointsOf(calls)) {
            prepare(deed);
            if (QTest::currentTestFailed())
                return;
            const Course course = carryOut(deed, at, code);
            const auto where = [&] {
                return QStringLiteral("call %1 of %2, exit code %3, said: %4")
                    .arg(at)
                    .arg(calls)
                    .arg(course.code)
                    .arg(course.said);
            };
            // It ends by itself.
            QVERIFY2(course.code >= 0, qPrintable(where()));
            QVERIFY2(course.code == 0 || !course.said.trimmed().isEmpty(), qPrintable(where()));
            // With keys of before it cannot be opened until it has the others.
            QVERIFY2(course.code != 0 && isAsItWas(deed) ? true : isWhole(), qPrintable(where()));
            if (deed == Deed::RestoreDamaged && course.code == 0)
                QVERIFY2(hasLaterCar() ||
                             course.said.contains(QStringLiteral("since the backup came along")),
                         qPrintable(where()));
            QVERIFY2(formerOrNew(deed, course.code == 0), qPrintable(where()));
            failed += course.calls < at ? 0 : 1;
            if (course.code == 0)
                continue;
            ++told;
            if (deed == Deed::BackUp || deed == Deed::Restore || deed == Deed::RestoreDamaged)
                nextSecond();
            const Course again = carryOut(deed, 0, 0);
            // It was done, and only the disk had not said so.
            const bool isDone = deed == Deed::MoveToFile &&
                                again.said.contains(QStringLiteral("is in a file already"));
            QVERIFY2(again.code == 0 || isDone, qPrintable(where() + "; again: " + again.said));
            QVERIFY2(isWhole() && formerOrNew(deed, true), qPrintable(where()));
            // It was back already, and whole: then the backup is what was asked for.
            QVERIFY2(deed != Deed::RestoreDamaged || hasLaterCar() ||
                         course.said.contains(QStringLiteral("do not bring it back once more")),
                     qPrintable(where()));
        }
        qInfo("%d of %d calls failed, each once; %d were told; %lld s", failed, calls, told,
              static_cast<long long>(timer.elapsed() / 1000));
    }

private:
    struct Course
    {
        int code = -1;
        QString said;
        int calls = 0;
    };

    /// Backups are named by the second, and so is what a restore sets aside.
    static void nextSecond() { QTest::qWait(1'100); }
    [[nodiscard]] QString in(const QString& name) const { return m_folder.filePath(name); }
    [[nodiscard]] QString home() const { return in(QStringLiteral("now/house")); }
    static QStringList backups(const QString& stick)
    {
        return QDir(stick).entryList({QStringLiteral("2*-*")}, QDir::Dirs, QDir::Name);
    }
    [[nodiscard]] QString said(const QStringList& arguments) const
    {
        const Ran ran = runProgram(home(), arguments);
        return ran.code == 0 ? QString() : ran.out + ran.err;
    }

    /// All of the calls, or some of them.
    [[nodiscard]] QList<int> pointsOf(int calls)
    {
        QList<int> points;
        if (m_points == 0)
            for (int at = 1; at <= calls; ++at)
                points.append(at);
        else
            for (int i = 0; i < m_points; ++i)
                points.append(1 + m_random.bounded(calls));
        return points;
    }

    void prepare(Deed deed)
    {
        if (m_wantsServer)
            m_scratch.emplace(qEnvironmentVariable("RAMPLIGHT_TEST_PG"));
        QVERIFY(QDir(in(QStringLiteral("now"))).removeRecursively());
        QVERIFY(copyFolder(in(QStringLiteral("first")), in(QStringLiteral("now"))));
        if (deed == Deed::MoveToFile)
            QCOMPARE(said({QStringLiteral("migrate-store"), QStringLiteral("--to-server"),
                           m_scratch->address()}),
                     QString());
        if (deed == Deed::RestoreDamaged)
            QVERIFY(write(home() + QStringLiteral("/workshop.sqlite"), m_damaged));
        // Another kiosk of the same workshop, whose keys are of before.
        if (deed == Deed::TakeKeys) {
            const Ran renewed =
                runProgram(home(), {QStringLiteral("key"), QStringLiteral("renew")}, newPinTwice);
            QVERIFY2(renewed.code == 0, qPrintable(renewed.err));
            QVERIFY(QFile::remove(in(QStringLiteral("now/drawer/site.keys"))));
            QVERIFY(QFile::rename(home() + QStringLiteral("/site.keys"),
                                  in(QStringLiteral("now/drawer/site.keys"))));
            QVERIFY(QFile::copy(in(QStringLiteral("first/house/site.keys")),
                                home() + QStringLiteral("/site.keys")));
        }
    }

    [[nodiscard]] QStringList argumentsOf(Deed deed) const
    {
        const auto text = [](const char* word) { return QString::fromLatin1(word); };
        switch (deed) {
        case Deed::BackUp:
            return {text("backup"), text("--to"), in(text("now/stick"))};
        case Deed::Restore:
        case Deed::RestoreDamaged:
            return {text("restore"), in(text("now/stick/")) + m_backup};
        case Deed::MoveToServer:
            return {text("migrate-store"), text("--to-server"), m_scratch->address()};
        case Deed::MoveToFile:
            return {text("migrate-store"), text("--to-file")};
        case Deed::RenewKeys:
            return {text("key"), text("renew")};
        case Deed::CopyKeys:
            return {text("key"), text("copy"), in(text("now/stick"))};
        case Deed::TakeKeys:
            return {text("key"), text("take"), in(text("now/drawer"))};
        case Deed::Settings:
            break;
        }
        return {};
    }

    /// at: the call that fails, from 1 on; 0: none.
    [[nodiscard]] Course carryOut(Deed deed, int at, int code) const
    {
        const FailingDisk disk;
        QProcess program;
        program.setProcessEnvironment(
            disk.under(in(QStringLiteral("now")), {.at = at, .code = code}, programEnvironment()));
        if (deed == Deed::Settings)
            program.start(QStringLiteral(HOUSE_WORKER),
                          {QStringLiteral("--keep-printer"), home(), QStringLiteral("hall")});
        else
            program.start(programPath(),
                          QStringList{QStringLiteral("--home"), home()} + argumentsOf(deed));
        program.write(newPinTwice);
        program.closeWriteChannel();
        Course course;
        if (program.waitForFinished(120'000) && program.exitStatus() == QProcess::NormalExit)
            course.code = program.exitCode();
        course.said = QString::fromUtf8(program.readAllStandardError()) +
                      QString::fromUtf8(program.readAllStandardOutput());
        course.calls = disk.calls();
        return course;
    }

    /// What failed left what no check finds whole, and nothing less than before.
    [[nodiscard]] bool isAsItWas(Deed deed) const
    {
        if (deed == Deed::RestoreDamaged)
            return bytesOf(home() + QStringLiteral("/workshop.sqlite")) == m_damaged;
        return deed == Deed::TakeKeys && hasKeys();
    }

    /// What was done after the backup.
    [[nodiscard]] bool hasLaterCar() const
    {
        const Ran ran = runProgram(home(), {QStringLiteral("verify")});
        return ran.out.contains(QStringLiteral("2 cars"));
    }

    /// The former or the new ones, all of them.
    [[nodiscard]] bool hasKeys() const
    {
        const QByteArray keys = bytesOf(home() + QStringLiteral("/site.keys"));
        return keys == bytesOf(in(QStringLiteral("first/house/site.keys"))) ||
               keys == bytesOf(in(QStringLiteral("now/drawer/site.keys")));
    }

    /// With the keys that fit it, where the settings say that it is.
    [[nodiscard]] bool isWhole() const
    {
        const Ran ran = runProgram(home(), {QStringLiteral("verify")});
        if (ran.out.contains(QStringLiteral("3 photos: all is whole")))
            return true;
        qWarning("%s%s", qPrintable(ran.out), qPrintable(ran.err));
        return false;
    }

    [[nodiscard]] bool formerOrNew(Deed deed, bool isDone) const
    {
        const QString stick = in(QStringLiteral("now/stick"));
        // The backup of before is never touched; one of the same day takes its place.
        const QStringList kept = backups(stick);
        for (const QString& name : kept)
            if (!said({QStringLiteral("backup"), QStringLiteral("check"), stick + '/' + name})
                     .isEmpty())
                return false;
        if (deed == Deed::BackUp && isDone ? kept.empty() : !kept.contains(m_backup))
            return false;
        const QByteArray settings = bytesOf(home() + QStringLiteral("/settings.ini"));
        const QByteArray former = bytesOf(in(QStringLiteral("first/house/settings.ini")));
        switch (deed) {
        case Deed::Settings:
            return isDone ? settings.contains("queue=hall")
                          : settings == former || settings.contains("queue=hall");
        case Deed::CopyKeys: {
            // A part of a file is damaged for every reader.
            const QByteArray keys = bytesOf(stick + QStringLiteral("/site.keys"));
            return !isDone || keys == bytesOf(home() + QStringLiteral("/site.keys"));
        }
        case Deed::MoveToServer:
            return !isDone || settings.contains("kind=postgresql");
        case Deed::MoveToFile:
            return !isDone || (settings.contains("kind=sqlite") &&
                               QFile::exists(home() + QStringLiteral("/workshop.sqlite")));
        case Deed::BackUp:
        case Deed::Restore:
        case Deed::RestoreDamaged:
        case Deed::RenewKeys:
        case Deed::TakeKeys:
            break;
        }
        return settings == former;
    }

    static constexpr const char* newPinTwice = "604173\n604173\n";

    QTemporaryDir m_folder;
    QString m_backup;     ///< the one of before
    QByteArray m_damaged; ///< the database of after it
    bool m_wantsServer = false;
    std::optional<ScratchDatabase> m_scratch;
    QRandomGenerator m_random = toldRandom();
    const int m_points = amount("POINTS", 1); ///< 0: all
};

RAMPLIGHT_TEST(QCoreApplication, TestEveryHouseCall)
#include "tst_everyhousecall.moc"
