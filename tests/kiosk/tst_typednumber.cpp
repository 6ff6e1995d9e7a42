// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/typednumber.h"
#include "support/testmain.h"

#include <QTest>

namespace ramplight {

class TestTypedNumber : public QObject
{
    Q_OBJECT

private slots:
    void digits_becomeACount_data();
    void digits_becomeACount();
    void whatIsNone_isRefusedInWords_data();
    void whatIsNone_isRefusedInWords();
    void count_becomesDigitsAgain_data();
    void count_becomesDigitsAgain();
};

void TestTypedNumber::digits_becomeACount_data()
{
    QTest::addColumn<QString>("text");
    QTest::addColumn<int>("decimals");
    QTest::addColumn<int>("count");
    QTest::newRow("whole") << "120" << 0 << 120;
    QTest::newRow("one decimal") << "1.9" << 1 << 19;
    QTest::newRow("a comma") << "1,9" << 1 << 19;
    QTest::newRow("fewer decimals than there may be") << "3" << 1 << 30;
    QTest::newRow("two decimals, one typed") << "0.5" << 2 << 50;
    QTest::newRow("spaces around") << " 42 " << 0 << 42;
    QTest::newRow("below nought") << "-12.5" << 1 << -125;
    QTest::newRow("begins with the mark") << ".5" << 1 << 5;
    QTest::newRow("nought") << "0" << 1 << 0;
    QTest::newRow("the largest") << "2147483647" << 0 << 2147483647;
}

void TestTypedNumber::digits_becomeACount()
{
    QFETCH(QString, text);
    QFETCH(int, decimals);
    const auto number = typedNumber(text, decimals);
    QVERIFY2(number.has_value(), number ? "" : qPrintable(number.error()));
    QTEST(*number, "count");
}

void TestTypedNumber::whatIsNone_isRefusedInWords_data()
{
    QTest::addColumn<QString>("text");
    QTest::addColumn<int>("decimals");
    QTest::addColumn<QString>("words");
    const QString whole = QStringLiteral("A whole number is needed, such as 120.");
    const QString one = QStringLiteral("A number with at most one decimal is needed, such as 1.9.");
    QTest::newRow("empty") << "" << 0 << whole;
    QTest::newRow("letters") << "12a" << 0 << whole;
    QTest::newRow("a mark where none may be") << "1.5" << 0 << whole;
    QTest::newRow("too many decimals") << "1.65" << 1 << one;
    QTest::newRow("two marks") << "1.2.3" << 1 << one;
    QTest::newRow("ends with the mark") << "1." << 1 << one;
    QTest::newRow("a sign alone") << "-" << 1 << one;
    QTest::newRow("more decimals")
        << "x" << 2 << "A number with at most 2 decimals is needed, such as 0.25.";
    QTest::newRow("too large") << "2147483648" << 0 << "This number is too large.";
    QTest::newRow("too large once it is scaled") << "300000000" << 1 << "This number is too large.";
    QTest::newRow("endless") << QString(400, u'9') << 0 << "This number is too large.";
}

void TestTypedNumber::whatIsNone_isRefusedInWords()
{
    QFETCH(QString, text);
    QFETCH(int, decimals);
    const auto number = typedNumber(text, decimals);
    QVERIFY(!number);
    QTEST(number.error(), "words");
}

void TestTypedNumber::count_becomesDigitsAgain_data()
{
    QTest::addColumn<int>("count");
    QTest::addColumn<int>("decimals");
    QTest::addColumn<QString>("text");
    QTest::newRow("whole") << 120 << 0 << "120";
    QTest::newRow("one decimal") << 19 << 1 << "1.9";
    QTest::newRow("below one") << 5 << 1 << "0.5";
    QTest::newRow("two decimals") << 5 << 2 << "0.05";
    QTest::newRow("below nought") << -5 << 1 << "-0.5";
    QTest::newRow("the smallest") << std::numeric_limits<int>::min() << 1 << "-214748364.8";
}

void TestTypedNumber::count_becomesDigitsAgain()
{
    QFETCH(int, count);
    QFETCH(int, decimals);
    QTEST(typedText(count, decimals), "text");
}

} // namespace ramplight

RAMPLIGHT_TEST(QCoreApplication, ramplight::TestTypedNumber)
#include "tst_typednumber.moc"
