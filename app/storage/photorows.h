// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "evidence/photoshelf.h"
#include "storage/connection.h"

#include <vector>

// The rows of photos in the workshop's own database. On the connection's thread, outside the site's
// lock.
namespace ramplight {

/// All of these forms or none; what is there is written over. Durable when it returns.
[[nodiscard]] tl::expected<void, SqlFault> writePhotoRows(Connection& connection,
                                                          const SiteId& site, const PhotoId& photo,
                                                          const std::vector<ShelvedBytes>& forms);

/// Whether the full picture is there.
[[nodiscard]] tl::expected<bool, SqlFault> hasPhotoRows(Connection& connection, const SiteId& site,
                                                        const PhotoId& photo);

/// What stands for the form in a row.
[[nodiscard]] QString photoFormText(PhotoForm form);

} // namespace ramplight
