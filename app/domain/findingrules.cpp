// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/findingrules.h"

#include "domain/contains.h"

#include <algorithm>

namespace ramplight {

namespace {

bool reaches(const std::optional<int>& bound, const std::optional<int>& measured)
{
    return !bound || (measured && *measured >= *bound);
}

bool remedyFits(const FindingRule& rule, const FindingData& finding)
{
    return rule.remedies.empty() || std::ranges::any_of(finding.remedies, [&](Remedy remedy) {
               return contains(rule.remedies, remedy);
           });
}

bool extentFits(const FindingRule& rule, const FindingData& finding)
{
    const bool severity = rule.severities.empty() ||
                          (finding.severity && contains(rule.severities, *finding.severity));
    const bool below = !rule.maxSizeMm || (finding.sizeMm && *finding.sizeMm <= *rule.maxSizeMm);
    return severity && below && reaches(rule.minSizeMm, finding.sizeMm) &&
           reaches(rule.minCount, finding.count);
}

bool factsFit(const FindingRule& rule, const CarFacts& facts)
{
    return fits(rule.ifFact, facts) && !(rule.unlessFact && facts.is(*rule.unlessFact));
}

} // namespace

bool fits(const std::optional<Fact>& fact, const CarFacts& facts)
{
    return !fact || facts.is(*fact);
}

const FindingRule* ruleFor(const Catalogue& catalogue, const CarFacts& facts,
                           const FindingData& finding)
{
    const PlaceInfo* info = placeInfo(finding.place);
    if (info == nullptr)
        return nullptr;
    const auto found = std::ranges::find_if(catalogue.rules, [&](const FindingRule& rule) {
        // The condition first: it rules out most.
        return fitsAny(rule.conditions, finding.condition) &&
               fitsAny(rule.placeKinds, info->kind) && fitsAny(rule.places, finding.place) &&
               extentFits(rule, finding) && remedyFits(rule, finding) && factsFit(rule, facts);
    });
    return found == catalogue.rules.end() ? nullptr : &*found;
}

Answer answerTo(const Catalogue& catalogue, const CarFacts& facts, const FindingData& finding)
{
    Answer answer;
    const PlaceInfo* info = placeInfo(finding.place);
    const TreadRule& tread = catalogue.tread;
    if (info != nullptr && info->kind == PlaceKind::Tyre && finding.treadTenthsMm &&
        !tread.opens.isEmpty() && *finding.treadTenthsMm < tread.minTenthsMm) {
        answer.rule = QStringLiteral("tread");
        answer.why = QStringLiteral("below the least tread: %1").arg(tread.source);
        answer.kinds.append(tread.opens);
    }
    if (const FindingRule* rule = ruleFor(catalogue, facts, finding)) {
        if (answer.rule.isEmpty()) {
            answer.rule = rule->id;
            answer.why = rule->why;
        }
        for (const QString& kind : rule->opens)
            if (!answer.kinds.contains(kind))
                answer.kinds.append(kind);
        answer.disclosed = answer.kinds.isEmpty();
    } else {
        answer.undecided = answer.kinds.isEmpty();
    }
    return answer;
}

} // namespace ramplight
