// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
// Whether the people of a house can finish a car as the rules want it.
#include "domain/checking.h"
#include "domain/contains.h"
#include "domain/words.h"

#include <QHash>

#include <algorithm>
#include <initializer_list>

namespace ramplight {

namespace {

/// So long before its last day a qualification is warned about.
constexpr int daysOfWarning = 30;

QString nameOf(const Person& person)
{
    return person.name.isEmpty() ? QStringLiteral("Person %1").arg(person.id.value) : person.name;
}

using People = std::vector<const Person*>;
using Specs = std::vector<const OperationSpec*>;

/// Somebody and the work that nobody else may do.
struct OnlyOne
{
    const Person* person = nullptr;
    Specs work;
};

/// Who may do what here on a day, found out once: the wall asks with every minute. Each check is
/// looked at by itself, for who may sign one of everything may sign the others, too.
class Staffing
{
public:
    /// Both outlive it.
    Staffing(const SiteState& site, const Catalogue& catalogue, QDate today)
        : m_site(site)
        , m_catalogue(catalogue)
    {
        for (const auto& [id, person] : site.people)
            if (person.active)
                m_people.push_back(&person);
        for (const OperationSpec& spec : catalogue.operations) {
            m_kinds.insert(spec.id, &spec);
            m_able.insert(&spec, those([&](const Person& person) {
                return !whyNotAble(person, spec) && !whyNotQualified(person, spec, today);
            }));
        }
        m_ofEveryCar = withWhatTheyOpen(baseline({}), {});
        for (const OperationSpec& spec : catalogue.operations)
            if (!contains(m_ofEveryCar, &spec)) {
                Specs kinds = m_ofEveryCar;
                addMissing(kinds, baseline(spec.ifFact));
                addMissing(kinds, {&spec});
                m_withOne.push_back(withWhatTheyOpen(std::move(kinds), spec.ifFact));
            }
    }

    [[nodiscard]] QStringList gaps() const
    {
        QStringList all = releaseGaps();
        for (const OperationSpec& spec : m_catalogue.operations)
            if (spec.secondPerson == SecondPerson::Check && !isByOne(spec))
                all += checkGaps(spec);
        for (const OperationSpec& spec : m_catalogue.operations)
            if (spec.skill != Skill::Office)
                all += workGaps(spec);
        return all + correctionGaps();
    }

private:
    template <class Fits>
    [[nodiscard]] People those(Fits&& fits) const
    {
        People people;
        std::ranges::copy_if(m_people, std::back_inserter(people),
                             [&](const Person* person) { return fits(*person); });
        return people;
    }

    [[nodiscard]] People with(Right right) const { return withAny({right}); }

    [[nodiscard]] People withAny(std::initializer_list<Right> rights) const
    {
        return those([rights](const Person& person) {
            return std::ranges::any_of(rights, [&](Right right) { return person.can(right); });
        });
    }

    [[nodiscard]] const People& able(const OperationSpec& spec) const
    {
        static const People nobody;
        const auto found = m_able.constFind(&spec);
        return found == m_able.cend() ? nobody : *found;
    }

    [[nodiscard]] People checkersOf(const OperationSpec& check) const
    {
        People checkers = able(check);
        std::erase_if(checkers, [](const Person* person) { return !person->can(Right::Check); });
        return checkers;
    }

    /// One person's signature is enough.
    [[nodiscard]] bool isByOne(const OperationSpec& spec) const
    {
        return spec.secondPerson == SecondPerson::None ||
               (spec.secondPerson == SecondPerson::Check && checksEverything(spec) &&
                m_site.rules.finalCheckByWorker);
    }

    /// Nobody else may do it.
    [[nodiscard]] bool isOnlyOne(const Person& person, const OperationSpec& spec) const
    {
        const People& people = able(spec);
        return people.size() == 1 && people.front() == &person;
    }

    /// Of two different people, is one among these and the other among those?
    [[nodiscard]] static bool isPair(const People& ones, const People& others)
    {
        return std::ranges::any_of(ones, [&](const Person* one) {
            return std::ranges::any_of(others, [&](const Person* other) { return other != one; });
        });
    }

    /// Three different people, one among each of these?
    [[nodiscard]] static bool areThree(const People& ones, const People& others, const People& more)
    {
        return std::ranges::any_of(ones, [&](const Person* one) {
            return std::ranges::any_of(others, [&](const Person* other) {
                return other != one && std::ranges::any_of(more, [&](const Person* third) {
                           return third != one && third != other;
                       });
            });
        });
    }

    // ---- what is on one car

    /// What a car with this fact gets on arrival beside the rest; without one: what every car gets.
    [[nodiscard]] Specs baseline(std::optional<Fact> fact) const
    {
        Specs kinds;
        for (const OperationSpec& spec : m_catalogue.operations)
            if (spec.baseline && spec.ifFact == fact)
                kinds.push_back(&spec);
        return kinds;
    }

    /// With all that closing them opens, on cars that have no other fact.
    [[nodiscard]] Specs withWhatTheyOpen(Specs kinds, std::optional<Fact> fact) const
    {
        const auto isSo = [fact](std::optional<Fact> asked) { return !asked || asked == fact; };
        for (std::size_t i = 0; i < kinds.size(); ++i)
            for (const Trigger& trigger : kinds[i]->triggers) {
                const OperationSpec* opened = m_kinds.value(trigger.opens);
                if (opened != nullptr && isSo(trigger.ifFact) && isSo(opened->ifFact))
                    addMissing(kinds, {opened});
            }
        return kinds;
    }

    // ---- checks

    [[nodiscard]] bool covers(const OperationSpec& check, const OperationSpec& work) const
    {
        return &work != &check &&
               (coversKind(check, work, m_site.rules) ||
                std::ranges::find(work.triggers, check.id, &Trigger::opens) != work.triggers.end());
    }

    /// For each who may sign the check, what keeps them from it on a car with this work; empty when
    /// somebody is left. Whatever work others can do, they do.
    [[nodiscard]] std::vector<OnlyOne> keptFrom(const OperationSpec& check,
                                                const Specs& onTheCar) const
    {
        std::vector<OnlyOne> kept;
        for (const Person* person : checkersOf(check)) {
            OnlyOne only{person, {}};
            for (const OperationSpec* work : onTheCar)
                if (isOnlyOne(*person, *work) && covers(check, *work))
                    only.work.push_back(work);
            if (only.work.empty())
                return {};
            kept.push_back(std::move(only));
        }
        return kept;
    }

    /// The same for cars that get more than every car does, whatever that is.
    [[nodiscard]] std::vector<OnlyOne> keptFromSome(const OperationSpec& check) const
    {
        std::vector<OnlyOne> all;
        for (const Specs& onTheCar : m_withOne) {
            if (!contains(onTheCar, &check))
                continue;
            const std::vector<OnlyOne> kept = keptFrom(check, onTheCar);
            if (all.empty())
                all = kept;
            else // who may sign the check is the same for every car
                for (std::size_t i = 0; i < kept.size(); ++i)
                    addMissing(all[i].work, kept[i].work);
        }
        return all;
    }

    [[nodiscard]] QStringList checkGaps(const OperationSpec& check) const
    {
        if (checkersOf(check).empty())
            return {QStringLiteral("Nobody here can check: %1 (%2). Give somebody the right to "
                                   "check who does none of that work.")
                        .arg(check.title, neededWords(check))};
        const bool isOfEveryCar = contains(m_ofEveryCar, &check);
        std::vector<OnlyOne> kept;
        if (isOfEveryCar)
            kept = keptFrom(check, m_ofEveryCar);
        const bool always = !kept.empty();
        if (!always)
            kept = keptFromSome(check);
        if (kept.empty())
            return {};
        QStringList people;
        for (const OnlyOne& only : kept) {
            people.append(
                QStringLiteral("%1 may do: %2").arg(nameOf(*only.person), firstOf(only.work)));
        }
        return {QStringLiteral("Nobody but %1, so nobody is left to check %2: %3. Give somebody "
                               "else the right to check, or what that work needs (%4).")
                    .arg(people.join(QStringLiteral("; nobody but ")),
                         always ? QStringLiteral("any car") : QStringLiteral("a car that needs it"),
                         check.title, neededWords(*kept.front().work.front()))};
    }

    // ---- the rest

    [[nodiscard]] QStringList releaseGaps() const
    {
        const People releasers = with(Right::Release);
        if (releasers.empty())
            return {QStringLiteral("Nobody here may release a car to sale.")};
        if (releasers.size() > 1)
            return {};
        // Whoever releases a car is not the only name under its safety work.
        bool signsSome = false;
        for (const OperationSpec* spec : m_ofEveryCar) {
            if (!spec->safety)
                continue;
            if (!isByOne(*spec) || isPair(releasers, able(*spec)))
                return {};
            signsSome = signsSome || !able(*spec).empty();
        }
        if (!signsSome)
            return {};
        return {QStringLiteral("Nobody but %1 may do the safety work that every car needs, and "
                               "nobody else may release one: nobody may do both alone. Give "
                               "somebody else the right to release.")
                    .arg(nameOf(*releasers.front()))};
    }

    [[nodiscard]] QStringList workGaps(const OperationSpec& spec) const
    {
        if (isByOne(spec) && !spec.safety)
            return {};
        const bool countersigned = spec.secondPerson == SecondPerson::Countersign;
        if (countersigned && !isPair(able(spec), with(Right::Check)))
            return {QStringLiteral("No two people here can do and check: %1. One must do the work, "
                                   "another with the right to check must check it.")
                        .arg(spec.title)};
        if (able(spec).empty())
            return isByOne(spec) ? QStringList{QStringLiteral("Nobody here can do: %1 (%2).")
                                                   .arg(spec.title, neededWords(spec))}
                                 : QStringList(); // said as a check
        // Nobody signs against a figure that they entered themselves, neither first nor second.
        if (!needsFigure(spec) ||
            (countersigned ? areThree(able(spec), with(Right::Check), entering())
                           : isPair(able(spec), entering())))
            return {};
        return {QStringLiteral("Nobody here can enter the figure for: %1. Somebody with the right "
                               "to check or manage must, other than who signs.")
                    .arg(spec.title)};
    }

    [[nodiscard]] static bool needsFigure(const OperationSpec& spec)
    {
        return std::ranges::any_of(spec.readings, [](const auto& reading) {
            return reading.neededFrom && !reading.optional;
        });
    }

    /// Who may enter a figure of a car, or correct one.
    [[nodiscard]] People entering() const { return withAny({Right::Check, Right::Manage}); }

    // ---- what was wrong

    /// Where the work can be done, but a mistake in it could not be put right.
    [[nodiscard]] QStringList correctionGaps() const
    {
        QStringList all;
        const People finding = with(Right::Appraise);
        const People correcting = withAny({Right::Appraise, Right::Check, Right::Manage});
        if (!finding.empty() && !isPair(finding, correcting))
            all.append(QStringLiteral("Nobody but %1 is here to correct what was found at a safety "
                                      "place, and that takes a second person, with the right to "
                                      "appraise, check or manage.")
                           .arg(nameOf(*finding.front())));
        // Neither who entered the figure nor who read against it.
        Specs stuck;
        for (const OperationSpec& spec : m_catalogue.operations)
            if (spec.safety && needsFigure(spec) && isPair(able(spec), entering()) &&
                !areThree(able(spec), entering(), entering()))
                stuck.push_back(&spec);
        if (!stuck.empty())
            all.append(QStringLiteral(
                           "If a figure that was read against turns out to be wrong (%1), nobody "
                           "is left to correct it: that takes a third person, with the right "
                           "to check or manage.")
                           .arg(firstOf(stuck)));
        return all;
    }

    /// "Wheel fixings (and 2 more)".
    [[nodiscard]] static QString firstOf(const Specs& work)
    {
        const QString first = work.front()->title;
        return work.size() == 1 ? first
                                : QStringLiteral("%1 (and %2 more)")
                                      .arg(first, QString::number(work.size() - 1));
    }

    const SiteState& m_site;
    const Catalogue& m_catalogue;
    People m_people; ///< who works here
    QHash<QString, const OperationSpec*> m_kinds;
    QHash<const OperationSpec*, People> m_able;
    Specs m_ofEveryCar;
    std::vector<Specs> m_withOne; ///< a car with one thing more, for each
};

/// What ends, and cosmetic work that people have the skill for but nobody the certificate.
QStringList qualificationGaps(const SiteState& site, const Catalogue& catalogue, QDate today)
{
    QStringList gaps;
    for (const auto& [id, person] : site.people)
        for (const HeldQualification& held : person.qualifications) {
            if (!person.active || held.until > today.addDays(daysOfWarning))
                continue;
            gaps.append((held.isInDate(today) ? QStringLiteral("%1: %2 ends on %3.")
                                              : QStringLiteral("%1: %2 ended on %3."))
                            .arg(nameOf(person), words(held.qualification), dayWords(held.until)));
        }
    for (const OperationSpec& spec : catalogue.operations) {
        if (!spec.qualification || spec.safety || spec.secondPerson != SecondPerson::None)
            continue;
        bool skilled = false;
        bool qualified = false;
        for (const auto& [id, person] : site.people) {
            const bool able = person.active && !whyNotAble(person, spec);
            skilled = skilled || able;
            qualified = qualified || (able && !whyNotQualified(person, spec, today));
        }
        if (skilled && !qualified)
            gaps.append(
                QStringLiteral("Nobody here can do: %1 (%2).").arg(spec.title, neededWords(spec)));
    }
    return gaps;
}

} // namespace

QStringList missingCombinations(const SiteState& site, const Catalogue& catalogue, QDate today)
{
    QStringList gaps = Staffing(site, catalogue, today).gaps();
    gaps += qualificationGaps(site, catalogue, today);
    gaps.removeDuplicates();
    return gaps;
}

} // namespace ramplight
