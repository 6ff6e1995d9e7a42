// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "benchcrew.h"
#include "kioskbench.h"

#include "printing/printwords.h"
#include "support/testmain.h"

#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <QQuickItem>
#include <QScopeGuard>
#include <QTest>

#include <sys/stat.h>

using namespace ramplight;
using namespace ramplight::test;

/// Pages that go with a car, by touch: made, seen, printed, saved; and the printer that is set.
class tst_PaperSheet : public QObject
{
    Q_OBJECT

private slots:
    void init() { failOnQmlWarnings(); }
    void doorSheet_isSeenAndSaved_whereThereIsNoPrinter_data();
    void doorSheet_isSeenAndSaved_whereThereIsNoPrinter();
    void doorSheet_isPrinted_andFaultsAreSaid_data();
    void doorSheet_isPrinted_andFaultsAreSaid();
    void wheelTag_isMadeForTheWheelThatIsChosen_data();
    void wheelTag_isMadeForTheWheelThatIsChosen();
    void page_goesOntoAStick();
    void linkOnTheStick_isReplaced_andWhatItNamesIsLeftAlone();
    void linkInTheDropFolder_isReplaced_andWhatItNamesIsLeftAlone();
    void record_isPrinted();
    void printer_isChosenByAManager_data();
    void printer_isChosenByAManager();
};

namespace {

const auto paperStock = QStringLiteral("K-7");

QByteArray bytesOf(const QString& path)
{
    QFile file(path);
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
}

CarId kerbed(BenchHouse& house)
{
    return house.bringIn(paperStock,
                         {finding("wheel-front-left", Condition::Kerbed, {Remedy::Refurbish}),
                          finding("bonnet", Condition::Chip, {Remedy::TouchIn})});
}

bool openPage(KioskBench& bench, const QString& which)
{
    return bench.openCar(paperStock) && bench.tap(QStringLiteral("More")) && bench.tap(which);
}

/// The page's picture.
const QQuickItem* pageOf(KioskBench& bench)
{
    for (const QQuickItem* image : bench.ofType("QQuickImage"))
        if (image->property("source").toUrl() == QUrl(bench.shell().paper()->pageUrl()))
            return image;
    return nullptr;
}

bool untilMade(KioskBench& bench)
{
    return bench.until([&] { return bench.shell().paper()->made(); }, QStringLiteral("the page"));
}

} // namespace

void tst_PaperSheet::doorSheet_isSeenAndSaved_whereThereIsNoPrinter_data()
{
    sizes();
}

void tst_PaperSheet::doorSheet_isSeenAndSaved_whereThereIsNoPrinter()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    kerbed(bench.house());
    bench.show(size);
    QVERIFY(openPage(bench, QStringLiteral("Door sheet")) && untilMade(bench));
    QVERIFY(!bench.says(QStringLiteral("Print")));
    QVERIFY(!bench.says(QStringLiteral("Onto the stick")));
    bench.shoot(QStringLiteral("paper-door-no-printer"));
    QVERIFY(bench.tap(QStringLiteral("Save as PDF")));
    const QString path = bench.house().recordFolder() + QStringLiteral("/door-K-7.pdf");
    QVERIFY(bench.untilSays(QStringLiteral("Saved: %1").arg(path)));
    QVERIFY(bytesOf(path).startsWith("%PDF-"));
    bench.shoot(QStringLiteral("paper-door-saved"));
    QVERIFY(bench.tap(QStringLiteral("Close")));
    QVERIFY(bench.untilGone(QStringLiteral("Save as PDF")));
    QVERIFY(!bench.shell().paper()->made());
}

void tst_PaperSheet::doorSheet_isPrinted_andFaultsAreSaid_data()
{
    sizes();
}

void tst_PaperSheet::doorSheet_isPrinted_andFaultsAreSaid()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    kerbed(house);
    house.desk().usePrinter(QStringLiteral("office"));
    bench.show(size);
    QVERIFY(openPage(bench, QStringLiteral("Door sheet")) && untilMade(bench));
    QVERIFY(bench.says(QStringLiteral("Printer: office")));

    const PrintRefusal refusal = refusalOf(PrintFault::NoSuchQueue, QStringLiteral("office"));
    house.printer.refuse(refusal);
    QVERIFY(bench.tap(QStringLiteral("Print")));
    QVERIFY(bench.untilSays(refusal.words));
    bench.shoot(QStringLiteral("paper-door-refused"));
    QVERIFY(house.printer.printed().empty());

    house.printer.refuse(std::nullopt);
    const QString waits =
        waitingWords(QStringLiteral("office"), troubleWords({QStringLiteral("media-empty")}));
    house.printer.letWait(waits);
    QVERIFY(bench.tap(QStringLiteral("Print")));
    QVERIFY(bench.untilSays(waits));
    bench.shoot(QStringLiteral("paper-door-waits"));

    house.printer.letWait({});
    QVERIFY(bench.tap(QStringLiteral("Print")));
    QVERIFY(bench.untilSays(QStringLiteral("Sent to the printer office.")));
    const auto printed = house.printer.printed();
    QCOMPARE(printed.size(), std::size_t(2));
    QCOMPARE(printed.back().queue, QStringLiteral("office"));
    QCOMPARE(printed.back().title, QStringLiteral("Door sheet K-7"));
    QVERIFY(printed.back().pdf.startsWith("%PDF-"));
}

void tst_PaperSheet::wheelTag_isMadeForTheWheelThatIsChosen_data()
{
    sizes();
}

void tst_PaperSheet::wheelTag_isMadeForTheWheelThatIsChosen()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    kerbed(bench.house());
    bench.house().desk().usePrinter(QStringLiteral("office"));
    bench.show(size);
    QVERIFY(openPage(bench, QStringLiteral("Tag of a wheel")));
    QVERIFY(bench.untilSays(QStringLiteral("Which wheel goes with the tag?")));
    QVERIFY(!bench.shell().paper()->made());
    bench.shoot(QStringLiteral("paper-tag-which"));
    QVERIFY(bench.tap(QStringLiteral("Near side front wheel")) && untilMade(bench));
    const QQuickItem* page = pageOf(bench);
    QVERIFY(page != nullptr && liesWithin(page, page->parentItem()));
    bench.shoot(QStringLiteral("paper-tag"));
    QVERIFY(bench.tap(QStringLiteral("Off side rear wheel")));
    QVERIFY(bench.until(
        [&] { return bench.shell().paper()->title() == QStringLiteral("Wheel tag RR-K-7"); },
        QStringLiteral("the other tag")));
    QVERIFY(bench.tap(QStringLiteral("Print")));
    QVERIFY(bench.untilSays(QStringLiteral("Sent to the printer office.")));
    QCOMPARE(bench.house().printer.printed().back().title, QStringLiteral("Wheel tag RR-K-7"));
}

void tst_PaperSheet::page_goesOntoAStick()
{
    KioskBench bench(BenchHouse::Start::House);
    kerbed(bench.house());
    const QString stick =
        QDir::cleanPath(bench.house().recordFolder() + QStringLiteral("/../stick"));
    QVERIFY(QDir().mkpath(stick));
    bench.show();
    QVERIFY(openPage(bench, QStringLiteral("Door sheet")) && untilMade(bench));
    // As in the program, whose own files are for its account only.
    const mode_t before = ::umask(S_IRWXG | S_IRWXO);
    const auto after = qScopeGuard([before] { ::umask(before); });
    QVERIFY(bench.tap(QStringLiteral("Onto the stick")));
    QVERIFY(bench.untilSays(QStringLiteral("Saved: %1/door-K-7.pdf").arg(stick)));
    QVERIFY(bytesOf(stick + QStringLiteral("/door-K-7.pdf")).startsWith("%PDF-"));
    QVERIFY(QFile::permissions(stick + QStringLiteral("/door-K-7.pdf"))
                .testFlags(QFile::ReadGroup | QFile::ReadOther));
    // Somebody pulls it out.
    QVERIFY(QDir(stick).removeRecursively());
    QVERIFY(bench.tap(QStringLiteral("Onto the stick")));
    QVERIFY(bench.until([&] { return bench.shell().paper()->ask()->refused(); },
                        QStringLiteral("the fault")));
    QVERIFY(bench.shell().paper()->ask()->words().contains(QStringLiteral("no stick")));
    bench.shoot(QStringLiteral("paper-door-no-stick"));
}

// Whoever prepared the stick knows what the files will be called, and what the house's are.
void tst_PaperSheet::linkOnTheStick_isReplaced_andWhatItNamesIsLeftAlone()
{
    KioskBench bench(BenchHouse::Start::House);
    const CarId car = kerbed(bench.house());
    const QString stick =
        QDir::cleanPath(bench.house().recordFolder() + QStringLiteral("/../stick"));
    const QString keys = bench.house().folder(QStringLiteral("any.keys"));
    bench.house().put(keys, "of the house", 0);
    QVERIFY(QFile::setPermissions(keys, QFile::ReadOwner | QFile::WriteOwner));
    const QFile::Permissions before = QFile::permissions(keys);
    QVERIFY(QDir().mkpath(stick));
    const QString door = stick + QStringLiteral("/door-K-7.pdf");
    const QString record = stick + QStringLiteral("/record-K-7.pdf");
    for (const QString& path : {door, record})
        QVERIFY(QFile::link(keys, path));
    bench.show();
    QVERIFY(openPage(bench, QStringLiteral("Door sheet")) && untilMade(bench));
    QVERIFY(bench.tap(QStringLiteral("Onto the stick")));
    QVERIFY(bench.untilSays(QStringLiteral("Saved: %1").arg(door)));
    RecordView* made = bench.shell().record();
    made->make(car.text, paperStock);
    QVERIFY(bench.until([&] { return made->made(); }, QStringLiteral("the record")));
    made->saveToStick();
    QVERIFY(bench.until([&] { return !made->savedPath().isEmpty(); }, QStringLiteral("saved")));
    for (const QString& path : {door, record}) {
        QVERIFY(!QFileInfo(path).isSymLink());
        QVERIFY(bytesOf(path).startsWith("%PDF-"));
        QVERIFY(QFile::permissions(path).testFlags(QFile::ReadGroup | QFile::ReadOther));
    }
    QCOMPARE(bytesOf(keys), QByteArray("of the house"));
    QCOMPARE(QFile::permissions(keys), before);
}

// The drop folder may be a share that others write into, too.
void tst_PaperSheet::linkInTheDropFolder_isReplaced_andWhatItNamesIsLeftAlone()
{
    BenchHouse house(BenchHouse::Start::House);
    const QString keys = house.folder(QStringLiteral("any.keys"));
    house.put(keys, "of the house", 0);
    const QStringList paths{house.dropFolder() + QStringLiteral("/house.json"),
                            house.dropFolder() + QStringLiteral("/catalogue.json")};
    for (const QString& path : paths)
        QVERIFY(QFile::link(keys, path));
    auto written = house.desk().exportHouse();
    written.waitForFinished();
    QVERIFY(written.result().has_value());
    for (const QString& path : paths) {
        QVERIFY(!QFileInfo(path).isSymLink());
        QVERIFY(bytesOf(path).startsWith("{"));
    }
    QCOMPARE(bytesOf(keys), QByteArray("of the house"));
}

void tst_PaperSheet::record_isPrinted()
{
    KioskBench bench(BenchHouse::Start::House);
    const CarId car = kerbed(bench.house());
    bench.house().desk().usePrinter(QStringLiteral("office"));
    bench.show();
    RecordView* record = bench.shell().record();
    record->make(car.text, paperStock);
    QVERIFY(bench.until([&] { return record->made(); }, QStringLiteral("the record")));
    record->print();
    QVERIFY(
        bench.until([&] { return !record->printedWords().isEmpty(); }, QStringLiteral("paper")));
    QCOMPARE(record->printedWords(), QStringLiteral("Sent to the printer office."));
    QCOMPARE(bench.house().printer.printed().back().title, QStringLiteral("Handover record K-7"));
}

void tst_PaperSheet::printer_isChosenByAManager_data()
{
    sizes();
}

void tst_PaperSheet::printer_isChosenByAManager()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    bench.show(size);
    QVERIFY(bench.tap(QStringLiteral("Who are you?")) &&
            bench.signIn(QStringLiteral("Runa Talbeck")));
    QVERIFY(bench.tap(QStringLiteral("Staff and bays")) && bench.tap(QStringLiteral("Settings")) &&
            bench.tap(QStringLiteral("Screen")) && bench.tap(QStringLiteral("Printer")));
    QVERIFY(bench.untilSays(QStringLiteral("office: by the window")));
    bench.shoot(QStringLiteral("printer-choice"));
    QVERIFY(bench.tap(QStringLiteral("office: by the window")) && bench.enterPin());
    QVERIFY(bench.until([&] { return house.desk().printer() == QStringLiteral("office"); },
                        QStringLiteral("the printer")));
    QCOMPARE(bench.shell().printer()->queues()->current(), QStringLiteral("office"));
    bench.shoot(QStringLiteral("printer-chosen"));
    QVERIFY(bench.tap(QStringLiteral("Close")));
    QVERIFY(bench.untilSays(QStringLiteral("office")));
    bench.shoot(QStringLiteral("printer-setting"));

    const PrintRefusal refusal = refusalOf(PrintFault::NoSystem, {});
    house.printer.refuse(refusal);
    QVERIFY(bench.tap(QStringLiteral("Printer")));
    QVERIFY(bench.untilSays(refusal.words));
    QVERIFY(bench.tap(QStringLiteral("Print nothing")) && bench.enterPin());
    QVERIFY(bench.until([&] { return house.desk().printer().isEmpty(); },
                        QStringLiteral("no printer")));
}

RAMPLIGHT_TEST(QGuiApplication, tst_PaperSheet)
#include "tst_papersheet.moc"
