// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "planning/learning.h"

#include <algorithm>
#include <cmath>

namespace ramplight::planning {

namespace {

// How far kinds, people and kinds of car differ before anything is known: standard deviations of
// the logarithm. Ours: a catalogue that is a quarter off, people a fifth apart.
constexpr double priorKind = 0.25;
constexpr double priorPerson = 0.2;
constexpr double priorCarKind = 0.1;
constexpr double usualNoise = 0.4; ///< of one record around its factors
constexpr int priorNoiseCount = 30;
constexpr double oddAt = 3;          ///< robust standard deviations: such a record is left out
constexpr double oddest = 1.6;       ///< a factor of five: a timer that nobody stopped
constexpr int priorSpreadCount = 10; ///< records that the catalogue's spread is worth
constexpr double leastCarSpread = 0.05;

double medianOf(std::vector<double> values)
{
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

/// Standard deviation by the median of absolute deviations.
double robustSpread(const std::vector<double>& values)
{
    const double middle = medianOf(values);
    std::vector<double> away;
    away.reserve(values.size());
    for (const double value : values)
        away.push_back(std::abs(value - middle));
    return 1.4826 * medianOf(away);
}

/// The mean of what is not odd, drawn towards 0 by a prior of so much spread.
LogFactor pooled(const std::vector<double>& values, double noise, double prior)
{
    const double middle = medianOf(values);
    double sum = 0;
    double count = 0;
    for (const double value : values) {
        if (std::abs(value - middle) > oddAt * noise)
            continue;
        sum += value;
        count += 1;
    }
    const double precision = count / (noise * noise);
    const double total = precision + 1 / (prior * prior);
    return {sum / (noise * noise) / total, 1 / std::sqrt(total)};
}

} // namespace

double MinutesModel::catalogueSpread(const Minutes& catalogue)
{
    constexpr double between = 2 * 1.2816; ///< standard deviations between 10 % and 90 %
    if (catalogue.low <= 0 || catalogue.high <= catalogue.low)
        return 0;
    return std::log(double(catalogue.high) / catalogue.low) / between;
}

LogFactor MinutesModel::find(const std::map<QString, Learned>& among, const QString& key,
                             double prior)
{
    const auto found = among.find(key);
    return found == among.end() ? LogFactor{0, prior} : found->second.factor;
}

LogFactor MinutesModel::ofKind(const QString& kind) const
{
    return find(m_kinds, kind, priorKind);
}

LogFactor MinutesModel::ofCarKind(const QString& carKind) const
{
    return find(m_carKinds, carKind, priorCarKind);
}

LogFactor MinutesModel::ofPerson(PersonId person) const
{
    const auto found = m_people.find(person);
    return found == m_people.end() ? LogFactor{0, priorPerson} : found->second.factor;
}

double MinutesModel::residualOf(const WorkRecord& record) const
{
    return std::log(double(record.minutes) / record.usualMinutes) - ofKind(record.kind).mean -
           ofPerson(record.person).mean - ofCarKind(record.carKind).mean;
}

MinutesModel::MinutesModel(std::span<const WorkRecord> all)
{
    std::vector<WorkRecord> records;
    for (const WorkRecord& record : all) {
        if (record.minutes > 0 && record.usualMinutes > 0)
            records.push_back(record);
    }
    double noise = usualNoise;
    // Each factor in turn out of what the others leave (backfitting).
    constexpr int rounds = 4;
    for (int round = 0; round < rounds; ++round) {
        std::map<QString, std::vector<double>> kinds;
        std::map<QString, std::vector<double>> carKinds;
        std::map<PersonId, std::vector<double>> people;
        std::vector<double> residuals;
        for (const WorkRecord& record : records)
            kinds[record.kind].push_back(residualOf(record) + ofKind(record.kind).mean);
        for (auto& [kind, values] : kinds)
            m_kinds[kind] = {pooled(values, noise, priorKind), static_cast<int>(values.size()), 0};
        for (const WorkRecord& record : records)
            people[record.person].push_back(residualOf(record) + ofPerson(record.person).mean);
        for (auto& [person, values] : people)
            m_people[person] = {pooled(values, noise, priorPerson), static_cast<int>(values.size()),
                                0};
        for (const WorkRecord& record : records)
            carKinds[record.carKind].push_back(residualOf(record) + ofCarKind(record.carKind).mean);
        for (auto& [carKind, values] : carKinds)
            m_carKinds[carKind] = {pooled(values, noise, priorCarKind),
                                   static_cast<int>(values.size()), 0};
        for (const WorkRecord& record : records)
            residuals.push_back(residualOf(record));
        if (residuals.size() >= 8) {
            const double seen = robustSpread(residuals);
            const auto count = double(residuals.size());
            noise = std::sqrt((count * seen * seen + priorNoiseCount * usualNoise * usualNoise) /
                              (count + priorNoiseCount));
        }
    }
    widen(records, noise);
    // How much cars differ: what two records of one car have in common.
    std::map<CarId, std::vector<double>> cars;
    std::map<QString, std::vector<double>> kinds;
    for (const WorkRecord& record : records) {
        const double residual = residualOf(record);
        if (std::abs(residual) <= oddAt * noise)
            cars[record.car].push_back(residual);
        kinds[record.kind].push_back(residual);
    }
    double products = 0;
    double pairs = 0;
    for (const auto& [car, values] : cars) {
        double sum = 0;
        double squares = 0;
        for (const double value : values) {
            sum += value;
            squares += value * value;
        }
        products += sum * sum - squares;
        pairs += double(values.size() * (values.size() - 1));
    }
    constexpr double priorPairs = 200;
    const double shared =
        (products + priorPairs * m_carSpread * m_carSpread) / (pairs + priorPairs);
    m_carSpread = std::clamp(std::sqrt(std::max(0.0, shared)), leastCarSpread, noise);
    m_houseSpread = 1 / std::sqrt(1 / (priorHouse * priorHouse) +
                                  double(cars.size()) / (m_carSpread * m_carSpread));
    for (const auto& [kind, values] : kinds) {
        const double total = values.size() >= 4 ? robustSpread(values) : noise;
        m_kinds[kind].residual =
            std::sqrt(std::max(0.0025, total * total - m_carSpread * m_carSpread));
    }
}

// Each factor was learned as if the others were known. What is not known of the people who did a
// kind's work is not known of the kind either, and the other way round: to the first order.
void MinutesModel::widen(std::span<const WorkRecord> records, double noise)
{
    std::map<std::pair<QString, PersonId>, double> together;
    for (const WorkRecord& record : records)
        together[{record.kind, record.person}] += 1;
    std::map<QString, double> ofKinds;
    std::map<PersonId, double> ofPeople;
    const auto varianceFrom = [noise](const Learned& learned, double count, double prior,
                                      const Learned& other) {
        const double precision = learned.count / (noise * noise);
        const double trusted = precision / (precision + 1 / (prior * prior));
        const double share = trusted * count / learned.count * other.factor.spread;
        return share * share;
    };
    for (const auto& [pair, count] : together) {
        const Learned& kind = m_kinds[pair.first];
        const Learned& person = m_people[pair.second];
        ofKinds[pair.first] += varianceFrom(kind, count, priorKind, person);
        ofPeople[pair.second] += varianceFrom(person, count, priorPerson, kind);
    }
    for (const auto& [kind, variance] : ofKinds)
        m_kinds[kind].factor.spread = std::hypot(m_kinds[kind].factor.spread, std::sqrt(variance));
    for (const auto& [person, variance] : ofPeople)
        m_people[person].factor.spread =
            std::hypot(m_people[person].factor.spread, std::sqrt(variance));
}

LogFactor MinutesModel::ofCar(std::span<const WorkRecord> done) const
{
    std::vector<double> residuals;
    for (const WorkRecord& record : done) {
        if (record.minutes > 0 && record.usualMinutes > 0)
            residuals.push_back(std::clamp(residualOf(record), -oddest, oddest));
    }
    if (residuals.empty())
        return {0, m_carSpread};
    return pooled(residuals, usualNoise, m_carSpread);
}

double MinutesModel::spreadOf(const QString& kind, const Minutes& catalogue) const
{
    const double listed = catalogueSpread(catalogue);
    const auto found = m_kinds.find(kind);
    if (found == m_kinds.end())
        return listed;
    const double count = found->second.count;
    const double seen = found->second.residual;
    return std::sqrt((count * seen * seen + priorSpreadCount * listed * listed) /
                     (count + priorSpreadCount));
}

} // namespace ramplight::planning
