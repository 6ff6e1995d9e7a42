// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/carfacts.h"

#include "domain/laidover.h"

#include <algorithm>

namespace ramplight {

namespace {

/// Whose words a fitment is made of once somebody changed it.
std::set<PersonId> recordersOf(const TyreFitment& was, const TyreFitment& is,
                               std::set<PersonId> known, const std::set<PersonId>& people)
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
    known.insert(people.begin(), people.end());
    return known;
}

bool contradict(const TyreFitment& was, const TyreFitment& is)
{
    return (!was.size.isEmpty() && was.size != is.size) ||
           (was.loadIndex && was.loadIndex != is.loadIndex) ||
           (!was.speedSymbol.isEmpty() && was.speedSymbol != is.speedSymbol);
}

TyreFitment filledIn(const TyreFitment& known, const TyreFitment& other)
{
    return {known.size.isEmpty() ? other.size : known.size,
            known.loadIndex ? known.loadIndex : other.loadIndex,
            known.speedSymbol.isEmpty() ? other.speedSymbol : known.speedSymbol};
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

CarFacts filledIn(const CarFacts& known, const CarFacts& other)
{
    CarFacts all = known;
    std::ranges::copy_if(other.has, std::back_inserter(all.has),
                         [&](Fact fact) { return !known.is(fact); });
    if (known.keys == 0)
        all.keys = other.keys;
    if (!known.testCertificateMonths)
        all.testCertificateMonths = other.testCertificateMonths;
    // One set of tyres: nothing is filled in from another one.
    if (!contradict(known.frontTyre, other.frontTyre) &&
        !contradict(known.rearTyre, other.rearTyre)) {
        all.frontTyre = filledIn(known.frontTyre, other.frontTyre);
        all.rearTyre = filledIn(known.rearTyre, other.rearTyre);
    }
    return all;
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
    frontTyre = recordersOf({}, facts.frontTyre, {}, {by});
    rearTyre = recordersOf({}, facts.rearTyre, {}, {by});
}

void FactsBy::corrected(const CarFacts& was, const CarFacts& is, PersonId by,
                        const std::set<PersonId>& others)
{
    std::set<PersonId> people = others;
    people.insert(by);
    for (const auto& [fact, name] : Names<Fact>::table)
        if (was.is(fact) != is.is(fact))
            has[fact] = people;
    if (was.odometer != is.odometer || was.odometerUnit != is.odometerUnit)
        odometer = by;
    frontTyre = recordersOf(was.frontTyre, is.frontTyre, std::move(frontTyre), people);
    rearTyre = recordersOf(was.rearTyre, is.rearTyre, std::move(rearTyre), people);
}

std::set<PersonId> FactsBy::ofWhatDiffers(const CarFacts& was, const CarFacts& is) const
{
    std::set<PersonId> people;
    for (const auto& [fact, name] : Names<Fact>::table) {
        if (was.is(fact) == is.is(fact))
            continue;
        const auto since = has.find(fact);
        if (since == has.end())
            people.insert(arrival);
        else
            people.insert(since->second.begin(), since->second.end());
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
