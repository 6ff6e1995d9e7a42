// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QString>
#include <QThreadPool>

namespace ramplight {

/// Where the person at the wall was, for a kiosk that is started again after it froze or was
/// killed: a file that an orderly end removes. Written on a thread of its own, the last word wins;
/// what cannot be written is not missed. GUI thread.
class LastPlace
{
public:
    explicit LastPlace(QString path);
    /// Waits for what is being written, then removes the file.
    ~LastPlace();
    LastPlace(const LastPlace&) = delete;
    LastPlace& operator=(const LastPlace&) = delete;

    /// What was kept by a kiosk that did not end in order, not longer ago than ten minutes; empty.
    [[nodiscard]] static QString left(const QString& path);
    void keep(const QString& place);

private:
    QString m_path;
    QThreadPool m_pool;
};

} // namespace ramplight
