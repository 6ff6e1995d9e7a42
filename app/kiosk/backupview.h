// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/ask.h"
#include "kiosk/backupport.h"
#include "kiosk/session.h"
#include "kiosk/sitebook.h"
#include "kiosk/ticker.h"

namespace ramplight {

/// Sees to the day's backup and says how it stands. GUI thread.
class BackupView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the shell")
    Q_PROPERTY(ramplight::Ask* ask READ ask CONSTANT FINAL)
    Q_PROPERTY(bool offered READ offered CONSTANT FINAL) ///< false: this program keeps none
    Q_PROPERTY(bool working READ working NOTIFY changed FINAL)
    Q_PROPERTY(bool worrying READ worrying NOTIFY changed FINAL)
    Q_PROPERTY(QString lastWords READ lastWords NOTIFY changed FINAL) ///< "today 20:30", "none yet"
    /// Several kiosks share a server: "today 20:30, by the kiosk wall-1" of the site's last; empty.
    Q_PROPERTY(QString siteWords READ siteWords NOTIFY changed FINAL)
    Q_PROPERTY(QString atWords READ atWords NOTIFY changed FINAL) ///< "each day at 20:30"
    Q_PROPERTY(QString folder READ folder NOTIFY changed FINAL)
    /// What is wrong and what to do; empty.
    Q_PROPERTY(QString warning READ warning NOTIFY changed FINAL)
    /// "today 20:30", "none known": when the site's key file was last copied. Empty: it is not
    /// known yet, or a demo needs none.
    Q_PROPERTY(QString keyCopyWords READ keyCopyWords NOTIFY changed FINAL)
    /// "The workshop was brought back today 14:00 from the backup of Thu 4 May 2031, 20:30." Empty:
    /// it never was.
    Q_PROPERTY(QString broughtBack READ broughtBack NOTIFY changed FINAL)
    /// What came along then of what was done since, and what did not; a line each.
    Q_PROPERTY(QString broughtAlong READ broughtAlong NOTIFY changed FINAL)
    /// The same for who stands at the wall, in one line and for some days: which cars are not as
    /// they were. Empty: all came along.
    Q_PROPERTY(QString leftBehind READ leftBehind NOTIFY changed FINAL)
    Q_PROPERTY(bool keyCopied READ keyCopied NOTIFY changed FINAL)
    /// Folders on plugged-in sticks; refresh() looks.
    Q_PROPERTY(QStringList places READ places NOTIFY changed FINAL)

public:
    /// port may be null; what is given outlives the view.
    BackupView(BackupPort* port, Desk& desk, Session& session, SiteBook& book, Ticker& ticker,
               QObject* parent = nullptr);

    [[nodiscard]] Ask* ask() { return &m_ask; }
    [[nodiscard]] bool offered() const { return m_port != nullptr; }
    [[nodiscard]] bool working() const { return m_working; }
    [[nodiscard]] bool worrying() const { return !warning().isEmpty(); }
    [[nodiscard]] QString lastWords() const;
    [[nodiscard]] QString siteWords() const;
    [[nodiscard]] QString atWords() const;
    [[nodiscard]] QString folder() const { return m_status.folder; }
    [[nodiscard]] QString warning() const;
    [[nodiscard]] QString keyCopyWords() const;
    [[nodiscard]] QString broughtBack() const;
    [[nodiscard]] QString broughtAlong() const
    {
        return m_status.broughtBack.told.join(QLatin1Char('\n'));
    }
    [[nodiscard]] QString leftBehind() const;
    [[nodiscard]] bool keyCopied() const { return !m_status.keyCopiedAt.isNull(); }
    [[nodiscard]] QStringList places() const { return m_places; }

    Q_INVOKABLE void refresh();
    Q_INVOKABLE void backUpNow();
    /// Signed with the PIN of somebody who may manage.
    Q_INVOKABLE void setFolder(const QString& folder);

signals:
    void changed();

private:
    void look();
    void lookAtSite();
    void askHowItStands();
    void backUp();
    void show(const BackupStatus& status);
    void send(const QString& folder);
    /// As it was told, or stale since: a stick or share that hangs keeps also from being told.
    [[nodiscard]] BackupState state() const;
    /// What is wrong with the backups of this kiosk; with those of its whole site.
    [[nodiscard]] QString ownWarning() const;
    [[nodiscard]] QString siteWarning() const;

    BackupPort* m_port;
    Desk& m_desk;
    Session& m_session;
    SiteBook& m_book;
    Ticker& m_ticker;
    Ask m_ask;
    BackupStatus m_status;
    std::optional<SiteBackup> m_site; ///< of a server, once it was read
    QStringList m_places;
    bool m_known = false; ///< the status was read
    bool m_working = false;
    bool m_asking = false;    ///< how it stands, and the answer is not here yet
    bool m_asksAgain = false; ///< once it is
};

} // namespace ramplight
