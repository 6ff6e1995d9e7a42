// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storagebench.h"

#include "support/testmain.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

// What a ledger keeps in memory of what it has read.
class TestRemembered : public QObject
{
    Q_OBJECT

private slots:
    void carsThatLeft_areNotKeptInMemory_data() { addKinds(); }

    void carsThatLeft_areNotKeptInMemory()
    {
        QFETCH(StoreKind, kind);
        Workbench bench;
        std::vector<CarId> sold;
        for (int i = 0; i < 4; ++i) {
            sold.push_back(bench.appraised());
            bench.release(sold.back());
        }
        const CarId stays = bench.appraised();
        TestDatabase database(kind);
        const auto store = database.open();
        QCOMPARE(outcome(replay(bench.ledger.accepted(), store->ledger())), QStringLiteral("ok"));
        QCOMPARE(store->ledger().remembered(), 2); // and the one asked for last
        // Looked at again, as a record does: each is whole, and one of them stays.
        for (const CarId& car : sold)
            QVERIFY(store->ledger().car(car).value() == bench.ledger.cars().at(car));
        QVERIFY(store->ledger().car(stays).value() == bench.ledger.cars().at(stays));
        QVERIFY(store->ledger().car(sold.back()).value() == bench.ledger.cars().at(sold.back()));
        QCOMPARE(store->ledger().remembered(), 2);
        // One that is held again is one of those in prep.
        const auto before = bench.ledger.accepted().size();
        bench.found(sold.back(), "tyre-front-left", Condition::Cut);
        const std::vector<Append> all = bench.ledger.accepted();
        QVERIFY(all.size() > before);
        QVERIFY(replay({all.begin() + static_cast<std::ptrdiff_t>(before), all.end()},
                       store->ledger()));
        QVERIFY(store->ledger().car(sold.back()).value() == bench.ledger.cars().at(sold.back()));
        QVERIFY(store->ledger().car(sold.front()).value() == bench.ledger.cars().at(sold.front()));
        QCOMPARE(store->ledger().remembered(), 3);
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestRemembered)
#include "tst_remembered.moc"
