// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
//
// Plans invented workshops of 60 cars and about ten jobs each: our plan after a second against our
// own after longer, and against dispatching rules. Seeds up to 1000 are for tuning, the measured
// ones come after them.
#include "bench/processortime.h"
#include "planning/dispatching.h"
#include "planning/inventedshops.h"
#include "planning/shopsearch.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <numeric>

using namespace ramplight::planning;

namespace {

constexpr const char* usage =
    R"(planner_workshop [options]: plans invented workshops and prints a table.

    --shops N      how many, 50 when nothing is said
    --first SEED   of the first one, 1001 when nothing is said
    --seconds S    of a processor, for the plan that is measured, 1 when nothing is said
    --long S       of the plan that it is held against, 20 when nothing is said; 0: none
    --schedules N  counts schedules instead: so many for the plan that is measured, and as many
                   times more as its seconds for the other; the same on every machine, busy or not
    --seed K       of the search's chance
)";

struct Options
{
    int shops = 50;
    int first = 1001;
    double seconds = 1;
    double longSeconds = 20;
    double schedules = 0; ///< 0: seconds count
    std::uint64_t seed = 1;
};

bool read(int argc, char** argv, Options& options)
{
    for (int i = 1; i + 1 < argc; i += 2) {
        const double value = std::strtod(argv[i + 1], nullptr);
        if (std::strcmp(argv[i], "--shops") == 0)
            options.shops = static_cast<int>(value);
        else if (std::strcmp(argv[i], "--first") == 0)
            options.first = static_cast<int>(value);
        else if (std::strcmp(argv[i], "--seconds") == 0)
            options.seconds = value;
        else if (std::strcmp(argv[i], "--long") == 0)
            options.longSeconds = value;
        else if (std::strcmp(argv[i], "--schedules") == 0)
            options.schedules = value;
        else if (std::strcmp(argv[i], "--seed") == 0)
            options.seed = static_cast<std::uint64_t>(value);
        else
            return false;
    }
    return argc % 2 == 1;
}

ShopPlan planFor(const Shop& shop, double seconds, const Options& options)
{
    ShopSearch search{.seed = options.seed};
    if (options.schedules > 0) {
        search.budget.schedules = std::llround(options.schedules * seconds / options.seconds);
    } else {
        const double end = ramplight::test::processorSeconds() + seconds;
        search.budget.stop = [end] { return ramplight::test::processorSeconds() >= end; };
    }
    return planShop(shop, search);
}

/// Days until a car is ready, on average, and until the last one is.
struct Ready
{
    double mean = 0;
    double last = 0;
};

Ready readyOf(const ShopPlan& plan)
{
    constexpr double day = 24 * 60;
    Ready ready;
    for (const PlanMinute at : plan.ready) {
        ready.mean += double(at) / day / double(plan.ready.size());
        ready.last = std::max(ready.last, double(at) / day);
    }
    return ready;
}

void tell(const char* what, const ShopPlan& plan)
{
    const Ready ready = readyOf(plan);
    std::printf(" %s %.0f (%.1f, %.1f)", what, plan.lateness, ready.mean, ready.last);
}

} // namespace

int main(int argc, char** argv)
{
    Options options;
    if (!read(argc, argv, options)) {
        std::fputs(usage, stderr);
        return 64;
    }
    std::puts("weighted minutes late (days until a car is ready on average, until the last one)");
    constexpr std::array names = {"first come", "earliest promise", "least slack",
                                  "tardiness cost"};
    std::array<double, names.size()> byRule = {};
    double best = 0;
    double ours = 0;
    double longer = 0;
    double shareOfBest = 0;
    std::int64_t schedules = 0;
    for (int i = 0; i < options.shops; ++i) {
        const int seed = options.first + i;
        const Shop shop = ramplight::test::preparationShop(static_cast<std::uint64_t>(seed));
        const ShopIndex index(shop);
        std::printf("%d: %zu jobs;", seed, shop.jobs.size());
        double bestHere = 1e300;
        for (std::size_t r = 0; r < names.size(); ++r) {
            const ShopPlan plan = dispatched(index, allRules[r]);
            tell(names[r], plan);
            byRule[r] += plan.lateness;
            bestHere = std::min(bestHere, plan.lateness);
        }
        best += bestHere;
        const ShopPlan plan = planFor(shop, options.seconds, options);
        tell("; ours", plan);
        ours += plan.lateness;
        schedules += plan.schedules;
        shareOfBest += bestHere > 0 ? plan.lateness / bestHere : 1;
        if (options.longSeconds > 0) {
            const ShopPlan more = planFor(shop, options.longSeconds, options);
            tell("longer", more);
            longer += more.lateness;
        }
        std::puts("");
        std::fflush(stdout);
    }
    std::printf("mean:");
    for (std::size_t r = 0; r < names.size(); ++r)
        std::printf(" %s %.0f", names[r], byRule[r] / options.shops);
    std::printf(" best of them %.0f; ours after %.1f s %.0f, %lld schedules\n",
                best / options.shops, options.seconds, ours / options.shops,
                static_cast<long long>(schedules / options.shops));
    std::printf("less late than the best rule: %.1f %% of the minutes, %.1f %% as a mean of the "
                "workshops (aim at least 45)\n",
                100 * (1 - ours / best), 100 * (1 - shareOfBest / options.shops));
    if (longer > 0)
        std::printf("above our own after %.0f s: %.1f %% (aim at most 10)\n", options.longSeconds,
                    100 * (ours / longer - 1));
}
