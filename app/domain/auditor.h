// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/carevents.h"
#include "domain/site.h"

#include <QStringList>

#include <algorithm>
#include <initializer_list>
#include <vector>

// The judge behind rulesBroken(). Internal to the domain.
namespace ramplight {

/// Judges one entry on the car as it was just before it. What it is given outlives it.
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

    void judge();

    // auditcar.cpp: arrival, findings, the car as a whole
    void operator()(const CarArrived& e);
    void operator()(const IdentityCorrected& e);
    void operator()(const FactsCorrected& e);
    void operator()(const PromiseChanged& e);
    void operator()(const FindingRecorded& e);
    void operator()(const FindingCorrected& e);
    void operator()(const PlacesFoundSound& e);
    void operator()(const TyreRecorded& e);
    void operator()(const PaintDepthRecorded& e);
    void operator()(const OdometerRead& e);
    void operator()(const AppraisalFinished& e);
    void operator()(const WalkRoundRead& e);
    void operator()(const DraftDecided& e);
    void operator()(const CarMoved& e);
    void operator()(const CarReleased& e);
    void operator()(const CarLeft& e);
    void operator()(const CarBroughtBack& e);
    void operator()(const DuplicateLinked& e);
    void operator()(const PhotoAttached& e);
    void operator()(const PhotosRemoved& e);
    // auditwork.cpp: operations, their time, who has them
    void operator()(const OperationOpened& e);
    void operator()(const OperationNarrowed& e);
    void operator()(const OperationWithdrawn& e);
    void operator()(const OperationTakenOut& e);
    void operator()(const OperationLeft& e);
    void operator()(const OperationReopened& e);
    void operator()(const CautionsRead& e);
    void operator()(const WorkStarted& e);
    void operator()(const WorkStopped& e);
    void operator()(const MinutesCorrected& e);
    void operator()(const HandedOver& e);
    void operator()(const WorkPlanned& e);
    void operator()(const OperationBlocked& e);
    void operator()(const OperationUnblocked& e);
    void operator()(const SentOut& e);
    void operator()(const ReceivedBack& e);
    void operator()(const DueChanged& e);
    void operator()(const IsolationSet& e);
    void operator()(const IsolationLifted& e);
    // auditproof.cpp: readings, signatures
    void operator()(const FigureSet& e);
    void operator()(const ReadingTaken& e);
    void operator()(const ReadingCorrected& e);
    void operator()(const OperationSigned& e);
    void operator()(const OperationClosed& e);

    /// What carries no rule beyond its being there.
    template <class Event>
    void operator()(const Event&)
    {
    }

private:
    [[nodiscard]] const Person* person() const { return m_site.person(m_entry.by); }
    void blame(const QString& what);
    void blameIf(bool wrong, const char* what);
    void needs(Right right) { needsAny({right}); }
    void needsAny(std::initializer_list<Right> rights);
    /// Null, and blamed, when it is not open.
    const Operation* opened(OperationId id);
    void knowsPlace(const PlaceId& place);
    /// The right, skill, speciality and qualification for work on it.
    void able(const OperationSpec& spec);
    /// The same for somebody who takes back what an outside firm did.
    void mayReceive(const OperationSpec& spec);
    void notRestrained(Restraint what, const char* then);
    [[nodiscard]] bool isSafetyPlace(const PlaceId& place) const;
    /// Stopped by the same command: wheels that are signed together share a timer.
    [[nodiscard]] bool isStoppedInGroup(SegmentId segment) const;

    // Whether an entry of the same command is one of these.
    template <class... Events>
    [[nodiscard]] bool groupHas() const
    {
        return std::ranges::any_of(m_group, [](const CarEnvelope& entry) {
            return (std::holds_alternative<Events>(entry.event) || ...);
        });
    }
    [[nodiscard]] bool isCovered(const Operation& operation) const;
    [[nodiscard]] bool isIdleAccess(const Operation& operation) const;
    [[nodiscard]] bool opensInGroup(OperationId on, const Trigger& trigger) const;
    void judgeTool(const ToolUsed& used, const Operation& operation, const QString& key);
    void judgeValue(const Operation& operation, const QString& key, const PlaceId& place,
                    const ReadingValue& value, const std::vector<Limit>& limits,
                    ReadingOutcome outcome);
    void judgeNumber(const Operation& operation, const ReadingSpec& spec, const PlaceId& place,
                     int value, const std::vector<Limit>& limits, ReadingOutcome outcome);

    const CarState& m_car;
    const CarEnvelope& m_entry;
    const std::vector<CarEnvelope>& m_group;
    const SiteState& m_site;
    QStringList& m_broken;
};

} // namespace ramplight
