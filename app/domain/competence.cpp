// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/competence.h"

#include "domain/site.h"
#include "domain/words.h"

#include <algorithm>

namespace ramplight {

namespace {

/// So long before its last day a qualification is warned about.
constexpr int daysOfWarning = 30;

QString nameOf(const Person& person)
{
    return person.name.isEmpty() ? QStringLiteral("Person %1").arg(person.id.value) : person.name;
}

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
    if (!spec.speciality.isEmpty() && !person.specialities.contains(spec.speciality))
        return Refusal{RefusalId::SpecialityMissing, {specialityWords(spec.speciality)}};
    return std::nullopt;
}

std::optional<Refusal> whyNotQualified(const Person& person, const OperationSpec& spec, QDate today)
{
    if (!spec.qualification)
        return std::nullopt;
    const HeldQualification* held = person.held(*spec.qualification);
    if (held == nullptr)
        return Refusal{RefusalId::QualificationMissing, {words(*spec.qualification)}};
    if (!held->isInDate(today))
        return Refusal{RefusalId::QualificationOver,
                       {words(*spec.qualification), dayWords(held->until)}};
    return std::nullopt;
}

QStringList missingCombinations(const SiteState& site, const Catalogue& catalogue, QDate today)
{
    QStringList gaps;
    const auto count = [&](auto&& fits) {
        return std::ranges::count_if(
            site.people, [&](const auto& p) { return p.second.active && fits(p.second); });
    };
    const auto canDo = [today](const OperationSpec& spec) {
        return [&spec, today](const Person& p) {
            return !whyNotAble(p, spec) && !whyNotQualified(p, spec, today);
        };
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
                QStringLiteral("Nobody here can do: %1 (%2).").arg(spec.title, neededWords(spec)));
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
    gaps += qualificationGaps(site, catalogue, today);
    if (count([](const Person& p) { return p.can(Right::Release); }) == 0)
        gaps.append(QStringLiteral("Nobody here may release a car to sale."));
    gaps.removeDuplicates();
    return gaps;
}

} // namespace ramplight
