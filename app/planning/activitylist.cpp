// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "planning/activitylist.h"
#include "planning/indexing.h"

#include <algorithm>

namespace ramplight::planning {

namespace {

/// Takes the element out; the order of the others does not matter.
int takeOut(std::vector<int>& from, std::size_t place)
{
    const int taken = from[place];
    from[place] = from.back();
    from.pop_back();
    return taken;
}

} // namespace

Precedence::Precedence(const std::vector<std::vector<int>>& successors)
{
    std::vector<std::vector<int>> before(successors.size());
    for (std::size_t i = 0; i < successors.size(); ++i) {
        for (const int next : successors[i]) {
            m_after.push_back(next);
            before[at(next)].push_back(static_cast<int>(i));
        }
        m_firstAfter.push_back(static_cast<int>(m_after.size()));
    }
    for (const std::vector<int>& some : before) {
        m_before.insert(m_before.end(), some.begin(), some.end());
        m_firstBefore.push_back(static_cast<int>(m_before.size()));
    }
}

bool Precedence::follows(int first, int second) const
{
    const auto next = after(first);
    return std::find(next.begin(), next.end(), second) != next.end();
}

bool Precedence::allows(std::span<const int> list) const
{
    std::vector<bool> seen(at(size()), false);
    for (const int i : list) {
        for (const int earlier : before(i)) {
            if (!seen[at(earlier)])
                return false;
        }
        if (seen[at(i)])
            return false;
        seen[at(i)] = true;
    }
    return list.size() == seen.size();
}

ListMaker::ListMaker(const Precedence& precedence)
    : m_precedence(precedence)
    , m_mark(at(precedence.size()), 0)
    , m_open(at(precedence.size()), 0)
{
}

void ListMaker::draw(std::span<const int> urgency, Dice& dice, std::span<int> list)
{
    m_ready.clear();
    for (int i = 0; i < m_precedence.size(); ++i) {
        m_open[at(i)] = static_cast<int>(m_precedence.before(i).size());
        if (m_open[at(i)] == 0)
            m_ready.push_back(i);
    }
    for (int& place : list) {
        int least = urgency[at(m_ready.front())];
        for (const int i : m_ready)
            least = std::max(least, urgency[at(i)]);
        m_weights.clear();
        double sum = 0;
        for (const int i : m_ready) {
            const double lead = double(least) - double(urgency[at(i)]) + 1;
            m_weights.push_back(lead * lead);
            sum += lead * lead;
        }
        double drawn = dice.share() * sum;
        std::size_t chosen = 0;
        while (chosen + 1 < m_ready.size() && (drawn -= m_weights[chosen]) > 0)
            ++chosen;
        place = takeOut(m_ready, chosen);
        for (const int next : m_precedence.after(place)) {
            if (--m_open[at(next)] == 0)
                m_ready.push_back(next);
        }
    }
}

void ListMaker::cross(std::span<const int> one, std::span<const int> other, int first, int end,
                      std::span<int> child)
{
    ++m_round;
    std::size_t filled = 0;
    const auto takeFrom = [&](std::span<const int> parent, std::size_t until) {
        for (auto i = parent.begin(); filled < until; ++i) {
            if (m_mark[at(*i)] == m_round)
                continue;
            m_mark[at(*i)] = m_round;
            child[filled++] = *i;
        }
    };
    takeFrom(one, at(first));
    takeFrom(other, at(end));
    takeFrom(one.subspan(at(first)), child.size());
}

void ListMaker::swapNeighbours(double probability, Dice& dice, std::span<int> list)
{
    for (std::size_t k = 0; k + 1 < list.size(); ++k) {
        if (dice.chance(probability) && !m_precedence.follows(list[k], list[k + 1]))
            std::swap(list[k], list[k + 1]);
    }
}

void ListMaker::reorder(int first, int length, Dice& dice, std::span<int> list)
{
    const auto stretch = list.subspan(at(first), at(length));
    m_stretch.assign(stretch.begin(), stretch.end());
    ++m_round;
    for (const int i : m_stretch) {
        m_mark[at(i)] = m_round;
        m_open[at(i)] = 0;
    }
    const auto isInside = [this](int i) { return m_mark[at(i)] == m_round; };
    for (const int i : m_stretch) {
        for (const int next : m_precedence.after(i))
            m_open[at(next)] += isInside(next) ? 1 : 0;
    }
    m_ready.clear();
    for (const int i : m_stretch) {
        if (m_open[at(i)] == 0)
            m_ready.push_back(i);
    }
    for (int& place : stretch) {
        place = takeOut(m_ready, at(dice.below(static_cast<int>(m_ready.size()))));
        for (const int next : m_precedence.after(place)) {
            if (isInside(next) && --m_open[at(next)] == 0)
                m_ready.push_back(next);
        }
    }
}

} // namespace ramplight::planning
