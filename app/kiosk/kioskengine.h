// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QQmlApplicationEngine>
#include <QQmlComponent>

namespace ramplight {

/// The engine of the kiosk's screens, its window and its wall read already. Of all that a start
/// does this takes longest and needs nothing from the house: main.cpp makes it while other threads
/// read the catalogue. GUI thread.
class KioskEngine
{
public:
    KioskEngine();

    [[nodiscard]] QQmlApplicationEngine& screens() { return m_screens; }
    /// Shows Main.qml. False when it cannot be shown; the engine's warnings have why.
    [[nodiscard]] bool show(const QVariantMap& properties);

private:
    QQmlApplicationEngine m_screens;
    QQmlComponent m_main;
    QQmlComponent m_wall;
};

} // namespace ramplight
