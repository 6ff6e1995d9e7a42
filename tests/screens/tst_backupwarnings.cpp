// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "managerhands.h"

#include "backup/backupnote.h"
#include "support/testmain.h"

#include <QQuickItem>
#include <QTest>
#include <QTimeZone>

using namespace ramplight;
using namespace ramplight::test;

/// Backups that nobody can rely on, as a manager sees them without looking for them: on the wall,
/// on each page of the bays, in the settings.
class tst_BackupWarnings : public QObject
{
    Q_OBJECT

private slots:
    void init() { failOnQmlWarnings(); }
    void backups_thatAreNoneToRelyOn_areSaidToTheManager_data();
    void backups_thatAreNoneToRelyOn_areSaidToTheManager();
    void backups_inOrder_areNotSpokenOf();
    void backup_thatNeverBegins_isWarnedOfAfterADay();
};

namespace {

constexpr int minutesAnHour = 60;

/// A house with a folder for its backups and this note about them. It was tried just now, so that
/// none is made meanwhile.
bool noted(BenchHouse& house, BackupNote note)
{
    auto named = house.backups().setFolder(house.folder(QStringLiteral("backups")));
    named.waitForFinished();
    note.triedAt = house.clock.now();
    return named.result() && keepNote(house.folder(QStringLiteral("backup.json")), note);
}

/// The kiosk looks once a minute.
void aMinutePasses(KioskBench& bench)
{
    bench.shell().ticker().pulse();
    bench.house().clock.goOn(1);
    bench.shell().ticker().pulse();
}

} // namespace

void tst_BackupWarnings::backups_thatAreNoneToRelyOn_areSaidToTheManager_data()
{
    QTest::addColumn<QSize>("size");
    QTest::addColumn<int>("goodHours"); // ago; 0: none yet
    QTest::addColumn<int>("sinceHours");
    QTest::addColumn<QString>("words");
    QTest::addColumn<QString>("faults");
    QTest::addColumn<QString>("said");
    const QSize wide(1920, 1080);
    const QSize tall(1080, 1920);
    const auto reason = QStringLiteral("The stick is full.");
    QTest::newRow("failed") << wide << 17 << 0 << reason << QString()
                            << "The last backup came to nothing: The stick is full. The last whole "
                               "one: yesterday 20:40.";
    QTest::newRow("failed, tall") << tall << 0 << 2 << reason << QString()
                                  << "The last backup came to nothing: The stick is full. The last "
                                     "whole one: none yet.";
    QTest::newRow("stale") << wide << 41 << 0 << QString() << QString()
                           << "The last whole backup is from 6 May 20:40. See that the stick or "
                              "disk is there.";
    QTest::newRow("stale, tall") << tall << 41 << 0 << QString() << QString()
                                 << "The last whole backup is from 6 May 20:40. See that the "
                                    "stick or disk is there.";
    QTest::newRow("waiting") << wide << 0 << 25 << QString() << QString()
                             << "A folder for backups is named, and there is no whole one yet "
                                "after a day. See that the stick or disk is there.";
    QTest::newRow("waiting, tall") << tall << 0 << 25 << QString() << QString()
                                   << "A folder for backups is named, and there is no whole one "
                                      "yet after a day. See that the stick or disk is there.";
    const auto found = QStringLiteral("photo 5e1f07c2...: it is missing (and 2 more)");
    const auto faulty = QStringLiteral(
        "The backup of yesterday 20:40 was made, and something is wrong with the workshop itself: "
        "photo 5e1f07c2...: it is missing (and 2 more). Let somebody see to that who looks after "
        "this "
        "machine (ramplight verify).");
    QTest::newRow("faulty") << wide << 17 << 0 << QString() << found << faulty;
    QTest::newRow("faulty, tall") << tall << 17 << 0 << QString() << found << faulty;
}

void tst_BackupWarnings::backups_thatAreNoneToRelyOn_areSaidToTheManager()
{
    QFETCH(const QSize, size);
    QFETCH(const int, goodHours);
    QFETCH(const int, sinceHours);
    QFETCH(const QString, words);
    QFETCH(const QString, faults);
    QFETCH(const QString, said);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const auto ago = [&](int hours) {
        return hours == 0 ? Moment{} : house.clock.now().plusMinutes(-hours * minutesAnHour);
    };
    BackupNote note;
    note.goodAt = ago(goodHours);
    note.since = ago(sinceHours);
    note.words = words;
    note.faults = faults;
    QVERIFY(noted(house, note));
    bench.show(size);
    BackupView& view = *bench.shell().backups();
    aMinutePasses(bench);
    QVERIFY(bench.until([&] { return view.warning() == said; }, said));
    // Nobody else at the wall can see to it.
    QVERIFY(bench.tap(QStringLiteral("Who are you?")));
    QVERIFY(bench.signIn(QStringLiteral("Bram Holloway")));
    QVERIFY(bench.untilSays(QStringLiteral("My next")));
    QVERIFY(!bench.says(said));
    bench.shell().session()->signOut();
    emit bench.shell().session()->timedOut();

    QVERIFY(bench.tap(QStringLiteral("Who are you?")));
    QVERIFY(bench.signIn(QStringLiteral("Runa Talbeck")));
    QVERIFY(bench.untilSays(said));
    bench.shoot(QStringLiteral("wall-backup-") + QString::fromLatin1(QTest::currentDataTag()));
    QVERIFY(bench.tap(QStringLiteral("Bays")));
    for (const char* page : {"By bay", "By person", "Cars", "Now"}) {
        QVERIFY(bench.tap(QString::fromLatin1(page)));
        QVERIFY(bench.until(
            [&] {
                const auto* tab = bench.ofType("FilterTab", "text", QString::fromLatin1(page));
                return tab != nullptr && tab->property("selected").toBool();
            },
            QString::fromLatin1(page)));
        QVERIFY2(bench.says(said), page);
    }
    QVERIFY(bench.tap(said));
    QVERIFY(bench.until([&] { return !bench.ofType("SettingsScreen").empty(); },
                        QStringLiteral("the settings")));
    QVERIFY(bench.tap(QStringLiteral("Backup")));
    QVERIFY(bench.until([&] { return !bench.ofType("BackupSettings").empty(); },
                        QStringLiteral("the backups")));
    QVERIFY(bench.untilSays(said));
    bench.shoot(QStringLiteral("settings-backup-") + QString::fromLatin1(QTest::currentDataTag()));
}

void tst_BackupWarnings::backups_inOrder_areNotSpokenOf()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    BackupNote note;
    note.goodAt = house.clock.now().plusMinutes(-17 * minutesAnHour);
    QVERIFY(noted(house, note));
    bench.show();
    BackupView& view = *bench.shell().backups();
    aMinutePasses(bench);
    QVERIFY(bench.until([&] { return view.lastWords() == QLatin1String("yesterday 20:40"); },
                        QStringLiteral("the last one")));
    // But that one disk holds both here.
    QVERIFY(view.warning().startsWith(QStringLiteral("The backups are on the same disk")));
}

void tst_BackupWarnings::backup_thatNeverBegins_isWarnedOfAfterADay()
{
    BenchHouse house(BenchHouse::Start::House);
    const auto state = [&house] {
        auto status = house.backups().status(QTimeZone("Europe/London"));
        status.waitForFinished();
        return status.result().state;
    };
    house.clock.goOn(48 * minutesAnHour);
    QCOMPARE(state(), BackupState::NotSetUp);
    auto named = house.backups().setFolder(house.folder(QStringLiteral("backups")));
    named.waitForFinished();
    QVERIFY(named.result());
    QCOMPARE(state(), BackupState::Waiting);
    house.clock.goOn(24 * minutesAnHour);
    QCOMPARE(state(), BackupState::Waiting);
    house.clock.goOn(1);
    QCOMPARE(state(), BackupState::Stale);
    auto made = house.backups().backUp();
    made.waitForFinished();
    QCOMPARE(state(), BackupState::Good);
    house.clock.goOn(36 * minutesAnHour);
    QCOMPARE(state(), BackupState::Good);
    house.clock.goOn(1);
    QCOMPARE(state(), BackupState::Stale);
}

RAMPLIGHT_TEST(QGuiApplication, tst_BackupWarnings)
#include "tst_backupwarnings.moc"
