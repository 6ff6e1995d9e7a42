// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QString>

#include <tl/expected.hpp>

#include <cerrno>
#include <utility>

namespace ramplight {

/// A file that one program holds alone, or several in common, for as long as the object lives. It
/// goes with the process, also when that is killed (flock(2)): what lies there afterwards, and what
/// stands in it, means nothing.
class HeldFile
{
public:
    enum class How { InCommon, Alone };
    /// Of the errors: somebody else holds it.
    static constexpr int held = EWOULDBLOCK;

    /// Makes it where it is missing, and does not wait. Error: an errno.
    [[nodiscard]] static tl::expected<HeldFile, int> take(const QString& path, How how);

    HeldFile(HeldFile&& other) noexcept
        : m_file(std::exchange(other.m_file, -1))
    {
    }
    HeldFile& operator=(HeldFile&&) = delete;
    HeldFile(const HeldFile&) = delete;
    HeldFile& operator=(const HeldFile&) = delete;
    ~HeldFile();

private:
    explicit HeldFile(int file)
        : m_file(file)
    {
    }

    int m_file;
};

} // namespace ramplight
