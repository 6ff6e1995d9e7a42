// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/audit.h"
#include "domain/housebounds.h"

#include <algorithm>

namespace ramplight {

namespace {

/// Judges one entry on the site as it was just before it.
class SiteAuditor
{
public:
    SiteAuditor(const SiteState& site, const SiteEnvelope& entry,
                const std::vector<SiteEnvelope>& group, QStringList& broken)
        : m_site(site)
        , m_entry(entry)
        , m_broken(broken)
        , m_settingUp(std::ranges::any_of(group, [](const SiteEnvelope& other) {
            return std::holds_alternative<SiteSetUp>(other.event);
        }))
    {
    }

    void judge()
    {
        blameIf(m_entry.at < m_site.lastAt, "is dated before the entry in front of it");
        std::visit(*this, m_entry.event);
    }

    void operator()(const SiteSetUp& e)
    {
        blameIf(m_site.isSetUp(), "sets up a workshop that is set up");
        blameIf(e.name.trimmed().isEmpty(), "sets up a workshop without a name");
        judgeRules(e.rules);
    }

    void operator()(const PersonAdded& e)
    {
        // Whoever sets the workshop up is the first to manage it.
        if (!m_settingUp || !m_site.people.empty())
            needsManager();
        blameIf(m_site.people.contains(e.person), "takes the number of another person");
        blameIf(e.person != nextOf<PersonId>(m_site.people), "takes another number than the next");
    }

    void operator()(const PersonChanged& e)
    {
        needsManager();
        knowsPerson(e.person);
        const bool manages =
            e.active && std::ranges::find(e.rights, Right::Manage) != e.rights.end();
        const bool anotherDoes = std::ranges::any_of(m_site.people, [&](const auto& other) {
            return other.first != e.person && other.second.can(Right::Manage);
        });
        blameIf(!manages && !anotherDoes, "leaves nobody who could manage");
    }

    void operator()(const AccessChanged& e)
    {
        knowsPerson(e.person);
        const Person* person = m_site.person(e.person);
        if (e.person != m_entry.by || e.what != QLatin1String("pin"))
            needsManager();
        else
            blameIf(person != nullptr && !person->active, "was written by nobody of this site");
    }

    void operator()(const PinAlarm& e)
    {
        if (!e.person.isNull() || e.locked || e.people < 2)
            knowsPerson(e.person);
        blameIf(e.failures < 1, "raises an alarm about nothing");
    }

    void operator()(const BaySet& e)
    {
        needsManager();
        blameIf(e.bay.name.isEmpty() || e.bay.number < 1, "has a bay without a name or number");
        blameIf(e.bay.active && std::ranges::any_of(m_site.bays,
                                                    [&](const auto& other) {
                                                        return other.first != e.bay.id &&
                                                               other.second.active &&
                                                               other.second.number == e.bay.number;
                                                    }),
                "takes the number of another bay");
        blameIf(m_site.bay(e.bay.id) == nullptr && e.bay.id != nextOf<BayId>(m_site.bays),
                "changes a bay that is not there");
    }

    void operator()(const HouseRulesSet& e)
    {
        needsManager();
        judgeRules(e.rules);
    }

    void operator()(const QualificationSet& e)
    {
        needsManager();
        knowsPerson(e.person);
    }

    void operator()(const SpecialitiesSet& e)
    {
        needsManager();
        knowsPerson(e.person);
    }

    void operator()(const PersonTimesSet& e)
    {
        needsManager();
        knowsPerson(e.person);
        blameIf(timesFault(e.times).has_value(), "sets a person's times that cannot be");
    }

    void operator()(const ToolSet& e)
    {
        needsManager();
        blameIf(e.tool.number.isEmpty() || !e.tool.nextCalibration.isValid(),
                "has a tool without its number or its day");
        blameIf(e.tool.active && std::ranges::any_of(m_site.tools,
                                                     [&](const auto& other) {
                                                         return other.first != e.tool.id &&
                                                                other.second.active &&
                                                                other.second.number.compare(
                                                                    e.tool.number,
                                                                    Qt::CaseInsensitive) == 0;
                                                     }),
                "takes the number of another tool");
        blameIf(m_site.tool(e.tool.id) == nullptr && e.tool.id != nextOf<ToolId>(m_site.tools),
                "changes a tool that is not there");
    }

    void operator()(const OperationAdjusted& e)
    {
        needsManager();
        // The shipped catalogue of that day is not in the ledger.
        const Catalogue* known = m_site.adopted.catalogue.get();
        const OperationSpec* spec =
            known == nullptr ? nullptr : known->find(e.adjustment.operation);
        blameIf(known != nullptr && spec == nullptr,
                "changes work that the catalogue does not have");
        if (const auto fault = adjustmentFault(e.adjustment, spec))
            m_broken.append(QStringLiteral("Entry %1 changes work to what cannot be: %2.")
                                .arg(m_entry.seq)
                                .arg(*fault));
    }
    // What a catalogue's faults are changes with the program: one that was taken in is what it was.
    void operator()(const CatalogueAdopted&) { needsManager(); }

private:
    void blameIf(bool wrong, const char* what)
    {
        if (wrong)
            m_broken.append(
                QStringLiteral("Entry %1 %2.").arg(m_entry.seq).arg(QString::fromUtf8(what)));
    }

    template <class Id, class Items>
    [[nodiscard]] static Id nextOf(const Items& items)
    {
        return items.empty() ? Id{1} : Id{items.rbegin()->first.value + 1};
    }

    void needsManager()
    {
        blameIf(!m_site.isSetUp(), "was written before there was a workshop");
        const Person* actor = m_site.person(m_entry.by);
        blameIf(actor == nullptr || !actor->active, "was written by nobody of this site");
        blameIf(actor != nullptr && actor->active && !actor->can(Right::Manage),
                "was written without the right to manage");
    }

    void knowsPerson(PersonId person)
    {
        blameIf(m_site.person(person) == nullptr, "speaks of a person who is not there");
    }

    void judgeRules(const HouseRules& rules)
    {
        if (const auto fault = boundsFault(rules))
            m_broken.append(QStringLiteral("Entry %1 sets a rule that cannot be: %2.")
                                .arg(m_entry.seq)
                                .arg(*fault));
        for (const HouseLimit& own : rules.limits) {
            blameIf(std::ranges::count(rules.limits, own.name, &HouseLimit::name) > 1,
                    "sets one limit of the house twice");
            blameIf((own.value < 0 || own.value > largestBound) &&
                        std::ranges::find(m_site.rules.limits, own) == m_site.rules.limits.end(),
                    "sets a limit of the house that cannot be");
        }
    }

    const SiteState& m_site;
    const SiteEnvelope& m_entry;
    QStringList& m_broken;
    bool m_settingUp;
};

} // namespace

QStringList siteRulesBroken(const SiteState& before, const std::vector<SiteEnvelope>& group)
{
    QStringList broken;
    SiteState site = before;
    for (const SiteEnvelope& entry : group) {
        SiteAuditor(site, entry, group, broken).judge();
        apply(site, entry);
    }
    return broken;
}

} // namespace ramplight
