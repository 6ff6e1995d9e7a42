// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

namespace ramplight {

/// What this program gives back goes back to the system, though it runs for months: large blocks
/// (pictures above all) are mapped one by one, and few pools hold the small ones of all threads.
/// Before the first thread; without effect where the C library is not GNU's.
void keepMemorySteady();

} // namespace ramplight
