// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "planning/projectsearch.h"

#include "planning/activitylist.h"
#include "planning/dice.h"
#include "planning/indexing.h"
#include "planning/projectscheduler.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <unordered_set>

namespace ramplight::planning {

namespace {

// A genetic algorithm on activity lists in a steady state, each child justified twice, no two
// members with the same schedule (after Hartmann 1998; Valls, Ballestin and Quintanilla 2008).
// What is changed in a child is our own: often a short stretch of its order is drawn anew. Measured
// on 100 instances of 120 activities with 280,000 schedules: 1.25 % above the best known without
// it, 1.05 % with it; crossover at peaks of the load, children of a single pass, larger and smaller
// populations, and giving up children whose first pass is long all gained nothing.
class ProjectSearch
{
public:
    ProjectSearch(const Project& project, const Budget& budget, std::uint64_t seed)
        : m_scheduler(project)
        , m_lists(m_scheduler.precedence())
        , m_budget(budget)
        , m_dice(seed)
        , m_list(at(project.size()))
    {
        m_best.makespan = std::numeric_limits<int>::max();
    }

    ProjectSchedule run()
    {
        const int members = populationSize();
        while (!isOver()) {
            while (!isOver() && static_cast<int>(m_members.size()) < members)
                addDrawn();
            m_barren = 0;
            while (!isOver() && m_barren < barrenAtMost * members)
                addChild();
            m_members.clear();
            m_prints.clear();
            m_sameDrawn = 0;
        }
        m_best.schedules = m_scheduler.passes();
        return m_best;
    }

private:
    struct Member
    {
        std::vector<int> list;
        int makespan = 0;
        std::uint64_t print = 0; ///< of the starts
    };

    static constexpr int passesOfAChild = 3;
    static constexpr int smallestPopulation = 20;
    static constexpr int largestPopulation = 350;
    static constexpr double swapProbability = 0.1;
    static constexpr double reorderProbability = 0.4;
    static constexpr int reorderLength = 10;
    /// Children for each member without a better best: then it begins anew.
    static constexpr int barrenAtMost = 40;
    static constexpr int drawsAtMost = 2'000; ///< a small project has few different schedules

    /// Larger where there is time for many generations.
    [[nodiscard]] int populationSize() const
    {
        const double children =
            double(std::min<std::int64_t>(m_budget.schedules, 1'000'000)) / passesOfAChild;
        return std::clamp(static_cast<int>(1.2 * std::sqrt(children)), smallestPopulation,
                          largestPopulation);
    }

    [[nodiscard]] bool isOver() const
    {
        return m_best.makespan <= m_scheduler.lowerBound() ||
               (m_scheduler.passes() > 0 && m_budget.isOver(m_scheduler.passes()));
    }

    /// Half of the first members come out of each kind of generation.
    void addDrawn()
    {
        m_lists.draw(m_scheduler.latestFinishes(), m_dice, m_list);
        const bool parallel = m_dice.chance(0.5);
        const int length = parallel ? m_scheduler.parallel(m_list) : m_scheduler.serial(m_list);
        const int makespan = justified(length);
        const std::uint64_t print = printOfStarts();
        if (!m_prints.insert(print).second && ++m_sameDrawn < drawsAtMost)
            return;
        m_scheduler.writeOrder(m_list);
        m_members.push_back({m_list, makespan, print});
    }

    void addChild()
    {
        const Member& one = m_members[tournament()];
        const Member& other = m_members[tournament()];
        const int n = m_scheduler.size();
        const int length = std::max(1, static_cast<int>((0.3 + 0.4 * m_dice.share()) * n));
        const int first = m_dice.below(n - length + 1);
        m_lists.cross(one.list, other.list, first, first + length, m_list);
        if (m_dice.chance(reorderProbability)) {
            const int some = std::min(reorderLength, n);
            m_lists.reorder(m_dice.below(n - some + 1), some, m_dice, m_list);
        } else {
            m_lists.swapNeighbours(swapProbability, m_dice, m_list);
        }
        ++m_barren;
        const int makespan = justified(m_scheduler.serial(m_list));
        const std::uint64_t print = printOfStarts();
        Member& worse = m_members[loser()];
        if (worse.makespan < makespan || !m_prints.insert(print).second)
            return;
        m_prints.erase(worse.print);
        m_scheduler.writeOrder(worse.list);
        worse.makespan = makespan;
        worse.print = print;
    }

    int justified(int length)
    {
        keep(length);
        const int makespan = m_scheduler.justify();
        keep(makespan);
        return makespan;
    }

    void keep(int makespan)
    {
        if (makespan >= m_best.makespan)
            return;
        m_barren = 0;
        m_best.makespan = makespan;
        m_best.starts.assign(m_scheduler.starts().begin(), m_scheduler.starts().end());
    }

    /// FNV-1a.
    [[nodiscard]] std::uint64_t printOfStarts() const
    {
        std::uint64_t print = 1469598103934665603ULL;
        for (const int start : m_scheduler.starts()) {
            print ^= static_cast<std::uint64_t>(start);
            print *= 1099511628211ULL;
        }
        return print;
    }

    [[nodiscard]] std::size_t anyMember()
    {
        return at(m_dice.below(static_cast<int>(m_members.size())));
    }
    [[nodiscard]] std::size_t tournament()
    {
        const std::size_t a = anyMember();
        const std::size_t b = anyMember();
        return m_members[a].makespan <= m_members[b].makespan ? a : b;
    }
    [[nodiscard]] std::size_t loser()
    {
        const std::size_t a = anyMember();
        const std::size_t b = anyMember();
        return m_members[a].makespan >= m_members[b].makespan ? a : b;
    }

    ProjectScheduler m_scheduler;
    ListMaker m_lists;
    const Budget& m_budget;
    Dice m_dice;
    std::vector<int> m_list;
    std::vector<Member> m_members;
    std::unordered_set<std::uint64_t> m_prints;
    int m_sameDrawn = 0;
    int m_barren = 0; ///< children since the best got better
    ProjectSchedule m_best;
};

} // namespace

ProjectSchedule shortSchedule(const Project& project, const Budget& budget, std::uint64_t seed)
{
    return ProjectSearch(project, budget, seed).run();
}

} // namespace ramplight::planning
