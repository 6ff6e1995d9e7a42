// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "planning/shop.h"

#include <variant>
#include <vector>

// The workshop as it would be: each makes a changed copy and changes nothing else. Plan and
// forecast the copy to see what comes of it.
namespace ramplight::planning::whatif {

/// Somebody more, who may do what one of the people may and works the same times.
struct AnotherPerson
{
    int like = 0;
    QString name;
};

/// A bay more, for what one of the bays serves.
struct AnotherBay
{
    int like = 0;
    QString name;
};

/// Everybody, or one person, works these spans, too.
struct Overtime
{
    int person = -1; ///< -1: everybody
    std::vector<Span> spans;
};

/// A person is not there during a span.
struct Absence
{
    int person = 0;
    Span span;
};

/// A part comes at another time.
struct PartAt
{
    int job = 0;
    PlanMinute at = 0;
};

/// A car is promised for another time, or weighs otherwise.
struct Promise
{
    int car = 0;
    PlanMinute promised = never;
    double weight = 1;
};

/// Only this person does a job, in this bay; -1 leaves it open.
struct Assign
{
    int job = 0;
    int person = -1;
    int bay = -1;
};

using Change = std::variant<AnotherPerson, AnotherBay, Overtime, Absence, PartAt, Promise, Assign>;

/// All numbers of a change are those of the shop that it is applied to.
[[nodiscard]] Shop changed(Shop shop, const Change& change);

/// A car of two plans of the same cars.
struct Difference
{
    int car = 0;
    PlanMinute before = never;
    PlanMinute after = never;
};

/// The cars that are ready at another time, those that gain most first.
[[nodiscard]] std::vector<Difference> differences(const ShopPlan& before, const ShopPlan& after);

} // namespace ramplight::planning::whatif
