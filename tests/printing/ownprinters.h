// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QByteArray>
#include <QProcess>
#include <QString>
#include <QTemporaryDir>

namespace ramplight::test {

/// A CUPS of the test's own: its files in a temporary folder, its socket there, no network. Its
/// printers write to files: "office" prints, "shut" takes no jobs, "hungry" was stopped without
/// paper, "halted" was paused by hand.
class OwnPrinters
{
public:
    ~OwnPrinters();

    /// False when it does not come up; output() has why.
    [[nodiscard]] bool start();
    void stop();
    [[nodiscard]] QString socket() const;
    [[nodiscard]] QString output();
    /// What lies in the spool for a job; cupsd keeps it for a while after it was printed.
    [[nodiscard]] QByteArray spooled(int job) const;

private:
    [[nodiscard]] bool write(const QString& name, const QByteArray& text) const;

    QTemporaryDir m_folder;
    QProcess m_server;
};

} // namespace ramplight::test
