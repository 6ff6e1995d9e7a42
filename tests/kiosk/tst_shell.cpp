// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "support/testmain.h"
#include "viewbench.h"

#include <QSignalSpy>
#include <QTest>

namespace ramplight::test {

/// What the shell itself does: where scans lead, whose work runs, and when the store is silent.
class TestShell : public QObject
{
    Q_OBJECT

private slots:
    void start_readsTheSite();
    void carLabel_leadsToItsCar_data();
    void carLabel_leadsToItsCar();
    void vin_leadsToItsCarOrToTheForm_data();
    void vin_leadsToItsCarOrToTheForm();
    void vin_ofACarThatLeft_opensTheForm_andSaysThatItWasHere();
    void search_findsWhatIsNoLongerInPrep();
    void vin_whileTheFormIsOpen_goesIntoIt();
    void unknownCode_isSaidAndDismissed();
    void wheelTag_leadsToTheWorkOfItsCorner();
    void wheelTag_ofAnotherWheel_saysSo();
    void badge_asksForThePin_orGoesToTheStaffForm();
    void badge_answersWhoSomebodyIs_overTheStaffForm();
    void myWork_isWhatRunsOfWhoIsSignedIn();
    void storeFault_isSaidUntilTheStoreAnswers();
    void lockTime_leadsBackToTheWall();
    void lockTime_withNobodySignedIn_leadsBackToTheWallOfAllCars();
    void newCar_isGoneTo();
    void clock_isTheHouses();
    void clock_setBack_isTold_untilItIsRight();
};

void TestShell::start_readsTheSite()
{
    BenchDesk desk;
    Shell shell({desk, desk.bench.clock, desk.bench.catalogue, {}, {}});
    QVERIFY(!shell.siteRead());
    QVERIFY(!shell.siteSetUp());
    QSignalSpy changed(&shell, &Shell::siteChanged);
    shell.start();
    QTRY_VERIFY(shell.siteRead());
    QVERIFY(changed.count() > 0);
    QVERIFY(shell.siteSetUp());
    QVERIFY(!shell.demo());
    QCOMPARE(shell.siteName(), QStringLiteral("Kestrel Quay"));
    QCOMPARE(shell.standingLine(), QStringLiteral("Follow the maker's data."));
}

void TestShell::carLabel_leadsToItsCar_data()
{
    QTest::addColumn<QString>("code");
    QTest::addColumn<bool>("released");
    QTest::addColumn<bool>("known");
    QTest::newRow("on the wall") << "K1" << false << true;
    QTest::newRow("on the wall, small letters") << "k1" << false << true;
    QTest::newRow("released") << "K1" << true << true;
    QTest::newRow("released, small letters") << "k1" << true << true;
    QTest::newRow("withdrawn") << "k2" << false << true;
    QTest::newRow("nowhere") << "K7" << false << false;
}

void TestShell::carLabel_leadsToItsCar()
{
    QFETCH(const QString, code);
    QFETCH(const bool, released);
    QFETCH(const bool, known);
    ViewBench kiosk;
    const CarId car = kiosk.bench.appraised();
    const CarId traded = kiosk.bench.appraised();
    kiosk.bench.must(kiosk.bench.manager, traded,
                     car::LeaveUnreleased{LeavingHow::Trade, "sold on"});
    if (released)
        kiosk.bench.release(car);
    kiosk.settle();
    QSignalSpy wanted(&kiosk.shell, &Shell::carWanted);
    QSignalSpy said(&kiosk.shell, &Shell::noteChanged);
    emit kiosk.shell.scans()->carScanned(code);
    QTRY_COMPARE(wanted.count() + said.count(), 1);
    if (known)
        QCOMPARE(wanted.value(0).value(0).toString(),
                 code == QLatin1String("k2") ? traded.text : car.text);
    else
        QVERIFY2(kiosk.shell.note().contains(code), qPrintable(kiosk.shell.note()));
}

namespace {

CarId broughtInWithVin(Workbench& bench, const QString& vin)
{
    const CarId car = bench.bringIn();
    Identity identity = bench.car(car).identity;
    identity.vin = vin;
    bench.must(bench.manager, car, car::CorrectIdentity{identity, QStringLiteral("read")});
    return car;
}

} // namespace

void TestShell::vin_leadsToItsCarOrToTheForm_data()
{
    QTest::addColumn<QString>("vin");
    QTest::addColumn<bool>("known");
    QTest::newRow("of a car here") << "ZZ0ZZZ00000000123" << true;
    QTest::newRow("of no car here") << "ZZ0ZZZ00000000456" << false;
}

void TestShell::vin_leadsToItsCarOrToTheForm()
{
    QFETCH(const QString, vin);
    QFETCH(const bool, known);
    ViewBench kiosk;
    const CarId car = broughtInWithVin(kiosk.bench, QStringLiteral("ZZ0ZZZ00000000123"));
    kiosk.settle();
    QSignalSpy wanted(&kiosk.shell, &Shell::carWanted);
    QSignalSpy arrival(&kiosk.shell, &Shell::arrivalWanted);
    emit kiosk.shell.scans()->vinScanned(vin);
    QCOMPARE(wanted.count(), known ? 1 : 0);
    QCOMPARE(arrival.count(), known ? 0 : 1);
    if (known)
        QCOMPARE(wanted.at(0).at(0).toString(), car.text);
    else
        QCOMPARE(kiosk.shell.arrival()->identity()->identity().vin, vin);
}

void TestShell::vin_ofACarThatLeft_opensTheForm_andSaysThatItWasHere()
{
    ViewBench kiosk;
    const CarId car = broughtInWithVin(kiosk.bench, QStringLiteral("ZZ0ZZZ00000000123"));
    kiosk.bench.must(kiosk.bench.manager, car, car::LeaveUnreleased{LeavingHow::Trade, "sold on"});
    kiosk.settle();
    QSignalSpy arrival(&kiosk.shell, &Shell::arrivalWanted);
    const Identity identity = kiosk.bench.car(car).identity;
    emit kiosk.shell.scans()->vinScanned(identity.vin);
    QCOMPARE(arrival.count(), 1);
    QTRY_VERIFY2(kiosk.shell.note().contains(identity.stockNumber), qPrintable(kiosk.shell.note()));
}

void TestShell::search_findsWhatIsNoLongerInPrep()
{
    ViewBench kiosk;
    const CarId released = kiosk.bench.appraised();
    kiosk.bench.release(released);
    const CarId here = kiosk.bench.appraised();
    kiosk.settle();
    FormerCars* former = kiosk.shell.former();
    kiosk.shell.wall()->setText(QStringLiteral("k"));
    kiosk.settle();
    QCOMPARE(former->count(), 0);
    kiosk.shell.wall()->setText(QStringLiteral("k1"));
    QTRY_COMPARE(column(*former, "carId"), QStringList{released.text});
    QCOMPARE(column(*former, "leftWords"), QStringList{"released"});
    // What is on the wall is a card.
    kiosk.shell.wall()->setText(kiosk.bench.car(here).identity.stockNumber);
    QTRY_COMPARE(former->count(), 0);
    kiosk.shell.wall()->setText({});
    kiosk.settle();
    QCOMPARE(former->count(), 0);
}

void TestShell::vin_whileTheFormIsOpen_goesIntoIt()
{
    ViewBench kiosk;
    IdentityDraft* form = kiosk.shell.arrival()->identity();
    form->setProperty("stockNumber", QStringLiteral("K5"));
    kiosk.shell.setProperty("arrivalOpen", true);
    QSignalSpy arrival(&kiosk.shell, &Shell::arrivalWanted);
    emit kiosk.shell.scans()->vinScanned(QStringLiteral("ZZ0ZZZ00000000456"));
    QCOMPARE(arrival.count(), 0);
    QCOMPARE(form->identity().vin, QStringLiteral("ZZ0ZZZ00000000456"));
    QCOMPARE(form->identity().stockNumber, QStringLiteral("K5"));
}

void TestShell::unknownCode_isSaidAndDismissed()
{
    ViewBench kiosk;
    QVERIFY(kiosk.shell.note().isEmpty());
    emit kiosk.shell.scans()->unknownScanned(QStringLiteral("?"));
    QVERIFY(!kiosk.shell.note().isEmpty());
    kiosk.shell.dismissNote();
    QVERIFY(kiosk.shell.note().isEmpty());
}

void TestShell::wheelTag_leadsToTheWorkOfItsCorner()
{
    ViewBench kiosk;
    Workbench& bench = kiosk.bench;
    const CarId car = bench.appraised();
    bench.found(car, "wheel-front-left", Condition::Kerbed);
    const OperationId refurb = bench.open(car, "wheel-refurb", "wheel-front-left");
    kiosk.settle();
    const QString stock = bench.car(car).identity.stockNumber;
    QSignalSpy operation(&kiosk.shell, &Shell::operationWanted);
    QSignalSpy wanted(&kiosk.shell, &Shell::carWanted);
    emit kiosk.shell.scans()->wheelScanned(QStringLiteral("FL-") + stock);
    QCOMPARE(operation.count(), 1);
    QCOMPARE(operation.at(0).at(0).toString(), car.text);
    QCOMPARE(operation.at(0).at(1).toInt(), refurb.value);
    QVERIFY(kiosk.shell.note().isEmpty());
    // A wheel without work leads to its car, and says so.
    emit kiosk.shell.scans()->wheelScanned(QStringLiteral("RR-") + stock);
    QCOMPARE(wanted.count(), 1);
    QVERIFY(kiosk.shell.note().contains(QStringLiteral("Nothing is open at this wheel")));
    emit kiosk.shell.scans()->wheelScanned(QStringLiteral("FL-NOBODYS"));
    QVERIFY(kiosk.shell.note().contains(QStringLiteral("No such car")));
    emit kiosk.shell.scans()->wheelScanned(QStringLiteral("XX-") + stock);
    QVERIFY(kiosk.shell.note().contains(QStringLiteral("no wheel tag of this house")));
    QCOMPARE(operation.count(), 1);
}

void TestShell::wheelTag_ofAnotherWheel_saysSo()
{
    ViewBench kiosk;
    Workbench& bench = kiosk.bench;
    const CarId car = bench.appraised();
    bench.found(car, "wheel-front-left", Condition::Kerbed);
    const CarId other = bench.appraised();
    kiosk.settle();
    kiosk.shell.car()->open(car.text);
    kiosk.shell.operation()->open(car.text, bench.open(car, "wheel-refurb").value);
    kiosk.settle();
    QTRY_COMPARE(kiosk.shell.operation()->placeId(), QStringLiteral("wheel-front-left"));
    kiosk.shell.setProperty("operationOpen", true);
    QSignalSpy operation(&kiosk.shell, &Shell::operationWanted);
    const QString stock = bench.car(car).identity.stockNumber;
    const auto scanned = [&](const QString& code) {
        emit kiosk.shell.scans()->wheelScanned(code);
        return kiosk.shell.note();
    };
    QVERIFY(scanned(QStringLiteral("FL-") + stock).startsWith(QStringLiteral("The right wheel")));
    QVERIFY(scanned(QStringLiteral("FR-") + stock).startsWith(QStringLiteral("Another wheel")));
    const QString said = scanned(QStringLiteral("FL-") + bench.car(other).identity.stockNumber);
    QVERIFY2(said.startsWith(QStringLiteral("Another wheel")) && said.contains(stock),
             qPrintable(said));
    QCOMPARE(operation.count(), 0);
}

void TestShell::badge_asksForThePin_orGoesToTheStaffForm()
{
    ViewBench kiosk;
    kiosk.desk.badges[QStringLiteral("B-1")] = kiosk.bench.painter;
    Session* session = kiosk.shell.session();
    emit kiosk.shell.scans()->badgeScanned(QStringLiteral("B-1"));
    QTRY_COMPARE(session->askedId(), kiosk.bench.painter.value);
    QVERIFY(!session->signedIn());
    session->cancel();
    emit kiosk.shell.scans()->badgeScanned(QStringLiteral("B-9"));
    QTRY_VERIFY(!kiosk.shell.note().isEmpty());
    kiosk.shell.dismissNote();
    kiosk.shell.setProperty("staffOpen", true);
    emit kiosk.shell.scans()->badgeScanned(QStringLiteral("B-1"));
    QTRY_COMPARE(kiosk.shell.staff()->scannedBadge(), QStringLiteral("B-1"));
    QCOMPARE(session->stage(), Session::Nobody);
}

void TestShell::badge_answersWhoSomebodyIs_overTheStaffForm()
{
    ViewBench kiosk;
    kiosk.desk.badges[QStringLiteral("B-1")] = kiosk.bench.manager;
    Session* session = kiosk.shell.session();
    kiosk.shell.setProperty("staffOpen", true);
    StaffView* staff = kiosk.shell.staff();
    staff->edit(kiosk.bench.painter.value);
    staff->save();
    QCOMPARE(session->stage(), Session::Person);
    emit kiosk.shell.scans()->badgeScanned(QStringLiteral("B-1"));
    QTRY_COMPARE(session->askedId(), kiosk.bench.manager.value);
    kiosk.typePin(kiosk.bench.manager);
    QCOMPARE(kiosk.outcome(staff->ask()), QStringLiteral("done"));
    QCOMPARE(staff->scannedBadge(), QString());
}

void TestShell::myWork_isWhatRunsOfWhoIsSignedIn()
{
    ViewBench kiosk;
    const CarId car = kiosk.bench.appraised();
    const OperationId valet = kiosk.bench.open(car, "valet");
    kiosk.bench.start(car, valet, kiosk.bench.painter);
    kiosk.settle();
    Shell& shell = kiosk.shell;
    QCOMPARE(shell.myOperationId(), 0);
    kiosk.signIn(kiosk.bench.mechanic);
    QCOMPARE(shell.myOperationId(), 0);
    kiosk.signIn(kiosk.bench.painter);
    QCOMPARE(shell.myCarId(), car.text);
    QCOMPARE(shell.myOperationId(), valet.value);
    QCOMPARE(shell.myTitle(), QStringLiteral("Valet"));
    QCOMPARE(shell.myWords(), QStringLiteral("K1 · 0 min"));
    kiosk.bench.clock.pass(38);
    shell.ticker().pulse();
    QCOMPARE(shell.myWords(), QStringLiteral("K1 · 38 min"));
    shell.session()->signOut();
    QCOMPARE(shell.myWords(), QString());
    kiosk.signIn(kiosk.bench.painter);
    QCOMPARE(shell.myOperationId(), valet.value);
    kiosk.bench.must(kiosk.bench.painter, car, car::PauseWork{valet, {}, StopKind::Paused});
    kiosk.settle();
    QTRY_COMPARE(shell.myOperationId(), 0);
}

void TestShell::storeFault_isSaidUntilTheStoreAnswers()
{
    ViewBench kiosk;
    kiosk.bench.bringIn();
    kiosk.settle();
    QSignalSpy changed(&kiosk.shell, &Shell::storeFaultChanged);
    kiosk.bench.ledger.failWith(StoreErrorKind::Unavailable);
    kiosk.shell.tryStoreAgain();
    QTRY_VERIFY(!kiosk.shell.storeFault().isEmpty());
    QCOMPARE(kiosk.shell.wall()->rowCount(), 1); // what was read stays
    const qsizetype told = changed.count();
    kiosk.shell.tryStoreAgain();
    QSignalSpy again(&kiosk.desk, &Desk::storeFault);
    QTRY_VERIFY(again.count() > 0);
    QCOMPARE(changed.count(), told); // the same words once
    kiosk.bench.ledger.failWith({});
    kiosk.shell.tryStoreAgain();
    QTRY_COMPARE(kiosk.shell.storeFault(), QString());
}

void TestShell::lockTime_leadsBackToTheWall()
{
    ViewBench kiosk;
    kiosk.signIn(kiosk.bench.painter);
    QSignalSpy wall(&kiosk.shell, &Shell::wallWanted);
    kiosk.steadyMs += 60'000;
    kiosk.shell.ticker().pulse();
    QCOMPARE(wall.count(), 0);
    emit kiosk.shell.scans()->touched();
    kiosk.steadyMs += 119'000;
    kiosk.shell.ticker().pulse();
    QCOMPARE(wall.count(), 0);
    QVERIFY(kiosk.shell.session()->signedIn());
    kiosk.steadyMs += 1'000;
    kiosk.shell.ticker().pulse();
    QCOMPARE(wall.count(), 1);
    QVERIFY(!kiosk.shell.session()->signedIn());
}

void TestShell::lockTime_withNobodySignedIn_leadsBackToTheWallOfAllCars()
{
    ViewBench kiosk;
    kiosk.bench.appraised();
    kiosk.bench.appraised();
    kiosk.settle();
    WallModel* wall = kiosk.shell.wall();
    QSignalSpy wanted(&kiosk.shell, &Shell::wallWanted);
    emit kiosk.shell.scans()->touched();
    wall->setText(QStringLiteral("k2"));
    wall->setSkill(QStringLiteral("glass"));
    QVERIFY(wall->rowCount() < 2);
    kiosk.shell.arrival()->identity()->setProperty("make", QStringLiteral("Halden"));
    kiosk.steadyMs += 119'000;
    kiosk.shell.ticker().pulse();
    QCOMPARE(wanted.count(), 0);
    QCOMPARE(wall->text(), QStringLiteral("k2"));
    kiosk.steadyMs += 1'000;
    kiosk.shell.ticker().pulse();
    QCOMPARE(wanted.count(), 1);
    QVERIFY(wall->filterWords().isEmpty());
    QCOMPARE(wall->rowCount(), 2);
    // What somebody typed waits for them.
    QVERIFY(kiosk.shell.arrival()->isBegun());
}

void TestShell::newCar_isGoneTo()
{
    ViewBench kiosk;
    QSignalSpy wanted(&kiosk.shell, &Shell::walkRoundWanted);
    emit kiosk.shell.arrival()->arrived(QStringLiteral("car-9"));
    QCOMPARE(wanted.value(0).value(0).toString(), QStringLiteral("car-9"));
}

void TestShell::clock_isTheHouses()
{
    ViewBench kiosk;
    QCOMPARE(kiosk.shell.clockWords(), QStringLiteral("23:06"));
    QCOMPARE(kiosk.shell.dayWords(), QStringLiteral("Thu 27 Feb"));
    HouseRules rules = kiosk.bench.ledger.site()->rules;
    rules.timeZone = QStringLiteral("Asia/Tokyo");
    QCOMPARE(kiosk.bench.ask(kiosk.bench.manager, site::SetHouseRules{rules}), done);
    kiosk.settle();
    QTRY_COMPARE(kiosk.shell.clockWords(), QStringLiteral("08:06"));
    QCOMPARE(kiosk.shell.dayWords(), QStringLiteral("Fri 28 Feb"));
}

void TestShell::clock_setBack_isTold_untilItIsRight()
{
    ViewBench kiosk;
    kiosk.bench.bringIn();
    kiosk.settle();
    QVERIFY(kiosk.shell.clockWarning().isEmpty());
    const auto look = [&](int minutes) {
        kiosk.bench.clock.putBy(minutes);
        kiosk.shell.ticker().pulse();
        return kiosk.shell.clockWarning();
    };
    // Clocks of several kiosks differ by a little.
    QCOMPARE(look(-2), QString());
    const QString told = look(-60);
    QVERIFY2(told.contains(QStringLiteral("1 h 02 behind")), qPrintable(told));
    QCOMPARE(look(62), QString());
}

} // namespace ramplight::test

RAMPLIGHT_TEST(QGuiApplication, ramplight::test::TestShell)
#include "tst_shell.moc"
