// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "access/pinpolicy.h"
#include "support/testmain.h"

#include <QTest>

#include <optional>

using namespace ramplight;

class TestPinPolicy : public QObject
{
    Q_OBJECT

private slots:
    void checkNewPin_data()
    {
        QTest::addColumn<int>("digits");
        QTest::addColumn<QByteArray>("pin");
        QTest::addColumn<std::optional<AccessError>>("refusal");
        const auto row = [](const char* name, int digits, const QByteArray& pin,
                            std::optional<AccessError> refusal) {
            QTest::newRow(name) << digits << pin << refusal;
        };
        using enum AccessError;
        row("good", 6, "481957", std::nullopt);
        row("good, double digits", 6, "448811", std::nullopt);
        row("good, nearly a run", 6, "123457", std::nullopt);
        row("good, nearly all the same", 6, "111112", std::nullopt);
        row("good, mirrored", 6, "481184", std::nullopt);
        row("good, run by twos", 6, "135792", std::nullopt);
        row("good, four digits by setting", 4, "4819", std::nullopt);
        row("good, eight digits by setting", 8, "48195702", std::nullopt);
        row("empty", 6, "", PinWrongLength);
        row("one short", 6, "48195", PinWrongLength);
        row("one long", 6, "4819570", PinWrongLength);
        row("six where eight are asked", 8, "481957", PinWrongLength);
        row("letter", 6, "48195a", PinNotDigits);
        row("space", 6, "4819 7", PinNotDigits);
        row("sign", 6, "-48195", PinNotDigits);
        row("zero byte", 6,
            QByteArray("4819\x00"
                       "7",
                       6),
            PinNotDigits);
        row("digits of another script", 6, QByteArray("٤٨١٩٥٧"), PinNotDigits);
        row("all zeros", 6, "000000", PinAllSame);
        row("all nines", 6, "999999", PinAllSame);
        row("run up", 6, "123456", PinStraightRun);
        row("run up from zero", 6, "012345", PinStraightRun);
        row("run up through nine", 6, "789012", PinStraightRun);
        row("run down", 6, "987654", PinStraightRun);
        row("run down through zero", 6, "210987", PinStraightRun);
        row("pair repeated", 6, "121212", PinRepeats);
        row("three repeated", 6, "481481", PinRepeats);
        row("four repeated", 8, "48194819", PinRepeats);
    }

    void checkNewPin()
    {
        QFETCH(int, digits);
        QFETCH(QByteArray, pin);
        QFETCH(std::optional<AccessError>, refusal);
        const auto answer = ramplight::checkNewPin({.digits = digits}, Secret(pin));
        QCOMPARE(answer ? std::nullopt : std::optional(answer.error()), refusal);
        if (refusal)
            QVERIFY(!words(*refusal).isEmpty());
    }

    void words_nameTheDigits()
    {
        QVERIFY(words(PinPolicy{}).startsWith(QStringLiteral("6 ")));
        QVERIFY(words(PinPolicy{.digits = 8}).startsWith(QStringLiteral("8 ")));
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestPinPolicy)
#include "tst_pinpolicy.moc"
