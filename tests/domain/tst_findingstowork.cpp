// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "goldenappraisal.h"
#include "shippedcatalogue.h"

#include "domain/explain.h"
#include "domain/findingrules.h"
#include "domain/worktotals.h"
#include "support/testmain.h"

#include <QDir>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

namespace {

const QString goldenDir = QStringLiteral(RAMPLIGHT_SOURCE_DIR "/tests/domain/golden/");
const QString line = QStringLiteral("==\n");

QString textOf(const QString& name)
{
    QFile file(goldenDir + name);
    return file.open(QIODevice::ReadOnly) ? QString::fromUtf8(file.readAll()) : QString();
}

CarFacts factsAfterIf(const QStringList& words)
{
    CarFacts facts = carWith({});
    const qsizetype from = words.indexOf(QStringLiteral("if"));
    for (qsizetype i = from + 1; from >= 0 && i < words.size(); ++i)
        if (const auto fact = fromName<Fact>(words.at(i)))
            facts.has.push_back(*fact);
    return facts;
}

} // namespace

// What comes of findings by the shipped catalogue: whole appraisals, each rule by itself, work
// that covers other work, work that the appraiser takes out, and the reasons given.
class TestFindingsToWork : public QObject
{
    Q_OBJECT

private:
    const Catalogue& m_shipped = theShippedCatalogue();

    struct Shop : Workbench
    {
        Shop() { catalogue = theShippedCatalogue(); }

        FindingId found(const CarId& id, const QString& words)
        {
            const std::vector<CarEvent> events = must(
                appraiser, id, car::RecordFinding{findingOf(words.split(QLatin1Char(' '))), {}});
            for (const CarEvent& event : events)
                if (const auto* recorded = std::get_if<FindingRecorded>(&event))
                    return recorded->finding;
            return {};
        }
    };

    [[nodiscard]] QString decidedBy(const QString& text) const
    {
        const QStringList words = text.split(QLatin1Char(' '), Qt::SkipEmptyParts);
        const FindingData data = findingOf(words);
        if (data.place.isEmpty())
            return QStringLiteral("not a finding: %1").arg(text);
        const FindingRule* rule = ruleFor(m_shipped, factsAfterIf(words), data);
        return rule == nullptr ? QStringLiteral("none") : rule->id;
    }

private slots:
    void appraisal_played_comesOutAsWritten_data()
    {
        QTest::addColumn<QString>("name");
        const QStringList names = QDir(goldenDir).entryList({QStringLiteral("[0-9]*.txt")});
        QVERIFY(names.size() >= 40);
        for (const QString& name : names)
            QTest::newRow(qPrintable(name)) << name;
    }

    // RAMPLIGHT_WRITE_GOLDEN=1 writes what comes out now; read the difference before keeping it.
    void appraisal_played_comesOutAsWritten()
    {
        QFETCH(QString, name);
        const QString text = textOf(name);
        const QString upper = text.section(line, 0, 0);
        const QString outcome = outcomeOf(upper);
        if (qEnvironmentVariableIsSet("RAMPLIGHT_WRITE_GOLDEN")) {
            QFile file(goldenDir + name);
            QVERIFY(file.open(QIODevice::WriteOnly));
            file.write((upper + line + outcome).toUtf8());
            return;
        }
        const QStringList wanted = text.section(line, 1).split(QLatin1Char('\n'));
        const QStringList got = outcome.split(QLatin1Char('\n'));
        for (qsizetype i = 0; i < std::max(wanted.size(), got.size()); ++i)
            QCOMPARE(got.value(i), wanted.value(i));
    }

    void rule_eachOne_firesAndDoesNotFire_data()
    {
        QTest::addColumn<QString>("fires");
        QTest::addColumn<QString>("not_");
        QTest::addColumn<QString>("instead");
        for (const QString& row :
             textOf(QStringLiteral("rules.txt")).split(QLatin1Char('\n'), Qt::SkipEmptyParts)) {
            if (row.startsWith(QLatin1Char('#')))
                continue;
            const QString rest = row.section(QStringLiteral(": "), 1);
            const QString miss = rest.section(QStringLiteral(" | "), 1);
            QTest::newRow(qPrintable(row.section(QStringLiteral(": "), 0, 0)))
                << rest.section(QStringLiteral(" | "), 0, 0)
                << miss.section(QStringLiteral(" -> "), 0, 0)
                << miss.section(QStringLiteral(" -> "), 1);
        }
    }

    void rule_eachOne_firesAndDoesNotFire()
    {
        QFETCH(QString, fires);
        QFETCH(QString, not_);
        QFETCH(QString, instead);
        const QString rule = QString::fromLatin1(QTest::currentDataTag());
        QCOMPARE(decidedBy(fires), rule);
        QVERIFY(instead != rule);
        QCOMPARE(decidedBy(not_), instead);
    }

    void rule_allOfThem_haveARowAndWords()
    {
        const QStringList rows = textOf(QStringLiteral("rules.txt")).split(QLatin1Char('\n'));
        for (const FindingRule& rule : m_shipped.rules) {
            QVERIFY2(std::ranges::any_of(
                         rows, [&](const QString& row) { return row.startsWith(rule.id + ": "); }),
                     qPrintable(rule.id));
            QVERIFY2(!rule.why.isEmpty(), qPrintable(rule.id));
        }
    }

    void covered_findingCorrectedAway_isDoneByItselfAgain()
    {
        Shop shop;
        const CarId id = shop.bringIn();
        const FindingId scuff = shop.found(id, "front-bumper scuff heavy refinish");
        const FindingId mark = shop.found(id, "front-bumper mark trace polish");
        QVERIFY(shop.open(id, "flat-and-polish").isNull());
        const Operation paint = shop.operation(id, shop.open(id, "bumper-paint"));
        QCOMPARE(paint.findings, (std::vector<FindingId>{scuff, mark}));
        shop.must(shop.appraiser, id,
                  car::CorrectFinding{scuff, {}, false, "it was dirt", shop.photo()});
        QVERIFY(shop.open(id, "bumper-paint").isNull());
        const OperationId polish = shop.open(id, "flat-and-polish");
        QVERIFY(!polish.isNull());
        QCOMPARE(shop.operation(id, polish).findings, std::vector<FindingId>{mark});
    }

    void runFlats_notedLater_areNotRepaired()
    {
        Shop shop;
        const CarId id = shop.appraised();
        const FindingId nail = shop.found(id, "tyre-rear-left flat light repair");
        const OperationId repair = shop.open(id, "tyre-repair");
        const CarFacts before = shop.car(id).facts;
        CarFacts runFlats = before;
        runFlats.has.push_back(Fact::RunFlats);
        // A new tyre does what the repair did, and more: nothing of safety goes.
        shop.must(shop.appraiser, id,
                  car::CorrectFacts{runFlats, "they are run-flats", shop.photo()});
        QCOMPARE(shop.state(id, repair), OperationState::Withdrawn);
        const OperationId fit = shop.open(id, "tyre-fit", "tyre-rear-left");
        QCOMPARE(shop.operation(id, fit).findings, std::vector{nail});
        QCOMPARE(shop.car(id).finding(nail)->rule, QStringLiteral("tyre-puncture-run-flat"));
        // To do with less is no one person's word.
        const car::CorrectFacts back{before, "they are not", shop.photo()};
        QCOMPARE(shop.ask(shop.appraiser, id, back), no(RefusalId::SecondPersonNeeded));
        shop.must(shop.checker, id, back);
        QCOMPARE(shop.state(id, fit), OperationState::Withdrawn);
        const OperationId again = shop.open(id, "tyre-repair");
        QCOMPARE(shop.operation(id, again).findings, std::vector{nail});
    }

    void radar_notedLater_sendsTheBumperToTheBodyShop()
    {
        Shop shop;
        const CarId id = shop.appraised();
        const FindingId crack = shop.found(id, "front-bumper crack moderate repair");
        const OperationId mend = shop.open(id, "bumper-mend");
        CarFacts facts = shop.car(id).facts;
        facts.has.push_back(Fact::FrontRadar);
        shop.must(shop.appraiser, id, car::CorrectFacts{facts, "a radar behind it", shop.photo()});
        QCOMPARE(shop.state(id, mend), OperationState::Withdrawn);
        QCOMPARE(shop.operation(id, mend).withdrawnWhy, QStringLiteral("a radar behind it"));
        QVERIFY(!shop.open(id, "body-shop").isNull());
        QCOMPARE(shop.car(id).finding(crack)->rule, QStringLiteral("refer-radar-front"));
    }

    void faceCutWheels_notedLater_keepTheWayInThatBothNeed()
    {
        Shop shop;
        const CarId id = shop.bringIn();
        const FindingId kerbed = shop.found(id, "wheel-front-left kerbed moderate refurbish");
        const OperationId off = shop.open(id, "wheels-off");
        const OperationId refurb = shop.open(id, "wheel-refurb");
        CarFacts facts = shop.car(id).facts;
        facts.has.push_back(Fact::FaceCutWheels);
        shop.must(shop.appraiser, id, car::CorrectFacts{facts, "cut on the lathe", {}});
        QCOMPARE(shop.state(id, refurb), OperationState::Withdrawn);
        QVERIFY(!shop.open(id, "wheel-face-cut").isNull());
        QCOMPARE(shop.open(id, "wheels-off"), off);
        QCOMPARE(shop.operation(id, off).findings, std::vector{kerbed});
        // What was taken out stays out as long as the rules want nothing more.
        shop.must(shop.appraiser, id,
                  car::TakeOut{shop.open(id, "wheel-face-cut"), "sold as seen"});
        facts.keys = 1;
        shop.must(shop.appraiser, id, car::CorrectFacts{facts, "one came", {}});
        QVERIFY(shop.car(id).finding(kerbed)->disclosed);
        QVERIFY(shop.open(id, "wheel-face-cut").isNull());
    }

    void covering_openedLater_takesThePlanIn()
    {
        Shop shop;
        const CarId id = shop.bringIn();
        const FindingId worn = shop.found(id, "brakes-front worn light");
        const OperationId pads = shop.open(id, "brake-pads");
        const FindingId shakes = shop.found(id, "brakes-front vibration moderate");
        QCOMPARE(shop.state(id, pads), OperationState::Withdrawn);
        const OperationId discs = shop.open(id, "brake-discs");
        QCOMPARE(shop.operation(id, discs).findings, (std::vector<FindingId>{shakes, worn}));
        QVERIFY(!shop.holds(id).empty());
    }

    void covered_inHand_isLeftToWhoDoesIt()
    {
        Shop shop;
        const CarId id = shop.appraised();
        shop.close(id, shop.open(id, "arrival-check"));
        shop.close(id, shop.open(id, "first-wash"));
        shop.clock.pass(30);
        shop.found(id, "front-bumper mark trace polish");
        const OperationId polish = shop.open(id, "flat-and-polish");
        shop.start(id, polish, shop.painter);
        shop.found(id, "front-bumper scuff heavy refinish");
        QCOMPARE(shop.state(id, polish), OperationState::InHand);
        QVERIFY(!shop.open(id, "bumper-paint").isNull());
    }

    void takeOut_suggestedWork_disclosesItsFindings()
    {
        Shop shop;
        const CarId id = shop.bringIn();
        const FindingId kerbed = shop.found(id, "wheel-front-left kerbed light refurbish");
        const OperationId refurb = shop.open(id, "wheel-refurb");
        const OperationId off = shop.open(id, "wheels-off");
        // What only gives access goes with the last that wanted it, never before.
        QCOMPARE(shop.ask(shop.appraiser, id, car::TakeOut{off, "no need"}),
                 no(RefusalId::NotWithdrawable));
        QCOMPARE(shop.ask(shop.appraiser, id, car::TakeOut{refurb, " "}),
                 no(RefusalId::ReasonMissing));
        QCOMPARE(shop.ask(shop.mechanic, id, car::TakeOut{refurb, "no"}),
                 no(RefusalId::NotAllowed));
        shop.must(shop.appraiser, id, car::TakeOut{refurb, "sold as seen"});
        QCOMPARE(shop.state(id, refurb), OperationState::Withdrawn);
        QCOMPARE(shop.state(id, off), OperationState::Withdrawn);
        QVERIFY(shop.car(id).finding(kerbed)->disclosed);
        // Changed for something else: taken out, and other work opened by hand.
        shop.must(shop.appraiser, id,
                  car::OpenOperation{"wheel-spot-paint", PlaceId{"wheel-front-left"}, "cheaper"});
        QVERIFY(!shop.open(id, "wheel-spot-paint").isNull());
    }

    void takeOut_safetyOrBaselineOrLate_isRefused()
    {
        Shop shop;
        const CarId id = shop.bringIn();
        shop.found(id, "brakes-front worn light");
        shop.found(id, "rear-bumper scuff light refinish");
        QCOMPARE(shop.ask(shop.appraiser, id, car::TakeOut{shop.open(id, "brake-pads"), "no"}),
                 no(RefusalId::SafetyCannotBeLeft));
        QCOMPARE(shop.ask(shop.appraiser, id, car::TakeOut{shop.open(id, "full-valet"), "no"}),
                 no(RefusalId::NotWithdrawable));
        QCOMPARE(shop.ask(shop.appraiser, id, car::TakeOut{OperationId{999}, "no"}),
                 no(RefusalId::OperationUnknown));
        shop.must(shop.appraiser, id, car::FinishAppraisal{});
        QCOMPARE(shop.ask(shop.appraiser, id, car::TakeOut{shop.open(id, "bumper-paint"), "no"}),
                 no(RefusalId::AlreadyAppraised));
    }

    void beside_roadTestInHand_nothingElseStarts()
    {
        Shop shop;
        const CarId id = shop.appraised();
        const OperationId arrival = shop.open(id, "arrival-check");
        shop.close(id, arrival);
        OperationSpec road = *shop.catalogue.find("road-test");
        OperationSpec wash = *shop.catalogue.find("first-wash");
        QVERIFY(!mayRunBeside(road, wash));
        QVERIFY(!mayRunBeside(wash, road));
        QVERIFY(mayRunBeside(road, *shop.catalogue.find("recall-and-certificate")));
        QVERIFY(mayRunBeside(wash, *shop.catalogue.find("tyre-survey")));
        // Sprayed and washed at once would spoil both: the painter waits.
        shop.close(id, shop.open(id, "first-wash"));
        shop.clock.pass(30);
        shop.found(id, "rear-door-left scratch moderate refinish");
        const OperationId paint = shop.open(id, "panel-paint");
        const OperationId survey = shop.open(id, "tyre-survey");
        shop.start(id, survey, shop.mechanic);
        shop.must(shop.painter, id, car::ReadCautions{paint});
        QCOMPARE(shop.ask(shop.painter, id, car::StartWork{paint}), no(RefusalId::NotYet));
        QVERIFY2(shop.lastWords().contains("beside"), qPrintable(shop.lastWords()));
        shop.must(shop.mechanic, id, car::PauseWork{survey, shop.mechanic});
        shop.must(shop.painter, id, car::StartWork{paint});
    }

    void totals_ofOpenWork_countPlacesAndMaterials()
    {
        Shop shop;
        const CarId id = shop.bringIn();
        const WorkTotals before = totalsOf(openWork(shop.car(id)));
        shop.found(id, "wheel-front-left kerbed moderate refurbish");
        shop.found(id, "wheel-front-right kerbed moderate refurbish");
        const CarState car = shop.car(id);
        const OperationSpec& off = *shop.catalogue.find("wheels-off");
        const Operation& lift = *car.operation(shop.open(id, "wheels-off"));
        QCOMPARE(off.minutesPer, MinutesPer::Place);
        QCOMPARE(minutesOf(car, lift).usual, 2 * off.minutes.usual);
        const WorkTotals after = totalsOf(openWork(car));
        const int refurb = shop.catalogue.find("wheel-refurb")->minutes.usual;
        QCOMPARE(after.minutes - before.minutes, 2 * off.minutes.usual + 2 * refurb);
        QCOMPARE(after.withoutMaterial - before.withoutMaterial, 3);
        QCOMPARE(after.materialMinor, 0);
        std::vector<Prospect> priced = openWork(car);
        priced.front().materialMinor = 450;
        QCOMPARE(totalsOf(priced).materialMinor, 450);
        QCOMPARE(totalsOf(priced).withoutMaterial, after.withoutMaterial - 1);
    }

    void workByHand_isOpenedWhereItCanBeDone()
    {
        Shop shop;
        const CarId id = shop.bringIn();
        const car::OpenOperation wrong{"tyre-fit", at("roof"), "worn"};
        QCOMPARE(shop.ask(shop.manager, id, wrong), no(RefusalId::WrongPlace));
        QCOMPARE(shop.lastWords(), QStringLiteral("This is not work for: roof. It is for: tyres."));
        shop.must(shop.manager, id, car::OpenOperation{"tyre-fit", at("tyre-rear-left"), "worn"});
        // What concerns the car as a whole can be asked for it, whatever it is done to.
        const OperationSpec& gas = *shop.catalogue.find("aircon-service");
        QVERIFY(gas.isFor(PlaceKind::Electrical) && gas.isFor(PlaceKind::WholeCar));
        QVERIFY(!gas.isFor(PlaceKind::Tyre));
    }

    void sprayedWork_thatTheShiftCutsShort_isKnown()
    {
        Shop shop;
        const CarId id = shop.bringIn();
        shop.found(id, "wheel-front-left kerbed moderate refurbish");
        const CarState car = shop.car(id);
        Operation refurb = *car.operation(shop.open(id, "wheel-refurb"));
        const Moment now = shop.clock.now();
        const int all = refurb.spec->minutes.usual + refurb.spec->wait.usual;
        QVERIFY(refurb.spec->wait.usual > 0);
        QCOMPARE(readyAbout(car, refurb, now), now.plusMinutes(all));
        QVERIFY(outlastsShift(car, refurb, now, now.plusMinutes(all - 1)));
        QVERIFY(!outlastsShift(car, refurb, now, now.plusMinutes(all)));
        // What was done already counts, running or not.
        Segment begun;
        begun.start = now;
        refurb.segments.push_back(begun);
        const Moment later = now.plusMinutes(5);
        QCOMPARE(readyAbout(car, refurb, later), now.plusMinutes(all));
        const Operation lift = *car.operation(shop.open(id, "wheels-off"));
        QVERIFY(lift.spec->overnight);
        QVERIFY(!outlastsShift(car, lift, now, now));
    }

    void explained_car_saysFindingRuleAndOrder()
    {
        Shop shop;
        const CarId id = shop.bringIn();
        shop.found(id, "wheel-front-left kerbed moderate refurbish");
        shop.must(shop.manager, id,
                  car::OpenOperation{"machine-polish", wholeCar(), "shown at the front"});
        shop.found(id, "rear-bumper scuff light leave");
        const QString text = explainText(shop.car(id), shop.catalogue, {});
        for (const char* said :
             {"near side front wheel: scuffed on a kerb, moderate", "rule wheel-refurb",
              "the appraiser wants it refurbished", "waits for", "take the wheels off",
              "brings       look over and measure after work on the wheel, balance", "every car",
              "added by hand: shown at the front", "Left and told: rear bumper"})
            QVERIFY2(text.contains(QString::fromLatin1(said), Qt::CaseInsensitive), said);
        const std::vector<OperationId> order = workOrder(shop.car(id));
        QCOMPARE(order.size(), shop.car(id).openOperations().size());
        QCOMPARE(shop.car(id).operation(order.back())->spec->id, QStringLiteral("final-check"));
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestFindingsToWork)
#include "tst_findingstowork.moc"
