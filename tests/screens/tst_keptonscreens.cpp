// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "sharedhouse.h"
#include "support/testmain.h"
#include "workhands.h"

#include <QQuickItem>
#include <QTest>

#include <algorithm>

using namespace ramplight;
using namespace ramplight::test;

namespace {

/// One line of the car's findings.
QQuickItem* lineOf(KioskBench& bench, const char* place)
{
    return bench.ofType("FindingLine", "placeId", QString::fromLatin1(place));
}

bool isBack(SharedHouse& shared)
{
    shared.wire.heal();
    return shared.bench.until([&] { return !shared.bench.house().desk().standing().away; },
                              QStringLiteral("the server"));
}

} // namespace

/// The server is away, and comes back: what is done by touch at a car meanwhile, and then.
class tst_KeptOnScreens : public QObject
{
    Q_OBJECT

private slots:
    void initTestCase()
    {
        if (qEnvironmentVariableIsEmpty("RAMPLIGHT_TEST_PG"))
            QSKIP("RAMPLIGHT_TEST_PG names no server (tests/run starts one)");
    }
    void init() { failOnQmlWarnings(); }

    void carIsMoved_andThatIsKept_data() { sizes(); }

    void carIsMoved_andThatIsKept()
    {
        QFETCH(const QSize, size);
        SharedHouse shared;
        KioskBench& bench = shared.bench;
        const CarId car = bench.house().bringIn(QStringLiteral("K-80"));
        bench.show(size);
        QVERIFY(shared.isKnown());
        QVERIFY(bench.tap(QStringLiteral("Who are you?")));
        QVERIFY(bench.signIn(QStringLiteral("Bram Holloway")));
        QVERIFY(bench.openCar(QStringLiteral("K-80")));
        const int before = shared.entries("car-moved", car);
        shared.wire.cut();
        QVERIFY(bench.untilSays(awayWords));
        QVERIFY(bench.tap(QStringLiteral("Move it")));
        QVERIFY(bench.tap(bench.ofType("ChoiceChip", "text", QStringLiteral("1 Wheels"))));
        QVERIFY(bench.until([&] { return !bench.house().car(car).bay.isNull(); },
                            QStringLiteral("the car in its bay")));
        QVERIFY(bench.until([&] { return bench.shell().server()->waiting() == 1; },
                            QStringLiteral("what is kept")));
        QVERIFY(bench.until([&] { return bench.ofType("MoveSheet").empty(); },
                            QStringLiteral("the sheet away")));
        bench.shoot(QStringLiteral("kept-moved"));
        QVERIFY(bench.tap(QStringLiteral("What is kept here")));
        QVERIFY(bench.untilSays(QStringLiteral("K-80 · Bay 1 Wheels")));
        bench.shoot(QStringLiteral("kept-moved-list"));
        QVERIFY(bench.tap(QStringLiteral("Close")));
        QCOMPARE(shared.entries("car-moved", car), before);
        QVERIFY(isBack(shared));
        QCOMPARE(shared.entries("car-moved", car), before + 1);
        QVERIFY(!bench.house().car(car).bay.isNull());
    }

    // Whoever types a reason for nothing has been told too late.
    void correction_saysThatItWaits_beforeAnybodyTypes_data() { sizes(); }

    void correction_saysThatItWaits_beforeAnybodyTypes()
    {
        QFETCH(const QSize, size);
        const QString waits =
            QStringLiteral("The workshop's server is away. A correction waits until it is back: "
                           "nothing that is entered here can be kept.");
        SharedHouse shared;
        KioskBench& bench = shared.bench;
        bench.show(size);
        QVERIFY(shared.isKnown());
        QVERIFY(bench.tap(QStringLiteral("Who are you?")));
        QVERIFY(bench.signIn(QStringLiteral("Runa Talbeck")));
        QVERIFY(bench.openCar(QStringLiteral("K-7")));
        QVERIFY(bench.tap(QStringLiteral("Findings")));
        QVERIFY(bench.tap(lineOf(bench, "wheel-front-left")));
        QVERIFY(bench.untilSays(QStringLiteral("It is not there")));
        QVERIFY(!bench.says(waits));
        shared.wire.cut();
        QVERIFY(bench.untilSays(awayWords));
        QVERIFY(bench.untilSays(waits));
        bench.shoot(QStringLiteral("kept-correction"));
        QVERIFY(!bench.says(QStringLiteral("It is not there")));
        QVERIFY(bench.tap(QStringLiteral("Close")));
        QVERIFY(bench.tap(QStringLiteral("More")));
        QVERIFY(bench.tap(QStringLiteral("Correct who it is")));
        QVERIFY(bench.untilSays(waits));
        bench.shoot(QStringLiteral("kept-correction-identity"));
        QVERIFY(isBack(shared));
        QVERIFY(bench.untilGone(waits));
    }

    // Somebody frames a picture while the line comes back, and the numbers are others.
    void photoThatIsTakenAcrossTheReturn_isOfWhatWasFound()
    {
        SharedHouse shared;
        KioskBench& bench = shared.bench;
        BenchHouse& house = bench.house();
        const CarId car = shared.wheel->car;
        const std::size_t before = house.car(car).photos.size();
        house.drop(QStringLiteral("glass.jpg"));
        bench.show();
        QVERIFY(shared.isKnown());
        QVERIFY(bench.tap(QStringLiteral("Who are you?")));
        QVERIFY(bench.signIn(QStringLiteral("Odo Farlane")));
        QVERIFY(bench.openCar(QStringLiteral("K-7")));
        shared.wire.cut();
        QVERIFY(bench.untilSays(awayWords));
        house.must(house.person(QStringLiteral("Odo")), car,
                   {car::RecordFinding{finding("windscreen", Condition::Crack, {}), {}}});
        QVERIFY(bench.tap(QStringLiteral("Findings")));
        QVERIFY(bench.until([&] { return lineOf(bench, "windscreen") != nullptr; },
                            QStringLiteral("what was found")));
        QVERIFY(bench.tap(lineOf(bench, "windscreen")));
        QVERIFY(bench.tap(QStringLiteral("Photograph it")));
        QVERIFY(bench.until([&] { return !bench.ofType("PhotoSheet").empty(); },
                            QStringLiteral("the photos")));
        QCOMPARE(
            shared.elsewhere(house.person(QStringLiteral("Odo")), car,
                             {car::RecordFinding{finding("bonnet", Condition::Scratch, {}), {}}}),
            QString());
        QVERIFY(isBack(shared));
        const auto findingAt = [&](const char* place) {
            for (const auto& [id, found] : house.car(car).findings)
                if (found.data().place == PlaceId{place})
                    return id;
            return FindingId{};
        };
        QVERIFY(findingAt("windscreen") > findingAt("bonnet")); // its number is another one now
        QVERIFY(WorkHands(bench).photo(QStringLiteral("glass.jpg")));
        QVERIFY(bench.until([&] { return house.car(car).photos.size() == before + 1; },
                            QStringLiteral("the photo")));
        const AttachedPhoto photo = house.car(car).photos.back();
        QCOMPARE(photo.place, PlaceId{"windscreen"});
        QCOMPARE(photo.finding, findingAt("windscreen"));
    }

    // A signature never goes to other work that has the number by then.
    void workThatIsOpenAcrossTheReturn_isTheSameWork_data() { sizes(); }

    void workThatIsOpenAcrossTheReturn_isTheSameWork()
    {
        QFETCH(const QSize, size);
        SharedHouse shared;
        KioskBench& bench = shared.bench;
        BenchHouse& house = bench.house();
        const CarId car = shared.wheel->car;
        bench.show(size);
        QVERIFY(shared.isKnown());
        QVERIFY(bench.tap(QStringLiteral("Who are you?")));
        QVERIFY(bench.signIn(QStringLiteral("Odo Farlane")));
        QVERIFY(bench.openCar(QStringLiteral("K-7")));
        shared.wire.cut();
        QVERIFY(bench.untilSays(awayWords));
        const PersonId odo = house.person(QStringLiteral("Odo"));
        const auto dent = [](const char* place) {
            return car::RecordFinding{finding(place, Condition::Dent, {Remedy::DentRepair}), {}};
        };
        house.must(odo, car, {dent("front-door-left")});
        const auto workAt = [&](const char* place) {
            for (const Operation* work : house.car(car).openOperations())
                if (work->place == PlaceId{place})
                    return work->id;
            return OperationId{};
        };
        const OperationId here = workAt("front-door-left");
        QVERIFY(!here.isNull());
        QVERIFY(bench.openWork(here));
        OperationView& view = *bench.shell().operation();
        QVERIFY(bench.until([&] { return view.placeId() == QStringLiteral("front-door-left"); },
                            QStringLiteral("the work")));
        QCOMPARE(shared.elsewhere(odo, car, {dent("front-door-right")}), QString());
        QVERIFY(isBack(shared));
        const OperationId there = workAt("front-door-left");
        QCOMPARE(workAt("front-door-right"), here);
        QVERIFY(bench.until([&] { return view.operationId() == there.value; },
                            QStringLiteral("its number there")));
        QCOMPARE(view.placeId(), QStringLiteral("front-door-left"));
        QVERIFY(!bench.ofType("OperationScreen").empty());
        QVERIFY(bench.tap(QStringLiteral("Back")));
        QVERIFY(bench.until([&] { return !bench.ofType("CarScreen").empty(); },
                            QStringLiteral("the car")));
    }

    // What the server refused is not so: the car shows what the ledger has.
    void refusedWork_isNoLongerShownAtTheCar()
    {
        SharedHouse shared;
        KioskBench& bench = shared.bench;
        BenchHouse& house = bench.house();
        const CarId car = shared.wheel->car;
        bench.show();
        QVERIFY(shared.isKnown());
        QVERIFY(bench.tap(QStringLiteral("Who are you?")));
        QVERIFY(bench.signIn(QStringLiteral("Bram Holloway")));
        QVERIFY(bench.openCar(QStringLiteral("K-7")));
        shared.wire.cut();
        QVERIFY(bench.untilSays(awayWords));
        const PersonId bram = house.person(QStringLiteral("Bram"));
        // More entries here than there.
        house.must(bram, car,
                   {car::ReadCautions{shared.wheel->work}, car::StartWork{shared.wheel->work}});
        house.clock.goOn(10);
        house.must(bram, car, {car::PauseWork{shared.wheel->work, bram}});
        QVERIFY(bench.until([&] { return bench.shell().car()->car() == house.car(car); },
                            QStringLiteral("the car as it is here")));
        QCOMPARE(shared.elsewhere(
                     house.person(QStringLiteral("Runa")), car,
                     {car::LeaveAsIs{shared.wheel->work, QStringLiteral("light kerbing, told")}}),
                 QString());
        QVERIFY(isBack(shared));
        QVERIFY(bench.until([&] { return bench.shell().car()->car() == house.car(car); },
                            QStringLiteral("the car as the ledger has it")));
        QVERIFY(!bench.shell().car()->car().operation(shared.wheel->work)->isOpen());
    }
};

RAMPLIGHT_TEST(QGuiApplication, tst_KeptOnScreens)
#include "tst_keptonscreens.moc"
