// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "support/testmain.h"
#include "walkhands.h"
#include "wheelwork.h"
#include "workhands.h"

#include <QQuickItem>
#include <QTest>

#include <algorithm>

using namespace ramplight;
using namespace ramplight::test;

/// One operation at the wall: cautions, timer, readings, photos, signature. Every step is a touch,
/// and what came of it is read from the ledger.
class tst_OperationScreen : public QObject
{
    Q_OBJECT

private slots:
    void init() { failOnQmlWarnings(); }
    void wheelRefurb_fromCautionsToSignature_data();
    void wheelRefurb_fromCautionsToSignature();
    void wheelRefurb_needsFewTouches();
    void start_asksWhoYouAre_andGoesOnByItself();
    void photoPlace_asksForItsOwnPhoto();
    void pausedWork_goesOnLater();
    void missingEvidence_isNamed_andNothingIsSigned();
    void readingOutsideItsLimit_opensTheFollowUp_data();
    void readingOutsideItsLimit_opensTheFollowUp();
    void answerThatForbidsClosing_opensTheFollowUp();
    void somethingElse_isRecordedAsFoundHere_data();
    void somethingElse_isRecordedAsFoundHere();
    void minutes_areCorrectedWithAReason_measuredOnesStay();
};

void tst_OperationScreen::wheelRefurb_fromCautionsToSignature_data()
{
    sizes();
}

void tst_OperationScreen::wheelRefurb_fromCautionsToSignature()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const Wheel wheel(house);
    const PersonId bram = house.person(QStringLiteral("Bram"));
    house.drop(QStringLiteral("before.jpg"));
    house.drop(QStringLiteral("after.jpg"));
    bench.show(size);
    WorkHands hands(bench);
    QVERIFY(goTo(bench, QStringLiteral("Bram Holloway"), wheel.car, wheel.work));
    for (const QString& caution : wheel.now(house).spec->cautions)
        QVERIFY2(bench.says(caution), qPrintable(caution));
    bench.shoot(QStringLiteral("operation-before"));

    QVERIFY(bench.tap(QStringLiteral("I have read this: start")));
    QVERIFY(bench.until([&] { return wheel.now(house).isRunning(); }, QStringLiteral("timer")));
    QVERIFY(wheel.now(house).cautionsReadBy.contains(bram));
    house.clock.goOn(80);

    QVERIFY(bench.tap(QStringLiteral("Next reading")));
    QVERIFY(hands.answer(QStringLiteral("no crack, no weld, nothing missing")));
    QVERIFY(hands.answer(QStringLiteral("out")));
    bench.shoot(QStringLiteral("operation-reading"));
    QVERIFY(hands.enter(QStringLiteral("180"))); // the limit itself is inside
    QVERIFY(hands.enter(QStringLiteral("15")));
    QVERIFY(hands.enter(QStringLiteral("2")));
    QVERIFY(hands.answer(QStringLiteral("bare and clean")));
    const Operation measured = wheel.now(house);
    const Reading* bake = measured.reading(QStringLiteral("bake-minutes"), {});
    QVERIFY(bake != nullptr);
    QCOMPARE(bake->value.number, std::optional(15));
    QCOMPARE(bake->by, bram);
    QVERIFY(std::ranges::all_of(measured.readings, [](const Reading& reading) {
        return reading.outcome == ReadingOutcome::Inside;
    }));

    // The photos that are missing come by themselves.
    QVERIFY(hands.photo(QStringLiteral("before.jpg"), 0));
    QVERIFY(hands.photo(QStringLiteral("after.jpg"), 1));
    const std::vector<AttachedPhoto> photos = photosOf(house.car(wheel.car), wheel.work);
    QCOMPARE(photos.size(), std::size_t{2});
    QCOMPARE(photos.front().moment, PhotoMoment::Before);
    QCOMPARE(photos.back().moment, PhotoMoment::After);
    QVERIFY(photos.front().photo != photos.back().photo);
    QVERIFY(house.photos().open(photos.back().photo).has_value());

    QVERIFY(bench.write(QStringLiteral("Note, for the record"), QStringLiteral("two coats")));
    bench.shoot(QStringLiteral("operation-ready"));
    QVERIFY(bench.tap(QStringLiteral("Finish and sign")));
    QVERIFY(bench.until([&] { return wheel.now(house).state == OperationState::Closed; },
                        QStringLiteral("the signature")));
    const Operation closed = wheel.now(house);
    QCOMPARE(closed.signatures.size(), std::size_t{1});
    QCOMPARE(closed.signatures.front().by, bram);
    QCOMPARE(closed.signatures.front().meaning, SignatureMeaning::DidTheWork);
    QCOMPARE(closed.signatures.front().minutes, 80);
    QCOMPARE(closed.signatures.front().note, QStringLiteral("two coats"));
    QVERIFY(!house.open(wheel.car, "wheel-true-check").isNull());
    QVERIFY(!house.open(wheel.car, "wheel-balance").isNull());
    // Back on the car.
    QVERIFY(bench.until([&] { return bench.ofType("OperationScreen").empty(); },
                        QStringLiteral("the car")));
}

// What the work itself asks for (digits, choices, photos) is counted by kind, and so is the rest:
// at most six touches.
void tst_OperationScreen::wheelRefurb_needsFewTouches()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const Wheel wheel(house);
    house.drop(QStringLiteral("before.jpg"));
    house.drop(QStringLiteral("after.jpg"));
    bench.show();
    QVERIFY(goTo(bench, QStringLiteral("Bram Holloway"), wheel.car, wheel.work));

    WorkHands hands(bench);
    QVERIFY(hands.tap(QStringLiteral("I have read this: start")));
    QVERIFY(hands.tap(QStringLiteral("Next reading")));
    QVERIFY(hands.answer(QStringLiteral("no crack, no weld, nothing missing")));
    QVERIFY(hands.answer(QStringLiteral("out")));
    QVERIFY(hands.enter(QStringLiteral("170")));
    QVERIFY(hands.enter(QStringLiteral("15")));
    QVERIFY(hands.enter(QStringLiteral("2")));
    QVERIFY(hands.answer(QStringLiteral("bare and clean")));
    QVERIFY(hands.photo(QStringLiteral("before.jpg"), 0)); // the photos come by themselves
    QVERIFY(hands.photo(QStringLiteral("after.jpg"), 1));
    QVERIFY(hands.tap(QStringLiteral("Finish and sign")));
    QVERIFY(bench.until([&] { return wheel.now(house).state == OperationState::Closed; },
                        QStringLiteral("the signature")));

    const Operation signedOff = wheel.now(house);
    const auto choices = std::ranges::count_if(signedOff.readings, [](const Reading& reading) {
        return !reading.value.number.has_value();
    });
    const std::vector<AttachedPhoto> photos = photosOf(house.car(wheel.car), wheel.work);
    QCOMPARE(photos.size(), signedOff.spec->photos.size());
    QVERIFY(photos.front().photo != photos.back().photo);
    const WorkHands::Touches& touches = hands.touches();
    QCOMPARE(touches.digits, 6); // 170, 15, 2
    QCOMPARE(touches.choices, static_cast<int>(choices));
    QCOMPARE(touches.photos, 2 * static_cast<int>(photos.size())); // which one, and that it is it
    QVERIFY2(touches.others <= 6, qPrintable(QString::number(touches.others)));
}

void tst_OperationScreen::start_asksWhoYouAre_andGoesOnByItself()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const Wheel wheel(house);
    bench.show();
    QVERIFY(bench.openCar(QStringLiteral("K-7")));
    QVERIFY(bench.openWork(wheel.work));
    QVERIFY(bench.tap(QStringLiteral("I have read this: start")));
    QVERIFY(bench.untilSays(QStringLiteral("Bram Holloway")));
    QVERIFY(!wheel.now(house).isRunning());
    QVERIFY(bench.signIn(QStringLiteral("Bram Holloway")));
    QVERIFY(bench.until([&] { return wheel.now(house).isRunning(); }, QStringLiteral("timer")));
    QCOMPARE(wheel.now(house).segments.front().person, house.person(QStringLiteral("Bram")));
}

void tst_OperationScreen::photoPlace_asksForItsOwnPhoto()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const Wheel wheel(house);
    house.drop(QStringLiteral("wheel.jpg"));
    bench.show();
    QVERIFY(goTo(bench, QStringLiteral("Bram Holloway"), wheel.car, wheel.work));
    QVERIFY(bench.tap(afterPlace));
    QVERIFY(WorkHands(bench).photo(QStringLiteral("wheel.jpg")));
    const auto& needs = bench.shell().operation()->photoNeeds();
    QVERIFY(bench.until([&] { return needs->rows().back().present; }, QStringLiteral("photo")));
    QVERIFY(!needs->rows().front().present);
    QVERIFY(bench.ofType("PhotoSheet").empty()); // only that one was asked for
    QCOMPARE(photosOf(house.car(wheel.car), wheel.work).size(), std::size_t{1});
    QCOMPARE(house.car(wheel.car).photos.back().moment, PhotoMoment::After);
}

void tst_OperationScreen::pausedWork_goesOnLater()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const Wheel wheel(house);
    bench.show();
    QVERIFY(goTo(bench, QStringLiteral("Bram Holloway"), wheel.car, wheel.work));
    QVERIFY(bench.tap(QStringLiteral("I have read this: start")));
    QVERIFY(bench.until([&] { return wheel.now(house).isRunning(); }, QStringLiteral("timer")));
    house.clock.goOn(25);
    QVERIFY(bench.tap(QStringLiteral("Pause")));
    QVERIFY(bench.until([&] { return wheel.now(house).state == OperationState::Paused; },
                        QStringLiteral("pause")));
    QCOMPARE(wheel.now(house).minutes(), 25);
    QVERIFY(bench.untilSays(QStringLiteral("paused")));
    bench.shoot(QStringLiteral("operation-paused"));
    house.clock.goOn(40); // the break is nobody's work
    QVERIFY(bench.tap(QStringLiteral("Go on with it")));
    QVERIFY(bench.until([&] { return wheel.now(house).isRunning(); }, QStringLiteral("timer")));
    house.clock.goOn(10);
    QVERIFY(bench.tap(QStringLiteral("Pause")));
    QVERIFY(bench.until([&] { return !wheel.now(house).isRunning(); }, QStringLiteral("pause")));
    QCOMPARE(wheel.now(house).segments.size(), std::size_t{2});
    QCOMPARE(wheel.now(house).minutes(), 35);
}

void tst_OperationScreen::missingEvidence_isNamed_andNothingIsSigned()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const Wheel wheel(house);
    bench.show();
    QVERIFY(goTo(bench, QStringLiteral("Bram Holloway"), wheel.car, wheel.work));
    QVERIFY(bench.tap(QStringLiteral("I have read this: start")));
    QVERIFY(bench.until([&] { return bench.shell().operation()->myRunning(); },
                        QStringLiteral("timer")));
    const QStringList missing = bench.shell().operation()->missing();
    QVERIFY(!missing.isEmpty());
    QVERIFY(bench.tap(QStringLiteral("Finish and sign")));
    QVERIFY(bench.untilSays(QStringLiteral("Not yet")));
    for (const QString& line : missing)
        QVERIFY2(bench.says(line), qPrintable(line));
    bench.shoot(QStringLiteral("operation-missing"));
    QVERIFY(bench.tap(QStringLiteral("Close")));
    QVERIFY(bench.untilGone(QStringLiteral("Not yet")));
    QVERIFY(wheel.now(house).signatures.empty());
    QVERIFY(wheel.now(house).isRunning());
}

void tst_OperationScreen::readingOutsideItsLimit_opensTheFollowUp_data()
{
    sizes();
}

void tst_OperationScreen::readingOutsideItsLimit_opensTheFollowUp()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const CarId car = house.bringIn(QStringLiteral("K-7"));
    BenchCrew(house).finish(car, "arrival-check");
    const OperationId work = house.open(car, "tyre-survey");
    const PlaceId tyre{QStringLiteral("tyre-front-left")};
    bench.show(size);
    WorkHands hands(bench);
    QVERIFY(goTo(bench, QStringLiteral("Petra Lowrie"), car, work));
    QVERIFY(bench.tap(QStringLiteral("I have read this: start")));
    QVERIFY(bench.tap(QStringLiteral("Next reading")));
    // The limits and who set them stand over the pad.
    const ReadingRow row = bench.shell().operation()->readings()->rows().front();
    QVERIFY(row.limitWords.contains(QStringLiteral("1.6")) &&
            row.limitWords.contains(QStringLiteral("3.0")));
    QVERIFY(bench.untilSays(row.limitWords));
    QVERIFY(hands.enter(QStringLiteral("1.2")));
    bench.shoot(QStringLiteral("operation-outside"));

    const Operation measured = *house.car(car).operation(work);
    const Reading* reading = measured.reading(QStringLiteral("tread-inner"), tyre);
    QVERIFY(reading != nullptr);
    QCOMPARE(reading->outcome, ReadingOutcome::Outside);
    QCOMPARE(reading->limits.size(), std::size_t{2});
    const OperationId followUp = house.open(car, "tyre-fit", "tyre-front-left");
    QVERIFY(!followUp.isNull());
    QCOMPARE(house.car(car).operation(followUp)->origin, Origin::Reading);
    QVERIFY(measured.isOpen());

    // Measured again only after the follow-up: that is said instead of a pad, the reading stays.
    QVERIFY(bench.tap(QStringLiteral("Close")));
    QVERIFY(bench.untilSays(QStringLiteral("outside")));
    QVERIFY(bench.tap(bench.ofType("ReadingLine").front()));
    const QString stands = bench.shell().operation()->readings()->rows().front().standsWords;
    QVERIFY2(stands.contains(QStringLiteral("first finish")), qPrintable(stands));
    QVERIFY(bench.untilSays(stands));
    QVERIFY(bench.ofType("NumberPad").empty());
    bench.shoot(QStringLiteral("operation-stands"));
    QCOMPARE(house.car(car).operation(work)->readings.size(), std::size_t{1});
}

void tst_OperationScreen::answerThatForbidsClosing_opensTheFollowUp()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const Wheel wheel(house);
    bench.show();
    WorkHands hands(bench);
    QVERIFY(goTo(bench, QStringLiteral("Bram Holloway"), wheel.car, wheel.work));
    QVERIFY(bench.tap(QStringLiteral("I have read this: start")));
    QVERIFY(bench.tap(QStringLiteral("Next reading")));
    QVERIFY(hands.answer(QStringLiteral("crack or old weld: never refinished")));
    QVERIFY(!house.open(wheel.car, "wheel-replace", "wheel-front-left").isNull());
    QCOMPARE(wheel.now(house).readings.back().outcome, ReadingOutcome::Outside);
    QVERIFY(wheel.now(house).isOpen());
}

void tst_OperationScreen::somethingElse_isRecordedAsFoundHere_data()
{
    sizes();
}

void tst_OperationScreen::somethingElse_isRecordedAsFoundHere()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const Wheel wheel(house);
    bench.show(size);
    QVERIFY(goTo(bench, QStringLiteral("Bram Holloway"), wheel.car, wheel.work));
    QVERIFY(bench.tap(QStringLiteral("Found something else")));
    WalkHands hands(bench);
    QVERIFY(hands.ready());
    const std::size_t had = house.car(wheel.car).findings.size();
    QVERIFY(hands.place("front-door-left"));
    QVERIFY(hands.condition(Condition::Dent));
    QVERIFY(hands.severity(Severity::Light));
    bench.shoot(QStringLiteral("operation-found"));
    QVERIFY(hands.advised());
    QCOMPARE(house.car(wheel.car).findings.size(), had + 1);
    // The appraisal is not a technician's to end.
    QVERIFY(!bench.says(QStringLiteral("Finish the walk-round")));
    const CarState car = house.car(wheel.car);
    const Finding& found = car.findings.rbegin()->second;
    QCOMPARE(found.data().place.text, QStringLiteral("front-door-left"));
    QCOMPARE(found.data().condition, Condition::Dent);
    QCOMPARE(found.during, std::optional(wheel.work));
    QVERIFY(!house.open(wheel.car, "dent-push", "front-door-left").isNull());
    QVERIFY(bench.tap(QStringLiteral("Back")));
    QVERIFY(bench.until([&] { return !bench.ofType("OperationScreen").empty(); },
                        QStringLiteral("the work that was in hand")));
}

void tst_OperationScreen::minutes_areCorrectedWithAReason_measuredOnesStay()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const Wheel wheel(house);
    bench.show();
    QVERIFY(goTo(bench, QStringLiteral("Bram Holloway"), wheel.car, wheel.work));
    QVERIFY(bench.tap(QStringLiteral("I have read this: start")));
    QVERIFY(bench.until([&] { return wheel.now(house).isRunning(); }, QStringLiteral("timer")));
    house.clock.goOn(95);
    QVERIFY(bench.tap(QStringLiteral("Pause")));
    QVERIFY(bench.until([&] { return !wheel.now(house).isRunning(); }, QStringLiteral("pause")));
    QVERIFY(bench.until([&] { return !bench.ofType("SegmentLine").empty(); },
                        QStringLiteral("the stretch")));
    QVERIFY(bench.tap(bench.ofType("SegmentLine").front()));
    QVERIFY(bench.tap(QStringLiteral("clear")));
    QVERIFY(bench.type(QStringLiteral("60")));
    QVERIFY(bench.write(QStringLiteral("Why; the measured minutes stay beside it"),
                        QStringLiteral("forgot it")));
    bench.shoot(QStringLiteral("operation-minutes"));
    QVERIFY(bench.tap(QStringLiteral("Correct")));
    QVERIFY(bench.until([&] { return wheel.now(house).minutes() == 60; },
                        QStringLiteral("the correction")));
    const Segment segment = wheel.now(house).segments.back();
    QCOMPARE(segment.measuredMinutes(), 95);
    QCOMPARE(segment.correctionReason, QStringLiteral("forgot it"));
}

RAMPLIGHT_TEST(QGuiApplication, tst_OperationScreen)
#include "tst_operationscreen.moc"
