// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
//
// One PostgreSQL server with many sites: how much the wall's query, an append and a car's history
// cost as the ledger grows, and how large it gets. The server is the bench's own, on the disk that
// TMPDIR names, and waits for it as the real one does.
//
//   server [MILLIONS...]     entries to fill it with, rising; 1 5 when none is given
//
// One site is written by the program; the others are the same rows under other names, made inside
// the server with its guards off, since their chains are not what is measured.
#include "bench/report.h"
#include "faults/ownserver.h"
#include "storage/storagebench.h"

#include <QCoreApplication>
#include <QElapsedTimer>
#include <QSqlError>
#include <QSqlQuery>
#include <QTextStream>
#include <QThread>

#include <spdlog/spdlog.h>

#include <thread>

using namespace ramplight;
using namespace ramplight::test;

namespace {

constexpr int carsOnWall = 200;
constexpr int carsReleased = 100;
constexpr int kiosks = 4;

QTextStream& out()
{
    static QTextStream stream(stdout);
    return stream;
}

QString siteName(int number)
{
    return QStringLiteral("site-%1").arg(number, 5, 10, QLatin1Char('0'));
}

/// A site as it stands after some weeks: its wall full, and some cars sold.
std::vector<Append> storyOfASite()
{
    Workbench bench;
    for (int i = 0; i < carsReleased; ++i) {
        const CarId car = bench.appraised();
        bench.found(car, "steering", Condition::Loose);
        bench.found(car, "tyre-front-left", Condition::Cut);
        bench.release(car);
        bench.clock.pass(30);
    }
    for (int i = 0; i < carsOnWall; ++i) {
        const CarId car = bench.appraised();
        bench.found(car, "brakes-front", Condition::Worn);
        bench.found(car, "wheel-rear-left", Condition::Kerbed);
    }
    return bench.ledger.accepted();
}

/// Behind the program's back, as the server's keeper.
class Keeper
{
public:
    explicit Keeper(const StoreSettings& settings)
        : m_connection(Connection::open(settings).value())
    {
    }

    void tell(const QString& statement)
    {
        if (auto done = m_connection->plain(statement); !done)
            qFatal("%s: %s", qPrintable(statement), qPrintable(done.error().text));
    }
    [[nodiscard]] qint64 ask(const QString& question)
    {
        QSqlQuery query(m_connection->database());
        if (!query.exec(question) || !query.next())
            qFatal("%s", qPrintable(query.lastError().text()));
        return query.value(0).toLongLong();
    }

private:
    std::unique_ptr<Connection> m_connection;
};

/// Copies of the first site until there are so many entries; answers the number of sites.
int fill(Keeper& keeper, int sitesBefore, qint64 entries)
{
    const qint64 ofOne = keeper.ask(
        QStringLiteral("SELECT count(*) FROM ledger WHERE site = '%1'").arg(siteName(1)));
    const int sites = static_cast<int>(entries / ofOne) + 1;
    if (sites <= sitesBefore)
        return sitesBefore;
    const QString names = QStringLiteral("(SELECT 'site-' || lpad(n::text, 5, '0') AS name"
                                         " FROM generate_series(%1, %2) n) sites")
                              .arg(sitesBefore + 1)
                              .arg(sites);
    const QString from = QStringLiteral(" FROM %1 CROSS JOIN %2 WHERE %1.site = '%3'");
    // Entries of all sites are sorted into each other, a million and more at a time.
    keeper.tell(QStringLiteral("SET work_mem = '512MB'"));
    // As a replica takes rows over: no guard, no foreign key.
    keeper.tell(QStringLiteral("SET session_replication_role = replica"));
    keeper.tell(QStringLiteral("INSERT INTO site SELECT name, 0 FROM ") + names);
    const auto copy = [&](const char* table, const char* columns, const char* order) {
        const QString of = QStringLiteral("%1.").arg(QLatin1StringView(table));
        QStringList own;
        for (const QString& column : QString::fromLatin1(columns).split(QStringLiteral(", ")))
            own.append(of + column);
        keeper.tell(QStringLiteral("INSERT INTO %1 (site, %2) SELECT sites.name, %3")
                        .arg(QLatin1StringView(table), QLatin1StringView(columns),
                             own.join(QStringLiteral(", "))) +
                    from.arg(QLatin1StringView(table), names, siteName(1)) +
                    QLatin1StringView(order));
    };
    copy("command", "command, at, actor, entries", "");
    // Entries of all sites lie among each other, as they come.
    copy("ledger", "stream, seq, at, actor, command, type, version, body, prev_hash, hash",
         " ORDER BY position, sites.name");
    copy("car",
         "car, seq, rules_seq, stock_number, stock_key, registration_key, status, on_wall, gone, "
         "bay, promised, arrived_at, last_at, released_at, card",
         " ORDER BY last_at, sites.name");
    copy("work_segment", "car, segment, operation, person, start_at, end_at", "");
    copy("photo_use", "photo, car", "");
    copy("person_name", "person, name", "");
    keeper.tell(QStringLiteral("SET session_replication_role = origin"));
    keeper.tell(QStringLiteral("ANALYZE"));
    keeper.tell(QStringLiteral("CHECKPOINT"));
    return sites;
}

StoreSettings of(const OwnServer& server, int site)
{
    StoreSettings settings = server.settings();
    settings.site = {siteName(site)};
    return settings;
}

/// The smallest command again and again: milliseconds of each.
std::vector<double> appends(const StoreSettings& settings, int count)
{
    const StillClock clock;
    const Catalogue catalogue = smallCatalogue();
    const auto store = Store::open(settings, keeperWith()).value();
    Workshop workshop(store->ledger(), clock, catalogue);
    const auto wall = store->wall().wall().value();
    std::vector<double> times;
    static std::atomic<int> commands = 0;
    for (int i = 0; i < count; ++i) {
        const CarRequest request{
            {QStringLiteral("bench-%1").arg(++commands)},
            PersonId{1},
            wall[static_cast<std::size_t>(i) % wall.size()].car,
            {car::ChangePromise{QDate(2031, 1, 1).addDays(commands % 300), {}}},
            false};
        QElapsedTimer timer;
        timer.start();
        if (const auto done = workshop.run(request); !done)
            qFatal("%s", qPrintable(words(done.error())));
        times.push_back(static_cast<double>(timer.nsecsElapsed()) / 1e6);
    }
    return times;
}

/// Per second, of several sites' kiosks at once.
double appendsAtOnce(const OwnServer& server, int count)
{
    QElapsedTimer timer;
    timer.start();
    std::vector<std::thread> all;
    for (int site = 1; site <= kiosks; ++site)
        all.emplace_back([&, site] { (void)appends(of(server, site), count); });
    for (std::thread& one : all)
        one.join();
    return kiosks * count * 1000.0 / static_cast<double>(timer.elapsed());
}

void measure(const OwnServer& server, Keeper& keeper, int sites)
{
    std::vector<double> wall;
    std::vector<double> history;
    {
        const auto store = Store::open(of(server, 1), keeperWith()).value();
        for (int i = 0; i < 60; ++i) {
            QElapsedTimer timer;
            timer.start();
            if (store->wall().wall().value().size() != std::size_t{carsOnWall})
                qFatal("the wall does not have its cars");
            wall.push_back(static_cast<double>(timer.nsecsElapsed()) / 1e6);
            timer.start();
            if (store->ledger().history(CarId{QStringLiteral("car-%1").arg(i + 1)})->empty())
                qFatal("a car has no history");
            history.push_back(static_cast<double>(timer.nsecsElapsed()) / 1e6);
        }
    }
    const std::vector<double> alone = appends(of(server, 1), 300);
    double sum = 0;
    for (const double time : alone)
        sum += time;
    const double together = appendsAtOnce(server, 300);
    const auto size = [&](const char* table) {
        return static_cast<double>(keeper.ask(QStringLiteral("SELECT pg_total_relation_size('%1')")
                                                  .arg(QLatin1StringView(table)))) /
               (1 << 20);
    };
    const qint64 entries = keeper.ask(QStringLiteral("SELECT count(*) FROM ledger"));
    const double all =
        static_cast<double>(keeper.ask(QStringLiteral("SELECT pg_database_size('workshop')"))) /
        (1 << 20);
    out() << QStringLiteral("| %1 | %2 | %3 | %4 | %5 | %6 | %7 | %8 | %9 | %10 |\n")
                 .arg(entries)
                 .arg(sites)
                 .arg(quantile(wall, 0.5), 0, 'f', 2)
                 .arg(quantile(wall, 0.95), 0, 'f', 2)
                 .arg(quantile(history, 0.5), 0, 'f', 2)
                 .arg(1000.0 * static_cast<double>(alone.size()) / sum, 0, 'f', 0)
                 .arg(together, 0, 'f', 0)
                 .arg(all, 0, 'f', 0)
                 .arg(size("ledger"), 0, 'f', 0)
                 .arg(all * (1 << 20) / static_cast<double>(entries), 0, 'f', 0);
    out().flush();
}

} // namespace

int main(int argc, char** argv)
{
    const QCoreApplication application(argc, argv);
    spdlog::set_level(spdlog::level::off);
    if (!OwnServer::canBeStarted())
        qFatal("no PostgreSQL 15 here");
    std::vector<double> millions;
    for (const QString& argument : QCoreApplication::arguments().mid(1))
        millions.push_back(argument.toDouble());
    if (millions.empty())
        millions = {1, 5};

    OwnServer server(OwnServer::Care::Disk);
    const std::vector<Append> story = storyOfASite();
    for (int site = 1; site <= kiosks; ++site)
        if (!replay(story, Store::open(of(server, site), keeperWith()).value()->ledger()))
            qFatal("a site cannot be written");
    Keeper keeper(of(server, 1));
    out()
        << "| entries | sites | wall ms, median | 95 % | a car's history ms | appends/s, one kiosk"
           " | four sites at once | MB | of it the ledger | bytes an entry |\n"
           "|---|---|---|---|---|---|---|---|---|---|\n";
    measure(server, keeper, kiosks);
    int sites = kiosks;
    for (const double wanted : millions) {
        QElapsedTimer timer;
        timer.start();
        sites = fill(keeper, sites, static_cast<qint64>(wanted * 1e6));
        const double seconds = static_cast<double>(timer.elapsed()) / 1000;
        measure(server, keeper, sites);
        QTextStream(stderr) << QStringLiteral("filled in %1 s\n").arg(seconds, 0, 'f', 0);
    }
    return 0;
}
