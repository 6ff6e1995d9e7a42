// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/choices.h"
#include "kiosk/settingslists.h"
#include "kiosk/siteasks.h"
#include "kiosk/ticker.h"

#include <QObject>
#include <QtQmlIntegration>

namespace ramplight {

/// What one person is qualified for, with last days, and their specialities. Use: edit(personId),
/// setUntil() and the choices, save(). GUI thread.
class CompetenceView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the settings")
    Q_PROPERTY(ramplight::Ask* ask READ ask CONSTANT FINAL)
    Q_PROPERTY(QString name READ name NOTIFY formChanged FINAL)
    Q_PROPERTY(ramplight::QualificationsModel* qualifications READ qualifications CONSTANT FINAL)
    /// Of the catalogue; empty when it names none.
    Q_PROPERTY(ramplight::Choices* specialities READ specialities CONSTANT FINAL)

public:
    CompetenceView(Desk& desk, Session& session, SiteBook& book, Ticker& ticker,
                   QObject* parent = nullptr);

    [[nodiscard]] Ask* ask() { return &m_ask; }
    [[nodiscard]] QString name() const { return m_book.nameOf(m_person); }
    [[nodiscard]] QualificationsModel* qualifications() { return &m_rows; }
    [[nodiscard]] Choices* specialities() { return &m_specialities; }

    Q_INVOKABLE void edit(int personId);
    /// Its last day, ISO; empty: not held.
    Q_INVOKABLE void setUntil(const QString& qualificationId, const QString& iso);
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
    std::vector<HeldQualification> m_held;
    QualificationsModel m_rows;
    Choices m_specialities;
};

} // namespace ramplight
