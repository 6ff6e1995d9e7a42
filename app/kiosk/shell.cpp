// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/shell.h"

#include "kiosk/carwords.h"
#include "kiosk/wallrow.h"

#include <algorithm>

namespace ramplight {

Shell::Shell(Services services, QObject* parent)
    : QObject(parent)
    , m_desk(services.desk)
    , m_catalogue(services.catalogue)
    , m_ticker(services.clock, std::move(services.steady))
    , m_book(m_desk)
    , m_feed(m_desk)
    , m_shiftEnd(m_desk, m_feed, m_book, m_ticker)
    , m_session(m_desk, m_book, m_ticker)
    , m_wall(m_feed, m_book, m_ticker)
    , m_bays(m_feed, m_book, m_ticker)
    , m_people(m_feed, m_book, m_ticker)
    , m_car(m_desk, m_session, m_book, m_feed, m_ticker, m_catalogue)
    , m_operation(m_desk, m_car, m_session, m_book, m_ticker, m_catalogue)
    , m_walkRound(m_car, m_session, m_book, m_ticker, m_catalogue)
    , m_arrival(m_desk, m_session, m_book, m_ticker)
    , m_staff(m_desk, m_session, m_book, m_feed, m_ticker, m_catalogue)
    , m_setup(m_desk, m_book, std::move(services.demo))
    , m_pages(std::make_shared<RecordPagesShelf>())
    , m_record(m_desk, m_pages)
    , m_dropped(m_desk, m_book, m_ticker)
{
    connect(&m_book, &SiteBook::changed, this, &Shell::siteChanged);
    connect(&m_ticker, &Ticker::minute, this, &Shell::minute);
    connect(&m_ticker, &Ticker::minute, this, &Shell::lookForMyWork);
    connect(&m_feed, &CardFeed::changed, this, &Shell::lookForMyWork);
    connect(&m_session, &Session::personChanged, this, &Shell::lookForMyWork);
    connect(&m_staff, &StaffView::warningsChanged, this, &Shell::houseWarningsChanged);
    connect(&m_session, &Session::timedOut, this, &Shell::wallWanted);
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
        if (m_staffOpen)
            m_staff.badgeScanned(code);
        else
            m_session.badge(code);
    });
    connect(&m_scans, &ScanRouter::carScanned, this, &Shell::carLabel);
    connect(&m_scans, &ScanRouter::vinScanned, this, &Shell::vin);
    connect(&m_scans, &ScanRouter::unknownScanned, this,
            [this] { say(tr("This code is no badge, no car label and no VIN.")); });
}

void Shell::start()
{
    m_book.refresh();
    m_feed.refresh();
    m_ticker.start();
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
    // Not on the wall: it may have been released.
    whenReady(m_desk.carByStockNumber(code.toUpper()), this,
              [this, code](const tl::expected<std::optional<CarId>, Failure>& car) {
                  if (!car)
                      say(words(car.error()));
                  else if (!*car)
                      say(tr("No car has the stock number %1.").arg(code));
                  else
                      emit carWanted((*car)->text);
              });
}

void Shell::vin(const QString& vin)
{
    m_session.touch();
    if (m_arrivalOpen) {
        m_arrival.identity()->setProperty("vin", vin);
        return;
    }
    const auto& cards = m_feed.cards();
    const auto card = std::ranges::find_if(
        cards, [&](const CarCard& known) { return known.identity.vin == vin; });
    if (card != cards.end()) {
        emit carWanted(card->car.text);
        return;
    }
    m_arrival.begin(vin);
    emit arrivalWanted(vin);
}

} // namespace ramplight
