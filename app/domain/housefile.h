// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/workshop.h"

#include <QByteArray>

#include <tl/expected.hpp>

#include <vector>

// A house's rules, bays, tools and changes of the catalogue as one file
// (db/schema/house.schema.json), to be kept, compared or taken to another house. Bays and tools go
// by their numbers. No people.
namespace ramplight {

struct HouseFile
{
    int format = 1;
    HouseRules rules;
    std::vector<Bay> bays;   ///< ids are left out
    std::vector<Tool> tools; ///< ids are left out
    std::vector<OperationAdjustment> adjustments;

    static constexpr auto fields =
        fieldList(field("format", &HouseFile::format), field("rules", &HouseFile::rules),
                  field("bays", &HouseFile::bays), field("tools", &HouseFile::tools),
                  field("adjustments", &HouseFile::adjustments));
    friend bool operator==(const HouseFile&, const HouseFile&) = default;
};

[[nodiscard]] QByteArray writeHouse(const SiteState& site);
/// What the file does not name is as it is on the site: rules one by one, the changes of the
/// catalogue all together. Error: what is wrong, each fault with its place in the file.
[[nodiscard]] tl::expected<HouseFile, QStringList> readHouse(const QByteArray& json,
                                                             const SiteState& site);
/// What makes the site as the file says, in order; what is so already comes to nothing. Bays and
/// tools that the file does not have stay; of the catalogue nothing is changed but what it says.
[[nodiscard]] std::vector<SiteCommand> houseCommands(const HouseFile& file, const SiteState& site);
/// A catalogue as a file has it: limits that country or house set stand there by their names alone.
[[nodiscard]] QByteArray writeCatalogue(const Catalogue& catalogue);
/// All of the file or nothing: decided on a copy first. Error: the first thing that cannot be.
[[nodiscard]] tl::expected<void, Failure>
takeHouse(Workshop& workshop, PersonId actor, const CommandId& command, const HouseFile& file);

} // namespace ramplight
