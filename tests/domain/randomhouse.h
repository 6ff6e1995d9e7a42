// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/workshop.h"

#include <optional>

namespace ramplight::test {

/// Whom and what commands name of a house besides its cars.
struct HouseNames
{
    PersonId manager;
    PersonId appraiser;
    PersonId technician;
    PersonId checker;
    PersonId seller;
    BayId lift;
    BayId paintBay;
    QDate day; ///< things are due about then
};

/// A workshop as random people find it: on the bench, or behind a kiosk's door.
class RandomHouse
{
public:
    virtual ~RandomHouse() = default;

    [[nodiscard]] virtual const HouseNames& names() const = 0;
    [[nodiscard]] virtual const Catalogue& catalogue() const = 0;
    /// One that nobody attached yet.
    [[nodiscard]] virtual PhotoId photo() = 0;
    /// False: it was refused.
    virtual bool ask(PersonId who, const CarId& car, const CarCommand& command) = 0;
    /// Without anything in it where there is none, or it cannot be read.
    [[nodiscard]] virtual CarState car(const CarId& car) = 0;
    [[nodiscard]] virtual SiteState site() = 0;
    [[nodiscard]] virtual std::optional<RunningWork> runningWork(PersonId person) = 0;
    [[nodiscard]] virtual Moment now() const = 0;
    /// Somebody works so long; by the machine's clock nobody does.
    virtual void pass(int minutes) = 0;
};

} // namespace ramplight::test
