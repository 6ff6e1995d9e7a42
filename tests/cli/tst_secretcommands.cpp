// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "cli/program.h"
#include "support/scratchdatabase.h"
#include "support/secrets.h"
#include "support/testmain.h"

#include <QDir>
#include <QFile>
#include <QProcess>
#include <QTemporaryDir>
#include <QTest>

#include <functional>
#include <optional>

using namespace ramplight::test;

namespace {

/// A program and what others on the machine see of it while it runs, with whatever it starts.
class SeenProgram
{
public:
    explicit SeenProgram(const QStringList& arguments, const QByteArray& input = {},
                         const QByteArray& password = {})
    {
        QProcessEnvironment environment = programEnvironment();
        environment.insert(QStringLiteral("QT_LOGGING_RULES"),
                           QStringLiteral("default=true;qt.sql.*=true;qt.network.*=true"));
        environment.insert(QStringLiteral("PGPASSFILE"), QStringLiteral("/no/such/file"));
        if (!password.isEmpty())
            environment.insert(QStringLiteral("RAMPLIGHT_STORE_PASSWORD"),
                               QString::fromUtf8(password));
        m_process.setProcessEnvironment(environment);
        m_process.start(programPath(), arguments);
        m_started = m_process.waitForStarted();
        look();
        m_process.write(input);
        m_process.closeWriteChannel();
    }

    /// Until it ends, or this has come true; then it is killed.
    void watch(const std::function<bool()>& comesTrue = [] { return false; })
    {
        const auto over = [&] {
            look();
            return m_process.state() == QProcess::NotRunning || comesTrue();
        };
        m_over = QTest::qWaitFor(over, 100'000);
        m_process.kill();
        m_process.waitForFinished();
        m_seen += m_process.readAllStandardOutput() + m_process.readAllStandardError();
    }

    /// It ran, and came to its end.
    [[nodiscard]] bool isOver() const { return m_started && m_over && m_looked > 0; }
    [[nodiscard]] bool wasKilled() const { return m_process.exitStatus() == QProcess::CrashExit; }
    [[nodiscard]] int code() const { return m_process.exitCode(); }
    /// Arguments of all, and what they said.
    [[nodiscard]] const QByteArray& seen() const { return m_seen; }

private:
    void look()
    {
        QList<qint64> all{m_process.processId()};
        for (qsizetype i = 0; i < all.size() && all.at(i) != 0; ++i) {
            const QString place = QStringLiteral("/proc/%1").arg(all.at(i));
            const QByteArray arguments = bytesOf(place + QStringLiteral("/cmdline"));
            if (arguments.contains("ramplight"))
                ++m_looked;
            m_seen += arguments + '\n';
            for (const QByteArray& child :
                 bytesOf(place + QStringLiteral("/task/%1/children").arg(all.at(i))).split(' '))
                if (const qint64 number = child.toLongLong(); number != 0)
                    all.append(number);
        }
        m_seen += m_process.readAllStandardError();
    }

    QProcess m_process;
    QByteArray m_seen;
    int m_looked = 0;
    bool m_started = false;
    bool m_over = false;
};

} // namespace

// PINs and a server's password, given to the built program in every way that it takes: they are in
// none of its arguments, none of its words and none of the files that it leaves.
class TestSecretCommands : public QObject
{
    Q_OBJECT

private slots:
    void initTestCase()
    {
        QVERIFY(m_folder.isValid());
        QCOMPARE(makeDemo(in("demo")), QString());
    }

    void cleanup() { QDir(in("house")).removeRecursively(); }

    void pins_standNowhere()
    {
        QVERIFY(copyFolder(in("demo"), in("house")));
        const QByteArray first = "482913";
        const QByteArray second = "730586";
        const QByteArray slip = "730589";
        Secrets secrets;
        secrets.add("the first PIN", first);
        secrets.add("the second PIN", second);
        secrets.add("a slip", slip);
        const QString name = QStringLiteral("Wenna Carne");
        const auto ends = [&](const QStringList& arguments, const QByteArray& input, int code) {
            SeenProgram program(QStringList{"--home", in("house")} + arguments, input);
            program.watch();
            QVERIFY(program.isOver());
            QVERIFY2(program.code() == code, program.seen().constData());
            QCOMPARE(secrets.in(program.seen()), QStringList());
        };
        ends(
            {"staff", "add", name, "--skills", "glass", "--rights", "work", "--as", "Runa Talbeck"},
            first + '\n' + first + '\n', 0);
        ends({"staff", "pin", name, "--as", "Runa Talbeck"}, second + '\n' + slip + '\n', 65);
        ends({"staff", "pin", name, "--as", "Runa Talbeck"}, second + '\n' + second + '\n', 0);
        ends({"backup", "--to", in("house/backups")}, {}, 0);
        QCOMPARE(secrets.below(in("house")), QStringList());
        // That it was looked at.
        Secrets names;
        names.add("the name", name.toUtf8());
        QVERIFY(!names.below(in("house")).filter("workshop.sqlite").isEmpty());
        QVERIFY(!names.below(in("house")).filter("ledger.sqlite").isEmpty());
    }

    void serversPassword_standsNowhere_data()
    {
        QTest::addColumn<bool>("byFile");
        QTest::addColumn<bool>("answers");
        QTest::newRow("from a file, no server") << true << false;
        QTest::newRow("from the environment, no server") << false << false;
        QTest::newRow("from a file") << true << true;
        QTest::newRow("from the environment") << false << true;
    }

    void serversPassword_standsNowhere()
    {
        QFETCH(bool, byFile);
        QFETCH(bool, answers);
        QByteArray password = "quayside-4711-\xc3\xa4-lantern";
        QString server = QStringLiteral("host=127.0.0.1 port=9 dbname=prep user=kiosk");
        std::optional<ScratchDatabase> scratch;
        if (answers) {
            const QByteArray known = bytesOf(qEnvironmentVariable("PGPASSFILE")).trimmed();
            if (qEnvironmentVariable("RAMPLIGHT_TEST_PG").isEmpty() || known.isEmpty())
                QSKIP("RAMPLIGHT_TEST_PG names no server with a password (tests/run starts one)");
            password = known.mid(known.lastIndexOf(':') + 1);
            scratch.emplace(qEnvironmentVariable("RAMPLIGHT_TEST_PG"));
            QVERIFY(scratch->isThere());
            server = scratch->address();
        }
        Secrets secrets;
        secrets.add("the password", password);
        QVERIFY(copyFolder(in("demo"), in("house")));
        const QString file = in("password");
        QVERIFY(write(file, password + '\n'));
        QVERIFY(QFile::setPermissions(file, QFile::ReadOwner | QFile::WriteOwner));
        const auto ends = [&](const QStringList& arguments, bool well) {
            SeenProgram program(QStringList{"--home", in("house")} + arguments, {},
                                byFile ? QByteArray() : password);
            program.watch();
            QVERIFY(program.isOver());
            QVERIFY2((program.code() == 0) == well, program.seen().constData());
            QCOMPARE(secrets.in(program.seen()), QStringList());
        };
        QStringList moving{"migrate-store", "--to-server", server};
        if (byFile)
            moving += {"--password-file", file};
        ends(moving, answers);
        if (!answers)
            QVERIFY(write(in("house/settings.ini"),
                          "[storage]\nkind=postgresql\nserver=\"" + server.toUtf8() +
                              "\"\npasswordFile=" + (byFile ? file.toUtf8() : QByteArray()) +
                              "\n"));
        ends({"bay", "list"}, answers);
        // And the kiosk, which writes a log and keeps a copy.
        SeenProgram kiosk({"--home", in("house"), "--windowed"}, {},
                          byFile ? QByteArray() : password);
        kiosk.watch([&] {
            return answers ? QFile::exists(in("house/standby/outbox.sqlite"))
                           : bytesOf(in("house/ramplight.log")).contains("the server is away");
        });
        QVERIFY2(kiosk.isOver() && kiosk.wasKilled(), kiosk.seen().constData());
        QCOMPARE(secrets.in(kiosk.seen()), QStringList());
        QCOMPARE(secrets.below(in("house")), QStringList());
    }

    // Written where it does not belong: it is refused, and repeated to nobody.
    void passwordInTheAddress_standsNowhere_data()
    {
        QTest::addColumn<QString>("address");
        QTest::newRow("a word") << "host=127.0.0.1 port=9 dbname=prep password=%1";
        QTest::newRow("behind a space") << "host=127.0.0.1 port=9 dbname=prep password= a %1";
        QTest::newRow("of a key") << "host=127.0.0.1 port=9 dbname=prep sslpassword=%1";
        QTest::newRow("the other form") << "postgresql://kiosk:%1@127.0.0.1:9/prep";
        QTest::newRow("the other form, with words")
            << "postgresql://kiosk:%1@127.0.0.1:9/prep?sslmode=require";
        QTest::newRow("the other form, as a database")
            << "host=127.0.0.1 port=9 dbname=postgresql://kiosk:%1@127.0.0.1:9/prep";
    }

    void passwordInTheAddress_standsNowhere()
    {
        QFETCH(QString, address);
        const QByteArray password = "quayside-4711-lantern";
        Secrets secrets;
        secrets.add("the password", password);
        QVERIFY(copyFolder(in("demo"), in("house")));
        QVERIFY(write(in("house/settings.ini"),
                      "[storage]\nkind=postgresql\nserver=\"" +
                          address.arg(QString::fromUtf8(password)).toUtf8() + "\"\n"));
        SeenProgram list({"--home", in("house"), "bay", "list"});
        list.watch();
        QVERIFY(list.isOver() && list.code() != 0);
        QCOMPARE(secrets.in(list.seen()), QStringList());
        SeenProgram kiosk({"--home", in("house"), "--windowed"});
        kiosk.watch([&] { return kiosk.seen().contains("put it right"); });
        QVERIFY2(kiosk.isOver() && kiosk.wasKilled(), kiosk.seen().constData());
        QCOMPARE(secrets.in(kiosk.seen()), QStringList());
        QVERIFY(QFile::remove(in("house/settings.ini")));
        QCOMPARE(secrets.below(in("house")), QStringList());
    }

private:
    [[nodiscard]] QString in(const char* name) const
    {
        return m_folder.filePath(QString::fromLatin1(name));
    }

    QTemporaryDir m_folder;
};

RAMPLIGHT_TEST(QCoreApplication, TestSecretCommands)
#include "tst_secretcommands.moc"
