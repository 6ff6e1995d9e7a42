// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/audit.h"

#include "domain/auditor.h"
#include "domain/contains.h"
#include "domain/holds.h"
#include "domain/words.h"

#include <array>

namespace ramplight {

namespace {

/// What is never written to a released car, also not by what follows from a correction.
template <class Event>
constexpr bool neverAfterRelease =
    isOneOf<Event, PlacesFoundSound, AppraisalFinished, OperationTakenOut, CautionsRead,
            WorkStarted, HandedOver, WorkPlanned, FigureSet, FigureCorrected, ReadingTaken,
            OperationSigned, OperationClosed, OperationLeft, OperationBlocked, OperationUnblocked,
            SentOut, ReceivedBack, DueChanged, IsolationSet, IsolationLifted, PromiseChanged,
            CarReleased, PaintDepthRecorded, TreadRecorded, WalkRoundRead>;

/// It came over from the second entry of the car: two can be joined after the release, too.
template <class Event>
bool isBroughtOver(const Event& event)
{
    if constexpr (requires { event.carried; })
        return !event.carried.isEmpty();
    else
        return false;
}

/// Changes what the record says, so that a released car is held again.
template <class Event>
constexpr bool holdsAgain =
    isOneOf<Event, FindingRecorded, FindingCorrected, ReadingCorrected, FactsCorrected,
            IdentityCorrected, OperationReopened, DuplicateLinked>;

/// What the house itself does, and what needs nobody's right: one's own time, one's own lock.
template <class Event>
constexpr bool needsNoActivePerson = isOneOf<Event, WorkStopped, MinutesCorrected, IsolationLifted>;

} // namespace

void Auditor::judge()
{
    blameIf(m_entry.at < m_car.lastAt, "is dated before the entry in front of it");
    const bool byTheHouse =
        m_entry.by.isNull() && std::holds_alternative<WorkStopped>(m_entry.event);
    blameIf(!byTheHouse && person() == nullptr, "was written by nobody of this site");
    blameIf(m_car.left && !std::holds_alternative<CarBroughtBack>(m_entry.event) &&
                !std::holds_alternative<PhotosRemoved>(m_entry.event),
            "was written to a car that had left");
    std::visit(
        [&](const auto& event) {
            using Event = std::decay_t<decltype(event)>;
            blameIf(person() != nullptr && !person()->active && !needsNoActivePerson<Event>,
                    "was written by somebody who did not work here any more");
            blameIf(m_car.released && neverAfterRelease<Event> && !isBroughtOver(event),
                    "was written to a car that was released");
            blameIf(m_car.released && holdsAgain<Event> && !groupHas<CarHeldAgain>(),
                    "leaves a car released that it changes");
            blameIf(m_car.exists() == std::is_same_v<Event, CarArrived>,
                    m_car.exists() ? "brings in a car that is here already"
                                   : "was written to a car that was never brought in");
        },
        m_entry.event);
    std::visit(*this, m_entry.event);
}

void Auditor::blame(const QString& what)
{
    m_broken.append(QStringLiteral("Entry %1 %2.").arg(m_entry.seq).arg(what));
}

void Auditor::blameIf(bool wrong, const char* what)
{
    if (wrong)
        blame(QString::fromUtf8(what));
}

void Auditor::needsAny(std::initializer_list<Right> rights)
{
    if (person() == nullptr)
        return;
    QStringList names;
    for (const Right right : rights) {
        if (person()->can(right))
            return;
        names.append(words(right));
    }
    blame(QStringLiteral("was written without the right to %1")
              .arg(names.join(QStringLiteral(" or "))));
}

const Operation* Auditor::opened(OperationId id)
{
    const Operation* operation = m_car.operation(id);
    if (operation != nullptr && operation->isOpen())
        return operation;
    blame(QStringLiteral("speaks of an operation that is not open"));
    return nullptr;
}

void Auditor::knowsPlace(const PlaceId& place)
{
    if (placeInfo(place) == nullptr)
        blame(QStringLiteral("names a place that no car has: %1").arg(place.text));
}

void Auditor::able(const OperationSpec& spec)
{
    if (person() == nullptr)
        return;
    if (const auto no = whyNotAble(*person(), spec))
        blame(QStringLiteral("was written by somebody who may not do that work (%1)")
                  .arg(idText(no->id)));
    if (spec.qualification && whyNotQualified(*person(), spec, dayOf(m_entry.at, m_site.rules)))
        blame(QStringLiteral("was written without the qualification for %1")
                  .arg(words(*spec.qualification)));
}

void Auditor::mayReceive(const OperationSpec& spec)
{
    if (person() == nullptr)
        return;
    if (const auto no = whyNotReceiving(*person(), spec))
        blame(QStringLiteral("was written by somebody who may not do that work (%1)")
                  .arg(idText(no->id)));
}

void Auditor::notRestrained(Restraint what, const char* then)
{
    for (const RestraintReason& reason : restraints(m_car, m_entry.at))
        if (reason.what == what)
            blame(QStringLiteral("%1: %2").arg(QString::fromUtf8(then), reason.words));
}

void Auditor::wantsSecondPerson(const std::set<PersonId>& recorders, const PhotoId& evidence,
                                const char* then)
{
    const QString what = QString::fromUtf8(then);
    if (recorders.contains(m_entry.by))
        blame(what + QStringLiteral(" without a second person"));
    wantsFreshPhoto(evidence, then);
}

void Auditor::wantsFreshPhoto(const PhotoId& evidence, const char* then)
{
    const QString what = QString::fromUtf8(then);
    if (evidence.isEmpty())
        blame(what + QStringLiteral(" without a photo"));
    else if (m_car.photoFates.contains(evidence))
        blame(what + QStringLiteral(" by a photo that was on the car before"));
}

bool Auditor::isSafetyPlace(const PlaceId& place) const
{
    return std::ranges::find(m_car.safetyPlaces, place, &SafetyPlace::place) !=
           m_car.safetyPlaces.end();
}

const Catalogue* Auditor::catalogue() const
{
    const auto opened = std::ranges::find_if(m_group, [](const CarEnvelope& entry) {
        return std::holds_alternative<OperationOpened>(entry.event);
    });
    return m_known.inForce(m_site, opened == m_group.end()
                                       ? QString()
                                       : std::get<OperationOpened>(opened->event).catalogueHash);
}

const Catalogue* Auditor::catalogueOfCar() const
{
    return m_car.operations.empty()
               ? nullptr
               : m_known.inForce(m_site, m_car.operations.rbegin()->second.catalogueHash);
}

CarState Auditor::beforeFacts() const
{
    CarState car = m_before;
    for (const CarEnvelope& entry : m_group) {
        if (std::holds_alternative<FactsCorrected>(entry.event))
            break;
        apply(car, entry);
    }
    return car;
}

CarState Auditor::afterGroup() const
{
    CarState car = m_before;
    for (const CarEnvelope& entry : m_group)
        apply(car, entry);
    return car;
}

void Auditor::judgeOutcome()
{
    if (const auto* recorded = std::get_if<FindingRecorded>(&m_entry.event))
        judgeAnswered(recorded->finding);
    else if (const auto* corrected = std::get_if<FindingCorrected>(&m_entry.event))
        judgeAnswered(corrected->finding);
    else if (const auto* answered = std::get_if<FindingAnswered>(&m_entry.event))
        judgeAnswered(answered->finding);
    else if (const auto* withdrawn = std::get_if<OperationWithdrawn>(&m_entry.event))
        if (const Operation* operation = m_before.operation(withdrawn->operation))
            for (const FindingId finding : operation->findings)
                judgeAnswered(finding);
}

QStringList rulesBroken(const CarState& before, const std::vector<CarEnvelope>& group,
                        const SiteState& site, const KnownCatalogues& known)
{
    QStringList broken;
    const AuditedCommand command{before, group, site, known};
    CarState car = before;
    for (const CarEnvelope& entry : group) {
        Auditor(command, car, entry, broken).judge();
        apply(car, entry);
    }
    for (const CarEnvelope& entry : group)
        Auditor(command, car, entry, broken).judgeOutcome();
    return broken;
}

} // namespace ramplight
