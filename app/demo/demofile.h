// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/car.h"
#include "domain/codec.h"
#include "domain/site.h"

#include <QByteArray>

#include <tl/expected.hpp>

#include <vector>

// The demo workshop as db/demo/workshop.json describes it: invented people, bays and cars, and the
// few turns that the story needs. Everything else comes out of running real commands.
namespace ramplight::demo {

struct QualifiedEntry
{
    Qualification qualification = Qualification::HighVoltage;
    int days = 0; ///< after the day of now on which it ends
    static constexpr auto fields = fieldList(field("qualification", &QualifiedEntry::qualification),
                                             field("days", &QualifiedEntry::days));
    friend bool operator==(const QualifiedEntry&, const QualifiedEntry&) = default;
};

struct ToolEntry
{
    QString number;
    ToolKind kind = ToolKind::TorqueWrench;
    int days = 0; ///< after the day of now until the next calibration; below 0 it is overdue
    static constexpr auto fields =
        fieldList(field("number", &ToolEntry::number), field("kind", &ToolEntry::kind),
                  field("days", &ToolEntry::days));
    friend bool operator==(const ToolEntry&, const ToolEntry&) = default;
};

struct PersonEntry
{
    QString name;
    std::vector<Skill> skills;
    std::vector<Right> rights;
    std::vector<QualifiedEntry> qualifications;
    QStringList specialities;
    static constexpr auto fields =
        fieldList(field("name", &PersonEntry::name), field("skills", &PersonEntry::skills),
                  field("rights", &PersonEntry::rights),
                  field("qualifications", &PersonEntry::qualifications),
                  field("specialities", &PersonEntry::specialities));
    friend bool operator==(const PersonEntry&, const PersonEntry&) = default;
};

struct PartEntry
{
    QString op; ///< catalogue id
    QString part;
    QString supplier;
    int due = 0; ///< days after now
    static constexpr auto fields =
        fieldList(field("op", &PartEntry::op), field("part", &PartEntry::part),
                  field("supplier", &PartEntry::supplier), field("due", &PartEntry::due));
    friend bool operator==(const PartEntry&, const PartEntry&) = default;
};

struct OutsideEntry
{
    QString op;
    QString firm;
    int due = 0; ///< days after now
    int keys = 0;
    QString document;
    static constexpr auto fields =
        fieldList(field("op", &OutsideEntry::op), field("firm", &OutsideEntry::firm),
                  field("due", &OutsideEntry::due), field("keys", &OutsideEntry::keys),
                  field("document", &OutsideEntry::document));
    friend bool operator==(const OutsideEntry&, const OutsideEntry&) = default;
};

struct LeavesEntry
{
    LeavingHow how = LeavingHow::Trade;
    int after = 0; ///< days after arrival
    QString reason;
    static constexpr auto fields =
        fieldList(field("how", &LeavesEntry::how), field("after", &LeavesEntry::after),
                  field("reason", &LeavesEntry::reason));
    friend bool operator==(const LeavesEntry&, const LeavesEntry&) = default;
};

/// A cosmetic operation that the manager decides to leave.
struct LeaveEntry
{
    QString op;
    QString words; ///< for the buyer
    static constexpr auto fields =
        fieldList(field("op", &LeaveEntry::op), field("words", &LeaveEntry::words));
    friend bool operator==(const LeaveEntry&, const LeaveEntry&) = default;
};

/// A finding that turns out to be none.
struct MistakenEntry
{
    PlaceId place;
    QString reason;
    static constexpr auto fields =
        fieldList(field("place", &MistakenEntry::place), field("reason", &MistakenEntry::reason));
    friend bool operator==(const MistakenEntry&, const MistakenEntry&) = default;
};

struct CarEntry
{
    QString stock;
    QString registration;
    QString make;
    QString model;
    BodyShape shape = BodyShape::Hatch;
    QString colour;
    int arrivesDaysAgo = 0;  ///< working days before the day of now
    int arrivesMinute = 480; ///< of that day
    int promised = 0;        ///< working days after the day of now
    std::vector<Fact> facts;
    std::vector<FindingData> findings;
    std::vector<PlaceId> unseen; ///< the appraiser forgets these
    bool appraised = true;
    std::vector<PartEntry> parts;
    std::vector<OutsideEntry> outside;
    std::vector<LeaveEntry> leave;
    std::vector<MistakenEntry> mistaken;
    std::optional<FindingData> holdAgain; ///< found after the release
    std::optional<LeavesEntry> leaves;
    static constexpr auto fields = fieldList(
        field("stock", &CarEntry::stock), field("registration", &CarEntry::registration),
        field("make", &CarEntry::make), field("model", &CarEntry::model),
        field("shape", &CarEntry::shape), field("colour", &CarEntry::colour),
        field("arrivesDaysAgo", &CarEntry::arrivesDaysAgo),
        field("arrivesMinute", &CarEntry::arrivesMinute), field("promised", &CarEntry::promised),
        field("facts", &CarEntry::facts), field("findings", &CarEntry::findings),
        field("unseen", &CarEntry::unseen), field("appraised", &CarEntry::appraised),
        field("parts", &CarEntry::parts), field("outside", &CarEntry::outside),
        field("leave", &CarEntry::leave), field("mistaken", &CarEntry::mistaken),
        field("holdAgain", &CarEntry::holdAgain), field("leaves", &CarEntry::leaves));
    friend bool operator==(const CarEntry&, const CarEntry&) = default;
};

struct WorkshopFile
{
    QString site;
    std::vector<PersonEntry> people;
    std::vector<HouseLimit> limits; ///< where this house differs from what is shipped
    std::vector<Bay> bays;
    std::vector<ToolEntry> tools;
    std::vector<CarEntry> cars;
    static constexpr auto fields =
        fieldList(field("site", &WorkshopFile::site), field("people", &WorkshopFile::people),
                  field("limits", &WorkshopFile::limits), field("bays", &WorkshopFile::bays),
                  field("tools", &WorkshopFile::tools), field("cars", &WorkshopFile::cars));
    friend bool operator==(const WorkshopFile&, const WorkshopFile&) = default;
};

/// The error is words for whoever edits the file.
[[nodiscard]] tl::expected<WorkshopFile, QString> readWorkshop(const QByteArray& json);

} // namespace ramplight::demo
