// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "stranger.h"

#include "support/testmain.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

namespace {

const CarId onIt{QStringLiteral("car-5")};
const CarId apart{QStringLiteral("car-4")};
const QString ofACar = carStream(onIt);
const CommandId strangers{QStringLiteral("foreign")};
const CommandId later{QStringLiteral("later")};

CarEvent anotherPromise(int day)
{
    return PromiseChanged{QDate(2031, 4, day), "the buyer rang", {}};
}

EncodedEvent bay(const char* name)
{
    return encode(SiteEvent(BaySet{{BayId{3}, 3, QString::fromUtf8(name), BayKind::Wheels, true}}));
}

/// All of the ledger: whether anything was added.
QString allOfTheLedger(TestDatabase& database)
{
    return database.dump("SELECT * FROM ledger ORDER BY position") +
           database.dump("SELECT * FROM command ORDER BY command");
}

} // namespace

// Entries of somebody who may add to the ledger and does not have the site's key.
class TestForeignEntries : public QObject
{
    Q_OBJECT

private slots:
    void entryAtTheTip_isNamed_data() { addStreams(); }

    void entryAtTheTip_isNamed()
    {
        QFETCH(StoreKind, kind);
        QFETCH(QString, stream);
        TestDatabase database(kind);
        const auto store = storyIn(database);
        Stranger(database.settings()).write(stream, strangers, eventFor(stream, 1));
        const QString found = told(Verifier(store->ledger()).run());
        QVERIFY2(found.contains(stream + ", entry ") && found.contains("no head covers it"),
                 qPrintable(found));
    }

    // A program that did not look at what it built on sealed what stood there.
    void entryUnderALaterHead_isNamed_data() { addStreams(); }

    void entryUnderALaterHead_isNamed()
    {
        QFETCH(StoreKind, kind);
        QFETCH(QString, stream);
        TestDatabase database(kind);
        const auto store = storyIn(database);
        Stranger stranger(database.settings());
        stranger.writeWithHeads(stream, CommandId{"earlier"}, eventFor(stream, 1), keeperWith());
        QVERIFY(rebuildReadTables(store->ledger()));
        QCOMPARE(told(Verifier(store->ledger()).run()), QString());
        const qint64 seq = lastOf(database, stream) + 1;
        stranger.write(stream, strangers, eventFor(stream, 2));
        stranger.writeWithHeads(stream, later, eventFor(stream, 3), keeperWith());
        QVERIFY(rebuildReadTables(store->ledger()));
        QCOMPARE(
            told(Verifier(store->ledger()).run()),
            QStringLiteral("%1, entry %2: the head that covers it is another command's: it was "
                           "not written by the program")
                .arg(stream)
                .arg(seq));
    }

    // Nobody seals what stands there by going on above it.
    void entryAtTheTip_nothingIsBuiltOnIt_data()
    {
        QTest::addColumn<StoreKind>("kind");
        QTest::addColumn<QString>("stream");
        QTest::addColumn<QString>("headsBy");
        forEachKind([](const char* prefix, StoreKind kind) {
            for (const QString& stream : {ofACar, siteStream()}) {
                const QByteArray of = stream.toUtf8();
                QTest::addRow("%s, %s, without heads", prefix, of.data())
                    << kind << stream << QString();
                QTest::addRow("%s, %s, heads without a seal", prefix, of.data())
                    << kind << stream << "nobody";
                QTest::addRow("%s, %s, heads sealed with another key", prefix, of.data())
                    << kind << stream << "a guess";
            }
        });
    }

    void entryAtTheTip_nothingIsBuiltOnIt()
    {
        QFETCH(StoreKind, kind);
        QFETCH(QString, stream);
        QFETCH(QString, headsBy);
        TestDatabase database(kind);
        const auto store = storyIn(database);
        Hand hand(store->ledger());
        hand.now = Moment{1'940'000'000'000};
        const auto goOn = [&](Store& with, const CarId& car) {
            return with.ledger().append(hand.with(car, {anotherPromise(5)}));
        };
        QCOMPARE(outcome(goOn(*store, onIt)), QStringLiteral("ok"));
        Stranger stranger(database.settings());
        if (headsBy.isEmpty())
            stranger.write(stream, strangers, eventFor(stream, 1));
        else
            stranger.writeWithHeads(stream, strangers, eventFor(stream, 1),
                                    headsBy == "nobody" ? HeadKeeper{}
                                                        : keeperWith(headsBy.toUtf8()));
        const QString before = allOfTheLedger(database);
        const auto another = database.open();
        for (Store* program : {store.get(), another.get()}) {
            const auto refused = goOn(*program, onIt);
            QCOMPARE(outcome(refused), QStringLiteral("damaged"));
            QVERIFY2(refused.error().words.contains(stream) &&
                         refused.error().words.contains("was not written by this workshop's"),
                     qPrintable(refused.error().words));
            QCOMPARE(allOfTheLedger(database), before);
        }
        // What it does not concern goes on; people and rules concern everything.
        QCOMPARE(outcome(goOn(*store, apart)),
                 stream == siteStream() ? QStringLiteral("damaged") : QStringLiteral("ok"));
    }

    // What other kiosks wrote, with this key or an earlier one of the house.
    void entriesOfTheHouse_areBuiltOn_data() { addKinds(); }

    void entriesOfTheHouse_areBuiltOn()
    {
        QFETCH(StoreKind, kind);
        TestDatabase database(kind);
        storyIn(database).reset();
        HeadKeeper renewed = keeperWith("a new key");
        renewed.keyId = QStringLiteral("renewed");
        renewed.past = {{keeperWith().keyId, keeperWith().digest}};
        int day = 1;
        for (const HeadKeeper& keeper : {keeperWith(), renewed}) {
            const auto one = database.open(keeper);
            const auto other = database.open(keeper);
            for (Store* program : {one.get(), other.get(), one.get(), other.get()}) {
                Hand hand(program->ledger());
                hand.now = Moment{1'940'000'000'000 + day};
                Append both =
                    hand.with({{onIt, {anotherPromise(++day)}}, {apart, {anotherPromise(day)}}});
                both.site =
                    hand.withSite({BaySet{{BayId{3}, 3, "Lift", BayKind::Wheels, true}}}).site;
                both.command = {QStringLiteral("command of day %1").arg(day)};
                QCOMPARE(outcome(program->ledger().append(both)), QStringLiteral("ok"));
            }
        }
    }

private:
    static void addStreams()
    {
        QTest::addColumn<StoreKind>("kind");
        QTest::addColumn<QString>("stream");
        forEachKind([](const char* prefix, StoreKind kind) {
            QTest::addRow("%s, a car", prefix) << kind << ofACar;
            QTest::addRow("%s, the site", prefix) << kind << siteStream();
        });
    }

    static EncodedEvent eventFor(const QString& stream, int number)
    {
        return stream == ofACar ? encode(anotherPromise(number))
                                : bay(number % 2 == 0 ? "Lift" : "Wheels");
    }

    static qint64 lastOf(TestDatabase& database, const QString& stream)
    {
        return database
            .ask(QStringLiteral("SELECT max(seq) FROM ledger WHERE stream = '%1'").arg(stream))
            .toLongLong();
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestForeignEntries)
#include "tst_foreignentries.moc"
