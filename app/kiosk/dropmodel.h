// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/desk.h"
#include "kiosk/listbase.h"
#include "kiosk/sitebook.h"
#include "kiosk/ticker.h"

#include <QtQmlIntegration>

namespace ramplight {

struct DropRow
{
    QString path; ///< for attachFile
    QString name;
    QString url;
    QString whenWords;

    [[nodiscard]] QString key() const { return path; }
    friend bool operator==(const DropRow&, const DropRow&) = default;
};

/// Photos that wait in the drop folder, newest first. Roles: path, name, url (for an Image),
/// whenWords. Call refresh() when the sheet opens. GUI thread.
class DropModel : public ListBase
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the shell")
    Q_PROPERTY(bool busy READ busy NOTIFY stateChanged FINAL)
    /// Why there is nothing: the folder cannot be read; empty when all is well.
    Q_PROPERTY(QString fault READ fault NOTIFY stateChanged FINAL)

public:
    DropModel(Desk& desk, SiteBook& book, Ticker& ticker, QObject* parent = nullptr);

    [[nodiscard]] bool busy() const { return m_busy; }
    [[nodiscard]] QString fault() const { return m_fault; }

    Q_INVOKABLE void refresh();

signals:
    void stateChanged();

private:
    Desk& m_desk;
    SiteBook& m_book;
    Ticker& m_ticker;
    bool m_busy = false;
    QString m_fault;
};

} // namespace ramplight
