// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "planhands.h"
#include "support/testmain.h"

#include <QQuickWindow>

#include <algorithm>

using namespace ramplight;
using namespace ramplight::test;

/// Work on the plan given to others, put elsewhere, dragged into sight.
class tst_PlannedWork : public QObject
{
    Q_OBJECT

private slots:
    void init() { failOnQmlWarnings(); }
    void job_givenToSomebodyElse_isPlannedSo();
    void job_leftAsItWas_changesNothing();
    void job_putElsewhereOnThePlan_staysThere();
    void technician_plansNothing();
    void workToCome_saysWhatOpensIt_data();
    void workToCome_saysWhatOpensIt();
    void draggedPlan_showsTheDaysToCome();
};

void tst_PlannedWork::job_givenToSomebodyElse_isPlannedSo()
{
    KioskBench bench(BenchHouse::Start::Demo);
    bench.letPlan();
    bench.show();
    Shell& shell = bench.shell();
    QVERIFY(signInManager(bench));
    QVERIFY(openMovableJob(bench));
    const CarId car{shell.plannedJob()->carId()};
    const OperationId work{shell.plannedJob()->operationId()};
    bench.shoot(QStringLiteral("plan-job"));
    const QString other = otherPerson(shell);
    QVERIFY(!other.isEmpty());
    QVERIFY(bench.tap(KioskBench::titleOf(shell.plannedJob()->people(), other)));
    // What comes of it is said before anything is changed.
    QVERIFY(isConsidered(bench));
    QVERIFY(bench.house().car(car).operation(work)->assigned.isNull());
    QVERIFY(bench.untilSays(shell.plannedJob()->becomes()));
    bench.shoot(QStringLiteral("plan-consequence"));
    const QString becomes = shell.plannedJob()->becomes();
    QVERIFY(bench.tap(QStringLiteral("Take it")));
    const PersonId given{other.toInt()};
    QVERIFY(bench.until([&] { return bench.house().car(car).operation(work)->assigned == given; },
                        QStringLiteral("the manager's word")));
    QVERIFY(bench.until(
        [&] {
            const planning::HousePlan& plan = *shell.plan()->plan();
            const int now = plan.numberOf(car, work);
            return now >= 0 && plan.house.people[static_cast<std::size_t>(
                                   plan.plan.jobs[static_cast<std::size_t>(now)].person)] == given;
        },
        QStringLiteral("a plan that keeps it")));
}

void tst_PlannedWork::job_leftAsItWas_changesNothing()
{
    KioskBench bench(BenchHouse::Start::Demo);
    bench.letPlan();
    bench.show({1080, 1920});
    Shell& shell = bench.shell();
    QVERIFY(openMovableJob(bench));
    const CarId car{shell.plannedJob()->carId()};
    const qint64 seq = bench.house().car(car).seq;
    const QString later = shell.plannedJob()->times()->rows().back().choiceId;
    QVERIFY(bench.tap(KioskBench::titleOf(shell.plannedJob()->times(), later)));
    QVERIFY(isConsidered(bench));
    // It is put off by days: its car is ready later, and that is said.
    QVERIFY(!shell.plannedJob()->shifts().isEmpty());
    QVERIFY(bench.says(shell.plannedJob()->shifts().front()));
    bench.shoot(QStringLiteral("plan-consequence"));
    QVERIFY(bench.tap(QStringLiteral("Leave it")));
    QVERIFY(!shell.plannedJob()->differs());
    QVERIFY(bench.tap(QStringLiteral("Close")));
    QCOMPARE(bench.house().car(car).seq, seq);
}

void tst_PlannedWork::job_putElsewhereOnThePlan_staysThere()
{
    KioskBench bench(BenchHouse::Start::Demo);
    bench.letPlan();
    bench.show();
    Shell& shell = bench.shell();
    QVERIFY(signInManager(bench));
    QVERIFY(openMovableJob(bench));
    const CarId car{shell.plannedJob()->carId()};
    const OperationId work{shell.plannedJob()->operationId()};
    const QString other = otherPerson(shell);
    QVERIFY(bench.tap(QStringLiteral("Show where")));
    QVERIFY(
        bench.until([&] { return bench.ofType("PlanLanes").front()->property("placing").toBool(); },
                    QStringLiteral("a place to be shown")));
    // The other person's lane, an hour before today's end.
    const PlanSheet& sheet = shell.plan()->sheet();
    const auto lane = std::ranges::find(sheet.people, other.toInt(), &SheetLane::id);
    QVERIFY(lane != sheet.people.end());
    QQuickItem* lanes = bench.ofType("PlanLanes").front();
    QQuickItem* first = nullptr;
    for (QQuickItem* day : bench.ofType("ramplight::PlanDay"))
        if (day->property("day").toInt() == 0)
            first = day;
    QVERIFY(first != nullptr);
    const double hour = first->width() * 60 / (sheet.days[0].closes - sheet.days[0].opens);
    const double y = lanes->property("headHeight").toReal() +
                     (static_cast<double>(lane - sheet.people.begin()) + 0.5) *
                         lanes->property("laneHeight").toReal();
    bench.tapAt(first->mapToScene({first->width() - hour, y}));
    QVERIFY(isConsidered(bench));
    QVERIFY(bench.tap(QStringLiteral("Take it")));
    QVERIFY(bench.until(
        [&] { return bench.house().car(car).operation(work)->assigned.value == other.toInt(); },
        QStringLiteral("the manager's word")));
    const Operation kept = *bench.house().car(car).operation(work);
    QCOMPARE(kept.plannedFrom, startOf(sheet.days[0].date, bench.house().site().rules)
                                   .plusMinutes(sheet.days[0].closes - 60));
}

void tst_PlannedWork::technician_plansNothing()
{
    KioskBench bench(BenchHouse::Start::Demo);
    bench.letPlan();
    bench.show();
    Shell& shell = bench.shell();
    QVERIFY(openMovableJob(bench));
    const CarId car{shell.plannedJob()->carId()};
    const qint64 seq = bench.house().car(car).seq;
    QVERIFY(bench.tap(KioskBench::titleOf(shell.plannedJob()->people(), otherPerson(shell))));
    QVERIFY(isConsidered(bench));
    QVERIFY(bench.tap(QStringLiteral("Take it")));
    // Who asks is asked for; a technician's word is refused, and said so on the sheet.
    QString technician;
    for (const auto& [id, person] : bench.house().site().people)
        if (person.can(Right::Work) && !person.can(Right::Manage))
            technician = person.name;
    QVERIFY(bench.signIn(technician));
    QVERIFY(bench.until([&] { return shell.plannedJob()->ask()->refused(); },
                        QStringLiteral("a refusal")));
    QCOMPARE(shell.plannedJob()->ask()->refusalId(), idText(RefusalId::NotAllowed));
    QVERIFY(bench.untilSays(shell.plannedJob()->ask()->words()));
    QCOMPARE(bench.house().car(car).seq, seq);
}

void tst_PlannedWork::workToCome_saysWhatOpensIt_data()
{
    sizes();
}

// What is planned before it is open has nothing to open yet: it says what it is and what it is for.
void tst_PlannedWork::workToCome_saysWhatOpensIt()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::Demo);
    bench.letPlan();
    bench.show(size);
    Shell& shell = bench.shell();
    QVERIFY(goToBays(bench));
    QVERIFY(showPlan(bench, QStringLiteral("By person")));
    const planning::HousePlan& plan = *shell.plan()->plan();
    int job = -1;
    for (const SheetBar& bar : shell.plan()->sheet().byPerson.front())
        if (plan.isForeseen(bar.job))
            job = bar.job;
    QVERIFY2(job >= 0, "something of today is not open yet");
    QVERIFY(touchJob(bench, job));
    const PlannedJob& chosen = *shell.plannedJob();
    const planning::ShopJob& one = plan.house.shop.jobs[static_cast<std::size_t>(job)];
    QCOMPARE(chosen.title(), one.title);
    QVERIFY(chosen.foreseen());
    const std::vector<int>& openers = plan.house.openers.at(job);
    QVERIFY(!openers.empty());
    for (const int opener : openers)
        QVERIFY2(chosen.foreseenWords().contains(
                     plan.house.shop.jobs[static_cast<std::size_t>(opener)].title),
                 qPrintable(chosen.foreseenWords()));
    QVERIFY(bench.untilSays(chosen.foreseenWords()));
    bench.shoot(QStringLiteral("plan-to-come"));
    QVERIFY(!bench.says(QStringLiteral("To the operation")));
    QVERIFY(!bench.says(QStringLiteral("Show where")));
    QVERIFY(bench.ofType("PlanChoice").empty());
    const CarId car{chosen.carId()};
    QVERIFY(bench.tap(QStringLiteral("To the car")));
    QVERIFY(bench.until([&] { return shell.car()->loaded() && shell.car()->carId() == car.text; },
                        QStringLiteral("its car")));
}

void tst_PlannedWork::draggedPlan_showsTheDaysToCome()
{
    KioskBench bench(BenchHouse::Start::Demo);
    bench.letPlan();
    bench.show({1080, 1920});
    QVERIFY(goToBays(bench));
    QVERIFY(showPlan(bench, QStringLiteral("By bay")));
    const auto leftOf = [&](int day) {
        for (QQuickItem* item : bench.ofType("ramplight::PlanDay"))
            if (item->property("day").toInt() == day)
                return item->mapToScene({}).x();
        return double(bench.window()->width());
    };
    const double before = leftOf(1);
    bench.drag({950, 800}, {350, 800});
    QVERIFY(bench.until([&] { return leftOf(1) < before - 400; }, QStringLiteral("the next day")));
}

RAMPLIGHT_TEST(QGuiApplication, tst_PlannedWork)
#include "tst_plannedwork.moc"
