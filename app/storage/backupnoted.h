// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/sitebackup.h"
#include "storage/store.h"

namespace ramplight {

/// Kept among the settings of the site, so that each of its kiosks can read it. Blank: none is
/// noted, or what is there cannot be read. Errors: those of SqlSettings.
[[nodiscard]] tl::expected<SiteBackup, StoreError> notedBackup(Store& store);
/// In the place of an earlier one; an older one than is noted changes nothing, but where that lies
/// so far ahead that a wrong clock dated it.
[[nodiscard]] tl::expected<void, StoreError> noteBackup(Store& store, const SiteBackup& backup);

} // namespace ramplight
