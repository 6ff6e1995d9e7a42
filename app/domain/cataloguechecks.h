// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/catalogue.h"

#include <QStringList>

// Whether a catalogue holds together: ids that are there, readings that can be judged, limits with
// a source, safety places that something clears, and an order in which everything can be done.
// Pure; no threads, no I/O.
namespace ramplight {

/// Faults in words, each naming operation (or rule) and field; empty when the catalogue is good.
[[nodiscard]] QStringList checkCatalogue(const Catalogue& catalogue);

/// The operations that must be over before this one can be (or start): those it comes after, the
/// follow-ups that keep it open, and those that forbid what it needs. A legal order exists for
/// every car exactly when no operation waits for itself through these.
[[nodiscard]] QStringList waitsFor(const Catalogue& catalogue, const OperationSpec& operation);

} // namespace ramplight
