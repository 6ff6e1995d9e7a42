// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "../storage/storagebench.h"

#include <QByteArray>
#include <QStringList>

// What must hold of a workshop after several kiosks worked in it and things broke meanwhile.
namespace ramplight::test {

/// Out of the whole lines "kept COMMAND", "signed CAR OPERATION COMMAND", "cautions CAR OPERATION
/// PERSON COMMAND", "sound CAR PLACE COMMAND", "repaired CAR PANEL COMMAND" "moved CAR BAY PARKING
/// COMMAND" and "house COMMAND": the commands, and of all but the first kind the whole line.
[[nodiscard]] QStringList keptIn(const QByteArray& output);
/// Command ids out of the whole lines "WORD COMMAND".
[[nodiscard]] QStringList toldIn(const QByteArray& output, QByteArrayView word);

/// Of the wall that is in a database (digestOf()); where it cannot be read, why.
[[nodiscard]] QByteArray wallIn(const StoreSettings& settings);

/// People with their names, rights, rules; empty where it cannot be read.
[[nodiscard]] SiteState houseIn(const StoreSettings& settings);

/// Every broken promise in words; empty: every command that was called kept is there exactly once,
/// or is among the refused, of which none is there; what signed a piece of work signed that and
/// nothing else (where some were refused, as they waited for a server: a piece of work of that
/// car, which may have another number there); who is said to have read cautions has read
/// them, what is said to be sound was looked at, what is said to be repaired was found so, and a
/// car was moved to where it is said to have been, if not by that command then by another; what
/// changed the house is in the site's stream once; at most as many others are as somebody may have
/// been stopped before saying so, the ledger is whole, every photo that it names is where the house
/// has its photos and is what its name says, no car was ever released with an open safety item (nor
/// does any other invariant break, by the house as it was then), everybody in the house has a name,
/// and the wall is that of a replay. That each kiosk's own wall is this one has to be asked of the
/// kiosks while they run. Blocks.
[[nodiscard]] QStringList brokenPromises(const StoreSettings& settings, const QStringList& kept,
                                         int stopped, const QStringList& refused = {});

} // namespace ramplight::test
