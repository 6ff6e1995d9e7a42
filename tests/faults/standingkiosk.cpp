// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "standingkiosk.h"

#include "namespaces.h"
#include "promises.h"

#include "storage/photooutbox.h"

#include <QElapsedTimer>

namespace ramplight::test {

namespace {

constexpr int kioskPatienceMs = 120'000;

} // namespace

StandingKiosk::StandingKiosk(QString worker, QString store, QString network)
    : m_worker(std::move(worker))
    , m_store(std::move(store))
    , m_network(std::move(network))
{
    if (!m_network.isEmpty())
        m_process.setChildProcessModifier([name = m_network.toUtf8()] { enterNamespace(name); });
}

StandingKiosk::~StandingKiosk()
{
    m_process.kill();
    m_process.waitForFinished(kioskPatienceMs);
}

void StandingKiosk::start(quint32 seed)
{
    m_heard.clear();
    m_refusals.clear();
    m_away.reset();
    m_knows = false;
    m_done = false;
    m_wall.clear();
    m_process.start(m_worker, {m_store, QString::number(seed), QString::number(1'000'000'000),
                               m_folder.path()});
    if (!m_process.waitForStarted(kioskPatienceMs))
        qFatal("the worker cannot be started");
}

void StandingKiosk::kill()
{
    m_process.kill();
    m_process.waitForFinished(kioskPatienceMs);
    if (m_process.exitStatus() == QProcess::CrashExit)
        ++m_killed;
    else
        m_gaveUp = true;
    hear();
}

bool StandingKiosk::finish()
{
    m_process.write("stop\n");
    QElapsedTimer timer;
    timer.start();
    while (!m_done && m_process.state() == QProcess::Running && timer.elapsed() < kioskPatienceMs)
        listen(20);
    return m_done && !m_gaveUp;
}

QByteArray StandingKiosk::wallInMirror() const
{
    return wallIn(mirror());
}

SiteState StandingKiosk::houseInMirror() const
{
    return houseIn(mirror());
}

std::size_t StandingKiosk::photosWaiting() const
{
    return PhotoOutbox(m_folder.filePath(QStringLiteral("photos"))).waiting().size();
}

StoreSettings StandingKiosk::mirror() const
{
    StoreSettings mirror;
    mirror.file = m_folder.filePath(QStringLiteral("mirror.sqlite"));
    return mirror;
}

bool StandingKiosk::end()
{
    m_process.closeWriteChannel();
    const bool ended =
        (m_process.state() == QProcess::NotRunning || m_process.waitForFinished(kioskPatienceMs)) &&
        m_process.exitStatus() == QProcess::NormalExit && m_process.exitCode() == 0;
    hear();
    return ended && !m_gaveUp;
}

void StandingKiosk::listen(int ms)
{
    m_process.waitForReadyRead(ms);
    hear();
}

QString StandingKiosk::standing() const
{
    const QString now = m_process.state() == QProcess::Running
                            ? QStringLiteral("at work")
                            : QStringLiteral("ended with %1").arg(m_process.exitCode());
    return QStringLiteral("%1, %2; %3 kept, %4 told to wait, %5 unsure")
        .arg(now, !m_away   ? QStringLiteral("says nothing of its server")
                  : *m_away ? QStringLiteral("away")
                            : QStringLiteral("not away"))
        .arg(m_kept.size())
        .arg(m_waited.size())
        .arg(m_unsure.size());
}

void StandingKiosk::hear()
{
    m_heard += m_process.readAllStandardOutput();
    const auto end = m_heard.lastIndexOf('\n') + 1;
    if (end == 0)
        return;
    const QByteArray lines = m_heard.left(end);
    m_heard.remove(0, end);
    m_kept += keptIn(lines);
    m_tally.hear(lines);
    m_waited += toldIn(lines, "refused");
    m_unsure += toldIn(lines, "unsure");
    m_refusals += toldIn(lines, "refusal");
    for (const QByteArray& line : lines.split('\n')) {
        m_knows = m_knows || line == "knows";
        m_done = m_done || line == "done";
        if (line.startsWith("wall "))
            m_wall = line.mid(5);
        if (line == "away" || line == "back")
            m_away = line == "away";
    }
}

} // namespace ramplight::test
