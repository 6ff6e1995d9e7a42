// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "samples.h"

#include "domain/vocabulary.h"

#include <QCryptographicHash>
#include <QDir>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

class TestAppraisalFile : public QObject
{
    Q_OBJECT

private:
    QByteArray m_schema;

private slots:
    void initTestCase()
    {
        m_schema = bytesOf(QStringLiteral("schema/appraisal.schema.json"));
        QVERIFY(!m_schema.isEmpty());
    }

    void readAppraisal_goodFile_isTakenWhole()
    {
        const auto file = readAppraisal(sample(), m_schema);
        QVERIFY2(file, qPrintable(file ? QString() : allWords(file.error())));
        QCOMPARE(file->identity.stockNumber, QStringLiteral("RL 2041"));
        QCOMPARE(file->identity.registration, QStringLiteral("RL 4172 K"));
        QCOMPARE(file->identity.vin, QStringLiteral("0RAKB12C1DE300417"));
        QCOMPARE(file->identity.make, QStringLiteral("Aurel"));
        QCOMPARE(file->identity.shape, BodyShape::Hatch);
        QCOMPARE(file->facts.odometer, 48210);
        QCOMPARE(file->facts.odometerUnit, DistanceUnit::Miles);
        QCOMPARE(file->facts.keys, 2);
        QCOMPARE(file->facts.has, (std::vector{Fact::ValveSensors, Fact::CombustionEngine}));
        QVERIFY(!file->facts.testCertificateMonths);
        QCOMPARE(file->promised, QDate(2031, 5, 14));
        QCOMPARE(file->appraiser, QStringLiteral("Oda Brekk"));
        QCOMPARE(file->date, QDate(2031, 5, 5));
        QCOMPARE(file->findings.size(), std::size_t{2});
        QCOMPARE(file->findings.at(0).place.text, QStringLiteral("bonnet"));
        QCOMPARE(file->findings.at(0).condition, Condition::Chip);
        QCOMPARE(file->findings.at(0).count, std::optional(2));
        QVERIFY(!file->findings.at(0).severity);
        QCOMPARE(file->findings.at(1).remedies, std::vector{Remedy::Replace});
        QCOMPARE(file->findings.at(1).treadTenthsMm, std::optional(22));
        QCOMPARE(file->sound.size(), std::size_t{2});
        QCOMPARE(file->tyres.size(), std::size_t{1});
        QCOMPARE(file->tyres.at(0).tread.lowest(), 22);
        QCOMPARE(file->tyres.at(0).tread.outer, 31);
        QCOMPARE(file->notes, QStringList());
        QCOMPARE(file->hash,
                 QString::fromLatin1(
                     QCryptographicHash::hash(sample(), QCryptographicHash::Sha256).toHex()));
    }

    void readAppraisal_byteOrderMark_isTolerated()
    {
        const auto file = readAppraisal("\xEF\xBB\xBF" + sample(), m_schema);
        QVERIFY(file);
        auto broken = sample().replace("\"chip\"", "\"chipp\"");
        const auto faults = readAppraisal("\xEF\xBB\xBF" + broken, m_schema);
        QVERIFY(!faults);
        QCOMPARE(faults.error().at(0).line, 19);
    }

    void readAppraisal_vinInSmallLetters_isNormalised()
    {
        const auto file =
            readAppraisal(sample().replace("0RAKB12C1DE300417", "0rakb 12c1d-e300417"), m_schema);
        QVERIFY(file);
        QCOMPARE(file->identity.vin, QStringLiteral("0RAKB12C1DE300417"));
    }

    void readAppraisal_checkDigitDisagrees_isANote()
    {
        const auto file =
            readAppraisal(sample().replace("0RAKB12C1DE300417", "0RAKB12C7DE300417"), m_schema);
        QVERIFY(file);
        QCOMPARE(file->notes.size(), 1);
        QVERIFY(file->notes.first().contains(QStringLiteral("Many markets use none")));
    }

    void readAppraisal_drive_bringsItsFacts_data()
    {
        QTest::addColumn<QByteArray>("drive");
        QTest::addColumn<bool>("traction");
        QTest::addColumn<bool>("combustion");
        QTest::newRow("diesel") << QByteArray("diesel") << false << true;
        QTest::newRow("mild-hybrid") << QByteArray("mild-hybrid") << false << true;
        QTest::newRow("hybrid") << QByteArray("hybrid") << true << true;
        QTest::newRow("plug-in-hybrid") << QByteArray("plug-in-hybrid") << true << true;
        QTest::newRow("battery-electric") << QByteArray("battery-electric") << true << false;
        QTest::newRow("hydrogen") << QByteArray("hydrogen") << true << false;
        QTest::newRow("gas") << QByteArray("gas") << false << true;
    }

    void readAppraisal_drive_bringsItsFacts()
    {
        QFETCH(QByteArray, drive);
        QFETCH(bool, traction);
        QFETCH(bool, combustion);
        const auto file =
            readAppraisal(sample().replace("\"petrol\"", '"' + drive + '"'), m_schema);
        QVERIFY(file);
        QCOMPARE(file->facts.is(Fact::TractionBattery), traction);
        QCOMPARE(file->facts.is(Fact::CombustionEngine), combustion);
    }

    void readAppraisal_withoutSchema_saysSo()
    {
        for (const char* schema : {"", "[]", "{"}) {
            const auto file = readAppraisal(sample(), schema);
            QVERIFY(!file);
            QCOMPARE(file.error().at(0).words,
                     QStringLiteral("the schema of appraisal files was expected with the program"));
        }
    }

    void schema_words_areThoseOfTheDomain()
    {
        const QJsonObject schema = QJsonDocument::fromJson(m_schema).object();
        const QJsonObject definitions = schema.value("definitions").toObject();
        const auto wordsOf = [](const QJsonValue& value) {
            QStringList words;
            for (const QJsonValue& word : value.toObject().value("enum").toArray())
                words.append(word.toString());
            return words;
        };
        const auto namesOf = []<class E>(E) {
            QStringList words;
            for (const auto& [value, name] : Names<E>::table)
                words.append(QLatin1StringView(name));
            return words;
        };
        QStringList places;
        QStringList tyres;
        for (const PlaceInfo& info : allPlaces()) {
            places.append(info.id.text);
            if (info.kind == PlaceKind::Tyre)
                tyres.append(info.id.text);
        }
        QCOMPARE(wordsOf(definitions.value("place")), places);
        const QJsonObject finding =
            definitions.value("finding").toObject().value("properties").toObject();
        QCOMPARE(wordsOf(finding.value("condition")), namesOf(Condition{}));
        QCOMPARE(wordsOf(finding.value("severity")), namesOf(Severity{}));
        QCOMPARE(wordsOf(finding.value("remedies").toObject().value("items")), namesOf(Remedy{}));
        const QJsonObject car = definitions.value("car").toObject().value("properties").toObject();
        QCOMPARE(wordsOf(car.value("body_shape")), namesOf(BodyShape{}));
        QCOMPARE(wordsOf(car.value("drive")), namesOf(Drive{}));
        QCOMPARE(wordsOf(car.value("facts").toObject().value("items")), namesOf(Fact{}));
        QCOMPARE(
            wordsOf(car.value("odometer").toObject().value("properties").toObject().value("unit")),
            namesOf(DistanceUnit{}));
        const QJsonObject tyre =
            definitions.value("tyre").toObject().value("properties").toObject();
        QCOMPARE(wordsOf(tyre.value("place")), tyres);
    }

    void schema_catalogue_acceptsTheShippedOne()
    {
        const QByteArray schema = bytesOf(QStringLiteral("schema/catalogue.schema.json"));
        const QByteArray catalogue = bytesOf(QStringLiteral("catalogue/operations.json"));
        QCOMPARE(libraryVerdict(catalogue, schema), QByteArray("good"));
        QCOMPARE(libraryVerdict(QByteArray(catalogue).replace("\"usual\": 105", "\"usual\": \"x\""),
                                schema),
                 QByteArray("type"));
        QVERIFY(libraryVerdict(QByteArray(catalogue).replace("\"standingLine\"", "\"standing\""),
                               schema) != "good");
    }

    void demo_appraisals_areGood_data()
    {
        QTest::addColumn<QString>("name");
        const QDir dir(QStringLiteral(RAMPLIGHT_SOURCE_DIR "/db/demo/appraisals"));
        const QStringList names = dir.entryList({QStringLiteral("*.json")}, QDir::Files);
        QVERIFY(names.size() >= 4);
        for (const QString& name : names)
            QTest::newRow(qPrintable(name)) << name;
    }

    void demo_appraisals_areGood()
    {
        QFETCH(QString, name);
        const auto file =
            readAppraisal(bytesOf(QStringLiteral("demo/appraisals/") + name), m_schema);
        QVERIFY2(file, qPrintable(file ? QString() : allWords(file.error())));
        QCOMPARE(file->notes, QStringList());
        QVERIFY(file->findings.size() >= 6);
        QCOMPARE(file->tyres.size(), std::size_t{4});
        // No maker's number starts with 0, no authority issues such marks.
        QVERIFY(file->identity.vin.startsWith('0'));
        QVERIFY(file->identity.registration.startsWith("RL "));
    }
};

QTEST_GUILESS_MAIN(TestAppraisalFile)
#include "tst_appraisalfile.moc"
