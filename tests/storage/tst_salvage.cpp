// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "salvagebench.h"
#include "stranger.h"
#include "tornpage.h"

#include "storage/sitekeycheck.h"
#include "support/testmain.h"

#include <QFile>

using namespace ramplight;
using namespace ramplight::test;

// What was done since a backup is read out of a damaged file as far as it is proven whole.
class TestSalvage : public QObject
{
    Q_OBJECT

private slots:
    void readTablesOrIndexDamaged_allOfItComes_data()
    {
        QTest::addColumn<QByteArray>("torn");
        QTest::newRow("nothing") << QByteArray();
        QTest::newRow("the order of the ledger") << QByteArray("sqlite_autoindex_ledger_1");
        QTest::newRow("the commands") << QByteArray("command");
        QTest::newRow("the cards") << QByteArray("car");
        QTest::newRow("who worked when") << QByteArray("work_segment");
    }

    void readTablesOrIndexDamaged_allOfItComes()
    {
        QFETCH(const QByteArray, torn);
        HouseSince house;
        house.workOn();
        const QString file = house.database.settings().file;
        const QStringList heads = entriesOf(file, headsStream());
        const QStringList sites = entriesOf(file, siteStream());
        if (!torn.isEmpty())
            tearPageOf(file, torn.constData());
        const Back back(house);
        QCOMPARE(back.out.hindrance, QString());
        QCOMPARE(back.leftBehind(), QStringList());
        QVERIFY(!back.out.siteLeftBehind);
        QVERIFY(!back.out.perhapsMore);
        QVERIFY(back.out.staffCame);
        QCOMPARE(back.out.cars.size(), std::size_t{3});
        QVERIFY(back.out.entries > 0);
        QCOMPARE(back.faults(), QString());
        // To the last byte: nothing has to be sealed anew.
        QCOMPARE(entriesOf(back.settings.file, headsStream()), heads);
        QCOMPARE(entriesOf(back.settings.file, siteStream()), sites);
        QCOMPARE(back.store->credentials().pinHash(house.bench.checker).value(),
                 std::optional<QByteArray>("another hash"));
        for (const CarId& car : {house.staying, house.other, house.arrived})
            QCOMPARE(back.store->ledger().car(car).value(), house.bench.car(car));
    }

    void lostEntry_itsCarIsLeft_theOthersCome()
    {
        HouseSince house;
        house.workOn();
        const QString stream = carStream(house.other);
        const QStringList before = entriesOf(house.backupFile(), stream);
        house.lose(stream, house.lastOf(stream));
        const Back back(house);
        QCOMPARE(back.out.hindrance, QString());
        QCOMPARE(back.leftBehind(), QStringList{house.stockNumber(house.other)});
        QVERIFY(back.came(house.staying) && back.came(house.arrived));
        QVERIFY(!back.came(house.other));
        QCOMPARE(entriesOf(back.settings.file, stream), before);
        QCOMPARE(back.store->ledger().car(house.staying).value(), house.bench.car(house.staying));
        QCOMPARE(back.faults(), QString());
        // And it goes on from there.
        Hand hand(back.store->ledger());
        hand.now = house.bench.clock.now();
        QCOMPARE(outcome(back.store->ledger().append(hand.with(
                     CarId{QStringLiteral("next")}, {Hand::arrival(QStringLiteral("N-1"))}))),
                 QStringLiteral("ok"));
        QCOMPARE(back.faults(), QString());
    }

    // The worst that a gap could hide.
    void releaseThatWasFollowedByAFinding_doesNotComeWithoutIt()
    {
        HouseSince house;
        house.bench.release(house.staying);
        house.bench.found(house.staying, "bonnet", Condition::Scratch);
        QVERIFY(!house.bench.car(house.staying).released);
        house.write();
        const QString stream = carStream(house.staying);
        const QStringList before = entriesOf(house.backupFile(), stream);
        house.lose(stream, house.lastOf(stream));
        const Back back(house);
        QCOMPARE(back.leftBehind(), QStringList{house.stockNumber(house.staying)});
        QCOMPARE(entriesOf(back.settings.file, stream), before);
        QVERIFY(!back.store->ledger().car(house.staying)->released);
        QCOMPARE(back.faults(), QString());
    }

    void carThatCameInSince_isNamedThoughNothingOfItReads()
    {
        HouseSince house;
        house.workOn();
        const QString stream = carStream(house.arrived);
        for (qint64 seq = house.lastOf(stream); seq > 0; --seq)
            house.lose(stream, seq);
        const Back back(house);
        QCOMPARE(back.leftBehind(),
                 QStringList{house.stockNumber(house.arrived) + QStringLiteral(" (new)")});
        QVERIFY(back.came(house.staying));
        QVERIFY(!back.store->ledger().car(house.arrived)->exists());
        QCOMPARE(back.faults(), QString());
    }

    void commandIntoTwoCars_comesWholeOrNotAtAll_data()
    {
        QTest::addColumn<bool>("isEarlier");
        QTest::newRow("an entry of the command") << false;
        QTest::newRow("one that stands before it") << true;
    }

    void commandIntoTwoCars_comesWholeOrNotAtAll()
    {
        QFETCH(const bool, isEarlier);
        HouseSince house;
        house.workOn();
        const CarId again = house.bench.appraised();
        QVERIFY(house.bench.workshop.mergeDuplicate(house.bench.command(), house.bench.manager,
                                                    house.other, again, "typed in twice"));
        house.write();
        house.lose(carStream(again), isEarlier ? 1 : house.lastOf(carStream(again)));
        const Back back(house);
        QStringList both{house.stockNumber(house.other),
                         house.stockNumber(again) + QStringLiteral(" (new)")};
        both.sort();
        QCOMPARE(back.leftBehind(), both);
        QVERIFY(back.came(house.staying));
        QCOMPARE(back.faults(), QString());
    }

    void sitesStreamLost_whatRestsOnItStays()
    {
        HouseSince house;
        house.bench.found(house.other, "brakes-front", Condition::Worn);
        QCOMPARE(
            house.bench.ask(house.bench.manager,
                            site::SetBay{{{}, 4, QStringLiteral("Yard"), BayKind::Parking, true}}),
            done);
        house.bench.found(house.staying, "wheel-front-left", Condition::Kerbed);
        house.write();
        house.lose(siteStream(), house.lastOf(siteStream()));
        const Back back(house);
        QVERIFY(back.out.siteLeftBehind);
        QVERIFY(!back.out.staffCame);
        QCOMPARE(back.leftBehind(), QStringList{house.stockNumber(house.staying)});
        QVERIFY(back.came(house.other));
        QCOMPARE(back.faults(), QString());
    }

    // What came of the ledger knows of a later seal over the staff than the one that stays.
    void staffThatStays_isNotTakenForOneThatWasPutBack()
    {
        HouseSince house;
        house.workOn();
        house.bench.found(house.other, "wheel-front-left", Condition::Kerbed);
        house.write();
        QCOMPARE(
            house.bench.ask(house.bench.manager, site::SetBay{{{}, 9, "Yard", BayKind::Any, true}}),
            done);
        house.write();
        house.lose(siteStream(), house.lastOf(siteStream()));
        const Back back(house);
        QVERIFY(!back.out.staffCame);
        QVERIFY(back.came(house.other));
        QCOMPARE(back.faults(), QString());
    }

    void sealThatIsNotTheSites_isNotLetIn()
    {
        HouseSince house;
        house.workOn();
        const QString stream = carStream(house.other);
        // Somebody with the file writes an entry with a true hash.
        Stranger(house.database.settings())
            .writeWithHeads(stream, CommandId{QStringLiteral("next door")},
                            encode(Hand::opened(99)), keeperWith("a key of next door"));
        const Back back(house);
        QCOMPARE(back.leftBehind(), QStringList{house.stockNumber(house.other)});
        QVERIFY(back.came(house.staying));
        QCOMPARE(back.faults(), QString());
    }

    void noEntryReads_theIndexNamesTheCars()
    {
        HouseSince house;
        house.workOn();
        const QStringList before = entriesOf(house.backupFile(), headsStream());
        tearPageOf(house.database.settings().file, "ledger");
        const Back back(house);
        QCOMPARE(back.out.hindrance, QString());
        QVERIFY(!back.out.perhapsMore);
        QCOMPARE(back.out.entries, qint64{0});
        QCOMPARE(back.leftBehind(), house.everyCar());
        QCOMPARE(entriesOf(back.settings.file, headsStream()), before);
        QCOMPARE(back.faults(), QString());
    }

    void anEntryThatNothingNames_nothingComes_andTheCarsOfTheTableAreNamed_data()
    {
        QTest::addColumn<QByteArrayList>("torn");
        QTest::addColumn<QString>("forged");
        QTest::newRow("rows and index")
            << QByteArrayList{"ledger", "sqlite_autoindex_ledger_1"} << QString();
        QTest::newRow("a row of both") << QByteArrayList()
                                       << QStringLiteral("DELETE FROM ledger WHERE position ="
                                                         " (SELECT max(position) - 3 FROM ledger)");
        // Rows and index agree on the end; the commands cannot be asked, and the table of the cars
        // knows of more.
        QTest::newRow("the end, and the index")
            << QByteArrayList{"sqlite_autoindex_ledger_1"}
            << QStringLiteral("DELETE FROM ledger WHERE position >"
                              " (SELECT max(position) - 2 FROM ledger)");
    }

    void anEntryThatNothingNames_nothingComes_andTheCarsOfTheTableAreNamed()
    {
        QFETCH(const QByteArrayList, torn);
        QFETCH(const QString, forged);
        HouseSince house;
        house.workOn();
        const QStringList before = entriesOf(house.backupFile(), headsStream());
        if (!forged.isEmpty())
            house.forge(forged);
        for (const QByteArray& name : torn)
            tearPageOf(house.database.settings().file, name.constData());
        const Back back(house);
        QVERIFY2(back.out.hindrance.contains(QStringLiteral("damaged")),
                 qPrintable(back.out.hindrance));
        QVERIFY(back.out.perhapsMore);
        QVERIFY(!back.out.staffCame);
        QCOMPARE(back.leftBehind(), house.everyCar());
        QCOMPARE(entriesOf(back.settings.file, headsStream()), before);
        QCOMPARE(back.faults(), QString());
    }

    // All that is left of the ledger agrees; only the table of the cars knows one further.
    void carThatItsTableKnowsFurther_isLeft()
    {
        HouseSince house;
        house.workOn();
        house.forge(QStringLiteral("DELETE FROM ledger WHERE command ="
                                   " (SELECT command FROM ledger ORDER BY position DESC LIMIT 1)"));
        house.forge(QStringLiteral("DELETE FROM command WHERE command NOT IN"
                                   " (SELECT command FROM ledger)"));
        const Back back(house);
        QCOMPARE(back.out.hindrance, QString());
        QCOMPARE(back.leftBehind(),
                 QStringList{house.stockNumber(house.arrived) + QStringLiteral(" (new)")});
        QVERIFY(back.came(house.staying));
        QCOMPARE(back.faults(), QString());
    }

    void bayOfACarThatStays_isNotGivenTwice()
    {
        HouseSince house;
        for (const auto& [car, state] : std::map(house.bench.ledger.cars()))
            if (state.bay == house.bench.lift)
                house.bench.must(house.bench.mechanic, car,
                                 car::MoveCar{{}, QStringLiteral("yard")});
        house.bench.must(house.bench.mechanic, house.staying, car::MoveCar{house.bench.lift, {}});
        {
            const auto store = house.database.open();
            house.write(*store);
            QVERIFY(QFile::remove(house.backupFile()));
            QVERIFY(snapshot(house.database.settings(), house.backupFile()));
        }
        house.bench.must(house.bench.mechanic, house.staying,
                         car::MoveCar{{}, QStringLiteral("yard")});
        house.bench.must(house.bench.mechanic, house.other, car::MoveCar{house.bench.lift, {}});
        house.write();
        house.lose(carStream(house.staying), house.lastOf(carStream(house.staying)));
        const Back back(house);
        QCOMPARE(back.out.hindrance, QString());
        QCOMPARE(back.out.leftBehind.size(), std::size_t{2});
        QCOMPARE(back.faults(), QString());
    }

    void staffThatSomebodyChanged_isTheBackups()
    {
        HouseSince house;
        house.workOn();
        house.forge(QStringLiteral("UPDATE credential SET pin_hash = 'forged'"));
        const Back back(house);
        QVERIFY(!back.out.staffCame);
        QVERIFY(back.came(house.staying));
        QCOMPARE(back.store->credentials().pinHash(house.bench.mechanic).value(),
                 std::optional<QByteArray>("a hash"));
        QCOMPARE(back.store->credentials().pinHash(house.bench.checker).value(),
                 std::optional<QByteArray>());
        QCOMPARE(back.faults(), QString());
    }

    // Brought back from an older backup before, and now from the newest one.
    void fileThatIsOlderThanTheBackup_itsStaffDoesNotComeBack()
    {
        HouseSince house;
        const QString aside = house.backupFile() + QStringLiteral("2");
        QVERIFY(QFile::copy(house.backupFile(), aside));
        house.workOn();
        QVERIFY(QFile::remove(house.backupFile()));
        QVERIFY(snapshot(house.database.settings(), house.backupFile()));
        const auto back = openIn(house.backupFile());
        const auto out = salvage(aside, back->ledger());
        QVERIFY(out);
        QCOMPARE(out->hindrance, QString());
        QCOMPARE(out->entries, qint64{0});
        QCOMPARE(out->leftBehind.size(), std::size_t{0});
        QVERIFY(!out->staffCame);
        QCOMPARE(back->credentials().pinHash(house.bench.checker).value(),
                 std::optional<QByteArray>("another hash"));
    }

    void otherWorkshop_otherHistory_noDatabase_areTold()
    {
        {
            HouseSince house;
            HouseSince next;
            const auto back = openIn(house.backupFile());
            const auto out = salvage(next.database.settings().file, back->ledger());
            QVERIFY(out);
            QVERIFY2(out->hindrance.contains(QStringLiteral("another workshop")),
                     qPrintable(out->hindrance));
        }
        {
            // Another restore went on from an older backup.
            HouseSince house;
            const QString aside = house.backupFile() + QStringLiteral("2");
            QVERIFY(QFile::copy(house.backupFile(), aside));
            house.workOn();
            QVERIFY(QFile::remove(house.backupFile()));
            QVERIFY(snapshot(house.database.settings(), house.backupFile()));
            const auto parted = openIn(aside);
            Hand hand(parted->ledger());
            hand.now = house.bench.clock.now();
            for (const char* stock : {"P-1", "P-2", "P-3", "P-4", "P-5", "P-6", "P-7", "P-8"}) {
                Append append = hand.with(CarId{QString::fromLatin1(stock)},
                                          {Hand::arrival(QString::fromLatin1(stock))});
                QCOMPARE(outcome(parted->ledger().append(append)), QStringLiteral("ok"));
            }
            const auto back = openIn(house.backupFile());
            const auto out = salvage(aside, back->ledger());
            QVERIFY(out);
            QVERIFY2(out->hindrance.contains(QStringLiteral("parted")), qPrintable(out->hindrance));
        }
        {
            HouseSince house;
            house.workOn();
            const QString aside = house.backupFile() + QStringLiteral("2");
            QFile file(aside);
            QVERIFY(file.open(QIODevice::WriteOnly) && file.write("torn to pieces") > 0);
            file.close();
            const auto back = openIn(house.backupFile());
            const auto out = salvage(aside, back->ledger());
            QVERIFY(out);
            QVERIFY(!out->hindrance.isEmpty() && out->perhapsMore);
        }
    }

    void keysRenewedSince_isSealedWithTheNewOnes()
    {
        HouseSince house;
        HeadKeeper renewed = keeperWith("the new key");
        renewed.keyId = QStringLiteral("new");
        renewed.past = {{keeperWith().keyId, keeperWith().digest}};
        {
            const auto store = house.database.open();
            QVERIFY(renewKeys(store->ledger().connection(), store->ledger().siteId(), renewed));
        }
        house.bench.found(house.other, "brakes-front", Condition::Worn);
        house.bench.found(house.staying, "wheel-front-left", Condition::Kerbed);
        {
            const auto store = house.database.open(renewed);
            house.write(*store);
        }
        house.lose(carStream(house.other), house.lastOf(carStream(house.other)));
        {
            const auto store = openIn(house.backupFile());
            QVERIFY(store);
            QVERIFY(renewKeys(store->ledger().connection(), store->ledger().siteId(), renewed));
        }
        const Back back(house, renewed);
        QCOMPARE(back.leftBehind(), QStringList{house.stockNumber(house.other)});
        QVERIFY(back.came(house.staying));
        QVERIFY(back.out.staffCame);
        QCOMPARE(back.faults(), QString());
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestSalvage)
#include "tst_salvage.moc"
