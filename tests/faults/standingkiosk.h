// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "askedtally.h"

#include "domain/site.h"
#include "storage/storesettings.h"

#include <QProcess>
#include <QStringList>
#include <QTemporaryDir>

#include <optional>

namespace ramplight::test {

/// A kiosk that goes on without its server (ramplight_worker), as a program that can be killed;
/// what it knows and keeps stays in a folder. Gone with the object.
class StandingKiosk
{
public:
    /// worker: the program. store: where the server is. network: of a namespace, empty for ours.
    StandingKiosk(QString worker, QString store, QString network = {});
    ~StandingKiosk();
    StandingKiosk(const StandingKiosk&) = delete;
    StandingKiosk& operator=(const StandingKiosk&) = delete;

    /// From the next start on.
    void setEnvironment(const QProcessEnvironment& environment)
    {
        m_process.setProcessEnvironment(environment);
    }
    /// The same seed makes the same choices.
    void start(quint32 seed);
    /// SIGKILL, and what it had said is heard.
    void kill();
    /// Its people stop, and it sends what waits; what it says meanwhile is heard. From then on it
    /// only hears what others do. False: it does not, or it had ended by itself before.
    [[nodiscard]] bool finish();
    /// Its wall, as it told it last since it finished (digestOf()); empty: it did not.
    [[nodiscard]] const QByteArray& wall() const { return m_wall; }
    /// Of what it keeps of the server for the time without it; why not, where it cannot be read.
    [[nodiscard]] QByteArray wallInMirror() const;
    /// The same of people, rights and rules; empty where it cannot be read.
    [[nodiscard]] SiteState houseInMirror() const;
    /// Photos that it keeps for the server.
    [[nodiscard]] std::size_t photosWaiting() const;
    /// Once it has finished. False: it does not end in order.
    [[nodiscard]] bool end();
    /// Waits a little for what it says.
    void listen(int ms);

    [[nodiscard]] QString folder() const { return m_folder.path(); }
    /// As it said last since its start; nothing: it said nothing about it yet.
    [[nodiscard]] std::optional<bool> isAway() const { return m_away; }
    /// It said since its start that it knows the whole workshop, so that it can go on alone.
    [[nodiscard]] bool knows() const { return m_knows; }
    [[nodiscard]] int killed() const { return m_killed; }

    /// Command ids, of all its lives.
    [[nodiscard]] const QStringList& kept() const { return m_kept; }
    [[nodiscard]] const QStringList& waited() const { return m_waited; } ///< told to wait
    [[nodiscard]] const QStringList& unsure() const { return m_unsure; }
    [[nodiscard]] const AskedTally& tally() const { return m_tally; }
    /// How it stands, for whoever reads why a test failed.
    [[nodiscard]] QString standing() const;
    /// Of its last life: refused by the server and kept with both stories.
    [[nodiscard]] const QStringList& refusals() const { return m_refusals; }

private:
    void hear();
    [[nodiscard]] StoreSettings mirror() const;

    QString m_worker;
    QString m_store;
    QString m_network;
    QTemporaryDir m_folder;
    QProcess m_process;
    QByteArray m_heard; ///< no whole line yet
    std::optional<bool> m_away;
    bool m_knows = false;
    bool m_done = false;
    QByteArray m_wall;
    int m_killed = 0;
    bool m_gaveUp = false;
    QStringList m_kept;
    QStringList m_waited;
    QStringList m_unsure;
    QStringList m_refusals;
    AskedTally m_tally;
};

} // namespace ramplight::test
