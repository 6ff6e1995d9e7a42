// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "support/testmain.h"
#include "viewbench.h"

#include <QSignalSpy>
#include <QTest>

namespace ramplight::test {

namespace {

/// Types what a car needs at least.
void typeCar(ArrivalView* form, const char* stockNumber)
{
    form->identity()->setProperty("stockNumber", QString::fromLatin1(stockNumber));
    form->identity()->setProperty("make", QStringLiteral("Halden"));
    form->identity()->setProperty("model", QStringLiteral("Skerry"));
    form->identity()->shapes()->choose(QStringLiteral("estate"));
    form->setPromised(QStringLiteral("2031-03-12"));
}

} // namespace

/// A car comes in by the form: what is typed, what is written, and what stays when it is refused.
class TestArrivalView : public QObject
{
    Q_OBJECT

private slots:
    void form_isWrittenAtOnce();
    void vin_isJudgedAsItIsTyped();
    void missing_isSaidBeforeAnythingIsAsked_data();
    void missing_isSaidBeforeAnythingIsAsked();
    void refused_keepsTheForm_andTheSecondTryIsTheSameCar();
    void storeFault_isTriedAgainWithTheSameRequest();
    void nobodySignedIn_waitsForThePin();
    void begin_emptiesTheForm();
    void begun_isAFormWithAnythingButTheVin_data();
    void begun_isAFormWithAnythingButTheVin();
    void arrived_leavesAnEmptyFormForTheNextCar();
    void days_areOfferedAndChosen();
    void importedFile_saysWhatCame();
    void importFaults_areListedUntilTheFileIsTakenIn();
};

void TestArrivalView::form_isWrittenAtOnce()
{
    ViewBench kiosk;
    kiosk.signIn(kiosk.bench.appraiser);
    ArrivalView* form = kiosk.shell.arrival();
    QSignalSpy arrived(form, &ArrivalView::arrived);
    typeCar(form, " k7 ");
    QVERIFY(form->canSave());
    form->identity()->setProperty("registration", QStringLiteral(" qx  71 "));
    form->identity()->setProperty("odometer", QStringLiteral("41200"));
    form->identity()->setProperty("keys", QStringLiteral("2"));
    form->identity()->facts()->choose(nameOf(Fact::CombustionEngine));
    form->setParking(QStringLiteral(" row 2 "));
    form->save();
    QCOMPARE(kiosk.outcome(form->ask()), done);
    QCOMPARE(arrived.count(), 1);
    const CarState car = kiosk.bench.car(CarId{arrived.at(0).at(0).toString()});
    QCOMPARE(car.identity.stockNumber, QStringLiteral("K7"));
    QCOMPARE(car.identity.registration, QStringLiteral("QX 71"));
    QCOMPARE(car.identity.shape, BodyShape::Estate);
    QCOMPARE(car.facts.odometer, 41200);
    QVERIFY(car.facts.is(Fact::CombustionEngine));
    QCOMPARE(car.promised, QDate(2031, 3, 12));
    QCOMPARE(car.parking, QStringLiteral("row 2"));
    // Its walk-round comes next.
    QVERIFY(!car.appraised);
    QVERIFY(car.seen.empty());
    QCOMPARE(kiosk.desk.asked.size(), std::size_t{1});
}

void TestArrivalView::vin_isJudgedAsItIsTyped()
{
    ViewBench kiosk;
    ArrivalView* form = kiosk.shell.arrival();
    typeCar(form, "K1");
    IdentityDraft* who = form->identity();
    QVERIFY(who->vinFault().isEmpty() && who->vinNote().isEmpty());
    who->setProperty("vin", QStringLiteral("ZZ0ZZZ0"));
    QVERIFY(!who->vinFault().isEmpty());
    QVERIFY(!form->canSave());
    // Place 9 may hold anything in many markets: said, and taken.
    who->setProperty("vin", QStringLiteral("zz0zzz00500000456"));
    QCOMPARE(who->vinFault(), QString());
    QVERIFY2(who->vinNote().contains(QStringLiteral("Many markets use none")),
             qPrintable(who->vinNote()));
    QVERIFY(form->canSave());
}

void TestArrivalView::missing_isSaidBeforeAnythingIsAsked_data()
{
    QTest::addColumn<QString>("stock");
    QTest::addColumn<QString>("shape");
    QTest::addColumn<QString>("odometer");
    QTest::addColumn<QString>("keys");
    QTest::addColumn<QString>("said");
    QTest::newRow("stock number") << " "
                                  << "hatch"
                                  << ""
                                  << ""
                                  << "stock number";
    QTest::newRow("shape") << "K1"
                           << ""
                           << ""
                           << ""
                           << "shape";
    QTest::newRow("odometer") << "K1"
                              << "hatch"
                              << "many"
                              << ""
                              << "odometer";
    QTest::newRow("keys") << "K1"
                          << "hatch"
                          << ""
                          << "1.5"
                          << "keys";
}

void TestArrivalView::missing_isSaidBeforeAnythingIsAsked()
{
    QFETCH(const QString, stock);
    QFETCH(const QString, shape);
    QFETCH(const QString, odometer);
    QFETCH(const QString, keys);
    QFETCH(const QString, said);
    ViewBench kiosk;
    kiosk.signIn(kiosk.bench.appraiser);
    ArrivalView* form = kiosk.shell.arrival();
    form->identity()->setProperty("stockNumber", stock);
    if (!shape.isEmpty())
        form->identity()->shapes()->choose(shape);
    form->identity()->setProperty("odometer", odometer);
    form->identity()->setProperty("keys", keys);
    QVERIFY(!form->canSave());
    form->save();
    QCOMPARE(kiosk.outcome(form->ask()), QStringLiteral("field-missing"));
    QVERIFY2(form->ask()->words().contains(said), qPrintable(form->ask()->words()));
    QVERIFY(kiosk.desk.asked.empty());
}

void TestArrivalView::refused_keepsTheForm_andTheSecondTryIsTheSameCar()
{
    ViewBench kiosk;
    kiosk.bench.bringIn(); // K1
    kiosk.signIn(kiosk.bench.appraiser);
    ArrivalView* form = kiosk.shell.arrival();
    QSignalSpy arrived(form, &ArrivalView::arrived);
    typeCar(form, "K1");
    form->save();
    QCOMPARE(kiosk.outcome(form->ask()), no(RefusalId::StockNumberTaken));
    QCOMPARE(arrived.count(), 0);
    QCOMPARE(form->identity()->identity().make, QStringLiteral("Halden"));
    form->identity()->setProperty("stockNumber", QStringLiteral("K2"));
    form->save();
    QCOMPARE(kiosk.outcome(form->ask()), done);
    QCOMPARE(arrived.count(), 1);
    QCOMPARE(kiosk.desk.asked.size(), std::size_t{2});
    QCOMPARE(kiosk.desk.asked[0].car, kiosk.desk.asked[1].car);
    // The next form is another car.
    const CarId before = kiosk.desk.asked[1].car;
    form->begin({});
    typeCar(form, "K3");
    form->save();
    QCOMPARE(kiosk.outcome(form->ask()), done);
    QVERIFY(kiosk.desk.asked[2].car != before);
    QVERIFY(kiosk.desk.asked[2].id != kiosk.desk.asked[1].id);
}

void TestArrivalView::storeFault_isTriedAgainWithTheSameRequest()
{
    ViewBench kiosk;
    kiosk.signIn(kiosk.bench.appraiser);
    ArrivalView* form = kiosk.shell.arrival();
    QSignalSpy arrived(form, &ArrivalView::arrived);
    typeCar(form, "K1");
    kiosk.bench.ledger.failWith(StoreErrorKind::Unavailable);
    form->save();
    QCOMPARE(kiosk.outcome(form->ask()), QStringLiteral("store"));
    QVERIFY(form->ask()->canRetry());
    kiosk.bench.ledger.failWith({});
    form->ask()->retry();
    QCOMPARE(kiosk.outcome(form->ask()), done);
    QCOMPARE(arrived.count(), 1);
    QCOMPARE(kiosk.desk.asked.size(), std::size_t{2});
    QCOMPARE(kiosk.desk.asked[0].id, kiosk.desk.asked[1].id);
    QCOMPARE(kiosk.desk.asked[0].car, kiosk.desk.asked[1].car);
}

void TestArrivalView::nobodySignedIn_waitsForThePin()
{
    ViewBench kiosk;
    ArrivalView* form = kiosk.shell.arrival();
    QSignalSpy arrived(form, &ArrivalView::arrived);
    typeCar(form, "K1");
    form->save();
    QVERIFY2(kiosk.shell.session()->waitingFor().contains(QStringLiteral("K1")),
             qPrintable(kiosk.shell.session()->waitingFor()));
    QVERIFY(kiosk.desk.asked.empty());
    kiosk.signIn(kiosk.bench.appraiser);
    QTRY_COMPARE(arrived.count(), 1);
    QCOMPARE(kiosk.desk.asked.at(0).actor, kiosk.bench.appraiser);
}

void TestArrivalView::begin_emptiesTheForm()
{
    ViewBench kiosk;
    ArrivalView* form = kiosk.shell.arrival();
    typeCar(form, "K1");
    form->setParking(QStringLiteral("row 2"));
    form->begin(QStringLiteral("ZZ0ZZZ00000000456"));
    QCOMPARE(form->identity()->identity().vin, QStringLiteral("ZZ0ZZZ00000000456"));
    QCOMPARE(form->identity()->identity().stockNumber, QString());
    QVERIFY(form->identity()->shapes()->current().isEmpty());
    QCOMPARE(form->promised(), QString());
    QCOMPARE(form->parking(), QString());
    QVERIFY(form->days()->current().isEmpty());
}

void TestArrivalView::begun_isAFormWithAnythingButTheVin_data()
{
    using Entry = std::function<void(ArrivalView*)>;
    QTest::addColumn<Entry>("enter");
    for (const char* field : {"stockNumber", "registration", "make", "model", "colour", "paintCode",
                              "odometer", "keys", "testMonths"})
        QTest::newRow(field) << Entry([field](ArrivalView* form) {
            form->identity()->setProperty(field, QStringLiteral("7"));
        });
    QTest::newRow("shape") << Entry(
        [](ArrivalView* form) { form->identity()->shapes()->choose(QStringLiteral("estate")); });
    QTest::newRow("fact") << Entry([](ArrivalView* form) {
        form->identity()->facts()->choose(nameOf(Fact::CombustionEngine));
    });
    QTest::newRow("promise") << Entry(
        [](ArrivalView* form) { form->setPromised(QStringLiteral("2031-03-12")); });
    QTest::newRow("place") << Entry(
        [](ArrivalView* form) { form->setParking(QStringLiteral("row 2")); });
}

void TestArrivalView::begun_isAFormWithAnythingButTheVin()
{
    QFETCH(const std::function<void(ArrivalView*)>, enter);
    ViewBench kiosk;
    ArrivalView* form = kiosk.shell.arrival();
    form->begin(QStringLiteral("ZZ0ZZZ00000000456"));
    QVERIFY(!form->isBegun());
    enter(form);
    QVERIFY(form->isBegun());
    form->begin({});
    QVERIFY(!form->isBegun());
}

void TestArrivalView::arrived_leavesAnEmptyFormForTheNextCar()
{
    ViewBench kiosk;
    kiosk.signIn(kiosk.bench.appraiser);
    ArrivalView* form = kiosk.shell.arrival();
    QSignalSpy arrived(form, &ArrivalView::arrived);
    for (const char* stockNumber : {"K1", "K2"}) {
        QVERIFY(!form->isBegun());
        typeCar(form, stockNumber);
        form->save();
        QCOMPARE(kiosk.outcome(form->ask()), done);
    }
    QCOMPARE(arrived.count(), 2);
    QVERIFY(arrived.at(0).at(0) != arrived.at(1).at(0));
    QTRY_COMPARE(column(*kiosk.shell.wall(), "stockNumber").size(), qsizetype{2});
}

void TestArrivalView::days_areOfferedAndChosen()
{
    ViewBench kiosk;
    ArrivalView* form = kiosk.shell.arrival();
    form->begin({});
    Choices* days = form->days();
    QCOMPARE(days->rowCount(), 14);
    QCOMPARE(column(*days, "choiceId").mid(0, 2), (QStringList{"2031-02-27", "2031-02-28"}));
    QCOMPARE(column(*days, "title").mid(0, 3), (QStringList{"Today", "Tomorrow", "Sat"}));
    QSignalSpy changed(form, &ArrivalView::changed);
    days->choose(QStringLiteral("2031-03-01"));
    QCOMPARE(form->promised(), QStringLiteral("2031-03-01"));
    QVERIFY(changed.count() > 0);
    // A day farther away is typed: none of those to touch is chosen.
    form->setPromised(QStringLiteral("2031-04-30"));
    QCOMPARE(form->promised(), QStringLiteral("2031-04-30"));
    QVERIFY(days->current().isEmpty());
    form->setPromised(QStringLiteral("2031-02-28"));
    QCOMPARE(days->current(), QStringLiteral("2031-02-28"));
    form->setPromised(QStringLiteral("soon"));
    QCOMPARE(form->promised(), QString());
}

void TestArrivalView::importedFile_saysWhatCame()
{
    ViewBench kiosk;
    ArrivalView* form = kiosk.shell.arrival();
    QSignalSpy imported(form, &ArrivalView::imported);
    form->importFile(QStringLiteral("/drop/K9.json"));
    QVERIFY(!form->ask()->busy()); // nobody has signed in
    kiosk.signIn(kiosk.bench.appraiser);
    QTRY_COMPARE(imported.count(), 1);
    QCOMPARE(imported.at(0).at(0).toStringList(), QStringList{"K9"});
    QCOMPARE(imported.at(0).at(1).toBool(), false);
    QCOMPARE(kiosk.outcome(form->ask()), done);
}

void TestArrivalView::importFaults_areListedUntilTheFileIsTakenIn()
{
    ViewBench kiosk;
    kiosk.signIn(kiosk.bench.appraiser);
    ArrivalView* form = kiosk.shell.arrival();
    QSignalSpy imported(form, &ArrivalView::imported);
    kiosk.desk.importFaults = {QStringLiteral("line 3: a number"),
                               QStringLiteral("line 9: a date")};
    form->importFile(QStringLiteral("/drop/K9.json"));
    QCOMPARE(kiosk.outcome(form->ask()), QStringLiteral("import"));
    QCOMPARE(form->importFaults(), kiosk.desk.importFaults);
    QCOMPARE(imported.count(), 0);
    kiosk.desk.importFaults.clear();
    form->ask()->retry();
    QTRY_COMPARE(imported.count(), 1);
    QVERIFY(form->importFaults().isEmpty());
}

} // namespace ramplight::test

RAMPLIGHT_TEST(QGuiApplication, ramplight::test::TestArrivalView)
#include "tst_arrivalview.moc"
