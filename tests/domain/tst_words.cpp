// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/catalogue.h"
#include "domain/findingdata.h"
#include "domain/houserules.h"
#include "domain/words.h"
#include "support/testmain.h"

#include <QTest>

using namespace ramplight;

// Words that are put together.
class TestWords : public QObject
{
    Q_OBJECT

private slots:
    void answerInWords_hasNoLimit_numberWithoutOneIsNoted()
    {
        ReadingSpec spec;
        spec.kind = ReadingKind::Record;
        QCOMPARE(limitWords(spec, {}), QStringLiteral("no limit: noted only"));
        for (const ReadingKind kind : {ReadingKind::Choice, ReadingKind::Text}) {
            spec.kind = kind;
            QCOMPARE(limitWords(spec, {}), QString());
        }
    }

    void finding_isCounted_fromTwoOn()
    {
        FindingData data;
        data.place = PlaceId{QStringLiteral("bonnet")};
        data.condition = Condition::Dent;
        data.severity = Severity::Light;
        data.sizeMm = 20;
        data.count = 1;
        QCOMPARE(findingWords(data, {}), QStringLiteral("Bonnet: dent, light, 20 mm"));
        data.count = 3;
        QCOMPARE(findingWords(data, {}), QStringLiteral("Bonnet: dent, light, 3 of them, 20 mm"));
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestWords)
#include "tst_words.moc"
