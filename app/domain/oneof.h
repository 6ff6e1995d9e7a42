// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <concepts>
#include <cstddef>
#include <utility>
#include <variant>

// A std::variant of many kinds that is copied, moved, compared and destroyed in one unit
// (oneof.cpp) instead of in each that holds one: with 46 kinds these four cost the compiler 3 s a
// unit, and making one of a kind 60 ms more. Made, visited and asked like any variant.
namespace ramplight {

template <class Variant>
struct KindsOf;
template <class... Kinds>
struct KindsOf<std::variant<Kinds...>>
{
    template <class T>
    static constexpr bool have = (std::same_as<T, Kinds> || ...);
    static constexpr bool areComparable = (std::equality_comparable<Kinds> && ...);
};

template <class V>
class OneOf : public V
{
public:
    using Variant = V;
    static constexpr std::size_t kinds = std::variant_size_v<Variant>;
    template <std::size_t index>
    using Kind = std::variant_alternative_t<index, Variant>;

    OneOf();
    template <class T>
    requires(KindsOf<Variant>::template have<T>) OneOf(T value)
        : OneOf()
    {
        hold(std::move(value));
    }
    OneOf(const OneOf& other);
    OneOf(OneOf&& other) noexcept;
    OneOf& operator=(const OneOf& other);
    OneOf& operator=(OneOf&& other) noexcept;
    ~OneOf();

    // The base has one that does not compile; who asks for an order (a QVariant) is told that there
    // is none.
    friend bool operator<(const OneOf& a, const OneOf& b) = delete;
    [[nodiscard]] bool operator==(const OneOf& other) const
        requires(KindsOf<Variant>::areComparable);

    /// From here on it is this; the same as assigning it.
    template <class T>
    void hold(T&& value);
};

} // namespace ramplight
