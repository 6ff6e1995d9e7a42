// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "planhands.h"
#include "support/testmain.h"

#include <QQuickWindow>

#include <algorithm>
#include <map>

using namespace ramplight;
using namespace ramplight::test;

namespace {

/// From the wall to "What if".
bool goToWhatIf(KioskBench& bench)
{
    return goToBays(bench) && bench.tap(QStringLiteral("What if")) &&
           bench.until([&] { return !bench.ofType("WhatIfScreen").empty(); },
                       QStringLiteral("what if"));
}

/// Opens a question and answers it by the chips' words, from the first row on.
bool choose(KioskBench& bench, const QString& question, const QStringList& answers)
{
    if (!bench.tap(question))
        return false;
    return std::ranges::all_of(answers, [&](const QString& answer) { return bench.tap(answer); });
}

bool lookAtIt(KioskBench& bench)
{
    const WhatIfView& view = *bench.shell().whatIf();
    return bench.tap(QStringLiteral("Look at it")) &&
           bench.until([&] { return view.considered() && !view.considering(); },
                       QStringLiteral("what would come of it"));
}

/// The entries of every car, and of the site: who changes something changes one of them.
std::map<QString, qint64> entries(KioskBench& bench)
{
    std::map<QString, qint64> all{{QStringLiteral("site"), bench.house().site().seq}};
    for (const CarCard& card : bench.house().cards())
        all[card.car.text] = card.seq;
    return all;
}

QString roleOf(const ListBase& list, int row, const char* role)
{
    return list.data(list.index(row), list.roleNames().key(role)).toString();
}

/// The days on which the house does not work, from tomorrow on.
QDate nextClosedDay(KioskBench& bench)
{
    const SiteState site = bench.house().site();
    QDate day = dayOf(bench.house().clock.now(), site.rules).addDays(1);
    while (!site.rules.week[static_cast<std::size_t>(day.dayOfWeek() - 1)].isOff())
        day = day.addDays(1);
    return day;
}

QString chipOf(KioskBench& bench, QDate day)
{
    QString words = timesOf(bench).day(day, bench.house().clock.now());
    words.front() = words.front().toUpper();
    return words;
}

} // namespace

/// What would come of a change, looked at by touch before anything is changed.
class tst_WhatIfScreen : public QObject
{
    Q_OBJECT

private slots:
    void init() { failOnQmlWarnings(); }
    void extraHours_areLookedAt_andMadeReal_data() { sizes(); }
    void extraHours_areLookedAt_andMadeReal();
    void severalChanges_areHeldAgainstThePlan_data() { sizes(); }
    void severalChanges_areHeldAgainstThePlan();
    void somebodyAway_isEnteredOnceItIsMadeReal();
    void part_thatIsHereNow_isTakenOffTheWork();
    void workOutside_isExpectedOnAnotherDay();
    void promise_isChangedWithAReason_byAManagerOnly();
    void whatIsSoAlready_movesNothing();
    void leaving_isThePlanAsItIs();
};

void tst_WhatIfScreen::extraHours_areLookedAt_andMadeReal()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::Demo);
    bench.letPlan();
    bench.show(size);
    QVERIFY(signInManager(bench));
    QVERIFY(goToWhatIf(bench));
    const WhatIfView& view = *bench.shell().whatIf();
    QCOMPARE(view.lateNow(), bench.shell().plan()->lateCount());
    QVERIFY(bench.says(QStringLiteral("What would be different?")));
    bench.shoot(QStringLiteral("what-if"));
    const auto before = entries(bench);
    const QDate day = nextClosedDay(bench);
    QVERIFY(choose(
        bench, QStringLiteral("Extra hours"),
        {QStringLiteral("Everybody"), chipOf(bench, day), QStringLiteral("08:00 to 17:00")}));
    bench.shoot(QStringLiteral("what-if-hours"));
    QVERIFY(lookAtIt(bench));
    QVERIFY(bench.untilSays(QStringLiteral("Everybody also %1 08:00 to 17:00")
                                .arg(timesOf(bench).day(day, bench.house().clock.now()))));
    // A day more of everybody mends something.
    QVERIFY(view.lateThen() < view.lateNow());
    bench.shoot(QStringLiteral("what-if-looked"));
    // What is said is what that plan has.
    const planning::HousePlan& plan = *bench.shell().plan()->plan();
    const planning::HousePlan& would = *view.would();
    const WhatIfCars& cars = *bench.shell().whatIf()->cars();
    QVERIFY(cars.rowCount() > 0);
    for (int row = 0; row < cars.rowCount(); ++row) {
        const CarId id{roleOf(cars, row, "carId")};
        const auto at = [&](const planning::HousePlan& of) {
            return of.forecasts[static_cast<std::size_t>(of.numberOf(id))].ready50;
        };
        const auto said = [&](planning::PlanMinute minute) {
            return minute == planning::never
                       ? QStringLiteral("cannot be finished")
                       : timesOf(bench).dayAndClock(plan.clock().momentOf(minute),
                                                    bench.house().clock.now());
        };
        QCOMPARE(roleOf(cars, row, "nowWords"), said(at(plan)));
        QCOMPARE(roleOf(cars, row, "thenWords"), said(at(would)));
        QCOMPARE(roleOf(cars, row, "group"),
                 at(would) < at(plan) ? QStringLiteral("Sooner") : QStringLiteral("Later"));
    }
    QCOMPARE(entries(bench), before);

    // A second, explicit step makes it real, behind the PIN.
    QVERIFY(bench.tap(roleOf(*bench.shell().whatIf()->changes(), 0, "words")));
    QVERIFY(bench.untilSays(QStringLiteral("Do it this way")));
    bench.shoot(QStringLiteral("what-if-keep"));
    QCOMPARE(entries(bench), before);
    QVERIFY(bench.tap(QStringLiteral("Do it this way")));
    QVERIFY(bench.enterPin());
    const ExtraHours hours{day, 8 * 60, 17 * 60};
    QVERIFY(bench.until(
        [&] {
            const SiteState site = bench.house().site();
            return std::ranges::all_of(planning::whatif::everybody(site), [&](PersonId id) {
                return site.person(id)->times.extra == std::vector{hours};
            });
        },
        QStringLiteral("everybody's hours")));
    QVERIFY(bench.until([&] { return bench.shell().whatIf()->changes()->rowCount() == 0; },
                        QStringLiteral("no if any more")));
    QVERIFY(isPlanned(bench));
    // The plan has the day now.
    QVERIFY(std::ranges::find(bench.shell().plan()->sheet().days, day, &SheetDay::date) !=
            bench.shell().plan()->sheet().days.end());
}

void tst_WhatIfScreen::severalChanges_areHeldAgainstThePlan()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::Demo);
    bench.letPlan();
    bench.show(size);
    QVERIFY(goToWhatIf(bench));
    const WhatIfView& view = *bench.shell().whatIf();
    const auto before = entries(bench);
    const planning::HousePlan& plan = *bench.shell().plan()->plan();
    // One more like whoever has most to do, and like the bay that has.
    const PlanSheet& sheet = bench.shell().plan()->sheet();
    const auto busiest = std::ranges::max_element(sheet.people, {}, [&](const SheetLane& lane) {
        return plan.jobsOfPerson(lane.number).size();
    });
    QVERIFY(choose(bench, QStringLiteral("One more person"),
                   {busiest->title, QStringLiteral("For good")}));
    bench.shoot(QStringLiteral("what-if-person"));
    QVERIFY(lookAtIt(bench));
    const int withOne = view.lateThen();
    QVERIFY(withOne <= view.lateNow());
    const auto bay = std::ranges::max_element(
        sheet.bays, {}, [&](const SheetLane& lane) { return plan.jobsOfBay(lane.number).size(); });
    QVERIFY(choose(bench, QStringLiteral("One more bay"),
                   {QStringLiteral("%1 %2").arg(bay->title, bay->second)}));
    QVERIFY(lookAtIt(bench));
    QCOMPARE(bench.shell().whatIf()->changes()->rowCount(), 2);
    QVERIFY(view.would()->house.people.size() == plan.house.people.size() + 1);
    QVERIFY(view.would()->house.bays.size() == plan.house.bays.size() + 1);
    bench.shoot(QStringLiteral("what-if-several"));
    // Nobody can be made to come; what can be done instead is said.
    QVERIFY(bench.tap(roleOf(*bench.shell().whatIf()->changes(), 0, "words")));
    QVERIFY(bench.untilSays(roleOf(*bench.shell().whatIf()->changes(), 0, "keepWords")));
    QVERIFY(!bench.says(QStringLiteral("Do it this way")));
    QVERIFY(bench.tap(QStringLiteral("Take it out")));
    QVERIFY(bench.until(
        [&] { return bench.shell().whatIf()->changes()->rowCount() == 1 && !view.considering(); },
        QStringLiteral("one change")));
    QVERIFY(view.would()->house.people.size() == plan.house.people.size());
    QCOMPARE(entries(bench), before);
}

void tst_WhatIfScreen::somebodyAway_isEnteredOnceItIsMadeReal()
{
    KioskBench bench(BenchHouse::Start::Demo);
    bench.letPlan();
    bench.show({1080, 1920});
    QVERIFY(signInManager(bench));
    QVERIFY(goToWhatIf(bench));
    const PlanSheet& sheet = bench.shell().plan()->sheet();
    const planning::HousePlan& plan = *bench.shell().plan()->plan();
    const auto busiest = std::ranges::max_element(sheet.people, {}, [&](const SheetLane& lane) {
        return plan.jobsOfPerson(lane.number).size();
    });
    const PersonId who{busiest->id};
    const QString name = busiest->title;
    QVERIFY(choose(bench, QStringLiteral("Somebody away"),
                   {name, QStringLiteral("Tomorrow"), QStringLiteral("A week")}));
    QVERIFY(lookAtIt(bench));
    bench.shoot(QStringLiteral("what-if-away"));
    // Nothing would be begun by them in that week.
    const planning::HousePlan& would = *bench.shell().whatIf()->would();
    const QDate leaves = dayOf(bench.house().clock.now(), bench.house().site().rules).addDays(1);
    for (const int job : would.jobsOf(who)) {
        const QDate day = would.clock().dayOf(would.plan.jobs[static_cast<std::size_t>(job)].start);
        QVERIFY2(day < leaves || day > leaves.addDays(6), qPrintable(day.toString(Qt::ISODate)));
    }
    QVERIFY(bench.house().site().person(who)->times.away.empty());
    QVERIFY(bench.tap(roleOf(*bench.shell().whatIf()->changes(), 0, "words")));
    QVERIFY(bench.tap(QStringLiteral("Do it this way")));
    QVERIFY(bench.enterPin());
    const QDate first = dayOf(bench.house().clock.now(), bench.house().site().rules).addDays(1);
    const std::vector<DaysAway> expected{{first, first.addDays(6)}};
    QVERIFY(bench.until([&] { return bench.house().site().person(who)->times.away == expected; },
                        QStringLiteral("the days away")));
}

void tst_WhatIfScreen::part_thatIsHereNow_isTakenOffTheWork()
{
    KioskBench bench(BenchHouse::Start::Demo);
    bench.letPlan();
    bench.show();
    QVERIFY(signInManager(bench));
    QVERIFY(goToWhatIf(bench));
    CarId car;
    OperationId work;
    QString chip;
    for (const CarCard& card : bench.house().cards()) {
        const CarState one = bench.house().car(card.car);
        for (const auto& [id, operation] : one.operations)
            if (operation.state == OperationState::Blocked && operation.part) {
                car = one.id;
                work = id;
                chip = QStringLiteral("%1: %2").arg(one.identity.stockNumber, operation.part->part);
            }
    }
    QVERIFY(!work.isNull());
    const PartOnOrder was = *bench.house().car(car).operation(work)->part;
    // Another day first: the order stays, with that day.
    const QDate day = dayOf(bench.house().clock.now(), bench.house().site().rules).addDays(1);
    QVERIFY(choose(bench, QStringLiteral("A part comes"), {chip, QStringLiteral("Tomorrow")}));
    bench.shoot(QStringLiteral("what-if-part"));
    QVERIFY(lookAtIt(bench));
    QVERIFY(bench.tap(roleOf(*bench.shell().whatIf()->changes(), 0, "words")));
    QVERIFY(bench.tap(QStringLiteral("Do it this way")));
    PartOnOrder due = was;
    due.due = day;
    QVERIFY(bench.until(
        [&] {
            const CarState state = bench.house().car(car);
            return state.operation(work)->state == OperationState::Blocked &&
                   state.operation(work)->part == due;
        },
        QStringLiteral("the other day")));
    QVERIFY(bench.until([&] { return bench.shell().whatIf()->changes()->rowCount() == 0; },
                        QStringLiteral("no if any more")));
    QVERIFY(isPlanned(bench));
    QVERIFY(
        choose(bench, QStringLiteral("A part comes"), {chip, QStringLiteral("It is here now")}));
    QVERIFY(lookAtIt(bench));
    QVERIFY(bench.tap(roleOf(*bench.shell().whatIf()->changes(), 0, "words")));
    QVERIFY(bench.tap(QStringLiteral("Do it this way")));
    QVERIFY(bench.until(
        [&] { return bench.house().car(car).operation(work)->state != OperationState::Blocked; },
        QStringLiteral("work that waits no longer")));
}

void tst_WhatIfScreen::workOutside_isExpectedOnAnotherDay()
{
    KioskBench bench(BenchHouse::Start::Demo);
    BenchHouse& house = bench.house();
    const QDate today = dayOf(house.clock.now(), house.site().rules);
    CarId car;
    OperationId work;
    for (const CarCard& card : house.cards())
        for (const auto& [id, operation] : house.car(card.car).operations)
            if (work.isNull() && operation.state == OperationState::Waiting &&
                operation.spec->secondPerson != SecondPerson::Check &&
                house.tries(
                    house.person(QStringLiteral("Runa")), card.car,
                    {car::SendOut{id, {"cove rims", today.addDays(5), 1, {}, false, {}}}})) {
                car = card.car;
                work = id;
            }
    QVERIFY(!work.isNull());
    bench.letPlan();
    bench.show();
    QVERIFY(signInManager(bench));
    QVERIFY(goToWhatIf(bench));
    QVERIFY(isPlanned(bench));
    QVERIFY(choose(
        bench, QStringLiteral("A part comes"),
        {QStringLiteral("%1: cove rims").arg(house.car(car).identity.stockNumber), "Tomorrow"}));
    QVERIFY(lookAtIt(bench));
    QVERIFY(bench.tap(roleOf(*bench.shell().whatIf()->changes(), 0, "words")));
    QVERIFY(bench.untilSays(QStringLiteral("The work is then expected back on this day.")));
    bench.shoot(QStringLiteral("what-if-outside"));
    QVERIFY(bench.tap(QStringLiteral("Do it this way")));
    QVERIFY(bench.until(
        [&] { return house.car(car).operation(work)->outside->dueBack == today.addDays(1); },
        QStringLiteral("the other day")));
    QCOMPARE(house.car(car).operation(work)->state, OperationState::Blocked);
}

void tst_WhatIfScreen::promise_isChangedWithAReason_byAManagerOnly()
{
    KioskBench bench(BenchHouse::Start::Demo);
    bench.letPlan();
    bench.show();
    QVERIFY(goToWhatIf(bench));
    const planning::HousePlan& plan = *bench.shell().plan()->plan();
    CarId late;
    for (std::size_t car = 0; car < plan.house.cars.size(); ++car)
        if (plan.isLate(static_cast<int>(car)) && plan.forecasts[car].ready90 != planning::never)
            late = plan.house.cars[car];
    QVERIFY(!late.isEmpty());
    const CarState was = bench.house().car(late);
    const WhatIfView& view = *bench.shell().whatIf();
    QVERIFY(choose(bench, QStringLiteral("Another promise"),
                   {was.identity.stockNumber, QStringLiteral("Must be kept")}));
    bench.shoot(QStringLiteral("what-if-promise"));
    QVERIFY(lookAtIt(bench));
    QCOMPARE(bench.house().car(late).importance, PromiseImportance::Usual);
    QCOMPARE(view.would()
                 ->house.shop.cars[static_cast<std::size_t>(view.would()->numberOf(late))]
                 .weight,
             4.0);
    const QString words = roleOf(*bench.shell().whatIf()->changes(), 0, "words");
    QVERIFY(bench.tap(words));
    QVERIFY(bench.write(QStringLiteral("Why"), QStringLiteral("sold")));
    bench.shoot(QStringLiteral("what-if-keep-promise"));
    // A technician's word does not count for it.
    QString technician;
    for (const auto& [id, person] : bench.house().site().people)
        if (person.can(Right::Work) && !person.can(Right::Manage))
            technician = person.name;
    QVERIFY(bench.tap(QStringLiteral("Do it this way")));
    QVERIFY(bench.signIn(technician));
    QVERIFY(bench.until([&] { return bench.shell().whatIf()->ask()->refused(); },
                        QStringLiteral("a refusal")));
    QCOMPARE(bench.shell().whatIf()->ask()->refusalId(), idText(RefusalId::NotAllowed));
    QVERIFY(bench.untilSays(bench.shell().whatIf()->ask()->words()));
    QCOMPARE(bench.house().car(late).seq, was.seq);
    bench.shell().session()->signOut();
    QVERIFY(bench.tap(QStringLiteral("Do it this way")));
    QVERIFY(bench.signIn(QStringLiteral("Runa Talbeck")));
    QVERIFY(bench.until(
        [&] { return bench.house().car(late).importance == PromiseImportance::MustBeKept; },
        QStringLiteral("the promise")));
    QCOMPARE(bench.house().car(late).promised, was.promised);
}

// What is so already makes the same plan, to the last car.
void tst_WhatIfScreen::whatIsSoAlready_movesNothing()
{
    KioskBench bench(BenchHouse::Start::Demo);
    const PersonId who = bench.house().person(QStringLiteral("Nell"));
    const QDate tomorrow = dayOf(bench.house().clock.now(), bench.house().site().rules).addDays(1);
    bench.house().must(bench.house().person(QStringLiteral("Runa")),
                       site::SetTimes{who, {{}, {{tomorrow, tomorrow}}, {}}});
    bench.letPlan();
    bench.show({1080, 1920});
    QVERIFY(goToWhatIf(bench));
    QVERIFY(choose(bench, QStringLiteral("Somebody away"),
                   {bench.house().site().person(who)->name, QStringLiteral("Tomorrow"),
                    QStringLiteral("That day")}));
    QVERIFY(lookAtIt(bench));
    QVERIFY(bench.untilSays(QStringLiteral("No car is ready at another time.")));
    QCOMPARE(bench.shell().whatIf()->lateThen(), bench.shell().whatIf()->lateNow());
    bench.shoot(QStringLiteral("what-if-nothing"));
}

void tst_WhatIfScreen::leaving_isThePlanAsItIs()
{
    KioskBench bench(BenchHouse::Start::Demo);
    bench.letPlan();
    bench.show();
    QVERIFY(goToWhatIf(bench));
    const auto before = entries(bench);
    const planning::HousePlan* plan = bench.shell().plan()->plan().get();
    QVERIFY(choose(bench, QStringLiteral("One more bay"),
                   {QStringLiteral("%1 %2").arg(bench.shell().plan()->sheet().bays[0].title,
                                                bench.shell().plan()->sheet().bays[0].second)}));
    QVERIFY(bench.tap(QStringLiteral("Look at it")));
    // Away at once, whatever is under way.
    QVERIFY(bench.tap(QStringLiteral("Back to the plan as it is")));
    QVERIFY(bench.until([&] { return bench.ofType("WhatIfScreen").empty(); },
                        QStringLiteral("the bays")));
    QCOMPARE(bench.shell().whatIf()->changes()->rowCount(), 0);
    QVERIFY(!bench.shell().whatIf()->considering());
    QVERIFY(isPlanned(bench));
    QVERIFY(bench.shell().whatIf()->would() == nullptr);
    QVERIFY(bench.shell().plan()->plan().get() == plan);
    QCOMPARE(entries(bench), before);
}

RAMPLIGHT_TEST(QGuiApplication, tst_WhatIfScreen)
#include "tst_whatifscreen.moc"
