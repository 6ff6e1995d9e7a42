// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/shell.h"

#include "domain/wheeltag.h"
#include "domain/words.h"
#include "kiosk/carwords.h"
#include "kiosk/wallrow.h"

#include <algorithm>

namespace ramplight {

Shell::Shell(Services services, QObject* parent)
    : QObject(parent)
    , m_desk(services.desk)
    , m_ticker(services.clock, std::move(services.steady))
    , m_book(m_desk, services.catalogue)
    , m_feed(m_desk)
    , m_shiftEnd(m_desk, m_feed, m_book, m_ticker)
    , m_session(m_desk, m_book, m_ticker)
    , m_plans(m_desk, m_feed, m_book, m_ticker, services.planning)
    , m_wall(m_feed, m_book, m_ticker, m_plans)
    , m_former(m_desk)
    , m_bays(m_feed, m_book, m_ticker)
    , m_board(m_feed, m_book, m_ticker, m_plans)
    , m_planView(m_feed, m_book, m_ticker, m_plans)
    , m_plannedJob(m_desk, m_session, m_book, m_ticker, m_plans, m_planView)
    , m_whatIf(m_desk, m_session, m_book, m_feed, m_ticker, m_plans, m_planView)
    , m_myNext(m_session, m_feed, m_book, m_ticker, m_plans)
    , m_people(m_feed, m_book, m_ticker)
    , m_car(m_desk, m_session, m_book, m_feed, m_ticker, m_book.catalogue())
    , m_operation(m_desk, m_car, m_session, m_book, m_ticker, m_book.catalogue())
    , m_beforeAfter(m_desk, m_car, m_book, m_ticker)
    , m_walkRound(m_car, m_session, m_book, m_ticker, m_book.catalogue())
    , m_together(
          {m_desk, m_car, m_operation, m_session, m_book, m_feed, m_ticker, m_book.catalogue()})
    , m_arrival(m_desk, m_session, m_book, m_feed, m_ticker)
    , m_transcripts(m_desk, m_session, m_book, m_feed, m_ticker)
    , m_review(m_desk, m_walkRound, m_book)
    , m_staff(m_desk, m_session, m_book, m_feed, m_ticker, m_book.catalogue())
    , m_settings(m_desk, m_session, m_book, m_ticker)
    , m_screen(m_session, m_book, services.screen, std::move(services.keepScreen))
    , m_backups(services.backups, m_desk, m_session, m_book, m_ticker)
    , m_server(m_desk, m_session, m_book, m_ticker)
    , m_recovery(services.backups, m_desk, m_book)
    , m_setup(m_desk, m_book, std::move(services.demo))
    , m_pages(std::make_shared<RecordPagesShelf>())
    , m_record(m_desk, m_pages)
    , m_papers(std::make_shared<RecordPagesShelf>())
    , m_paper(m_desk, m_book, m_papers)
    , m_printer(m_desk, m_session, m_book, std::move(services.keepPrinter))
    , m_dropped(m_desk, m_car, m_book, m_ticker)
    , m_camera(services.camera ? services.camera() : machineCamera())
    , m_phoneSettings(services.phone)
    , m_phone(m_desk, m_operation, m_car, m_session, m_ticker)
    , m_phoneAddress(m_session, m_book, m_phone, std::move(services.keepPhone))
    , m_lastPlace(std::move(services.lastPlace))
    , m_keepPlace(std::move(services.keepPlace))
{
    connect(&m_book, &SiteBook::changed, this, &Shell::siteChanged);
    connect(&m_wall, &WallModel::filterChanged, this, [this] { m_former.look(m_wall.text()); });
    connect(&m_ticker, &Ticker::minute, this, &Shell::minute);
    connect(&m_ticker, &Ticker::minute, this, &Shell::lookForMyWork);
    connect(&m_feed, &CardFeed::changed, this, &Shell::lookForMyWork);
    connect(&m_ticker, &Ticker::minute, this, &Shell::lookAtTheClock);
    connect(&m_feed, &CardFeed::changed, this, &Shell::lookAtTheClock);
    connect(&m_session, &Session::personChanged, this, &Shell::lookForMyWork);
    connect(&m_staff, &StaffView::warningsChanged, this, &Shell::houseWarningsChanged);
    connect(&m_session, &Session::timedOut, this, [this] {
        m_wall.clearFilter();
        emit wallWanted();
    });
    connect(&m_session, &Session::note, this, &Shell::say);
    connect(&m_arrival, &ArrivalView::arrived, this, &Shell::walkRoundWanted);
    connect(&m_desk, &Desk::storeFault, this, [this](const QString& words) {
        if (m_storeFault == words)
            return;
        m_storeFault = words;
        emit storeFaultChanged();
    });
    // What was read again proves that the store answers.
    connect(&m_feed, &CardFeed::changed, this, [this] {
        if (!m_storeFault.isEmpty())
            emit m_desk.storeFault({});
    });
    connect(&m_scans, &ScanRouter::touched, &m_session, &Session::touch);
    connect(&m_scans, &ScanRouter::badgeScanned, this, [this](const QString& code) {
        // While it is asked who somebody is, a badge is the answer, whatever lies behind.
        if (m_staffOpen && m_session.stage() == Session::Nobody)
            m_staff.badgeScanned(code);
        else
            m_session.badge(code);
    });
    connect(&m_scans, &ScanRouter::carScanned, this, &Shell::carLabel);
    connect(&m_recovery, &RecoveryView::mendingBegins, &m_phone, &PhoneCamera::pause);
    connect(&m_recovery, &RecoveryView::mendingFailed, &m_phone, &PhoneCamera::goOn);
    connect(&m_scans, &ScanRouter::wheelScanned, this, &Shell::wheelTag);
    connect(&m_scans, &ScanRouter::vinScanned, this, &Shell::vin);
    connect(&m_scans, &ScanRouter::unknownScanned, this,
            [this] { say(tr("This code is no badge, no car label, no wheel tag and no VIN.")); });
}

void Shell::start()
{
    m_book.refresh();
    m_feed.refresh();
    m_ticker.start();
    // What cannot be served is told where a phone is wanted.
    m_phone.serve(m_phoneSettings);
}

QString Shell::clockWords() const
{
    return m_book.times().clock(m_ticker.now());
}

QString Shell::dayWords() const
{
    return m_book.times().weekday(m_ticker.now());
}

QString Shell::today() const
{
    return m_book.times().dateOf(m_ticker.now()).toString(Qt::ISODate);
}

void Shell::lookAtTheClock()
{
    // Nothing is dated before what it follows: a clock behind that was set back, or lost its
    // battery, or another kiosk's goes ahead. Minutes between kiosks without a time server are
    // usual.
    constexpr int usualMinutes = 3;
    Moment newest;
    for (const CarCard& card : m_feed.cards())
        newest = std::max(newest, card.lastAt);
    const Moment now = m_ticker.now();
    const int behind = newest > now ? minutesBetween(now, newest) : 0;
    const QString words =
        behind < usualMinutes
            ? QString()
            : tr("The clock here is %1 behind what was written last: until it is set, what is "
                 "signed bears that time. Tell the manager.")
                  .arg(minutesWords(behind));
    if (words == m_clockWarning)
        return;
    m_clockWarning = words;
    emit clockWarningChanged();
}

void Shell::lookForMyWork()
{
    MyWork work;
    for (const CarCard& card : m_feed.cards())
        for (const CardLine& line : card.outstanding)
            if (m_session.signedIn() &&
                std::ranges::find(line.people, m_session.person()) != line.people.end())
                work = {card.car.text, line.operation.value, line.title,
                        dotted({card.identity.stockNumber,
                                minutesWords(minutesOn(line, m_ticker.now()))})};
    if (work == m_myWork)
        return;
    m_myWork = work;
    emit myWorkChanged();
}

void Shell::say(const QString& words)
{
    m_note = words;
    emit noteChanged();
}

void Shell::dismissNote()
{
    say({});
}

void Shell::keepPlace(const QString& place)
{
    if (m_keepPlace)
        m_keepPlace(place);
}

void Shell::tryStoreAgain()
{
    m_book.refresh();
    m_feed.refresh();
    m_car.reload();
}

void Shell::carLabel(const QString& code)
{
    m_session.touch();
    const auto& cards = m_feed.cards();
    const auto card = std::ranges::find_if(cards, [&](const CarCard& known) {
        return known.identity.stockNumber.compare(code, Qt::CaseInsensitive) == 0;
    });
    if (card != cards.end()) {
        emit carWanted(card->car.text);
        return;
    }
    // Not on the wall: it may have been released, or withdrawn, when another has its number.
    whenReady(m_desk.carByStockNumber(code), this,
              [this, code](const tl::expected<std::optional<CarId>, Failure>& car) {
                  if (!car)
                      say(words(car.error()));
                  else if (*car)
                      emit carWanted((*car)->text);
                  else
                      formerLabel(code);
              });
}

void Shell::formerLabel(const QString& code)
{
    whenReady(m_desk.findCars(code), this,
              [this, code](const tl::expected<std::vector<CarCard>, Failure>& found) {
                  if (!found)
                      return say(words(found.error()));
                  const auto car = std::ranges::find_if(*found, [&](const CarCard& card) {
                      return card.identity.stockNumber.compare(code, Qt::CaseInsensitive) == 0;
                  });
                  if (car == found->end())
                      return say(tr("No car has the stock number %1.").arg(code));
                  emit carWanted(car->car.text);
              });
}

void Shell::wheelTag(const QString& code)
{
    m_session.touch();
    const std::optional<WheelTag> tag = readTagCode(code);
    if (!tag) {
        say(tr("This is no wheel tag of this house: %1.").arg(code));
        return;
    }
    const auto& cards = m_feed.cards();
    const auto card = std::ranges::find_if(cards, [&](const CarCard& known) {
        return known.identity.stockNumber.compare(tag->stockNumber, Qt::CaseInsensitive) == 0;
    });
    const QString wheel =
        tr("%1, %2").arg(tag->stockNumber, placeWords(tag->wheel, m_book.rules()));
    if (card == cards.end()) {
        say(tr("The tag is for %1. No such car is in prep.").arg(wheel));
        return;
    }
    // With a wheel's operation on the screen the question is whether this is that wheel.
    const PlaceId shown = wheelOf(PlaceId{m_operation.placeId()});
    if (m_operationOpen && !cornerCode(shown).isEmpty()) {
        const bool same = shown == tag->wheel && m_car.carId() == card->car.text;
        say(same ? tr("The right wheel: %1.").arg(wheel)
                 : tr("Another wheel: the tag is for %1, the screen shows %2, %3.")
                       .arg(wheel, m_car.stockNumber(), m_operation.placeWords()));
        return;
    }
    // What is in hand on this wheel goes before what waits.
    const CardLine* best = nullptr;
    for (const CardLine& line : card->outstanding) {
        if (wheelOf(line.place) != tag->wheel && line.place != tag->wheel)
            continue;
        const auto begun = [](const CardLine& of) {
            return of.state == OperationState::InHand || of.state == OperationState::Paused;
        };
        if (best == nullptr || (begun(line) && !begun(*best)) ||
            (begun(line) == begun(*best) && best->notYet && !line.notYet))
            best = &line;
    }
    if (best != nullptr) {
        emit operationWanted(card->car.text, best->operation.value);
        return;
    }
    say(tr("Nothing is open at this wheel: %1.").arg(wheel));
    emit carWanted(card->car.text);
}

void Shell::vin(const QString& vin)
{
    m_session.touch();
    if (m_arrivalOpen) {
        m_arrival.identity()->setProperty("vin", vin);
        return;
    }
    if (const CarCard* card = m_feed.withVin(vin)) {
        emit carWanted(card->car.text);
        return;
    }
    m_arrival.begin(vin);
    emit arrivalWanted(vin);
    // It comes back, or somebody looks for what was done to it.
    whenReady(
        m_desk.findCars(vin), this,
        [this](const tl::expected<std::vector<CarCard>, Failure>& found) {
            if (found && !found->empty())
                say(tr("This car was here before, as %1: %2. Search for that number to see "
                       "it.")
                        .arg(found->front().identity.stockNumber, words(found->front().status)));
        });
}

} // namespace ramplight
