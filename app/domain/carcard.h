// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/car.h"
#include "domain/holds.h"

#include <vector>

// A car as the wall shows it: what the read table keeps per car, so that the wall needs no replay.
// Derived from the car's state alone; person and bay by id, times as moments.
namespace ramplight {

/// One outstanding operation on a card.
struct CardLine
{
    OperationId operation;
    QString kind; ///< catalogue id
    QString title;
    PlaceId place;
    Skill skill = Skill::Mechanical;
    OperationState state = OperationState::Waiting;
    bool safety = false;
    bool check = false; ///< a check of other work, or one that awaits its countersignature; what
                        ///< an outside firm brought back awaits its check, and is none
    PersonId assigned;
    std::vector<PersonId> people; ///< whose timer runs on it
    Moment runningSince;          ///< earliest running start; null when nobody is on it
    int minutesBefore = 0;        ///< finished stretches
    Minutes usual;
    Moment stateSince; ///< when it came into its state, as far as the stream tells
    QDate due;         ///< part or outside firm
    QString waitsFor;  ///< "part: mirror glass", the firm's name
    bool sentBack = false;
    bool notYet = false; ///< something else has to be finished first

    static constexpr auto fields =
        fieldList(field("operation", &CardLine::operation), field("kind", &CardLine::kind),
                  field("title", &CardLine::title), field("place", &CardLine::place),
                  field("skill", &CardLine::skill), field("state", &CardLine::state),
                  field("safety", &CardLine::safety), field("check", &CardLine::check),
                  field("assigned", &CardLine::assigned), field("people", &CardLine::people),
                  field("runningSince", &CardLine::runningSince),
                  field("minutesBefore", &CardLine::minutesBefore),
                  field("usual", &CardLine::usual), field("stateSince", &CardLine::stateSince),
                  field("due", &CardLine::due), field("waitsFor", &CardLine::waitsFor),
                  field("sentBack", &CardLine::sentBack), field("notYet", &CardLine::notYet));
    friend bool operator==(const CardLine&, const CardLine&) = default;
};

/// How a place is drawn in the outline.
enum class PlaceMark { Outstanding, Closed, NotLookedAt };
template <>
struct Names<PlaceMark>
{
    static constexpr std::array table{std::pair{PlaceMark::Outstanding, "outstanding"},
                                      std::pair{PlaceMark::Closed, "closed"},
                                      std::pair{PlaceMark::NotLookedAt, "not-looked-at"}};
};

struct MarkedPlace
{
    PlaceId place;
    PlaceMark mark = PlaceMark::Outstanding;
    static constexpr auto fields =
        fieldList(field("place", &MarkedPlace::place), field("mark", &MarkedPlace::mark));
    friend bool operator==(const MarkedPlace&, const MarkedPlace&) = default;
};

/// What may not be done with the car, and why.
struct CardRestraint
{
    Restraint what = Restraint::Move;
    QString words;
    Moment until; ///< the end of a waiting time; null: until work ends it

    [[nodiscard]] bool holdsAt(Moment now) const { return until.isNull() || until > now; }

    static constexpr auto fields =
        fieldList(field("what", &CardRestraint::what), field("words", &CardRestraint::words),
                  field("until", &CardRestraint::until));
    friend bool operator==(const CardRestraint&, const CardRestraint&) = default;
};

struct CarCard
{
    CarId car;
    qint64 seq = 0;
    Identity identity;
    QDate promised;
    BayId bay;
    QString parking;
    Moment arrivedAt;
    Moment lastAt;
    CarStatus status = CarStatus::Arriving; ///< as of lastAt; curing ends by itself
    Moment curingUntil;                     ///< end of the last waiting time; null when none runs
    CarStatus statusAfterCuring = CarStatus::Arriving; ///< from curingUntil on
    Moment freshUntil; ///< then something counts no more (a look-up of recalls); null: nothing does
    CarStatus statusOnceOld = CarStatus::Arriving; ///< from freshUntil on
    QString oldTitles; ///< of what counts no more from freshUntil on; empty when nothing does
    std::vector<CardLine> outstanding; ///< safety first, what can begin before the rest
    int closedCount = 0;
    int safetyHolds = 0;
    int notLookedAtCount = 0;
    std::vector<MarkedPlace> marks;
    std::vector<CardRestraint> restraints; ///< as of lastAt, each with its end
    QString heldAgainWhy;
    int openDrafts = 0; ///< of spoken walk-rounds, that nobody has decided about

    /// The status at another time: a waiting time that is over holds no longer.
    [[nodiscard]] CarStatus statusAt(Moment now) const;
    /// While safety work can go on, waits for a part or was never looked at; not where only second
    /// persons are still owed.
    [[nodiscard]] bool isHeldBySafety(Moment now) const;
    /// What may not be done with the car then, each once.
    [[nodiscard]] std::vector<Restraint> restraintsAt(Moment now) const;
    /// "wheels are off, adhesive cures"; empty.
    [[nodiscard]] QString restraintWordsAt(Moment now) const;

    static constexpr auto fields = fieldList(
        field("car", &CarCard::car), field("seq", &CarCard::seq),
        field("identity", &CarCard::identity), field("promised", &CarCard::promised),
        field("bay", &CarCard::bay), field("parking", &CarCard::parking),
        field("arrivedAt", &CarCard::arrivedAt), field("lastAt", &CarCard::lastAt),
        field("status", &CarCard::status), field("curingUntil", &CarCard::curingUntil),
        field("statusAfterCuring", &CarCard::statusAfterCuring),
        field("freshUntil", &CarCard::freshUntil), field("statusOnceOld", &CarCard::statusOnceOld),
        field("oldTitles", &CarCard::oldTitles), field("outstanding", &CarCard::outstanding),
        field("closedCount", &CarCard::closedCount), field("safetyHolds", &CarCard::safetyHolds),
        field("notLookedAtCount", &CarCard::notLookedAtCount), field("marks", &CarCard::marks),
        field("restraints", &CarCard::restraints), field("heldAgainWhy", &CarCard::heldAgainWhy),
        field("openDrafts", &CarCard::openDrafts));
    friend bool operator==(const CarCard&, const CarCard&) = default;
};

[[nodiscard]] CarCard cardOf(const CarState& car, const HouseRules& rules);

} // namespace ramplight
