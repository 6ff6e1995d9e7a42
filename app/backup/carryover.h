// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QString>
#include <QStringList>

#include <tl/expected.hpp>

#include <functional>

namespace ramplight {

/// Copies what lies in one folder into another, with the folders in it, times and rights, and
/// brings it to the disk. staysBehind: of which names at the top that is not so. What cannot be
/// read is left out: those paths within the folder. Error: a path that cannot be written.
[[nodiscard]] tl::expected<QStringList, QString>
carryOver(const QString& from, const QString& to,
          const std::function<bool(const QString& name)>& staysBehind);

} // namespace ramplight
