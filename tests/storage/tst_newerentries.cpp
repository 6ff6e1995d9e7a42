// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "keptbench.h"
#include "salvagebench.h"
#include "stranger.h"

#include "storage/remake.h"
#include "support/testmain.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

namespace {

const CarId car5{QStringLiteral("car-5")};
const CommandId later{QStringLiteral("later")};

/// Kinds and versions that a program of another day writes.
EncodedEvent newerKind()
{
    return {QStringLiteral("tyres-warmed"), 1, R"({"degrees":40})"};
}

EncodedEvent newerVersion()
{
    EncodedEvent event =
        encode(CarEvent(PromiseChanged{QDate(2031, 4, 1), "it was asked for", {}}));
    event.version = 2;
    return event;
}

QString allOf(TestDatabase& database)
{
    return database.dump("SELECT * FROM ledger ORDER BY position") +
           database.dump("SELECT * FROM command ORDER BY command") +
           database.dump("SELECT * FROM car ORDER BY car");
}

void addNewer(
    const std::function<void(const char*, StoreKind, const QString&, const EncodedEvent&)>& add)
{
    forEachKind([&](const char* prefix, StoreKind kind) {
        add(qPrintable(QStringLiteral("%1, a kind").arg(prefix)), kind, carStream(car5),
            newerKind());
        add(qPrintable(QStringLiteral("%1, a version").arg(prefix)), kind, carStream(car5),
            newerVersion());
        add(qPrintable(QStringLiteral("%1, a kind of the house").arg(prefix)), kind, siteStream(),
            newerKind());
    });
}

} // namespace

Q_DECLARE_METATYPE(EncodedEvent)

// What a newer program wrote into the ledger, under its sealed heads, is whole: it is refused as
// too new and left as it is, and nobody is sent for a backup.
class TestNewerEntries : public QObject
{
    Q_OBJECT

private slots:
    void newerEntry_isTooNew_andNoDamage_data()
    {
        QTest::addColumn<StoreKind>("kind");
        QTest::addColumn<QString>("stream");
        QTest::addColumn<EncodedEvent>("event");
        addNewer([](const char* name, StoreKind kind, const QString& stream,
                    const EncodedEvent& event) { QTest::newRow(name) << kind << stream << event; });
    }

    void newerEntry_isTooNew_andNoDamage()
    {
        QFETCH(StoreKind, kind);
        QFETCH(QString, stream);
        QFETCH(EncodedEvent, event);
        TestDatabase database(kind);
        storyIn(database).reset();
        Stranger(database.settings()).writeWithHeads(stream, later, event, keeperWith());
        const QString before = allOf(database);
        const auto store = database.open();
        SqlLedger& ledger = store->ledger();
        const bool isOfTheHouse = stream == siteStream();

        // Reading.
        const auto read = isOfTheHouse ? outcome(ledger.site().map([](const auto&) {}))
                                       : outcome(ledger.car(car5).map([](const auto&) {}));
        QCOMPARE(read, QStringLiteral("too new"));
        const auto words =
            isOfTheHouse ? ledger.site().error().words : ledger.car(car5).error().words;
        QVERIFY2(words.contains(QStringLiteral("install the newer version")), qPrintable(words));
        QVERIFY2(!words.contains(QStringLiteral("backup")), qPrintable(words));
        QVERIFY(!ledger.connection().isDamaged());
        // Going on beside it, and making the read tables anew.
        Hand hand(ledger);
        hand.now = Moment{1'940'000'000'000};
        if (isOfTheHouse)
            QCOMPARE(outcome(ledger.append(
                         hand.with(CarId{QStringLiteral("car-4")},
                                   {PromiseChanged{QDate(2031, 4, 2), "asked again", {}}}))),
                     QStringLiteral("too new"));
        QCOMPARE(outcome(rebuildReadTables(ledger).map([](int) {})), QStringLiteral("too new"));

        // Checking.
        const VerifyReport report =
            Verifier(ledger, [](const std::set<PhotoId>&) { return VaultReport{}; }).run();
        QVERIFY2(report.damage() == nullptr, qPrintable(told(report)));
        QVERIFY(report.newer() != nullptr);
        QVERIFY(report.newer()->where.startsWith(stream));
        QVERIFY(!report.isWhole());
        if (kind == StoreKind::Sqlite)
            QCOMPARE(hurtIn(database.settings(), keeperWith()), Hurt::Nothing);
        QCOMPARE(allOf(database), before);
    }

    void changedKind_isDamage()
    {
        TestDatabase database(StoreKind::Sqlite);
        storyIn(database).reset();
        QCOMPARE(database.forge(QStringLiteral("UPDATE ledger SET type = 'tyres-warmed' WHERE"
                                               " stream = 'car/car-5' AND seq = 2")),
                 QString());
        const auto store = database.open();
        QCOMPARE(outcome(store->ledger().car(car5).map([](const auto&) {})),
                 QStringLiteral("damaged"));
        const VerifyReport report = Verifier(store->ledger()).run();
        QVERIFY(report.damage() != nullptr);
        QCOMPARE(hurtIn(database.settings(), keeperWith()), Hurt::More);
    }

    // It is there and whole: to go back to the backup without it would lose it.
    void newerEntrySinceTheBackup_keepsTheFileFromBeingLeft()
    {
        HouseSince house;
        house.workOn();
        Stranger(house.database.settings())
            .writeWithHeads(carStream(house.staying), later, newerKind(), keeperWith());
        StoreSettings backup = house.database.settings();
        backup.file = house.backupFile();
        const auto into = SqlLedger::open(backup, keeperWith());
        QVERIFY(into);
        const auto salvaged = salvage(house.database.settings().file, **into);
        QVERIFY(!salvaged);
        QCOMPARE(salvaged.error().kind, StoreErrorKind::TooNew);
        QVERIFY2(salvaged.error().words.contains(QStringLiteral("tyres-warmed")),
                 qPrintable(salvaged.error().words));
    }

    // Another kiosk has the newer program already.
    void keptWork_waitsUntilThisProgramIsAsNew()
    {
        StandbyHouse house;
        const auto kiosk = house.kiosk();
        QVERIFY(kiosk->open(*house.server));
        house.follow(*kiosk);
        QVERIFY(kiosk->takeOver());
        QCOMPARE(house.run(kiosk->workshop(false)), done);
        Stranger(house.database.settings())
            .writeWithHeads(carStream(house.car), later, newerKind(), keeperWith());
        const auto mirror = [&house] { return house.filesLike(QStringLiteral("mirror*")); };
        const QStringList files = mirror();
        const auto sent = kiosk->handBack(*house.server, house.server->ledger());
        QVERIFY(!sent);
        QCOMPARE(sent.error().kind, StoreErrorKind::TooNew);
        const auto kept = kiosk->kept().value();
        QCOMPARE(kept.size(), std::size_t(1));
        QVERIFY(kept.front().waits());
        QVERIFY(!kept.front().trouble);
        // Nor is what is known of the workshop thrown away.
        QCOMPARE(mirror(), files);
        QVERIFY(!kiosk->knownAt().isNull());
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestNewerEntries)
#include "tst_newerentries.moc"
