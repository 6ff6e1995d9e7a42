// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "samples.h"

#include "appraisal/schemacheck.h"
#include "domain/valuefaults.h"

#include <QJsonDocument>
#include <QJsonObject>
#include <QTest>

#include <algorithm>

using namespace ramplight;
using namespace ramplight::test;

class TestAppraisalFaults : public QObject
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

    // What the domain would refuse without a word about the file is told by its line.
    void bounds_areThoseOfTheDomain_data()
    {
        using Takes = bool (*)(int);
        QTest::addColumn<QString>("of");
        QTest::addColumn<QString>("field");
        QTest::addColumn<Takes>("takes");
        const auto row = [](const char* of, const char* field, Takes takes) {
            QTest::addRow("%s, %s", of, field)
                << QString::fromLatin1(of) << QString::fromLatin1(field) << takes;
        };
        row("car", "keys", [](int value) {
            CarFacts facts;
            facts.keys = value;
            return !factsFault(facts);
        });
        row("car", "test_certificate_months", [](int value) {
            CarFacts facts;
            facts.testCertificateMonths = value;
            return !factsFault(facts);
        });
        row("finding", "count", [](int value) {
            FindingData data;
            data.place = PlaceId{QStringLiteral("bonnet")};
            data.count = value;
            return !findingFault(data);
        });
        row("finding", "size_mm", [](int value) {
            FindingData data;
            data.place = PlaceId{QStringLiteral("bonnet")};
            data.sizeMm = value;
            return !findingFault(data);
        });
        row("finding", "tread_tenths_mm", [](int value) {
            FindingData data;
            data.place = PlaceId{QStringLiteral("tyre-front-left")};
            data.treadTenthsMm = value;
            return !findingFault(data);
        });
        for (const char* field : {"inner_tenths_mm", "centre_tenths_mm", "outer_tenths_mm"})
            row("tyre", field, [](int value) { return !treadFault({value, 1, 1}); });
    }

    void bounds_areThoseOfTheDomain()
    {
        using Takes = bool (*)(int);
        QFETCH(QString, of);
        QFETCH(QString, field);
        QFETCH(Takes, takes);
        const QJsonObject bounds =
            QJsonDocument::fromJson(m_schema)
                .object()[QStringLiteral("definitions")][of][QStringLiteral("properties")][field]
                .toObject();
        QVERIFY(bounds.contains(QStringLiteral("maximum")));
        const int most = bounds[QStringLiteral("maximum")].toInt();
        const int least = bounds[QStringLiteral("minimum")].toInt();
        QVERIFY(takes(most));
        QVERIFY(!takes(most + 1));
        QVERIFY(takes(least));
        QVERIFY(!takes(least - 1));
    }

    void readAppraisal_spoiled_namesLineFieldAndExpectation_data()
    {
        QTest::addColumn<QByteArray>("from");
        QTest::addColumn<QByteArray>("to");
        QTest::addColumn<int>("line");
        QTest::addColumn<int>("column");
        QTest::addColumn<QString>("path");
        QTest::addColumn<QString>("expected");
        const auto row = [](const char* from, const char* to, int line, int column,
                            const char* path, const char* expected) {
            QTest::addRow("%s %s", path, expected)
                << QByteArray(from) << QByteArray(to) << line << column << QString::fromLatin1(path)
                << QString::fromUtf8(expected);
        };
        // What is not JSON.
        row("\"roof\", ", "\"roof\" ", 23, 20, "", "not JSON: Missing a comma or ']'");
        row("\"format\": 1,", "\"format\": 01,", 2, 14, "", "not JSON: Missing a comma or '}'");
        row("\"keys\": 2,", "keys: 2,", 13, 5, "", "not JSON: Missing a name for object member.");
        row("}\n  ]\n}", "}\n  ]\n} x", 28, 3, "",
            "not JSON: The document root must not be followed by other values.");
        row("Kestin", "Kes\xFFtin", 10, 18, "", "not JSON: Invalid encoding in string.");
        row("\"model\": ", "\"make\": ", 10, 5, "/car/make", "this field is there twice");
        // What the schema says.
        row("\"format\": 1", "\"format\": 2", 2, 3, "/format", "one of 1 was expected");
        row("\"appraiser\": \"Oda Brekk\"", "\"appraiser\": 7", 3, 3, "/appraiser",
            "a text was expected, not a whole number");
        row("\"Oda Brekk\"", "\"\"", 3, 3, "/appraiser", "a text was expected, not an empty one");
        row("2031-05-05", "5 May 2031", 4, 3, "/date",
            "a date like 2031-05-04 was expected, not \"5 May 2031\"");
        row("\"registration\"", "\"registraton\"", 7, 5, "/car/registraton",
            "this field is not known; nearest is \"registration\"");
        row("\"registration\"", "\"zzzzzzzzzzzzzzzz\"", 7, 5, "/car/zzzzzzzzzzzzzzzz",
            "this field is not known; known are stock_number, registration, vin, make, model, "
            "body_shape, colour, paint_code, odometer, keys, drive, facts, "
            "test_certificate_months, promised");
        row("    \"make\": \"Aurel\",\n", "", 5, 3, "/car/make",
            "this field is missing; a name, not blanks alone was expected");
        row("\"facts\": [\"valve-sensors\"],\n    \"promised\": \"2031-05-14\"",
            "\"facts\": [\"valve-sensors\"]", 5, 3, "/car/promised", "this field is missing");
        row("\"Aurel\"", "\"  \"", 9, 5, "/car/make", "a name, not blanks alone was expected");
        row("    \"body_shape\": \"hatch\",\n", "", 5, 3, "/car/body_shape",
            "this field is missing; one of hatch, saloon, estate, suv, coupe, convertible, van, "
            "pickup, mpv was expected");
        row("  \"appraiser\": \"Oda Brekk\",\n", "", 1, 1, "/appraiser",
            "this field is missing; a text was expected");
        row("\"hatch\"", "\"hatchback\"", 11, 5, "/car/body_shape",
            "\"hatchback\" is not known; one of hatch, saloon, estate, suv, coupe, convertible, "
            "van, pickup, mpv was expected; nearest is \"hatch\"");
        row("\"RL 2041\"", "\"RL_2041\"", 6, 5, "/car/stock_number",
            "letters, digits, blanks, hyphens and slashes was expected, not \"RL_2041\"");
        row("\"RL 2041\"", "\"RL 2041 2041 2041 2041\"", 6, 5, "/car/stock_number",
            "at most 20 characters were expected, not 22");
        row("48210", "\"48,210\"", 12, 18, "/car/odometer/value",
            "a whole number was expected, not a text");
        row("48210", "48210.5", 12, 18, "/car/odometer/value",
            "a whole number was expected, not a number");
        row("48210", "-1", 12, 18, "/car/odometer/value",
            "a number from 0 to 2000000 was expected, not -1");
        row("48210", "99999999999", 12, 18, "/car/odometer/value",
            "a number from 0 to 2000000 was expected, not 99999999999");
        row("\"mi\"", "\"miles\"", 12, 34, "/car/odometer/unit",
            "\"miles\" is not known; one of mi, km was expected");
        row("{\"value\": 48210, \"unit\": \"mi\"}", "48210", 12, 5, "/car/odometer",
            "an object was expected, not a whole number");
        row("\"valve-sensors\"", "\"valve-sensor\"", 15, 15, "/car/facts/0",
            "\"valve-sensor\" is not known; one of combustion-engine, traction-battery, "
            "screen-camera, front-radar, rear-radar, valve-sensors, run-flats, repair-kit, "
            "special-finish, electric-parking-brake, face-cut-wheels, leather-trim was "
            "expected; nearest is \"valve-sensors\"");
        row("\"bonnet\"", "\"bonnett\"", 19, 6, "/findings/0/place",
            "\"bonnett\" is not known; nearest is \"bonnet\"");
        row("\"bonnet\"", "3", 19, 6, "/findings/0/place",
            "a text was expected, not a whole number");
        row("\"chip\"", "\"chips\"", 19, 25, "/findings/0/condition",
            "\"chips\" is not known; nearest is \"chip\"");
        row("\"condition\": \"chip\", ", "", 19, 5, "/findings/0/condition",
            "this field is missing; one of the known words was expected");
        row("\"count\": 2", "\"count\": 0", 19, 46, "/findings/0/count",
            "a number from 1 to 999 was expected, not 0");
        row("\"count\": 2", "\"severity\": \"big\"", 19, 46, "/findings/0/severity",
            "\"big\" is not known; one of trace, light, moderate, heavy was expected");
        row("[\"replace\"]", "\"replace\"", 20, 56, "/findings/1/remedies",
            "a list was expected, not a text");
        row("[\"replace\"]", "[\"replace\", \"replace\"]", 20, 80, "/findings/1/remedies/1",
            "\"replace\" is there already, as entry 1");
        row("[\"roof\", \"horn\"]", "[\"roof\", \"roof\"]", 23, 21, "/sound/1",
            "\"roof\" is there already, as entry 1");
        row("{\"place\": \"bonnet\", \"condition\": \"chip\", \"count\": 2}", "null", 19, 5,
            "/findings/0", "an object was expected, not null");
        row("\"tyre-front-right\", \"inner", "\"wheel-front-right\", \"inner", 25, 6,
            "/tyres/0/place",
            "\"wheel-front-right\" is not known; one of tyre-front-left, tyre-rear-left, "
            "tyre-front-right, tyre-rear-right, spare-tyre was expected; nearest is "
            "\"tyre-front-right\"");
        row("\"inner_tenths_mm\": 22", "\"inner_tenths_mm\": 220", 25, 35,
            "/tyres/0/inner_tenths_mm", "a number from 0 to 200 was expected, not 220");
        // What it means.
        row("2031-05-14", "2031-02-30", 16, 5, "/car/promised",
            "a day of the calendar was expected, not \"2031-02-30\"");
        row("0RAKB12C1DE300417", "0RAKB12C1DE30041", 8, 5, "/car/vin",
            "An identification number has 17 characters; this one has 16.");
        row("0RAKB12C1DE300417", "ORAKB12C1DE300417", 8, 5, "/car/vin",
            "Character 1 is \"O\"; an identification number has digits and the letters A to Z "
            "without I, O and Q.");
        row("\"roof\", \"horn\"", "\"roof\", \"bonnet\"", 23, 21, "/sound/1",
            "a place without a finding was expected; there is one on \"bonnet\"");
        row("\"outer_tenths_mm\": 31}",
            "\"outer_tenths_mm\": 31},\n    {\"place\": \"tyre-front-right\", "
            "\"inner_tenths_mm\": 22, \"centre_tenths_mm\": 29, \"outer_tenths_mm\": 31}",
            27, 6, "/tyres/1/place", "\"tyre-front-right\" is measured above already");
        row("\"count\": 2", "\"tread_tenths_mm\": 20", 19, 46, "/findings/0/tread_tenths_mm",
            "a tread was expected on a tyre only, not on \"bonnet\"");
        row("\"petrol\",\n    \"facts\": [\"valve-sensors\"]",
            "\"battery-electric\",\n    \"facts\": [\"combustion-engine\"]", 15, 5, "/car/facts",
            "no combustion-engine was expected in a car whose drive is battery-electric");
    }

    void readAppraisal_spoiled_namesLineFieldAndExpectation()
    {
        QFETCH(QByteArray, from);
        QFETCH(QByteArray, to);
        QFETCH(int, line);
        QFETCH(int, column);
        QFETCH(QString, path);
        QFETCH(QString, expected);
        QByteArray json = sample();
        QCOMPARE(json.count(from), 1);
        json.replace(from, to);
        const auto file = readAppraisal(json, m_schema);
        QVERIFY(!file);
        const auto fault =
            std::ranges::find_if(file.error(), [&](const FileFault& f) { return f.path == path; });
        QVERIFY2(fault != file.error().end(), qPrintable(allWords(file.error())));
        QVERIFY2(fault->expected.startsWith(expected), qPrintable(fault->expected));
        QCOMPARE(fault->line, line);
        QCOMPARE(fault->column, column);
        QVERIFY(
            fault->words.startsWith(QStringLiteral("line %1, column %2: ").arg(line).arg(column)));
        QVERIFY(fault->words.endsWith(fault->expected));
    }

    void readAppraisal_severalFaults_areAllListedInOrder()
    {
        QByteArray json = sample();
        json.replace("\"chip\"", "\"chipp\"");
        json.replace("\"hatch\"", "\"hatchback\"");
        json.replace("0RAKB12C1DE300417", "short");
        json.replace("\"horn\"", "\"hornn\"");
        const auto file = readAppraisal(json, m_schema);
        QVERIFY(!file);
        QStringList paths;
        for (const FileFault& fault : file.error())
            paths.append(fault.path);
        QCOMPARE(paths,
                 (QStringList{"/car/vin", "/car/body_shape", "/findings/0/condition", "/sound/1"}));
    }

    void readAppraisal_manyFaults_stopAtTwenty()
    {
        QByteArray extra;
        for (int i = 0; i < 50; ++i)
            extra += ", {\"place\": \"nowhere\", \"condition\": \"chip\"}";
        const auto file =
            readAppraisal(sample().replace("\"count\": 2}", "\"count\": 2}" + extra), m_schema);
        QVERIFY(!file);
        QCOMPARE(file.error().size(), maxAppraisalFaults);
    }

    void readAppraisal_columns_countCharacters()
    {
        // Two bytes each in UTF-8, one character to the reader.
        const auto file = readAppraisal(
            sample().replace("{\"place\": \"bonnet\", \"condition\": \"chip\"",
                             "{\"note\": \"äöü\", \"place\": \"bonnet\", \"condition\": \"chipp\""),
            m_schema);
        QVERIFY(!file);
        QCOMPARE(file.error().at(0).line, 19);
        QCOMPARE(file.error().at(0).column, 40);
    }

    void readAppraisal_notAFileOfOurs_isRefused_data()
    {
        QTest::addColumn<QByteArray>("bytes");
        QTest::addColumn<QString>("said");
        QTest::newRow("empty") << QByteArray()
                               << QStringLiteral(
                                      "line 1, column 1: not JSON: The document is empty.");
        QTest::newRow("list") << QByteArray("[]")
                              << QStringLiteral(
                                     "line 1, column 1: an object was expected, not a list");
        QTest::newRow("text") << QByteArray("\"car\"")
                              << QStringLiteral(
                                     "line 1, column 1: an object was expected, not a text");
        QTest::newRow("too large") << QByteArray(maxAppraisalBytes + 1, ' ')
                                   << QStringLiteral("a file of at most 8 MB was expected");
        QTest::newRow("UTF-16") << QByteArray("\xFF\xFE{\0}\0", 6)
                                << QStringLiteral("text in UTF-8 was expected");
        QTest::newRow("nested without end")
            << QByteArray(1'000'000, '[')
            << QStringLiteral("line 1, column 33: lists and objects nested at most 32 deep were "
                              "expected");
        QTest::newRow("double keys inside")
            << QByteArray("{\"a\": {\"b\": 1, \"b\": 2}}")
            << QStringLiteral("line 1, column 16: a, b: this field is there twice");
    }

    void readAppraisal_notAFileOfOurs_isRefused()
    {
        QFETCH(QByteArray, bytes);
        QFETCH(QString, said);
        const auto file = readAppraisal(bytes, m_schema);
        QVERIFY(!file);
        QCOMPARE(file.error().at(0).words, said);
    }

    void readAppraisal_hostileFile_endsSoon()
    {
        // Half a million unknown fields: the answer is as short as for twenty.
        QByteArray json("{");
        for (int i = 0; i < 500'000; ++i)
            json += "\"k" + QByteArray::number(i) + "\":0,";
        json += "\"z\":0}";
        const auto file = readAppraisal(json, m_schema);
        QVERIFY(!file);
        QCOMPARE(file.error().size(), maxAppraisalFaults);
    }

    void readAppraisal_cutOff_neverTakesHalf()
    {
        const QByteArray json = sample();
        for (qsizetype length = 0; length < json.size() - 1; ++length)
            QVERIFY2(!readAppraisal(json.left(length), m_schema),
                     qPrintable(QString::number(length)));
    }

    void schema_ownCheckAndLibrary_agree_data()
    {
        readAppraisal_spoiled_namesLineFieldAndExpectation_data();
    }

    void schema_ownCheckAndLibrary_agree()
    {
        QFETCH(QByteArray, from);
        QFETCH(QByteArray, to);
        QFETCH(QString, path);
        if (path.isEmpty())
            return;
        const QByteArray json = sample().replace(from, to);
        rapidjson::Document schema;
        schema.Parse(m_schema.constData());
        rapidjson::Document document;
        document.Parse(json.constData());
        QVERIFY(!document.HasParseError());
        const bool ours = checkAgainstSchema(document, schema).empty();
        QCOMPARE(ours, libraryVerdict(json, m_schema) == "good");
    }
};

QTEST_GUILESS_MAIN(TestAppraisalFaults)
#include "tst_appraisalfaults.moc"
