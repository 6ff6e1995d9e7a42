// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "stranger.h"

#include "storage/serverrights.h"
#include "support/testmain.h"

#include <QSqlError>
#include <QSqlQuery>
#include <QTest>
#include <QUuid>

using namespace ramplight;
using namespace ramplight::test;

namespace {

/// A schema on the tests' server that one account owns and another works in. Gone with the object.
class TwoAccounts
{
public:
    TwoAccounts()
        : m_mark(QUuid::createUuid().toString(QUuid::Id128))
    {
        for (const QString& name : {owner(), kiosk()})
            tell(QStringLiteral("CREATE ROLE %1 LOGIN PASSWORD 'of the tests'").arg(name));
        tell(QStringLiteral("ALTER SCHEMA %1 OWNER TO %2").arg(schema(), owner()));
    }
    ~TwoAccounts()
    {
        for (const QString& name : {kiosk(), owner()}) {
            tell(QStringLiteral("DROP OWNED BY %1 CASCADE").arg(name));
            tell(QStringLiteral("DROP ROLE %1").arg(name));
        }
    }
    TwoAccounts(const TwoAccounts&) = delete;
    TwoAccounts& operator=(const TwoAccounts&) = delete;

    [[nodiscard]] QString owner() const { return QStringLiteral("owner_") + m_mark; }
    [[nodiscard]] QString kiosk() const { return QStringLiteral("kiosk_") + m_mark; }
    [[nodiscard]] QString schema() const { return m_database.settings().server.schema; }
    [[nodiscard]] TestDatabase& database() { return m_database; }
    void tell(const QString& statement)
    {
        if (const QString said = m_database.sql(statement); !said.isEmpty())
            qFatal("%s: %s", qPrintable(statement), qPrintable(said));
    }

    [[nodiscard]] StoreSettings as(const QString& account) const
    {
        StoreSettings settings = m_database.settings();
        settings.server.user = account;
        settings.server.password = QStringLiteral("of the tests");
        return settings;
    }
    void prepare()
    {
        if (const auto done = prepareServer(as(owner()), kiosk()); !done)
            qFatal("%s", qPrintable(done.error().words));
    }
    /// Raw SQL as the kiosks' account. Empty when it was done, else the server's words.
    [[nodiscard]] QString askAsKiosk(const QString& statement) const
    {
        const auto connection = Connection::open(as(kiosk()));
        if (!connection)
            return connection.error().words;
        QSqlQuery query((*connection)->database());
        return query.exec(statement) ? QString() : query.lastError().databaseText();
    }

private:
    QString m_mark;
    TestDatabase m_database{StoreKind::PostgreSql};
};

/// Two sites in one database, with the one account of their kiosks, and a car each.
struct TwoSites
{
    explicit TwoSites(TwoAccounts& accounts)
    {
        accounts.prepare();
        north = south = accounts.as(accounts.kiosk());
        north.site = {QStringLiteral("north")};
        south.site = {QStringLiteral("south")};
        Workbench bench;
        bench.appraised();
        const auto other = Store::open(north, keeperWith()).value();
        if (!replay(bench.ledger.accepted(), other->ledger()) ||
            !replay(bench.ledger.accepted(), openSouth()->ledger()))
            qFatal("the sites cannot be written");
    }
    [[nodiscard]] std::unique_ptr<Store> openSouth() const
    {
        return Store::open(south, southern).value();
    }

    StoreSettings north;
    StoreSettings south;
    HeadKeeper southern = keeperWith("a key of the south");
};

} // namespace

// The kiosks' account on a server: it works with what it was given, and nothing that was written
// can be changed through it, whatever SQL somebody with its password sends.
class TestServerRights : public QObject
{
    Q_OBJECT

private slots:
    void init()
    {
        if (qEnvironmentVariable("RAMPLIGHT_TEST_PG").isEmpty())
            QSKIP("RAMPLIGHT_TEST_PG names no server (tests/run starts one)");
    }

    void preparedServer_theKiosksAccountWorks()
    {
        TwoAccounts accounts;
        const auto prepared = prepareServer(accounts.as(accounts.owner()), accounts.kiosk());
        QVERIFY2(prepared, qPrintable(prepared ? QString() : prepared.error().words));
        QCOMPARE(prepared->outcome, MigrationOutcome::Fresh);
        const auto opened = Store::open(accounts.as(accounts.kiosk()), keeperWith());
        QVERIFY2(opened, qPrintable(opened ? QString() : opened.error().words));
        Store& store = **opened;
        QCOMPARE(store.ledger().opening(), MigrationOutcome::UpToDate);
        Workbench bench;
        tellStory(bench);
        QCOMPARE(outcome(replay(bench.ledger.accepted(), store.ledger())), QStringLiteral("ok"));
        QVERIFY(store.credentials().setPinHash(PersonId{1}, "1"));
        QVERIFY(store.settings().set("colour", "slate"));
        QCOMPARE(rebuildReadTables(store.ledger()).value(), 5);
        QCOMPARE(told(Verifier(store.ledger()).run()), QString());
        // Again, as after each new version: nothing is taken away.
        QCOMPARE(prepareServer(accounts.as(accounts.owner()), accounts.kiosk())->outcome,
                 MigrationOutcome::UpToDate);
        QVERIFY(store.settings().set("colour", "amber"));
        QCOMPARE(warningOfRights(store.ledger().connection()), QString());
        // Who works with the owner's is told.
        const auto owner = Store::open(accounts.as(accounts.owner()), keeperWith());
        QVERIFY(owner);
        QVERIFY(warningOfRights((*owner)->ledger().connection()).contains("prepare-server"));
    }

    void ofAFile_thereIsNoWarning()
    {
        TestDatabase database(StoreKind::Sqlite);
        const auto store = database.open();
        QCOMPARE(warningOfRights(store->ledger().connection()), QString());
    }

    void everyTable_canBeReadByTheKiosks()
    {
        TwoAccounts accounts;
        accounts.prepare();
        QCOMPARE(accounts.database().dump(
                     QStringLiteral("SELECT tablename FROM pg_tables WHERE schemaname = '%1'"
                                    " AND NOT has_table_privilege('%2', format('%I.%I',"
                                    " schemaname, tablename), 'SELECT')")
                         .arg(accounts.schema(), accounts.kiosk())),
                 QString());
    }

    void rawSqlOfTheKiosksAccount_isRefused_data()
    {
        QTest::addColumn<QString>("statement");
        QTest::addColumn<QString>("words");
        const auto row = [](const char* name, const char* statement, const char* words) {
            QTest::newRow(name) << statement << words;
        };
        row("update", "UPDATE ledger SET body = '{}'", "permission denied for table ledger");
        row("delete", "DELETE FROM ledger", "permission denied for table ledger");
        row("truncate", "TRUNCATE ledger", "permission denied for table ledger");
        row("put before others",
            "INSERT INTO ledger (position, site, stream, seq, at, actor, command, type, version,"
            " body, prev_hash, hash) OVERRIDING SYSTEM VALUE SELECT -1, site, 'car/x', 1, at, "
            "actor,"
            " command, type, version, body, '', hash FROM ledger WHERE seq = 1",
            "permission denied for table ledger");
        row("command changed", "UPDATE command SET entries = 9",
            "permission denied for table command");
        row("command deleted", "DELETE FROM command", "permission denied for table command");
        row("move changed", "UPDATE site_move SET away = 0",
            "permission denied for table site_move");
        row("move changed by an insert",
            "INSERT INTO site_move SELECT site, 1, 0, 0, '' FROM site ON CONFLICT (site, number)"
            " DO UPDATE SET away = 0",
            "permission denied for table site_move");
        row("move deleted", "DELETE FROM site_move", "permission denied for table site_move");
        row("moves emptied", "TRUNCATE site_move", "permission denied for table site_move");
        row("move ahead of others", "INSERT INTO site_move SELECT site, 9, 0, 0, '' FROM site",
            "ramplight: append only");
        row("site renamed", "UPDATE site SET site = 'another'", "permission denied for table site");
        row("schema said to be older", "DELETE FROM schema_version",
            "permission denied for table schema_version");
        row("table dropped", "DROP TABLE ledger CASCADE", "must be owner");
        row("guard switched off", "ALTER TABLE ledger DISABLE TRIGGER ALL", "must be owner");
        row("guard taken away", "DROP TRIGGER ledger_no_update ON ledger", "must be owner");
        row("guard made harmless",
            "CREATE OR REPLACE FUNCTION ramplight_append_only() RETURNS trigger LANGUAGE plpgsql"
            " AS 'BEGIN RETURN NEW; END;'",
            "permission denied for schema");
        row("guard of its own",
            "CREATE TRIGGER mine BEFORE INSERT ON ledger FOR EACH ROW"
            " EXECUTE FUNCTION ramplight_append_only()",
            "permission denied");
        row("guards passed by as a replica does", "SET session_replication_role = replica",
            "permission denied");
        row("as the server's keeper", "SET ROLE ramplight", "permission denied to set role");
        row("a table", "CREATE TABLE mine (x TEXT)", "permission denied for schema");
        row("gap",
            "INSERT INTO ledger (site, stream, seq, at, actor, command, type, version, body,"
            " prev_hash, hash) SELECT site, stream, seq + 2, at, actor, command, type, version,"
            " body, hash, hash FROM ledger WHERE stream = 'car/car-1' AND seq = 1",
            "ramplight: chain broken");
        row("gap, with a table of its own for the guard to look into",
            "DO $$ BEGIN CREATE TEMPORARY TABLE ledger AS SELECT site, stream, 99 AS seq, hash "
            "FROM ledger"
            " WHERE stream = 'car/car-1' AND seq = 1;"
            " EXECUTE format('INSERT INTO %1$I.ledger (site, stream, seq, at, actor,"
            " command, type, version, body, prev_hash, hash) SELECT site, stream, 100, at, actor,"
            " command, type, version, body, hash, hash FROM %1$I.ledger"
            " WHERE stream = ''car/car-1'' AND seq = 1', current_schema()); END; $$",
            "ramplight: chain broken");
        row("move, with a table of its own for the guard to look into",
            "DO $$ BEGIN CREATE TEMPORARY TABLE site_move AS SELECT site, 8 AS number FROM site;"
            " EXECUTE format('INSERT INTO %1$I.site_move SELECT site, 9, 0, 0, '''' "
            "FROM"
            " %1$I.site', current_schema()); END; $$",
            "ramplight: append only");
    }

    void rawSqlOfTheKiosksAccount_isRefused()
    {
        QFETCH(QString, statement);
        QFETCH(QString, words);
        TwoAccounts accounts;
        accounts.prepare();
        const auto store = Store::open(accounts.as(accounts.kiosk()), keeperWith()).value();
        Workbench bench;
        bench.appraised();
        QCOMPARE(outcome(replay(bench.ledger.accepted(), store->ledger())), QStringLiteral("ok"));
        const QString before = accounts.database().dump("SELECT * FROM ledger ORDER BY position");
        const QString said = accounts.askAsKiosk(statement);
        QVERIFY2(said.contains(words), qPrintable(said));
        QCOMPARE(accounts.database().dump("SELECT * FROM ledger ORDER BY position"), before);
        QCOMPARE(told(Verifier(store->ledger()).run()), QString());
    }

    // Several sites in one database have one account, and what must be erasable is so to each of
    // them: nothing keeps one site's kiosk from the names and photos of another. Its own check
    // finds it, because the other site's kiosks have no key that could seal it anew.
    void whatOneSiteDoesToAnothersNames_isFoundByTheOthersCheck_data()
    {
        QTest::addColumn<QString>("statement");
        QTest::newRow("a name changed")
            << "UPDATE person_name SET name = 'Somebody' WHERE person = 1";
        QTest::newRow("names gone") << "DELETE FROM person_name";
        QTest::newRow("a PIN of theirs")
            << "UPDATE credential SET pin_hash = 'their own' WHERE person = 1";
        QTest::newRow("a badge of theirs")
            << "INSERT INTO badge (site, code, person) SELECT site, 'a code', 1 FROM site WHERE "
               "site = 'south'";
        QTest::newRow("all settings, with the seal") << "DELETE FROM setting";
    }

    void whatOneSiteDoesToAnothersNames_isFoundByTheOthersCheck()
    {
        QFETCH(QString, statement);
        TwoAccounts accounts;
        TwoSites sites(accounts);
        const auto store = sites.openSouth();
        QVERIFY(store->credentials().setPinHash(PersonId{1}, "1"));
        QVERIFY(store->settings().set("colour", "slate"));
        QCOMPARE(told(Verifier(store->ledger()).run()), QString());
        const QString where = statement.contains(QStringLiteral("WHERE"))
                                  ? QStringLiteral(" AND site = 'south'")
                                  : QStringLiteral(" WHERE site = 'south'");
        const QString asked =
            statement.startsWith(QStringLiteral("INSERT")) ? statement : statement + where;
        QCOMPARE(accounts.askAsKiosk(asked), QString()); // nothing stops it
        const QString found = told(Verifier(store->ledger()).run());
        QVERIFY2(!found.isEmpty(), "not found");
        // Nor is it sealed anew by the next start.
        const auto again = sites.openSouth();
        QCOMPARE(told(Verifier(again->ledger()).run()), found);
        // The one that did it has nothing to hide behind: its own check is as it was.
        const auto other = Store::open(sites.north, keeperWith()).value();
        QCOMPARE(told(Verifier(other->ledger()).run()), QString());
    }

    // What may be added to may be so by the one account of all sites, too. It has not the other
    // site's key: the other site finds it, and builds nothing upon it.
    void whatOneSiteAddsToAnothersLedger_isFoundByTheOther_data()
    {
        QTest::addColumn<QString>("stream");
        QTest::addColumn<QString>("type");
        QTest::addColumn<QStringList>("found");
        const QString car = carStream(CarId{QStringLiteral("car-1")});
        const QString foreign = QStringLiteral("no head covers it: it was not written by the "
                                               "program");
        QTest::newRow("in a car's stream") << car << "promise-changed" << QStringList{foreign};
        QTest::newRow("in the site's stream")
            << siteStream() << "person-added" << QStringList{foreign};
        QTest::newRow("of a type that is not known")
            << car << "car-blessed" << QStringList{foreign, "\"car-blessed\" is not known"};
        QTest::newRow("among the heads")
            << headsStream() << "heads" << QStringList{"heads, entry ", "it carries no seal"};
        QTest::newRow("in a stream that no site has")
            << "lorry/1"
            << "car-blessed" << QStringList{"lorry/1: no stream of that name belongs to a site"};
    }

    void whatOneSiteAddsToAnothersLedger_isFoundByTheOther()
    {
        QFETCH(QString, stream);
        QFETCH(QString, type);
        QFETCH(QStringList, found);
        TwoAccounts accounts;
        TwoSites sites(accounts);
        const auto south = sites.openSouth();
        QCOMPARE(told(Verifier(south->ledger()).run()), QString());
        Stranger(sites.south)
            .write(stream, CommandId{QStringLiteral("of the north")},
                   {type, 1, type == "heads" ? QByteArray("{\"heads\":[]}") : QByteArray("{}")});
        const QString report = told(Verifier(south->ledger()).run());
        for (const QString& words : found)
            QVERIFY2(report.contains(words), qPrintable(report));
        const auto north = Store::open(sites.north, keeperWith()).value();
        QCOMPARE(told(Verifier(north->ledger()).run()), QString());
        // Neither takes back what it did, nor anything that was there.
        for (const char* statement :
             {"DELETE FROM ledger WHERE site = 'south'", "UPDATE ledger SET site = 'north'",
              "DELETE FROM command WHERE site = 'south'"})
            QVERIFY2(accounts.askAsKiosk(QString::fromLatin1(statement)).contains("denied"),
                     statement);
    }

    // The others are told at once, and go on where the owner says that it is back.
    void anothersMarkThatASiteMoved_stopsItUntilTheOwnerTakesItBack()
    {
        TwoAccounts accounts;
        TwoSites sites(accounts);
        const QString mark = QStringLiteral("INSERT INTO site_move (site, number, at, away, place)"
                                            " VALUES ('south', %1, 0, %2, 'nowhere')");
        QCOMPARE(accounts.askAsKiosk(mark.arg(1).arg(1)), QString()); // nothing stops it
        const auto south = Store::open(sites.south, sites.southern);
        QCOMPARE(south.error().kind, StoreErrorKind::Moved);
        QVERIFY(accounts.askAsKiosk("DELETE FROM site_move").contains("denied"));
        accounts.tell(mark.arg(2).arg(0));
        QCOMPARE(told(Verifier(sites.openSouth()->ledger()).run()), QString());
    }

    void unpreparedServer_isSaidAndLeftAlone()
    {
        TwoAccounts accounts;
        const auto blind = Store::open(accounts.as(accounts.kiosk()), keeperWith());
        QCOMPARE(blind.error().kind, StoreErrorKind::Unavailable);
        accounts.tell(QStringLiteral("GRANT USAGE ON SCHEMA %1 TO %2")
                          .arg(accounts.schema(), accounts.kiosk()));
        const auto store = Store::open(accounts.as(accounts.kiosk()), keeperWith());
        QCOMPARE(store.error().kind, StoreErrorKind::Unavailable);
        QVERIFY2(store.error().words.contains("prepare-server"), qPrintable(store.error().words));
        QCOMPARE(accounts.database().ask("SELECT count(*) FROM pg_tables WHERE schemaname ="
                                         " current_schema()"),
                 QVariant(0));
    }

    void newerProgram_waitsForTheOwner()
    {
        TwoAccounts accounts;
        accounts.prepare();
        const auto connection = Connection::open(accounts.as(accounts.kiosk())).value();
        auto steps = migrationsIn(connection->dialect().migrations());
        const int version = steps.back().version;
        steps.push_back({version + 1, QStringLiteral("later"), {"CREATE TABLE later (x TEXT)"}});
        const MigrationResult result = migrate(*connection, steps);
        QCOMPARE(result.outcome, MigrationOutcome::NotOurs);
        QCOMPARE(result.to, version);
        QVERIFY2(result.words.contains("prepare-server"), qPrintable(result.words));
        QCOMPARE(migrationError(result)->kind, StoreErrorKind::Unavailable);
        QCOMPARE(accounts.database().ask("SELECT max(version) FROM schema_version").toInt(),
                 version);
    }

    void accountThatIsNoKiosks_isRefused()
    {
        TwoAccounts accounts;
        const StoreSettings owner = accounts.as(accounts.owner());
        const auto refused = [&](const QString& account) {
            const auto prepared = prepareServer(owner, account);
            return prepared ? QString() : prepared.error().words;
        };
        QVERIFY(refused(QStringLiteral("nobody")).contains("no account nobody"));
        QVERIFY(refused(accounts.owner()).contains("whatever the owner can"));
        accounts.tell(QStringLiteral("GRANT %1 TO %2").arg(accounts.owner(), accounts.kiosk()));
        QVERIFY(refused(accounts.kiosk()).contains("whatever the owner can"));
        accounts.tell(QStringLiteral("REVOKE %1 FROM %2").arg(accounts.owner(), accounts.kiosk()));
        accounts.prepare();
        // A group that somebody put it into.
        const QString group = QStringLiteral("group_") + accounts.kiosk();
        accounts.tell(QStringLiteral("CREATE ROLE %1").arg(group));
        accounts.tell(
            QStringLiteral("GRANT DELETE ON %1.ledger TO %2").arg(accounts.schema(), group));
        accounts.tell(QStringLiteral("GRANT %1 TO %2").arg(group, accounts.kiosk()));
        const QString words = refused(accounts.kiosk());
        accounts.tell(QStringLiteral("DROP OWNED BY %1").arg(group));
        accounts.tell(QStringLiteral("DROP ROLE %1").arg(group));
        QVERIFY2(words.contains("by a group"), qPrintable(words));
    }

    void file_hasNoAccounts()
    {
        const auto prepared = prepareServer({}, QStringLiteral("kiosk"));
        QCOMPARE(prepared.error().kind, StoreErrorKind::Unavailable);
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestServerRights)
#include "tst_serverrights.moc"
