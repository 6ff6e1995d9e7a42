// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "record/carplan.h"

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
    page.push_back(Car{box, name, marksOf(model)});
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
        if (const double out = pin.anchor.x() - middle; std::abs(out) > 16 * mm)
            pin.centre.setX(out > 0 ? box.right() - badgeRadius : box.left() + badgeRadius);
    spread(pins, box);
    // All lines first, so that none crosses a number.
    for (const Pin& pin : pins)
        if (const QLineF line(pin.centre, pin.anchor); line.length() > badgeRadius)
            page.push_back(Leader{line});
    for (const Pin& pin : pins)
        page.push_back(Badge{pin.centre, pin.text});
}

} // namespace ramplight::paper
