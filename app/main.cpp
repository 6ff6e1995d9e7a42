// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "backup/houselock.h"
#include "cli/brokenoff.h"
#include "cli/commandline.h"
#include "cli/demomaker.h"
#include "cli/lastplace.h"
#include "cli/logging.h"
#include "cli/privacy.h"
#include "cli/servicemanager.h"
#include "cli/shipped.h"
#include "cli/steadymemory.h"
#include "cli/translation.h"
#include "desk/backupdesk.h"
#include "desk/workshopdesk.h"
#include "kiosk/kioskapp.h"
#include "kiosk/momentplayer.h"
#include "kiosk/pulse.h"
#include "log/log.h"
#include "printing/cupsprinters.h"
#include "storage/remake.h"
#include "tour/tour.h"

#include <QCoreApplication>
#include <QFutureWatcher>
#include <QGuiApplication>
#include <QTemporaryDir>

#include <cstdio>
#include <optional>
#ifdef Q_OS_UNIX
#include <termios.h>
#include <unistd.h>
#endif

// The composition root: everything is made and wired here, by hand.
using namespace ramplight;

namespace {

/// Byte by byte: what follows the line stays for the next question.
QString lineFromStandardInput()
{
    QByteArray line;
    for (int c = std::getchar(); c != EOF && c != '\n'; c = std::getchar())
        line.append(static_cast<char>(c));
    if (line.endsWith('\r'))
        line.chop(1);
    const QString text = QString::fromUtf8(line);
    line.fill('0');
    return text;
}

/// One line from the terminal without echo; from a pipe as it comes.
QString readSecretly(const QString& prompt)
{
    if (isatty(STDIN_FILENO) == 0)
        return lineFromStandardInput();
    QTextStream(stderr) << prompt << Qt::flush;
    termios before{};
    tcgetattr(STDIN_FILENO, &before);
    termios silent = before;
    silent.c_lflag &= ~static_cast<tcflag_t>(ECHO);
    tcsetattr(STDIN_FILENO, TCSANOW, &silent);
    const QString line = lineFromStandardInput();
    tcsetattr(STDIN_FILENO, TCSANOW, &before);
    QTextStream(stderr) << QStringLiteral("\n");
    return line;
}

/// All that stands behind the screens of one workshop.
struct Backstage
{
    Backstage(const HousePaths& where, HouseSettings what, Catalogue knowledge, SiteKeys siteKeys)
        : paths(where)
        , settings(std::move(what))
        , catalogue(std::move(knowledge))
        , keys(std::make_shared<const SiteKeys>(std::move(siteKeys)))
        , photos(openKioskPhotos(where, settings))
    {
    }

    HousePaths paths;
    std::optional<HouseLock> lock; ///< nobody exchanges the folder meanwhile
    HouseSettings settings;
    Catalogue catalogue;
    std::shared_ptr<const SiteKeys> keys;
    std::unique_ptr<PhotoKeeper> photos;
    CupsPrinters printers;
    std::unique_ptr<StoreThread> store;
    std::unique_ptr<WorkshopDesk> desk;
};

tl::expected<std::unique_ptr<Backstage>, QString>
setStage(const HousePaths& paths, const Clock& clock,
         std::future<tl::expected<Catalogue, QString>> reading)
{
    if (auto made = paths.make(); !made)
        return tl::unexpected(made.error());
    auto lock = HouseLock::inCommon(paths.root());
    if (!lock)
        return tl::unexpected(lock.error());
    auto settings = HouseSettings::read(paths);
    const auto closed = closeToOthers(paths);
    auto catalogue = reading.get();
    if (!closed)
        return tl::unexpected(closed.error());
    if (!catalogue)
        return tl::unexpected(catalogue.error());
    auto keys = settings ? openKeys(paths, settings->store) : tl::unexpected(settings.error());
    if (!keys) {
        // Who stands at the wall is told on it: keys that live as long as this start open nothing.
        QString why = keys.error();
        if (!settings) {
            why = QCoreApplication::translate(
                      "ramplight", "%1 Nothing was opened and nothing changed; put it right and "
                                   "start the kiosk again.")
                      .arg(why);
            settings = HouseSettings{};
        }
        QTextStream(stderr) << why << Qt::endl;
        settings->store.hindrance = why;
        settings->backupFolder.clear();
        keys = SiteKeys::fresh();
    }
    auto stage = std::make_unique<Backstage>(paths, std::move(*settings), std::move(*catalogue),
                                             std::move(*keys));
    stage->lock.emplace(std::move(*lock));
    stage->store =
        std::make_unique<StoreThread>(kioskStore(paths, stage->settings),
                                      headKeeper(paths, stage->keys), clock, stage->catalogue);
    stage->desk = std::make_unique<WorkshopDesk>(
        *stage->store, clock, stage->keys->pepper().clone(), *stage->photos,
        DeskPlaces{
            paths.drop(), paths.records(), stage->settings.printer, appraisalSchema(),
            stage->catalogue.standingLine,
            SpeechPlaces{paths.drop(), stage->settings.sticks, paths.transcripts(),
                         paths.corrections(),
                         [language = stage->settings.language] { return shippedLexicon(language); },
                         stage->settings.language},
            &stage->printers});
    return stage;
}

/// Makes the demo workshop on the store's thread.
DemoMaker demoMaker(Backstage& stage, const Clock& clock)
{
    return [&stage, &clock](std::function<void(double)> progress) {
        return stage.store->run([&stage, &clock, progress = std::move(progress)](
                                    Workshop&, Store& store) -> tl::expected<void, QString> {
            return makeDemo(store, stage.catalogue, *stage.photos,
                            PinHasher(stage.keys->pepper().clone()), clock.now(), progress);
        });
    };
}

/// What can be done from the kiosk about a damaged file of the house.
void mendFrom(Backstage& stage, const Clock& clock, BackupPlan& plan)
{
    // Nobody else may be in the house meanwhile, nor this program by its own lock.
    const auto alone = [&stage](const auto& mend) -> tl::expected<void, QString> {
        stage.lock.reset();
        const auto mended = mend();
        if (mended)
            return {};
        if (auto lock = HouseLock::inCommon(stage.paths.root()))
            stage.lock.emplace(std::move(*lock));
        return tl::unexpected(mended.error());
    };
    plan.bringBack = [&stage, &clock, alone](const Backup& backup) {
        return alone([&] {
            auto restored = restoreInto(stage.paths, backup, {}, clock.now(), true);
            if (!restored)
                return restored;
            for (const QString& told : restored->againstRules)
                log::warn(QStringLiteral("brought back, and against the rules: %1").arg(told));
            for (const QString& told : restored->note.told)
                log::warn(QStringLiteral("brought back: %1").arg(told));
            return restored;
        });
    };
    plan.closeHouse = [&stage](const QString& words) {
        stage.store->rest(words).waitForFinished();
    };
    plan.openHouse = [&stage] { stage.store->getUp().waitForFinished(); };
    plan.canRemake = [&stage] {
        return hurtIn(stage.settings.store, headKeeper(stage.paths, stage.keys)) ==
               Hurt::ReadTables;
    };
    plan.remake = [&stage, &clock, alone] {
        return alone([&] { return remakeHouse(stage.paths, stage.settings, clock.now()); });
    };
}

/// Until the window closes, or the workshop was brought back from a backup (openAgain). again: it
/// was, and whoever started this program watches it already.
int runOnce(KioskOptions options, const HousePaths& paths, const Clock& clock,
            std::future<tl::expected<Catalogue, QString>> reading,
            std::unique_ptr<KioskEngine> engine, bool again)
{
    auto stage = setStage(paths, clock, std::move(reading));
    if (!stage) {
        QTextStream(stderr) << stage.error() << Qt::endl;
        return cli::Unavailable;
    }
    const HouseSettings& settings = (*stage)->settings;
    options.screen = {settings.diagonalInches, settings.lightTheme, settings.lessMotion,
                      settings.sounds};
    options.keepScreen = [&paths, &settings](const ScreenSettings& screen) {
        HouseSettings wanted = settings;
        wanted.diagonalInches = screen.diagonalInches;
        wanted.lightTheme = screen.light;
        wanted.lessMotion = screen.lessMotion;
        wanted.sounds = screen.sounds;
        return keepScreen(paths, wanted);
    };
    options.phone = {settings.phoneAddress, settings.phonePort};
    options.keepPhone = [&paths](const PhoneSettings& phone) {
        return keepPhone(paths, phone.address);
    };
    options.keepPrinter = [&paths](const QString& queue) { return keepPrinter(paths, queue); };
    LastPlace place(paths.place());
    options.keepPlace = [&place](const QString& where) { place.keep(where); };
    BackupPlan plan{settings.backupFolder,
                    settings.backupAt,
                    paths.backupNote(),
                    paths.keyCopyNote(),
                    settings.sticks,
                    [&paths](const QString& folder) { return keepBackupFolder(paths, folder); },
                    {}};
    plan.restoreNote = paths.restoreNote();
    if (settings.store.kind == StoreKind::Sqlite)
        mendFrom(**stage, clock, plan);
    BackupDesk backups(backupSource(paths, settings.store, (*stage)->keys, *(*stage)->photos),
                       std::move(plan), clock);
    using namespace std::chrono;
    const auto patience = duration_cast<milliseconds>(service::patience());
    // Several times within the patience, so that one late answer is none too many.
    Pulse pulse([&stage] { return (*stage)->store->run([](Workshop&, Store&) {}); },
                [&stage] { return (*stage)->store->statements(); }, service::alive, patience / 6);
    const auto opening = (*stage)->store->start();
    QFutureWatcher<tl::expected<MigrationOutcome, StoreError>> opened;
    const auto beWatched = [&pulse, patience] {
        if (patience > milliseconds(0))
            pulse.start();
    };
    // Making read tables anew may take minutes: only from then on it is ended when one of the two
    // does not answer.
    QObject::connect(&opened, &QFutureWatcherBase::finished, &pulse, [beWatched, again] {
        if (again)
            return;
        service::ready();
        beWatched();
    });
    options.shown = [&opened, &opening, beWatched, again] {
        if (again)
            beWatched();
        opened.setFuture(opening);
    };
    return runKiosk(options,
                    {*(*stage)->desk, clock, (*stage)->catalogue, *(*stage)->photos,
                     demoMaker(**stage, clock), &backups},
                    std::move(engine));
}

int openKiosk(QStringList arguments, const HousePaths& paths, int& argc, char** argv)
{
    KioskOptions options;
    options.windowed = cli::takeFlag(arguments, QStringLiteral("--windowed"));
    if (const QString size = cli::takeOption(arguments, QStringLiteral("--size"));
        !size.isEmpty()) {
        const QStringList parts = size.split(QLatin1Char('x'));
        if (parts.size() == 2)
            options.windowSize = {parts.at(0).toInt(), parts.at(1).toInt()};
        options.windowed = true;
    }
    if (!arguments.isEmpty()) {
        QTextStream(stderr) << cli::help();
        return cli::BadUsage;
    }
    auto reading = shippedCatalogueAside();
    QGuiApplication application(argc, argv);
    const auto translator = speakAsSet(paths);
    const SystemClock clock;
    options.lastPlace = LastPlace::left(paths.place());
    for (bool again = false;; again = true) {
        startLogging(paths);
        const int code = runOnce(options, paths, clock, std::move(reading),
                                 std::make_unique<KioskEngine>(), again);
        if (code != openAgain)
            return code;
        reading = shippedCatalogueAside();
    }
}

int takeTour(QStringList arguments, int& argc, char** argv)
{
    TourWays ways;
    ways.tell = cli::takeFlag(arguments, QStringLiteral("--tell"));
    ways.small = cli::takeFlag(arguments, QStringLiteral("--small"));
    const QString out = cli::takeOption(arguments, QStringLiteral("--out"));
    const QString demo = cli::takeOption(arguments, QStringLiteral("--work-in"));
    ways.onlyWork = !demo.isEmpty();
    if (out.isEmpty() || !arguments.isEmpty()) {
        QTextStream(stderr) << "Usage: ramplight tour --out FOLDER [--small] [--tell]"
                               " [--work-in DEMO]"
                            << Qt::endl;
        return cli::BadUsage;
    }
    auto reading = shippedCatalogueAside();
    QGuiApplication application(argc, argv);
    QTemporaryDir folder;
    TourClock clock;
    if (ways.onlyWork)
        clock.beginAfter(SystemClock().now());
    auto stage =
        setStage(HousePaths(ways.onlyWork ? demo : folder.path()), clock, std::move(reading));
    if (!stage) {
        QTextStream(stderr) << stage.error() << Qt::endl;
        return cli::Unavailable;
    }
    const auto opening = (*stage)->store->start();
    Q_UNUSED(opening)
    return runTour(
        out, (*stage)->paths.drop(), demoPin(),
        {*(*stage)->desk, clock, (*stage)->catalogue, *(*stage)->photos, demoMaker(**stage, clock)},
        clock, ways);
}

} // namespace

int main(int argc, char* argv[])
{
    leaveNoCoreFile();
    makePrivateFiles();
    keepMemorySteady();
    chooseMediaBackend();
    QCoreApplication::setApplicationName(QStringLiteral("ramplight"));
    QCoreApplication::setApplicationVersion(QStringLiteral(RAMPLIGHT_VERSION));
    QStringList arguments;
    for (int i = 1; i < argc; ++i)
        arguments.append(QString::fromLocal8Bit(argv[i]));
    const QString home = cli::takeOption(arguments, QStringLiteral("--home"));
    const HousePaths paths = home.isEmpty() ? HousePaths::standard() : HousePaths(home);
    if (arguments.contains(QStringLiteral("--help")) || arguments.contains(QStringLiteral("-h"))) {
        QTextStream(stdout) << cli::help();
        return cli::Ok;
    }
    if (arguments.contains(QStringLiteral("--version"))) {
        QTextStream(stdout) << "ramplight " << QCoreApplication::applicationVersion() << Qt::endl;
        return cli::Ok;
    }
    for (const QString& told : finishWhatBrokeOff(paths, SystemClock().now()))
        QTextStream(stderr) << told << Qt::endl;
    const QString word = arguments.isEmpty() ? QString() : arguments.first();
    if (word == QLatin1String("tour"))
        return takeTour(arguments.mid(1), argc, argv);
    const cli::Command* command = cli::find(word);
    if (command == nullptr) {
        if (!word.isEmpty() && !word.startsWith(QLatin1String("--"))) {
            QTextStream(stderr) << "There is no command " << word << "." << Qt::endl << cli::help();
            return cli::BadUsage;
        }
        return openKiosk(arguments, paths, argc, argv);
    }
    startTerminalLogging();
    // Photos and records are drawn on the command line, too, where there is no screen.
    if (!qEnvironmentVariableIsSet("QT_QPA_PLATFORM"))
        qputenv("QT_QPA_PLATFORM", "offscreen");
    QGuiApplication application(argc, argv);
    const auto translator = speakAsSet(paths);
    QTextStream out(stdout);
    QTextStream err(stderr);
    const SystemClock clock;
    cli::Terminal terminal{out, err, readSecretly, paths, clock};
    return command->run(arguments.mid(1), terminal);
}
