// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/arrivalview.h"

#include "domain/words.h"
#include "kiosk/carwords.h"
#include "kiosk/kioskenums.h"

#include <QUuid>

#include <algorithm>

namespace ramplight {

namespace {

constexpr std::array columns{
    Column<DraftFindingRow>{"draftId", cell<&DraftFindingRow::draftId>},
    Column<DraftFindingRow>{"words", cell<&DraftFindingRow::words>},
    Column<DraftFindingRow>{"placeId", cell<&DraftFindingRow::placeId>},
};

constexpr int daysOffered = 14;

CarId newCarId()
{
    return {QUuid::createUuid().toString(QUuid::WithoutBraces)};
}

} // namespace

DraftFindings::DraftFindings(QObject* parent)
    : ListBase(std::make_unique<RowTable<DraftFindingRow>>(columns), parent)
{
}

void DraftFindings::setRows(std::vector<DraftFindingRow> rows)
{
    replace(std::move(rows));
}

const std::vector<DraftFindingRow>& DraftFindings::rows() const
{
    return stored<DraftFindingRow>();
}

ArrivalView::ArrivalView(Desk& desk, Session& session, SiteBook& book, Ticker& ticker,
                         QObject* parent)
    : QObject(parent)
    , m_desk(desk)
    , m_session(session)
    , m_book(book)
    , m_ticker(ticker)
    , m_days(false)
    , m_finding(book)
    , m_sound(true)
{
    connect(&m_identity, &IdentityDraft::changed, this, &ArrivalView::changed);
    connect(&m_days, &Choices::chosenChanged, this, [this] {
        const QDate day = QDate::fromString(m_days.current(), Qt::ISODate);
        if (day.isValid() && day != m_promised) {
            m_promised = day;
            emit changed();
        }
    });
    connect(&book, &SiteBook::changed, this, [this] { m_sound.offer(placeChoices(m_book)); });
    connect(&m_sound, &Choices::chosenChanged, this, &ArrivalView::changed);
    m_sound.offer(placeChoices(book));
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

void ArrivalView::setAppraisalFinished(bool finished)
{
    m_finished = finished;
    emit changed();
}

QVariantMap ArrivalView::marks() const
{
    QVariantMap marks;
    for (const QString& place : m_sound.chosen())
        marks.insert(place, static_cast<int>(Wall::Done));
    for (const DraftFindingRow& row : m_findings.rows())
        marks.insert(row.placeId, static_cast<int>(Wall::Outstanding));
    return marks;
}

bool ArrivalView::canSave() const
{
    return m_identity.fault().isEmpty() && !m_ask.busy();
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
    m_finding.clear();
    m_findings.setRows({});
    m_sound.clear();
    m_finished = true;
    m_importFaults.clear();
    m_ask.dismiss();
    m_days.clear();
    offerDays();
    emit changed();
}

void ArrivalView::addFinding()
{
    const auto data = m_finding.data();
    if (!data) {
        m_ask.refuse(QStringLiteral("addFinding"), QStringLiteral("field-missing"),
                     m_finding.fault().isEmpty() ? tr("Choose the place and what is wrong with it.")
                                                 : m_finding.fault());
        return;
    }
    std::vector<DraftFindingRow> rows = m_findings.rows();
    rows.push_back(
        {++m_lastDraft, sentence(findingWords(*data, m_book.rules())), data->place.text, *data});
    m_findings.setRows(std::move(rows));
    QStringList sound = m_sound.chosen();
    if (sound.removeAll(data->place.text) > 0)
        m_sound.setChosen(sound);
    m_finding.clear();
    emit changed();
}

void ArrivalView::removeFinding(int draftId)
{
    std::vector<DraftFindingRow> rows = m_findings.rows();
    std::erase_if(rows, [&](const DraftFindingRow& row) { return row.draftId == draftId; });
    m_findings.setRows(std::move(rows));
    emit changed();
}

void ArrivalView::save()
{
    const QString what = QStringLiteral("save");
    if (const QString fault = m_identity.fault(); !fault.isEmpty()) {
        m_ask.refuse(what, QStringLiteral("field-missing"), fault);
        return;
    }
    // Carried out together or not at all; a second try has the same ids.
    CarRequest request;
    request.id = m_command;
    request.car = m_id;
    request.commands.emplace_back(car::BringIn{m_identity.identity(), m_identity.carFacts(),
                                               m_promised, m_parking.trimmed()});
    for (const DraftFindingRow& row : m_findings.rows())
        request.commands.emplace_back(car::RecordFinding{row.data, {}});
    car::FindSound sound;
    for (const QString& place : m_sound.chosen())
        if (std::ranges::find(m_findings.rows(), place, &DraftFindingRow::placeId) ==
            m_findings.rows().end())
            sound.places.push_back({place});
    if (!sound.places.empty())
        request.commands.emplace_back(sound);
    if (m_finished)
        request.commands.emplace_back(car::FinishAppraisal{});
    m_session.whenSignedIn(
        tr("to bring in %1").arg(m_identity.identity().stockNumber),
        [this, what, request](PersonId person) {
            CarRequest signedRequest = request;
            signedRequest.actor = person;
            m_ask.send<CarOutcome>(
                what, [this, signedRequest] { return m_desk.run(signedRequest); },
                [this](const CarOutcome& outcome) { emit arrived(outcome.car.id.text); });
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
