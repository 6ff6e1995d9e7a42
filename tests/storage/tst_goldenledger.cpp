// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storagebench.h"

#include "storage/entrytable.h"
#include "support/testmain.h"

#include <QDir>
#include <QFile>
#include <QJsonDocument>
#include <QJsonObject>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

namespace {

const SiteId goldenSite{QStringLiteral("golden")};

QString folder()
{
    return QStringLiteral(RAMPLIGHT_SOURCE_DIR "/tests/storage/golden");
}

QList<QByteArray> linesOf(const QString& path)
{
    QFile file(path);
    if (!file.open(QIODevice::ReadOnly))
        qFatal("%s cannot be read", qPrintable(path));
    QList<QByteArray> lines = file.readAll().split('\n');
    lines.removeAll(QByteArray());
    return lines;
}

QByteArray compact(const QJsonObject& json)
{
    return QJsonDocument(json).toJson(QJsonDocument::Compact);
}

QByteArray lineOf(const Entry& entry)
{
    return compact({{"stream", entry.stream},
                    {"seq", entry.seq},
                    {"at", entry.at.ms},
                    {"actor", entry.actor.value},
                    {"command", entry.command.text},
                    {"type", entry.type},
                    {"version", entry.version},
                    {"body", QJsonDocument::fromJson(entry.body).object()},
                    {"prev_hash", entry.prevHash},
                    {"hash", entry.hash}});
}

Entry entryOf(const QByteArray& line)
{
    const QJsonObject json = QJsonDocument::fromJson(line).object();
    Entry entry;
    entry.stream = json["stream"].toString();
    entry.seq = json["seq"].toInteger();
    entry.at = {json["at"].toInteger()};
    entry.actor = {json["actor"].toInt()};
    entry.command = {json["command"].toString()};
    entry.type = json["type"].toString();
    entry.version = json["version"].toInt();
    entry.body = compact(json["body"].toObject());
    entry.prevHash = json["prev_hash"].toString();
    entry.hash = json["hash"].toString();
    return entry;
}

/// What has to stay true of a car, in one line: numbers and ids, no wording.
QByteArray summary(const CarState& car, const HouseRules& rules)
{
    QStringList operations;
    for (const auto& [id, operation] : car.operations)
        operations.append(QStringLiteral("%1 %2 %3 %4 min %5 segments %6 readings %7 signatures")
                              .arg(id.value)
                              .arg(operation.spec->id, nameOf(operation.state))
                              .arg(operation.minutes())
                              .arg(operation.segments.size())
                              .arg(operation.readings.size())
                              .arg(operation.signatures.size()));
    return compact({{"car", car.id.text},
                    {"seq", car.seq},
                    {"stockNumber", car.identity.stockNumber},
                    {"status", nameOf(cardOf(car, rules).status)},
                    {"findings", static_cast<int>(car.findings.size())},
                    {"photos", static_cast<int>(car.photos.size())},
                    {"seen", static_cast<int>(car.seen.size())},
                    {"bay", car.bay.value},
                    {"operations", QJsonArray::fromStringList(operations)}});
}

/// Ledger first in the order of its positions, then a line per car.
QByteArray textOf(Store& store)
{
    SqlLedger& ledger = store.ledger();
    const HouseRules rules = ledger.site().value().rules;
    const QStringList streams = streamsOf(ledger.connection(), ledger.siteId()).value();
    std::map<qint64, QByteArray> lines;
    QByteArray cars;
    for (const QString& stream : streams) {
        const std::vector<Entry> entries =
            entriesAfter(ledger.connection(), ledger.siteId(), stream, 0).value();
        for (const Entry& entry : entries)
            lines[entry.position] = lineOf(entry) + '\n';
        if (const CarId car = carOfStream(stream); !car.isEmpty())
            cars += summary(ledger.car(car).value(), rules) + '\n';
    }
    QByteArray text;
    for (const auto& [position, line] : lines)
        text += line;
    return text + cars;
}

} // namespace

// Ledgers that earlier stages of the project wrote still read, verify and mean the same. A file is
// written once (RAMPLIGHT_WRITE_GOLDEN=name) and never again.
class TestGoldenLedger : public QObject
{
    Q_OBJECT

private slots:
    void ledgerOfAnEarlierStage_replaysToTheSame_data()
    {
        QTest::addColumn<StoreKind>("kind");
        QTest::addColumn<QString>("file");
        if (const QString name = qEnvironmentVariable("RAMPLIGHT_WRITE_GOLDEN"); !name.isEmpty())
            writeStory(folder() + QLatin1Char('/') + name + QStringLiteral(".jsonl"));
        const QStringList files = QDir(folder()).entryList({"*.jsonl"}, QDir::Files, QDir::Name);
        QVERIFY(!files.isEmpty());
        forEachKind([&](const char* prefix, StoreKind kind) {
            for (const QString& file : files)
                QTest::addRow("%s, %s", prefix, qPrintable(file)) << kind << file;
        });
    }

    void ledgerOfAnEarlierStage_replaysToTheSame()
    {
        QFETCH(StoreKind, kind);
        QFETCH(QString, file);
        TestDatabase database(kind);
        StoreSettings settings = database.settings();
        settings.site = goldenSite;
        const auto store = Store::open(settings, keeperWith()).value();

        std::vector<Entry> entries;
        QByteArray text;
        for (const QByteArray& line : linesOf(folder() + QLatin1Char('/') + file)) {
            text += line + '\n';
            if (line.contains("\"stream\":"))
                entries.push_back(entryOf(line));
        }
        QVERIFY(entries.size() > 20);
        // The heads come after what they cover.
        std::map<QString, std::vector<const Entry*>> commands;
        for (const Entry& entry : entries)
            commands[entry.command.text].push_back(&entry);
        Writer writer(store->ledger().connection());
        for (const auto& [command, written] : commands)
            writer.run("INSERT INTO command (site, command, at, actor, entries)"
                       " VALUES (?, ?, ?, ?, ?)",
                       {goldenSite.text, command, written.front()->at.ms,
                        written.front()->actor.value, static_cast<qint64>(written.size())});
        for (const Entry& entry : entries)
            insertEntry(writer, goldenSite, entry);
        QVERIFY2(writer.good(), writer.good() ? "" : qPrintable(writer.fault().text));
        QVERIFY(rebuildReadTables(store->ledger()));

        const VerifyReport report = Verifier(store->ledger()).run();
        for (const LedgerFault& fault : report.faults)
            qWarning("%s: %s", qPrintable(fault.where), qPrintable(fault.words));
        QVERIFY(report.isWhole());
        QCOMPARE(QString::fromUtf8(textOf(*store)), QString::fromUtf8(text));
    }

private:
    static void writeStory(const QString& path)
    {
        QVERIFY2(!QFile::exists(path), "a golden ledger is written once");
        Workbench bench;
        tellStory(bench);
        TestDatabase database(StoreKind::Sqlite);
        StoreSettings settings = database.settings();
        settings.site = goldenSite;
        const auto store = Store::open(settings, keeperWith()).value();
        QVERIFY(replay(bench.ledger.accepted(), store->ledger()));
        QFile file(path);
        QVERIFY(file.open(QIODevice::WriteOnly));
        file.write(textOf(*store));
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestGoldenLedger)
#include "tst_goldenledger.moc"
