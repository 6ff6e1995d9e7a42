// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/housebounds.h"
#include "domain/housecatalogue.h"
#include "domain/sitecommands.h"
#include "domain/words.h"

#include <QTimeZone>

#include <algorithm>

namespace ramplight {

namespace {

constexpr int mostPhotoYears = 50;

using SiteDecision = tl::expected<std::vector<SiteEvent>, Refusal>;

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
        if (const auto fault = ruleFault(c.rules, HouseRules{}))
            return refuse(RefusalId::RuleOutOfRange, {*fault});
        PersonAdded first;
        first.person = firstPerson;
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
        if (person->can(Right::Manage) && !staysManager && !anybodyElseManages(c.person))
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
        const bool isOfSeveral = c.person.isNull() && c.people > 1 && !c.locked;
        if (!isOfSeveral && m_site.person(c.person) == nullptr)
            return refuse(RefusalId::PersonUnknown);
        return std::vector<SiteEvent>{PinAlarm{c.person, c.failures, c.locked, c.people}};
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
        if (const auto fault = ruleFault(c.rules, m_site.rules))
            return refuse(RefusalId::RuleOutOfRange, {*fault});
        if (c.rules == m_site.rules)
            return std::vector<SiteEvent>{};
        return std::vector<SiteEvent>{HouseRulesSet{c.rules}};
    }

    SiteDecision operator()(const site::SetCompetence& c) const
    {
        if (auto no = needsManager())
            return tl::unexpected(*no);
        const Person* person = m_site.person(c.person);
        if (person == nullptr)
            return refuse(RefusalId::PersonUnknown);
        std::vector<SiteEvent> events;
        for (const auto& [qualification, name] : Names<Qualification>::table) {
            const auto wanted = std::ranges::find(c.qualifications, qualification,
                                                  &HeldQualification::qualification);
            const HeldQualification* held = person->held(qualification);
            const bool keeps = wanted != c.qualifications.end();
            if (keeps && !wanted->until.isValid())
                return refuse(RefusalId::FieldMissing,
                              {QStringLiteral("the last day of %1").arg(words(qualification))});
            const QDate until = keeps ? wanted->until : QDate();
            if (until != (held == nullptr ? QDate() : held->until))
                events.emplace_back(QualificationSet{c.person, qualification, until});
        }
        QStringList specialities = c.specialities;
        specialities.removeAll(QString());
        specialities.removeDuplicates();
        specialities.sort();
        if (specialities != person->specialities)
            events.emplace_back(SpecialitiesSet{c.person, specialities});
        return events;
    }

    SiteDecision operator()(const site::SetTimes& c) const
    {
        if (auto no = needsManager())
            return tl::unexpected(*no);
        const Person* person = m_site.person(c.person);
        if (person == nullptr)
            return refuse(RefusalId::PersonUnknown);
        if (const auto fault = timesFault(c.times))
            return refuse(RefusalId::RuleOutOfRange, {*fault});
        PersonTimes times = c.times;
        std::ranges::sort(times.away, {}, &DaysAway::first);
        std::ranges::sort(times.extra, {},
                          [](const ExtraHours& extra) { return std::pair(extra.day, extra.from); });
        if (times == person->times)
            return std::vector<SiteEvent>{};
        return std::vector<SiteEvent>{PersonTimesSet{c.person, std::move(times)}};
    }

    SiteDecision operator()(const site::SetTool& c) const
    {
        if (auto no = needsManager())
            return tl::unexpected(*no);
        Tool tool = c.tool;
        tool.number = tool.number.trimmed();
        if (tool.number.isEmpty())
            return refuse(RefusalId::NameMissing);
        if (!tool.id.isNull() && m_site.tool(tool.id) == nullptr)
            return refuse(RefusalId::ToolUnknown, {tool.number});
        if (!tool.nextCalibration.isValid())
            return refuse(RefusalId::FieldMissing,
                          {QStringLiteral("the day of the next calibration")});
        for (const auto& [id, other] : m_site.tools)
            if (id != tool.id && other.active && tool.active &&
                other.number.compare(tool.number, Qt::CaseInsensitive) == 0)
                return refuse(RefusalId::ToolNumberTaken, {tool.number});
        if (tool.id.isNull())
            tool.id = nextId(m_site.tools);
        else if (tool == *m_site.tool(tool.id))
            return std::vector<SiteEvent>{};
        return std::vector<SiteEvent>{ToolSet{tool}};
    }

    SiteDecision operator()(const site::AdjustOperation& c) const
    {
        if (auto no = needsManager())
            return tl::unexpected(*no);
        const OperationSpec* spec = m_context.catalogue == nullptr
                                        ? nullptr
                                        : m_context.catalogue->find(c.adjustment.operation);
        if (spec == nullptr)
            return refuse(RefusalId::KindUnknown, {c.adjustment.operation});
        if (const auto fault = adjustmentFault(c.adjustment, spec))
            return refuse(RefusalId::RuleOutOfRange, {*fault});
        const auto now = m_site.adjustments.find(c.adjustment.operation);
        const bool same =
            now == m_site.adjustments.end() ? c.adjustment.isEmpty() : now->second == c.adjustment;
        if (same)
            return std::vector<SiteEvent>{};
        return std::vector<SiteEvent>{OperationAdjusted{c.adjustment}};
    }

    SiteDecision operator()(const site::AdoptCatalogue& c) const
    {
        if (auto no = needsManager())
            return tl::unexpected(*no);
        if (c.json.isEmpty()) {
            if (!m_site.adopted.catalogue)
                return std::vector<SiteEvent>{};
            return std::vector<SiteEvent>{CatalogueAdopted{}};
        }
        CatalogueReading reading = readCatalogue(c.json);
        if (!reading.faults.isEmpty())
            return refuse(RefusalId::CatalogueFaulty, reading.faults);
        if (m_site.adopted.catalogue && m_site.adopted.catalogue->hash == reading.catalogue.hash)
            return std::vector<SiteEvent>{};
        const QString hash = std::exchange(reading.catalogue.hash, QString());
        return std::vector<SiteEvent>{CatalogueAdopted{std::move(reading.catalogue), hash}};
    }

private:
    [[nodiscard]] std::optional<Refusal> needsManager() const
    {
        if (!m_site.isSetUp())
            return Refusal{RefusalId::SiteNotSetUp, {}};
        return whyNotAllowed(m_site.person(m_context.actor), {Right::Manage});
    }

    /// Who has no PIN cannot sign in, and so cannot give anybody a right.
    [[nodiscard]] bool anybodyElseManages(PersonId than) const
    {
        return std::ranges::any_of(m_site.people, [&](const auto& person) {
            return person.first != than && person.second.can(Right::Manage) &&
                   !m_context.withoutPin.contains(person.first);
        });
    }

    [[nodiscard]] std::optional<QString> ruleFault(const HouseRules& rules,
                                                   const HouseRules& before) const
    {
        if (auto fault = boundsFault(rules))
            return fault;
        // What was decided under an earlier catalogue stands; only what is new must be in this one.
        if (m_context.catalogue == nullptr)
            return std::nullopt;
        const std::vector<Country>& countries = m_context.catalogue->countries;
        if (rules.country != before.country &&
            std::ranges::find(countries, rules.country, &Country::id) == countries.end())
            return QStringLiteral("the catalogue has no country %1").arg(rules.country);
        return limitFault(rules, before);
    }

    [[nodiscard]] std::optional<QString> limitFault(const HouseRules& rules,
                                                    const HouseRules& before) const
    {
        for (const HouseLimit& own : rules.limits) {
            if (std::ranges::count(rules.limits, own.name, &HouseLimit::name) > 1)
                return QStringLiteral("%1 is set twice").arg(own.name);
            if (std::ranges::find(before.limits, own) != before.limits.end())
                continue;
            const auto& known = m_context.catalogue->houseLimits;
            const auto limit = std::ranges::find(known, own.name, &NamedLimit::name);
            if (limit == known.end())
                return QStringLiteral("the catalogue has no house limit %1").arg(own.name);
            if (own.value < 0 || own.value > largestBound)
                return QStringLiteral("%1 is out of range").arg(limit->title);
        }
        return std::nullopt;
    }

    const SiteState& m_site;
    const SiteContext& m_context;
};

} // namespace

std::optional<QString> boundsFault(const HouseRules& rules)
{
    if (rules.shiftEndMinute < 0 || rules.shiftEndMinute >= 24 * 60)
        return QStringLiteral("the end of the shift is a time of day");
    if (rules.lockSeconds < 15 || rules.lockSeconds > 3600)
        return QStringLiteral("signing out after 15 seconds to 1 hour");
    if (rules.photoYears < 0 || rules.photoYears > mostPhotoYears)
        return QStringLiteral("photos are kept for 1 to %1 years, or for good").arg(mostPhotoYears);
    if (!QTimeZone(rules.timeZone.toLatin1()).isValid())
        return QStringLiteral("the time zone is not known");
    if (rules.currency.size() != 3 || rules.currency != rules.currency.toUpper())
        return QStringLiteral("the currency is a code of three letters");
    if (std::ranges::any_of(rules.neverLeft, [](Skill skill) {
            return skill == Skill::Checks || skill == Skill::Office;
        }))
        return QStringLiteral("checks and office work are no work on the car");
    if (!std::ranges::all_of(rules.closed, [](QDate day) { return day.isValid(); }))
        return QStringLiteral("days on which the house is closed are days");
    return weekFault(rules.week);
}

std::optional<QString> adjustmentFault(const OperationAdjustment& own, const OperationSpec* spec)
{
    if (own.minutes && (own.minutes->low < 1 || own.minutes->usual < own.minutes->low ||
                        own.minutes->high < own.minutes->usual || own.minutes->high > 24 * 60))
        return QStringLiteral("minutes rise from low to usual to high, from 1 to 1440");
    if (own.materialMinor && (*own.materialMinor < 0 || *own.materialMinor > largestBound))
        return QStringLiteral("the cost of material");
    for (const PhotoSpec& photo : own.photos)
        if (photo.title.trimmed().isEmpty())
            return QStringLiteral("a photo without a title");
    if (spec == nullptr)
        return std::nullopt;
    for (const ReadingAdjustment& limit : own.limits) {
        const auto reading = std::ranges::find(spec->readings, limit.key, &ReadingSpec::key);
        const Limit* house = reading == spec->readings.end() ? nullptr : ownLimit(*reading);
        if (house == nullptr)
            return QStringLiteral("the house has no limit of its own on %1")
                .arg(reading == spec->readings.end() ? limit.key : reading->title);
        if (limit.min.has_value() != house->min.has_value() ||
            limit.max.has_value() != house->max.has_value())
            return QStringLiteral("%1 keeps the ends that its limit has").arg(reading->title);
        if (std::max(limit.min.value_or(0), limit.max.value_or(0)) > largestBound ||
            std::min(limit.min.value_or(0), limit.max.value_or(0)) < -largestBound)
            return QStringLiteral("%1 is out of range").arg(reading->title);
        if (limit.min && limit.max && *limit.min > *limit.max)
            return QStringLiteral("%1 has its ends the wrong way round").arg(reading->title);
    }
    return std::nullopt;
}

bool wantsPinAgain(const SiteCommand& command)
{
    return std::holds_alternative<site::AddPerson>(command) ||
           std::holds_alternative<site::ChangePerson>(command) ||
           std::holds_alternative<site::ChangeAccess>(command) ||
           std::holds_alternative<site::SetHouseRules>(command) ||
           std::holds_alternative<site::SetCompetence>(command) ||
           std::holds_alternative<site::AdjustOperation>(command) ||
           std::holds_alternative<site::AdoptCatalogue>(command);
}

SiteDecision decide(const SiteState& state, const SiteContext& context, const SiteCommand& command)
{
    return std::visit(SiteDecider(state, context), command);
}

} // namespace ramplight
