// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QImage>
#include <QPointingDevice>
#include <QQmlEngine>
#include <QQuickItem>
#include <QQuickWindow>

#include <memory>

namespace ramplight::test {

/// The letters of the theme, before there is a window; false when they are not in the program.
[[nodiscard]] bool addTypefaces();

/// A window in which one control after the other is shown and touched. Warnings of the QML engine
/// fail the running test. GUI thread.
class ControlBench
{
public:
    /// Movement is off, so that what is shown stands still.
    ControlBench();
    ~ControlBench();

    [[nodiscard]] QQmlEngine& engine() { return *m_engine; }
    [[nodiscard]] QQuickWindow& window() { return *m_window; }
    /// The theme, by the names of its properties; null when it could not be made.
    [[nodiscard]] QObject* theme() const { return m_theme; }
    /// Null, with the reason in the log, when the text is no QML.
    [[nodiscard]] std::unique_ptr<QObject> make(const QByteArray& qml);
    /// Makes a control of this QML text and shows it.
    [[nodiscard]] std::unique_ptr<QQuickItem> show(const QString& qml);
    [[nodiscard]] QImage grab() { return m_window->grabWindow(); }
    void touchAt(QPoint point);
    /// Touches the middle of it.
    void tap(const QQuickItem* item);

private:
    std::unique_ptr<QPointingDevice> m_screen;
    std::unique_ptr<QQmlEngine> m_engine;
    std::unique_ptr<QQuickWindow> m_window;
    std::unique_ptr<QObject> m_themeHolder;
    QObject* m_theme = nullptr;
};

/// The visible item below root of this QML type with this value of a property.
[[nodiscard]] QQuickItem* itemWith(QQuickItem* root, const char* type, const char* property,
                                   const QVariant& value);

} // namespace ramplight::test
