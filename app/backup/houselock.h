// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QLatin1StringView>
#include <QString>

#include <tl/expected.hpp>

#include <utility>

namespace ramplight {

/// Whether somebody works in a workshop's folder: every program that does holds it in common,
/// whoever exchanges the folder holds it alone. It lies in the folder and goes with the process,
/// also when that is killed (flock(2)).
class HouseLock
{
public:
    static constexpr QLatin1StringView fileName{"in-use"};

    /// Errors: words that say who is in the way.
    [[nodiscard]] static tl::expected<HouseLock, QString> inCommon(const QString& folder);
    [[nodiscard]] static tl::expected<HouseLock, QString> alone(const QString& folder);

    HouseLock(HouseLock&& other) noexcept
        : m_file(std::exchange(other.m_file, -1))
    {
    }
    HouseLock& operator=(HouseLock&&) = delete;
    HouseLock(const HouseLock&) = delete;
    HouseLock& operator=(const HouseLock&) = delete;
    ~HouseLock();

private:
    explicit HouseLock(int file)
        : m_file(file)
    {
    }
    [[nodiscard]] static tl::expected<HouseLock, QString> take(const QString& folder, int how,
                                                               const QString& otherwise);
    int m_file;
};

} // namespace ramplight
