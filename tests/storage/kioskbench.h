// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "storagebench.h"
#include "wire.h"

#include "storage/storethread.h"

#include <QFutureWatcher>
#include <QSignalSpy>
#include <QTest>

#include <atomic>
#include <cstddef>

// A workshop on a server, and kiosks at the end of a line that can be cut.
namespace ramplight::test {

// No time is asserted: so long a test waits before it gives up.
inline constexpr int patientMs = 60'000;

class SharedClock : public Clock
{
public:
    [[nodiscard]] Moment now() const override { return {m_ms.load()}; }
    void set(Moment now) { m_ms = now.ms; }
    void pass(int minutes) { m_ms += qint64{minutes} * 60'000; }

private:
    std::atomic<qint64> m_ms = 0;
};

/// Waits with a running event loop, as the screen does.
template <class T>
T resultOf(const QFuture<T>& future, int patience = patientMs)
{
    QFutureWatcher<T> watcher;
    QSignalSpy finished(&watcher, &QFutureWatcher<T>::finished);
    watcher.setFuture(future);
    if (!future.isFinished() && !finished.wait(patience))
        qFatal("the store's thread does not answer");
    return future.result();
}

/// A workshop on a server, and what its kiosks are made of.
struct House
{
    /// photos: what the work asks for beside its reading.
    explicit House(std::vector<PhotoSpec> photos = {})
        : database(StoreKind::PostgreSql)
        , wire(database.settings().server)
    {
        bench.spec("arrival-check").photos = std::move(photos);
        car = bench.appraised();
        other = bench.appraised();
        work = bench.open(car, "arrival-check");
        who = bench.whoFor(bench.operation(car, work));
        const auto store = database.open();
        if (const auto written = replay(bench.ledger.accepted(), store->ledger()); !written)
            qFatal("%s", qPrintable(written.error().words));
        if (!store->credentials().setPinHash(who, "a hash"))
            qFatal("no hash");
        clock.set(bench.clock.now());
    }

    [[nodiscard]] StoreSettings kiosk(const QString& folder) const
    {
        StoreSettings settings = database.settings();
        settings.server = wire.address();
        settings.patience = kioskPatience;
        settings.standby = folder;
        settings.keptPhotos = folder + QStringLiteral("/photos");
        return settings;
    }
    /// What is done on the bench stands at the server, too.
    template <class Deed>
    void onBench(Deed deed)
    {
        const auto before = static_cast<std::ptrdiff_t>(bench.ledger.accepted().size());
        deed();
        clock.set(bench.clock.now());
        const std::vector<Append> all = bench.ledger.accepted();
        const auto store = database.open();
        if (const auto written = replay({all.begin() + before, all.end()}, store->ledger());
            !written)
            qFatal("%s", qPrintable(written.error().words));
    }
    /// What the server's ledger has of a car, a line for each entry.
    [[nodiscard]] QString entries(const CarId& of)
    {
        return database.dump(
            QStringLiteral("SELECT type, actor, at FROM ledger WHERE stream = '%1' ORDER BY seq")
                .arg(carStream(of)));
    }

    /// A kiosk's copy has all that the server has of a car.
    [[nodiscard]] bool isCopied(const QString& folder, const CarId& of) const
    {
        const auto mirror =
            Mirror::open(folder + QStringLiteral("/mirror.sqlite"), keeperWith(), {});
        const auto there = database.open()->ledger().car(of);
        const auto here = mirror ? (*mirror)->store().ledger().car(of) : there;
        return mirror && here && there && here->seq == there->seq;
    }

    Workbench bench;
    TestDatabase database;
    Wire wire;
    SharedClock clock;
    CarId car;
    CarId other;
    OperationId work; ///< one with one reading
    PersonId who;     ///< may do it
};

/// One kiosk on that server, with its photos in the database.
class Kiosk
{
public:
    explicit Kiosk(House& house, const QString& folder, const HeadKeeper& keeper = keeperWith())
        : Kiosk(house, house.kiosk(folder), keeper)
    {
    }
    Kiosk(House& house, const StoreSettings& settings, const HeadKeeper& keeper = keeperWith())
        : m_thread(settings, keeper, house.clock, house.bench.catalogue)
    {
        QObject::connect(&m_thread, &StoreThread::standingChanged, &m_thread,
                         [this](const ServerStanding& standing) { m_standing = standing; });
        opening = m_thread.start();
    }

    [[nodiscard]] const ServerStanding& standing() const { return m_standing; }
    [[nodiscard]] StoreThread& thread() { return m_thread; }
    /// "done", a refusal's id, or the store's words.
    QString ask(PersonId who, const CarId& car, std::vector<CarCommand> commands,
                const QString& id = {})
    {
        static int count = 0;
        const CommandId command{id.isEmpty() ? QStringLiteral("kiosk-%1").arg(++count) : id};
        const CarRequest request{command, who, car, std::move(commands), true};
        const auto outcome = resultOf(
            m_thread.run([request](Workshop& workshop, Store&) { return workshop.run(request); }));
        if (outcome)
            return done;
        if (const auto* refusal = std::get_if<Refusal>(&outcome.error()))
            return idText(refusal->id);
        return words(outcome.error());
    }
    [[nodiscard]] CarState car(const CarId& id)
    {
        return resultOf(
                   m_thread.run([id](Workshop&, Store& store) { return store.ledger().car(id); }))
            .value();
    }
    [[nodiscard]] QStringList wall()
    {
        const auto cards =
            resultOf(m_thread.run([](Workshop&, Store& store) { return store.wall().wall(); }));
        QStringList cars;
        for (const CarCard& card : cards.value())
            cars.append(card.car.text);
        cars.sort();
        return cars;
    }
    QFuture<tl::expected<MigrationOutcome, StoreError>> opening;

private:
    StoreThread m_thread;
    ServerStanding m_standing;
};

} // namespace ramplight::test
