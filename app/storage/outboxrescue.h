// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "storage/outbox.h"

// What becomes of an outbox that is damaged or gone. No state but the files; nobody else has them
// open.
namespace ramplight {

/// Reads out of a damaged outbox what can be read and begins another one with that, in which it is
/// told. The damaged file is set aside with what lies beside it, as
/// "outbox.damaged-20310504-134000.sqlite"; where there is no file any more, that is told, too. A
/// break in between leaves the damaged file in its place, or what finishRescue() brings to its end.
/// Errors: Unavailable, there is no room or no right; nothing was changed then.
[[nodiscard]] tl::expected<std::unique_ptr<Outbox>, StoreError>
rescueOutbox(const QString& file, const SiteId& site, Moment now);

/// Where the power went away between setting the old file aside and giving the new one its name.
void finishRescue(const QString& file);

} // namespace ramplight
