// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "benchcrew.h"
#include "kioskbench.h"

#include "domain/holds.h"
#include "support/testmain.h"
#include "walkhands.h"

#include <QDir>
#include <QFile>
#include <QQuickItem>
#include <QTest>

#include <algorithm>

using namespace ramplight;
using namespace ramplight::test;

/// The gate by touch: the holds, the refusal, the signature with the PIN again, the record.
class tst_ReleaseScreen : public QObject
{
    Q_OBJECT

private slots:
    void init() { failOnQmlWarnings(); }
    void holds_areListed_andLeadToTheirWork_data();
    void holds_areListed_andLeadToTheirWork();
    void holdWithoutWork_leadsToWhereWorkIsOpened_data();
    void holdWithoutWork_leadsToWhereWorkIsOpened();
    void spokenFindings_leadToTheirReview_data() { sizes(); }
    void spokenFindings_leadToTheirReview();
    void unfinishedAppraisal_leadsToTheWalkRound();
    void openSafetyItem_noSignatureIsTaken();
    void entitledPerson_signsWithThePinAgain_recordIsShown_data();
    void entitledPerson_signsWithThePinAgain_recordIsShown();
    void whatARuleLeft_isSignedFor_data() { sizes(); }
    void whatARuleLeft_isSignedFor();
    void wrongPin_releasesNothing();
    void withoutTheRight_noSignatureIsTaken();
    void releasedCar_isFoundByItsNumber();
    void findingAfterRelease_holdsTheCarAgain_data();
    void findingAfterRelease_holdsTheCarAgain();
    void findingFromItsWork_holdsAReleasedCarAgain();
    void releasedCar_isMoved_andLeavesAnotherWay();
};

namespace {

CarStatus statusNow(BenchHouse& house, const CarId& car)
{
    return statusOf(house.car(car), house.site().rules, house.clock.now());
}

/// Signs in at the wall and goes to the gate of a car.
bool goToGate(KioskBench& bench, const QString& who, const QString& stock)
{
    return bench.tap(QStringLiteral("Who are you?")) && bench.signIn(who) && bench.openCar(stock) &&
           bench.tap(QStringLiteral("Release")) &&
           bench.until([&] { return !bench.ofType("ReleaseScreen").empty(); },
                       QStringLiteral("the gate"));
}

/// Everything of it is done, and Odo has released it.
CarId released(BenchHouse& house)
{
    const CarId car = house.bringIn(QStringLiteral("K-7"));
    BenchCrew(house).makeReady(car);
    house.must(house.person(QStringLiteral("Odo")), car, {car::Release{}});
    return car;
}

/// Signs in at the wall and finds the released car by its number.
bool openReleased(KioskBench& bench, const QString& who)
{
    return bench.tap(QStringLiteral("Who are you?")) && bench.signIn(who) &&
           bench.tap(QStringLiteral("Search")) && bench.type(QStringLiteral("k-7")) &&
           bench.tap(QStringLiteral("released")) &&
           bench.until([&] { return bench.shell().car()->loaded(); },
                       QStringLiteral("the released car"));
}

} // namespace

void tst_ReleaseScreen::holds_areListed_andLeadToTheirWork_data()
{
    sizes();
}

void tst_ReleaseScreen::holds_areListed_andLeadToTheirWork()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const CarId car = house.bringIn(QStringLiteral("K-7"));
    BenchCrew(house).finishAll(car, {QStringLiteral("final-check"), QStringLiteral("road-test"),
                                     QStringLiteral("wheel-recheck"), QStringLiteral("full-valet"),
                                     QStringLiteral("sale-photos")});
    bench.show(size);
    QVERIFY(goToGate(bench, QStringLiteral("Odo Farlane"), QStringLiteral("K-7")));
    const std::vector<Hold> all = holds(house.car(car), house.site().rules, house.clock.now());
    QVERIFY(!all.empty());
    QCOMPARE(bench.shell().car()->holds()->rowCount(), static_cast<int>(all.size()));
    for (const Hold& hold : all)
        QVERIFY2(bench.says(hold.words), qPrintable(hold.words));
    bench.shoot(QStringLiteral("release-held"));

    const auto road = std::ranges::find(all, house.open(car, "road-test"), &Hold::operation);
    QVERIFY(road != all.end());
    QVERIFY(bench.tap(road->words));
    QVERIFY(bench.until(
        [&] { return bench.shell().operation()->operationId() == road->operation.value; },
        QStringLiteral("the work")));
}

void tst_ReleaseScreen::holdWithoutWork_leadsToWhereWorkIsOpened_data()
{
    sizes();
}

void tst_ReleaseScreen::holdWithoutWork_leadsToWhereWorkIsOpened()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const CarId car = house.bringIn(QStringLiteral("K-7"));
    BenchCrew(house).finishAll(car);
    house.clock.goOn(60 * 24 * 60); // what was looked up counts no more
    const auto tooOld = [&] {
        std::vector<Hold> all = holds(house.car(car), house.site().rules, house.clock.now());
        std::erase_if(all, [](const Hold& h) { return h.kind != HoldKind::TooOld; });
        return all;
    };
    QVERIFY(!tooOld().empty());
    const Hold hold = tooOld().front();
    QVERIFY(hold.operation.isNull());

    bench.show(size);
    QVERIFY(goToGate(bench, QStringLiteral("Runa Talbeck"), QStringLiteral("K-7")));
    QVERIFY(bench.tap(hold.words));
    QVERIFY(bench.untilSays(QStringLiteral("Add it")));
    // What would answer it is chosen, and in sight.
    Choices* kinds = bench.shell().car()->kinds();
    QCOMPARE(kinds->current(), hold.opens);
    QVERIFY(bench.says(kinds->currentTitle()));
    QVERIFY(bench.tap(QStringLiteral("it holds the release")));
    bench.shoot(QStringLiteral("release-hold-answered"));
    QVERIFY(bench.tap(QStringLiteral("Add it")));
    QVERIFY(
        bench.until([&] { return !house.open(car, hold.opens.toLatin1().constData()).isNull(); },
                    QStringLiteral("the work")));
    QVERIFY(bench.untilGone(QStringLiteral("Add it")));
}

void tst_ReleaseScreen::spokenFindings_leadToTheirReview()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const CarId car = house.bringIn(QStringLiteral("K-7"));
    BenchCrew(house).makeReady(car);
    const QString file = QStringLiteral("K-7 walk.vtt");
    house.putTranscript(file, BenchHouse::spoken(file));
    QVERIFY(house.desk()
                .readTranscript(house.dropFolder() + QStringLiteral("/") + file, car,
                                house.person(QStringLiteral("Odo")))
                .result());
    QCOMPARE(statusNow(house, car), CarStatus::Held);
    const Hold hold = holds(house.car(car), house.site().rules, house.clock.now()).front();
    QCOMPARE(hold.kind, HoldKind::SpokenNotReviewed);
    const auto comesToReview = [&] {
        return bench.until([&] { return !bench.ofType("ReviewScreen").empty(); },
                           QStringLiteral("the review"));
    };

    bench.show(size);
    bench.shoot(QStringLiteral("wall-spoken"));
    QVERIFY(goToGate(bench, QStringLiteral("Odo Farlane"), QStringLiteral("K-7")));
    bench.shoot(QStringLiteral("release-spoken"));
    QVERIFY(bench.tap(hold.words));
    QVERIFY(comesToReview());
    QVERIFY(bench.tap(QStringLiteral("Back")) && bench.tap(QStringLiteral("Back")));
    QVERIFY(bench.until([&] { return bench.ofType("ReleaseScreen").empty(); },
                        QStringLiteral("the car")));
    bench.shoot(QStringLiteral("car-spoken"));
    QVERIFY(bench.tap(hold.words));
    QVERIFY(comesToReview());
}

void tst_ReleaseScreen::unfinishedAppraisal_leadsToTheWalkRound()
{
    KioskBench bench(BenchHouse::Start::House);
    bench.house().arrive(QStringLiteral("K-9"));
    bench.show();
    QVERIFY(goToGate(bench, QStringLiteral("Odo Farlane"), QStringLiteral("K-9")));
    QVERIFY(bench.tap(QStringLiteral("The appraisal is not finished.")));
    QVERIFY(bench.until([&] { return !bench.ofType("WalkRoundScreen").empty(); },
                        QStringLiteral("the walk-round")));
}

void tst_ReleaseScreen::openSafetyItem_noSignatureIsTaken()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const CarId car = house.bringIn(QStringLiteral("K-7"));
    BenchCrew(house).finishAll(car, {QStringLiteral("final-check")});
    const qint64 seq = house.car(car).seq;
    bench.show();
    QVERIFY(goToGate(bench, QStringLiteral("Odo Farlane"), QStringLiteral("K-7")));
    QVERIFY(!bench.shell().car()->releaseOffer().can);
    QVERIFY(bench.tap(QStringLiteral("Sign and release to sale")));
    QCOMPARE(bench.shell().session()->stage(), Session::Nobody); // no PIN is asked for
    QCOMPARE(house.car(car).seq, seq);
    // Nor does the house itself do it behind the screen.
    QVERIFY(!house.tries(house.person(QStringLiteral("Odo")), car, {car::Release{}}));
    QCOMPARE(statusNow(house, car), CarStatus::Held);
}

void tst_ReleaseScreen::entitledPerson_signsWithThePinAgain_recordIsShown_data()
{
    sizes();
}

void tst_ReleaseScreen::entitledPerson_signsWithThePinAgain_recordIsShown()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const CarId car = house.bringIn(QStringLiteral("K-7"));
    BenchCrew(house).makeReady(car);
    QCOMPARE(statusNow(house, car), CarStatus::ReadyForRelease);
    bench.show(size);
    QVERIFY(goToGate(bench, QStringLiteral("Odo Farlane"), QStringLiteral("K-7")));
    QVERIFY(bench.says(QStringLiteral("Nothing holds this car")));
    bench.shoot(QStringLiteral("release-ready"));
    QVERIFY(bench.tap(QStringLiteral("Sign and release to sale")));
    QVERIFY(bench.until([&] { return !bench.ofType("PinPad").empty(); },
                        QStringLiteral("the PIN again")));
    QVERIFY(bench.shell().session()->again());
    QVERIFY(!house.car(car).released.has_value());
    bench.shoot(QStringLiteral("release-pin"));
    QVERIFY(bench.enterPin());
    QVERIFY(bench.until([&] { return house.car(car).released.has_value(); },
                        QStringLiteral("released")));
    QCOMPARE(house.car(car).released->by, house.person(QStringLiteral("Odo")));
    QCOMPARE(statusNow(house, car), CarStatus::Released);

    QVERIFY(
        bench.until([&] { return bench.shell().record()->made(); }, QStringLiteral("the record")));
    QVERIFY(!bench.ofType("RecordScreen").empty());
    QVERIFY(bench.untilSays(bench.shell().record()->fingerprint()));
    // How many pages are not in sight.
    const auto all = bench.shell().record()->pageUrls().size();
    QVERIFY(bench.untilSays(size.width() > size.height()
                                ? QStringLiteral("pages 1 to 3 of %1").arg(all)
                                : QStringLiteral("page 1 of %1").arg(all)));
    // Its pages are drawn before the words that it is being made go.
    QVERIFY(bench.until([&] { return !bench.says(QStringLiteral("Making the record")); },
                        QStringLiteral("a page")));
    bench.shoot(QStringLiteral("release-record"));
    QVERIFY(bench.tap(QStringLiteral("Save as PDF")));
    const QString path = house.recordFolder() + QStringLiteral("/record-K-7.pdf");
    QVERIFY(bench.untilSays(QStringLiteral("Saved: %1").arg(path)));
    QFile pdf(path);
    QVERIFY(pdf.open(QIODevice::ReadOnly));
    QVERIFY(pdf.read(5) == "%PDF-");
}

void tst_ReleaseScreen::whatARuleLeft_isSignedFor()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const CarId car = house.bringIn(
        QStringLiteral("K-7"), {finding("wheel-front-left", Condition::Kerbed, {Remedy::Leave})});
    BenchCrew(house).makeReady(car);
    bench.show(size);
    QVERIFY(goToGate(bench, QStringLiteral("Odo Farlane"), QStringLiteral("K-7")));
    QVERIFY(bench.untilSays(
        QStringLiteral("One thing is left as it is; the buyer reads it in the record.")));
    bench.shoot(QStringLiteral("release-with-something-left"));
}

void tst_ReleaseScreen::wrongPin_releasesNothing()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const CarId car = house.bringIn(QStringLiteral("K-7"));
    BenchCrew(house).makeReady(car);
    bench.show();
    QVERIFY(goToGate(bench, QStringLiteral("Odo Farlane"), QStringLiteral("K-7")));
    QVERIFY(bench.tap(QStringLiteral("Sign and release to sale")));
    QVERIFY(bench.enterPin(QStringLiteral("161803")));
    QVERIFY(bench.until([&] { return !bench.shell().session()->words().isEmpty(); },
                        QStringLiteral("the refusal")));
    QVERIFY(bench.says(bench.shell().session()->words()));
    QVERIFY(!house.car(car).released.has_value());
    QVERIFY(bench.tap(QStringLiteral("Back")));
    QVERIFY(bench.until([&] { return bench.shell().session()->stage() == Session::Nobody; },
                        QStringLiteral("the gate")));
    QVERIFY(!house.car(car).released.has_value());
}

void tst_ReleaseScreen::withoutTheRight_noSignatureIsTaken()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const CarId car = house.bringIn(QStringLiteral("K-7"));
    BenchCrew(house).makeReady(car);
    const qint64 seq = house.car(car).seq;
    bench.show();
    QVERIFY(goToGate(bench, QStringLiteral("Bram Holloway"), QStringLiteral("K-7")));
    QVERIFY(!bench.shell().car()->releaseOffer().can);
    QVERIFY(bench.says(bench.shell().car()->releaseOffer().why));
    QVERIFY(bench.tap(QStringLiteral("Sign and release to sale")));
    QCOMPARE(bench.shell().session()->stage(), Session::Nobody);
    QCOMPARE(house.car(car).seq, seq);
}

void tst_ReleaseScreen::releasedCar_isFoundByItsNumber()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const CarId car = house.bringIn(QStringLiteral("K-7"));
    BenchCrew(house).makeReady(car);
    bench.show();
    QVERIFY(goToGate(bench, QStringLiteral("Odo Farlane"), QStringLiteral("K-7")));
    QVERIFY(bench.tap(QStringLiteral("Sign and release to sale")));
    QVERIFY(bench.enterPin());
    QVERIFY(bench.until([&] { return house.car(car).released.has_value(); },
                        QStringLiteral("released")));
    QVERIFY(bench.until([&] { return bench.shell().wall()->isEmpty(); },
                        QStringLiteral("the card leaves the wall")));
    // Found again by its number, whoever looks for it.
    QVERIFY(bench.tap(QStringLiteral("Back")));
    QVERIFY(bench.tap(QStringLiteral("Back to the wall")));
    QVERIFY(bench.tap(QStringLiteral("Search")));
    QVERIFY(bench.type(QStringLiteral("k-7")));
    QVERIFY(bench.untilSays(QStringLiteral("released")));
    bench.shoot(QStringLiteral("wall-search-former"));
    QVERIFY(bench.tap(QStringLiteral("released")));
    QVERIFY(bench.until([&] { return bench.shell().car()->carId() == car.text; },
                        QStringLiteral("the released car")));
}

void tst_ReleaseScreen::findingAfterRelease_holdsTheCarAgain_data()
{
    sizes();
}

void tst_ReleaseScreen::findingAfterRelease_holdsTheCarAgain()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const CarId car = released(house);
    bench.show(size);
    QVERIFY(openReleased(bench, QStringLiteral("Bram Holloway")));
    QVERIFY(bench.untilSays(QStringLiteral("Handover record")));
    bench.shoot(QStringLiteral("released-car"));
    // What is allowed in prep only is not offered.
    QVERIFY(!bench.says(QStringLiteral("Add work")));
    QVERIFY(bench.tap(QStringLiteral("Found something")));
    WalkHands hands(bench);
    QVERIFY(hands.ready());
    QVERIFY(bench.says(QStringLiteral("Released: a finding holds it again")));
    QVERIFY(!bench.says(QStringLiteral("Add work")));
    QVERIFY(hands.view("wheels"));
    bench.shoot(QStringLiteral("released-car-found"));
    QVERIFY(hands.place("tyre-front-left"));
    QVERIFY(hands.condition(Condition::Bulge));
    QVERIFY(hands.severity(Severity::Heavy));
    QVERIFY(hands.advised());
    QVERIFY(bench.until([&] { return statusNow(house, car) == CarStatus::Held; },
                        QStringLiteral("held again")));
    QVERIFY(!house.open(car, "tyre-fit", "tyre-front-left").isNull());
    QVERIFY(bench.until([&] { return bench.shell().wall()->count() == 1; },
                        QStringLiteral("the card is back")));
}

void tst_ReleaseScreen::findingFromItsWork_holdsAReleasedCarAgain()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const CarId car = released(house);
    const auto& operations = house.car(car).operations;
    const auto road = std::ranges::find_if(operations, [](const auto& entry) {
        return entry.second.spec->id == QLatin1StringView("road-test");
    });
    QVERIFY(road != operations.end());
    const OperationId work = road->first;
    bench.show();
    QVERIFY(openReleased(bench, QStringLiteral("Bram Holloway")));
    QVERIFY(bench.openWork(work));
    QVERIFY(bench.tap(QStringLiteral("Found something else")));
    WalkHands hands(bench);
    QVERIFY(hands.ready());
    QVERIFY(hands.finding("bonnet", Condition::Dent, Severity::Light));
    QVERIFY(bench.until([&] { return !house.car(car).released.has_value(); },
                        QStringLiteral("held again")));
    QCOMPARE(house.car(car).findings.rbegin()->second.versions.front().by,
             house.person(QStringLiteral("Bram")));
}

void tst_ReleaseScreen::releasedCar_isMoved_andLeavesAnotherWay()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const CarId car = released(house);
    bench.show();
    QVERIFY(openReleased(bench, QStringLiteral("Runa Talbeck")));
    QVERIFY(bench.tap(QStringLiteral("Move it")));
    QVERIFY(bench.write(QStringLiteral("Or a parking place"), QStringLiteral("row 9")));
    QVERIFY(bench.tap(QStringLiteral("Park it there")));
    QVERIFY(bench.until([&] { return house.car(car).parking == QLatin1StringView("row 9"); },
                        QStringLiteral("parked")));
    QVERIFY(house.car(car).released.has_value()); // where it stands changes nothing
    QVERIFY(bench.tap(QStringLiteral("More")));
    QVERIFY(bench.untilSays(QStringLiteral("Entered twice")));
    QVERIFY(!bench.says(QStringLiteral("Change the promise")));
    bench.shoot(QStringLiteral("released-car-more"));
    QVERIFY(bench.tap(QStringLiteral("Leaves another way")));
    QVERIFY(bench.tap(QStringLiteral("To the trade")));
    QVERIFY(bench.write(QStringLiteral("Why"), QStringLiteral("nobody bought it")));
    bench.shoot(QStringLiteral("released-car-leaves"));
    QVERIFY(bench.tap(QStringLiteral("Sign it out")));
    if (bench.shell().session()->again())
        QVERIFY(bench.enterPin());
    QVERIFY(bench.until([&] { return house.car(car).left.has_value(); }, QStringLiteral("gone")));
    QCOMPARE(*house.car(car).left, LeavingHow::Trade);
}

RAMPLIGHT_TEST(QGuiApplication, tst_ReleaseScreen)
#include "tst_releasescreen.moc"
