// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "faults/frozenthread.h"

#include "cli/program.h"

#include <QDir>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <sys/ptrace.h>
#include <sys/wait.h>
#include <utility>

namespace ramplight::test {

namespace {

QString tasksOf(pid_t process)
{
    return QStringLiteral("/proc/%1/task").arg(process);
}

} // namespace

std::vector<pid_t> threadsNamed(pid_t process, const QByteArray& name)
{
    std::vector<pid_t> threads;
    for (const QString& thread :
         QDir(tasksOf(process)).entryList(QDir::Dirs | QDir::NoDotAndDotDot))
        if (bytesOf(QStringLiteral("%1/%2/comm").arg(tasksOf(process), thread)).trimmed() == name)
            threads.push_back(thread.toInt());
    return threads;
}

qint64 turnsOf(pid_t process, pid_t thread)
{
    qint64 turns = -1;
    for (const QByteArray& line :
         bytesOf(QStringLiteral("%1/%2/status").arg(tasksOf(process)).arg(thread)).split('\n'))
        if (line.contains("voluntary_ctxt_switches:"))
            turns =
                std::max(turns, qint64{0}) + line.mid(line.indexOf(':') + 1).trimmed().toLongLong();
    return turns;
}

FrozenThread::FrozenThread(pid_t thread)
    : m_thread(thread)
{
    if (::ptrace(PTRACE_SEIZE, thread, nullptr, nullptr) != 0) {
        m_whyNot = QString::fromLocal8Bit(std::strerror(errno));
        m_thread = 0;
        return;
    }
    int status = 0;
    if (::ptrace(PTRACE_INTERRUPT, thread, nullptr, nullptr) != 0 ||
        ::waitpid(thread, &status, __WALL) != thread || !WIFSTOPPED(status))
        m_whyNot = QStringLiteral("the thread does not stop");
}

FrozenThread::~FrozenThread()
{
    if (m_thread != 0)
        ::ptrace(PTRACE_DETACH, m_thread, nullptr, nullptr);
}

void FrozenThread::bury()
{
    int status = 0;
    const pid_t thread = std::exchange(m_thread, 0);
    while (::waitpid(thread, &status, __WALL) == thread && WIFSTOPPED(status)) {
    }
}

} // namespace ramplight::test
