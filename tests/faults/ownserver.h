// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "storage/storesettings.h"

#include <QProcess>
#include <QString>
#include <QTemporaryDir>

namespace ramplight::test {

/// A PostgreSQL server of a test's own, to be killed: reached by a socket in its folder, and where
/// a test wants that by an address, of this machine or of a network of its own. Gone with the
/// object.
class OwnServer
{
public:
    /// What a server that speaks TLS shows; empty: it does not. Files.
    struct Certificate
    {
        QString file;
        QString key;
    };

    /// Whether this machine has one to start (tests/run installs it).
    [[nodiscard]] static bool canBeStarted();

    enum class Care {
        Memory, ///< what is written stays with the system: enough where only programs die
        Disk,   ///< waits for the disk, as a real one does
    };

    /// listensOn: an address, on a port that was free; with the name of a network namespace on the
    /// ordinary one in there.
    explicit OwnServer(Care care = Care::Memory, const QString& network = {},
                       const QString& listensOn = {}, const Certificate& certificate = {});
    ~OwnServer();
    OwnServer(const OwnServer&) = delete;
    OwnServer& operator=(const OwnServer&) = delete;

    /// As a libpq keyword string: by the socket in its folder, by the address it listens on.
    [[nodiscard]] QString address() const;
    /// In a network of its own without encryption.
    [[nodiscard]] QString addressOutside() const;
    [[nodiscard]] StoreSettings settings() const; ///< with the socket
    [[nodiscard]] int port() const { return m_port; }
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
    /// Into its folder, where only its account can read the key.
    void takeOver(const Certificate& certificate);

    Care m_care;
    QString m_network;
    QString m_listensOn;
    int m_port = 5432;
    bool m_speaksTls = false;
    QTemporaryDir m_folder;
    QProcess m_process;
};

} // namespace ramplight::test
