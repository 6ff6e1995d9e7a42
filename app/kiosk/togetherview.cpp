// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/togetherview.h"

#include "domain/checking.h"
#include "domain/words.h"
#include "kiosk/carwords.h"
#include "kiosk/readingrows.h"
#include "kiosk/toolchoice.h"

#include <algorithm>

namespace ramplight {

namespace {

bool isWheelWork(const PlaceId& place)
{
    const PlaceInfo* info = placeInfo(place);
    return info != nullptr && (info->kind == PlaceKind::Wheel || info->kind == PlaceKind::Tyre);
}

QString idOf(const CarId& car, OperationId operation)
{
    return QStringLiteral("%1/%2").arg(operation.value).arg(car.text);
}

TogetherRequest::Item itemOf(const QString& choiceId)
{
    const qsizetype slash = choiceId.indexOf(QLatin1Char('/'));
    return {CarId{choiceId.mid(slash + 1)}, OperationId{choiceId.left(slash).toInt()}, {}, {}};
}

} // namespace

TogetherView::TogetherView(Around around, QObject* parent)
    : QObject(parent)
    , m_around(around)
    , m_wheels(true)
{
    connect(&m_around.operation, &OperationView::changed, this, &TogetherView::offer);
    connect(&m_around.feed, &CardFeed::changed, this, &TogetherView::offer);
    connect(&m_wheels, &Choices::chosenChanged, this, &TogetherView::changed);
}

const Operation* TogetherView::base() const
{
    return m_around.car.car().operation(OperationId{m_around.operation.operationId()});
}

void TogetherView::offer()
{
    std::vector<ChoiceRow> rows;
    const Operation* own = base();
    const bool begun =
        own != nullptr && isWheelWork(own->place) &&
        (own->state == OperationState::InHand || own->state == OperationState::Paused);
    if (begun)
        for (const CarCard& card : m_around.feed.cards())
            for (const CardLine& line : card.outstanding) {
                const bool itself = card.car == m_around.car.id() && line.operation == own->id;
                const bool ready = line.state == OperationState::InHand ||
                                   line.state == OperationState::Paused ||
                                   (line.state == OperationState::Waiting && !line.notYet);
                const bool somebodyElses = std::ranges::any_of(line.people, [&](PersonId person) {
                    return person != m_around.session.person();
                });
                if (line.kind != own->spec->id || itself || !ready || somebodyElses ||
                    !isWheelWork(line.place))
                    continue;
                rows.push_back({idOf(card.car, line.operation),
                                dotted({card.identity.stockNumber,
                                        placeWords(line.place, m_around.book.rules())}),
                                {},
                                false});
            }
    m_wheels.offer(std::move(rows));
    showReadings();
    emit changed();
}

void TogetherView::begin()
{
    m_own.clear();
    m_looked.clear();
    m_wheels.clear();
    m_ask.dismiss();
    offer();
}

void TogetherView::choose(const QString& choiceId)
{
    m_wheels.choose(choiceId);
    const bool taken = m_wheels.chosen().contains(choiceId);
    look(taken ? choiceId : m_wheels.chosen().value(0));
}

void TogetherView::look(const QString& choiceId)
{
    m_looked = choiceId;
    showReadings();
    emit changed();
}

QString TogetherView::lookedWords() const
{
    const auto& rows = m_wheels.rows();
    const auto row = std::ranges::find(rows, m_looked, &ChoiceRow::choiceId);
    return row == rows.end() ? QString() : row->title;
}

QString TogetherView::shareWords() const
{
    const qsizetype others = m_wheels.chosen().size();
    return others == 0 ? tr("Choose the wheels that were done with this one.")
                       : tr("Your minutes are split evenly over %1 wheels.").arg(others + 1);
}

void TogetherView::showReadings()
{
    const Operation* own = base();
    if (own == nullptr || m_looked.isEmpty()) {
        m_readings.setRows({});
        return;
    }
    // The wheel on the screen as it would be with the other's values.
    Operation other = *own;
    const auto values = m_own.find(m_looked);
    if (values != m_own.end())
        for (Reading& reading : other.readings)
            if (const auto value = values->second.find(reading.key);
                value != values->second.end() && !reading.superseded) {
                reading.value = value->second;
                if (value->second.number && !reading.limits.empty())
                    reading.outcome = isInside(*value->second.number, reading.limits)
                                          ? ReadingOutcome::Inside
                                          : ReadingOutcome::Outside;
            }
    const ToolChoice tools(m_around.session, m_around.book, m_around.ticker);
    std::vector<ReadingRow> rows =
        readingRows(other, m_around.catalogue, m_around.book, tools, m_around.ticker.now());
    std::erase_if(rows, [](const ReadingRow& row) { return !row.hasValue; });
    m_readings.setRows(std::move(rows));
}

void TogetherView::correct(const QString& rowId, const QString& text)
{
    const Operation* own = base();
    const auto& rows = m_readings.rows();
    const auto row = std::ranges::find(rows, rowId, &ReadingRow::rowId);
    if (own == nullptr || row == rows.end())
        return;
    const auto spec = std::ranges::find(own->spec->readings, row->readingKey, &ReadingSpec::key);
    if (spec == own->spec->readings.end())
        return;
    const auto value = typedReading(*spec, text);
    if (!value) {
        m_ask.refuse(QStringLiteral("correct"), QStringLiteral("reading-malformed"), value.error());
        return;
    }
    m_own[m_looked][row->readingKey] = *value;
    showReadings();
}

void TogetherView::sign()
{
    const Operation* own = base();
    if (own == nullptr)
        return;
    TogetherRequest request{newCommandId(), {}, {{m_around.car.id(), own->id, {}, {}}}};
    for (const QString& id : m_wheels.chosen()) {
        TogetherRequest::Item item = itemOf(id);
        const auto values = m_own.find(id);
        for (const Reading& reading : own->readings) {
            if (reading.superseded || !reading.place.isEmpty())
                continue;
            car::TakeReading copy{item.operation, reading.key, reading.place, reading.value,
                                  reading.tool.id};
            if (values != m_own.end())
                if (const auto value = values->second.find(reading.key);
                    value != values->second.end())
                    copy.value = value->second;
            item.readings.push_back(std::move(copy));
        }
        request.items.push_back(std::move(item));
    }
    m_around.session.whenSignedIn(tr("to sign %1 wheels off together").arg(request.items.size()),
                                  [this, request](PersonId person) {
                                      TogetherRequest mine = request;
                                      mine.actor = person;
                                      m_ask.send<std::vector<CarOutcome>>(
                                          QStringLiteral("signTogether"),
                                          [this, mine] { return m_around.desk.signTogether(mine); },
                                          [this](const std::vector<CarOutcome>&) {
                                              m_around.car.reload();
                                              emit signedTogether();
                                          });
                                  });
}

} // namespace ramplight
