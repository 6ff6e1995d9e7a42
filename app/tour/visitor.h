// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QPointF>
#include <QString>

#include <functional>
#include <vector>

class QQuickItem;
class QQuickWindow;

namespace ramplight {

/// Somebody at the wall who reads what is on it and touches it, with real touch events. Every step
/// answers false when it does not come about; the first that failed is kept in words. GUI thread.
class Visitor
{
public:
    /// The window outlives the visitor.
    explicit Visitor(QQuickWindow* window)
        : m_window(window)
    {
    }

    [[nodiscard]] QString fault() const { return m_fault; }

    /// The topmost visible item that says exactly this.
    [[nodiscard]] QQuickItem* find(const QString& words) const;
    [[nodiscard]] std::vector<QQuickItem*> ofType(const char* type) const;
    [[nodiscard]] bool says(const QString& words) const { return find(words) != nullptr; }

    bool until(const std::function<bool()>& comesTrue, const QString& what);
    bool untilSays(const QString& words);
    /// Waits for the words, drags them into sight, touches them.
    bool tap(const QString& words);
    bool tap(QQuickItem* item);
    /// By the keys of the pad or keyboard that is shown.
    bool type(const QString& text);
    /// A picture of the window.
    bool shoot(const QString& path);

private:
    void tapAt(QPointF point);
    void drag(QPointF from, QPointF to);
    void settle();
    bool fail(const QString& what);

    QQuickWindow* m_window;
    QString m_fault;
};

} // namespace ramplight
