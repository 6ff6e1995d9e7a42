// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QString>
#include <QVariant>

#include <utility>
#include <vector>

namespace ramplight {

/// A key of a settings file and its value; one that is not valid: the key goes.
using SettingChange = std::pair<QString, QVariant>;

/// All of the changes are in the file and on the disk when it returns, or none is; the rest of the
/// file stays. Words for a person: why not; empty when they are kept. Any thread, one at a time.
[[nodiscard]] QString keepSettings(const QString& path, const std::vector<SettingChange>& changes);

} // namespace ramplight
