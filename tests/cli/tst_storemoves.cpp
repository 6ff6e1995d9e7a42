// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "cli/program.h"
#include "cli/smallhome.h"
#include "storage/connection.h"
#include "support/scratchdatabase.h"
#include "support/testmain.h"

#include <QDir>
#include <QFile>
#include <QProcess>
#include <QScopeGuard>
#include <QSettings>
#include <QTemporaryDir>
#include <QTest>

#include <optional>

using namespace ramplight;
using namespace ramplight::test;

// A workshop that shares a server with another one moves into a file and back: at no time two
// places are written to, whoever looks in the wrong one is told where it is, and the other workshop
// goes on.
class TestStoreMoves : public QObject
{
    Q_OBJECT

private slots:
    void initTestCase()
    {
        m_server = qEnvironmentVariable("RAMPLIGHT_TEST_PG");
        if (m_server.isEmpty())
            QSKIP("RAMPLIGHT_TEST_PG names no server (tests/run starts one)");
        QCOMPARE(makeSmallHome(in("one")), QString());
        QCOMPARE(makeSmallHome(in("other")), QString());
    }

    // As the kiosks' account, which owns nothing there.
    void init()
    {
        m_scratch.emplace(m_server);
        QVERIFY(m_scratch->isThere());
        m_account = QStringLiteral("kiosk_%1").arg(QCoreApplication::applicationPid());
        QCOMPARE(tellServer(
                     QStringLiteral("create role %1 login password 'of-the-tests'").arg(m_account)),
                 0);
        m_passwords = qgetenv("PGPASSFILE");
        QVERIFY(write(in("passwords"), bytesOf(QString::fromLocal8Bit(m_passwords)) +
                                           "*:*:*:" + m_account.toUtf8() + ":of-the-tests\n"));
        QFile::setPermissions(in("passwords"), QFile::ReadOwner | QFile::WriteOwner);
        qputenv("PGPASSFILE", in("passwords").toLocal8Bit());
        m_address = m_scratch->address();
        m_address.replace(QStringLiteral("user=ramplight"), QStringLiteral("user=") + m_account);
        QDir(in("here")).removeRecursively();
        QDir(in("second")).removeRecursively();
        QDir(in("there")).removeRecursively();
        QVERIFY(copyFolder(in("one"), in("here")));
        QVERIFY(copyFolder(in("other"), in("there")));
        QCOMPARE(said("here", {"prepare-server", m_scratch->address(), "--kiosk", m_account}),
                 QString());
        for (const QString& home : {QStringLiteral("there"), QStringLiteral("here")})
            QCOMPARE(said(home, {"migrate-store", "--to-server", m_address}), QString());
        // Another kiosk of the same workshop.
        QVERIFY(QDir().mkpath(in("second")));
        for (const char* file : {"settings.ini", "site.keys"}) {
            const QString to = in("second/") + QLatin1String(file);
            QVERIFY(QFile::copy(in("here/") + QLatin1String(file), to));
            QFile::setPermissions(to, QFile::ReadOwner | QFile::WriteOwner);
        }
        QCOMPARE(addBay("second", "27"), QString());
    }

    void cleanup()
    {
        qputenv("PGPASSFILE", m_passwords);
        m_scratch.reset(); // nothing is granted to the account any more
        QCOMPARE(tellServer(QStringLiteral("drop role %1").arg(m_account)), 0);
    }

    void serversCopy_thatWasLeft_isWrittenToByNobody()
    {
        QCOMPARE(said("here", {"migrate-store", "--to-file"}), QString());
        const QString left = ledgerThere();
        // The kiosk that still names the server is told when and where to.
        const QString told = addBay("second", "28");
        QVERIFY2(told.contains(in("here/workshop.sqlite")), qPrintable(told));
        QVERIFY2(told.contains(QDate::currentDate().toString(QStringLiteral("yyyy"))) &&
                     told.contains("moved"),
                 qPrintable(told));
        for (const QStringList& look :
             {QStringList{"verify"}, QStringList{"backup", "--to", in("kept")},
              QStringList{"rebuild"}, QStringList{"migrate-store", "--to-file"}})
            QVERIFY2(said("second", look).contains(in("here/workshop.sqlite")),
                     qPrintable(look.front()));
        QVERIFY(!QFile::exists(in("second/workshop.sqlite")));
        QCOMPARE(ledgerThere(), left);
        // Here work goes on, and so does the other workshop on the server.
        QCOMPARE(addBay("here", "28"), QString());
        QVERIFY(whole("here"));
        QCOMPARE(addBay("there", "28"), QString());
        QVERIFY(whole("there"));
    }

    void movedThereAgain_goesOnAsOneHistory()
    {
        QCOMPARE(said("here", {"migrate-store", "--to-file"}), QString());
        QCOMPARE(addBay("here", "28"), QString());
        QCOMPARE(said("here", {"migrate-store", "--to-server", m_address}), QString());
        QVERIFY(!QFile::exists(in("here/workshop.sqlite")));
        const Ran bays = runProgram(in("second"), {"bay", "list"});
        QVERIFY2(bays.out.contains("Yard 28") && bays.out.contains("Yard 27"),
                 qPrintable(bays.out + bays.err));
        QCOMPARE(addBay("second", "29"), QString());
        QVERIFY(whole("here"));
        QVERIFY(whole("there"));
        // And once more both ways.
        QCOMPARE(said("here", {"migrate-store", "--to-file"}), QString());
        QVERIFY(!addBay("second", "30").isEmpty());
        QCOMPARE(said("here", {"migrate-store", "--to-server", m_address}), QString());
        QCOMPARE(addBay("second", "30"), QString());
        QVERIFY(whole("here"));
    }

    // What came of an older backup does not go on from what lies on the server.
    void anotherHistory_isNotAddedToIt()
    {
        QCOMPARE(said("here", {"migrate-store", "--to-file"}), QString());
        const QString left = ledgerThere();
        QVERIFY(copyFolder(in("one"), in("older")));
        QCOMPARE(addBay("older", "32"), QString());
        const QString told = said("older", {"migrate-store", "--to-server", m_address});
        QVERIFY2(told.contains("older backup") && told.contains("Nothing was changed"),
                 qPrintable(told));
        QCOMPARE(ledgerThere(), left);
        QVERIFY(whole("older"));
        QVERIFY(addBay("second", "29").contains(in("here/workshop.sqlite")));
        QCOMPARE(said("here", {"migrate-store", "--to-server", m_address}), QString());
    }

    // Broken off between the server's mark and the settings: the same command ends it.
    void moveThatWasBrokenOff_isEndedByTheNextTry()
    {
        const QByteArray settings = bytesOf(in("here/settings.ini"));
        QCOMPARE(said("here", {"migrate-store", "--to-file"}), QString());
        QVERIFY(write(in("here/settings.ini"), settings));
        QVERIFY(said("here", {"bay", "list"}).contains("moved"));
        QCOMPARE(said("here", {"migrate-store", "--to-file"}), QString());
        QCOMPARE(addBay("here", "28"), QString());
        QVERIFY(whole("here"));
        // The other way, before the server was told.
        QVERIFY(write(in("here/settings.ini"), settings));
        QVERIFY(!addBay("here", "29").isEmpty());
        QCOMPARE(said("here", {"migrate-store", "--to-server", m_address}), QString());
        QCOMPARE(addBay("here", "29"), QString());
        QVERIFY(whole("here"));
        QVERIFY(runProgram(in("here"), {"bay", "list"}).out.contains("Yard 28"));
        QVERIFY(said("here", {"migrate-store", "--to-server", m_address}).contains("already"));
    }

    // A file of that name that is something else is not taken for it.
    void anotherFileInItsPlace_isLeftAlone()
    {
        const QByteArray settings = bytesOf(in("here/settings.ini"));
        QCOMPARE(said("here", {"migrate-store", "--to-file"}), QString());
        QCOMPARE(addBay("here", "28"), QString());
        QVERIFY(write(in("here/settings.ini"), settings));
        const QString told = said("here", {"migrate-store", "--to-file"});
        QVERIFY2(told.contains("not what was moved there"), qPrintable(told));
    }

private:
    [[nodiscard]] QString in(const QString& name) const { return m_folder.filePath(name); }
    /// What the program said of it; empty: it was done.
    [[nodiscard]] QString said(const QString& home, const QStringList& arguments) const
    {
        const Ran ran = runProgram(in(home), arguments);
        return ran.code == 0 ? QString() : QStringLiteral("said: ") + ran.out + ran.err;
    }
    [[nodiscard]] QString addBay(const QString& home, const QString& number) const
    {
        return said(home, {"bay", "add", number, "Yard " + number, "parking"});
    }
    [[nodiscard]] bool whole(const QString& home) const
    {
        return runProgram(in(home), {"verify"}).out.contains(QStringLiteral("all is whole"));
    }
    /// All entries on the server.
    [[nodiscard]] QString ledgerThere() const
    {
        StoreSettings settings;
        settings.kind = StoreKind::PostgreSql;
        settings.server = *PostgresAddress::parse(m_scratch->address());
        const auto connection = Connection::open(settings);
        if (!connection)
            return connection.error().words;
        QStringList entries;
        auto rows = (*connection)->run("SELECT site, hash FROM ledger ORDER BY position");
        while (rows && rows->next())
            entries.append(rows->text(0) + rows->text(1));
        return entries.join(QLatin1Char('\n'));
    }
    [[nodiscard]] int tellServer(const QString& statement) const
    {
        return QProcess::execute(QStringLiteral("psql"),
                                 {QStringLiteral("--quiet"), QStringLiteral("--no-psqlrc"),
                                  QStringLiteral("--dbname"), m_server, QStringLiteral("--command"),
                                  statement});
    }

    QTemporaryDir m_folder;
    QString m_server;
    QString m_account;
    QString m_address; ///< as the kiosks' account
    QByteArray m_passwords;
    std::optional<ScratchDatabase> m_scratch;
};

RAMPLIGHT_TEST(QCoreApplication, TestStoreMoves)
#include "tst_storemoves.moc"
