// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kioskbench.h"

namespace ramplight::test {

/// An appraiser's hand on the walk-round of a KioskBench: every touch is a real one on the glass
/// and is counted. Each step waits until the screen shows what it did.
class WalkHands
{
public:
    using Where = std::source_location;

    explicit WalkHands(KioskBench& bench)
        : m_bench(bench)
    {
    }

    [[nodiscard]] int touches() const { return m_touches; }
    [[nodiscard]] WalkRound& walk() const { return *m_bench.shell().walkRound(); }

    /// The walk-round is on the screen and its car is read.
    bool ready(Where where = Where::current());
    /// One touch on the tab of a view; none when it is there already.
    bool view(const char* viewId, Where where = Where::current());
    /// One touch on the field of a place, or on its region where the finger is surest of it.
    bool place(const char* placeId, Where where = Where::current());
    /// A touch each on the chips that are in sight ("More" first where it is needed).
    bool condition(Condition condition, Where where = Where::current());
    bool severity(Severity severity, Where where = Where::current());
    /// The last touch: waits until the finding is in the ledger's state of the screen.
    bool remedy(Remedy remedy, Where where = Where::current());
    /// The one that the rules advise.
    bool advised(Where where = Where::current());
    /// Place to remedy as the rules advise it.
    bool finding(const char* placeId, Condition what, Severity much,
                 Where where = Where::current());
    /// What is left of the view is sound: one touch, once all that was entered stands.
    bool restIsSound(Where where = Where::current());
    /// Any words on the screen.
    bool tap(const QString& words, Where where = Where::current());
    /// Digits on the tread pad, a touch each.
    bool digits(const QString& digits, Where where = Where::current());

private:
    [[nodiscard]] QQuickItem* chip(const Choices* choices, const QString& id) const;
    bool pick(const Choices* choices, const QString& id, Where where);
    bool recorded(std::size_t before, Where where);
    bool touched(QQuickItem* item, Where where);

    KioskBench& m_bench;
    int m_touches = 0;
};

[[nodiscard]] inline QString walkedStock()
{
    return QStringLiteral("K-7");
}

/// A car that has just come in, and Odo at its walk-round.
struct Arrived
{
    explicit Arrived(KioskBench& kiosk, BodyShape shape = BodyShape::Hatch,
                     std::vector<Fact> facts = {Fact::CombustionEngine})
        : bench(kiosk)
        , id(QStringLiteral("walked"))
        , hands(kiosk)
    {
        Identity identity;
        identity.stockNumber = walkedStock();
        identity.registration = QStringLiteral("QX 417 K");
        identity.make = QStringLiteral("Orrel");
        identity.model = QStringLiteral("Tarn 1.2");
        identity.shape = shape;
        CarFacts known;
        known.has = std::move(facts);
        known.keys = 2;
        kiosk.house().must(kiosk.house().person(QStringLiteral("Odo")), id,
                           {car::BringIn{identity, known, QDate(2031, 5, 9), {}}});
    }

    bool open(QSize size = {1920, 1080})
    {
        bench.show(size);
        return bench.tap(QStringLiteral("Who are you?")) &&
               bench.signIn(QStringLiteral("Odo Farlane")) && bench.openCar(walkedStock()) &&
               bench.tap(QStringLiteral("Walk round it")) && hands.ready();
    }
    [[nodiscard]] CarState now() { return bench.house().car(id); }

    KioskBench& bench;
    CarId id;
    WalkHands hands;
};

} // namespace ramplight::test
