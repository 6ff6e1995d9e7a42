// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/catalogue.h"
#include "domain/workhours.h"

#include <memory>
#include <optional>
#include <vector>

// What a house decides for itself: its rules, and what it changes in the catalogue.
namespace ramplight {

/// What the house decides for itself.
struct HouseRules
{
    TrafficSide trafficSide = TrafficSide::Left;
    SideWords sideWords = SideWords::NearOff;
    QString timeZone = QStringLiteral("Europe/London"); ///< IANA name
    int shiftEndMinute = 17 * 60 + 30; ///< local minute of the day at which all work pauses
    int lockSeconds = 120;             ///< a person is signed out after so long without a touch
    /// In a very small workshop somebody who did other, already checked work may make the final
    /// check; off unless the house says so.
    bool finalCheckByWorker = false;
    QString country = QStringLiteral("GB");   ///< id of one of the catalogue's countries
    std::vector<HouseLimit> limits;           ///< the house's own that are not as shipped
    QString currency = QStringLiteral("GBP"); ///< ISO 4217, of material costs
    /// Skills whose work no manager may leave as it is. Safety items can never be left.
    std::vector<Skill> neverLeft;
    /// Every operation on a car is photographed at these moments at least.
    std::vector<PhotoMoment> askPhotos;
    WeekHours week = usualWeek(); ///< when work is done; the end of the shift pauses it all
    std::vector<QDate> closed;    ///< days on which the house is closed beside that, in order
    /// A photo may be removed so many years after its car was released or left; 0: never.
    int photoYears = 0;

    static constexpr auto fields = fieldList(
        field("trafficSide", &HouseRules::trafficSide), field("sideWords", &HouseRules::sideWords),
        field("timeZone", &HouseRules::timeZone),
        field("shiftEndMinute", &HouseRules::shiftEndMinute),
        field("lockSeconds", &HouseRules::lockSeconds),
        field("finalCheckByWorker", &HouseRules::finalCheckByWorker),
        field("country", &HouseRules::country), field("limits", &HouseRules::limits),
        field("currency", &HouseRules::currency), field("neverLeft", &HouseRules::neverLeft),
        field("askPhotos", &HouseRules::askPhotos), field("week", &HouseRules::week),
        field("closed", &HouseRules::closed), field("photoYears", &HouseRules::photoYears));
    friend bool operator==(const HouseRules&, const HouseRules&) = default;
};

/// The house's own bound on a reading, in counts of the reading's decimals. Only a limit that the
/// house owns is moved by it.
struct ReadingAdjustment
{
    QString key;
    std::optional<int> min;
    std::optional<int> max;

    static constexpr auto fields =
        fieldList(field("key", &ReadingAdjustment::key), field("min", &ReadingAdjustment::min),
                  field("max", &ReadingAdjustment::max));
    friend bool operator==(const ReadingAdjustment&, const ReadingAdjustment&) = default;
};

/// What the house changes in one operation; the last one set is the whole of it.
struct OperationAdjustment
{
    QString operation;
    std::optional<Minutes> minutes;   ///< instead of the catalogue's
    std::optional<int> materialMinor; ///< minor units of the house's currency
    std::vector<ReadingAdjustment> limits;
    std::vector<PhotoSpec> photos; ///< asked beside the catalogue's

    /// Nothing is changed: the catalogue's own values hold.
    [[nodiscard]] bool isEmpty() const
    {
        return !minutes && !materialMinor && limits.empty() && photos.empty();
    }
    static constexpr auto fields =
        fieldList(field("operation", &OperationAdjustment::operation),
                  field("minutes", &OperationAdjustment::minutes),
                  field("materialMinor", &OperationAdjustment::materialMinor),
                  field("limits", &OperationAdjustment::limits),
                  field("photos", &OperationAdjustment::photos));
    friend bool operator==(const OperationAdjustment&, const OperationAdjustment&) = default;
};

/// A catalogue that the house took in instead of the shipped one; shared, as it is large and never
/// changes.
struct AdoptedCatalogue
{
    std::shared_ptr<const Catalogue> catalogue; ///< null: the shipped one holds

    friend bool operator==(const AdoptedCatalogue& a, const AdoptedCatalogue& b)
    {
        return a.catalogue == b.catalogue ||
               (a.catalogue && b.catalogue && *a.catalogue == *b.catalogue);
    }
};

} // namespace ramplight
