// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/oneof.h"
#include "domain/site.h"

#include <variant>

// Everything that can have happened to a site. How events are made and changed: carevents.h.
namespace ramplight {

struct SiteSetUp
{
    static constexpr const char* type = "site-set-up";
    QString name;
    bool demo = false;
    HouseRules rules;
    static constexpr auto fields =
        fieldList(field("name", &SiteSetUp::name), field("demo", &SiteSetUp::demo),
                  field("rules", &SiteSetUp::rules));
    friend bool operator==(const SiteSetUp&, const SiteSetUp&) = default;
};

struct PersonAdded
{
    static constexpr const char* type = "person-added";
    PersonId person;
    std::vector<Skill> skills;
    std::vector<Right> rights;
    static constexpr auto fields =
        fieldList(field("person", &PersonAdded::person), field("skills", &PersonAdded::skills),
                  field("rights", &PersonAdded::rights));
    friend bool operator==(const PersonAdded&, const PersonAdded&) = default;
};

struct PersonChanged
{
    static constexpr const char* type = "person-changed";
    PersonId person;
    std::vector<Skill> skills;
    std::vector<Right> rights;
    bool active = true;
    static constexpr auto fields =
        fieldList(field("person", &PersonChanged::person), field("skills", &PersonChanged::skills),
                  field("rights", &PersonChanged::rights), field("active", &PersonChanged::active));
    friend bool operator==(const PersonChanged&, const PersonChanged&) = default;
};

/// A new PIN or badge was given; neither is in the ledger.
struct AccessChanged
{
    static constexpr const char* type = "access-changed";
    PersonId person;
    QString what; ///< "pin" or "badge"
    static constexpr auto fields =
        fieldList(field("person", &AccessChanged::person), field("what", &AccessChanged::what));
    friend bool operator==(const AccessChanged&, const AccessChanged&) = default;
};

/// Wrong PINs reached the number at which somebody should look into it.
struct PinAlarm
{
    static constexpr const char* type = "pin-alarm";
    PersonId person; ///< whose PIN somebody guesses; null: those of several people
    int failures = 0;
    bool locked = true; ///< nobody signs in as this person until a new PIN is set
    int people = 1;
    static constexpr auto fields =
        fieldList(field("person", &PinAlarm::person), field("failures", &PinAlarm::failures),
                  field("locked", &PinAlarm::locked), field("people", &PinAlarm::people));
    friend bool operator==(const PinAlarm&, const PinAlarm&) = default;
};

struct BaySet
{
    static constexpr const char* type = "bay-set";
    Bay bay;
    static constexpr auto fields = fieldList(field("bay", &BaySet::bay));
    friend bool operator==(const BaySet&, const BaySet&) = default;
};

struct HouseRulesSet
{
    static constexpr const char* type = "house-rules-set";
    HouseRules rules;
    static constexpr auto fields = fieldList(field("rules", &HouseRulesSet::rules));
    friend bool operator==(const HouseRulesSet&, const HouseRulesSet&) = default;
};

/// One qualification of a person, with its last day; without a day it is taken away.
struct QualificationSet
{
    static constexpr const char* type = "qualification-set";
    PersonId person;
    Qualification qualification = Qualification::HighVoltage;
    QDate until;
    static constexpr auto fields =
        fieldList(field("person", &QualificationSet::person),
                  field("qualification", &QualificationSet::qualification),
                  field("until", &QualificationSet::until));
    friend bool operator==(const QualificationSet&, const QualificationSet&) = default;
};

struct SpecialitiesSet
{
    static constexpr const char* type = "specialities-set";
    PersonId person;
    QStringList specialities;
    static constexpr auto fields = fieldList(field("person", &SpecialitiesSet::person),
                                             field("specialities", &SpecialitiesSet::specialities));
    friend bool operator==(const SpecialitiesSet&, const SpecialitiesSet&) = default;
};

/// When somebody works otherwise than the house, and is away: the whole of it.
struct PersonTimesSet
{
    static constexpr const char* type = "person-times-set";
    PersonId person;
    PersonTimes times;
    static constexpr auto fields =
        fieldList(field("person", &PersonTimesSet::person), field("times", &PersonTimesSet::times));
    friend bool operator==(const PersonTimesSet&, const PersonTimesSet&) = default;
};

struct ToolSet
{
    static constexpr const char* type = "tool-set";
    Tool tool;
    static constexpr auto fields = fieldList(field("tool", &ToolSet::tool));
    friend bool operator==(const ToolSet&, const ToolSet&) = default;
};

struct OperationAdjusted
{
    static constexpr const char* type = "operation-adjusted";
    OperationAdjustment adjustment;
    static constexpr auto fields = fieldList(field("adjustment", &OperationAdjusted::adjustment));
    friend bool operator==(const OperationAdjusted&, const OperationAdjusted&) = default;
};

/// A whole catalogue, as it was read; without one the shipped catalogue holds again.
struct CatalogueAdopted
{
    static constexpr const char* type = "catalogue-adopted";
    std::optional<Catalogue> catalogue;
    QString hash; ///< SHA-256 of the file
    static constexpr auto fields = fieldList(field("catalogue", &CatalogueAdopted::catalogue),
                                             field("hash", &CatalogueAdopted::hash));
    friend bool operator==(const CatalogueAdopted&, const CatalogueAdopted&) = default;
};

using SiteEvent = OneOf<std::variant<SiteSetUp, PersonAdded, PersonChanged, AccessChanged, PinAlarm,
                                     BaySet, HouseRulesSet, QualificationSet, SpecialitiesSet,
                                     PersonTimesSet, ToolSet, OperationAdjusted, CatalogueAdopted>>;

struct SiteEnvelope
{
    qint64 seq = 0;
    Moment at;
    PersonId by;
    CommandId command;
    SiteEvent event;
};

void apply(SiteState& state, const SiteEnvelope& envelope);

} // namespace ramplight
