// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "appraisal/appraisalfile.h"
#include "domain/site.h"
#include "domain/workshop.h"

// From an appraisal file to the same commands that touch makes. Pure.
namespace ramplight {

/// All of the file as one request: the car arrives, is walked round, the appraisal is finished.
/// Command and car are named after the file's content, so that the same file changes nothing the
/// second time.
/// actor: who takes it in; foundBy: whose findings they are, null where that is nobody of this
/// house.
[[nodiscard]] CarRequest requestFrom(const AppraisalFile& file, PersonId actor,
                                     PersonId foundBy = {});

/// Whom the file names as its appraiser, if that person may appraise; otherwise null.
[[nodiscard]] PersonId appraiserOf(const AppraisalFile& file, const SiteState& site);

} // namespace ramplight
