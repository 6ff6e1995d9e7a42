// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "sharedhouse.h"

#include "../storage/storagebench.h"
#include "housephotos.h"

#include <QDateTime>

#include <algorithm>

namespace ramplight::test {

namespace {

constexpr int oldCars = 3;
constexpr int releasedCars = 2;
constexpr qint64 dayMs = 86'400'000;

/// As the bench calls it.
CarId benchCar(int number)
{
    return CarId{QStringLiteral("car-%1").arg(number)};
}

template <class Is>
bool hasOpen(const CarState& car, Is is)
{
    return !car.left && !car.released &&
           std::ranges::any_of(car.operations, [&](const auto& entry) {
               return entry.second.isOpen() && is(entry.second);
           });
}

} // namespace

void setUpHouse(const StoreSettings& settings)
{
    HouseRules rules;
    rules.photoYears = 1;
    Workbench bench(rules);
    auto store = Store::open(settings, keeperWith());
    const auto photos = photosOf(settings);
    Dice dice(std::random_device{}());
    bench.photosFrom([&] { return photos->keep(anyPicture(dice)).value().id; });
    const qint64 now = QDateTime::currentMSecsSinceEpoch();
    bench.clock.set({now - 3 * 365 * dayMs});
    for (int i = 1; i <= oldCars; ++i) {
        const CarId car = bench.appraised();
        if (car != benchCar(i))
            qFatal("the bench calls its cars something else");
        bench.must(bench.appraiser, car,
                   car::AttachPhoto{bench.photo(), PhotoMoment::Before, at("bonnet"), {}, {}});
        bench.must(bench.manager, car,
                   car::LeaveUnreleased{LeavingHow::Trade, QStringLiteral("too old")});
    }
    // Yesterday at the bench: the machine's clock goes on from there.
    bench.clock.set({now - dayMs});
    for (int i = 0; i < releasedCars; ++i) {
        bench.release(bench.appraised());
        bench.clock.pass(120);
    }
    for (int i = 0; i < 2; ++i)
        bench.found(bench.appraised(), "brakes-front", Condition::Worn);
    if (!store || !replay(bench.ledger.accepted(), (*store)->ledger()))
        qFatal("the workshop cannot be set up");
}

// As the bench hires them.
const HouseNames& benchNames()
{
    static const HouseNames names{PersonId{1}, PersonId{2}, PersonId{4}, PersonId{8},
                                  PersonId{9}, BayId{1},    BayId{2},    QDate(2099, 3, 20)};
    return names;
}

CarId anyOldCar(Dice& dice)
{
    return benchCar(1 + dice.below(oldCars));
}

CarId anyWorkedCar(Dice& dice)
{
    return benchCar(oldCars + 1 + dice.below(releasedCars));
}

std::vector<CarId> goneCars()
{
    std::vector<CarId> cars;
    for (int i = 1; i <= oldCars + releasedCars; ++i)
        cars.push_back(benchCar(i));
    return cars;
}

RandomScope quickScope()
{
    RandomScope scope = RandomScope::small();
    std::erase_if(scope.places, [](const PlaceId& place) {
        return place == at("windscreen") || place.text.startsWith(QLatin1String("wheel"));
    });
    return scope;
}

bool suits(std::size_t kind, const CarState& car)
{
    switch (kind) {
    case kindOf<car::BringBack>():
        return car.left.has_value();
    case kindOf<car::FindSound>():
    case kindOf<car::FinishAppraisal>():
    case kindOf<car::TakeOut>():
        return car.exists() && !car.appraised && !car.left;
    case kindOf<car::Unblock>():
    case kindOf<car::ReceiveBack>():
    case kindOf<car::ChangeDue>():
        return hasOpen(car, [](const Operation& operation) {
            return operation.state == OperationState::Blocked;
        });
    case kindOf<car::HandOver>():
    case kindOf<car::SendOut>():
        return hasOpen(car, [](const Operation&) { return true; });
    case kindOf<car::DropDraft>():
        return !car.spoken.empty() && !car.left;
    case kindOf<car::ConfirmRepair>():
        return !car.paint.empty() && !car.left;
    case kindOf<car::LiftIsolation>():
        return car.isolation.has_value();
    default:
        return true;
    }
}

bool isAimed(std::size_t kind)
{
    return !suits(kind, CarState{});
}

} // namespace ramplight::test
