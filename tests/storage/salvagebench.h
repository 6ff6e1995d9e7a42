// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "storagebench.h"

#include "storage/salvage.h"
#include "storage/storecopy.h"

#include <algorithm>
#include <memory>

// A house, its backup, and what is read out of its file afterwards.
namespace ramplight::test {

/// A house, a backup of it, and what was done since.
class HouseSince
{
public:
    HouseSince()
    {
        bench.release(bench.appraised());
        staying = bench.appraised();
        other = bench.appraised();
        const auto store = database.open();
        write(*store);
        if (!store->credentials().setPinHash(bench.mechanic, "a hash"))
            qFatal("no PIN");
        if (!snapshot(database.settings(), backupFile()))
            qFatal("no backup");
    }

    [[nodiscard]] QString backupFile() const { return database.settings().file + ".backup"; }
    /// What the bench did since the last time.
    void write(Store& store)
    {
        std::vector<Append> all = bench.ledger.accepted();
        const std::vector<Append> later(all.begin() + m_written, all.end());
        m_written = static_cast<std::ptrdiff_t>(all.size());
        if (const auto written = replay(later, store.ledger()); !written)
            qFatal("%s", qPrintable(written.error().words));
    }
    void write() { write(*database.open()); }

    /// An ordinary day: work on two cars, another comes in, a PIN is set.
    void workOn()
    {
        bench.found(staying, "wheel-front-left", Condition::Kerbed);
        bench.found(other, "brakes-front", Condition::Worn);
        bench.start(staying, bench.open(staying, "inspection"), bench.mechanic);
        arrived = bench.appraised();
        bench.clock.pass(7);
        const auto store = database.open();
        write(*store);
        if (!store->credentials().setPinHash(bench.checker, "another hash"))
            qFatal("no PIN");
    }

    /// The rows of an entry cannot be read any more, while the index knows of it.
    void lose(const QString& stream, qint64 seq)
    {
        forge(QStringLiteral("UPDATE ledger SET body = '{}' WHERE stream = '%1' AND seq = %2")
                  .arg(stream)
                  .arg(seq));
    }
    void forge(const QString& statement)
    {
        if (const QString said = database.forge(statement); !said.isEmpty())
            qFatal("%s", qPrintable(said));
    }
    [[nodiscard]] qint64 lastOf(const QString& stream)
    {
        return database
            .ask(QStringLiteral("SELECT max(seq) FROM ledger WHERE stream = '%1'").arg(stream))
            .toLongLong();
    }
    [[nodiscard]] QString stockNumber(const CarId& car)
    {
        return bench.car(car).identity.stockNumber;
    }
    /// As Back::leftBehind() names all of them.
    [[nodiscard]] QStringList everyCar()
    {
        return {stockNumber(staying), stockNumber(other),
                stockNumber(arrived) + QStringLiteral(" (new)")};
    }

    Workbench bench;
    TestDatabase database{StoreKind::Sqlite};
    CarId staying;
    CarId other;
    CarId arrived; ///< since the backup

private:
    std::ptrdiff_t m_written = 0;
};

inline QStringList entriesOf(const QString& file, const QString& stream)
{
    StoreSettings settings;
    settings.file = file;
    const auto connection = Connection::open(settings);
    if (!connection)
        qFatal("%s", qPrintable(connection.error().words));
    QStringList all;
    auto rows =
        (*connection)
            ->run("SELECT seq, hash, body FROM ledger WHERE stream = ? ORDER BY seq", {stream});
    while (rows->next())
        all.append(rows->text(0) + rows->text(1) + rows->text(2));
    return all;
}

inline std::unique_ptr<Store> openIn(const QString& file, const HeadKeeper& keeper = keeperWith())
{
    StoreSettings settings;
    settings.file = file;
    auto opened = Store::open(settings, keeper);
    if (!opened)
        qFatal("%s", qPrintable(opened.error().words));
    return std::move(*opened);
}

/// The backup, with what was salvaged.
struct Back
{
    explicit Back(const HouseSince& house, const HeadKeeper& keeper = keeperWith())
    {
        settings.file = house.backupFile();
        store = openIn(settings.file, keeper);
        auto salvaged = salvage(house.database.settings().file, store->ledger());
        if (!salvaged)
            qFatal("%s", qPrintable(salvaged.error().words));
        out = std::move(*salvaged);
    }

    [[nodiscard]] QString faults() const
    {
        return told(Verifier(store->ledger(), [](const std::set<PhotoId>&) {
                        return VaultReport{};
                    }).run());
    }
    /// In the order of their names.
    [[nodiscard]] QStringList leftBehind() const
    {
        QStringList cars;
        for (const CarLeftBehind& car : out.leftBehind)
            cars.append(car.stockNumber + (car.isNew ? QStringLiteral(" (new)") : QString()));
        cars.sort();
        return cars;
    }
    [[nodiscard]] bool came(const CarId& car) const
    {
        return std::ranges::find(out.cars, car) != out.cars.end();
    }

    StoreSettings settings;
    std::unique_ptr<Store> store;
    Salvaged out;
};

} // namespace ramplight::test
