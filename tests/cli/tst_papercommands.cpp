// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "cli/program.h"

#include "appraisal/schemacheck.h"
#include "support/testmain.h"

#include <QCryptographicHash>
#include <QDate>
#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QProcess>
#include <QTemporaryDir>
#include <QTest>

#include <rapidjson/document.h>

#include <sys/stat.h>

#include <functional>

using namespace ramplight;
using namespace ramplight::test;

namespace {

/// The faults of a file against one of the published schemas, in words.
QStringList against(const QString& schemaName, const QByteArray& bytes)
{
    const QByteArray schemaBytes =
        bytesOf(QStringLiteral(RAMPLIGHT_SOURCE_DIR "/db/schema/") + schemaName);
    rapidjson::Document schema;
    rapidjson::Document document;
    schema.Parse(schemaBytes.constData(), std::size_t(schemaBytes.size()));
    document.Parse(bytes.constData(), std::size_t(bytes.size()));
    if (schema.HasParseError() || document.HasParseError())
        return {QStringLiteral("cannot be read")};
    QStringList faults;
    for (const FileFault& fault : checkAgainstSchema(document, schema))
        faults.append(fault.path + QStringLiteral(": ") + fault.expected);
    return faults;
}

} // namespace

// What the program writes for people who do not sit at it: the sheet in a car, and whole folders.
// All of it reads the demo workshop and changes nothing there.
class TestPaperCommands : public QObject
{
    Q_OBJECT

private slots:
    void initTestCase()
    {
        QVERIFY(m_folder.isValid());
        QCOMPARE(makeDemo(m_demo), QString());
        // Who is where depends on the day: the demo has its weekends, too.
        for (int number = 301; m_inPrep.isEmpty() || m_released.isEmpty(); ++number) {
            QVERIFY(number < 324);
            const QString stockNumber = QStringLiteral("T-%1").arg(number);
            const Ran door = runProgram(
                m_demo, {"doorsheet", stockNumber, "--out", m_folder.filePath("which.pdf")});
            if (door.code == 0 && m_inPrep.isEmpty())
                m_inPrep = stockNumber;
            if (door.err.contains("is released to sale"))
                m_released = stockNumber;
        }
        const Ran made = runProgram(m_demo, {"export", "car", m_inPrep, "--out", m_car});
        QVERIFY2(made.code == 0, qPrintable(made.err));
        QVERIFY2(made.out.startsWith(m_car + ": 1 car, manifest "), qPrintable(made.out));
    }

    void answer_data()
    {
        QTest::addColumn<QStringList>("arguments");
        QTest::addColumn<int>("code");
        QTest::addColumn<QString>("words");
        const QString out = m_folder.filePath("not-made");
        const auto row = [](const char* name, const QStringList& arguments, int code,
                            const QString& words) {
            QTest::newRow(name) << arguments << code << words;
        };
        row("door sheet, no file", {"doorsheet", m_inPrep}, 64, "Usage: ramplight doorsheet");
        row("door sheet, no car", {"doorsheet", "NOBODYS", "--out", out}, 65,
            "There is no car with stock number NOBODYS.");
        row("door sheet of a released car", {"doorsheet", m_released, "--out", out}, 65,
            m_released + " is released to sale");
        row("door sheet into no folder", {"doorsheet", m_inPrep, "--out", "/no/such/d.pdf"}, 69,
            "/no/such/d.pdf cannot be written");
        row("export, nothing", {"export"}, 64, "Usage: ramplight export");
        row("export, nowhere", {"export", "car", m_inPrep}, 64, "Usage: ramplight export");
        row("export, unknown", {"export", "house", "--out", out}, 64, "Usage: ramplight export");
        row("export, no car", {"export", "car", "NOBODYS", "--out", out}, 65,
            "There is no car with stock number NOBODYS.");
        row("export, no day", {"export", "period", "today", "2031-05-04", "--out", out}, 64,
            "is no period");
        row("export, days the wrong way round",
            {"export", "period", "2031-05-04", "2031-05-03", "--out", out}, 64, "is no period");
        row("export over something", {"export", "car", m_inPrep, "--out", m_car}, 69,
            "is there already");
        row("check, nothing there", {"export", "check", out}, 66, "There is no manifest.json");
        row("check, no manifest", {"export", "check", m_car + '/' + m_inPrep}, 65,
            "There is no manifest.json");
    }

    void answer()
    {
        QFETCH(const QStringList, arguments);
        QFETCH(const int, code);
        QFETCH(const QString, words);
        const Ran ran = runProgram(m_demo, arguments);
        QCOMPARE(ran.code, code);
        QVERIFY2(ran.err.contains(words), qPrintable(ran.err));
        QVERIFY(!QFileInfo::exists(m_folder.filePath("not-made")));
    }

    void doorSheet_isWrittenWithItsCode()
    {
        const QString pdf = m_folder.filePath("door.pdf");
        const Ran made = runProgram(m_demo, {"doorsheet", m_inPrep, "--out", pdf});
        QVERIFY2(made.code == 0, qPrintable(made.err));
        QCOMPARE(made.out, pdf + ": RLC-" + m_inPrep + "\n");
        QVERIFY(bytesOf(pdf).startsWith("%PDF"));
    }

    // On a stick that somebody prepared.
    void linkOfThatName_isReplaced_andWhatItNamesIsLeftAlone()
    {
        const QString kept = m_folder.filePath("kept");
        QVERIFY(write(kept, "of the house"));
        const QString pdf = m_folder.filePath("linked.pdf");
        QVERIFY(QFile::link(kept, pdf));
        const Ran made = runProgram(m_demo, {"doorsheet", m_inPrep, "--out", pdf});
        QVERIFY2(made.code == 0, qPrintable(made.err));
        QVERIFY(!QFileInfo(pdf).isSymLink());
        QVERIFY(bytesOf(pdf).startsWith("%PDF"));
        QCOMPARE(bytesOf(kept), QByteArray("of the house"));
    }

    // What a name like /dev/stdout stands for is not replaced by a file.
    void whatIsNoFile_isNotReplaced()
    {
        const QString pipe = m_folder.filePath("pipe");
        QCOMPARE(::mkfifo(QFile::encodeName(pipe).constData(), S_IRUSR | S_IWUSR), 0);
        const QString link = m_folder.filePath("pipe.pdf");
        QVERIFY(QFile::link(pipe, link));
        for (const QString& out : {pipe, link, m_folder.path()}) {
            const Ran ran = runProgram(m_demo, {"doorsheet", m_inPrep, "--out", out});
            QCOMPARE(ran.code, 69);
            QVERIFY2(ran.err.contains(out + " cannot be written: it is no file."),
                     qPrintable(ran.err));
        }
        QVERIFY(QFileInfo(link).isSymLink());
    }

    // Years later somebody asks about a car that is gone.
    void carThatLeft_isFoundAllTheSame()
    {
        const QString pdf = m_folder.filePath("left.pdf");
        const Ran made = runProgram(m_demo, {"record", "T-324", "--out", pdf});
        QVERIFY2(made.code == 0, qPrintable(made.err));
        QVERIFY(bytesOf(pdf).startsWith("%PDF"));
        const Ran door =
            runProgram(m_demo, {"doorsheet", "T-324", "--out", m_folder.filePath("no.pdf")});
        QCOMPARE(door.code, 65);
        QVERIFY2(door.err.contains("T-324 has left the workshop"), qPrintable(door.err));
    }

    void car_isWholeAndAsTheSchemasSay()
    {
        const QByteArray manifest = bytesOf(m_car + "/manifest.json");
        QCOMPARE(against("export-manifest.schema.json", manifest), QStringList());
        QCOMPARE(against("export-car.schema.json", bytesOf(m_car + '/' + m_inPrep + "/car.json")),
                 QStringList());
        QVERIFY(bytesOf(m_car + '/' + m_inPrep + "/record.pdf").startsWith("%PDF"));
        const QJsonObject car =
            QJsonDocument::fromJson(bytesOf(m_car + '/' + m_inPrep + "/car.json")).object();
        QCOMPARE(car["identity"]["stockNumber"].toString(), m_inPrep);
        QVERIFY(!car["operations"].toArray().isEmpty());
        QVERIFY(!car["findings"].toArray().isEmpty());
        const QJsonArray photos = car["photos"].toArray();
        QVERIFY(!photos.isEmpty());
        for (const QJsonValue& photo : photos) {
            const QByteArray bytes =
                bytesOf(m_car + '/' + m_inPrep + "/" + photo["file"].toString());
            const QByteArray hash = QCryptographicHash::hash(bytes, QCryptographicHash::Sha256);
            QCOMPARE(QString::fromLatin1(hash.toHex()), photo["photo"].toString());
        }
        // The record in it agrees with the ledger that it came from.
        const Ran verified =
            runProgram(m_demo, {"verify", "--record", m_car + '/' + m_inPrep + "/record.pdf"});
        QVERIFY2(verified.code == 0, qPrintable(verified.out + verified.err));
        // Nothing is left beside it.
        const QStringList beside =
            QDir(m_folder.path())
                .entryList({".*"}, QDir::AllEntries | QDir::Hidden | QDir::NoDotAndDotDot);
        QCOMPARE(beside, QStringList());
    }

    void schema_findsWhatIsWrong_data()
    {
        QTest::addColumn<QByteArray>("before");
        QTest::addColumn<QByteArray>("after");
        QTest::newRow("a state that there is not")
            << QByteArray("\"state\": \"closed\"") << QByteArray("\"state\": \"fine\"");
        QTest::newRow("a time without its zone") << QByteArray("Z\",\n") << QByteArray("\",\n");
        QTest::newRow("another name") << QByteArray("\"entry\":") << QByteArray("\"entries\":");
    }

    void schema_findsWhatIsWrong()
    {
        QFETCH(const QByteArray, before);
        QFETCH(const QByteArray, after);
        QByteArray car = bytesOf(m_car + '/' + m_inPrep + "/car.json");
        QVERIFY(car.contains(before));
        car.replace(before, after);
        QVERIFY(!against("export-car.schema.json", car).isEmpty());
    }

    void tables_areForASpreadsheet()
    {
        for (const char* name : {"operations.csv", "minutes.csv", "findings.csv"}) {
            const QByteArray table = bytesOf(m_car + '/' + name);
            QVERIFY2(table.startsWith("\xef\xbb\xbfstockNumber,registration,make,model,"), name);
            QVERIFY2(table.endsWith("\r\n"), name);
            QVERIFY2(table.contains(("\r\n" + m_inPrep + ',').toUtf8()), name);
        }
        const QJsonObject car =
            QJsonDocument::fromJson(bytesOf(m_car + '/' + m_inPrep + "/car.json")).object();
        QCOMPARE(bytesOf(m_car + "/operations.csv").count("\r\n"),
                 1 + car["operations"].toArray().size());
    }

    void check_findsEveryChange_data()
    {
        QTest::addColumn<QString>("change");
        QTest::addColumn<int>("code");
        QTest::addColumn<QString>("words");
        QTest::newRow("none") << "none" << 0 << "all is as it was written.";
        QTest::newRow("none, from elsewhere") << "relative" << 0 << "all is as it was written.";
        QTest::newRow("a byte") << "byte" << 1 << m_inPrep + "/car.json has changed\n";
        QTest::newRow("longer") << "longer" << 1 << m_inPrep + "/record.pdf has changed:";
        QTest::newRow("gone") << "gone" << 1 << "minutes.csv is missing";
        QTest::newRow("more") << "more" << 1 << m_inPrep + "/notes.txt is not in the manifest";
        QTest::newRow("a link") << "link" << 1 << "findings.csv is a link to somewhere else";
        QTest::newRow("outside") << "outside" << 65 << "names a file that it cannot name";
        QTest::newRow("no manifest of ours") << "foreign" << 65 << "none that this program wrote";
    }

    void check_findsEveryChange()
    {
        QFETCH(const QString, change);
        QFETCH(const int, code);
        QFETCH(const QString, words);
        const QTemporaryDir place;
        const QString folder = place.filePath("copy");
        QVERIFY(copyFolder(m_car, folder));
        const auto edit = [&](const QString& name, const std::function<void(QByteArray&)>& how) {
            QByteArray bytes = bytesOf(folder + '/' + name);
            how(bytes);
            QVERIFY(write(folder + '/' + name, bytes));
        };
        if (change == "byte")
            edit(m_inPrep + "/car.json",
                 [](QByteArray& bytes) { bytes[40] = char(bytes.at(40) ^ 1); });
        if (change == "longer")
            edit(m_inPrep + "/record.pdf", [](QByteArray& bytes) { bytes += '\n'; });
        if (change == "gone")
            QVERIFY(QFile::remove(folder + "/minutes.csv"));
        if (change == "more")
            QVERIFY(write(folder + "/" + m_inPrep + "/notes.txt", "x"));
        if (change == "link") {
            QVERIFY(QFile::remove(folder + "/findings.csv"));
            QVERIFY(QFile::link(m_car + "/findings.csv", folder + "/findings.csv"));
        }
        if (change == "outside")
            edit("manifest.json",
                 [](QByteArray& bytes) { bytes.replace("minutes.csv", "../x/minutes.csv"); });
        if (change == "foreign")
            edit("manifest.json", [](QByteArray& bytes) { bytes = "{\"files\": []}"; });
        const QString named =
            change == "relative" ? QDir::current().relativeFilePath(folder) : folder;
        const Ran ran = runProgram(m_demo, {"export", "check", named});
        QVERIFY2((ran.out + ran.err).contains(words), qPrintable(ran.out + ran.err));
        QCOMPARE(ran.code, code);
    }

    void period_hasTheCarsOfItsDays()
    {
        // The demo's cars came in over the last days before it was made.
        const QString all = m_folder.filePath("all");
        const QDate today = QDate::currentDate();
        const Ran made =
            runProgram(m_demo, {"export", "period", today.addDays(-60).toString(Qt::ISODate),
                                today.addDays(1).toString(Qt::ISODate), "--out", all});
        QVERIFY2(made.code == 0, qPrintable(made.err));
        const QJsonObject manifest =
            QJsonDocument::fromJson(bytesOf(all + "/manifest.json")).object();
        QCOMPARE(against("export-manifest.schema.json", bytesOf(all + "/manifest.json")),
                 QStringList());
        const QString verified = runProgram(m_demo, {"verify"}).out;
        QCOMPARE(QStringLiteral("%1 cars").arg(manifest["cars"].toArray().size()),
                 demoCars(verified));
        for (const QJsonValue& car : manifest["cars"].toArray()) {
            const QString file = all + '/' + car["folder"].toString() + "/car.json";
            const QStringList faults = against("export-car.schema.json", bytesOf(file));
            QVERIFY2(faults.isEmpty(), qPrintable(file + faults.join('\n')));
        }
        QCOMPARE(runProgram(m_demo, {"export", "check", all}).code, 0);
        const QString none = m_folder.filePath("none");
        const Ran early =
            runProgram(m_demo, {"export", "period", "2001-01-01", "2001-12-31", "--out", none});
        QVERIFY2(early.code == 0, qPrintable(early.err));
        QVERIFY2(early.out.contains(": 0 cars, manifest "), qPrintable(early.out));
        QCOMPARE(runProgram(m_demo, {"export", "check", none}).code, 0);
    }

    void lostPhoto_isNamed_andTheRestIsThere()
    {
        const QString home = m_folder.filePath("home");
        QVERIFY(copyFolder(m_demo, home));
        QVERIFY(QDir(home + "/photos").removeRecursively());
        const QString out = m_folder.filePath("lost");
        const Ran ran = runProgram(home, {"export", "car", m_inPrep, "--out", out});
        QCOMPARE(ran.code, 1);
        QVERIFY2(ran.err.contains(m_inPrep + ": photo "), qPrintable(ran.err));
        QCOMPARE(against("export-car.schema.json", bytesOf(out + "/" + m_inPrep + "/car.json")),
                 QStringList());
        QCOMPARE(runProgram(m_demo, {"export", "check", out}).code, 0);
    }

private:
    QTemporaryDir m_folder;
    const QString m_demo = m_folder.filePath("demo");
    QString m_inPrep;   ///< stock number of a car in prep
    QString m_released; ///< of one that is released to sale
    const QString m_car = m_folder.filePath("car");
};

RAMPLIGHT_TEST(QCoreApplication, TestPaperCommands)
#include "tst_papercommands.moc"
