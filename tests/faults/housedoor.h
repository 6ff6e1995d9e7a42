// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "housephotos.h"

#include "domain/keptrequest.h"
#include "domain/workshop.h"
#include "storage/storethread.h"

#include <functional>
#include <memory>
#include <optional>

namespace ramplight::test {

class HeldWall;

/// How the people at one kiosk reach the workshop. Calls block.
class HouseDoor
{
public:
    virtual ~HouseDoor() = default;
    HouseDoor(const HouseDoor&) = delete;
    HouseDoor& operator=(const HouseDoor&) = delete;

    [[nodiscard]] const Catalogue& catalogue() const { return m_catalogue; }
    /// The house's, as this kiosk reaches them.
    [[nodiscard]] PhotoKeeper& photos() { return *m_photos; }

    /// Opens it, again where it was open. False: for a minute there was nothing to open.
    [[nodiscard]] virtual bool open() = 0;
    [[nodiscard]] virtual tl::expected<CarOutcome, Failure> run(const CarRequest& request) = 0;
    [[nodiscard]] virtual tl::expected<SiteOutcome, Failure> run(const SiteRequest& request) = 0;
    [[nodiscard]] virtual tl::expected<CarOutcome, Failure>
    mergeDuplicate(const CommandId& id, PersonId actor, const CarId& keep, const CarId& second,
                   const QString& reason) = 0;
    [[nodiscard]] virtual tl::expected<bool, StoreError> isKnown(const CommandId& command) = 0;
    [[nodiscard]] virtual tl::expected<SiteState, StoreError> site() = 0;
    [[nodiscard]] virtual tl::expected<CarState, StoreError> car(const CarId& car) = 0;
    [[nodiscard]] virtual tl::expected<std::vector<CarCard>, StoreError> wall() = 0;
    [[nodiscard]] virtual tl::expected<std::optional<RunningWork>, StoreError>
    runningWork(PersonId person) = 0;
    /// It goes on by itself while its server is away: Unavailable is then an answer like any other.
    [[nodiscard]] virtual bool goesOnAlone() const { return false; }

protected:
    /// The catalogue outlives it.
    HouseDoor(const StoreSettings& settings, const Catalogue& catalogue)
        : m_catalogue(catalogue)
        , m_photos(photosOf(settings))
    {
    }

private:
    const Catalogue& m_catalogue;
    std::unique_ptr<PhotoKeeper> m_photos;
};

/// The store itself, by the machine's clock.
[[nodiscard]] std::unique_ptr<HouseDoor> storeDoor(const StoreSettings& settings,
                                                   const Catalogue& catalogue);

/// As a kiosk has it: the store's thread, which goes on with what is known and kept in the
/// settings' folder while the server is away. The caller's thread runs an event loop now and then.
class KioskDoor : public HouseDoor
{
public:
    KioskDoor(const StoreSettings& settings, const Catalogue& catalogue);
    ~KioskDoor() override;

    [[nodiscard]] bool open() override;
    [[nodiscard]] tl::expected<CarOutcome, Failure> run(const CarRequest& request) override;
    [[nodiscard]] tl::expected<SiteOutcome, Failure> run(const SiteRequest& request) override;
    [[nodiscard]] tl::expected<CarOutcome, Failure>
    mergeDuplicate(const CommandId& id, PersonId actor, const CarId& keep, const CarId& second,
                   const QString& reason) override;
    [[nodiscard]] tl::expected<bool, StoreError> isKnown(const CommandId& command) override;
    [[nodiscard]] tl::expected<SiteState, StoreError> site() override;
    [[nodiscard]] tl::expected<CarState, StoreError> car(const CarId& car) override;
    [[nodiscard]] tl::expected<std::vector<CarCard>, StoreError> wall() override;
    [[nodiscard]] tl::expected<std::optional<RunningWork>, StoreError>
    runningWork(PersonId person) override;
    [[nodiscard]] bool goesOnAlone() const override { return true; }

    /// As the kiosk said last.
    [[nodiscard]] const ServerStanding& standing() const { return m_standing; }
    /// From now on it holds its wall as a kiosk does; told: see HeldWall.
    HeldWall& holdWall(std::function<void()> told = [] {});
    [[nodiscard]] StoreThread& thread();
    /// Called with each.
    void onStanding(std::function<void(const ServerStanding&)> told) { m_told = std::move(told); }

private:
    struct Kiosk;
    std::unique_ptr<Kiosk> m_kiosk;
    ServerStanding m_standing;
    std::function<void(const ServerStanding&)> m_told;
};

} // namespace ramplight::test
