// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/carevents.h"
#include "domain/knowncatalogues.h"
#include "domain/siteevents.h"

#include <QStringList>

#include <vector>

// The rules decided again over what the ledger holds: names entries that no command could have
// written. Works from the events, which carry their limits and triggers, so a ledger is judged by
// the catalogue under which it was signed. What an event says of its catalogue is held against
// those that are known:
// - One that the house took in is in the ledger, and this program's own is known by its hash: what
//   was opened by it is what it says, cars arrive with all of their work and safety places, and
//   what a rule answers is answered.
// - Of other versions of the shipped one it is held that nothing asks for less than every version
//   did: safety, second person, the values that are read, each car's own work and safety places.
//   Their limits, photos and triggers are believed as they were written.
// - A finding that opened nothing does not say by which version of the shipped one it was judged:
//   that a rule leaves it as it is, or that one is said not to be there, is believed.
namespace ramplight {

/// Judges the entries that one command wrote to one car.
/// before: the car as the entries in front of them made it; site: the people, rights and rules at
/// that time. Answers what should not have been, in words; empty when all is in order.
[[nodiscard]] QStringList rulesBroken(const CarState& before, const std::vector<CarEnvelope>& group,
                                      const SiteState& site,
                                      const KnownCatalogues& known = KnownCatalogues());
/// The same for the entries that one command wrote to the site.
[[nodiscard]] QStringList siteRulesBroken(const SiteState& before,
                                          const std::vector<SiteEnvelope>& group);

} // namespace ramplight
