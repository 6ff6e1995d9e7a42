// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/catalogue.h"
#include "domain/ids.h"

#include <QString>

#include <map>
#include <span>
#include <vector>

// What signed-off work teaches about minutes. A duration is taken as log-normal around the
// catalogue's usual minutes, times what the kind of operation, the person and the kind of car are
// known for. Each of those is drawn towards 1 until there is evidence (partial pooling; Gelman and
// Hill 2007), and single odd records, a timer that ran through the night, are clipped (Huber 1964).
namespace ramplight::planning {

/// Work that was signed off.
struct WorkRecord
{
    QString kind; ///< operation id of the catalogue
    PersonId person;
    QString carKind; ///< body shape, or whatever makes cars alike
    CarId car;
    int usualMinutes = 0; ///< of the catalogue, for all places; records with 0 teach nothing
    int minutes = 0;      ///< as measured or corrected; likewise
};

/// A factor on minutes, as normal on the scale of logarithms.
struct LogFactor
{
    double mean = 0;
    double spread = 0; ///< standard deviation: of what is not known of the factor itself
};

class MinutesModel
{
public:
    /// What holds with no record at all.
    MinutesModel() = default;
    /// In the order of the records nothing matters.
    explicit MinutesModel(std::span<const WorkRecord> records);

    [[nodiscard]] LogFactor ofKind(const QString& kind) const;
    [[nodiscard]] LogFactor ofPerson(PersonId person) const;
    [[nodiscard]] LogFactor ofCarKind(const QString& carKind) const;
    /// What is not known of all work together: few cars say little about what is common to all.
    [[nodiscard]] LogFactor ofHouse() const { return {0, m_houseSpread}; }
    /// What this very car's finished work says about the rest of it.
    [[nodiscard]] LogFactor ofCar(std::span<const WorkRecord> done) const;
    /// Standard deviation of one piece of work around all of that, by the catalogue's spread and
    /// what was seen of the kind.
    [[nodiscard]] double spreadOf(const QString& kind, const Minutes& catalogue) const;

    /// The catalogue's low and high minutes are taken as the 10 % and 90 % quantiles.
    [[nodiscard]] static double catalogueSpread(const Minutes& catalogue);

private:
    struct Learned
    {
        LogFactor factor;
        int count = 0;
        double residual = 0; ///< standard deviation, robust; of kinds only
    };

    void widen(std::span<const WorkRecord> records, double noise);
    [[nodiscard]] double residualOf(const WorkRecord& record) const;
    [[nodiscard]] static LogFactor find(const std::map<QString, Learned>& among, const QString& key,
                                        double prior);

    std::map<QString, Learned> m_kinds;
    std::map<PersonId, Learned> m_people;
    std::map<QString, Learned> m_carKinds;
    static constexpr double priorHouse = 0.06;
    double m_houseSpread = priorHouse;
    double m_carSpread = 0.2; ///< of cars among each other
};

} // namespace ramplight::planning
