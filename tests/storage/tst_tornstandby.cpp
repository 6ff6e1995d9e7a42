// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "keptbench.h"
#include "kioskbench.h"

#include "storage/standbyfiles.h"
#include "support/testmain.h"

#include <algorithm>

using namespace ramplight;
using namespace ramplight::test;

// A kiosk that is started on damaged files, and one whose server is not what it was: what it does,
// and what its screens are told.
class TestTornStandby : public QObject
{
    Q_OBJECT

private slots:
    void initTestCase()
    {
        if (qEnvironmentVariableIsEmpty("RAMPLIGHT_TEST_PG"))
            QSKIP("RAMPLIGHT_TEST_PG names no server (tests/run starts one)");
    }

    void init() { m_folder = std::make_unique<QTemporaryDir>(); }

    void tornOutbox_isTold_andWorkGoesOn_data()
    {
        QTest::addColumn<bool>("answers");
        QTest::addColumn<bool>("readable");
        QTest::newRow("server there, no database any more") << true << false;
        QTest::newRow("server there, one page of it") << true << true;
        QTest::newRow("server away, no database any more") << false << false;
        QTest::newRow("server away, one page of it") << false << true;
    }

    void tornOutbox_isTold_andWorkGoesOn()
    {
        QFETCH(bool, answers);
        QFETCH(bool, readable);
        constexpr qsizetype page = 4096;
        House house;
        leaveSomething(house);
        if (QTest::currentTestFailed())
            return;
        const QString outbox = file(standbyfiles::outbox);
        const qsizetype size = bytesIn(outbox).size();
        // The last page is of the table that was made last; the request is not in it.
        QVERIFY(readable ? tear(outbox, size - page, page) : tear(outbox, 0, size));
        const QByteArray torn = bytesIn(outbox);
        if (answers)
            house.wire.heal();

        Kiosk kiosk(house, m_folder->path());
        QVERIFY(resultOf(kiosk.opening));
        QTRY_VERIFY_WITH_TIMEOUT(isToldOf(kiosk, TroubleKind::FileDamaged), patientMs);
        QCOMPARE(kiosk.standing().away, !answers);
        QCOMPARE(troubleOf(kiosk).readOut, readable ? 1 : 0);
        QCOMPARE(troubleOf(kiosk).perhapsMore, !readable);
        // The file is kept, and said by its name.
        const QString aside = troubleOf(kiosk).file;
        QVERIFY2(aside.startsWith(QStringLiteral("outbox.damaged-")), qPrintable(aside));
        QCOMPARE(bytesIn(m_folder->filePath(aside)), torn);
        // What was read out of it goes on, and so does what people do now.
        QCOMPARE(kiosk.wall().size(), 2);
        QCOMPARE(kiosk.car(house.car).runningSegment(house.who, nullptr) != nullptr, readable);
        if (!readable)
            QCOMPARE(kiosk.ask(house.who, house.car, {car::StartWork{house.work}}, "again"), done);
        house.wire.heal();
        QTRY_VERIFY_WITH_TIMEOUT(!kiosk.standing().away, patientMs);
        QCOMPARE(house.entries(house.car).count(QStringLiteral("work-started")), 1);
        // It stays on the screens until somebody has read it.
        QCOMPARE(kiosk.standing().kept.size(), std::size_t(1));
        QVERIFY(isToldOf(kiosk, TroubleKind::FileDamaged));
        const auto number = kiosk.standing().kept.front().number;
        QVERIFY(resultOf(kiosk.thread().note(number, house.bench.manager)));
        QTRY_VERIFY(!isToldOf(kiosk, TroubleKind::FileDamaged));
    }

    void requestThatTheDiskChanged_isNotSent()
    {
        House house;
        leaveSomething(house);
        if (QTest::currentTestFailed())
            return;
        QCOMPARE(sqlIn(file(standbyfiles::outbox),
                       {QStringLiteral("UPDATE kept SET request = replace(request, '\"actor\":%1',"
                                       " '\"actor\":%2')")
                            .arg(house.who.value)
                            .arg(house.who.value + 1)}),
                 QString());
        house.wire.heal();
        Kiosk kiosk(house, m_folder->path());
        QVERIFY(resultOf(kiosk.opening));
        QTRY_VERIFY_WITH_TIMEOUT(kiosk.standing().shared && !kiosk.standing().away, patientMs);
        QCOMPARE(kiosk.standing().kept.size(), std::size_t(1));
        const KeptRequest shown = kiosk.standing().kept.front();
        QVERIFY(shown.damaged);
        QCOMPARE(shown.works.front().operation, house.work);
        QVERIFY(!house.entries(house.car).contains(QStringLiteral("work-started")));
        QVERIFY(resultOf(kiosk.thread().note(shown.number, house.bench.manager)));
        QTRY_VERIFY(kiosk.standing().kept.empty());
    }

    void tornMirror_data()
    {
        QTest::addColumn<bool>("answers");
        QTest::newRow("server there") << true;
        QTest::newRow("server away") << false;
    }

    void tornMirror()
    {
        QFETCH(bool, answers);
        House house;
        leaveSomething(house);
        if (QTest::currentTestFailed())
            return;
        QFile::remove(file(standbyfiles::working));
        QVERIFY(tear(file(standbyfiles::mirror), 0, 50'000));
        if (answers)
            house.wire.heal();
        Kiosk kiosk(house, m_folder->path());
        const auto opened = resultOf(kiosk.opening);
        QCOMPARE(opened.has_value(), answers);
        if (!answers) {
            // Nothing that would offer to bring a backup back here.
            QCOMPARE(opened.error().kind, StoreErrorKind::Unavailable);
            QVERIFY2(opened.error().words.contains(QStringLiteral("knows no staff")),
                     qPrintable(opened.error().words));
            QTRY_VERIFY(!kiosk.standing().fault.isEmpty());
            QCOMPARE(kiosk.standing().kept.size(), std::size_t(1));
            house.wire.heal();
        }
        QTRY_VERIFY_WITH_TIMEOUT(!kiosk.standing().away && !kiosk.standing().knownAt.isNull(),
                                 patientMs);
        QCOMPARE(kiosk.standing().fault, QString());
        QVERIFY(kiosk.standing().kept.empty());
        QCOMPARE(house.entries(house.car).count(QStringLiteral("work-started")), 1);
        // And the kiosk can go on alone again.
        house.wire.cut();
        QTRY_VERIFY_WITH_TIMEOUT(kiosk.standing().away, patientMs);
        QCOMPARE(kiosk.wall().size(), 2);
    }

    void outboxOfANewerProgram_isRefusedUnharmed_andSaid()
    {
        House house;
        leaveSomething(house);
        if (QTest::currentTestFailed())
            return;
        const QString outbox = file(standbyfiles::outbox);
        QCOMPARE(sqlIn(outbox, {QStringLiteral("INSERT INTO schema_version SELECT max(version) + 1,"
                                               " 'later', 0 FROM schema_version")}),
                 QString());
        const QByteArray before = bytesIn(outbox);
        house.wire.heal();
        {
            // The kiosk works with its server, and says that it could not go on alone.
            Kiosk kiosk(house, m_folder->path());
            QVERIFY(resultOf(kiosk.opening));
            QTRY_VERIFY_WITH_TIMEOUT(!kiosk.standing().fault.isEmpty(), patientMs);
            QVERIFY2(kiosk.standing().fault.contains(QStringLiteral("newer version")),
                     qPrintable(kiosk.standing().fault));
            QVERIFY(!kiosk.standing().away);
            QCOMPARE(kiosk.wall().size(), 2);
            house.wire.cut();
            QTRY_VERIFY_WITH_TIMEOUT(kiosk.standing().away, patientMs);
            QVERIFY(kiosk.ask(house.who, house.car, {car::StartWork{house.work}}, "alone")
                        .contains(QStringLiteral("newer version")));
        }
        QCOMPARE(bytesIn(outbox), before);
        QCOMPARE(sqlIn(outbox, {QStringLiteral("DELETE FROM schema_version WHERE name = 'later'")}),
                 QString());
        house.wire.heal();
        Kiosk kiosk(house, m_folder->path());
        QVERIFY(resultOf(kiosk.opening));
        QCOMPARE(house.entries(house.car).count(QStringLiteral("work-started")), 1);
        QVERIFY(kiosk.standing().fault.isEmpty());
    }

    // The administrator brings the server's database back from a backup of this morning.
    void serverFromABackup_getsWhatIsKept_once_andWhatItLacksIsTold()
    {
        House house;
        const QString backup = m_folder->filePath(QStringLiteral("backup.sqlite"));
        const QString folder = m_folder->filePath(QStringLiteral("standby"));
        {
            Kiosk kiosk(house, folder);
            QVERIFY(resultOf(kiosk.opening));
            QTRY_VERIFY_WITH_TIMEOUT(!kiosk.standing().knownAt.isNull(), patientMs);
            const auto copied = snapshot(house.database.settings(), backup);
            QVERIFY2(copied, copied ? "" : qPrintable(copied.error().words));
            house.clock.pass(60);
            QCOMPARE(kiosk.ask(house.bench.manager, house.other,
                               {car::ChangePromise{QDate(2031, 4, 1), "asked for"}}, "lost"),
                     done);
            const Moment last = house.clock.now();
            QTRY_VERIFY_WITH_TIMEOUT(house.isCopied(folder, house.other), patientMs);
            house.wire.cut();
            QTRY_VERIFY_WITH_TIMEOUT(kiosk.standing().away, patientMs);
            house.clock.pass(5);
            QCOMPARE(kiosk.ask(house.who, house.car, {car::StartWork{house.work}}, "kept"), done);

            restore(house, backup);
            if (QTest::currentTestFailed())
                return;
            QVERIFY(!house.database.open()->ledger().isKnown(CommandId{"lost"}).value());
            house.wire.heal();
            QTRY_VERIFY_WITH_TIMEOUT(!kiosk.standing().away, patientMs);
            QTRY_VERIFY_WITH_TIMEOUT(isToldOf(kiosk, TroubleKind::ServerOlder), patientMs);
            QCOMPARE(troubleOf(kiosk).entries(), 1);
            QCOMPARE(troubleOf(kiosk).until(), last);
            QCOMPARE(house.entries(house.car).count(QStringLiteral("work-started")), 1);
            QTRY_VERIFY_WITH_TIMEOUT(!kiosk.standing().knownAt.isNull(), patientMs);
            QCOMPARE(kiosk.standing().kept.size(), std::size_t(1));
            // It goes on with what the server is now.
            QTRY_VERIFY_WITH_TIMEOUT(house.isCopied(folder, house.other), patientMs);
            QCOMPARE(kiosk.car(house.other).promised, house.bench.car(house.other).promised);
        }
        // Over another start it is still there, and nothing is sent again.
        Kiosk kiosk(house, folder);
        QVERIFY(resultOf(kiosk.opening));
        QTRY_VERIFY_WITH_TIMEOUT(isToldOf(kiosk, TroubleKind::ServerOlder), patientMs);
        QCOMPARE(house.entries(house.car).count(QStringLiteral("work-started")), 1);
        QVERIFY(resultOf(
            kiosk.thread().note(kiosk.standing().kept.front().number, house.bench.manager)));
        QTRY_VERIFY(kiosk.standing().kept.empty());
        const auto store = house.database.open();
        QCOMPARE(
            told(Verifier(store->ledger(), [](const std::set<PhotoId>&) { return VaultReport{}; })
                     .run()),
            QString());
    }

private:
    [[nodiscard]] QString file(const char* name) const
    {
        return m_folder->filePath(QLatin1StringView(name));
    }

    /// A kiosk that knew the workshop kept the beginning of one piece of work and was switched off;
    /// the line is cut.
    void leaveSomething(House& house)
    {
        Kiosk kiosk(house, m_folder->path());
        QVERIFY(resultOf(kiosk.opening));
        QTRY_VERIFY_WITH_TIMEOUT(!kiosk.standing().knownAt.isNull(), patientMs);
        house.wire.cut();
        QTRY_VERIFY_WITH_TIMEOUT(kiosk.standing().away, patientMs);
        QCOMPARE(kiosk.ask(house.who, house.car, {car::StartWork{house.work}}, "first"), done);
    }

    static void restore(House& house, const QString& backup)
    {
        const QString schema = house.database.settings().server.schema;
        StoreSettings from;
        from.file = backup;
        const auto old = SqlLedger::open(from, keeperWith());
        QVERIFY2(old, old ? "" : qPrintable(old.error().words));
        QCOMPARE(house.database.sql(QStringLiteral("DROP SCHEMA %1 CASCADE").arg(schema)),
                 QString());
        QCOMPARE(house.database.sql(QStringLiteral("CREATE SCHEMA %1").arg(schema)), QString());
        StoreSettings to = house.database.settings();
        to.site = (*old)->siteId();
        const auto fresh = SqlLedger::open(to, keeperWith());
        QVERIFY2(fresh, fresh ? "" : qPrintable(fresh.error().words));
        const auto copied = copySite(**old, **fresh);
        QVERIFY2(copied, copied ? "" : qPrintable(copied.error().words));
    }

    [[nodiscard]] static bool isToldOf(const Kiosk& kiosk, TroubleKind kind)
    {
        return std::ranges::any_of(kiosk.standing().kept, [kind](const KeptRequest& request) {
            return request.trouble && request.trouble->kind == kind;
        });
    }

    /// Only where there is one.
    [[nodiscard]] static KeptTrouble troubleOf(const Kiosk& kiosk)
    {
        for (const KeptRequest& request : kiosk.standing().kept)
            if (request.trouble)
                return *request.trouble;
        return {};
    }

    std::unique_ptr<QTemporaryDir> m_folder;
};

RAMPLIGHT_TEST(QCoreApplication, TestTornStandby)
#include "tst_tornstandby.moc"
