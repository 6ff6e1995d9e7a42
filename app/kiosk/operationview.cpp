// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/operationview.h"

#include "domain/checking.h"
#include "domain/worktotals.h"
#include "kiosk/carwords.h"
#include "kiosk/kioskenums.h"
#include "kiosk/operationrows.h"
#include "kiosk/operationwords.h"
#include "kiosk/photourl.h"
#include "kiosk/readingrows.h"

namespace ramplight {

OperationView::OperationView(Desk& desk, CarView& car, Session& session, SiteBook& book,
                             Ticker& ticker, const Catalogue& catalogue, QObject* parent)
    : QObject(parent)
    , m_desk(desk)
    , m_view(car)
    , m_session(session)
    , m_book(book)
    , m_ticker(ticker)
    , m_catalogue(catalogue)
    , m_tools(session, book, ticker)
    , m_colleagues(false)
    , m_checkedWork(false)
{
    connect(&car, &CarView::changed, this, &OperationView::rebuild);
    connect(&ticker, &Ticker::minute, this, &OperationView::ticked);
}

const Operation* OperationView::operation() const
{
    return m_view.id() == m_car ? m_view.car().operation(m_id) : nullptr;
}

// ---- what it is ------------------------------------------------------------------------------

QString OperationView::title() const
{
    const Operation* o = operation();
    return o == nullptr ? QString() : operationTitle(o->spec, o->place, m_book.rules());
}

QString OperationView::placeId() const
{
    const Operation* o = operation();
    return o == nullptr ? QString() : o->place.text;
}

QString OperationView::placeWords() const
{
    const Operation* o = operation();
    return o == nullptr ? QString() : ramplight::placeWords(o->place, m_book.rules());
}

QString OperationView::whyWords() const
{
    const Operation* o = operation();
    return o == nullptr ? QString() : ramplight::whyWords(m_view.car(), *o, m_book.rules());
}

QString OperationView::stateWord() const
{
    const Operation* o = operation();
    return o == nullptr ? QString() : words(o->state);
}

int OperationView::band() const
{
    const Operation* o = operation();
    return o == nullptr ? static_cast<int>(Wall::NoBand) : bandOf(o->state);
}

bool OperationView::safety() const
{
    const Operation* o = operation();
    return o != nullptr && o->spec->safety;
}

bool OperationView::check() const
{
    const Operation* o = operation();
    return o != nullptr && o->spec->secondPerson == SecondPerson::Check;
}

bool OperationView::countersigned() const
{
    const Operation* o = operation();
    return o != nullptr && o->spec->secondPerson == SecondPerson::Countersign;
}

QString OperationView::skillWords() const
{
    const Operation* o = operation();
    return o == nullptr ? QString() : words(o->spec->skill);
}

QString OperationView::situationWords() const
{
    const Operation* o = operation();
    return o == nullptr ? QString() : ramplight::situationWords(*o, m_book.times(), m_ticker.now());
}

QString OperationView::dueDay() const
{
    const Operation* o = operation();
    return o == nullptr ? QString() : o->due().value_or(QDate()).toString(Qt::ISODate);
}

int OperationView::keysOut() const
{
    const Operation* o = operation();
    return o != nullptr && o->isAway() ? o->outside->keys : 0;
}

QStringList OperationView::opensWords() const
{
    const Operation* o = operation();
    return o == nullptr ? QStringList() : openingTitles(*o, m_view.car().facts, m_catalogue);
}

QStringList OperationView::signatureWords() const
{
    const Operation* o = operation();
    return o == nullptr ? QStringList() : signatureLines(*o, m_book, m_ticker.now());
}

// ---- cautions and time -----------------------------------------------------------------------

bool OperationView::cautionsRead() const
{
    const Operation* o = operation();
    return o != nullptr && hasReadCautions(*o, m_session.person());
}

QString OperationView::cautionsReadWords() const
{
    const Operation* o = operation();
    return o == nullptr ? QString()
                        : cautionReaders(*o, m_view.envelopes(), m_book, m_ticker.now());
}

QStringList OperationView::referWords() const
{
    const Operation* o = operation();
    return o == nullptr || !o->isOpen() || o->wasStarted() ? QStringList() : o->spec->refer;
}

QString OperationView::overnightWords() const
{
    const Operation* o = operation();
    if (o == nullptr)
        return {};
    const bool goesOn = o->state == OperationState::Waiting || o->state == OperationState::InHand ||
                        o->state == OperationState::Paused;
    const Moment now = m_ticker.now();
    const TimeWords& times = m_book.times();
    const Moment end = times.timeOfDay(m_book.rules().shiftEndMinute, now);
    if (!goesOn || !outlastsShift(m_view.car(), *o, now, end))
        return {};
    return tr("This must not be left half done overnight. Gone on with now, it is ready about %1 "
              "with its waiting; the shift ends at %2.")
        .arg(times.shortly(readyAbout(m_view.car(), *o, now), now), times.clock(end));
}

QString OperationView::forgottenWords() const
{
    const Operation* o = operation();
    return o == nullptr ? QString()
                        : ramplight::forgottenWords(*o, m_view.car(), m_book, m_ticker.now());
}

std::vector<CarCommand> OperationView::forgottenPauses() const
{
    std::vector<CarCommand> pauses;
    if (const Operation* o = operation())
        for (const PersonId person : forgottenBy(*o, m_view.car(), m_book.rules(), m_ticker.now()))
            pauses.emplace_back(car::PauseWork{m_id, person, StopKind::Paused});
    return pauses;
}

Offer OperationView::pauseForgottenOffer() const
{
    const std::vector<CarCommand> pauses = forgottenPauses();
    return pauses.empty() ? Offer() : m_view.probeTogether(pauses, true);
}

QString OperationView::usualWords() const
{
    const Operation* o = operation();
    return o == nullptr
               ? QString()
               : minutesSpan(minutesOf(m_view.car(), *o).low, minutesOf(m_view.car(), *o).high);
}

int OperationView::usualMinutes() const
{
    const Operation* o = operation();
    return o == nullptr ? 0 : minutesOf(m_view.car(), *o).usual;
}

int OperationView::highMinutes() const
{
    const Operation* o = operation();
    return o == nullptr ? 0 : minutesOf(m_view.car(), *o).high;
}

bool OperationView::running() const
{
    const Operation* o = operation();
    return o != nullptr && o->isRunning();
}

bool OperationView::awaitsReceipt() const
{
    const Operation* o = operation();
    return o != nullptr && o->awaitsReceipt();
}

bool OperationView::myRunning() const
{
    const Operation* o = operation();
    return o != nullptr && isRunBy(*o, m_session.person());
}

bool OperationView::isolatedByMe() const
{
    const std::optional<Isolation>& isolation = m_view.car().isolation;
    return isolation && isolation->by == m_session.person();
}

QString OperationView::timer() const
{
    return timerWords(minutes());
}

int OperationView::minutes() const
{
    const Operation* o = operation();
    return o == nullptr ? 0 : minutesUntil(*o, m_ticker.now());
}

int OperationView::myMinutes() const
{
    const Operation* o = operation();
    return o == nullptr ? 0 : minutesUntil(*o, m_session.person(), m_ticker.now());
}

QString OperationView::startedWords() const
{
    const Operation* o = operation();
    if (o == nullptr || o->segments.empty())
        return {};
    return tr("started %1").arg(m_book.times().shortly(o->segments.front().start, m_ticker.now()));
}

QString OperationView::peopleWords() const
{
    const Operation* o = operation();
    return o == nullptr ? QString() : peopleOn(*o, m_book);
}

QString OperationView::likelyMoment() const
{
    const Operation* o = operation();
    return o == nullptr ? QString() : nameOf(ramplight::likelyMoment(*o));
}

QString OperationView::guideFor(const QString& moment, int rank) const
{
    const Operation* o = operation();
    const auto known = fromName<PhotoMoment>(moment);
    return o == nullptr || !known
               ? QString()
               : photoUrl(guidePhoto(*o, m_view.car(), *known, rank), PhotoSize::Fitted);
}

void OperationView::setNote(const QString& note)
{
    if (m_note == note)
        return;
    m_note = note;
    emit noteChanged();
}

// ---- building --------------------------------------------------------------------------------

void OperationView::open(const QString& carId, int operationId)
{
    if (m_id.value != operationId || m_car.text != carId) {
        m_ask.dismiss();
        setNote({});
    }
    m_car = CarId{carId};
    m_id = OperationId{operationId};
    m_view.open(carId);
    rebuild();
}

void OperationView::close()
{
    m_car = {};
    m_id = {};
    m_ask.dismiss();
    setNote({});
    rebuild();
}

void OperationView::rebuild()
{
    const Operation* o = operation();
    static const Operation none;
    const Operation& shown = o == nullptr ? none : *o;
    const CarState& car = m_view.car();
    const PersonId person = m_session.person();
    const Moment now = m_ticker.now();
    m_cautions.setRows(cautionRows(shown));
    m_colleagues.offer(colleagueRows(shown, car, person, m_book, now));
    m_checkedWork.offer(coveredRows(shown, car, m_book.rules()));
    m_mustNameWork = m_checkedWork.count() > 0 && goesBack(car, shown).empty();
    std::vector<ReadingRow> readings = readingRows(shown, m_catalogue, m_book, m_tools, now);
    tellWhatStands(readings, car, shown, person, m_book.rules());
    m_readings.setRows(std::move(readings));
    m_photos.setRows(photoRowsOf(shown, car, m_book, now));
    m_photoNeeds.setRows(photoNeedRows(shown, car, m_book, now));
    m_morePhotos.setRows(morePhotoRows(shown, car, m_book, now));
    m_segments.setRows(spanRows(shown, car, m_book, now));
    m_missing = o == nullptr || !shown.isOpen() ? QStringList()
                                                : missingEvidence(shown, car, m_book.rules());
    m_offers = operationOffers(shown, m_view, person, m_book, now);
    emit changed();
    emit ticked();
}

} // namespace ramplight
