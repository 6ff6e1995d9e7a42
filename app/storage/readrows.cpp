// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/readrows.h"

#include "domain/jsontext.h"

#include <algorithm>
#include <type_traits>
#include <utility>
#include <variant>

namespace ramplight {
namespace {

SegmentRow rowOf(const Operation& operation, const Segment& segment)
{
    return {segment.id.value, operation.id.value, segment.person.value, segment.start.ms,
            segment.end.ms};
}

std::vector<SegmentRow> endedFirst(std::vector<SegmentRow> rows)
{
    std::sort(rows.begin(), rows.end(), [](const SegmentRow& a, const SegmentRow& b) {
        return std::pair{a.endAt == 0, a.segment} < std::pair{b.endAt == 0, b.segment};
    });
    return rows;
}

} // namespace

CarRow carRowOf(const CarState& car, const HouseRules& rules, qint64 rulesSeq)
{
    const CarCard card = cardOf(car, rules);
    const bool released = card.status == CarStatus::Released;
    return {car.id.text,
            car.seq,
            rulesSeq,
            car.identity.stockNumber,
            searchKey(car.identity.stockNumber),
            searchKey(car.identity.registration),
            nameOf(card.status),
            !released && card.status != CarStatus::Withdrawn,
            car.left.has_value(),
            car.left ? 0 : car.bay.value,
            car.promised.isValid() ? car.promised.toString(Qt::ISODate) : QString(),
            car.arrivedAt.ms,
            car.lastAt.ms,
            released && car.released ? car.released->at.ms : 0,
            QString::fromUtf8(jsonText(card))};
}

std::vector<SegmentRow> segmentRowsOf(const CarState& car)
{
    std::vector<SegmentRow> rows;
    for (const auto& [id, operation] : car.operations)
        for (const Segment& segment : operation.segments)
            rows.push_back(rowOf(operation, segment));
    return endedFirst(std::move(rows));
}

std::vector<SegmentRow> segmentRowsOf(const CarState& after, const std::vector<CarEvent>& events)
{
    std::set<std::pair<OperationId, SegmentId>> touched;
    for (const CarEvent& event : events)
        std::visit(
            [&](const auto& e) {
                using E = std::decay_t<decltype(e)>;
                if constexpr (std::is_same_v<E, WorkStarted> || std::is_same_v<E, WorkStopped>)
                    touched.emplace(e.operation, e.segment);
            },
            event);
    std::vector<SegmentRow> rows;
    for (const auto& [operationId, segmentId] : touched)
        if (const Operation* operation = after.operation(operationId))
            for (const Segment& segment : operation->segments)
                if (segment.id == segmentId)
                    rows.push_back(rowOf(*operation, segment));
    return endedFirst(std::move(rows));
}

std::set<PhotoId> keptPhotosOf(const CarState& car)
{
    std::set<PhotoId> kept;
    for (const auto& [photo, fate] : car.photoFates)
        if (!fate.isRemoved())
            kept.insert(photo);
    return kept;
}

QString searchKey(const QString& text)
{
    QString key;
    for (const QChar letter : text)
        if (letter.isLetterOrNumber() || letter.isSurrogate())
            key.append(letter.toUpper());
    return key;
}

bool setsRules(const SiteEvent& event)
{
    return std::holds_alternative<SiteSetUp>(event) || std::holds_alternative<HouseRulesSet>(event);
}

} // namespace ramplight
