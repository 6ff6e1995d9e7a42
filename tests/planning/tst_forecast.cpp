// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "planning/forecast.h"
#include "planning/inventedhistory.h"
#include "planning/inventedshops.h"
#include "planning/shopreasons.h"
#include "planning/shopsearch.h"
#include "support/testmain.h"

#include <QTest>

#include <cmath>

using namespace ramplight;
using namespace ramplight::planning;
using namespace ramplight::test;

namespace {

constexpr Minutes someMinutes{7, 10, 17};

std::vector<WorkRecord> recordsOf(const QString& kind, int person, int usual, int minutes,
                                  int count)
{
    std::vector<WorkRecord> records;
    for (int i = 0; i < count; ++i)
        records.push_back({kind, PersonId{person}, QStringLiteral("hatch"),
                           CarId{QStringLiteral("%1 %2 %3").arg(kind).arg(person).arg(i)}, usual,
                           minutes});
    return records;
}

/// Two cars, one painter, one paint bay, a valeter; all day every day.
Shop smallShop()
{
    const WorkTimes always({{0, 20'000}});
    Shop shop;
    shop.people = {{QStringLiteral("Ada"), always}, {QStringLiteral("Ben"), always}};
    shop.bays = {{QStringLiteral("the paint bay")}};
    shop.crews = {{0}, {1}};
    shop.bayGroups = {{0}};
    shop.cars = {{.name = QStringLiteral("S1042"), .promised = 100},
                 {.name = QStringLiteral("S2"), .promised = 350}};
    const auto job = [](const char* title, int car, int crew, int bays) {
        return ShopJob{.title = QString::fromLatin1(title),
                       .kind = QString::fromLatin1(title),
                       .car = car,
                       .crew = crew,
                       .bays = bays,
                       .minutes = {70, 100, 170}};
    };
    shop.jobs = {job("panel", 0, 0, 0), job("panel", 1, 0, 0), job("valet", 1, 1, -1)};
    shop.jobs[2].after = {1};
    return shop;
}

ShopPlan planOf(const Shop& shop)
{
    return planShop(shop, {.budget = {.schedules = 300}});
}

} // namespace

class TestForecast : public QObject
{
    Q_OBJECT

private slots:
    void nothingLearnedIsTheCatalogue()
    {
        const MinutesModel model;
        QCOMPARE(model.ofKind(QStringLiteral("valet")).mean, 0.0);
        QVERIFY(model.ofPerson(PersonId{1}).spread > 0);
        // 10 % and 90 % quantiles of a log-normal with this spread are 7 and 17 apart.
        const double spread = model.spreadOf(QStringLiteral("valet"), someMinutes);
        QVERIFY(std::abs(std::exp(2 * 1.2816 * spread) - 17.0 / 7.0) < 1e-9);
        QCOMPARE(model.spreadOf(QStringLiteral("valet"), {5, 5, 5}), 0.0);
    }

    void littleEvidenceIsDrawnToTheCatalogue()
    {
        const QString kind = QStringLiteral("valet");
        double before = 0;
        for (const int count : {1, 5, 50}) {
            const MinutesModel model(recordsOf(kind, 1, 60, 90, count));
            // The person's share and the kind's together; each is drawn towards nothing.
            const double learned = model.ofKind(kind).mean + model.ofPerson(PersonId{1}).mean +
                                   model.ofCarKind(QStringLiteral("hatch")).mean;
            QVERIFY(learned > before);
            QVERIFY(learned < std::log(1.5));
            before = learned;
        }
        QVERIFY(before > 0.9 * std::log(1.5));
        QVERIFY(MinutesModel(recordsOf(kind, 1, 0, 90, 5)).ofKind(kind).mean == 0);
    }

    void whoIsQuickIsToldFromWhatIsLong()
    {
        std::vector<WorkRecord> records;
        for (const auto& [kind, factor] : {std::pair{"valet", 1.5}, std::pair{"panel", 1.0}}) {
            for (const auto& [person, pace] : {std::pair{1, 0.8}, std::pair{2, 1.25}}) {
                const auto some = recordsOf(QString::fromLatin1(kind), person, 100,
                                            static_cast<int>(std::lround(100 * factor * pace)), 30);
                records.insert(records.end(), some.begin(), some.end());
            }
        }
        // A timer that ran all night teaches nothing.
        const auto night = recordsOf(QStringLiteral("panel"), 1, 100, 1'500, 2);
        records.insert(records.end(), night.begin(), night.end());
        const MinutesModel model(records);
        const double kinds =
            model.ofKind(QStringLiteral("valet")).mean - model.ofKind(QStringLiteral("panel")).mean;
        const double people = model.ofPerson(PersonId{2}).mean - model.ofPerson(PersonId{1}).mean;
        QVERIFY(std::abs(kinds - std::log(1.5)) < 0.05);
        QVERIFY(std::abs(people - std::log(1.25 / 0.8)) < 0.06);
    }

    void aCarsOwnWorkTellsOfItsRest()
    {
        const QString kind = QStringLiteral("valet");
        const MinutesModel model(recordsOf(kind, 1, 60, 60, 40));
        const auto slow = recordsOf(kind, 1, 60, 100, 4);
        const LogFactor car = model.ofCar(slow);
        QVERIFY(car.mean > 0.1);
        QVERIFY(car.spread < model.ofCar({}).spread);
        QCOMPARE(model.ofCar({}).mean, 0.0);
    }

    // The run of a plan with the minutes that it was made for is the plan.
    void planRunsAsPlanned()
    {
        for (std::uint64_t seed = 1; seed <= 200; ++seed) {
            const Shop shop = oddShop(seed);
            const ShopPlan plan = planShop(shop, {.budget = {.schedules = 60}});
            std::vector<int> minutes;
            for (const ShopJob& job : shop.jobs)
                minutes.push_back(job.minutes.usual);
            const std::vector<PlanMinute> ready = runPlan(shop, plan, minutes);
            for (std::size_t c = 0; c < ready.size(); ++c)
                QVERIFY(ready[c] <= plan.ready[c]);
            // More minutes, later cars.
            for (int& some : minutes)
                some += 10;
            const std::vector<PlanMinute> later = runPlan(shop, plan, minutes);
            for (std::size_t c = 0; c < ready.size(); ++c)
                QVERIFY(later[c] >= ready[c]);
        }
    }

    void forecastIsOrderedAndDeterministic()
    {
        const Shop shop = preparationShop(3, 15);
        const ShopPlan plan = planOf(shop);
        const ShopChances chances = chancesOf(shop, MinutesModel());
        const auto one = forecast(shop, plan, chances, 300, 5);
        const auto same = forecast(shop, plan, chances, 300, 5);
        QCOMPARE(one.size(), shop.cars.size());
        for (std::size_t c = 0; c < one.size(); ++c) {
            QCOMPARE(one[c].runs, same[c].runs);
            QVERIFY(one[c].ready50 <= one[c].ready90);
            QVERIFY(one[c].within90.from <= one[c].within80.from);
            QVERIFY(one[c].within80.from <= one[c].within50.from);
            QVERIFY(one[c].within50.from < one[c].within50.to);
            QVERIFY(one[c].within50.to <= one[c].within80.to);
            QVERIFY(one[c].within80.to <= one[c].within90.to);
            QVERIFY((one[c].ready90 <= shop.cars[c].promised) == (one[c].late <= 0.1 + 1.0 / 300));
        }
    }

    // On invented history the intervals cover what they say, within three points.
    void intervalsCoverWhatTheySay()
    {
        double n = 0;
        std::array<double, 3> inside = {};
        for (std::uint64_t seed = 1; seed <= 24; ++seed) {
            const InventedHouse house = inventedHouse(seed, 20, 600);
            const MinutesModel model(house.records);
            const ShopChances chances = chancesOf(house.shop, model, house.keys);
            const ShopPlan plan =
                planShop(withExpectedMinutes(house.shop, chances), {.budget = {.schedules = 60}});
            const auto cars = forecast(house.shop, plan, chances, 250, seed);
            Dice dice(seed);
            for (int course = 0; course < 8; ++course) {
                const std::vector<PlanMinute> ready = whatHappens(house, plan, dice);
                for (std::size_t c = 0; c < ready.size(); ++c) {
                    const auto count = [&](std::size_t which, const Interval& interval) {
                        inside[which] +=
                            ready[c] >= interval.from && ready[c] <= interval.to ? 1 : 0;
                    };
                    count(0, cars[c].within50);
                    count(1, cars[c].within80);
                    count(2, cars[c].within90);
                    n += 1;
                }
            }
        }
        constexpr std::array<double, 3> said = {0.5, 0.8, 0.9};
        for (std::size_t i = 0; i < said.size(); ++i) {
            qInfo("%.0f %% intervals cover %.1f %%", 100 * said[i], 100 * inside[i] / n);
            QVERIFY(std::abs(inside[i] / n - said[i]) < 0.03);
        }
    }

    void reasonsAreNamed()
    {
        Shop shop = smallShop();
        const ShopPlan plan = planOf(shop);
        const auto time = [](PlanMinute t) { return QStringLiteral("minute %1").arg(t); };
        const std::vector<Reason> chain = reasonsFor(shop, plan, 1);
        QStringList said;
        for (const Reason& reason : chain)
            said.append(words(shop, reason, time, 1));
        QCOMPARE(said, QStringList({QStringLiteral("valet waits for panel until minute 200"),
                                    QStringLiteral("panel waits for Ada until minute 100, "
                                                   "behind S1042"),
                                    QStringLiteral("S1042: panel can begin now")}));
        QCOMPARE(wordsBehindTitle(shop, chain[1], time),
                 QStringLiteral("waits for Ada until minute 100, behind S1042"));
        ShopPlan kept = plan; // where it was, though Ada is free a little sooner by now
        Placement& panel = kept.jobs[static_cast<std::size_t>(chain[1].job)];
        panel.start += 4;
        panel.end += 4;
        panel.clear += 4;
        QVERIFY(reasonOf(shop, kept, chain[1].job).wait == WaitFor::Person);
        // With two painters it is the bay.
        shop.people.push_back({QStringLiteral("Cy"), shop.people[0].times});
        for (std::vector<int>& crew : shop.crews)
            if (std::ranges::find(crew, 0) != crew.end())
                crew.push_back(static_cast<int>(shop.people.size()) - 1);
        const ShopPlan withTwo = planOf(shop);
        const std::vector<Reason> second = reasonsFor(shop, withTwo, 1);
        QVERIFY(second.size() >= 2);
        QVERIFY(second[1].wait == WaitFor::Bay || second[1].wait == WaitFor::Person);
        shop.jobs[0].notBefore = 400;
        QCOMPARE(words(shop, reasonsFor(shop, planOf(shop), 0)[0], time, 0),
                 QStringLiteral("panel waits for its part until minute 400"));
        shop.crews[0].clear();
        QCOMPARE(words(shop, reasonsFor(shop, planOf(shop), 0)[0], time, 0),
                 QStringLiteral("nobody can do panel"));
    }

    // Every chain leads back to now, without a gap that nothing explains.
    void reasonsLeadBack()
    {
        for (std::uint64_t seed = 1; seed <= 3; ++seed) {
            const Shop shop = preparationShop(seed, 15);
            const ShopPlan plan = planOf(shop);
            for (int car = 0; car < 15; ++car) {
                const std::vector<Reason> chain = reasonsFor(shop, plan, car, 200);
                QVERIFY(!chain.empty());
                QVERIFY(chain.size() < 200);
                QVERIFY(chain.back().other < 0);
                for (std::size_t k = 0; k + 1 < chain.size(); ++k)
                    QCOMPARE(chain[k + 1].job, chain[k].other);
            }
        }
    }
};

RAMPLIGHT_TEST(NoApplication, TestForecast)
#include "tst_forecast.moc"
