// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/glasszone.h"

#include "domain/housecatalogue.h"
#include "domain/say.h"
#include "domain/words.h"

#include <cstdlib>

namespace ramplight {

namespace {

struct Most
{
    int mm = 0;
    QString words; ///< "10 mm (annual test: source)"
};

std::optional<Most> most(const Catalogue& catalogue, const HouseRules& rules, const char* name)
{
    const std::optional<NamedLimit> limit = namedLimit(catalogue, rules, QString::fromLatin1(name));
    if (!limit || !limit->max)
        return std::nullopt;
    return Most{*limit->max, QStringLiteral("%1 (%2: %3)")
                                 .arg(valueWords(*limit->max, 0, Unit::Millimetre),
                                      words(limit->owner), limit->source)};
}

} // namespace

ScreenZone reached(const ScreenSpot& spot, int sizeMm)
{
    if (!spot.fromWheelMm)
        return spot.zone;
    const int nearEdge = std::abs(*spot.fromWheelMm) * 2 - sizeMm;
    if (nearEdge < testZoneWidthMm)
        return ScreenZone::DriverTest;
    return nearEdge < repairZoneWidthMm ? ScreenZone::DriverRepair : ScreenZone::Swept;
}

ScreenVerdict judgeScreen(const ScreenSpot& spot, int sizeMm, const Catalogue& catalogue,
                          const HouseRules& rules)
{
    const ScreenZone zone = reached(spot, sizeMm);
    const QString size = valueWords(sizeMm, 0, Unit::Millimetre);
    ScreenVerdict verdict;

    if (zone == ScreenZone::Unswept) {
        verdict.passesTest = true;
        verdict.testWords = say("outside the swept glass: the annual test does not measure it");
    } else if (const auto limit =
                   most(catalogue, rules,
                        zone == ScreenZone::DriverTest ? "screen-zone-a" : "screen-swept")) {
        verdict.passesTest = sizeMm <= limit->mm;
        verdict.testWords = (*verdict.passesTest ? say("test: %1 in %2 is within %3")
                                                 : say("test: %1 in %2 is over %3"))
                                .arg(size, words(zone), limit->words);
    } else {
        verdict.testWords = say("no figure of a test is entered for this country");
    }

    const bool driver = zone == ScreenZone::DriverTest || zone == ScreenZone::DriverRepair;
    if (spot.atSensor) {
        verdict.mayBeFilled = false;
        verdict.repairWords =
            say("not to be filled: it lies in the window of a camera or sensor (BS AU 242)");
    } else if (const auto limit =
                   most(catalogue, rules, driver ? "screen-repair-driver" : "screen-repair")) {
        verdict.mayBeFilled = sizeMm <= limit->mm;
        verdict.repairWords = (*verdict.mayBeFilled ? say("may be filled: %1 is within %2")
                                                    : say("not to be filled: %1 is over %2"))
                                  .arg(size, limit->words);
    } else {
        verdict.repairWords = say("no figure of a repair standard is entered for this country");
    }
    return verdict;
}

QString words(ScreenZone zone)
{
    switch (zone) {
    case ScreenZone::DriverTest:
        return say("the 290 mm in front of the driver");
    case ScreenZone::DriverRepair:
        return say("the repair standard's 400 mm in front of the driver");
    case ScreenZone::Swept:
        return say("the rest of the swept glass");
    case ScreenZone::Unswept:
        return say("glass that no wiper sweeps");
    }
    return {};
}

} // namespace ramplight
