// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "planning/hindsight.h"
#include "planning/houseledger.h"

#include <deque>
#include <functional>
#include <memory>
#include <vector>

// A house that looks back: what its forecasts would have said on the mornings until now, made from
// what its ledger had by then, against what came.
namespace ramplight::planning {

/// How much is put into it.
struct LookBackEffort
{
    int mornings = 15; ///< on which the house was open; 0: it does not look back
    PlanEffort ofEach = {.search = {.schedules = 300}};
};

/// What was said on the last mornings, held against what is known later.
class LookBack
{
public:
    explicit LookBack(int mornings = LookBackEffort{}.mornings);
    /// Keeps what was said of the cars of a plan that have work left. The plan was made with
    /// Hindsight::none().
    void keep(const HousePlan& said);

    /// Each car on each morning, as far as it is known by then what came: cars that are ready, and
    /// those that are overdue and still here, as if they got ready now.
    [[nodiscard]] std::vector<SaidThen> knownBy(const HouseReplay& now) const;

private:
    struct Said
    {
        CarId car;
        CarForecast forecast;
    };
    struct Morning
    {
        Moment at;
        PlanClock clock;
        WorkTimes hours;
        std::vector<Said> said;
    };
    int m_most;
    std::deque<Morning> m_mornings;
};

/// As the house opens, of the last days on which it did before the one of now; the earliest first.
[[nodiscard]] std::vector<Moment> morningsBefore(Moment now, const SiteState& site, int most);

/// Goes through the ledger; catalogue: in force in the house. Between two mornings it asks whether
/// to stop; then it has nothing of its own to say. Deterministic. Pure.
[[nodiscard]] Hindsight lookBack(const HouseLedger& ledger,
                                 const std::shared_ptr<const Catalogue>& catalogue, Moment now,
                                 const LookBackEffort& effort = {},
                                 const std::function<bool()>& stop = {});

} // namespace ramplight::planning
