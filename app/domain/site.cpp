// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/site.h"

#include "domain/words.h"

#include <QTimeZone>

#include <algorithm>

namespace ramplight {

bool Person::can(Right right) const
{
    return active && std::ranges::find(rights, right) != rights.end();
}

bool Person::has(Skill skill) const
{
    return std::ranges::find(skills, skill) != skills.end();
}

std::optional<Refusal> whyNotAble(const Person& person, const OperationSpec& spec)
{
    const auto none = [](const QString& rights) {
        return Refusal{RefusalId::NotAllowed, {rights}};
    };
    if (spec.skill == Skill::Checks) {
        if (!person.can(Right::Check))
            return none(words(Right::Check));
    } else if (spec.skill == Skill::Office) {
        if (!person.can(Right::Appraise) && !person.can(Right::Manage))
            return none(
                QStringLiteral("%1 or %2").arg(words(Right::Appraise), words(Right::Manage)));
    } else if (!person.can(Right::Work)) {
        return none(words(Right::Work));
    } else if (!person.has(spec.skill)) {
        return Refusal{RefusalId::WrongSkill, {words(spec.skill)}};
    }
    return std::nullopt;
}

const Person* SiteState::person(PersonId id) const
{
    const auto it = people.find(id);
    return it == people.end() ? nullptr : &it->second;
}

const Bay* SiteState::bay(BayId id) const
{
    const auto it = bays.find(id);
    return it == bays.end() ? nullptr : &it->second;
}

namespace {

using SiteDecision = tl::expected<std::vector<SiteEvent>, Refusal>;

tl::unexpected<Refusal> refuse(RefusalId id, QStringList details = {})
{
    return tl::unexpected(Refusal{id, std::move(details)});
}

template <class Id, class T>
Id nextId(const std::map<Id, T>& items)
{
    return items.empty() ? Id{1} : Id{items.rbegin()->first.value + 1};
}

class SiteDecider
{
public:
    SiteDecider(const SiteState& site, const SiteContext& context)
        : m_site(site)
        , m_context(context)
    {
    }

    SiteDecision operator()(const site::SetUp& c) const
    {
        if (m_site.isSetUp())
            return refuse(RefusalId::AlreadySetUp);
        if (c.name.trimmed().isEmpty())
            return refuse(RefusalId::NameMissing);
        if (const auto fault = ruleFault(c.rules))
            return refuse(RefusalId::RuleOutOfRange, {*fault});
        PersonAdded first;
        first.person = PersonId{1};
        first.skills = c.firstPersonsSkills;
        first.rights = {Right::Appraise, Right::Work, Right::Check, Right::Manage, Right::Release};
        return std::vector<SiteEvent>{SiteSetUp{c.name.trimmed(), c.demo, c.rules}, first};
    }

    SiteDecision operator()(const site::AddPerson& c) const
    {
        if (auto no = needsManager())
            return tl::unexpected(*no);
        return std::vector<SiteEvent>{PersonAdded{nextId(m_site.people), c.skills, c.rights}};
    }

    SiteDecision operator()(const site::ChangePerson& c) const
    {
        if (auto no = needsManager())
            return tl::unexpected(*no);
        const Person* person = m_site.person(c.person);
        if (person == nullptr)
            return refuse(RefusalId::PersonUnknown);
        if (!c.active && m_context.personIsWorking)
            return refuse(RefusalId::PersonIsWorking);
        const bool staysManager =
            c.active && std::ranges::find(c.rights, Right::Manage) != c.rights.end();
        if (person->can(Right::Manage) && !staysManager && managers() == 1)
            return refuse(RefusalId::LastManager);
        return std::vector<SiteEvent>{PersonChanged{c.person, c.skills, c.rights, c.active}};
    }

    SiteDecision operator()(const site::ChangeAccess& c) const
    {
        const Person* person = m_site.person(c.person);
        if (person == nullptr)
            return refuse(RefusalId::PersonUnknown);
        // Everybody may change their own PIN; somebody else's needs the right.
        const bool ownPin = c.person == m_context.actor && c.what == QLatin1String("pin");
        if (ownPin && !person->active)
            return refuse(RefusalId::PersonUnknown);
        if (!ownPin)
            if (auto no = needsManager())
                return tl::unexpected(*no);
        return std::vector<SiteEvent>{AccessChanged{c.person, c.what}};
    }

    SiteDecision operator()(const site::RaisePinAlarm& c) const
    {
        if (m_site.person(c.person) == nullptr)
            return refuse(RefusalId::PersonUnknown);
        return std::vector<SiteEvent>{PinAlarm{c.person, c.failures}};
    }

    SiteDecision operator()(const site::SetBay& c) const
    {
        if (auto no = needsManager())
            return tl::unexpected(*no);
        Bay bay = c.bay;
        bay.name = bay.name.trimmed();
        if (bay.name.isEmpty() || bay.number < 1)
            return refuse(RefusalId::NameMissing);
        if (!bay.id.isNull() && m_site.bay(bay.id) == nullptr)
            return refuse(RefusalId::BayUnknown);
        for (const auto& [id, other] : m_site.bays)
            if (id != bay.id && other.active && bay.active && other.number == bay.number)
                return refuse(RefusalId::BayNumberTaken, {QString::number(bay.number)});
        if (!bay.active && m_context.bayIsTaken)
            return refuse(RefusalId::BayTaken, {QStringLiteral("A car")});
        if (bay.id.isNull())
            bay.id = nextId(m_site.bays);
        return std::vector<SiteEvent>{BaySet{bay}};
    }

    SiteDecision operator()(const site::SetHouseRules& c) const
    {
        if (auto no = needsManager())
            return tl::unexpected(*no);
        if (const auto fault = ruleFault(c.rules))
            return refuse(RefusalId::RuleOutOfRange, {*fault});
        return std::vector<SiteEvent>{HouseRulesSet{c.rules}};
    }

private:
    [[nodiscard]] std::optional<Refusal> needsManager() const
    {
        if (!m_site.isSetUp())
            return Refusal{RefusalId::SiteNotSetUp, {}};
        const Person* actor = m_site.person(m_context.actor);
        if (actor == nullptr || !actor->active)
            return Refusal{RefusalId::PersonUnknown, {}};
        if (!actor->can(Right::Manage))
            return Refusal{RefusalId::NotAllowed, {words(Right::Manage)}};
        return std::nullopt;
    }

    [[nodiscard]] qsizetype managers() const
    {
        return std::ranges::count_if(m_site.people,
                                     [](const auto& p) { return p.second.can(Right::Manage); });
    }

    [[nodiscard]] static std::optional<QString> ruleFault(const HouseRules& rules)
    {
        if (rules.shiftEndMinute < 0 || rules.shiftEndMinute >= 24 * 60)
            return QStringLiteral("the end of the shift is a time of day");
        if (rules.lockSeconds < 15 || rules.lockSeconds > 3600)
            return QStringLiteral("signing out after 15 seconds to 1 hour");
        if (!QTimeZone(rules.timeZone.toLatin1()).isValid())
            return QStringLiteral("the time zone is not known");
        return std::nullopt;
    }

    const SiteState& m_site;
    const SiteContext& m_context;
};

struct SiteApplier
{
    SiteState& site;

    void operator()(const SiteSetUp& e) const
    {
        site.name = e.name;
        site.demo = e.demo;
        site.rules = e.rules;
    }
    void operator()(const PersonAdded& e) const
    {
        site.people.insert_or_assign(e.person, Person{e.person, {}, e.skills, e.rights, true});
    }
    void operator()(const PersonChanged& e) const
    {
        Person& person = site.people[e.person];
        person.id = e.person;
        person.skills = e.skills;
        person.rights = e.rights;
        person.active = e.active;
    }
    void operator()(const AccessChanged&) const {}
    void operator()(const PinAlarm&) const {}
    void operator()(const BaySet& e) const { site.bays.insert_or_assign(e.bay.id, e.bay); }
    void operator()(const HouseRulesSet& e) const { site.rules = e.rules; }
};

} // namespace

SiteDecision decide(const SiteState& state, const SiteContext& context, const SiteCommand& command)
{
    return std::visit(SiteDecider(state, context), command);
}

void apply(SiteState& state, const SiteEnvelope& envelope)
{
    std::visit(SiteApplier{state}, envelope.event);
    state.seq = envelope.seq;
    state.lastAt = envelope.at;
}

QStringList missingCombinations(const SiteState& site, const Catalogue& catalogue)
{
    QStringList gaps;
    const auto count = [&](auto&& fits) {
        return std::ranges::count_if(
            site.people, [&](const auto& p) { return p.second.active && fits(p.second); });
    };
    const auto canDo = [](const OperationSpec& spec) {
        return [&spec](const Person& p) { return !whyNotAble(p, spec); };
    };
    const auto checks = [](const Person& p) { return p.can(Right::Check); };
    // Of two different active people, is one so and the other so?
    const auto pair = [&](auto&& one, auto&& other) {
        return std::ranges::any_of(site.people, [&](const auto& a) {
            return a.second.active && one(a.second) &&
                   count([&](const Person& b) { return b.id != a.first && other(b); }) > 0;
        });
    };
    // Nobody signs against a figure that they entered themselves.
    const auto figureFor = [&](const OperationSpec& spec, auto&& signs) {
        const bool needed = std::ranges::any_of(spec.readings, [](const ReadingSpec& reading) {
            return reading.neededFrom && !reading.optional;
        });
        return !needed || pair(signs, [](const Person& p) {
            return p.can(Right::Check) || p.can(Right::Manage);
        });
    };
    const auto worksOnWhatItChecks = [&](const OperationSpec& spec) {
        return [&](const Person& p) {
            return std::ranges::any_of(catalogue.operations, [&](const OperationSpec& checked) {
                return checked.skill != Skill::Checks && checked.skill != Skill::Office &&
                       (spec.checksWorkOf.contains(checked.id) ||
                        spec.checksWorkOf.contains(QStringLiteral("*"))) &&
                       canDo(checked)(p);
            });
        };
    };
    for (const OperationSpec& spec : catalogue.operations) {
        if (spec.skill == Skill::Office)
            continue;
        const bool isCheck = spec.secondPerson == SecondPerson::Check;
        const bool byOne = spec.secondPerson == SecondPerson::None ||
                           (isCheck && site.rules.finalCheckByWorker &&
                            spec.checksWorkOf.contains(QStringLiteral("*")));
        if (byOne && !spec.safety)
            continue;
        if (byOne && count(canDo(spec)) == 0) {
            gaps.append(
                QStringLiteral("Nobody here can do: %1 (%2).").arg(spec.title, words(spec.skill)));
            continue;
        }
        // The checker must be somebody else than a doer: two different people are needed, of whom
        // one can check. Somebody alone in both parts is no combination.
        const bool found = byOne     ? true
                           : isCheck ? pair(worksOnWhatItChecks(spec), checks)
                                     : pair(canDo(spec), checks);
        if (!found)
            gaps.append(QStringLiteral("No two people here can do and check: %1. One must do the "
                                       "work, another with the right to check must check it.")
                            .arg(spec.title));
        else if (!figureFor(spec, canDo(spec)))
            gaps.append(
                QStringLiteral("Nobody here can enter the figure for: %1. Somebody with the "
                               "right to check or manage must, other than who signs.")
                    .arg(spec.title));
    }
    if (count([](const Person& p) { return p.can(Right::Release); }) == 0)
        gaps.append(QStringLiteral("Nobody here may release a car to sale."));
    gaps.removeDuplicates();
    return gaps;
}

} // namespace ramplight
