// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/rulechecks.h"

#include "domain/faultlist.h"

#include <QSet>

#include <algorithm>

namespace ramplight {

namespace {

class RuleChecker : private FaultList
{
public:
    explicit RuleChecker(const Catalogue& catalogue)
        : FaultList(catalogue)
    {
    }

    QStringList run()
    {
        QSet<QString> ids;
        for (const FindingRule& rule : m_catalogue.rules) {
            if (ids.contains(rule.id))
                say(QStringLiteral("rule %1").arg(rule.id), QStringLiteral("id"),
                    QStringLiteral("there are two rules of this id"));
            ids.insert(rule.id);
        }
        for (const FindingRule& rule : m_catalogue.rules)
            check(rule);
        for (const SafetyPlace& place : m_catalogue.safetyPlaces)
            check(place);
        for (const Suggestion& suggestion : m_catalogue.suggestions) {
            needPlaces(QStringLiteral("suggestions"), QStringLiteral("places"), suggestion.places);
            if (suggestion.remedies.empty())
                say(QStringLiteral("suggestions"), QStringLiteral("remedies"),
                    QStringLiteral("at least one was expected"));
        }
        for (const LikelyConditions& likely : m_catalogue.likely) {
            needPlaces(QStringLiteral("likely"), QStringLiteral("places"), likely.places);
            if (likely.conditions.empty())
                say(QStringLiteral("likely"), QStringLiteral("conditions"),
                    QStringLiteral("at least one was expected"));
        }
        tread();
        return m_faults;
    }

private:
    void check(const FindingRule& rule)
    {
        const QString where = QStringLiteral("rule %1").arg(rule.id);
        needPlainId(where, rule.id);
        needPlaces(where, QStringLiteral("places"), rule.places);
        QSet<QString> opened;
        for (const QString& id : rule.opens) {
            needId(where, QStringLiteral("opens"), id);
            if (opened.contains(id))
                say(where, QStringLiteral("opens"),
                    QStringLiteral("\"%1\" is there twice").arg(id));
            opened.insert(id);
            if (const OperationSpec* operation = m_catalogue.find(id))
                reaches(where, rule, *operation);
        }
        if (rule.minSizeMm && rule.maxSizeMm && *rule.minSizeMm > *rule.maxSizeMm)
            say(where, QStringLiteral("minSizeMm"), QStringLiteral("it is above maxSizeMm"));
        if (rule.ifFact && rule.ifFact == rule.unlessFact)
            say(where, QStringLiteral("unlessFact"), QStringLiteral("no car would fit both"));
    }

    /// An operation on a place must be one for such places.
    void reaches(const QString& where, const FindingRule& rule, const OperationSpec& operation)
    {
        if (operation.scope != Scope::Place || operation.placeKinds.empty())
            return;
        std::vector<PlaceKind> kinds = rule.placeKinds;
        for (const PlaceId& place : rule.places)
            if (const PlaceInfo* info = placeInfo(place))
                kinds.push_back(info->kind);
        for (const PlaceKind kind : kinds)
            if (std::ranges::find(operation.placeKinds, kind) == operation.placeKinds.end())
                return say(where, QStringLiteral("opens"),
                           QStringLiteral("\"%1\" is not for places of the kind %2")
                               .arg(operation.id, nameOf(kind)));
    }

    void check(const SafetyPlace& safety)
    {
        const QString where = QStringLiteral("safety place %1").arg(safety.place.text);
        if (placeInfo(safety.place) == nullptr)
            say(where, QStringLiteral("place"), QStringLiteral("the place is not known"));
        const OperationSpec* inspection = m_catalogue.find(safety.inspection);
        const QString field = QStringLiteral("inspection");
        if (inspection == nullptr) {
            needId(where, field, safety.inspection);
            return;
        }
        if (std::ranges::find(inspection->clears, safety.place) == inspection->clears.end())
            say(where, field,
                QStringLiteral("\"%1\" does not clear this place").arg(safety.inspection));
        if (inspection->ifFact && inspection->ifFact != safety.ifFact)
            say(where, QStringLiteral("ifFact"),
                QStringLiteral("\"%1\" is only for cars with %2, so this was expected here, too")
                    .arg(safety.inspection, nameOf(*inspection->ifFact)));
    }

    void tread()
    {
        const QString where = QStringLiteral("tread");
        needId(where, QStringLiteral("opens"), m_catalogue.tread.opens);
        needWords(where, QStringLiteral("source"), m_catalogue.tread.source);
        if (m_catalogue.tread.minTenthsMm < 1)
            say(where, QStringLiteral("minTenthsMm"),
                QStringLiteral("tenths of a millimetre above 0 were expected"));
    }
};

} // namespace

QStringList checkRules(const Catalogue& catalogue)
{
    return RuleChecker(catalogue).run();
}

} // namespace ramplight
