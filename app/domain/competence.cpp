// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/competence.h"

#include "domain/site.h"
#include "domain/words.h"

namespace ramplight {

std::optional<Refusal> whyNotAllowed(const Person* person, std::initializer_list<Right> rights)
{
    if (person == nullptr || !person->active)
        return Refusal{RefusalId::PersonUnknown, {}};
    QStringList names;
    for (const Right right : rights) {
        if (person->can(right))
            return std::nullopt;
        names.append(words(right));
    }
    return Refusal{RefusalId::NotAllowed, {names.join(QStringLiteral(" or "))}};
}

std::optional<Refusal> whyNotReceiving(const Person& person, OperationSpec spec)
{
    spec.speciality.clear();
    return whyNotAble(person, spec);
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

} // namespace ramplight
