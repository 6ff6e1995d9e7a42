// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "storage/storesettings.h"

#include <QProcess>
#include <QString>
#include <QTemporaryDir>

namespace ramplight::test {

/// A PostgreSQL server of a test's own, to be killed: reached by a socket in its folder, and where
/// a test has a network of its own by an address there. Gone with the object.
class OwnServer
{
public:
    /// Whether this machine has one to start (tests/run installs it).
    [[nodiscard]] static bool canBeStarted();

    enum class Care {
        Memory, ///< what is written stays with the system: enough where only programs die
        Disk,   ///< waits for the disk, as a real one does
    };

    /// network: name of a namespace in which it also listens on an address; empty: neither.
    explicit OwnServer(Care care = Care::Memory, const QString& network = {},
                       const QString& listensOn = {});
    ~OwnServer();
    OwnServer(const OwnServer&) = delete;
    OwnServer& operator=(const OwnServer&) = delete;

    /// As a libpq keyword string: by the socket in its folder, by the address it listens on.
    [[nodiscard]] QString address() const;
    [[nodiscard]] QString addressOutside() const;
    [[nodiscard]] StoreSettings settings() const; ///< with the socket
    /// Blocks until it answers. False: it does not within a minute.
    [[nodiscard]] bool start();
    /// SIGKILL to the first process, from which the others learn that they have to go; blocks until
    /// they have.
    void kill();
    /// Ends every connection, as an administrator can.
    void cutConnections();

private:
    [[nodiscard]] QString in(const char* name) const;
    [[nodiscard]] int run(const QString& program, const QStringList& arguments) const;
    [[nodiscard]] bool ask(const QString& statement) const;
    [[nodiscard]] bool isAnybodyLeft() const;

    Care m_care;
    QString m_network;
    QString m_listensOn;
    QTemporaryDir m_folder;
    QProcess m_process;
};

} // namespace ramplight::test
