// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "ownprinters.h"

#include "printing/cupsprinters.h"
#include "printing/printwords.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

namespace {

QByteArray longPdf()
{
    // More than one buffer of the connection holds.
    return "%PDF-1.4\n" + QByteArray(3'000'000, 'x') + "\n%%EOF\n";
}

} // namespace

// The printing system for real, and what it says in a person's words.
class TestCupsPrinters : public QObject
{
    Q_OBJECT

private slots:
    void initTestCase() { QVERIFY2(m_own.start(), qPrintable(m_own.output())); }

    void queues_areListed()
    {
        const auto queues = CupsPrinters(m_own.socket()).queues();
        QVERIFY2(queues.has_value(), qPrintable(queues ? QString() : queues.error().words));
        QStringList names;
        for (const PrintQueue& queue : *queues)
            names.append(queue.name);
        QCOMPARE(names, (QStringList{"halted", "hungry", "office", "shut"}));
        QCOMPARE(queues->at(2).words, QStringLiteral("Office, by the window"));
        QCOMPARE(queues->at(3).words, QString());
    }

    void page_isTaken_wholeAndUnchanged()
    {
        const QByteArray pdf = longPdf();
        const auto taken = CupsPrinters(m_own.socket()).print("office", "Door sheet Ü-7", pdf);
        QVERIFY2(taken.has_value(), qPrintable(taken ? QString() : taken.error().words));
        QCOMPARE(taken->waits, QString());
        QVERIFY(m_own.spooled(taken->job) == pdf);
    }

    void page_thatCannotBePrintedNow_saysWhy_data()
    {
        QTest::addColumn<QString>("queue");
        QTest::addColumn<QString>("words");
        QTest::newRow("out of paper") << "hungry"
                                      << "out of paper";
        QTest::newRow("paused") << "halted"
                                << "it was paused";
    }

    void page_thatCannotBePrintedNow_saysWhy()
    {
        QFETCH(const QString, queue);
        QFETCH(const QString, words);
        const auto taken = CupsPrinters(m_own.socket()).print(queue, "Tag", "%PDF-1.4\n%%EOF\n");
        QVERIFY2(taken.has_value(), qPrintable(taken ? QString() : taken.error().words));
        QVERIFY2(taken->waits.contains(words), qPrintable(taken->waits));
        QVERIFY2(taken->waits.contains(queue), qPrintable(taken->waits));
        QVERIFY(taken->waits.contains("do not print it again"));
        QVERIFY(!m_own.spooled(taken->job).isEmpty());
    }

    void refusal_isSaid_data()
    {
        QTest::addColumn<QString>("queue");
        QTest::addColumn<int>("fault");
        QTest::newRow("takes no jobs") << "shut" << int(PrintFault::NotAccepting);
        QTest::newRow("not there") << "cellar" << int(PrintFault::NoSuchQueue);
        QTest::newRow("no name of a printer") << "../admin/?x=1 2" << int(PrintFault::NoSuchQueue);
    }

    void refusal_isSaid()
    {
        QFETCH(const QString, queue);
        QFETCH(const int, fault);
        const auto taken = CupsPrinters(m_own.socket()).print(queue, "Tag", "%PDF-1.4\n%%EOF\n");
        QVERIFY(!taken);
        QCOMPARE(int(taken.error().fault), fault);
        QVERIFY2(taken.error().words.contains(queue), qPrintable(taken.error().words));
    }

    void noSystem_isSaid()
    {
        CupsPrinters nobody(m_own.socket() + QStringLiteral(".not"));
        const auto queues = nobody.queues();
        QVERIFY(!queues);
        QCOMPARE(queues.error().fault, PrintFault::NoSystem);
        const auto taken = nobody.print("office", "Tag", "%PDF-1.4\n%%EOF\n");
        QVERIFY(!taken);
        QCOMPARE(taken.error().fault, PrintFault::NoSystem);
    }

    void reasons_areSaidAsAPersonWould_data()
    {
        QTest::addColumn<QStringList>("reasons");
        QTest::addColumn<QString>("words");
        QTest::newRow("none") << QStringList{"none"} << QString();
        QTest::newRow("paper") << QStringList{"media-empty"} << "it is out of paper";
        QTest::newRow("paper, graver first")
            << QStringList{"paused", "media-empty-error"} << "it is out of paper";
        QTest::newRow("little toner keeps nothing")
            << QStringList{"toner-low-warning"} << QString();
        QTest::newRow("connecting is no trouble")
            << QStringList{"connecting-to-device"} << QString();
        QTest::newRow("an error that we do not know")
            << QStringList{"fuser-over-temp-error"} << "it reports fuser-over-temp-error";
    }

    void reasons_areSaidAsAPersonWould()
    {
        QFETCH(const QStringList, reasons);
        QFETCH(const QString, words);
        QCOMPARE(troubleWords(reasons), words);
    }

    void systemThatWentAway_isSaid()
    {
        m_own.stop();
        const auto queues = CupsPrinters(m_own.socket()).queues();
        QVERIFY(!queues);
        QCOMPARE(queues.error().fault, PrintFault::NoSystem);
    }

private:
    OwnPrinters m_own;
};

QTEST_GUILESS_MAIN(TestCupsPrinters)
#include "tst_cupsprinters.moc"
