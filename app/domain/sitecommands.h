// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/oneof.h"
#include "domain/refusal.h"
#include "domain/siteevents.h"

#include <tl/expected.hpp>

#include <set>
#include <variant>
#include <vector>

// What a person can ask of a site; decide() answers with events or a refusal.
namespace ramplight {

/// Who sets a workshop up.
inline constexpr PersonId firstPerson{1};

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
    PersonId person; ///< null: several people, of whom none is locked
    int failures = 0;
    bool locked = true;
    int people = 1;
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
/// All that a person is qualified for, and their specialities, instead of what there was.
struct SetCompetence
{
    PersonId person;
    std::vector<HeldQualification> qualifications;
    QStringList specialities;
};
/// All of a person's own times, instead of what there was.
struct SetTimes
{
    PersonId person;
    PersonTimes times;
};
/// A null id adds a tool; otherwise it is changed.
struct SetTool
{
    Tool tool;
};
/// What the house changes in one operation; an empty one takes the changes back.
struct AdjustOperation
{
    OperationAdjustment adjustment;
};
/// A whole catalogue file, checked first: all of it or nothing. Empty: the shipped one again.
struct AdoptCatalogue
{
    QByteArray json;
};

} // namespace site

using SiteCommand =
    OneOf<std::variant<site::SetUp, site::AddPerson, site::ChangePerson, site::ChangeAccess,
                       site::RaisePinAlarm, site::SetBay, site::SetHouseRules, site::SetCompetence,
                       site::SetTimes, site::SetTool, site::AdjustOperation, site::AdoptCatalogue>>;

/// What changes rights, what somebody gets in with, or rules: whoever asks for it enters the PIN
/// for it, as for a release.
[[nodiscard]] bool wantsPinAgain(const SiteCommand& command);

struct SiteContext
{
    PersonId actor; ///< null only for SetUp and for alarms that the house itself raises
    Moment now;
    const Catalogue* catalogue = nullptr; ///< as shipped or adopted, without the house's changes
    bool bayIsTaken = false;              ///< a car stands in the bay that the command closes
    bool personIsWorking = false; ///< the person whom the command deactivates has a running timer
    std::set<PersonId> withoutPin = {}; ///< who cannot sign in yet: managers by name only
};

[[nodiscard]] tl::expected<std::vector<SiteEvent>, Refusal>
decide(const SiteState& state, const SiteContext& context, const SiteCommand& command);

} // namespace ramplight
