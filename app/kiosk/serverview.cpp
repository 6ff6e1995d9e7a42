// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/serverview.h"

#include "kiosk/carwords.h"
#include "kiosk/historywords.h"
#include "kiosk/siteasks.h"

#include <algorithm>
#include <array>
#include <span>

namespace ramplight {

namespace {

// The last of them tell how the work stands.
constexpr std::size_t mostLines = 3;

std::span<const Column<KeptRow>> keptColumns()
{
    static constexpr std::array all{
        Column<KeptRow>{"number", cell<&KeptRow::number>},
        Column<KeptRow>{"carId", cell<&KeptRow::carId>},
        Column<KeptRow>{"stockNumber", cell<&KeptRow::stockNumber>},
        Column<KeptRow>{"work", cell<&KeptRow::work>},
        Column<KeptRow>{"here", cell<&KeptRow::here>},
        Column<KeptRow>{"refused", cell<&KeptRow::refused>},
        Column<KeptRow>{"refusal", cell<&KeptRow::refusal>},
        Column<KeptRow>{"there", cell<&KeptRow::there>},
    };
    return all;
}

} // namespace

KeptModel::KeptModel(QObject* parent)
    : ListBase(std::make_unique<RowTable<KeptRow>>(keptColumns()), parent)
{
}

ServerView::ServerView(Desk& desk, Session& session, SiteBook& book, Ticker& ticker,
                       QObject* parent)
    : QObject(parent)
    , m_desk(desk)
    , m_session(session)
    , m_book(book)
    , m_ticker(ticker)
{
    connect(&desk, &Desk::standingChanged, this, &ServerView::take);
    connect(&book, &SiteBook::changed, this, &ServerView::show);
    connect(&ticker, &Ticker::minute, this, &ServerView::show);
    m_standing = desk.standing();
}

QString ServerView::keptWords() const
{
    const int count = waiting();
    if (count == 0)
        return tr(
            "Work, readings, photos and signatures are kept here meanwhile; a release waits.");
    return count == 1
               ? tr("1 thing is kept here, not yet on the wall; a release waits.")
               : tr("%1 things are kept here, not yet on the wall; a release waits.").arg(count);
}

QString ServerView::what() const
{
    if (away() && m_standing.sending)
        return tr("The workshop's server is back: what was kept here is on its way");
    if (away() && !m_standing.hindrance.isEmpty())
        return tr("The workshop's server does not take what was kept here");
    if (away())
        return tr("The workshop's server is away since %1")
            .arg(m_book.times().shortly(m_standing.awaySince, m_ticker.now()));
    return refused() == 1 ? tr("1 thing that was done here was refused when it was sent")
                          : tr("%1 things that were done here were refused when they were sent")
                                .arg(refused());
}

QString ServerView::detail() const
{
    if (!away())
        return tr("Not in the ledger: somebody who may manage reads both stories.");
    if (m_standing.knownAt.isNull())
        return tr("This kiosk knows nothing of the workshop yet; it goes on trying.");
    if (!m_standing.hindrance.isEmpty())
        return m_standing.hindrance;
    return tr("The wall shows %1. %2")
        .arg(m_book.times().shortly(m_standing.knownAt, m_ticker.now()), keptWords());
}

QString ServerView::staffWords() const
{
    return away() ? tr("The server is away: names, PINs and rights are those of %1.")
                        .arg(m_book.times().shortly(m_standing.knownAt, m_ticker.now()))
                  : QString();
}

int ServerView::waiting() const
{
    return static_cast<int>(std::ranges::count_if(m_standing.kept, &KeptRequest::waits));
}

int ServerView::refused() const
{
    return static_cast<int>(m_standing.kept.size()) - waiting();
}

bool ServerView::keepsCar(const QString& carId) const
{
    return std::ranges::any_of(m_standing.kept, [&](const KeptRequest& request) {
        return request.waits() && std::ranges::any_of(request.works, [&](const KeptWork& work) {
                   return work.car.text == carId;
               });
    });
}

bool ServerView::keepsWork(const QString& carId, int operationId) const
{
    return std::ranges::any_of(m_standing.kept, [&](const KeptRequest& request) {
        return request.waits() && std::ranges::any_of(request.works, [&](const KeptWork& work) {
                   return work.car.text == carId && work.operation.value == operationId;
               });
    });
}

void ServerView::take()
{
    m_standing = m_desk.standing();
    for (const KeptRequest& request : m_standing.kept)
        for (const KeptWork& work : request.works)
            if (!request.waits() && !away())
                readCar(work.car);
    show();
}

void ServerView::readCar(const CarId& car)
{
    whenReady(m_desk.car(car), this, [this, car](const tl::expected<CarState, Failure>& state) {
        if (!state)
            return;
        m_stories[car].car = *state;
        whenReady(m_desk.history(car), this,
                  [this, car](const tl::expected<std::vector<CarEnvelope>, Failure>& history) {
                      if (!history)
                          return;
                      m_stories[car].history = *history;
                      show();
                  });
    });
}

KeptRow ServerView::rowOf(const KeptRequest& request) const
{
    KeptRow row;
    row.number = static_cast<int>(request.number);
    row.here =
        dotted({m_book.nameOf(actorOf(request.asked)),
                m_book.times().shortly(request.at, m_ticker.now()), deedWords(request.asked)});
    row.refused = !request.waits();
    row.refusal = request.refusal;
    if (request.works.empty())
        return row;
    const KeptWork& first = request.works.front();
    row.carId = first.car.text;
    row.stockNumber = first.stockNumber;
    row.work = first.title;
    const auto story = m_stories.find(first.car);
    if (!row.refused || story == m_stories.end())
        return row;
    // What others did to this work, or to the car as a whole, since it was done here.
    for (const CarEnvelope& envelope : story->second.history) {
        const HistoryWords words = historyWords(envelope.event, story->second.car, m_book);
        if (envelope.at < request.at ||
            (!words.operation.isNull() && words.operation != first.operation))
            continue;
        row.there.append(dotted({m_book.times().shortly(envelope.at, m_ticker.now()),
                                 m_book.nameOf(envelope.by), words.what}));
    }
    if (row.there.size() > static_cast<qsizetype>(mostLines))
        row.there = row.there.last(mostLines);
    return row;
}

void ServerView::show()
{
    std::vector<KeptRow> rows;
    for (const KeptRequest& request : m_standing.kept)
        rows.push_back(rowOf(request));
    // What wants somebody comes first.
    std::ranges::stable_partition(rows, &KeptRow::refused);
    m_rows.replace(std::move(rows));
    emit changed();
}

void ServerView::note(int number)
{
    whenManager(m_session, m_book, m_ask, QStringLiteral("note"), tr("to take note of it"),
                [this, number] {
                    if (!m_ask.begin(QStringLiteral("note"), {}))
                        return;
                    whenReady(m_desk.noteRefused(number, m_session.person()), this,
                              [this](const tl::expected<void, QString>& noted) {
                                  if (noted)
                                      m_ask.succeed();
                                  else
                                      m_ask.fail(QStringLiteral("store"), noted.error(), false);
                              });
                });
}

} // namespace ramplight
