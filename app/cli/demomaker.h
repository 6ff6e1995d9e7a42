// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "access/pinhasher.h"
#include "cli/tellingledger.h"
#include "domain/catalogue.h"
#include "evidence/photovault.h"
#include "storage/store.h"

#include <QString>

#include <tl/expected.hpp>

#include <functional>

namespace ramplight {

/// Everybody's in the demo workshop; shown on its sign-in screen and in the README.
[[nodiscard]] QString demoPin();

/// Makes the demo workshop in an empty store: a week of work that ends at now, by real commands
/// with a fixed seed. On the store's thread. told hears of every change once it is kept. Error:
/// words.
[[nodiscard]] tl::expected<void, QString> makeDemo(Store& store, const Catalogue& catalogue,
                                                   PhotoVault& photos, const PinHasher& hasher,
                                                   Moment now,
                                                   const std::function<void(double)>& progress,
                                                   const TellingLedger::Told& told = {});

} // namespace ramplight
