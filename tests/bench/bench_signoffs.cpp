// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "bench/report.h"
#include "bench/yard.h"

#include <QElapsedTimer>
#include <QFile>
#include <QSqlDatabase>
#include <QSqlError>
#include <QSqlQuery>
#include <QSqlRecord>
#include <QTest>

#include <unistd.h>

using namespace ramplight;
using namespace ramplight::test;

namespace {

/// What one sign-off left in a table.
struct TableRows
{
    QString table;
    std::vector<QVariantList> rows;
};

/// Looks into the workshop's file beside the store, by keys only: to read all of it would leave the
/// processor's caches cold for what is measured next.
class Beside
{
public:
    explicit Beside(const QString& file)
    {
        m_database = QSqlDatabase::addDatabase(QStringLiteral("QSQLITE"), QStringLiteral("beside"));
        m_database.setDatabaseName(file);
        if (!m_database.open())
            qFatal("%s", qPrintable(m_database.lastError().text()));
        m_site = rows("site", "SELECT site FROM site", {}).rows.at(0).at(0);
    }

    /// Of the request that was carried out last.
    [[nodiscard]] std::vector<TableRows> rowsOf(const CarRequest& request)
    {
        std::vector<TableRows> found{
            rows("command", "SELECT * FROM command WHERE site = ? AND command = ?",
                 {m_site, request.id.text}),
            rows("ledger", "SELECT * FROM ledger WHERE position > ? AND command = ?",
                 {m_position, request.id.text}),
            rows("car", "SELECT * FROM car WHERE site = ? AND car = ?", {m_site, request.car.text}),
            rows("work_segment",
                 "SELECT * FROM work_segment WHERE site = ? AND car = ?"
                 " ORDER BY segment DESC LIMIT 1",
                 {m_site, request.car.text})};
        m_position = found.at(1).rows.back().at(0);
        return found;
    }

private:
    [[nodiscard]] TableRows rows(const char* table, const char* statement, const QVariantList& keys)
    {
        TableRows found{QString::fromLatin1(table), {}};
        QSqlQuery query(m_database);
        query.prepare(QString::fromLatin1(statement));
        for (const QVariant& key : keys)
            query.addBindValue(key);
        if (!query.exec())
            qFatal("%s", qPrintable(query.lastError().text()));
        while (query.next()) {
            QVariantList row;
            for (int i = 0; i < query.record().count(); ++i)
                row.append(query.value(i));
            found.rows.push_back(std::move(row));
        }
        return found;
    }

    QSqlDatabase m_database;
    QVariant m_site;
    QVariant m_position = 0; ///< in the ledger, of the last row that was read
};

/// The same rows into plain tables with primary keys only: no rule, no guard, no chain, no further
/// index. The same journal and the same care for the disk; statements prepared once.
class BareTables
{
public:
    explicit BareTables(const QString& file)
    {
        m_database = QSqlDatabase::addDatabase(QStringLiteral("QSQLITE"), QStringLiteral("bare"));
        m_database.setDatabaseName(file);
        if (!m_database.open())
            qFatal("%s", qPrintable(m_database.lastError().text()));
        for (const char* statement :
             {"PRAGMA journal_mode = WAL", "PRAGMA synchronous = FULL",
              "CREATE TABLE command (site TEXT, command TEXT, at INTEGER, actor INTEGER,"
              " entries INTEGER, PRIMARY KEY (site, command)) WITHOUT ROWID",
              "CREATE TABLE ledger (position INTEGER PRIMARY KEY, site TEXT, stream TEXT,"
              " seq INTEGER, at INTEGER, actor INTEGER, command TEXT, type TEXT, version INTEGER,"
              " body TEXT, prev_hash TEXT, hash TEXT, UNIQUE (site, stream, seq))",
              "CREATE TABLE car (site TEXT, car TEXT, seq INTEGER, rules_seq INTEGER,"
              " stock_number TEXT, stock_key TEXT, registration_key TEXT, status TEXT,"
              " on_wall INTEGER, gone INTEGER, bay INTEGER, promised TEXT, arrived_at INTEGER,"
              " last_at INTEGER, released_at INTEGER, card TEXT, PRIMARY KEY (site, car))",
              "CREATE TABLE work_segment (site TEXT, car TEXT, segment INTEGER,"
              " operation INTEGER, person INTEGER, start_at INTEGER, end_at INTEGER,"
              " PRIMARY KEY (site, car, segment)) WITHOUT ROWID"})
            exec(statement);
        for (const auto& [table, columns] :
             {std::pair{"command", 5}, {"ledger", 12}, {"car", 16}, {"work_segment", 7}}) {
            auto query = std::make_unique<QSqlQuery>(m_database);
            query->prepare(
                QStringLiteral("INSERT OR REPLACE INTO %1 VALUES (%2)")
                    .arg(QLatin1StringView(table),
                         QStringList(columns, QStringLiteral("?")).join(QLatin1Char(','))));
            m_inserts[QString::fromLatin1(table)] = std::move(query);
        }
    }

    void write(const std::vector<TableRows>& tables)
    {
        exec("BEGIN IMMEDIATE");
        for (const TableRows& table : tables) {
            QSqlQuery& query = *m_inserts.at(table.table);
            for (const QVariantList& row : table.rows) {
                for (int i = 0; i < row.size(); ++i)
                    query.bindValue(i, row.at(i));
                if (!query.exec())
                    qFatal("%s", qPrintable(query.lastError().text()));
                query.finish();
            }
        }
        exec("COMMIT");
    }

private:
    void exec(const char* statement)
    {
        QSqlQuery query(m_database);
        if (!query.exec(QString::fromLatin1(statement)))
            qFatal("%s", qPrintable(query.lastError().text()));
    }

    QSqlDatabase m_database;
    std::map<QString, std::unique_ptr<QSqlQuery>> m_inserts;
};

/// Milliseconds that the disk takes to keep one page, as a median.
double syncTime(const QString& path)
{
    QFile file(path);
    if (!file.open(QIODevice::WriteOnly | QIODevice::Unbuffered))
        qFatal("%s", qPrintable(file.errorString()));
    std::vector<double> times;
    const QByteArray page(4096, 'x');
    QElapsedTimer timer;
    for (int i = 0; i < 101; ++i) {
        file.write(page);
        timer.start();
        if (fdatasync(file.handle()) != 0)
            qFatal("the disk keeps nothing");
        times.push_back(double(timer.nsecsElapsed()) / 1e6);
    }
    return quantile(times, 0.5);
}

} // namespace

// Sign-offs per second through the workshop and its store, against the same rows into bare tables
// with as many syncs of the disk. They take turns, so that a busy disk is busy for both.
class BenchSignOffs : public QObject
{
    Q_OBJECT

public:
    // A bench takes as long as it takes.
    static void initMain() { qputenv("QTEST_FUNCTION_TIMEOUT", "3600000"); }

private slots:
    void signingOff()
    {
        constexpr int rounds = 60;
        constexpr int perRound = 20;
        Yard yard;
        QTemporaryDir folder;
        BareTables bare(folder.filePath(QStringLiteral("bare.sqlite")));
        Beside beside(yard.database());
        std::vector<double> ours;
        std::vector<double> bares;
        std::size_t rows = 0;
        QElapsedTimer timer;
        for (int round = 0; round < rounds; ++round) {
            qint64 spent = 0;
            qint64 bareSpent = 0;
            QString last;
            for (int asked = 0, signedOff = 0; signedOff < perRound; ++asked) {
                QVERIFY2(asked < 20 * perRound,
                         qPrintable("hardly anything can be signed: " + last));
                const CarRequest request = yard.nextSignOff();
                timer.start();
                const auto outcome = yard.workshop().run(request);
                const qint64 took = timer.nsecsElapsed();
                if (!outcome) {
                    last = words(outcome.error());
                    yard.refused(request);
                    continue;
                }
                yard.signedOff(*outcome);
                spent += took;
                ++signedOff;
                // Each comes after other work on the database, as at the wall.
                const std::vector<TableRows> left = beside.rowsOf(request);
                timer.start();
                bare.write(left);
                bareSpent += timer.nsecsElapsed();
                for (const TableRows& table : left)
                    rows += table.rows.size();
            }
            ours.push_back(perRound * 1e9 / double(spent));
            bares.push_back(perRound * 1e9 / double(bareSpent));
        }
        qInfo("this disk keeps a page in %.2f ms",
              syncTime(folder.filePath(QStringLiteral("page"))));
        qInfo("%d sign-offs, %.1f rows each", rounds * perRound,
              double(rows) / (rounds * perRound));
        tell(QStringLiteral("signing off"), quantile(ours, 0.5), quantile(bares, 0.5),
             QStringLiteral("per s"), Aim::AtLeast, 0.7);
    }
};

QTEST_MAIN(BenchSignOffs)
#include "bench_signoffs.moc"
