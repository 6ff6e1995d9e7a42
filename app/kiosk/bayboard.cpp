// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/bayboard.h"

#include "kiosk/carwords.h"
#include "kiosk/kioskenums.h"
#include "kiosk/wallrow.h"
#include "planning/indexing.h"

#include <algorithm>

namespace ramplight {

namespace {

constexpr std::array bayColumns{
    Column<BoardRow>{"bayId", cell<&BoardRow::bayId>},
    Column<BoardRow>{"number", cell<&BoardRow::number>},
    Column<BoardRow>{"name", cell<&BoardRow::name>},
    Column<BoardRow>{"free", cell<&BoardRow::free>},
    Column<BoardRow>{"carId", cell<&BoardRow::carId>},
    Column<BoardRow>{"stockNumber", cell<&BoardRow::stockNumber>},
    Column<BoardRow>{"makeModel", cell<&BoardRow::makeModel>},
    Column<BoardRow>{"band", cell<&BoardRow::band>},
    Column<BoardRow>{"who", cell<&BoardRow::who>},
    Column<BoardRow>{"task", cell<&BoardRow::task>},
    Column<BoardRow>{"elapsedWords", cell<&BoardRow::elapsedWords>},
    Column<BoardRow>{"progress", cell<&BoardRow::progress>},
    Column<BoardRow>{"over", cell<&BoardRow::over>},
    Column<BoardRow>{"forgottenWords", cell<&BoardRow::forgottenWords>},
    Column<BoardRow>{"forgottenWork", cell<&BoardRow::forgottenWork>},
    Column<BoardRow>{"restraintWords", cell<&BoardRow::restraintWords>},
    Column<BoardRow>{"nextStock", cell<&BoardRow::nextStock>},
    Column<BoardRow>{"nextWords", cell<&BoardRow::nextWords>},
};

constexpr std::array outsideColumns{
    Column<OutsideRow>{"personId", cell<&OutsideRow::personId>},
    Column<OutsideRow>{"name", cell<&OutsideRow::name>},
    Column<OutsideRow>{"onCar", cell<&OutsideRow::onCar>},
    Column<OutsideRow>{"carId", cell<&OutsideRow::carId>},
    Column<OutsideRow>{"stockNumber", cell<&OutsideRow::stockNumber>},
    Column<OutsideRow>{"words", cell<&OutsideRow::words>},
    Column<OutsideRow>{"forgotten", cell<&OutsideRow::forgotten>},
    Column<OutsideRow>{"nextWords", cell<&OutsideRow::nextWords>},
};

constexpr std::array blockedColumns{
    Column<BlockedRow>{"carId", cell<&BlockedRow::carId>},
    Column<BlockedRow>{"operationId", cell<&BlockedRow::operationId>},
    Column<BlockedRow>{"stockNumber", cell<&BlockedRow::stockNumber>},
    Column<BlockedRow>{"title", cell<&BlockedRow::title>},
    Column<BlockedRow>{"words", cell<&BlockedRow::words>},
    Column<BlockedRow>{"pastDue", cell<&BlockedRow::pastDue>},
};

const CardLine* lineOf(const CarCard& card, PersonId person)
{
    for (const CardLine& line : card.outstanding)
        if (std::ranges::find(line.people, person) != line.people.end())
            return &line;
    return nullptr;
}

QString blockedBy(const CardLine& line, const TimeWords& times, Moment now)
{
    if (!line.due.isValid())
        return line.waitsFor;
    const QString due =
        times.isOver(line.due, now) ? BayBoard::tr("was due %1") : BayBoard::tr("due %1");
    return dotted({line.waitsFor, due.arg(times.day(line.due, now))});
}

/// Something of the car that stands in a bay is to be done in it before a minute of the plan.
/// Where not, somebody takes it out before another car can come.
bool isWorkedOnThere(const planning::HousePlan& plan, const BoardRow& row, planning::PlanMinute by)
{
    for (std::size_t job = 0; job < plan.plan.jobs.size(); ++job) {
        const planning::Placement& placed = plan.plan.jobs[job];
        if (!placed.isPlanned() || placed.start >= by ||
            plan.carOf(static_cast<int>(job)).text != row.carId)
            continue;
        if (placed.bay < 0 || plan.house.bays[planning::at(placed.bay)] == BayId{row.bayId})
            return true;
    }
    return false;
}

} // namespace

BayBoard::BayBoard(CardFeed& feed, SiteBook& book, Ticker& ticker, PlanService& plans,
                   QObject* parent)
    : QObject(parent)
    , m_feed(feed)
    , m_book(book)
    , m_ticker(ticker)
    , m_plans(plans)
    , m_bays(std::span<const Column<BoardRow>>(bayColumns), this)
    , m_outside(std::span<const Column<OutsideRow>>(outsideColumns), this)
    , m_blocked(std::span<const Column<BlockedRow>>(blockedColumns), this)
{
    connect(&feed, &CardFeed::changed, this, &BayBoard::rebuild);
    connect(&book, &SiteBook::changed, this, &BayBoard::rebuild);
    connect(&ticker, &Ticker::minute, this, &BayBoard::rebuild);
    connect(&plans, &PlanService::changed, this, &BayBoard::rebuild);
}

void BayBoard::rebuild()
{
    std::vector<BoardRow> bays;
    for (const auto& [id, bay] : m_book.site().bays)
        if (bay.active)
            bays.push_back(rowOf(bay));
    std::ranges::stable_sort(bays, {}, &BoardRow::number);
    m_bays.set(std::move(bays));

    std::vector<OutsideRow> outside;
    for (const auto& [id, person] : m_book.site().people) {
        const bool works = person.can(Right::Work) || person.can(Right::Check);
        const bool inBay = std::ranges::any_of(m_feed.cards(), [who = id](const CarCard& card) {
            return !card.bay.isNull() && lineOf(card, who) != nullptr;
        });
        if (works && !inBay)
            outside.push_back(rowOf(person));
    }
    std::ranges::stable_sort(outside, {}, [](const OutsideRow& row) { return !row.onCar; });
    m_outside.set(std::move(outside));

    std::vector<BlockedRow> blocked;
    for (const CarCard& card : m_feed.cards())
        for (const CardLine& line : card.outstanding)
            if (line.state == OperationState::Blocked)
                blocked.push_back({card.car.text, line.operation.value, card.identity.stockNumber,
                                   line.title, blockedBy(line, m_book.times(), m_ticker.now()),
                                   m_book.times().isOver(line.due, m_ticker.now())});
    std::ranges::stable_sort(blocked, [](const BlockedRow& a, const BlockedRow& b) {
        return naturallyLess(a.stockNumber, b.stockNumber);
    });
    m_blocked.set(std::move(blocked));
}

BoardRow BayBoard::rowOf(const Bay& bay) const
{
    BoardRow row;
    row.bayId = bay.id.value;
    row.number = bay.number;
    row.name = bay.name;
    row.band = Wall::NoBand;
    const auto card = std::ranges::find(m_feed.cards(), bay.id, &CarCard::bay);
    if (card != m_feed.cards().end()) {
        const WallRow wall = wallRow(*card, m_book, m_ticker.now(), {});
        row.free = false;
        row.carId = card->car.text;
        row.stockNumber = card->identity.stockNumber;
        row.makeModel = makeModelOf(card->identity);
        row.band = wall.band;
        row.restraintWords = words(card->restraintsAt(m_ticker.now()));
        row.task = wall.footWho;
        const Moment now = m_ticker.now();
        if (const CardLine* running = inHandOn(*card, m_book.rules(), now)) {
            const int minutes = minutesOn(*running, now);
            const int usual = running->usual.usual;
            row.who = namesOf(whoWorksOn(*card), m_book);
            row.task = running->title;
            row.progress = usual > 0 ? static_cast<double>(minutes) / usual : 0;
            row.over = usual > 0 && minutes > usual;
            row.elapsedWords = usual > 0
                                   ? tr("%1 of %2").arg(minutesWords(minutes), minutesWords(usual))
                                   : minutesWords(minutes);
            if (isForgotten(*running, m_book.rules(), now)) {
                row.forgottenWords = stillWorkingWords(running->runningSince, m_book.times(), now);
                row.forgottenWork = running->operation.value;
            }
        }
    }
    showNext(row);
    return row;
}

void BayBoard::showNext(BoardRow& row) const
{
    const PlanService::Plan& plan = m_plans.plan();
    if (!plan)
        return;
    for (const int job : plan->jobsOf(BayId{row.bayId})) {
        const auto number = planning::at(job);
        if (plan->carOf(job).text == row.carId)
            continue;
        const planning::PlanMinute start = plan->plan.jobs[number].start;
        row.nextStock = plan->house.shop.cars[planning::at(plan->house.shop.jobs[number].car)].name;
        row.nextWords =
            tr("then %1 %2")
                .arg(row.nextStock,
                     m_book.times().shortly(plan->clock().momentOf(start), m_ticker.now()));
        if (!row.free && !isWorkedOnThere(*plan, row, start))
            row.nextWords = tr("%1 out, %2").arg(row.stockNumber, row.nextWords);
        return;
    }
}

OutsideRow BayBoard::rowOf(const Person& person) const
{
    OutsideRow row;
    row.personId = person.id.value;
    row.name = m_book.nameOf(person.id);
    row.words = tr("free");
    for (const CarCard& card : m_feed.cards())
        if (const CardLine* line = lineOf(card, person.id)) {
            const Moment now = m_ticker.now();
            row.onCar = true;
            row.carId = card.car.text;
            row.stockNumber = card.identity.stockNumber;
            row.forgotten = isForgotten(*line, m_book.rules(), now);
            row.words =
                row.forgotten
                    ? stillWorkingWords(line->runningSince, m_book.times(), now)
                    : dotted({row.stockNumber, line->title, minutesWords(minutesOn(*line, now))});
        }
    const PlanService::Plan& plan = m_plans.plan();
    if (!plan)
        return row;
    for (const int job : plan->jobsOf(person.id)) {
        const auto number = planning::at(job);
        const planning::ShopJob& one = plan->house.shop.jobs[number];
        if (one.running)
            continue;
        row.nextWords =
            tr("next %1, %2")
                .arg(m_book.times().shortly(plan->clock().momentOf(plan->plan.jobs[number].start),
                                            m_ticker.now()),
                     plan->house.shop.cars[planning::at(one.car)].name);
        break;
    }
    return row;
}

} // namespace ramplight
