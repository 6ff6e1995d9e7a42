// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/siteevents.h"
#include "kiosk/sitebook.h"

// A change of the site in words, from the state in front of it. Pure.
namespace ramplight {

struct SiteChangeWords
{
    QString title;  ///< "House rules"; empty: nothing that a manager sets or has to know
    QString detail; ///< "Tread that the house asks: 3.0 mm became 3.5 mm"
};

[[nodiscard]] SiteChangeWords siteChangeWords(const SiteState& before, const SiteEvent& event,
                                              const SiteBook& book);

} // namespace ramplight
