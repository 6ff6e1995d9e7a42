// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "planning/activitylist.h"
#include "planning/indexing.h"
#include "planning/projectscheduler.h"
#include "planning/projectsearch.h"
#include "support/testmain.h"

#include <QTest>

#include <algorithm>
#include <numeric>

using namespace ramplight::planning;

namespace {

/// Activities with edges from lower to higher numbers.
Project randomProject(std::uint64_t seed, int activities)
{
    Dice dice(seed);
    Project project;
    for (int& capacity : project.capacities)
        capacity = dice.between(3, 8);
    for (int i = 0; i < activities; ++i) {
        Activity activity{.duration = dice.between(0, 7)};
        for (std::size_t k = 0; k < project.capacities.size(); ++k)
            activity.needs[k] = dice.chance(0.5) ? dice.between(0, project.capacities[k]) : 0;
        for (int later = i + 1; later < std::min(activities, i + 6); ++later) {
            if (dice.chance(0.3))
                activity.successors.push_back(later);
        }
        project.activities.push_back(std::move(activity));
    }
    return project;
}

/// What is wrong with a schedule, moment by moment; empty when nothing is.
QString faultOf(const Project& project, std::span<const int> starts, int makespan)
{
    int last = 0;
    for (int i = 0; i < project.size(); ++i) {
        const Activity& activity = project.activities[at(i)];
        if (starts[at(i)] < 0)
            return QStringLiteral("%1 starts before the project").arg(i);
        last = std::max(last, starts[at(i)] + activity.duration);
        for (const int next : activity.successors) {
            if (starts[at(next)] < starts[at(i)] + activity.duration)
                return QStringLiteral("%1 does not wait for %2").arg(next).arg(i);
        }
    }
    if (last != makespan)
        return QStringLiteral("ends at %1, not %2").arg(last).arg(makespan);
    for (int now = 0; now < last; ++now) {
        Needs used = {};
        for (int i = 0; i < project.size(); ++i) {
            const Activity& activity = project.activities[at(i)];
            if (starts[at(i)] > now || starts[at(i)] + activity.duration <= now)
                continue;
            for (std::size_t k = 0; k < used.size(); ++k)
                used[k] += activity.needs[k];
        }
        for (std::size_t k = 0; k < used.size(); ++k) {
            if (used[k] > project.capacities[k])
                return QStringLiteral("resource %1 is over at %2").arg(k).arg(now);
        }
    }
    return {};
}

} // namespace

class TestProjects : public QObject
{
    Q_OBJECT

private slots:
    void eachPassIsFeasibleAndJustifyingNeverLengthens()
    {
        for (std::uint64_t seed = 1; seed <= 300; ++seed) {
            const Project project = randomProject(seed, 5 + static_cast<int>(seed % 40));
            ProjectScheduler scheduler(project);
            ListMaker lists(scheduler.precedence());
            Dice dice(seed);
            std::vector<int> list(at(project.size()));
            lists.draw(scheduler.latestFinishes(), dice, list);
            const auto check = [&](int makespan) {
                return faultOf(project, scheduler.starts(), makespan);
            };
            for (const bool parallel : {false, true}) {
                const int made = parallel ? scheduler.parallel(list) : scheduler.serial(list);
                QCOMPARE(check(made), QString());
                const int late = scheduler.pushLate();
                QCOMPARE(check(late), QString());
                const int early = scheduler.pushEarly();
                QCOMPARE(check(early), QString());
                QVERIFY(late <= made);
                QVERIFY(early <= late);
                QVERIFY(early >= scheduler.lowerBound());
                std::vector<int> order(list.size());
                scheduler.writeOrder(order);
                QVERIFY(scheduler.precedence().allows(order));
                QCOMPARE(scheduler.serial(order), early);
            }
        }
    }

    void changedListsStayAllowed()
    {
        for (std::uint64_t seed = 1; seed <= 200; ++seed) {
            const Project project = randomProject(seed, 30);
            const Precedence precedence(successorsOf(project));
            ListMaker lists(precedence);
            Dice dice(seed);
            const std::vector<int> urgency(30, 0);
            std::vector<int> one(30);
            std::vector<int> other(30);
            std::vector<int> child(30);
            lists.draw(urgency, dice, one);
            lists.draw(urgency, dice, other);
            QVERIFY(one != other);
            lists.cross(one, other, 8, 20, child);
            QVERIFY(precedence.allows(child));
            QVERIFY(std::equal(one.begin(), one.begin() + 8, child.begin()));
            lists.swapNeighbours(0.3, dice, child);
            QVERIFY(precedence.allows(child));
            lists.reorder(5, 20, dice, child);
            QVERIFY(precedence.allows(child));
        }
        const Precedence chain({{1}, {2}, {}});
        QVERIFY(chain.allows(std::vector{0, 1, 2}));
        QVERIFY(!chain.allows(std::vector{1, 0, 2}));
        QVERIFY(!chain.allows(std::vector{0, 1}));
    }

    // The best of all orders of a small project is found.
    void findsTheShortest()
    {
        for (std::uint64_t seed = 1; seed <= 40; ++seed) {
            const Project project = randomProject(seed, 7);
            ProjectScheduler scheduler(project);
            std::vector<int> list(7);
            std::iota(list.begin(), list.end(), 0);
            int best = 1'000'000;
            do {
                if (scheduler.precedence().allows(list))
                    best = std::min(best, scheduler.serial(list));
            } while (std::next_permutation(list.begin(), list.end()));
            const ProjectSchedule found = shortSchedule(project, {.schedules = 3'000}, seed);
            QCOMPARE(faultOf(project, found.starts, found.makespan), QString());
            QCOMPARE(found.makespan, best);
        }
    }

    void sameSeedSameAnswerAndMoreTimeIsNeverWorse()
    {
        const Project project = randomProject(5, 60);
        const ProjectSchedule one = shortSchedule(project, {.schedules = 2'000}, 7);
        const ProjectSchedule same = shortSchedule(project, {.schedules = 2'000}, 7);
        QCOMPARE(one.starts, same.starts);
        QCOMPARE(one.schedules, same.schedules);
        QVERIFY(one.schedules <= 2'002);
        const ProjectSchedule first = shortSchedule(project, {.schedules = 1}, 7);
        QVERIFY(one.makespan <= first.makespan);
        QCOMPARE(faultOf(project, first.starts, first.makespan), QString());
    }

    void stopsWhenAsked()
    {
        const Project project = randomProject(5, 60);
        int asked = 0;
        const ProjectSchedule found =
            shortSchedule(project, {.stop = [&asked] { return ++asked >= 10; }}, 1);
        QCOMPARE(faultOf(project, found.starts, found.makespan), QString());
        QVERIFY(asked >= 10 || found.makespan == lowerBound(project));
        QVERIFY(found.schedules <= 40);
    }
};

RAMPLIGHT_TEST(NoApplication, TestProjects)
#include "tst_projects.moc"
