// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
//
// One kiosk's people in a process of their own, so that they can be killed:
//   ramplight_worker STORE SEED COMMANDS
//   ramplight_worker STORE SEED COMMANDS STANDBY
// STORE: a SQLite file, or where a server is, as "host=... dbname=... user=...". What the store
// kept is told on standard output, line by line (HouseWorker). With a folder STANDBY it is a kiosk
// that goes on without its server: it says "away" and "back", "knows" once it knows the whole
// workshop, works until standard input ends, and then, once nothing waits any more, says "refusal
// COMMAND" for each request that the server refused and that is kept with both stories.
#include "houseworker.h"

#include <QCoreApplication>
#include <QDeadlineTimer>
#include <QThread>

#include <spdlog/spdlog.h>

#include <algorithm>
#include <cstdio>
#include <optional>
#include <poll.h>
#include <utility>

using namespace ramplight;
using namespace ramplight::test;

namespace {

constexpr int failed = 69;
constexpr std::chrono::seconds patience{60};

void tell(const QString& line)
{
    std::fputs(qPrintable(line + QLatin1Char('\n')), stdout);
    std::fflush(stdout);
}

bool inputEnds()
{
    pollfd input{0, POLLIN, 0};
    return ::poll(&input, 1, 0) == 1;
}

/// What was done here, on which work, when, and why it does not stand there.
bool hasBothStories(const KeptRequest& request)
{
    return !request.refusal.isEmpty() && !request.refusedAt.isNull() && !request.at.isNull() &&
           !deedWords(request.asked).isEmpty() && !request.works.empty() &&
           std::ranges::all_of(request.works, [](const KeptWork& work) {
               return !work.car.isEmpty() && !work.stockNumber.isEmpty() && !work.title.isEmpty();
           });
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
    HouseWorker worker(door, seed, tell);
    // Alone it goes on with what is there: what comes in waits for the server.
    worker.keepCars(16);
    if (!worker.work(commands, [] { return !inputEnds(); }))
        return failed;
    const QDeadlineTimer deadline(patience);
    while (door.standing().away || std::ranges::any_of(door.standing().kept, &KeptRequest::waits)) {
        if (deadline.hasExpired())
            return failed;
        QThread::msleep(10);
        QCoreApplication::processEvents();
    }
    for (const KeptRequest& request : door.standing().kept)
        if (hasBothStories(request))
            tell(QStringLiteral("refusal %1").arg(idOf(request.asked).text));
    return 0;
}

} // namespace

int main(int argc, char** argv)
{
    const QCoreApplication application(argc, argv);
    const QStringList arguments = QCoreApplication::arguments();
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
    if (arguments.size() == 5) {
        settings.patience = kioskPatience;
        settings.standby = arguments.at(4);
        return goOnAlone(settings, seed, commands, catalogue);
    }
    const auto door = storeDoor(settings, catalogue);
    HouseWorker worker(*door, seed, tell);
    return worker.work(commands) ? 0 : failed;
}
