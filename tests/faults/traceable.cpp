// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
//
// Put in front of the C library (LD_PRELOAD): the program may be traced by whoever started it,
// though it forbids that to keep its memory to itself. So its threads can be stopped one by one
// without root's rights, too.
#include <linux/prctl.h>
#include <sys/syscall.h>
#include <unistd.h>

extern "C" int prctl(int option, unsigned long first, unsigned long second, unsigned long third,
                     unsigned long fourth)
{
    if (option == PR_SET_DUMPABLE)
        return 0;
    return static_cast<int>(::syscall(SYS_prctl, option, first, second, third, fourth));
}
