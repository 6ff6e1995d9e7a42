// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/foreseen.h"

#include "domain/carwork.h"

namespace ramplight {

CarState withForeseen(const CarState& car, const Catalogue& catalogue, const SiteState& site,
                      Moment now)
{
    CarContext context;
    context.now = now;
    context.catalogue = &catalogue;
    context.site = &site;
    CarState after = car;
    CarWork work(after, context);
    std::vector<OperationId> open;
    for (const Operation* operation : car.openOperations())
        open.push_back(operation->id);
    // It comes to an end: what is due a second time widens what is open and was not begun.
    for (std::size_t i = 0; i < open.size(); ++i) {
        const OperationId next{work.car().nextOperation};
        work.openTriggered(open[i]);
        for (OperationId fresh = next; fresh.value < work.car().nextOperation; ++fresh.value)
            open.push_back(fresh);
    }
    return after;
}

} // namespace ramplight
