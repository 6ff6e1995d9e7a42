// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
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
    record->print();
    QTRY_COMPARE(record->ask()->what(), QStringLiteral("print"));
}

void TestRecordView::dropFolder_isListed()
{
    ViewBench kiosk;
    DropModel* dropped = kiosk.shell.dropped();
    kiosk.desk.dropped = {
        {QStringLiteral("/drop/a b.jpg"), QStringLiteral("a b.jpg"), kiosk.bench.clock.now()}};
    dropped->refresh();
    QVERIFY(dropped->busy());
    QTRY_COMPARE(dropped->count(), 1);
    QCOMPARE(at(*dropped, 0, "name").toString(), QStringLiteral("a b.jpg"));
    QCOMPARE(at(*dropped, 0, "url").toString(),
             QStringLiteral("image://photo/drop/%2Fdrop%2Fa%20b.jpg"));
    kiosk.desk.photoFault = EvidenceError::FolderMissing;
    dropped->refresh();
    QTRY_COMPARE(dropped->fault(), words(EvidenceError::FolderMissing));
    QCOMPARE(dropped->count(), 0);
}

} // namespace ramplight::test

QTEST_MAIN(ramplight::test::TestRecordView)
#include "tst_recordview.moc"
