// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/settingslists.h"
#include "kiosk/siteasks.h"
#include "kiosk/ticker.h"
#include "kiosk/timeslists.h"

#include <QObject>
#include <QtQmlIntegration>

namespace ramplight {

/// One person's own times: days away, a week other than the house's, extra hours. Use:
/// edit(personId), change them, save(). GUI thread.
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
    /// Other hours than the house's.
    Q_PROPERTY(bool ownWeek READ ownWeek WRITE setOwnWeek NOTIFY formChanged FINAL)
    Q_PROPERTY(ramplight::WeekModel* week READ week CONSTANT FINAL) ///< Monday to Sunday
    /// Why the week cannot be so; empty: it can.
    Q_PROPERTY(QString weekFault READ weekFault NOTIFY formChanged FINAL)
    /// What is over is left out, and stays in the ledger.
    Q_PROPERTY(ramplight::ExtraModel* extra READ extra CONSTANT FINAL)

public:
    TimesView(Desk& desk, Session& session, SiteBook& book, Ticker& ticker,
              QObject* parent = nullptr);

    [[nodiscard]] Ask* ask() { return &m_ask; }
    [[nodiscard]] QString name() const { return m_book.nameOf(m_person); }
    [[nodiscard]] AwayModel* away() { return &m_rows; }
    [[nodiscard]] int count() const;
    [[nodiscard]] bool ownWeek() const { return !m_times.week.empty(); }
    /// A week of one's own begins as the house's.
    void setOwnWeek(bool own);
    [[nodiscard]] WeekModel* week() { return &m_week; }
    [[nodiscard]] QString weekFault() const;
    [[nodiscard]] ExtraModel* extra() { return &m_extra; }

    Q_INVOKABLE void edit(int personId);
    /// Days as ISO, in either order; what overlaps becomes one.
    Q_INVOKABLE void add(const QString& first, const QString& last);
    Q_INVOKABLE void remove(const QString& first);
    /// A day of the own week, Monday is 1; times in local minutes. The break begins at noon, or
    /// lies in the middle of a day that noon is not in.
    Q_INVOKABLE void setDay(int day, bool off, int opens, int closes, int breakMinutes);
    /// Every day of the own week that is not off becomes like this one.
    Q_INVOKABLE void likeThisDay(int day);
    Q_INVOKABLE void addExtra(const QString& isoDay, int from, int to);
    Q_INVOKABLE void removeExtra(const QString& extraId);
    /// When this person begins and ends on a day; both 0 where it is off.
    Q_INVOKABLE int opensOn(const QString& isoDay) const;
    Q_INVOKABLE int closesOn(const QString& isoDay) const;
    Q_INVOKABLE void save();

signals:
    void formChanged();

private:
    void rebuild();
    [[nodiscard]] const WeekHours& usual() const;
    [[nodiscard]] DayHours hoursOn(const QString& isoDay) const;

    SiteBook& m_book;
    Ticker& m_ticker;
    Ask m_ask;
    SiteAsks m_asks;
    PersonId m_person;
    PersonTimes m_times;
    AwayModel m_rows;
    WeekModel m_week;
    ExtraModel m_extra;
};

} // namespace ramplight
