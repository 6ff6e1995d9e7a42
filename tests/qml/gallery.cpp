// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
//
// Paints every page of the gallery into a folder: gallery FOLDER [PAGE...]
#include <QDir>
#include <QFontDatabase>
#include <QGuiApplication>
#include <QQmlComponent>
#include <QQmlEngine>
#include <QQuickItem>
#include <QQuickWindow>
#include <QTextStream>

#include <memory>

namespace {

const QStringList allPages = {
    QStringLiteral("Cars"),    QStringLiteral("Marks"),    QStringLiteral("States"),
    QStringLiteral("Actions"), QStringLiteral("Readings"), QStringLiteral("Pads"),
    QStringLiteral("Keys"),    QStringLiteral("Messages"), QStringLiteral("Dialog")};

bool paintPage(QQmlEngine& engine, const QString& page, QSize size, const QString& file)
{
    QQuickWindow window;
    window.resize(size);
    QQmlComponent component(
        &engine, QUrl(QStringLiteral("qrc:/qt/qml/Ramplight/Gallery/%1Page.qml").arg(page)));
    const std::unique_ptr<QObject> made(component.createWithInitialProperties(
        {{QStringLiteral("width"), size.width()}, {QStringLiteral("height"), size.height()}}));
    auto* item = qobject_cast<QQuickItem*>(made.get());
    if (!item) {
        QTextStream(stderr) << component.errorString() << '\n';
        return false;
    }
    item->setParentItem(window.contentItem());
    window.show();
    window.requestActivate();
    // The first grab lets texts and animations without duration settle.
    QCoreApplication::processEvents();
    (void)window.grabWindow();
    QCoreApplication::processEvents();
    return window.grabWindow().save(file);
}

} // namespace

int main(int argc, char** argv)
{
    qputenv("QT_QPA_PLATFORM", "offscreen");
    QQuickWindow::setGraphicsApi(QSGRendererInterface::Software);
    QGuiApplication app(argc, argv);
    QStringList args = app.arguments().mid(1);
    if (args.isEmpty()) {
        QTextStream(stderr) << "usage: gallery FOLDER [PAGE...]\n";
        return 64;
    }
    const QDir folder(args.takeFirst());
    if (!folder.mkpath(QStringLiteral("."))) {
        QTextStream(stderr) << "cannot make " << folder.path() << '\n';
        return 73;
    }
    for (const char* file : {"B612-Regular.otf", "B612-Bold.otf"})
        QFontDatabase::addApplicationFont(QStringLiteral(":/ramplight/fonts/") +
                                          QLatin1StringView(file));
    QQmlEngine engine;
    engine.addImportPath(QStringLiteral("qrc:/qt/qml"));
    QQmlComponent first(&engine);
    first.setData(
        "import Ramplight.Theme\nimport QtQml\nQtObject { property QtObject look: Theme }", QUrl());
    const std::unique_ptr<QObject> keep(first.create());
    auto* const look = keep ? keep->property("look").value<QObject*>() : nullptr;
    if (!look) {
        QTextStream(stderr) << first.errorString() << '\n';
        return 70;
    }
    look->setProperty("lessMotion", true);
    bool good = true;
    for (const QString& page : args.isEmpty() ? allPages : args) {
        for (const bool dark : {true, false}) {
            look->setProperty("dark", dark);
            for (const QSize size : {QSize(1920, 1080), QSize(1080, 1920)}) {
                const QString file = folder.filePath(
                    QStringLiteral("%1-%2-%3.png")
                        .arg(page.toLower(),
                             dark ? QStringLiteral("dark") : QStringLiteral("light"),
                             size.width() > size.height() ? QStringLiteral("wide")
                                                          : QStringLiteral("tall")));
                good = paintPage(engine, page, size, file) && good;
            }
        }
    }
    return good ? 0 : 70;
}
