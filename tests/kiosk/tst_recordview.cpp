// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "support/testmain.h"
#include "viewbench.h"

#include <QTest>

namespace ramplight::test {

class TestRecordView : public QObject
{
    Q_OBJECT

private slots:
    void record_isMadeShownSavedAndPrinted();
    void nextRecord_neverShowsPagesOfTheOneBefore();
    void failure_isSaidAndTriedAgain();
    void doorSheetAndTag_areMadePrintedAndSaved();
    void printer_isSetByAManagerOnly_andFaultsAreSaid();
    void dropFolder_isListed();
};

void TestRecordView::record_isMadeShownSavedAndPrinted()
{
    ViewBench kiosk;
    RecordView* record = kiosk.shell.record();
    record->save();
    QVERIFY(!record->ask()->busy());
    record->make(QStringLiteral("car-1"), QStringLiteral("K1"));
    QTRY_VERIFY(record->made());
    QCOMPARE(record->fingerprint(), QStringLiteral("AB12"));
    QCOMPARE(record->pageUrls(), (QStringList{"image://record/1/0", "image://record/1/1"}));
    QVERIFY(!kiosk.shell.pages()->page(1, 0).isNull());
    QVERIFY(kiosk.shell.pages()->page(1, 2).isNull());
    record->save();
    QTRY_COMPARE(record->savedPath(), QStringLiteral("K1.pdf"));
    QCOMPARE(kiosk.outcome(record->ask()), done);
    record->print();
    QCOMPARE(kiosk.outcome(record->ask()), done);
    QCOMPARE(record->printedWords(), QStringLiteral("Sent to office"));
    QVERIFY(record->savedPath().isEmpty());
    QCOMPARE(kiosk.desk.printed, QStringList{QStringLiteral("Handover record K1")});
    record->saveToStick();
    QTRY_COMPARE(record->savedPath(), QStringLiteral("stick/record-K1.pdf"));
    QCOMPARE(kiosk.outcome(record->ask()), done);
    record->close();
    QVERIFY(!record->made());
    QVERIFY(kiosk.shell.pages()->page(1, 0).isNull());
}

void TestRecordView::nextRecord_neverShowsPagesOfTheOneBefore()
{
    ViewBench kiosk;
    RecordView* record = kiosk.shell.record();
    record->make(QStringLiteral("car-1"), QStringLiteral("K1"));
    QTRY_VERIFY(record->made());
    const QStringList first = record->pageUrls();
    QCOMPARE(kiosk.outcome(record->ask()), done);
    record->make(QStringLiteral("car-2"), QStringLiteral("K2"));
    QVERIFY(!record->made());
    QVERIFY(record->pageUrls().isEmpty());
    QTRY_VERIFY(record->made());
    QVERIFY(record->pageUrls() != first);
    QVERIFY(kiosk.shell.pages()->page(1, 0).isNull());
}

void TestRecordView::failure_isSaidAndTriedAgain()
{
    ViewBench kiosk;
    RecordView* record = kiosk.shell.record();
    kiosk.desk.recordFault = QStringLiteral("a photo is damaged");
    record->make(QStringLiteral("car-1"), QStringLiteral("K1"));
    QTRY_COMPARE(record->ask()->words(), QStringLiteral("a photo is damaged"));
    QVERIFY(!record->made());
    kiosk.desk.recordFault.reset();
    record->ask()->retry();
    QTRY_VERIFY(record->made());
    kiosk.desk.recordFault = QStringLiteral("no space");
    QCOMPARE(kiosk.outcome(record->ask()), done);
    record->save();
    QTRY_COMPARE(record->ask()->words(), QStringLiteral("no space"));
    QVERIFY(record->savedPath().isEmpty());
    kiosk.desk.printingFault = QStringLiteral("out of ink");
    record->print();
    QTRY_COMPARE(record->ask()->words(), QStringLiteral("out of ink"));
    QVERIFY(record->ask()->canRetry());
    QVERIFY(record->printedWords().isEmpty());
}

void TestRecordView::doorSheetAndTag_areMadePrintedAndSaved()
{
    ViewBench kiosk;
    PaperView* paper = kiosk.shell.paper();
    paper->print();
    QVERIFY(!paper->ask()->busy());
    paper->makeDoorSheet(QStringLiteral("car-1"));
    QCOMPARE(kiosk.outcome(paper->ask()), done);
    QCOMPARE(paper->title(), QStringLiteral("door car-1"));
    QCOMPARE(paper->aspect(), 0.75);
    QCOMPARE(paper->stick(), QStringLiteral("stick"));
    const QString first = paper->pageUrl();
    QVERIFY(first.startsWith(QStringLiteral("image://paper/")));
    paper->save();
    QCOMPARE(kiosk.outcome(paper->ask()), done);
    QCOMPARE(paper->outcome(), QStringLiteral("Saved: records/door car-1.pdf"));
    kiosk.desk.waits = QStringLiteral("out of paper");
    paper->print();
    QCOMPARE(kiosk.outcome(paper->ask()), done);
    QCOMPARE(paper->outcome(), QStringLiteral("out of paper"));

    paper->askForTag(QStringLiteral("car-1"));
    QVERIFY(!paper->made());
    QVERIFY(paper->outcome().isEmpty());
    QCOMPARE(paper->corners()->rowCount(), 5);
    paper->corners()->choose(QStringLiteral("RR"));
    QCOMPARE(kiosk.outcome(paper->ask()), done);
    QCOMPARE(paper->title(), QStringLiteral("tag car-1 wheel-rear-right"));
    QVERIFY(paper->pageUrl() != first);

    kiosk.desk.recordFault = QStringLiteral("released to sale");
    paper->makeDoorSheet(QStringLiteral("car-2"));
    QTRY_COMPARE(paper->ask()->words(), QStringLiteral("released to sale"));
    QVERIFY(!paper->made());
    paper->close();
    QVERIFY(!paper->ask()->refused());
}

void TestRecordView::printer_isSetByAManagerOnly_andFaultsAreSaid()
{
    ViewBench kiosk;
    PrinterView* printer = kiosk.shell.printer();
    kiosk.desk.printers = {{QStringLiteral("hall"), QStringLiteral("by the door"), false}};
    printer->refresh();
    QTRY_VERIFY(!printer->looking());
    QCOMPARE(at(*printer->queues(), 0, "title").toString(), QStringLiteral("hall: by the door"));
    QVERIFY2(printer->fault().contains(QStringLiteral("office is set")),
             qPrintable(printer->fault()));
    kiosk.desk.printingFault = QStringLiteral("no CUPS");
    printer->refresh();
    QTRY_COMPARE(printer->fault(), QStringLiteral("no CUPS"));
    QCOMPARE(printer->queues()->rowCount(), 0);
    kiosk.desk.printingFault.reset();
    kiosk.desk.printers.clear();
    printer->refresh();
    QTRY_VERIFY(printer->fault().contains(QStringLiteral("knows no printer")));
    kiosk.signIn(kiosk.bench.manager);
    printer->setQueue(QStringLiteral("hall"));
    QCOMPARE(printer->queue(), QStringLiteral("office"));
    kiosk.typePin(kiosk.bench.manager);
    QTRY_COMPARE(printer->queue(), QStringLiteral("hall"));
}

void TestRecordView::dropFolder_isListed()
{
    ViewBench kiosk;
    DropModel* dropped = kiosk.shell.dropped();
    kiosk.desk.dropped = {
        {QStringLiteral("/drop/a b.jpg"), QStringLiteral("a b.jpg"), kiosk.bench.clock.now()}};
    dropped->open(0);
    QVERIFY(dropped->busy());
    QTRY_COMPARE(dropped->count(), 1);
    QCOMPARE(at(*dropped, 0, "name").toString(), QStringLiteral("a b.jpg"));
    QCOMPARE(at(*dropped, 0, "url").toString(),
             QStringLiteral("image://photo/drop/%2Fdrop%2Fa%20b.jpg"));
    kiosk.desk.photoFault = EvidenceError::FolderMissing;
    dropped->open(0);
    QTRY_COMPARE(dropped->fault(), words(EvidenceError::FolderMissing));
    QCOMPARE(dropped->count(), 0);
}

} // namespace ramplight::test

RAMPLIGHT_TEST(QGuiApplication, ramplight::test::TestRecordView)
#include "tst_recordview.moc"
