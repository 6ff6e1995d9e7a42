// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kioskbench.h"

#include "support/testmain.h"

#include <QDir>
#include <QFile>

#include <algorithm>

using namespace ramplight;
using namespace ramplight::test;

// What a technician finds while the server is away, and a check that fails.
class TestKeptFindings : public QObject
{
    Q_OBJECT

private slots:
    void initTestCase()
    {
        if (qEnvironmentVariableIsEmpty("RAMPLIGHT_TEST_PG"))
            QSKIP("RAMPLIGHT_TEST_PG names no server (tests/run starts one)");
    }

    void init() { m_folder = std::make_unique<QTemporaryDir>(); }

    // What makes a car safer is put down at once, and survives that the kiosk is killed.
    void findingAndFailedCheck_areKept_andArriveOnce_afterAKill()
    {
        House house;
        const CarId car = house.car;
        // Work that waits for its second signature.
        OperationId signedOnce;
        house.onBench([&] {
            house.bench.found(car, "steering", Condition::Loose);
            signedOnce = house.bench.open(car, "steering-part");
            house.bench.start(car, signedOnce, house.bench.technician);
            house.bench.prove(car, signedOnce, house.bench.technician);
            house.bench.must(house.bench.technician, car, car::SignOff{signedOnce, {}});
        });
        const QString copy = m_folder->filePath(QStringLiteral("as-it-lay"));
        const QString folder = m_folder->filePath(QStringLiteral("standby"));
        const auto answers = [&car](Kiosk& kiosk) {
            const CarState state = kiosk.car(car);
            return std::ranges::count_if(state.findings, [](const auto& entry) {
                return entry.second.data().place == PlaceId{"tyre-front-left"};
            });
        };
        {
            Kiosk kiosk(house, folder);
            QVERIFY(resultOf(kiosk.opening));
            QTRY_VERIFY_WITH_TIMEOUT(
                !kiosk.standing().knownAt.isNull() && house.isCopied(folder, car), patientMs);
            house.wire.cut();
            QTRY_VERIFY_WITH_TIMEOUT(kiosk.standing().away, patientMs);
            const FindingData cut = finding("tyre-front-left", Condition::Cut);
            QCOMPARE(kiosk.ask(house.bench.mechanic, car, {car::RecordFinding{cut, signedOnce}}),
                     done);
            QCOMPARE(kiosk.ask(house.bench.checker, car,
                               {car::FailCheck{signedOnce, "split pin missing", {}}}),
                     done);
            // What it corrects would have to stand in the ledger.
            QCOMPARE(kiosk.ask(house.bench.manager, car,
                               {car::CorrectFinding{FindingId{1}, cut, false, "no",
                                                    house.bench.photo()}}),
                     notKeptWords());
            QCOMPARE(answers(kiosk), 1);
            QVERIFY(kiosk.car(car).operation(signedOnce)->isOpen());
            QTRY_COMPARE(kiosk.standing().kept.size(), std::size_t(2));
            QVERIFY(QDir().mkpath(copy));
            for (const QString& name : QDir(folder).entryList(QDir::Files))
                QVERIFY(QFile::copy(folder + '/' + name, copy + '/' + name));
        }
        // Meanwhile another kiosk finds something else on the same car.
        {
            const auto store = house.database.open();
            Workshop workshop(store->ledger(), house.clock, house.bench.catalogue);
            QVERIFY(workshop.run(
                CarRequest{CommandId{"else"},
                           house.bench.appraiser,
                           car,
                           {car::RecordFinding{finding("bonnet", Condition::Scratch), {}}},
                           true}));
        }
        {
            Kiosk kiosk(house, copy);
            QVERIFY(resultOf(kiosk.opening));
            QTRY_COMPARE(kiosk.standing().kept.size(), std::size_t(2));
            QCOMPARE(answers(kiosk), 1);
            house.wire.heal();
            QTRY_VERIFY_WITH_TIMEOUT(!kiosk.standing().away, patientMs);
            QCOMPARE(kiosk.standing().kept.size(), std::size_t(0));
            QCOMPARE(answers(kiosk), 1);
        }
        Kiosk kiosk(house, folder);
        QVERIFY(resultOf(kiosk.opening));
        QTRY_VERIFY_WITH_TIMEOUT(kiosk.standing().shared && !kiosk.standing().away, patientMs);
        QCOMPARE(kiosk.standing().kept.size(), std::size_t(0));
        QCOMPARE(answers(kiosk), 1);
        const Operation back = *kiosk.car(car).operation(signedOnce);
        QVERIFY(back.isOpen());
        QCOMPARE(back.sentBackWhy, QStringLiteral("split pin missing"));
        QCOMPARE(house.entries(car).count(QStringLiteral("operation-reopened")), 1);
        const auto store = house.database.open();
        QCOMPARE(
            told(Verifier(store->ledger(), [](const std::set<PhotoId>&) { return VaultReport{}; })
                     .run()),
            QString());
    }

    void findingThatTheServersStateRefuses_isKeptWithBothStories()
    {
        House house;
        Kiosk kiosk(house, m_folder->path());
        QVERIFY(resultOf(kiosk.opening));
        QTRY_VERIFY_WITH_TIMEOUT(!kiosk.standing().knownAt.isNull(), patientMs);
        house.wire.cut();
        QTRY_VERIFY_WITH_TIMEOUT(kiosk.standing().away, patientMs);
        const FindingData cut = finding("tyre-front-left", Condition::Cut);
        QCOMPARE(kiosk.ask(house.who, house.car, {car::RecordFinding{cut, {}}}), done);
        {
            const auto store = house.database.open();
            Workshop workshop(store->ledger(), house.clock, house.bench.catalogue);
            QVERIFY(
                workshop.run(CarRequest{CommandId{"left"},
                                        house.bench.manager,
                                        house.car,
                                        {car::LeaveUnreleased{LeavingHow::Trade, "sold as it is"}},
                                        true}));
        }
        const QString before = house.entries(house.car);
        house.wire.heal();
        QTRY_VERIFY_WITH_TIMEOUT(!kiosk.standing().away, patientMs);
        QCOMPARE(kiosk.standing().kept.size(), std::size_t(1));
        const KeptRequest refused = kiosk.standing().kept.front();
        QVERIFY(!refused.waits());
        QVERIFY2(refused.refusal.contains("left"), qPrintable(refused.refusal));
        QVERIFY2(refused.works.front().title.contains("cut"),
                 qPrintable(refused.works.front().title));
        QCOMPARE(deedWords(refused.asked), QStringLiteral("A finding"));
        QCOMPARE(house.entries(house.car), before);
        QVERIFY(resultOf(kiosk.thread().note(refused.number, house.bench.manager)));
        QTRY_COMPARE(kiosk.standing().kept.size(), std::size_t(0));
    }

private:
    std::unique_ptr<QTemporaryDir> m_folder;
};

RAMPLIGHT_TEST(QCoreApplication, TestKeptFindings)
#include "tst_keptfindings.moc"
