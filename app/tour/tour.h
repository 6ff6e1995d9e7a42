// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/kioskapp.h"

#include <QString>

#include <atomic>

// The main job through the real screens, offscreen, by touch, on the demo workshop: what a visitor
// without a display sees of Ramplight, as numbered pictures and the record.
namespace ramplight {

/// A Thursday in May 2031, 10:40; the tour moves it on while work goes on. Read on two threads.
class TourClock : public Clock
{
public:
    TourClock();
    [[nodiscard]] Moment now() const override { return {m_ms.load()}; }
    void goOn(int minutes) { m_ms += qint64{minutes} * 60'000; }
    /// The next morning after a moment of another clock.
    void beginAfter(Moment moment);
    /// Ten past nine of the next day, weekends aside.
    void nextMorning();
    /// Too late for the longest work before the house closes.
    [[nodiscard]] bool isAfternoon() const;

private:
    std::atomic<qint64> m_ms;
};

struct TourWays
{
    /// Also names each signature once the screen shows it as taken, a line "signed CAR OPERATION
    /// PERSON MS" each, and before all of them "from MS", the time of the workshop's clock.
    bool tell = false;
    /// The whole job with a car that needs less, on fewer pixels, without the shorter walk at the
    /// upright size after it.
    bool small = false;
    /// The demo workshop is there already: one car is worked off in it, and nothing else shown.
    bool onlyWork = false;
};

/// Walks and leaves pictures and the record in a folder, naming them on the standard output.
/// pin is everybody's in the demo workshop; dropFolder is where the kiosk looks for photos. Answers
/// with an exit code of sysexits(3).
[[nodiscard]] int runTour(const QString& folder, const QString& dropFolder, const QString& pin,
                          const KioskServices& services, TourClock& clock, const TourWays& ways);

} // namespace ramplight
