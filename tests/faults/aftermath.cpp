// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "faults/aftermath.h"

#include "cli/house.h"
#include "cli/program.h"

#include <QElapsedTimer>
#include <QSqlDatabase>
#include <QSqlQuery>
#include <QSqlRecord>

#include <algorithm>
#include <set>

namespace ramplight::test {

namespace {

QStringList rowsOf(const QString& file, const QString& statement)
{
    static int opened = 0;
    const QString name = QStringLiteral("aftermath-%1").arg(++opened);
    QStringList rows;
    {
        QSqlDatabase database = QSqlDatabase::addDatabase(QStringLiteral("QSQLITE"), name);
        database.setDatabaseName(file);
        QSqlQuery query(database);
        if (database.open() && query.exec(statement))
            while (query.next()) {
                QStringList columns;
                for (int i = 0; i < query.record().count(); ++i)
                    columns.append(query.value(i).toString());
                rows.append(columns.join(QLatin1Char('|')));
            }
    }
    QSqlDatabase::removeDatabase(name);
    return rows;
}

QString readTables(const QString& file)
{
    QString text;
    for (const char* table : {"car", "work_segment", "photo_use"})
        text +=
            rowsOf(
                file,
                QStringLiteral("SELECT * FROM %1 ORDER BY 1, 2, 3").arg(QLatin1StringView(table)))
                .join(QLatin1Char('\n'));
    return text;
}

qint64 slowest = 0;

struct Signed
{
    Acknowledged asked;
    Shown shown;
};

/// Every signature on every car, as often as it stands there.
tl::expected<std::vector<Signed>, QString> signaturesIn(const HousePaths& paths)
{
    const SystemClock clock;
    QElapsedTimer timer;
    timer.start();
    const auto house = OpenHouse::open(paths, clock, false);
    slowest = std::max(slowest, timer.elapsed());
    if (!house)
        return tl::unexpected(house.error());
    const QStringList cars = rowsOf(
        paths.database(),
        QStringLiteral("SELECT DISTINCT substr(stream, 5) FROM ledger WHERE stream LIKE 'car/%'"));
    std::vector<Signed> found;
    for (const QString& car : cars) {
        const auto history = (*house)->store().ledger().history(CarId{car});
        if (!history)
            return tl::unexpected(history.error().words);
        for (const CarEnvelope& envelope : *history)
            if (const auto* sign = std::get_if<OperationSigned>(&envelope.event))
                found.push_back({{car, sign->operation.value, envelope.command.text},
                                 {car, sign->operation.value, envelope.by.value, envelope.at.ms}});
    }
    return found;
}

} // namespace

qint64 slowestOpening()
{
    return slowest;
}

std::vector<Acknowledged> acknowledgedIn(const QByteArray& output)
{
    std::vector<Acknowledged> all;
    QList<QByteArray> lines = output.split('\n');
    lines.removeLast();
    for (const QByteArray& line : lines) {
        const QList<QByteArray> words = line.split(' ');
        if (words.size() == 4 && words.front() == "signed")
            all.push_back({QString::fromUtf8(words.at(1)), words.at(2).toInt(),
                           QString::fromUtf8(words.at(3))});
    }
    return all;
}

QStringList aftermath(const QString& home, const std::vector<Acknowledged>& acknowledged)
{
    const HousePaths paths(home);
    QStringList faults;
    const auto kept = signaturesIn(paths);
    if (!kept)
        return {kept.error()};
    for (const Acknowledged& one : acknowledged)
        if (const auto times = std::ranges::count(*kept, one, &Signed::asked); times != 1)
            faults.append(QStringLiteral("%1, operation %2, %3: %4 times in the ledger")
                              .arg(one.car)
                              .arg(one.operation)
                              .arg(one.command)
                              .arg(times));
    // What was kept and not acknowledged any more can only be the very last command.
    std::set<QString> unheard;
    for (const Signed& one : *kept)
        if (std::ranges::find(acknowledged, one.asked) == acknowledged.end())
            unheard.insert(one.asked.command);
    if (unheard.size() > 1)
        faults.append(QStringLiteral("%1 commands were kept without a word").arg(unheard.size()));
    return faults + wholeAfterKill(home);
}

ToldTour toldTourIn(const QByteArray& output)
{
    ToldTour told;
    QList<QByteArray> lines = output.split('\n');
    lines.removeLast();
    for (const QByteArray& line : lines) {
        const QList<QByteArray> words = line.split(' ');
        if (words.size() == 2 && words.front() == "from" && !told.from)
            told.from = words.at(1).toLongLong();
        if (words.size() == 5 && words.front() == "signed")
            told.shown.push_back({QString::fromUtf8(words.at(1)), words.at(2).toInt(),
                                  words.at(3).toInt(), words.at(4).toLongLong()});
    }
    return told;
}

QStringList signaturesAgainst(const QString& home, const ToldTour& told)
{
    const auto kept = signaturesIn(HousePaths(home));
    if (!kept)
        return {kept.error()};
    QStringList faults;
    for (const Shown& one : told.shown)
        if (const auto times = std::ranges::count(*kept, one, &Signed::shown); times != 1)
            faults.append(QStringLiteral("%1, operation %2, by %3: %4 times in the ledger")
                              .arg(one.car)
                              .arg(one.operation)
                              .arg(one.by)
                              .arg(times));
    // The demo's week before it nobody told. Of the tour only the very last may not be told.
    const auto unheard = std::ranges::count_if(*kept, [&](const Signed& one) {
        return one.shown.at > told.from.value_or(0) &&
               std::ranges::find(told.shown, one.shown) == told.shown.end();
    });
    if (unheard > 1)
        faults.append(QStringLiteral("%1 signatures were kept without a word").arg(unheard));
    return faults;
}

QStringList aftermathOfTour(const QString& home, const ToldTour& told)
{
    return signaturesAgainst(home, told) + wholeAfterKill(home);
}

QStringList rowsIn(const QString& home, const QString& statement)
{
    return rowsOf(HousePaths(home).database(), statement);
}

QStringList wholeAfterKill(const QString& home)
{
    const QString file = HousePaths(home).database();
    QStringList faults;
    if (const Ran ran = runProgram(home, {QStringLiteral("verify")}); ran.code != 0)
        faults.append(
            QStringLiteral("verify: exit code %1, %2%3").arg(ran.code).arg(ran.out, ran.err));
    const QString before = readTables(file);
    if (const Ran ran = runProgram(home, {QStringLiteral("rebuild")}); ran.code != 0)
        faults.append(QStringLiteral("rebuild: exit code %1, %2").arg(ran.code).arg(ran.err));
    if (before.isEmpty() || readTables(file) != before)
        faults.append(QStringLiteral("the read tables are not those of a rebuild"));
    return faults;
}

} // namespace ramplight::test
