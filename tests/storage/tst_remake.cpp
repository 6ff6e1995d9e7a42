// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kioskbench.h"
#include "tornpage.h"

#include "storage/remake.h"
#include "support/testmain.h"

#include <QFile>
#include <QSignalSpy>

#include <functional>

using namespace ramplight;
using namespace ramplight::test;

namespace {

const Moment evening{1'940'000'000'000};

/// A house's file with a story and staff in it, closed.
class ToldHouse
{
public:
    ToldHouse()
    {
        tellStory(bench);
        const auto store = database.open();
        if (!replay(bench.ledger.accepted(), store->ledger()) ||
            !store->credentials().setPinHash(PersonId{1}, "a hash"))
            qFatal("the story cannot be written");
        wall = wallOf(*store);
    }

    [[nodiscard]] const QString& file() const { return database.settings().file; }
    static QStringList wallOf(Store& store)
    {
        QStringList cards;
        const auto wall = store.wall().wall();
        for (const CarCard& card : wall.value())
            cards.append(card.car.text + QLatin1Char(' ') + card.identity.stockNumber);
        return cards;
    }
    /// All of the ledger.
    [[nodiscard]] QString entries() const
    {
        const auto connection = Connection::open(database.settings()).value();
        QStringList all;
        auto rows = connection->run("SELECT stream, seq, hash, body FROM ledger ORDER BY position");
        while (rows->next())
            all.append(rows->text(0) + rows->text(1) + rows->text(2) + rows->text(3));
        return all.join(QLatin1Char('\n'));
    }

    Workbench bench;
    TestDatabase database{StoreKind::Sqlite};
    QStringList wall;
};

using Harm = std::function<void(ToldHouse&)>;

Harm statement(const char* sql)
{
    return [sql](ToldHouse& house) {
        if (const QString said = house.database.forge(QLatin1String(sql)); !said.isEmpty())
            qFatal("%s", qPrintable(said));
    };
}

Harm torn(const char* name)
{
    return [name](ToldHouse& house) { tearPageOf(house.file(), name); };
}

} // namespace

Q_DECLARE_METATYPE(Harm)
Q_DECLARE_METATYPE(Hurt)

// A damaged file of which the ledger is whole is made anew out of that; what more is hurt is left
// as it is, for a backup.
class TestRemake : public QObject
{
    Q_OBJECT

private slots:
    void readTablesAlone_areMadeAnew_data()
    {
        QTest::addColumn<Harm>("harm");
        QTest::newRow("a card") << statement("UPDATE car SET card = '{}'");
        QTest::newRow("a car too many")
            << statement("INSERT INTO car SELECT site, 'ghost', seq, rules_seq, 'G-1', 'G1', '',"
                         " status, on_wall, gone, 0, promised, arrived_at, last_at, released_at,"
                         " card FROM car LIMIT 1");
        QTest::newRow("stretches of work") << statement("DELETE FROM work_segment");
        QTest::newRow("which photos are needed") << statement("DELETE FROM photo_use");
        QTest::newRow("a page of the cards") << torn("car");
        QTest::newRow("a page of the search") << torn("car_search");
        QTest::newRow("a page of the stretches") << torn("work_segment");
        QTest::newRow("a page of the photos") << torn("photo_use");
        QTest::newRow("a trigger of another") << Harm([](ToldHouse& house) {
            QCOMPARE(house.database.sql("CREATE TRIGGER forgets AFTER INSERT ON pin_failure BEGIN"
                                        " DELETE FROM pin_failure; END"),
                     QString());
        });
        QTest::newRow("a guard") << Harm([](ToldHouse& house) {
            QCOMPARE(house.database.sql("DROP TRIGGER ledger_no_update"), QString());
        });
    }

    void readTablesAlone_areMadeAnew()
    {
        QFETCH(Harm, harm);
        ToldHouse house;
        const QString entries = house.entries();
        QCOMPARE(hurtIn(house.database.settings(), keeperWith()), Hurt::Nothing);
        harm(house);
        QCOMPARE(hurtIn(house.database.settings(), keeperWith()), Hurt::ReadTables);
        const auto remade = remakeFile(house.database.settings(), keeperWith(), {}, evening);
        QVERIFY2(remade, qPrintable(remade ? QString() : remade.error().words));
        QCOMPARE(remade->cars, 5);
        QVERIFY2(remade->setAside.endsWith(QStringLiteral(".damaged-20310623-165320")),
                 qPrintable(remade->setAside));
        QVERIFY(QFile::exists(remade->setAside));
        QVERIFY(!QFile::exists(house.file() + QStringLiteral(".remade")));
        QCOMPARE(hurtIn(house.database.settings(), keeperWith()), Hurt::Nothing);
        const auto store = house.database.open();
        QCOMPARE(
            told(Verifier(store->ledger(), [](const std::set<PhotoId>&) { return VaultReport{}; })
                     .run()),
            QString());
        QCOMPARE(ToldHouse::wallOf(*store), house.wall);
        QCOMPARE(store->credentials().pinHash(PersonId{1}).value(),
                 std::optional<QByteArray>("a hash"));
        QCOMPARE(house.entries(), entries);
    }

    void whatMoreIsHurt_isLeftForABackup_data()
    {
        QTest::addColumn<Harm>("harm");
        QTest::newRow("words of an entry")
            << statement("UPDATE ledger SET body = '{}' WHERE stream = 'car/car-1' AND seq = 2");
        QTest::newRow("an entry") << statement("DELETE FROM ledger WHERE position ="
                                               " (SELECT max(position) FROM ledger)");
        QTest::newRow("a PIN") << statement("UPDATE credential SET pin_hash = 'forged'");
        QTest::newRow("the seal of the staff") << statement("DELETE FROM setting");
        QTest::newRow("a command") << statement("UPDATE command SET entries = 9");
        QTest::newRow("a page of the ledger") << torn("ledger");
        QTest::newRow("a page of its order") << torn("sqlite_autoindex_ledger_1");
        QTest::newRow("a page of the settings") << torn("setting");
        QTest::newRow("both") << Harm([](ToldHouse& house) {
            torn("car")(house);
            torn("ledger")(house);
        });
    }

    void whatMoreIsHurt_isLeftForABackup()
    {
        QFETCH(Harm, harm);
        ToldHouse house;
        harm(house);
        QCOMPARE(hurtIn(house.database.settings(), keeperWith()), Hurt::More);
        const QByteArray before = bytesIn(house.file());
        const auto remade = remakeFile(house.database.settings(), keeperWith(), {}, evening);
        QVERIFY(!remade);
        QCOMPARE(remade.error().kind, StoreErrorKind::Damaged);
        QCOMPARE(bytesIn(house.file()), before);
        QVERIFY(!QFile::exists(house.file() + QStringLiteral(".remade")));
    }

    // As at the wall: whoever found it has the file open still, and closes it afterwards.
    void openAtAKiosk_isMadeAnew_data()
    {
        QTest::addColumn<QString>("name");
        QTest::addColumn<Hurt>("hurt");
        QTest::newRow("the cards") << QStringLiteral("car") << Hurt::ReadTables;
        QTest::newRow("who worked when") << QStringLiteral("work_segment") << Hurt::ReadTables;
        QTest::newRow("the commands") << QStringLiteral("command") << Hurt::More;
    }

    void openAtAKiosk_isMadeAnew()
    {
        QFETCH(QString, name);
        QFETCH(Hurt, hurt);
        ToldHouse house;
        const QString entries = house.entries();
        tearPageOf(house.file(), qPrintable(name));
        bool isMade = false;
        {
            StoreThread thread(house.database.settings(), keeperWith(), house.bench.clock,
                               house.bench.catalogue);
            const QSignalSpy damaged(&thread, &StoreThread::damaged);
            std::ignore = resultOf(thread.start());
            std::ignore =
                resultOf(thread.run([](Workshop&, Store& store) { return store.wall().wall(); }));
            QTRY_COMPARE_WITH_TIMEOUT(damaged.size(), 1, patientMs);
            QCOMPARE(hurtIn(house.database.settings(), keeperWith()), hurt);
            isMade = remakeFile(house.database.settings(), keeperWith(), {}, evening).has_value();
        }
        QCOMPARE(isMade, hurt == Hurt::ReadTables);
        if (!isMade)
            return;
        QCOMPARE(hurtIn(house.database.settings(), keeperWith()), Hurt::Nothing);
        QCOMPARE(ToldHouse::wallOf(*house.database.open()), house.wall);
        QCOMPARE(house.entries(), entries);
    }

private:
    static QByteArray bytesIn(const QString& path)
    {
        QFile file(path);
        return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestRemake)
#include "tst_remake.moc"
