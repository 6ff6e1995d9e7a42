// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/carevents.h"
#include "domain/knowncatalogues.h"
#include "domain/site.h"

#include <QStringList>

#include <algorithm>
#include <initializer_list>
#include <set>
#include <vector>

// The judge behind rulesBroken(). Internal to the domain.
namespace ramplight {

/// What one command wrote to one car, and what is known beside it. All of it outlives the judge.
struct AuditedCommand
{
    const CarState& before;
    const std::vector<CarEnvelope>& entries;
    const SiteState& site;
    const KnownCatalogues& known;
};

/// Judges one entry on the car as it was just before it. An entry that says what was so already is
/// not blamed for that: no command would have written it, but it changes nothing.
class Auditor
{
public:
    /// The car with the entries in front of this one; it outlives the judge, too.
    Auditor(const AuditedCommand& command, const CarState& car, const CarEnvelope& entry,
            QStringList& broken)
        : m_before(command.before)
        , m_group(command.entries)
        , m_site(command.site)
        , m_known(command.known)
        , m_car(car)
        , m_entry(entry)
        , m_broken(broken)
    {
    }

    void judge();
    /// What the whole command left, judged on the car as it is behind it.
    void judgeOutcome();

    // auditcar.cpp: the car as a whole
    void operator()(const CarArrived& e);
    void operator()(const IdentityCorrected& e);
    void operator()(const FactsCorrected& e);
    void operator()(const PromiseChanged& e);
    void operator()(const CarMoved& e);
    void operator()(const CarReleased& e);
    void operator()(const CarHeldAgain& e);
    void operator()(const CarLeft& e);
    void operator()(const CarBroughtBack& e);
    void operator()(const DuplicateLinked& e);
    void operator()(const PhotoAttached& e);
    void operator()(const PhotosRemoved& e);
    // auditseen.cpp: what was seen, measured and read off the car
    void operator()(const FindingRecorded& e);
    void operator()(const FindingCorrected& e);
    void operator()(const FindingAnswered& e);
    void operator()(const PlacesFoundSound& e);
    void operator()(const TreadRecorded& e);
    void operator()(const TyreRecorded& e);
    void operator()(const PaintDepthRecorded& e);
    void operator()(const OdometerRead& e);
    void operator()(const AppraisalFinished& e);
    void operator()(const WalkRoundRead& e);
    void operator()(const DraftDecided& e);
    // auditopening.cpp: why operations are there
    void operator()(const OperationOpened& e);
    void operator()(const OperationExtended& e);
    void operator()(const OperationNarrowed& e);
    // auditgoing.cpp: why they are not needed any more, or once more
    void operator()(const OperationWithdrawn& e);
    void operator()(const OperationTakenOut& e);
    void operator()(const OperationLeft& e);
    void operator()(const OperationReopened& e);
    // auditwork.cpp: their time, who has them
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
    void operator()(const FigureCorrected& e);
    void operator()(const ReadingTaken& e);
    void operator()(const ReadingCorrected& e);
    void operator()(const OperationSigned& e);
    void operator()(const OperationClosed& e);

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
    /// Whoever is on it is stopped by what the command does, whose rules hold then.
    [[nodiscard]] bool stopsEverybody(OperationId id) const;

    // Whether an entry of the same command is one of these.
    template <class... Events>
    [[nodiscard]] bool groupHas() const
    {
        return std::ranges::any_of(m_group, [](const CarEnvelope& entry) {
            return (std::holds_alternative<Events>(entry.event) || ...);
        });
    }
    /// Whether an entry of the same command is one of these that is so.
    template <class Event, class Is>
    [[nodiscard]] bool groupHasOne(Is is) const
    {
        return std::ranges::any_of(m_group, [&](const CarEnvelope& entry) {
            const auto* event = std::get_if<Event>(&entry.event);
            return event != nullptr && is(*event);
        });
    }
    /// The same, of an operation.
    template <class... Events>
    [[nodiscard]] bool groupHasOf(OperationId id) const
    {
        return (groupHasOne<Events>([&](const Events& event) { return event.operation == id; }) ||
                ...);
    }
    /// Numbers of a car are counted.
    template <class Id>
    void isNext(Id id, int next)
    {
        blameIf(id.value != next, "takes another number than the next");
    }
    /// The catalogue by which the command was decided, with the house's changes; null: not known.
    [[nodiscard]] const Catalogue* catalogue() const;
    /// The one by which the car's newest work was opened; null when that is not known.
    [[nodiscard]] const Catalogue* catalogueOfCar() const;
    /// Somebody else than all whose word it is, with a photo that was not on the car before.
    void wantsSecondPerson(const std::set<PersonId>& recorders, const PhotoId& evidence,
                           const char* then);
    void wantsFreshPhoto(const PhotoId& evidence, const char* then);
    /// Each safety place that the car has by the catalogue, as far as that is known.
    void judgeSafetyPlaces(const CarFacts& facts, const std::vector<SafetyPlace>& places);
    void judgeBaseline(const CarArrived& e);
    /// What a rule of the catalogue says of a finding, as far as that one is known.
    void judgeRule(const FindingData& data, bool undecided, bool disclosed);
    void judgeAnswered(FindingId id);
    /// With the reading of a tyre that had shown it or what the car asks of its tyres, which the
    /// same command corrects.
    [[nodiscard]] bool isTakenBack(const FindingCorrected& e, const Finding& finding) const;
    void isCarriedOver(const CarriedOver& carried);

    // Why work is there.
    void judgeSpec(const OperationOpened& e);
    void judgeByHand(const OperationSpec& spec, const PlaceId& at,
                     const std::vector<FindingId>& findings);
    void judgeTwice(const OperationOpened& e);
    void judgeAnswer(FindingId id, const OperationSpec& spec, const PlaceId& at);
    void judgeTriggered(OperationId on, const OperationSpec& spec, const PlaceId& at);
    void judgeFollowUp(ReadingId id, const OperationSpec& spec, const PlaceId& at);
    void judgeLeftOff(const Operation& operation, const std::vector<OperationId>& restsOn);
    /// Something of the command concerns this finding, or moves it from work that is covered.
    [[nodiscard]] bool isCaused(FindingId id) const;
    [[nodiscard]] bool isMoved(FindingId id, const OperationSpec& to, const PlaceId& at) const;
    // What of an operation's reasons the command takes away.
    [[nodiscard]] bool goes(FindingId id) const;
    [[nodiscard]] bool goes(ReadingId id) const;
    [[nodiscard]] bool goes(OperationId id) const;
    [[nodiscard]] bool hasNothingLeft(const Operation& operation) const;
    [[nodiscard]] bool isUncovered(const Operation& operation) const;
    [[nodiscard]] bool isCovered(const Operation& operation) const;
    [[nodiscard]] bool wentWithFacts(const Operation& operation) const;
    /// The car as the command's correction of its facts found it.
    [[nodiscard]] CarState beforeFacts() const;
    [[nodiscard]] CarState afterGroup() const;
    /// Because of other work that the command opens, reopens or withdraws, or a corrected reading.
    [[nodiscard]] bool isReopenedWithOther(const Operation& operation) const;
    void judgeResting(const Operation& base);
    /// What its closing makes due is opened by the same command.
    void judgeDue(const Operation& operation, const char* then);
    [[nodiscard]] bool opensInGroup(OperationId on, const Trigger& trigger) const;
    void judgeFollowUpOpened(const Operation& operation, const QString& key, const PlaceId& place,
                             ReadingId reading, const ReadingValue& value, ReadingOutcome outcome);
    [[nodiscard]] bool wasSuperseded(const Reading& reading) const;
    /// What an entered and a corrected figure have in common; null, and blamed, when not so.
    template <class Event>
    const Operation* judgeFigure(const Event& e);
    void judgeEvidence(const Operation& operation, const char* then);

    void judgeTool(const ToolUsed& used, const Operation& operation, const QString& key);
    void judgeValue(const Operation& operation, const QString& key, const PlaceId& place,
                    const ReadingValue& value, const std::vector<Limit>& limits,
                    ReadingOutcome outcome);
    void judgeNumber(const Operation& operation, const ReadingSpec& spec, const PlaceId& place,
                     int value, const std::vector<Limit>& limits, ReadingOutcome outcome);

    const CarState& m_before;
    const std::vector<CarEnvelope>& m_group;
    const SiteState& m_site;
    const KnownCatalogues& m_known;
    const CarState& m_car;
    const CarEnvelope& m_entry;
    QStringList& m_broken;
};

} // namespace ramplight
