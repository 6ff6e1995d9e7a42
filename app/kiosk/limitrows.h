// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/catalogue.h"
#include "kiosk/settingslists.h"

// Limits as the settings list them: bound, owner, source. Pure.
namespace ramplight {

[[nodiscard]] LimitRow limitRow(const NamedLimit& limit, bool own);
/// A row for each bound of the operation's readings. Those of the house are `own` where the
/// operation itself carries them; shipped: the same operation without the house's changes.
[[nodiscard]] std::vector<LimitRow> limitRows(const OperationSpec& spec,
                                              const OperationSpec& shipped);

} // namespace ramplight
