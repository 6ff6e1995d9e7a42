// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "record/measuredsections.h"

#include "domain/say.h"
#include "domain/words.h"
#include "record/papertype.h"
#include "record/recordwords.h"

#include <algorithm>

namespace ramplight::paper {

namespace {

constexpr double measuredPlanHeight = 74 * mm;
constexpr double carWidth = 40 * mm;
constexpr double cornerWidth = (column - carWidth) / 2 - 6 * mm;

QString tenths(int value)
{
    return valueWords(value, 1, Unit::None);
}

/// "week 23 of 2019"; the code itself when it is none.
QString dateWords(const QString& code)
{
    return code.size() == 4 ? say("made in week %1 of 20%2").arg(code.left(2), code.right(2))
                            : code;
}

const Tread* treadAt(const RecordModel& model, const PlaceId& place)
{
    const auto it = std::ranges::find(model.treads, place, &RecordTread::place);
    return it == model.treads.end() ? nullptr : &it->tread;
}

const TyreMarking* markingAt(const RecordModel& model, const PlaceId& place)
{
    const auto it = std::ranges::find(model.tyres, place, &RecordTyre::place);
    return it == model.tyres.end() ? nullptr : &it->marking;
}

/// The lines of one corner, the place first.
std::vector<std::pair<QString, Type>> cornerLines(const RecordModel& model, const PlaceId& place)
{
    std::vector<std::pair<QString, Type>> lines{
        {capital(placeWords(place, model.rules)), Type::SmallBold}};
    const Tread* tread = treadAt(model, place);
    const TyreMarking* marking = markingAt(model, place);
    if (tread != nullptr) {
        lines.emplace_back(say("lowest %1").arg(valueWords(tread->lowest(), 1, Unit::Millimetre)),
                           Type::Bold);
        lines.emplace_back(
            say("inner %1, centre %2, outer %3")
                .arg(tenths(tread->inner), tenths(tread->centre), tenths(tread->outer)),
            Type::Small);
    } else if (std::ranges::find(model.newTyres, place) != model.newTyres.end()) {
        lines.emplace_back(say("new tyre"), Type::Bold);
    } else {
        lines.emplace_back(say("tread not measured"), Type::Small);
    }
    if (marking != nullptr && !marking->fitment.isEmpty())
        lines.emplace_back(fitmentWords(marking->fitment), Type::Small);
    if (marking != nullptr && !marking->dateCode.isEmpty())
        lines.emplace_back(dateWords(marking->dateCode), Type::Small);
    return lines;
}

/// Beside the wheel: to its left on the left side, to its right on the right one.
void addCorner(Block& block, const RecordModel& model, const PlaceInfo& info)
{
    const bool left = info.side == Side::Left;
    const auto lines = cornerLines(model, info.id);
    double height = 0;
    for (const auto& [text, type] : lines)
        height += lineHeight(type);
    const double middle = measuredPlanHeight * (info.axle == Axle::Front ? 0.25 : 0.75);
    double y = middle - height / 2;
    for (const auto& [text, type] : lines) {
        const QString line = linesOf(text, type, cornerWidth).front();
        const double x = left ? cornerWidth - widthOf(line, type) : column - cornerWidth;
        block.items.emplace_back(Text{QPointF(x, y + ascent(type)), line, type, Tone::Ink});
        y += lineHeight(type);
    }
}

} // namespace

void addTyrePlan(Flow& flow, const RecordModel& model)
{
    if (model.treads.empty() && model.tyres.empty())
        return;
    flow.gap(1.5 * mm);
    flow.row(
        {{0, column, say("Tyres as last measured; the lowest of three points counts"), Type::Bold}},
        true);
    Block plan;
    plan.height = measuredPlanHeight;
    for (const PlaceInfo& info : allPlaces())
        if (info.kind == PlaceKind::Tyre && info.axle != Axle::None)
            addCorner(plan, model, info);
    // Without marks: on the front page they say what was found.
    plan.items.emplace_back(
        Car{QRectF((column - carWidth) / 2, 2 * mm, carWidth, measuredPlanHeight - 4 * mm),
            nameOf(model.identity.shape),
            {}});
    flow.drawing(plan, say("The car from above with the tyre readings of each corner"));
    for (const PlaceInfo& info : allPlaces())
        if (info.kind == PlaceKind::Tyre && info.axle == Axle::None &&
            (treadAt(model, info.id) != nullptr || markingAt(model, info.id) != nullptr)) {
            QStringList said;
            for (const auto& [text, type] : cornerLines(model, info.id))
                said.append(text);
            flow.row({{0, column, said.join(QStringLiteral(", ")), Type::Body}});
        }
}

void addPaint(Flow& flow, const RecordModel& model)
{
    if (model.paint.empty())
        return;
    flow.gap(1.5 * mm);
    flow.row(
        {{0, column, say("Paint depth, each panel against the others of this car"), Type::Bold}},
        true);
    for (const RecordPaint& panel : model.paint) {
        QString said = say("median %1 of %2 points, highest %3")
                           .arg(valueWords(panel.median, 0, Unit::Micrometre))
                           .arg(panel.micrometres.size())
                           .arg(valueWords(panel.highest, 0, Unit::Micrometre));
        if (!panel.words.isEmpty())
            said += say("; stands out: %1").arg(panel.words);
        flow.row({{0, 60 * mm, capital(placeWords(panel.panel, model.rules)), Type::Body},
                  {60 * mm, column - 60 * mm, said, Type::Body}});
    }
}

void addOdometer(Flow& flow, const RecordModel& model)
{
    if (model.odometer.empty())
        return;
    flow.gap(1.5 * mm);
    flow.row({{0, column, say("Odometer after arrival"), Type::Bold}}, true);
    const RecordTimes times(model.rules.timeZone);
    for (const RecordOdometer& reading : model.odometer) {
        QString said =
            say("%1, %2").arg(model.nameOf(reading.read.by), times.full(reading.read.at));
        if (!reading.lowerWhy.isEmpty())
            said += say("; shows less than before: %1").arg(reading.lowerWhy);
        flow.row({{0, 60 * mm,
                   QStringLiteral("%1 %2").arg(recordLocale().toString(reading.value),
                                               nameOf(reading.unit)),
                   Type::Body},
                  {60 * mm, column - 60 * mm, said, Type::Body}});
    }
}

} // namespace ramplight::paper
