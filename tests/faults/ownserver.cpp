// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "ownserver.h"

#include "namespaces.h"

#include <QDir>
#include <QElapsedTimer>
#include <QFile>
#include <QThread>

#include <arpa/inet.h>
#include <csignal>
#include <pwd.h>
#include <sys/socket.h>
#include <unistd.h>
#include <utility>

namespace ramplight::test {

namespace {

constexpr int serverPatienceMs = 60'000;

QString tool(const char* name)
{
    return QStringLiteral("/usr/lib/postgresql/15/bin/") + QString::fromLatin1(name);
}

/// The server refuses to run as root: then the account that its package made runs it.
const passwd* account()
{
    return ::geteuid() == 0 ? ::getpwnam("postgres") : nullptr;
}

void asAccount(QProcess& process, const QByteArray& network = {})
{
    const passwd* entry = account();
    process.setChildProcessModifier(
        [network, uid = entry ? entry->pw_uid : 0, gid = entry ? entry->pw_gid : 0] {
            if (!network.isEmpty())
                enterNamespace(network);
            if (uid != 0 && (::setgid(gid) != 0 || ::setuid(uid) != 0))
                ::_exit(126);
        });
}

/// Of the loopback.
int freePort()
{
    const int socket = ::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0);
    sockaddr_in address{};
    address.sin_family = AF_INET;
    address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    socklen_t size = sizeof address;
    auto* const plain = reinterpret_cast<sockaddr*>(&address);
    if (socket < 0 || ::bind(socket, plain, size) != 0 || ::getsockname(socket, plain, &size) != 0)
        qFatal("no port is free");
    ::close(socket);
    return ntohs(address.sin_port);
}

void giveTo(const passwd* account, const QString& path)
{
    if (account != nullptr &&
        ::chown(QFile::encodeName(path).constData(), account->pw_uid, account->pw_gid) != 0)
        qFatal("%s cannot be given to the server's account", qPrintable(path));
}

} // namespace

bool OwnServer::canBeStarted()
{
    return QFile::exists(tool("postgres")) && (::geteuid() != 0 || account() != nullptr);
}

OwnServer::OwnServer(Care care, const QString& network, const QString& listensOn,
                     const Certificate& certificate)
    : m_care(care)
    , m_network(network)
    , m_listensOn(listensOn)
{
    giveTo(account(), m_folder.path());
    if (!m_listensOn.isEmpty() && m_network.isEmpty())
        m_port = freePort();
    if (run(tool("initdb"),
            {QStringLiteral("--pgdata"), in("data"), QStringLiteral("--username"),
             QStringLiteral("ramplight"), QStringLiteral("--auth"), QStringLiteral("trust"),
             QStringLiteral("--encoding"), QStringLiteral("UTF8"), QStringLiteral("--locale"),
             QStringLiteral("C.UTF-8"), QStringLiteral("--no-sync")}) != 0)
        qFatal("initdb failed");
    if (!m_listensOn.isEmpty()) {
        QFile rights(in("data/pg_hba.conf"));
        if (!rights.open(QIODevice::Append) || rights.write("host all all all trust\n") < 0)
            qFatal("the server's rights cannot be written");
    }
    if (!certificate.file.isEmpty())
        takeOver(certificate);
    if (!start() || !ask(QStringLiteral("CREATE DATABASE workshop")))
        qFatal("the server does not start");
}

OwnServer::~OwnServer()
{
    // In order, or what it shares between its processes would stay behind.
    if (m_process.state() != QProcess::NotRunning) {
        ::kill(static_cast<pid_t>(m_process.processId()), SIGINT);
        m_process.waitForFinished(serverPatienceMs);
    }
    kill();
}

void OwnServer::takeOver(const Certificate& certificate)
{
    for (const auto& [from, to] : {std::pair{certificate.file, in("data/server.crt")},
                                   std::pair{certificate.key, in("data/server.key")}}) {
        if (!QFile::copy(from, to) ||
            !QFile::setPermissions(to, QFile::ReadOwner | QFile::WriteOwner))
            qFatal("%s cannot be copied", qPrintable(from));
        giveTo(account(), to);
    }
    m_speaksTls = true;
}

QString OwnServer::in(const char* name) const
{
    return m_folder.filePath(QString::fromLatin1(name));
}

int OwnServer::run(const QString& program, const QStringList& arguments) const
{
    QProcess process;
    asAccount(process);
    process.setWorkingDirectory(m_folder.path());
    process.setStandardOutputFile(QProcess::nullDevice());
    process.setStandardErrorFile(QProcess::nullDevice());
    process.start(program, arguments);
    return process.waitForFinished(serverPatienceMs) ? process.exitCode() : -1;
}

bool OwnServer::ask(const QString& statement) const
{
    return run(tool("psql"), {QStringLiteral("--quiet"), QStringLiteral("--no-psqlrc"),
                              QStringLiteral("--dbname"),
                              QStringLiteral("host=%1 port=%2 dbname=postgres user=ramplight")
                                  .arg(m_folder.path())
                                  .arg(m_port),
                              QStringLiteral("--command"), statement}) == 0;
}

QString OwnServer::address() const
{
    return QStringLiteral("host=%1 port=%2 dbname=workshop user=ramplight")
        .arg(m_folder.path())
        .arg(m_port);
}

QString OwnServer::addressOutside() const
{
    const QString address = QStringLiteral("host=%1 port=%2 dbname=workshop user=ramplight")
                                .arg(m_listensOn)
                                .arg(m_port);
    return m_network.isEmpty() ? address : address + QStringLiteral(" sslmode=disable");
}

StoreSettings OwnServer::settings() const
{
    StoreSettings settings;
    settings.kind = StoreKind::PostgreSql;
    settings.server = *PostgresAddress::parse(address());
    return settings;
}

bool OwnServer::start()
{
    QElapsedTimer timer;
    timer.start();
    while (timer.elapsed() < serverPatienceMs) {
        if (m_process.state() == QProcess::NotRunning) {
            asAccount(m_process, m_network.toUtf8());
            m_process.setWorkingDirectory(m_folder.path());
            m_process.setStandardOutputFile(QProcess::nullDevice());
            m_process.setStandardErrorFile(in("log"), QIODevice::Append);
            m_process.start(
                tool("postgres"),
                {QStringLiteral("-D"), in("data"), QStringLiteral("-k"), m_folder.path(),
                 QStringLiteral("-c"), QStringLiteral("listen_addresses=") + m_listensOn,
                 QStringLiteral("-c"), QStringLiteral("port=%1").arg(m_port), QStringLiteral("-c"),
                 m_speaksTls ? QStringLiteral("ssl=on") : QStringLiteral("ssl=off"),
                 QStringLiteral("-c"),
                 m_care == Care::Disk ? QStringLiteral("fsync=on") : QStringLiteral("fsync=off"),
                 QStringLiteral("-c"),
                 m_care == Care::Disk ? QStringLiteral("shared_buffers=512MB")
                                      : QStringLiteral("shared_buffers=16MB"),
                 QStringLiteral("-c"), QStringLiteral("max_wal_size=4GB"), QStringLiteral("-c"),
                 QStringLiteral("log_min_messages=warning")});
        }
        if (ask(QStringLiteral("SELECT 1")))
            return true;
        m_process.waitForFinished(20);
    }
    return false;
}

void OwnServer::kill()
{
    if (m_process.state() == QProcess::NotRunning)
        return;
    m_process.kill();
    m_process.waitForFinished(serverPatienceMs);
    QElapsedTimer timer;
    timer.start();
    while (isAnybodyLeft() && timer.elapsed() < serverPatienceMs)
        QThread::msleep(5);
}

void OwnServer::cutConnections()
{
    [[maybe_unused]] const bool cut =
        ask(QStringLiteral("SELECT pg_terminate_backend(pid) FROM pg_stat_activity"
                           " WHERE datname = 'workshop'"));
}

bool OwnServer::isAnybodyLeft() const
{
    // Everybody of the server works in its data folder.
    const QString data = QDir(in("data")).canonicalPath();
    for (const QString& pid :
         QDir(QStringLiteral("/proc")).entryList({QStringLiteral("[0-9]*")}, QDir::Dirs))
        if (QFile::symLinkTarget(QStringLiteral("/proc/%1/cwd").arg(pid)) == data)
            return true;
    return false;
}

} // namespace ramplight::test
