// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "randomcommands.h"

namespace ramplight::test {

constexpr std::size_t siteCommandKinds = SiteCommand::kinds;
/// E.g. "AddPerson"; in the order of the variant.
[[nodiscard]] const std::array<const char*, siteCommandKinds>& siteCommandNames();

/// What a manager changes in a house that has the bench's people: somebody comes, leaves or comes
/// back, may more or less, is qualified or away; a bay, a tool, a rule, the minutes of some work.
/// The bench's own people keep their rights, so that there is somebody for everything.
class RandomSite
{
public:
    /// mark: in every name and number that is given, so that no other house gives it. The dice
    /// outlive it.
    RandomSite(Dice& dice, QString mark)
        : m_dice(dice)
        , m_mark(std::move(mark))
    {
    }

    struct Asked
    {
        SiteCommand command;
        QString name; ///< with AddPerson
    };
    /// Kinds that it ever asks.
    [[nodiscard]] static QStringList kinds();
    [[nodiscard]] Asked anything(const SiteState& site);

private:
    [[nodiscard]] SiteCommand change(const SiteState& site, std::size_t what);
    [[nodiscard]] Asked addPerson();
    [[nodiscard]] SiteCommand changePerson(const SiteState& site);
    [[nodiscard]] SiteCommand setBay(const SiteState& site);
    [[nodiscard]] SiteCommand setRules(const SiteState& site);
    [[nodiscard]] SiteCommand setCompetence(const SiteState& site);
    [[nodiscard]] SiteCommand setTimes(const SiteState& site);
    [[nodiscard]] SiteCommand setTool(const SiteState& site);
    [[nodiscard]] SiteCommand adjust();
    [[nodiscard]] const Person& somebody(const SiteState& site);
    template <class E>
    [[nodiscard]] std::vector<E> someOf();
    [[nodiscard]] QString nextMark() { return QStringLiteral("%1-%2").arg(m_mark).arg(++m_made); }

    Dice& m_dice;
    Deck m_deck{10};
    QString m_mark;
    int m_made = 0;
};

} // namespace ramplight::test
