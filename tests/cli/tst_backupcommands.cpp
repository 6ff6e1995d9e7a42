// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "backup/summedjson.h"
#include "cli/program.h"
#include "storage/outbox.h"
#include "support/scratchdatabase.h"
#include "support/testmain.h"

#include <QDir>
#include <QFile>
#include <QJsonObject>
#include <QProcess>
#include <QScopeGuard>
#include <QSettings>
#include <QTemporaryDir>
#include <QTest>

#include <optional>

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

using namespace ramplight;
using namespace ramplight::test;

namespace {

/// As a running kiosk holds the workshop's folder.
class HeldFolder
{
public:
    explicit HeldFolder(const QString& folder)
        : m_file(::open(QFile::encodeName(folder + QStringLiteral("/in-use")).constData(),
                        O_RDWR | O_CREAT | O_CLOEXEC, 0600))
    {
        if (m_file < 0 || ::flock(m_file, LOCK_SH | LOCK_NB) != 0)
            qFatal("the folder cannot be held");
    }
    HeldFolder(const HeldFolder&) = delete;
    HeldFolder& operator=(const HeldFolder&) = delete;
    ~HeldFolder() { ::close(m_file); }

private:
    int m_file;
};

} // namespace

// Backup, restore and moving the store, called as a person calls them, on the demo workshop. The
// restore drill: a workshop is lost and comes back as it was.
class TestBackupCommands : public QObject
{
    Q_OBJECT

private slots:
    void initTestCase()
    {
        QVERIFY(m_folder.isValid());
        QCOMPARE(makeDemo(in("demo")), QString());
        m_verified = runProgram(in("demo"), {"verify"}).out;
        QVERIFY2(m_verified.contains("all is whole"), qPrintable(m_verified));
        const Ran kept = runProgram(in("demo"), {"backup", "--to", in("stick")});
        QVERIFY2(kept.code == 0, qPrintable(kept.err));
        m_cars = demoCars(m_verified);
        QVERIFY2(!m_cars.isEmpty(), qPrintable(m_verified));
        QVERIFY2(kept.out.contains(m_cars), qPrintable(kept.out));
        QVERIFY2(kept.out.contains("The site's key file is not in it."), qPrintable(kept.out));
        m_backup = kept.out.section(QLatin1Char(':'), 0, 0);
        QVERIFY(QFile::exists(m_backup + QStringLiteral("/manifest.json")));
    }

    void cleanup()
    {
        QDir(in("house")).removeRecursively();
        for (const QString& aside : setAside())
            QDir(in(aside)).removeRecursively();
    }

    void drill_aLostWorkshopComesBack()
    {
        QVERIFY(QDir().mkpath(in("house")));
        const Ran restored =
            runProgram(in("house"), {"restore", in("stick"), "--keys", in("demo/site.keys")});
        QVERIFY2(restored.code == 0, qPrintable(restored.err));
        QVERIFY2(restored.out.contains("is back: " + m_cars), qPrintable(restored.out));
        const Ran verified = runProgram(in("house"), {"verify"});
        QCOMPARE(verified.out, m_verified);
        QCOMPARE(verified.code, 0);
        QCOMPARE(runProgram(in("house"), {"staff", "list"}).out,
                 runProgram(in("demo"), {"staff", "list"}).out);
        // It goes on from there.
        const Ran added =
            runProgram(in("house"), {"bay", "add", "9", "Yard", "parking", "--as", "Runa Talbeck"});
        QVERIFY2(added.code == 0, qPrintable(added.err));
        QVERIFY(runProgram(in("house"), {"verify"}).out.contains("all is whole"));
    }

    void folderOfTwoWorkshops_bringsBackTheOneWhoseKeysAreNamed()
    {
        QCOMPARE(makeDemo(in("neighbour"), DemoWorkshop::Another), QString());
        QVERIFY(copyFolder(in("stick"), in("shared-stick")));
        const Ran theirs = runProgram(in("neighbour"), {"backup", "--to", in("shared-stick")});
        QVERIFY2(theirs.code == 0, qPrintable(theirs.err));
        QVERIFY(QDir().mkpath(in("house")));
        const Ran restored = runProgram(
            in("house"), {"restore", in("shared-stick"), "--keys", in("demo/site.keys")});
        QVERIFY2(restored.code == 0, qPrintable(restored.err));
        QCOMPARE(runProgram(in("house"), {"verify"}).out, m_verified);
    }

    void tornDatabase_isSetAsideAndTheBackupComes()
    {
        QVERIFY(copyFolder(in("demo"), in("house")));
        QByteArray torn = bytesOf(in("house/workshop.sqlite"));
        torn.truncate(torn.size() / 2);
        torn.replace(0, 100, QByteArray(100, 'x'));
        QVERIFY(write(in("house/workshop.sqlite"), torn));
        const Ran verify = runProgram(in("house"), {"verify"});
        QVERIFY(verify.code != 0);
        QVERIFY2(verify.err.contains("bring back a backup"), qPrintable(verify.err));
        QCOMPARE(bytesOf(in("house/workshop.sqlite")), torn);

        const Ran restored = runProgram(in("house"), {"restore", m_backup});
        QVERIFY2(restored.code == 0, qPrintable(restored.err));
        QCOMPARE(setAside().size(), 1);
        QVERIFY2(restored.out.contains(setAside().front()), qPrintable(restored.out));
        QCOMPARE(bytesOf(in(setAside().front() + QStringLiteral("/workshop.sqlite"))), torn);
        QCOMPARE(runProgram(in("house"), {"verify"}).out, m_verified);
    }

    void damagedEntry_whatWasDoneSinceComesAlong_andIsSaid()
    {
        QVERIFY(copyFolder(in("demo"), in("house")));
        const Ran bay =
            runProgram(in("house"), {"bay", "add", "9", "Yard", "parking", "--as", "Runa Talbeck"});
        QVERIFY2(bay.code == 0, qPrintable(bay.err));
        const QByteArray whole = bytesOf(in("house/workshop.sqlite"));
        // Whoever goes back to a backup from a house that is whole wants just that.
        const Ran back = runProgram(in("house"), {"restore", m_backup});
        QVERIFY2(back.code == 0, qPrintable(back.err));
        QVERIFY2(back.out.contains("The workshop's file was whole."), qPrintable(back.out));
        QVERIFY(!runProgram(in("house"), {"bay", "list"}).out.contains("Yard"));

        QByteArray damaged = whole;
        const qsizetype letter = damaged.indexOf("car-arrived");
        QVERIFY(letter > 0);
        damaged[letter] = 'k';
        QVERIFY(write(in("house/workshop.sqlite"), damaged));
        const Ran restored = runProgram(in("house"), {"restore", m_backup});
        QVERIFY2(restored.code == 0, qPrintable(restored.err));
        QVERIFY2(restored.out.contains(
                     "Read out of the damaged file, of what was done since the backup: 1 entry, "
                     "of people, bays and rules."),
                 qPrintable(restored.out));
        QVERIFY(runProgram(in("house"), {"bay", "list"}).out.contains("Yard"));
        QVERIFY(runProgram(in("house"), {"verify"}).out.contains("all is whole"));
        QVERIFY(QFile::exists(in("house/restored.json")));
    }

    void whatIsTheKiosksOwn_comesAlong()
    {
        QVERIFY(copyFolder(in("demo"), in("house")));
        const QList<std::pair<QString, QByteArray>> own{
            {"drop/photo.jpg", "a photo that nobody took in"},
            {"records/T-301.pdf", "a record"},
            {"keycopy.json", "{}"},
            {"server-password", "quayside"},
        };
        for (const auto& [name, bytes] : own)
            QVERIFY(write(in("house/" + name), bytes));
        QVERIFY(QDir().mkpath(in("house/translations")));
        QVERIFY(QFile::copy(QStringLiteral(RAMPLIGHT_GERMAN),
                            in("house/translations/ramplight_de.qm")));
        QVERIFY(write(in("house/settings.ini"), "[screen]\nlanguage=de\n"));
        QFile dropped(in("house/drop/photo.jpg"));
        const QDateTime then = QDateTime(QDate(2031, 3, 8), QTime(12, 0), Qt::UTC);
        QVERIFY(dropped.open(QIODevice::ReadWrite));
        QVERIFY(dropped.setFileTime(then, QFileDevice::FileModificationTime));
        dropped.close();
        QVERIFY(QFile::link(QStringLiteral("records/T-301.pdf"), in("house/newest.pdf")));

        const Ran restored = runProgram(in("house"), {"restore", m_backup});
        QVERIFY2(restored.code == 0, qPrintable(restored.err));
        for (const auto& [name, bytes] : own)
            QCOMPARE(bytesOf(in("house/" + name)), bytes);
        QCOMPARE(QFileInfo(dropped).lastModified(), then);
        QCOMPARE(bytesOf(in("house/newest.pdf")), QByteArray("a record"));
        QVERIFY(QFileInfo(in("house/newest.pdf")).isSymLink());
        // And is spoken in as before.
        const QString record = in("german.html");
        const Ran made = runProgram(in("house"), {"record", "T-301", "--out", record});
        QVERIFY2(made.code == 0, qPrintable(made.err));
        QVERIFY2(!made.err.contains("screen/language"), qPrintable(made.err));
        QVERIFY(bytesOf(record).contains("lang=\"de\""));
        // What it replaces does not.
        QCOMPARE(runProgram(in("house"), {"verify"}).code, 0);
        QVERIFY(!QFile::exists(in("house/backup.json")));
        QVERIFY(QFile::exists(in(setAside().front() + QStringLiteral("/drop/photo.jpg"))));
    }

    void whileAKioskRuns_nothingIsExchanged()
    {
        QVERIFY(copyFolder(in("demo"), in("house")));
        const HeldFolder kiosk(in("house"));
        const Ran restored = runProgram(in("house"), {"restore", m_backup});
        QVERIFY(restored.code != 0);
        QVERIFY2(restored.err.contains("A kiosk or another command is at work"),
                 qPrintable(restored.err));
        QCOMPARE(setAside(), QStringList());
        QCOMPARE(runProgram(in("house"), {"verify"}).out, m_verified);
        const Ran moved = runProgram(in("house"), {"migrate-store", "--to-server", "host=nowhere"});
        QVERIFY2(moved.err.contains("A kiosk or another command is at work"),
                 qPrintable(moved.err));
    }

    void backupsOfTheSettings_areListedAndChecked()
    {
        QVERIFY(copyFolder(in("demo"), in("house")));
        const Ran unset = runProgram(in("house"), {"backup"});
        QVERIFY(unset.code != 0);
        QVERIFY2(unset.err.contains("No folder for backups is set"), qPrintable(unset.err));
        QVERIFY(write(in("house/settings.ini"),
                      "[backup]\nfolder=" + in("house-backups").toUtf8() + "\n"));
        const Ran kept = runProgram(in("house"), {"backup"});
        QVERIFY2(kept.code == 0, qPrintable(kept.err));
        const QString path = kept.out.section(QLatin1Char(':'), 0, 0);
        const Ran listed = runProgram(in("house"), {"backup", "list"});
        QVERIFY2(listed.out.startsWith(path), qPrintable(listed.out));
        QCOMPARE(listed.out.count(QLatin1Char('\n')), 1);
        QCOMPARE(runProgram(in("house"), {"backup", "check", path}).code, 0);
        QVERIFY(bytesOf(in("house/backup.json")).contains(path.toUtf8()));

        // Summed up again, by whoever has the disk.
        const QByteArray list = bytesOf(path + QStringLiteral("/manifest.json"));
        QJsonObject changed = wholeObject(list).value();
        changed.insert(QStringLiteral("cars"), 1);
        QVERIFY(write(path + QStringLiteral("/manifest.json"), summed(changed)));
        const Ran other = runProgram(in("house"), {"backup", "check", path});
        QCOMPARE(other.code, 1);
        QVERIFY2(other.out.contains("the site's seal does not fit"), qPrintable(other.out));
        changed.remove(QStringLiteral("seal"));
        QVERIFY(write(path + QStringLiteral("/manifest.json"), summed(changed)));
        const Ran older = runProgram(in("house"), {"backup", "check", path});
        QCOMPARE(older.code, 0);
        QVERIFY2(older.out.contains("It carries no seal"), qPrintable(older.out));
        QVERIFY(write(path + QStringLiteral("/manifest.json"), list));

        QByteArray ledger = bytesOf(path + QStringLiteral("/ledger.sqlite"));
        ledger[ledger.size() / 2] = static_cast<char>(ledger[ledger.size() / 2] ^ 1);
        QVERIFY(write(path + QStringLiteral("/ledger.sqlite"), ledger));
        const Ran checked = runProgram(in("house"), {"backup", "check", path});
        QCOMPARE(checked.code, 1);
        QVERIFY2(checked.out.contains("ledger.sqlite is not what was written"),
                 qPrintable(checked.out));
        const Ran restored = runProgram(in("house"), {"restore", in("house-backups")});
        QVERIFY(restored.code != 0);
        QVERIFY2(restored.err.contains("There is no whole backup"), qPrintable(restored.err));
    }

    void whatWasWrongAlready_isToldWhenItComesBack()
    {
        QVERIFY(copyFolder(in("demo"), in("house")));
        const QString lost = wholeObject(bytesOf(m_backup + QStringLiteral("/manifest.json")))
                                 .value()[QLatin1StringView("photos")][0]
                                 .toString();
        QVERIFY(QFile::remove(in("house/photos/%1/%2.jpg").arg(lost.left(2), lost.mid(2))));
        const Ran kept = runProgram(in("house"), {"backup", "--to", in("wrong-backups")});
        QCOMPARE(kept.code, 1);
        QVERIFY2(kept.err.contains("something is wrong with the workshop itself"),
                 qPrintable(kept.err));
        QVERIFY2(kept.err.contains(lost), qPrintable(kept.err));
        // It is the newest that can come back.
        const Ran restored = runProgram(in("house"), {"restore", in("wrong-backups")});
        QVERIFY2(restored.code == 0, qPrintable(restored.err));
        QVERIFY2(restored.out.contains("The check had found this already"),
                 qPrintable(restored.out));
        QVERIFY2(restored.out.contains(lost), qPrintable(restored.out));
        QVERIFY2(!restored.out.contains("no seal"), qPrintable(restored.out));
    }

    void failedBackup_isNoted()
    {
        QVERIFY(copyFolder(in("demo"), in("house")));
        const Ran kept = runProgram(in("house"), {"backup", "--to", in("no/such/stick")});
        QVERIFY(kept.code != 0);
        QVERIFY2(kept.err.contains("no/such/stick cannot be written"), qPrintable(kept.err));
        QVERIFY(bytesOf(in("house/backup.json")).contains("cannot be written"));
    }

    void badTime_isNamed()
    {
        QVERIFY(QDir().mkpath(in("house")));
        QVERIFY(write(in("house/settings.ini"), "[backup]\nat=late\n"));
        const Ran ran = runProgram(in("house"), {"backup", "list"});
        QVERIFY(ran.code != 0);
        QVERIFY2(ran.err.contains("a time like 20:30 was expected"), qPrintable(ran.err));
    }

    void serversPassword_whereOthersReadIt_isRefused_data()
    {
        QTest::addColumn<QString>("server");
        QTest::addColumn<QString>("passwordFile");
        QTest::addColumn<QString>("words");
        QTest::newRow("in the address") << "host=127.0.0.1 dbname=prep password=quayside"
                                        << ""
                                        << "The password does not belong here";
        QTest::newRow("no file") << "host=127.0.0.1 dbname=prep" << in("no-such-file")
                                 << "cannot be read";
        QTest::newRow("open file")
            << "host=127.0.0.1 dbname=prep" << in("open-password") << "Give it the mode 0600";
        QTest::newRow("empty file")
            << "host=127.0.0.1 dbname=prep" << in("empty-password") << "is empty";
    }

    void serversPassword_whereOthersReadIt_isRefused()
    {
        QFETCH(QString, server);
        QFETCH(QString, passwordFile);
        QFETCH(QString, words);
        QVERIFY(write(in("open-password"), "quayside\n"));
        QFile::setPermissions(in("open-password"),
                              QFile::ReadOwner | QFile::WriteOwner | QFile::ReadGroup);
        QVERIFY(write(in("empty-password"), "\n"));
        QFile::setPermissions(in("empty-password"), QFile::ReadOwner | QFile::WriteOwner);
        QVERIFY(copyFolder(in("demo"), in("house")));
        QStringList moving{"migrate-store", "--to-server", server};
        if (!passwordFile.isEmpty())
            moving += {"--password-file", passwordFile};
        const Ran moved = runProgram(in("house"), moving);
        QVERIFY(moved.code != 0);
        QVERIFY2(moved.err.contains(words), qPrintable(moved.err));
        QVERIFY2(!moved.err.contains("quayside"), qPrintable(moved.err));
        QVERIFY(write(in("house/settings.ini"),
                      "[storage]\nkind=postgresql\nserver=\"" + server.toUtf8() +
                          "\"\npasswordFile=" + passwordFile.toUtf8() + "\n"));
        const Ran ran = runProgram(in("house"), {"bay", "list"});
        QVERIFY(ran.code != 0);
        QVERIFY2(ran.err.contains(words), qPrintable(ran.err));
        QVERIFY2(!ran.err.contains("quayside"), qPrintable(ran.err));
    }

    void serversPassword_fromFileOrEnvironment_opens_data()
    {
        QTest::addColumn<bool>("byFile");
        QTest::newRow("file") << true;
        QTest::newRow("environment") << false;
    }

    void serversPassword_fromFileOrEnvironment_opens()
    {
        QFETCH(bool, byFile);
        const QString server = qEnvironmentVariable("RAMPLIGHT_TEST_PG");
        const QByteArray known = bytesOf(qEnvironmentVariable("PGPASSFILE")).trimmed();
        if (server.isEmpty() || known.isEmpty())
            QSKIP("RAMPLIGHT_TEST_PG names no server with a password (tests/run starts one)");
        const QByteArray password = known.mid(known.lastIndexOf(':') + 1);
        const ScratchDatabase scratch(server);
        QVERIFY(scratch.isThere());
        const QByteArray passFile = qgetenv("PGPASSFILE");
        qputenv("PGPASSFILE", "/no/such/file");
        const auto restored = qScopeGuard([&] {
            qputenv("PGPASSFILE", passFile);
            qunsetenv("RAMPLIGHT_STORE_PASSWORD");
        });
        QVERIFY(QDir().mkpath(in("kiosk")));
        const QByteArray settings =
            "[storage]\nkind=postgresql\nserver=\"" + scratch.address().toUtf8() + "\"\n";
        const auto list = [&] { return runProgram(in("kiosk"), {"bay", "list"}); };
        QVERIFY(write(in("kiosk/settings.ini"), settings));
        QVERIFY(list().code != 0);
        if (byFile) {
            QVERIFY(write(in("kiosk/password"), password + '\n'));
            QFile::setPermissions(in("kiosk/password"), QFile::ReadOwner | QFile::WriteOwner);
            QVERIFY(write(in("kiosk/settings.ini"),
                          settings + "passwordFile=" + in("kiosk/password").toUtf8() + "\n"));
        } else {
            qputenv("RAMPLIGHT_STORE_PASSWORD", password);
        }
        const Ran opened = list();
        QVERIFY2(opened.code == 0, qPrintable(opened.err));
    }

    void movedToAServerAndBack_isTheSame()
    {
        const QString server = qEnvironmentVariable("RAMPLIGHT_TEST_PG");
        if (server.isEmpty())
            QSKIP("RAMPLIGHT_TEST_PG names no server (tests/run starts one)");
        std::optional<ScratchDatabase> scratch(std::in_place, server);
        QVERIFY(scratch->isThere());
        QString address = scratch->address();

        QVERIFY(copyFolder(in("demo"), in("house")));
        // The kiosks' account owns nothing there.
        const QString kiosk = QStringLiteral("kiosk_%1").arg(QCoreApplication::applicationPid());
        QCOMPARE(
            tellServer(QStringLiteral("create role %1 login password 'of-the-tests'").arg(kiosk)),
            0);
        const QByteArray passwords = qgetenv("PGPASSFILE");
        QVERIFY(write(in("passwords"), bytesOf(QString::fromLocal8Bit(passwords)) +
                                           "*:*:*:" + kiosk.toUtf8() + ":of-the-tests\n"));
        QFile::setPermissions(in("passwords"), QFile::ReadOwner | QFile::WriteOwner);
        qputenv("PGPASSFILE", in("passwords").toLocal8Bit());
        const auto restorePasswords = qScopeGuard([&] { qputenv("PGPASSFILE", passwords); });
        const QString owner = address;
        address.replace(QStringLiteral("user=ramplight"), QStringLiteral("user=") + kiosk);
        const Ran early = runProgram(in("house"), {"migrate-store", "--to-server", address});
        QVERIFY2(early.err.contains("prepare-server"), qPrintable(early.err));
        const Ran prepared = runProgram(in("house"), {"prepare-server", owner, "--kiosk", kiosk});
        QVERIFY2(prepared.code == 0, qPrintable(prepared.err));
        QVERIFY2(prepared.out.contains("neither change nor remove an entry"),
                 qPrintable(prepared.out));

        const Ran there = runProgram(in("house"), {"migrate-store", "--to-server", address});
        QVERIFY2(there.code == 0, qPrintable(there.err));
        QVERIFY2(there.out.contains(m_cars), qPrintable(there.out));
        QVERIFY(!QFile::exists(in("house/workshop.sqlite")));
        QCOMPARE(runProgram(in("house"), {"verify"}).out, m_verified);
        QVERIFY(
            runProgram(in("house"), {"bay", "add", "9", "Yard", "parking", "--as", "Runa Talbeck"})
                .code == 0);

        // A backup of a server is a file all the same.
        const Ran kept = runProgram(in("house"), {"backup", "--to", in("server-backups")});
        QVERIFY2(kept.code == 0, qPrintable(kept.err));
        const Ran refused = runProgram(in("house"), {"restore", in("server-backups")});
        QVERIFY2(refused.err.contains("ledger is on a server"), qPrintable(refused.err));

        // What this kiosk still has for the server would be lost without it.
        QVERIFY(QDir().mkpath(in("house/standby")));
        const QSettings settings(in("house/settings.ini"), QSettings::IniFormat);
        auto outbox = Outbox::open(in("house/standby/outbox.sqlite"),
                                   SiteId{settings.value("storage/site").toString()});
        QVERIFY(outbox);
        KeptRequest note;
        note.asked =
            CarRequest{CommandId{"kept"}, PersonId{1}, CarId{"car"}, {car::ReadCautions{}}, false};
        QVERIFY((*outbox)->keep(note));
        const Ran unsent = runProgram(in("house"), {"migrate-store", "--to-file"});
        QVERIFY2(unsent.err.contains("not yet on the wall: 1 entries"), qPrintable(unsent.err));
        QVERIFY((*outbox)->refuse(note.number, "signed off already", note.at));
        const Ran unread = runProgram(in("house"), {"migrate-store", "--to-file"});
        QVERIFY2(unread.err.contains("nobody has read them"), qPrintable(unread.err));
        QVERIFY(unread.code != 0);
        QVERIFY(!QFile::exists(in("house/workshop.sqlite")));
        QVERIFY((*outbox)->note(note.number, PersonId{1}, note.at));
        outbox->reset();

        const Ran back = runProgram(in("house"), {"migrate-store", "--to-file"});
        QVERIFY2(back.code == 0, qPrintable(back.err));
        const Ran bays = runProgram(in("house"), {"bay", "list"});
        QVERIFY2(bays.out.contains("Yard"), qPrintable(bays.out));
        QVERIFY(runProgram(in("house"), {"verify"}).out.contains("all is whole"));
        const Ran twice = runProgram(in("house"), {"migrate-store", "--to-server", address});
        QVERIFY2(twice.code == 0, qPrintable(twice.err));
        QVERIFY(runProgram(in("house"), {"verify"}).out.contains("all is whole"));
        scratch.reset(); // nothing is granted to the account any more
        QCOMPARE(tellServer(QStringLiteral("drop role %1").arg(kiosk)), 0);
    }

    void passwordAmongTheArguments_isRefused()
    {
        const QString address = QStringLiteral("host=nowhere password=hush");
        QVERIFY(copyFolder(in("demo"), in("house")));
        for (const QStringList& arguments :
             {QStringList{"migrate-store", "--to-server", address},
              QStringList{"prepare-server", address, "--kiosk", "wall"}}) {
            const Ran ran = runProgram(in("house"), arguments);
            QVERIFY(ran.code != 0);
            QVERIFY2(ran.err.contains("The password does not belong here"), qPrintable(ran.err));
            QVERIFY2(!ran.err.contains("hush"), qPrintable(ran.err));
        }
    }

private:
    /// A statement to the test's server; 0: it was carried out.
    static int tellServer(const QString& statement)
    {
        return QProcess::execute(
            QStringLiteral("psql"),
            {QStringLiteral("--quiet"), QStringLiteral("--no-psqlrc"), QStringLiteral("--dbname"),
             qEnvironmentVariable("RAMPLIGHT_TEST_PG"), QStringLiteral("--command"), statement});
    }
    [[nodiscard]] QString in(const QString& name) const { return m_folder.filePath(name); }
    [[nodiscard]] QStringList setAside() const
    {
        return QDir(m_folder.path())
            .entryList({QStringLiteral("house.before-*")}, QDir::Dirs, QDir::Name);
    }

    QTemporaryDir m_folder;
    QString m_verified;
    QString m_cars; ///< "24 cars"
    QString m_backup;
};

RAMPLIGHT_TEST(QCoreApplication, TestBackupCommands)
#include "tst_backupcommands.moc"
