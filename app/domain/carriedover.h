// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/codec.h"
#include "domain/ids.h"
#include "domain/moment.h"

namespace ramplight {

/// What came over from the second entry of the same car: who had said it there, and when. Whoever
/// joined the two stands under the entry itself.
struct CarriedOver
{
    CarId from;
    PersonId by;
    Moment at;

    [[nodiscard]] bool isEmpty() const { return from.isEmpty(); }
    static constexpr auto fields =
        fieldList(field("from", &CarriedOver::from), field("by", &CarriedOver::by),
                  field("at", &CarriedOver::at));
    friend bool operator==(const CarriedOver&, const CarriedOver&) = default;
};

} // namespace ramplight
