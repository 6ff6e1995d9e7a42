// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "storage/entry.h"

#include <vector>

// What a damaged file has beyond the backup.
namespace ramplight {

/// A stream beyond the backup.
struct LaterStream
{
    std::vector<const Entry*> entries;
    qint64 firstAt = 0; ///< position of the first later entry, also of one that is lost
    qint64 last = 0;    ///< number of the last, likewise
    bool isLeft = false;
};

struct LaterCommand
{
    std::vector<const Entry*> entries; ///< without the heads
    const Entry* heads = nullptr;
    Heads sealed;
    bool isWhole = false;
};

} // namespace ramplight
