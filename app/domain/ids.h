// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QHash>
#include <QString>

#include <compare>
#include <functional>

// Typed ids, so that a bay is never taken for a person. Value types, no threads, no errors.
namespace ramplight {

/// An id made outside the stream it names (a random one, a content hash, a code).
template <class Tag>
struct Key
{
    QString text;

    [[nodiscard]] bool isEmpty() const { return text.isEmpty(); }
    friend bool operator==(const Key&, const Key&) = default;
    friend bool operator<(const Key& a, const Key& b) { return a.text < b.text; }
    friend size_t qHash(const Key& key, size_t seed = 0) noexcept
    {
        return ::qHash(key.text, seed);
    }
};

/// A number counted up inside one stream: 1, 2, 3 ...; 0 is nobody or nothing. Counting inside the
/// stream keeps decide() free of chance: the same command on the same state gives the same ids.
template <class Tag>
struct Serial
{
    int value = 0;

    [[nodiscard]] bool isNull() const { return value == 0; }
    friend auto operator<=>(const Serial&, const Serial&) = default;
    friend size_t qHash(Serial serial, size_t seed = 0) noexcept
    {
        return ::qHash(serial.value, seed);
    }
};

using SiteId = Key<struct SiteTag>;
using CarId = Key<struct CarTag>;
using CommandId = Key<struct CommandTag>; ///< made by the kiosk; sending it twice changes nothing
using PhotoId = Key<struct PhotoTag>;     ///< lower-case hex SHA-256 of the stored bytes

using PersonId = Serial<struct PersonTag>; ///< counted in the site's stream; 0 is the house itself
using BayId = Serial<struct BayTag>;       ///< counted in the site's stream
using ToolId = Serial<struct ToolTag>;     ///< counted in the site's stream
using FindingId = Serial<struct FindingTag>;     ///< counted in the car's stream
using OperationId = Serial<struct OperationTag>; ///< counted in the car's stream
using SegmentId = Serial<struct SegmentTag>;     ///< counted in the car's stream
using ReadingId = Serial<struct ReadingTag>;     ///< counted in the car's stream

} // namespace ramplight

template <class Tag>
struct std::hash<ramplight::Key<Tag>>
{
    std::size_t operator()(const ramplight::Key<Tag>& key) const noexcept
    {
        return ::qHash(key.text);
    }
};

template <class Tag>
struct std::hash<ramplight::Serial<Tag>>
{
    std::size_t operator()(ramplight::Serial<Tag> serial) const noexcept
    {
        return std::hash<int>{}(serial.value);
    }
};
