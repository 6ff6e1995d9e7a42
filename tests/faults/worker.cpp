// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
//
// One kiosk's people in a process of their own, so that they can be killed:
//   ramplight_worker STORE SEED COMMANDS
//   ramplight_worker STORE SEED COMMANDS --wall
//   ramplight_worker STORE SEED COMMANDS STANDBY
//   ramplight_worker --keep-printer HOME QUEUE
// STORE: a SQLite file, or where a server is, as "host=... dbname=... user=...". What the store
// kept is told on standard output, line by line (HouseWorker).
//
// With --wall a kiosk's wall hangs beside the people. Once they have done their commands it says
// "done", and "wall DIGEST" now and whenever the wall was read again, until standard input ends.
//
// With a folder STANDBY it is a kiosk that goes on without its server: it says "away" and "back",
// "knows" once it knows the whole workshop, and works until a line comes on standard input. Then,
// once nothing waits any more, it says "refusal COMMAND" for each request that the server refused
// and that is kept with both stories, and goes on as with --wall.
#include "cli/house.h"
#include "heldwall.h"
#include "houseworker.h"

#include <QCoreApplication>
#include <QDeadlineTimer>
#include <QElapsedTimer>
#include <QThread>
#include <QUuid>

#include <spdlog/spdlog.h>

#include <algorithm>
#include <cstdio>
#include <optional>
#include <poll.h>
#include <tuple>
#include <unistd.h>
#include <utility>

using namespace ramplight;
using namespace ramplight::test;

namespace {

constexpr int failed = 69;
constexpr std::chrono::seconds patience{90};

void tell(const QString& line)
{
    std::fputs(qPrintable(line + QLatin1Char('\n')), stdout);
    std::fflush(stdout);
}

/// Something came on standard input, or it ended.
bool inputComes(int waitMs = 0)
{
    pollfd input{0, POLLIN, 0};
    return ::poll(&input, 1, waitMs) == 1;
}

/// A kiosk's wall, told from a certain moment on.
class ToldWall
{
public:
    explicit ToldWall(KioskDoor& door)
        : m_wall(door.holdWall([this] { say(); }))
    {
    }
    ToldWall(const ToldWall&) = delete;
    ToldWall& operator=(const ToldWall&) = delete;

    /// The work here is done: what others do is seen on it until standard input ends.
    void tellFromNowOn()
    {
        tell(QStringLiteral("done"));
        m_isTold = true;
        say();
        for (bool ends = false; !ends;) {
            QCoreApplication::processEvents();
            char bytes[64];
            ends = inputComes(10) && ::read(0, bytes, sizeof bytes) <= 0;
        }
    }

private:
    void say() const
    {
        if (m_isTold)
            tell(QStringLiteral("wall ") + QString::fromLatin1(m_wall.digest()));
    }

    HeldWall& m_wall;
    bool m_isTold = false;
};

/// What was done here, on which work, when, and why it does not stand there.
bool hasBothStories(const KeptRequest& request)
{
    return !request.refusal.isEmpty() && !request.refusedAt.isNull() && !request.at.isNull() &&
           !deedWords(request.asked).isEmpty() && !request.works.empty() &&
           std::ranges::all_of(request.works, [](const KeptWork& work) {
               return !work.car.isEmpty() && !work.stockNumber.isEmpty() && !work.title.isEmpty();
           });
}

/// What somebody began waits as long as they are at other work: the day is over for everybody.
void endTheShift(KioskDoor& door)
{
    // Told by nobody; promises.h leaves the bench's own commands out.
    const CommandId id{QStringLiteral("command-shift-ends-") +
                       QUuid::createUuid().toString(QUuid::Id128)};
    std::ignore = door.thread()
                      .run([id](Workshop& workshop, Store&) { return workshop.stopAllWork(id); })
                      .result();
}

int goOnAlone(const StoreSettings& settings, quint64 seed, int commands, const Catalogue& catalogue)
{
    KioskDoor door(settings, catalogue);
    std::optional<bool> away;
    bool knows = false;
    door.onStanding([&](const ServerStanding& standing) {
        if (standing.away != away)
            tell(standing.away ? QStringLiteral("away") : QStringLiteral("back"));
        if (!standing.knownAt.isNull() && !std::exchange(knows, true))
            tell(QStringLiteral("knows"));
        away = standing.away;
    });
    ToldWall wall(door);
    HouseWorker worker(door, seed, tell);
    // Alone it goes on with what is there: what comes in waits for the server.
    worker.keepCars(16);
    if (!worker.work(commands, [] { return !inputComes(); }))
        return failed;
    const QDeadlineTimer deadline(patience);
    QElapsedTimer stuck;
    stuck.start();
    while (door.standing().away || std::ranges::any_of(door.standing().kept, &KeptRequest::waits)) {
        if (deadline.hasExpired())
            return failed;
        if (!door.standing().away && stuck.hasExpired(2000)) {
            endTheShift(door);
            stuck.restart();
        }
        QThread::msleep(10);
        QCoreApplication::processEvents();
    }
    for (const KeptRequest& request : door.standing().kept)
        if (hasBothStories(request))
            tell(QStringLiteral("refusal %1").arg(idOf(request.asked).text));
    wall.tellFromNowOn();
    return 0;
}

int workBesideAWall(StoreSettings settings, quint64 seed, int commands, const Catalogue& catalogue)
{
    const auto people = storeDoor(settings, catalogue);
    settings.patience = kioskPatience;
    KioskDoor kiosk(settings, catalogue);
    if (!kiosk.open())
        return failed;
    ToldWall wall(kiosk);
    HouseWorker worker(*people, seed, tell);
    const auto live = [] {
        QCoreApplication::processEvents();
        return true;
    };
    if (!worker.work(commands, live))
        return failed;
    wall.tellFromNowOn();
    return 0;
}

/// What the settings screen does: another printer.
int keepsPrinter(const QString& home, const QString& queue)
{
    const QString fault = keepPrinter(HousePaths(home), queue);
    std::fprintf(stderr, "%s\n", qPrintable(fault));
    return fault.isEmpty() ? 0 : failed;
}

} // namespace

int main(int argc, char** argv)
{
    const QCoreApplication application(argc, argv);
    const QStringList arguments = QCoreApplication::arguments();
    if (arguments.value(1) == QLatin1String("--keep-printer"))
        return keepsPrinter(arguments.value(2), arguments.value(3));
    if (arguments.size() != 4 && arguments.size() != 5)
        return 64;
    spdlog::set_level(spdlog::level::off);
    StoreSettings settings;
    if (arguments.at(1).contains(QLatin1Char('='))) {
        const auto server = PostgresAddress::parse(arguments.at(1));
        if (!server)
            return 64;
        settings.kind = StoreKind::PostgreSql;
        settings.server = *server;
    } else {
        settings.file = arguments.at(1);
    }
    const Catalogue catalogue = smallCatalogue();
    const quint64 seed = arguments.at(2).toULongLong();
    const int commands = arguments.at(3).toInt();
    if (arguments.value(4) == QLatin1String("--wall"))
        return workBesideAWall(settings, seed, commands, catalogue);
    if (arguments.size() == 5) {
        settings.patience = kioskPatience;
        settings.standby = arguments.at(4);
        settings.keptPhotos = settings.standby + QStringLiteral("/photos");
        return goOnAlone(settings, seed, commands, catalogue);
    }
    const auto door = storeDoor(settings, catalogue);
    HouseWorker worker(*door, seed, tell);
    return worker.work(commands) ? 0 : failed;
}
