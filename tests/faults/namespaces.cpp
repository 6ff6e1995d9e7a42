// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "namespaces.h"

#include <QFile>
#include <QProcess>
#include <QStandardPaths>

#include <fcntl.h>
#include <linux/capability.h>
#include <sched.h>
#include <sys/prctl.h>
#include <sys/syscall.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <thread>
#include <tuple>
#include <utility>

namespace ramplight::test {

namespace {

// Of the addresses that RFC 5737 keeps for examples.
constexpr const char* addressOfHere = "192.0.2.1";
constexpr const char* addressOfThere = "192.0.2.2";
// Nobody's: what is sent to it does not arrive.
constexpr const char* nobody = "02:00:00:00:00:fe";
constexpr int commandPatienceMs = 20'000;

QString text(const char* word)
{
    return QString::fromLatin1(word);
}

QString systemsWords()
{
    return QString::fromLocal8Bit(std::strerror(errno));
}

bool write(const char* path, const QByteArray& words)
{
    QFile file(text(path));
    return file.open(QIODevice::WriteOnly | QIODevice::Unbuffered) &&
           file.write(words) == words.size();
}

/// What this program may in a user namespace of its own, the programs that it starts may, too.
bool handOnRights()
{
    __user_cap_header_struct header{_LINUX_CAPABILITY_VERSION_3, 0};
    __user_cap_data_struct rights[2] = {};
    if (::syscall(SYS_capget, &header, rights) != 0)
        return false;
    for (auto& some : rights)
        some.inheritable = some.permitted;
    if (::syscall(SYS_capset, &header, rights) != 0)
        return false;
    // All of them: who has fewer may not look at what this program has open.
    for (int right = 0; right <= CAP_LAST_CAP; ++right) {
        const bool has =
            (rights[right / 32].permitted & (1U << static_cast<unsigned>(right % 32))) != 0;
        if (has && ::prctl(PR_CAP_AMBIENT, PR_CAP_AMBIENT_RAISE, right, 0, 0) != 0)
            return false;
    }
    return true;
}

/// Root may make network namespaces; anybody else in a user namespace of their own, where the
/// system lets them have one. Why not, in words.
QString mayMakeThem()
{
    if (::geteuid() == 0)
        return {};
    static const QString fault = [] {
        const QByteArray user = QByteArray::number(::geteuid());
        const QByteArray group = QByteArray::number(::getegid());
        // Under its own number: the server's program does not run as root.
        if (::unshare(CLONE_NEWUSER) == 0 && write("/proc/self/setgroups", "deny") &&
            write("/proc/self/uid_map", user + ' ' + user + " 1") &&
            write("/proc/self/gid_map", group + ' ' + group + " 1") && handOnRights())
            return QString();
        return text("neither root nor user namespaces here: ") + systemsWords();
    }();
    return fault;
}

/// An open network namespace; -1: none could be made.
int freshNamespace()
{
    int space = -1;
    // A thread's own until somebody enters it.
    std::thread([&space] {
        if (::unshare(CLONE_NEWNET) == 0)
            space = ::open("/proc/thread-self/ns/net", O_RDONLY | O_CLOEXEC);
    }).join();
    return space;
}

/// ip WORD... in a namespace; the system's words where it fails.
QString in(const QString& space, const QString& words)
{
    QProcess process;
    process.setChildProcessModifier([name = space.toLatin1()] { enterNamespace(name); });
    process.start(text("ip"), words.split(QLatin1Char(' ')));
    if (!process.waitForFinished(commandPatienceMs))
        return text("ip does not answer");
    return process.exitCode() == 0
               ? QString()
               : text("ip %1: ").arg(words) +
                     QString::fromLocal8Bit(process.readAllStandardError()).trimmed();
}

} // namespace

void enterNamespace(const QByteArray& name)
{
    if (::setns(name.toInt(), CLONE_NEWNET) != 0)
        ::_exit(126);
}

void TwoMachines::makeReady()
{
    std::ignore = mayMakeThem();
}

QString TwoMachines::whyNot()
{
    if (QStandardPaths::findExecutable(text("ip")).isEmpty())
        return text("no iproute2 here (tests/run installs it)");
    if (QString fault = mayMakeThem(); !fault.isEmpty())
        return fault;
    TwoMachines probe(Probe{});
    return probe.m_fault;
}

TwoMachines::TwoMachines()
    : TwoMachines(Probe{})
{
    if (!m_fault.isEmpty())
        qFatal("%s", qPrintable(m_fault));
}

TwoMachines::TwoMachines(Probe)
    : m_spaces{freshNamespace(), freshNamespace()}
    , m_here(QString::number(m_spaces[0]))
    , m_there(QString::number(m_spaces[1]))
{
    if (m_spaces[0] < 0 || m_spaces[1] < 0) {
        m_fault = text("no network namespaces here");
        return;
    }
    const auto then = [&](const QString& space, const QString& words) {
        if (m_fault.isEmpty())
            m_fault = in(space, words);
    };
    then(m_here, text("link add cable type veth peer name cable netns /proc/%1/fd/%2")
                     .arg(::getpid())
                     .arg(m_spaces[1]));
    then(m_here, text("addr add %1/24 dev cable").arg(text(addressOfHere)));
    then(m_there, text("addr add %1/24 dev cable").arg(text(addressOfThere)));
    for (const QString& space : {m_here, m_there}) {
        then(space, text("link set lo up"));
        then(space, text("link set cable up"));
    }
}

TwoMachines::~TwoMachines()
{
    // The cable goes with them.
    for (const int space : m_spaces)
        if (space >= 0)
            ::close(space);
}

QString TwoMachines::addressThere()
{
    return text(addressOfThere);
}

QString TwoMachines::link(bool up)
{
    return in(m_there, text("link set cable %1").arg(text(up ? "up" : "down")));
}

QString TwoMachines::loseAnswers()
{
    return in(m_there, text("neigh replace %1 lladdr %2 dev cable nud permanent")
                           .arg(text(addressOfHere), text(nobody)));
}

QString TwoMachines::loseQuestions()
{
    return in(m_here, text("neigh replace %1 lladdr %2 dev cable nud permanent")
                          .arg(text(addressOfThere), text(nobody)));
}

QString TwoMachines::findAnswers()
{
    return in(m_there, text("neigh del %1 dev cable").arg(text(addressOfHere)));
}

QString TwoMachines::findQuestions()
{
    return in(m_here, text("neigh del %1 dev cable").arg(text(addressOfThere)));
}

} // namespace ramplight::test
