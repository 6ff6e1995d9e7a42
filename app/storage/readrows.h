// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/car.h"
#include "domain/carcard.h"
#include "domain/carevents.h"
#include "domain/siteevents.h"

#include <QString>

#include <set>
#include <vector>

// What the read tables hold about a car, as values: appending, rebuilding and verifying all make
// them here. Pure functions.
namespace ramplight {

/// Raise it when the rows come out differently for the same ledger, and with every migration that
/// changes a read table: a store that an older version filled is filled anew when it is opened.
inline constexpr int readRowsVersion = 5;

struct CarRow
{
    QString car;
    qint64 seq = 0;
    qint64 rulesSeq = 0;
    QString stockNumber;
    QString stockKey;
    QString registrationKey;
    QString status;
    bool onWall = false;
    bool gone = false;
    int bay = 0;
    QString promised;
    qint64 arrivedAt = 0;
    qint64 lastAt = 0;
    qint64 releasedAt = 0;
    QString card;

    friend bool operator==(const CarRow&, const CarRow&) = default;
};

struct SegmentRow
{
    int segment = 0;
    int operation = 0;
    int person = 0;
    qint64 startAt = 0;
    qint64 endAt = 0; ///< 0 while it runs (null in the table)

    friend bool operator==(const SegmentRow&, const SegmentRow&) = default;
};

/// rulesSeq names the entry of the site's stream that set the rules.
[[nodiscard]] CarRow carRowOf(const CarState& car, const HouseRules& rules, qint64 rulesSeq);
/// All of a car, ended ones first (they make room for running ones), then by number.
[[nodiscard]] std::vector<SegmentRow> segmentRowsOf(const CarState& car);
/// Of the segments that these events started or stopped, in the same order.
[[nodiscard]] std::vector<SegmentRow> segmentRowsOf(const CarState& after,
                                                    const std::vector<CarEvent>& events);
/// Those that the car's entries name, without what was removed under the house's retention.
[[nodiscard]] std::set<PhotoId> keptPhotosOf(const CarState& car);
/// Capitals and digits only: how stock numbers and registrations are searched.
[[nodiscard]] QString searchKey(const QString& text);
/// True for events that set the house rules.
[[nodiscard]] bool setsRules(const SiteEvent& event);

} // namespace ramplight
