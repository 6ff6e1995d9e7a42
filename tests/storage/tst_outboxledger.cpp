// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "keptbench.h"

#include "storage/outboxledger.h"
#include "support/testmain.h"

#include <QSqlDatabase>
#include <QSqlQuery>
#include <QTemporaryDir>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

// What a disk that is full does between the outbox and the copy that the wall is drawn from.
class TestOutboxLedger : public QObject
{
    Q_OBJECT

private slots:
    void whatCanNeitherBeShownNorTakenBack_isToldAsKept_andOnceWhenTriedAgain()
    {
        const QTemporaryDir folder;
        const QString file = folder.filePath(QStringLiteral("outbox.sqlite"));
        Workbench bench;
        const CarId car = bench.appraised();
        const OperationId work = bench.open(car, "arrival-check");
        const PersonId who = bench.whoFor(bench.operation(car, work));
        const auto outbox = Outbox::open(file, SiteId{"here"}).value();
        const StartedTimers timers;
        OutboxLedger ledger(bench.ledger, *outbox, bench.clock, timers);
        Workshop workshop(ledger, bench.clock, bench.catalogue);
        const CarRequest request{CommandId{"kept"}, who, car, {car::StartWork{work}}, true};
        const auto run = [&] {
            const auto outcome = workshop.run(request);
            return outcome ? done : words(outcome.error());
        };

        bench.ledger.beforeNextAppend([&] {
            bench.ledger.failWith(StoreErrorKind::Unavailable);
            tell(file, "CREATE TRIGGER no_room BEFORE DELETE ON kept BEGIN"
                       " SELECT RAISE(ABORT, 'full'); END");
        });
        QCOMPARE(run(), keptUnseenWords());
        QCOMPARE(outbox->kept().value().size(), std::size_t{1});

        bench.ledger.failWith({});
        tell(file, "DROP TRIGGER no_room");
        QCOMPARE(run(), done);
        QCOMPARE(outbox->kept().value().size(), std::size_t{1});
        QVERIFY(bench.operation(car, work).isRunning());

        // Where it can be taken back, nothing is kept.
        bench.ledger.beforeNextAppend([&] { bench.ledger.failWith(StoreErrorKind::Unavailable); });
        const auto outcome = workshop.run(
            CarRequest{CommandId{"other"}, who, car, {car::PauseWork{work, who}}, true});
        QVERIFY(!outcome && words(outcome.error()) != keptUnseenWords());
        QCOMPARE(outbox->kept().value().size(), std::size_t{1});
    }

private:
    static void tell(const QString& file, const char* statement)
    {
        {
            QSqlDatabase database = QSqlDatabase::addDatabase("QSQLITE", "beside");
            database.setDatabaseName(file);
            QVERIFY(database.open());
            QVERIFY(QSqlQuery(database).exec(statement));
        }
        QSqlDatabase::removeDatabase("beside");
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestOutboxLedger)
#include "tst_outboxledger.moc"
