// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "recordbench.h"

#include "record/exporttables.h"
#include "support/testmain.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

// Tables for a spreadsheet: nothing is lost in them, and nothing in them does anything.
class TestExportTables : public QObject
{
    Q_OBJECT

private slots:
    void csv_isReadByAnySpreadsheet_data()
    {
        QTest::addColumn<QString>("words");
        QTest::addColumn<QString>("cell");
        QTest::newRow("plain") << "kerbed"
                               << "kerbed";
        QTest::newRow("nothing") << ""
                                 << "";
        QTest::newRow("comma") << "kerbed, moderate"
                               << "\"kerbed, moderate\"";
        QTest::newRow("quotes") << "the \"good\" one"
                                << "\"the \"\"good\"\" one\"";
        QTest::newRow("two lines") << "one\ntwo"
                                   << "\"one\ntwo\"";
        QTest::newRow("formula") << "=1+1"
                                 << "'=1+1";
        QTest::newRow("formula behind a blank") << " =1+1"
                                                << "' =1+1";
        QTest::newRow("plus") << "+44"
                              << "'+44";
        QTest::newRow("minus") << "-5 mm"
                               << "'-5 mm";
        QTest::newRow("at") << "@here"
                            << "'@here";
        QTest::newRow("tab") << "\t=1"
                             << "\"'\t=1\"";
        QTest::newRow("wide equals") << QString(QChar(0xff1d)) << "'" + QString(QChar(0xff1d));
        QTest::newRow("formula with a comma") << "=A1,B1"
                                              << "\"'=A1,B1\"";
        QTest::newRow("letters of the world") << QString(QChar(0xdc)) << QString(QChar(0xdc));
    }

    void csv_isReadByAnySpreadsheet()
    {
        QFETCH(const QString, words);
        QFETCH(const QString, cell);
        QCOMPARE(csvText(words), cell);
        CsvTable table({QStringLiteral("count"), QStringLiteral("words")});
        table.add({-7, words});
        QCOMPARE(table.bytes(), "\xef\xbb\xbf"
                                "count,words\r\n-7," +
                                    cell.toUtf8() + "\r\n");
    }

    void tables_haveEveryOperationStretchAndFinding()
    {
        RecordBench bench;
        const CarId id = bench.worked();
        const RecordModel record = bench.record(id);
        ExportTables tables;
        tables.add(record);
        tables.add(record);
        std::size_t stretches = 0;
        for (const RecordOperation& operation : record.operations)
            stretches += operation.stretches.size();
        QCOMPARE(tables.operations().rows(), int(2 * record.operations.size()));
        QCOMPARE(tables.minutes().rows(), int(2 * stretches));
        QCOMPARE(tables.findings().rows(), int(2 * record.findings.size()));
        const QString minutes = QString::fromUtf8(tables.minutes().bytes());
        QVERIFY2(minutes.contains(",95,40,"), qPrintable(minutes));
        QVERIFY2(minutes.contains(",forgot to stop at lunch\r\n"), qPrintable(minutes));
        const QString findings = QString::fromUtf8(tables.findings().bytes());
        QVERIFY2(findings.contains(",not-there,"), qPrintable(findings));
        const QString operations = QString::fromUtf8(tables.operations().bytes());
        QVERIFY2(operations.contains(",left-as-is,"), qPrintable(operations));
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestExportTables)
#include "tst_exporttables.moc"
