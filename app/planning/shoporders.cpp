// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "planning/shoporders.h"

#include "planning/indexing.h"

#include <algorithm>
#include <iterator>
#include <limits>

namespace ramplight::planning {

ShopOrders::ShopOrders(const ShopIndex& index, std::span<const Fixed> fixed, Dice& dice,
                       double exchanges)
    : m_index(index)
    , m_start(index, Choice::SpareScarce)
    , m_work(index, Choice::SpareScarce)
    , m_moves(index, m_now, dice, exchanges)
    , m_lists(index.precedence())
{
    m_start.begin(fixed);
    const std::size_t n = shop().jobs.size();
    m_now.position.assign(n, 0);
    m_now.placements.resize(n);
    m_now.late.assign(shop().cars.size(), 0);
    m_all.resize(n);
    for (int job = 0; job < static_cast<int>(n); ++job) {
        const ShopJob& one = shop().jobs[at(job)];
        m_urgency.push_back(std::min(shop().cars[at(one.car)].promised, index.horizon()) -
                            m_index.tail(job) - one.waitMinutes - one.minutes.usual);
        if (m_start.isPlaced(job)) {
            m_now.position[at(job)] = -1;
            m_now.placements[at(job)] = m_start.placement(job);
        } else {
            ++m_size;
        }
    }
    m_states.assign(at(m_size / gap + 2), m_start);
    m_newStates = m_states;
    m_rise.assign(n, 0);
    m_newRise = m_rise;
    m_best.cost = std::numeric_limits<double>::infinity();
}

int ShopOrders::carOf(int job) const
{
    return shop().jobs[at(job)].car;
}

void ShopOrders::add(const ShopPlan& plan)
{
    ++m_made;
    if (plan.cost < m_best.cost)
        m_best = plan;
}

std::vector<int> ShopOrders::orderOf(const ShopPlan& plan)
{
    std::vector<int> list;
    for (int i = 0; i < static_cast<int>(plan.jobs.size()); ++i) {
        if (!m_start.isPlaced(i))
            list.push_back(i);
    }
    std::stable_sort(list.begin(), list.end(), [&](int a, int b) {
        const PlanMinute startA = plan.jobs[at(a)].start;
        const PlanMinute startB = plan.jobs[at(b)].start;
        return startA != startB ? startA < startB : m_index.tail(a) > m_index.tail(b);
    });
    m_moves.putInOrder(list);
    return list;
}

double ShopOrders::draw(std::vector<int>& list, Dice& dice)
{
    m_lists.draw(m_urgency, dice, m_all);
    list.clear();
    std::ranges::copy_if(m_all, std::back_inserter(list),
                         [this](int job) { return !m_start.isPlaced(job); });
    return make(list, std::numeric_limits<double>::infinity());
}

double ShopOrders::make(std::span<const int> order, double limit)
{
    ++m_made;
    m_work = m_start;
    for (const int job : order) {
        m_work.place(job);
        if (m_work.costSoFar() > limit)
            return std::numeric_limits<double>::infinity();
    }
    return m_work.finalCost();
}

void ShopOrders::writeOrder(std::vector<int>& list) const
{
    std::stable_sort(list.begin(), list.end(), [this](int a, int b) {
        return m_work.placement(a).start < m_work.placement(b).start;
    });
}

void ShopOrders::keep(double cost)
{
    if (cost < m_best.cost - 1e-9)
        m_best = m_work.plan();
}

double ShopOrders::restart(std::span<const int> order)
{
    m_trial.assign(order.begin(), order.end());
    m_cost = std::numeric_limits<double>::max();
    std::fill(m_rise.begin(), m_rise.end(), 0.0);
    m_from = 0;
    m_tried = makeFrom(0, m_size, m_cost, m_cost);
    accept();
    return m_cost;
}

bool ShopOrders::change(Dice& /*the moves have them*/)
{
    m_from = m_size < 2 ? -1 : m_moves.change(m_trial);
    return m_from >= 0;
}

void ShopOrders::accept()
{
    m_now.list.swap(m_trial);
    const std::size_t n = m_now.list.size();
    for (std::size_t k = at(m_from); k < n; ++k)
        m_now.position[at(m_now.list[k])] = static_cast<int>(k);
    for (std::size_t k = at(m_from / gap * gap); k < std::min(n, at(m_tried.states * gap)); ++k) {
        const int job = m_now.list[k];
        m_now.placements[at(job)] = m_work.placement(job);
        m_rise[at(job)] = m_newRise[at(job)];
    }
    for (std::size_t c = 0; c < m_now.late.size(); ++c) {
        PlanMinute ready = 0;
        for (const int job : m_index.jobsOf(static_cast<int>(c)))
            ready = std::max(ready, std::min(m_now.placements[at(job)].clear, lateAtMost));
        m_now.late[c] = latenessOf(shop().cars[c], ready);
    }
    for (int state = m_from / gap + 1; state < m_tried.states; ++state)
        std::swap(m_states[at(state)], m_newStates[at(state)]);
    m_cost = m_tried.cost;
}

double ShopOrders::makeChanged(double limit, double patience)
{
    int last = m_size - 1;
    while (last > m_from && m_trial[at(last)] == m_now.list[at(last)])
        --last;
    m_tried = makeFrom(m_from, last, limit, patience);
    return m_tried.cost;
}

/// Places the tried order, which differs from the list in places from .. last. Gives it up once it
/// costs more than the limit, or has made the jobs that are placed, and the moved cars, cost so
/// much more than they did that it is out of patience.
ShopOrders::Made ShopOrders::makeFrom(int from, int last, double limit, double patience)
{
    constexpr Made givenUp = {std::numeric_limits<double>::infinity(), 0};
    ++m_made;
    const int n = m_size;
    const int state = from / gap;
    m_work = state == 0 ? m_start : m_states[at(state)];
    double worse = 0;
    for (const int car : m_moves.moved()) {
        if (car < 0)
            continue;
        for (const int job : m_index.jobsOf(car)) {
            if (m_now.position[at(job)] >= state * gap)
                worse -= m_rise[at(job)];
        }
    }
    for (int k = state * gap; k < n; ++k) {
        if (k % gap == 0 && k > from) {
            if (k > last && m_states[at(k / gap)].print() == m_work.print())
                return {m_cost, k / gap};
            m_newStates[at(k / gap)] = m_work;
        }
        const int job = m_trial[at(k)];
        const double before = m_work.costSoFar();
        m_work.place(job);
        const double rise = m_work.costSoFar() - before;
        m_newRise[at(job)] = rise;
        worse += m_moves.hasMoved(carOf(job)) ? rise : rise - m_rise[at(job)];
        if (m_work.costSoFar() > limit || worse > patience)
            return givenUp;
    }
    return {m_work.finalCost(), (n - 1) / gap + 1};
}

} // namespace ramplight::planning
