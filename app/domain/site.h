// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/houserules.h"
#include "domain/ids.h"
#include "domain/moment.h"
#include "domain/refusal.h"

#include <QTimeZone>

#include <initializer_list>
#include <map>
#include <optional>
#include <vector>

// The site: who works here with which skills and rights, the bays, the tools, the house rules.
// What happens to it: siteevents.h; what can be asked of it: sitecommands.h.
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

struct Person
{
    PersonId id;
    QString name; ///< from the staff book, never from the ledger; may be empty once erased
    std::vector<Skill> skills;
    std::vector<Right> rights;
    bool active = true;
    std::vector<HeldQualification> qualifications = {}; ///< expired ones, too
    QStringList specialities = {};                      ///< as operations name them
    PersonTimes times = {};

    [[nodiscard]] bool can(Right right) const;
    [[nodiscard]] bool has(Skill skill) const;
    /// Null when the person never held it.
    [[nodiscard]] const HeldQualification* held(Qualification qualification) const;
    friend bool operator==(const Person&, const Person&) = default;
};

/// Why a person may not work on operations of this kind (or check them, where they are checks):
/// the right, the skill or the speciality that is missing. Empty when they may.
[[nodiscard]] std::optional<Refusal> whyNotAble(const Person& person, const OperationSpec& spec);
/// Why this person may not take back what an outside firm did of it: the work itself may want a
/// speciality that only the firm has.
[[nodiscard]] std::optional<Refusal> whyNotReceiving(const Person& person, OperationSpec spec);
/// Why this person (null: nobody of the site) may not do what takes one of these rights.
[[nodiscard]] std::optional<Refusal> whyNotAllowed(const Person* person,
                                                   std::initializer_list<Right> rights);
/// Why a person may not on this day: the qualification that is missing or over. Empty when they
/// may.
[[nodiscard]] std::optional<Refusal> whyNotQualified(const Person& person,
                                                     const OperationSpec& spec, QDate today);

struct Bay
{
    BayId id;
    int number = 0; ///< as painted on the floor
    QString name;
    BayKind kind = BayKind::Any;
    bool active = true;

    static constexpr auto fields =
        fieldList(field("id", &Bay::id), field("number", &Bay::number), field("name", &Bay::name),
                  field("kind", &Bay::kind), field("active", &Bay::active));
    friend bool operator==(const Bay&, const Bay&) = default;
};

/// Whether work that wants a kind of bay is done in this one. Nothing is done on a parking place.
[[nodiscard]] bool suits(const Bay& bay, BayKind wanted);

struct SiteState
{
    SiteState(); // these six are compiled once: copies cost every unit that makes one a second
    SiteState(const SiteState& other);
    SiteState(SiteState&& other) noexcept;
    SiteState& operator=(const SiteState& other);
    SiteState& operator=(SiteState&& other) noexcept;
    ~SiteState();

    qint64 seq = 0;
    Moment lastAt;
    QString name;
    bool demo = false;
    HouseRules rules;
    std::map<PersonId, Person> people;
    std::map<BayId, Bay> bays;
    std::map<ToolId, Tool> tools;
    std::map<QString, OperationAdjustment> adjustments; ///< by operation
    AdoptedCatalogue adopted;

    [[nodiscard]] bool isSetUp() const { return !name.isEmpty(); }
    [[nodiscard]] const Person* person(PersonId id) const;
    /// Whoever is or was called that, in small letters or capitals, besides `but`.
    [[nodiscard]] const Person* personNamed(const QString& wanted, PersonId but = {}) const;
    [[nodiscard]] const Bay* bay(BayId id) const;
    [[nodiscard]] const Tool* tool(ToolId id) const;
    /// Those of a kind that are in the house, in date or not, in the order of their ids.
    [[nodiscard]] std::vector<const Tool*> toolsOf(ToolKind kind) const;
    friend bool operator==(const SiteState&, const SiteState&) = default;
};

/// The day of a moment where the house stands.
/// The house's time zone; UTC when its rules name none that is known.
[[nodiscard]] QTimeZone zoneOf(const HouseRules& rules);
[[nodiscard]] QDate dayOf(Moment moment, const HouseRules& rules);
/// The day's first moment in the house's time zone.
[[nodiscard]] Moment startOf(QDate day, const HouseRules& rules);

/// Work that nobody in the house can legally finish, checks that nobody is left to sign because the
/// work that they check takes everybody who may, and qualifications that are over or end within 30
/// days: for each, the reason in words. What every car meets with comes first.
[[nodiscard]] QStringList missingCombinations(const SiteState& site, const Catalogue& catalogue,
                                              QDate today);

} // namespace ramplight
