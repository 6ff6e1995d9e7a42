// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/audit.h"

#include "domain/checking.h"
#include "domain/holds.h"
#include "domain/words.h"

#include <algorithm>

namespace ramplight {

namespace {

template <class T>
bool contains(const std::vector<T>& items, const T& item)
{
    return std::ranges::find(items, item) != items.end();
}

/// Judges one entry on the car as it was just before it.
class Auditor
{
public:
    Auditor(const CarState& car, const CarEnvelope& entry, const std::vector<CarEnvelope>& group,
            const SiteState& site, QStringList& broken)
        : m_car(car)
        , m_entry(entry)
        , m_group(group)
        , m_site(site)
        , m_broken(broken)
    {
    }

    void judge()
    {
        if (m_entry.at < m_car.lastAt)
            blame(QStringLiteral("is dated before the entry in front of it"));
        const bool byTheHouse =
            m_entry.by.isNull() && std::holds_alternative<WorkStopped>(m_entry.event);
        if (!byTheHouse && person() == nullptr)
            blame(QStringLiteral("was written by nobody of this site"));
        if (m_car.left && !std::holds_alternative<CarBroughtBack>(m_entry.event))
            blame(QStringLiteral("was written to a car that had left"));
        std::visit(*this, m_entry.event);
    }

    void operator()(const OperationSigned& e)
    {
        const Operation* operation = opened(e.operation);
        if (operation == nullptr)
            return;
        switch (e.meaning) {
        case SignatureMeaning::CheckedTheWork:
            qualified(operation->spec);
            needs(Right::Check);
            if (didWorkChecked(m_car, *operation, m_entry.by, m_site.rules))
                blame(QStringLiteral("is a check by somebody who did some of the work"));
            break;
        case SignatureMeaning::Countersigned:
            needs(Right::Check);
            if (operation->doers().contains(m_entry.by))
                blame(QStringLiteral("is a second signature by the first person"));
            break;
        case SignatureMeaning::DidTheWork:
            qualified(operation->spec);
            if (!operation->doers().contains(m_entry.by))
                blame(QStringLiteral("is signed by somebody who did not work on it"));
            break;
        case SignatureMeaning::ReceivedFromOutside:
            if (!operation->outside || !operation->outside->received)
                blame(QStringLiteral("signs work as received that was not out"));
            break;
        }
        if (e.minutes != operation->minutes())
            blame(QStringLiteral("states minutes that its timers do not have"));
        for (const ReadingSpec& spec : operation->spec->readings)
            for (const Figure& figure : operation->figures)
                if (figure.key == spec.key && operation->reading(spec.key, figure.place) &&
                    figure.by == m_entry.by && e.meaning != SignatureMeaning::Countersigned &&
                    operation->figure(figure.key, figure.place) == &figure)
                    blame(QStringLiteral("is signed against a figure that the signer entered"));
    }

    void operator()(const OperationClosed& e)
    {
        const Operation* operation = opened(e.operation);
        if (operation == nullptr)
            return;
        const auto signedAs = [&](SignatureMeaning meaning) {
            return std::ranges::any_of(operation->signatures, [&](const Signature& signature) {
                return !signature.voided && signature.meaning == meaning;
            });
        };
        if (std::ranges::all_of(operation->signatures, &Signature::voided))
            blame(QStringLiteral("closes without a signature"));
        if (operation->spec->secondPerson == SecondPerson::Countersign &&
            !signedAs(SignatureMeaning::Countersigned))
            blame(QStringLiteral("closes without its second signature"));
        if (operation->spec->secondPerson == SecondPerson::Check &&
            !signedAs(SignatureMeaning::CheckedTheWork))
            blame(QStringLiteral("closes a check that nobody signed as one"));
        const QStringList missing = missingEvidence(*operation, m_car, m_site.rules);
        if (!missing.isEmpty())
            blame(QStringLiteral("closes without: %1").arg(missing.join(QStringLiteral(", "))));
        for (const Reading& reading : operation->readings)
            if (!reading.superseded && reading.outcome == ReadingOutcome::Outside)
                blame(QStringLiteral("closes with a reading outside its limit"));
        for (const Trigger& trigger : operation->spec->triggers)
            if ((!trigger.ifFact || m_car.facts.is(*trigger.ifFact)) &&
                !opensInGroup(e.operation, trigger))
                blame(QStringLiteral("closes without opening what it makes due: %1")
                          .arg(trigger.opens));
    }

    void operator()(const OperationLeft& e)
    {
        const Operation* operation = opened(e.operation);
        needs(Right::Manage);
        if (operation != nullptr && operation->spec->safety)
            blame(QStringLiteral("leaves a safety item as it is"));
        if (operation != nullptr && contains(m_site.rules.neverLeft, operation->spec->skill))
            blame(QStringLiteral("leaves work as it is that this house never leaves"));
    }

    void operator()(const OperationTakenOut& e)
    {
        const Operation* operation = opened(e.operation);
        needs(Right::Appraise);
        if (m_car.appraised)
            blame(QStringLiteral("takes work out after the appraisal"));
        if (operation != nullptr && operation->spec->safety && !operation->spec->access)
            blame(QStringLiteral("takes a safety item out"));
    }

    void operator()(const OperationWithdrawn& e)
    {
        const Operation* operation = m_car.operation(e.operation);
        if (operation == nullptr || !operation->spec->safety)
            return;
        if (isCovered(*operation) || isIdleAccess(*operation))
            return;
        const bool hasCause = std::ranges::any_of(m_group, [&](const CarEnvelope& entry) {
            return std::holds_alternative<FindingCorrected>(entry.event) ||
                   std::holds_alternative<FactsCorrected>(entry.event) ||
                   std::holds_alternative<ReadingCorrected>(entry.event) ||
                   std::holds_alternative<OperationReopened>(entry.event);
        });
        if (!hasCause)
            blame(QStringLiteral("takes a safety item away without a correction"));
    }

    void operator()(const WorkStarted& e)
    {
        if (const Operation* operation = opened(e.operation))
            qualified(operation->spec);
    }

    void operator()(const ReadingTaken& e)
    {
        if (const Operation* operation = opened(e.operation)) {
            judgeReading(e.value, e.limits, e.outcome);
            judgeTool(e.tool, *operation, e.key);
        }
    }

    void operator()(const ReadingCorrected& e)
    {
        const Operation* operation = m_car.operation(e.operation);
        if (operation == nullptr)
            return blame(QStringLiteral("corrects a reading of no operation"));
        judgeReading(e.value, e.limits, e.outcome);
        for (const Reading& reading : operation->readings)
            if (reading.id == e.original && operation->spec->safety && reading.by == m_entry.by)
                blame(QStringLiteral("corrects a safety reading without a second person"));
    }

    void operator()(const FindingCorrected& e)
    {
        const Finding* finding = m_car.finding(e.finding);
        if (finding == nullptr)
            return blame(QStringLiteral("corrects a finding that is not there"));
        const bool safety = std::ranges::any_of(m_car.safetyPlaces, [&](const SafetyPlace& place) {
            return place.place == finding->data().place;
        });
        if (safety && !isOwnSlip(m_car, *finding, m_entry.by) &&
            (finding->versions.back().by == m_entry.by || e.evidence.isEmpty()))
            blame(QStringLiteral("corrects a safety finding without a second person and a photo"));
    }

    void operator()(const OdometerRead& e)
    {
        const std::optional<OdometerReading> before = m_car.lastOdometer();
        if (before && e.lowerWhy.isEmpty() &&
            showsLess(e.value, e.unit, before->value, before->unit))
            blame(QStringLiteral("reads less from the odometer than before, without a reason"));
    }

    void operator()(const FigureSet&)
    {
        if (person() != nullptr && !person()->can(Right::Check) && !person()->can(Right::Manage))
            blame(QStringLiteral("enters a figure without the right"));
    }

    void operator()(const MinutesCorrected& e)
    {
        if (e.minutes < 0)
            blame(QStringLiteral("has minutes below zero"));
    }

    void operator()(const CarMoved&)
    {
        for (const RestraintReason& reason : restraints(m_car, m_entry.at))
            if (reason.what == Restraint::Move)
                blame(QStringLiteral("moves a car that must not be moved: %1").arg(reason.words));
    }

    void operator()(const IsolationLifted& e)
    {
        if (!m_car.isolation || (m_car.isolation->by != m_entry.by && e.procedure.isEmpty()))
            blame(QStringLiteral("lifts an isolation that somebody else set"));
    }

    void operator()(const CarReleased&)
    {
        needs(Right::Release);
        for (const Hold& hold : holds(m_car, m_site.rules, m_entry.at))
            blame(QStringLiteral("releases a held car: %1").arg(hold.words));
        const bool somebodyElse = std::ranges::any_of(m_car.operations, [&](const auto& entry) {
            return entry.second.spec->safety &&
                   std::ranges::any_of(entry.second.signatures, [&](const Signature& signature) {
                       return !signature.voided && signature.by != m_entry.by;
                   });
        });
        if (!somebodyElse)
            blame(QStringLiteral("is a release by the only name under the safety work"));
    }

    /// What carries no rule beyond its being there.
    template <class Event>
    void operator()(const Event&)
    {
    }

private:
    [[nodiscard]] const Person* person() const { return m_site.person(m_entry.by); }

    void blame(const QString& what)
    {
        m_broken.append(QStringLiteral("Entry %1 %2.").arg(m_entry.seq).arg(what));
    }

    void needs(Right right)
    {
        if (person() != nullptr && !person()->can(right))
            blame(QStringLiteral("was written without the right to %1").arg(words(right)));
    }

    const Operation* opened(OperationId id)
    {
        const Operation* operation = m_car.operation(id);
        if (operation != nullptr && operation->isOpen())
            return operation;
        blame(QStringLiteral("speaks of an operation that is not open"));
        return nullptr;
    }

    /// Its findings went to safety work at the same place that does it, too.
    [[nodiscard]] bool isCovered(const Operation& operation) const
    {
        return std::ranges::any_of(m_car.operations, [&](const auto& entry) {
            const Operation& other = entry.second;
            return other.isOpen() && other.spec->safety && other.place == operation.place &&
                   other.spec->covers.contains(operation.spec->id) &&
                   std::ranges::all_of(operation.findings, [&](FindingId finding) {
                       return contains(other.findings, finding);
                   });
        });
    }

    /// Nobody began it, and what it was to give access to was taken out.
    [[nodiscard]] bool isIdleAccess(const Operation& operation) const
    {
        return operation.spec->access && !operation.wasStarted() &&
               std::ranges::any_of(m_group, [](const CarEnvelope& entry) {
                   return std::holds_alternative<OperationTakenOut>(entry.event);
               });
    }

    [[nodiscard]] bool opensInGroup(OperationId on, const Trigger& trigger) const
    {
        return std::ranges::any_of(m_group, [&](const CarEnvelope& entry) {
            if (const auto* fresh = std::get_if<OperationOpened>(&entry.event))
                return fresh->spec->id == trigger.opens && contains(fresh->restsOn, on);
            if (const auto* more = std::get_if<OperationExtended>(&entry.event)) {
                const Operation* operation = m_car.operation(more->operation);
                return contains(more->restsOn, on) &&
                       (operation == nullptr || operation->spec->id == trigger.opens);
            }
            return false;
        });
    }

    void qualified(const OperationSpec& spec)
    {
        if (person() != nullptr && spec.qualification &&
            whyNotQualified(*person(), spec, dayOf(m_entry.at, m_site.rules)))
            blame(QStringLiteral("was written without the qualification for %1")
                      .arg(words(*spec.qualification)));
    }

    void judgeTool(const ToolUsed& used, const Operation& operation, const QString& key)
    {
        for (const ReadingSpec& spec : operation.spec->readings) {
            if (spec.key != key || !spec.tool)
                continue;
            if (!used.isEntered() && !m_site.toolsOf(*spec.tool).empty())
                blame(QStringLiteral("was read without naming the tool"));
            const Tool* tool = m_site.tool(used.id);
            if (used.isEntered() && (tool == nullptr || tool->kind != *spec.tool ||
                                     !tool->isInDate(dayOf(m_entry.at, m_site.rules))))
                blame(QStringLiteral("was read with a tool that was not in date: %1")
                          .arg(used.number));
        }
    }

    void judgeReading(const ReadingValue& value, const std::vector<Limit>& limits,
                      ReadingOutcome outcome)
    {
        if (!value.number || limits.empty())
            return;
        if ((outcome == ReadingOutcome::Inside) != isInside(*value.number, limits))
            blame(QStringLiteral("judges a reading other than its limits do"));
    }

    const CarState& m_car;
    const CarEnvelope& m_entry;
    const std::vector<CarEnvelope>& m_group;
    const SiteState& m_site;
    QStringList& m_broken;
};

} // namespace

QStringList rulesBroken(const CarState& before, const std::vector<CarEnvelope>& group,
                        const SiteState& site)
{
    QStringList broken;
    CarState car = before;
    for (const CarEnvelope& entry : group) {
        Auditor(car, entry, group, site, broken).judge();
        apply(car, entry);
    }
    return broken;
}

} // namespace ramplight
