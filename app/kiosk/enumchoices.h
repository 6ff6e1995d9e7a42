// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/words.h"
#include "kiosk/carwords.h"
#include "kiosk/choices.h"

// Named enumerations as choices of a form, and back.
namespace ramplight {

template <class E>
[[nodiscard]] std::vector<ChoiceRow> rowsOf()
{
    std::vector<ChoiceRow> rows;
    for (const auto& [value, name] : Names<E>::table)
        rows.push_back({QString::fromLatin1(name), sentence(words(value)), {}, false});
    return rows;
}

template <class E>
[[nodiscard]] std::vector<E> chosenOf(const Choices& choices)
{
    std::vector<E> all;
    for (const QString& id : choices.chosen())
        if (const auto known = fromName<E>(id))
            all.push_back(*known);
    return all;
}

template <class E>
[[nodiscard]] QStringList idsOf(const std::vector<E>& values)
{
    QStringList ids;
    for (const E value : values)
        ids.append(nameOf(value));
    return ids;
}

} // namespace ramplight
