// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "namespaces.h"

#include <QCoreApplication>
#include <QProcess>
#include <QStandardPaths>

#include <fcntl.h>
#include <sched.h>
#include <unistd.h>

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

/// ip WORD...; the system's words where it fails.
QString ip(const QStringList& words)
{
    QProcess process;
    process.start(text("ip"), words);
    if (!process.waitForFinished(commandPatienceMs))
        return text("ip does not answer");
    return process.exitCode() == 0
               ? QString()
               : text("ip %1: ").arg(words.join(QLatin1Char(' '))) +
                     QString::fromLocal8Bit(process.readAllStandardError()).trimmed();
}

QString in(const QString& space, const QString& words)
{
    return ip(QStringList{text("-n"), space} + words.split(QLatin1Char(' ')));
}

} // namespace

void enterNamespace(const QByteArray& name)
{
    const int space = ::open(("/run/netns/" + name).constData(), O_RDONLY | O_CLOEXEC);
    if (space < 0 || ::setns(space, CLONE_NEWNET) != 0)
        ::_exit(126);
}

QString TwoMachines::whyNot()
{
    if (::geteuid() != 0)
        return text("only root may make network namespaces");
    if (QStandardPaths::findExecutable(text("ip")).isEmpty())
        return text("no iproute2 here (tests/run --long installs it)");
    const QString probe = text("ramplight-%1").arg(QCoreApplication::applicationPid());
    if (const QString fault = ip({text("netns"), text("add"), probe}); !fault.isEmpty())
        return text("no network namespaces here: ") + fault;
    const QString fault = in(probe, text("link add left type veth peer name right"));
    ip({text("netns"), text("del"), probe});
    return fault.isEmpty() ? QString() : text("no cable between namespaces here: ") + fault;
}

TwoMachines::TwoMachines()
{
    const QString name = text("ramplight-%1-").arg(QCoreApplication::applicationPid());
    m_here = name + text("here");
    m_there = name + text("there");
    QString fault = ip({text("netns"), text("add"), m_here});
    if (fault.isEmpty())
        fault = ip({text("netns"), text("add"), m_there});
    const auto then = [&](const QString& space, const QString& words) {
        if (fault.isEmpty())
            fault = in(space, words);
    };
    then(m_here, text("link add cable type veth peer name cable netns %1").arg(m_there));
    then(m_here, text("addr add %1/24 dev cable").arg(text(addressOfHere)));
    then(m_there, text("addr add %1/24 dev cable").arg(text(addressOfThere)));
    for (const QString& space : {m_here, m_there}) {
        then(space, text("link set lo up"));
        then(space, text("link set cable up"));
    }
    if (!fault.isEmpty())
        qFatal("%s", qPrintable(fault));
}

TwoMachines::~TwoMachines()
{
    // The cable goes with them.
    ip({text("netns"), text("del"), m_here});
    ip({text("netns"), text("del"), m_there});
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
