// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "amount.h"
#include "cli/program.h"
#include "houseworker.h"
#include "promises.h"
#include "storage/connection.h"
#include "support/testmain.h"

#include <QDateTime>
#include <QElapsedTimer>
#include <QProcess>
#include <QTemporaryDir>
#include <QTest>
#include <QtEndian>

#include <cerrno>
#include <cstring>
#include <sys/mount.h>
#include <sys/statvfs.h>
#include <unistd.h>

using namespace ramplight;
using namespace ramplight::test;

namespace {

constexpr qint64 walHeader = 32;   // sqlite.org/fileformat2.html, 4.1
constexpr qint64 frameHeader = 24; // the same, 4.2

StoreSettings fileIn(const QTemporaryDir& folder)
{
    StoreSettings settings;
    settings.file = folder.filePath(QStringLiteral("workshop.sqlite"));
    return settings;
}

QStringList hashesOf(SqlLedger& ledger)
{
    QStringList hashes;
    auto rows = ledger.connection().run("SELECT hash FROM ledger WHERE site = ? ORDER BY position",
                                        {ledger.siteId().text});
    while (rows && rows->next())
        hashes.append(rows->text(0));
    return hashes;
}

qint64 commandsOf(SqlLedger& ledger)
{
    auto rows = ledger.connection().run("SELECT count(*) FROM command");
    return rows && rows->next() ? rows->number(0) : -1;
}

/// One kiosk's people as a program; every: readings of the clock between its jumps, 0 for none.
void begin(QProcess& kiosk, const StoreSettings& settings, int seed, int commands, int every = 0)
{
    QProcessEnvironment environment = QProcessEnvironment::systemEnvironment();
    if (every > 0) {
        environment.insert(QStringLiteral("LD_PRELOAD"), QStringLiteral(JUMPY_CLOCK));
        environment.insert(QStringLiteral("RAMPLIGHT_CLOCK_EVERY"), QString::number(every));
    }
    kiosk.setProcessEnvironment(environment);
    kiosk.start(QStringLiteral(HOUSE_WORKER),
                {settings.file, QString::number(seed), QString::number(commands)});
}

/// A disk in memory that is nearly full. Gone with the object.
class SmallDisk
{
public:
    SmallDisk()
    {
        m_mounted = ::mount("tmpfs", path().constData(), "tmpfs", 0, "size=4m") == 0;
        m_why = std::strerror(errno);
    }
    ~SmallDisk()
    {
        if (m_mounted)
            ::umount2(path().constData(), MNT_DETACH);
    }
    SmallDisk(const SmallDisk&) = delete;
    SmallDisk& operator=(const SmallDisk&) = delete;

    [[nodiscard]] bool isMounted() const { return m_mounted; }
    [[nodiscard]] const QByteArray& why() const { return m_why; }
    [[nodiscard]] const QTemporaryDir& folder() const { return m_folder; }
    [[nodiscard]] qint64 freeBytes() const
    {
        struct statvfs facts
        {
        };
        return ::statvfs(path().constData(), &facts) == 0
                   ? static_cast<qint64>(facts.f_bavail * facts.f_frsize)
                   : -1;
    }
    [[nodiscard]] bool makeRoom()
    {
        return ::mount("tmpfs", path().constData(), "tmpfs", MS_REMOUNT, "size=64m") == 0;
    }

private:
    [[nodiscard]] QByteArray path() const { return QFile::encodeName(m_folder.path()); }

    QTemporaryDir m_folder;
    QByteArray m_why;
    bool m_mounted = false;
};

} // namespace

// What can happen to a workshop that is one file: the power goes in the middle of a write, two
// programs work in it, the disk is full for a while, the machine's clock jumps.
class TestOneFile : public QObject
{
    Q_OBJECT

public:
    static void initMain() { qputenv("QTEST_FUNCTION_TIMEOUT", "3000000"); }

private slots:
    // SQLite writes a change into its log first, page by page. The log is cut where each page ends,
    // in the middle of each, and each is torn: half of it never reached the disk.
    void powerCut_atEveryPage_leavesWhatWasAcknowledged()
    {
        const QTemporaryDir folder;
        const StoreSettings settings = fileIn(folder);
        const auto store = Store::open(settings, keeperWith()).value();
        SqlLedger& ledger = store->ledger();
        // Nothing is moved out of the log, so that all of it can be cut.
        QVERIFY(ledger.connection().plain(QStringLiteral("PRAGMA wal_autocheckpoint = 0")));
        const QString log = settings.file + QStringLiteral("-wal");
        Workbench bench;
        const CarId car = bench.appraised();
        bench.found(car, "steering", Condition::Loose);
        bench.release(car);
        bench.found(car, "tyre-front-left", Condition::Cut);
        std::vector<qint64> acknowledgedAt;
        for (const Append& append : bench.ledger.accepted()) {
            QVERIFY(replay({append}, ledger));
            acknowledgedAt.push_back(QFileInfo(log).size());
        }
        const QStringList hashes = hashesOf(ledger);
        const QByteArray base = bytesOf(settings.file);
        const QByteArray whole = bytesOf(log);
        QVERIFY(whole.size() > walHeader);
        const qint64 frame = frameHeader + qFromBigEndian<quint32>(whole.constData() + 8);
        const qint64 frames = (whole.size() - walHeader) / frame;

        qint64 slowest = 0;
        const auto judge = [&](const QByteArray& cut, qint64 sound) {
            const QTemporaryDir other;
            const StoreSettings left = fileIn(other);
            QVERIFY(write(left.file, base));
            QVERIFY(write(left.file + QStringLiteral("-wal"), cut));
            QElapsedTimer timer;
            timer.start();
            const auto opened = Store::open(left, keeperWith());
            slowest = std::max(slowest, timer.elapsed());
            QVERIFY2(opened, qPrintable(opened ? QString() : opened.error().words));
            SqlLedger& after = (*opened)->ledger();
            QCOMPARE(hashesOf(after), hashes.mid(0, hashesOf(after).size()));
            const auto acknowledged =
                std::upper_bound(acknowledgedAt.begin(), acknowledgedAt.end(), sound) -
                acknowledgedAt.begin();
            QCOMPARE_GE(commandsOf(after), static_cast<qint64>(acknowledged));
            QCOMPARE(told(Verifier(after).run()), QString());
        };
        int cuts = 0;
        for (qint64 i = 0; i <= frames; i += m_stride) {
            const qint64 at = walHeader + i * frame;
            const QByteArray ends = whole.left(at);
            QByteArray torn = whole;
            torn.replace(at + frame / 2, std::min(frame / 2, whole.size() - at),
                         QByteArray(frame / 2, '\0'));
            for (const QByteArray& cut :
                 {ends, whole.left(at + frame / 2), i < frames ? torn : whole}) {
                judge(cut, at);
                if (QTest::currentTestFailed())
                    QFAIL(qPrintable(QStringLiteral("page %1 of the log").arg(i)));
                ++cuts;
            }
        }
        qInfo("%d cuts of a log of %lld pages; open again after %lld ms at most", cuts,
              static_cast<long long>(frames), static_cast<long long>(slowest));
    }

    void twoPrograms_workInOneFile_data()
    {
        QTest::addColumn<int>("every");
        QTest::newRow("both by the right clock") << 0;
        QTest::newRow("the clock of one jumps by a day, both ways") << 10;
    }

    void twoPrograms_workInOneFile()
    {
        QFETCH(int, every);
        const QTemporaryDir folder;
        const StoreSettings settings = fileIn(folder);
        setUpHouse(settings);
        QProcess one;
        QProcess other;
        begin(one, settings, 1, m_commands);
        begin(other, settings, 2, m_commands, every);
        QStringList kept;
        for (QProcess* kiosk : {&one, &other}) {
            QVERIFY(kiosk->state() == QProcess::NotRunning || kiosk->waitForFinished(patience));
            QCOMPARE(kiosk->exitCode(), 0);
            const QStringList own = keptIn(kiosk->readAllStandardOutput());
            QVERIFY(own.size() > m_commands / 4);
            kept += own;
        }
        const QStringList broken = brokenPromises(settings, kept, 0);
        QVERIFY2(broken.isEmpty(), qPrintable(broken.join(QLatin1Char('\n'))));
        // It did jump: something is dated tomorrow, and work that began or ended once the clock was
        // back again says so. (No entry is dated before the one in front of it, so that a clock
        // that is a day behind shows in that word alone.)
        const auto file = Connection::open(settings).value();
        auto jumps = file->run("SELECT coalesce(sum(at > ?), 0),"
                               " coalesce(sum(body LIKE '%\"clockSetBack\":true%'), 0)"
                               " FROM ledger WHERE stream LIKE 'car/%'",
                               {QDateTime::currentMSecsSinceEpoch() + 43'200'000});
        QVERIFY(jumps && jumps->next());
        QCOMPARE(jumps->number(0) > 0, every > 0);
        QCOMPARE(jumps->number(1) > 0, every > 0);
    }

    void fullDisk_thenSpaceAgain_theProgramGoesOn()
    {
        SmallDisk disk;
        if (!disk.isMounted())
            QSKIP(("no small disk can be mounted here: " + disk.why()).constData());
        const StoreSettings settings = fileIn(disk.folder());
        setUpHouse(settings);
        QProcess kiosk;
        begin(kiosk, settings, 1, 100'000);
        QByteArray heard;
        // Until nothing was kept for a while, and no page has room any more.
        while (kiosk.waitForReadyRead(1500) ||
               (kiosk.state() == QProcess::Running && disk.freeBytes() > 64 * 1024))
            heard += kiosk.readAllStandardOutput();
        QCOMPARE(kiosk.state(), QProcess::Running);
        const auto before = keptIn(heard).size();
        QVERIFY(before > 0);
        QVERIFY(disk.makeRoom());
        QElapsedTimer timer;
        timer.start();
        while (keptIn(heard).size() < before + 20) {
            QVERIFY(kiosk.waitForReadyRead(patience));
            heard += kiosk.readAllStandardOutput();
        }
        qInfo("%lld commands kept until it was full; %lld ms until 20 more were",
              static_cast<long long>(before), static_cast<long long>(timer.elapsed()));
        kiosk.kill();
        QVERIFY(kiosk.waitForFinished(patience));
        heard += kiosk.readAllStandardOutput();
        const QStringList broken = brokenPromises(settings, keptIn(heard), 1);
        QVERIFY2(broken.isEmpty(), qPrintable(broken.join(QLatin1Char('\n'))));
    }

private:
    const int m_stride = amount("STRIDE", 17);
    const int m_commands = amount("COMMANDS", 150);
};

RAMPLIGHT_TEST(QCoreApplication, TestOneFile)
#include "tst_onefile.moc"
