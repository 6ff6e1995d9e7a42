// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/carwork.h"

// What recording a finding does to the draft that it comes of.
namespace ramplight {

/// Why nothing can be recorded of this draft; a null one is always well.
[[nodiscard]] MaybeRefusal draftFault(const CarState& car, const DraftRef& ref);
/// The draft is decided: kept, or changed where something else is recorded than was understood.
void decideDraft(CarWork& work, const DraftRef& ref, const FindingData& as, FindingId finding);

} // namespace ramplight
