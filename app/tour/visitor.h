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
    /// Keeps the first fault; false.
    bool fail(const QString& what);

    /// The topmost visible item that says exactly this.
    [[nodiscard]] QQuickItem* find(const QString& words) const;
    [[nodiscard]] std::vector<QQuickItem*> ofType(const char* type) const;
    [[nodiscard]] bool says(const QString& words) const { return find(words) != nullptr; }
    /// All words on the screen, one a line.
    [[nodiscard]] QString allWords() const;

    bool until(const std::function<bool()>& comesTrue, const QString& what);
    bool untilSays(const QString& words);
    /// Waits for the words, drags them into sight, touches them.
    bool tap(const QString& words);
    bool tap(QQuickItem* item);
    void tapAt(QPointF point);
    /// Drags a finger in steps, holds it still and lets go.
    void drag(QPointF from, QPointF to);
    /// What a long list makes only when it comes into sight: drags the largest list that is shown
    /// until look finds it, then touches it.
    bool tapInList(const std::function<QQuickItem*()>& look, const QString& what);
    /// Drags the largest list that is shown until it is where it begins.
    bool toBeginning();
    /// By the keys of the pad or keyboard that is shown.
    bool type(const QString& text);
    /// Touches the key that puts the touch keyboard away, and waits until it is gone.
    bool hideKeyboard();
    /// A picture of the window.
    bool shoot(const QString& path);
    /// Lets a frame be drawn, so that positions are those on the screen.
    void settle();

private:
    /// What has just been found, on a screen that has settled.
    bool touch(QQuickItem* item);
    [[nodiscard]] QQuickItem* largestList() const;
    bool dragToRest(QQuickItem* list, QPointF from, QPointF to);
    bool dragOn(QQuickItem* list, bool down);

    QQuickWindow* m_window;
    QString m_fault;
};

} // namespace ramplight
