// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "cli/steadymemory.h"

#include <cstdlib>
#ifdef __GLIBC__
#include <malloc.h>
#endif

namespace ramplight {

void keepMemorySteady()
{
#ifdef __GLIBC__
    // GNU's library maps blocks from 128 KiB on, too, but raises that bound to 32 MiB with each
    // that is given back, and makes a pool of small blocks for each thread, up to eight a core.
    constexpr int mappedFrom = 128 * 1024;
    constexpr int pools = 2;
    ::mallopt(M_MMAP_THRESHOLD, mappedFrom);
    ::mallopt(M_ARENA_MAX, pools);
#endif
}

} // namespace ramplight
