// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QString>
#include <QStringView>

#include <array>
#include <optional>
#include <string_view>
#include <utility>

// Enumerations that are written into files and the ledger carry one table of their names:
//   template <> struct Names<Skill> { static constexpr std::array table{std::pair{Skill::Glass,
//   "glass"}, ...}; };
// The text is the contract; the order of the enumerators is not.
namespace ramplight {

template <class E>
struct Names;

template <class E>
concept NamedEnum = std::is_enum_v<E> && requires
{
    Names<E>::table.size();
};

template <NamedEnum E>
[[nodiscard]] QString nameOf(E value)
{
    for (const auto& [v, name] : Names<E>::table)
        if (v == value)
            return QString::fromLatin1(name);
    return {};
}

template <NamedEnum E>
[[nodiscard]] std::optional<E> fromName(QStringView name)
{
    for (const auto& [v, text] : Names<E>::table)
        if (name == QLatin1StringView(text))
            return v;
    return std::nullopt;
}

} // namespace ramplight
