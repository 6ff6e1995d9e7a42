// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storagebench.h"

#include "domain/presence.h"
#include "storage/sitekeycheck.h"
#include "storage/sitemove.h"
#include "support/testmain.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

// What a ledger keeps in memory of what it has read.
class TestRemembered : public QObject
{
    Q_OBJECT

private slots:
    void carsThatLeft_areNotKeptInMemory_data() { addKinds(); }

    void carsThatLeft_areNotKeptInMemory()
    {
        QFETCH(StoreKind, kind);
        Workbench bench;
        std::vector<CarId> sold;
        for (int i = 0; i < 4; ++i) {
            sold.push_back(bench.appraised());
            bench.release(sold.back());
        }
        const CarId stays = bench.appraised();
        TestDatabase database(kind);
        const auto store = database.open();
        QCOMPARE(outcome(replay(bench.ledger.accepted(), store->ledger())), QStringLiteral("ok"));
        QCOMPARE(store->ledger().remembered(), 2); // and the one asked for last
        // Looked at again, as a record does: each is whole, and one of them stays.
        for (const CarId& car : sold)
            QVERIFY(store->ledger().car(car).value() == bench.ledger.cars().at(car));
        QVERIFY(store->ledger().car(stays).value() == bench.ledger.cars().at(stays));
        QVERIFY(store->ledger().car(sold.back()).value() == bench.ledger.cars().at(sold.back()));
        QCOMPARE(store->ledger().remembered(), 2);
        // One that is held again is one of those in prep.
        const auto before = bench.ledger.accepted().size();
        bench.found(sold.back(), "tyre-front-left", Condition::Cut);
        const std::vector<Append> all = bench.ledger.accepted();
        QVERIFY(all.size() > before);
        QVERIFY(replay({all.begin() + static_cast<std::ptrdiff_t>(before), all.end()},
                       store->ledger()));
        QVERIFY(store->ledger().car(sold.back()).value() == bench.ledger.cars().at(sold.back()));
        QVERIFY(store->ledger().car(sold.front()).value() == bench.ledger.cars().at(sold.front()));
        QCOMPARE(store->ledger().remembered(), 3);
    }

    void whatAnotherProgramWrote_isSeenByTheNextCommand_data()
    {
        QTest::addColumn<StoreKind>("kind");
        QTest::addColumn<QString>("what");
        forEachKind([](const char* prefix, StoreKind kind) {
            for (const char* what :
                 {"nothing", "a name", "the same car", "the site", "new keys", "the site moved"})
                QTest::addRow("%s, %s", prefix, what) << kind << QString::fromLatin1(what);
        });
    }

    void whatAnotherProgramWrote_isSeenByTheNextCommand()
    {
        QFETCH(StoreKind, kind);
        QFETCH(QString, what);
        TestDatabase database(kind);
        const auto ours = storyIn(database);
        const auto theirs = database.open();
        const CarId car = carInPrep(ours->ledger());
        Hand here(ours->ledger());
        Hand there(theirs->ledger());
        here.now = there.now = Moment{
            std::max(ours->ledger().car(car)->lastAt, ours->ledger().site()->lastAt).ms + 1000};
        const auto note = [](int number) {
            return CarEvent{PromiseChanged{
                QDate(2031, 4, 1).addDays(number), QStringLiteral("a part is late"), {}}};
        };
        // Twice each, so that there is something to remember.
        for (int i = 0; i < 2; ++i) {
            QCOMPARE(outcome(ours->ledger().append(here.with(car, {note(i)}))), "ok");
            QVERIFY(ours->ledger().siteAndCar(car));
        }
        const PersonId person = here.by;
        Append theirsNext = there.with(car, {});
        if (what == "a name")
            theirsNext.names = {{person, QStringLiteral("Orla Finch")}};
        else if (what == "the same car")
            theirsNext = there.with(car, {note(7)});
        else if (what == "the site") {
            Bay bay = theirs->ledger().site()->bays.begin()->second;
            bay.name = QStringLiteral("Behind the shed");
            theirsNext = there.withSite({BaySet{bay}});
        }
        Connection& connection = theirs->ledger().connection();
        const SiteId& site = theirs->ledger().siteId();
        QString expected = QStringLiteral("ok");
        if (what == "new keys") {
            HeadKeeper renewed = keeperWith("renewed since");
            renewed.keyId = QStringLiteral("second");
            QVERIFY(renewKeys(connection, site, renewed));
            expected = QStringLiteral("wrong keys");
        } else if (what == "the site moved") {
            auto transaction = Transaction::write(connection, site);
            QVERIFY(markMoved(connection, site, {here.now, QStringLiteral("another server")}));
            QVERIFY(transaction->commit());
            expected = QStringLiteral("moved");
        } else if (what != "nothing") {
            theirsNext.command = {QStringLiteral("theirs")};
            QCOMPARE(outcome(theirs->ledger().append(theirsNext)), "ok");
        }
        const auto found = ours->ledger().siteAndCar(car);
        QVERIFY(found);
        QVERIFY(found->car == theirs->ledger().car(car).value());
        QVERIFY(*found->site == theirs->ledger().site().value());
        QCOMPARE(found->site->person(person)->name == "Orla Finch", what == "a name");
        QCOMPARE(outcome(ours->ledger().append(here.with(car, {note(9)}))), expected);
        if (expected == "ok")
            QCOMPARE(told(Verifier(ours->ledger()).run()), QString());
    }

private:
    static CarId carInPrep(SqlLedger& ledger)
    {
        const QStringList streams = streamsOf(ledger.connection(), ledger.siteId()).value();
        for (const QString& stream : streams)
            if (const CarId car = carOfStream(stream);
                !car.isEmpty() && isInPrep(ledger.car(car).value()))
                return car;
        return {};
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestRemembered)
#include "tst_remembered.moc"
