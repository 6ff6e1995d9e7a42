// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "controlbench.h"

#include <QFontDatabase>
#include <QQmlComponent>
#include <QRegularExpression>
#include <QTest>

namespace ramplight::test {

bool addTypefaces()
{
    static const bool added = [] {
        return QFontDatabase::addApplicationFont(
                   QStringLiteral(":/ramplight/fonts/B612-Regular.otf")) >= 0 &&
               QFontDatabase::addApplicationFont(
                   QStringLiteral(":/ramplight/fonts/B612-Bold.otf")) >= 0;
    }();
    return added;
}

ControlBench::ControlBench()
    : m_screen(QTest::createTouchDevice())
    , m_engine(std::make_unique<QQmlEngine>())
    , m_window(std::make_unique<QQuickWindow>())
{
    QTest::failOnWarning(QRegularExpression(QStringLiteral(".")));
    if (!addTypefaces())
        qCritical("the theme's fonts are not in the program");
    m_engine->addImportPath(QStringLiteral("qrc:/qt/qml"));
    m_window->resize(1920, 1080);
    m_themeHolder = make("import Ramplight.Theme\nimport QtQml\n"
                         "QtObject { property QtObject look: Theme }");
    if (m_themeHolder)
        m_theme = m_themeHolder->property("look").value<QObject*>();
    if (m_theme != nullptr)
        m_theme->setProperty("lessMotion", true);
}

ControlBench::~ControlBench()
{
    // What was made by the engine goes before it.
    m_themeHolder.reset();
    m_window.reset();
    m_engine.reset();
}

std::unique_ptr<QObject> ControlBench::make(const QByteArray& qml)
{
    QQmlComponent component(m_engine.get());
    component.setData(qml, QUrl());
    std::unique_ptr<QObject> made(component.create());
    if (!made)
        qCritical().noquote() << component.errorString();
    return made;
}

std::unique_ptr<QQuickItem> ControlBench::show(const QString& qml)
{
    auto made = make(
        ("import QtQuick\nimport Ramplight.Theme\nimport Ramplight.Controls\n" + qml.toUtf8()));
    if (qobject_cast<QQuickItem*>(made.get()) == nullptr)
        return nullptr;
    std::unique_ptr<QQuickItem> item(qobject_cast<QQuickItem*>(made.release()));
    item->setParentItem(m_window->contentItem());
    m_window->show();
    if (!QTest::qWaitForWindowExposed(m_window.get()))
        return nullptr;
    m_window->requestActivate();
    (void)QTest::qWaitForWindowActive(m_window.get());
    (void)grab();
    return item;
}

void ControlBench::touchAt(QPoint point)
{
    QTest::touchEvent(m_window.get(), m_screen.get()).press(0, point);
    QTest::touchEvent(m_window.get(), m_screen.get()).release(0, point);
}

void ControlBench::tap(const QQuickItem* item)
{
    QVERIFY(item);
    touchAt(item->mapToScene(QPointF(item->width() / 2, item->height() / 2)).toPoint());
}

/// The visible item below `root` with this text (or accessible name in `property`).
QQuickItem* itemWith(QQuickItem* root, const char* type, const char* property,
                     const QVariant& value)
{
    for (QQuickItem* child : root->childItems()) {
        if (child->isVisible() &&
            QLatin1String(child->metaObject()->className()).startsWith(QLatin1String(type)) &&
            child->property(property) == value)
            return child;
        if (QQuickItem* found = itemWith(child, type, property, value))
            return found;
    }
    return nullptr;
}

} // namespace ramplight::test
