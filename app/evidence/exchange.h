// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QString>

// A file or folder that takes another's place, and what was there is kept under another name.
namespace ramplight {

/// `fresh` comes into the place of `path`, which gets the free name `aside`; all in one folder. In
/// one step, so that no break leaves the place empty, where the file system can do that and
/// mayBeOneStep says so; else one name after the other: what broke off between the two has nothing
/// at `path`, and both others whole. False: as it was.
[[nodiscard]] bool putInPlaceOf(const QString& path, const QString& fresh, const QString& aside,
                                bool mayBeOneStep = true);

} // namespace ramplight
