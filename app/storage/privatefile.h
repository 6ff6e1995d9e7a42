// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/ports.h"

#include <QString>

#include <tl/expected.hpp>

namespace ramplight {

/// Makes it, empty, if it is not there; only this account may read and write it from now on. What
/// SQLite puts beside a database gets the same mode. Error: Unavailable, the system refuses.
[[nodiscard]] tl::expected<void, StoreError> makePrivateFile(const QString& path);

/// Another account of this machine may read or change it.
[[nodiscard]] bool isOpenToOthers(const QString& path);

/// The first line of a file that is not open to others. Error: words for a person.
[[nodiscard]] tl::expected<QString, QString> passwordIn(const QString& path);

/// A SQLite database and what lies beside it.
void removeDatabase(const QString& path);

/// A SQLite database that nobody has open, and its log, as far as the disk gives them: a block that
/// cannot be read is zeros there. `to` is not there yet. Error: Unavailable, it cannot be written.
[[nodiscard]] tl::expected<void, StoreError> copyDamagedDatabase(const QString& from,
                                                                 const QString& to);

} // namespace ramplight
