// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/arrivalview.h"

#include "kiosk/carwords.h"
#include "kiosk/filesview.h"

#include <QUuid>

namespace ramplight {

namespace {

constexpr int daysOffered = 14;

CarId newCarId()
{
    return {QUuid::createUuid().toString(QUuid::WithoutBraces)};
}

} // namespace

ArrivalView::ArrivalView(Desk& desk, Session& session, SiteBook& book, CardFeed& feed,
                         Ticker& ticker, QObject* parent)
    : QObject(parent)
    , m_desk(desk)
    , m_session(session)
    , m_book(book)
    , m_feed(feed)
    , m_ticker(ticker)
    , m_days(false)
{
    connect(&m_identity, &IdentityDraft::changed, this, &ArrivalView::changed);
    connect(&m_feed, &CardFeed::changed, this, &ArrivalView::changed);
    connect(&m_days, &Choices::chosenChanged, this, [this] {
        const QDate day = QDate::fromString(m_days.current(), Qt::ISODate);
        if (day.isValid() && day != m_promised) {
            m_promised = day;
            emit changed();
        }
    });
    begin({});
}

void ArrivalView::offerDays()
{
    const Moment now = m_ticker.now();
    const QDate today = m_book.times().dateOf(now);
    std::vector<ChoiceRow> days;
    for (int i = 0; i < daysOffered; ++i) {
        const QDate day = today.addDays(i);
        days.push_back({day.toString(Qt::ISODate),
                        sentence(m_book.times().day(day, now)),
                        {},
                        day == m_promised});
    }
    m_days.offer(std::move(days));
}

QString ArrivalView::carOf(const QString& stockNumber) const
{
    for (const CarCard& card : m_feed.cards())
        if (card.identity.stockNumber == stockNumber)
            return card.car.text;
    return {};
}

QString ArrivalView::sameVinWords() const
{
    // The one that was just written is on the wall, too.
    const CarCard* other = m_feed.withVin(m_identity.identity().vin, m_id);
    return other == nullptr ? QString()
                            : tr("%1 (%2) has this number and is in prep. Is it this car?")
                                  .arg(other->identity.stockNumber, makeModelOf(other->identity));
}

QString ArrivalView::promised() const
{
    return m_promised.isValid() ? m_promised.toString(Qt::ISODate) : QString();
}

void ArrivalView::setPromised(const QString& isoDate)
{
    m_promised = QDate::fromString(isoDate, Qt::ISODate);
    m_days.setChosen({isoDate});
    emit changed();
}

void ArrivalView::setParking(const QString& words)
{
    m_parking = words;
    emit changed();
}

bool ArrivalView::canSave() const
{
    return m_identity.fault().isEmpty() && !m_ask.busy();
}

bool ArrivalView::isBegun() const
{
    return m_identity.isBegun() || m_promised.isValid() || !m_parking.isEmpty();
}

void ArrivalView::begin(const QString& vin)
{
    m_id = newCarId();
    m_command = newCommandId();
    m_identity.clear();
    Identity identity;
    identity.vin = vin;
    if (!vin.isEmpty()) {
        m_identity.start(identity, {});
        m_identity.shapes()->clear();
    }
    m_promised = {};
    m_parking.clear();
    m_importFaults.clear();
    m_ask.dismiss();
    m_days.clear();
    offerDays();
    emit changed();
}

void ArrivalView::save()
{
    const QString what = QStringLiteral("save");
    if (const QString fault = m_identity.fault(); !fault.isEmpty()) {
        m_ask.refuse(what, QStringLiteral("field-missing"), fault);
        return;
    }
    // A second try has the same ids.
    CarRequest request;
    request.id = m_command;
    request.car = m_id;
    request.commands.emplace_back(car::BringIn{m_identity.identity(), m_identity.carFacts(),
                                               m_promised, m_parking.trimmed()});
    m_session.whenSignedIn(tr("to bring in %1").arg(m_identity.identity().stockNumber),
                           [this, what, request](PersonId person) {
                               CarRequest signedRequest = request;
                               signedRequest.actor = person;
                               m_ask.send<CarOutcome>(
                                   what,
                                   [this, signedRequest] { return m_desk.run(signedRequest); },
                                   [this](const CarOutcome& outcome) {
                                       // The next car has a form, and ids, of its own.
                                       begin({});
                                       emit arrived(outcome.car.id.text);
                                   });
                           });
}

void ArrivalView::listFiles()
{
    whenReady(m_desk.appraisalFiles(), this,
              [this](const tl::expected<std::vector<DroppedFile>, EvidenceError>& listed) {
                  m_filesWords = listed
                                     ? tr("No appraisal file is in the drop folder or on a stick.")
                                     : words(listed.error());
                  m_files.setRows(listed ? fileRows(*listed, m_book, m_ticker.now())
                                         : std::vector<FileRow>());
                  emit changed();
              });
}

void ArrivalView::importFile(const QString& path)
{
    m_session.whenSignedIn(tr("to take in an appraisal"),
                           [this, path](PersonId person) { import(path, person); });
}

void ArrivalView::import(const QString& path, PersonId person)
{
    if (!m_ask.begin(QStringLiteral("import"), [this, path, person] { import(path, person); }))
        return;
    m_importFaults.clear();
    emit changed();
    whenReady(m_desk.importAppraisal(path, person), this,
              [this](const tl::expected<ImportReport, ImportFaults>& report) {
                  if (!report) {
                      m_importFaults = report.error().faults;
                      emit changed();
                      m_ask.fail(QStringLiteral("import"),
                                 tr("Nothing of this file was taken in. Mend what is listed here, "
                                    "then take it in again."),
                                 true);
                      return;
                  }
                  m_ask.succeed();
                  emit imported(report->stockNumbers, report->alreadyKnown);
              });
}

} // namespace ramplight
