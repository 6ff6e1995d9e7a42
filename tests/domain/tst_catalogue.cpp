// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/carwork.h"
#include "domain/catalogue.h"
#include "domain/cataloguechecks.h"

#include <QCryptographicHash>
#include <QFile>
#include <QJsonDocument>
#include <QTest>

#include <algorithm>
#include <random>

using namespace ramplight;

namespace {

QByteArray shippedBytes()
{
    QFile file(QStringLiteral(RAMPLIGHT_SOURCE_DIR "/db/catalogue/operations.json"));
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
}

/// A small catalogue with one of everything, which the rows below spoil in one place each.
QJsonObject smallCatalogue()
{
    return QJsonDocument::fromJson(R"({
      "format": 1, "title": "small", "standingLine": "follow the data",
      "operations": [
        {"id": "look", "title": "look", "skill": "mechanical", "safety": true, "baseline": true,
         "minutes": {"low": 1, "usual": 2, "high": 3}, "clears": ["tyre-front-left"],
         "readings": [
           {"key": "tread", "title": "tread", "kind": "limit", "unit": "mm", "decimals": 1,
            "limits": [{"owner": "house", "source": "house default", "min": 30}],
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

/// What one car may have open: an operation at a place.
struct Due
{
    QString id;
    bool hadFollowUp = false;
};

bool opensNothingMore(const OperationSpec& spec)
{
    return std::ranges::none_of(spec.readings, [](const ReadingSpec& reading) {
        return !reading.opens.isEmpty() ||
               std::ranges::any_of(reading.options, [](const ChoiceOption& option) {
                   return !option.closes && !option.opens.isEmpty();
               });
    });
}

std::vector<QString> followUpsOf(const OperationSpec& spec)
{
    std::vector<QString> ids;
    for (const ReadingSpec& reading : spec.readings) {
        if (!reading.opens.isEmpty())
            ids.push_back(reading.opens);
        for (const ChoiceOption& option : reading.options)
            if (!option.closes && !option.opens.isEmpty())
                ids.push_back(option.opens);
    }
    return ids;
}

/// Works through what is due in an order that chance picks among the legal ones; everything open
/// blocks by "after" and by what it forbids. Returns the order of closing; stuck is set when
/// something is due and nothing may start.
class Shop
{
public:
    Shop(const Catalogue& catalogue, CarFacts facts, unsigned seed, bool badReadings)
        : m_catalogue(catalogue)
        , m_facts(std::move(facts))
        , m_chance(seed)
        , m_badReadings(badReadings)
    {
    }

    void open(const QString& id)
    {
        const OperationSpec* spec = m_catalogue.find(id);
        if (spec == nullptr || !fits(spec->ifFact, m_facts) || isOpen(id))
            return;
        m_due.push_back({id, false});
    }

    void openBaseline()
    {
        for (const OperationSpec& spec : m_catalogue.operations)
            if (spec.baseline)
                open(spec.id);
    }

    QStringList work()
    {
        QStringList closed;
        while (!m_due.empty() && closed.size() < 500) {
            std::vector<std::size_t> legal;
            for (std::size_t i = 0; i < m_due.size(); ++i)
                if (mayStart(m_due.at(i)))
                    legal.push_back(i);
            if (legal.empty()) {
                stuck = true;
                return closed;
            }
            const std::size_t pick = legal.at(m_chance() % legal.size());
            const QString id = m_due.at(pick).id;
            const OperationSpec& spec = *m_catalogue.find(id);
            const std::vector<QString> followUps = followUpsOf(spec);
            if (m_badReadings && !m_due.at(pick).hadFollowUp && !followUps.empty() &&
                m_chance() % 2 == 0) {
                // It stays open until the follow-up is done, and is measured again.
                m_due.at(pick).hadFollowUp = true;
                const QString followUp = followUps.at(m_chance() % followUps.size());
                m_keptOpenBy[id] = followUp;
                open(followUp);
                continue;
            }
            m_due.erase(m_due.begin() + static_cast<std::ptrdiff_t>(pick));
            closed.append(id);
            for (const Trigger& trigger : spec.triggers)
                if (fits(trigger.ifFact, m_facts))
                    open(trigger.opens);
        }
        return closed;
    }

    bool stuck = false;

    [[nodiscard]] QString openNow() const
    {
        QStringList ids;
        for (const Due& due : m_due)
            ids.append(due.id);
        return ids.join(QStringLiteral(", "));
    }

private:
    [[nodiscard]] bool isOpen(const QString& id) const
    {
        return std::ranges::any_of(m_due, [&](const Due& due) { return due.id == id; });
    }

    [[nodiscard]] bool mayStart(const Due& wanted) const
    {
        if (const auto keeper = m_keptOpenBy.find(wanted.id);
            keeper != m_keptOpenBy.end() && isOpen(keeper->second))
            return false;
        const OperationSpec& spec = *m_catalogue.find(wanted.id);
        return std::ranges::none_of(m_due, [&](const Due& due) {
            if (due.id == wanted.id)
                return false;
            const OperationSpec& other = *m_catalogue.find(due.id);
            const bool forbids = std::ranges::any_of(other.immobilises, [&](const Immobilises& i) {
                // Started ones count as soon as they are open: the hardest case.
                return std::ranges::find_first_of(i.what, spec.needs) != i.what.end();
            });
            return forbids || spec.after.contains(due.id) ||
                   spec.after.contains(QStringLiteral("*"));
        });
    }

    const Catalogue& m_catalogue;
    CarFacts m_facts;
    std::mt19937 m_chance;
    bool m_badReadings;
    std::vector<Due> m_due;
    std::map<QString, QString> m_keptOpenBy;
};

CarFacts everyFact()
{
    CarFacts facts;
    for (const auto& [fact, name] : Names<Fact>::table)
        facts.has.push_back(fact);
    return facts;
}

} // namespace

class TestCatalogue : public QObject
{
    Q_OBJECT

private:
    Catalogue m_shipped;

    [[nodiscard]] FindingData finding(PlaceId place, Condition condition,
                                      std::vector<Remedy> remedies,
                                      std::optional<Severity> severity = {}) const
    {
        FindingData data;
        data.place = std::move(place);
        data.condition = condition;
        data.remedies = std::move(remedies);
        data.severity = severity;
        return data;
    }

    [[nodiscard]] bool opensSafety(const FindingRule& rule) const
    {
        return std::ranges::any_of(rule.opens,
                                   [&](const QString& id) { return m_shipped.find(id)->safety; });
    }

private slots:
    void initTestCase()
    {
        const CatalogueReading reading = readCatalogue(shippedBytes());
        QVERIFY2(reading.faults.isEmpty(), qPrintable(reading.faults.join(QLatin1Char('\n'))));
        m_shipped = reading.catalogue;
    }

    void readCatalogue_goodFile_hashesItsBytes()
    {
        QCOMPARE(m_shipped.hash,
                 QString::fromLatin1(
                     QCryptographicHash::hash(shippedBytes(), QCryptographicHash::Sha256).toHex()));
        QVERIFY(m_shipped.find(QStringLiteral("road-test")) != nullptr);
        QVERIFY(m_shipped.find(QStringLiteral("no-such-thing")) == nullptr);
    }

    void readCatalogue_smallFile_isGood()
    {
        const CatalogueReading reading = readCatalogue(bytesOf(smallCatalogue()));
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
            with(smallCatalogue(), path.split(QLatin1Char('/')), value).toObject();
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
        QJsonObject spoiled = smallCatalogue();
        spoiled = with(spoiled, {"operations", "0", "skill"}, "magic").toObject();
        spoiled = with(spoiled, {"operations", "2", "minutes", "low"}, "x").toObject();
        spoiled = with(spoiled, {"rules", "0", "colour"}, "x").toObject();
        const QStringList faults = readCatalogue(bytesOf(spoiled)).faults;
        QCOMPARE(faults.size(), 3);
    }

    void readCatalogue_restraintThatForbidsItsOwnCheck_isNoLegalOrder()
    {
        // A re-check that forbids driving, comes after the drive and keeps it from starting.
        QJsonObject spoiled = smallCatalogue();
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
        QJsonObject last = smallCatalogue();
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

    void shipped_limits_nameOwnerAndSource()
    {
        for (const OperationSpec& operation : m_shipped.operations)
            for (const ReadingSpec& reading : operation.readings)
                for (const Limit& limit : reading.limits) {
                    if (limit.owner == LimitOwner::House)
                        QVERIFY2(limit.source.startsWith("house default, change it"),
                                 qPrintable(operation.id + ' ' + reading.key));
                    else
                        QVERIFY2(limit.source.contains("verify"),
                                 qPrintable(operation.id + ' ' + reading.key));
                }
    }

    void shipped_torque_isAFigureOfThisCar()
    {
        int torques = 0;
        for (const OperationSpec& operation : m_shipped.operations)
            for (const ReadingSpec& reading : operation.readings)
                if (reading.unit == Unit::NewtonMetre) {
                    ++torques;
                    QCOMPARE(reading.kind, ReadingKind::Figure);
                    QCOMPARE(reading.neededFrom, std::optional(LimitOwner::VehicleData));
                }
        QVERIFY(torques >= 6);
    }

    void shipped_safetyOperations_areSafety_data()
    {
        QTest::addColumn<QString>("id");
        for (const char* id : {"lift-inspection",
                               "tyre-survey",
                               "walk-round-check",
                               "fault-read",
                               "road-test",
                               "recall-and-certificate",
                               "traction-battery-check",
                               "final-check",
                               "tyre-fit",
                               "tyre-repair",
                               "wheels-off",
                               "wheel-true-check",
                               "wheel-balance",
                               "wheels-on",
                               "wheel-fixing-check",
                               "wheel-recheck",
                               "valve-sensor-check",
                               "brake-pads",
                               "brake-discs",
                               "brake-fluid",
                               "steering-part",
                               "chip-fill",
                               "windscreen-fit",
                               "camera-calibration",
                               "lamp-replace",
                               "wiper-replace",
                               "recheck-scan",
                               "put-right",
                               "sensor-check"})
            QTest::newRow(id) << QString::fromLatin1(id);
    }

    void shipped_safetyOperations_areSafety()
    {
        QFETCH(QString, id);
        QVERIFY(m_shipped.find(id) != nullptr);
        QVERIFY(m_shipped.find(id)->safety);
    }

    void shipped_everyCar_getsTheBaseline()
    {
        QStringList baseline;
        for (const OperationSpec& operation : m_shipped.operations)
            if (operation.baseline)
                baseline.append(operation.id);
        QCOMPARE(baseline, (QStringList{"arrival-check", "first-wash", "lift-inspection",
                                        "tyre-survey", "walk-round-check", "fault-read",
                                        "traction-battery-check", "recall-and-certificate",
                                        "road-test", "full-valet", "sale-photos", "final-check"}));
        QCOMPARE(m_shipped.find("traction-battery-check")->ifFact,
                 std::optional(Fact::TractionBattery));
    }

    void shipped_safetyPlaces_areClearedByTheBaseline()
    {
        QVERIFY(m_shipped.safetyPlaces.size() > 15);
        for (const SafetyPlace& place : m_shipped.safetyPlaces)
            QVERIFY2(m_shipped.find(place.inspection)->baseline, qPrintable(place.place.text));
    }

    void shipped_eachRule_isReached()
    {
        // Each rule decides some finding; one that earlier ones hide would be dead.
        std::vector<std::optional<Severity>> severities{std::nullopt};
        for (const auto& [severity, name] : Names<Severity>::table)
            severities.emplace_back(severity);
        std::vector<std::vector<Remedy>> remedies{{}};
        for (const auto& [remedy, name] : Names<Remedy>::table)
            remedies.push_back({remedy});
        std::set<QString> reached;
        // The last place of each kind, and those that rules name.
        std::map<PlaceKind, PlaceId> lastOfKind;
        for (const PlaceInfo& info : allPlaces())
            lastOfKind[info.kind] = info.id;
        std::set<PlaceId> places;
        for (const auto& [kind, place] : lastOfKind)
            places.insert(place);
        // Spare wheel and tyre have rules of their own before those of the kind.
        places.insert({PlaceId{"wheel-front-left"}, PlaceId{"tyre-front-left"}});
        for (const FindingRule& rule : m_shipped.rules)
            places.insert(rule.places.begin(), rule.places.end());
        for (const PlaceId& place : places)
            for (const auto& [condition, name] : Names<Condition>::table)
                for (const auto& severity : severities)
                    for (const auto& remedy : remedies)
                        if (const FindingRule* rule =
                                ruleFor(m_shipped, everyFact(),
                                        finding(place, condition, remedy, severity)))
                            reached.insert(rule->id);
        for (const FindingRule& rule : m_shipped.rules)
            QVERIFY2(reached.contains(rule.id), qPrintable(rule.id));
    }

    void shipped_finding_isAnswered_data()
    {
        QTest::addColumn<QString>("place");
        QTest::addColumn<int>("condition");
        QTest::addColumn<int>("remedy"); // -1: none was said
        QTest::addColumn<QString>("opens");
        const auto row = [](const char* place, Condition condition, std::optional<Remedy> remedy,
                            const char* opens) {
            QTest::addRow("%s %s %s", place, qPrintable(nameOf(condition)),
                          remedy ? qPrintable(nameOf(*remedy)) : "-")
                << QString::fromLatin1(place) << static_cast<int>(condition)
                << (remedy ? static_cast<int>(*remedy) : -1) << QString::fromLatin1(opens);
        };
        row("front-bumper", Condition::Scuff, Remedy::Refinish, "bumper-paint");
        row("front-bumper", Condition::Scuff, Remedy::Leave, "");
        row("bonnet", Condition::Chip, Remedy::TouchIn, "touch-in");
        row("bonnet", Condition::Chip, {}, "touch-in");
        row("front-door-left", Condition::Dent, Remedy::DentRepair, "dent-push");
        row("rear-bumper", Condition::Scratch, Remedy::Polish, "flat-and-polish");
        row("wheel-rear-right", Condition::Kerbed, Remedy::Refurbish, "wheels-off,wheel-refurb");
        row("wheel-rear-right", Condition::Kerbed, Remedy::TouchIn, "wheel-spot-paint");
        row("wheel-rear-right", Condition::Kerbed, Remedy::Leave, "");
        row("wheel-rear-right", Condition::Crack, Remedy::Leave, "wheel-replace");
        row("tyre-front-right", Condition::Worn, Remedy::Replace, "tyre-fit");
        row("tyre-front-right", Condition::Bulge, Remedy::Leave, "tyre-fit");
        row("tyre-front-right", Condition::Flat, Remedy::Repair, "tyre-repair");
        row("tyre-front-right", Condition::Worn, {}, "tyre-survey");
        row("spare-tyre", Condition::Perished, Remedy::Leave, "put-right");
        row("mirror-right", Condition::Scuff, Remedy::Leave, "");
        row("mirror-right", Condition::Broken, Remedy::Leave, "put-right");
        row("rear-seats", Condition::Stain, Remedy::Clean, "upholstery-clean");
        row("driver-seat", Condition::Tear, {}, "trim-repair");
        row("brakes-front", Condition::Noise, Remedy::Investigate, "put-right");
        row("brakes-front", Condition::Worn, {}, "brake-pads");
        row("brakes-rear", Condition::Overdue, {}, "brake-fluid");
        row("steering", Condition::Worn, Remedy::Leave, "steering-part");
        row("windscreen", Condition::Chip, Remedy::Repair, "chip-fill");
        row("windscreen", Condition::Crack, Remedy::Leave, "windscreen-fit");
        row("seat-belts", Condition::Tear, Remedy::Leave, "belt-part");
        row("wipers", Condition::Worn, Remedy::Replace, "wiper-replace");
        row("headlamp-left", Condition::Inoperative, {}, "lamp-replace");
        row("headlamp-left", Condition::Fade, Remedy::Polish, "lamp-restore");
        row("warning-lamps", Condition::Lit, Remedy::Leave, "put-right");
        row("camera", Condition::Misaligned, Remedy::Calibrate, "camera-calibration");
        row("traction-battery", Condition::Dent, Remedy::Leave, "high-voltage-repair");
        row("air-conditioning", Condition::Inoperative, Remedy::Recharge, "comfort-repair");
        row("keys", Condition::Missing, {}, "comfort-repair");
        row("boot-interior", Condition::Odour, {}, "upholstery-clean");
        row("rear-door-left", Condition::Scratch, Remedy::Refinish, "panel-paint");
        row("boot-interior", Condition::Missing, Remedy::Replace, "small-part");
        row("rear-plate", Condition::Missing, Remedy::Leave, "put-right");
        row("engine", Condition::Leak, Remedy::Leave, "put-right");
    }

    void shipped_finding_isAnswered()
    {
        QFETCH(QString, place);
        QFETCH(int, condition);
        QFETCH(int, remedy);
        QFETCH(QString, opens);
        std::vector<Remedy> remedies;
        if (remedy >= 0)
            remedies.push_back(static_cast<Remedy>(remedy));
        const FindingRule* rule =
            ruleFor(m_shipped, everyFact(),
                    finding(PlaceId{place}, static_cast<Condition>(condition), remedies));
        QVERIFY(rule != nullptr);
        QCOMPARE(rule->opens.join(QLatin1Char(',')), opens);
    }

    void shipped_findingAtSafetyPlace_opensSafetyEvenWhenLeft_data()
    {
        QTest::addColumn<QString>("place");
        for (const SafetyPlace& safety : m_shipped.safetyPlaces)
            QTest::newRow(qPrintable(safety.place.text)) << safety.place.text;
        QTest::newRow("spare-tyre") << QStringLiteral("spare-tyre");
    }

    void shipped_findingAtSafetyPlace_opensSafetyEvenWhenLeft()
    {
        QFETCH(QString, place);
        const PlaceId id{place};
        // A wheel may be ugly; what holds it or breaks it is a safety matter.
        const QList<Condition> unsafeWheel{
            Condition::Crack,      Condition::Broken,    Condition::Hole,  Condition::Missing,
            Condition::Loose,      Condition::Dent,      Condition::Cut,   Condition::Bulge,
            Condition::Misaligned, Condition::Vibration, Condition::Noise, Condition::Leak,
            Condition::Flat,       Condition::Worn};
        const bool wheel = placeInfo(id)->kind == PlaceKind::Wheel;
        for (const auto& [condition, name] : Names<Condition>::table) {
            if (wheel && !unsafeWheel.contains(condition))
                continue;
            for (const auto& [remedy, remedyName] : Names<Remedy>::table) {
                const FindingRule* rule =
                    ruleFor(m_shipped, everyFact(), finding(id, condition, {remedy}));
                QVERIFY2(rule != nullptr && opensSafety(*rule),
                         qPrintable(QStringLiteral("%1 %2").arg(nameOf(condition), remedyName)));
            }
        }
    }

    void shipped_looksThatAreLeft_openNothing()
    {
        for (const PlaceInfo& info : allPlaces()) {
            if (info.kind != PlaceKind::Panel && info.kind != PlaceKind::Bumper &&
                info.kind != PlaceKind::Wheel && info.kind != PlaceKind::Interior)
                continue;
            for (const Condition condition : {Condition::Scratch, Condition::Scuff, Condition::Mark,
                                              Condition::Chip, Condition::Fade, Condition::Stain}) {
                const FindingRule* rule =
                    ruleFor(m_shipped, {}, finding(info.id, condition, {Remedy::Leave}));
                QVERIFY2(rule != nullptr && rule->opens.isEmpty(), qPrintable(info.id.text));
            }
        }
    }

    void shipped_chain_endsInALegalOrder_data()
    {
        QTest::addColumn<QStringList>("opened");
        QTest::addColumn<bool>("camera");
        QTest::addColumn<QStringList>("inOrder");
        QTest::newRow("four wheels refurbished")
            << QStringList{"wheels-off", "wheel-refurb"} << false
            << QStringList{"wheels-off",         "wheel-refurb", "wheel-true-check", "wheels-on",
                           "wheel-fixing-check", "road-test",    "wheel-recheck",    "full-valet",
                           "sale-photos",        "final-check"};
        QTest::newRow("a tyre replaced")
            << QStringList{"tyre-fit"} << false
            << QStringList{"tyre-fit",  "wheel-balance", "wheels-on",  "wheel-fixing-check",
                           "road-test", "wheel-recheck", "final-check"};
        QTest::newRow("a windscreen, with camera")
            << QStringList{"windscreen-fit"} << true
            << QStringList{"windscreen-fit", "camera-calibration", "recheck-scan", "full-valet",
                           "final-check"};
        QTest::newRow("a windscreen, without camera")
            << QStringList{"windscreen-fit"} << false
            << QStringList{"windscreen-fit", "wiper-replace", "road-test", "final-check"};
        QTest::newRow("a steering part")
            << QStringList{"steering-part"} << true
            << QStringList{"steering-part",      "wheels-on", "wheel-alignment",
                           "camera-calibration", "road-test", "wheel-recheck",
                           "final-check"};
        QTest::newRow("a steering part, its wheels")
            << QStringList{"steering-part"} << true
            << QStringList{"steering-part",      "wheels-on", "wheel-fixing-check",
                           "camera-calibration", "road-test", "wheel-recheck",
                           "final-check"};
        QTest::newRow("all at once")
            << QStringList{"wheels-off",    "wheel-refurb", "tyre-fit",     "windscreen-fit",
                           "steering-part", "brake-pads",   "bumper-paint", "panel-paint"}
            << true
            << QStringList{"wheel-refurb", "tyre-fit",      "wheels-on",  "wheel-fixing-check",
                           "road-test",    "wheel-recheck", "full-valet", "final-check"};
    }

    void shipped_chain_endsInALegalOrder()
    {
        QFETCH(QStringList, opened);
        QFETCH(bool, camera);
        QFETCH(QStringList, inOrder);
        CarFacts facts;
        facts.has = {Fact::CombustionEngine, Fact::ValveSensors};
        if (camera)
            facts.has.push_back(Fact::ScreenCamera);
        for (unsigned seed = 0; seed < 100; ++seed) {
            Shop shop(m_shipped, facts, seed, false);
            shop.openBaseline();
            for (const QString& id : opened)
                shop.open(id);
            const QStringList closed = shop.work();
            QVERIFY2(!shop.stuck, qPrintable(shop.openNow()));
            qsizetype last = -1;
            for (const QString& id : inOrder) {
                const qsizetype at = closed.lastIndexOf(id);
                QVERIFY2(at > last, qPrintable(id + QStringLiteral(" in ") +
                                               closed.join(QStringLiteral(", "))));
                last = at;
            }
            QCOMPARE(closed.contains("camera-calibration"), camera);
            QVERIFY(closed.contains("valve-sensor-check") == closed.contains("wheels-on"));
        }
    }

    void shipped_badReadings_neverLeaveACarStuck_data()
    {
        QTest::addColumn<bool>("everything");
        QTest::newRow("a plain car") << false;
        QTest::newRow("a car with every fact") << true;
    }

    void shipped_badReadings_neverLeaveACarStuck()
    {
        QFETCH(bool, everything);
        qsizetype most = 0;
        for (unsigned seed = 0; seed < 500; ++seed) {
            Shop shop(m_shipped, everything ? everyFact() : CarFacts{}, seed, true);
            shop.openBaseline();
            if (seed % 3 == 0)
                for (const char* id : {"wheels-off", "wheel-refurb", "windscreen-fit"})
                    shop.open(QString::fromLatin1(id));
            const QStringList closed = shop.work();
            QVERIFY2(!shop.stuck && closed.size() < 500, qPrintable(shop.openNow()));
            QCOMPARE(closed.last(), QStringLiteral("final-check"));
            most = std::max(most, closed.size());
        }
        // Bad readings did open follow-ups.
        QVERIFY(most > 20);
    }

    void shipped_readingsWithFollowUps_areThere()
    {
        const auto opens = [&](const char* id, const char* followUp) {
            return waitsFor(m_shipped, *m_shipped.find(id)).contains(QString::fromLatin1(followUp));
        };
        QVERIFY(opens("lift-inspection", "brake-pads"));
        QVERIFY(opens("lift-inspection", "brake-discs"));
        QVERIFY(opens("tyre-survey", "tyre-fit"));
        QVERIFY(opens("brake-pads", "brake-discs"));
        QVERIFY(opens("wheel-true-check", "wheel-replace"));
        QVERIFY(opens("wheel-recheck", "road-test"));
        QVERIFY(!opens("road-test", "wheel-recheck"));
        QVERIFY(opensNothingMore(*m_shipped.find("wheels-on")));
    }

    void shipped_wheelWork_holdsTheCar()
    {
        const auto restraint = [&](const char* id, RestraintFrom from, Restraint what) {
            return std::ranges::any_of(m_shipped.find(id)->immobilises, [&](const Immobilises& i) {
                return i.from == from && std::ranges::find(i.what, what) != i.what.end();
            });
        };
        QVERIFY(restraint("wheels-off", RestraintFrom::Started, Restraint::Move));
        QVERIFY(restraint("wheels-on", RestraintFrom::Opened, Restraint::Move));
        QVERIFY(restraint("wheels-on", RestraintFrom::Opened, Restraint::Drive));
        QVERIFY(restraint("wheel-fixing-check", RestraintFrom::Opened, Restraint::Drive));
        QVERIFY(!restraint("wheel-fixing-check", RestraintFrom::Opened, Restraint::Move));
        QVERIFY(m_shipped.find("wheel-recheck")->immobilises.empty());
        QVERIFY(restraint("windscreen-fit", RestraintFrom::Waiting, Restraint::Drive));
        QCOMPARE(m_shipped.find("windscreen-fit")->wait.reading, QStringLiteral("safe-drive-away"));
        QVERIFY(restraint("high-voltage-repair", RestraintFrom::Started, Restraint::Power));
    }
};

QTEST_GUILESS_MAIN(TestCatalogue)
#include "tst_catalogue.moc"
