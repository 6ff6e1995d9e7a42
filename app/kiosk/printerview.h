// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/ask.h"
#include "kiosk/choices.h"
#include "kiosk/keeping.h"
#include "kiosk/sitebook.h"

namespace ramplight {

using PrinterKeeper = Keeping<QString>::Keeper; ///< of the queue

/// On which printer this kiosk prints, changed by somebody who may manage. What is set holds as
/// soon as it is kept; what cannot be kept is told, and can be tried again. GUI thread.
class PrinterView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the shell")
    Q_PROPERTY(ramplight::Ask* ask READ ask CONSTANT FINAL)
    Q_PROPERTY(QString queue READ queue NOTIFY changed FINAL) ///< empty: nothing is printed
    /// The printing system's printers, by name; refresh() reads them.
    Q_PROPERTY(ramplight::Choices* queues READ queues CONSTANT FINAL)
    Q_PROPERTY(bool looking READ looking NOTIFY changed FINAL)
    /// Why there are none to choose from, or that the one that is set is not among them; empty.
    Q_PROPERTY(QString fault READ fault NOTIFY changed FINAL)

public:
    /// An empty keeper keeps nothing beyond this start.
    PrinterView(Desk& desk, Session& session, SiteBook& book, PrinterKeeper keeper,
                QObject* parent = nullptr);

    [[nodiscard]] Ask* ask() { return &m_ask; }
    [[nodiscard]] QString queue() const { return m_desk.printer(); }
    [[nodiscard]] Choices* queues() { return &m_queues; }
    [[nodiscard]] bool looking() const { return m_looking; }
    [[nodiscard]] QString fault() const { return m_fault; }

    Q_INVOKABLE void refresh();
    /// Empty: this kiosk prints nothing.
    Q_INVOKABLE void setQueue(const QString& queue);

signals:
    void changed();

private:
    void show(const tl::expected<std::vector<PrintQueue>, QString>& found);
    void keep(const QString& queue);

    Desk& m_desk;
    Session& m_session;
    SiteBook& m_book;
    Keeping<QString> m_keeping;
    Ask m_ask;
    Choices m_queues;
    QString m_fault;
    bool m_looking = false;
};

} // namespace ramplight
