// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "managerhands.h"

#include "backup/keycopynote.h"
#include "kiosk/chime.h"
#include "support/testmain.h"

#include <QDir>
#include <QFile>
#include <QQmlEngine>
#include <QQuickItem>
#include <QQuickWindow>
#include <QSignalSpy>
#include <QTest>

#include <algorithm>

using namespace ramplight;
using namespace ramplight::test;

/// What a manager sets for the house, by touch; every change is signed with the PIN again.
class tst_SettingsScreen : public QObject
{
    Q_OBJECT

private slots:
    void init() { failOnQmlWarnings(); }
    void tool_isRegistered_andAnOverdueOneStandsFirst_data() { sizes(); }
    void tool_isRegistered_andAnOverdueOneStandsFirst();
    void operation_getsTheHousesOwnMinutesAndMaterial_data() { sizes(); }
    void operation_getsTheHousesOwnMinutesAndMaterial();
    void rules_areChangedAndStandInTheHistory_data() { sizes(); }
    void rules_areChangedAndStandInTheHistory();
    void qualification_isGivenWithItsLastDay_data() { sizes(); }
    void qualification_isGivenWithItsLastDay();
    void screen_isDrawnForItsDiagonalAtOnce();
    void tones_areHeardOnceTheyAreSwitchedOn();
    void files_areWrittenAndTakenIn();
    void reading_namesOneOfSeveralTools_data() { sizes(); }
    void reading_namesOneOfSeveralTools();
    void backup_isWarnedOf_namedAndMade_data() { sizes(); }
    void backup_isWarnedOf_namedAndMade();
    void backup_isMadeEachEvening_andALostStickIsSaid();
    void technician_changesNothing();
};

namespace {

/// The line of the settings with this title.
QQuickItem* line(KioskBench& bench, const QString& title)
{
    return bench.ofType("SettingLine", "title", title);
}

} // namespace

void tst_SettingsScreen::tool_isRegistered_andAnOverdueOneStandsFirst()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const PersonId runa = house.person(QStringLiteral("Runa"));
    house.must(
        runa, SiteCommand{site::SetTool{
                  {{}, QStringLiteral("TW 13"), ToolKind::TorqueWrench, QDate(2031, 5, 5), true}}});
    bench.show(size);
    QVERIFY(goToSettings(bench));
    QVERIFY(bench.tap(QStringLiteral("Tools")));
    QVERIFY(bench.tap(QStringLiteral("Add a tool")));
    QVERIFY(bench.write(QStringLiteral("Number, as engraved"), QStringLiteral("b3")));
    ToolsView& view = *bench.shell().settings()->tools();
    QVERIFY(bench.tap(bench.titleOf(view.kinds(), QStringLiteral("brake-gauge"))));
    QVERIFY(bench.tap(QStringLiteral("choose")));
    QVERIFY(bench.untilSays(QStringLiteral("in a year")));
    bench.shoot(QStringLiteral("settings-day"));
    QVERIFY(bench.type(QStringLiteral("12052032")));
    QVERIFY(bench.tap(QStringLiteral("Set")));
    QVERIFY(bench.untilSays(QStringLiteral("12 May 2032")));
    bench.shoot(QStringLiteral("settings-tool"));
    QVERIFY(bench.tap(QStringLiteral("Save")));
    QVERIFY(signAgain(bench));
    QVERIFY(
        bench.until([&] { return house.site().tools.size() == 2; }, QStringLiteral("the tool")));
    const Tool tool = house.site().tools.rbegin()->second;
    QCOMPARE(tool.number, QStringLiteral("b3"));
    QCOMPARE(tool.kind, ToolKind::BrakeGauge);
    QCOMPARE(tool.nextCalibration, QDate(2032, 5, 12));
    QVERIFY(bench.untilSays(QStringLiteral("b3")));
    QVERIFY(bench.untilSays(QStringLiteral("Overdue")));
    QVERIFY(bench.until(
        [&] {
            return line(bench, QStringLiteral("TW 13")) != nullptr &&
                   line(bench, QStringLiteral("b3")) != nullptr;
        },
        QStringLiteral("both tools")));
    bench.shoot(QStringLiteral("settings-tools"));
    QVERIFY(line(bench, QStringLiteral("TW 13"))->mapToScene({}).y() <
            line(bench, QStringLiteral("b3"))->mapToScene({}).y());
}

void tst_SettingsScreen::operation_getsTheHousesOwnMinutesAndMaterial()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    bench.show(size);
    QVERIFY(goToSettings(bench));
    QVERIFY(bench.tap(QStringLiteral("Catalogue")));
    bench.shoot(QStringLiteral("settings-catalogue"));
    CatalogueView& view = *bench.shell().settings()->catalogue();
    // Whatever the catalogue calls them: one with a limit of the house.
    const KindRow kind = view.kinds()->rows().at(2);
    QVERIFY(bench.tapListed([&] { return line(bench, kind.title); }, kind.title));
    QVERIFY(bench.untilSays(QStringLiteral("Minutes, usual")));
    QVERIFY(bench.tap(QStringLiteral("Minutes, high")));
    QVERIFY(bench.type(QStringLiteral("240")));
    QVERIFY(bench.tap(QStringLiteral("Set")));
    QVERIFY(bench.untilSays(QStringLiteral("240 min")));
    QVERIFY(bench.tap(QStringLiteral("Material")));
    bench.shoot(QStringLiteral("settings-number"));
    QVERIFY(bench.type(QStringLiteral("12.5")));
    QVERIFY(bench.tap(QStringLiteral("Set")));
    QVERIFY(bench.untilSays(QStringLiteral("12.50 GBP")));
    bench.shoot(QStringLiteral("settings-operation"));
    QVERIFY(bench.tap(QStringLiteral("Save")));
    QVERIFY(signAgain(bench));
    QVERIFY(bench.until([&] { return house.site().adjustments.size() == 1; },
                        QStringLiteral("the house's own")));
    const OperationAdjustment own = house.site().adjustments.begin()->second;
    QCOMPARE(own.operation, kind.kindId);
    QCOMPARE(own.minutes->high, 240);
    QCOMPARE(own.materialMinor, 1250);
}

void tst_SettingsScreen::rules_areChangedAndStandInTheHistory()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    bench.show(size);
    QVERIFY(goToSettings(bench));
    bench.shoot(QStringLiteral("settings-rules"));
    QVERIFY(bench.tap(QStringLiteral("15 min earlier")));
    QVERIFY(bench.untilSays(QStringLiteral("17:15")));
    QVERIFY(bench.tap(QStringLiteral("5 min")));
    QVERIFY(bench.tap(QStringLiteral("6 years")));
    bench.shoot(QStringLiteral("settings-photo-years"));
    QVERIFY(bench.tap(QStringLiteral("Save the rules")));
    QVERIFY(signAgain(bench));
    QVERIFY(bench.until([&] { return house.site().rules.shiftEndMinute == 17 * 60 + 15; },
                        QStringLiteral("the rule")));
    QCOMPARE(house.site().rules.lockSeconds, 300);
    QCOMPARE(house.site().rules.photoYears, 6);
    QVERIFY(bench.tap(QStringLiteral("Changes")));
    QVERIFY(bench.untilSays(QStringLiteral("House rules")));
    QVERIFY(bench.until(
        [&] {
            QQuickItem* change = line(bench, QStringLiteral("House rules"));
            return change != nullptr &&
                   change->property("note").toString().startsWith(QStringLiteral("Runa Talbeck"));
        },
        QStringLiteral("who changed it")));
    const QString changed =
        line(bench, QStringLiteral("House rules"))->property("detail").toString();
    QVERIFY2(changed.contains(QStringLiteral("photos kept")), qPrintable(changed));
    bench.shoot(QStringLiteral("settings-changes"));
}

void tst_SettingsScreen::qualification_isGivenWithItsLastDay()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const PersonId bram = house.person(QStringLiteral("Bram"));
    bench.show(size);
    QVERIFY(goToStaff(bench, QStringLiteral("Runa Talbeck")));
    QVERIFY(bench.tap(QStringLiteral("Bram Holloway")));
    bench.shoot(QStringLiteral("settings-person"));
    QVERIFY(bench.tap(QStringLiteral("Qualifications")));
    QVERIFY(bench.tap(QStringLiteral("High voltage")));
    QVERIFY(bench.tap(QStringLiteral("in 2 years")));
    QVERIFY(bench.untilSays(QStringLiteral("until 8 May 2033")));
    bench.shoot(QStringLiteral("settings-qualifications"));
    QVERIFY(bench.tap(QStringLiteral("Save")));
    QVERIFY(signAgain(bench));
    QVERIFY(bench.until(
        [&] { return house.site().person(bram)->held(Qualification::HighVoltage) != nullptr; },
        QStringLiteral("the qualification")));
    QCOMPARE(house.site().person(bram)->held(Qualification::HighVoltage)->until, QDate(2033, 5, 8));
}

void tst_SettingsScreen::screen_isDrawnForItsDiagonalAtOnce()
{
    KioskBench bench(BenchHouse::Start::House);
    bench.show();
    QVERIFY(goToSettings(bench));
    QVERIFY(bench.tap(QStringLiteral("Screen")));
    bench.shoot(QStringLiteral("settings-screen"));
    const double before = bench.window()->property("pxPerMm").toDouble();
    QVERIFY(bench.tap(line(bench, QStringLiteral("Diagonal of the screen"))));
    QVERIFY(bench.type(QStringLiteral("32")));
    QVERIFY(bench.tap(QStringLiteral("Set")));
    QVERIFY(signAgain(bench));
    QVERIFY(bench.untilSays(QStringLiteral("32.0 inches")));
    QVERIFY(bench.window()->property("pxPerMm").toDouble() < before);
    QVERIFY(bench.tap(QStringLiteral("Light theme, for a bright workshop")));
    QVERIFY(signAgain(bench));
    QVERIFY(bench.until([&] { return !bench.window()->property("dark").toBool(); },
                        QStringLiteral("the light theme")));
    bench.shoot(QStringLiteral("settings-screen-light"));
}

void tst_SettingsScreen::tones_areHeardOnceTheyAreSwitchedOn()
{
    KioskBench bench(BenchHouse::Start::House);
    bench.show();
    QVERIFY(goToSettings(bench));
    QVERIFY(bench.tap(QStringLiteral("Screen")));
    auto* chime = qmlEngine(bench.window())
                      ->singletonInstance<Chime*>(qmlTypeId("Ramplight.Kiosk", 1, 0, "Chime"));
    QVERIFY(chime != nullptr);
    QSignalSpy played(chime, &Chime::played);
    const auto refusedDiagonal = [&] {
        return bench.tap(line(bench, QStringLiteral("Diagonal of the screen"))) &&
               bench.type(QStringLiteral("3")) && bench.tap(QStringLiteral("Set")) &&
               bench.untilSays(QStringLiteral("A diagonal from 10 to 120 inches is needed.")) &&
               bench.tap(QStringLiteral("Close"));
    };
    QVERIFY(refusedDiagonal());
    QCOMPARE(played.count(), 0);
    QVERIFY(bench.tap(QStringLiteral("A tone for what is signed or refused")));
    QVERIFY(signAgain(bench));
    QVERIFY(bench.until([&] { return chime->property("on").toBool(); }, QStringLiteral("tones")));
    QVERIFY(refusedDiagonal());
    QCOMPARE(played.count(), 1);
    QCOMPARE(played.constFirst().constFirst().value<Chime::Sound>(), Chime::Refused);
}

void tst_SettingsScreen::files_areWrittenAndTakenIn()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    bench.show();
    QVERIFY(goToSettings(bench));
    QVERIFY(bench.tap(QStringLiteral("Files")));
    QVERIFY(bench.untilSays(QStringLiteral("No file is in the drop folder")));
    QVERIFY(bench.tap(QStringLiteral("Write this house into the folder")));
    QVERIFY(bench.untilSays(QStringLiteral("house.json")));
    QFile file(house.dropFolder() + QStringLiteral("/house.json"));
    QVERIFY(file.open(QIODevice::ReadWrite));
    QByteArray bytes = file.readAll();
    bytes.replace("\"shiftEndMinute\": 1050", "\"shiftEndMinute\": 1005");
    const auto write = [&file](const QByteArray& all) {
        file.resize(0);
        file.seek(0);
        file.write(all);
        file.flush();
    };
    write(QByteArray(bytes).replace("\"bays\"", "\"bogs\""));
    const qint64 seq = house.site().seq;
    QVERIFY(bench.tap(line(bench, QStringLiteral("house.json"))));
    QVERIFY(signAgain(bench));
    QVERIFY(bench.untilSays(QStringLiteral("house.json: nothing was taken in.")));
    QVERIFY(bench.untilSays(QStringLiteral("bogs: there is no such field")));
    bench.shoot(QStringLiteral("settings-files"));
    QCOMPARE(house.site().seq, seq);
    write(bytes);
    QVERIFY(bench.tap(line(bench, QStringLiteral("house.json"))));
    QVERIFY(signAgain(bench));
    QVERIFY(bench.untilSays(QStringLiteral("house.json was taken in.")));
    QCOMPARE(house.site().rules.shiftEndMinute, 1005);
    QVERIFY(bench.tap(line(bench, QStringLiteral("catalogue.json"))));
    QVERIFY(signAgain(bench));
    QVERIFY(bench.untilSays(QStringLiteral("catalogue.json was taken in.")));
    QVERIFY(house.site().adopted.catalogue);
}

void tst_SettingsScreen::reading_namesOneOfSeveralTools()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    for (OperationSpec& spec : house.catalogue.operations)
        if (spec.id == QLatin1StringView("arrival-check"))
            for (ReadingSpec& reading : spec.readings)
                reading.tool = ToolKind::Thermometer;
    const PersonId runa = house.person(QStringLiteral("Runa"));
    for (const char* number : {"TH 1", "TH 2"})
        house.must(runa, SiteCommand{site::SetTool{{{},
                                                    QString::fromLatin1(number),
                                                    ToolKind::Thermometer,
                                                    QDate(2031, 9, 5),
                                                    true}}});
    const CarId car = house.bringIn(QStringLiteral("K-7"));
    const OperationId work = house.open(car, "arrival-check");
    const PersonId odo = house.person(QStringLiteral("Odo"));
    house.must(odo, car, {car::ReadCautions{work}, car::StartWork{work}});
    bench.show(size);
    QVERIFY(bench.tap(QStringLiteral("Who are you?")));
    QVERIFY(bench.signIn(QStringLiteral("Odo Farlane")));
    QVERIFY(bench.openCar(QStringLiteral("K-7")));
    QVERIFY(bench.openWork(work));
    QVERIFY(bench.until([&] { return !bench.ofType("ReadingLine").empty(); },
                        QStringLiteral("the readings")));
    QVERIFY(bench.tap(bench.ofType("ReadingLine").front()));
    QVERIFY(bench.untilSays(QStringLiteral("Measured with thermometer")));
    QVERIFY(bench.tap(QStringLiteral("TH 2")));
    QVERIFY(bench.until(
        [&] { return bench.ofType("ChoiceChip", "text", "TH 2")->property("selected").toBool(); },
        QStringLiteral("the tool")));
    bench.shoot(QStringLiteral("reading-tool"));
}

void tst_SettingsScreen::backup_isWarnedOf_namedAndMade()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    bench.show(size);
    BackupView& view = *bench.shell().backups();
    bench.shell().ticker().pulse();
    house.clock.goOn(1);
    bench.shell().ticker().pulse();
    QVERIFY(bench.tap(QStringLiteral("Who are you?")));
    QVERIFY(bench.signIn(QStringLiteral("Runa Talbeck")));
    QVERIFY(bench.tap(QStringLiteral("Bays")));
    QVERIFY(bench.until([&] { return view.worrying(); }, QStringLiteral("the warning")));
    QVERIFY(bench.untilSays(view.warning()));
    bench.shoot(QStringLiteral("bays-no-backup"));
    QVERIFY(bench.tap(view.warning()));
    QVERIFY(bench.until([&] { return !bench.ofType("SettingsScreen").empty(); },
                        QStringLiteral("the settings")));
    QVERIFY(bench.tap(QStringLiteral("Backup")));
    QVERIFY(bench.untilSays(QStringLiteral("none yet")));
    bench.shoot(QStringLiteral("settings-backup-none"));

    QVERIFY(bench.tap(QStringLiteral("Choose a folder")));
    QVERIFY(bench.write(QStringLiteral("Folder"), QStringLiteral("backups")));
    QVERIFY(bench.tap(QStringLiteral("Save")));
    QVERIFY(signAgain(bench));
    QVERIFY(bench.until([&] { return view.ask()->refused(); }, QStringLiteral("no whole path")));
    QVERIFY(bench.untilSays(view.ask()->words()));
    bench.shoot(QStringLiteral("settings-backup-refused"));
    // The touch keyboard's way was shown; the rest of a temporary folder's name is long.
    auto* field = bench.ofType("Field", "label", QStringLiteral("Folder"));
    QVERIFY(field != nullptr);
    const QString folder = house.folder(QStringLiteral("backups"));
    field->setProperty("text", folder);
    QVERIFY(bench.tap(QStringLiteral("Save")));
    QVERIFY(signAgain(bench));
    QVERIFY(bench.until([&] { return view.lastWords() == QLatin1String("today 13:41"); },
                        QStringLiteral("the first backup")));
    QCOMPARE(house.backupFolder(), folder);
    const auto made = backupsIn(folder);
    QVERIFY(made);
    QCOMPARE(made->size(), 1U);
    QCOMPARE(faultsOf(made->front()), QStringList());
    // One disk holds both here.
    QVERIFY(view.warning().startsWith(QStringLiteral("The backups are on the same disk")));
    QVERIFY(bench.untilSays(QStringLiteral("today 13:41")));
    bench.shoot(QStringLiteral("settings-backup"));
    QCOMPARE(view.keyCopyWords(), QStringLiteral("none known"));
    QVERIFY(bench.says(QStringLiteral("none known")));
    // A copy of other keys helps nobody.
    const QString note = house.folder(QStringLiteral("keycopy.json"));
    for (const auto& [keyId, words] :
         {std::pair{QStringLiteral("another's"), QStringLiteral("none known")},
          std::pair{house.keyId(), QStringLiteral("today 13:41")}}) {
        QVERIFY(noteKeyCopy(note, {keyId, house.clock.now()}));
        bench.shell().ticker().pulse();
        view.refresh();
        QVERIFY(bench.until([&] { return view.keyCopyWords() == words; }, words));
    }

    house.clock.goOn(5);
    QVERIFY(bench.tap(QStringLiteral("Back up now")));
    QVERIFY(bench.untilSays(QStringLiteral("today 13:46")));
}

void tst_SettingsScreen::backup_isMadeEachEvening_andALostStickIsSaid()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const QString folder = house.folder(QStringLiteral("backups"));
    auto named = house.backups().setFolder(folder);
    named.waitForFinished();
    QVERIFY(named.result());
    bench.show();
    BackupView& view = *bench.shell().backups();
    const auto tick = [&](int minutes) {
        house.clock.goOn(minutes);
        bench.shell().ticker().pulse();
    };
    // The evening before has no backup: it is made as soon as the kiosk runs.
    tick(1);
    QVERIFY(bench.until([&] { return view.lastWords() == QLatin1String("today 13:41"); },
                        QStringLiteral("the backup of the evening before")));
    tick(6 * 60);
    QVERIFY(bench.until([&] { return view.atWords() == QLatin1String("each day at 20:30"); },
                        QStringLiteral("its time")));
    tick(50);
    QVERIFY(bench.until([&] { return view.lastWords() == QLatin1String("today 20:31"); },
                        QStringLiteral("the evening's")));
    QCOMPARE(backupsIn(folder)->size(), 1U); // of one day the last stays

    QVERIFY(QDir(folder).removeRecursively());
    QFile file(folder);
    QVERIFY(file.open(QIODevice::WriteOnly));
    tick(24 * 60);
    QVERIFY(
        bench.until([&] { return view.warning().contains(QStringLiteral("cannot be written")); },
                    QStringLiteral("the warning")));
    QVERIFY(view.warning().contains(QStringLiteral("yesterday 20:31")));
    QVERIFY(file.remove());
    tick(31);
    QVERIFY(bench.until([&] { return view.lastWords() == QLatin1String("today 21:02"); },
                        QStringLiteral("the next try")));
}

void tst_SettingsScreen::technician_changesNothing()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    bench.show();
    QVERIFY(goToSettings(bench, QStringLiteral("Bram Holloway")));
    const qint64 seq = house.site().seq;
    QVERIFY(bench.tap(QStringLiteral("15 min later")));
    QVERIFY(bench.tap(QStringLiteral("Save the rules")));
    QVERIFY(signAgain(bench));
    RulesView& view = *bench.shell().settings()->rules();
    QVERIFY(bench.until([&] { return view.ask()->refused(); }, QStringLiteral("refusal")));
    QCOMPARE(view.ask()->refusalId(), QStringLiteral("not-allowed"));
    QVERIFY(bench.untilSays(view.ask()->words()));
    bench.shoot(QStringLiteral("settings-refused"));
    QCOMPARE(house.site().seq, seq);
}

RAMPLIGHT_TEST(QGuiApplication, tst_SettingsScreen)
#include "tst_settingsscreen.moc"
