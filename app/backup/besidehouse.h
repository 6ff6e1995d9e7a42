// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/moment.h"

#include <QString>

// What lies beside a workshop's folder while a backup is brought back into it, and afterwards.
namespace ramplight {

/// The workshop on its way.
[[nodiscard]] QString restoreDraftOf(const QString& house);
/// A folder in that, which goes once it is whole.
[[nodiscard]] QString restoreDraftsName();
/// A free name for what was there before.
[[nodiscard]] QString houseAsideOf(const QString& house, Moment now);
/// What was set aside last; empty: nothing.
[[nodiscard]] QString newestSetAside(const QString& house);

/// Where a restore broke off with the house set aside and the new one, which is whole, not yet in
/// its place: brings it there. Whether it did. database: its name in the house.
bool finishRestore(const QString& house, const QString& database);

} // namespace ramplight
