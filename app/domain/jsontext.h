// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/codec.h"

#include <QByteArray>

#include <array>
#include <cstddef>
#include <string>
#include <string_view>

// The JSON of codec.h as text, written in one go: the same bytes as of a compact QJsonDocument,
// keys in the order of their letters. Hashes are taken over it, so it is canonical: one value, one
// text.
namespace ramplight {

namespace codec {

template <class T>
constexpr std::size_t fieldCount()
{
    std::size_t count = 0;
    T::fields([&](const auto&) { ++count; });
    return count;
}

/// For each field of a struct, which place its name has among the others.
template <class T>
constexpr auto fieldRanks()
{
    constexpr std::size_t count = fieldCount<T>();
    std::array<std::string_view, count> names{};
    std::size_t next = 0;
    T::fields([&](const auto& f) { names[next++] = f.name; });
    std::array<std::size_t, count> ranks{};
    for (std::size_t i = 0; i < count; ++i)
        for (std::size_t other = 0; other < count; ++other)
            if (names[other] < names[i])
                ++ranks[i];
    return ranks;
}

void appendText(const QString& value, std::string& text);

template <class T>
void appendText(const T& value, std::string& text)
{
    if constexpr (std::is_same_v<T, bool>) {
        text += value ? "true" : "false";
    } else if constexpr (std::is_same_v<T, int> || std::is_same_v<T, qint64>) {
        text += std::to_string(value);
    } else if constexpr (std::is_same_v<T, QDate>) {
        if (value.isValid())
            appendText(value.toString(Qt::ISODate), text);
        else
            text += "null";
    } else if constexpr (std::is_same_v<T, Moment>) {
        appendText(value.ms, text);
    } else if constexpr (IsKey<T>::value) {
        appendText(value.text, text);
    } else if constexpr (IsSerial<T>::value) {
        appendText(value.value, text);
    } else if constexpr (NamedEnum<T>) {
        appendText(nameOf(value), text);
    } else if constexpr (IsVector<T>::value || std::is_same_v<T, QStringList>) {
        text += '[';
        bool first = true;
        for (const auto& item : value) {
            if (!first)
                text += ',';
            first = false;
            appendText(item, text);
        }
        text += ']';
    } else if constexpr (IsOptional<T>::value) {
        if (value)
            appendText(*value, text);
        else
            text += "null";
    } else if constexpr (IsShared<T>::value) {
        appendText(*value, text);
    } else {
        static_assert(Described<T>, "give the struct a list of fields");
        struct Member
        {
            const char* name = nullptr; ///< null: it has its default and leaves no key
            const void* value = nullptr;
            void (*append)(const void*, std::string&) = nullptr;
        };
        static constexpr auto ranks = fieldRanks<T>();
        static const T blank{};
        std::array<Member, ranks.size()> members{};
        std::size_t next = 0;
        T::fields([&](const auto& f) {
            const std::size_t rank = ranks[next++];
            const auto& member = value.*(f.member);
            if (member == blank.*(f.member))
                return;
            using Value = std::decay_t<decltype(member)>;
            members[rank] = {f.name, &member, [](const void* what, std::string& into) {
                                 appendText(*static_cast<const Value*>(what), into);
                             }};
        });
        text += '{';
        bool first = true;
        for (const Member& member : members) {
            if (member.name == nullptr)
                continue;
            text += first ? "\"" : ",\"";
            first = false;
            text += member.name;
            text += "\":";
            member.append(member.value, text);
        }
        text += '}';
    }
}

} // namespace codec

template <Described T>
[[nodiscard]] QByteArray jsonText(const T& value)
{
    std::string text; // appends in a third of the time that a QByteArray takes
    text.reserve(512);
    codec::appendText(value, text);
    return QByteArray::fromStdString(text);
}

} // namespace ramplight
