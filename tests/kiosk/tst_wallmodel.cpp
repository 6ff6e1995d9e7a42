// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/kioskenums.h"
#include "support/testmain.h"
#include "viewbench.h"

#include <QAbstractItemModelTester>
#include <QSignalSpy>
#include <QTest>

namespace ramplight::test {

namespace {

QStringList stockNumbers(const WallModel& wall)
{
    return column(wall, "stockNumber");
}

} // namespace

/// The wall as a list: which cars stand on it, in which order, and what is counted.
class TestWallModel : public QObject
{
    Q_OBJECT

private slots:
    void noCar_isEmptyOnceItIsRead();
    void counts_areOfAllOpenCars_whateverIsFiltered();
    void order_isPromiseThenStateThenNumber();
    void filters_leaveWhatFits_data();
    void filters_leaveWhatFits();
    void people_areThoseWhoWorkHere_withTheirCars();
    void everySkill_leavesTheCarsThatItCounts();
    void forgottenTimer_isAskedAboutAsTimePasses();
    void skill_leadsTheCard();
    void skillCounts_sayWhereSomethingCanBeDone();
    void filterWords_followTheWall();
    void lineLimit_cutsTheCards();
    void releasedCar_leavesTheWall();
    void midnight_makesACarLate();
};

void TestWallModel::noCar_isEmptyOnceItIsRead()
{
    BenchDesk desk;
    const Ticker::Steady still = [] { return qint64{0}; };
    Shell shell({desk, desk.bench.clock, desk.bench.catalogue, {}, still});
    WallModel* wall = shell.wall();
    QVERIFY(!wall->loaded());
    QVERIFY(!wall->isEmpty());
    shell.start();
    QTRY_VERIFY(wall->loaded());
    QVERIFY(wall->isEmpty());
    desk.bench.bringIn();
    emit desk.carsChanged();
    QTRY_VERIFY(!wall->isEmpty());
    QCOMPARE(wall->rowCount(), 1);
}

void TestWallModel::counts_areOfAllOpenCars_whateverIsFiltered()
{
    ViewBench kiosk;
    const CarId ready = kiosk.bench.appraised();
    kiosk.bench.closeAll(ready);
    const CarId held = kiosk.bench.appraised();
    const CarId arriving = kiosk.bench.bringIn();
    kiosk.bench.must(kiosk.bench.manager, arriving,
                     car::ChangePromise{QDate(2031, 4, 20), QStringLiteral("parts")});
    kiosk.bench.clock.set({1'932'000'000'000}); // 2031-03-22
    QCOMPARE(kiosk.bench.status(ready), CarStatus::ReadyForRelease);
    QCOMPARE(kiosk.bench.status(held), CarStatus::Held);
    kiosk.settle();
    WallModel* wall = kiosk.shell.wall();
    const auto counts = [wall] {
        return QList<int>{wall->inPrep(), wall->heldBySafety(), wall->ready(), wall->late()};
    };
    QTRY_COMPARE(counts(), (QList<int>{3, 1, 1, 2}));
    wall->setText(QStringLiteral("no such car"));
    QCOMPARE(wall->rowCount(), 0);
    QCOMPARE(counts(), (QList<int>{3, 1, 1, 2}));
    QVERIFY(!wall->isEmpty());
}

void TestWallModel::order_isPromiseThenStateThenNumber()
{
    ViewBench kiosk;
    const QAbstractItemModelTester tester(kiosk.shell.wall(),
                                          QAbstractItemModelTester::FailureReportingMode::QtTest);
    kiosk.bench.bringIn();                      // K1: waits
    const CarId first = kiosk.bench.bringIn();  // K2: promised earlier
    const CarId held = kiosk.bench.appraised(); // K3: held
    for (int i = 4; i <= 10; ++i)
        kiosk.bench.bringIn();
    kiosk.bench.must(kiosk.bench.manager, first,
                     car::ChangePromise{QDate(2031, 3, 10), QStringLiteral("wanted early")});
    kiosk.settle();
    QCOMPARE(kiosk.bench.status(held), CarStatus::Held);
    QTRY_COMPARE(stockNumbers(*kiosk.shell.wall()),
                 QStringLiteral("K2 K3 K1 K4 K5 K6 K7 K8 K9 K10").split(u' '));
}

void TestWallModel::filters_leaveWhatFits_data()
{
    QTest::addColumn<QString>("skill");
    QTest::addColumn<bool>("ofPainter");
    QTest::addColumn<QString>("text");
    QTest::addColumn<QString>("left");
    QTest::addColumn<QString>("words");
    QTest::newRow("nothing") << "" << false << ""
                             << "K1 K2 K3"
                             << "";
    QTest::newRow("number, small") << "" << false << "k2"
                                   << "K2"
                                   << "k2 · 1";
    QTest::newRow("number with a gap") << "" << false << " K 3 "
                                       << "K3"
                                       << "K 3 · 1";
    QTest::newRow("make") << "" << false << "skerry"
                          << "K1 K2 K3"
                          << "skerry · 3";
    QTest::newRow("registration, no gap") << "" << false << "qx71"
                                          << "K2"
                                          << "qx71 · 1";
    QTest::newRow("end of a VIN") << "" << false << "000123"
                                  << "K2"
                                  << "000123 · 1";
    QTest::newRow("begin of a VIN") << "" << false << "ZZ0"
                                    << ""
                                    << "ZZ0 · 0";
    QTest::newRow("no car") << "" << false << "K9"
                            << ""
                            << "K9 · 0";
    QTest::newRow("glass") << "glass" << false << ""
                           << "K1"
                           << "Glass · 1";
    QTest::newRow("nobody's skill") << "trim" << false << ""
                                    << ""
                                    << "Trim · 0";
    QTest::newRow("no skill at all") << "juggling" << false << ""
                                     << "K1 K2 K3"
                                     << "";
    QTest::newRow("person") << "" << true << ""
                            << "K3"
                            << "Noor · 1";
    QTest::newRow("person and text") << "" << true << "K1"
                                     << ""
                                     << "Noor · K1 · 0";
    QTest::newRow("all three") << "valet" << true << "K3"
                               << "K3"
                               << "Valet · Noor · K3 · 1";
}

void TestWallModel::filters_leaveWhatFits()
{
    QFETCH(const QString, skill);
    QFETCH(const bool, ofPainter);
    QFETCH(const QString, text);
    ViewBench kiosk;
    const CarId one = kiosk.bench.appraised();
    kiosk.bench.found(one, "windscreen", Condition::Crack);
    const CarId two = kiosk.bench.appraised();
    Identity identity = kiosk.bench.car(two).identity;
    identity.registration = QStringLiteral("QX 71");
    identity.vin = QStringLiteral("ZZ0ZZZ00000000123");
    kiosk.bench.must(kiosk.bench.manager, two,
                     car::CorrectIdentity{identity, QStringLiteral("read")});
    const CarId three = kiosk.bench.appraised();
    kiosk.bench.must(kiosk.bench.manager, three,
                     car::HandOver{kiosk.bench.open(three, "valet"), kiosk.bench.painter});
    kiosk.settle();
    WallModel* wall = kiosk.shell.wall();
    wall->setSkill(skill);
    wall->setPerson(ofPainter ? kiosk.bench.painter.value : 0);
    wall->setText(text);
    QTEST(stockNumbers(*wall).join(u' '), "left");
    QTEST(wall->filterWords(), "words");
    wall->clearFilter();
    QCOMPARE(wall->rowCount(), 3);
    QCOMPARE(wall->filterWords(), QString());
}

void TestWallModel::people_areThoseWhoWorkHere_withTheirCars()
{
    ViewBench kiosk;
    Workbench& bench = kiosk.bench;
    const CarId one = bench.appraised();
    const CarId two = bench.appraised();
    bench.start(one, bench.open(one, "valet"), bench.painter);
    bench.must(bench.manager, two, car::HandOver{bench.open(two, "valet"), bench.painter});
    bench.must(bench.manager, two, car::HandOver{bench.open(two, "inspection"), bench.mechanic});
    kiosk.settle();
    WallModel* wall = kiosk.shell.wall();
    const auto shown = [wall] {
        QStringList lines;
        for (int row = 0; row < wall->people()->rowCount(); ++row)
            lines.append(at(*wall->people(), row, "name").toString() + QStringLiteral(": ") +
                         at(*wall->people(), row, "carsWords").toString());
        return lines.join(QStringLiteral(", "));
    };
    // By name; whoever neither works nor checks is not asked for. The manager has every right.
    const QString manager = bench.ledger.site().value().person(bench.manager)->name;
    QTRY_VERIFY2(shown().contains(QStringLiteral("Noor: 2 cars")), qPrintable(shown()));
    const QStringList names = column(*wall->people(), "name");
    QStringList expected{"Bram", "Ines", "Caspar", "Noor", "Piet", "Wanda", manager};
    expected.sort();
    QCOMPARE(names, expected);
    QVERIFY2(shown().contains(QStringLiteral("Bram: one car")), qPrintable(shown()));
    QVERIFY2(shown().contains(QStringLiteral("Ines: nothing")), qPrintable(shown()));
    // Each name leaves as many cars as it says.
    for (int row = 0; row < wall->people()->rowCount(); ++row) {
        wall->setPerson(at(*wall->people(), row, "personId").toInt());
        QCOMPARE(wall->rowCount(), at(*wall->people(), row, "cars").toInt());
        QCOMPARE(wall->personName(), at(*wall->people(), row, "name").toString());
    }
    wall->setPerson(0);
    QCOMPARE(wall->personName(), QString());

    // Who has left is there as long as something is theirs.
    bench.must(bench.mechanic, two, car::HandOver{bench.open(two, "inspection"), bench.technician});
    bench.must(bench.painter, one, car::PauseWork{bench.open(one, "valet"), {}, StopKind::Paused});
    const Person noor = *bench.ledger.site().value().person(bench.painter);
    QCOMPARE(bench.ask(bench.manager,
                       site::ChangePerson{bench.painter, noor.skills, noor.rights, false}),
             done);
    kiosk.settle();
    QTRY_VERIFY2(shown().contains(QStringLiteral("Ines: one car")), qPrintable(shown()));
    QVERIFY2(shown().contains(QStringLiteral("Noor: one car")), qPrintable(shown()));
}

void TestWallModel::everySkill_leavesTheCarsThatItCounts()
{
    ViewBench kiosk;
    const CarId one = kiosk.bench.appraised();
    kiosk.bench.found(one, "windscreen", Condition::Crack);
    kiosk.bench.appraised();
    kiosk.settle();
    WallModel* wall = kiosk.shell.wall();
    int some = 0;
    for (int row = 0; row < wall->skills()->rowCount(); ++row) {
        const int cars = at(*wall->skills(), row, "cars").toInt();
        wall->setSkill(at(*wall->skills(), row, "skill").toString());
        QCOMPARE(wall->rowCount(), cars);
        some += cars > 0 && cars < 2 ? 1 : 0;
    }
    QVERIFY(some > 0); // not every filter leaves every car
}

void TestWallModel::forgottenTimer_isAskedAboutAsTimePasses()
{
    ViewBench kiosk;
    Workbench& bench = kiosk.bench;
    bench.clock.pass(10 * 60); // the next morning
    const CarId car = bench.appraised();
    bench.start(car, bench.open(car, "valet"), bench.painter);
    const Moment began = bench.clock.now();
    kiosk.settle();
    WallModel* wall = kiosk.shell.wall();
    QTRY_COMPARE(wall->rowCount(), 1);
    bench.clock.pass(120);
    kiosk.shell.ticker().pulse();
    QVERIFY(!at(*wall, 0, "forgotten").toBool());
    QCOMPARE(at(*wall, 0, "footWhat").toString(), QStringLiteral("2 h"));
    bench.clock.pass(1);
    kiosk.shell.ticker().pulse();
    QVERIFY(at(*wall, 0, "forgotten").toBool());
    const TimeWords times(zoneOf(HouseRules{}));
    QCOMPARE(at(*wall, 0, "footWhat").toString(),
             QStringLiteral("runs since %1: still working?").arg(times.clock(began)));
}

void TestWallModel::skill_leadsTheCard()
{
    ViewBench kiosk;
    kiosk.bench.appraised();
    kiosk.settle();
    WallModel* wall = kiosk.shell.wall();
    QVERIFY(at(*wall, 0, "lineTitles").toStringList().value(0) != QStringLiteral("Valet"));
    wall->setSkill(QStringLiteral("valet"));
    QCOMPARE(at(*wall, 0, "lineTitles").toStringList().value(0), QStringLiteral("Valet"));
}

void TestWallModel::skillCounts_sayWhereSomethingCanBeDone()
{
    ViewBench kiosk;
    const CarId car = kiosk.bench.appraised();
    kiosk.settle();
    const SkillCounts* skills = kiosk.shell.wall()->skills();
    const auto carsOf = [skills](const char* skill) {
        const qsizetype row = column(*skills, "skill").indexOf(QLatin1String(skill));
        return row < 0 ? -1 : at(*skills, static_cast<int>(row), "cars").toInt();
    };
    QTRY_COMPARE(carsOf("valet"), 1);
    QCOMPARE(carsOf("mechanical"), 1);
    QCOMPARE(carsOf("trim"), 0);
    QCOMPARE(carsOf("office"), 1);
    kiosk.bench.start(car, kiosk.bench.open(car, "valet"), kiosk.bench.painter);
    kiosk.bench.close(car, kiosk.bench.open(car, "arrival-check"));
    kiosk.settle();
    QTRY_COMPARE(carsOf("valet"), 0);
    QCOMPARE(carsOf("office"), -1);
}

void TestWallModel::filterWords_followTheWall()
{
    ViewBench kiosk;
    const CarId one = kiosk.bench.appraised();
    kiosk.bench.appraised();
    kiosk.settle();
    WallModel* wall = kiosk.shell.wall();
    wall->setSkill(QStringLiteral("valet"));
    QCOMPARE(wall->filterWords(), QStringLiteral("Valet · 2"));
    QSignalSpy told(wall, &WallModel::filterChanged);
    kiosk.bench.close(one, kiosk.bench.open(one, "valet"));
    kiosk.settle();
    QTRY_COMPARE(wall->filterWords(), QStringLiteral("Valet · 1"));
    QVERIFY(told.count() > 0);
    // What changes nothing in the words says nothing.
    told.clear();
    kiosk.settle();
    QCOMPARE(told.count(), 0);
}

void TestWallModel::lineLimit_cutsTheCards()
{
    ViewBench kiosk;
    kiosk.bench.appraised();
    kiosk.settle();
    WallModel* wall = kiosk.shell.wall();
    QTRY_COMPARE(at(*wall, 0, "lineTitles").toStringList().size(), 4);
    QCOMPARE(at(*wall, 0, "moreCount").toInt(), 1);
    wall->setLineLimit(2);
    QCOMPARE(at(*wall, 0, "lineTitles").toStringList().size(), 2);
    QCOMPARE(at(*wall, 0, "moreCount").toInt(), 3);
}

void TestWallModel::releasedCar_leavesTheWall()
{
    ViewBench kiosk;
    const CarId gone = kiosk.bench.appraised();
    kiosk.bench.appraised();
    kiosk.settle();
    QTRY_COMPARE(kiosk.shell.wall()->rowCount(), 2);
    kiosk.bench.release(gone);
    kiosk.settle();
    QTRY_COMPARE(stockNumbers(*kiosk.shell.wall()), QStringList{QStringLiteral("K2")});
}

void TestWallModel::midnight_makesACarLate()
{
    ViewBench kiosk;
    kiosk.bench.bringIn();
    kiosk.bench.clock.set({1'931'815'800'000}); // 2031-03-20, 23:30
    kiosk.settle();
    WallModel* wall = kiosk.shell.wall();
    QTRY_COMPARE(at(*wall, 0, "promisedWord").toString(), QStringLiteral("today"));
    QVERIFY(!at(*wall, 0, "late").toBool());
    kiosk.bench.clock.pass(60);
    kiosk.shell.ticker().pulse();
    QVERIFY(at(*wall, 0, "late").toBool());
    QCOMPARE(wall->late(), 1);
}

} // namespace ramplight::test

RAMPLIGHT_TEST(QGuiApplication, ramplight::test::TestWallModel)
#include "tst_wallmodel.moc"
