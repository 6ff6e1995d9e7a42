// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "cli/program.h"
#include "storage/connection.h"
#include "support/scratchdatabase.h"
#include "support/testmain.h"

#include <QDir>
#include <QFile>
#include <QSettings>
#include <QTemporaryDir>
#include <QTest>

#include <optional>

using namespace ramplight;
using namespace ramplight::test;

namespace {

StoreSettings onServer(const QString& address)
{
    StoreSettings settings;
    settings.kind = StoreKind::PostgreSql;
    settings.server = *PostgresAddress::parse(address);
    return settings;
}

StoreSettings inFile(const QString& file)
{
    StoreSettings settings;
    settings.file = file;
    return settings;
}

/// The last entry of every stream, a line for each: who has these has everything before them.
QStringList headsIn(const StoreSettings& settings)
{
    const auto connection = Connection::open(settings);
    if (!connection)
        return {connection.error().words};
    QStringList heads;
    auto rows = (*connection)
                    ->run("SELECT l.stream, l.seq, l.hash FROM ledger l WHERE l.seq ="
                          " (SELECT max(m.seq) FROM ledger m WHERE m.site = l.site AND"
                          " m.stream = l.stream)");
    while (rows && rows->next())
        heads.append(QStringLiteral("%1 %2 %3")
                         .arg(rows->text(0))
                         .arg(rows->number(1))
                         .arg(rows->value(2).toString()));
    heads.sort();
    return heads;
}

} // namespace

// The server with the workshop's database is lost, and a backup of it is there: the whole way that
// the program names to whoever asks it to bring that back.
class TestServerRestore : public QObject
{
    Q_OBJECT

private slots:
    void drill_aLostServersWorkshopComesBackOnAnother()
    {
        const QString server = qEnvironmentVariable("RAMPLIGHT_TEST_PG");
        if (server.isEmpty())
            QSKIP("RAMPLIGHT_TEST_PG names no server (tests/run starts one)");
        std::optional<ScratchDatabase> lost(std::in_place, server);
        const ScratchDatabase fresh(server);
        QVERIFY(lost->isThere() && fresh.isThere());
        // The house as its kiosk has it.
        QCOMPARE(makeDemo(in("kiosk")), QString());
        QCOMPARE(failed("kiosk", {"migrate-store", "--to-server", lost->address()}), QString());
        const QString verified = runProgram(in("kiosk"), {"verify"}).out;
        QVERIFY2(verified.contains("all is whole"), qPrintable(verified));
        const QString staff = runProgram(in("kiosk"), {"staff", "list"}).out;
        const QStringList heads = headsIn(onServer(lost->address()));
        QVERIFY2(heads.size() > 20, qPrintable(heads.join(QLatin1Char('\n'))));
        QCOMPARE(failed("kiosk", {"backup", "--to", in("stick")}), QString());

        lost.reset();
        QVERIFY(runProgram(in("kiosk"), {"verify"}).code != 0);
        // The way is named, and it is the one that is gone here.
        const Ran refused = runProgram(in("kiosk"), {"restore", in("stick")});
        QVERIFY(refused.code != 0);
        for (const QString& part : {QStringLiteral("--home FOLDER restore ") + in("stick") +
                                        QStringLiteral(" --keys ") + in("kiosk/site.keys"),
                                    QStringLiteral("--home FOLDER migrate-store --to-server"),
                                    QStringLiteral("storage/server")})
            QVERIFY2(refused.err.contains(part), qPrintable(refused.err));

        QVERIFY(QDir().mkpath(in("back")));
        const Ran keyless = runProgram(in("back"), {"restore", in("stick")});
        QVERIFY(keyless.code != 0);
        QVERIFY2(keyless.err.contains("key"), qPrintable(keyless.err));
        QVERIFY(!QFile::exists(in("back/workshop.sqlite")));
        QCOMPARE(failed("back", {"restore", in("stick"), "--keys", in("kiosk/site.keys")}),
                 QString());
        QCOMPARE(runProgram(in("back"), {"verify"}).out, verified);
        QCOMPARE(headsIn(inFile(in("back/workshop.sqlite"))), heads);

        QCOMPARE(failed("back", {"migrate-store", "--to-server", fresh.address()}), QString());
        QVERIFY(!QFile::exists(in("back/workshop.sqlite")));
        QCOMPARE(runProgram(in("back"), {"verify"}).out, verified);
        QCOMPARE(headsIn(onServer(fresh.address())), heads);

        // The kiosk is told where it is now, and goes on.
        {
            QSettings settings(in("kiosk/settings.ini"), QSettings::IniFormat);
            settings.setValue("storage/server", fresh.address());
        }
        QCOMPARE(runProgram(in("kiosk"), {"verify"}).out, verified);
        QCOMPARE(runProgram(in("kiosk"), {"staff", "list"}).out, staff);
        QCOMPARE(failed("kiosk", {"bay", "add", "9", "Yard", "parking", "--as", "Runa Talbeck"}),
                 QString());
        QVERIFY(runProgram(in("back"), {"bay", "list"}).out.contains("Yard"));
        QVERIFY(runProgram(in("kiosk"), {"verify"}).out.contains("all is whole"));
    }

private:
    [[nodiscard]] QString in(const QString& name) const { return m_folder.filePath(name); }
    /// What the program said of it; empty: it was done.
    [[nodiscard]] QString failed(const QString& home, const QStringList& arguments) const
    {
        const Ran ran = runProgram(in(home), arguments);
        return ran.code == 0 ? QString() : ran.out + ran.err;
    }

    QTemporaryDir m_folder;
};

RAMPLIGHT_TEST(QCoreApplication, TestServerRestore)
#include "tst_serverrestore.moc"
