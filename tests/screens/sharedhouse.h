// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "benchcrew.h"
#include "wheelwork.h"

#include "storage/storagebench.h"
#include "storage/wire.h"

#include <QTest>

#include <optional>

// A kiosk by touch whose workshop is on a server.
namespace ramplight::test {

inline const QString awayWords = QStringLiteral("The workshop's server is away since 14:00");
inline const QString keptWords = QStringLiteral("kept here, not yet on the wall");

/// A kiosk on a server at the end of a line that can be cut.
struct SharedHouse
{
    /// outbox: what the kiosk finds in the place of its file of what is kept; empty: nothing yet.
    explicit SharedHouse(const QByteArray& outbox = {},
                         BenchHouse::Start start = BenchHouse::Start::House)
        : bench(start)
        , database(StoreKind::PostgreSql)
        , wire(database.settings().server)
    {
        if (start == BenchHouse::Start::House) {
            bench.house().fill(7);
            wheel.emplace(bench.house());
        }
        StoreSettings kiosk = database.settings();
        kiosk.server = wire.address();
        kiosk.patience = kioskPatience;
        kiosk.standby = bench.house().folder(QStringLiteral("standby"));
        if (!outbox.isEmpty())
            bench.house().put(kiosk.standby + QStringLiteral("/outbox.sqlite"), outbox, 60);
        bench.house().moveToServer(database.settings(), kiosk);
    }

    [[nodiscard]] bool isKnown()
    {
        return bench.until([this] { return !bench.house().desk().standing().knownAt.isNull(); },
                           QStringLiteral("the copy of the workshop"));
    }
    [[nodiscard]] Operation now() { return wheel->now(bench.house()); }
    /// What the server has of a car; of the one with the wheel's work.
    [[nodiscard]] int entries(const char* type, const CarId& car)
    {
        return database
            .ask(QStringLiteral("SELECT count(*) FROM ledger WHERE stream = '%1' AND type = '%2'")
                     .arg(carStream(car), QLatin1StringView(type)))
            .toInt();
    }
    [[nodiscard]] int entries(const char* type) { return entries(type, wheel->car); }

    /// Another kiosk, whose line is whole. Words: why not; empty.
    QString elsewhere(PersonId who, const CarId& car, std::vector<CarCommand> commands)
    {
        const auto store = database.open(bench.house().keeper());
        Workshop workshop(store->ledger(), bench.house().clock, bench.house().catalogue);
        const auto outcome =
            workshop.run(CarRequest{CommandId{QStringLiteral("elsewhere-%1").arg(++others)}, who,
                                    car, std::move(commands), true});
        return outcome ? QString() : words(outcome.error());
    }

    KioskBench bench;
    TestDatabase database;
    Wire wire;
    std::optional<Wheel> wheel; ///< only of a house without a story
    int others = 0;
};

} // namespace ramplight::test
