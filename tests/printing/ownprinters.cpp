// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "ownprinters.h"

#include <QDir>
#include <QElapsedTimer>
#include <QFile>
#include <QLocalSocket>
#include <QStandardPaths>
#include <QThread>

namespace ramplight::test {

namespace {

constexpr int patienceMs = 20'000;
constexpr unsigned long lookAgainMs = 50;

} // namespace

OwnPrinters::~OwnPrinters()
{
    stop();
}

bool OwnPrinters::write(const QString& name, const QByteArray& text) const
{
    QFile file(m_folder.filePath(name));
    return file.open(QIODevice::WriteOnly) && file.write(text) == text.size();
}

bool OwnPrinters::start()
{
    for (const char* folder : {"etc", "spool", "cache", "state", "tmp"})
        if (!QDir(m_folder.path()).mkpath(QString::fromLatin1(folder)))
            return false;
    const QByteArray at = m_folder.path().toLocal8Bit();
    QByteArray places = "FileDevice Yes\n";
    for (const auto& [what, where] :
         {std::pair{"ServerRoot", "etc"}, std::pair{"RequestRoot", "spool"},
          std::pair{"CacheDir", "cache"}, std::pair{"StateDir", "state"},
          std::pair{"TempDir", "tmp"}, std::pair{"AccessLog", "access.log"},
          std::pair{"ErrorLog", "error.log"}, std::pair{"PageLog", "page.log"}})
        places += QByteArray(what) + ' ' + at + '/' + where + '\n';
    QByteArray printers;
    const auto add = [&](const char* name, const QByteArray& lines) {
        printers += "<Printer " + QByteArray(name) + ">\nDeviceURI file://" + at + '/' + name +
                    ".out\n" + lines + "</Printer>\n";
    };
    add("office", "Info Office\nLocation by the window\nState Idle\nAccepting Yes\n");
    add("shut", "State Idle\nAccepting No\n");
    add("hungry", "State Stopped\nReason media-empty-error\nAccepting Yes\n");
    add("halted", "State Stopped\nAccepting Yes\n");
    if (!write(QStringLiteral("etc/cups-files.conf"), places) ||
        !write(QStringLiteral("etc/printers.conf"), printers) ||
        !write(QStringLiteral("etc/cupsd.conf"),
               "Listen " + socket().toLocal8Bit() +
                   "\nBrowsing Off\nWebInterface No\nDefaultAuthType None\n"
                   "<Location />\nOrder allow,deny\nAllow all\n</Location>\n"
                   "<Policy default>\n<Limit All>\nOrder deny,allow\n</Limit>\n</Policy>\n"))
        return false;
    const QString program = QStandardPaths::findExecutable(
        QStringLiteral("cupsd"),
        {QStringLiteral("/usr/sbin"), QStringLiteral("/usr/local/sbin"), QStringLiteral("/sbin")});
    m_server.setProcessChannelMode(QProcess::MergedChannels);
    m_server.start(program,
                   {QStringLiteral("-f"), QStringLiteral("-c"),
                    m_folder.filePath(QStringLiteral("etc/cupsd.conf")), QStringLiteral("-s"),
                    m_folder.filePath(QStringLiteral("etc/cups-files.conf"))});
    if (!m_server.waitForStarted())
        return false;
    QElapsedTimer since;
    for (since.start(); since.elapsed() < patienceMs; QThread::msleep(lookAgainMs)) {
        QLocalSocket knock;
        knock.connectToServer(socket());
        if (knock.waitForConnected())
            return true;
        if (m_server.waitForFinished(0))
            return false;
    }
    return false;
}

void OwnPrinters::stop()
{
    if (m_server.state() == QProcess::NotRunning)
        return;
    m_server.terminate();
    if (!m_server.waitForFinished(patienceMs)) {
        m_server.kill();
        m_server.waitForFinished();
    }
}

QString OwnPrinters::socket() const
{
    return m_folder.filePath(QStringLiteral("state/cups.sock"));
}

QString OwnPrinters::output()
{
    QFile log(m_folder.filePath(QStringLiteral("error.log")));
    return QString::fromLocal8Bit(m_server.readAll()) + m_server.errorString() + QLatin1Char('\n') +
           (log.open(QIODevice::ReadOnly) ? QString::fromLocal8Bit(log.readAll()) : QString());
}

QByteArray OwnPrinters::spooled(int job) const
{
    QFile file(
        m_folder.filePath(QStringLiteral("spool/d%1-001").arg(job, 5, 10, QLatin1Char('0'))));
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
}

} // namespace ramplight::test
