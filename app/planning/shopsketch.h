// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "planning/shopindex.h"

#include <span>
#include <vector>

// A workshop drawn roughly: only the work that waits for whom and what there is too little of. A
// plan of it is made ten times as quickly, and says in which order the whole is best begun.
namespace ramplight::planning {

class ShopSketch
{
public:
    /// Of the shop, with what is fixed in it. Scarce is what has at least so great a share of the
    /// load of the busiest. The index outlives the sketch.
    ShopSketch(const ShopIndex& whole, std::span<const Fixed> fixed, double scarceFrom);

    /// False: there is nothing to choose between in it.
    [[nodiscard]] bool isWorthwhile() const
    {
        return m_kept.size() > 2 && m_shop.people.size() <= 64;
    }
    /// The jobs that have scarce people or bays, each after what comes before it at the earliest,
    /// and one for each of their cars for all that comes after.
    [[nodiscard]] const Shop& shop() const { return m_shop; }
    [[nodiscard]] const std::vector<Fixed>& fixed() const { return m_fixed; }
    /// The person of the sketch of whom there are as many as are needed.
    [[nodiscard]] int crowd() const { return static_cast<int>(m_shop.people.size()) - 1; }
    /// By job of the whole shop: when it begins at the latest if a plan of the sketch is kept.
    [[nodiscard]] std::vector<double> latestStarts(const ShopPlan& plan) const;

private:
    void findScarce(double scarceFrom);
    [[nodiscard]] std::vector<int> inOrder(int car) const;
    void keepCar(int car, std::span<const Fixed> fixed);

    const ShopIndex& m_whole;
    Shop m_shop;
    std::vector<Fixed> m_fixed;
    std::vector<char> m_isScarce; ///< by job of the whole
    std::vector<int> m_sketched;  ///< by job of the whole: its number here; -1: none
    std::vector<int> m_kept;      ///< jobs of the whole, by number here; -1: what comes after
    std::vector<int> m_last;      ///< by car of the whole: what comes after; -1: nothing scarce
};

} // namespace ramplight::planning
