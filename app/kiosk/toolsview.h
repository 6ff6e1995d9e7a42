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

/// The register of measuring tools. Use: edit(toolId) or edit(0) for a new one, fill the form,
/// save(). GUI thread.
class ToolsView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the settings")
    Q_PROPERTY(ramplight::Ask* ask READ ask CONSTANT FINAL)
    Q_PROPERTY(ramplight::ToolsModel* tools READ tools CONSTANT FINAL) ///< also those that left
    Q_PROPERTY(int overdue READ overdue NOTIFY toolsChanged FINAL)     ///< how many are
    // ---- the form
    Q_PROPERTY(int toolId READ toolId NOTIFY formChanged FINAL) ///< 0: a new one
    Q_PROPERTY(QString number READ number WRITE setNumber NOTIFY formChanged FINAL)
    Q_PROPERTY(QString due READ due WRITE setDue NOTIFY formChanged FINAL) ///< ISO
    Q_PROPERTY(QString dueWords READ dueWords NOTIFY formChanged FINAL)
    Q_PROPERTY(bool active READ active WRITE setActive NOTIFY formChanged FINAL)
    Q_PROPERTY(ramplight::Choices* kinds READ kinds CONSTANT FINAL)

public:
    ToolsView(Desk& desk, Session& session, SiteBook& book, Ticker& ticker,
              QObject* parent = nullptr);

    [[nodiscard]] Ask* ask() { return &m_ask; }
    [[nodiscard]] ToolsModel* tools() { return &m_tools; }
    [[nodiscard]] int overdue() const { return m_overdue; }
    [[nodiscard]] int toolId() const { return m_tool.value; }
    [[nodiscard]] QString number() const { return m_number; }
    void setNumber(const QString& number);
    [[nodiscard]] QString due() const { return m_due.toString(Qt::ISODate); }
    void setDue(const QString& iso);
    [[nodiscard]] QString dueWords() const;
    [[nodiscard]] bool active() const { return m_active; }
    void setActive(bool active);
    [[nodiscard]] Choices* kinds() { return &m_kinds; }

    Q_INVOKABLE void edit(int toolId);
    Q_INVOKABLE void save();

signals:
    void toolsChanged();
    void formChanged();

private:
    void rebuild();

    SiteBook& m_book;
    Ticker& m_ticker;
    Ask m_ask;
    SiteAsks m_asks;
    ToolsModel m_tools;
    int m_overdue = 0;
    ToolId m_tool;
    QString m_number;
    QDate m_due;
    bool m_active = true;
    Choices m_kinds;
};

} // namespace ramplight
