// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/planservice.h"

#include <algorithm>
#include <chrono>
#include <utility>

namespace ramplight {

namespace {

constexpr int planEveryMinutes = 5; ///< also when nothing changes: time goes on
/// Nothing moves without need.
constexpr int wholePlan = planning::plannedDays * 24 * 60;

} // namespace

PlanService::PlanService(Desk& desk, CardFeed& feed, SiteBook& book, Ticker& ticker,
                         const PlanPace& pace, QObject* parent)
    : QObject(parent)
    , m_desk(desk)
    , m_feed(feed)
    , m_book(book)
    , m_ticker(ticker)
    , m_pace(pace)
    , m_back(desk, feed, book, pace.back)
{
    if (!m_pace.on)
        return;
    m_quiet.setSingleShot(true);
    m_quiet.setInterval(m_pace.quietMs);
    connect(&m_quiet, &QTimer::timeout, this, &PlanService::gather);
    connect(&feed, &CardFeed::changed, this, &PlanService::want);
    connect(&book, &SiteBook::changed, this, &PlanService::want);
    connect(&m_back, &LookingBack::changed, this, &PlanService::want);
    connect(&desk, &Desk::standingChanged, this, &PlanService::followStore);
    m_away = desk.standing().away;
    connect(&ticker, &Ticker::minute, this, [this] {
        if (m_learned)
            lookBack();
        if (++m_minutes >= planEveryMinutes)
            want();
    });
}

PlanService::~PlanService()
{
    if (m_stop)
        m_stop->store(true);
    leaveWhatIf();
    m_pool.waitForDone();
}

const CarState* PlanService::car(const CarId& id) const
{
    const auto found = m_cars.find(id);
    return found == m_cars.end() ? nullptr : &found->second;
}

void PlanService::want()
{
    if (!m_feed.isRead() || !m_book.isRead() || !m_book.site().isSetUp())
        return;
    m_wanted = true;
    m_quiet.start();
    emit workingChanged();
}

void PlanService::gather()
{
    if (m_gathering)
        return;
    // One after the other, so that what somebody touches meanwhile gets its turn at the store.
    for (const CarCard& card : m_feed.cards()) {
        const auto read = m_readAt.find(card.car);
        if (read != m_readAt.end() &&
            (read->second == card.seq || m_cars.at(card.car).seq == card.seq))
            continue;
        m_gathering = true;
        whenReady(m_desk.car(card.car), this,
                  [this, id = card.car, at = card.seq,
                   turn = m_turn](const tl::expected<CarState, Failure>& car) {
                      m_gathering = false;
                      // The store's own fault is told by who reads the cards.
                      if (!car)
                          return;
                      if (turn == m_turn) {
                          m_cars.insert_or_assign(id, *car);
                          m_readAt.insert_or_assign(id, at);
                      }
                      gather();
                  });
        return;
    }
    std::erase_if(m_cars, [this](const auto& entry) {
        if (m_feed.card(entry.first) != nullptr)
            return false;
        learnFrom(entry.second);
        m_readAt.erase(entry.first);
        return true;
    });
    search();
}

// What is known stays until it was read again: the wall goes on.
void PlanService::followStore()
{
    const bool away = m_desk.standing().away;
    if (std::exchange(m_away, away) == away)
        return;
    ++m_turn;
    m_readAt.clear();
}

void PlanService::learn()
{
    if (!m_asked) {
        m_asked = true;
        whenReady(m_desk.releasedCards(planning::learnedCars), this,
                  [this](const tl::expected<std::vector<CarCard>, Failure>& cards) {
                      // Without them the plan goes by the catalogue's minutes.
                      if (cards)
                          for (const CarCard& card : *cards)
                              m_toLearn.push_back(card.car);
                      if (m_toLearn.empty())
                          endLearning();
                      else
                          learn();
                  });
        return;
    }
    if (m_toLearn.empty())
        return;
    const CarId id = m_toLearn.back();
    m_toLearn.pop_back();
    whenReady(m_desk.car(id), this, [this, id](const tl::expected<CarState, Failure>& car) {
        if (car)
            learnFrom(*car);
        if (!m_toLearn.empty()) {
            learn();
            return;
        }
        endLearning();
        want();
    });
}

void PlanService::learnFrom(const CarState& car)
{
    std::erase_if(m_gone, [&car](const auto& gone) { return gone.first == car.id; });
    m_gone.emplace_back(car.id, planning::recordsOf(car));
    if (std::ssize(m_gone) > planning::learnedCars)
        m_gone.pop_front();
}

void PlanService::endLearning()
{
    m_learned = true;
    lookBack();
    emit workingChanged();
}

void PlanService::lookBack()
{
    const Moment now = m_ticker.now();
    if (m_back.isOwed(now))
        m_back.look(now, {m_gone.begin(), m_gone.end()});
}

void PlanService::search()
{
    // What it has found by then is still shown, for as long as there is nothing newer.
    if (m_stop)
        m_stop->store(true);
    m_wanted = false;
    m_searching = true;
    m_minutes = 0;
    auto input = std::make_shared<planning::HouseInput>();
    input->site = m_book.site();
    input->calendar = planning::calendarOf(input->site);
    input->catalogue = std::make_shared<const Catalogue>(m_book.catalogue());
    input->hindsight = m_back.hindsight();
    for (const auto& [id, car] : m_cars) {
        input->cars.push_back(car);
        const std::vector<planning::WorkRecord> records = planning::recordsOf(car);
        input->records.insert(input->records.end(), records.begin(), records.end());
    }
    // What was held again after it had left is among the cars.
    for (const auto& [id, records] : m_gone)
        if (!m_cars.contains(id))
            input->records.insert(input->records.end(), records.begin(), records.end());
    m_stop = std::make_shared<std::atomic_bool>(false);
    emit workingChanged();
    whenReady(start({.input = input, .now = m_ticker.now(), .previous = m_plan}, m_stop), this,
              [this, input, previous = m_plan, stop = m_stop](const Plan& plan) {
                  m_input = input;
                  m_previous = previous;
                  m_plan = plan;
                  if (stop == m_stop)
                      m_searching = false;
                  emit changed();
                  emit workingChanged();
                  learn();
              });
}

QFuture<PlanService::Plan> PlanService::start(Search search, const Flag& stop)
{
    return onPool(m_pool, [search = std::move(search), stop, pace = m_pace]() -> Plan {
        planning::PlanEffort effort{.runs = pace.runs, .steadyMinutes = search.steadyMinutes};
        if (search.like) {
            if (stop->load())
                return {};
            effort.search = planning::asThoroughAs(*search.like, [stop] { return stop->load(); });
        } else if (pace.schedules > 0) {
            effort.search.schedules = pace.schedules;
            effort.search.stop = [stop] { return stop->load(); };
        } else {
            const auto end =
                std::chrono::steady_clock::now() + std::chrono::milliseconds(pace.searchMs);
            effort.search.stop = [stop, end] {
                return stop->load() || std::chrono::steady_clock::now() >= end;
            };
        }
        const planning::HousePlan* previous = search.previous.get();
        return std::make_shared<const planning::HousePlan>(
            search.changes.empty()
                ? planning::planHouse(*search.input, search.now, effort, previous)
                : planning::planHouse(planning::whatif::changed(*search.input, search.changes),
                                      search.now, effort, previous));
    });
}

QFuture<PlanService::Plan> PlanService::consider(const planning::whatif::Assign& wish)
{
    return start({.input = m_input,
                  .changes = {wish},
                  .now = m_plan->start,
                  .steadyMinutes = wholePlan,
                  .previous = m_plan},
                 std::make_shared<std::atomic_bool>(false));
}

QFuture<PlanService::Plan> PlanService::whatIf(const std::vector<planning::whatif::Change>& changes)
{
    leaveWhatIf();
    m_stopWhatIf = std::make_shared<std::atomic_bool>(false);
    return start({.input = m_input,
                  .changes = changes,
                  .now = m_plan->start,
                  .previous = m_previous,
                  .like = m_plan},
                 m_stopWhatIf);
}

void PlanService::leaveWhatIf()
{
    if (m_stopWhatIf)
        m_stopWhatIf->store(true);
}

} // namespace ramplight
