// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/car.h"
#include "domain/site.h"

#include <QString>

// Words of the trade for places, findings, operations and values. Translatable through Qt's
// translation context "ramplight"; near side and off side follow the house rules.
namespace ramplight {

[[nodiscard]] QString placeWords(const PlaceId& place, const HouseRules& rules);
[[nodiscard]] QString words(Condition condition);
[[nodiscard]] QString words(Severity severity);
[[nodiscard]] QString words(Remedy remedy);
[[nodiscard]] QString words(OperationState state);
[[nodiscard]] QString words(Skill skill);
[[nodiscard]] QString words(Right right);
[[nodiscard]] QString words(BayKind kind);
[[nodiscard]] QString words(PlaceKind kind); ///< in the plural: "lamps", "underbody"
[[nodiscard]] QString words(LimitOwner owner);
[[nodiscard]] QString words(BodyShape shape);
[[nodiscard]] QString words(Fact fact);
[[nodiscard]] QString words(LeavingHow how);
[[nodiscard]] QString words(PromiseImportance importance); ///< behind "promised Thu"
[[nodiscard]] QString words(SignatureMeaning meaning);
[[nodiscard]] QString words(PhotoMoment moment);
[[nodiscard]] QString unitWords(Unit unit);
[[nodiscard]] QString words(Qualification qualification);
[[nodiscard]] QString words(ToolKind kind);
/// What it takes to do an operation: "mechanical, high voltage".
[[nodiscard]] QString neededWords(const OperationSpec& spec);
/// "dents without paint" for "dents-without-paint".
[[nodiscard]] QString specialityWords(const QString& speciality);
/// "12 May 2031"
[[nodiscard]] QString dayWords(QDate day);

/// Its first letter large: words that begin a line.
[[nodiscard]] QString capital(QString text);
/// "Near side front wheel: refurbish, painted"; the title alone for the whole car.
[[nodiscard]] QString operationTitle(const OperationSpec& spec, const PlaceId& place,
                                     const HouseRules& rules);
/// "near side front wheel, kerbed, moderate, 2 of them"
[[nodiscard]] QString findingWords(const FindingData& data, const HouseRules& rules);
/// "1.6 mm"; counts of 10^-decimals.
[[nodiscard]] QString valueWords(int number, int decimals, Unit unit);
/// "at least 3.0 mm (house: ...)" for each limit; "no limit: noted only" of a number
/// without one; empty for an answer in words.
[[nodiscard]] QString limitWords(const ReadingSpec& spec, const std::vector<Limit>& limits);
/// "torque wrench T 7", "tool not entered"; empty where the reading wants no tool.
[[nodiscard]] QString toolWords(const ReadingSpec& spec, const ToolUsed& used);
/// The value of a reading as a person says it, with its unit or option title.
[[nodiscard]] QString readingWords(const ReadingSpec& spec, const ReadingValue& value);

} // namespace ramplight
