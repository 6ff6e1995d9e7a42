// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/codec.h"
#include "domain/glasszone.h"
#include "domain/ids.h"
#include "domain/vocabulary.h"

#include <QString>

#include <optional>
#include <vector>

namespace ramplight {

/// What was seen at a place, in the vocabulary's words.
struct FindingData
{
    PlaceId place;
    Condition condition = Condition::Mark;
    std::optional<Severity> severity;
    std::vector<Remedy> remedies;
    std::optional<int> count;
    std::optional<int> sizeMm;
    std::optional<int> treadTenthsMm; ///< lowest tread reading, for a tyre
    QString note;
    QString quote;                         ///< the appraiser's own words
    std::optional<int> atSeconds;          ///< moment in the recording
    std::optional<ScreenSpot> screen = {}; ///< where on the windscreen

    static constexpr auto fields = fieldList(
        field("place", &FindingData::place), field("condition", &FindingData::condition),
        field("severity", &FindingData::severity), field("remedies", &FindingData::remedies),
        field("count", &FindingData::count), field("sizeMm", &FindingData::sizeMm),
        field("treadTenthsMm", &FindingData::treadTenthsMm), field("note", &FindingData::note),
        field("quote", &FindingData::quote), field("atSeconds", &FindingData::atSeconds),
        field("screen", &FindingData::screen));
    friend bool operator==(const FindingData&, const FindingData&) = default;
};

/// The same in everything that rules and people decide by; only the words around it differ.
[[nodiscard]] inline bool saysTheSame(FindingData one, const FindingData& other)
{
    one.note = other.note;
    one.quote = other.quote;
    one.atSeconds = other.atSeconds;
    return one == other;
}

} // namespace ramplight
