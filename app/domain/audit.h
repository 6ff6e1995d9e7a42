// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/carevents.h"
#include "domain/siteevents.h"

#include <QStringList>

#include <vector>

// The rules decided again over what the ledger holds: names entries that no command could have
// written. Works from the events alone (they carry their limits and triggers), so a ledger is
// judged by the catalogue under which it was signed.
namespace ramplight {

/// Judges the entries that one command wrote to one car.
/// before: the car as the entries in front of them made it; site: the people, rights and rules at
/// that time. Answers what should not have been, in words; empty when all is in order.
[[nodiscard]] QStringList rulesBroken(const CarState& before, const std::vector<CarEnvelope>& group,
                                      const SiteState& site);
/// The same for the entries that one command wrote to the site.
[[nodiscard]] QStringList siteRulesBroken(const SiteState& before,
                                          const std::vector<SiteEnvelope>& group);

} // namespace ramplight
