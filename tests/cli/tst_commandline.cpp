// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "cli/program.h"
#include "support/testmain.h"

#include <QDir>
#include <QFile>
#include <QJsonDocument>
#include <QJsonObject>
#include <QTemporaryDir>
#include <QTest>

using namespace ramplight::test;

namespace {

/// What a review leaves; the last line was cut off by a power cut.
const QByteArray threeCorrections =
    "{\"name\":\"a.vtt\",\"language\":\"en\",\"words\":\"Roof, there's a mark. Polish.\","
    "\"drafted\":{\"place\":\"roof\",\"condition\":\"dent\"},"
    "\"corrected\":{\"place\":\"roof\",\"condition\":\"scratch\",\"remedies\":[\"polish\"]}}\n"
    "{\"name\":\"b.vtt\",\"language\":\"en\",\"traffic\":\"right\",\"words\":\"A dent. No.\","
    "\"drafted\":{\"place\":\"bonnet\",\"condition\":\"dent\",\"remedies\":[\"dent-repair\"]}}\n"
    "{\"name\":\"c.vtt\",\"words\":\"Bo";

} // namespace

// The sub-commands of the built program: what they answer, on which channel, with which code. What
// changes a workshop works on a copy of the demo workshop.
class TestCommandLine : public QObject
{
    Q_OBJECT

private slots:
    void initTestCase()
    {
        QVERIFY(m_folder.isValid());
        QCOMPARE(makeDemo(m_demo), QString());
        m_made = runProgram(m_demo, {"verify"}).out;
    }

    void cleanup()
    {
        if (!m_home.isEmpty())
            QDir(m_home).removeRecursively();
        m_home.clear();
    }

    // What asks only, or is refused, needs no copy.
    void answer_data()
    {
        QTest::addColumn<QStringList>("arguments");
        QTest::addColumn<int>("code");
        QTest::addColumn<QString>("out");
        QTest::addColumn<QString>("err");
        const auto row = [](const char* name, const QStringList& arguments, int code,
                            const char* out, const char* err) {
            QTest::newRow(name) << arguments << code << out << err;
        };
        row("help", {"--help"}, 0, "ramplight import FILE...", "");
        row("help, short", {"-h"}, 0, "ramplight import FILE...", "");
        row("help behind a command", {"verify", "--help"}, 0, "ramplight verify", "");
        row("version", {"--version"}, 0, "ramplight 0.", "");
        row("unknown command", {"nonsense"}, 64, "", "There is no command nonsense.");
        row("unknown option", {"--nonsense"}, 64, "", "ramplight import FILE...");
        row("verify", {"verify"}, 0, "photos: all is whole.", "");
        row("verify, too much", {"verify", "it"}, 64, "", "Usage: ramplight verify");
        row("verify, no such record", {"verify", "--record", "none.pdf"}, 66, "",
            "none.pdf cannot be read: No such file");
        row("verify, record without its name", {"verify", "--record"}, 64, "",
            "Usage: ramplight verify");
        row("tag, no file", {"tag", "RL-2041", "FL"}, 64, "", "Usage: ramplight tag");
        row("tag, no corner", {"tag", "RL-2041", "XX", "--out", "tag.pdf"}, 65, "",
            "XX is no corner");
        row("tag, no car", {"tag", "NOBODYS", "FL", "--out", "tag.pdf"}, 65, "",
            "There is no car with stock number NOBODYS.");
        row("rebuild", {"rebuild"}, 0, "cars made anew.", "");
        row("rebuild, too much", {"rebuild", "it"}, 64, "", "Usage: ramplight rebuild");
        row("import, nothing", {"import"}, 64, "", "Usage: ramplight import FILE...");
        row("import, no such file", {"import", "none.json"}, 66, "",
            "none.json cannot be read: No such file");
        row("import by nobody",
            {"import", demoAppraisals() + "rl-2041-aurel-kestin.json", "--as", "Nob"}, 77, "",
            "Nob does not work here, or has no right to this.");
        row("import without the right",
            {"import", demoAppraisals() + "rl-2041-aurel-kestin.json", "--as", "Bram Holloway"}, 77,
            "", "has no right to this.");
        row("record, nowhere", {"record", "T-301"}, 64, "", "Usage: ramplight record STOCKNO");
        row("record, no such car", {"record", "T-999", "--out", "none.pdf"}, 65, "",
            "There is no car with stock number T-999.");
        row("record into no folder", {"record", "T-301", "--out", "/no/such/folder/r.pdf"}, 69, "",
            "/no/such/folder/r.pdf cannot be written");
        row("staff list", {"staff", "list"}, 0, "Ivo Kesteven\n    skills mechanical,wheels\n", "");
        row("staff, nothing", {"staff"}, 64, "", "Usage: ramplight staff list");
        row("staff, unknown", {"staff", "praise", "Ivo Kesteven"}, 64, "",
            "Usage: ramplight staff");
        row("staff add, no name", {"staff", "add", "--as", "Runa Talbeck"}, 64, "",
            "Usage: ramplight staff list");
        row("staff add, unknown skill",
            {"staff", "add", "Wenna Carne", "--skills", "juggling", "--as", "Runa Talbeck"}, 64, "",
            "juggling is not known; these are: mechanical, wheels,");
        row("staff add without the right",
            {"staff", "add", "Wenna Carne", "--skills", "glass", "--as", "Bram Holloway"}, 77, "",
            "has no right to this.");
        row("staff leave, nobody", {"staff", "leave", "Wenna Carne", "--as", "Runa Talbeck"}, 65,
            "", "Nobody here is called Wenna Carne.");
        row("bay list", {"bay", "list"}, 0, "1  Wheels  wheels\n2  Lift  lift\n", "");
        row("bay, nothing", {"bay"}, 64, "", "Usage: ramplight bay list");
        row("bay add, number taken", {"bay", "add", "2", "Lift", "lift", "--as", "Runa Talbeck"},
            65, "", "There is a bay 2 already.");
        row("bay add, no number", {"bay", "add", "x", "Lift", "lift", "--as", "Runa Talbeck"}, 65,
            "", "A name or number is missing.");
        row("bay add, unknown kind", {"bay", "add", "8", "Pond", "pond", "--as", "Runa Talbeck"},
            64, "", "pond is no kind of bay.");
        row("bay close, unknown", {"bay", "close", "9", "--as", "Runa Talbeck"}, 65, "",
            "There is no bay 9.");
        row("catalogue", {"catalogue", "check"}, 0, "rules: good.", "");
        row("catalogue, nothing", {"catalogue"}, 64, "", "Usage: ramplight catalogue check");
        row("catalogue explain", {"catalogue", "explain", "T-301"}, 0,
            "because      Front bumper: scuff", "");
        row("catalogue explain, no such car", {"catalogue", "explain", "none"}, 65, "",
            "There is no car with stock number none.");
        row("catalogue, no such file", {"catalogue", "check", "none.json"}, 66, "",
            "none.json cannot be read: No such file");
        row("tool list", {"tool", "list"}, 0, "TW 11  torque-wrench  ", "");
        row("tool list, overdue", {"tool", "list"}, 0, "  (overdue)\n", "");
        row("tool, nothing", {"tool"}, 64, "", "Usage: ramplight tool list");
        row("tool add, unknown kind",
            {"tool", "add", "X 1", "spoon", "2039-05-04", "--as", "Runa Talbeck"}, 65, "",
            "spoon is no kind of tool.");
        row("tool add, no day",
            {"tool", "add", "X 1", "torque-wrench", "soon", "--as", "Runa Talbeck"}, 65, "",
            "the day of the next calibration");
        row("tool due, unknown", {"tool", "due", "X 1", "2039-05-04", "--as", "Runa Talbeck"}, 65,
            "", "There is no tool X 1.");
        row("tool without the right",
            {"tool", "due", "TW 11", "2039-05-04", "--as", "Bram Holloway"}, 77, "",
            "has no right to this.");
        row("house, nothing", {"house"}, 64, "", "Usage: ramplight house export FILE");
        row("house import, no such file", {"house", "import", "none.json", "--as", "Runa Talbeck"},
            66, "", "none.json cannot be read: No such file");
        row("catalogue import, no such file",
            {"catalogue", "import", "none.json", "--as", "Runa Talbeck"}, 66, "",
            "none.json cannot be read: No such file");
        row("demo where a workshop is", {"demo"}, 65, "",
            "There is a workshop here already: Tarrowmere Cars");
        row("demo, too much", {"demo", "it"}, 64, "", "Usage: ramplight demo");
        const QString said =
            QStringLiteral(RAMPLIGHT_SOURCE_DIR "/tests/appraisal/spoken/welsh-electric-pair.vtt");
        row("read", {"read", said}, 0, "[0:37] windscreen: stone peppering; leave as it is", "");
        row("read, for a program", {"read", said, "--json"}, 0, "\"place\": \"windscreen\"", "");
        row("read, no such file", {"read", "none.vtt"}, 66, "", "none.vtt cannot be read");
        row("read, no such language", {"read", said, "--language", "xx"}, 64, "",
            "There is no lexicon for this language: xx.");
        row("read, for no car", {"read", said, "--stock", "NOBODYS", "--as", "Runa Talbeck"}, 65,
            "", "There is no car with stock number NOBODYS.");
        row("read, as nobody", {"read", said, "--stock", "T-306", "--as", "Nobody"}, 77, "",
            "Nobody does not work here");
        row("read, a car and a program",
            {"read", said, "--stock", "T-306", "--json", "--as", "Runa Talbeck"}, 64, "",
            "Usage: ramplight read");
        row("read, for a car, no transcript",
            {"read", QStringLiteral(RAMPLIGHT_SOURCE_DIR "/tests/no-such-transcript"), "--stock",
             "T-306", "--as", "Runa Talbeck"},
            66, "", "cannot be read");
        row("corrections, none yet", {"read", "--corrections"}, 0, "", "");
        row("corrections of a file", {"read", said, "--corrections"}, 64, "",
            "Usage: ramplight read");
        row("read, no such traffic", {"read", said, "--traffic", "up"}, 64, "",
            "Usage: ramplight read");
        row("tour, nowhere", {"tour"}, 64, "", "Usage: ramplight tour --out FOLDER");
    }

    void answer()
    {
        QFETCH(QStringList, arguments);
        QFETCH(int, code);
        QFETCH(QString, out);
        QFETCH(QString, err);
        const Ran ran = runProgram(m_demo, arguments);
        QVERIFY2(ran.out.contains(out), qPrintable(ran.out));
        QVERIFY2(ran.err.contains(err), qPrintable(ran.err));
        QCOMPARE(ran.code, code);
        // Answers on one channel, what went wrong on the other.
        if (code != 0)
            QCOMPARE(ran.out, QString());
    }

    void refusals_changedNothing()
    {
        QVERIFY2(m_made == runProgram(m_demo, {"verify"}).out, qPrintable(m_made));
    }

    void withoutWorkshop_saysSoAndMakesNone_data()
    {
        QTest::addColumn<QStringList>("arguments");
        for (const char* command : {"verify", "rebuild"})
            QTest::newRow(command) << QStringList{command};
        QTest::newRow("import") << QStringList{"import",
                                               demoAppraisals() + "rl-2041-aurel-kestin.json"};
        QTest::newRow("staff") << QStringList{"staff", "list"};
        QTest::newRow("bay") << QStringList{"bay", "list"};
        QTest::newRow("record") << QStringList{"record", "T-301", "--out", "none.pdf"};
    }

    void withoutWorkshop_saysSoAndMakesNone()
    {
        QFETCH(QStringList, arguments);
        const QString nowhere = m_folder.filePath("nowhere");
        const Ran ran = runProgram(nowhere, arguments);
        QCOMPARE(ran.code, 69);
        QVERIFY2(ran.err.contains("There is no workshop in " + nowhere), qPrintable(ran.err));
        QVERIFY(!QDir(nowhere).exists());
    }

    void unknownCommand_makesNoFolder()
    {
        const QString nowhere = m_folder.filePath("nowhere");
        QCOMPARE(runProgram(nowhere, {"nonsense"}).code, 64);
        QVERIFY(!QDir(nowhere).exists());
    }

    void import_twice_changesNothingTheSecondTime()
    {
        QVERIFY(copyHome());
        const QStringList import{"import", demoAppraisals() + "rl-2041-aurel-kestin.json", "--as",
                                 "Odo Farlane"};
        const Ran first = runProgram(m_home, import);
        QCOMPARE(first.code, 0);
        QVERIFY2(first.out.startsWith("RL 2041: 6 findings, "), qPrintable(first.out));
        const QString entries = verified();
        QVERIFY(!entries.isEmpty());
        const Ran second = runProgram(m_home, import);
        QCOMPARE(second.code, 0);
        QCOMPARE(second.out, "RL 2041: was taken in before, nothing changed.\n");
        QCOMPARE(verified(), entries);
    }

    void read_forACar_keepsTheDraftsOnce()
    {
        QVERIFY(copyHome());
        const QString path = m_folder.filePath("round.vtt");
        QVERIFY(write(path,
                      "WEBVTT\n\n00:01.000 --> 00:05.000\nNear side wing, dent, dent man.\n\n"
                      "0:0x --> 00:09.000\nRoof, scratch, polish. Off side front door is fine.\n\n"
                      "00:09.000 --> 00:14.000\nOff side front tyre, five mil.\n"));
        const QStringList read{"read", path, "--stock", "T-321", "--as", "Runa Talbeck"};
        const Ran first = runProgram(m_home, read);
        QVERIFY2(first.code == 0, qPrintable(first.err));
        QVERIFY2(first.out.startsWith("T-321: 1 drafts, 1 to look at, 1 tyre depths"),
                 qPrintable(first.out));
        QVERIFY2(first.err.contains(path + ", line 6: "), qPrintable(first.err));
        const QString entries = verified();
        // The words are kept by their content.
        const QDir kept(m_home + "/transcripts");
        QCOMPARE(kept.entryList(QDir::Files).size(), 1);
        QCOMPARE(bytesOf(kept.filePath(kept.entryList(QDir::Files).first())), bytesOf(path));
        const Ran second = runProgram(m_home, read);
        QCOMPARE(second.code, 0);
        QCOMPARE(second.out, first.out);
        QCOMPARE(verified(), entries);
        // Something else than a transcript changes nothing.
        QVERIFY(write(path, "{}"));
        const Ran none = runProgram(m_home, read);
        QCOMPARE(none.code, 65);
        QVERIFY2(none.err.contains("This is no transcript."), qPrintable(none.err));
        QCOMPARE(verified(), entries);
    }

    void corrections_areLinesOfTheReadersTests()
    {
        QVERIFY(copyHome());
        QVERIFY(write(m_home + "/corrections.jsonl", threeCorrections));
        const Ran ran = runProgram(m_home, {"read", "--corrections"});
        QCOMPARE(ran.code, 0);
        QCOMPARE(ran.out, "# a.vtt, en; drafted: roof dent\n"
                          "Roof, there's a mark. Polish. => roof scratch polish\n"
                          "# b.vtt, en; drafted: bonnet dent dent-repair\n"
                          "[right] A dent. No. => \n");
    }

    void import_severalFiles_takesInWhatIsGood()
    {
        QVERIFY(copyHome());
        const QString bad = m_folder.filePath("bad.json");
        QVERIFY(write(bad, "[]"));
        const Ran ran = runProgram(
            m_home, {"import", demoAppraisals() + "rl-2041-aurel-kestin.json", bad,
                     demoAppraisals() + "rl-2042-velm-strand.json", "--as", "Odo Farlane"});
        QCOMPARE(ran.code, 65);
        QVERIFY2(ran.out.contains("RL 2041: ") && ran.out.contains("RL 2042: "),
                 qPrintable(ran.out));
        QVERIFY2(ran.err.contains(bad + ": nothing was taken in."), qPrintable(ran.err));
    }

    void import_faultyFile_namesLineAndFieldAndChangesNothing_data()
    {
        QTest::addColumn<QByteArray>("good");
        QTest::addColumn<QByteArray>("bad");
        QTest::addColumn<QString>("fault");
        QTest::newRow("unknown place")
            << QByteArray("\"bonnet\"") << QByteArray("\"bonnett\"")
            << QStringLiteral("findings, entry 2, place: \"bonnett\" is not known");
        QTest::newRow("text for a number")
            << QByteArray("\"keys\": 2") << QByteArray("\"keys\": \"two\"")
            << QStringLiteral("car, keys: ");
        QTest::newRow("no stock number") << QByteArray("\"stock_number\": \"RL 2041\",\n")
                                         << QByteArray("\n") << QStringLiteral("stock_number");
        QTest::newRow("cut off") << QByteArray("\"findings\": [") << QByteArray("\"findings\": ")
                                 << QStringLiteral(": ");
    }

    void import_faultyFile_namesLineAndFieldAndChangesNothing()
    {
        QVERIFY(copyHome());
        QFETCH(QByteArray, good);
        QFETCH(QByteArray, bad);
        QFETCH(QString, fault);
        QByteArray bytes = bytesOf(demoAppraisals() + "rl-2041-aurel-kestin.json");
        const auto at = bytes.indexOf(good);
        QVERIFY(at > 0);
        const qsizetype line = bytes.left(at).count('\n') + 1;
        bytes.replace(at, good.size(), bad);
        const QString path = m_folder.filePath("faulty.json");
        QVERIFY(write(path, bytes));
        const QString entries = verified();
        const Ran ran = runProgram(m_home, {"import", path});
        QCOMPARE(ran.code, 65);
        QCOMPARE(ran.out, QString());
        QVERIFY2(ran.err.contains(fault), qPrintable(ran.err));
        QVERIFY2(ran.err.contains(path + ": nothing was taken in."), qPrintable(ran.err));
        const QString first = ran.err.section(path + ": line ", 1, 1);
        const int told = first.section(',', 0, 0).toInt();
        // What is missing is told where the object begins, what is cut off where it no longer fits.
        if (fault.contains("entry") || fault.contains("keys"))
            QCOMPARE(told, line);
        else
            QVERIFY2(told > 0, qPrintable(ran.err));
        QCOMPARE(verified(), entries);
    }

    void tag_isWrittenWithItsCode()
    {
        const QString pdf = m_folder.filePath("tag.pdf");
        const Ran made = runProgram(m_demo, {"tag", "T-301", "fl", "--out", pdf});
        QVERIFY2(made.code == 0, qPrintable(made.err));
        QCOMPARE(made.out, pdf + ": RLW-FL-T-301\n");
        QVERIFY(bytesOf(pdf).startsWith("%PDF"));
    }

    void record_agreesUntilItIsTamperedWith()
    {
        QVERIFY(copyHome());
        const QString pdf = m_folder.filePath("record.pdf");
        const Ran made = runProgram(m_home, {"record", "T-301", "--out", pdf});
        QCOMPARE(made.code, 0);
        const QString fingerprint = made.out.mid(QString(pdf + ": ").size()).trimmed();
        const Ran checked = runProgram(m_home, {"verify", "--record", pdf});
        QCOMPARE(checked.out, "Agrees: T-301 is in the ledger as this record says, fingerprint " +
                                  fingerprint + ".\n");
        QCOMPARE(checked.code, 0);

        // A byte inside what the first page draws.
        QByteArray bytes = bytesOf(pdf);
        const auto page = bytes.indexOf("stream\n") + 40;
        bytes[page] = char(bytes.at(page) ^ 0x20);
        const QString changed = m_folder.filePath("changed.pdf");
        QVERIFY(write(changed, bytes));
        const Ran tampered = runProgram(m_home, {"verify", "--record", changed});
        QCOMPARE(tampered.out, QString());
        QVERIFY2(tampered.code == 65, qPrintable(tampered.err));

        QVERIFY(write(changed, "no PDF at all"));
        QCOMPARE(runProgram(m_home, {"verify", "--record", changed}).code, 65);
    }

    void record_asHtml_agreesUntilItIsTamperedWith()
    {
        QVERIFY(copyHome());
        const QString html = m_folder.filePath("record.html");
        const Ran made = runProgram(m_home, {"record", "T-301", "--out", html});
        QCOMPARE(made.code, 0);
        QByteArray bytes = bytesOf(html);
        QVERIFY(bytes.startsWith("<!DOCTYPE html>"));
        const Ran checked = runProgram(m_home, {"verify", "--record", html});
        QVERIFY2(checked.out.startsWith("Agrees: T-301 "), qPrintable(checked.out + checked.err));
        bytes.replace("Handover", "Handever");
        QVERIFY(write(html, bytes));
        const Ran tampered = runProgram(m_home, {"verify", "--record", html});
        QCOMPARE(tampered.code, 65);
        QVERIFY2(tampered.err.endsWith("This file was changed after it was made.\n"),
                 qPrintable(tampered.err));
    }

    void record_ofItsCodeAlone_agrees()
    {
        QVERIFY(copyHome());
        const QString html = m_folder.filePath("coded.html");
        QCOMPARE(runProgram(m_home, {"record", "T-301", "--out", html}).code, 0);
        // As the code on the first page has it: hashes in base64, the rest in plain.
        const QByteArray bytes = bytesOf(html);
        const auto value = bytes.indexOf("content=\"") + 9;
        const QJsonObject stamp = QJsonDocument::fromJson(QByteArray::fromBase64(
            bytes.mid(value, bytes.indexOf('"', value) - value)))["stamp"]
                                      .toObject();
        const auto brief = [&](const char* key) {
            return QString::fromLatin1(
                QByteArray::fromHex(stamp[QLatin1String(key)].toString().toLatin1())
                    .toBase64(QByteArray::Base64UrlEncoding | QByteArray::OmitTrailingEquals));
        };
        const auto seq = stamp["seq"].toInteger();
        QString code = QString("RLR1:T-301:%1:%2:%3:%4:%5")
                           .arg(stamp["car"].toString())
                           .arg(seq)
                           .arg(stamp["madeAt"].toInteger())
                           .arg(brief("headHash"), brief("modelDigest"));
        const Ran checked = runProgram(m_home, {"verify", "--record", code});
        QVERIFY2(checked.out.startsWith("Agrees: T-301 "), qPrintable(checked.out + checked.err));
        QVERIFY(checked.out.contains("The code was compared, not the words around it"));
        code.replace(QString(":%1:").arg(seq), QString(":%1:").arg(seq - 1));
        QCOMPARE(runProgram(m_home, {"verify", "--record", code}).code, 1);
        QCOMPARE(runProgram(m_home, {"verify", "--record", code.chopped(4)}).code, 65);
    }

    // Another workshop's ledger holds another story under the same stock number.
    void record_ofAnotherWorkshop_differs()
    {
        QVERIFY(copyHome());
        const QString pdf = m_folder.filePath("record.pdf");
        QCOMPARE(runProgram(m_home, {"record", "T-301", "--out", pdf}).code, 0);
        const QString other = m_folder.filePath("other");
        QCOMPARE(makeDemo(other, DemoWorkshop::Another), QString());
        const Ran ran = runProgram(other, {"verify", "--record", pdf});
        QVERIFY2(ran.out.startsWith("Differs: "), qPrintable(ran.out + ran.err));
        QCOMPARE(ran.code, 1);
    }

    void verify_ofALostPhoto_namesIt()
    {
        QVERIFY(copyHome());
        QVERIFY(QDir(m_home + "/photos").removeRecursively());
        const Ran ran = runProgram(m_home, {"verify"});
        QCOMPARE(ran.code, 1);
        QVERIFY2(ran.out.contains("photo "), qPrintable(ran.out));
        QVERIFY2(ran.out.contains("faults."), qPrintable(ran.out));
    }

    void withoutItsKeyFile_nothingOpens()
    {
        QVERIFY(copyHome());
        QVERIFY(QFile::remove(m_home + "/site.keys"));
        const Ran ran = runProgram(m_home, {"verify"});
        QCOMPARE(ran.code, 69);
        QVERIFY2(ran.err.contains("site.keys is missing"), qPrintable(ran.err));
        QVERIFY(!QFile::exists(m_home + "/site.keys"));
    }

private:
    /// "23 cars, 5234 entries, 68 photos: all is whole."; empty when it is not.
    [[nodiscard]] QString verified() const
    {
        const Ran ran = runProgram(m_home, {"verify"});
        return ran.code == 0 ? ran.out : QString();
    }

    [[nodiscard]] bool copyHome()
    {
        m_home = m_folder.filePath(QString::number(++m_copies));
        return copyFolder(m_demo, m_home);
    }

    QTemporaryDir m_folder;
    QString m_demo = m_folder.filePath("demo");
    QString m_made; ///< what verify says of it
    QString m_home;
    int m_copies = 0;
};

RAMPLIGHT_TEST(QCoreApplication, TestCommandLine)
#include "tst_commandline.moc"
