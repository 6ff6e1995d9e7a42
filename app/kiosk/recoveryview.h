// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/backupport.h"
#include "kiosk/sitebook.h"

#include <QObject>
#include <QtQmlIntegration>

#include <functional>
#include <optional>

namespace ramplight {

/// What is offered when the workshop cannot be opened because its database is damaged, or when that
/// is found while it is open: to make the file anew where its ledger is whole, or else the last
/// backup. Nobody can be asked for a PIN then: whoever stands there may do either, since nothing is
/// removed by it. GUI thread.
class RecoveryView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the shell")
    Q_PROPERTY(bool needed READ needed NOTIFY changed FINAL)
    Q_PROPERTY(QString words READ words NOTIFY changed FINAL) ///< what is wrong
    /// It was found while the workshop is open: what can be read of it can be gone on with.
    Q_PROPERTY(bool canWait READ canWait NOTIFY changed FINAL)
    Q_PROPERTY(bool waits READ waits NOTIFY changed FINAL) ///< somebody goes on with that
    /// Not from here: the workshop is on a server, and whoever looks after that brings it back.
    Q_PROPERTY(bool elsewhere READ elsewhere CONSTANT FINAL)
    Q_PROPERTY(bool looking READ looking NOTIFY changed FINAL)
    /// Only what the ledger makes again is damaged: nothing is lost.
    Q_PROPERTY(bool remakable READ remakable NOTIFY changed FINAL)
    /// "Thu 4 May 2031, 20:30": the last whole backup; empty: none was found.
    Q_PROPERTY(QString offer READ offer NOTIFY changed FINAL)
    Q_PROPERTY(QString offerDetail READ offerDetail NOTIFY changed FINAL) ///< "24 cars, from ..."
    /// What was wrong already when it was made and comes back as it was then, and how many photos
    /// would be missing; a line each. Empty for nothing.
    Q_PROPERTY(QString offerFaults READ offerFaults NOTIFY changed FINAL)
    Q_PROPERTY(bool mending READ mending NOTIFY changed FINAL)
    Q_PROPERTY(QString fault READ fault NOTIFY changed FINAL) ///< why it was not mended

public:
    /// port may be null; what is given outlives the view.
    RecoveryView(BackupPort* port, Desk& desk, SiteBook& book, QObject* parent = nullptr);

    [[nodiscard]] bool needed() const { return !m_words.isEmpty() && !m_waits; }
    [[nodiscard]] bool canWait() const { return m_isFound; }
    [[nodiscard]] bool waits() const { return m_waits; }
    [[nodiscard]] QString words() const { return m_words; }
    [[nodiscard]] bool elsewhere() const { return m_port != nullptr && !m_port->canBringBack(); }
    [[nodiscard]] bool looking() const { return m_looking; }
    [[nodiscard]] QString offer() const;
    [[nodiscard]] QString offerDetail() const;
    [[nodiscard]] QString offerFaults() const;
    [[nodiscard]] bool remakable() const { return m_remakable; }
    [[nodiscard]] bool mending() const { return m_mending; }
    [[nodiscard]] QString fault() const { return m_fault; }

    /// Looks what is damaged, and for backups where those are needed; again: a stick was put in.
    Q_INVOKABLE void look();
    Q_INVOKABLE void remake();
    Q_INVOKABLE void bringBack();
    /// Goes on with what can be read; every screen says so until somebody takes it up again.
    Q_INVOKABLE void wait();
    Q_INVOKABLE void takeUp();
    /// Somebody mended it by hand.
    Q_INVOKABLE void tryAgain() { emit openAgainWanted(); }

signals:
    void changed();
    /// Nobody else is to bring anything into the house now.
    void mendingBegins();
    /// It is as it was.
    void mendingFailed();
    /// The program is to open the workshop anew.
    void openAgainWanted();

private:
    void begin(const QString& words);
    void lookForBackup();
    void mend(const std::function<QFuture<tl::expected<void, QString>>()>& begin);

    BackupPort* m_port;
    SiteBook& m_book;
    QString m_words;
    QString m_fault;
    std::optional<BackupOffer> m_offer;
    bool m_isFound = false; ///< while the workshop is open
    bool m_waits = false;
    bool m_looking = false;
    bool m_remakable = false;
    bool m_mending = false;
};

} // namespace ramplight
