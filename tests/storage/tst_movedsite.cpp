// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kioskbench.h"

#include "storage/sitemove.h"
#include "storage/sitesquery.h"
#include "storage/storecopy.h"
#include "support/testmain.h"

#include <QDateTime>

using namespace ramplight;
using namespace ramplight::test;

namespace {

const SiteMove toAFile{{QDateTime(QDate(2031, 5, 3), QTime(14, 5)).toMSecsSinceEpoch()},
                       QStringLiteral("the file workshop.sqlite on the machine prep-wall")};

std::unique_ptr<Store> siteIn(const TestDatabase& database, const QString& site)
{
    StoreSettings settings = database.settings();
    settings.site = {site};
    auto store = Store::open(settings, keeperWith());
    if (!store)
        qFatal("%s", qPrintable(store.error().words));
    return std::move(*store);
}

/// In a transaction of its own.
template <class Note>
void note(Store& store, Note done, const SiteMove& move)
{
    Connection& connection = store.ledger().connection();
    auto writing = Transaction::write(connection, store.ledger().siteId());
    if (!writing || !done(connection, store.ledger().siteId(), move) || !writing->commit())
        qFatal("nothing was noted");
}

QString arrive(Store& store, const QString& stockNumber)
{
    Hand hand(store.ledger());
    Append append = hand.with(CarId{stockNumber}, {Hand::arrival(stockNumber)});
    append.command = {QStringLiteral("arrival of ") + stockNumber};
    return outcome(store.ledger().append(append));
}

} // namespace

// A site that was moved out of a database: nothing is written for it there any more, and who opens
// it is told where it is; the others in the database go on.
class TestMovedSite : public QObject
{
    Q_OBJECT

private slots:
    void movedSite_takesNothing_theOthersGoOn_data() { addKinds(); }

    void movedSite_takesNothing_theOthersGoOn()
    {
        QFETCH(StoreKind, kind);
        TestDatabase database(kind);
        const auto leaving = siteIn(database, QStringLiteral("leaving"));
        const auto staying = siteIn(database, QStringLiteral("staying"));
        QCOMPARE(arrive(*leaving, QStringLiteral("L-1")), QStringLiteral("ok"));
        QCOMPARE(arrive(*staying, QStringLiteral("S-1")), QStringLiteral("ok"));
        TestDatabase file(StoreKind::Sqlite);
        const auto moved = siteIn(file, QStringLiteral("leaving"));
        QVERIFY(copySite(leaving->ledger(), moved->ledger()));
        QVERIFY(leaveFor(leaving->ledger(), moved->ledger(), toAFile));

        const QString before = contentOf(database);
        // Who has it open.
        QCOMPARE(arrive(*leaving, QStringLiteral("L-2")), QStringLiteral("moved"));
        QVERIFY(!leaving->credentials().setPinHash(PersonId{1}, "a hash"));
        QVERIFY(!leaving->failures().add(PersonId{1}, {}));
        const auto set = leaving->settings().set(QStringLiteral("colour"), QStringLiteral("red"));
        QCOMPARE(outcome(set), QStringLiteral("moved"));
        // Who opens it.
        StoreSettings settings = database.settings();
        settings.site = {QStringLiteral("leaving")};
        const auto opened = Store::open(settings, keeperWith());
        QVERIFY(!opened);
        QCOMPARE(opened.error().kind, StoreErrorKind::Moved);
        for (const char* part : {"3 May 2031, 14:05", "workshop.sqlite on the machine prep-wall",
                                 "Nothing was written"})
            QVERIFY2(opened.error().words.contains(QLatin1String(part)),
                     qPrintable(opened.error().words));
        QCOMPARE(contentOf(database), before);

        QCOMPARE(arrive(*staying, QStringLiteral("S-2")), QStringLiteral("ok"));
        QVERIFY(staying->settings().set(QStringLiteral("colour"), QStringLiteral("red")));
        const auto sites = SitesQuery(staying->ledger()).after({}, 10, {});
        QCOMPARE(sites->size(), std::size_t(1));
        QCOMPARE(sites->front().site.text, QStringLiteral("staying"));
        QVERIFY(Verifier(staying->ledger()).run().damage() == nullptr);
    }

    void movedThereAgain_isOneHistory_data() { addKinds(); }

    void movedThereAgain_isOneHistory()
    {
        QFETCH(StoreKind, kind);
        TestDatabase database(kind);
        TestDatabase file(StoreKind::Sqlite);
        {
            const auto leaving = siteIn(database, QStringLiteral("leaving"));
            QCOMPARE(arrive(*leaving, QStringLiteral("L-1")), QStringLiteral("ok"));
            QCOMPARE(arrive(*leaving, QStringLiteral("K-1")), QStringLiteral("ok"));
            const auto moved = siteIn(file, QStringLiteral("leaving"));
            QVERIFY(copySite(leaving->ledger(), moved->ledger()));
            QVERIFY(leaveFor(leaving->ledger(), moved->ledger(), toAFile));
            QCOMPARE(arrive(*moved, QStringLiteral("A-1")), QStringLiteral("ok"));
            QVERIFY(moved->credentials().setPinHash(PersonId{1}, "a hash"));
        }
        const auto moved = siteIn(file, QStringLiteral("leaving"));
        StoreSettings settings = database.settings();
        settings.site = {QStringLiteral("leaving")};
        settings.mayBeMoved = true;
        {
            const auto there = SqlLedger::open(settings, keeperWith()).value();
            QCOMPARE(copySite(moved->ledger(), *there)->entries,
                     file.ask("SELECT count(*) FROM ledger").toLongLong());
            QCOMPARE(differenceBetween(moved->ledger(), *there).value(), QString());
            // Until it is said to be there, nobody writes.
            Hand hand(*there);
            QCOMPARE(outcome(there->append(
                         hand.with(CarId{"early"}, {Hand::arrival(QStringLiteral("E-1"))}))),
                     QStringLiteral("moved"));
            auto writing = Transaction::write(there->connection(), there->siteId());
            QVERIFY(writing);
            QVERIFY(unmarkMoved(there->connection(), there->siteId(), toAFile));
            QVERIFY(writing->commit());
        }
        const auto back = siteIn(database, QStringLiteral("leaving"));
        QCOMPARE(arrive(*back, QStringLiteral("B-1")), QStringLiteral("ok"));
        QVERIFY(Verifier(back->ledger()).run().damage() == nullptr);
        QCOMPARE(back->credentials().pinHash(PersonId{1}).has_value(), true);
        QCOMPARE(back->wall().wall()->size(), std::size_t(4));
    }

    void whatDoesNotGoOnFromIt_isNotAdded_data()
    {
        QTest::addColumn<bool>("isOlder");
        QTest::newRow("an older backup") << true;
        QTest::newRow("another history") << false;
    }

    void whatDoesNotGoOnFromIt_isNotAdded()
    {
        QFETCH(bool, isOlder);
        TestDatabase database(StoreKind::Sqlite);
        TestDatabase file(StoreKind::Sqlite);
        TestDatabase backup(StoreKind::Sqlite);
        const auto leaving = siteIn(database, QStringLiteral("leaving"));
        const auto moved = siteIn(file, QStringLiteral("leaving"));
        const auto older = siteIn(backup, QStringLiteral("leaving"));
        QCOMPARE(arrive(*leaving, QStringLiteral("L-1")), QStringLiteral("ok"));
        QVERIFY(copySite(leaving->ledger(), older->ledger()));
        QCOMPARE(arrive(*leaving, QStringLiteral("L-2")), QStringLiteral("ok"));
        QVERIFY(copySite(leaving->ledger(), moved->ledger()));
        QVERIFY(leaveFor(leaving->ledger(), moved->ledger(), toAFile));
        if (!isOlder) {
            QCOMPARE(arrive(*older, QStringLiteral("O-1")), QStringLiteral("ok"));
            QCOMPARE(arrive(*older, QStringLiteral("O-2")), QStringLiteral("ok"));
        }
        const QString before = contentOf(database);
        const auto copied = copySite(older->ledger(), leaving->ledger());
        QVERIFY(!copied);
        QCOMPARE(copied.error().kind, StoreErrorKind::Conflict);
        QVERIFY2(copied.error().words.contains(QStringLiteral("Nothing was changed")),
                 qPrintable(copied.error().words));
        QCOMPARE(contentOf(database), before);
    }

    // Another kiosk was at work until the last moment.
    void whatWasWrittenMeanwhile_keepsItWhereItIs_data()
    {
        QTest::addColumn<bool>("isEntry");
        QTest::newRow("an entry") << true;
        QTest::newRow("a PIN") << false;
    }

    void whatWasWrittenMeanwhile_keepsItWhereItIs()
    {
        QFETCH(bool, isEntry);
        TestDatabase database(StoreKind::Sqlite);
        TestDatabase file(StoreKind::Sqlite);
        const auto leaving = siteIn(database, QStringLiteral("leaving"));
        const auto moved = siteIn(file, QStringLiteral("leaving"));
        QCOMPARE(arrive(*leaving, QStringLiteral("L-1")), QStringLiteral("ok"));
        QVERIFY(copySite(leaving->ledger(), moved->ledger()));
        if (isEntry)
            QCOMPARE(arrive(*leaving, QStringLiteral("L-2")), QStringLiteral("ok"));
        else
            QVERIFY(leaving->credentials().setPinHash(PersonId{1}, "a hash"));
        const auto left = leaveFor(leaving->ledger(), moved->ledger(), toAFile);
        QVERIFY(!left);
        QCOMPARE(left.error().kind, StoreErrorKind::Conflict);
        QCOMPARE(arrive(*leaving, QStringLiteral("L-3")), QStringLiteral("ok"));
    }

    // A kiosk at work when the site is moved away, and once it is back.
    // The mark decides whether two places write one history.
    void mark_changedByHand_isRefusedByTheDatabase_data()
    {
        QTest::addColumn<StoreKind>("kind");
        QTest::addColumn<QString>("statement");
        forEachKind([](const char* prefix, StoreKind kind) {
            const auto row = [&](const char* name, const char* statement) {
                QTest::addRow("%s, %s", prefix, name) << kind << QString::fromLatin1(statement);
            };
            row("update", "UPDATE site_move SET away = 0");
            row("delete", "DELETE FROM site_move");
            row("a number again, in place of the first",
                "INSERT INTO site_move SELECT site, number, at, 0, place FROM site_move WHERE true"
                " ON CONFLICT (site, number) DO UPDATE SET away = 0");
            row("a number ahead",
                "INSERT INTO site_move SELECT site, 9, at, 0, place FROM site_move");
            row("a number that was left out",
                "INSERT INTO site_move SELECT site, -1, at, 0, place FROM site_move");
            if (kind == StoreKind::Sqlite)
                row("replace", "INSERT OR REPLACE INTO site_move"
                               " SELECT site, number, at, 0, place FROM site_move");
            else
                row("truncate", "TRUNCATE site_move");
        });
    }

    void mark_changedByHand_isRefusedByTheDatabase()
    {
        QFETCH(StoreKind, kind);
        QFETCH(QString, statement);
        TestDatabase database(kind);
        const auto store = siteIn(database, QStringLiteral("leaving"));
        note(*store, markMoved, toAFile);
        const char* marks = "SELECT * FROM site_move";
        const QString before = database.dump(marks);
        const QString said = database.sql(statement);
        QVERIFY2(said.contains("ramplight: append only"), qPrintable(said));
        QCOMPARE(database.dump(marks), before);
        // What the program adds still goes.
        note(*store, unmarkMoved, toAFile);
        note(*store, markMoved, toAFile);
    }

    void kioskOnIt_saysSo_andGoesOnWhenItIsBack()
    {
        if (qEnvironmentVariableIsEmpty("RAMPLIGHT_TEST_PG"))
            QSKIP("RAMPLIGHT_TEST_PG names no server (tests/run starts one)");
        House house;
        const QTemporaryDir folder;
        Kiosk kiosk(house, folder.path());
        QVERIFY(resultOf(kiosk.opening));
        QTRY_VERIFY_WITH_TIMEOUT(!kiosk.standing().knownAt.isNull(), patientMs);
        const auto store = house.database.open();
        note(*store, markMoved, toAFile);
        const QString before = house.entries(house.car);
        QTRY_VERIFY_WITH_TIMEOUT(kiosk.standing().moved, patientMs);
        QVERIFY2(kiosk.standing().hindrance.contains(toAFile.to),
                 qPrintable(kiosk.standing().hindrance));
        // Nothing is taken that could never be sent.
        const QString said = kiosk.ask(house.who, house.car, {car::StartWork{house.work}});
        QVERIFY2(said.contains(toAFile.to), qPrintable(said));
        QVERIFY(kiosk.standing().kept.empty());
        QCOMPARE(house.entries(house.car), before);
        // One that is started meanwhile says the same.
        {
            Kiosk late(house, folder.filePath(QStringLiteral("late")));
            const auto opened = resultOf(late.opening);
            QVERIFY(!opened);
            QCOMPARE(opened.error().kind, StoreErrorKind::Moved);
            QTRY_VERIFY_WITH_TIMEOUT(late.standing().moved, patientMs);
        }
        note(*store, unmarkMoved, toAFile);
        QTRY_VERIFY_WITH_TIMEOUT(!kiosk.standing().away, patientMs);
        QVERIFY(!kiosk.standing().moved);
        QCOMPARE(kiosk.ask(house.who, house.car, {car::StartWork{house.work}}), done);
    }

    // What it kept while the server was away waits, and is sent when the site is back.
    void kioskThatWasCutOff_keepsWhatItHas()
    {
        if (qEnvironmentVariableIsEmpty("RAMPLIGHT_TEST_PG"))
            QSKIP("RAMPLIGHT_TEST_PG names no server (tests/run starts one)");
        House house;
        const QTemporaryDir folder;
        Kiosk kiosk(house, folder.path());
        QVERIFY(resultOf(kiosk.opening));
        QTRY_VERIFY_WITH_TIMEOUT(!kiosk.standing().knownAt.isNull() &&
                                     house.isCopied(folder.path(), house.car),
                                 patientMs);
        house.wire.cut();
        QTRY_VERIFY_WITH_TIMEOUT(kiosk.standing().away, patientMs);
        QCOMPARE(kiosk.ask(house.who, house.car, {car::StartWork{house.work}}), done);
        const auto store = house.database.open();
        note(*store, markMoved, toAFile);
        house.wire.heal();
        QTRY_VERIFY_WITH_TIMEOUT(kiosk.standing().moved, patientMs);
        QCOMPARE(kiosk.standing().kept.size(), std::size_t(1));
        QVERIFY(kiosk.ask(house.who, house.car, {car::PauseWork{house.work, house.who}})
                    .contains(toAFile.to));
        note(*store, unmarkMoved, toAFile);
        QTRY_VERIFY_WITH_TIMEOUT(!kiosk.standing().away, patientMs);
        QCOMPARE(kiosk.standing().kept.size(), std::size_t(0));
        QCOMPARE(house.entries(house.car).count(QStringLiteral("work-started")), 1);
    }

private:
    static QString contentOf(TestDatabase& database)
    {
        QString all;
        for (const char* table : {"command", "ledger", "car", "setting", "credential",
                                  "pin_failure", "site_move", "photo_bytes"})
            all += database.dump(
                QStringLiteral("SELECT * FROM %1 ORDER BY 1, 2, 3").arg(QLatin1String(table)));
        return all;
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestMovedSite)
#include "tst_movedsite.moc"
