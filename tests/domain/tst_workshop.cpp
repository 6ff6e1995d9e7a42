// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "support/testmain.h"
#include "workbench.h"

#include "domain/forwardingledger.h"

#include <QTest>

#include <algorithm>
#include <utility>

using namespace ramplight;
using namespace ramplight::test;

namespace {

/// Where another kiosk is quicker: it writes as soon as a certain car was read, once.
class CrowdedLedger : public ForwardingLedger
{
public:
    using ForwardingLedger::ForwardingLedger;

    void afterReadOf(const CarId& car, std::function<void()> hook)
    {
        m_car = car;
        m_hook = std::move(hook);
    }
    [[nodiscard]] tl::expected<CarState, StoreError> car(const CarId& id) override
    {
        auto read = ForwardingLedger::car(id);
        wasRead(id);
        return read;
    }
    [[nodiscard]] tl::expected<SiteAndCar, StoreError> siteAndCar(const CarId& id) override
    {
        auto read = ForwardingLedger::siteAndCar(id);
        wasRead(id);
        return read;
    }

private:
    void wasRead(const CarId& id)
    {
        if (id == m_car)
            if (const auto hook = std::exchange(m_hook, {}))
                hook();
    }

    CarId m_car;
    std::function<void()> m_hook;
};

/// Cuts in a tyre and a clock that is ten minutes ahead.
void findAtAnotherKiosk(Workbench& bench, const CarId& car)
{
    bench.clock.pass(10);
    bench.found(car, "tyre-rear-right", Condition::Cut);
    bench.clock.pass(-10);
}

bool neverGoesBack(Workbench& bench, const CarId& car)
{
    return std::ranges::is_sorted(bench.ledger.history(car).value(), {}, &CarEnvelope::at);
}

} // namespace

// The one way in: a command is carried out once and whole, whoever is quicker.
class TestWorkshop : public QObject
{
    Q_OBJECT

private slots:
    void whatOpensTheDoor_goesWithItsEntry_andIsNobodyElses()
    {
        Workbench bench;
        SiteRequest request{bench.command(),
                            bench.manager,
                            site::ChangeAccess{bench.mechanic, QStringLiteral("pin")},
                            {}};
        request.access = {bench.painter, QByteArray("a hash")};
        const qint64 before = bench.ledger.site()->seq;
        const auto refused = bench.workshop.run(request);
        QVERIFY(!refused);
        QCOMPARE(std::get<Refusal>(refused.error()).id, RefusalId::PersonUnknown);
        QCOMPARE(bench.ledger.site()->seq, before);
        request.access = {bench.mechanic, QByteArray("a hash")};
        QVERIFY(bench.workshop.run(request));
        const Append kept = bench.ledger.accepted().back();
        QVERIFY(kept.site && kept.site->events.size() == 1 && kept.access);
        QCOMPARE(kept.access->person, bench.mechanic);
        QCOMPARE(kept.access->pinHash, QByteArray("a hash"));
        // Who may not is refused before anything is kept.
        request.id = bench.command();
        request.actor = bench.painter;
        QVERIFY(!bench.workshop.run(request));
        QCOMPARE(bench.ledger.site()->seq, before + 1);
    }

    void command_sentTwice_changesNothing()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const CarRequest request{bench.command(),
                                 bench.mechanic,
                                 id,
                                 {car::OpenOperation{"touch-in", at("bonnet"), "chips"}},
                                 false};
        QVERIFY(bench.workshop.run(request));
        const CarState once = bench.car(id);
        const auto again = bench.workshop.run(request);
        QVERIFY(again);
        QVERIFY(again->events.empty());
        QVERIFY(bench.car(id) == once);
    }

    void command_sentTwice_isNotCarriedOutAnewWhereItCouldBe()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const CarRequest toTheBack{
            bench.command(), bench.mechanic, id, {car::MoveCar{{}, QStringLiteral("back")}}, false};
        QVERIFY(bench.workshop.run(toTheBack));
        bench.must(bench.mechanic, id, car::MoveCar{{}, QStringLiteral("front")});
        const auto again = bench.workshop.run(toTheBack);
        QVERIFY(again);
        QVERIFY(again->events.empty());
        QCOMPARE(bench.car(id).parking, QStringLiteral("front"));
    }

    void request_withOneRefusedCommand_changesNothing()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const CarState before = bench.car(id);
        const auto outcome = bench.workshop.run(
            CarRequest{bench.command(),
                       bench.mechanic,
                       id,
                       {car::OpenOperation{"touch-in", at("bonnet"), "chips"}, car::Release{}},
                       false});
        QVERIFY(!outcome);
        QVERIFY(bench.car(id) == before);
    }

    void anotherKiosk_first_isDecidedAgain()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        bench.closeAll(id);
        bench.clock.pass(120);
        // While the release is on its way, somebody records a finding.
        bench.ledger.beforeNextAppend([&] { bench.found(id, "tyre-front-left", Condition::Cut); });
        QCOMPARE(bench.ask(bench.seller, id, car::Release{}, true), no(RefusalId::CarHeld));
        QVERIFY(!bench.car(id).released);
    }

    void anotherKiosk_firstWithACarThatIsMerged_isDecidedAgain()
    {
        Workbench bench;
        const CarId keep = bench.bringIn();
        const CarId second = bench.bringIn();
        CrowdedLedger ledger(bench.ledger);
        ledger.afterReadOf(second, [&] { findAtAnotherKiosk(bench, second); });
        Workshop workshop(ledger, bench.clock, bench.catalogue);
        QVERIFY(workshop.mergeDuplicate(bench.command(), bench.manager, keep, second, "twice"));
        // What was found under the other entry is not left behind.
        QVERIFY(bench.car(keep).hasFinding(at("tyre-rear-right"), Condition::Cut));
        QVERIFY(neverGoesBack(bench, keep));
        QVERIFY(neverGoesBack(bench, second));
    }

    void anotherKiosk_firstWithACarOfALoad_isDecidedAgain()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        std::vector<TogetherRequest::Item> load;
        for (const char* place : {"wheel-front-left", "wheel-rear-left"}) {
            bench.found(id, place, Condition::Kerbed);
            const OperationId work = bench.open(id, "wheel-refurb", place);
            for (const PhotoMoment moment : {PhotoMoment::Before, PhotoMoment::After})
                bench.must(bench.wheels, id,
                           car::AttachPhoto{bench.photo(), moment, at(place), work, {}});
            load.push_back({id, work, {{{}, "metal", {}, answer("whole")}}});
        }
        bench.start(id, load.front().operation, bench.wheels);
        bench.clock.pass(40);
        CrowdedLedger ledger(bench.ledger);
        ledger.afterReadOf(id, [&] { findAtAnotherKiosk(bench, id); });
        Workshop workshop(ledger, bench.clock, bench.catalogue);
        QVERIFY(workshop.signTogether({bench.command(), bench.wheels, load}));
        QVERIFY(neverGoesBack(bench, id));
    }

    void store_thatFails_isSaidAndChangesNothing()
    {
        Workbench bench;
        const CarId id = bench.appraised();
        const CarState before = bench.car(id);
        bench.ledger.failWith(StoreErrorKind::Unavailable);
        const auto outcome = bench.workshop.run(
            CarRequest{bench.command(), bench.manager, id, {car::MoveCar{bench.lift, {}}}, false});
        bench.ledger.failWith(std::nullopt);
        QVERIFY(!outcome);
        QVERIFY(std::holds_alternative<StoreError>(outcome.error()));
        QVERIFY(bench.car(id) == before);
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestWorkshop)
#include "tst_workshop.moc"
