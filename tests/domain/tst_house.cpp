// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "shippedcatalogue.h"
#include "support/testmain.h"
#include "workbench.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;
Q_DECLARE_METATYPE(OperationAdjustment)

// What the house decides for itself: limits, tools, qualifications, its own catalogue.
class TestHouse : public QObject
{
    Q_OBJECT

private slots:
    void houseRules_ofTheCatalogue_mustBeThere_data()
    {
        QTest::addColumn<QString>("country");
        QTest::addColumn<QString>("limit");
        QTest::addColumn<int>("value");
        QTest::addColumn<bool>("fine");
        QTest::newRow("another country") << "IE"
                                         << "" << 0 << true;
        QTest::newRow("no such country") << "ZZ"
                                         << "" << 0 << false;
        QTest::newRow("own limit") << "GB"
                                   << "tread-house" << 35 << true;
        QTest::newRow("no such limit") << "GB"
                                       << "tread-dream" << 35 << false;
        QTest::newRow("the country's own") << "GB"
                                           << "tread-legal" << 10 << false;
        QTest::newRow("below nothing") << "GB"
                                       << "tread-house" << -1 << false;
    }

    void houseRules_ofTheCatalogue_mustBeThere()
    {
        QFETCH(QString, country);
        QFETCH(QString, limit);
        QFETCH(int, value);
        QFETCH(bool, fine);
        Workbench bench;
        withCountries(bench.catalogue);
        HouseRules rules;
        rules.country = country;
        if (!limit.isEmpty())
            rules.limits = {{limit, value}};
        QCOMPARE(bench.ask(bench.manager, site::SetHouseRules{rules}),
                 fine ? done : no(RefusalId::RuleOutOfRange));
        QCOMPARE(bench.ledger.site().value().rules == rules, fine);
    }

    void houseLimit_setTwice_isRefused()
    {
        Workbench bench;
        withCountries(bench.catalogue);
        HouseRules rules;
        rules.limits = {{"tread-house", 30}, {"tread-house", 40}};
        QCOMPARE(bench.ask(bench.manager, site::SetHouseRules{rules}),
                 no(RefusalId::RuleOutOfRange));
    }

    void openedOperation_keepsTheLimitsUnderWhichItWasOpened()
    {
        Workbench bench;
        withCountries(bench.catalogue);
        std::vector<Limit>& tread = bench.spec("tyre-survey").readings.front().limits;
        tread = {named("tread-legal"), named("tread-house")};
        const CarId before = bench.appraised();
        HouseRules rules;
        rules.country = QStringLiteral("IE");
        rules.limits = {{"tread-house", 40}};
        QCOMPARE(bench.ask(bench.manager, site::SetHouseRules{rules}), done);
        const CarId after = bench.appraised();
        const auto limitsOf = [&](const CarId& id) {
            return bench.operation(id, bench.open(id, "tyre-survey")).spec->readings.front().limits;
        };
        QCOMPARE(limitsOf(before).at(0).min, 16);
        QCOMPARE(limitsOf(before).at(0).owner, LimitOwner::Law);
        QCOMPARE(limitsOf(before).at(1).min, 30);
        QCOMPARE(limitsOf(after).at(0).min, 17);
        QCOMPARE(limitsOf(after).at(1).min, 40);
        // 3.5 mm is good on the car that came under the old rule, and not on the next.
        for (const auto& [id, outcome] : {std::pair{before, ReadingOutcome::Inside},
                                          std::pair{after, ReadingOutcome::Outside}}) {
            const OperationId op = bench.open(id, "tyre-survey");
            bench.start(id, op, bench.wheels);
            bench.must(bench.wheels, id,
                       car::TakeReading{op, "tread", at("tyre-front-left"), number(35)});
            QCOMPARE(bench.operation(id, op).readings.front().outcome, outcome);
            bench.must(bench.wheels, id, car::PauseWork{op, {}, StopKind::Paused});
            bench.clock.pass(5);
        }
    }

    void tool_set_mustHaveNumberAndDate_data()
    {
        QTest::addColumn<int>("id");
        QTest::addColumn<QString>("number");
        QTest::addColumn<QDate>("due");
        QTest::addColumn<QString>("expected");
        const QDate day(2031, 9, 1);
        QTest::newRow("new") << 0 << "T 8" << day << done;
        QTest::newRow("changed") << 1 << "T 7 b" << day << done;
        QTest::newRow("as it is") << 1 << "T 7" << day << done;
        QTest::newRow("no number") << 0 << " " << day << no(RefusalId::NameMissing);
        QTest::newRow("no date") << 0 << "T 8" << QDate() << no(RefusalId::FieldMissing);
        QTest::newRow("number taken") << 0 << "t 7" << day << no(RefusalId::ToolNumberTaken);
        QTest::newRow("no such tool") << 9 << "T 8" << day << no(RefusalId::ToolUnknown);
    }

    void tool_set_mustHaveNumberAndDate()
    {
        QFETCH(int, id);
        QFETCH(QString, number);
        QFETCH(QDate, due);
        QFETCH(QString, expected);
        Workbench bench;
        bench.tool("T 7", ToolKind::TorqueWrench, QDate(2031, 9, 1));
        const int appends = bench.ledger.appends();
        const Tool tool{ToolId{id}, number, ToolKind::TorqueWrench, due, true};
        QCOMPARE(bench.ask(bench.manager, site::SetTool{tool}), expected);
        const SiteState site = bench.ledger.site().value();
        QCOMPARE(site.tools.size(), id == 0 && expected == done ? 2u : 1u);
        if (expected == done)
            QCOMPARE(site.tool(ToolId{id == 0 ? 2 : 1})->number, number);
        // What is so already leaves no entry.
        QCOMPARE(bench.ledger.appends() > appends, expected == done && number != "T 7");
    }

    void competence_set_isWhatThePersonHoldsFromThenOn()
    {
        Workbench bench;
        const HeldQualification spraying{Qualification::Spraying, QDate(2032, 1, 1)};
        const HeldQualification glass{Qualification::GlassBonding, QDate(2031, 6, 1)};
        const site::SetCompetence both{bench.painter, {spraying, glass}, {"smart", "pdr", "pdr"}};
        QCOMPARE(bench.ask(bench.manager, both), done);
        const Person held = *bench.ledger.site().value().person(bench.painter);
        QCOMPARE(held.qualifications.size(), 2u);
        QCOMPARE(held.held(Qualification::Spraying)->until, QDate(2032, 1, 1));
        QCOMPARE(held.specialities, QStringList({"pdr", "smart"}));
        const int appends = bench.ledger.appends();
        QCOMPARE(bench.ask(bench.manager, both), done);
        QCOMPARE(bench.ledger.appends(), appends);
        QCOMPARE(bench.ask(bench.manager, site::SetCompetence{bench.painter, {glass}, {}}), done);
        const Person less = *bench.ledger.site().value().person(bench.painter);
        QVERIFY(less.held(Qualification::Spraying) == nullptr);
        QVERIFY(less.specialities.isEmpty());
        QCOMPARE(bench.ask(bench.manager,
                           site::SetCompetence{bench.painter, {{Qualification::Spraying, {}}}, {}}),
                 no(RefusalId::FieldMissing));
    }

    void times_set_areThePersonsFromThenOn()
    {
        Workbench bench;
        const PersonTimes times{
            usualWeek(),
            {{QDate(2031, 9, 8), QDate(2031, 9, 8)}, {QDate(2031, 6, 2), QDate(2031, 6, 13)}},
            {{QDate(2031, 6, 14), 8 * 60, 12 * 60}}};
        QCOMPARE(bench.ask(bench.manager, site::SetTimes{bench.painter, times}), done);
        const PersonTimes kept = bench.ledger.site().value().person(bench.painter)->times;
        QCOMPARE(kept.away.front().first, QDate(2031, 6, 2)); // in order
        QCOMPARE(kept.extra, times.extra);
        const int appends = bench.ledger.appends();
        QCOMPARE(bench.ask(bench.manager, site::SetTimes{bench.painter, times}), done);
        QCOMPARE(bench.ledger.appends(), appends);
        QCOMPARE(bench.ask(bench.manager, site::SetTimes{PersonId{99}, times}),
                 no(RefusalId::PersonUnknown));
        QCOMPARE(bench.ask(bench.manager, site::SetTimes{bench.painter, {}}), done);
        QVERIFY(bench.ledger.site().value().person(bench.painter)->times.away.empty());
    }

    void timesOfOnePerson_joinWhatTouches()
    {
        const QDate day(2031, 5, 12);
        PersonTimes times = with(PersonTimes{}, DaysAway{day, day.addDays(1)});
        times = with(times, DaysAway{day.addDays(5), day.addDays(6)});
        QCOMPARE(times.away.size(), std::size_t{2});
        times = with(times, DaysAway{day.addDays(2), day.addDays(4)});
        QVERIFY(times.away == (std::vector<DaysAway>{{day, day.addDays(6)}}));
        times = with(times, ExtraHours{day, 17 * 60, 19 * 60});
        times = with(times, ExtraHours{day.addDays(1), 19 * 60, 20 * 60});
        QCOMPARE(times.extra.size(), std::size_t{2});
        times = with(times, ExtraHours{day, 18 * 60, 21 * 60});
        QVERIFY(times.extra == (std::vector<ExtraHours>{{day, 17 * 60, 21 * 60},
                                                        {day.addDays(1), 19 * 60, 20 * 60}}));
        QCOMPARE(hourWords(7 * 60 + 5), QStringLiteral("07:05"));
    }

    void hours_thatCannotBe_areRefused_data()
    {
        QTest::addColumn<WeekHours>("week");
        QTest::addColumn<bool>("fine");
        const auto row = [](const char* name, const DayHours& monday, bool fine) {
            WeekHours week = usualWeek();
            week.front() = monday;
            QTest::newRow(name) << week << fine;
        };
        row("a short day", {8 * 60, 12 * 60, 0, 0}, true);
        row("a day off", {0, 0, 0, 0}, true);
        row("open till midnight", {8 * 60, 24 * 60, 0, 0}, true);
        row("closes before it opens", {17 * 60, 8 * 60, 0, 0}, false);
        row("into the next day", {20 * 60, 26 * 60, 0, 0}, false);
        row("a break before it opens", {8 * 60, 12 * 60, 7 * 60, 9 * 60}, false);
        QTest::newRow("six days") << WeekHours(6, DayHours{480, 1020, 0, 0}) << false;
        QTest::newRow("never") << WeekHours(7) << false;
    }

    void hours_thatCannotBe_areRefused()
    {
        QFETCH(WeekHours, week);
        QFETCH(bool, fine);
        Workbench bench;
        const QString expected = fine ? done : no(RefusalId::RuleOutOfRange);
        HouseRules rules;
        rules.week = week;
        rules.closed = {QDate(2031, 12, 25)};
        QCOMPARE(bench.ask(bench.manager, site::SetHouseRules{rules}), expected);
        QCOMPARE(bench.ledger.site().value().rules == rules, fine);
        QCOMPARE(bench.ask(bench.manager, site::SetTimes{bench.painter, {week, {}, {}}}), expected);
    }

    void timesOfAPerson_thatCannotBe_areRefused()
    {
        Workbench bench;
        const QDate day(2031, 9, 1);
        for (const PersonTimes& times :
             {PersonTimes{{}, {{day, day.addDays(-1)}}, {}}, PersonTimes{{}, {{{}, day}}, {}},
              PersonTimes{{}, {}, {{day, 600, 600}}}, PersonTimes{{}, {}, {{{}, 600, 660}}},
              PersonTimes{{}, {}, {{day, 600, 25 * 60}}}})
            QCOMPARE(bench.ask(bench.manager, site::SetTimes{bench.painter, times}),
                     no(RefusalId::RuleOutOfRange));
    }

    void adjustment_thatCannotBe_isRefused_data()
    {
        QTest::addColumn<OperationAdjustment>("own");
        QTest::addColumn<QString>("expected");
        const QString range = no(RefusalId::RuleOutOfRange);
        const auto row = [](const char* name, OperationAdjustment own, const QString& expected) {
            QTest::newRow(name) << own << expected;
        };
        row("minutes", {"tyre-survey", Minutes{5, 10, 20}, {}, {}, {}}, done);
        row("falling minutes", {"tyre-survey", Minutes{5, 30, 20}, {}, {}, {}}, range);
        row("no minutes", {"tyre-survey", Minutes{0, 0, 20}, {}, {}, {}}, range);
        row("material", {"tyre-survey", {}, 1250, {}, {}}, done);
        row("material below nothing", {"tyre-survey", {}, -1, {}, {}}, range);
        row("own limit", {"tyre-survey", {}, {}, {{"tread", 35, {}}}, {}}, done);
        row("no such reading", {"tyre-survey", {}, {}, {{"depth", 35, {}}}, {}}, range);
        row("the other end", {"tyre-survey", {}, {}, {{"tread", {}, 35}}, {}}, range);
        row("a limit of the car", {"inspection", {}, {}, {{"disc", 35, {}}}, {}}, range);
        row("a photo", {"tyre-survey", {}, {}, {}, {{PhotoMoment::After, "the four"}}}, done);
        row("a photo of nothing", {"tyre-survey", {}, {}, {}, {{PhotoMoment::After, " "}}}, range);
        row("no such operation", {"gold-plating", {}, 1, {}, {}}, no(RefusalId::KindUnknown));
    }

    void adjustment_thatCannotBe_isRefused()
    {
        QFETCH(OperationAdjustment, own);
        QFETCH(QString, expected);
        Workbench bench;
        QCOMPARE(bench.ask(bench.manager, site::AdjustOperation{own}), expected);
        QCOMPARE(bench.ledger.site().value().adjustments.size(), expected == done ? 1u : 0u);
    }

    void adjustment_holdsForWhatIsOpenedAfterwards()
    {
        Workbench bench;
        const CarId before = bench.appraised();
        const OperationAdjustment own{"tyre-survey",
                                      Minutes{5, 10, 20},
                                      1250,
                                      {{"tread", 35, {}}},
                                      {{PhotoMoment::After, "the four"}}};
        QCOMPARE(bench.ask(bench.manager, site::AdjustOperation{own}), done);
        const CarId after = bench.appraised();
        const OperationSpec old = bench.operation(before, bench.open(before, "tyre-survey")).spec;
        const OperationSpec changed = bench.operation(after, bench.open(after, "tyre-survey")).spec;
        QCOMPARE(old.minutes.usual, 20);
        QVERIFY(!old.materialMinor);
        QCOMPARE(changed.minutes.usual, 10);
        QCOMPARE(changed.materialMinor, 1250);
        QCOMPARE(changed.readings.front().limits.front().min, 35);
        QCOMPARE(changed.photos.size(), old.photos.size() + 1);
        // Taken back.
        QCOMPARE(bench.ask(bench.manager, site::AdjustOperation{{"tyre-survey", {}, {}, {}, {}}}),
                 done);
        QVERIFY(bench.ledger.site().value().adjustments.empty());
        const CarId last = bench.appraised();
        QCOMPARE(*bench.operation(last, bench.open(last, "tyre-survey")).spec, old);
    }

    void askedPhotos_areAskedOfAllWorkOnTheCar()
    {
        Workbench bench;
        HouseRules rules;
        rules.askPhotos = {PhotoMoment::After};
        QCOMPARE(bench.ask(bench.manager, site::SetHouseRules{rules}), done);
        const CarId id = bench.appraised();
        const auto photosOf = [&](const char* kind) {
            return bench.operation(id, bench.open(id, kind)).spec->photos.size();
        };
        QCOMPARE(photosOf("valet"), 1u);
        QCOMPARE(photosOf("inspection"), 2u); // its own is during the work
        QCOMPARE(photosOf("final-check"), 0u);
        QCOMPARE(photosOf("arrival-check"), 0u);
    }

    void neverLeft_byTheCatalogue_whateverTheSkill()
    {
        Workbench bench;
        bench.spec("arrival-check").neverLeft = true;
        const CarId id = bench.appraised();
        QCOMPARE(bench.ask(bench.manager, id,
                           car::LeaveAsIs{bench.open(id, "arrival-check"), "other papers"}),
                 no(RefusalId::NeverLeftHere));
        QVERIFY2(bench.lastWords().contains("rrival"), qPrintable(bench.lastWords()));
        QCOMPARE(bench.ask(bench.manager, id, car::LeaveAsIs{bench.open(id, "valet"), "dusty"}),
                 done);
    }

    void neverLeft_isFinishedAfterAll()
    {
        Workbench bench;
        HouseRules rules;
        rules.neverLeft = {Skill::Valet};
        QCOMPARE(bench.ask(bench.manager, site::SetHouseRules{rules}), done);
        const CarId id = bench.appraised();
        QCOMPARE(bench.ask(bench.manager, id, car::LeaveAsIs{bench.open(id, "valet"), "dusty"}),
                 no(RefusalId::NeverLeftHere));
        rules.neverLeft = {Skill::Checks};
        QCOMPARE(bench.ask(bench.manager, site::SetHouseRules{rules}),
                 no(RefusalId::RuleOutOfRange));
        rules.neverLeft = {Skill::SmartRepair};
        QCOMPARE(bench.ask(bench.manager, site::SetHouseRules{rules}), done);
        QCOMPARE(bench.ask(bench.manager, id, car::LeaveAsIs{bench.open(id, "valet"), "dusty"}),
                 done);
    }

    void catalogue_withAFault_isNotTakenAtAll()
    {
        Workbench bench;
        QByteArray bad = shippedBytes();
        bad.replace("\"skill\": \"glass\"", "\"skill\": \"magic\"");
        QCOMPARE(bench.ask(bench.manager, site::AdoptCatalogue{bad}),
                 no(RefusalId::CatalogueFaulty));
        QVERIFY2(bench.lastWords().contains("skill"), qPrintable(bench.lastWords()));
        QVERIFY(!bench.ledger.site().value().adopted.catalogue);
        QCOMPARE(bench.ask(bench.manager, site::AdoptCatalogue{"no catalogue"}),
                 no(RefusalId::CatalogueFaulty));
    }

    void catalogue_takenIn_decidesUntilTheShippedOneIsBack()
    {
        Workbench bench;
        const QByteArray bytes = shippedBytes();
        const CatalogueReading shipped = readCatalogue(bytes);
        QCOMPARE(bench.ask(bench.manager, site::AdoptCatalogue{bytes}), done);
        const SiteState site = bench.ledger.site().value();
        QVERIFY(site.adopted.catalogue);
        QCOMPARE(*site.adopted.catalogue, shipped.catalogue);
        const CarId id = bench.bringIn();
        QStringList kinds;
        for (const auto& [number, operation] : bench.car(id).operations) {
            kinds.append(operation.spec->id);
            QCOMPARE(operation.catalogueHash, shipped.catalogue.hash);
        }
        QVERIFY2(kinds.size() > 3, qPrintable(kinds.join(' ')));
        const int appends = bench.ledger.appends();
        QCOMPARE(bench.ask(bench.manager, site::AdoptCatalogue{bytes}), done);
        QCOMPARE(bench.ledger.appends(), appends);
        QCOMPARE(bench.ask(bench.manager, site::AdoptCatalogue{}), done);
        QVERIFY(!bench.ledger.site().value().adopted.catalogue);
        const CarId next = bench.bringIn();
        QVERIFY(!bench.open(next, "tyre-survey").isNull());
    }

private:
    static Limit named(const char* name)
    {
        Limit limit;
        limit.named = QString::fromLatin1(name);
        return limit;
    }

    /// Two countries with their legal tread, and the house's own.
    static void withCountries(Catalogue& catalogue)
    {
        NamedLimit legal;
        legal.name = QStringLiteral("tread-legal");
        legal.title = QStringLiteral("Legal tread");
        legal.unit = Unit::Millimetre;
        legal.decimals = 1;
        legal.owner = LimitOwner::Law;
        legal.source = QStringLiteral("verify locally");
        legal.min = 16;
        Country here;
        here.id = QStringLiteral("GB");
        here.limits = {legal};
        Country there = here;
        there.id = QStringLiteral("IE");
        there.limits.front().min = 17;
        catalogue.countries = {here, there};
        NamedLimit own = legal;
        own.name = QStringLiteral("tread-house");
        own.title = QStringLiteral("Tread that the house asks");
        own.owner = LimitOwner::House;
        own.min = 30;
        catalogue.houseLimits = {own};
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestHouse)
#include "tst_house.moc"
