// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "cli/smallhome.h"

#include "../evidence/samples.h"
#include "cli/house.h"
#include "cli/program.h"

namespace ramplight::test {

namespace {

constexpr int photos = 3;

QString setUp(const HousePaths& paths)
{
    const SystemClock clock;
    const auto house = OpenHouse::open(paths, clock, true);
    if (!house)
        return house.error();
    const auto done = (*house)->workshop().run(
        SiteRequest{CommandId{QStringLiteral("set-up")},
                    {},
                    site::SetUp{QStringLiteral("Kestrel Quay"), false, {}, {}},
                    QString::fromLatin1(smallHomesManager)});
    return done ? QString() : words(done.error());
}

QString photograph(const HousePaths& paths)
{
    const SystemClock clock;
    const auto house = OpenHouse::open(paths, clock, false);
    if (!house)
        return house.error();
    const auto id = (*house)->store().ledger().carByStockNumber(QStringLiteral("RL 2041"));
    if (!id || !*id)
        return QStringLiteral("the car is not there");
    const auto car = (*house)->store().ledger().car(**id);
    const Finding& finding = car->findings.begin()->second;
    for (int i = 0; i < photos; ++i) {
        const auto photo = (*house)->photos().keep(samples::panel({160, 120}, i + 1));
        if (!photo)
            return words(photo.error());
        const auto done =
            (*house)->workshop().run(CarRequest{CommandId{QStringLiteral("photo-%1").arg(i)},
                                                PersonId{1},
                                                **id,
                                                {car::AttachPhoto{photo->id,
                                                                  PhotoMoment::Before,
                                                                  finding.data().place,
                                                                  {},
                                                                  car->findings.begin()->first}},
                                                false});
        if (!done)
            return words(done.error());
    }
    return {};
}

} // namespace

QString makeSmallHome(const QString& home)
{
    const HousePaths paths(home);
    if (QString fault = setUp(paths); !fault.isEmpty())
        return fault;
    const Ran brought =
        runProgram(home, {QStringLiteral("import"),
                          demoAppraisals() + QStringLiteral("rl-2041-aurel-kestin.json"),
                          QStringLiteral("--as"), QString::fromLatin1(smallHomesManager)});
    return brought.code == 0 ? photograph(paths) : brought.out + brought.err;
}

} // namespace ramplight::test
