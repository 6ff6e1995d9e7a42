// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/kioskengine.h"

namespace ramplight {

namespace {

QUrl screenFile(const QString& name)
{
    return QUrl(QStringLiteral("qrc:/qt/qml/Ramplight/Screens/%1.qml").arg(name));
}

} // namespace

KioskEngine::KioskEngine()
    : m_main(&m_screens)
    , m_wall(&m_screens)
{
    m_screens.addImportPath(QStringLiteral("qrc:/qt/qml"));
    m_main.loadUrl(screenFile(QStringLiteral("Main")));
    m_wall.loadUrl(screenFile(QStringLiteral("WallScreen")));
}

bool KioskEngine::show(const QVariantMap& properties)
{
    m_screens.setInitialProperties(properties);
    m_screens.load(screenFile(QStringLiteral("Main")));
    return !m_screens.rootObjects().isEmpty();
}

} // namespace ramplight
