// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storagebench.h"
#include "support/testmain.h"

#include "../domain/randomworkshop.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

// The check of a whole ledger: silent about what is in order, and it names what is not.
class TestVerifier : public QObject
{
    Q_OBJECT

private slots:
    void wholeLedger_isWhole_data() { addKinds(); }

    void wholeLedger_isWhole()
    {
        QFETCH(StoreKind, kind);
        TestDatabase database(kind);
        const auto store = story(database);
        int photos = 0;
        const VerifyReport report =
            Verifier(store->ledger(), [&](const std::set<PhotoId>& kept) {
                photos = int(kept.size());
                return tl::expected<VaultReport, EvidenceError>(VaultReport{});
            }).run();
        QCOMPARE(told(report), QString());
        QCOMPARE(report.notChecked, QStringList());
        QCOMPARE(report.cars, 5);
        QCOMPARE(report.photos, photos);
        QVERIFY(photos > 0);
        QCOMPARE(report.entries, database.ask("SELECT count(*) FROM ledger").toLongLong());
    }

    void randomHistories_areWholeAndRebuildToTheSame_data()
    {
        QTest::addColumn<StoreKind>("kind");
        QTest::addColumn<int>("seed");
        // tst_invariants has its thousands in memory. RAMPLIGHT_SEQUENCES: its figure; where that
        // is a long run's, so many in a file, too, and a tenth on a server, which is slower.
        const int wanted = qEnvironmentVariableIntValue("RAMPLIGHT_SEQUENCES");
        const bool isLong = wanted > 300;
        forEachKind([&](const char* prefix, StoreKind kind) {
            const int sequences = !isLong                     ? (aPartIsEnough() ? 2 : 4)
                                  : kind == StoreKind::Sqlite ? wanted
                                                              : wanted / 10;
            for (int seed = 1; seed <= sequences; ++seed)
                QTest::addRow("%s, %d", prefix, seed) << kind << seed;
        });
    }

    void randomHistories_areWholeAndRebuildToTheSame()
    {
        QFETCH(StoreKind, kind);
        QFETCH(int, seed);
        Tally tally;
        RandomWorkshop random(static_cast<quint64>(seed), tally);
        QVERIFY2(random.run(60), qPrintable(random.what()));
        TestDatabase database(kind);
        const auto store = database.open();
        QCOMPARE(outcome(replay(random.ledger().accepted(), store->ledger())),
                 QStringLiteral("ok"));
        for (const auto& [id, car] : random.ledger().cars())
            QVERIFY(store->ledger().car(id).value() == car);
        QCOMPARE(told(Verifier(store->ledger()).run()), QString());

        const QString rows = readTables(database);
        QCOMPARE(rebuildReadTables(store->ledger()).value(),
                 static_cast<int>(random.ledger().cars().size()));
        QCOMPARE(told(Verifier(store->ledger()).run()), QString());
        QCOMPARE(readTables(database), rows);
    }

    void forgery_isNamed_data()
    {
        QTest::addColumn<StoreKind>("kind");
        QTest::addColumn<QString>("statement");
        QTest::addColumn<QString>("expected");
        forEachKind([](const char* prefix, StoreKind kind) {
            const auto row = [&](const char* name, const QString& statement,
                                 const QString& expected) {
                QTest::addRow("%s, %s", prefix, name) << kind << statement << expected;
            };
            row("an entry's body",
                "UPDATE ledger SET body = '{}' WHERE stream = 'car/car-1'"
                " AND seq = 2",
                "car/car-1, entry 2: entry 2 of car/car-1 is not what was written");
            row("an entry's author",
                "UPDATE ledger SET actor = 4 WHERE stream = 'car/car-1'"
                " AND type = 'car-released'",
                "is not what was written");
            row("an entry's time",
                "UPDATE ledger SET at = at + 1 WHERE stream = 'site' AND seq = 3",
                "site, entry 3: entry 3 of site is not what was written");
            row("the last entry taken away",
                "DELETE FROM ledger WHERE stream = 'car/car-5' AND seq ="
                " (SELECT max(seq) FROM ledger WHERE stream = 'car/car-5')",
                "the heads name it, but it is not in the ledger");
            row("an entry in the middle taken away",
                "DELETE FROM ledger WHERE stream = 'car/car-1' AND seq = 3",
                "car/car-1, entry 4: entry 4 of car/car-1 does not follow the one before it");
            row("a whole car taken away", "DELETE FROM ledger WHERE stream = 'car/car-2'",
                "car/car-2: the whole stream is missing");
            row("a head taken away",
                "DELETE FROM ledger WHERE stream = 'heads' AND seq ="
                " (SELECT max(seq) FROM ledger WHERE stream = 'heads')",
                "no head covers it");
            row("an entry that no command wrote",
                "INSERT INTO ledger (site, stream, seq, at, actor, command, type, version, body,"
                " prev_hash, hash) SELECT site, stream, seq + 1, at, actor, command, type,"
                " version, body, hash, hash FROM ledger WHERE stream = 'car/car-5' AND seq ="
                " (SELECT max(seq) FROM ledger WHERE stream = 'car/car-5')",
                "no head covers it: it was not written by the program");
            row("a command taken for another",
                "UPDATE command SET entries = entries + 1"
                " WHERE command = 'command-3'",
                "command command-3: it wrote");
            row("a command's time", "UPDATE command SET at = at + 8 WHERE command = 'command-3'",
                "command command-3: its person or time is not that of its entries");
            row("a command's person",
                "UPDATE command SET actor = actor + 1 WHERE command = 'command-3'",
                "command command-3: its person or time is not that of its entries");
            row("an unknown type",
                "UPDATE ledger SET type = 'car-blessed'"
                " WHERE stream = 'car/car-1' AND seq = 2",
                "\"car-blessed\" is not known");
            row("a stream of no site",
                "UPDATE ledger SET stream = 'lorry/1'"
                " WHERE stream = 'car/car-2'",
                "lorry/1: no stream of that name");
            row("a name", "UPDATE person_name SET name = 'Nobody' WHERE person = 2",
                "staff tables: a name, PIN, badge");
            row("a PIN taken over",
                "UPDATE credential SET pin_hash = (SELECT max(pin_hash) FROM credential)",
                "staff tables: a name, PIN, badge");
            row("a setting", "INSERT INTO setting SELECT site, 'colour', 'slate' FROM site",
                "staff tables: a name, PIN, badge");
            row("a card", "UPDATE car SET card = '{}' WHERE car = 'car-3'",
                "read tables, car car-3: not what the ledger makes: card");
            row("a car's bay", "UPDATE car SET bay = 2 WHERE car = 'car-3'", "ledger makes: bay");
            row("a car off the wall",
                "UPDATE car SET on_wall = 0, status = 'released'"
                " WHERE car = 'car-3'",
                "status, on_wall");
            row("a car's row", "DELETE FROM car WHERE car = 'car-4'",
                "read tables, car car-4: the car is in the ledger but not in its table");
            row("a row of no car", "INSERT INTO photo_use SELECT site, 'p', 'ghost' FROM site",
                "read tables, car ghost: the ledger knows no such car");
            row("a stretch of work",
                "UPDATE work_segment SET start_at = start_at - 60000"
                " WHERE end_at IS NULL",
                "the stretches of work are not those");
            row("a photo", "DELETE FROM photo_use WHERE car = 'car-4'",
                "read tables, car car-4: the photos are not those");
        });
    }

    void forgery_isNamed()
    {
        QFETCH(StoreKind, kind);
        QFETCH(QString, statement);
        QFETCH(QString, expected);
        TestDatabase database(kind);
        const auto store = story(database);
        QCOMPARE(database.forge(statement), QString());
        const QString report = told(Verifier(store->ledger()).run());
        QVERIFY2(report.contains(expected), qPrintable(report));
        QVERIFY2(!report.contains(schemaFaults() + ":"), qPrintable(report));
    }

    // Whoever has the file can make every hash anew; only the key's holder can seal.
    void ledgerWrittenAgainByAnother_isNamedByItsSeals_data() { addKinds(); }

    void ledgerWrittenAgainByAnother_isNamedByItsSeals()
    {
        QFETCH(StoreKind, kind);
        TestDatabase database(kind);
        Workbench bench;
        tellStory(bench);
        {
            const auto forger = database.open(keeperWith("a guess"));
            QVERIFY(replay(bench.ledger.accepted(), forger->ledger()));
        }
        const auto store = database.open();
        QVERIFY(told(Verifier(store->ledger()).run()).contains("not made with the site's key"));
        const auto keyless = database.open({});
        const VerifyReport report = Verifier(keyless->ledger()).run();
        QCOMPARE(told(report), QString());
        QVERIFY(report.notChecked.join(' ').contains("seals of the heads"));
        // Written without a key, read with one.
        Hand hand(keyless->ledger());
        QVERIFY(keyless->ledger().append(hand.withSite({})));
        QVERIFY(keyless->ledger().append(hand.withSite({HouseRulesSet{}})));
        QVERIFY(told(Verifier(store->ledger()).run()).contains("it carries no seal"));
    }

    // An entry may be whole and still break a rule: the rules are decided again.
    void entryThatNoRuleAllows_isNamed_data() { addKinds(); }

    void entryThatNoRuleAllows_isNamed()
    {
        QFETCH(StoreKind, kind);
        TestDatabase database(kind);
        const auto store = story(database);
        Hand hand(store->ledger());
        hand.now = Moment{1'940'000'000'000};
        QCOMPARE(outcome(store->ledger().append(
                     hand.with(CarId{QStringLiteral("car-4")}, {CarReleased{3}}))),
                 QStringLiteral("ok"));
        const VerifyReport report = Verifier(store->ledger()).run();
        QVERIFY(!report.isWhole());
        for (const LedgerFault& fault : report.faults)
            QVERIFY2(fault.where.startsWith(QStringLiteral("car/car-4, entry")),
                     qPrintable(told(report)));
    }

    void photo_missing_isNamed_data() { addKinds(); }

    void photo_missing_isNamed()
    {
        QFETCH(StoreKind, kind);
        TestDatabase database(kind);
        const auto store = story(database);
        const VerifyReport without = Verifier(store->ledger()).run();
        QVERIFY(without.notChecked.join(' ').contains("photos"));
        VaultReport found;
        const auto check = [&](const std::set<PhotoId>& kept) {
            found.missing = {*kept.begin()};
            return tl::expected<VaultReport, EvidenceError>(found);
        };
        const VerifyReport missing = Verifier(store->ledger(), check).run();
        QCOMPARE(missing.faults.size(), std::size_t{1});
        QCOMPARE(missing.faults.front().where, "photo " + found.missing.front().text);
        const VerifyReport away = Verifier(store->ledger(), [](const std::set<PhotoId>&) {
                                      return tl::expected<VaultReport, EvidenceError>(
                                          tl::unexpected(EvidenceError::FolderMissing));
                                  }).run();
        QCOMPARE(told(away), "photos: " + words(EvidenceError::FolderMissing));
    }

    void photo_removedUnderTheRetention_isNoFault_data() { addKinds(); }

    void photo_removedUnderTheRetention_isNoFault()
    {
        QFETCH(StoreKind, kind);
        TestDatabase database(kind);
        HouseRules rules;
        rules.photoYears = 6;
        Workbench bench(rules);
        const CarId sold = bench.appraised();
        const CarId here = bench.appraised();
        const PhotoId shared = bench.photo();
        const PhotoId own = bench.photo();
        for (const auto& [car, photo] :
             {std::pair{sold, shared}, std::pair{sold, own}, std::pair{here, shared}})
            bench.must(bench.appraiser, car,
                       car::AttachPhoto{photo, PhotoMoment::Before, wholeCar(), {}, {}});
        bench.release(sold);
        bench.clock.pass(8 * 366 * 24 * 60);
        bench.must(bench.manager, sold, car::RemovePhotos{});
        const auto store = database.open();
        QCOMPARE(outcome(replay(bench.ledger.accepted(), store->ledger())), QStringLiteral("ok"));

        VaultReport found;
        std::set<PhotoId> asked;
        const auto check = [&](const std::set<PhotoId>& kept) {
            asked = kept;
            return tl::expected<VaultReport, EvidenceError>(found);
        };
        const PhotoId stray{QString(64, QLatin1Char('e'))};
        found.orphans = {own, stray};
        const VerifyReport report = Verifier(store->ledger(), check).run();
        QCOMPARE(told(report), QString());
        QVERIFY(!asked.contains(own));
        QVERIFY(asked.contains(shared)); // the other car keeps it
        QVERIFY(report.photosRemoved >= 1);
        QCOMPARE(report.remarks.size(), 2);
        QVERIFY(report.remarks.first().contains("removed under the retention"));
        QVERIFY(report.remarks.last().contains("no entry names it"));

        SqlLedger& ledger = store->ledger();
        QCOMPARE(keptPhotos(ledger.connection(), ledger.siteId()).value(), asked);
        QCOMPARE(goneCarsWithPhotos(ledger.connection(), ledger.siteId()).value(), QStringList());
        const QString rows = readTables(database);
        QVERIFY(rebuildReadTables(ledger));
        QCOMPARE(readTables(database), rows);
        QCOMPARE(told(Verifier(ledger, check).run()), QString());
    }

    void rebuild_mendsTheReadTables_data() { addKinds(); }

    void rebuild_mendsTheReadTables()
    {
        QFETCH(StoreKind, kind);
        TestDatabase database(kind);
        const auto store = story(database);
        const QString rows = readTables(database);
        for (const char* statement :
             {"DELETE FROM photo_use", "UPDATE car SET card = '{}', bay = 0",
              "UPDATE work_segment SET end_at = 5", "DELETE FROM car WHERE car = 'car-1'"})
            QCOMPARE(database.sql(QString::fromLatin1(statement)), QString());
        QVERIFY(!Verifier(store->ledger()).run().isWhole());
        QCOMPARE(rebuildReadTables(store->ledger()).value(), 5);
        QCOMPARE(told(Verifier(store->ledger()).run()), QString());
        QCOMPARE(readTables(database), rows);
    }

    void readTables_ofAnOlderVersion_areFilledAnewOnOpening_data()
    {
        QTest::addColumn<StoreKind>("kind");
        QTest::addColumn<QString>("filledBy");
        QTest::addColumn<bool>("anew");
        forEachKind([](const char* prefix, StoreKind kind) {
            QTest::addRow("%s, older", prefix) << kind << "= '0'" << true;
            QTest::addRow("%s, never noted", prefix) << kind << QString() << true;
            QTest::addRow("%s, newer", prefix) << kind << "= '1000000'" << false;
        });
    }

    void readTables_ofAnOlderVersion_areFilledAnewOnOpening()
    {
        QFETCH(StoreKind, kind);
        QFETCH(QString, filledBy);
        QFETCH(bool, anew);
        TestDatabase database(kind);
        story(database).reset();
        const QString rows = readTables(database);
        QCOMPARE(database.sql("UPDATE car SET promised = '2031-01-01'"), QString());
        const QString bent = readTables(database);
        // Of this version: they are taken as they are.
        database.open().reset();
        QCOMPARE(readTables(database), bent);
        QCOMPARE(database.sql((filledBy.isEmpty() ? QStringLiteral("DELETE FROM setting")
                                                  : "UPDATE setting SET value " + filledBy) +
                              " WHERE name = 'read-tables-version'"),
                 QString());
        const auto store = database.open();
        QCOMPARE(readTables(database), anew ? rows : bent);
        QCOMPARE(Verifier(store->ledger()).run().isWhole(), anew);
    }

    void damagedLedger_opensThoughItsReadTablesAreOld_data() { addKinds(); }

    void damagedLedger_opensThoughItsReadTablesAreOld()
    {
        QFETCH(StoreKind, kind);
        TestDatabase database(kind);
        story(database).reset();
        QCOMPARE(database.forge("UPDATE ledger SET body = '{}' WHERE stream = 'car/car-3'"
                                " AND seq = 1"),
                 QString());
        QCOMPARE(database.sql("DELETE FROM setting"), QString());
        const QString rows = readTables(database);
        const auto store = database.open();
        QVERIFY(store);
        QCOMPARE(readTables(database), rows);
        QVERIFY(!Verifier(store->ledger()).run().isWhole());
    }

    void rebuild_ofADamagedLedger_changesNothing_data() { addKinds(); }

    void rebuild_ofADamagedLedger_changesNothing()
    {
        QFETCH(StoreKind, kind);
        TestDatabase database(kind);
        const auto store = story(database);
        QCOMPARE(database.forge("UPDATE ledger SET body = '{}' WHERE stream = 'car/car-3'"
                                " AND seq = 1"),
                 QString());
        const QString rows = readTables(database);
        const auto result = rebuildReadTables(store->ledger());
        QVERIFY(!result);
        QCOMPARE(result.error().kind, StoreErrorKind::Damaged);
        QCOMPARE(readTables(database), rows);
    }

private:
    static std::unique_ptr<Store> story(TestDatabase& database)
    {
        auto store = storyIn(database);
        for (int person = 1; person <= 2; ++person)
            if (!store->credentials().setPinHash(PersonId{person}, QByteArray::number(person)))
                qFatal("no PIN");
        return store;
    }

    /// All read tables in one text.
    static QString readTables(TestDatabase& database)
    {
        return database.dump("SELECT * FROM car ORDER BY car") +
               database.dump("SELECT * FROM work_segment ORDER BY car, segment") +
               database.dump("SELECT * FROM photo_use ORDER BY photo, car");
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestVerifier)
#include "tst_verifier.moc"
