// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/serverview.h"

#include "kiosk/carwords.h"
#include "kiosk/historywords.h"
#include "kiosk/photourl.h"
#include "kiosk/siteasks.h"

#include <algorithm>
#include <array>
#include <set>
#include <span>

namespace ramplight {

namespace {

// The last of them tell how the work stands.
constexpr std::size_t mostLines = 3;
// Of those that were read.
constexpr std::size_t mostRead = 50;

/// Of the picture that was to be attached; nobody sees it with the car where that was refused.
QString photoUrlOf(const WorkRequest& asked)
{
    if (const auto* one = std::get_if<CarRequest>(&asked))
        for (const CarCommand& command : one->commands)
            if (const auto* attach = std::get_if<car::AttachPhoto>(&command))
                return photoUrl(attach->photo, PhotoSize::Panel);
    return {};
}

std::span<const Column<KeptRow>> keptColumns()
{
    static constexpr std::array all{
        Column<KeptRow>{"number", cell<&KeptRow::number>},
        Column<KeptRow>{"carId", cell<&KeptRow::carId>},
        Column<KeptRow>{"stockNumber", cell<&KeptRow::stockNumber>},
        Column<KeptRow>{"work", cell<&KeptRow::work>},
        Column<KeptRow>{"here", cell<&KeptRow::here>},
        Column<KeptRow>{"photoUrl", cell<&KeptRow::photoUrl>},
        Column<KeptRow>{"toBeRead", cell<&KeptRow::toBeRead>},
        Column<KeptRow>{"notice", cell<&KeptRow::notice>},
        Column<KeptRow>{"refusal", cell<&KeptRow::refusal>},
        Column<KeptRow>{"there", cell<&KeptRow::there>},
        Column<KeptRow>{"readBy", cell<&KeptRow::readBy>},
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
    connect(&session, &Session::personChanged, this, &ServerView::show);
    m_standing = desk.standing();
    takeNoted();
}

QString ServerView::keptWords() const
{
    const int count = waiting();
    if (count == 0)
        return tr(
            "Work, readings, findings, photos, moves and signatures are kept here meanwhile; a "
            "release waits.");
    return count == 1
               ? tr("1 thing is kept here, not yet on the wall; a release waits.")
               : tr("%1 things are kept here, not yet on the wall; a release waits.").arg(count);
}

QString ServerView::titleOf(const KeptTrouble& trouble)
{
    switch (trouble.kind) {
    case TroubleKind::FileDamaged:
        return tr("The file of what is kept here was damaged");
    case TroubleKind::ServerOlder:
        return tr("The workshop's server is older than what this kiosk saw of it");
    }
    return {};
}

QString ServerView::entryWords(int count)
{
    return count == 1 ? tr("1 entry") : tr("%1 entries").arg(count);
}

QString ServerView::noticeWords() const
{
    const auto first = std::ranges::find_if(m_standing.kept, &KeptRequest::isToBeRead);
    if (first == m_standing.kept.end())
        return {};
    if (first->trouble)
        return titleOf(*first->trouble);
    return tr("Something that was kept here is no longer what was written");
}

QString ServerView::what() const
{
    if (away() && m_standing.sending)
        return tr("The workshop's server is back: what was kept here is on its way");
    if (away() && m_standing.moved)
        return tr("This workshop is no longer on its server");
    if (away() && !m_standing.hindrance.isEmpty())
        return waiting() > 0 ? tr("The workshop's server does not take what was kept here")
                             : tr("This kiosk cannot work with the workshop's server");
    if (away())
        return tr("The workshop's server is away since %1")
            .arg(m_book.times().shortly(m_standing.awaySince, m_ticker.now()));
    if (notices() > 0)
        return noticeWords();
    if (hasFault())
        return tr("This kiosk cannot go on without the workshop's server");
    if (refused() == 0)
        return waiting() == 1 ? tr("1 thing is kept here, not yet on the wall")
                              : tr("%1 things are kept here, not yet on the wall").arg(waiting());
    return refused() == 1 ? tr("1 thing that was done here was refused when it was sent")
                          : tr("%1 things that were done here were refused when they were sent")
                                .arg(refused());
}

QString ServerView::detail() const
{
    if (!away() && notices() > 0)
        return tr("Somebody who may manage reads what was lost and what to do: touch the button.");
    if (!away() && hasFault())
        return m_standing.fault;
    if (!away() && refused() == 0 && !m_standing.hindrance.isEmpty())
        return m_standing.hindrance;
    if (!away())
        return refused() > 0 ? tr("Not in the ledger: somebody who may manage reads both stories.")
                             : tr("The server did not take it yet; this kiosk goes on trying.");
    QStringList said;
    if (m_standing.moved)
        said.append(m_standing.hindrance);
    else if (m_standing.knownAt.isNull() && !m_standing.hindrance.isEmpty())
        said.append(tr("It knows no staff and no cars until then: %1").arg(m_standing.hindrance));
    else if (m_standing.knownAt.isNull())
        said.append(hasFault()
                        ? tr("It knows no staff and no cars until then: %1").arg(m_standing.fault)
                        : tr("This kiosk knows nothing of the workshop yet; it goes on "
                             "trying."));
    else if (!m_standing.hindrance.isEmpty())
        said.append(m_standing.hindrance);
    else
        said.append(
            tr("The wall shows %1. %2")
                .arg(m_book.times().shortly(m_standing.knownAt, m_ticker.now()), keptWords()));
    if (notices() > 0)
        said.append(noticeWords() + QLatin1Char('.'));
    return said.join(QLatin1Char(' '));
}

QString ServerView::staffWords() const
{
    if (!away())
        return {};
    if (m_standing.knownAt.isNull())
        return tr("The server is away, and this kiosk knows no staff: nobody can sign in yet.");
    return tr("The server is away: names, PINs and rights are those of %1.")
        .arg(m_book.times().shortly(m_standing.knownAt, m_ticker.now()));
}

int ServerView::waiting() const
{
    return static_cast<int>(std::ranges::count_if(m_standing.kept, &KeptRequest::waits));
}

int ServerView::refused() const
{
    return static_cast<int>(m_standing.kept.size()) - waiting() - notices();
}

int ServerView::notices() const
{
    return static_cast<int>(std::ranges::count_if(m_standing.kept, &KeptRequest::isToBeRead));
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
    takeNoted();
    show();
}

void ServerView::takeNoted()
{
    if (!m_standing.shared)
        return;
    whenReady(m_desk.notedRefusals(), this,
              [this](const tl::expected<std::vector<KeptRequest>, QString>& noted) {
                  if (!noted)
                      return;
                  m_noted = *noted;
                  show();
              });
}

std::vector<const KeptRequest*> ServerView::notedFor(PersonId person) const
{
    const Person* known = m_book.site().person(person);
    const bool mayManage = known != nullptr && known->can(Right::Manage);
    std::vector<const KeptRequest*> all;
    for (const KeptRequest& request : m_noted) {
        const bool isTheirs = !request.trouble && actorOf(request.asked) == person;
        if (!person.isNull() && (mayManage || isTheirs) && all.size() < mostRead)
            all.push_back(&request);
    }
    return all;
}

int ServerView::read() const
{
    return static_cast<int>(notedFor(m_session.person()).size());
}

void ServerView::refreshRead()
{
    std::set<CarId> cars;
    for (const KeptRequest* request : notedFor(m_session.person()))
        for (const KeptWork& work : request->works)
            cars.insert(work.car);
    for (const CarId& car : cars)
        readCar(car);
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

void ServerView::describe(const KeptTrouble& trouble, Moment at, KeptRow& row) const
{
    const TimeWords& times = m_book.times();
    const Moment now = m_ticker.now();
    row.work = titleOf(trouble);
    if (trouble.kind == TroubleKind::ServerOlder) {
        row.here = tr("Found %1: the server does not have %2 that this kiosk saw until %3. "
                      "A backup was brought back there, or another server is in its place.")
                       .arg(times.shortly(at, now), entryWords(trouble.entries()),
                            times.shortly(trouble.until(), now));
        row.refusal =
            tr("Look at each of these cars, and enter again what is missing. Tell whoever looks "
               "after the server before anything is released.");
        if (!trouble.file.isEmpty())
            row.refusal += QLatin1Char(' ') +
                           tr("Each entry stands in this kiosk's log and in the file %1 of its "
                              "standby folder.")
                               .arg(trouble.file);
        for (const KeptTrouble::Missing& one : trouble.missing)
            row.there.append(dotted({one.car.isEmpty()           ? tr("People and rules")
                                     : one.stockNumber.isEmpty() ? one.car.text
                                                                 : one.stockNumber,
                                     entryWords(one.entries),
                                     tr("the last at %1").arg(times.shortly(one.until, now))}));
        return;
    }
    QStringList said{trouble.file.isEmpty()
                         ? tr("Found %1: there is none any more, and another one was begun.")
                               .arg(times.shortly(at, now))
                         : tr("Found %1: it is kept as %2 in this kiosk's standby folder, and "
                              "another one was begun.")
                               .arg(times.shortly(at, now), trouble.file)};
    said.append(tr("Read out of it, and sent as always: %1.").arg(trouble.readOut));
    if (trouble.changed > 0)
        said.append(tr("Read out, but no longer what was written, and shown one by one: %1.")
                        .arg(trouble.changed));
    if (trouble.lost > 0 || !trouble.perhapsMore)
        said.append(tr("Not to be read: %1.").arg(trouble.lost));
    if (trouble.perhapsMore)
        said.append(tr("How many more there were cannot be told."));
    row.here = said.join(QLatin1Char(' '));
    row.refusal = trouble.lost > 0 || trouble.perhapsMore || trouble.changed > 0
                      ? tr("What people did at this kiosk while the server was away may be missing "
                           "on the wall: ask them, and enter it again. Remove nothing; whoever "
                           "looks after this kiosk may find more in the file, and checks the disk.")
                      : tr("Nothing is missing. Whoever looks after this kiosk checks the disk.");
}

// What others did to this work, or to the car as a whole, since it was done here.
void ServerView::compare(const KeptRequest& request, KeptRow& row) const
{
    const KeptWork& first = request.works.front();
    const auto story = m_stories.find(first.car);
    if (story == m_stories.end())
        return;
    const qint64 known = knownTo(request, first.car);
    for (const CarEnvelope& envelope : story->second.history) {
        const HistoryWords words = historyWords(envelope.event, story->second.car, m_book);
        const bool isSinceRead = request.seenAt < envelope.at && !request.seenAt.isNull();
        const bool wasKnown = known > 0 ? envelope.seq <= known : envelope.at < request.at;
        if (wasKnown || isSinceRead ||
            (!words.operation.isNull() && words.operation != first.operation))
            continue;
        row.there.append(dotted({m_book.times().shortly(envelope.at, m_ticker.now()),
                                 m_book.nameOf(envelope.by), words.what}));
    }
    if (row.there.size() > static_cast<qsizetype>(mostLines))
        row.there = row.there.last(mostLines);
}

KeptRow ServerView::rowOf(const KeptRequest& request) const
{
    KeptRow row;
    row.number = static_cast<int>(request.number);
    row.toBeRead = !request.waits();
    row.notice = request.isToBeRead();
    if (!request.seenAt.isNull())
        row.readBy = tr("Read by %1, %2")
                         .arg(m_book.nameOf(request.seenBy),
                              m_book.times().shortly(request.seenAt, m_ticker.now()));
    if (request.trouble) {
        describe(*request.trouble, request.at, row);
        return row;
    }
    row.here =
        dotted({m_book.nameOf(actorOf(request.asked)),
                m_book.times().shortly(request.at, m_ticker.now()), deedWords(request.asked)});
    row.photoUrl = photoUrlOf(request.asked);
    row.refusal = request.damaged
                      ? tr("The disk of this kiosk changed it since it was written, so that nobody "
                           "can vouch for what it says, and it is not sent. Ask who did it, look "
                           "at the car, and enter it again where it is missing.")
                      : request.refusal;
    if (request.works.empty()) {
        if (request.damaged)
            row.work = tr("Something that was done here");
        return row;
    }
    const KeptWork& first = request.works.front();
    row.carId = first.car.text;
    row.stockNumber = first.stockNumber;
    row.work = first.title;
    if (row.toBeRead)
        compare(request, row);
    return row;
}

void ServerView::show()
{
    std::vector<KeptRow> rows;
    for (const KeptRequest& request : m_standing.kept)
        rows.push_back(rowOf(request));
    // What wants somebody comes first.
    std::ranges::stable_partition(rows, &KeptRow::toBeRead);
    m_rows.replace(std::move(rows));
    std::vector<KeptRow> readRows;
    for (const KeptRequest* request : notedFor(m_session.person()))
        readRows.push_back(rowOf(*request));
    m_readRows.replace(std::move(readRows));
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
