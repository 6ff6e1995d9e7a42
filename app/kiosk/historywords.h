// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/carevents.h"
#include "kiosk/sitebook.h"

namespace ramplight {

/// What an entry of a car's history says to a person.
struct HistoryWords
{
    QString what;               ///< "Signed: near side front wheel: refurbish, painted"
    QString detail;             ///< reason, value, note; may be empty
    OperationId operation = {}; ///< the way to it; null when it is about none

    friend bool operator==(const HistoryWords&, const HistoryWords&) = default;
};

/// The car as it is now gives titles of operations and findings. Pure.
[[nodiscard]] HistoryWords historyWords(const CarEvent& event, const CarState& car,
                                        const SiteBook& book);

} // namespace ramplight
