// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
//
// One kiosk's people in a process of their own, so that they can be killed:
//   ramplight_worker STORE SEED COMMANDS
// STORE: a SQLite file, or where a server is, as "host=... dbname=... user=...". What the store
// kept is told on standard output, line by line (HouseWorker).
#include "houseworker.h"

#include <QCoreApplication>

#include <spdlog/spdlog.h>

#include <cstdio>

int main(int argc, char** argv)
{
    using namespace ramplight;
    const QCoreApplication application(argc, argv);
    const QStringList arguments = QCoreApplication::arguments();
    if (arguments.size() != 4)
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
    const auto tell = [](const QString& line) {
        std::fputs(qPrintable(line + QLatin1Char('\n')), stdout);
        std::fflush(stdout);
    };
    test::HouseWorker worker(settings, arguments.at(2).toULongLong(), tell);
    return worker.work(arguments.at(3).toInt()) ? 0 : 69;
}
