// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "planning/houseplan.h"

#include <functional>
#include <variant>
#include <vector>

// The house as it would be: each makes a changed copy of what is planned from and changes nothing
// else. Plan the copy with as much effort as the plan had, and hold the two against each other.
namespace ramplight::planning::whatif {

/// Somebody more, who may do what one of the people may, with the same hours.
struct AnotherPerson
{
    PersonId like;
    DaysAway here = {}; ///< from its first day to its last; an invalid last day: for good
};

/// A bay more, for what one of the bays serves.
struct AnotherBay
{
    BayId like;
};

/// Everybody who works or checks, or one person, works these hours, too.
struct ExtraTime
{
    PersonId person = {}; ///< null: everybody
    ExtraHours hours = {};
};

/// A person is not there.
struct Absence
{
    PersonId person;
    DaysAway days;
};

/// The part that work waits for, or the work that is outside, comes on another day.
struct PartAt
{
    CarId car;
    OperationId operation;
    QDate day = {}; ///< invalid: it is here now
};

/// A car is promised for another day, or its promise counts for more or less.
struct Promise
{
    CarId car;
    QDate day;
    std::optional<PromiseImportance> importance = {}; ///< nothing: as it is
};

/// The manager's word about one operation; null leaves it to the planner.
struct Assign
{
    CarId car;
    OperationId operation;
    PersonId person = {};
    BayId bay = {};
    Moment from = {};

    friend bool operator==(const Assign&, const Assign&) = default;
};

using Change = std::variant<AnotherPerson, AnotherBay, ExtraTime, Absence, PartAt, Promise, Assign>;

/// What a change names is in the input; what is not leaves it as it is.
[[nodiscard]] HouseInput changed(HouseInput input, const Change& change);
[[nodiscard]] HouseInput changed(HouseInput input, const std::vector<Change>& changes);

/// How a day is said: "Thu".
using SayDay = std::function<QString(QDate)>;
/// "one more like Ines Dale, from Thu to Fri", "everybody also Sat 08:00 to 12:00"
[[nodiscard]] QString words(const Change& change, const HouseInput& input, const SayDay& day);

/// Who is meant by a change of hours for everybody.
[[nodiscard]] std::vector<PersonId> everybody(const SiteState& site);
/// What comes of it for the cars.
struct Outcome
{
    int lateBefore = 0;
    int lateAfter = 0;
    std::vector<CarShift> sooner; ///< what gains most first
    std::vector<CarShift> later;  ///< what loses most first
    /// Ready as before, but late now or no longer, since something else was promised.
    std::vector<CarShift> otherwise;
    int asBefore = 0; ///< all other cars
};

/// A change of a car's ready time by less than leastMinutes is none.
[[nodiscard]] Outcome outcomeOf(const HousePlan& before, const HousePlan& after, int leastMinutes);

} // namespace ramplight::planning::whatif
