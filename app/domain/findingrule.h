// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/codec.h"
#include "domain/country.h"
#include "domain/fact.h"
#include "domain/vocabulary.h"

#include <QString>
#include <QStringList>

#include <optional>
#include <vector>

// The part of the catalogue that leads from what is seen at a place to work: rules, what is
// offered to an appraiser, and the places that must have been looked at.
namespace ramplight {

/// Which operations answer a finding. Rules are tried in order; the first that fits decides.
/// Empty lists fit everything; a size or count that was not measured fits no bound on it.
struct FindingRule
{
    QString id;
    std::vector<PlaceKind> placeKinds;
    std::vector<PlaceId> places;
    std::vector<Condition> conditions;
    std::vector<Severity> severities;
    std::vector<Remedy> remedies; ///< fits when the finding names any of these
    std::optional<int> minSizeMm;
    std::optional<int> maxSizeMm;
    std::optional<int> minCount;
    std::optional<Fact> ifFact;
    std::optional<Fact> unlessFact;
    QStringList opens; ///< operation ids; empty: the finding is left and disclosed
    QString why;       ///< half a sentence for the manager

    static constexpr auto fields = fieldList(
        field("id", &FindingRule::id), field("placeKinds", &FindingRule::placeKinds),
        field("places", &FindingRule::places), field("conditions", &FindingRule::conditions),
        field("severities", &FindingRule::severities), field("remedies", &FindingRule::remedies),
        field("minSizeMm", &FindingRule::minSizeMm), field("maxSizeMm", &FindingRule::maxSizeMm),
        field("minCount", &FindingRule::minCount), field("ifFact", &FindingRule::ifFact),
        field("unlessFact", &FindingRule::unlessFact), field("opens", &FindingRule::opens),
        field("why", &FindingRule::why));
    friend bool operator==(const FindingRule&, const FindingRule&) = default;
};

/// What is usually wrong with places of a kind, the likely first. The first that fits a place
/// decides; empty lists fit everything.
struct LikelyConditions
{
    std::vector<PlaceKind> placeKinds;
    std::vector<PlaceId> places;
    std::vector<Condition> conditions;

    static constexpr auto fields = fieldList(field("placeKinds", &LikelyConditions::placeKinds),
                                             field("places", &LikelyConditions::places),
                                             field("conditions", &LikelyConditions::conditions));
    friend bool operator==(const LikelyConditions&, const LikelyConditions&) = default;
};

/// What is usually done about something seen, the usual first. The first that fits decides; empty
/// lists fit everything.
struct Suggestion
{
    std::vector<PlaceKind> placeKinds;
    std::vector<PlaceId> places;
    std::vector<Condition> conditions;
    std::vector<Severity> severities;
    std::optional<Fact> ifFact;
    std::vector<Remedy> remedies;

    static constexpr auto fields = fieldList(
        field("placeKinds", &Suggestion::placeKinds), field("places", &Suggestion::places),
        field("conditions", &Suggestion::conditions), field("severities", &Suggestion::severities),
        field("ifFact", &Suggestion::ifFact), field("remedies", &Suggestion::remedies));
    friend bool operator==(const Suggestion&, const Suggestion&) = default;
};

/// A place that must have been looked at before sale, and the inspection that clears it.
struct SafetyPlace
{
    PlaceId place;
    QString inspection;         ///< operation id
    std::optional<Fact> ifFact; ///< only on cars with this fact

    static constexpr auto fields = fieldList(field("place", &SafetyPlace::place),
                                             field("inspection", &SafetyPlace::inspection),
                                             field("ifFact", &SafetyPlace::ifFact));
    friend bool operator==(const SafetyPlace&, const SafetyPlace&) = default;
};

/// Below which a tyre's tread in an appraisal opens a replacement, whoever typed it.
struct TreadRule
{
    int minTenthsMm = 0;
    LimitOwner owner = LimitOwner::House;
    QString source;
    QString opens;      ///< operation id
    QString named = {}; ///< the limit that fills the rest; empty: written here

    static constexpr auto fields =
        fieldList(field("named", &TreadRule::named), field("minTenthsMm", &TreadRule::minTenthsMm),
                  field("owner", &TreadRule::owner), field("source", &TreadRule::source),
                  field("opens", &TreadRule::opens));
    friend bool operator==(const TreadRule&, const TreadRule&) = default;
};

} // namespace ramplight
