// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QFile>
#include <QProcess>
#include <QTemporaryDir>

// A disk that fails under a program: the library of faultydisk.cpp in front of the C library.
namespace ramplight::test {

/// Which write, sync, truncation or renaming fails, and how.
struct DiskFault
{
    int at = 0; ///< counted from 1; 0: none
    int code = 0;
    bool stays = false;      ///< and every one after it
    bool kills = false;      ///< the program ends there instead
    bool noExchange = false; ///< the file system cannot exchange two names
    int forgets = 0; ///< the file, in the order of their writing from 1, that comes to nothing
};

/// Counts those calls under a folder, and lets one fail.
class FailingDisk
{
public:
    /// The environment that the program is to run in; it goes on from another.
    [[nodiscard]] QProcessEnvironment under(const QString& folder, const DiskFault& fault,
                                            QProcessEnvironment environment) const
    {
        environment.insert(QStringLiteral("LD_PRELOAD"), QStringLiteral(FAULTY_DISK));
        environment.insert(QStringLiteral("RAMPLIGHT_FAULT_UNDER"), folder);
        environment.insert(QStringLiteral("RAMPLIGHT_FAULT_TALLY"), tally());
        if (fault.at > 0) {
            environment.insert(QStringLiteral("RAMPLIGHT_FAULT_AT"), QString::number(fault.at));
            environment.insert(QStringLiteral("RAMPLIGHT_FAULT_ERRNO"),
                               QString::number(fault.code));
        }
        if (fault.kills)
            environment.insert(QStringLiteral("RAMPLIGHT_FAULT_KILLS"), QStringLiteral("1"));
        if (fault.forgets > 0)
            environment.insert(QStringLiteral("RAMPLIGHT_DISK_FORGETS"),
                               QString::number(fault.forgets));
        if (fault.noExchange)
            environment.insert(QStringLiteral("RAMPLIGHT_NO_EXCHANGE"), QStringLiteral("1"));
        if (fault.stays)
            environment.insert(QStringLiteral("RAMPLIGHT_FAULT_STAYS"), QStringLiteral("1"));
        return environment;
    }
    /// Once the program has ended.
    [[nodiscard]] int calls() const
    {
        QFile file(tally());
        return file.open(QIODevice::ReadOnly) ? file.readAll().toInt() : 0;
    }

private:
    [[nodiscard]] QString tally() const { return m_aside.filePath(QStringLiteral("tally")); }

    QTemporaryDir m_aside;
};

} // namespace ramplight::test
