// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "appraisal/filefault.h"
#include "domain/car.h"

#include <QByteArray>
#include <QDate>
#include <QString>
#include <QStringList>

#include <tl/expected.hpp>

#include <vector>

// The appraisal of one car as a file: the project's own JSON, described by
// db/schema/appraisal.schema.json. A file is taken whole or not at all.
namespace ramplight {

/// What drives the wheels; facts follow from it.
enum class Drive {
    Petrol,
    Diesel,
    MildHybrid, ///< 48 V at most: no traction battery in the sense of high voltage
    Hybrid,
    PlugInHybrid,
    BatteryElectric,
    Hydrogen,
    Gas,
};
template <>
struct Names<Drive>
{
    static constexpr std::array table{
        std::pair{Drive::Petrol, "petrol"},
        std::pair{Drive::Diesel, "diesel"},
        std::pair{Drive::MildHybrid, "mild-hybrid"},
        std::pair{Drive::Hybrid, "hybrid"},
        std::pair{Drive::PlugInHybrid, "plug-in-hybrid"},
        std::pair{Drive::BatteryElectric, "battery-electric"},
        std::pair{Drive::Hydrogen, "hydrogen"},
        std::pair{Drive::Gas, "gas"},
    };
};

struct TyreReading
{
    PlaceId place;
    Tread tread;
    friend bool operator==(const TyreReading&, const TyreReading&) = default;
};

struct AppraisalFile
{
    Identity identity; ///< the identification number in capitals, without blanks
    CarFacts facts;    ///< with those that follow from the drive
    Drive drive = Drive::Petrol;
    QDate promised;    ///< invalid when no day was promised
    QString appraiser; ///< name or badge, as written
    QDate date;
    std::vector<FindingData> findings;
    std::vector<PlaceId> sound; ///< looked at, nothing found
    std::vector<TyreReading> tyres;
    QStringList notes; ///< nothing wrong, but worth a look, in words
    QString hash;      ///< SHA-256 of the bytes: the same file is known again
    friend bool operator==(const AppraisalFile&, const AppraisalFile&) = default;
};

constexpr qsizetype bytesPerMegabyte = 1024 * 1024;
constexpr qsizetype maxAppraisalBytes = 8 * bytesPerMegabyte;
constexpr std::size_t maxAppraisalFaults = 20;

/// Reads a file's bytes against the schema's bytes. Otherwise the faults, in the file's order, at
/// most maxAppraisalFaults of them. UTF-8, a byte order mark is tolerated.
[[nodiscard]] tl::expected<AppraisalFile, std::vector<FileFault>>
readAppraisal(const QByteArray& bytes, const QByteArray& schemaBytes);

/// The facts that every car with this drive has.
[[nodiscard]] std::vector<Fact> factsOf(Drive drive);

} // namespace ramplight
