// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/catalogue.h"
#include "support/testmain.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QTest>

#include <algorithm>

using namespace ramplight;

namespace {

/// A small catalogue with one of everything, which the rows below spoil in one place each.
QJsonObject catalogueText()
{
    return QJsonDocument::fromJson(R"({
      "format": 1, "title": "small", "standingLine": "follow the data",
      "countries": [
        {"id": "GB", "title": "Great Britain", "limits": [
          {"name": "tread-legal", "title": "tread", "unit": "mm", "decimals": 1, "owner": "law",
           "source": "tyre law; verify locally", "min": 16}]},
        {"id": "IE", "title": "Ireland", "limits": [
          {"name": "tread-legal", "title": "tread", "unit": "mm", "decimals": 1, "owner": "law",
           "source": "tyre law; verify locally", "min": 16}]}],
      "houseLimits": [
        {"name": "tread-house", "title": "tread", "unit": "mm", "decimals": 1, "owner": "house",
         "source": "house default", "min": 30}],
      "operations": [
        {"id": "look", "title": "look", "skill": "mechanical", "safety": true, "baseline": true,
         "minutes": {"low": 1, "usual": 2, "high": 3}, "clears": ["tyre-front-left"],
         "readings": [
           {"key": "tread", "title": "tread", "kind": "limit", "unit": "mm", "decimals": 1,
            "limits": [{"owner": "house", "source": "house default", "min": 30},
                       {"named": "tread-legal"}],
            "places": ["tyre-front-left"], "opens": "fit"},
           {"key": "result", "title": "result", "kind": "choice", "options": [
             {"id": "good", "title": "good"},
             {"id": "bad", "title": "bad", "closes": false, "opens": "fit"}]}]},
        {"id": "fit", "title": "fit", "skill": "wheels", "scope": "place", "safety": true,
         "minutes": {"low": 1, "usual": 2, "high": 3},
         "wait": {"usual": 5, "reason": "cures", "reading": "cure"},
         "triggers": [{"opens": "check"}],
         "readings": [
           {"key": "torque", "title": "torque", "kind": "figure", "unit": "Nm",
            "neededFrom": "vehicle-data"},
           {"key": "cure", "title": "cure", "kind": "record", "unit": "min"}],
         "immobilises": [{"what": ["drive"], "from": "waiting", "words": "cures"}]},
        {"id": "check", "title": "check", "skill": "checks", "safety": true,
         "secondPerson": "check", "checksWorkOf": ["fit"], "after": ["fit"],
         "minutes": {"low": 1, "usual": 2, "high": 3},
         "photos": [{"moment": "after", "title": "it"}]},
        {"id": "drive", "title": "drive", "skill": "mechanical", "needs": ["drive"],
         "minutes": {"low": 1, "usual": 2, "high": 3}, "ifFact": "traction-battery",
         "after": ["check"], "clears": ["traction-battery"]}],
      "rules": [{"id": "worn", "placeKinds": ["tyre"], "places": ["tyre-front-left"],
                 "conditions": ["worn"], "opens": ["fit"]}],
      "likely": [{"placeKinds": ["tyre"], "conditions": ["worn"]}],
      "suggestions": [{"placeKinds": ["tyre"], "remedies": ["replace"]}],
      "safetyPlaces": [
        {"place": "tyre-front-left", "inspection": "look"},
        {"place": "traction-battery", "inspection": "drive", "ifFact": "traction-battery"}],
      "tread": {"minTenthsMm": 30, "owner": "house", "source": "house default", "opens": "fit"}
    })")
        .object();
}

/// Sets the value at a path like "operations/0/minutes/low"; an undefined value takes it out.
QJsonValue with(const QJsonValue& json, const QStringList& path, const QJsonValue& value)
{
    if (path.isEmpty())
        return value;
    const QStringList rest = path.mid(1);
    if (json.isArray()) {
        QJsonArray array = json.toArray();
        const qsizetype index = path.first().toLongLong();
        if (index == array.size())
            array.append(value);
        else if (rest.isEmpty() && value.isUndefined())
            array.removeAt(index);
        else
            array.replace(index, with(array.at(index), rest, value));
        return array;
    }
    QJsonObject object = json.toObject();
    if (rest.isEmpty() && value.isUndefined())
        object.remove(path.first());
    else
        object.insert(path.first(), with(object.value(path.first()), rest, value));
    return object;
}

QByteArray bytesOf(const QJsonObject& object)
{
    return QJsonDocument(object).toJson();
}

} // namespace

class TestCatalogueReader : public QObject
{
    Q_OBJECT

private slots:
    void readCatalogue_smallFile_isGood()
    {
        const CatalogueReading reading = readCatalogue(bytesOf(catalogueText()));
        QCOMPARE(reading.faults, QStringList());
        QCOMPARE(reading.catalogue.operations.size(), std::size_t{4});
    }

    void readCatalogue_spoiled_saysWhereAndWhat_data()
    {
        QTest::addColumn<QString>("path");
        QTest::addColumn<QJsonValue>("value");
        QTest::addColumn<QString>("said");
        const auto row = [](const char* path, const QJsonValue& value, const char* said) {
            QTest::addRow("%s: %s", path, said)
                << QString::fromLatin1(path) << value << QString::fromLatin1(said);
        };
        const QJsonValue gone(QJsonValue::Undefined);
        row("format", 2, "catalogue, format: 1 was expected");
        row("format", "one", "catalogue, format: a whole number was expected");
        row("title", "", "catalogue, title: words were expected");
        row("standingLine", " ", "catalogue, standingLine: words were expected");
        row("operations", QJsonArray{}, "catalogue, operations: at least one operation");
        row("operations", 3, "catalogue, operations: a list was expected");
        row("operations/0", 3, "operation number 1, an object was expected");
        row("colour", "red", "catalogue, colour: this field is not known");
        row("operations/0/id", "Look!", "operation Look!, id: small letters");
        row("operations/1/id", "look", "operation look, id: there are two operations of this id");
        row("operations/0/title", gone, "operation look, title: words were expected");
        row("operations/0/titel", "x", "operation look, titel: this field is not known");
        row("operations/0/skill", "magic", "operation look, skill: one of mechanical, wheels");
        row("operations/0/minutes/usual", 4, "operation look, minutes: low, usual and high");
        row("operations/0/minutes/usual", 1.5,
            "operation look, minutes.usual: a whole number was expected");
        row("operations/0/minutes", gone, "operation look, minutes: low, usual and high");
        row("operations/2/after/0", "fitt",
            "operation check, after: the operation \"fitt\" is not in the catalogue");
        row("operations/2/after/0", "check", "operation check, after: it cannot come after itself");
        row("operations/1/triggers/0/opens", "chek",
            "operation fit, triggers: the operation \"chek\" is not in the catalogue");
        row("operations/1/triggers/0/if", "x",
            "operation fit, triggers[0].if: this field is not known");
        row("operations/0/clears/0", "tyre-front-near",
            "operation look, clears: the place \"tyre-front-near\" is not known");
        row("operations/2/checksWorkOf", gone, "operation check, checksWorkOf: a check names");
        row("operations/2/secondPerson", "countersign",
            "operation check, checksWorkOf: only an operation that is a check");
        row("operations/2/checksWorkOf/0", "x",
            "operation check, checksWorkOf: the operation \"x\"");
        row("operations/2/photos", gone, "operation check, safety: a safety operation needs");
        row("operations/2/photos/0/title", "", "operation check, photos: words were expected");
        row("operations/3/highVoltageIsolation", true,
            "operation drive, highVoltageIsolation: an operation that isolates");
        row("operations/0/cautions", QJsonArray{""}, "operation look, cautions: words");
        row("operations/1/wait/usual", -1, "operation fit, wait.usual: minutes from 0 up");
        row("operations/1/wait/reason", gone, "operation fit, wait.reason: words were expected");
        row("operations/1/wait/reading", "torque",
            "operation fit, wait.reading: a required reading of this operation in whole minutes "
            "was expected, not \"torque\"");
        row("operations/1/wait/usual", gone,
            "operation fit, immobilises: there is no waiting time");
        row("operations/1/immobilises/0/what", QJsonArray{},
            "operation fit, immobilises: move, drive or power was expected");
        row("operations/1/immobilises/0/words", gone, "operation fit, immobilises: words");
        row("operations/0/readings/1/key", "tread",
            "operation look, reading tread, key: it is there twice");
        row("operations/0/readings/0/title", gone, "operation look, reading tread, title: words");
        row("operations/0/readings/0/decimals", 9,
            "operation look, reading tread, decimals: 0 to 3 were expected");
        row("operations/0/readings/0/unit", gone, "operation look, reading tread, unit: a unit");
        row("operations/0/readings/0/unit", "inch",
            "operation look, readings[0].unit: one of , mm");
        row("operations/0/readings/0/limits", gone,
            "operation look, reading tread, limits: a limit, or neededFrom, was expected");
        row("operations/0/readings/0/limits/0/owner", gone,
            "operation look, readings[0].limits[0].owner: who set this limit was expected");
        row("operations/0/readings/0/limits/0/source", gone,
            "operation look, reading tread, limits, source: words were expected");
        row("operations/0/readings/0/limits/0/min", gone,
            "operation look, reading tread, limits: min or max was expected");
        row("operations/0/readings/0/limits/0/max", 3,
            "operation look, reading tread, limits: min is above max");
        row("operations/0/readings/0/places/0", "roof-rack",
            "operation look, reading tread, places: the place \"roof-rack\" is not known");
        row("operations/0/readings/0/places/1", "tyre-front-left",
            "operation look, reading tread, places: \"tyre-front-left\" is there twice");
        row("operations/0/readings/0/opens", "fitt",
            "operation look, reading tread, opens: the operation \"fitt\"");
        row("operations/0/readings/0/options", QJsonArray{QJsonObject{{"id", "a"}}},
            "operation look, reading tread, options: only a reading of the kind choice");
        row("operations/0/readings/1/limits",
            QJsonArray{QJsonObject{{"owner", "house"}, {"source", "x"}, {"min", 1}}},
            "operation look, reading result, limits: only a reading of the kind limit");
        row("operations/0/readings/1/neededFrom", "house",
            "operation look, reading result, neededFrom: only a limit or a figure");
        row("operations/0/readings/1/opens", "fit",
            "operation look, reading result, opens: only a reading of the kind limit");
        row("operations/0/readings/0/remediedBy", "luck",
            "operation look, readings[0].remediedBy: one of same-work, checked-work, finding");
        row("operations/0/readings/0/remediedBy", "same-work",
            "operation look, reading tread, remediedBy: only a reading of the kind limit that");
        row("operations/0/readings/1/remediedBy", "same-work",
            "operation look, reading result, remediedBy: only a reading of the kind limit that");
        row("operations/0/readings/1/options/0/remediedBy", "finding",
            "operation look, reading result, option good, remediedBy: only an answer that forbids");
        row("operations/0/readings/1/options/1/remediedBy", "checked-work",
            "operation look, reading result, remediedBy: only a check sends the work back");
        row("operations/0/readings/1/options", gone,
            "operation look, reading result, options: two options or more were expected");
        row("operations/0/readings/1/options/1/id", "good",
            "operation look, reading result, option good, id: it is there twice");
        row("operations/0/readings/1/options/1/opens", "x",
            "operation look, reading result, option bad, opens: the operation \"x\"");
        row("operations/0/readings/1/options/0/title", gone,
            "operation look, reading result, option good, title: words were expected");
        row("operations/0/readings/1/options/0/closes", false,
            "operation look, reading result, options: no answer would let the operation close");
        row("operations/1/readings/0/neededFrom", gone,
            "operation fit, reading torque, neededFrom: who knows this car's figure");
        row("rules/0/opens/0", "x", "rule worn, opens: the operation \"x\"");
        row("rules/0/places/0", "x", "rule worn, places: the place \"x\" is not known");
        row("rules/0/conditions/0", "rusty", "rule worn, conditions[0]: one of mark, scratch");
        row("rules/1", QJsonObject{{"id", "worn"}}, "rule worn, id: there are two rules");
        row("safetyPlaces/0/place", "roof",
            "safety place roof, inspection: \"look\" does not clear");
        row("safetyPlaces/0/place", "rof", "safety place rof, place: the place is not known");
        row("safetyPlaces/0/inspection", "x",
            "safety place tyre-front-left, inspection: the "
            "operation \"x\" is not in the catalogue");
        row("safetyPlaces/1/ifFact", gone,
            "safety place traction-battery, ifFact: \"drive\" is only for cars with "
            "traction-battery");
        row("countries/1/id", "GB", "country GB, id: there are two of this id");
        row("countries/1/limits", QJsonArray{},
            "country IE, limit tread-legal: it is missing, Great Britain has it");
        row("countries/1/limits/0/decimals", 0,
            "country IE, limit tread-legal: unit and decimals are not those of Great Britain");
        row("countries/0/limits/0/owner", gone,
            "country GB, limit tread-legal, owner: who set this limit was expected");
        row("countries/0/limits/0/source", "",
            "country GB, limit tread-legal: where it can be looked up was expected");
        row("countries/0/limits/0/source", "tyre law",
            "country GB, limit tread-legal: its source ends with \"verify locally\"");
        row("countries/0/limits/0/min", gone,
            "country GB, limit tread-legal: min or max was expected");
        row("houseLimits/0/owner", gone,
            "house, limit tread-house, owner: who set this limit was expected");
        row("houseLimits/0/owner", "law", "house, limit tread-house: its owner is the house");
        row("houseLimits/0/source", " ",
            "house, limit tread-house: where it can be looked up was expected");
        row("houseLimits/0/title", "", "house, limit tread-house: a title was expected");
        row("houseLimits/0/max", 20, "house, limit tread-house: min is above max");
        row("houseLimits/0/name", "tread-legal",
            "country GB, limit tread-legal: the house has one of this name");
        row("operations/0/readings/0/limits/1/named", "tread-moon",
            "operation look, reading tread, limits: no country and no house limit is called "
            "\"tread-moon\"");
        row("operations/0/readings/0/decimals", 2,
            "operation look, reading tread, limit tread-legal: its unit or decimals are not those");
        row("operations/0/readings/0/limits/1/min", 3,
            "operation look, reading tread, limits: a limit that is named has no bound of its own");
        row("operations/2/triggers", QJsonArray{QJsonObject{{"opens", "drive"}}},
            "operation check, triggers: \"drive\" is only for cars with traction-battery");
        row("operations/1/beside", QJsonArray{"x"}, "operation fit, beside: the operation \"x\"");
        row("operations/1/covers", QJsonArray{"x"}, "operation fit, covers: the operation \"x\"");
        row("operations/1/covers", QJsonArray{"fit"},
            "operation fit, covers: \"fit\" and this would cover each other");
        row("operations/1/covers", QJsonArray{"look"},
            "operation fit, covers: \"look\" reaches another part of the car");
        row("operations/3/covers", QJsonArray{"look"},
            "operation drive, covers: \"look\" is a safety operation");
        row("operations/1/batch", 0, "operation fit, batch: 1 or more was expected");
        row("operations/1/materialMinor", -1, "operation fit, materialMinor: 0 or more");
        row("operations/0/access", true, "operation look, access: only what findings open");
        row("operations/1/refer", QJsonArray{" "}, "operation fit, refer: words were expected");
        row("operations/1/placeKinds", QJsonArray{"panel"},
            "rule worn, opens: \"fit\" is not for places of the kind tyre");
        row("operations/1/minutesPer", "wheel",
            "operation fit, minutesPer: one of operation, place was expected");
        row("rules/0/opens", QJsonArray{"fit", "fit"}, "rule worn, opens: \"fit\" is there twice");
        row("rules/0",
            QJsonObject{
                {"id", "worn"}, {"minSizeMm", 9}, {"maxSizeMm", 8}, {"opens", QJsonArray{"fit"}}},
            "rule worn, minSizeMm: it is above maxSizeMm");
        row("rules/0",
            QJsonObject{{"id", "worn"},
                        {"ifFact", "run-flats"},
                        {"unlessFact", "run-flats"},
                        {"opens", QJsonArray{"fit"}}},
            "rule worn, unlessFact: no car would fit both");
        row("suggestions/0/remedies", QJsonArray{}, "suggestions, remedies: at least one");
        row("suggestions/0/places", QJsonArray{"rof"}, "suggestions, places: the place \"rof\"");
        row("likely/0/conditions", QJsonArray{}, "likely, conditions: at least one");
        row("tread/named", "tread-moon",
            "tread, limits: no country and no house limit is called \"tread-moon\"");
        row("tread/owner", gone, "tread, owner: who set this limit was expected");
        row("tread/opens", "x", "tread, opens: the operation \"x\"");
        row("tread/source", gone, "tread, source: words were expected");
        row("tread/minTenthsMm", 0, "tread, minTenthsMm: tenths of a millimetre above 0");
        row("operations/1/after", QJsonArray{"check"},
            "operation fit, after: a circle, nothing could start: fit > check > fit");
        row("operations/2/triggers", QJsonArray{QJsonObject{{"opens", "fit"}}},
            "operation fit, triggers: a circle, it would never end: fit > check > fit");
        row("operations/1/after", QJsonArray{"look"},
            "operation look, after, opens, needs: no legal order, each waits for the next: look > "
            "fit > look");
        row("operations/3/immobilises",
            QJsonArray{
                QJsonObject{{"what", QJsonArray{"drive"}}, {"from", "opened"}, {"words", "w"}}},
            "");
        row("operations/2/immobilises",
            QJsonArray{
                QJsonObject{{"what", QJsonArray{"drive"}}, {"from", "opened"}, {"words", "w"}}},
            "");
        row("operations/2/needs", QJsonArray{"drive"}, "");
    }

    void readCatalogue_spoiled_saysWhereAndWhat()
    {
        QFETCH(QString, path);
        QFETCH(QJsonValue, value);
        QFETCH(QString, said);
        const QJsonObject spoiled =
            with(catalogueText(), path.split(QLatin1Char('/')), value).toObject();
        const QStringList faults = readCatalogue(bytesOf(spoiled)).faults;
        if (said.isEmpty()) {
            QCOMPARE(faults, QStringList());
            return;
        }
        const bool found = std::ranges::any_of(
            faults, [&](const QString& fault) { return fault.startsWith(said); });
        QVERIFY2(found, qPrintable(faults.join(QLatin1Char('\n'))));
    }

    void readCatalogue_severalFaults_namesAll()
    {
        QJsonObject spoiled = catalogueText();
        spoiled = with(spoiled, {"operations", "0", "skill"}, "magic").toObject();
        spoiled = with(spoiled, {"operations", "2", "minutes", "low"}, "x").toObject();
        spoiled = with(spoiled, {"rules", "0", "colour"}, "x").toObject();
        const QStringList faults = readCatalogue(bytesOf(spoiled)).faults;
        QCOMPARE(faults.size(), 3);
    }

    void readCatalogue_restraintThatForbidsItsOwnCheck_isNoLegalOrder()
    {
        // A re-check that forbids driving, comes after the drive and keeps it from starting.
        QJsonObject spoiled = catalogueText();
        spoiled = with(spoiled, {"operations", "2", "after"}, QJsonArray{"drive"}).toObject();
        spoiled = with(spoiled, {"operations", "3", "after"}, QJsonArray{}).toObject();
        QCOMPARE(readCatalogue(bytesOf(spoiled)).faults, QStringList());
        spoiled =
            with(spoiled, {"operations", "2", "immobilises"},
                 QJsonArray{QJsonObject{
                     {"what", QJsonArray{"drive"}}, {"from", "opened"}, {"words", "not checked"}}})
                .toObject();
        const QStringList faults = readCatalogue(bytesOf(spoiled)).faults;
        QCOMPARE(faults,
                 QStringList{"operation check, after, opens, needs: no legal order, each waits for "
                             "the next: check > drive > check"});
    }

    void readCatalogue_afterEverything_isAllowedOnce()
    {
        QJsonObject last = catalogueText();
        last = with(last, {"operations", "3", "after"}, QJsonArray{"*"}).toObject();
        QCOMPARE(readCatalogue(bytesOf(last)).faults, QStringList());
        last = with(last, {"operations", "2", "after"}, QJsonArray{"*"}).toObject();
        QVERIFY(readCatalogue(bytesOf(last)).faults.join("").contains("a circle"));
    }

    void readCatalogue_notJson_namesTheLine()
    {
        const QStringList faults = readCatalogue("{\n \"format\": 1,\n oops\n}").faults;
        QCOMPARE(faults.size(), 1);
        QVERIFY2(faults.first().startsWith("catalogue, line 3: not JSON"),
                 qPrintable(faults.first()));
        QCOMPARE(readCatalogue("[]").faults, QStringList{"catalogue: an object was expected"});
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestCatalogueReader)
#include "tst_cataloguereader.moc"
