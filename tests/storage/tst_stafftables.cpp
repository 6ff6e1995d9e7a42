// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storagebench.h"

#include "storage/lengthprefixed.h"
#include "storage/sitekeycheck.h"
#include "storage/staffseal.h"
#include "support/testmain.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

namespace {

constexpr PersonId orla{1};
constexpr PersonId bram{2};
constexpr PersonId nobody{9};

} // namespace

// What is kept about staff beside the ledger.
class TestStaffTables : public QObject
{
    Q_OBJECT

private slots:
    void pinHash_isKeptForActivePeople_data() { addKinds(); }

    void pinHash_isKeptForActivePeople()
    {
        QFETCH(StoreKind, kind);
        TestDatabase database(kind);
        const auto store = database.open();
        hireTwo(*store);
        SqlCredentials& credentials = store->credentials();
        QVERIFY(!credentials.pinHash(orla).value());
        QVERIFY(store->ledger().peopleWithPin().value().empty());
        QVERIFY(credentials.setPinHash(orla, "first hash"));
        QCOMPARE(store->ledger().peopleWithPin().value(), std::set{orla});
        QVERIFY(credentials.setPinHash(orla, "$argon2id$v=19"));
        QVERIFY(credentials.setPinHash(bram, "other"));
        QVERIFY(credentials.setPinHash(nobody, "stray"));
        const auto reading = database.open();
        QCOMPARE(reading->credentials().pinHash(orla).value().value(),
                 QByteArray("$argon2id$v=19"));
        QCOMPARE(reading->credentials().pinHash(bram).value().value(), QByteArray("other"));
        QVERIFY(!reading->credentials().pinHash(nobody).value());
        deactivate(*store, bram);
        QVERIFY(!reading->credentials().pinHash(bram).value());
    }

    void newPinOrBadge_isKeptWithItsEntry_data() { addKinds(); }

    void newPinOrBadge_isKeptWithItsEntry()
    {
        QFETCH(StoreKind, kind);
        TestDatabase database(kind);
        Workbench bench;
        const auto store = database.open();
        QVERIFY(replay(bench.ledger.accepted(), store->ledger()));
        SqlCredentials& credentials = store->credentials();
        QVERIFY(credentials.setPinHash(bench.mechanic, "the old hash"));
        QVERIFY(
            store->failures().add(bench.mechanic, {SignInMark::Kind::WrongPin, bench.clock.now()}));
        QVERIFY(credentials.setBadge(bench.painter, "7F3A"));
        Workshop workshop(store->ledger(), bench.clock, bench.catalogue);
        const auto change = [&](const char* what, const Append::PersonAccess& access) {
            SiteRequest request{bench.command(),
                                bench.manager,
                                site::ChangeAccess{bench.mechanic, QString::fromLatin1(what)},
                                {}};
            request.access = access;
            return workshop.run(request);
        };
        QVERIFY(change("pin", {bench.mechanic, QByteArray("the new hash")}));
        QVERIFY(credentials.pinHash(bench.mechanic).value() == QByteArray("the new hash"));
        QVERIFY(store->failures().marks(bench.mechanic).value().empty());
        QVERIFY(change("badge", {bench.mechanic, {}, QStringLiteral("7F3A")}));
        QVERIFY(credentials.personOfBadge("7F3A").value() == bench.mechanic);
        QVERIFY(!credentials.hasBadge(bench.painter).value());
        QVERIFY(change("badge", {bench.mechanic, {}, QString()}));
        QVERIFY(!credentials.hasBadge(bench.mechanic).value());
        QVERIFY(credentials.pinHash(bench.mechanic).value() == QByteArray("the new hash"));
        QVERIFY(staffIsSealed(store->ledger().connection(), store->ledger().siteId(),
                              store->ledger().keeper()));
    }

    // As if the program were killed between the two.
    void newPinThatIsNotKept_leavesNoEntry()
    {
        TestDatabase database(StoreKind::Sqlite);
        Workbench bench;
        const auto store = database.open();
        QVERIFY(replay(bench.ledger.accepted(), store->ledger()));
        QVERIFY(store->credentials().setPinHash(bench.mechanic, "the old hash"));
        QCOMPARE(database.sql("CREATE TRIGGER no_room BEFORE UPDATE ON credential"
                              " BEGIN SELECT RAISE(ABORT, 'no room'); END"),
                 QString());
        Workshop workshop(store->ledger(), bench.clock, bench.catalogue);
        SiteRequest request{bench.command(),
                            bench.manager,
                            site::ChangeAccess{bench.mechanic, QStringLiteral("pin")},
                            {}};
        request.access = {bench.mechanic, QByteArray("the new hash")};
        const qint64 before = store->ledger().site()->seq;
        QVERIFY(!workshop.run(request));
        QCOMPARE(store->ledger().site()->seq, before);
        QVERIFY(!store->ledger().isKnown(request.id).value());
        QVERIFY(store->credentials().pinHash(bench.mechanic).value() == QByteArray("the old hash"));
        QCOMPARE(database.sql("DROP TRIGGER no_room"), QString());
        QVERIFY(workshop.run(request));
        QVERIFY(store->credentials().pinHash(bench.mechanic).value() == QByteArray("the new hash"));
    }

    void badge_namesOneActivePerson_data() { addKinds(); }

    void badge_namesOneActivePerson()
    {
        QFETCH(StoreKind, kind);
        TestDatabase database(kind);
        const auto store = database.open();
        hireTwo(*store);
        SqlCredentials& credentials = store->credentials();
        QVERIFY(!credentials.personOfBadge("7F3A").value());
        QVERIFY(credentials.setBadge(orla, "7F3A"));
        QVERIFY(credentials.personOfBadge("7F3A").value() == orla);
        QVERIFY(credentials.hasBadge(orla).value());
        // A badge goes to somebody else; a person gets another one.
        QVERIFY(credentials.setBadge(bram, "7F3A"));
        QVERIFY(credentials.personOfBadge("7F3A").value() == bram);
        QVERIFY(!credentials.hasBadge(orla).value());
        QVERIFY(credentials.setBadge(bram, "0002"));
        QVERIFY(!credentials.personOfBadge("7F3A").value());
        QVERIFY(credentials.personOfBadge("0002").value() == bram);
        deactivate(*store, bram);
        QVERIFY(!credentials.personOfBadge("0002").value());
        QVERIFY(credentials.setBadge(bram, {}));
        QVERIFY(!credentials.hasBadge(bram).value());
    }

    void failureBook_keepsMarksInTheirOrder_data() { addKinds(); }

    void failureBook_keepsMarksInTheirOrder()
    {
        QFETCH(StoreKind, kind);
        TestDatabase database(kind);
        const auto store = database.open();
        using Kind = SignInMark::Kind;
        // The clock was set back in between: the order is that of adding.
        const std::vector<SignInMark> marks{{Kind::WrongPin, {5000}},
                                            {Kind::WrongPin, {6000}},
                                            {Kind::ClockBack, {1000}},
                                            {Kind::Lock, {2000}},
                                            {Kind::Row, {2500}},
                                            {Kind::Spread, {3000}},
                                            {Kind::Success, {1'930'000'000'000}}};
        for (const SignInMark& mark : marks)
            QVERIFY(store->failures().add(nobody, mark));
        QVERIFY(store->failures().add(orla, marks.front()));
        const auto reading = database.open();
        QVERIFY(reading->failures().marks(nobody).value() == marks);
        QCOMPARE(reading->failures().marks(orla).value().size(), std::size_t{1});
        QVERIFY(reading->failures().marks(bram).value().empty());
        const auto since = reading->failures().marksSince({5500}).value();
        QVERIFY((since == std::map<PersonId, std::vector<SignInMark>>{
                              {nobody, {marks.at(1), marks.back()}}}));
        QVERIFY(reading->failures().guessedAt().value() == std::vector{nobody});
        QVERIFY(reading->failures().clear(nobody));
        QVERIFY(store->failures().marks(nobody).value().empty());
        QCOMPARE(store->failures().marks(orla).value().size(), std::size_t{1});
    }

    void settings_areKeptByName_data() { addKinds(); }

    void settings_areKeptByName()
    {
        QFETCH(StoreKind, kind);
        TestDatabase database(kind);
        const auto store = database.open();
        SqlSettings& settings = store->settings();
        QVERIFY(!settings.value("printer").value());
        QVERIFY(settings.set("printer", "office"));
        QVERIFY(settings.set("printer", QStringLiteral("büro")));
        QVERIFY(settings.set("empty", {}));
        QCOMPARE(settings.value("printer").value().value(), QStringLiteral("büro"));
        QCOMPARE(settings.value("empty").value().value(), QString());
        QVERIFY(settings.remove("printer"));
        QVERIFY(!settings.value("printer").value());
    }

    // Somebody with the file and no key gives a person another PIN, and types a wrong one.
    void whatWasChangedBehindTheProgram_isVouchedForByNoLaterChange_data()
    {
        QTest::addColumn<StoreKind>("kind");
        QTest::addColumn<QString>("statement");
        forEachKind([](const char* prefix, StoreKind kind) {
            QTest::addRow("%s: a PIN", prefix)
                << kind << QStringLiteral("UPDATE credential SET pin_hash = 'forged'");
            QTest::addRow("%s: the seal", prefix)
                << kind << QStringLiteral("DELETE FROM setting WHERE name = 'staff-seal'");
            QTest::addRow("%s: the seal, and that there ever was one", prefix)
                << kind << QStringLiteral("DELETE FROM setting");
        });
    }

    void whatWasChangedBehindTheProgram_isVouchedForByNoLaterChange()
    {
        QFETCH(StoreKind, kind);
        QFETCH(QString, statement);
        TestDatabase database(kind);
        Workbench bench;
        const auto check = [&](Store& store) {
            return told(Verifier(store.ledger(), [](const std::set<PhotoId>&) {
                            return VaultReport{};
                        }).run());
        };
        {
            const auto store = database.open();
            QVERIFY(replay(bench.ledger.accepted(), store->ledger()));
            QVERIFY(store->credentials().setPinHash(bench.mechanic, "a hash"));
            QCOMPARE(check(*store), QString());
        }
        QCOMPARE(database.sql(statement), QString());
        const auto store = database.open();
        QVERIFY2(check(*store).contains("staff tables"), qPrintable(check(*store)));
        QVERIFY(!staffIsSealed(store->ledger().connection(), store->ledger().siteId(),
                               store->ledger().keeper()));
        // What is written from then on does not make it forgotten.
        QCOMPARE(bench.ask(bench.manager, site::SetBay{{{}, 9, "Yard", BayKind::Any, true}}), done);
        QVERIFY(replay({bench.ledger.accepted().back()}, store->ledger()));
        QVERIFY(
            store->failures().add(bench.mechanic, {SignInMark::Kind::WrongPin, bench.clock.now()}));
        QVERIFY(store->credentials().setPinHash(bench.checker, "another hash"));
        QVERIFY2(check(*store).contains("staff tables"), qPrintable(check(*store)));
    }

    // Somebody with the database keeps the tables as they are, guesses PINs, and puts them back:
    // the rows are those that were sealed, and the seal is theirs.
    void earlierState_withItsOwnSeal_isNamed_data()
    {
        QTest::addColumn<StoreKind>("kind");
        QTest::addColumn<QString>("after");
        QTest::addColumn<QString>("expected");
        forEachKind([](const char* prefix, StoreKind kind) {
            const auto row = [&](const char* after, const char* expected) {
                QTest::addRow("%s, %s", prefix, after) << kind << after << expected;
            };
            const char* earlier = "staff tables: names, PINs, badges and settings are those of an "
                                  "earlier time";
            row("nothing", earlier);
            row("a wrong PIN", "staff tables: ");
            row("a change", "were put back to an earlier time");
            row("a change and a wrong PIN", "were put back to an earlier time");
            row("new keys", "");
        });
    }

    void earlierState_withItsOwnSeal_isNamed()
    {
        QFETCH(StoreKind, kind);
        QFETCH(QString, after);
        QFETCH(QString, expected);
        TestDatabase database(kind);
        Workbench bench;
        const auto store = database.open();
        QVERIFY(replay(bench.ledger.accepted(), store->ledger()));
        QVERIFY(store->credentials().setPinHash(bench.mechanic, "a hash"));
        const auto change = [&](int number) {
            QCOMPARE(
                bench.ask(bench.manager,
                          site::SetBay{{{}, number, QString::number(number), BayKind::Any, true}}),
                done);
            QVERIFY(replay({bench.ledger.accepted().back()}, store->ledger()));
        };
        const auto guess = [&] {
            QVERIFY(store->failures().add(bench.mechanic,
                                          {SignInMark::Kind::WrongPin, bench.clock.now()}));
        };
        const auto check = [&] { return told(Verifier(store->ledger()).run()); };
        change(8);
        const QStringList tables{"person_name", "credential", "badge", "pin_failure", "setting"};
        for (const QString& table : tables)
            QCOMPARE(
                database.sql(QStringLiteral("CREATE TABLE kept_%1 AS SELECT * FROM %1").arg(table)),
                QString());
        guess();
        guess();
        change(9);
        for (const QString& table : tables)
            for (const char* statement :
                 {"DELETE FROM %1", "INSERT INTO %1 SELECT * FROM kept_%1", "DROP TABLE kept_%1"})
                QCOMPARE(database.sql(QString::fromLatin1(statement).arg(table)), QString());
        QVERIFY(store->failures().marks(bench.mechanic).value().empty());
        if (after.contains("change"))
            change(10);
        if (after.contains("wrong PIN"))
            guess();
        if (after == "new keys")
            QVERIFY(renewKeys(store->ledger().connection(), store->ledger().siteId(),
                              store->ledger().keeper()));
        const QString found = check();
        QVERIFY2(expected.isEmpty() ? found.isEmpty() : found.contains(expected),
                 qPrintable(found));
        QCOMPARE(staffIsSealed(store->ledger().connection(), store->ledger().siteId(),
                               store->ledger().keeper()),
                 after != "nothing" && after != "a wrong PIN");
    }

    // What was written before seals were counted.
    void ledgerThatCountedNoSeals_isWholeAndGoesOn_data() { addKinds(); }

    void ledgerThatCountedNoSeals_isWholeAndGoesOn()
    {
        QFETCH(StoreKind, kind);
        TestDatabase database(kind);
        {
            const auto ledger = SqlLedger::open(database.settings(), keeperWith()).value();
            Workbench bench;
            tellStory(bench);
            // Names would be sealed, and that counted.
            std::vector<Append> appends = bench.ledger.accepted();
            for (Append& append : appends)
                append.names.clear();
            QVERIFY(replay(appends, *ledger));
            const auto seal =
                staffSeal(ledger->connection(), ledger->siteId(), ledger->keeper()).value();
            QCOMPARE(database.sql(QStringLiteral("INSERT INTO setting (site, name, value)"
                                                 " SELECT site, 'staff-seal', '%1' FROM site")
                                      .arg(seal)),
                     QString());
        }
        QCOMPARE(database
                     .ask("SELECT count(*) FROM ledger WHERE stream = 'heads'"
                          " AND body LIKE '%staffNumber%'")
                     .toInt(),
                 0);
        const auto store = database.open();
        QCOMPARE(told(Verifier(store->ledger()).run()), QString());
        for (int i = 1; i <= 2; ++i) {
            Hand hand(store->ledger());
            hand.now = Moment{1'940'000'000'000};
            Append append =
                hand.withSite({BaySet{{BayId{3}, 3, QString::number(i), BayKind::Wheels, true}}});
            append.command = {QStringLiteral("bay %1").arg(i)};
            QCOMPARE(outcome(store->ledger().append(append)), QStringLiteral("ok"));
            const SiteId& site = store->ledger().siteId();
            QVERIFY(lastHeads(store->ledger().connection(), site).value()->staffNumber >= i);
            QVERIFY(store->credentials().setPinHash(orla, QByteArray::number(i)));
            QCOMPARE(told(Verifier(store->ledger()).run()), QString());
        }
    }

    void headsThatCountedNoSeals_areSealedAsTheyWere()
    {
        const SiteId site{QStringLiteral("quay")};
        const Head head{carStream(CarId{QStringLiteral("one")}), 3, QStringLiteral("a hash")};
        LengthPrefixed former("ramplight-heads-1");
        former.add(site.text).add(qint64{7}).add(QStringLiteral("before"));
        former.add(head.stream).add(head.seq).add(head.hash).add(QByteArray("staff-sealed"));
        Heads heads;
        heads.heads = {head};
        heads.staffSealed = true;
        QCOMPARE(sealedBytes(site, 7, QStringLiteral("before"), heads), former.bytes());
        heads.staffNumber = 2;
        QVERIFY(sealedBytes(site, 7, QStringLiteral("before"), heads) != former.bytes());
    }

    void tables_gone_areAwayAndSaySo_data() { addKinds(); }

    void tables_gone_areAwayAndSaySo()
    {
        QFETCH(StoreKind, kind);
        TestDatabase database(kind);
        const auto store = database.open();
        for (const char* table : {"pin_failure", "credential", "badge"})
            QCOMPARE(database.sql(QStringLiteral("DROP TABLE %1").arg(QLatin1String(table))),
                     QString());
        QCOMPARE(store->failures().add(orla, {}).error(), AccessError::StoreAway);
        QCOMPARE(store->failures().marks(orla).error(), AccessError::StoreAway);
        QCOMPARE(store->failures().clear(orla).error(), AccessError::StoreAway);
        QCOMPARE(store->credentials().pinHash(orla).error(), AccessError::StoreAway);
        QCOMPARE(store->credentials().setPinHash(orla, "x").error(), AccessError::StoreAway);
        QCOMPARE(store->credentials().personOfBadge("x").error(), AccessError::StoreAway);
        QCOMPARE(store->credentials().setBadge(orla, "x").error(), AccessError::StoreAway);
    }

private:
    static void hireTwo(Store& store)
    {
        Hand hand(store.ledger());
        QCOMPARE(outcome(store.ledger().append(hand.withSite(
                     {SiteSetUp{"Kestrel Quay", false, {}}, PersonAdded{orla, {}, {Right::Manage}},
                      PersonAdded{bram, {}, {Right::Work}}}))),
                 QStringLiteral("ok"));
    }

    static void deactivate(Store& store, PersonId person)
    {
        Hand hand(store.ledger());
        Append append = hand.withSite({PersonChanged{person, {}, {}, false}});
        append.command = {QStringLiteral("deactivate")};
        QCOMPARE(outcome(store.ledger().append(append)), QStringLiteral("ok"));
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestStaffTables)
#include "tst_stafftables.moc"
