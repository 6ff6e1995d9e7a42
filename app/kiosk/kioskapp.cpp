// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/kioskapp.h"

#include "kiosk/drawing/cardrawing.h"
#include "kiosk/photoprovider.h"
#include "log/log.h"

#include <QCoreApplication>
#include <QFontDatabase>
#include <QGuiApplication>
#include <QQmlError>
#include <QQuickWindow>
#include <QScreen>
#include <QStyleHints>

#include <cmath>

namespace ramplight {

namespace {

// sysexits(3)
constexpr int exitSoftware = 70;

constexpr double millimetresPerInch = 25.4;

double pixelsPerMillimetre(const QSize& pixels, double diagonalInches)
{
    const double diagonal = std::hypot(pixels.width(), pixels.height());
    return diagonal / (diagonalInches * millimetresPerInch);
}

void addFonts(QStringList& faults)
{
    for (const QString& file :
         {QStringLiteral("B612-Regular.otf"), QStringLiteral("B612-Bold.otf")})
        if (QFontDatabase::addApplicationFont(QStringLiteral(":/ramplight/fonts/") + file) < 0)
            faults.append(QStringLiteral("font %1 is not in the program").arg(file));
}

} // namespace

KioskApp::KioskApp(const KioskOptions& options, const KioskServices& services,
                   std::unique_ptr<KioskEngine> engine)
    : m_options(options)
    , m_shell(std::make_unique<Shell>(Shell::Services{services.desk,
                                                      services.clock,
                                                      services.catalogue,
                                                      services.demo,
                                                      {},
                                                      options.screen,
                                                      options.keepScreen,
                                                      options.planning,
                                                      options.phone,
                                                      options.keepPhone,
                                                      options.keepPrinter,
                                                      services.backups,
                                                      options.lastPlace,
                                                      options.keepPlace,
                                                      services.camera}))
    , m_engine(engine ? std::move(engine) : std::make_unique<KioskEngine>())
{
    CarDrawing::readAhead();
    addFonts(m_faults);
    // The second of two taps would come as a double click, and the touch would end there: nothing
    // here is double-clicked, and what is touched guards itself against a trembling hand.
    QGuiApplication::styleHints()->setMouseDoubleClickInterval(0);
    QQmlApplicationEngine& screens = m_engine->screens();
    // The engine owns both.
    m_photos = new PhotoProvider(services.photos);
    screens.addImageProvider(QStringLiteral("photo"), m_photos);
    screens.addImageProvider(QStringLiteral("record"), new PageProvider(m_shell->pages()));
    screens.addImageProvider(QStringLiteral("paper"), new PageProvider(m_shell->papers()));
    QObject::connect(&screens, &QQmlApplicationEngine::warnings, m_shell.get(),
                     [this](const QList<QQmlError>& errors) {
                         for (const QQmlError& error : errors) {
                             m_faults.append(error.toString());
                             log::warn(QStringLiteral("screen: %1").arg(error.toString()));
                         }
                     });
    QCoreApplication::instance()->installEventFilter(m_shell->scans());
}

KioskApp::~KioskApp()
{
    QCoreApplication::instance()->removeEventFilter(m_shell->scans());
    m_photos->close();
    // The screens look at the shell: they go first.
    m_engine.reset();
}

bool KioskApp::show()
{
    const QScreen* screen = QGuiApplication::primaryScreen();
    m_pixels = m_options.windowed || screen == nullptr ? m_options.windowSize : screen->size();
    const ScreenSettings& drawn = m_shell->screen()->settings();
    const bool shown = m_engine->show(
        {{QStringLiteral("shell"), QVariant::fromValue(m_shell.get())},
         {QStringLiteral("pxPerMm"), pixelsPerMillimetre(m_pixels, drawn.diagonalInches)},
         {QStringLiteral("dark"), !drawn.light},
         {QStringLiteral("lessMotion"), drawn.lessMotion},
         {QStringLiteral("sounds"), drawn.sounds},
         {QStringLiteral("fullScreen"), !m_options.windowed},
         {QStringLiteral("width"), m_pixels.width()},
         {QStringLiteral("height"), m_pixels.height()}});
    if (!shown)
        return false;
    m_window = qobject_cast<QQuickWindow*>(m_engine->screens().rootObjects().constFirst());
    if (m_window == nullptr)
        return false;
    QObject::connect(m_shell->screen(), &ScreenView::changed, m_window, [this] { applyScreen(); });
    m_shell->start();
    return true;
}

void KioskApp::applyScreen()
{
    const ScreenSettings& drawn = m_shell->screen()->settings();
    m_window->setProperty("pxPerMm", pixelsPerMillimetre(m_pixels, drawn.diagonalInches));
    m_window->setProperty("dark", !drawn.light);
    m_window->setProperty("lessMotion", drawn.lessMotion);
    m_window->setProperty("sounds", drawn.sounds);
}

int runKiosk(const KioskOptions& options, const KioskServices& services,
             std::unique_ptr<KioskEngine> engine)
{
    KioskApp app(options, services, std::move(engine));
    if (!app.show()) {
        for (const QString& fault : app.faults())
            log::error(QStringLiteral("kiosk: %1").arg(fault));
        return exitSoftware;
    }
    QObject::connect(app.shell().recovery(), &RecoveryView::openAgainWanted,
                     [] { QCoreApplication::exit(openAgain); });
    if (options.shown)
        options.shown();
    return QCoreApplication::exec();
}

} // namespace ramplight
