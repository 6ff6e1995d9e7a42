// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kioskbench.h"

#include "support/testmain.h"

#include <QFile>
#include <QScopeGuard>
#include <QUuid>

using namespace ramplight;
using namespace ramplight::test;

namespace {

/// An account of its own with a password in a file of this kiosk's.
class Account
{
public:
    explicit Account(House& house)
        : m_house(house)
        , m_name(QStringLiteral("objects_") + QUuid::createUuid().toString(QUuid::Id128))
    {
        tell(QStringLiteral("CREATE ROLE %1 LOGIN PASSWORD 'first' IN ROLE ramplight"));
        write("first");
    }
    ~Account() { m_house.database.sql("DROP ROLE " + m_name); }
    Account(const Account&) = delete;
    Account& operator=(const Account&) = delete;

    void tell(const QString& statement)
    {
        if (const QString said = m_house.database.sql(statement.arg(m_name)); !said.isEmpty())
            qFatal("%s", qPrintable(said));
    }
    void write(const QByteArray& password,
               QFile::Permissions mode = QFile::ReadOwner | QFile::WriteOwner)
    {
        QFile file(m_folder.filePath(QStringLiteral("password")));
        if (!file.open(QIODevice::WriteOnly) || file.write(password + '\n') < 0 ||
            !file.setPermissions(mode))
            qFatal("the password cannot be written");
    }
    [[nodiscard]] StoreSettings kiosk(const QString& folder) const
    {
        StoreSettings settings = m_house.kiosk(folder);
        settings.server.user = m_name;
        settings.server.password.clear();
        settings.server.passwordFile = m_folder.filePath(QStringLiteral("password"));
        return settings;
    }

private:
    House& m_house;
    QString m_name;
    QTemporaryDir m_folder;
};

} // namespace

// A server that answers and says no: people are told its reason, work goes on with what is known
// here, and the kiosk is back once somebody has seen to it.
class TestObjections : public QObject
{
    Q_OBJECT

private slots:
    void initTestCase()
    {
        if (qEnvironmentVariableIsEmpty("RAMPLIGHT_TEST_PG"))
            QSKIP("RAMPLIGHT_TEST_PG names no server (tests/run starts one)");
    }

    void changedPassword_isTold_andReadAnew()
    {
        House house;
        Account account(house);
        const QTemporaryDir folder;
        Kiosk kiosk(house, account.kiosk(folder.path()));
        QVERIFY(resultOf(kiosk.opening));
        QTRY_VERIFY_WITH_TIMEOUT(!kiosk.standing().knownAt.isNull(), patientMs);
        account.tell(QStringLiteral("ALTER ROLE %1 PASSWORD 'second'"));
        account.tell(QStringLiteral(
            "SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE usename = '%1'"));
        // It waits longer and longer before it asks again.
        const auto isTold = [&](const char* words) {
            house.clock.pass(1);
            return kiosk.standing().away &&
                   kiosk.standing().hindrance.contains(QString::fromLatin1(words));
        };
        QTRY_VERIFY_WITH_TIMEOUT(isTold("does not let this kiosk in"), patientMs);
        QVERIFY(!kiosk.standing().hindrance.contains(QStringLiteral("first")));
        QCOMPARE(kiosk.ask(house.who, house.car, {car::StartWork{house.work}}), done);
        // Readable for others it is no password file.
        account.write("second", QFile::ReadOwner | QFile::WriteOwner | QFile::ReadGroup);
        QTRY_VERIFY_WITH_TIMEOUT(isTold("0600"), patientMs);
        account.write("second");
        const auto isBack = [&] {
            house.clock.pass(1);
            return !kiosk.standing().away;
        };
        QTRY_VERIFY_WITH_TIMEOUT(isBack(), patientMs);
        QCOMPARE(kiosk.standing().hindrance, QString());
        QCOMPARE(house.entries(house.car).count(QStringLiteral("work-started")), 1);
    }

    void newKiosk_thatIsNotLetIn_isToldWhy()
    {
        House house;
        Account account(house);
        account.write("mistyped");
        const QTemporaryDir folder;
        Kiosk kiosk(house, account.kiosk(folder.path()));
        const auto opened = resultOf(kiosk.opening);
        QVERIFY(!opened);
        QVERIFY2(opened.error().words.contains(QStringLiteral("does not let this kiosk in")),
                 qPrintable(opened.error().words));
        QTRY_VERIFY_WITH_TIMEOUT(kiosk.standing().hindrance == opened.error().words, patientMs);
    }

    // Its disk broke; the database was made again and the workshop not yet brought there.
    void emptyServer_isGivenNoSiteOfItsOwn_andTakesWhatIsKeptOnceItHasTheWorkshop()
    {
        House house;
        const QTemporaryDir folder;
        const SiteId site = house.database.open()->ledger().siteId();
        const QString schema = house.database.settings().server.schema;
        {
            Kiosk kiosk(house, folder.path());
            QVERIFY(resultOf(kiosk.opening));
            QTRY_VERIFY_WITH_TIMEOUT(!kiosk.standing().knownAt.isNull(), patientMs);
            house.wire.cut();
            QTRY_VERIFY_WITH_TIMEOUT(kiosk.standing().away, patientMs);
            QCOMPARE(kiosk.ask(house.who, house.car, {car::StartWork{house.work}}), done);
        }
        QCOMPARE(house.database.sql("DROP SCHEMA " + schema + " CASCADE"), QString());
        QCOMPARE(house.database.sql("CREATE SCHEMA " + schema), QString());
        {
            const auto empty = Connection::open(house.database.settings());
            QVERIFY(empty);
            QVERIFY(
                !migrationError(migrate(**empty, migrationsIn((*empty)->dialect().migrations()))));
        }
        house.wire.heal();
        for (const bool running : {false, true}) {
            Kiosk kiosk(house, folder.path());
            QVERIFY(resultOf(kiosk.opening));
            QTRY_VERIFY_WITH_TIMEOUT(
                kiosk.standing().hindrance.contains(QStringLiteral("worked for the site")),
                patientMs);
            QCOMPARE(kiosk.standing().kept.size(), std::size_t(1));
            QVERIFY(kiosk.wall().contains(house.car.text));
            QCOMPARE(house.database.ask("SELECT count(*) FROM site").toInt(), 0);
            if (!running)
                continue;
            StoreSettings again = house.database.settings();
            again.site = site;
            const auto brought = SqlLedger::open(again, keeperWith());
            QVERIFY(brought);
            QCOMPARE(outcome(replay(house.bench.ledger.accepted(), **brought)),
                     QStringLiteral("ok"));
            QTRY_VERIFY_WITH_TIMEOUT(!kiosk.standing().away, patientMs);
            QTRY_COMPARE_WITH_TIMEOUT(kiosk.standing().kept.size(), std::size_t(0), patientMs);
            QCOMPARE(house.entries(house.car).count(QStringLiteral("work-started")), 1);
        }
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestObjections)
#include "tst_objections.moc"
