// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/catalogue.h"
#include "domain/ids.h"
#include "domain/moment.h"
#include "domain/refusal.h"

#include <tl/expected.hpp>

#include <map>
#include <optional>
#include <variant>
#include <vector>

// The site's stream: who works here with which skills and rights, the bays, the house rules.
// Names, PINs and badges are not here: people stand in the ledger by number, so that a name can
// be erased; access keeps the rest.
namespace ramplight {

enum class Right { Appraise, Work, Check, Manage, Release };
template <>
struct Names<Right>
{
    static constexpr std::array table{
        std::pair{Right::Appraise, "appraise"}, std::pair{Right::Work, "work"},
        std::pair{Right::Check, "check"},       std::pair{Right::Manage, "manage"},
        std::pair{Right::Release, "release"},
    };
};

/// What the house decides for itself.
struct HouseRules
{
    TrafficSide trafficSide = TrafficSide::Left;
    SideWords sideWords = SideWords::NearOff;
    QString timeZone = QStringLiteral("Europe/London"); ///< IANA name
    int shiftEndMinute = 17 * 60 + 30; ///< local minute of the day at which all work pauses
    int lockSeconds = 120;             ///< a person is signed out after so long without a touch
    /// In a very small workshop somebody who did other, already checked work may make the final
    /// check; off unless the house says so.
    bool finalCheckByWorker = false;
    QString country = QStringLiteral("GB"); ///< id of one of the catalogue's countries
    std::vector<HouseLimit> limits;         ///< the house's own that are not as shipped

    static constexpr auto fields =
        std::tuple{field("trafficSide", &HouseRules::trafficSide),
                   field("sideWords", &HouseRules::sideWords),
                   field("timeZone", &HouseRules::timeZone),
                   field("shiftEndMinute", &HouseRules::shiftEndMinute),
                   field("lockSeconds", &HouseRules::lockSeconds),
                   field("finalCheckByWorker", &HouseRules::finalCheckByWorker),
                   field("country", &HouseRules::country),
                   field("limits", &HouseRules::limits)};
    friend bool operator==(const HouseRules&, const HouseRules&) = default;
};

struct Person
{
    PersonId id;
    QString name; ///< from the staff book, never from the ledger; may be empty once erased
    std::vector<Skill> skills;
    std::vector<Right> rights;
    bool active = true;

    [[nodiscard]] bool can(Right right) const;
    [[nodiscard]] bool has(Skill skill) const;
    friend bool operator==(const Person&, const Person&) = default;
};

/// Why a person may not work on operations of this kind (or check them, where they are checks):
/// the right or the skill that is missing. Empty when they may.
[[nodiscard]] std::optional<Refusal> whyNotAble(const Person& person, const OperationSpec& spec);

struct Bay
{
    BayId id;
    int number = 0; ///< as painted on the floor
    QString name;
    BayKind kind = BayKind::Any;
    bool active = true;

    static constexpr auto fields =
        std::tuple{field("id", &Bay::id), field("number", &Bay::number), field("name", &Bay::name),
                   field("kind", &Bay::kind), field("active", &Bay::active)};
    friend bool operator==(const Bay&, const Bay&) = default;
};

struct SiteState
{
    qint64 seq = 0;
    Moment lastAt;
    QString name;
    bool demo = false;
    HouseRules rules;
    std::map<PersonId, Person> people;
    std::map<BayId, Bay> bays;

    [[nodiscard]] bool isSetUp() const { return !name.isEmpty(); }
    [[nodiscard]] const Person* person(PersonId id) const;
    [[nodiscard]] const Bay* bay(BayId id) const;
    friend bool operator==(const SiteState&, const SiteState&) = default;
};

// ---- events ---------------------------------------------------------------------------------

struct SiteSetUp
{
    static constexpr const char* type = "site-set-up";
    QString name;
    bool demo = false;
    HouseRules rules;
    static constexpr auto fields =
        std::tuple{field("name", &SiteSetUp::name), field("demo", &SiteSetUp::demo),
                   field("rules", &SiteSetUp::rules)};
    friend bool operator==(const SiteSetUp&, const SiteSetUp&) = default;
};

struct PersonAdded
{
    static constexpr const char* type = "person-added";
    PersonId person;
    std::vector<Skill> skills;
    std::vector<Right> rights;
    static constexpr auto fields =
        std::tuple{field("person", &PersonAdded::person), field("skills", &PersonAdded::skills),
                   field("rights", &PersonAdded::rights)};
    friend bool operator==(const PersonAdded&, const PersonAdded&) = default;
};

struct PersonChanged
{
    static constexpr const char* type = "person-changed";
    PersonId person;
    std::vector<Skill> skills;
    std::vector<Right> rights;
    bool active = true;
    static constexpr auto fields = std::tuple{
        field("person", &PersonChanged::person), field("skills", &PersonChanged::skills),
        field("rights", &PersonChanged::rights), field("active", &PersonChanged::active)};
    friend bool operator==(const PersonChanged&, const PersonChanged&) = default;
};

/// A new PIN or badge was given; neither is in the ledger.
struct AccessChanged
{
    static constexpr const char* type = "access-changed";
    PersonId person;
    QString what; ///< "pin" or "badge"
    static constexpr auto fields =
        std::tuple{field("person", &AccessChanged::person), field("what", &AccessChanged::what)};
    friend bool operator==(const AccessChanged&, const AccessChanged&) = default;
};

/// Wrong PINs reached the number at which somebody should look into it.
struct PinAlarm
{
    static constexpr const char* type = "pin-alarm";
    PersonId person;
    int failures = 0;
    static constexpr auto fields =
        std::tuple{field("person", &PinAlarm::person), field("failures", &PinAlarm::failures)};
    friend bool operator==(const PinAlarm&, const PinAlarm&) = default;
};

struct BaySet
{
    static constexpr const char* type = "bay-set";
    Bay bay;
    static constexpr auto fields = std::tuple{field("bay", &BaySet::bay)};
    friend bool operator==(const BaySet&, const BaySet&) = default;
};

struct HouseRulesSet
{
    static constexpr const char* type = "house-rules-set";
    HouseRules rules;
    static constexpr auto fields = std::tuple{field("rules", &HouseRulesSet::rules)};
    friend bool operator==(const HouseRulesSet&, const HouseRulesSet&) = default;
};

using SiteEvent = std::variant<SiteSetUp, PersonAdded, PersonChanged, AccessChanged, PinAlarm,
                               BaySet, HouseRulesSet>;

struct SiteEnvelope
{
    qint64 seq = 0;
    Moment at;
    PersonId by;
    CommandId command;
    SiteEvent event;
};

// ---- commands -------------------------------------------------------------------------------

namespace site {

/// The first command of a site; it makes the first person, who holds all rights.
struct SetUp
{
    QString name;
    bool demo = false;
    HouseRules rules;
    std::vector<Skill> firstPersonsSkills;
};
struct AddPerson
{
    std::vector<Skill> skills;
    std::vector<Right> rights;
};
struct ChangePerson
{
    PersonId person;
    std::vector<Skill> skills;
    std::vector<Right> rights;
    bool active = true;
};
struct ChangeAccess
{
    PersonId person;
    QString what;
};
struct RaisePinAlarm
{
    PersonId person;
    int failures = 0;
};
/// A null id adds a bay; otherwise it is changed (a bay that is closed becomes inactive).
struct SetBay
{
    Bay bay;
};
struct SetHouseRules
{
    HouseRules rules;
};

} // namespace site

using SiteCommand =
    std::variant<site::SetUp, site::AddPerson, site::ChangePerson, site::ChangeAccess,
                 site::RaisePinAlarm, site::SetBay, site::SetHouseRules>;

struct SiteContext
{
    PersonId actor; ///< null only for SetUp and for alarms that the house itself raises
    Moment now;
    bool bayIsTaken = false;      ///< a car stands in the bay that the command closes
    bool personIsWorking = false; ///< the person whom the command deactivates has a running timer
};

[[nodiscard]] tl::expected<std::vector<SiteEvent>, Refusal>
decide(const SiteState& state, const SiteContext& context, const SiteCommand& command);
void apply(SiteState& state, const SiteEnvelope& envelope);

/// Work that nobody in the house can legally finish: for each, the reason in words.
[[nodiscard]] QStringList missingCombinations(const SiteState& site, const Catalogue& catalogue);

} // namespace ramplight
