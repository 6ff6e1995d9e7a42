// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kioskbench.h"

#include "storage/storethread.h"
#include "support/testmain.h"

#include <QDir>
#include <QFutureWatcher>
#include <QSignalSpy>
#include <QTemporaryDir>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

namespace {

constexpr int patience = 30'000;
const CarId onlyCar{QStringLiteral("first")};

} // namespace

// All SQL on one thread of its own.
class TestStoreThread : public QObject
{
    Q_OBJECT

private slots:
    void work_runsOnTheStoresThread_inOrder_data() { addKinds(); }

    void work_runsOnTheStoresThread_inOrder()
    {
        QFETCH(StoreKind, kind);
        TestDatabase database(kind);
        StoreThread thread(database.settings(), keeperWith(), m_clock, m_catalogue);
        QSignalSpy changed(&thread, &StoreThread::changed);
        QSignalSpy siteChanged(&thread, &StoreThread::siteChanged);
        const auto opened = thread.start();
        std::vector<int> order;
        QThread* worker = nullptr;
        auto one = thread.run([&](Workshop&, Store&) {
            order.push_back(1);
            worker = QThread::currentThread();
        });
        auto two = thread.run([&](Workshop& workshop, Store&) {
            order.push_back(2);
            return workshop.run(SiteRequest{
                CommandId{"set-up"}, {}, site::SetUp{"Kestrel Quay", false, {}, {}}, "Orla"});
        });
        QCOMPARE(resultOf(opened, patience).value(), MigrationOutcome::Fresh);
        QCOMPARE(resultOf(two, patience).value().site.name, QStringLiteral("Kestrel Quay"));
        QVERIFY(one.isFinished());
        QVERIFY(order == (std::vector<int>{1, 2}));
        QVERIFY(worker != nullptr && worker != QThread::currentThread());
        QTRY_COMPARE(siteChanged.size(), 1);
        QTRY_COMPARE(changed.size(), 1);
    }

    // While its file is exchanged nobody is told that anything is kept.
    void storeAtRest_hasItsFileClosed_andKeepsNothing()
    {
        TestDatabase database(StoreKind::Sqlite);
        const QString file = database.settings().file;
        StoreThread thread(database.settings(), keeperWith(), m_clock, m_catalogue);
        QVERIFY(resultOf(thread.start(), patience));
        const auto setUp = [&](const char* id) {
            return thread.run([id](Workshop& workshop, Store&) {
                return workshop.run(SiteRequest{CommandId{QLatin1StringView(id)},
                                                {},
                                                site::SetUp{"Kestrel Quay", false, {}, {}},
                                                "Orla"});
            });
        };
        const auto before = setUp("before");
        const auto resting = thread.rest(QStringLiteral("It rests."));
        const auto meanwhile = setUp("meanwhile");
        QVERIFY(resultOf(before, patience));
        const auto refused = resultOf(meanwhile, patience);
        QVERIFY(!refused);
        const auto* error = std::get_if<StoreError>(&refused.error());
        QVERIFY(error != nullptr);
        QCOMPARE(error->kind, StoreErrorKind::Unavailable);
        QCOMPARE(error->words, QStringLiteral("It rests."));
        QVERIFY(resting.isFinished());
        // SQLite takes its log away with the last connection.
        QVERIFY(!QFile::exists(file + QStringLiteral("-wal")));

        QSignalSpy changed(&thread, &StoreThread::changed);
        auto up = thread.getUp();
        up.waitForFinished();
        const auto site = resultOf(
            thread.run([](Workshop&, Store& store) { return store.ledger().site(); }), patience);
        QVERIFY(site);
        QCOMPARE(site->name, QStringLiteral("Kestrel Quay"));
        QTRY_VERIFY(!changed.isEmpty());
    }

    // Whoever waits for a long piece of work sees that it gets on.
    void statements_areCounted_whileWorkGoesOn_data() { addKinds(); }

    void statements_areCounted_whileWorkGoesOn()
    {
        QFETCH(StoreKind, kind);
        TestDatabase database(kind);
        StoreThread thread(database.settings(), keeperWith(), m_clock, m_catalogue);
        QVERIFY(resultOf(thread.start(), patience));
        const quint64 opened = thread.statements();
        QVERIFY(opened > 0);
        const auto during = resultOf(thread.run([&](Workshop&, Store& store) {
            std::vector<quint64> counts;
            for (int i = 0; i < 3; ++i) {
                std::ignore = store.ledger().isKnown(CommandId{QStringLiteral("none")});
                counts.push_back(thread.statements());
            }
            return counts;
        }),
                                     patience);
        QCOMPARE_GT(during[0], opened);
        QCOMPARE_GT(during[1], during[0]);
        QCOMPARE_GT(during[2], during[1]);
    }

    void database_thatCannotBeOpened_answersEveryRequest()
    {
        StoreSettings settings;
        settings.file = QStringLiteral("/no/such/folder/workshop.db");
        StoreThread thread(settings, {}, m_clock, m_catalogue);
        const auto opened = thread.start();
        auto withError = thread.run([](Workshop&, Store& store) { return store.ledger().site(); });
        auto withFailure = thread.run([](Workshop& workshop, Store&) {
            return workshop.stopAllWork(CommandId{QStringLiteral("end")});
        });
        auto without = thread.run([](Workshop&, Store&) { return 1; });
        const auto answer = resultOf(opened, patience);
        QVERIFY(!answer);
        QCOMPARE(resultOf(withError, patience).error().words, answer.error().words);
        QCOMPARE(words(resultOf(withFailure, patience).error()), answer.error().words);
        QTRY_VERIFY(without.isFinished());
        QVERIFY(without.isCanceled());
        QCOMPARE(without.resultCount(), 0);
    }

    // A disk that was not there yet, or had no room: nobody has to start the kiosk anew.
    void database_thatCannotBeOpenedYet_isOpenedLater()
    {
        const QTemporaryDir disk;
        StoreSettings settings;
        settings.file = disk.filePath(QStringLiteral("later/workshop.sqlite"));
        StoreThread thread(settings, keeperWith(), m_clock, m_catalogue);
        QSignalSpy siteChanged(&thread, &StoreThread::siteChanged);
        QVERIFY(!resultOf(thread.start(), patience));
        QVERIFY(QDir(disk.path()).mkdir(QStringLiteral("later")));
        QTRY_VERIFY_WITH_TIMEOUT(!siteChanged.isEmpty(), patience);
        QVERIFY(resultOf(thread.run([](Workshop&, Store& store) { return store.ledger().site(); }),
                         patience));
    }

    void work_postedBeforeTheEnd_isDone()
    {
        TestDatabase database(StoreKind::Sqlite);
        QFuture<tl::expected<void, StoreError>> last;
        {
            StoreThread thread(database.settings(), keeperWith(), m_clock, m_catalogue);
            (void)thread.start();
            for (int i = 0; i < 20; ++i)
                last = thread.run([i](Workshop&, Store& store) {
                    Hand hand(store.ledger());
                    Append append = hand.with(
                        onlyCar,
                        {i == 0 ? Hand::arrival("A1")
                                : CarEvent(PromiseChanged{QDate(2031, 4, 1), "busy", {}})});
                    append.command = {QString::number(i)};
                    return store.ledger().append(append);
                });
        }
        QVERIFY(last.isFinished());
        QVERIFY(last.result());
        QCOMPARE(database.open()->ledger().car(onlyCar).value().seq, 20);
    }

private:
    StillClock m_clock;
    Catalogue m_catalogue = smallCatalogue();
};

RAMPLIGHT_TEST(QCoreApplication, TestStoreThread)
#include "tst_storethread.moc"
