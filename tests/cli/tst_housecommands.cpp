// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "cli/program.h"
#include "support/testmain.h"

#include <QDateTime>
#include <QDir>
#include <QFile>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QTemporaryDir>
#include <QTest>

using namespace ramplight::test;

// The sub-commands that change the house: people, bays, tools, rules and catalogue. Each works on a
// copy of the demo workshop.
class TestHouseCommands : public QObject
{
    Q_OBJECT

private slots:
    void initTestCase()
    {
        QVERIFY(m_folder.isValid());
        QCOMPARE(makeDemo(m_demo), QString());
    }

    void cleanup()
    {
        if (!m_home.isEmpty())
            QDir(m_home).removeRecursively();
        m_home.clear();
    }

    void staff_addedWithPin_isListedAndVerifies()
    {
        QVERIFY(copyHome());
        const Ran added = runProgram(m_home,
                                     {"staff", "add", "Wenna Carne", "--skills", "glass,trim",
                                      "--rights", "work", "--as", "Runa Talbeck"},
                                     "482913\n482913\n");
        QVERIFY2(added.code == 0, qPrintable(added.err));
        QCOMPARE(added.out, "Wenna Carne is added.\n");
        QVERIFY(runProgram(m_home, {"staff", "list"})
                    .out.contains("Wenna Carne\n    skills glass,trim\n    rights work\n"));
        QCOMPARE(runProgram(m_home,
                            {"staff", "badge", "Wenna Carne", "RLB-00417", "--as", "Runa Talbeck"})
                     .code,
                 0);
        QCOMPARE(runProgram(m_home, {"staff", "leave", "Wenna Carne", "--as", "Runa Talbeck"}).code,
                 0);
        QVERIFY(runProgram(m_home, {"staff", "list"}).out.contains("Wenna Carne (left)"));
        QCOMPARE(runProgram(m_home, {"staff", "back", "Wenna Carne", "--as", "Runa Talbeck"}).code,
                 0);
        QVERIFY(!runProgram(m_home, {"staff", "list"}).out.contains("(left)"));
        QVERIFY(!verified().isEmpty());
    }

    void tool_addedCalibratedAndGone_isListed()
    {
        QVERIFY(copyHome());
        QCOMPARE(runProgram(m_home, {"tool", "add", "X 1", "dial-gauge", "2039-05-04", "--as",
                                     "Runa Talbeck"})
                     .code,
                 0);
        const Ran taken = runProgram(
            m_home, {"tool", "add", "x 1", "dial-gauge", "2039-05-04", "--as", "Runa Talbeck"});
        QCOMPARE(taken.code, 65);
        QVERIFY2(taken.err.contains("There is a tool x 1 already."), qPrintable(taken.err));
        QCOMPARE(
            runProgram(m_home, {"tool", "due", "X 1", "2040-05-04", "--as", "Runa Talbeck"}).code,
            0);
        QVERIFY(runProgram(m_home, {"tool", "list"}).out.contains("X 1  dial-gauge  2040-05-04\n"));
        QCOMPARE(runProgram(m_home, {"tool", "leave", "X 1", "--as", "Runa Talbeck"}).code, 0);
        QVERIFY(runProgram(m_home, {"tool", "list"}).out.contains("2040-05-04  (left)\n"));
        QVERIFY(!verified().isEmpty());
    }

    void house_exported_isTakenInByAnother()
    {
        QVERIFY(copyHome());
        QCOMPARE(runProgram(m_home, {"tool", "add", "X 1", "dial-gauge", "2039-05-04", "--as",
                                     "Runa Talbeck"})
                     .code,
                 0);
        const QString file = m_folder.filePath("house.json");
        QCOMPARE(runProgram(m_home, {"house", "export", file}).code, 0);
        QByteArray bytes = bytesOf(file);
        QVERIFY2(bytes.contains("\"shiftEndMinute\": 1050"), bytes.constData());
        QDir(m_home).removeRecursively();
        QVERIFY(copyHome());
        // Nothing of a file with a fault is taken in.
        bytes.replace("\"shiftEndMinute\": 1050", "\"shiftEndMinute\": 1020");
        QByteArray bad = bytes;
        bad.replace("dial-gauge", "spoon");
        QVERIFY(write(file, bad));
        const QString before = verified();
        const Ran refused = runProgram(m_home, {"house", "import", file, "--as", "Runa Talbeck"});
        QCOMPARE(refused.code, 65);
        QVERIFY2(refused.err.contains("tools"), qPrintable(refused.err));
        bad = bytes;
        bad.replace("\"2039-05-04\"", "null");
        QVERIFY(write(file, bad));
        QCOMPARE(runProgram(m_home, {"house", "import", file, "--as", "Runa Talbeck"}).code, 65);
        bad = bytes;
        bad.replace("\"lockSeconds\"", "\"lockMinutes\"");
        QVERIFY(write(file, bad));
        const Ran unknown = runProgram(m_home, {"house", "import", file, "--as", "Runa Talbeck"});
        QVERIFY2(unknown.err.contains("rules, lockMinutes"), qPrintable(unknown.err));
        QCOMPARE(verified(), before);
        QVERIFY(write(file, bytes));
        const Ran taken = runProgram(m_home, {"house", "import", file, "--as", "Runa Talbeck"});
        QVERIFY2(taken.code == 0, qPrintable(taken.err));
        QVERIFY(runProgram(m_home, {"tool", "list"}).out.contains("X 1  dial-gauge  2039-05-04\n"));
        const QString again = m_folder.filePath("again.json");
        QCOMPARE(runProgram(m_home, {"house", "export", again}).code, 0);
        QCOMPARE(bytesOf(again), bytes);
        const QString entries = verified();
        QCOMPARE(runProgram(m_home, {"house", "import", file, "--as", "Runa Talbeck"}).code, 0);
        QCOMPARE(verified(), entries); // it is so already
    }

    void house_fileThatNamesLittle_leavesTheRest()
    {
        QVERIFY(copyHome());
        const QString file = m_folder.filePath("little.json");
        const auto take = [&](const QByteArray& house) {
            if (!write(file, house))
                return -1;
            return runProgram(m_home, {"house", "import", file, "--as", "Runa Talbeck"}).code;
        };
        QCOMPARE(take(R"({"format": 1, "rules": {"shiftEndMinute": 1020, "lockSeconds": 90},
                          "adjustments": [{"operation": "road-test", "materialMinor": 1200}]})"),
                 0);
        QCOMPARE(take(R"({"format": 1, "rules": {"lockSeconds": 60}})"), 0);
        QCOMPARE(runProgram(m_home, {"house", "export", file}).code, 0);
        const QByteArray kept = bytesOf(file);
        QVERIFY2(kept.contains("\"shiftEndMinute\": 1020"), kept.constData());
        QVERIFY2(kept.contains("\"lockSeconds\": 60"), kept.constData());
        QVERIFY2(kept.contains("road-test"), kept.constData());
        QCOMPARE(take(R"({"format": 1, "adjustments": [
                          {"operation": "road-test", "materialMinor": 1},
                          {"operation": "road-test", "materialMinor": 2}]})"),
                 65);
        QCOMPARE(take(R"({"format": 1, "adjustments": []})"), 0);
        QCOMPARE(runProgram(m_home, {"house", "export", file}).code, 0);
        QVERIFY(!bytesOf(file).contains("road-test"));
        QVERIFY(bytesOf(file).contains("\"shiftEndMinute\": 1020"));
    }

    void catalogue_takenIn_isExportedAndGivenBack()
    {
        QVERIFY(copyHome());
        const QString file = m_folder.filePath("catalogue.json");
        QCOMPARE(runProgram(m_home, {"catalogue", "export", file}).code, 0);
        QByteArray bytes = bytesOf(file);
        const QByteArray shipped = bytesOf(RAMPLIGHT_SOURCE_DIR "/db/catalogue/operations.json");
        QCOMPARE(bytes, shipped);
        bytes.replace("\"skill\": \"glass\"", "\"skill\": \"magic\"");
        QVERIFY(write(file, bytes));
        const QString before = verified();
        const Ran refused =
            runProgram(m_home, {"catalogue", "import", file, "--as", "Runa Talbeck"});
        QCOMPARE(refused.code, 65);
        QVERIFY2(refused.err.contains("skill"), qPrintable(refused.err));
        QCOMPARE(verified(), before);
        bytes = shipped;
        const auto at = bytes.indexOf("\"title\": \"") + 10;
        bytes.insert(at, "Ours: ");
        QVERIFY(write(file, bytes));
        const Ran taken = runProgram(m_home, {"catalogue", "import", file, "--as", "Runa Talbeck"});
        QVERIFY2(taken.code == 0, qPrintable(taken.err));
        QVERIFY(verified() != before);
        QCOMPARE(runProgram(m_home, {"catalogue", "export", file}).code, 0);
        QVERIFY(bytesOf(file).contains("\"title\": \"Ours: "));
        QCOMPARE(runProgram(m_home, {"catalogue", "check", file}).code, 0);
        QCOMPARE(
            runProgram(m_home, {"catalogue", "import", "--shipped", "--as", "Runa Talbeck"}).code,
            0);
        QCOMPARE(runProgram(m_home, {"catalogue", "export", file}).code, 0);
        QCOMPARE(bytesOf(file), shipped);
    }

    void staff_pin_data()
    {
        QTest::addColumn<QByteArray>("input");
        QTest::addColumn<int>("code");
        QTest::newRow("twice the same") << QByteArray("482913\n482913\n") << 0;
        QTest::newRow("lines of another system") << QByteArray("482913\r\n482913\r\n") << 0;
        QTest::newRow("not the same") << QByteArray("482913\n482914\n") << 65;
        QTest::newRow("once") << QByteArray("482913\n") << 65;
        QTest::newRow("nothing") << QByteArray() << 65;
        QTest::newRow("too short") << QByteArray("4829\n4829\n") << 65;
        QTest::newRow("too plain") << QByteArray("111111\n111111\n") << 65;
    }

    void staff_pin()
    {
        QVERIFY(copyHome());
        QFETCH(QByteArray, input);
        QFETCH(int, code);
        const Ran ran =
            runProgram(m_home, {"staff", "pin", "Ivo Kesteven", "--as", "Runa Talbeck"}, input);
        QVERIFY2(ran.code == code, qPrintable(ran.err));
        QVERIFY(code == 0 || !ran.err.isEmpty());
        QVERIFY2(!(ran.out + ran.err).contains("4829"), "a PIN was said");
    }

    void staff_changed_hasTheSkillsAndRightsThatWereNamed()
    {
        QVERIFY(copyHome());
        const QString before = runProgram(m_home, {"staff", "list"}).out;
        QVERIFY(before.contains("Bram Holloway\n    skills wheels\n    rights work\n"));
        const auto change = [&](const QStringList& what) {
            return runProgram(m_home, QStringList{"staff", "change", "Bram Holloway"} + what +
                                          QStringList{"--as", "Runa Talbeck"});
        };
        QCOMPARE(change({"--skills", "wheels,valet"}).code, 0);
        QVERIFY(runProgram(m_home, {"staff", "list"})
                    .out.contains("Bram Holloway\n    skills wheels,valet\n    rights work\n"));
        QCOMPARE(change({"--rights", "work,check"}).code, 0);
        QVERIFY(
            runProgram(m_home, {"staff", "list"})
                .out.contains("Bram Holloway\n    skills wheels,valet\n    rights work,check\n"));
        QVERIFY(change({}).code != 0);
        QCOMPARE(change({"--skills", "juggling"}).code, 64);
        QVERIFY(!verified().isEmpty());
    }

    // The ledger keeps a name: nobody's is taken because it comes first.
    void author_isAskedFor_whereSeveralMayDoIt()
    {
        QVERIFY(copyHome());
        const Ran ran = runProgram(m_home, {"bay", "add", "7", "Second lift", "lift"});
        QCOMPARE(ran.code, 77);
        QVERIFY2(ran.err.contains("--as NAME, one of: Runa Talbeck, Odo Farlane"),
                 qPrintable(ran.err));
        QVERIFY(!runProgram(m_home, {"bay", "list"}).out.contains("Second lift"));
        QVERIFY(
            runProgram(m_home, {"staff", "leave", "Odo Farlane", "--as", "Runa Talbeck"}).code ==
            0);
        // Only one is left who may.
        QCOMPARE(runProgram(m_home, {"bay", "add", "7", "Second lift", "lift"}).code, 0);
    }

    void staff_lastManager_cannotLeave()
    {
        QVERIFY(copyHome());
        QCOMPARE(runProgram(m_home, {"staff", "leave", "Odo Farlane", "--as", "Runa Talbeck"}).code,
                 0);
        const Ran last =
            runProgram(m_home, {"staff", "leave", "Runa Talbeck", "--as", "Runa Talbeck"});
        QCOMPARE(last.code, 65);
        QVERIFY(!last.err.isEmpty());
        QVERIFY(!runProgram(m_home, {"staff", "list"}).out.contains("Runa Talbeck (left)"));
    }

    void bay_addedAndClosed_isListed()
    {
        QVERIFY(copyHome());
        QCOMPARE(
            runProgram(m_home, {"bay", "add", "7", "Second lift", "lift", "--as", "Runa Talbeck"})
                .code,
            0);
        QVERIFY(runProgram(m_home, {"bay", "list"}).out.contains("7  Second lift  lift\n"));
        QCOMPARE(runProgram(m_home, {"bay", "close", "7", "--as", "Runa Talbeck"}).code, 0);
        QVERIFY(runProgram(m_home, {"bay", "list"}).out.contains("7  Second lift  lift  (closed)"));
        QCOMPARE(runProgram(m_home, {"bay", "open", "7", "--as", "Runa Talbeck"}).code, 0);
        QVERIFY(runProgram(m_home, {"bay", "list"}).out.contains("7  Second lift  lift\n"));
        QCOMPARE(runProgram(m_home, {"bay", "change", "7", "Booth", "paint", "--as", "Odo Farlane"})
                     .code,
                 0);
        QVERIFY(runProgram(m_home, {"bay", "list"}).out.contains("7  Booth  paint\n"));
        QCOMPARE(runProgram(m_home, {"bay", "open", "7", "--as", "Runa Talbeck"}).code, 65);
        QVERIFY(!verified().isEmpty());
    }

    // Looks only: the demo workshop itself.
    void plan_saysWhoWorksOnWhat_andWhenCarsAreReady()
    {
        const Ran told = runProgram(m_demo, {"plan", "--schedules", "60"});
        QVERIFY2(told.code == 0, qPrintable(told.err));
        for (const char* head : {"Bays\n", "People\n", "Free\n", "Blocked\n", "Cars\n"})
            QVERIFY2(told.out.contains(head), head);
        QVERIFY(told.out.contains("nine times in ten by "));
        QCOMPARE(runProgram(m_demo, {"plan", "--schedules", "none"}).code, 64);
        QCOMPARE(runProgram(m_demo, {"plan", "everything"}).code, 64);

        const Ran json = runProgram(m_demo, {"plan", "--json", "--schedules", "60"});
        QVERIFY2(json.code == 0, qPrintable(json.err));
        const QJsonObject plan = QJsonDocument::fromJson(json.out.toUtf8()).object();
        QCOMPARE(plan.keys(), (QStringList{"at", "bays", "blocked", "cars", "free", "people",
                                           "schedules", "unplanned"}));
        QVERIFY(QDateTime::fromString(plan["at"].toString(), Qt::ISODate).isValid());
        int late = 0;
        int signatures = 0;
        for (const QJsonValue& value : plan["cars"].toArray()) {
            const QJsonObject car = value.toObject();
            QVERIFY(!car["car"].toString().isEmpty());
            const auto time = [&](const char* key) {
                return QDateTime::fromString(car[QLatin1String(key)].toString(), Qt::ISODate);
            };
            if (!car["ready90"].isNull())
                QVERIFY(time("ready50") <= time("ready90"));
            const bool isLate = car["ready50"].isNull() ||
                                (!car["promised"].isNull() && time("ready50") > time("promised"));
            // The wider the surer.
            for (const char* end : {"from", "to"}) {
                const auto of = [&](const char* within) {
                    return QDateTime::fromString(
                        car[QLatin1String(within)].toObject()[QLatin1String(end)].toString(),
                        Qt::ISODate);
                };
                if (car["ready90"].isNull())
                    continue;
                QVERIFY(of("within80").isValid());
                const bool isFrom = QLatin1String(end) == QLatin1String("from");
                QVERIFY(isFrom ? of("within90") <= of("within80")
                               : of("within80") <= of("within90"));
                QVERIFY(isFrom ? of("within80") <= of("within50")
                               : of("within50") <= of("within80"));
            }
            const bool wantsSignature = car["wantsSignature"].toBool();
            signatures += wantsSignature ? 1 : 0;
            QCOMPARE(car["late"].toBool(), isLate);
            QCOMPARE(car.contains("why"), isLate);
            late += isLate ? 1 : 0;
        }
        QVERIFY2(late > 0, "the demo workshop has late cars to explain");
        QCOMPARE(told.out.count("ready now, wants a signature"), signatures);
        QVERIFY2(signatures > 0, "the demo workshop has a car that is ready");
        QVERIFY(!plan["blocked"].toArray().isEmpty());
        for (const QJsonValue& blocked : plan["blocked"].toArray())
            QVERIFY2(!blocked.toObject()["why"].toString().isEmpty(),
                     qPrintable(blocked.toObject()["title"].toString()));
        for (const QJsonValue& left : plan["unplanned"].toArray())
            QVERIFY(!left.toObject()["why"].toString().isEmpty());
        // Nobody does two things at once.
        for (const QJsonValue& person : plan["people"].toArray()) {
            QDateTime free;
            for (const QJsonValue& work : person.toObject()["work"].toArray()) {
                QCOMPARE(work.toObject().contains("why"), !work.toObject()["inHand"].toBool());
                const auto from =
                    QDateTime::fromString(work.toObject()["from"].toString(), Qt::ISODate);
                QVERIFY2(!free.isValid() || from >= free,
                         qPrintable(person.toObject()["name"].toString()));
                free = QDateTime::fromString(work.toObject()["to"].toString(), Qt::ISODate);
            }
        }
    }

    void whatIf_isHeldAgainstThePlan_andChangesNothing()
    {
        QVERIFY(copyHome());
        const QString whole = verified();
        QVERIFY(!whole.isEmpty());
        const Ran told =
            runProgram(m_home, {"plan", "--schedules", "60", "--what-if", "away:runa,today,sun",
                                "--what-if", "hours:all,tomorrow,18-22"});
        QVERIFY2(told.code == 0, qPrintable(told.err));
        QVERIFY2(told.out.startsWith("What if\n  Runa Talbeck away "), qPrintable(told.out));
        // On whatever day it is asked, work can be done tomorrow evening that could not before.
        QVERIFY(told.out.contains("\n  everybody also "));
        QVERIFY(told.out.contains(" 18:00 to 22:00\n"));
        QVERIFY(told.out.contains("Late for their promise: "));
        QVERIFY(told.out.contains("nine times in ten by "));
        QVERIFY(told.out.endsWith("Nothing was changed\n"));
        QCOMPARE(verified(), whole);

        // The late count before is that of the plan without a change.
        const Ran plain = runProgram(m_home, {"plan", "--json", "--schedules", "60"});
        int late = 0;
        for (const QJsonValue& one :
             QJsonDocument::fromJson(plain.out.toUtf8()).object()["cars"].toArray())
            late += one["late"].toBool() ? 1 : 0;
        const Ran sooner = runProgram(
            m_home, {"plan", "--json", "--schedules", "60", "--what-if", "hours:all,today,0-24"});
        QVERIFY2(sooner.code == 0, qPrintable(sooner.err));
        const QJsonObject outcome = QJsonDocument::fromJson(sooner.out.toUtf8()).object();
        QCOMPARE(outcome.keys(),
                 (QStringList{"asBefore", "at", "cars", "late", "schedules", "whatIf"}));
        QCOMPARE(outcome["late"]["before"].toInt(), late);
        QVERIFY(!outcome["cars"].toArray().isEmpty());
        for (const QJsonValue& one : outcome["cars"].toArray()) {
            QVERIFY(!one["car"].toString().isEmpty());
            QVERIFY(one["before"]["ready50"] != one["after"]["ready50"]);
        }
        QCOMPARE(verified(), whole);
    }

    void whatIf_thatIsNone_isRefusedInWords_data()
    {
        QTest::addColumn<QString>("option");
        QTest::addColumn<QString>("words");
        QTest::newRow("no kind") << "rain:tomorrow"
                                 << "it is one of person:LIKE";
        QTest::newRow("no colon") << "hours"
                                  << "it is one of person:LIKE";
        QTest::newRow("too little") << "hours:all,sat"
                                    << "it is written hours:NAME|all,DAY,FROM-TO";
        QTest::newRow("nobody") << "away:Nemo,fri"
                                << "nobody here is called \"Nemo\"";
        QTest::newRow("no day") << "away:Runa,someday"
                                << "\"someday\" is no day";
        QTest::newRow("over") << "away:Runa,1999-01-01"
                              << "is over";
        QTest::newRow("backwards") << "away:Runa,tomorrow,today"
                                   << "\"today\" is before \"tomorrow\"";
        QTest::newRow("no hours") << "hours:all,sat,13-8"
                                  << "are no hours like 8-13";
        QTest::newRow("no bay") << "bay:99"
                                << "there is no bay 99";
        QTest::newRow("no car") << "part:NONE,fri"
                                << "no car in prep has stock number \"NONE\"";
        QTest::newRow("nothing behind it") << "bay:"
                                           << "it is written bay:NUMBER";
    }
    void whatIf_thatIsNone_isRefusedInWords()
    {
        QFETCH(QString, option);
        QFETCH(QString, words);
        const Ran ran = runProgram(m_demo, {"plan", "--schedules", "10", "--what-if", option});
        QCOMPARE(ran.code, 64);
        QVERIFY2(ran.err.contains(words), qPrintable(ran.err));
        QVERIFY(ran.out.isEmpty());
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
    QString m_home;
    int m_copies = 0;
};

RAMPLIGHT_TEST(QCoreApplication, TestHouseCommands)
#include "tst_housecommands.moc"
