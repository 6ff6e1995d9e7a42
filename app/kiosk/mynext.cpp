// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/mynext.h"

#include "kiosk/carwords.h"
#include "planning/indexing.h"

#include <algorithm>

namespace ramplight {

namespace {

constexpr std::size_t shownJobs = 3;
constexpr std::size_t laterJobs = 6;
constexpr int nowMinutes = 5; ///< what begins sooner is said to begin now

constexpr std::array nextColumns{
    Column<NextRow>{"carId", cell<&NextRow::carId>},
    Column<NextRow>{"operationId", cell<&NextRow::operationId>},
    Column<NextRow>{"stockNumber", cell<&NextRow::stockNumber>},
    Column<NextRow>{"makeModel", cell<&NextRow::makeModel>},
    Column<NextRow>{"title", cell<&NextRow::title>},
    Column<NextRow>{"inHand", cell<&NextRow::inHand>},
    Column<NextRow>{"whenWords", cell<&NextRow::whenWords>},
    Column<NextRow>{"whereWords", cell<&NextRow::whereWords>},
    Column<NextRow>{"whyWords", cell<&NextRow::whyWords>},
    Column<NextRow>{"promisedWords", cell<&NextRow::promisedWords>},
    Column<NextRow>{"lengthWords", cell<&NextRow::lengthWords>},
    Column<NextRow>{"aboutWords", cell<&NextRow::aboutWords>},
    Column<NextRow>{"restraintWords", cell<&NextRow::restraintWords>},
    Column<NextRow>{"shape", cell<&NextRow::shape>},
    Column<NextRow>{"marks", cell<&NextRow::marks>},
};

} // namespace

LaterWork::LaterWork(QObject* parent)
    : ListBase(std::make_unique<RowTable<NextRow>>(nextColumns), parent)
{
}

MyNext::MyNext(Session& session, CardFeed& feed, SiteBook& book, Ticker& ticker, PlanService& plans,
               QObject* parent)
    : ListBase(std::make_unique<RowTable<NextRow>>(nextColumns), parent)
    , m_session(session)
    , m_feed(feed)
    , m_book(book)
    , m_ticker(ticker)
    , m_plans(plans)
{
    connect(&session, &Session::personChanged, this, &MyNext::rebuild);
    connect(&feed, &CardFeed::changed, this, &MyNext::rebuild);
    connect(&ticker, &Ticker::minute, this, &MyNext::rebuild);
    connect(&plans, &PlanService::changed, this, &MyNext::rebuild);
}

void MyNext::rebuild()
{
    std::vector<NextRow> rows;
    std::vector<NextRow> later;
    if (const PlanService::Plan& plan = m_plans.plan(); plan && m_session.signedIn())
        for (const int job : plan->jobsOf(m_session.person())) {
            if (later.size() == laterJobs)
                break;
            // There is nothing to open yet; what opens it stands before it.
            if (plan->isForeseen(job))
                continue;
            (rows.size() < shownJobs ? rows : later).push_back(rowOf(*plan, job));
        }
    replace(std::move(rows));
    m_later.set(std::move(later));
    emit plannedChanged();
}

NextRow MyNext::rowOf(const planning::HousePlan& plan, int job) const
{
    const auto number = planning::at(job);
    const planning::ShopJob& one = plan.house.shop.jobs[number];
    const planning::Placement& placed = plan.plan.jobs[number];
    const Moment start = plan.clock().momentOf(placed.start);
    NextRow row;
    row.carId = plan.carOf(job).text;
    row.operationId = plan.house.jobs[number].value;
    row.stockNumber = plan.house.shop.cars[planning::at(one.car)].name;
    row.title = one.title;
    row.inHand = one.running.has_value();
    row.whenWords = row.inHand ? tr("in hand")
                    : start <= m_ticker.now().plusMinutes(nowMinutes)
                        ? tr("now")
                        : m_book.times().dayAndClock(start, m_ticker.now());
    row.whyWords = row.inHand ? tr("You are on it.") : whyOf(plan, job);
    if (!row.inHand)
        row.lengthWords = tr("about %1").arg(minutesWords(one.minutes.usual));
    const CarState* car = m_plans.car(plan.carOf(job));
    const Operation* work = car == nullptr ? nullptr : car->operation(plan.house.jobs[number]);
    if (work != nullptr && work->place != wholeCar())
        row.marks = marksOf({{work->place, PlaceMark::Outstanding}});
    if (const CarCard* card = m_feed.card(plan.carOf(job))) {
        row.makeModel = makeModelOf(card->identity);
        row.aboutWords = dotted({card->identity.registration, shapeColourOf(card->identity)});
        row.restraintWords = restraintLine(card->restraintsAt(m_ticker.now()), {});
        row.shape = nameOf(card->identity.shape);
        const QString place = placeOf(card->bay, card->parking, m_book);
        row.whereWords =
            placed.bay >= 0
                ? tr("bay %1").arg(m_book.bayOf(plan.house.bays[planning::at(placed.bay)]))
                : (place.isEmpty() ? tr("where the car stands") : place);
        if (card->promised.isValid())
            row.promisedWords = promised(*card);
    }
    return row;
}

QString MyNext::promised(const CarCard& card) const
{
    const QString words = tr("promised %1").arg(m_book.times().day(card.promised, m_ticker.now()));
    const CarState* car = m_plans.car(card.car);
    return car == nullptr || car->importance == PromiseImportance::Usual
               ? words
               : tr("%1, %2").arg(words, ramplight::words(car->importance));
}

/// What it waits for, and why it is this of all work.
QString MyNext::whyOf(const planning::HousePlan& plan, int job) const
{
    const planning::ShopJob& one = plan.house.shop.jobs[planning::at(job)];
    const QString waits = sentence(plan.ownWaitWords(
        job, [this](Moment at) { return m_book.times().dayAndClock(at, m_ticker.now()); }));
    QStringList because;
    if (const CarCard* card = m_feed.card(plan.carOf(job))) {
        const auto line = std::ranges::find(card->outstanding, plan.house.jobs[planning::at(job)],
                                            &CardLine::operation);
        if (line != card->outstanding.end() && line->safety)
            because.append(tr("it is safety work"));
    }
    const auto promised = [&plan](int of) {
        return plan.house.shop.cars[planning::at(plan.house.shop.jobs[planning::at(of)].car)]
            .promised;
    };
    const std::vector<int> mine = plan.jobsOf(m_session.person());
    const CarState* car = m_plans.car(plan.carOf(job));
    if (car != nullptr && car->importance == PromiseImportance::MustBeKept)
        because.append(tr("the car's promise must be kept"));
    if (plan.isLate(one.car))
        because.append(car == nullptr || isLate(car->promised, m_ticker.now(), m_book)
                           ? tr("the car is late for its promise")
                           : tr("the car will be late for its promise"));
    else if (promised(job) != planning::never &&
             std::ranges::all_of(mine, [&](int of) { return promised(of) >= promised(job); }))
        because.append(tr("no car of yours is promised sooner"));
    if (because.isEmpty())
        return tr("%1.").arg(waits);
    return tr("%1. Next, as %2.").arg(waits, because.join(tr(" and ")));
}

} // namespace ramplight
