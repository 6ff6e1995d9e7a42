// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QString>

#include <functional>

namespace ramplight::test {

/// A folder with everything in it, to a place where nothing is yet.
[[nodiscard]] bool copyFolder(const QString& from, const QString& to);

/// What make puts into a folder that is not there yet, at `to`. In a run of many test programs,
/// where RAMPLIGHT_SHARED names a folder of that run, the first that asks for the name makes it and
/// the others copy; alone each makes its own. False when it could not be made.
[[nodiscard]] bool copyOfShared(const QString& name, const QString& to,
                                const std::function<bool(const QString& folder)>& make);

} // namespace ramplight::test
