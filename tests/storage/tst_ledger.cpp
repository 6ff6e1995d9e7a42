// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storagebench.h"

#include "storage/entrytable.h"
#include "support/testmain.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

namespace {

const CarId carOne{QStringLiteral("first")};
const CarId carTwo{QStringLiteral("second")};
constexpr PersonId signer{3};

} // namespace

// What every ledger promises, on each database: what was appended is there, whole and in order,
// and what does not fit is not.
class TestLedger : public QObject
{
    Q_OBJECT

private slots:
    void story_appended_readsAsTheMemoryLedgerHasIt_data() { addKinds(); }

    void story_appended_readsAsTheMemoryLedgerHasIt()
    {
        QFETCH(StoreKind, kind);
        Workbench bench;
        tellStory(bench);
        TestDatabase database(kind);
        const auto writing = database.open();
        QCOMPARE(outcome(replay(bench.ledger.accepted(), writing->ledger())), QStringLiteral("ok"));
        // The writer remembers; a second program has only what the database holds.
        const auto reading = database.open();
        for (SqlLedger* ledger : {&writing->ledger(), &reading->ledger()}) {
            for (const auto& [id, car] : bench.ledger.cars()) {
                QVERIFY(ledger->car(id).value() == car);
                QVERIFY(ledger->history(id).value() == bench.ledger.history(id).value());
                QVERIFY(ledger->carByStockNumber(car.identity.stockNumber).value() ==
                        bench.ledger.carByStockNumber(car.identity.stockNumber).value());
            }
            QVERIFY(ledger->site().value() == bench.ledger.site().value());
            const auto told = ledger->siteHistory().value();
            const auto expectedTold = bench.ledger.siteHistory().value();
            QCOMPARE(told.size(), expectedTold.size());
            for (std::size_t i = 0; i < told.size(); ++i) {
                QCOMPARE(told[i].seq, expectedTold[i].seq);
                QCOMPARE(told[i].by, expectedTold[i].by);
                QVERIFY(told[i].event == expectedTold[i].event);
            }
            const SiteState site = bench.ledger.site().value();
            for (const auto& [id, person] : site.people) {
                QCOMPARE(ledger->busyUntil(id).value().ms, bench.ledger.busyUntil(id).value().ms);
                const auto is = ledger->runningWork(id).value();
                const auto expected = bench.ledger.runningWork(id).value();
                QCOMPARE(is.has_value(), expected.has_value());
                if (!is)
                    continue;
                QVERIFY(is->car == expected->car && is->operation == expected->operation);
                QCOMPARE(is->stockNumber, expected->stockNumber);
                QCOMPARE(is->title, expected->title);
            }
            QCOMPARE(ledger->allRunningWork().value().size(), std::size_t{1});
            for (const auto& [id, bay] : site.bays)
                QCOMPARE(ledger->bayTakenBy(id).value(), bench.ledger.bayTakenBy(id).value());
            for (const Append& append : bench.ledger.accepted())
                QVERIFY(ledger->isKnown(append.command).value());
            QVERIFY(!ledger->isKnown(CommandId{QStringLiteral("never sent")}).value());
        }
    }

    void unknownCar_read_isNotThere_data() { addKinds(); }

    void unknownCar_read_isNotThere()
    {
        QFETCH(StoreKind, kind);
        TestDatabase database(kind);
        const auto store = database.open();
        QVERIFY(!store->ledger().car(carOne).value().exists());
        QCOMPARE(store->ledger().car(carOne).value().id.text, carOne.text);
        QVERIFY(store->ledger().history(carOne).value().empty());
        QVERIFY(!store->ledger().carByStockNumber(QStringLiteral("A1")).value());
        QVERIFY(!store->ledger().site().value().isSetUp());
    }

    void otherWriter_wasQuicker_isAConflictAndTheNextReadShowsIt_data() { addKinds(); }

    void otherWriter_wasQuicker_isAConflictAndTheNextReadShowsIt()
    {
        QFETCH(StoreKind, kind);
        TestDatabase database(kind);
        const auto here = database.open();
        const auto there = database.open();
        Hand hand(here->ledger());
        QCOMPARE(outcome(here->ledger().append(hand.with(carOne, {Hand::arrival("A1")}))),
                 QStringLiteral("ok"));
        QCOMPARE(there->ledger().car(carOne).value().seq, 1);
        const Append late = hand.with(carOne, {PromiseChanged{QDate(2031, 4, 1), "busy", {}}});
        QCOMPARE(outcome(there->ledger().append(
                     hand.with(carOne, {PromiseChanged{QDate(2031, 5, 1), "part late", {}}}))),
                 QStringLiteral("ok"));
        QCOMPARE(outcome(here->ledger().append(late)), QStringLiteral("conflict"));
        QCOMPARE(here->ledger().car(carOne).value().promised, QDate(2031, 5, 1));
        QVERIFY(!here->ledger().isKnown(late.command).value());
        QCOMPARE(outcome(here->ledger().append(
                     hand.with(carOne, {PromiseChanged{QDate(2031, 4, 1), "busy", {}}}))),
                 QStringLiteral("ok"));
        QCOMPARE(there->ledger().car(carOne).value().promised, QDate(2031, 4, 1));
    }

    // What spans streams: rights and rules are the site's, a person's timers lie on several cars.
    void siteOrTimers_wentOnMeanwhile_isAConflict_data() { addKinds(); }

    void siteOrTimers_wentOnMeanwhile_isAConflict()
    {
        QFETCH(StoreKind, kind);
        TestDatabase database(kind);
        const auto here = database.open();
        const auto there = database.open();
        Hand hand(here->ledger());
        const CarId carTwo{QStringLiteral("second")};
        for (const auto& [car, number] : {std::pair{carOne, "A1"}, {carTwo, "A2"}})
            QCOMPARE(outcome(here->ledger().append(
                         hand.with(car, {Hand::arrival(number), Hand::opened(1)}))),
                     QStringLiteral("ok"));
        Append decided = hand.with(carOne, {PromiseChanged{QDate(2031, 4, 1), "busy", {}}});
        decided.siteSeq = here->ledger().siteView()->state.seq;
        QCOMPARE(outcome(there->ledger().append(hand.withSite({HouseRulesSet{}}))),
                 QStringLiteral("ok"));
        QCOMPARE(outcome(here->ledger().append(decided)), QStringLiteral("conflict"));
        decided.siteSeq = here->ledger().siteView()->state.seq;
        QCOMPARE(outcome(here->ledger().append(decided)), QStringLiteral("ok"));

        const PersonId person{5};
        const Moment at = hand.now;
        const Append early = hand.with(carOne, {Hand::started(1, 1, person, at)});
        hand.now = at.plusMinutes(3);
        QCOMPARE(outcome(there->ledger().append(
                     hand.with(carTwo, {Hand::started(1, 1, person, at.plusMinutes(1)),
                                        Hand::stopped(1, 1, at.plusMinutes(3))}))),
                 QStringLiteral("ok"));
        QCOMPARE(outcome(here->ledger().append(early)), QStringLiteral("conflict"));
        // Nor at the same thousandth: two that begin at once could not be told apart.
        const Moment end = at.plusMinutes(3);
        for (const auto& [start, said] : {std::pair{end, "conflict"}, {Moment{end.ms + 1}, "ok"}})
            QCOMPARE(outcome(here->ledger().append(
                         hand.with(carOne, {Hand::started(1, 1, person, start)}))),
                     QString(said));
    }

    void command_sentTwice_isKeptOnce_data() { addKinds(); }

    void command_sentTwice_isKeptOnce()
    {
        QFETCH(StoreKind, kind);
        TestDatabase database(kind);
        const auto store = database.open();
        Hand hand(store->ledger());
        const Append arrival = hand.with(carOne, {Hand::arrival("A1")});
        QCOMPARE(outcome(store->ledger().append(arrival)), QStringLiteral("ok"));
        Append again = hand.with(carOne, {PromiseChanged{QDate(2031, 4, 1), "busy", {}}});
        again.command = arrival.command;
        QCOMPARE(outcome(store->ledger().append(again)), QStringLiteral("conflict"));
        QCOMPARE(store->ledger().car(carOne).value().seq, 1);
    }

    void append_isNotDone_leavesNothing_data()
    {
        QTest::addColumn<StoreKind>("kind");
        QTest::addColumn<QString>("what");
        QTest::addColumn<QString>("expected");
        forEachKind([](const char* prefix, StoreKind kind) {
            QTest::addRow("%s, a second timer of a person", prefix) << kind << "timer"
                                                                    << "busy";
            QTest::addRow("%s, a second car in the bay", prefix) << kind << "bay"
                                                                 << "busy";
            QTest::addRow("%s, a stock number twice", prefix) << kind << "stock"
                                                              << "conflict";
            QTest::addRow("%s, a seq that is behind", prefix) << kind << "behind"
                                                              << "conflict";
            QTest::addRow("%s, a seq that is ahead", prefix) << kind << "ahead"
                                                             << "conflict";
            QTest::addRow("%s, no command id", prefix) << kind << "command"
                                                       << "damaged";
            QTest::addRow("%s, a state that does not fit", prefix) << kind << "state"
                                                                   << "damaged";
        });
    }

    void append_isNotDone_leavesNothing()
    {
        QFETCH(StoreKind, kind);
        QFETCH(QString, what);
        QFETCH(QString, expected);
        TestDatabase database(kind);
        const auto store = database.open();
        SqlLedger& ledger = store->ledger();
        Hand hand(ledger);
        QCOMPARE(outcome(ledger.append(hand.with(carOne, {Hand::arrival("A1"), Hand::opened(1),
                                                          Hand::started(1, 1, signer, hand.now),
                                                          CarMoved{{1}, {}}}))),
                 QStringLiteral("ok"));
        QCOMPARE(outcome(ledger.append(hand.with(carTwo, {Hand::arrival("A2"), Hand::opened(1)}))),
                 QStringLiteral("ok"));

        // Two cars, and a photo and a name with them: all of it or nothing.
        CarEvent wrong = PromiseChanged{QDate(2031, 4, 1), "busy", {}};
        if (what == "timer")
            wrong = Hand::started(1, 1, signer, hand.now);
        else if (what == "bay")
            wrong = CarMoved{{1}, {}};
        else if (what == "stock")
            wrong = IdentityCorrected{std::get<CarArrived>(Hand::arrival("A1")).identity, "typo"};
        PhotoAttached photo;
        photo.photo = {QStringLiteral("a-photo")};
        Append append = hand.with({{carOne, {photo}}, {carTwo, {wrong}}});
        append.names.push_back({PersonId{1}, QStringLiteral("Orla")});
        if (what == "behind")
            --append.cars.back().afterSeq;
        else if (what == "ahead")
            ++append.cars.back().afterSeq;
        if (what == "behind" || what == "ahead")
            append.cars.back().after.seq = append.cars.back().afterSeq + 1;
        if (what == "command")
            append.command = {};
        if (what == "state")
            ++append.cars.back().after.seq;

        const QVariant before = database.ask("SELECT count(*) FROM ledger");
        const auto result = ledger.append(append);
        QCOMPARE(outcome(result), expected);
        QVERIFY(!result.error().words.isEmpty());
        QCOMPARE(database.ask("SELECT count(*) FROM ledger"), before);
        QCOMPARE(database.ask("SELECT count(*) FROM command").toInt(), 2);
        QCOMPARE(database.ask("SELECT count(*) FROM photo_use").toInt(), 0);
        QCOMPARE(database.ask("SELECT count(*) FROM person_name").toInt(), 0);
        QVERIFY(!ledger.isKnown(append.command).value());
        QVERIFY(ledger.car(carOne).value().photos.empty());
        QCOMPARE(outcome(ledger.append(
                     hand.with(carTwo, {PromiseChanged{QDate(2031, 4, 1), "busy", {}}}))),
                 QStringLiteral("ok"));
    }

    void carsAndTimers_changePlacesInOneAppend_data() { addKinds(); }

    void carsAndTimers_changePlacesInOneAppend()
    {
        QFETCH(StoreKind, kind);
        TestDatabase database(kind);
        const auto store = database.open();
        SqlLedger& ledger = store->ledger();
        Hand hand(ledger);
        QCOMPARE(outcome(ledger.append(hand.with(carOne, {Hand::arrival("A1"), Hand::opened(1),
                                                          Hand::started(1, 1, signer, hand.now),
                                                          CarMoved{{1}, {}}}))),
                 QStringLiteral("ok"));
        QCOMPARE(outcome(ledger.append(
                     hand.with(carTwo, {Hand::arrival("A2"), Hand::opened(1), CarMoved{{2}, {}}}))),
                 QStringLiteral("ok"));
        const Moment later = hand.now.plusMinutes(20);
        // The second car comes first on purpose: its bay and the person are still taken.
        QCOMPARE(outcome(ledger.append(
                     hand.with({{carTwo, {CarMoved{{1}, {}}, Hand::started(1, 1, signer, later)}},
                                {carOne, {Hand::stopped(1, 1, later), CarMoved{{2}, {}}}}}))),
                 QStringLiteral("ok"));
        QCOMPARE(ledger.bayTakenBy(BayId{1}).value(), QStringLiteral("A2"));
        QCOMPARE(ledger.bayTakenBy(BayId{2}).value(), QStringLiteral("A1"));
        QCOMPARE(ledger.runningWork(signer).value()->stockNumber, QStringLiteral("A2"));
        QCOMPARE(ledger.busyUntil(signer).value().ms, later.ms);
        QCOMPARE(ledger.nextWorkAfter(signer, hand.now).value().ms, later.ms);
        QVERIFY(ledger.nextWorkAfter(signer, later).value().isNull());
    }

    void stockNumber_ofACarThatLeft_isFree_data() { addKinds(); }

    void stockNumber_ofACarThatLeft_isFree()
    {
        QFETCH(StoreKind, kind);
        TestDatabase database(kind);
        const auto store = database.open();
        Hand hand(store->ledger());
        QCOMPARE(outcome(store->ledger().append(hand.with(
                     carOne, {Hand::arrival("A1"), CarLeft{LeavingHow::Trade, "rust", {}}}))),
                 QStringLiteral("ok"));
        QVERIFY(!store->ledger().carByStockNumber("A1").value());
        QCOMPARE(outcome(store->ledger().append(hand.with(carTwo, {Hand::arrival("A1")}))),
                 QStringLiteral("ok"));
        QCOMPARE(store->ledger().carByStockNumber("A1").value()->text, carTwo.text);
    }

    void words_ofAllScripts_comeBack_data()
    {
        QTest::addColumn<StoreKind>("kind");
        QTest::addColumn<QString>("words");
        forEachKind([](const char* prefix, StoreKind kind) {
            const auto row = [&](const char* name, const QString& words) {
                QTest::addRow("%s, %s", prefix, name) << kind << words;
            };
            row("accents", QStringLiteral("Žofie Ünlü, paint «œuvre»"));
            row("right to left", QStringLiteral("الباب الأمامي"));
            row("beyond the first plane", QString::fromUtf8("\xF0\x9F\x9A\x97 \xF0\x9F\x87\xB3"));
            row("combining", QString::fromUtf8("e\xCC\x81"));
            row("quotes and marks", QStringLiteral("it's \"50 %\"; -- ? \\ _ $1"));
            row("line ends", QStringLiteral("one\ntwo\r\n\tthree"));
            row("empty", QString());
        });
    }

    void words_ofAllScripts_comeBack()
    {
        QFETCH(StoreKind, kind);
        QFETCH(QString, words);
        TestDatabase database(kind);
        const auto store = database.open();
        Hand hand(store->ledger());
        Append append = hand.with(carOne, {Hand::arrival("A" + words, words),
                                           PromiseChanged{QDate(2031, 4, 1), words, {}}});
        append.names.push_back({PersonId{1}, words});
        append.site = SiteAppend{
            0,
            {SiteSetUp{"Quay " + words, false, {}}, PersonAdded{PersonId{1}, {}, {Right::Manage}}}};
        QCOMPARE(outcome(store->ledger().append(append)), QStringLiteral("ok"));
        const auto reading = database.open();
        QCOMPARE(reading->ledger().car(carOne).value().identity.registration, words);
        QVERIFY(reading->ledger().history(carOne).value() ==
                store->ledger().history(carOne).value());
        QCOMPARE(reading->ledger().site().value().name, "Quay " + words);
        QCOMPARE(reading->ledger().site().value().people.at(PersonId{1}).name, words);
        QCOMPARE(reading->ledger().carByStockNumber("A" + words).value()->text, carOne.text);
    }

    void ledger_changedByHand_isRefusedByTheDatabase_data()
    {
        QTest::addColumn<StoreKind>("kind");
        QTest::addColumn<QString>("statement");
        QTest::addColumn<QString>("words");
        const QString insert = QStringLiteral(
            "INSERT INTO ledger (site, stream, seq, at, actor, command, type, version, body,"
            " prev_hash, hash) SELECT site, stream, %1, at, actor, command, type, version, body,"
            " %2, hash FROM ledger WHERE stream = 'car/first' AND seq = 2");
        forEachKind([&](const char* prefix, StoreKind kind) {
            const auto row = [&](const char* name, const QString& statement, const char* words) {
                QTest::addRow("%s, %s", prefix, name) << kind << statement << words;
            };
            row("update", "UPDATE ledger SET body = '{}' WHERE seq = 1", "append only");
            row("update the same", "UPDATE ledger SET body = body", "append only");
            row("delete", "DELETE FROM ledger WHERE seq = 2", "append only");
            row("delete all", "DELETE FROM ledger", "append only");
            row("command changed", "UPDATE command SET entries = 9", "append only");
            row("command deleted", "DELETE FROM command", "append only");
            row("gap", insert.arg("4", "hash"), "chain broken");
            row("wrong hash before", insert.arg("3", "'" + QString(64, '0') + "'"), "chain broken");
            row("seq 0", insert.arg("0", "''"), "chain broken");
            if (kind == StoreKind::Sqlite) {
                row("replace by seq",
                    "INSERT OR REPLACE INTO ledger SELECT NULL, site, stream, seq, at, actor,"
                    " command, type, version, '{}', prev_hash, hash FROM ledger WHERE seq = 2",
                    "entry taken");
                row("replace by position",
                    "INSERT OR REPLACE INTO ledger SELECT position, site, 'car/x', 1, at, actor,"
                    " command, type, version, '{}', '', hash FROM ledger WHERE seq = 2",
                    "entry taken");
                row("replace a command",
                    "INSERT OR REPLACE INTO command SELECT site, command, at, actor, 9 FROM "
                    "command",
                    "command known");
            } else {
                row("truncate", "TRUNCATE ledger", "append only");
                row("truncate commands", "TRUNCATE command CASCADE", "append only");
            }
        });
    }

    void ledger_changedByHand_isRefusedByTheDatabase()
    {
        QFETCH(StoreKind, kind);
        QFETCH(QString, statement);
        QFETCH(QString, words);
        TestDatabase database(kind);
        const auto store = database.open();
        Hand hand(store->ledger());
        QCOMPARE(
            outcome(store->ledger().append(hand.with(
                carOne, {Hand::arrival("A1"), PromiseChanged{QDate(2031, 4, 1), "busy", {}}}))),
            QStringLiteral("ok"));
        const auto before = store->ledger().history(carOne).value();
        const QString said = database.sql(statement);
        QVERIFY2(said.contains("ramplight: " + words), qPrintable(said));
        const auto reading = database.open();
        QVERIFY(reading->ledger().history(carOne).value() == before);
    }

    void entry_changedBehindTheGuards_isNotRead_data() { addKinds(); }

    void entry_changedBehindTheGuards_isNotRead()
    {
        QFETCH(StoreKind, kind);
        TestDatabase database(kind);
        {
            const auto store = database.open();
            Hand hand(store->ledger());
            QCOMPARE(outcome(store->ledger().append(hand.with(carOne, {Hand::arrival("A1")}))),
                     QStringLiteral("ok"));
        }
        QCOMPARE(database.forge("UPDATE ledger SET actor = 2 WHERE stream = 'car/first'"),
                 QString());
        const auto store = database.open();
        const auto car = store->ledger().car(carOne);
        QVERIFY(!car);
        QCOMPARE(car.error().kind, StoreErrorKind::Damaged);
        QVERIFY(!store->ledger().history(carOne));
    }

    void append_sealsTheHeadsOfItsStreams_data() { addKinds(); }

    void append_sealsTheHeadsOfItsStreams()
    {
        QFETCH(StoreKind, kind);
        TestDatabase database(kind);
        const auto store = database.open(keeperWith("k"));
        SqlLedger& ledger = store->ledger();
        Hand hand(ledger);
        QCOMPARE(
            outcome(ledger.append(hand.with(
                {{carOne, {Hand::arrival("A1"), PromiseChanged{QDate(2031, 4, 1), "busy", {}}}},
                 {carTwo, {Hand::arrival("A2")}}}))),
            QStringLiteral("ok"));
        const auto entries =
            entriesAfter(ledger.connection(), ledger.siteId(), headsStream(), 0).value();
        QCOMPARE(entries.size(), std::size_t{1});
        const Heads heads = headsOf(entries.front()).value();
        QCOMPARE(heads.key, QStringLiteral("bench"));
        QCOMPARE(heads.heads.size(), std::size_t{2});
        QVERIFY(heads.heads[0] == ledger.head(carOne).value());
        QVERIFY(heads.heads[1] == ledger.head(carTwo).value());
        QCOMPARE(heads.heads[0].seq, 2);
        const SiteId& site = ledger.siteId();
        QVERIFY(heads == sealHeads(keeperWith("k"), site, 1, {}, heads));
        QVERIFY(heads.seal != sealHeads(keeperWith("l"), site, 1, {}, heads).seal);
    }

    void sites_inOneDatabase_doNotMeet_data() { addKinds(); }

    void sites_inOneDatabase_doNotMeet()
    {
        QFETCH(StoreKind, kind);
        TestDatabase database(kind);
        StoreSettings north = database.settings();
        north.site = {QStringLiteral("north")};
        StoreSettings south = database.settings();
        south.site = {QStringLiteral("south")};
        const auto a = Store::open(north, keeperWith()).value();
        QCOMPARE(database.open()->ledger().siteId().text, QStringLiteral("north"));
        const auto b = Store::open(south, keeperWith()).value();
        Hand handA(a->ledger());
        Hand handB(b->ledger());
        QCOMPARE(outcome(a->ledger().append(
                     handA.with(carOne, {Hand::arrival("A1"), CarMoved{{1}, {}}}))),
                 QStringLiteral("ok"));
        QVERIFY(!b->ledger().car(carOne).value().exists());
        QVERIFY(!b->ledger().carByStockNumber("A1").value());
        QVERIFY(b->ledger().bayTakenBy(BayId{1}).value().isEmpty());
        QCOMPARE(outcome(b->ledger().append(
                     handB.with(carOne, {Hand::arrival("A1"), CarMoved{{1}, {}}}))),
                 QStringLiteral("ok"));
        QVERIFY(a->ledger().head(carOne).value().hash != b->ledger().head(carOne).value().hash);
        const auto unnamed = Store::open(database.settings(), keeperWith());
        QVERIFY(!unnamed);
        QVERIFY(unnamed.error().words.contains(QStringLiteral("north, south")));
    }

    void hash_ofAnEntry_isPinned()
    {
        Entry entry;
        entry.stream = carStream(carOne);
        entry.seq = 3;
        entry.at = {1'930'000'000'000};
        entry.actor = PersonId{2};
        entry.command = {QStringLiteral("c")};
        entry.type = QStringLiteral("cautions-read");
        entry.body = "{\"by\":\"\xC3\xA9\",\"operation\":1}";
        entry.prevHash = QString(64, '0');
        QCOMPARE(hashOf(SiteId{QStringLiteral("s")}, entry),
                 QStringLiteral("ae6f726bec7ff6e8b529bc04b5aa57c9"
                                "5f9f12f6161cc2acce3f000f4d54eebe"));
        Entry other = entry;
        other.command = {QStringLiteral("cc")};
        other.type = QStringLiteral("autions-read");
        QVERIFY(hashOf(SiteId{QStringLiteral("s")}, other) !=
                hashOf(SiteId{QStringLiteral("s")}, entry));
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestLedger)
#include "tst_ledger.moc"
