// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/desk.h"
#include "kiosk/listbase.h"
#include "kiosk/session.h"
#include "kiosk/sitebook.h"
#include "kiosk/ticker.h"

namespace ramplight {

/// One site of the group.
struct SiteRow
{
    QString siteId;
    QString name;
    bool own = false; ///< this kiosk's
    int inPrep = 0;
    int held = 0;
    int ready = 0;
    int late = 0;
    QString oldestWords; ///< "for 40 min": so long the car that waits longest has lain still

    [[nodiscard]] QString key() const { return siteId; }
    friend bool operator==(const SiteRow&, const SiteRow&) = default;
};

class SitesModel : public ListBase
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the settings")

public:
    explicit SitesModel(QObject* parent = nullptr);
    using ListBase::replace;
};

/// How the sites that share this kiosk's server stand, for who may manage. Read only; read anew
/// each minute while it is looked at, some sites at a time. GUI thread.
class SitesView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the settings")
    /// There is a server that sites can share.
    Q_PROPERTY(bool offered READ offered NOTIFY changed FINAL)
    Q_PROPERTY(bool allowed READ allowed NOTIFY changed FINAL) ///< who is signed in may manage
    Q_PROPERTY(bool reading READ reading NOTIFY changed FINAL)
    Q_PROPERTY(QString words READ words NOTIFY changed FINAL)         ///< why there are no rows
    Q_PROPERTY(QString asOfWords READ asOfWords NOTIFY changed FINAL) ///< "4 sites, as of 14:00"
    Q_PROPERTY(ramplight::SitesModel* rows READ rows CONSTANT FINAL)

public:
    /// What is given outlives the view.
    SitesView(Desk& desk, Session& session, SiteBook& book, Ticker& ticker,
              QObject* parent = nullptr);

    [[nodiscard]] bool offered() const { return m_desk.standing().shared; }
    [[nodiscard]] bool allowed() const { return m_session.mayManage(); }
    [[nodiscard]] bool reading() const { return m_reading; }
    [[nodiscard]] QString words() const { return m_words; }
    [[nodiscard]] QString asOfWords() const;
    [[nodiscard]] SitesModel* rows() { return &m_rows; }

    /// While somebody looks at it.
    Q_INVOKABLE void setLooking(bool looking);
    Q_INVOKABLE void refresh();

signals:
    void changed();

private:
    void readAfter(const SiteId& site, int round, std::vector<SiteFacts> before);
    void show();

    Desk& m_desk;
    Session& m_session;
    SiteBook& m_book;
    Ticker& m_ticker;
    SitesModel m_rows;
    std::vector<SiteFacts> m_facts;
    QString m_words;
    Moment m_asOf;
    int m_round = 0; ///< what an earlier one brings is not wanted any more
    bool m_looking = false;
    bool m_reading = false;
};

} // namespace ramplight
