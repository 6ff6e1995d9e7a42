// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "evidence/photovault.h"
#include "kiosk/kioskengine.h"
#include "kiosk/shell.h"

#include <QStringList>

#include <memory>

class QQuickWindow;

namespace ramplight {

class PhotoProvider;

struct KioskOptions
{
    bool windowed = false;
    QSize windowSize{1920, 1080}; ///< when windowed
    ScreenSettings screen;        ///< all sizes follow from its diagonal
    ScreenKeeper keepScreen = {}; ///< empty: changes hold until the kiosk closes
    PlanPace planning = {};
    PhoneSettings phone = {};       ///< off unless an address is set
    PhoneKeeper keepPhone = {};     ///< empty: changes hold until the kiosk closes
    PrinterKeeper keepPrinter = {}; ///< the same
    QString lastPlace = {};         ///< where somebody was when the kiosk froze
    PlaceKeeper keepPlace = {};
    std::function<void()> shown = {}; ///< the window is there
};

/// What main.cpp hands in; all outlive the kiosk.
struct KioskServices
{
    Desk& desk;
    const Clock& clock;
    const Catalogue& catalogue;
    const PhotoVault& photos;
    DemoMaker demo;
    BackupPort* backups = nullptr; ///< null: none are made
    CameraMaker camera = {};
};

/// The kiosk around its main window: engine, fonts, shell, image providers. For tour and tests,
/// which drive it themselves. engine: made before, where there was something to wait for; else it
/// makes its own. GUI thread.
class KioskApp
{
public:
    KioskApp(const KioskOptions& options, const KioskServices& services,
             std::unique_ptr<KioskEngine> engine = {});
    ~KioskApp();
    KioskApp(const KioskApp&) = delete;
    KioskApp& operator=(const KioskApp&) = delete;

    /// Loads Main.qml and shows it. False when it cannot be loaded; faults() has why.
    [[nodiscard]] bool show();
    [[nodiscard]] QStringList faults() const { return m_faults; }
    [[nodiscard]] Shell& shell() { return *m_shell; }
    [[nodiscard]] QQuickWindow* window() const { return m_window; }

private:
    void applyScreen();

    KioskOptions m_options;
    std::unique_ptr<Shell> m_shell;
    std::unique_ptr<KioskEngine> m_engine;
    PhotoProvider* m_photos = nullptr; ///< the engine's
    QQuickWindow* m_window = nullptr;
    QStringList m_faults;
    QSize m_pixels;
};

/// What runKiosk() answers when the workshop is to be opened anew: it came back from a backup.
constexpr int openAgain = -1;

/// Shows the kiosk until its window closes. Answers with an exit code of sysexits(3).
[[nodiscard]] int runKiosk(const KioskOptions& options, const KioskServices& services,
                           std::unique_ptr<KioskEngine> engine);

} // namespace ramplight
