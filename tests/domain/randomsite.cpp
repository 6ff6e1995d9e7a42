// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "randomsite.h"

namespace ramplight::test {

namespace {

constexpr PersonId manager{1};
constexpr PersonId lastOfTheBench{9};
constexpr BayId lastBayOfTheBench{2};
const QDate farOff(2099, 3, 20);

/// The place of a command in the variant.
template <class Command, std::size_t Index = 0>
constexpr std::size_t siteKindOf()
{
    if constexpr (std::is_same_v<SiteCommand::Kind<Index>, Command>)
        return Index;
    else
        return siteKindOf<Command, Index + 1>();
}

} // namespace

const std::array<const char*, siteCommandKinds>& siteCommandNames()
{
    static const std::array<const char*, siteCommandKinds> names{
        "SetUp",         "AddPerson", "ChangePerson",    "ChangeAccess",
        "RaisePinAlarm", "SetBay",    "SetHouseRules",   "SetCompetence",
        "SetTimes",      "SetTool",   "AdjustOperation", "AdoptCatalogue"};
    static_assert(siteKindOf<site::AdoptCatalogue>() == siteCommandKinds - 1);
    static_assert(siteKindOf<site::SetBay>() == 5);
    return names;
}

template <class E>
std::vector<E> RandomSite::someOf()
{
    std::vector<E> some;
    for (const auto& [value, name] : Names<E>::table)
        if (m_dice.oneIn(2))
            some.push_back(value);
    return some;
}

const Person& RandomSite::somebody(const SiteState& site)
{
    auto person = site.people.begin();
    std::advance(person, m_dice.below(int(site.people.size())));
    return person->second;
}

RandomSite::Asked RandomSite::addPerson()
{
    static const std::vector<const char*> names{"Ottoline", "Halvard", "Imke", "Torben", "Sunniva"};
    const QString name =
        QStringLiteral("%1 %2").arg(QLatin1StringView(m_dice.any(names)), nextMark());
    // In braces they are thrown one after the other.
    return {site::AddPerson{someOf<Skill>(), someOf<Right>()}, name};
}

SiteCommand RandomSite::changePerson(const SiteState& site)
{
    // Whoever is away comes back, mostly; few go.
    for (const auto& [id, person] : site.people)
        if (!person.active && !m_dice.oneIn(3))
            return site::ChangePerson{id, person.skills, person.rights, true};
    const Person& person = somebody(site);
    const bool stays = person.id == manager || !m_dice.oneIn(3);
    if (person.id <= lastOfTheBench)
        return site::ChangePerson{person.id, person.skills, person.rights, stays};
    return site::ChangePerson{person.id, someOf<Skill>(), someOf<Right>(), stays};
}

SiteCommand RandomSite::setBay(const SiteState& site)
{
    Bay bay{{}, 10 + m_dice.below(1000), nextMark(), BayKind(m_dice.below(4)), true};
    if (!site.bays.empty() && m_dice.oneIn(2)) {
        bay = std::prev(site.bays.end())->second;
        bay.active = bay.id <= lastBayOfTheBench || m_dice.oneIn(2);
        bay.name = nextMark();
    }
    return site::SetBay{bay};
}

SiteCommand RandomSite::setRules(const SiteState& site)
{
    HouseRules rules = site.rules;
    switch (m_dice.below(5)) {
    case 0:
        rules.finalCheckByWorker = !rules.finalCheckByWorker;
        break;
    case 1:
        rules.neverLeft =
            rules.neverLeft.empty() ? std::vector{Skill::Valet} : std::vector<Skill>();
        break;
    case 2:
        rules.sideWords =
            rules.sideWords == SideWords::NearOff ? SideWords::LeftRight : SideWords::NearOff;
        break;
    case 3:
        rules.shiftEndMinute = 60 + m_dice.below(22 * 60);
        break;
    default:
        rules.lockSeconds = 60 + m_dice.below(200);
    }
    return site::SetHouseRules{rules};
}

SiteCommand RandomSite::setCompetence(const SiteState& site)
{
    const Person& person = somebody(site);
    site::SetCompetence set{person.id, person.qualifications, person.specialities};
    if (m_dice.oneIn(2))
        set.specialities = {QStringLiteral("speciality %1").arg(m_dice.below(4))};
    else if (person.id > lastOfTheBench)
        set.qualifications = {{Qualification::HighVoltage, farOff.addDays(m_dice.below(90))}};
    return set;
}

SiteCommand RandomSite::setTimes(const SiteState& site)
{
    const Person& person = somebody(site);
    const QDate first = farOff.addDays(m_dice.below(300));
    PersonTimes times;
    if (!m_dice.oneIn(4))
        times.away = {{first, first.addDays(m_dice.below(14))}};
    return site::SetTimes{person.id, times};
}

SiteCommand RandomSite::setTool(const SiteState& site)
{
    Tool tool{{}, nextMark(), ToolKind(m_dice.below(4)), farOff.addDays(m_dice.below(300)), true};
    if (!site.tools.empty() && m_dice.oneIn(2)) {
        tool.id = site.tools.rbegin()->first;
        tool.active = m_dice.oneIn(2);
    }
    return site::SetTool{tool};
}

SiteCommand RandomSite::adjust()
{
    OperationAdjustment own;
    own.operation = QString::fromLatin1(m_dice.oneIn(2) ? "valet" : "touch-in");
    if (const int usual = m_dice.below(90); usual > 1)
        own.minutes = Minutes{1, usual, 120};
    return site::AdjustOperation{own};
}

SiteCommand RandomSite::change(const SiteState& site, std::size_t what)
{
    switch (what) {
    case 1:
        return setBay(site);
    case 2:
        return setRules(site);
    case 3:
        return setCompetence(site);
    case 4:
        return setTimes(site);
    case 5:
        return setTool(site);
    case 6:
        return adjust();
    default:
        return changePerson(site);
    }
}

RandomSite::Asked RandomSite::anything(const SiteState& site)
{
    const std::size_t what = m_deck.next(m_dice);
    return what == 0 ? addPerson() : Asked{change(site, what), {}};
}

QStringList RandomSite::kinds()
{
    QStringList kinds;
    for (std::size_t kind : {siteKindOf<site::AddPerson>(), siteKindOf<site::ChangePerson>(),
                             siteKindOf<site::SetBay>(), siteKindOf<site::SetHouseRules>(),
                             siteKindOf<site::SetCompetence>(), siteKindOf<site::SetTimes>(),
                             siteKindOf<site::SetTool>(), siteKindOf<site::AdjustOperation>()})
        kinds.append(QString::fromLatin1(siteCommandNames()[kind]));
    return kinds;
}

} // namespace ramplight::test
