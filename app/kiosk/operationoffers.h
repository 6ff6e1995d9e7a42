// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/carview.h"

namespace ramplight {

/// What can be done with an operation now, an offer per button of its screen.
struct OperationOffers
{
    Offer start, pause, finish, countersign, fail, reopen, leave, withdraw, handOver, block,
        unblock, sendOut, receive, changeDue, isolate, lift;
};

/// The domain's answers for a person (or, when nobody is signed in, for somebody who may do
/// everything). Nothing is offered for an operation without an id. GUI thread.
[[nodiscard]] OperationOffers operationOffers(const Operation& operation, const CarView& view,
                                              PersonId person, const SiteBook& book, Moment now);

} // namespace ramplight
