// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "backup/houselock.h"
#include "bench/report.h"
#include "bench/scene.h"
#include "cli/house.h"
#include "cli/lastplace.h"
#include "cli/logging.h"
#include "cli/privacy.h"
#include "cli/program.h"
#include "cli/shipped.h"
#include "cli/steadymemory.h"
#include "cli/translation.h"
#include "desk/backupdesk.h"
#include "desk/workshopdesk.h"
#include "evidence/photostore.h"
#include "kiosk/kioskapp.h"
#include "kiosk/momentplayer.h"

#include <QElapsedTimer>
#include <QGuiApplication>
#include <QProcess>
#include <QQmlApplicationEngine>
#include <QQuickItem>
#include <QQuickWindow>
#include <QStandardPaths>
#include <QTemporaryDir>
#include <QTest>

#include <cstdio>

using namespace ramplight;
using namespace ramplight::test;

// The program calls itself in processes of its own: "kiosk HOME" wires the kiosk as main.cpp does,
// "bare RECTANGLES TEXTS" shows a plain window. Each says so when its first whole frame is out.
namespace {

constexpr QSize wallSize(1920, 1080);

/// Says what was drawn, at the first frame in which ready() is true, and ends the process.
void endWhenDrawn(QQuickWindow* window, const std::function<bool()>& ready)
{
    QObject::connect(window, &QQuickWindow::frameSwapped, window, [window, ready] {
        if (!ready())
            return;
        const Drawn drawn = drawnIn(window->contentItem());
        std::printf("drawn %d %d\n", drawn.rectangles, drawn.texts);
        std::fflush(stdout);
        // Nothing is written here, and ending is not what is measured.
        std::_Exit(0);
    });
}

int openKiosk(const QString& home, int& argc, char** argv)
{
    leaveNoCoreFile();
    makePrivateFiles();
    keepMemorySteady();
    chooseMediaBackend();
    const HousePaths paths(home);
    auto reading = shippedCatalogueAside();
    QGuiApplication application(argc, argv);
    const auto translator = speakAsSet(paths);
    const SystemClock clock;
    startLogging(paths);
    auto engine = std::make_unique<KioskEngine>();
    const auto lock = HouseLock::inCommon(paths.root());
    auto settings = HouseSettings::read(paths);
    if (!lock || !closeToOthers(paths))
        return 1;
    auto readKeys = openKeys(paths, {});
    auto catalogue = reading.get();
    if (!settings || !catalogue || !readKeys)
        return 1;
    const auto keys = std::make_shared<const SiteKeys>(std::move(*readKeys));
    PhotoStore photos(paths.photos());
    StoreThread store(settings->store, headKeeper(paths, keys), clock, *catalogue);
    WorkshopDesk desk(store, clock, keys->pepper().clone(), photos,
                      DeskPlaces{paths.drop(), paths.records(), settings->printer,
                                 appraisalSchema(), catalogue->standingLine});
    KioskOptions options;
    options.windowed = true;
    options.windowSize = wallSize;
    options.lastPlace = LastPlace::left(paths.place());
    BackupDesk backups(backupSource(paths, settings->store, keys, photos),
                       {settings->backupFolder,
                        settings->backupAt,
                        paths.backupNote(),
                        paths.keyCopyNote(),
                        settings->sticks,
                        {},
                        {}},
                       clock);
    const auto opening = store.start();
    KioskApp app(options, {desk, clock, *catalogue, photos, {}, &backups}, std::move(engine));
    if (!app.show())
        return 1;
    QQuickItem* root = app.window()->contentItem();
    endWhenDrawn(app.window(), [&app, root] {
        return app.shell().siteRead() && app.shell().wall()->loaded() &&
               !visibleOfType(root, "CarCard").empty();
    });
    Q_UNUSED(opening)
    return QCoreApplication::exec();
}

int openBare(int rectangles, int texts, int& argc, char** argv)
{
    QGuiApplication application(argc, argv);
    QQmlApplicationEngine engine;
    engine.setInitialProperties({{QStringLiteral("rectangles"), rectangles},
                                 {QStringLiteral("texts"), texts},
                                 {QStringLiteral("width"), wallSize.width()},
                                 {QStringLiteral("height"), wallSize.height()}});
    engine.load(QUrl(QStringLiteral("qrc:/qt/qml/Ramplight/Bare/BareWindow.qml")));
    if (engine.rootObjects().isEmpty())
        return 1;
    endWhenDrawn(qobject_cast<QQuickWindow*>(engine.rootObjects().constFirst()),
                 [] { return true; });
    return QCoreApplication::exec();
}

} // namespace

class BenchStart : public QObject
{
    Q_OBJECT

private slots:
    void initTestCase() { QCOMPARE(makeDemo(m_home.path()), QString()); }

    void starting_data()
    {
        QTest::addColumn<QString>("platform");
        QTest::newRow("offscreen") << QStringLiteral("offscreen");
        QTest::newRow("Xvfb") << QStringLiteral("xcb");
    }

    void starting()
    {
        QFETCH(QString, platform);
        QProcess server;
        QProcessEnvironment environment = programEnvironment();
        environment.insert(QStringLiteral("QT_QPA_PLATFORM"), platform);
        if (platform == QLatin1String("xcb")) {
            const QString program = QStandardPaths::findExecutable(QStringLiteral("Xvfb"));
            if (program.isEmpty())
                QSKIP("Xvfb is not installed.");
            server.start(program, {QStringLiteral("-displayfd"), QStringLiteral("1"),
                                   QStringLiteral("-screen"), QStringLiteral("0"),
                                   QStringLiteral("1920x1080x24")});
            QByteArray display;
            while (!display.contains('\n') && server.waitForReadyRead(patience))
                display += server.readAllStandardOutput();
            QVERIFY2(display.contains('\n'), "Xvfb does not start");
            environment.insert(QStringLiteral("DISPLAY"),
                               QLatin1Char(':') + QString::fromLatin1(display.trimmed()));
        }
        constexpr int starts = 15;
        std::vector<double> ours;
        std::vector<double> bare;
        Drawn drawn;
        // The first of each warms the disk's cache and does not count.
        for (int i = 0; i <= starts; ++i) {
            Drawn wall;
            const double kiosk =
                started({QStringLiteral("kiosk"), m_home.path()}, environment, wall);
            QVERIFY(wall.texts > 0);
            drawn = wall;
            Drawn plain;
            const double plainTook =
                started({QStringLiteral("bare"), QString::number(wall.rectangles),
                         QString::number(wall.texts)},
                        environment, plain);
            QVERIFY(plain.texts >= wall.texts && plain.rectangles >= wall.rectangles);
            if (i == 0)
                continue;
            ours.push_back(kiosk);
            bare.push_back(plainTook);
        }
        if (server.state() != QProcess::NotRunning) {
            server.terminate();
            server.waitForFinished();
        }
        qInfo("%d rectangles and %d texts", drawn.rectangles, drawn.texts);
        tell(QStringLiteral("start to the wall drawn, %1").arg(platform), quantile(ours, 0.5),
             quantile(bare, 0.5), QStringLiteral("ms"), Aim::AtMost, 3);
    }

private:
    static constexpr int patience = 30'000;

    /// Milliseconds from the start of the process to its first whole frame.
    static double started(const QStringList& arguments, const QProcessEnvironment& environment,
                          Drawn& drawn)
    {
        QProcess process;
        process.setProcessEnvironment(environment);
        QElapsedTimer timer;
        timer.start();
        process.start(QCoreApplication::applicationFilePath(), arguments);
        QByteArray said;
        while (!said.contains('\n') && process.waitForReadyRead(patience))
            said += process.readAllStandardOutput();
        const double took = double(timer.nsecsElapsed()) / 1e6;
        process.waitForFinished(patience);
        const QList<QByteArray> words = said.trimmed().split(' ');
        bool isRead = words.size() == 3 && words.front() == "drawn";
        if (isRead)
            drawn.rectangles = words.at(1).toInt(&isRead);
        if (isRead)
            drawn.texts = words.at(2).toInt(&isRead);
        if (!isRead)
            qFatal("%s", process.readAllStandardError().constData());
        return took;
    }

    QTemporaryDir m_home;
};

int main(int argc, char** argv)
{
    const QString mode = argc > 1 ? QString::fromLocal8Bit(argv[1]) : QString();
    if (mode == QLatin1String("kiosk") && argc == 3)
        return openKiosk(QString::fromLocal8Bit(argv[2]), argc, argv);
    if (mode == QLatin1String("bare") && argc == 4)
        return openBare(QByteArray(argv[2]).toInt(), QByteArray(argv[3]).toInt(), argc, argv);
    QCoreApplication application(argc, argv);
    // A bench takes as long as it takes.
    qputenv("QTEST_FUNCTION_TIMEOUT", "3600000");
    BenchStart bench;
    return QTest::qExec(&bench, argc, argv);
}

#include "bench_start.moc"
