// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/carcommands.h"

#include <variant>
#include <vector>

// What somebody asks of cars: commands with who asks, and the id by which the same question is
// known again. Workshop decides them; plain values.
namespace ramplight {

/// Commands on one car that are carried out together or not at all, in order.
struct CarRequest
{
    CommandId id; ///< made by the caller; the same id again changes nothing
    PersonId actor;
    CarId car;
    std::vector<CarCommand> commands;
    /// The actor's PIN was entered for this very request. Of what comes from a screen the desk
    /// knows that by itself.
    bool pinFresh = false;
};

/// Work of one kind on wheels of several cars that was done at once (an oven load), signed off
/// together or not at all.
struct TogetherRequest
{
    /// One wheel, with what was measured on it.
    struct Item
    {
        CarId car;
        OperationId operation;
        std::vector<car::TakeReading> readings =
            {}; ///< their operation is this one, whatever it says
        QString note = {};
        static constexpr auto fields =
            fieldList(field("car", &Item::car), field("operation", &Item::operation),
                      field("readings", &Item::readings), field("note", &Item::note));
        friend bool operator==(const Item&, const Item&) = default;
    };

    CommandId id;
    PersonId actor;
    std::vector<Item> items;
};

/// As it came to the workshop.
using WorkRequest = std::variant<CarRequest, TogetherRequest>;

} // namespace ramplight
