// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "planning/ordersearch.h"
#include "support/testmain.h"

#include <QTest>

#include <numeric>

using namespace ramplight::planning;

namespace {

/// One machine: each job costs its weight times its end, and the best order is known, by weight
/// over minutes (Smith 1956).
class OneMachine
{
public:
    OneMachine(std::uint64_t seed, int jobs)
        : m_precedence(std::vector<std::vector<int>>(at(jobs)))
        , m_lists(m_precedence)
    {
        Dice dice(seed);
        for (int i = 0; i < jobs; ++i) {
            m_minutes.push_back(dice.between(1, 40));
            m_weights.push_back(dice.between(1, 9));
        }
        m_urgency.assign(at(jobs), 0);
        std::vector<int> best(at(jobs));
        std::iota(best.begin(), best.end(), 0);
        std::ranges::sort(best, [this](int a, int b) {
            return m_weights[at(a)] * m_minutes[at(b)] > m_weights[at(b)] * m_minutes[at(a)];
        });
        m_least = costOf(best);
    }

    [[nodiscard]] const Precedence& precedence() const { return m_precedence; }
    [[nodiscard]] int size() const { return m_precedence.size(); }
    [[nodiscard]] std::int64_t made() const { return m_made; }
    [[nodiscard]] double leastCost() const { return m_least; }
    double draw(std::vector<int>& list, Dice& dice)
    {
        list.resize(m_urgency.size());
        m_lists.draw(m_urgency, dice, list);
        return make(list, 0);
    }
    double make(std::span<const int> order, double /*limit*/)
    {
        ++m_made;
        m_last.assign(order.begin(), order.end());
        return costOf(m_last);
    }
    [[nodiscard]] std::uint64_t print() const
    {
        std::uint64_t print = 0;
        for (const int job : m_last)
            print = mixed(print + static_cast<std::uint64_t>(job));
        return print;
    }
    void writeOrder(std::vector<int>& list) const { list = m_last; }
    void keep(double cost)
    {
        QVERIFY(cost < kept);
        kept = cost;
    }
    double restart(std::span<const int> order)
    {
        m_now.assign(order.begin(), order.end());
        return make(m_now, 0);
    }
    [[nodiscard]] const std::vector<int>& order() const { return m_now; }
    bool change(Dice& dice)
    {
        if (size() < 2)
            return false;
        m_trial = m_now;
        const int place = dice.below(size() - 1);
        std::swap(m_trial[at(place)], m_trial[at(place + 1)]);
        return true;
    }
    double makeChanged(double /*limit*/, double /*patience*/) { return make(m_trial, 0); }
    void accept() { m_now = m_trial; }

    double kept = std::numeric_limits<double>::infinity();

private:
    [[nodiscard]] double costOf(const std::vector<int>& order) const
    {
        double end = 0;
        double cost = 0;
        for (const int job : order) {
            end += m_minutes[at(job)];
            cost += end * m_weights[at(job)];
        }
        return cost;
    }

    Precedence m_precedence;
    ListMaker m_lists;
    std::vector<int> m_minutes;
    std::vector<int> m_weights;
    std::vector<int> m_urgency;
    std::vector<int> m_last;
    std::vector<int> m_now;
    std::vector<int> m_trial;
    double m_least = 0;
    std::int64_t m_made = 0;
};

constexpr SearchManner bred{.bredShare = 1};
constexpr SearchManner annealed{
    .cycles = SearchManner::unending, .steps = 2'000, .hottest = 0.01, .coldest = 0.0001};
constexpr SearchManner both{.bredShare = 0.3,
                            .cycles = SearchManner::unending,
                            .steps = 2'000,
                            .hottest = 0.01,
                            .coldest = 0.0001,
                            .schedulesBetweenStops = 8};

} // namespace

// The search itself, on a problem whose answer is known.
class TestOrderSearch : public QObject
{
    Q_OBJECT

private slots:
    void findsTheBestOrder_data()
    {
        QTest::addColumn<int>("jobs");
        QTest::addColumn<SearchManner>("manner");
        for (const int jobs : {1, 2, 3, 12, 20}) {
            QTest::addRow("%d jobs, bred", jobs) << jobs << bred;
            QTest::addRow("%d jobs, annealed", jobs) << jobs << annealed;
            QTest::addRow("%d jobs, bred and annealed", jobs) << jobs << both;
        }
    }
    void findsTheBestOrder()
    {
        QFETCH(int, jobs);
        QFETCH(SearchManner, manner);
        for (std::uint64_t seed = 1; seed <= 5; ++seed) {
            OneMachine machine(seed, jobs);
            const Budget budget{.schedules = 60'000};
            Dice dice(seed);
            OrderSearch<OneMachine> search(machine, budget, dice, manner);
            std::vector<int> first(at(jobs));
            std::iota(first.begin(), first.end(), 0);
            search.offer(first);
            search.run();
            QCOMPARE(machine.kept, machine.leastCost());
            QCOMPARE(machine.restart(search.bestOrder()), machine.kept);
            // It ends with the best that can be.
            QVERIFY(machine.made() < budget.schedules);
        }
    }

    void endsWithItsBudgetAndIsDeterministic()
    {
        for (const SearchManner& manner : {bred, annealed, both}) {
            std::vector<std::vector<int>> found;
            for (int round = 0; round < 2; ++round) {
                OneMachine machine(3, 60);
                const Budget budget{.schedules = 900};
                Dice dice(7);
                OrderSearch<OneMachine> search(machine, budget, dice, manner);
                std::vector<int> first(60);
                std::iota(first.begin(), first.end(), 0);
                search.offer(first);
                search.run();
                QVERIFY(machine.kept > machine.leastCost());
                QVERIFY(machine.made() >= 900 && machine.made() < 910);
                found.push_back(search.bestOrder());
            }
            QCOMPARE(found[0], found[1]);
        }
    }

    void endsWhenItIsAsked()
    {
        for (const SearchManner& manner : {bred, annealed, both}) {
            OneMachine machine(3, 60);
            int asked = 0;
            const Budget budget{.schedules = 1'000'000, .stop = [&asked] { return ++asked >= 10; }};
            Dice dice(7);
            OrderSearch<OneMachine> search(machine, budget, dice, manner);
            std::vector<int> first(60);
            std::iota(first.begin(), first.end(), 0);
            search.offer(first);
            search.run();
            QVERIFY(asked >= 10 && asked < 20);
            QVERIFY(machine.made() <= 10 * manner.schedulesBetweenStops);
        }
    }
};

RAMPLIGHT_TEST(NoApplication, TestOrderSearch)
#include "tst_ordersearch.moc"
