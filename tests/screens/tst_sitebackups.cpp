// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "sharedhouse.h"
#include "support/testmain.h"

#include "backup/backup.h"

#include <QQuickItem>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

namespace {

constexpr int minutesAnHour = 60;

/// The kiosk looks once a minute.
void aMinutePasses(KioskBench& bench)
{
    bench.shell().ticker().pulse();
    bench.house().clock.goOn(1);
    bench.shell().ticker().pulse();
}

/// Another kiosk of the same server, with a disk for the backups of all.
class OtherKiosk
{
public:
    explicit OtherKiosk(SharedHouse& shared)
        : m_shared(shared)
        , m_keys(
              SiteKeyFile(shared.bench.house().folder(QStringLiteral("site.keys"))).read().value())
    {
    }

    /// Why it came to nothing; empty.
    QString backUp()
    {
        BenchHouse& house = m_shared.bench.house();
        StoreSettings store = m_shared.database.settings();
        store.site = house.desk().standing().site;
        const BackupSource source{
            store,
            {m_keys.id(), [this](const QByteArray& bytes) { return m_keys.keyedDigest(bytes); }},
            house.photos(),
            house.folder(QStringLiteral("transcripts")),
            house.correctionsFile(),
            QStringLiteral("bench"),
            {},
            QStringLiteral("wall-2")};
        return backUpAndNote(source, m_folder.filePath(QStringLiteral("backups")),
                             m_folder.filePath(QStringLiteral("backup.json")), house.clock.now())
            .words;
    }

private:
    SharedHouse& m_shared;
    SiteKeys m_keys;
    QTemporaryDir m_folder;
};

} // namespace

/// Several kiosks share a server, and one of them makes the backups: a manager at any of them sees
/// when none of the site has come about for too long, and whose they are.
class tst_SiteBackups : public QObject
{
    Q_OBJECT

private slots:
    void initTestCase()
    {
        if (qEnvironmentVariableIsEmpty("RAMPLIGHT_TEST_PG"))
            QSKIP("RAMPLIGHT_TEST_PG names no server (tests/run starts one)");
    }
    void init() { failOnQmlWarnings(); }

    void backupOfAnotherKiosk_isSeenHere_andMissedHere_data() { sizes(); }

    void backupOfAnotherKiosk_isSeenHere_andMissedHere()
    {
        QFETCH(const QSize, size);
        SharedHouse shared;
        KioskBench& bench = shared.bench;
        OtherKiosk other(shared);
        const QString none = QStringLiteral(
            "No kiosk of this site has made a whole backup yet. If the server's disk "
            "breaks, everything is lost: name a folder on another disk or a stick.");
        const QString stale =
            QStringLiteral("The last whole backup of this site is from 8 May 14:02, by the kiosk "
                           "wall-2. See to that kiosk, or let another one make them.");
        bench.show(size);
        QVERIFY(shared.isKnown());
        BackupView& view = *bench.shell().backups();
        aMinutePasses(bench);
        QVERIFY(bench.until([&] { return view.warning() == none; }, none));
        QVERIFY(bench.tap(QStringLiteral("Who are you?")));
        QVERIFY(bench.signIn(QStringLiteral("Runa Talbeck")));
        QVERIFY(bench.untilSays(none));

        bench.house().clock.goOn(1);
        QCOMPARE(other.backUp(), QString());
        aMinutePasses(bench);
        QVERIFY(bench.untilGone(none));
        QCOMPARE(view.warning(), QString());
        QVERIFY(bench.tap(QStringLiteral("Staff and bays")));
        QVERIFY(bench.tap(QStringLiteral("Settings")));
        QVERIFY(bench.tap(QStringLiteral("Backup")));
        QVERIFY(bench.untilSays(QStringLiteral("today 14:02, by the kiosk wall-2")));
        bench.shoot(QStringLiteral("site-backup"));
        QVERIFY(bench.tap(QStringLiteral("Back")));
        QVERIFY(bench.tap(QStringLiteral("Back to the wall")));

        // Nobody looked at that kiosk since.
        bench.house().clock.goOn(24 * minutesAnHour);
        aMinutePasses(bench);
        QVERIFY(
            bench.until([&] { return view.siteWords().startsWith(QStringLiteral("yesterday")); },
                        QStringLiteral("another day")));
        QCOMPARE(view.warning(), QString());
        bench.house().clock.goOn(12 * minutesAnHour + 1);
        aMinutePasses(bench);
        QVERIFY(bench.until([&] { return view.warning() == stale; }, stale));
        bench.shell().session()->signOut();
        QVERIFY(bench.tap(QStringLiteral("Who are you?")));
        QVERIFY(bench.signIn(QStringLiteral("Runa Talbeck")));
        QVERIFY(bench.untilSays(stale));
        bench.shoot(QStringLiteral("site-backup-stale"));
        // Also while the server is away, by what was known of it.
        shared.wire.cut();
        QVERIFY(bench.until([&] { return bench.shell().server()->away(); },
                            QStringLiteral("the server's absence")));
        aMinutePasses(bench);
        QCOMPARE(view.warning(), stale);
    }

    // What the clock of a machine far ahead dated is none to rely on.
    void backupFromTheFuture_isNone()
    {
        const Moment now{1'930'000'000'000};
        QVERIFY(!(SiteBackup{now.plusMinutes(-36 * minutesAnHour), {}}.isStale(now)));
        QVERIFY((SiteBackup{now.plusMinutes(-36 * minutesAnHour - 1), {}}.isStale(now)));
        QVERIFY((SiteBackup{now.plusMinutes(36 * minutesAnHour + 1), {}}.isStale(now)));
        QVERIFY(SiteBackup().isStale(now));
    }
};

RAMPLIGHT_TEST(QGuiApplication, tst_SiteBackups)
#include "tst_sitebackups.moc"
