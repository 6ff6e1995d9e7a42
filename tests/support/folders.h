// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QString>

namespace ramplight::test {

/// A folder with everything in it, to a place where nothing is yet.
[[nodiscard]] bool copyFolder(const QString& from, const QString& to);

} // namespace ramplight::test
