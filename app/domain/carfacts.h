// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/codec.h"
#include "domain/fact.h"
#include "domain/ids.h"
#include "domain/odometer.h"
#include "domain/tyre.h"

#include <map>
#include <optional>
#include <set>
#include <vector>

// What is said of a car as a whole on arrival, and who said which of it. Plain values.
namespace ramplight {

struct CarFacts
{
    std::vector<Fact> has;
    int odometer = 0; ///< 0: nobody entered it
    DistanceUnit odometerUnit = DistanceUnit::Miles;
    int keys = 0;                             ///< 0: nobody entered them
    std::optional<int> testCertificateMonths; ///< left on the test certificate at arrival
    TyreFitment frontTyre = {}; ///< what the vehicle's data asks for; empty until entered
    TyreFitment rearTyre = {};  ///< where it differs from the front

    [[nodiscard]] bool is(Fact fact) const;
    static constexpr auto fields =
        fieldList(field("has", &CarFacts::has), field("odometer", &CarFacts::odometer),
                  field("odometerUnit", &CarFacts::odometerUnit), field("keys", &CarFacts::keys),
                  field("testCertificateMonths", &CarFacts::testCertificateMonths),
                  field("frontTyre", &CarFacts::frontTyre), field("rearTyre", &CarFacts::rearTyre));
    friend bool operator==(const CarFacts&, const CarFacts&) = default;
};

/// Work can hang on what differs: on what the car has, and on the tyres it asks for. The number of
/// keys opens nothing and withdraws nothing.
[[nodiscard]] bool differForWork(const CarFacts& one, const CarFacts& other);

/// Something that was said is said otherwise now; to say what nobody had entered contradicts
/// nothing.
[[nodiscard]] bool contradict(const CarFacts& was, const CarFacts& is);

/// What is known, and what only the other says; whatever both say stays as it is known.
[[nodiscard]] CarFacts filledIn(const CarFacts& known, const CarFacts& other);

/// As laidOver.h has it; what the car has, thing by thing.
[[nodiscard]] CarFacts laidOver(const CarFacts& shown, const CarFacts& typed, const CarFacts& now);

/// Who recorded the facts as they stand. Each is a word by itself: whoever corrects the number of
/// keys has said nothing of the battery.
struct FactsBy
{
    PersonId arrival; ///< who brought the car in: all that nobody has corrected
    /// Who said after that that the car has it, or has it not.
    std::map<Fact, std::set<PersonId>> has;
    PersonId odometer;
    Moment unitAt; ///< when somebody corrected in which unit it counts; null: nobody did
    /// Whose words a fitment is made of: one may have read the size and another the load index.
    /// Nobody's while it is empty.
    std::set<PersonId> frontTyre;
    std::set<PersonId> rearTyre;

    void arrived(const CarFacts& facts, PersonId by);
    /// others: whose words it is beside those of who wrote it.
    void corrected(const CarFacts& was, const CarFacts& is, PersonId by,
                   const std::set<PersonId>& others = {});
    /// Whose words are taken back where work can hang on them.
    [[nodiscard]] std::set<PersonId> ofWhatDiffers(const CarFacts& was, const CarFacts& is) const;
    friend bool operator==(const FactsBy&, const FactsBy&) = default;
};

} // namespace ramplight
