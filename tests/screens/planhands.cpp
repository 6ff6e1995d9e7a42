// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "planhands.h"

namespace ramplight::test {

bool isPlanned(KioskBench& bench)
{
    return bench.until(
        [&] { return bench.shell().plan()->planned() && !bench.shell().plan()->working(); },
        QStringLiteral("a plan"));
}

bool goToBays(KioskBench& bench)
{
    return bench.tap(QStringLiteral("Bays")) &&
           bench.until([&] { return !bench.ofType("BaysScreen").empty(); },
                       QStringLiteral("the bays")) &&
           isPlanned(bench);
}

bool signInManager(KioskBench& bench)
{
    return bench.tap(QStringLiteral("Who are you?")) &&
           bench.signIn(QStringLiteral("Runa Talbeck"));
}

bool showPlan(KioskBench& bench, const QString& by)
{
    return bench.tap(by) && bench.until([&] { return !bench.ofType("ramplight::PlanDay").empty(); },
                                        QStringLiteral("the plan"));
}

int movableJob(Shell& shell)
{
    PlannedJob& job = *shell.plannedJob();
    const planning::HousePlan& plan = *shell.plan()->plan();
    for (const SheetBar& bar : shell.plan()->sheet().byPerson.front()) {
        job.choose(bar.job);
        const bool fits = job.movable() && job.people()->rows().size() > 2 &&
                          plan.plan.jobs[static_cast<std::size_t>(bar.job)].bay >= 0;
        job.choose(-1);
        if (fits)
            return bar.job;
    }
    return -1;
}

QString otherPerson(Shell& shell)
{
    const planning::HousePlan& plan = *shell.plan()->plan();
    const int now = plan.plan.jobs[static_cast<std::size_t>(shell.plannedJob()->job())].person;
    const QString id = QString::number(plan.house.people[static_cast<std::size_t>(now)].value);
    for (const ChoiceRow& row : shell.plannedJob()->people()->rows())
        if (row.choiceId != QLatin1String("0") && row.choiceId != id)
            return row.choiceId;
    return {};
}

bool touchJob(KioskBench& bench, int job)
{
    for (QQuickItem* item : bench.ofType("ramplight::PlanDay")) {
        const auto* day = qobject_cast<PlanDay*>(item);
        const QPointF middle = day->middleOf(job);
        if (day->day() != 0 || middle.x() < 0)
            continue;
        bench.tapAt(day->mapToScene(middle));
        return bench.until([&] { return bench.shell().plannedJob()->job() == job; },
                           QStringLiteral("the job"));
    }
    QTest::qFail("the job is not on the first day", __FILE__, __LINE__);
    return false;
}

bool openMovableJob(KioskBench& bench)
{
    if (!goToBays(bench) || !showPlan(bench, QStringLiteral("By person")))
        return false;
    const int job = movableJob(bench.shell());
    return job >= 0 && touchJob(bench, job);
}

TimeWords timesOf(KioskBench& bench)
{
    return TimeWords(zoneOf(bench.house().site().rules));
}

QQuickItem* wordsIn(QQuickItem* outer, const QString& words)
{
    for (QQuickItem* item : outer->findChildren<QQuickItem*>()) {
        if (item->isVisible() && item->inherits("QQuickText") &&
            item->property("text").toString() == words)
            return item;
    }
    return nullptr;
}

QRectF placeIn(const QQuickItem* outer, const QQuickItem* item)
{
    return item->mapRectToItem(outer, {0, 0, item->property("contentWidth").toReal(),
                                       item->property("contentHeight").toReal()});
}

bool isConsidered(KioskBench& bench)
{
    return bench.until([&] { return bench.shell().plannedJob()->considered(); },
                       QStringLiteral("what comes of it"));
}

BayId bayNumbered(KioskBench& bench, int number)
{
    const SiteState site = bench.house().site();
    for (const auto& [id, bay] : site.bays)
        if (bay.active && bay.number == number)
            return id;
    return {};
}

} // namespace ramplight::test
