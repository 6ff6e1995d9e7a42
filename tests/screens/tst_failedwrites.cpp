// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "failedwrite.h"
#include "support/testmain.h"
#include "wheelwork.h"
#include "workhands.h"

#include <QQuickItem>
#include <QQuickWindow>
#include <QTest>

#include <algorithm>

using namespace ramplight;
using namespace ramplight::test;

/// A write that fails at the wall: whoever stands there reads why, nothing that was entered is
/// gone, and trying again writes it exactly once, also where it had been written after all.
class tst_FailedWrites : public QObject
{
    Q_OBJECT

private slots:
    void init() { failOnQmlWarnings(); }
    void reading_staysOnThePad_andIsTakenOnce_data();
    void reading_staysOnThePad_andIsTakenOnce();
    void signature_keepsItsNote_andIsGivenOnce_data();
    void signature_keepsItsNote_andIsGivenOnce();
    void photo_isNotPickedAgain_andIsAttachedOnce_data();
    void photo_isNotPickedAgain_andIsAttachedOnce();
    void correctedMinutes_stayOnTheSheet_andAreWrittenOnce_data();
    void correctedMinutes_stayOnTheSheet_andAreWrittenOnce();
    void workGivenOut_staysOnItsSheet_andIsWrittenOnce_data();
    void workGivenOut_staysOnItsSheet_andIsWrittenOnce();
};

namespace {

const Ask* workAsk(KioskBench& bench)
{
    return bench.shell().operation()->ask();
}

} // namespace

void tst_FailedWrites::reading_staysOnThePad_andIsTakenOnce_data()
{
    waysToFail();
}

void tst_FailedWrites::reading_staysOnThePad_andIsTakenOnce()
{
    QFETCH(const QSize, size);
    QFETCH(const WriteFault, fault);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const Wheel wheel(house);
    bench.show(size);
    WorkHands hands(bench);
    QVERIFY(goTo(bench, QStringLiteral("Bram Holloway"), wheel.car, wheel.work));
    QVERIFY(hands.tap(QStringLiteral("I have read this: start")));
    QVERIFY(hands.tap(QStringLiteral("Next reading")));
    QVERIFY(hands.answer(QStringLiteral("no crack, no weld, nothing missing")));
    QVERIFY(hands.answer(QStringLiteral("out")));
    const int asked = hands.readingAt();
    const auto taken = [&] {
        return std::ranges::count(wheel.now(house).readings, QStringLiteral("metal-temperature"),
                                  &Reading::key);
    };

    house.desk().failOnce(fault);
    QVERIFY(hands.typeReading(QStringLiteral("170")));
    QVERIFY(isTold(bench, workAsk(bench)));
    bench.shoot(QStringLiteral("failed-reading"));
    QCOMPARE(hands.readingAt(), asked);
    QCOMPARE(bench.ofType("NumberPad").size(), std::size_t{1});
    QCOMPARE(bench.ofType("NumberPad").front()->property("text").toString(), QStringLiteral("170"));
    QCOMPARE(taken(), fault == WriteFault::AnswerLost ? 1 : 0);

    QVERIFY(bench.tap(tryAgain));
    QVERIFY(bench.until([&] { return hands.readingAt() != asked; }, QStringLiteral("the next")));
    QCOMPARE(taken(), 1);
    QCOMPARE(wheel.now(house).reading(QStringLiteral("metal-temperature"), {})->value.number,
             std::optional(170));
    // And the work goes on.
    QVERIFY(hands.enter(QStringLiteral("15")));
    QVERIFY(!bench.shell().operation()->ask()->refused());
}

void tst_FailedWrites::signature_keepsItsNote_andIsGivenOnce_data()
{
    waysToFail();
}

void tst_FailedWrites::signature_keepsItsNote_andIsGivenOnce()
{
    QFETCH(const QSize, size);
    QFETCH(const WriteFault, fault);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const CarId car = house.bringIn(QStringLiteral("K-7"));
    BenchCrew(house).finish(car, "arrival-check");
    const OperationId work = house.open(car, "first-wash");
    const auto now = [&] { return *house.car(car).operation(work); };
    const QString label = QStringLiteral("Note, for the record");
    const QString note = QStringLiteral("no wax");
    bench.show(size);
    WorkHands hands(bench);
    QVERIFY(goTo(bench, QStringLiteral("Dilys Marne"), car, work));
    QVERIFY(hands.tap(QStringLiteral("I have read this: start")));
    QVERIFY(bench.until([&] { return now().isRunning(); }, QStringLiteral("timer")));
    house.clock.goOn(12);
    QVERIFY(hands.tap(QStringLiteral("Next reading")));
    QVERIFY(hands.answer(QStringLiteral("yes")));
    QVERIFY(bench.write(label, note));

    house.desk().failOnce(fault);
    QVERIFY(hands.tap(QStringLiteral("Finish and sign")));
    QVERIFY(isTold(bench, workAsk(bench)));
    bench.shoot(QStringLiteral("failed-signature"));
    QCOMPARE(bench.shell().operation()->note(), note);
    if (fault == WriteFault::NothingWritten)
        QCOMPARE(typedIn(bench, "NoteField", label), note);
    QVERIFY(!bench.ofType("OperationScreen").empty());
    QCOMPARE(now().signatures.size(), std::size_t{fault == WriteFault::AnswerLost ? 1U : 0U});

    QVERIFY(bench.tap(tryAgain));
    QVERIFY(bench.until([&] { return bench.ofType("OperationScreen").empty(); },
                        QStringLiteral("back on the car")));
    const Operation closed = now();
    QCOMPARE(closed.state, OperationState::Closed);
    QCOMPARE(closed.signatures.size(), std::size_t{1});
    QCOMPARE(closed.signatures.front().note, note);
    QCOMPARE(closed.signatures.front().minutes, 12);
    QCOMPARE(bench.shell().operation()->note(), QString());
}

void tst_FailedWrites::photo_isNotPickedAgain_andIsAttachedOnce_data()
{
    waysToFail();
    QTest::newRow("wide, the photo not kept") << QSize(1920, 1080) << WriteFault::PhotoNotKept;
}

void tst_FailedWrites::photo_isNotPickedAgain_andIsAttachedOnce()
{
    QFETCH(const QSize, size);
    QFETCH(const WriteFault, fault);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const Wheel wheel(house);
    house.drop(QStringLiteral("after.jpg"));
    bench.show(size);
    QVERIFY(goTo(bench, QStringLiteral("Bram Holloway"), wheel.car, wheel.work));
    const auto attached = [&] { return photosOf(house.car(wheel.car), wheel.work).size(); };
    const auto isThere = [&] {
        return bench.shell().operation()->photoNeeds()->rows().back().present;
    };

    house.desk().failOnce(fault);
    QVERIFY(bench.tap(afterPlace));
    QVERIFY(WorkHands(bench).photo(QStringLiteral("after.jpg")));
    QVERIFY(isTold(bench, workAsk(bench),
                   fault == WriteFault::PhotoNotKept ? words(EvidenceError::DiskFull)
                                                     : FaultyDesk::fault().words));
    bench.shoot(QStringLiteral("failed-photo"));
    QCOMPARE(attached(), std::size_t{fault == WriteFault::AnswerLost ? 1U : 0U});

    QVERIFY(bench.tap(tryAgain));
    QVERIFY(bench.until([&] { return isThere() && !bench.shell().operation()->ask()->busy(); },
                        QStringLiteral("the photo")));
    QVERIFY(!bench.shell().operation()->ask()->refused());
    QCOMPARE(attached(), std::size_t{1});
    QCOMPARE(photosOf(house.car(wheel.car), wheel.work).front().moment, PhotoMoment::After);
}

void tst_FailedWrites::correctedMinutes_stayOnTheSheet_andAreWrittenOnce_data()
{
    waysToFail();
}

void tst_FailedWrites::correctedMinutes_stayOnTheSheet_andAreWrittenOnce()
{
    QFETCH(const QSize, size);
    QFETCH(const WriteFault, fault);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const Wheel wheel(house);
    const QString why = QStringLiteral("Why; the measured minutes stay beside it");
    const PersonId bram = house.person(QStringLiteral("Bram"));
    house.must(bram, wheel.car, {car::ReadCautions{wheel.work}, car::StartWork{wheel.work}});
    house.clock.goOn(95);
    house.must(bram, wheel.car, {car::PauseWork{wheel.work, bram, StopKind::Paused}});
    bench.show(size);
    QVERIFY(goTo(bench, QStringLiteral("Bram Holloway"), wheel.car, wheel.work));
    QVERIFY(bench.tap(bench.ofType("SegmentLine").front()));
    QVERIFY(bench.tap(QStringLiteral("clear")));
    QVERIFY(bench.type(QStringLiteral("60")));
    QVERIFY(bench.write(why, QStringLiteral("forgot it")));

    house.desk().failOnce(fault);
    QVERIFY(bench.tap(QStringLiteral("Correct")));
    QVERIFY(isTold(bench, workAsk(bench)));
    bench.shoot(QStringLiteral("failed-minutes"));
    QCOMPARE(bench.ofType("NumberPad").front()->property("text").toString(), QStringLiteral("60"));
    QCOMPARE(typedIn(bench, "NoteField", why), QStringLiteral("forgot it"));
    QCOMPARE(wheel.now(house).minutes(), fault == WriteFault::AnswerLost ? 60 : 95);

    const qint64 before = house.car(wheel.car).seq;
    QVERIFY(bench.tap(tryAgain));
    QVERIFY(bench.untilGone(QStringLiteral("Correct")));
    QCOMPARE(house.car(wheel.car).seq, before + (fault == WriteFault::AnswerLost ? 0 : 1));
    QCOMPARE(wheel.now(house).minutes(), 60);
    QCOMPARE(wheel.now(house).segments.back().correctionReason, QStringLiteral("forgot it"));
}

void tst_FailedWrites::workGivenOut_staysOnItsSheet_andIsWrittenOnce_data()
{
    waysToFail();
}

void tst_FailedWrites::workGivenOut_staysOnItsSheet_andIsWrittenOnce()
{
    QFETCH(const QSize, size);
    QFETCH(const WriteFault, fault);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const Wheel wheel(house, false);
    const QString firm = QStringLiteral("Firm");
    const QString confirm = QStringLiteral("It is out");
    bench.show(size);
    QVERIFY(goTo(bench, QStringLiteral("Bram Holloway"), wheel.car, wheel.work));
    QVERIFY(bench.tap(QStringLiteral("Something in the way")));
    QVERIFY(bench.tap(QStringLiteral("Send it out")));
    QVERIFY(bench.write(firm, QStringLiteral("north rims")));
    QVERIFY(bench.tap(QStringLiteral("2")));
    QVERIFY(bench.tap(QStringLiteral("tomorrow")));

    house.desk().failOnce(fault);
    QVERIFY(bench.tap(confirm));
    QVERIFY(isTold(bench, workAsk(bench)));
    bench.shoot(QStringLiteral("failed-out"));
    QVERIFY(bench.says(confirm));
    QCOMPARE(typedIn(bench, "Field", firm), QStringLiteral("north rims"));
    QCOMPARE(wheel.now(house).outside.has_value(), fault == WriteFault::AnswerLost);

    const qint64 before = house.car(wheel.car).seq;
    QVERIFY(bench.tap(tryAgain));
    QVERIFY(bench.untilGone(confirm));
    QCOMPARE(house.car(wheel.car).seq, before + (fault == WriteFault::AnswerLost ? 0 : 1));
    QCOMPARE(wheel.now(house).outside->firm, QStringLiteral("north rims"));
    QCOMPARE(wheel.now(house).outside->keys, 2);
    QCOMPARE(wheel.now(house).outside->dueBack, QDate(2031, 5, 9));
}

RAMPLIGHT_TEST(QGuiApplication, tst_FailedWrites)
#include "tst_failedwrites.moc"
