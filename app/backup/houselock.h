// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "backup/heldfile.h"

#include <QLatin1StringView>
#include <QString>

#include <tl/expected.hpp>

#include <utility>

namespace ramplight {

/// Whether somebody works in a workshop's folder: every program that does holds it in common,
/// whoever exchanges the folder holds it alone. A HeldFile in the folder.
class HouseLock
{
public:
    static constexpr QLatin1StringView fileName{"in-use"};

    /// Errors: words that say who is in the way.
    [[nodiscard]] static tl::expected<HouseLock, QString> inCommon(const QString& folder);
    [[nodiscard]] static tl::expected<HouseLock, QString> alone(const QString& folder);

private:
    explicit HouseLock(HeldFile file)
        : m_file(std::move(file))
    {
    }
    [[nodiscard]] static tl::expected<HouseLock, QString>
    take(const QString& folder, HeldFile::How how, const QString& otherwise);
    HeldFile m_file;
};

} // namespace ramplight
