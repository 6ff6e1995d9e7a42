// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "../domain/randomworkshop.h"
#include "storagebench.h"

#include "storage/entrytable.h"
#include "storage/migrator.h"
#include "support/testmain.h"

#include <QDir>
#include <QFile>
#include <QJsonDocument>
#include <QJsonObject>
#include <QTest>

#include <set>

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

using Types = std::set<QString>;

/// All that can happen to cars, or to the house.
template <class Event, std::size_t... Index>
void addTypes(Types& types, std::index_sequence<Index...> /*all*/)
{
    (types.insert(QString::fromLatin1(Event::template Kind<Index>::type)), ...);
}

Types allTypes()
{
    Types types;
    addTypes<CarEvent>(types, std::make_index_sequence<CarEvent::kinds>());
    addTypes<SiteEvent>(types, std::make_index_sequence<SiteEvent::kinds>());
    return types;
}

template <class Event, std::size_t... Index>
void addKinds(QStringList& kinds, const char* of, std::index_sequence<Index...> /*all*/)
{
    const auto add = [&](const EncodedEvent& event) {
        kinds.append(QStringLiteral("%1 %2 %3").arg(of, event.type).arg(event.version));
    };
    (add(encode(Event(typename Event::template Kind<Index>()))), ...);
}

/// "car promise-changed 1", sorted.
QStringList allKinds()
{
    QStringList kinds;
    addKinds<CarEvent>(kinds, "car", std::make_index_sequence<CarEvent::kinds>());
    addKinds<SiteEvent>(kinds, "site", std::make_index_sequence<SiteEvent::kinds>());
    kinds.append(QStringLiteral("heads %1 %2").arg(Heads::type).arg(Heads::version));
    kinds.sort();
    return kinds;
}

int schemaNumber()
{
    return migrationsIn(QStringLiteral(":/ramplight/migrations/sqlite")).back().version;
}

/// Those that no golden ledger has. A tread alone is read still and written no more: a tyre is
/// recorded with it.
Types missingTypes()
{
    Types missing = allTypes();
    missing.erase(QString::fromLatin1(TreadRecorded::type));
    for (const QString& file : QDir(folder()).entryList({"*.jsonl"}, QDir::Files))
        for (const QByteArray& line : linesOf(folder() + QLatin1Char('/') + file))
            missing.erase(QJsonDocument::fromJson(line).object()["type"].toString());
    return missing;
}

/// Those of them that a history has.
Types typesIn(const std::vector<Append>& history, const Types& wanted)
{
    Types found;
    const auto take = [&](const auto& events) {
        for (const auto& event : events)
            if (const QString type = encode(event).type; wanted.contains(type))
                found.insert(type);
    };
    for (const Append& append : history) {
        for (const CarAppend& car : append.cars)
            take(car.events);
        if (append.site)
            take(append.site->events);
    }
    return found;
}

/// What a manager changes in the house beside its people.
void changeHouse(Workbench& bench)
{
    const auto ask = [&](const SiteCommand& command) {
        QCOMPARE(bench.ask(bench.manager, command), done);
    };
    HouseRules rules = bench.ledger.site().value().rules;
    rules.shiftEndMinute += 15;
    ask(site::SetHouseRules{rules});
    ask(site::ChangePerson{bench.glazier, {Skill::Glass, Skill::Valet}, {Right::Work}, true});
    ask(site::ChangeAccess{bench.glazier, QStringLiteral("pin")});
    ask(site::RaisePinAlarm{bench.glazier, 100});
    ask(site::SetCompetence{bench.painter,
                            {{Qualification::Spraying, QDate(2099, 6, 30)}},
                            {QStringLiteral("metallics")}});
    const QDate away(2031, 6, 2);
    ask(site::SetTimes{bench.painter, {{}, {{away, away.addDays(4)}}, {}}});
    (void)bench.tool("M-4", ToolKind::TorqueWrench, QDate(2032, 1, 1));
    ask(site::AdjustOperation{
        {"tyre-survey", Minutes{5, 10, 20}, 1250, {}, {{PhotoMoment::After, "the four"}}}});
    QFile shipped(QStringLiteral(RAMPLIGHT_SOURCE_DIR "/db/catalogue/operations.json"));
    QVERIFY(shipped.open(QIODevice::ReadOnly));
    ask(site::AdoptCatalogue{shipped.readAll()});
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
            writeHistories(folder() + QLatin1Char('/') + name);
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

    // What a later program reads must have been written once.
    void everyKindOfEntry_isInAGoldenLedger()
    {
        QStringList missing;
        for (const QString& type : missingTypes())
            missing.append(type);
        QCOMPARE(missing.join(QStringLiteral(", ")), QString());
    }

    // An older program refuses a schema that it does not know, before it meets an entry that it
    // does not: each new kind or version raises its number (an empty migration will do) and is
    // listed under that, once (RAMPLIGHT_WRITE_GOLDEN=name).
    void everyKindOfEntry_isOneOfItsSchema()
    {
        for (const char* dialect : {"sqlite", "postgresql"})
            QCOMPARE(
                migrationsIn(QStringLiteral(":/ramplight/migrations/") + QLatin1StringView(dialect))
                    .back()
                    .version,
                schemaNumber());
        QFile file(folder() + QStringLiteral("/kinds-%1.txt").arg(schemaNumber()));
        if (qEnvironmentVariableIsSet("RAMPLIGHT_WRITE_GOLDEN") && !file.exists()) {
            QVERIFY(file.open(QIODevice::WriteOnly));
            file.write(allKinds().join(QLatin1Char('\n')).toUtf8() + '\n');
            file.close();
        }
        QCOMPARE(QString::fromUtf8(linesOf(file.fileName()).join('\n')),
                 allKinds().join(QLatin1Char('\n')));
    }

private:
    /// Of many random histories the fewest that have all that no golden ledger has, each no longer
    /// than that takes; behind the first of them the house is changed.
    static void writeHistories(const QString& name)
    {
        constexpr int seeds = 400;
        constexpr int steps = 60;
        Types missing = missingTypes();
        const auto told = [](int seed, int length, bool first) {
            Tally tally;
            RandomWorkshop random(static_cast<quint64>(seed), tally);
            if (!random.run(length))
                qFatal("%s", qPrintable(random.what()));
            if (first)
                changeHouse(random.bench());
            return random.ledger().accepted();
        };
        std::vector<std::vector<Append>> histories(seeds);
        for (int seed = 0; seed < seeds; ++seed)
            histories[std::size_t(seed)] = told(seed + 1, steps, seed == 0);
        for (int part = 1; !missing.empty(); ++part) {
            const auto gain = [&](const std::vector<Append>& history) {
                return typesIn(history, missing).size();
            };
            const auto best = std::ranges::max_element(histories, {}, gain);
            const int seed = int(best - histories.begin());
            const Types found = typesIn(*best, missing);
            if (found.empty())
                qFatal("no history has %s", qPrintable(*missing.begin()));
            std::vector<Append> history = *best;
            for (int length = steps - 5; length > 0; length -= 5) {
                std::vector<Append> shorter = told(seed + 1, length, seed == 0);
                if (typesIn(shorter, missing) != found)
                    break;
                history = std::move(shorter);
            }
            write(QStringLiteral("%1-%2.jsonl").arg(name).arg(part), history);
            for (const QString& type : found)
                missing.erase(type);
        }
    }

    static void write(const QString& path, const std::vector<Append>& history)
    {
        QVERIFY2(!QFile::exists(path), "a golden ledger is written once");
        TestDatabase database(StoreKind::Sqlite);
        StoreSettings settings = database.settings();
        settings.site = goldenSite;
        const auto store = Store::open(settings, keeperWith()).value();
        QCOMPARE(outcome(replay(history, store->ledger())), QStringLiteral("ok"));
        QFile file(path);
        QVERIFY(file.open(QIODevice::WriteOnly));
        file.write(textOf(*store));
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestGoldenLedger)
#include "tst_goldenledger.moc"
