// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/tyreconcerns.h"

#include "domain/gauging.h"
#include "domain/housecatalogue.h"
#include "domain/say.h"
#include "domain/words.h"

#include <algorithm>
#include <cstdlib>

namespace ramplight {

namespace {

/// A named limit in whole counts of 10^-decimals, whichever bound it has.
struct Bound
{
    int value = 0;
    QString words; ///< "3.0 mm (house)"
};

std::optional<Bound> bound(const Catalogue& catalogue, const HouseRules& rules, const char* name,
                           int decimals)
{
    const std::optional<NamedLimit> limit = namedLimit(catalogue, rules, QString::fromLatin1(name));
    if (!limit || (!limit->min && !limit->max))
        return std::nullopt;
    int value = limit->min ? *limit->min : *limit->max;
    for (int i = limit->decimals; i < decimals; ++i)
        value *= 10;
    return Bound{value, QStringLiteral("%1 (%2)").arg(valueWords(value, decimals, limit->unit),
                                                      words(limit->owner))};
}

QString mm(int tenths)
{
    return valueWords(tenths, 1, Unit::Millimetre);
}

/// Collects what is said about one tyre.
class Concerns
{
public:
    Concerns(const CarState& car, PlaceId tyre, const Catalogue& catalogue, const HouseRules& rules,
             QDate today)
        : m_car(car)
        , m_tyre(std::move(tyre))
        , m_catalogue(catalogue)
        , m_rules(rules)
        , m_today(today)
    {
    }

    std::vector<FindingData> take()
    {
        const auto tread = m_car.treads.find(m_tyre);
        if (tread != m_car.treads.end()) {
            lowTread(tread->second);
            wornAskew(tread->second);
        }
        age();
        QStringList unlike = unlikeTheCar();
        unlike += unlikeTheAxle();
        if (!unlike.isEmpty())
            add(Condition::Mismatched, Remedy::Replace, unlike.join(QStringLiteral("; ")));
        treadUnlikeTheAxle();
        return std::move(m_found);
    }

private:
    void add(Condition condition, Remedy remedy, const QString& note)
    {
        FindingData data;
        data.place = m_tyre;
        data.condition = condition;
        data.remedies = {remedy};
        data.note = note;
        m_found.push_back(data);
    }

    [[nodiscard]] std::optional<Bound> limit(const char* name, int decimals) const
    {
        return bound(m_catalogue, m_rules, name, decimals);
    }

    void lowTread(const Tread& tread)
    {
        const int lowest = tread.lowest();
        if (lowest >= leastTread(m_catalogue, m_rules))
            return;
        const std::optional<Bound> legal = limit("tread-legal", 1);
        const std::optional<Bound> house = limit("tread-house", 1);
        const bool illegal = legal && lowest < legal->value;
        const QString least = illegal ? legal->words
                              : house
                                  ? house->words
                                  : QStringLiteral("%1 (%2)").arg(mm(m_catalogue.tread.minTenthsMm),
                                                                  words(m_catalogue.tread.owner));
        add(Condition::Worn, Remedy::Replace,
            say("%1 at the lowest point; at least %2").arg(mm(lowest), least));
        m_found.back().treadTenthsMm = lowest;
        if (illegal)
            m_found.back().severity = Severity::Heavy;
    }

    void wornAskew(const Tread& tread)
    {
        const std::optional<Bound> apart = limit("tread-spread", 1);
        if (apart && tread.spread() >= apart->value)
            add(Condition::Wear, Remedy::Adjust,
                say("inner %1, centre %2, outer %3: %4 apart suggests the wheel alignment, from "
                    "%5 on")
                    .arg(mm(tread.inner), mm(tread.centre), mm(tread.outer), mm(tread.spread()),
                         apart->words));
    }

    void age()
    {
        const auto marking = m_car.tyres.find(m_tyre);
        if (marking == m_car.tyres.end())
            return;
        const auto code = readDateCode(marking->second.dateCode, m_today);
        if (!code)
            return;
        const int years = code->yearsOn(m_today);
        const QString made =
            say("made in week %1 of %2, %3 years old").arg(code->week).arg(code->year).arg(years);
        const std::optional<Bound> replace = limit("tyre-replace-years", 0);
        const std::optional<Bound> inspect = limit("tyre-inspect-years", 0);
        if (replace && years >= replace->value)
            add(Condition::Overdue, Remedy::Replace,
                say("%1: replace by %2").arg(made, replace->words));
        else if (inspect && years >= inspect->value)
            add(Condition::Overdue, Remedy::Investigate,
                say("%1: look for cracks and perishing from %2 on").arg(made, inspect->words));
    }

    [[nodiscard]] const TyreFitment* fitted(const PlaceId& tyre) const
    {
        const auto it = m_car.tyres.find(tyre);
        return it == m_car.tyres.end() ? nullptr : &it->second.fitment;
    }

    [[nodiscard]] QStringList unlikeTheCar() const
    {
        const PlaceInfo* info = placeInfo(m_tyre);
        const TyreFitment* tyre = fitted(m_tyre);
        if (tyre == nullptr || info == nullptr || info->axle == Axle::None)
            return {};
        const bool rear = info->axle == Axle::Rear && !m_car.facts.rearTyre.isEmpty();
        const TyreFitment& own = rear ? m_car.facts.rearTyre : m_car.facts.frontTyre;
        QStringList unlike;
        if (!own.size.isEmpty() && !tyre->size.isEmpty() && own.size != tyre->size)
            unlike.append(say("size %1, the car asks for %2").arg(tyre->size, own.size));
        if (own.loadIndex && tyre->loadIndex && *tyre->loadIndex < *own.loadIndex)
            unlike.append(say("load index %1 (%2 kg) is below the car's %3 (%4 kg)")
                              .arg(*tyre->loadIndex)
                              .arg(loadOfIndex(*tyre->loadIndex).value_or(0))
                              .arg(*own.loadIndex)
                              .arg(loadOfIndex(*own.loadIndex).value_or(0)));
        const std::optional<int> speed = speedOfSymbol(tyre->speedSymbol);
        const std::optional<int> wanted = speedOfSymbol(own.speedSymbol);
        if (speed && wanted && *speed < *wanted)
            unlike.append(say("speed symbol %1 (%2 km/h) is below the car's %3 (%4 km/h); winter "
                              "tyres: see your local law")
                              .arg(tyre->speedSymbol)
                              .arg(*speed)
                              .arg(own.speedSymbol)
                              .arg(*wanted));
        return unlike;
    }

    /// Nominal size and construction are one across an axle in most annual tests.
    [[nodiscard]] QStringList unlikeTheAxle() const
    {
        const TyreFitment* tyre = fitted(m_tyre);
        const TyreFitment* other = fitted(tyreBeside(m_tyre));
        if (tyre == nullptr || other == nullptr || tyre->size.isEmpty() || other->size.isEmpty() ||
            tyre->size == other->size)
            return {};
        const std::optional<TyreSize> a = readTyreSize(tyre->size);
        const std::optional<TyreSize> b = readTyreSize(other->size);
        if (a && b && a->construction != b->construction)
            return {say("construction differs across the axle: %1 here, %2 on the other side")
                        .arg(tyre->size, other->size)};
        return {say("size differs across the axle: %1 here, %2 on the other side")
                    .arg(tyre->size, other->size)};
    }

    /// Said of the lower one: it is the one that would be changed.
    void treadUnlikeTheAxle()
    {
        const std::optional<Bound> most = limit("tread-axle-difference", 1);
        const auto mine = m_car.treads.find(m_tyre);
        const PlaceId beside = tyreBeside(m_tyre);
        const auto other = m_car.treads.find(beside);
        if (!most || mine == m_car.treads.end() || other == m_car.treads.end())
            return;
        // Half of a survey against an older reading says more of the two gauges than of the tyres.
        if (isHalfSurveyed(m_car, m_tyre, beside))
            return;
        const int difference = other->second.lowest() - mine->second.lowest();
        if (difference > most->value)
            add(Condition::Mismatched, Remedy::Investigate,
                say("%1 less tread than on the other side; at most %2")
                    .arg(mm(difference), most->words));
    }

    const CarState& m_car;
    PlaceId m_tyre;
    const Catalogue& m_catalogue;
    const HouseRules& m_rules;
    QDate m_today;
    std::vector<FindingData> m_found;
};

} // namespace

int leastTread(const Catalogue& catalogue, const HouseRules& rules)
{
    const std::optional<Bound> house = bound(catalogue, rules, "tread-house", 1);
    return house ? house->value : catalogue.tread.minTenthsMm;
}

std::vector<FindingData> tyreConcerns(const CarState& car, const PlaceId& tyre,
                                      const Catalogue& catalogue, const HouseRules& rules,
                                      QDate today)
{
    return Concerns(car, tyre, catalogue, rules, today).take();
}

PlaceId tyreBeside(const PlaceId& tyre)
{
    const PlaceInfo* info = placeInfo(tyre);
    if (info == nullptr || info->kind != PlaceKind::Tyre || info->axle == Axle::None)
        return {};
    for (const PlaceInfo& other : allPlaces())
        if (other.kind == PlaceKind::Tyre && other.axle == info->axle && other.side != info->side)
            return other.id;
    return {};
}

} // namespace ramplight
