// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "appraisal/schemacheck.h"
#include "appraisal/spoken/reading.h"

#include <rapidjson/document.h>

#include <QDir>
#include <QFile>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QTest>

#include <algorithm>

using namespace ramplight;

namespace {

QByteArray bytesOf(const QString& path)
{
    QFile file(QStringLiteral(RAMPLIGHT_SOURCE_DIR "/") + path);
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
}

const spoken::Lexicon& lexicon(const QString& language)
{
    static std::map<QString, spoken::Lexicon> known;
    const auto it = known.find(language);
    if (it != known.end())
        return it->second;
    auto read =
        spoken::Lexicon::read(bytesOf(QStringLiteral("assets/lexicon/%1.json").arg(language)));
    if (!read)
        qFatal("%s", qPrintable(read.error()));
    return known.emplace(language, std::move(*read)).first->second;
}

/// "bonnet chip touch-in; tyre-front-left 40-50; ok roof" of what was read, each sorted.
QString told(const SpokenReading& reading)
{
    QStringList parts;
    for (const SpokenFinding& it : reading.findings) {
        QStringList work;
        for (const Remedy remedy : it.remedies)
            work << nameOf(remedy);
        work.sort();
        parts << (it.place.text + QLatin1Char(' ') + nameOf(it.condition) + QLatin1Char(' ') +
                  work.join(QLatin1Char('+')))
                     .trimmed();
    }
    for (const SpokenTread& it : reading.treads)
        parts << QStringLiteral("%1 %2-%3")
                     .arg(it.place.text)
                     .arg(it.lowTenthsMm)
                     .arg(it.highTenthsMm);
    for (const PlaceId& place : reading.sound)
        parts << QStringLiteral("ok ") + place.text;
    parts.sort();
    return parts.join(QStringLiteral("; "));
}

QString sorted(const QString& wanted)
{
    QStringList parts = wanted.split(QLatin1Char(';'), Qt::SkipEmptyParts);
    for (QString& part : parts)
        part = part.simplified();
    parts.sort();
    return parts.join(QStringLiteral("; "));
}

struct Score
{
    int hit = 0;
    int gold = 0;
    int got = 0;
    int remedies = 0;
    int treads = 0;
    int treadsWanted = 0;
    int soundHit = 0;
    int soundGold = 0;
    int soundGot = 0;

    double f1() const { return 2.0 * hit / std::max(1, gold + got); }
    double soundF1() const { return 2.0 * soundHit / std::max(1, soundGold + soundGot); }
};

QStringList texts(const QJsonValue& value)
{
    QStringList list;
    if (value.isString())
        return {value.toString()};
    for (const QJsonValue& one : value.toArray())
        list << one.toString();
    list.sort();
    return list;
}

void compare(const QJsonObject& gold, const SpokenReading& reading, Score& score)
{
    std::vector<const SpokenFinding*> left;
    for (const SpokenFinding& it : reading.findings)
        left.push_back(&it);
    score.got += int(left.size());
    for (const QJsonValue& value : gold[QStringLiteral("findings")].toArray()) {
        const QJsonObject label = value.toObject();
        const QStringList conditions = texts(label[QStringLiteral("condition")]);
        ++score.gold;
        const auto it = std::ranges::find_if(left, [&](const SpokenFinding* one) {
            return one->place.text == label[QStringLiteral("place")].toString() &&
                   conditions.contains(nameOf(one->condition));
        });
        if (it == left.end())
            continue;
        ++score.hit;
        QStringList work;
        for (const Remedy remedy : (*it)->remedies)
            work << nameOf(remedy);
        work.sort();
        score.remedies += work == texts(label[QStringLiteral("remedies")]) ? 1 : 0;
        left.erase(it);
    }
    for (const QJsonValue& value : gold[QStringLiteral("tyres")].toArray()) {
        const QJsonObject label = value.toObject();
        ++score.treadsWanted;
        for (const SpokenTread& it : reading.treads)
            score.treads += it.place.text == label[QStringLiteral("place")].toString() &&
                                    it.lowTenthsMm == label[QStringLiteral("low")].toInt() &&
                                    it.highTenthsMm == label[QStringLiteral("high")].toInt()
                                ? 1
                                : 0;
    }
    const QStringList sound = texts(gold[QStringLiteral("sound")]);
    score.soundGold += int(sound.size());
    score.soundGot += int(reading.sound.size());
    for (const PlaceId& place : reading.sound)
        score.soundHit += sound.contains(place.text) ? 1 : 0;
}

/// The texts that the reader learned from.
std::vector<std::pair<QString, QJsonObject>> labelledTexts()
{
    std::vector<std::pair<QString, QJsonObject>> all;
    const QDir folder(QStringLiteral(RAMPLIGHT_SOURCE_DIR "/tests/appraisal/spoken"));
    for (const QString& name : folder.entryList({QStringLiteral("*.gold.json")}, QDir::Files)) {
        const QString stem = name.chopped(int(qstrlen(".gold.json")));
        for (const char* kind : {".vtt", ".srt", ".txt"}) {
            const QString path =
                QStringLiteral("tests/appraisal/spoken/") + stem + QLatin1String(kind);
            if (QFile::exists(QStringLiteral(RAMPLIGHT_SOURCE_DIR "/") + path))
                all.emplace_back(path,
                                 QJsonDocument::fromJson(
                                     bytesOf(QStringLiteral("tests/appraisal/spoken/") + name))
                                     .object());
        }
    }
    return all;
}

} // namespace

class TestWalkRoundReading : public QObject
{
    Q_OBJECT

private:
    static SpokenReading read(const QByteArray& text, const QStringList& options,
                              const QString& language = QStringLiteral("en"))
    {
        const auto transcript = parseTranscript(text);
        if (!transcript)
            return {};
        return readSpeech(*transcript, lexicon(language),
                          options.contains(QStringLiteral("right")) ? Traffic::Right
                                                                    : Traffic::Left);
    }

private slots:
    // phrases-*.txt: "# phenomenon", "phrase => what comes of it"; [right] in front turns the
    // traffic.
    void phrase_data()
    {
        QTest::addColumn<QString>("language");
        QTest::addColumn<QString>("phrase");
        QTest::addColumn<QString>("wanted");
        for (const char* language : {"en", "de"}) {
            QString heading;
            int line = 0;
            const QString path =
                QStringLiteral("tests/appraisal/phrases-%1.txt").arg(QLatin1String(language));
            const QString all = QString::fromUtf8(bytesOf(path));
            QVERIFY2(!all.isEmpty(), qPrintable(path));
            for (const QString& row : all.split(QLatin1Char('\n'))) {
                ++line;
                if (row.startsWith(QLatin1Char('#')))
                    heading = row.mid(1).trimmed();
                const qsizetype arrow = row.indexOf(QLatin1String(" => "));
                if (arrow < 0)
                    continue;
                QTest::addRow("%s %d: %s", language, line, qPrintable(heading))
                    << QString::fromLatin1(language) << row.left(arrow) << row.mid(arrow + 4);
            }
        }
    }
    void phrase()
    {
        QFETCH(QString, language);
        QFETCH(QString, phrase);
        QFETCH(QString, wanted);
        QStringList options;
        if (phrase.startsWith(QLatin1String("[right] "))) {
            options << QStringLiteral("right");
            phrase = phrase.mid(8);
        }
        const SpokenReading reading = read(phrase.toUtf8(), options, language);
        QCOMPARE(told(reading), sorted(wanted == QLatin1String("-") ? QString() : wanted));
    }

    void facts()
    {
        const SpokenFacts facts =
            read("Sixty thousand, sorry, sixty one thousand four hundred and two miles. Three "
                 "keys. Seven months MOT, nine stamps in the book and two owners.",
                 {})
                .facts;
        QCOMPARE(facts.odometer, 61402);
        QCOMPARE(facts.odometerUnit, DistanceUnit::Miles);
        QCOMPARE(facts.keys, 3);
        QCOMPARE(facts.testMonths, 7);
        QCOMPARE(facts.serviceStamps, 9);
        QCOMPARE(facts.owners, 2);
    }

    void finding_keepsItsWordsAndMoment()
    {
        const SpokenReading reading =
            read("WEBVTT\n\n00:10.000 --> 00:12.000\nRoof's fine.\n\n00:20.000 --> 00:24.000\n"
                 "Bonnet, two chips, touch in.\n",
                 {});
        QCOMPARE(reading.findings.size(), 1U);
        const SpokenFinding& finding = reading.findings.front();
        QCOMPARE(QString::fromStdString(finding.quote),
                 QStringLiteral("Bonnet, two chips, touch in"));
        QCOMPARE(finding.count, 2);
        QVERIFY(finding.seconds >= 20 && finding.seconds < 24);
        QVERIFY(finding.confidence > 0.5 && finding.confidence < 1);
    }

    void notMentioned_namesWhatWasNeverSpokenOf()
    {
        const SpokenReading reading = read("Roof fine. Bonnet, chips, paint.", {});
        const auto has = [&](const char* place) {
            return std::ranges::find(reading.notMentioned, PlaceId{QString::fromLatin1(place)}) !=
                   reading.notMentioned.end();
        };
        QVERIFY(has("windscreen"));
        QVERIFY(!has("roof"));
        QVERIFY(!has("bonnet"));
    }

    void json_hasTheKeysOfTheContract()
    {
        const auto json =
            QJsonDocument::fromJson(readingJson(read("[0:05] Roof, dent, small one. Front tyre 4 "
                                                     "mil. Boot's fine. Two keys.",
                                                     {})))
                .object();
        QCOMPARE(json.keys(),
                 QStringList({"facts", "findings", "format", "not_mentioned", "sound", "tyres"}));
        const QJsonObject finding = json["findings"].toArray().first().toObject();
        QCOMPARE(finding.keys(), QStringList({"at", "condition", "confidence", "count", "place",
                                              "quote", "remedies", "severity"}));
        QCOMPARE(json["facts"].toObject()["keys"].toInt(), 2);
    }

    // A floor, a little under what is reached: a change of the reader that costs more is seen.
    void labelledTexts_areReadAsGoodAsEver()
    {
        const auto all = labelledTexts();
        QVERIFY(all.size() >= 88);
        Score score;
        for (const auto& [path, gold] : all)
            compare(gold, read(bytesOf(path), texts(gold[QStringLiteral("args")])), score);
        const double remedies = double(score.remedies) / std::max(1, score.hit);
        const double treads = double(score.treads) / std::max(1, score.treadsWanted);
        qInfo("findings F1 %.3f, remedies %.3f, treads %.3f, sound F1 %.3f", score.f1(), remedies,
              treads, score.soundF1());
        QVERIFY(score.f1() >= 0.96);
        QVERIFY(remedies >= 0.945);
        QVERIFY(treads >= 0.95);
        QVERIFY(score.soundF1() >= 0.945);
    }

    void lexicons_fitTheirSchema_data()
    {
        QTest::addColumn<QString>("path");
        QTest::newRow("en") << QStringLiteral("assets/lexicon/en.json");
        QTest::newRow("de") << QStringLiteral("assets/lexicon/de.json");
    }
    void lexicons_fitTheirSchema()
    {
        QFETCH(QString, path);
        rapidjson::Document schema;
        schema.Parse(bytesOf(QStringLiteral("db/schema/lexicon.schema.json")).constData());
        QVERIFY(!schema.HasParseError());
        rapidjson::Document lexicon;
        lexicon.Parse(bytesOf(path).constData());
        QVERIFY(!lexicon.HasParseError());
        const auto faults = checkAgainstSchema(lexicon, schema);
        QVERIFY2(faults.empty(),
                 faults.empty() ? "" : qPrintable(faults.front().path + faults.front().expected));
    }

    void lexicon_thatDoesNotAgree_isRefused_data()
    {
        QTest::addColumn<QByteArray>("json");
        const QByteArray rest(R"(,"conditions":[],"remedies":[]})");
        QTest::newRow("no json") << QByteArray("nothing");
        QTest::newRow("no bases") << QByteArray(R"({"conditions":[]})");
        QTest::newRow("unknown place")
            << R"({"bases":[{"base":"a","kind":"body","places":{"moon-roof":""}}])" + rest;
        QTest::newRow("unknown base")
            << R"({"bases":[{"base":"a","kind":"body","places":{"roof":""},"atRear":"b"}])" + rest;
        QTest::newRow("base without a name") << R"({"bases":[{"kind":"body"}])" + rest;
        QTest::newRow("unknown condition")
            << QByteArray(R"({"bases":[],"conditions":[{"id":"sad"}],"remedies":[]})");
        QTest::newRow("unknown cue") << R"({"bases":[],"cues":{"sigh":["oh"]})" + rest;
    }
    void lexicon_thatDoesNotAgree_isRefused()
    {
        QFETCH(QByteArray, json);
        const auto read = spoken::Lexicon::read(json);
        QVERIFY(!read);
        QVERIFY(!read.error().isEmpty());
    }
};

QTEST_APPLESS_MAIN(TestWalkRoundReading)
#include "tst_walkroundreading.moc"
