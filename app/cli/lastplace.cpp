// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "cli/lastplace.h"

#include <QDateTime>
#include <QFile>
#include <QFileInfo>
#include <QSaveFile>

#include <utility>

namespace ramplight {

namespace {

constexpr qint64 longestSeconds = 600;
constexpr qint64 mostBytes = 4096;

} // namespace

LastPlace::LastPlace(QString path, std::chrono::milliseconds touchedEvery)
    : m_path(std::move(path))
{
    m_pool.setMaxThreadCount(1);
    QObject::connect(&m_timer, &QTimer::timeout, &m_timer, [this] { touch(); });
    m_timer.start(touchedEvery);
}

LastPlace::~LastPlace()
{
    m_pool.waitForDone();
    QFile::remove(m_path);
}

QString LastPlace::left(const QString& path)
{
    const QFileInfo info(path);
    QFile file(path);
    if (!info.exists() ||
        info.lastModified().secsTo(QDateTime::currentDateTime()) > longestSeconds ||
        !file.open(QIODevice::ReadOnly))
        return {};
    return QString::fromUtf8(file.read(mostBytes));
}

void LastPlace::keep(const QString& place)
{
    m_pool.start([path = m_path, bytes = place.toUtf8()] {
        QSaveFile file(path);
        if (file.open(QIODevice::WriteOnly) && file.write(bytes) == bytes.size())
            file.commit();
    });
}

void LastPlace::touch()
{
    m_pool.start([path = m_path] {
        // Where nobody went anywhere yet there is no file, and none is made.
        QFile file(path);
        if (file.open(QIODevice::ReadOnly))
            file.setFileTime(QDateTime::currentDateTime(), QFileDevice::FileModificationTime);
    });
}

} // namespace ramplight
