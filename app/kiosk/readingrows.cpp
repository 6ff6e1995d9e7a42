// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/readingrows.h"

#include "domain/checking.h"
#include "domain/say.h"
#include "domain/words.h"
#include "kiosk/kioskenums.h"
#include "kiosk/typednumber.h"

#include <algorithm>

namespace ramplight {

namespace {

/// The limit or figure itself as the reading's own unit says it.
QString figureWordsOf(const ReadingSpec& spec, const Figure& figure, const SiteBook& book)
{
    return QStringLiteral("%1, %2, %3")
        .arg(valueWords(figure.value, spec.decimals, spec.unit), figure.source,
             book.nameOf(figure.by));
}

QString rowIdOf(const ReadingSpec& spec, const PlaceId& place)
{
    return place.isEmpty() ? spec.key : QStringLiteral("%1@%2").arg(spec.key, place.text);
}

int inputOf(ReadingKind kind)
{
    switch (kind) {
    case ReadingKind::Limit:
        return ReadingKinds::Limit;
    case ReadingKind::Figure:
        return ReadingKinds::Figure;
    case ReadingKind::Record:
        return ReadingKinds::Record;
    case ReadingKind::Choice:
        return ReadingKinds::Choice;
    case ReadingKind::Text:
        return ReadingKinds::Text;
    }
    return ReadingKinds::Text;
}

bool isNumber(const ReadingSpec& spec)
{
    return spec.kind != ReadingKind::Choice && spec.kind != ReadingKind::Text;
}

/// This car's own figure or limit, and the limits it adds to.
void showFigure(ReadingRow& row, const Operation& operation, const ReadingSpec& spec,
                const PlaceId& place, const SiteBook& book)
{
    std::vector<Limit> limits = spec.limits;
    const Figure* figure = operation.figure(spec.key, place);
    row.figureNeeded = spec.neededFrom.has_value();
    row.figureMissing = row.figureNeeded && figure == nullptr;
    if (spec.neededFrom)
        row.figureFrom = words(*spec.neededFrom);
    if (figure != nullptr) {
        row.figureWords = figureWordsOf(spec, *figure, book);
        row.figureSource = figure->source;
    }
    if (figure != nullptr && spec.kind == ReadingKind::Limit) {
        Limit own;
        own.owner = spec.neededFrom.value_or(LimitOwner::VehicleData);
        own.source = figure->source;
        (spec.neededIsMax ? own.max : own.min) = figure->value;
        limits.push_back(own);
    }
    row.limitWords = limitWords(spec, limits);
}

void showValue(ReadingRow& row, const ReadingSpec& spec, const Reading& reading,
               const SiteBook& book, Moment now)
{
    row.hasValue = true;
    row.valueWords = readingWords(spec, reading.value);
    row.valueText =
        reading.value.number ? typedText(*reading.value.number, spec.decimals) : reading.value.text;
    row.readingId = reading.id.value;
    row.toolWords = toolWords(spec, reading.tool);
    row.byWords = QStringLiteral("%1, %2").arg(book.nameOf(reading.by),
                                               book.times().shortly(reading.at, now));
    switch (reading.outcome) {
    case ReadingOutcome::Recorded:
        row.outcome = ReadingKinds::Recorded;
        break;
    case ReadingOutcome::Inside:
        row.outcome = ReadingKinds::Inside;
        row.outcomeWords = say("inside");
        break;
    case ReadingOutcome::Outside:
        row.outcome = ReadingKinds::Outside;
        row.outcomeWords = say("outside its limit: measure again after the work");
        break;
    }
}

/// What is to be done about an answer that forbids closing and opens nothing.
QString staysOpenWords(const ChoiceOption& option)
{
    if (!option.remediedBy)
        return say("stays open");
    switch (*option.remediedBy) {
    case RemediedBy::SameWork:
        return say("stays open until it is put right");
    case RemediedBy::CheckedWork:
        return say("stays open: the check fails");
    case RemediedBy::Finding:
        return say("stays open: record a finding");
    }
    return {};
}

void showOptions(ReadingRow& row, const ReadingSpec& spec, const Catalogue& catalogue)
{
    for (const ChoiceOption& option : spec.options) {
        row.optionIds.append(option.id);
        row.optionTitles.append(option.title);
        const OperationSpec* opens =
            option.opens.isEmpty() ? nullptr : catalogue.find(option.opens);
        row.optionWords.append(opens != nullptr ? say("opens: %1").arg(opens->title)
                               : option.closes  ? QString()
                                                : staysOpenWords(option));
    }
}

void showTools(ReadingRow& row, const ReadingSpec& spec, const ToolChoice& tools)
{
    if (!spec.tool)
        return;
    row.toolId = tools.current(*spec.tool).value;
    const std::vector<const Tool*> usable = tools.inDate(*spec.tool);
    if (usable.size() < 2)
        return;
    row.toolKind = words(*spec.tool);
    for (const Tool* tool : usable) {
        row.toolIds.append(tool->id.value);
        row.toolNumbers.append(tool->number);
    }
}

ReadingRow readingRow(const Operation& operation, const ReadingSpec& spec, const PlaceId& place,
                      const Catalogue& catalogue, const SiteBook& book, const ToolChoice& tools,
                      Moment now)
{
    ReadingRow row;
    row.rowId = rowIdOf(spec, place);
    row.readingKey = spec.key;
    row.title = spec.title;
    row.placeId = place.text;
    row.placeWords = place.isEmpty() ? QString() : placeWords(place, book.rules());
    row.input = inputOf(spec.kind);
    row.unitWords = unitWords(spec.unit);
    row.decimals = spec.decimals;
    row.optional = spec.optional;

    showFigure(row, operation, spec, place, book);
    if (const Reading* reading = operation.reading(spec.key, place))
        showValue(row, spec, *reading, book, now);
    QStringList earlier;
    for (const Reading& reading : operation.readings)
        if (reading.superseded && reading.key == spec.key && reading.place == place)
            earlier.append(readingWords(spec, reading.value));
    if (!earlier.isEmpty())
        row.earlierWords = say("before: %1").arg(earlier.join(QStringLiteral(", ")));

    showOptions(row, spec, catalogue);
    showTools(row, spec, tools);
    return row;
}

} // namespace

std::vector<ReadingRow> readingRows(const Operation& operation, const Catalogue& catalogue,
                                    const SiteBook& book, const ToolChoice& tools, Moment now)
{
    std::vector<ReadingRow> rows;
    for (const ReadingSpec& spec : operation.spec->readings) {
        const std::vector<PlaceId> places =
            spec.places.empty() ? std::vector<PlaceId>{PlaceId{}} : spec.places;
        for (const PlaceId& place : places)
            rows.push_back(readingRow(operation, spec, place, catalogue, book, tools, now));
    }
    return rows;
}

void tellWhatStands(std::vector<ReadingRow>& rows, const CarState& car, const Operation& operation,
                    PersonId person, const HouseRules& rules)
{
    const bool isSigned = operation.awaitsSecond();
    for (ReadingRow& row : rows) {
        const PlaceId place{row.placeId};
        row.figureOpen =
            operation.isOpen() && !isSigned && operation.figure(row.readingKey, place) != nullptr;
        row.figureInUse = isFigureInUse(operation, row.readingKey, place);
        row.figureAnother = isSafetyFigure(car, operation, row.readingKey, place);
        const auto reading =
            std::ranges::find(operation.readings, ReadingId{row.readingId}, &Reading::id);
        if (!row.hasValue || reading == operation.readings.end())
            continue;
        row.another = isSafetyReading(car, operation, *reading);
        const std::optional<Refusal> why =
            !operation.isOpen() || isSigned
                ? Refusal{RefusalId::OperationNotOpen,
                          {operationTitle(operation.spec, operation.place, rules)}}
                : whyReadingStands(car, operation, *reading, person.isNull() ? reading->by : person,
                                   rules);
        row.standsWords = why ? words(*why) : QString();
    }
}

tl::expected<ReadingValue, QString> typedReading(const ReadingSpec& spec, const QString& text)
{
    ReadingValue value;
    if (!isNumber(spec)) {
        value.text = text.trimmed();
        return value;
    }
    const auto number = typedNumber(text, spec.decimals);
    if (!number)
        return tl::unexpected(QStringLiteral("%1: %2").arg(spec.title, number.error()));
    value.number = *number;
    return value;
}

} // namespace ramplight
