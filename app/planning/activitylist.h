// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "planning/dice.h"

#include <functional>
#include <span>
#include <vector>

// Orders of activities, each after all it waits for, and how a search makes new ones out of them.
// Projects and workshops are both searched with these.
namespace ramplight::planning {

/// Who follows whom, packed: read often, never changed.
class Precedence
{
public:
    Precedence() = default;
    /// successors by index; without a cycle.
    explicit Precedence(const std::vector<std::vector<int>>& successors);

    [[nodiscard]] int size() const { return static_cast<int>(m_firstAfter.size()) - 1; }
    [[nodiscard]] std::span<const int> after(int i) const { return part(m_after, m_firstAfter, i); }
    [[nodiscard]] std::span<const int> before(int i) const
    {
        return part(m_before, m_firstBefore, i);
    }
    /// Right after, not by way of others.
    [[nodiscard]] bool follows(int first, int second) const;
    [[nodiscard]] bool allows(std::span<const int> list) const;

private:
    [[nodiscard]] static std::span<const int> part(const std::vector<int>& all,
                                                   const std::vector<int>& first, int i)
    {
        const auto from = static_cast<std::size_t>(first[static_cast<std::size_t>(i)]);
        const auto to = static_cast<std::size_t>(first[static_cast<std::size_t>(i) + 1]);
        return {all.data() + from, to - from};
    }

    std::vector<int> m_after;
    std::vector<int> m_firstAfter = {0};
    std::vector<int> m_before;
    std::vector<int> m_firstBefore = {0};
};

/// Changes lists of one precedence and keeps them allowed by it. Holds its buffers; one per thread.
class ListMaker
{
public:
    explicit ListMaker(const Precedence& precedence);

    /// An order drawn by urgency: of those that may come next, a smaller number is likelier, by the
    /// square of its lead over the least urgent (regret-biased sampling, Drexl 1991).
    void draw(std::span<const int> urgency, Dice& dice, std::span<int> list);
    /// Two-point crossover: places [first, end) come from the second parent's order, the others
    /// from the first's (Hartmann 1998).
    void cross(std::span<const int> one, std::span<const int> other, int first, int end,
               std::span<int> child);
    /// Each pair of neighbours changes places with a probability, where the order allows it.
    void swapNeighbours(double probability, Dice& dice, std::span<int> list);
    /// Puts a stretch into any order that is allowed.
    void reorder(int first, int length, Dice& dice, std::span<int> list);

private:
    const Precedence& m_precedence;
    std::vector<int> m_mark;
    int m_round = 0;
    std::vector<int> m_open;
    std::vector<int> m_ready;
    std::vector<int> m_stretch;
    std::vector<double> m_weights;
};

} // namespace ramplight::planning
