// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QString>
#include <QThreadPool>
#include <QTimer>

#include <chrono>

namespace ramplight {

/// Where the person at the wall was, for a kiosk that is started again after it froze or was
/// killed: a file that an orderly end removes. Its time says when this thread was last alive: it is
/// touched every minute, because somebody may work on one screen for long. Written on a thread of
/// its own, the last word wins; what cannot be written is not missed. GUI thread.
class LastPlace
{
public:
    explicit LastPlace(QString path, std::chrono::milliseconds touchedEvery = touchEvery);
    /// Waits for what is being written, then removes the file.
    ~LastPlace();
    LastPlace(const LastPlace&) = delete;
    LastPlace& operator=(const LastPlace&) = delete;

    /// What was kept by a kiosk that did not end in order and lived not longer ago than ten
    /// minutes; else empty.
    [[nodiscard]] static QString left(const QString& path);
    void keep(const QString& place);

    static constexpr std::chrono::milliseconds touchEvery{60'000};

private:
    void touch();

    QString m_path;
    QTimer m_timer;
    QThreadPool m_pool;
};

} // namespace ramplight
