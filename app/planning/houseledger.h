// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/carevents.h"
#include "domain/ports.h"
#include "domain/siteevents.h"
#include "planning/houseplan.h"
#include "planning/learning.h"

#include <map>
#include <memory>
#include <optional>
#include <vector>

// A workshop's ledger gone through as its days went by.
namespace ramplight::planning {

/// Signed-off work by the car that it was done on.
using RecordsByCar = std::map<CarId, std::vector<WorkRecord>>;

/// The site's stream and those of cars, each whole from its first entry on.
struct HouseLedger
{
    std::vector<SiteEnvelope> site;
    std::map<CarId, std::vector<CarEnvelope>> cars;
    RecordsByCar before; ///< of cars that had left before any moment that is gone on to
};

/// Of the site and these cars.
[[nodiscard]] tl::expected<HouseLedger, StoreError> houseLedger(Ledger& from,
                                                                const std::vector<CarId>& cars);

/// Cars and site as they stood at a moment, going on from one moment to the next.
class HouseReplay
{
public:
    /// The ledger outlives the replay.
    explicit HouseReplay(const HouseLedger& ledger);

    /// Takes in what was entered before that moment; earlier moments change nothing.
    void goOnTo(Moment until);
    /// What the house knew as it would have planned then; the signed-off work of these cars.
    [[nodiscard]] HouseInput input(std::shared_ptr<const Catalogue> catalogue) const;
    /// When a car that was worked on at a moment had its last work done and its waits over, as far
    /// as that is known by the moment gone on to: for its next release, or for now where it was not
    /// released since.
    [[nodiscard]] std::optional<Moment> readyAfter(const CarId& car, Moment moment) const;
    /// Withdrawn from sale prep.
    [[nodiscard]] bool hasLeft(const CarId& car) const;
    [[nodiscard]] Moment until() const { return m_until; }

private:
    struct Car
    {
        CarState state;
        std::size_t next = 0;         ///< of its entries
        std::vector<Moment> ready;    ///< by release
        std::optional<Moment> isDone; ///< nothing is left since then
    };

    const HouseLedger& m_ledger;
    std::map<CarId, Car> m_cars;
    SiteState m_site;
    std::size_t m_nextOfSite = 0;
    Moment m_until;
};

} // namespace ramplight::planning
