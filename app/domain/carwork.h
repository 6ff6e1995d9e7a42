// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/cardecide.h"
#include "domain/findingrules.h"
#include "domain/words.h"

#include <QStringList>

#include <optional>
#include <set>

// The car on which decide() builds its answer: each event is applied as soon as it is decided, so
// that what follows sees it. Also the rules that several commands share. Internal to
// the domain.
namespace ramplight {

using Decision = tl::expected<std::vector<CarEvent>, Refusal>;
using MaybeRefusal = std::optional<Refusal>;

/// A clock that is kept right by the network moves about a little; nobody set it.
constexpr qint64 clockJitterMs = 1000;

class CarWork
{
public:
    /// Both outlive it.
    CarWork(CarState& state, const CarContext& context);

    [[nodiscard]] const CarState& car() const { return m_car; }
    [[nodiscard]] const CarContext& context() const { return m_context; }
    [[nodiscard]] const HouseRules& rules() const { return m_context.site->rules; }
    [[nodiscard]] const Catalogue& catalogue() const { return *m_context.catalogue; }
    /// Never before the last entry of the car: a clock set backwards changes no order.
    [[nodiscard]] Moment now() const { return m_now; }
    [[nodiscard]] PersonId actor() const { return m_context.actor; }
    [[nodiscard]] const Person* person() const { return m_context.site->person(m_context.actor); }
    [[nodiscard]] bool can(Right right) const;
    [[nodiscard]] QString nameOf(PersonId id) const;
    [[nodiscard]] std::vector<CarEvent> take() { return std::move(m_events); }
    [[nodiscard]] bool changed() const { return !m_events.empty(); }
    /// A finding was recorded.
    [[nodiscard]] bool found() const;

    void add(CarEvent event);

    // What may be asked of the acting person.
    [[nodiscard]] MaybeRefusal needs(Right right) const;
    [[nodiscard]] MaybeRefusal needsAny(std::initializer_list<Right> rights) const;
    /// The right and the skill to work on an operation (or to check, where it is a check).
    [[nodiscard]] MaybeRefusal mayWorkOn(const Operation& operation) const;
    /// The same for somebody who takes back what an outside firm did: the firm is qualified.
    [[nodiscard]] MaybeRefusal mayReceive(const Operation& operation) const;
    [[nodiscard]] QDate today() const { return dayOf(m_now, rules()); }
    /// A check is signed by nobody who did some of the work that it checks.
    [[nodiscard]] MaybeRefusal mayCheck(const Operation& operation) const;
    /// Correcting at a safety item: somebody else than all whose word it is, with a photo that was
    /// not on the car before.
    [[nodiscard]] MaybeRefusal maySafelyCorrect(const std::set<PersonId>& recordedBy,
                                                const PhotoId& evidence) const;
    /// A correction is shown by a photo that was not on the car before.
    [[nodiscard]] MaybeRefusal mustBeShown(const PhotoId& evidence) const;
    /// The car was entered twice, and that is the other one.
    [[nodiscard]] MaybeRefusal mayJoinWith(const CarId& other) const;

    [[nodiscard]] bool isSafetyPlace(const PlaceId& place) const;
    [[nodiscard]] QString titleOf(const Operation& operation) const;

    // Shared consequences.
    struct Reason
    {
        Origin origin = Origin::ByHand;
        QString words;
        std::vector<FindingId> findings;
        std::vector<OperationId> restsOn;
        std::vector<ReadingId> readings;
    };
    /// Opens an operation of a kind for a place, or widens one that is open and fits.
    void open(const OperationSpec& spec, const PlaceId& place, const Reason& reason);
    /// Opens what the closing (or, once it was started, the leaving) of an operation makes due.
    void openTriggered(OperationId closed);
    /// It ran already then, by its beginning or by the steady clock: what was kept while the server
    /// was away begins there no earlier than what others wrote meanwhile.
    [[nodiscard]] bool hasBegunBefore(const Segment& segment, Moment at) const;
    /// Stops a timer: now, or at the end of a shift that is over. How long it ran is measured by
    /// the steady clock where the program ran throughout and the other one was set meanwhile.
    void stop(OperationId operation, const Segment& segment, StopKind how, Moment at = {});
    void stopEverybody(OperationId operation, StopKind how);
    void close(OperationId operation);
    /// Opens it again and voids every check that rested on it.
    void reopen(OperationId operation, const QString& reason, PersonId backTo);
    /// Not needed any more. What was started leaves its checks behind.
    void withdraw(OperationId operation, const QString& reason);
    /// Opens what answers a finding.
    void answer(FindingId finding, const Answer& with);
    /// Takes a finding or reading away from the operations that rested on it. What rests on nothing
    /// any more is withdrawn, unless it was begun and keeps the car apart, or a firm has it.
    void detach(FindingId finding, const QString& reason, const QStringList& keepKinds);
    /// Only from those at a place, where one is given.
    void detach(ReadingId reading, const QString& reason, const PlaceId& at = {});

private:
    /// Of its timer, as the program saw it begin; null: it did not.
    [[nodiscard]] const SteadyTimer* steadyOf(const Segment& segment) const;
    /// The open operation that does the work of a kind at a place, too; null when none does.
    [[nodiscard]] const Operation* covering(const QString& kind, const PlaceId& place) const;
    /// What a new operation covers comes into it.
    void takeIn(OperationId covering);
    void voidResting(OperationId on);
    void narrow(const Operation& operation, const Reason& left, const QString& reason);

    CarState& m_car;
    const CarContext& m_context;
    Moment m_now;
    std::vector<CarEvent> m_events;
};

/// Safety places of a car with these facts.
[[nodiscard]] std::vector<SafetyPlace> safetyPlacesFor(const Catalogue& catalogue,
                                                       const CarFacts& facts);
/// Records a finding and opens what answers it.
void recordFinding(CarWork& work, const FindingData& data, OperationId during);
/// The same for one that a second entry of the car holds.
void bringFinding(CarWork& work, const Finding& found, const CarId& from);
/// Takes a finding away from what answered it; what was covered with it is done by itself again.
void detachFinding(CarWork& work, FindingId finding, const QString& reason,
                   const QStringList& keepKinds);
/// The car's facts were others before: what the rules say otherwise now of a finding that stands is
/// done, and what they say no longer is not.
void answerAnew(CarWork& work, const CarFacts& before, const QString& reason);
/// The same where facts were only added, and nobody looked: nothing is taken away.
void answerMore(CarWork& work, const CarFacts& before);
/// Opens what every car with the facts gets that this one has now, and what closed work would have
/// opened on such a car.
void openWithFacts(CarWork& work, const CarState& before, const QString& reason);
/// Once: the same photo of the same thing changes nothing.
void attachPhoto(CarWork& work, const PhotoAttached& photo);

// One function per command, grouped by what they are about.
/// What an operation waits for that is blocked, away or signed once; empty: nothing.
[[nodiscard]] QString waitWords(const Operation& operation);

namespace decision {

// arriving.cpp
MaybeRefusal on(CarWork& work, const car::BringIn& c);
MaybeRefusal on(CarWork& work, const car::CorrectIdentity& c);
MaybeRefusal on(CarWork& work, const car::CorrectFacts& c);
MaybeRefusal on(CarWork& work, const car::ChangePromise& c);
// finding.cpp
MaybeRefusal on(CarWork& work, const car::RecordFinding& c);
MaybeRefusal on(CarWork& work, const car::FindSound& c);
MaybeRefusal on(CarWork& work, const car::FinishAppraisal& c);
MaybeRefusal on(CarWork& work, const car::CorrectFinding& c);
MaybeRefusal on(CarWork& work, const car::OpenOperation& c);
MaybeRefusal on(CarWork& work, const car::WithdrawOperation& c);
MaybeRefusal on(CarWork& work, const car::TakeOut& c);
// joining.cpp
MaybeRefusal on(CarWork& work, const car::LinkDuplicate& c);
// hearing.cpp
MaybeRefusal on(CarWork& work, const car::TakeSpeech& c);
MaybeRefusal on(CarWork& work, const car::DropDraft& c);
// gauging.cpp
MaybeRefusal on(CarWork& work, const car::RecordTread& c);
MaybeRefusal on(CarWork& work, const car::RecordTyre& c);
MaybeRefusal on(CarWork& work, const car::RecordPaintDepth& c);
MaybeRefusal on(CarWork& work, const car::ConfirmRepair& c);
MaybeRefusal on(CarWork& work, const car::ReadOdometer& c);
// working.cpp
MaybeRefusal on(CarWork& work, const car::ReadCautions& c);
MaybeRefusal on(CarWork& work, const car::StartWork& c);
MaybeRefusal on(CarWork& work, const car::PauseWork& c);
MaybeRefusal on(CarWork& work, const car::CorrectMinutes& c);
MaybeRefusal on(CarWork& work, const car::HandOver& c);
MaybeRefusal on(CarWork& work, const car::PlanWork& c);
MaybeRefusal on(CarWork& work, const car::BlockForPart& c);
MaybeRefusal on(CarWork& work, const car::Unblock& c);
MaybeRefusal on(CarWork& work, const car::SendOut& c);
MaybeRefusal on(CarWork& work, const car::ReceiveBack& c);
MaybeRefusal on(CarWork& work, const car::ChangeDue& c);
MaybeRefusal on(CarWork& work, const car::SetIsolation& c);
MaybeRefusal on(CarWork& work, const car::LiftIsolation& c);
MaybeRefusal on(CarWork& work, const car::AttachPhoto& c);
// measuring.cpp
MaybeRefusal on(CarWork& work, const car::SetFigure& c);
MaybeRefusal on(CarWork& work, const car::CorrectFigure& c);
MaybeRefusal on(CarWork& work, const car::TakeReading& c);
MaybeRefusal on(CarWork& work, const car::CorrectReading& c);
// signing.cpp
MaybeRefusal on(CarWork& work, const car::SignOff& c);
MaybeRefusal on(CarWork& work, const car::Countersign& c);
MaybeRefusal on(CarWork& work, const car::FailCheck& c);
MaybeRefusal on(CarWork& work, const car::Reopen& c);
MaybeRefusal on(CarWork& work, const car::LeaveAsIs& c);
// leaving.cpp
MaybeRefusal on(CarWork& work, const car::MoveCar& c);
MaybeRefusal on(CarWork& work, const car::Release& c);
MaybeRefusal on(CarWork& work, const car::LeaveUnreleased& c);
MaybeRefusal on(CarWork& work, const car::BringBack& c);
MaybeRefusal on(CarWork& work, const car::CloseDuplicate& c);
// retention.cpp
MaybeRefusal on(CarWork& work, const car::RemovePhotos& c);

} // namespace decision

} // namespace ramplight
