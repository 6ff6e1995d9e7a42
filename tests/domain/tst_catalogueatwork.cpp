// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "shippedcatalogue.h"
#include "support/testmain.h"
#include "workbench.h"

#include "domain/catalogue.h"

#include <QRandomGenerator>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

// The shipped catalogue under the real rules: every command through the workshop, until the car is
// signed to sale.
class TestCatalogueAtWork : public QObject
{
    Q_OBJECT

private:
    struct Shop : Workbench
    {
        Shop()
        {
            catalogue = theShippedCatalogue();
            trimmer = hire(QStringLiteral("Edda"), {Skill::Trim}, {Right::Work});
            for (const PersonId person : {painter, wheels}) {
                QStringList all;
                for (const OperationSpec& spec : catalogue.operations)
                    if (!spec.speciality.isEmpty())
                        all.append(spec.speciality);
                const auto held = ledger.site().value().person(person)->qualifications;
                ask(manager, site::SetCompetence{person, held, all});
            }
        }

        PersonId trimmer;

        /// Kinds in the order in which they were closed; empty when the car got stuck.
        QStringList work(const CarId& id)
        {
            QStringList closed;
            for (int round = 0; round < 300; ++round) {
                const CarState state = car(id);
                if (state.openOperations().empty())
                    return closed;
                const Operation* next = nullptr;
                for (const Operation* operation : state.openOperations())
                    if (next == nullptr && !awaitsFollowUp(state, *operation) &&
                        whyNotYet(state, *operation, ledger.site().value().rules, clock.now())
                            .isEmpty())
                        next = operation;
                if (next == nullptr) {
                    clock.pass(30);
                    continue;
                }
                const QString kind = next->spec->id;
                const OperationId number = next->id;
                close(id, number, next->spec->skill == Skill::Trim ? trimmer : PersonId{});
                if (state.operation(number) == nullptr || operation(id, number).isOpen())
                    return {};
                closed.append(kind);
            }
            return {};
        }

        /// A reading of it was bad, and what that opened is not done.
        static bool awaitsFollowUp(const CarState& state, const Operation& operation)
        {
            return std::ranges::any_of(state.openOperations(), [&](const Operation* other) {
                return std::ranges::any_of(operation.readings, [&](const Reading& reading) {
                    return std::ranges::find(other->fromReadings, reading.id) !=
                           other->fromReadings.end();
                });
            });
        }

        void foundWith(const CarId& id, const char* place, Condition condition,
                       std::vector<Remedy> remedies)
        {
            FindingData data = finding(place, condition);
            data.remedies = std::move(remedies);
            must(appraiser, id, car::RecordFinding{data, {}});
        }
    };

    /// Closed, and the last time not before another.
    static bool closedAfter(const CarState& car, const char* kind, const Operation& other)
    {
        return std::ranges::any_of(car.operations, [&](const auto& entry) {
            const Operation& o = entry.second;
            return o.spec->id == QLatin1String(kind) && o.state == OperationState::Closed &&
                   o.closedAt >= other.closedAt;
        });
    }

    /// Signed by nobody who did the work.
    static bool checkedByAnother(const CarState& car, const char* kind, const Operation& work)
    {
        return std::ranges::any_of(car.operations, [&](const auto& entry) {
            const Operation& o = entry.second;
            return o.spec->id == QLatin1String(kind) && o.state == OperationState::Closed &&
                   o.closedAt >= work.closedAt && o.isSigned() &&
                   !work.doers().contains(o.signatures.back().by);
        });
    }

    /// The chain that some closed work did not bring to its end; empty when all did.
    static QString brokenChain(const CarState& car)
    {
        const QStringList takesWheels{"wheels-off",    "wheel-replace",  "tyre-fit",
                                      "tyre-repair",   "brake-pads",     "brake-discs",
                                      "steering-part", "suspension-part"};
        for (const auto& [id, work] : car.operations) {
            if (work.state != OperationState::Closed)
                continue;
            const QString kind = work.spec->id;
            const auto needs = [&](const char* check) { return closedAfter(car, check, work); };
            bool whole = true;
            if (takesWheels.contains(kind))
                whole = needs("wheels-on") && needs("wheel-fixing-check") && needs("road-test") &&
                        needs("wheel-recheck");
            if (kind == QStringLiteral("wheels-on"))
                whole = checkedByAnother(car, "wheel-fixing-check", work);
            if (kind == QStringLiteral("wheel-refurb") || kind == QStringLiteral("wheel-face-cut"))
                whole = checkedByAnother(car, "wheel-true-check", work) && needs("wheel-balance");
            if (kind == QStringLiteral("windscreen-fit") && car.facts.is(Fact::ScreenCamera))
                whole = needs("camera-calibration") && needs("recheck-scan");
            if (kind == QStringLiteral("bumper-paint"))
                whole = needs("sensor-check");
            if (kind == QStringLiteral("belt-part"))
                whole = needs("recheck-scan");
            if (kind == QStringLiteral("high-voltage-repair") &&
                car.facts.is(Fact::TractionBattery))
                whole = needs("traction-battery-check");
            if (work.spec->safety && work.spec->secondPerson != SecondPerson::Check)
                whole = whole && checkedByAnother(car, "final-check", work);
            if (!whole)
                return kind;
        }
        return {};
    }

    static FindingData anyFinding(QRandomGenerator& dice)
    {
        const auto any = [&dice](const auto& list) {
            return list[dice.bounded(quint32(std::size(list)))];
        };
        FindingData data;
        data.place = any(allPlaces()).id;
        data.condition = any(Names<Condition>::table).first;
        if (dice.bounded(3) > 0)
            data.severity = any(Names<Severity>::table).first;
        if (dice.bounded(3) > 0)
            data.remedies.push_back(any(Names<Remedy>::table).first);
        if (dice.bounded(4) == 0)
            data.sizeMm = dice.bounded(1, 300);
        if (placeInfo(data.place)->kind == PlaceKind::Tyre)
            data.treadTenthsMm = dice.bounded(10, 80);
        return data;
    }

    static void inOrder(const QStringList& closed, const QStringList& wanted)
    {
        qsizetype last = -1;
        for (const QString& kind : wanted) {
            const qsizetype at = closed.lastIndexOf(kind);
            QVERIFY2(at > last, qPrintable(kind + QStringLiteral(" in ") + closed.join(", ")));
            last = at;
        }
    }

private slots:
    void plainCar_baseline_endsAtTheSale()
    {
        Shop shop;
        const CarId id = shop.appraised();
        const QStringList closed = shop.work(id);
        QCOMPARE(closed.count("wheel-fixing-check"), 1);
        QCOMPARE(closed.count("road-test"), 1);
        QVERIFY(!closed.contains("traction-battery-check"));
        inOrder(closed, {"arrival-check", "first-wash", "lift-inspection", "wheel-fixing-check",
                         "road-test", "wheel-recheck", "full-valet", "sale-photos", "final-check"});
        shop.must(shop.seller, id, car::Release{});
    }

    void fourWheels_refurbished_shareOneRefitAndItsChecks()
    {
        Shop shop;
        const CarId id = shop.appraised(carWith({Fact::CombustionEngine, Fact::ValveSensors}));
        for (const char* wheel :
             {"wheel-front-left", "wheel-front-right", "wheel-rear-left", "wheel-rear-right"})
            shop.foundWith(id, wheel, Condition::Kerbed, {Remedy::Refurbish});
        const QStringList closed = shop.work(id);
        QCOMPARE(closed.count("wheels-off"), 1);
        QCOMPARE(closed.count("wheel-refurb"), 4);
        QCOMPARE(closed.count("wheel-true-check"), 4);
        QCOMPARE(closed.count("wheel-balance"), 4);
        QCOMPARE(closed.count("wheels-on"), 1);
        QCOMPARE(closed.count("valve-sensor-check"), 1);
        inOrder(closed, {"wheels-off", "wheel-refurb", "wheel-true-check", "wheels-on",
                         "wheel-fixing-check", "road-test", "wheel-recheck", "final-check"});
        shop.must(shop.seller, id, car::Release{});
    }

    void tyre_worn_isReplacedAndCheckedBySomebodyElse()
    {
        Shop shop;
        const CarId id = shop.appraised();
        shop.foundWith(id, "tyre-front-right", Condition::Worn, {Remedy::Replace});
        const QStringList closed = shop.work(id);
        inOrder(closed, {"tyre-fit", "wheel-balance", "wheels-on", "wheel-fixing-check",
                         "road-test", "wheel-recheck", "final-check"});
        shop.must(shop.seller, id, car::Release{});
    }

    void tread_belowTheHouse_opensAReplacementAndIsMeasuredAgain()
    {
        Shop shop;
        const CarId id = shop.appraised();
        shop.close(id, shop.open(id, "arrival-check"));
        const OperationId survey = shop.open(id, "tyre-survey");
        shop.start(id, survey, shop.mechanic);
        shop.must(shop.mechanic, id,
                  car::TakeReading{survey, QStringLiteral("tread-inner"),
                                   PlaceId{QStringLiteral("tyre-rear-left")}, number(29)});
        QVERIFY(!shop.open(id, "tyre-fit", "tyre-rear-left").isNull());
        shop.must(shop.mechanic, id, car::PauseWork{survey, shop.mechanic});
        const QStringList closed = shop.work(id);
        inOrder(closed, {"tyre-fit", "road-test", "final-check"});
        QVERIFY(closed.indexOf("tyre-fit") < closed.indexOf("tyre-survey"));
        shop.must(shop.seller, id, car::Release{});
    }

    void pad_belowTheHouse_opensPadsOnThatAxle()
    {
        Shop shop;
        const CarId id = shop.appraised();
        shop.close(id, shop.open(id, "arrival-check"));
        shop.close(id, shop.open(id, "first-wash"));
        shop.clock.pass(30);
        const OperationId inspection = shop.open(id, "lift-inspection");
        shop.start(id, inspection, shop.mechanic);
        shop.must(shop.mechanic, id,
                  car::TakeReading{inspection, QStringLiteral("lining-left"),
                                   PlaceId{QStringLiteral("brakes-front")}, number(21)});
        QVERIFY(!shop.open(id, "brake-pads", "brakes-front").isNull());
        QVERIFY(shop.open(id, "brake-pads", "brakes-rear").isNull());
        shop.must(shop.mechanic, id, car::PauseWork{inspection, shop.mechanic});
        const QStringList closed = shop.work(id);
        inOrder(closed, {"brake-pads", "lift-inspection", "road-test", "final-check"});
        shop.must(shop.seller, id, car::Release{});
    }

    void brakeFluid_begun_isFinishedAlthoughTheWaterWasMisread()
    {
        Shop shop;
        const CarId id = shop.appraised();
        shop.close(id, shop.open(id, "arrival-check"));
        shop.close(id, shop.open(id, "first-wash"));
        shop.clock.pass(20);
        const OperationId inspection = shop.open(id, "lift-inspection");
        shop.start(id, inspection, shop.mechanic);
        shop.must(shop.mechanic, id,
                  car::TakeReading{inspection, QStringLiteral("fluid-water"), {}, number(35)});
        const OperationId fluid = shop.open(id, "brake-fluid");
        shop.must(shop.mechanic, id, car::PauseWork{inspection, shop.mechanic});
        shop.start(id, fluid, shop.mechanic);
        shop.must(shop.checker, id,
                  car::CorrectReading{inspection,
                                      shop.operation(id, inspection).readings.front().id,
                                      number(15), QStringLiteral("misread"), shop.photo()});
        QCOMPARE(shop.state(id, fluid), OperationState::InHand);
        QCOMPARE(shop.ask(shop.manager, id, car::MoveCar{{}, QStringLiteral("row 2")}),
                 no(RefusalId::DoNotMove));
        shop.must(shop.mechanic, id, car::PauseWork{fluid, shop.mechanic});
        QVERIFY(shop.work(id).contains("brake-fluid"));
        shop.must(shop.seller, id, car::Release{});
    }

    void windscreen_out_isFittedAlthoughTheCrackWasNone()
    {
        Shop shop;
        const CarId id = shop.appraised();
        const FindingId crack = shop.found(id, "windscreen", Condition::Crack);
        shop.close(id, shop.open(id, "arrival-check"));
        const OperationId fit = shop.open(id, "windscreen-fit");
        shop.start(id, fit, shop.glazier);
        shop.must(shop.checker, id,
                  car::CorrectFinding{
                      crack, {}, false, QStringLiteral("a hair on the glass"), shop.photo()});
        QCOMPARE(shop.state(id, fit), OperationState::InHand);
        QCOMPARE(shop.ask(shop.manager, id, car::MoveCar{{}, QStringLiteral("row 2")}),
                 no(RefusalId::DoNotMove));
        shop.must(shop.glazier, id, car::PauseWork{fit, shop.glazier});
        QVERIFY(shop.work(id).contains("windscreen-fit"));
        shop.must(shop.seller, id, car::Release{});
    }

    void windscreen_onACameraCar_curesThenCalibrates()
    {
        Shop shop;
        const CarId id = shop.appraised(carWith({Fact::CombustionEngine, Fact::ScreenCamera}));
        shop.foundWith(id, "windscreen", Condition::Crack, {Remedy::Leave});
        const OperationId screen = shop.open(id, "windscreen-fit");
        QVERIFY(!screen.isNull());
        shop.close(id, screen);
        // The reading gave 30 minutes instead of the usual 60.
        QVERIFY(!restraints(shop.car(id), shop.clock.now()).empty());
        QCOMPARE(shop.ask(shop.manager, id, car::MoveCar{shop.lift, {}}), no(RefusalId::DoNotMove));
        shop.clock.pass(31);
        QVERIFY(restraints(shop.car(id), shop.clock.now()).empty());
        const QStringList closed = shop.work(id);
        inOrder(closed, {"camera-calibration", "recheck-scan", "final-check"});
        shop.must(shop.seller, id, car::Release{});
    }

    void steeringPart_isCountersignedAlignedAndDriven()
    {
        Shop shop;
        const CarId id = shop.appraised();
        shop.foundWith(id, "steering", Condition::Worn, {Remedy::Replace});
        const QStringList closed = shop.work(id);
        inOrder(closed, {"steering-part", "wheels-on", "wheel-alignment", "road-test",
                         "wheel-recheck", "final-check"});
        inOrder(closed, {"wheels-on", "wheel-fixing-check", "road-test"});
        const Operation& part = shop.operation(id, shop.newest(id, "steering-part"));
        QCOMPARE(part.signatures.size(), std::size_t{2});
        QVERIFY(part.signatures.at(0).by != part.signatures.at(1).by);
        shop.must(shop.seller, id, car::Release{});
    }

    void recall_open_isDoneBeforeItIsLookedUpAgain()
    {
        Shop shop;
        const CarId id = shop.appraised();
        shop.close(id, shop.open(id, "arrival-check"));
        const OperationId lookUp = shop.open(id, "recall-and-certificate");
        shop.start(id, lookUp, shop.appraiser);
        const auto recalls = [&](const char* said) {
            return car::TakeReading{lookUp, QStringLiteral("recall"), {}, answer(said)};
        };
        shop.must(shop.appraiser, id, recalls("open"));
        QVERIFY(!shop.open(id, "put-right").isNull());
        QCOMPARE(shop.ask(shop.appraiser, id, recalls("none")), no(RefusalId::NotYet));
        shop.must(shop.appraiser, id, car::PauseWork{lookUp, shop.appraiser});
        const QStringList closed = shop.work(id);
        inOrder(closed, {"put-right", "recall-and-certificate", "final-check"});
        shop.must(shop.seller, id, car::Release{});
    }

    void recall_foundAtTheFinalCheck_makesItBeCheckedAnew()
    {
        Shop shop;
        const CarId id = shop.appraised();
        const OperationId last = shop.open(id, "final-check");
        for (int round = 0; round < 100 && shop.car(id).openOperations().size() > 1; ++round) {
            const CarState state = shop.car(id);
            OperationId next;
            for (const Operation* operation : state.openOperations())
                if (operation->id != last &&
                    whyNotYet(state, *operation, {}, shop.clock.now()).isEmpty())
                    next = operation->id;
            if (next.isNull())
                shop.clock.pass(30);
            else
                shop.close(id, next);
        }
        shop.start(id, last, shop.checker);
        shop.must(shop.checker, id,
                  car::TakeReading{last, QStringLiteral("recall-again"), {}, answer("open")});
        QVERIFY(!shop.open(id, "put-right").isNull());
        QVERIFY(!shop.operation(id, last).isRunning());
        QVERIFY(shop.operation(id, last).reading(QStringLiteral("recall-again"), {}) == nullptr);
        QCOMPARE(shop.ask(shop.checker, id, car::StartWork{last}), no(RefusalId::NotYet));
        const QStringList closed = shop.work(id);
        QCOMPARE(closed, (QStringList{"put-right", "final-check"}));
        shop.must(shop.seller, id, car::Release{});
    }

    void highVoltage_hurt_isIsolatedRepairedAndLookedAtAgain()
    {
        Shop shop;
        const CarId id = shop.appraised(carWith({Fact::TractionBattery}));
        shop.foundWith(id, "traction-battery", Condition::Dent, {Remedy::Leave});
        const QStringList closed = shop.work(id);
        inOrder(closed,
                {"high-voltage-repair", "traction-battery-check", "recheck-scan", "final-check"});
        shop.must(shop.seller, id, car::Release{});
    }

    void everythingAtOnce_comesToAnEnd()
    {
        Shop shop;
        const CarId id =
            shop.appraised(carWith({Fact::CombustionEngine, Fact::TractionBattery,
                                    Fact::ScreenCamera, Fact::FrontRadar, Fact::ValveSensors}));
        shop.foundWith(id, "wheel-rear-left", Condition::Kerbed, {Remedy::Refurbish});
        shop.foundWith(id, "wheel-front-left", Condition::Crack, {Remedy::Leave});
        shop.foundWith(id, "tyre-rear-left", Condition::Bulge, {Remedy::Leave});
        shop.foundWith(id, "tyre-front-right", Condition::Flat, {Remedy::Repair});
        shop.foundWith(id, "windscreen", Condition::Crack, {Remedy::Replace});
        shop.foundWith(id, "steering", Condition::Worn, {Remedy::Replace});
        shop.foundWith(id, "suspension", Condition::Worn, {Remedy::Replace});
        shop.foundWith(id, "brakes-front", Condition::Worn, {Remedy::Replace});
        shop.foundWith(id, "brakes-rear", Condition::Crack, {Remedy::Replace});
        shop.foundWith(id, "seat-belts", Condition::Cut, {Remedy::Replace});
        shop.foundWith(id, "headlamp-left", Condition::Inoperative, {});
        shop.foundWith(id, "wipers", Condition::Worn, {});
        shop.foundWith(id, "front-bumper", Condition::Scuff, {Remedy::Refinish});
        shop.foundWith(id, "bonnet", Condition::Chip, {Remedy::TouchIn});
        shop.foundWith(id, "front-door-left", Condition::Dent, {Remedy::DentRepair});
        shop.foundWith(id, "rear-door-left", Condition::Scratch, {Remedy::Refinish});
        shop.foundWith(id, "tailgate", Condition::Scratch, {Remedy::FlatAndPolish});
        shop.foundWith(id, "driver-seat", Condition::Tear, {});
        shop.foundWith(id, "rear-seats", Condition::Odour, {});
        shop.foundWith(id, "keys", Condition::Missing, {});
        const QStringList closed = shop.work(id);
        QVERIFY(closed.size() > 45);
        QCOMPARE(closed.last(), QStringLiteral("final-check"));
        QVERIFY(shop.holds(id).empty());
        shop.must(shop.seller, id, car::Release{});
    }

    void anyFindings_releaseWaitsForEverySafetyChain_data()
    {
        QTest::addColumn<quint32>("seed");
        for (quint32 seed = 1; seed <= 12; ++seed)
            QTest::addRow("seed %u", seed) << seed;
    }

    void anyFindings_releaseWaitsForEverySafetyChain()
    {
        QFETCH(quint32, seed);
        QRandomGenerator dice(seed);
        Shop shop;
        CarFacts facts = carWith({});
        for (const auto& [fact, name] : Names<Fact>::table)
            if (dice.bounded(2) == 0)
                facts.has.push_back(fact);
        const CarId id = shop.appraised(facts);
        for (int i = dice.bounded(1, 12); i > 0; --i)
            shop.must(shop.appraiser, id, car::RecordFinding{anyFinding(dice), {}});
        for (int round = 0; round < 600; ++round) {
            const CarState state = shop.car(id);
            std::vector<OperationId> ready;
            bool safetyOpen = false;
            for (const Operation* operation : state.openOperations()) {
                safetyOpen = safetyOpen || operation->spec->safety;
                if (!Shop::awaitsFollowUp(state, *operation) &&
                    whyNotYet(state, *operation, {}, shop.clock.now()).isEmpty())
                    ready.push_back(operation->id);
            }
            if (state.openOperations().empty())
                break;
            QVERIFY2(safetyOpen, "everything for safety is closed before the last check");
            QCOMPARE(shop.ask(shop.seller, id, car::Release{}, true), no(RefusalId::CarHeld));
            if (ready.empty()) {
                shop.clock.pass(30);
                continue;
            }
            const OperationId next = ready[dice.bounded(quint32(ready.size()))];
            const bool trim = state.operation(next)->spec->skill == Skill::Trim;
            shop.close(id, next, trim ? shop.trimmer : PersonId{});
        }
        const CarState car = shop.car(id);
        QVERIFY(car.openOperations().empty());
        QCOMPARE(brokenChain(car), QString());
        shop.clock.pass(24 * 60);
        // What counts for a day only is done once more.
        if (!holds(shop.car(id), {}, shop.clock.now()).empty()) {
            QCOMPARE(shop.ask(shop.seller, id, car::Release{}), no(RefusalId::CarHeld));
            shop.must(shop.manager, id,
                      car::OpenOperation{"recall-and-certificate", wholeCar(), "a new day"});
            QVERIFY(!shop.work(id).isEmpty());
        }
        shop.must(shop.seller, id, car::Release{});
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestCatalogueAtWork)
#include "tst_catalogueatwork.moc"
