// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/vin.h"
#include "support/testmain.h"

#include <QTest>

using namespace ramplight;

// The numbers start with 0: no maker of this world has such a number.
class TestVin : public QObject
{
    Q_OBJECT

private slots:
    void readVin_wellFormed_isNormalised_data()
    {
        QTest::addColumn<QString>("typed");
        QTest::addColumn<QString>("text");
        QTest::addColumn<QString>("checkDigit");
        // 17 ones: the weights add up to 89, and 89 is 8 times 11 and 1.
        QTest::newRow("ones") << "11111111111111111"
                              << "11111111111111111"
                              << "1";
        QTest::newRow("noughts") << "00000000000000000"
                                 << "00000000000000000"
                                 << "0";
        // Place 17 weighs 2: 2 times 5 leaves 10, which is written X.
        QTest::newRow("ten is X") << "00000000000000005"
                                  << "00000000000000005"
                                  << "X";
        // The worked example that goes round in print: the sum is 351, which leaves 10.
        QTest::newRow("worked example") << "1M8GDM9AXKP042788"
                                        << "1M8GDM9AXKP042788"
                                        << "X";
        QTest::newRow("small letters, blanks, hyphens") << " 0ra kb-12c0 de300417 "
                                                        << "0RAKB12C0DE300417"
                                                        << "1";
    }

    void readVin_wellFormed_isNormalised()
    {
        QFETCH(QString, typed);
        QFETCH(QString, text);
        QFETCH(QString, checkDigit);
        const auto vin = readVin(typed);
        QVERIFY(vin);
        QCOMPARE(vin->text, text);
        QCOMPARE(QString(vin->checkDigit), checkDigit);
    }

    void readVin_letter_weighsAsItsNumber_data()
    {
        QTest::addColumn<QChar>("letter");
        QTest::addColumn<int>("value");
        const QString letters = QStringLiteral("ABCDEFGHJKLMNPRSTUVWXYZ");
        const QList<int> values{1, 2, 3, 4, 5, 6, 7, 8, 1, 2, 3, 4,
                                5, 7, 9, 2, 3, 4, 5, 6, 7, 8, 9};
        QCOMPARE(letters.size(), values.size());
        for (qsizetype i = 0; i < letters.size(); ++i)
            QTest::newRow(qPrintable(QString(letters.at(i)))) << letters.at(i) << values.at(i);
    }

    void readVin_letter_weighsAsItsNumber()
    {
        QFETCH(QChar, letter);
        QFETCH(int, value);
        // Place 1 weighs 8, all else is 0.
        const auto vin = readVin(letter + QString(16, QLatin1Char('0')));
        QVERIFY(vin);
        const int rest = 8 * value % 11;
        QCOMPARE(vin->checkDigit, rest == 10 ? QChar('X') : QChar('0' + rest));
    }

    void readVin_malformed_saysWhat_data()
    {
        QTest::addColumn<QString>("typed");
        QTest::addColumn<int>("problem");
        QTest::addColumn<int>("position");
        QTest::addColumn<QString>("said");
        const auto row = [](const char* name, const char* typed, VinProblem problem, int position,
                            const char* said) {
            QTest::newRow(name) << QString::fromUtf8(typed) << static_cast<int>(problem) << position
                                << QString::fromUtf8(said);
        };
        row("nothing", "", VinProblem::Empty, 0, "missing");
        row("blanks", "  - ", VinProblem::Empty, 0, "missing");
        row("short", "0RAKB12C0DE30041", VinProblem::Length, 16, "this one has 16");
        row("long", "0RAKB12C0DE3004170", VinProblem::Length, 18, "this one has 18");
        row("letter I", "0RAKI12C0DE300417", VinProblem::Character, 5, "\"I\"");
        row("letter O", "ORAKB12C0DE300417", VinProblem::Character, 1, "\"O\"");
        row("letter q", "0RAKB12C0DE30041q", VinProblem::Character, 17, "\"Q\"");
        row("umlaut", "0RAKÜ12C0DE300417", VinProblem::Character, 5, "without I, O and Q");
        row("foreign digit", "0RAKB12C0DE30041٣", VinProblem::Character, 17, "digits");
        row("letter among the last four", "0RAKB12C0DE30A417", VinProblem::SerialEnd, 14,
            "last four");
    }

    void readVin_malformed_saysWhat()
    {
        QFETCH(QString, typed);
        QFETCH(int, problem);
        QFETCH(int, position);
        QFETCH(QString, said);
        const auto vin = readVin(typed);
        QVERIFY(!vin);
        QCOMPARE(static_cast<int>(vin.error().problem), problem);
        QCOMPARE(vin.error().position, position);
        QVERIFY2(words(vin.error()).contains(said), qPrintable(words(vin.error())));
    }

    void readVin_sections_areThoseOfTheStandards()
    {
        const auto vin = readVin(QStringLiteral("1M8GDM9AXKP042788"));
        QVERIFY(vin);
        QCOMPARE(vin->maker(), QStringLiteral("1M8"));
        QCOMPARE(vin->description(), QStringLiteral("GDM9AX"));
        QCOMPARE(vin->indicator(), QStringLiteral("KP042788"));
        QVERIFY(vin->fromWhereItIsARule());
        QVERIFY(!readVin(QStringLiteral("0RAKB12C0DE300417"))->fromWhereItIsARule());
    }

    void checkDigitNote_disagreeing_isOnlyANote()
    {
        const auto vin = readVin(QStringLiteral("0RAKB12C9DE300417"));
        QVERIFY(vin);
        QVERIFY(!vin->checkDigitAgrees());
        QVERIFY(checkDigitNote(*vin).contains(QStringLiteral("is 9 and would be")));
        QVERIFY(checkDigitNote(*vin).contains(QStringLiteral("Many markets use none")));
        // Where the maker's number comes from a country that has the rule, it says so.
        const auto ruled = readVin(QStringLiteral("11111111911111111"));
        QVERIFY(checkDigitNote(*ruled).contains(QStringLiteral("is 9 and would be 1")));
        QVERIFY(checkDigitNote(*ruled).contains(QStringLiteral("it may be misread")));
        const auto agreeing = readVin(QStringLiteral("11111111111111111"));
        QVERIFY(agreeing->checkDigitAgrees());
        QVERIFY(checkDigitNote(*agreeing).isEmpty());
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestVin)
#include "tst_vin.moc"
