// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QString>

namespace ramplight {

/// Makes it, empty, if it is not there; only this account may read and write it from now on. False:
/// the system refuses. What SQLite puts beside a database gets the same mode.
[[nodiscard]] bool makePrivateFile(const QString& path);

/// A SQLite database and what lies beside it.
void removeDatabase(const QString& path);

} // namespace ramplight
