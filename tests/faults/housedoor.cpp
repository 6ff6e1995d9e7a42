// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "housedoor.h"

#include "../storage/storagebench.h"
#include "heldwall.h"

#include <QCoreApplication>
#include <QDateTime>
#include <QElapsedTimer>
#include <QThread>

#include <algorithm>
#include <chrono>

namespace ramplight::test {

namespace {

constexpr int patienceMs = 60'000;

class MachineClock : public Clock
{
public:
    [[nodiscard]] Moment now() const override { return {QDateTime::currentMSecsSinceEpoch()}; }
    [[nodiscard]] qint64 steadyMs() const override
    {
        using namespace std::chrono;
        return duration_cast<milliseconds>(steady_clock::now().time_since_epoch()).count();
    }
};

class StoreDoor : public HouseDoor
{
public:
    StoreDoor(StoreSettings settings, const Catalogue& catalogue)
        : HouseDoor(settings, catalogue)
        , m_settings(std::move(settings))
    {
    }

    bool open() override
    {
        m_workshop.reset();
        m_store.reset();
        QElapsedTimer timer;
        timer.start();
        while (timer.elapsed() < patienceMs) {
            if (auto opened = Store::open(m_settings, keeperWith())) {
                m_store = std::move(*opened);
                m_workshop = std::make_unique<Workshop>(m_store->ledger(), m_clock, catalogue());
                return true;
            }
            QThread::msleep(20);
        }
        return false;
    }
    tl::expected<CarOutcome, Failure> run(const CarRequest& request) override
    {
        return m_workshop->run(request);
    }
    tl::expected<SiteOutcome, Failure> run(const SiteRequest& request) override
    {
        return m_workshop->run(request);
    }
    tl::expected<CarOutcome, Failure> mergeDuplicate(const CommandId& id, PersonId actor,
                                                     const CarId& keep, const CarId& second,
                                                     const QString& reason) override
    {
        return m_workshop->mergeDuplicate(id, actor, keep, second, reason);
    }
    tl::expected<bool, StoreError> isKnown(const CommandId& command) override
    {
        return m_store->ledger().isKnown(command);
    }
    tl::expected<SiteState, StoreError> site() override { return m_store->ledger().site(); }
    tl::expected<CarState, StoreError> car(const CarId& car) override
    {
        return m_store->ledger().car(car);
    }
    tl::expected<std::vector<CarCard>, StoreError> wall() override
    {
        return m_store->wall().wall();
    }
    tl::expected<std::optional<RunningWork>, StoreError> runningWork(PersonId person) override
    {
        return m_store->ledger().runningWork(person);
    }

private:
    StoreSettings m_settings;
    MachineClock m_clock;
    std::unique_ptr<Store> m_store;
    std::unique_ptr<Workshop> m_workshop;
};

} // namespace

std::unique_ptr<HouseDoor> storeDoor(const StoreSettings& settings, const Catalogue& catalogue)
{
    return std::make_unique<StoreDoor>(settings, catalogue);
}

struct KioskDoor::Kiosk
{
    Kiosk(const StoreSettings& settings, const Catalogue& catalogue)
        : thread(settings, keeperWith(), clock, catalogue)
    {
    }

    /// f(Workshop&, Store&) on the store's thread.
    template <class F>
    auto ask(F f)
    {
        QCoreApplication::processEvents();
        auto answer = thread.run(std::move(f)).result();
        QCoreApplication::processEvents();
        return answer;
    }

    MachineClock clock;
    StoreThread thread;
    std::unique_ptr<HeldWall> wall;
};

KioskDoor::KioskDoor(const StoreSettings& settings, const Catalogue& catalogue)
    : HouseDoor(settings, catalogue)
    , m_kiosk(std::make_unique<Kiosk>(settings, catalogue))
{
    QObject::connect(&m_kiosk->thread, &StoreThread::standingChanged, &m_kiosk->thread,
                     [this](const ServerStanding& standing) {
                         m_standing = standing;
                         if (m_told)
                             m_told(standing);
                     });
}

KioskDoor::~KioskDoor() = default;

StoreThread& KioskDoor::thread()
{
    return m_kiosk->thread;
}

HeldWall& KioskDoor::holdWall(std::function<void()> told)
{
    m_kiosk->wall = std::make_unique<HeldWall>(m_kiosk->thread, std::move(told));
    return *m_kiosk->wall;
}

bool KioskDoor::open()
{
    // Nothing is known here yet and the server is away: it goes on trying by itself.
    std::ignore = m_kiosk->thread.start().result();
    QElapsedTimer timer;
    timer.start();
    while (!wall()) {
        if (timer.elapsed() > patienceMs)
            return false;
        QThread::msleep(20);
    }
    return true;
}

tl::expected<CarOutcome, Failure> KioskDoor::run(const CarRequest& request)
{
    return m_kiosk->ask([request](Workshop& workshop, Store&) { return workshop.run(request); });
}

tl::expected<SiteOutcome, Failure> KioskDoor::run(const SiteRequest& request)
{
    return m_kiosk->ask([request](Workshop& workshop, Store&) { return workshop.run(request); });
}

tl::expected<CarOutcome, Failure> KioskDoor::mergeDuplicate(const CommandId& id, PersonId actor,
                                                            const CarId& keep, const CarId& second,
                                                            const QString& reason)
{
    return m_kiosk->ask([=](Workshop& workshop, Store&) {
        return workshop.mergeDuplicate(id, actor, keep, second, reason);
    });
}

tl::expected<SiteState, StoreError> KioskDoor::site()
{
    return m_kiosk->ask([](Workshop&, Store& store) { return store.ledger().site(); });
}

tl::expected<bool, StoreError> KioskDoor::isKnown(const CommandId& command)
{
    const auto known = m_kiosk->ask(
        [command](Workshop&, Store& store) { return store.ledger().isKnown(command); });
    // What somebody began who is at other work now waits here, though the server answers.
    const bool waits = std::ranges::any_of(m_standing.kept, [&](const KeptRequest& request) {
        return request.waits() && idOf(request.asked) == command;
    });
    return known.map([waits](bool isThere) { return isThere || waits; });
}

tl::expected<CarState, StoreError> KioskDoor::car(const CarId& car)
{
    return m_kiosk->ask([car](Workshop&, Store& store) { return store.ledger().car(car); });
}

tl::expected<std::vector<CarCard>, StoreError> KioskDoor::wall()
{
    return m_kiosk->ask([](Workshop&, Store& store) { return store.wall().wall(); });
}

tl::expected<std::optional<RunningWork>, StoreError> KioskDoor::runningWork(PersonId person)
{
    return m_kiosk->ask(
        [person](Workshop&, Store& store) { return store.ledger().runningWork(person); });
}

} // namespace ramplight::test
