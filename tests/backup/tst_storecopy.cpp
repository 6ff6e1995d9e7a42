// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "../storage/storagebench.h"

#include "storage/storecopy.h"
#include "storage/verifier.h"
#include "support/scratchdatabase.h"
#include "support/testmain.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

namespace {

/// A store of another kind, open on the same site and empty.
std::unique_ptr<Store> emptyBeside(const TestDatabase& database, const SiteId& site)
{
    StoreSettings settings = database.settings();
    settings.site = site;
    auto store = Store::open(settings, keeperWith());
    if (!store)
        qFatal("%s", qPrintable(store.error().words));
    return std::move(*store);
}

std::set<PhotoId> photosKeptBy(SqlLedger& ledger)
{
    return keptPhotos(ledger.connection(), ledger.siteId()).value();
}

} // namespace

// A site in another database: the same entry by entry, whole there, and nothing where it fails.
class TestStoreCopy : public QObject
{
    Q_OBJECT

private slots:
    void aSite_isTheSameInAnyOther_data()
    {
        QTest::addColumn<StoreKind>("from");
        QTest::addColumn<StoreKind>("to");
        forEachKind([](const char* one, StoreKind from) {
            forEachKind([&](const char* other, StoreKind to) {
                QTest::addRow("%s to %s", one, other) << from << to;
            });
        });
    }

    void aSite_isTheSameInAnyOther()
    {
        QFETCH(StoreKind, from);
        QFETCH(StoreKind, to);
        TestDatabase house(from);
        const auto store = storyIn(house);
        QVERIFY(store->credentials().setPinHash(PersonId{1}, "a hash"));
        QVERIFY(store->credentials().setBadge(PersonId{1}, QStringLiteral("B-1")));
        QVERIFY(store->failures().add(PersonId{2}, {}));
        QVERIFY(store->settings().set(QStringLiteral("colour"), QStringLiteral("slate")));
        TestDatabase other(to);
        const auto copy = emptyBeside(other, store->ledger().siteId());
        const auto copied = copySite(store->ledger(), copy->ledger());
        QVERIFY2(copied, copied ? "" : qPrintable(copied.error().words));
        QCOMPARE(copied->entries, house.ask("SELECT count(*) FROM ledger").toLongLong());
        QCOMPARE(copied->cars, 5);
        QCOMPARE(differenceBetween(store->ledger(), copy->ledger()).value(), QString());
        QVERIFY(Verifier(copy->ledger()).run().isWhole());
        QCOMPARE(photosKeptBy(copy->ledger()), photosKeptBy(store->ledger()));
        QVERIFY(!photosKeptBy(copy->ledger()).empty());
        QCOMPARE(copy->settings().value(QStringLiteral("colour")).value(),
                 std::optional(QStringLiteral("slate")));
        QCOMPARE(copy->credentials().personOfBadge(QStringLiteral("B-1")).value(),
                 std::optional(PersonId{1}));
        // What comes next goes on where the other stopped.
        Hand hand(copy->ledger());
        QCOMPARE(outcome(copy->ledger().append(
                     hand.with({QStringLiteral("new")}, {Hand::arrival(QStringLiteral("N1"))}))),
                 QStringLiteral("ok"));
        QCOMPARE(told(Verifier(copy->ledger()).run()), QString());
        QVERIFY(differenceBetween(store->ledger(), copy->ledger())
                    .value()
                    .contains(QStringLiteral("command")));
    }

    void readInPages_aSiteIsTheSame_data()
    {
        QTest::addColumn<StoreKind>("kind");
        QTest::addColumn<int>("atOnce");
        forEachKind([](const char* name, StoreKind kind) {
            for (const int atOnce : {1, 7})
                QTest::addRow("%s, %d", name, atOnce) << kind << atOnce;
            // A page that ends with the last of them.
            QTest::addRow("%s, all", name) << kind << 0;
        });
    }

    void readInPages_aSiteIsTheSame()
    {
        QFETCH(StoreKind, kind);
        QFETCH(int, atOnce);
        TestDatabase house(kind);
        const auto store = storyIn(house);
        const int entries = house.ask("SELECT count(*) FROM ledger").toInt();
        QVERIFY(entries > 2 * 7);
        if (atOnce == 0)
            atOnce = entries;
        TestDatabase other(StoreKind::Sqlite);
        const auto copy = emptyBeside(other, store->ledger().siteId());
        const auto copied = copySite(store->ledger(), copy->ledger(), atOnce);
        QVERIFY2(copied, copied ? "" : qPrintable(copied.error().words));
        QCOMPARE(copied->entries, entries);
        QCOMPARE(differenceBetween(store->ledger(), copy->ledger()).value(), QString());
        // What is there already is passed over in pages, too, and what came since follows.
        {
            auto writing = Transaction::write(copy->ledger().connection(), copy->ledger().siteId());
            QVERIFY(writing);
            QVERIFY(markMoved(copy->ledger().connection(), copy->ledger().siteId(),
                              {Moment{1}, QStringLiteral("there")}));
            QVERIFY(writing->commit());
        }
        Hand hand(store->ledger());
        QCOMPARE(outcome(store->ledger().append(
                     hand.with({QStringLiteral("new")}, {Hand::arrival(QStringLiteral("N1"))}))),
                 QStringLiteral("ok"));
        const auto goneOn = copySite(store->ledger(), copy->ledger(), atOnce);
        QVERIFY2(goneOn, goneOn ? "" : qPrintable(goneOn.error().words));
        QVERIFY(goneOn->entries > entries);
        QCOMPARE(differenceBetween(store->ledger(), copy->ledger()).value(), QString());
    }

    // As dictionaries do it, capitals beside small letters.
    void databaseThatSortsOtherwise_isTheSame()
    {
        const QString server = qEnvironmentVariable("RAMPLIGHT_TEST_PG");
        if (server.isEmpty())
            QSKIP("RAMPLIGHT_TEST_PG names no server (tests/run starts one)");
        const ScratchDatabase sorted(
            server, QStringLiteral("locale_provider icu icu_locale 'en-US' template template0"));
        QVERIFY(sorted.isThere());
        TestDatabase house(StoreKind::Sqlite);
        const auto store = storyIn(house);
        Hand hand(store->ledger());
        for (const char* id : {"b", "B", "a-1", "A1", "a 1"}) {
            Append append = hand.with({QString::fromLatin1(id)},
                                      {Hand::arrival(QStringLiteral("S-") + QLatin1String(id))});
            append.command = {QString::fromLatin1(id)};
            QCOMPARE(outcome(store->ledger().append(append)), QStringLiteral("ok"));
        }
        StoreSettings settings;
        settings.kind = StoreKind::PostgreSql;
        settings.server = *PostgresAddress::parse(sorted.address());
        settings.site = store->ledger().siteId();
        const auto copy = SqlLedger::open(settings, keeperWith()).value();
        QVERIFY(copySite(store->ledger(), *copy));
        QCOMPARE(differenceBetween(store->ledger(), *copy).value(), QString());
        QVERIFY(differenceBetween(*copy, store->ledger())->isEmpty());
    }

    // A PIN that somebody put there does not become the workshop's by being moved.
    void staffThatDoesNotFitItsSeal_isNotSealedAnew_data() { addKinds(); }

    void staffThatDoesNotFitItsSeal_isNotSealedAnew()
    {
        QFETCH(StoreKind, kind);
        TestDatabase house(StoreKind::Sqlite);
        const auto store = storyIn(house);
        QVERIFY(store->credentials().setPinHash(PersonId{1}, "a hash"));
        QCOMPARE(house.sql("UPDATE credential SET pin_hash = 'forged'"), QString());
        TestDatabase other(kind);
        const auto copy = emptyBeside(other, store->ledger().siteId());
        QVERIFY(copySite(store->ledger(), copy->ledger()));
        const QString faults = told(Verifier(copy->ledger()).run());
        QVERIFY2(faults.contains("staff tables"), qPrintable(faults));
        QCOMPARE(differenceBetween(store->ledger(), copy->ledger()).value(), QString());
    }

    void whereAWorkshopIs_nothingIsCopiedTo_data() { addKinds(); }

    void whereAWorkshopIs_nothingIsCopiedTo()
    {
        QFETCH(StoreKind, kind);
        TestDatabase house(kind);
        const auto store = storyIn(house);
        TestDatabase other(kind);
        const auto taken = emptyBeside(other, store->ledger().siteId());
        Hand hand(taken->ledger());
        QVERIFY(taken->ledger().append(
            hand.with({QStringLiteral("own")}, {Hand::arrival(QStringLiteral("O1"))})));
        const auto copied = copySite(store->ledger(), taken->ledger());
        QVERIFY(!copied);
        QCOMPARE(copied.error().kind, StoreErrorKind::Conflict);
        QCOMPARE(other.ask("SELECT count(*) FROM ledger").toInt(), 2);
    }

    void aDamagedLedger_isNotCopied_data() { addKinds(); }

    void aDamagedLedger_isNotCopied()
    {
        QFETCH(StoreKind, kind);
        TestDatabase house(kind);
        const auto store = storyIn(house);
        QCOMPARE(house.forge("DELETE FROM ledger WHERE stream = 'car/car-1' AND seq = 3"),
                 QString());
        TestDatabase other(kind);
        const auto copy = emptyBeside(other, store->ledger().siteId());
        const auto copied = copySite(store->ledger(), copy->ledger());
        QVERIFY(!copied);
        QCOMPARE(copied.error().kind, StoreErrorKind::Damaged);
        QCOMPARE(other.ask("SELECT count(*) FROM ledger").toInt(), 0);
        QCOMPARE(other.ask("SELECT count(*) FROM command").toInt(), 0);
    }

    void whatDiffers_isNamed_data()
    {
        QTest::addColumn<QString>("statement");
        QTest::addColumn<QString>("words");
        QTest::addRow("an entry")
            << "UPDATE ledger SET body = '{}' WHERE stream = 'site' AND seq = 1"
            << "ledger: row 1 is not the same";
        QTest::addRow("an entry less")
            << "DELETE FROM ledger WHERE position = (SELECT max(position) FROM ledger)"
            << "ledger: one of them has no row";
        QTest::addRow("a name") << "UPDATE person_name SET name = 'Nobody' WHERE person = 1"
                                << "person_name: row 1 is not the same";
        QTest::addRow("a PIN") << "INSERT INTO credential SELECT site, 99, 'x' FROM site"
                               << "credential: one of them has no row 1";
    }

    void whatDiffers_isNamed()
    {
        QFETCH(QString, statement);
        QFETCH(QString, words);
        TestDatabase house(StoreKind::Sqlite);
        const auto store = storyIn(house);
        TestDatabase other(StoreKind::Sqlite);
        const auto copy = emptyBeside(other, store->ledger().siteId());
        QVERIFY(copySite(store->ledger(), copy->ledger()));
        QCOMPARE(other.forge(statement), QString());
        const QString difference = differenceBetween(store->ledger(), copy->ledger()).value();
        QVERIFY2(difference.startsWith(words), qPrintable(difference));
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestStoreCopy)
#include "tst_storecopy.moc"
