// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "shippedcatalogue.h"
#include "support/testmain.h"
#include "workbench.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

namespace {

const QDate houseDay(2031, 3, 1);

/// People of a small house, numbered from 1.
class SmallHouse
{
public:
    PersonId with(const char* name, std::vector<Skill> skills, std::vector<Right> rights)
    {
        Person person;
        person.id = PersonId{static_cast<int>(site.people.size()) + 1};
        person.name = QString::fromLatin1(name);
        person.skills = std::move(skills);
        person.rights = std::move(rights);
        site.people[person.id] = person;
        return person.id;
    }

    [[nodiscard]] QStringList gaps(const Catalogue& catalogue) const
    {
        return missingCombinations(site, catalogue, houseDay);
    }

    /// Those about checks that nobody is left for.
    [[nodiscard]] QStringList keptFrom(const Catalogue& catalogue) const
    {
        return gaps(catalogue).filter(QStringLiteral("so nobody is left to check"));
    }

    SiteState site;
};

const std::vector<Right> everyRight{Right::Appraise, Right::Work, Right::Check, Right::Manage,
                                    Right::Release};
const std::vector<Skill> everySkill{Skill::Mechanical, Skill::Wheels, Skill::SmartRepair,
                                    Skill::Glass,      Skill::Trim,   Skill::Valet};

/// One who may do everything but is alone with the mechanical work, and one who may not check.
SmallHouse twoInTheHouse()
{
    SmallHouse house;
    house.with("Runa", {Skill::Mechanical}, everyRight);
    house.with("Bram", {Skill::Wheels, Skill::Valet}, {Right::Work});
    return house;
}

} // namespace

// Does the house have the people? What the wall, the set-up and the command line warn about.
class TestCombinations : public QObject
{
    Q_OBJECT

private slots:
    void missingCombinations_ofTheBench_areNone()
    {
        Workbench bench;
        QCOMPARE(missingCombinations(bench.ledger.site().value(), bench.catalogue, bench.today()),
                 QStringList());
    }

    void missingCombinations_namesWhatNobodyCanDo_data()
    {
        QTest::addColumn<QString>("leaves");
        QTest::addColumn<QString>("named");
        QTest::newRow("no glazier") << "glazier"
                                    << "Fit a screen";
        QTest::newRow("nobody with wheels") << "wheels"
                                            << "Fit a tyre";
        QTest::newRow("nobody checks") << "checks"
                                       << "Wheel fixings";
        QTest::newRow("nobody releases") << "releases"
                                         << "release";
        QTest::newRow("the only checker enters figures, too") << "figures"
                                                              << "Wheel fixings";
    }

    void missingCombinations_namesWhatNobodyCanDo()
    {
        QFETCH(QString, leaves);
        QFETCH(QString, named);
        Workbench bench;
        SiteState site = bench.ledger.site().value();
        const auto drop = [](Person& person, Right right) { std::erase(person.rights, right); };
        for (auto& [id, person] : site.people) {
            if (leaves == "glazier" && person.has(Skill::Glass))
                person.active = false;
            if (leaves == "wheels" && person.has(Skill::Wheels))
                person.active = false;
            if (leaves == "checks")
                drop(person, Right::Check);
            if (leaves == "releases")
                drop(person, Right::Release);
            // One checker, nobody else with the right to enter a figure.
            if (leaves == "figures" && id != bench.checker) {
                drop(person, Right::Check);
                drop(person, Right::Manage);
            }
        }
        const QString all = missingCombinations(site, bench.catalogue, bench.today()).join('\n');
        QVERIFY2(all.contains(named), qPrintable(all));
    }

    void missingCombinations_oneInBothParts_isNoCombination()
    {
        SiteState site;
        Person alone;
        alone.id = PersonId{1};
        alone.skills = {Skill::Mechanical, Skill::Wheels, Skill::Glass, Skill::SmartRepair,
                        Skill::Valet};
        alone.rights = {Right::Appraise, Right::Work, Right::Check, Right::Manage, Right::Release};
        site.people[alone.id] = alone;
        const QString all =
            missingCombinations(site, smallCatalogue(), QDate(2031, 3, 1)).join('\n');
        for (const char* kind : {"Wheel fixings", "Wheel runs true", "Steering part"})
            QVERIFY2(all.contains(kind), qPrintable(all));
    }

    void missingCombinations_finalCheck_followsTheHouseRule_data()
    {
        QTest::addColumn<bool>("houseAllows");
        QTest::newRow("as a rule") << false;
        QTest::newRow("very small workshop") << true;
    }

    void missingCombinations_finalCheck_followsTheHouseRule()
    {
        QFETCH(bool, houseAllows);
        SiteState site;
        site.rules.finalCheckByWorker = houseAllows;
        Person alone;
        alone.id = PersonId{1};
        alone.skills = {Skill::Mechanical};
        alone.rights = {Right::Work, Right::Check, Right::Manage, Right::Release};
        site.people[alone.id] = alone;
        const QString all =
            missingCombinations(site, smallCatalogue(), QDate(2031, 3, 1)).join('\n');
        QCOMPARE(all.contains("Final check"), !houseAllows);
    }

    void missingCombinations_ofQualifications_saysWhatEnds_data()
    {
        QTest::addColumn<int>("days");
        QTest::addColumn<QString>("said");
        QTest::newRow("over") << -1 << "Piet: glass bonding ended on 25 Feb 2031.";
        QTest::newRow("the last day") << 0 << "Piet: glass bonding ends on 26 Feb 2031.";
        QTest::newRow("in a month") << 30 << "Piet: glass bonding ends on 28 Mar 2031.";
        QTest::newRow("later") << 31 << "";
    }

    void missingCombinations_ofQualifications_saysWhatEnds()
    {
        QFETCH(int, days);
        QFETCH(QString, said);
        Workbench bench;
        bench.spec("windscreen-fit").qualification = Qualification::GlassBonding;
        const QDate today(2031, 2, 26);
        bench.ask(bench.manager,
                  site::SetCompetence{
                      bench.glazier, {{Qualification::GlassBonding, today.addDays(days)}}, {}});
        QStringList gaps = missingCombinations(bench.ledger.site().value(), bench.catalogue, today);
        // What is over leaves nobody who can do it.
        QCOMPARE(gaps.filter(QStringLiteral("Fit a screen (glass, glass bonding)")).isEmpty(),
                 days >= 0);
        gaps = gaps.filter(QStringLiteral("Piet"));
        QCOMPARE(gaps, said.isEmpty() ? QStringList() : QStringList{said});
    }

    void missingCombinations_ofCosmeticWork_onlyWhereSomebodyHasTheSkill()
    {
        Workbench bench;
        bench.spec("valet").qualification = Qualification::Spraying;
        bench.ask(bench.manager, site::SetCompetence{bench.painter, {}, {}});
        const auto said = [&] {
            return missingCombinations(bench.ledger.site().value(), bench.catalogue, bench.today())
                .join('\n')
                .contains(QStringLiteral("Valet (valet, spraying)"));
        };
        QVERIFY(said());
        bench.ask(bench.manager,
                  site::ChangePerson{bench.painter, {Skill::SmartRepair}, {Right::Work}, true});
        QVERIFY(!said());
    }

    // ---- who is left to put a mistake right

    void figureThatWasReadAgainst_wantsAThirdPerson_data()
    {
        QTest::addColumn<QString>("third");
        QTest::addColumn<bool>("warned");
        QTest::newRow("two in the house") << "" << true;
        QTest::newRow("a third who may check") << "check" << false;
        QTest::newRow("a third who may manage") << "manage" << false;
        QTest::newRow("a third who may only work") << "work" << true;
    }

    void figureThatWasReadAgainst_wantsAThirdPerson()
    {
        QFETCH(QString, third);
        QFETCH(bool, warned);
        SmallHouse house;
        house.with("Runa", everySkill, everyRight);
        house.with("Bram", everySkill, everyRight);
        if (!third.isEmpty())
            house.with("Wanda", {Skill::Wheels},
                       {third == "check"    ? Right::Check
                        : third == "manage" ? Right::Manage
                                            : Right::Work});
        const QStringList said = house.gaps(smallCatalogue()).filter("nobody is left to correct");
        QCOMPARE(said.size(), warned ? 1 : 0);
        if (warned)
            QVERIFY2(said.front().contains(QStringLiteral("(Inspection (and 1 more))")),
                     qPrintable(said.front()));
    }

    void figureThatNobodyCanReadAgainst_wantsNoThirdPerson()
    {
        SmallHouse house;
        house.with("Runa", {Skill::Valet}, {Right::Appraise, Right::Work});
        house.with("Bram", {Skill::Valet}, {Right::Manage});
        QCOMPARE(house.gaps(smallCatalogue()).filter("nobody is left to correct"), QStringList());
    }

    void findingAtASafetyPlace_wantsASecondPerson_data()
    {
        QTest::addColumn<Right>("second");
        QTest::newRow("alone with it") << Right::Work;
        QTest::newRow("another appraiser") << Right::Appraise;
        QTest::newRow("a checker") << Right::Check;
        QTest::newRow("a manager") << Right::Manage;
    }

    void findingAtASafetyPlace_wantsASecondPerson()
    {
        QFETCH(Right, second);
        SmallHouse house;
        house.with("Runa", {Skill::Valet}, everyRight);
        house.with("Bram", {Skill::Valet}, {second});
        QCOMPARE(house.gaps(smallCatalogue()).filter("Nobody but Runa is here to correct").size(),
                 second == Right::Work ? 1 : 0);
    }

    // ---- who is left for a check

    void everyCar_whoseOnlyCheckerDoesItsWork_isNeverChecked()
    {
        const QStringList said = twoInTheHouse().gaps(smallCatalogue());
        QCOMPARE(
            said.front(),
            QStringLiteral("Nobody but Runa may do: Inspection, so nobody is left to check any "
                           "car: Final check. Give somebody else the right to check, or what "
                           "that work needs (mechanical)."));
        // What she does is no work on a wheel.
        QVERIFY2(said.filter(QStringLiteral("Wheel fixings")).filter("nobody is left").isEmpty(),
                 qPrintable(said.join('\n')));
    }

    void everyCar_ofTheShippedCatalogue_namesWorkAndCheck()
    {
        const Catalogue& shipped = theShippedCatalogue();
        const QStringList said = twoInTheHouse().keptFrom(shipped);
        const auto about = [&](const char* check) {
            return said.filter(QStringLiteral("any car: ") + shipped.find(check)->title);
        };
        for (const char* check : {"final-check", "wheel-fixing-check"}) {
            QCOMPARE(about(check).size(), 1);
            QVERIFY2(about(check).front().contains(QStringLiteral("Nobody but Runa may do: ") +
                                                   shipped.find("lift-inspection")->title),
                     qPrintable(about(check).front()));
        }
    }

    void everyCar_isChecked_onceSomebodyElseMayDoEither_data()
    {
        QTest::addColumn<QString>("change");
        QTest::newRow("a second mechanic") << "mechanic";
        QTest::newRow("a second checker") << "checker";
        QTest::newRow("the house lets workers make the final check") << "rule";
    }

    void everyCar_isChecked_onceSomebodyElseMayDoEither()
    {
        QFETCH(QString, change);
        SmallHouse house = twoInTheHouse();
        QCOMPARE(house.keptFrom(smallCatalogue()).size(), 1);
        if (change == "mechanic")
            house.with("Tamsin", {Skill::Mechanical}, {Right::Work});
        else if (change == "checker")
            house.with("Wanda", {}, {Right::Check});
        else
            house.site.rules.finalCheckByWorker = true;
        QCOMPARE(house.keptFrom(smallCatalogue()), QStringList());
    }

    void everyCar_whoeverLeft_countsForNothing()
    {
        SmallHouse house = twoInTheHouse();
        const PersonId wanda = house.with("Wanda", {}, {Right::Check});
        QCOMPARE(house.keptFrom(smallCatalogue()), QStringList());
        house.site.people[wanda].active = false;
        QCOMPARE(house.keptFrom(smallCatalogue()).size(), 1);
    }

    void everyCar_twoCheckers_eachAloneWithSomeWork_areBothNamed()
    {
        SmallHouse house;
        house.with("Runa", {Skill::Mechanical}, everyRight);
        house.with("Bram", {Skill::Wheels, Skill::Valet}, {Right::Work, Right::Check});
        const QStringList said = house.keptFrom(smallCatalogue());
        QVERIFY2(said.join('\n').contains(
                     QStringLiteral("Nobody but Runa may do: Inspection; nobody but Bram may do: "
                                    "Tyre survey (and 1 more), so nobody is left to check any car: "
                                    "Final check.")),
                 qPrintable(said.join('\n')));
        // Each could sign what the other does, and both of them do some.
        QCOMPARE(said.filter(QStringLiteral("Final check")).size(), 1);
    }

    void everyCar_workThatClosingOthersOpens_countsToo()
    {
        // Whoever fits the tyre that a car always gets may not check its fixings.
        Catalogue catalogue = smallCatalogue();
        for (OperationSpec& spec : catalogue.operations)
            if (spec.id == QLatin1String("tyre-survey"))
                spec.triggers = {{QStringLiteral("tyre-fit"), {}}};
        SmallHouse house;
        house.site.rules.finalCheckByWorker = true;
        house.with("Bram", {Skill::Wheels}, everyRight);
        house.with("Runa", {Skill::Mechanical, Skill::Valet}, {Right::Work});
        QCOMPARE(house.keptFrom(catalogue).filter(QStringLiteral("any car: Wheel fixings")).size(),
                 1);
        QCOMPARE(house.keptFrom(smallCatalogue())
                     .filter(QStringLiteral("a car that needs it: Wheel fixings"))
                     .size(),
                 1);
    }

    void someCars_areWarnedOf_byTheWorkThatTheyNeed()
    {
        SmallHouse house;
        house.with("Runa", everySkill, everyRight);
        house.with("Bram", {Skill::Mechanical, Skill::Wheels, Skill::Valet}, {Right::Work});
        const QStringList said = house.keptFrom(smallCatalogue());
        // Every car is fine; one with glass or paint to be done is not.
        QVERIFY2(said.filter(QStringLiteral("any car")).isEmpty(), qPrintable(said.join('\n')));
        QCOMPARE(said,
                 QStringList{QStringLiteral(
                     "Nobody but Runa may do: Fit a screen (and 2 more), so nobody is left "
                     "to check a car that needs it: Final check. Give somebody else the right "
                     "to check, or what that work needs (glass).")});
    }

    void someCars_withAFact_countWhatThatBrings()
    {
        SmallHouse house;
        house.with("Runa", everySkill, everyRight);
        house.with("Bram", everySkill, {Right::Work});
        Catalogue catalogue = smallCatalogue();
        QCOMPARE(house.keptFrom(catalogue), QStringList());
        // Only she may look at a traction battery, and cars without one need nobody for that.
        for (OperationSpec& spec : catalogue.operations)
            if (spec.id == QLatin1String("battery-check"))
                spec.qualification = Qualification::HighVoltage;
        house.site.people.at(PersonId{1}).qualifications = {{Qualification::HighVoltage, houseDay}};
        const QStringList said = house.keptFrom(catalogue);
        QCOMPARE(said.size(), 1);
        QVERIFY2(said.front().startsWith(
                     QStringLiteral("Nobody but Runa may do: Traction battery, so nobody is left "
                                    "to check a car that needs it: Final check.")),
                 qPrintable(said.front()));
    }

    void workThatNobodyCanDo_keepsNobodyFromItsCheck()
    {
        // No wheels are worked on here, so nobody needs a second person for them.
        SmallHouse house;
        house.with("Runa", {}, everyRight);
        house.with("Tamsin", {Skill::Mechanical, Skill::Valet}, {Right::Work});
        QCOMPARE(house.keptFrom(smallCatalogue()), QStringList());
        QVERIFY(house.gaps(smallCatalogue())
                    .join('\n')
                    .contains(QStringLiteral("Nobody here can do: Fit a tyre (wheels).")));
    }

    void countersignedWork_withAFigure_needsAThirdPersonForIt()
    {
        Catalogue catalogue = smallCatalogue();
        ReadingSpec torque;
        torque.key = torque.title = QStringLiteral("torque");
        torque.kind = ReadingKind::Figure;
        torque.unit = Unit::NewtonMetre;
        torque.neededFrom = LimitOwner::VehicleData;
        for (OperationSpec& spec : catalogue.operations)
            if (spec.id == QLatin1String("steering-part"))
                spec.readings.push_back(torque);
        const auto said = [&catalogue](const SmallHouse& house) {
            return !house.gaps(catalogue)
                        .filter(QStringLiteral("enter the figure for: Steering part"))
                        .isEmpty();
        };
        SmallHouse house;
        house.with("Runa", {Skill::Mechanical}, everyRight);
        house.with("Tamsin", {Skill::Mechanical}, {Right::Work, Right::Check});
        QVERIFY(said(house));
        house.with("Odo", {}, {Right::Manage});
        QVERIFY(!said(house));
    }

    void release_byTheOnlyNameUnderTheSafetyWork_isWarnedOf()
    {
        const auto said = [](const SmallHouse& house) {
            return !house.gaps(smallCatalogue()).filter("nobody else may release").isEmpty();
        };
        SmallHouse house;
        house.site.rules.finalCheckByWorker = true;
        house.with("Runa", {Skill::Mechanical, Skill::Wheels}, everyRight);
        QVERIFY(said(house));
        // A final check by a second person is a second name.
        house.site.rules.finalCheckByWorker = false;
        QVERIFY(!said(house));
        house.site.rules.finalCheckByWorker = true;
        house.with("Bram", {Skill::Wheels}, {Right::Work});
        QVERIFY(!said(house));
    }

    // The words and the rule are one: what is said not to be possible is refused, and what is not
    // said goes through.
    void warning_ofTheFinalCheck_isWhatTheRuleRefuses_data()
    {
        QTest::addColumn<bool>("secondMechanic");
        QTest::newRow("the only checker is the only mechanic") << false;
        QTest::newRow("somebody else does the work") << true;
    }

    void warning_ofTheFinalCheck_isWhatTheRuleRefuses()
    {
        QFETCH(bool, secondMechanic);
        Workbench bench;
        const auto change = [&](PersonId who, std::vector<Skill> skills,
                                std::vector<Right> rights) {
            QCOMPARE(bench.ask(bench.manager,
                               site::ChangePerson{who, std::move(skills), std::move(rights), true}),
                     done);
        };
        change(bench.technician, {Skill::Mechanical}, {Right::Work, Right::Check});
        change(bench.mechanic, {secondMechanic ? Skill::Mechanical : Skill::Trim}, {Right::Work});
        change(bench.checker, {}, {Right::Manage});
        change(bench.manager, {}, {Right::Appraise, Right::Manage, Right::Release});
        const CarId id = bench.appraised();
        // The figure of a safety item is entered by somebody else than who signs.
        for (const char* kind : {"arrival-check", "inspection", "tyre-survey", "valet"}) {
            const OperationId op = bench.open(id, kind);
            const bool mechanical = bench.operation(id, op).spec->skill == Skill::Mechanical;
            bench.close(id, op, mechanical && !secondMechanic ? bench.technician : PersonId{});
        }
        const QStringList said =
            missingCombinations(bench.ledger.site().value(), bench.catalogue, bench.today())
                .filter(QStringLiteral("any car: Final check"));
        QCOMPARE(bench.ask(bench.technician, id, car::StartWork{bench.open(id, "final-check")}),
                 secondMechanic ? done : no(RefusalId::CheckByDoer));
        QCOMPARE(said.isEmpty(), secondMechanic);
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestCombinations)
#include "tst_combinations.moc"
