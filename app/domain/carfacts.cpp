// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/carfacts.h"

#include "domain/laidover.h"

#include <algorithm>

namespace ramplight {

namespace {

/// Whose words a fitment is made of once somebody changed it.
std::set<PersonId> recordersOf(const TyreFitment& was, const TyreFitment& is,
                               std::set<PersonId> known, PersonId by)
{
    if (was == is)
        return known;
    if (is.isEmpty())
        return {};
    const bool someStands = (!was.size.isEmpty() && was.size == is.size) ||
                            (was.loadIndex && was.loadIndex == is.loadIndex) ||
                            (!was.speedSymbol.isEmpty() && was.speedSymbol == is.speedSymbol);
    if (!someStands)
        known.clear();
    known.insert(by);
    return known;
}

bool contradict(const TyreFitment& was, const TyreFitment& is)
{
    return (!was.size.isEmpty() && was.size != is.size) ||
           (was.loadIndex && was.loadIndex != is.loadIndex) ||
           (!was.speedSymbol.isEmpty() && was.speedSymbol != is.speedSymbol);
}

} // namespace

bool CarFacts::is(Fact fact) const
{
    return std::ranges::find(has, fact) != has.end();
}

bool differForWork(const CarFacts& one, const CarFacts& other)
{
    return one.frontTyre != other.frontTyre || one.rearTyre != other.rearTyre ||
           std::ranges::any_of(Names<Fact>::table, [&](const auto& entry) {
               return one.is(entry.first) != other.is(entry.first);
           });
}

bool contradict(const CarFacts& was, const CarFacts& is)
{
    CarFacts known = was;
    if (!was.testCertificateMonths)
        known.testCertificateMonths = is.testCertificateMonths;
    if (was.keys == 0)
        known.keys = is.keys;
    if (was.odometer == 0) {
        known.odometer = is.odometer;
        known.odometerUnit = is.odometerUnit;
    }
    if (contradict(was.frontTyre, is.frontTyre) || contradict(was.rearTyre, is.rearTyre))
        return true;
    known.frontTyre = is.frontTyre;
    known.rearTyre = is.rearTyre;
    return differForWork(known, is) || known.odometer != is.odometer ||
           known.odometerUnit != is.odometerUnit || known.keys != is.keys ||
           known.testCertificateMonths != is.testCertificateMonths;
}

CarFacts laidOver(const CarFacts& shown, const CarFacts& typed, const CarFacts& now)
{
    CarFacts laid = laidOver<CarFacts>(shown, typed, now);
    laid.has = now.has;
    for (const auto& [fact, name] : Names<Fact>::table) {
        if (shown.is(fact) == typed.is(fact) || now.is(fact) == typed.is(fact))
            continue;
        if (typed.is(fact))
            laid.has.push_back(fact);
        else
            std::erase(laid.has, fact);
    }
    return laid;
}

void FactsBy::arrived(const CarFacts& facts, PersonId by)
{
    *this = {};
    arrival = by;
    odometer = by;
    frontTyre = recordersOf({}, facts.frontTyre, {}, by);
    rearTyre = recordersOf({}, facts.rearTyre, {}, by);
}

void FactsBy::corrected(const CarFacts& was, const CarFacts& is, PersonId by)
{
    for (const auto& [fact, name] : Names<Fact>::table)
        if (was.is(fact) != is.is(fact))
            has[fact] = by;
    if (was.odometer != is.odometer || was.odometerUnit != is.odometerUnit)
        odometer = by;
    frontTyre = recordersOf(was.frontTyre, is.frontTyre, std::move(frontTyre), by);
    rearTyre = recordersOf(was.rearTyre, is.rearTyre, std::move(rearTyre), by);
}

std::set<PersonId> FactsBy::ofWhatDiffers(const CarFacts& was, const CarFacts& is) const
{
    std::set<PersonId> people;
    for (const auto& [fact, name] : Names<Fact>::table) {
        if (was.is(fact) == is.is(fact))
            continue;
        const auto since = has.find(fact);
        people.insert(since == has.end() ? arrival : since->second);
    }
    if (was.frontTyre != is.frontTyre)
        people.insert(frontTyre.begin(), frontTyre.end());
    if (was.rearTyre != is.rearTyre) {
        // Without one of its own the rear asked for what the front does.
        const std::set<PersonId>& rear = was.rearTyre.isEmpty() ? frontTyre : rearTyre;
        people.insert(rear.begin(), rear.end());
    }
    return people;
}

} // namespace ramplight
