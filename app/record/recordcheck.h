// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "record/recordmodel.h"
#include "record/recordstamp.h"

namespace ramplight {

struct RecordCheck
{
    bool agrees = false; ///< it says what the ledger holds now
    QString words;       ///< agrees; superseded, and by what; or what differs
};

/// Holds a record against the ledger: makes the car's state at the stamp's entry again, the record
/// from it, and compares. now, history, site: as the ledger has them; head: of the entry that the
/// stamp names. Any thread.
[[nodiscard]] RecordCheck checkRecord(const RecordStamp& stamp, const CarState& now,
                                      const std::vector<CarEnvelope>& history,
                                      const SiteState& site, const RecordHead& head,
                                      const QString& standingLine);

} // namespace ramplight
