// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "planning/forecast.h"

#include "planning/dice.h"
#include "planning/indexing.h"
#include "planning/shopindex.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace ramplight::planning {

namespace {

/// A plan as what waits for what: the order of people, bays and cars is kept, times are not.
class PlanRunner
{
public:
    PlanRunner(const Shop& shop, const ShopPlan& plan)
        : m_shop(shop)
        , m_plan(plan)
        , m_waits(shop.jobs.size())
        , m_ends(shop.jobs.size())
        , m_clears(shop.jobs.size())
    {
        for (std::size_t i = 0; i < shop.jobs.size(); ++i) {
            if (plan.jobs[i].isPlanned())
                m_order.push_back(static_cast<int>(i));
        }
        std::stable_sort(m_order.begin(), m_order.end(), [&plan](int a, int b) {
            const Placement& one = plan.jobs[at(a)];
            const Placement& other = plan.jobs[at(b)];
            return std::pair(one.start, one.clear) < std::pair(other.start, other.clear);
        });
        putInOrder();
        std::vector<int> lastOfPerson(shop.people.size(), -1);
        for (std::size_t k = 0; k < m_order.size(); ++k) {
            const int job = m_order[k];
            const int person = plan.jobs[at(job)].person;
            const bool takesTime = plan.jobs[at(job)].end > plan.jobs[at(job)].start;
            if (person >= 0 && takesTime) {
                if (lastOfPerson[at(person)] >= 0)
                    m_waits[at(job)].push_back({lastOfPerson[at(person)], Until::HandsFree});
                lastOfPerson[at(person)] = job;
            }
            for (std::size_t before = 0; before < k; ++before)
                addWait(m_order[before], job);
        }
    }

    [[nodiscard]] const std::vector<int>& order() const { return m_order; }

    void run(const std::vector<int>& minutes, std::vector<PlanMinute>& ready)
    {
        for (std::size_t c = 0; c < m_shop.cars.size(); ++c)
            ready[c] = std::max(0, m_shop.cars[c].from);
        for (const int job : m_order) {
            const ShopJob& one = m_shop.jobs[at(job)];
            PlanMinute from = 0;
            if (!one.running) {
                from = std::max({0, one.notBefore, m_shop.cars[at(one.car)].from});
                for (const Wait& wait : m_waits[at(job)])
                    from = std::max(from, wait.until == Until::Clear ? m_clears[at(wait.job)]
                                                                     : m_ends[at(wait.job)]);
            }
            const int person = m_plan.jobs[at(job)].person;
            PlanMinute end = from + minutes[at(job)];
            if (person >= 0 && from < never) {
                const WorkTimes& times = m_shop.people[at(person)].times;
                const Pause pause = one.running ? Pause::Overnight : one.pause;
                end = times.fit(from, minutes[at(job)], pause).to;
                if (end == never && one.running)
                    end = from + minutes[at(job)];
                // What takes longer than a day is left overnight after all.
                if (end == never)
                    end = times.fit(from, minutes[at(job)], Pause::Overnight).to;
            }
            m_ends[at(job)] = std::min(end, never);
            m_clears[at(job)] = end >= never ? never : end + one.waitMinutes;
            ready[at(one.car)] = std::max(ready[at(one.car)], m_clears[at(job)]);
        }
        for (std::size_t i = 0; i < m_shop.jobs.size(); ++i) {
            if (!m_plan.jobs[i].isPlanned())
                ready[at(m_shop.jobs[i].car)] = never;
        }
    }

private:
    enum class Until { HandsFree, Clear };
    struct Wait
    {
        int job = 0;
        Until until = Until::HandsFree;
    };

    /// Jobs without minutes may stand before what they wait for.
    void putInOrder()
    {
        std::vector<char> done(m_shop.jobs.size(), 0);
        std::vector<int> ordered;
        while (ordered.size() < m_order.size()) {
            const std::size_t before = ordered.size();
            for (const int job : m_order) {
                const std::vector<int>& after = m_shop.jobs[at(job)].after;
                const bool isOpen =
                    m_shop.jobs[at(job)].running ||
                    std::all_of(after.begin(), after.end(), [&](int a) { return done[at(a)]; });
                if (!done[at(job)] && isOpen) {
                    done[at(job)] = 1;
                    ordered.push_back(job);
                }
            }
            if (ordered.size() == before)
                break;
        }
        m_order.swap(ordered);
    }

    void addWait(int before, int job)
    {
        const ShopJob& first = m_shop.jobs[at(before)];
        const ShopJob& second = m_shop.jobs[at(job)];
        const auto names = [](const std::vector<int>& some, int one) {
            return std::find(some.begin(), some.end(), one) != some.end();
        };
        const Until leaves = first.waitsInBay ? Until::Clear : Until::HandsFree;
        if (names(second.after, before)) {
            m_waits[at(job)].push_back({before, Until::Clear});
            return;
        }
        // What the car before stayed for.
        const int kept = bayKeptFor(m_shop, m_plan, before);
        if (const int bay = m_plan.jobs[at(job)].bay;
            kept >= 0 && bay >= 0 &&
            (first.car == second.car ? second.usesCar && bay != kept : bay == kept) &&
            m_plan.jobs[at(before)].end <= m_plan.jobs[at(job)].start)
            m_waits[at(job)].push_back({before, Until::HandsFree});
        // What takes no time in the plan stands in nobody's way.
        const Placement& a = m_plan.jobs[at(before)];
        const Placement& b = m_plan.jobs[at(job)];
        const PlanMinute leavesAt = first.waitsInBay ? a.clear : a.end;
        if (leavesAt > b.start && a.end > b.start)
            return;
        const bool sameCar = first.car == second.car;
        const bool sameGuest = sameCar && first.usesCar && second.usesCar;
        // Beside each other in the plan, beside each other in the run.
        if (sameCar && a.end <= b.start && (names(first.apart, job) || names(second.apart, before)))
            m_waits[at(job)].push_back({before, Until::HandsFree});
        if (a.bay < 0 || b.bay < 0 || leavesAt > b.start)
            return;
        if ((a.bay == b.bay && !sameGuest) || (a.bay != b.bay && sameGuest))
            m_waits[at(job)].push_back({before, leaves});
    }

    const Shop& m_shop;
    const ShopPlan& m_plan;
    std::vector<int> m_order;
    std::vector<std::vector<Wait>> m_waits;
    std::vector<PlanMinute> m_ends;
    std::vector<PlanMinute> m_clears;
};

} // namespace

ShopChances chancesOf(const Shop& shop, const MinutesModel& model, const ShopKeys& keys)
{
    ShopChances chances;
    std::map<QString, int> kinds;
    std::map<QString, int> carKinds;
    for (const ShopJob& job : shop.jobs) {
        const auto [known, isNew] =
            kinds.try_emplace(job.kind, static_cast<int>(chances.kinds.size()));
        if (isNew)
            chances.kinds.push_back(model.ofKind(job.kind));
        chances.jobs.push_back(
            {double(job.minutes.usual), model.spreadOf(job.kind, job.minutes), known->second});
    }
    chances.house = model.ofHouse();
    for (std::size_t p = 0; p < shop.people.size(); ++p)
        chances.people.push_back(model.ofPerson(keys.people.empty() ? PersonId{} : keys.people[p]));
    for (std::size_t c = 0; c < shop.cars.size(); ++c) {
        const auto done = keys.done.empty() ? std::span<const WorkRecord>{}
                                            : std::span<const WorkRecord>(keys.done[c]);
        chances.cars.push_back(model.ofCar(done));
        int alike = -1;
        if (!keys.carKinds.empty()) {
            const auto [known, isNew] =
                carKinds.try_emplace(keys.carKinds[c], static_cast<int>(chances.carKinds.size()));
            if (isNew)
                chances.carKinds.push_back(model.ofCarKind(keys.carKinds[c]));
            alike = known->second;
        }
        chances.kindOfCar.push_back(alike);
    }
    return chances;
}

Shop withExpectedMinutes(Shop shop, const ShopChances& chances)
{
    for (std::size_t i = 0; i < shop.jobs.size(); ++i) {
        ShopJob& job = shop.jobs[i];
        const ShopChances::Job& chance = chances.jobs[i];
        const int alike = chances.kindOfCar[at(job.car)];
        const double factor = chances.kinds[at(chance.kind)].mean + chances.cars[at(job.car)].mean +
                              (alike < 0 ? 0.0 : chances.carKinds[at(alike)].mean);
        job.minutes.usual = static_cast<int>(std::lround(chance.median * std::exp(factor)));
    }
    return shop;
}

std::vector<PlanMinute> runPlan(const Shop& shop, const ShopPlan& plan,
                                const std::vector<int>& minutes)
{
    std::vector<PlanMinute> ready(shop.cars.size());
    PlanRunner(shop, plan).run(minutes, ready);
    return ready;
}

PlanMinute quantileOf(const std::vector<PlanMinute>& runs, double share)
{
    const double place = share * double(runs.size() - 1);
    return runs[static_cast<std::size_t>(std::lround(place))];
}

void tell(CarForecast& car, PlanMinute promised)
{
    car.ready50 = quantileOf(car.runs, 0.5);
    car.ready90 = quantileOf(car.runs, 0.9);
    car.within50 = {quantileOf(car.runs, 0.25), quantileOf(car.runs, 0.75)};
    car.within80 = {quantileOf(car.runs, 0.1), quantileOf(car.runs, 0.9)};
    car.within90 = {quantileOf(car.runs, 0.05), quantileOf(car.runs, 0.95)};
    const auto late = car.runs.end() - std::upper_bound(car.runs.begin(), car.runs.end(), promised);
    car.late = double(late) / double(car.runs.size());
}

std::vector<CarForecast> forecast(const Shop& shop, const ShopPlan& plan,
                                  const ShopChances& chances, int runs, std::uint64_t seed,
                                  const Budget& budget)
{
    Dice dice(seed);
    PlanRunner runner(shop, plan);
    std::vector<CarForecast> cars(shop.cars.size());
    std::vector<int> minutes(shop.jobs.size(), 0);
    std::vector<PlanMinute> ready(shop.cars.size());
    const auto draw = [&dice](const std::vector<LogFactor>& factors) {
        std::vector<double> drawn;
        drawn.reserve(factors.size());
        for (const LogFactor& factor : factors)
            drawn.push_back(factor.mean + factor.spread * dice.normal());
        return drawn;
    };
    for (int run = 0; run < runs && (run == 0 || !budget.isOver(run)); ++run) {
        const double house = chances.house.mean + chances.house.spread * dice.normal();
        const std::vector<double> kinds = draw(chances.kinds);
        const std::vector<double> people = draw(chances.people);
        std::vector<double> ofCars = draw(chances.cars);
        // Cars of a kind are quick or slow together.
        const std::vector<double> carKinds = draw(chances.carKinds);
        for (std::size_t c = 0; c < ofCars.size(); ++c) {
            const int alike = chances.kindOfCar[c];
            ofCars[c] += alike < 0 ? 0.0 : carKinds[at(alike)];
        }
        for (const int job : runner.order()) {
            const ShopChances::Job& chance = chances.jobs[at(job)];
            const int person = plan.jobs[at(job)].person;
            const double log = chance.spread * dice.normal() + house + kinds[at(chance.kind)] +
                               ofCars[at(shop.jobs[at(job)].car)] +
                               (person < 0 ? 0.0 : people[at(person)]);
            // Nobody's hands: it takes what it takes.
            minutes[at(job)] = shop.jobs[at(job)].crew < 0
                                   ? shop.jobs[at(job)].minutes.usual
                                   : static_cast<int>(std::lround(chance.median * std::exp(log)));
        }
        runner.run(minutes, ready);
        for (std::size_t c = 0; c < cars.size(); ++c)
            cars[c].runs.push_back(ready[c]);
    }
    for (std::size_t c = 0; c < cars.size(); ++c) {
        std::sort(cars[c].runs.begin(), cars[c].runs.end());
        tell(cars[c], shop.cars[c].promised);
    }
    return cars;
}

} // namespace ramplight::planning
