// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "record/carplan.h"

#include "domain/say.h"
#include "domain/words.h"
#include "record/papertype.h"
#include "record/recordwords.h"

#include <QTransform>

#include <algorithm>
#include <cmath>

namespace ramplight::paper {

namespace {

QHash<QString, OutlineMark> marksOf(const RecordModel& model)
{
    QHash<QString, OutlineMark> marks;
    for (const PlaceId& place : model.notLookedAt)
        marks.insert(place.text, OutlineMark::Stippled);
    for (const RecordFinding& finding : model.findings)
        if (outcomeOf(model, finding) == FindingOutcome::Done)
            marks.insert(finding.now().data.place.text, OutlineMark::Hollow);
    for (const RecordOperation& operation : model.operations)
        if (operation.isOpen())
            marks.insert(operation.place.text, OutlineMark::Filled);
    for (const RecordFinding& finding : model.findings) {
        const FindingOutcome outcome = outcomeOf(model, finding);
        if (outcome == FindingOutcome::Open || outcome == FindingOutcome::Left)
            marks.insert(finding.now().data.place.text, OutlineMark::Filled);
    }
    return marks;
}

constexpr double tyreWidth = 15 * mm; ///< of what stands beside a wheel

/// Beside each wheel the lowest tread of its tyre, at the drawing's outer edges.
void addTreads(Page& page, const RecordModel& model, const CarShape& shape, const QRectF& box)
{
    const QTransform to = carTransform(shape, box, false);
    for (const PlaceInfo& info : allPlaces()) {
        if (info.kind != PlaceKind::Tyre || info.axle == Axle::None)
            continue;
        const CarRegion* region = shape.find(info.id.text);
        if (region == nullptr)
            region = shape.find(wheelOf(info.id).text);
        if (region == nullptr)
            continue;
        const auto tread = std::ranges::find(model.treads, info.id, &RecordTread::place);
        std::vector<std::pair<QString, Type>> lines;
        lines.reserve(3);
        lines.emplace_back(say("tyre"), Type::Small);
        if (tread != model.treads.end())
            lines.emplace_back(valueWords(tread->tread.lowest(), 1, Unit::Millimetre), Type::Bold);
        else if (std::ranges::find(model.newTyres, info.id) != model.newTyres.end())
            lines.emplace_back(say("new"), Type::Bold);
        else
            for (const QString& line : linesOf(say("not measured"), Type::Small, tyreWidth))
                lines.emplace_back(line, Type::Small);
        double y = to.map(region->path.boundingRect().center()).y();
        for (const auto& [text, type] : lines)
            y -= lineHeight(type) / 2;
        for (const auto& [text, type] : lines) {
            const double x =
                info.side == Side::Left ? box.left() : box.right() - widthOf(text, type);
            page.emplace_back(Text{
                {x, y + ascent(type)}, text, type, type == Type::Small ? Tone::Muted : Tone::Ink});
            y += lineHeight(type);
        }
    }
}

struct Pin
{
    QPointF centre; ///< of the number
    QPointF anchor; ///< the place
    QString text;
};

/// Moves numbers off each other, step by step, and keeps them inside the box.
void spread(std::vector<Pin>& pins, const QRectF& box)
{
    constexpr double apart = 2 * badgeRadius + 0.5 * mm;
    const QRectF inside = box.adjusted(badgeRadius, badgeRadius, -badgeRadius, -badgeRadius);
    for (int round = 0; round < 200; ++round)
        for (std::size_t a = 0; a < pins.size(); ++a)
            for (std::size_t b = a + 1; b < pins.size(); ++b) {
                QPointF between = pins[b].centre - pins[a].centre;
                const double distance = std::hypot(between.x(), between.y());
                if (distance >= apart)
                    continue;
                // Two at one point part to the side and a little down, always the same way.
                if (distance < 1)
                    between = {0.6, 0.8};
                else
                    between /= distance;
                const QPointF push = between * ((apart - distance) / 2);
                pins[a].centre -= push;
                pins[b].centre += push;
                for (Pin* pin : {&pins[a], &pins[b]}) {
                    pin->centre.setX(std::clamp(pin->centre.x(), inside.left(), inside.right()));
                    pin->centre.setY(std::clamp(pin->centre.y(), inside.top(), inside.bottom()));
                }
            }
}

} // namespace

void addCarPlan(Page& page, const RecordModel& model, const QRectF& box)
{
    const QString name = nameOf(model.identity.shape);
    const auto shape = carShape(name);
    if (!shape)
        return;
    page.emplace_back(Car{box, name, marksOf(model)});
    addTreads(page, model, *shape, box);
    const QRectF inner = box.adjusted(tyreWidth, 0, -tyreWidth, 0);
    const QTransform to = carTransform(*shape, box, false);
    std::vector<Pin> pins;
    for (const RecordFinding& finding : model.findings) {
        const CarRegion* region = shape->find(finding.now().data.place.text);
        if (!finding.now().stands || region == nullptr || region->extra)
            continue;
        const QPointF at = to.map(region->path.boundingRect().center());
        pins.push_back({at, at, QString::number(finding.id.value)});
    }
    // Beside the car there is room; what sits on its edge goes there at once.
    const double middle = box.center().x();
    for (Pin& pin : pins)
        if (const double out = pin.anchor.x() - middle; std::abs(out) > 13.5 * mm)
            pin.centre.setX(out > 0 ? inner.right() - badgeRadius : inner.left() + badgeRadius);
    spread(pins, inner);
    // All lines first, so that none crosses a number.
    for (const Pin& pin : pins)
        if (const QLineF line(pin.centre, pin.anchor); line.length() > badgeRadius)
            page.emplace_back(Leader{line});
    for (const Pin& pin : pins)
        page.emplace_back(Badge{pin.centre, pin.text});
}

} // namespace ramplight::paper
