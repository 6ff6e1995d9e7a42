// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/carview.h"

#include "domain/worktotals.h"
#include "kiosk/carrows.h"
#include "kiosk/carwords.h"
#include "kiosk/enumchoices.h"
#include "kiosk/kioskenums.h"
#include "kiosk/wallrow.h"

#include <algorithm>
#include <utility>

namespace ramplight {

namespace {

/// Where it is and what it is decides nothing over who may record one.
FindingData anyFinding()
{
    FindingData data;
    data.place = {QStringLiteral("bonnet")};
    return data;
}

} // namespace

CarView::CarView(Desk& desk, Session& session, SiteBook& book, CardFeed& feed, Ticker& ticker,
                 const Catalogue& catalogue, QObject* parent)
    : QObject(parent)
    , m_desk(desk)
    , m_session(session)
    , m_book(book)
    , m_ticker(ticker)
    , m_feed(feed)
    , m_probe(session, book, feed, ticker, catalogue)
    , m_finding(book)
    , m_importances(false)
    , m_kinds(false)
    , m_places(false)
{
    connect(&desk, &Desk::carsChanged, this, &CarView::reload);
    connect(&desk, &Desk::standingChanged, this, &CarView::followStore);
    m_away = desk.standing().away;
    connect(&session, &Session::personChanged, this, &CarView::rebuild);
    connect(&feed, &CardFeed::changed, this, &CarView::rebuild);
    connect(&ticker, &Ticker::minute, this, &CarView::rebuild);
    connect(&book, &SiteBook::changed, this, [this] {
        m_places.offer(placeChoices(m_book));
        m_kinds.offer(kindChoices(m_book.catalogue(), m_kindsFor));
        rebuild();
    });
    m_importances.offer(rowsOf<PromiseImportance>());
    m_kinds.offer(kindChoices(catalogue, m_kindsFor));
    m_places.offer(placeChoices(book));
}

// ---- what it is ------------------------------------------------------------------------------

QString CarView::makeModel() const
{
    return makeModelOf(m_car.identity);
}

QString CarView::shape() const
{
    return nameOf(m_car.identity.shape);
}

QString CarView::aboutWords() const
{
    return dotted({makeModel(), shapeColourOf(m_car.identity), placeWord()});
}

QString CarView::factWords() const
{
    const CarFacts& facts = m_car.facts;
    QStringList parts;
    if (const QString read = odometerWords(); !read.isEmpty())
        parts.append(read);
    if (facts.keys > 0)
        parts.append(facts.keys == 1 ? tr("1 key") : tr("%1 keys").arg(facts.keys));
    if (facts.testCertificateMonths)
        parts.append(tr("test certificate: %1 months left").arg(*facts.testCertificateMonths));
    if (!facts.frontTyre.isEmpty())
        parts.append(facts.rearTyre.isEmpty()
                         ? tr("tyres %1").arg(fitmentWords(facts.frontTyre))
                         : tr("tyres %1 front, %2 rear")
                               .arg(fitmentWords(facts.frontTyre), fitmentWords(facts.rearTyre)));
    for (const Fact fact : facts.has)
        parts.append(words(fact));
    return dotted(parts);
}

QString CarView::odometerWords() const
{
    const std::optional<OdometerReading> read = m_car.lastOdometer();
    if (!read)
        return {};
    return read->unit == DistanceUnit::Miles ? tr("%L1 miles").arg(read->value)
                                             : tr("%L1 km").arg(read->value);
}

bool CarView::odometerKilometres() const
{
    return m_car.unitOf(m_car.lastOdometer()) == DistanceUnit::Kilometres;
}

QString CarView::placeWord() const
{
    return placeOf(m_car.bay, m_car.parking, m_book);
}

QString CarView::promisedWord() const
{
    return m_book.times().day(m_car.promised, m_ticker.now());
}

QString CarView::promised() const
{
    return m_car.promised.isValid() ? m_car.promised.toString(Qt::ISODate) : QString();
}

QString CarView::importanceWord() const
{
    return m_car.importance == PromiseImportance::Usual ? QString() : words(m_car.importance);
}

QString CarView::importance() const
{
    return nameOf(m_car.importance);
}

bool CarView::late() const
{
    return !m_car.released && !m_car.left && isLate(m_car.promised, m_ticker.now(), m_book);
}

QString CarView::arrivedWords() const
{
    return m_book.times().dayAndClock(m_car.arrivedAt, m_ticker.now());
}

QString CarView::status() const
{
    return loaded() ? nameOf(statusOf(m_car, m_book.rules(), m_ticker.now())) : QString();
}

QString CarView::statusWord() const
{
    return loaded() ? statusWords(cardOf(m_car, m_book.rules()), m_ticker.now()) : QString();
}

QString CarView::sameVinStock() const
{
    const CarCard* other =
        m_car.released || m_car.left ? nullptr : m_feed.withVin(m_car.identity.vin, m_car.id);
    return other == nullptr ? QString() : other->identity.stockNumber;
}

QString CarView::minutesWords() const
{
    int minutes = 0;
    for (const auto& [id, operation] : m_car.operations)
        minutes += minutesUntil(operation, m_ticker.now());
    return ramplight::minutesWords(minutes);
}

QString CarView::appraisalWords() const
{
    if (!loaded())
        return {};
    if (!m_car.appraised)
        return tr("The appraisal is not finished.");
    QStringList unseen;
    for (const SafetyPlace& place : notLookedAt(m_car))
        unseen.append(placeWords(place.place, m_book.rules()));
    const QString seen = tr("Looked at %1 places").arg(m_car.seen.size());
    return unseen.isEmpty()
               ? tr("%1; no safety place is left.").arg(seen)
               : tr("%1; not looked at: %2.").arg(seen, unseen.join(QStringLiteral(", ")));
}

QString CarView::outcomeWords() const
{
    const TimeWords& times = m_book.times();
    if (m_car.left)
        return dotted({sentence(words(*m_car.left)), m_car.leftWhy});
    if (m_car.released)
        return tr("Released by %1, %2")
            .arg(m_book.nameOf(m_car.released->by),
                 times.dayAndClock(m_car.released->at, m_ticker.now()));
    return m_car.heldAgainWhy.isEmpty() ? QString() : tr("Held again: %1").arg(m_car.heldAgainWhy);
}

QStringList CarView::signedForWords() const
{
    return ramplight::signedForWords(m_car, m_book);
}

// ---- reading ---------------------------------------------------------------------------------

void CarView::open(const QString& carId)
{
    if (m_id.text == carId) {
        reload();
        return;
    }
    close();
    m_id = CarId{carId};
    emit changed();
    reload();
}

void CarView::close()
{
    ++m_turn;
    m_id = {};
    m_car = {};
    m_envelopes.clear();
    m_fault.clear();
    m_finding.clear();
    m_ask.dismiss();
    rebuild();
}

void CarView::reload()
{
    if (m_id.isEmpty())
        return;
    const int turn = m_turn;
    whenReady(m_desk.car(m_id), this, [this, turn](const tl::expected<CarState, Failure>& car) {
        if (turn != m_turn)
            return;
        if (!car) {
            m_fault = words(car.error());
            emit changed();
        } else if (!car->exists()) {
            m_fault = tr("There is no such car any more.");
            emit changed();
        } else {
            take(*car);
        }
    });
}

void CarView::take(const CarState& car)
{
    // What a server refused is in its copy here and not in its ledger.
    if (car.id != m_id || (car.seq < m_car.seq && !m_anotherStore))
        return;
    const bool isAnother = std::exchange(m_anotherStore, false);
    const CarState before = isAnother ? m_car : CarState();
    m_car = car;
    m_fault.clear();
    if (before.exists())
        tellNumbers(before);
    rebuild();
    // Also when an earlier reading of it failed.
    if (isAnother || static_cast<qint64>(m_envelopes.size()) != m_car.seq)
        readHistory();
}

// All of it is read again then; what is under way is of the other store.
void CarView::followStore()
{
    const bool away = m_desk.standing().away;
    if (std::exchange(m_away, away) == away)
        return;
    ++m_turn;
    m_anotherStore = !m_id.isEmpty();
    emit changed();
}

void CarView::tellNumbers(const CarState& before)
{
    QVariantMap findings;
    QVariantMap operations;
    for (const auto& [id, found] : before.findings)
        if (const FindingId now = findingIn(m_car, knownAs(found)); now != id)
            findings.insert(QString::number(id.value), now.value);
    for (const auto& [id, work] : before.operations)
        if (const OperationId now = operationIn(m_car, knownAs(work)); now != id)
            operations.insert(QString::number(id.value), now.value);
    if (!findings.isEmpty() || !operations.isEmpty())
        emit renumbered(findings, operations);
}

QString CarView::correctionWaits() const
{
    return m_away ? correctionWaitsWords() : QString();
}

void CarView::readHistory()
{
    const int turn = m_turn;
    whenReady(m_desk.history(m_id), this,
              [this, turn](const tl::expected<std::vector<CarEnvelope>, Failure>& history) {
                  if (turn != m_turn || !history)
                      return;
                  m_envelopes = *history;
                  rebuildHistory();
                  emit changed();
              });
}

// ---- the lists -------------------------------------------------------------------------------

void CarView::rebuild()
{
    const Moment now = m_ticker.now();
    if (loaded()) {
        const CarCard card = cardOf(m_car, m_book.rules());
        m_band = bandOf(card, now);
        m_marks = marksOf(card.marks);
    } else {
        m_band = Wall::NoBand;
        m_marks.clear();
    }
    m_restraints = restraintLines(restraints(m_car, now));
    m_operations.setRows(operationRows(m_car, m_book, now));
    m_findings.setRows(findingRows(m_car, m_book, now));
    m_photos.setRows(photoRows(m_car, m_book, now));
    m_holds.setRows(holdRows(m_car, m_book, now));
    rebuildHistory();
    rebuildOffers();
    emit changed();
}

void CarView::rebuildHistory()
{
    m_history.setRows(historyRows(m_envelopes, m_car, m_book, m_ticker.now()));
}

Offer CarView::probe(const CarCommand& command, bool shown) const
{
    return m_probe.ask(m_car, {command}, shown);
}

Offer CarView::probeTogether(const std::vector<CarCommand>& commands, bool shown) const
{
    return m_probe.ask(m_car, commands, shown);
}

void CarView::rebuildOffers()
{
    const bool here = loaded() && !m_car.left;
    const bool inPrep = here && !m_car.released;
    const QString some = QStringLiteral("…");
    m_releaseOffer = probe(car::Release{}, inPrep);
    m_moveOffer = probe(car::MoveCar{{}, some}, here);
    m_findOffer = probe(car::RecordFinding{anyFinding(), {}}, here);
    m_leaveOffer = probe(car::LeaveUnreleased{LeavingHow::Trade, some}, here);
    m_bringBackOffer = probe(car::BringBack{some}, m_car.left.has_value());
    m_finishAppraisalOffer = probe(car::FinishAppraisal{}, inPrep && !m_car.appraised);
    m_recordOffer = {loaded(), {}, loaded() && (m_car.released || m_car.left)};
}

} // namespace ramplight
