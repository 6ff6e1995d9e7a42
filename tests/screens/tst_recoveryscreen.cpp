// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kioskbench.h"
#include "support/testmain.h"

#include <QDir>
#include <QFileInfo>
#include <QScopeGuard>
#include <QSemaphore>
#include <QSignalSpy>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

namespace {

void backUp(BenchHouse& house, const QString& to)
{
    auto named = house.backups().setFolder(to);
    named.waitForFinished();
    auto made = house.backups().backUp();
    made.waitForFinished();
    QCOMPARE(made.result().words, QString());
}

/// The damaged workshop was kept beside the house; once.
void removeSetAside(BenchHouse& house)
{
    const QFileInfo root(QFileInfo(house.folder(QStringLiteral("x"))).absolutePath());
    const QDir above(root.absolutePath());
    const QStringList aside =
        above.entryList({root.fileName() + QStringLiteral(".before-*")}, QDir::Dirs);
    QCOMPARE(aside.size(), 1);
    QVERIFY(QDir(above.filePath(aside.front())).removeRecursively());
}

/// The backup that is offered is asked for, once nobody looks for a newer one any more.
bool askForIt(KioskBench& bench)
{
    return bench.until([&] { return !bench.shell().recovery()->looking(); },
                       QStringLiteral("the backups")) &&
           bench.tap(QStringLiteral("Bring this backup back"));
}

} // namespace

/// The kiosk is started on a damaged database: it says so, and the file is made anew or the last
/// whole backup comes back, by touch.
class tst_RecoveryScreen : public QObject
{
    Q_OBJECT

private slots:
    void init() { failOnQmlWarnings(); }
    void tornDatabase_theLastBackupComesBack_data();
    void tornDatabase_theLastBackupComesBack();
    void damageBehindTheFirstPage_isToldWhereverItLies_data();
    void damageBehindTheFirstPage_isToldWhereverItLies();
    void carThatDoesNotComeAlong_isNamedOnTheWallAndInTheSettings_data();
    void carThatDoesNotComeAlong_isNamedOnTheWallAndInTheSettings();
    void entryThatWasChanged_isToldWhenTheCarIsRead();
    void whatWasWrongWhenTheBackupWasMade_isToldBeforeAndAfter_data();
    void whatWasWrongWhenTheBackupWasMade_isToldBeforeAndAfter();
    void whileItIsBroughtBack_nothingIsKept_data();
    void whileItIsBroughtBack_nothingIsKept();
    void withoutABackup_thatIsSaid_andAStickHelps();
    void afterFreezing_itIsWhereSomebodyWas();
    void placeThatIsNone_leadsToTheWall_data();
    void placeThatIsNone_leadsToTheWall();
};

void tst_RecoveryScreen::tornDatabase_theLastBackupComesBack_data()
{
    QTest::addColumn<QSize>("size");
    QTest::newRow("wide") << QSize(1920, 1080);
    QTest::newRow("tall") << QSize(1080, 1920);
}

void tst_RecoveryScreen::tornDatabase_theLastBackupComesBack()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::Demo);
    BenchHouse& house = bench.house();
    const QTemporaryDir stick;
    backUp(house, stick.path());
    const std::size_t cars = house.cards().size();
    house.clock.goOn(60);
    // What the kiosk speaks with is in no backup.
    const QString words = house.folder(QStringLiteral("translations/ramplight_de.qm"));
    QVERIFY(QDir().mkpath(QFileInfo(words).absolutePath()));
    house.put(words, "words", 1);
    bench.show(size);
    bench.tearDatabase();
    RecoveryView& view = *bench.shell().recovery();
    QVERIFY(bench.untilSays(QStringLiteral("The workshop cannot be opened")));
    QVERIFY(!bench.says(QStringLiteral("The store does not answer")));
    QVERIFY(bench.until([&] { return !view.offer().isEmpty(); }, QStringLiteral("the backup")));
    QVERIFY(bench.untilSays(view.offer()));
    bench.shoot(QStringLiteral("recovery"));
    QVERIFY(askForIt(bench));
    QVERIFY(bench.untilSays(QStringLiteral("Bring the backup back?")));
    bench.shoot(QStringLiteral("recovery-sure"));
    const QSignalSpy again(&view, &RecoveryView::openAgainWanted);
    QVERIFY(bench.tap(QStringLiteral("Bring it back")));
    QVERIFY(bench.until([&] { return again.count() == 1; }, QStringLiteral("the workshop back")));
    QCOMPARE(view.fault(), QString());

    bench.openAgain();
    QVERIFY(!bench.shell().recovery()->needed());
    QCOMPARE(house.cards().size(), cars);
    QVERIFY(QFile::exists(words));
    bench.shoot(QStringLiteral("recovered"));
    removeSetAside(house);
}

void tst_RecoveryScreen::damageBehindTheFirstPage_isToldWhereverItLies_data()
{
    using Torn = BenchHouse::Torn;
    QTest::addColumn<Torn>("part");
    QTest::addColumn<QSize>("size");
    for (const auto& [name, part] : {std::pair{"a car's entries", Torn::PageOfCar},
                                     std::pair{"the cards of the wall", Torn::PageOfReadTable},
                                     std::pair{"the end", Torn::Tail}}) {
        QTest::addRow("%s, wide", name) << part << QSize(1920, 1080);
        QTest::addRow("%s, tall", name) << part << QSize(1080, 1920);
    }
}

void tst_RecoveryScreen::damageBehindTheFirstPage_isToldWhereverItLies()
{
    QFETCH(const BenchHouse::Torn, part);
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    house.fill(7);
    const QTemporaryDir stick;
    const CarId car = house.bringIn(
        QStringLiteral("K-90"), {finding("tyre-front-left", Condition::Cut, {Remedy::Replace})});
    backUp(house, stick.path());
    house.bringIn(QStringLiteral("K-91"));
    const std::size_t cars = house.cards().size();
    bench.show(size);
    bench.tearDatabase(part, car);
    RecoveryView& view = *bench.shell().recovery();
    // What was written last in this house is about its people: without it there is no workshop.
    const bool isOpen = part != BenchHouse::Torn::Tail;
    QVERIFY(bench.untilSays(isOpen ? QStringLiteral("The workshop's file is damaged")
                                   : QStringLiteral("The workshop cannot be opened")));
    QVERIFY(!bench.says(QStringLiteral("The store does not answer")));
    // What the ledger makes again needs no backup.
    const bool isRemade = part == BenchHouse::Torn::PageOfReadTable;
    QVERIFY(bench.untilSays(isRemade ? QStringLiteral("Nothing is lost")
                                     : QStringLiteral("The last whole backup")));
    QCOMPARE(bench.says(QStringLiteral("Bring this backup back")), !isRemade);
    QCOMPARE(bench.says(QStringLiteral("Make it anew")), isRemade);
    bench.shoot(QStringLiteral("recovery-found"));
    QCOMPARE(bench.says(QStringLiteral("Go on with what can be read")), isOpen);
    if (isOpen) {
        // Somebody may have to see what can still be seen; it stays said.
        QVERIFY(bench.tap(QStringLiteral("Go on with what can be read")));
        QVERIFY(bench.untilGone(QStringLiteral("Go on with what can be read")));
        QVERIFY(bench.says(QStringLiteral("The workshop's file is damaged")));
        // One message, and nothing lies under it.
        QVERIFY(bench.until(
            [&] {
                return part == BenchHouse::Torn::PageOfCar || !bench.shell().storeFault().isEmpty();
            },
            QStringLiteral("that cards cannot be read")));
        QVERIFY(!bench.says(QStringLiteral("The store does not answer")));
        QCOMPARE(bench.says(QStringLiteral("The cars cannot be read")),
                 part != BenchHouse::Torn::PageOfCar);
        QCOMPARE(bench.says(QStringLiteral("not known")), part != BenchHouse::Torn::PageOfCar);
        bench.shoot(QStringLiteral("recovery-waits"));
        // Nor is a car released of which something may be missing.
        auto asked = house.desk().run(CarRequest{CommandId{QStringLiteral("released")},
                                                 house.person(QStringLiteral("Odo")),
                                                 car,
                                                 {car::Release{}}});
        asked.waitForFinished();
        const auto released = asked.result();
        QVERIFY(!released);
        QVERIFY2(words(released.error()).contains(QStringLiteral("nothing was released")),
                 qPrintable(words(released.error())));
        QVERIFY(bench.tap(QStringLiteral("What can be done")));
    }
    const QSignalSpy again(&view, &RecoveryView::openAgainWanted);
    if (isRemade) {
        QVERIFY(bench.tap(QStringLiteral("Make it anew")));
    } else {
        QVERIFY(askForIt(bench));
        QVERIFY(bench.tap(QStringLiteral("Bring it back")));
    }
    QVERIFY(bench.until([&] { return again.count() == 1; }, QStringLiteral("the workshop back")));
    QCOMPARE(view.fault(), QString());
    bench.openAgain();
    QVERIFY(!bench.shell().recovery()->needed());
    // Only what was entered before the backup is damaged there: the other car comes along.
    const bool isAll = isRemade || part == BenchHouse::Torn::PageOfCar;
    QCOMPARE(house.cards().size(), isAll ? cars : cars - 1);
    QCOMPARE(house.car(car).findings.size(), std::size_t{1});
    if (!isRemade)
        removeSetAside(house);
}

void tst_RecoveryScreen::carThatDoesNotComeAlong_isNamedOnTheWallAndInTheSettings_data()
{
    QTest::addColumn<QSize>("size");
    QTest::newRow("wide") << QSize(1920, 1080);
    QTest::newRow("tall") << QSize(1080, 1920);
}

void tst_RecoveryScreen::carThatDoesNotComeAlong_isNamedOnTheWallAndInTheSettings()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    house.fill(7);
    const QTemporaryDir stick;
    backUp(house, stick.path());
    house.clock.goOn(60);
    const CarId lost = house.bringIn(
        QStringLiteral("K-92"), {finding("tyre-front-left", Condition::Cut, {Remedy::Replace})});
    house.bringIn(QStringLiteral("K-93"));
    bench.show(size);
    bench.tearDatabase(BenchHouse::Torn::PageOfCar, lost);
    QVERIFY(bench.untilSays(QStringLiteral("The last whole backup")));
    QVERIFY(askForIt(bench));
    QVERIFY(bench.untilSays(QStringLiteral("Bring the backup back?")));
    const QSignalSpy again(bench.shell().recovery(), &RecoveryView::openAgainWanted);
    QVERIFY(bench.tap(QStringLiteral("Bring it back")));
    QVERIFY(bench.until([&] { return again.count() == 1; }, QStringLiteral("the workshop back")));
    bench.openAgain();
    // Nobody has to sign in to be told.
    const BackupView& backups = *bench.shell().backups();
    QVERIFY(bench.until([&] { return backups.leftBehind().endsWith("them: K-92"); },
                        QStringLiteral("what did not come along")));
    QVERIFY(bench.untilSays(backups.leftBehind()));
    QVERIFY(bench.says(QStringLiteral("K-93")));
    bench.shoot(QStringLiteral("recovered-in-part"));
    QVERIFY(bench.tap(backups.leftBehind()));
    QVERIFY(bench.tap(QStringLiteral("Backup")));
    QVERIFY(backups.broughtAlong().contains("\nK-92: it came in after the backup"));
    QVERIFY(bench.untilSays(backups.broughtBack()));
    QVERIFY(bench.untilSays(backups.broughtAlong()));
    bench.shoot(QStringLiteral("recovered-settings"));
    // After some days it is said in the settings only.
    house.clock.goOn(5 * 24 * 60);
    QVERIFY(bench.until([&] { return backups.leftBehind().isEmpty(); },
                        QStringLiteral("the days to go by")));
    QVERIFY(!backups.broughtBack().isEmpty());
    removeSetAside(house);
}

void tst_RecoveryScreen::entryThatWasChanged_isToldWhenTheCarIsRead()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const QTemporaryDir stick;
    const CarId car = house.bringIn(QStringLiteral("K-90"), {});
    backUp(house, stick.path());
    bench.show();
    bench.changeWords(car);
    RecoveryView& view = *bench.shell().recovery();
    QVERIFY(!view.needed());
    QVERIFY(bench.tap(QStringLiteral("K-90")));
    QVERIFY(bench.untilSays(QStringLiteral("The workshop's file is damaged")));
    QVERIFY2(view.words().contains(QStringLiteral("not what was written")),
             qPrintable(view.words()));
    QVERIFY(bench.until([&] { return !view.offer().isEmpty(); }, QStringLiteral("the backup")));
    QVERIFY(askForIt(bench));
    const QSignalSpy again(&view, &RecoveryView::openAgainWanted);
    QVERIFY(bench.tap(QStringLiteral("Bring it back")));
    QVERIFY(bench.until([&] { return again.count() == 1; }, QStringLiteral("the workshop back")));
    bench.openAgain();
    QVERIFY(bench.openCar(QStringLiteral("K-90")));
    QVERIFY(!bench.shell().recovery()->needed());
    removeSetAside(house);
}

void tst_RecoveryScreen::whatWasWrongWhenTheBackupWasMade_isToldBeforeAndAfter_data()
{
    QTest::addColumn<QSize>("size");
    QTest::newRow("wide") << QSize(1920, 1080);
    QTest::newRow("tall") << QSize(1080, 1920);
}

void tst_RecoveryScreen::whatWasWrongWhenTheBackupWasMade_isToldBeforeAndAfter()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    house.fill(7);
    const QTemporaryDir stick;
    const CarId changed = house.bringIn(QStringLiteral("K-90"), {});
    const PhotoId photo = house.photo();
    house.must(house.person(QStringLiteral("Odo")), changed,
               {car::AttachPhoto{photo, PhotoMoment::Before, {}, {}, {}}});
    bench.show(size);
    bench.changeWords(changed);
    auto named = house.backups().setFolder(stick.path());
    named.waitForFinished();
    auto made = house.backups().backUp();
    made.waitForFinished();
    QCOMPARE(made.result().words, QString());
    QVERIFY2(made.result().faults.contains(QStringLiteral("car/")),
             qPrintable(made.result().faults));
    // What was not so then, and keeps nothing from coming back.
    for (const QString& shelf :
         {stick.filePath(QStringLiteral("photos")), house.folder(QStringLiteral("photos"))})
        QVERIFY(QFile::remove(PhotoStore(shelf).pathOf(photo)));
    bench.tearDatabase();
    RecoveryView& view = *bench.shell().recovery();
    QVERIFY(bench.until([&] { return !view.offer().isEmpty(); }, QStringLiteral("the backup")));
    QVERIFY2(view.offerFaults().contains(QStringLiteral("car/")), qPrintable(view.offerFaults()));
    QVERIFY2(view.offerFaults().endsWith(QStringLiteral("has them whole: 1")),
             qPrintable(view.offerFaults()));
    QVERIFY(bench.untilSays(view.offerFaults()));
    bench.shoot(QStringLiteral("recovery-wrong-then"));
    const QSignalSpy again(&view, &RecoveryView::openAgainWanted);
    QVERIFY(askForIt(bench));
    QVERIFY(bench.tap(QStringLiteral("Bring it back")));
    QVERIFY(bench.until([&] { return again.count() == 1; }, QStringLiteral("the workshop back")));
    QCOMPARE(view.fault(), QString());
    bench.openAgain();
    const BackupView& backups = *bench.shell().backups();
    QVERIFY(bench.until([&] { return !backups.broughtAlong().isEmpty(); },
                        QStringLiteral("what was told of it")));
    QVERIFY2(backups.broughtAlong().contains(
                 QStringLiteral("The check had found this wrong already when the backup was made")),
             qPrintable(backups.broughtAlong()));
    QVERIFY2(backups.broughtAlong().contains(QStringLiteral("\nPhotos that did not come back")),
             qPrintable(backups.broughtAlong()));
    removeSetAside(house);
}

void tst_RecoveryScreen::whileItIsBroughtBack_nothingIsKept_data()
{
    QTest::addColumn<bool>("comesToNothing");
    QTest::newRow("it comes back") << false;
    QTest::newRow("it comes to nothing") << true;
}

void tst_RecoveryScreen::whileItIsBroughtBack_nothingIsKept()
{
    QFETCH(const bool, comesToNothing);
    QSemaphore goOn;
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const CarId torn = house.bringIn(
        QStringLiteral("K-90"), {finding("tyre-front-left", Condition::Cut, {Remedy::Replace})});
    const CarId whole = house.bringIn(QStringLiteral("K-91"), {});
    const PersonId manager = house.person(QStringLiteral("Runa"));
    const PersonId seller = house.person(QStringLiteral("Odo"));
    const QTemporaryDir stick;
    backUp(house, stick.path());
    bench.show();
    bench.tearDatabase(BenchHouse::Torn::PageOfCar, torn);
    QCOMPARE(bench.shell().phone()->serve({QStringLiteral("127.0.0.1"), 0}), QString());
    const auto atLast = qScopeGuard([&goOn] { goOn.release(); });
    house.beforeMending = [&]() -> tl::expected<void, QString> {
        goOn.acquire();
        if (comesToNothing)
            return tl::unexpected(QStringLiteral("The disk is full."));
        return {};
    };
    RecoveryView& view = *bench.shell().recovery();
    const auto promised = [&](int day) {
        auto asked = house.desk().run(
            CarRequest{CommandId{QStringLiteral("promised-%1").arg(day)},
                       manager,
                       whole,
                       {car::ChangePromise{QDate(2031, 6, day), QStringLiteral("asked for")}}});
        asked.waitForFinished();
        const auto result = asked.result();
        return result ? QString() : words(result.error());
    };
    QVERIFY(bench.untilSays(QStringLiteral("The last whole backup")));
    QCOMPARE(promised(1), QString());
    QVERIFY(askForIt(bench));
    const QSignalSpy again(&view, &RecoveryView::openAgainWanted);
    QVERIFY(bench.tap(QStringLiteral("Bring it back")));
    QVERIFY(view.mending());
    // Neither from a phone nor from the wall.
    QVERIFY(!bench.shell().phone()->configured());
    const auto rests = [&] {
        auto site = house.desk().site();
        site.waitForFinished();
        return !site.result().has_value();
    };
    QVERIFY(bench.until(rests, QStringLiteral("the store to rest")));
    QVERIFY2(promised(2).contains(QStringLiteral("Nothing was kept")), qPrintable(promised(2)));
    goOn.release();
    QVERIFY(bench.until([&] { return !view.mending(); }, QStringLiteral("the end of it")));
    QCOMPARE(again.count(), comesToNothing ? 0 : 1);
    if (comesToNothing) {
        // It goes on as it was, and what was found stays found.
        QVERIFY(bench.untilSays(QStringLiteral("The disk is full.")));
        QVERIFY(bench.shell().phone()->configured());
        QCOMPARE(promised(3), QString());
        auto asked = house.desk().run(
            CarRequest{CommandId{QStringLiteral("released")}, seller, whole, {car::Release{}}});
        asked.waitForFinished();
        const auto released = asked.result();
        QVERIFY(!released);
        QVERIFY2(words(released.error()).contains(QStringLiteral("nothing was released")),
                 qPrintable(words(released.error())));
        return;
    }
    bench.openAgain();
    QCOMPARE(house.car(whole).promised, QDate(2031, 6, 1));
    removeSetAside(house);
}

void tst_RecoveryScreen::withoutABackup_thatIsSaid_andAStickHelps()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const QTemporaryDir drawer;
    const QString stick = drawer.filePath(QStringLiteral("stick"));
    backUp(house, stick);
    QVERIFY(QDir().rename(stick, drawer.filePath(QStringLiteral("away"))));
    bench.show();
    bench.tearDatabase();
    QVERIFY(bench.untilSays(QStringLiteral("No whole backup was found")));
    QVERIFY(!bench.says(QStringLiteral("Bring this backup back")));
    bench.shoot(QStringLiteral("recovery-none"));
    QVERIFY(QDir().rename(drawer.filePath(QStringLiteral("away")), stick));
    QVERIFY(bench.tap(QStringLiteral("Look for backups again")));
    QVERIFY(bench.untilSays(QStringLiteral("The last whole backup")));

    const QSignalSpy again(bench.shell().recovery(), &RecoveryView::openAgainWanted);
    QVERIFY(bench.tap(QStringLiteral("Try to open it again")));
    QCOMPARE(again.count(), 1);
}

void tst_RecoveryScreen::afterFreezing_itIsWhereSomebodyWas()
{
    KioskBench bench(BenchHouse::Start::Demo);
    bench.show();
    const CarCard card = bench.house().cards().front();
    const QString stock = card.identity.stockNumber;
    QVERIFY(bench.openCar(stock));
    const CarState car = bench.house().car(card.car);
    QVERIFY(!car.openOperations().empty());
    const OperationId work = car.openOperations().front()->id;
    QVERIFY(bench.openWork(work));
    bench.startAfterFreezing();
    const auto isThere = [&] {
        return bench.shell().operation()->operationId() == work.value &&
               bench.shell().operation()->loaded() && !bench.ofType("OperationScreen").empty();
    };
    QVERIFY(bench.until(isThere, QStringLiteral("the operation")));
    QVERIFY(bench.until([&] { return bench.shell().session()->personId() == 0; },
                        QStringLiteral("nobody signed in")));
    QVERIFY(bench.tap(QStringLiteral("Back")));
    QVERIFY(bench.until([&] { return !bench.ofType("CarScreen").empty(); }, stock));

    // What needs somebody signed in is left out.
    QVERIFY(bench.tap(QStringLiteral("Back to the wall")));
    QVERIFY(bench.tap(QStringLiteral("Who are you?")));
    QVERIFY(bench.signIn(QStringLiteral("Runa Talbeck")));
    QVERIFY(bench.tap(QStringLiteral("Staff and bays")));
    bench.startAfterFreezing();
    QVERIFY(bench.until([&] { return bench.says(QStringLiteral("Who are you?")); },
                        QStringLiteral("the wall")));
    QVERIFY(bench.ofType("StaffScreen").empty());
}

void tst_RecoveryScreen::placeThatIsNone_leadsToTheWall_data()
{
    QTest::addColumn<QString>("place");
    QTest::newRow("cut off") << QStringLiteral("{\"screens\":[\"Car\"");
    QTest::newRow("a number") << QStringLiteral("7");
    QTest::newRow("nothing") << QStringLiteral("null");
    QTest::newRow("no lists") << QStringLiteral("{\"screens\":{},\"cars\":1}");
    QTest::newRow("no screen of ours")
        << QStringLiteral("{\"screens\":[\"../x\"],\"cars\":[\"\"],\"operations\":[0]}");
    // A bit turned on the disk.
    QTest::newRow("no screen's name")
        << QStringLiteral("{\"screens\":[\"Cas\"],\"cars\":[\"k\"],\"operations\":[0]}");
    QTest::newRow("no key of ours")
        << QStringLiteral("{\"screenr\":[\"Car\"],\"cars\":[\"k\"],\"operations\":[0]}");
}

void tst_RecoveryScreen::placeThatIsNone_leadsToTheWall()
{
    QFETCH(const QString, place);
    KioskBench bench(BenchHouse::Start::House);
    bench.showFrom(place);
    QVERIFY(bench.untilSays(QStringLiteral("Who are you?")));
    QVERIFY(bench.ofType("CarScreen").empty());
}

RAMPLIGHT_TEST(QGuiApplication, tst_RecoveryScreen)
#include "tst_recoveryscreen.moc"
