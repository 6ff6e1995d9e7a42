// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "shippedcatalogue.h"

#include "domain/catalogue.h"
#include "domain/contains.h"
#include "domain/findingrules.h"
#include "domain/housecatalogue.h"
#include "domain/suggest.h"
#include "support/testmain.h"

#include <QCryptographicHash>
#include <QTest>

#include <algorithm>

using namespace ramplight;
using namespace ramplight::test;

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

    /// A car as most are; special finishes and the like have rules of their own.
    [[nodiscard]] static CarFacts usualFacts()
    {
        CarFacts facts;
        facts.has = {Fact::CombustionEngine, Fact::TractionBattery, Fact::ScreenCamera,
                     Fact::FrontRadar, Fact::ValveSensors};
        return facts;
    }

    [[nodiscard]] bool opensSafety(const FindingRule& rule) const
    {
        return std::ranges::any_of(rule.opens,
                                   [&](const QString& id) { return m_shipped.find(id)->safety; });
    }

    /// What a rule names of the kind; nothing and then each there is when it names none.
    template <class Value>
    [[nodiscard]] static std::vector<std::optional<Value>> asked(const std::vector<Value>& named)
    {
        std::vector<std::optional<Value>> all(named.begin(), named.end());
        if (named.empty()) {
            all.push_back(std::nullopt);
            for (const auto& [value, name] : Names<Value>::table)
                all.push_back(value);
        }
        return all;
    }

    /// Whether some finding at the place is the rule's.
    [[nodiscard]] bool decides(const FindingRule& rule, const PlaceId& place) const
    {
        for (const auto& [condition, name] : Names<Condition>::table) {
            if (!rule.conditions.empty() && !ramplight::contains(rule.conditions, condition))
                continue;
            for (const std::optional<Severity> severity : asked(rule.severities))
                for (const std::optional<Remedy> remedy : asked(rule.remedies))
                    for (const CarFacts& facts : {CarFacts{}, usualFacts(), everyFact()})
                        for (const std::optional<int> extent :
                             {std::optional<int>{}, std::optional(120), std::optional(400)}) {
                            FindingData data = finding(place, condition, {}, severity);
                            if (remedy)
                                data.remedies.push_back(*remedy);
                            data.sizeMm = extent;
                            data.count = extent;
                            if (ruleFor(m_shipped, facts, data) == &rule)
                                return true;
                        }
        }
        return false;
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

    void shipped_limits_nameOwnerAndSource()
    {
        for (const OperationSpec& operation : m_shipped.operations)
            for (const ReadingSpec& reading : operation.readings)
                for (const Limit& limit : reading.limits) {
                    if (limit.owner == LimitOwner::House)
                        QVERIFY2(limit.source.startsWith("house default"),
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
                               "sensor-check",
                               "belt-check",
                               "annual-test",
                               "leak-cure",
                               "exhaust-repair",
                               "headlamp-aim",
                               "battery-service",
                               "plate-fit",
                               "wheel-inspect"})
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

    void shipped_eachRule_isReached() // one that earlier ones hide would be dead
    {
        // The last place of each kind, and those that rules name: spare wheel and tyre have rules
        // of their own before those of the kind.
        std::map<PlaceKind, PlaceId> lastOfKind;
        for (const PlaceInfo& info : allPlaces())
            lastOfKind[info.kind] = info.id;
        std::set<PlaceId> usual{PlaceId{"wheel-front-left"}, PlaceId{"tyre-front-left"}};
        for (const auto& [kind, place] : lastOfKind)
            usual.insert(place);
        for (const FindingRule& rule : m_shipped.rules)
            usual.insert(rule.places.begin(), rule.places.end());
        for (const FindingRule& rule : m_shipped.rules) {
            std::set<PlaceId> places(rule.places.begin(), rule.places.end());
            if (places.empty())
                places = usual;
            if (!rule.placeKinds.empty())
                std::erase_if(places, [&](const PlaceId& place) {
                    return !ramplight::contains(rule.placeKinds, placeInfo(place)->kind);
                });
            QVERIFY2(
                std::ranges::any_of(places, [&](const PlaceId& at) { return decides(rule, at); }),
                qPrintable(rule.id));
        }
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
        row("driver-seat", Condition::Tear, {}, "cloth-repair");
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
        row("air-conditioning", Condition::Inoperative, Remedy::Recharge, "aircon-service");
        row("keys", Condition::Missing, {}, "key-service");
        row("boot-interior", Condition::Odour, {}, "upholstery-clean,odour-treat");
        row("rear-door-left", Condition::Scratch, Remedy::Refinish, "panel-paint");
        row("boot-interior", Condition::Missing, Remedy::Replace, "small-part");
        row("rear-plate", Condition::Missing, Remedy::Leave, "plate-fit");
        row("engine", Condition::Leak, Remedy::Leave, "leak-cure");
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
            ruleFor(m_shipped, usualFacts(),
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

    void shipped_operations_coverTheTrade_data()
    {
        QTest::addColumn<QString>("ours");
        const auto row = [](const char* work, const char* ours) {
            QTest::newRow(work) << QString::fromLatin1(ours);
        };
        row("booking in", "arrival-check");
        row("recalls", "recall-and-certificate");
        row("mileage", "mileage-check");
        row("wash before looking", "first-wash");
        row("fault memory", "fault-read");
        row("inspection on the lift", "lift-inspection");
        row("tyre measuring", "tyre-survey");
        row("belts and airbags", "belt-check,walk-round-check");
        row("paint depth", "paint-depth");
        row("road test", "road-test");
        row("annual test", "annual-test");
        row("oil service", "oil-service");
        row("brake pads", "brake-pads");
        row("brake discs", "brake-discs");
        row("brake fluid", "brake-fluid");
        row("suspension", "suspension-part");
        row("steering", "steering-part");
        row("alignment", "wheel-alignment");
        row("new tyre", "tyre-fit");
        row("puncture", "tyre-repair");
        row("balancing", "wheel-balance");
        row("wheels off", "wheels-off");
        row("wheels on", "wheels-on");
        row("tightness, second person", "wheel-fixing-check");
        row("tightness after the drive", "wheel-recheck");
        row("pressure sensors", "valve-sensor-check");
        row("wipers and washers", "wiper-replace");
        row("lamps", "lamp-replace");
        row("dull headlamps", "lamp-restore");
        row("headlamp aim", "headlamp-aim");
        row("12-volt battery", "battery-service");
        row("air conditioning", "aircon-service");
        row("high voltage", "traction-battery-check,high-voltage-repair");
        row("leaks", "leak-cure");
        row("exhaust", "exhaust-repair");
        row("belt replacement", "belt-part");
        row("last scan", "recheck-scan");
        row("keys", "key-service");
        row("number plates", "plate-fit");
        row("screen chip", "chip-fill");
        row("bonded glass", "windscreen-fit,pane-replace");
        row("calibration", "camera-calibration");
        row("water leaks", "water-check");
        row("wheel straightness before", "wheel-inspect");
        row("kerb scuff on the spot", "wheel-spot-paint");
        row("full wheel refurbishing", "wheel-refurb");
        row("face cutting", "wheel-face-cut");
        row("wheel straightness after", "wheel-true-check");
        row("new wheel", "wheel-replace");
        row("dents without paint", "dent-push");
        row("touching in", "touch-in");
        row("flat and polish", "flat-and-polish");
        row("local paint", "panel-paint");
        row("bumper plastic", "bumper-mend");
        row("bumper paint", "bumper-paint");
        row("bumper off and on", "bumper-off-on");
        row("parking sensors", "sensor-check");
        row("body shop", "body-shop");
        row("plastic outside", "outside-trim");
        row("leather", "leather-repair");
        row("cloth", "cloth-repair");
        row("hard trim inside", "hard-trim-repair");
        row("machine polish", "machine-polish");
        row("odour", "odour-treat");
        row("wet cleaning", "upholstery-clean");
        row("valet", "full-valet");
        row("sale photos", "sale-photos");
        row("final check", "final-check");
    }

    void shipped_operations_coverTheTrade()
    {
        QFETCH(QString, ours);
        for (const QString& id : ours.split(QLatin1Char(','))) {
            const OperationSpec* operation = m_shipped.find(id);
            QVERIFY2(operation != nullptr, qPrintable(id));
            QVERIFY2(!operation->placeKinds.empty(), qPrintable(id));
            QVERIFY2(!operation->readings.empty() || !operation->photos.empty(), qPrintable(id));
        }
    }

    void shipped_suggestions_areAnsweredByARule()
    {
        for (const PlaceInfo& info : allPlaces()) {
            const std::vector<Condition> conditions = usualConditions(m_shipped, info.id);
            QVERIFY2(!conditions.empty(), qPrintable(info.id.text));
            for (const Condition condition : conditions)
                for (const std::optional<Severity> severity :
                     {std::optional<Severity>{}, std::optional(Severity::Light),
                      std::optional(Severity::Heavy)}) {
                    const std::vector<Remedy> remedies =
                        usualRemedies(m_shipped, usualFacts(), info.id, condition, severity);
                    QVERIFY(!remedies.empty());
                    for (const Remedy remedy : remedies)
                        QVERIFY2(
                            ruleFor(m_shipped, usualFacts(),
                                    finding(info.id, condition, {remedy}, severity)),
                            qPrintable(QStringLiteral("%1 %2 %3")
                                           .arg(info.id.text, nameOf(condition), nameOf(remedy))));
                }
        }
        QVERIFY(usualConditions(m_shipped, PlaceId{"no-such-place"}).empty());
        QVERIFY(
            usualRemedies(m_shipped, {}, PlaceId{"no-such-place"}, Condition::Mark, {}).empty());
    }

    void shipped_suggestions_beginWithTheUsual()
    {
        const auto first = [this](const char* place, Condition condition,
                                  std::optional<Severity> severity) {
            return usualRemedies(m_shipped, {}, PlaceId{QString::fromLatin1(place)}, condition,
                                 severity)
                .front();
        };
        QCOMPARE(usualConditions(m_shipped, PlaceId{"wheel-front-left"}).front(),
                 Condition::Kerbed);
        QCOMPARE(usualConditions(m_shipped, PlaceId{"bonnet"}).front(), Condition::Chip);
        QCOMPARE(first("wheel-front-left", Condition::Kerbed, Severity::Light), Remedy::TouchIn);
        QCOMPARE(first("wheel-front-left", Condition::Kerbed, Severity::Heavy), Remedy::Refurbish);
        QCOMPARE(first("wheel-front-left", Condition::Kerbed, {}), Remedy::Refurbish);
        QCOMPARE(first("windscreen", Condition::Crack, {}), Remedy::Replace);
        QCOMPARE(first("rear-seats", Condition::Stain, Severity::Light), Remedy::Clean);
    }

    void houseCatalogue_otherCountryAndOwnLimit_fillWhatIsNamed()
    {
        SiteState site;
        site.rules.country = QStringLiteral("US");
        site.rules.limits = {{QStringLiteral("tread-house"), 40}};
        const Catalogue here = houseCatalogue(m_shipped, site);
        const auto& readings = here.find("tyre-survey")->readings;
        const auto tread =
            std::ranges::find(readings, QStringLiteral("tread-inner"), &ReadingSpec::key);
        QCOMPARE(tread->limits.at(0).owner, LimitOwner::Law);
        QVERIFY(tread->limits.at(0).source.contains("state"));
        QCOMPARE(tread->limits.at(1).min, std::optional(40));
        QCOMPARE(here.tread.minTenthsMm, 40);
        // Until a house has chosen, a reading is judged all the same.
        QCOMPARE(m_shipped.tread.minTenthsMm, 30);
        for (const OperationSpec& operation : m_shipped.operations)
            for (const ReadingSpec& reading : operation.readings)
                for (const Limit& limit : reading.limits)
                    QVERIFY2(limit.min || limit.max, qPrintable(operation.id + reading.key));
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestCatalogue)
#include "tst_catalogue.moc"
