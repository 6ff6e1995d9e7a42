// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/shippedcatalogue.h"
#include "planning/lookback.h"
#include "planning/playedhouse.h"
#include "support/testmain.h"

#include <QFile>
#include <QTest>

#include <algorithm>

using namespace ramplight;
using namespace ramplight::planning;
using namespace ramplight::test;

namespace {

constexpr std::uint64_t seed = 71;
constexpr int days = 4;

LookBackEffort quick()
{
    return {.mornings = 15, .ofEach = {.search = {.schedules = 20}, .runs = 60}};
}

Moment daysAfter(Moment moment, int count)
{
    return moment.plusMinutes(count * 24 * 60);
}

} // namespace

// A house finds out from its own ledger how good its forecasts were.
class TestLookBack : public QObject
{
    Q_OBJECT

private slots:
    void initTestCase()
    {
        m_catalogue = theShippedCatalogue();
        QFile file(QStringLiteral(RAMPLIGHT_SOURCE_DIR "/db/demo/workshop.json"));
        QVERIFY(file.open(QIODevice::ReadOnly));
        m_workshop = demo::readWorkshop(file.readAll()).value();
        m_house = std::make_unique<PlayedHouse>(m_catalogue, m_workshop, seed);
        m_house->planWith(quick().ofEach.search.schedules);
        m_house->play(days);
        m_ledger = m_house->history();
        QVERIFY(m_house->ready().size() >= 3);
    }

    void replay_atTheEnd_isWhatTheLedgerHolds()
    {
        HouseReplay replay(m_ledger);
        replay.goOnTo(daysAfter(m_house->mornings().back(), 1));
        const HouseInput input = replay.input(nullptr);
        QCOMPARE(input.cars.size(), m_house->ledger().cars().size());
        for (const CarState& car : input.cars)
            QVERIFY(car == m_house->ledger().cars().at(car.id));
    }

    void replay_atAMorning_knowsNothingOfTheDay()
    {
        HouseReplay replay(m_ledger);
        const Moment morning = m_house->mornings()[2];
        replay.goOnTo(morning);
        const HouseInput input = replay.input(nullptr);
        QVERIFY(!input.cars.empty());
        for (const CarState& car : input.cars) {
            const std::vector<CarEnvelope>& entries = m_ledger.cars.at(car.id);
            const auto before = std::ranges::count_if(
                entries, [morning](const CarEnvelope& entry) { return entry.at < morning; });
            QCOMPARE(car.seq, qint64{before});
        }
        QVERIFY(std::ranges::any_of(m_ledger.cars, [&](const auto& car) {
            return car.second.back().at >= morning && car.second.front().at < morning;
        }));
    }

    void ready_isWhenTheLastWorkWasDone_notWhenItWasReleased()
    {
        HouseReplay replay(m_ledger);
        replay.goOnTo(daysAfter(m_house->mornings().back(), 1));
        for (const auto& [car, ready] : m_house->ready()) {
            const auto found = replay.readyAfter(car, m_ledger.cars.at(car).front().at);
            QVERIFY(found);
            QCOMPARE(found->ms, ready.ms);
            QVERIFY(!replay.readyAfter(car, ready));
        }
    }

    void ready_isNotKnownBeforeItIsSo()
    {
        HouseReplay replay(m_ledger);
        const auto& [car, ready] = *m_house->ready().begin();
        replay.goOnTo(ready);
        QVERIFY(!replay.readyAfter(car, m_ledger.cars.at(car).front().at));
    }

    void mornings_areThoseOfOpenDays()
    {
        const SiteState site = m_house->ledger().site().value();
        const Moment monday = daysAfter(m_house->mornings().front(), 7);
        const std::vector<Moment> mornings = morningsBefore(monday, site, 6);
        QCOMPARE(mornings.size(), 6U);
        QVERIFY(std::ranges::is_sorted(mornings));
        for (const Moment morning : mornings) {
            QVERIFY(dayOf(morning, site.rules).dayOfWeek() < 6);
            QVERIFY(dayOf(morning, site.rules) < dayOf(monday, site.rules));
        }
        // Five in the week, the last one of the week before.
        QCOMPARE(dayOf(mornings.back(), site.rules).dayOfWeek(), 5);
        QCOMPARE(dayOf(mornings.front(), site.rules).dayOfWeek(), 5);
    }

    void carsThatLeftBefore_countByTheirWorkAlone()
    {
        LookBackEffort effort = quick();
        effort.mornings = 1;
        const Moment end = daysAfter(m_house->mornings().back(), 1);
        const Moment first =
            morningsBefore(end, m_house->ledger().site().value(), effort.mornings).front();
        HouseLedger less = m_ledger;
        for (const auto& [id, car] : m_house->ledger().cars())
            if (car.released && m_ledger.cars.at(id).back().at < first) {
                less.before.emplace(id, recordsOf(car));
                less.cars.erase(id);
            }
        QVERIFY(!less.before.empty());
        QVERIFY(
            std::ranges::any_of(less.before, [](const auto& car) { return !car.second.empty(); }));
        QVERIFY(lookBack(less, m_house->catalogue(), end, effort).stretches() ==
                lookBack(m_ledger, m_house->catalogue(), end, effort).stretches());
    }

    void houseWithoutAPast_hasWhatAllHaveInCommon()
    {
        const HouseLedger first{m_ledger.site, {}, {}};
        const Moment end = daysAfter(m_house->mornings().back(), 1);
        QVERIFY(lookBack(first, m_house->catalogue(), end, quick()).stretches() ==
                Hindsight().stretches());
        LookBackEffort none = quick();
        none.mornings = 0;
        QVERIFY(lookBack(m_ledger, m_house->catalogue(), end, none).stretches() ==
                Hindsight().stretches());
        QVERIFY(lookBack(m_ledger, m_house->catalogue(), end, quick(), [] {
                    return true;
                }).stretches() == Hindsight().stretches());
    }

    void houseThatStoodStill_learnsThatItsForecastsWereTooSoon()
    {
        // Two weeks in which nobody did a thing.
        const Moment end = daysAfter(m_house->mornings().back(), 15);
        const Hindsight learned = lookBack(m_ledger, m_house->catalogue(), end, quick());
        const Hindsight again = lookBack(m_ledger, m_house->catalogue(), end, quick());
        QVERIFY(learned.stretches() == again.stretches());
        // Cars that were to take some days took the fortnight.
        constexpr std::size_t someDays = 1;
        constexpr std::size_t middle = SaidThen::levels.size() / 2;
        QVERIFY2(learned.stretches()[someDays][middle] >
                     1.5 * Hindsight().stretches()[someDays][middle],
                 qPrintable(QString::number(learned.stretches()[someDays][middle])));
    }

    void carThatLeft_isNoForecastThatFailed()
    {
        PlayedHouse house(m_catalogue, m_workshop, seed);
        house.play(1);
        const Moment morning = daysAfter(house.mornings().front(), 1);
        const auto knownAfterAFortnight = [&] {
            const HouseLedger ledger = house.history();
            HouseReplay replay(ledger);
            replay.goOnTo(morning);
            HouseInput input = replay.input(house.catalogue());
            input.hindsight = Hindsight::none();
            LookBack looking;
            looking.keep(planHouse(input, morning, quick().ofEach));
            replay.goOnTo(daysAfter(morning, 14));
            return looking.knownBy(replay).size();
        };
        const std::size_t before = knownAfterAFortnight();
        const std::size_t left = house.withdrawAll(daysAfter(morning, 1));
        QVERIFY(left > 0);
        QCOMPARE(knownAfterAFortnight(), before - left);
    }

private:
    Catalogue m_catalogue;
    demo::WorkshopFile m_workshop;
    std::unique_ptr<PlayedHouse> m_house;
    HouseLedger m_ledger;
};

RAMPLIGHT_TEST(QCoreApplication, TestLookBack)
#include "tst_lookback.moc"
