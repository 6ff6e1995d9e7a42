// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/settingslists.h"
#include "kiosk/siteasks.h"
#include "kiosk/ticker.h"

#include <QObject>
#include <QtQmlIntegration>

namespace ramplight {

/// When one person is away. Use: edit(personId), add() and remove(), save(). GUI thread.
class TimesView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the settings")
    Q_PROPERTY(ramplight::Ask* ask READ ask CONSTANT FINAL)
    Q_PROPERTY(QString name READ name NOTIFY formChanged FINAL)
    /// What is over is left out, and stays in the ledger.
    Q_PROPERTY(ramplight::AwayModel* away READ away CONSTANT FINAL)
    Q_PROPERTY(int count READ count NOTIFY formChanged FINAL)

public:
    TimesView(Desk& desk, Session& session, SiteBook& book, Ticker& ticker,
              QObject* parent = nullptr);

    [[nodiscard]] Ask* ask() { return &m_ask; }
    [[nodiscard]] QString name() const { return m_book.nameOf(m_person); }
    [[nodiscard]] AwayModel* away() { return &m_rows; }
    [[nodiscard]] int count() const;

    Q_INVOKABLE void edit(int personId);
    /// Days as ISO, in either order; what overlaps becomes one.
    Q_INVOKABLE void add(const QString& first, const QString& last);
    Q_INVOKABLE void remove(const QString& first);
    Q_INVOKABLE void save();

signals:
    void formChanged();

private:
    void rebuild();

    SiteBook& m_book;
    Ticker& m_ticker;
    Ask m_ask;
    SiteAsks m_asks;
    PersonId m_person;
    PersonTimes m_times;
    AwayModel m_rows;
};

} // namespace ramplight
