// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QString>

#include <vector>

#include <sys/types.h>

namespace ramplight::test {

/// The threads of a process that have this name; its own number is that of its first.
[[nodiscard]] std::vector<pid_t> threadsNamed(pid_t process, const QByteArray& name);

/// How often a thread had the processor so far: while that goes up, it lives. -1: it is gone.
[[nodiscard]] qint64 turnsOf(pid_t process, pid_t thread);

/// One thread of a child process stands still, as one that waits for what never comes; the others
/// go on (ptrace(2)). It goes on again with the object. Made and used on one thread.
class FrozenThread
{
public:
    explicit FrozenThread(pid_t thread);
    ~FrozenThread();
    FrozenThread(const FrozenThread&) = delete;
    FrozenThread& operator=(const FrozenThread&) = delete;

    /// Why it does not stand still, in words; empty: it does.
    [[nodiscard]] const QString& whyNot() const { return m_whyNot; }
    /// Its process was killed: nobody else hears of the end of a thread that is not its first, and
    /// until somebody did the process is not gone.
    void bury();

private:
    pid_t m_thread;
    QString m_whyNot;
};

} // namespace ramplight::test
