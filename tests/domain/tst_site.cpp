// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "shippedcatalogue.h"
#include "support/testmain.h"
#include "workbench.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

// People with their rights, bays, house rules.
class TestSite : public QObject
{
    Q_OBJECT

private slots:
    void setUp_firstPerson_holdsAllRights()
    {
        Workbench bench;
        const SiteState site = bench.ledger.site().value();
        QCOMPARE(site.name, QStringLiteral("Kestrel Quay"));
        const Person* first = site.person(bench.manager);
        for (const auto& [right, name] : Names<Right>::table)
            QVERIFY2(first->can(right), name);
        QCOMPARE(first->name, QStringLiteral("Orla"));
        QCOMPARE(bench.ask({}, site::SetUp{"Another", false, {}, {}}, "Piers"),
                 no(RefusalId::AlreadySetUp));
    }

    void setUp_withoutAName_isRefused_data()
    {
        QTest::addColumn<QString>("house");
        QTest::addColumn<QString>("person");
        QTest::newRow("the house") << " "
                                   << "Orla";
        QTest::newRow("the first person") << "Kestrel Quay"
                                          << " ";
    }

    void setUp_withoutAName_isRefused()
    {
        QFETCH(QString, house);
        QFETCH(QString, person);
        MemoryLedger ledger;
        const StillClock clock;
        const Catalogue catalogue;
        Workshop workshop(ledger, clock, catalogue);
        const auto outcome = workshop.run(
            SiteRequest{CommandId{"c"}, {}, site::SetUp{house, false, {}, {}}, person});
        QVERIFY(!outcome);
        QCOMPARE(std::get<Refusal>(outcome.error()).id, RefusalId::NameMissing);
        QVERIFY(!ledger.site().value().isSetUp());
    }

    void changes_needTheRightToManage_data()
    {
        QTest::addColumn<int>("command");
        QTest::newRow("add a person") << 0;
        QTest::newRow("change a person") << 1;
        QTest::newRow("give a badge") << 2;
        QTest::newRow("reset a PIN") << 3;
        QTest::newRow("add a bay") << 4;
        QTest::newRow("house rules") << 5;
        QTest::newRow("qualifications") << 6;
        QTest::newRow("a tool") << 7;
        QTest::newRow("days away") << 10;
        QTest::newRow("an operation") << 8;
        QTest::newRow("a catalogue") << 9;
    }

    void changes_needTheRightToManage()
    {
        QFETCH(int, command);
        Workbench bench;
        const std::vector<SiteCommand> commands{
            site::AddPerson{{Skill::Glass}, {Right::Work}},
            site::ChangePerson{bench.painter, {Skill::Trim}, {Right::Work}, true},
            site::ChangeAccess{bench.painter, "badge"},
            site::ChangeAccess{bench.painter, "pin"},
            site::SetBay{{{}, 3, "Wash", BayKind::Valet, true}},
            site::SetHouseRules{},
            site::SetCompetence{bench.painter, {}, {"dents-without-paint"}},
            site::SetTool{{{}, "T 7", ToolKind::TorqueWrench, QDate(2031, 9, 1), true}},
            site::AdjustOperation{{"valet", {}, 450, {}, {}}},
            site::AdoptCatalogue{shippedBytes()},
            site::SetTimes{bench.painter, {{}, {{QDate(2031, 9, 1), QDate(2031, 9, 5)}}, {}}},
        };
        const SiteCommand& asked = commands.at(std::size_t(command));
        QCOMPARE(bench.ask(bench.mechanic, asked, "Lowri"), no(RefusalId::NotAllowed));
        QCOMPARE(bench.ask(PersonId{99}, asked, "Lowri"), no(RefusalId::PersonUnknown));
        QCOMPARE(bench.ask(bench.manager, asked, "Lowri"), done);
    }

    void ownPin_isChangedByAnybodyWhoWorksHere()
    {
        Workbench bench;
        QCOMPARE(bench.ask(bench.painter, site::ChangeAccess{bench.painter, "pin"}), done);
        QCOMPARE(bench.ask(bench.painter, site::ChangeAccess{bench.painter, "badge"}),
                 no(RefusalId::NotAllowed));
        bench.ask(bench.manager, site::ChangePerson{bench.painter, {}, {}, false});
        QCOMPARE(bench.ask(bench.painter, site::ChangeAccess{bench.painter, "pin"}),
                 no(RefusalId::PersonUnknown));
    }

    void lastManager_cannotBeLockedOut_data()
    {
        QTest::addColumn<bool>("active");
        QTest::addColumn<bool>("keepsRight");
        QTest::addColumn<bool>("another");
        QTest::addColumn<bool>("withPin");
        QTest::addColumn<QString>("expected");
        const QString last = no(RefusalId::LastManager);
        QTest::newRow("deactivated") << false << true << false << true << last;
        QTest::newRow("right taken") << true << false << false << true << last;
        QTest::newRow("both") << false << false << false << true << last;
        QTest::newRow("changed otherwise") << true << true << false << true << done;
        QTest::newRow("deactivated, another there") << false << true << true << true << done;
        QTest::newRow("right taken, another there") << true << false << true << true << done;
        QTest::newRow("deactivated, another has no PIN") << false << true << true << false << last;
        QTest::newRow("right taken, another has no PIN") << true << false << true << false << last;
        QTest::newRow("changed otherwise, another has no PIN")
            << true << true << true << false << done;
    }

    void lastManager_cannotBeLockedOut()
    {
        QFETCH(bool, active);
        QFETCH(bool, keepsRight);
        QFETCH(bool, another);
        QFETCH(bool, withPin);
        QFETCH(QString, expected);
        Workbench bench;
        if (!withPin)
            bench.ledger.takePinFrom(bench.checker);
        if (!another)
            // An inactive manager is none.
            QCOMPARE(bench.ask(bench.manager,
                               site::ChangePerson{bench.checker, {}, {Right::Manage}, false}),
                     done);
        std::vector<Right> rights{Right::Work};
        if (keepsRight)
            rights.push_back(Right::Manage);
        QCOMPARE(bench.ask(bench.manager, site::ChangePerson{bench.manager, {}, rights, active}),
                 expected);
    }

    void nameOfSomebodyElse_isRefused()
    {
        Workbench bench;
        const auto people = [&bench] { return bench.ledger.site().value().people; };
        QCOMPARE(bench.ask(bench.manager, site::AddPerson{}, "Lowri Penhale"), done);
        const PersonId lowri = people().rbegin()->first;
        const auto change = [&](PersonId person, const char* name, bool active = true) {
            return bench.ask(bench.manager, site::ChangePerson{person, {}, {Right::Work}, active},
                             name);
        };
        QCOMPARE(bench.ask(bench.manager, site::AddPerson{}, "lowri penhale "),
                 no(RefusalId::NameTaken));
        QCOMPARE(change(bench.painter, "Lowri Penhale"), no(RefusalId::NameTaken));
        QCOMPARE(change(lowri, "LOWRI Penhale"), done); // her own
        // Under what she signed her name still stands.
        QCOMPARE(change(lowri, "", false), done);
        const auto before = people().size();
        QCOMPARE(bench.ask(bench.manager, site::AddPerson{}, "Lowri Penhale"),
                 no(RefusalId::NameTaken));
        QCOMPARE(people().size(), before);
        QCOMPARE(bench.ask(bench.manager, site::AddPerson{}, "Lowri Penhale 2"), done);
    }

    void person_deactivated_canDoNothingMore()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const OperationId op = bench.open(id, "valet");
        bench.start(id, op, bench.painter);
        const site::ChangePerson away{bench.painter, {Skill::Valet}, {Right::Work}, false};
        QCOMPARE(bench.ask(bench.manager, away), no(RefusalId::PersonIsWorking));
        bench.must(bench.painter, id, car::PauseWork{op, {}, StopKind::Paused});
        QCOMPARE(bench.ask(bench.manager, away), done);
        for (const CarCommand& command :
             {CarCommand{car::StartWork{op}}, CarCommand{car::MoveCar{bench.lift, {}}},
              CarCommand{car::SignOff{op, {}}},
              CarCommand{car::AttachPhoto{bench.photo(), PhotoMoment::After, {}, op, {}}}})
            QCOMPARE(bench.ask(bench.painter, id, command), no(RefusalId::PersonUnknown));
        QCOMPARE(bench.ask(bench.manager, id, car::HandOver{op, bench.painter}),
                 no(RefusalId::PersonUnknown));
    }

    void plannedWork_isTheManagersWord_data()
    {
        QTest::addColumn<QString>("who");
        QTest::addColumn<QString>("person");
        QTest::addColumn<int>("bay");
        QTest::addColumn<int>("days");
        QTest::addColumn<QString>("expected");
        QTest::newRow("for somebody") << "manager"
                                      << "Ines" << 0 << 0 << done;
        QTest::newRow("in a bay") << "manager"
                                  << "" << 1 << 0 << done;
        QTest::newRow("not before") << "manager"
                                    << "" << 0 << 3 << done;
        QTest::newRow("all of it") << "manager"
                                   << "Bram" << 1 << 3 << done;
        QTest::newRow("by a mechanic") << "mechanic"
                                       << "Bram" << 0 << 0 << no(RefusalId::NotAllowed);
        QTest::newRow("without the skill") << "manager"
                                           << "Noor" << 0 << 0 << no(RefusalId::WrongSkill);
        QTest::newRow("nobody of that number")
            << "manager"
            << "nobody" << 0 << 0 << no(RefusalId::PersonUnknown);
        QTest::newRow("another kind of bay") << "manager"
                                             << "" << 2 << 0 << no(RefusalId::BayUnfit);
        QTest::newRow("no such bay") << "manager"
                                     << "" << 9 << 0 << no(RefusalId::BayUnknown);
        QTest::newRow("too far off") << "manager"
                                     << "" << 0 << 61 << no(RefusalId::ValueOutOfRange);
    }

    void plannedWork_isTheManagersWord()
    {
        QFETCH(QString, who);
        QFETCH(QString, person);
        QFETCH(int, bay);
        QFETCH(int, days);
        QFETCH(QString, expected);
        Workbench bench;
        bench.spec("inspection").bay = BayKind::Lift;
        const CarId id = bench.appraised();
        const OperationId op = bench.open(id, "inspection");
        car::PlanWork plan{op, {}, BayId{bay}, {}};
        const SiteState site = bench.ledger.site().value();
        for (const auto& [known, one] : site.people)
            if (one.name == person)
                plan.person = known;
        if (person == QLatin1String("nobody"))
            plan.person = PersonId{99};
        if (days > 0)
            plan.from = bench.clock.now().plusMinutes(days * 24 * 60);
        QCOMPARE(
            bench.ask(who == QLatin1String("manager") ? bench.manager : bench.mechanic, id, plan),
            expected);
        const Operation kept = bench.operation(id, op);
        QCOMPARE(kept.assigned, expected == done ? plan.person : PersonId{});
        QCOMPARE(kept.plannedBay, expected == done ? plan.bay : BayId{});
        QCOMPARE(kept.plannedFrom, expected == done ? plan.from : Moment{});
    }

    void plannedWork_isLeftToThePlannerAgain_butNotWhileItRuns()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const OperationId op = bench.open(id, "inspection");
        const car::PlanWork plan{op, bench.technician, bench.lift,
                                 bench.clock.now().plusMinutes(60)};
        bench.must(bench.manager, id, plan);
        // The same word again is no news.
        QVERIFY(bench.must(bench.manager, id, plan).empty());
        bench.start(id, op, bench.technician);
        QCOMPARE(bench.ask(bench.manager, id, car::PlanWork{op}), no(RefusalId::OperationRunning));
        bench.must(bench.technician, id, car::PauseWork{op, {}, StopKind::Paused});
        bench.must(bench.manager, id, car::PlanWork{op});
        QVERIFY(bench.operation(id, op).assigned.isNull());
        QVERIFY(bench.operation(id, op).plannedBay.isNull());
        QVERIFY(bench.operation(id, op).plannedFrom.isNull());
        bench.close(id, op);
        QCOMPARE(bench.ask(bench.manager, id, car::PlanWork{op}), no(RefusalId::OperationNotOpen));
    }

    void bay_set_mustHaveNameAndItsOwnNumber_data()
    {
        QTest::addColumn<int>("number");
        QTest::addColumn<QString>("name");
        QTest::addColumn<QString>("expected");
        QTest::newRow("new") << 7 << "Wash" << done;
        QTest::newRow("number taken") << 1 << "Wash" << no(RefusalId::BayNumberTaken);
        QTest::newRow("no name") << 7 << " " << no(RefusalId::NameMissing);
        QTest::newRow("no number") << 0 << "Wash" << no(RefusalId::NameMissing);
    }

    void bay_set_mustHaveNameAndItsOwnNumber()
    {
        QFETCH(int, number);
        QFETCH(QString, name);
        QFETCH(QString, expected);
        Workbench bench;
        QCOMPARE(bench.ask(bench.manager, site::SetBay{{{}, number, name, BayKind::Valet, true}}),
                 expected);
        QCOMPARE(bench.ledger.site().value().bays.size(), expected == done ? 3u : 2u);
    }

    void bay_withACarInIt_isNotClosed()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        bench.must(bench.manager, id, car::MoveCar{bench.lift, {}});
        const site::SetBay close{{bench.lift, 1, "Lift", BayKind::Lift, false}};
        QCOMPARE(bench.ask(bench.manager, close), no(RefusalId::BayTaken));
        // A car stands in the bay, not the bay in itself.
        QVERIFY2(!bench.lastWords().contains("Lift stands"), qPrintable(bench.lastWords()));
        bench.must(bench.manager, id, car::MoveCar{{}, "yard"});
        QCOMPARE(bench.ask(bench.manager, close), done);
        QCOMPARE(bench.ask(bench.manager, id, car::MoveCar{bench.lift, {}}),
                 no(RefusalId::BayUnknown));
        // Its number is free for another one.
        QCOMPARE(bench.ask(bench.manager, site::SetBay{{{}, 1, "New lift", BayKind::Lift, true}}),
                 done);
        QCOMPARE(
            bench.ask(bench.manager, site::SetBay{{BayId{99}, 9, "None", BayKind::Lift, true}}),
            no(RefusalId::BayUnknown));
    }

    void houseRules_impossible_areRefused_data()
    {
        QTest::addColumn<int>("shiftEnd");
        QTest::addColumn<int>("lock");
        QTest::addColumn<QString>("zone");
        QTest::addColumn<bool>("fine");
        QTest::newRow("as shipped") << 1050 << 120 << "Europe/London" << true;
        QTest::newRow("midnight") << 0 << 15 << "UTC" << true;
        QTest::newRow("before midnight") << 1439 << 3600 << "UTC" << true;
        QTest::newRow("no such minute") << 1440 << 120 << "UTC" << false;
        QTest::newRow("minus") << -1 << 120 << "UTC" << false;
        QTest::newRow("never signed out") << 1050 << 3601 << "UTC" << false;
        QTest::newRow("always signed out") << 1050 << 14 << "UTC" << false;
        QTest::newRow("no such zone") << 1050 << 120 << "Atlantis/Quay" << false;
    }

    void houseRules_impossible_areRefused()
    {
        QFETCH(int, shiftEnd);
        QFETCH(int, lock);
        QFETCH(QString, zone);
        QFETCH(bool, fine);
        Workbench bench;
        HouseRules rules;
        rules.shiftEndMinute = shiftEnd;
        rules.lockSeconds = lock;
        rules.timeZone = zone;
        QCOMPARE(bench.ask(bench.manager, site::SetHouseRules{rules}),
                 fine ? done : no(RefusalId::RuleOutOfRange));
        QCOMPARE(bench.ledger.site().value().rules == rules, fine || rules == HouseRules{});
    }

    void pinAlarm_isRaisedByTheHouseItself()
    {
        Workbench bench;
        QCOMPARE(bench.ask({}, site::RaisePinAlarm{bench.painter, 10}), done);
        QCOMPARE(bench.ask({}, site::RaisePinAlarm{PersonId{99}, 10}),
                 no(RefusalId::PersonUnknown));
        QCOMPARE(bench.ask({}, site::RaisePinAlarm{{}, 10, false, 5}), done);
        QCOMPARE(bench.ask({}, site::RaisePinAlarm{{}, 10}), no(RefusalId::PersonUnknown));
        QCOMPARE(bench.ask({}, site::RaisePinAlarm{{}, 10, true, 5}), no(RefusalId::PersonUnknown));
    }

    void person_changed_keepsOrTakesAName()
    {
        Workbench bench;
        bench.ask(bench.manager,
                  site::ChangePerson{bench.painter, {Skill::Trim}, {Right::Work}, true});
        QCOMPARE(bench.ledger.site().value().person(bench.painter)->name, QStringLiteral("Noor"));
        bench.ask(bench.manager,
                  site::ChangePerson{bench.painter, {Skill::Trim}, {Right::Work}, true}, "Nora");
        const SiteState site = bench.ledger.site().value();
        QCOMPARE(site.person(bench.painter)->name, QStringLiteral("Nora"));
        QVERIFY(site.person(bench.painter)->has(Skill::Trim));
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestSite)
#include "tst_site.moc"
