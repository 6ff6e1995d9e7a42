// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "access/sitekeyfile.h"
#include "backup/keycopynote.h"
#include "cli/program.h"
#include "support/scratchdatabase.h"
#include "support/testmain.h"

#include <QDir>
#include <QFile>
#include <QTemporaryDir>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

namespace {

const QByteArray newPin = "735912\n735912\n";
const QString notOurs = QStringLiteral("is not that of this workshop");

bool put(const QString& path, const QByteArray& bytes)
{
    return write(path, bytes) && QFile::setPermissions(path, QFile::ReadOwner | QFile::WriteOwner);
}

} // namespace

// The workshop's key file: which one it is, how another kiosk gets it, how it is made anew. Called
// as a person calls it.
class TestKeyCommands : public QObject
{
    Q_OBJECT

private slots:
    void initTestCase()
    {
        QVERIFY(m_folder.isValid());
        QCOMPARE(makeDemo(in("demo")), QString());
        QCOMPARE(makeDemo(in("other"), DemoWorkshop::Another), QString());
    }

    void init()
    {
        QVERIFY(copyFolder(in("demo"), in("house")));
        QVERIFY(QDir().mkpath(in("stick")));
    }

    void cleanup()
    {
        for (const char* name : {"house", "stick", "second", "backups"})
            QDir(in(name)).removeRecursively();
    }

    void copy_isWhole_andOverwritesNothing()
    {
        const Ran shown = runProgram(in("house"), {"key", "show"});
        QVERIFY2(shown.code == 0, qPrintable(shown.err));
        QVERIFY2(shown.out.contains("It is the key of this workshop."), qPrintable(shown.out));
        QVERIFY(!copyIsKnownOf());
        const Ran copied = runProgram(in("house"), {"key", "copy", in("stick")});
        QVERIFY2(copied.code == 0, qPrintable(copied.err));
        QVERIFY(copyIsKnownOf());
        QCOMPARE(bytesOf(in("stick/site.keys")), bytesOf(in("house/site.keys")));
        QVERIFY(!QFile::permissions(in("stick/site.keys"))
                     .testAnyFlags(QFile::ReadGroup | QFile::ReadOther));
        QVERIFY(write(in("stick/other.keys"), "of somebody else"));
        const Ran again = runProgram(in("house"), {"key", "copy", in("stick/other.keys")});
        QVERIFY(again.code != 0);
        QVERIFY2(again.err.contains("left as it is"), qPrintable(again.err));
        QCOMPARE(bytesOf(in("stick/other.keys")), QByteArray("of somebody else"));
        // Nothing secret is printed.
        const QByteArray keys = bytesOf(in("house/site.keys"));
        const QByteArray pepper = keys.mid(keys.indexOf("pepper ") + 7, 16);
        QVERIFY(!(shown.out + copied.out + copied.err).contains(QString::fromLatin1(pepper)));
    }

    void lostFile_isPutBackFromItsCopy()
    {
        QVERIFY(runProgram(in("house"), {"key", "copy", in("stick")}).code == 0);
        QVERIFY(QFile::remove(in("house/site.keys")));
        const Ran lost = runProgram(in("house"), {"bay", "list"});
        QVERIFY(lost.code != 0);
        QVERIFY2(lost.err.contains("site.keys is missing"), qPrintable(lost.err));
        QVERIFY(!QFile::exists(in("house/site.keys")));
        // As a stick has it: open to everybody.
        QFile::setPermissions(in("stick/site.keys"),
                              QFile::ReadOwner | QFile::ReadGroup | QFile::ReadOther);
        const Ran taken = runProgram(in("house"), {"key", "take", in("stick")});
        QVERIFY2(taken.code == 0, qPrintable(taken.err));
        const Ran verified = runProgram(in("house"), {"verify"});
        QVERIFY2(verified.out.contains("all is whole"), qPrintable(verified.out + verified.err));
    }

    void anotherSitesFile_isToldAndChangesNothing()
    {
        const QByteArray own = bytesOf(in("house/site.keys"));
        const Ran taken = runProgram(in("house"), {"key", "take", in("other/site.keys")});
        QVERIFY(taken.code != 0);
        QVERIFY2(taken.err.contains(notOurs), qPrintable(taken.err));
        QCOMPARE(bytesOf(in("house/site.keys")), own);
        // Put there by hand.
        const QByteArray before = bytesOf(in("house/workshop.sqlite"));
        QVERIFY(put(in("house/site.keys"), bytesOf(in("other/site.keys"))));
        for (const QStringList& asked :
             {QStringList{"bay", "list"}, QStringList{"verify"},
              QStringList{"backup", "--to", in("backups")}, QStringList{"key", "show"}}) {
            const Ran ran = runProgram(in("house"), asked);
            QVERIFY(ran.code != 0);
            QVERIFY2(ran.err.contains(QStringLiteral("this workshop")), qPrintable(ran.err));
        }
        QCOMPARE(bytesOf(in("house/workshop.sqlite")), before);
        // What was there is set aside, not thrown away.
        QVERIFY(put(in("stick/site.keys"), own));
        QVERIFY(runProgram(in("house"), {"key", "take", in("stick")}).code == 0);
        QCOMPARE(bytesOf(in("house/site.keys")), own);
        QCOMPARE(QDir(in("house")).entryList({"site.keys.replaced-*"}).size(), 1);
        QVERIFY(runProgram(in("house"), {"bay", "list"}).code == 0);
    }

    // Several of them within a second.
    void takenAgainAndAgain_setsEachAside()
    {
        const auto aside = [this] {
            return QDir(in("house")).entryList({"site.keys.replaced-*"}).size();
        };
        const QByteArray own = bytesOf(in("house/site.keys"));
        QVERIFY(put(in("stick/site.keys"), own));
        const qsizetype before = aside();
        for (int i = 1; i <= 4; ++i) {
            QVERIFY(put(in("house/site.keys"), bytesOf(in("other/site.keys"))));
            const Ran taken = runProgram(in("house"), {"key", "take", in("stick")});
            QVERIFY2(taken.code == 0, qPrintable(taken.err));
            QCOMPARE(aside(), before + i);
            QCOMPARE(bytesOf(in("house/site.keys")), own);
        }
    }

    void renewed_opensWhatTheEarlierKeySealed()
    {
        const QByteArray old = bytesOf(in("house/site.keys"));
        const QString stock = anyStock();
        const Ran record =
            runProgram(in("house"), {"record", stock, "--out", in("house/before.pdf")});
        QVERIFY2(record.code == 0, qPrintable(record.err));
        QVERIFY(runProgram(in("house"), {"backup", "--to", in("backups")}).code == 0);
        QVERIFY(runProgram(in("house"), {"key", "copy", in("stick")}).code == 0);

        const Ran renewed =
            runProgram(in("house"), {"key", "renew", "--as", "Runa Talbeck"}, newPin);
        QVERIFY2(renewed.code == 0, qPrintable(renewed.out + renewed.err));
        QVERIFY2(renewed.out.contains("Nobody has a PIN any more"), qPrintable(renewed.out));
        QVERIFY(bytesOf(in("house/site.keys")) != old);
        QVERIFY(!copyIsKnownOf());
        QVERIFY(!QFile::exists(in("house/site.keys.new")));
        const Ran shown = runProgram(in("house"), {"key", "show"});
        QVERIFY2(shown.code == 0 && shown.out.contains("renewed once"), qPrintable(shown.out));
        const auto isWhole = [&] {
            const Ran ran = runProgram(in("house"), {"verify"});
            return ran.out.contains("all is whole") ? QString() : ran.out + ran.err;
        };
        QCOMPARE(isWhole(), QString());
        const Ran checked = runProgram(in("house"), {"verify", "--record", in("house/before.pdf")});
        QVERIFY2(!checked.out.contains("another key") && !checked.err.contains("another key"),
                 qPrintable(checked.out + checked.err));
        // Once more: keys of two earlier times.
        QVERIFY(
            runProgram(in("house"), {"bay", "add", "9", "Yard", "parking", "--as", "Runa Talbeck"})
                .code == 0);
        QVERIFY(runProgram(in("house"), {"key", "renew", "--as", "Runa Talbeck"}, newPin).code ==
                0);
        QVERIFY(runProgram(in("house"), {"bay", "close", "9", "--as", "Runa Talbeck"}).code == 0);
        QCOMPARE(isWhole(), QString());

        // The earlier file opens nothing any more.
        const QByteArray now = bytesOf(in("house/site.keys"));
        QVERIFY(put(in("house/site.keys"), old));
        const Ran refused = runProgram(in("house"), {"bay", "list"});
        QVERIFY(refused.code != 0);
        QVERIFY2(refused.err.contains(notOurs), qPrintable(refused.err));
        QVERIFY(put(in("house/site.keys"), now));

        // A backup of the time before comes back with the present file.
        const Ran back = runProgram(in("house"), {"restore", in("backups")});
        QVERIFY2(back.code == 0, qPrintable(back.err));
        QVERIFY2(back.out.contains("nobody has a PIN"), qPrintable(back.out));
        QCOMPARE(isWhole(), QString());
        QVERIFY(runProgram(in("house"), {"staff", "pin", "Ivo Kesteven", "--as", "Runa Talbeck"},
                           newPin)
                    .code == 0);
        QCOMPARE(isWhole(), QString());
    }

    void renewal_thatABreakInterrupted_isFinishedOrForgotten()
    {
        const QByteArray old = bytesOf(in("house/site.keys"));
        QVERIFY(runProgram(in("house"), {"key", "renew", "--as", "Runa Talbeck"}, newPin).code ==
                0);
        const QByteArray fresh = bytesOf(in("house/site.keys"));
        // The database knows the new key, the file was not exchanged yet.
        QVERIFY(put(in("house/site.keys"), old));
        QVERIFY(put(in("house/site.keys.new"), fresh));
        QVERIFY(runProgram(in("house"), {"bay", "list"}).code == 0);
        QCOMPARE(bytesOf(in("house/site.keys")), fresh);
        QVERIFY(!QFile::exists(in("house/site.keys.new")));
        // The file was written, and the database did not come to it.
        QDir(in("house")).removeRecursively();
        QVERIFY(copyFolder(in("demo"), in("house")));
        QVERIFY(put(in("house/site.keys.new"), fresh));
        QVERIFY(runProgram(in("house"), {"bay", "list"}).code == 0);
        QCOMPARE(bytesOf(in("house/site.keys")), old);
        const Ran verified = runProgram(in("house"), {"verify"});
        QVERIFY2(verified.out.contains("all is whole"), qPrintable(verified.out));
    }

    void secondKiosk_makesNoKeysOfItsOwn()
    {
        const QString server = qEnvironmentVariable("RAMPLIGHT_TEST_PG");
        if (server.isEmpty())
            QSKIP("RAMPLIGHT_TEST_PG names no server (tests/run starts one)");
        const ScratchDatabase scratch(server);
        QVERIFY(scratch.isThere());
        const Ran moved =
            runProgram(in("house"), {"migrate-store", "--to-server", scratch.address()});
        QVERIFY2(moved.code == 0, qPrintable(moved.err));

        QVERIFY(QDir().mkpath(in("second")));
        const QByteArray settings =
            "[storage]\nkind=postgresql\nserver=\"" + scratch.address().toUtf8() + "\"\n";
        QVERIFY(write(in("second/settings.ini"), settings));
        const auto list = [&] { return runProgram(in("second"), {"bay", "list"}); };
        const Ran missing = list();
        QVERIFY(missing.code != 0);
        QVERIFY2(missing.err.contains(in("second/site.keys") + QStringLiteral(" is missing")),
                 qPrintable(missing.err));
        QVERIFY2(missing.err.contains("copy site.keys from the folder of a kiosk that works"),
                 qPrintable(missing.err));
        QVERIFY(!QFile::exists(in("second/site.keys")));

        // Another workshop's is told as clearly, on its way and in its place.
        const Ran wrong = runProgram(in("second"), {"key", "take", in("other/site.keys")});
        QVERIFY2(wrong.code != 0 && wrong.err.contains(notOurs), qPrintable(wrong.err));
        QVERIFY(put(in("second/site.keys"), bytesOf(in("other/site.keys"))));
        const Ran foreign = list();
        QVERIFY2(foreign.code != 0 && foreign.err.contains(notOurs), qPrintable(foreign.err));
        QVERIFY2(foreign.err.contains(in("second/site.keys")), qPrintable(foreign.err));

        QVERIFY(runProgram(in("house"), {"key", "copy", in("stick")}).code == 0);
        const Ran taken = runProgram(in("second"), {"key", "take", in("stick")});
        QVERIFY2(taken.code == 0, qPrintable(taken.err));
        const Ran works = list();
        QVERIFY2(works.code == 0, qPrintable(works.err));
        // Photos lie where they were taken.
        QDir(in("second/photos")).removeRecursively();
        QVERIFY(copyFolder(in("house/photos"), in("second/photos")));
        const Ran verified = runProgram(in("second"), {"verify"});
        QVERIFY2(verified.out.contains("all is whole"), qPrintable(verified.out + verified.err));

        // A second site on the same server: whose kiosk this is has to be said.
        QVERIFY(copyFolder(in("other"), in("backups")));
        const Ran joined =
            runProgram(in("backups"), {"migrate-store", "--to-server", scratch.address()});
        QVERIFY2(joined.code == 0, qPrintable(joined.err));
        QVERIFY(runProgram(in("backups"), {"verify"}).out.contains("all is whole"));
        QVERIFY(runProgram(in("house"), {"verify"}).out.contains("all is whole"));
        const Ran which = list();
        QVERIFY2(which.code != 0 && which.err.contains("several sites"), qPrintable(which.err));
        QVERIFY(write(in("second/settings.ini"), settings + "site=nowhere\n"));
        const Ran nowhere = list();
        QVERIFY2(nowhere.code != 0 && nowhere.err.contains("There is no site nowhere"),
                 qPrintable(nowhere.err));
        const QByteArray own = bytesOf(in("house/settings.ini"));
        const qsizetype at = own.indexOf("\nsite=") + 1;
        QVERIFY(at > 0);
        QVERIFY(write(in("second/settings.ini"),
                      settings + own.mid(at, own.indexOf('\n', at) - at) + '\n'));
        const Ran named = list();
        QVERIFY2(named.code == 0, qPrintable(named.err));

        // The server is away and nobody can say.
        QVERIFY(QFile::remove(in("second/site.keys")));
        QVERIFY(write(in("second/settings.ini"),
                      "[storage]\nkind=postgresql\nserver=\"host=127.0.0.1 port=1 dbname=none "
                      "user=none\"\n"));
        const Ran away = list();
        QVERIFY2(away.code != 0 && away.err.contains("Nothing was made"), qPrintable(away.err));
        QVERIFY(!QFile::exists(in("second/site.keys")));
    }

private:
    [[nodiscard]] QString in(const char* name) const
    {
        return m_folder.filePath(QString::fromLatin1(name));
    }
    /// Whether the house knows of a copy of the keys that it works with.
    [[nodiscard]] bool copyIsKnownOf() const
    {
        const auto keys = SiteKeyFile(in("house/site.keys")).read();
        return keys && !keyCopiedAt(in("house/keycopy.json"), keys->id()).isNull();
    }
    /// A car of the demo week.
    static QString anyStock() { return QStringLiteral("T-301"); }

    QTemporaryDir m_folder;
};

RAMPLIGHT_TEST(QCoreApplication, TestKeyCommands)
#include "tst_keycommands.moc"
