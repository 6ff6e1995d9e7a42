// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storagebench.h"
#include "support/testmain.h"

#include <QTest>

#include <map>

using namespace ramplight;
using namespace ramplight::test;

namespace {

const auto carColumns =
    QStringLiteral("site, car, seq, rules_seq, stock_number, stock_key, registration_key, status,"
                   " on_wall, gone, bay, promised, arrived_at, last_at, released_at, card");

/// Another car like those that fit; bay and number as they are said.
QString addCar(const char* bay, const char* number, const char* like, const char* site = "site")
{
    return QStringLiteral("INSERT INTO car (%1) SELECT %5, 'raw', seq, rules_seq, %3, stock_key,"
                          " registration_key, status, on_wall, gone, %2, promised, arrived_at,"
                          " last_at, released_at, card FROM car WHERE %4")
        .arg(carColumns, QLatin1StringView(bay), QLatin1StringView(number), QLatin1StringView(like),
             QLatin1StringView(site));
}

/// Another stretch of whoever's timer runs.
QString addStretch(const char* endAt, const char* site = "site")
{
    return QStringLiteral("INSERT INTO work_segment"
                          " (site, car, segment, operation, person, start_at, end_at)"
                          " SELECT %2, 'raw', 1, operation, person, start_at + 1, %1"
                          " FROM work_segment WHERE end_at IS NULL")
        .arg(QLatin1StringView(endAt), QLatin1StringView(site));
}

QString addBadge(const char* code, int person, const char* site = "site")
{
    return QStringLiteral("INSERT INTO badge (site, code, person) SELECT %3, '%1', %2 FROM badge"
                          " WHERE code = '7F3A'")
        .arg(QLatin1StringView(code))
        .arg(person)
        .arg(QLatin1StringView(site));
}

/// By what a database says which of its rules was broken.
struct BrokenRule
{
    const char* sqlite;
    const char* postgres;
};

constexpr BrokenRule oneBay{"car.site, car.bay", "one_car_per_bay"};
constexpr BrokenRule oneNumber{"car.site, car.stock_number", "one_car_per_stock_number"};
constexpr BrokenRule oneTimer{"work_segment.site, work_segment.person",
                              "one_running_segment_per_person"};
constexpr BrokenRule oneBadge{"badge.site, badge.code", "badge_pkey"};
constexpr BrokenRule inOrder{"", ""};

} // namespace

// What there may be one of only is held by the database itself, whoever writes to it: statements of
// somebody who goes past the program, each with a near one that is in order.
class TestUniqueness : public QObject
{
    Q_OBJECT

private slots:
    void cleanupTestCase() { m_databases.clear(); }

    void secondOfAKind_isRefused_data()
    {
        QTest::addColumn<StoreKind>("kind");
        QTest::addColumn<QString>("statement");
        QTest::addColumn<QString>("words");
        forEachKind([](const char* prefix, StoreKind kind) {
            const auto row = [&](const char* name, const QString& statement,
                                 const BrokenRule& words) {
                QTest::addRow("%s: %s", prefix, name)
                    << kind << statement
                    << QString::fromLatin1(kind == StoreKind::Sqlite ? words.sqlite
                                                                     : words.postgres);
            };
            const auto update = [](const char* text) { return QString::fromLatin1(text); };
            row("a car into a bay that is taken", addCar("bay", "'RAW-1'", "bay <> 0"), oneBay);
            row("a car moved into one",
                update("UPDATE car SET bay = (SELECT max(bay) FROM car)"
                       " WHERE car = (SELECT min(car) FROM car WHERE bay = 0 AND on_wall = 1)"),
                oneBay);
            row("a car into a free bay", addCar("bay + 1", "'RAW-1'", "bay <> 0"), inOrder);
            row("a car into no bay", addCar("0", "'RAW-1'", "bay <> 0"), inOrder);
            row("a car into that bay of another site",
                addCar("bay", "'RAW-1'", "bay <> 0", "'elsewhere'"), inOrder);

            row("a stock number that a car on the wall has",
                addCar("0", "stock_number", "bay <> 0"), oneNumber);
            row("a car given such a number",
                update("UPDATE car SET stock_number ="
                       " (SELECT stock_number FROM car WHERE bay <> 0)"
                       " WHERE car = (SELECT min(car) FROM car WHERE bay = 0 AND on_wall = 1)"),
                oneNumber);
            row("a car back whose number was given again",
                addCar("0", "(SELECT min(stock_number) FROM car WHERE gone = 1)", "bay <> 0") +
                    update(";UPDATE car SET gone = 0 WHERE gone = 1"),
                oneNumber);
            row("a number of a car that left",
                addCar("0", "(SELECT min(stock_number) FROM car WHERE gone = 1)", "bay <> 0"),
                inOrder);
            row("a number of another site's car",
                addCar("0", "stock_number", "bay <> 0", "'elsewhere'"), inOrder);

            row("a second timer of a person", addStretch("NULL"), oneTimer);
            row("an ended stretch that runs again",
                addStretch("start_at + 2") +
                    update(";UPDATE work_segment SET end_at = NULL WHERE car = 'raw'"),
                oneTimer);
            row("a running timer of somebody else made theirs",
                addStretch("start_at + 2") +
                    update(";UPDATE work_segment SET end_at = NULL, person = 99"
                           " WHERE car = 'raw'"
                           ";UPDATE work_segment SET person = (SELECT min(person) FROM work_segment"
                           " WHERE end_at IS NULL AND person <> 99) WHERE person = 99"),
                oneTimer);
            row("a second stretch that has ended", addStretch("start_at + 2"), inOrder);
            row("a timer at another site", addStretch("NULL", "'elsewhere'"), inOrder);

            row("a badge that somebody has", addBadge("7F3A", 2), oneBadge);
            row("a badge changed into one", update("UPDATE badge SET code = '7F3A'"), oneBadge);
            row("another badge", addBadge("7F3B", 2), inOrder);
            row("that badge at another site", addBadge("7F3A", 2, "'elsewhere'"), inOrder);
        });
    }

    void secondOfAKind_isRefused()
    {
        QFETCH(StoreKind, kind);
        QFETCH(QString, statement);
        QFETCH(QString, words);
        TestDatabase& database = filled(kind);
        QCOMPARE(database.sql(QStringLiteral("BEGIN")), QString());
        QString said;
        const QStringList parts = statement.split(QLatin1Char(';'));
        for (qsizetype i = 0; i < parts.size(); ++i) {
            // Only the last one may be refused.
            QCOMPARE(said, QString());
            said = database.sql(parts.at(i));
        }
        const bool changed = said.isEmpty() && rowsOf(database) != m_rows[kind];
        QCOMPARE(database.sql(QStringLiteral("ROLLBACK")), QString());
        QCOMPARE(rowsOf(database), m_rows[kind]);
        if (words.isEmpty()) {
            QCOMPARE(said, QString());
            QVERIFY(changed);
        } else {
            QVERIFY2(said.contains(words), qPrintable(said));
        }
    }

private:
    /// A workshop with a car in a bay and a timer on it, cars on the wall, one that left, two
    /// badges.
    TestDatabase& filled(StoreKind kind)
    {
        std::unique_ptr<TestDatabase>& database = m_databases[kind];
        if (database)
            return *database;
        database = std::make_unique<TestDatabase>(kind);
        Workbench bench;
        tellStory(bench);
        const auto store = database->open();
        if (!replay(bench.ledger.accepted(), store->ledger()) ||
            !store->credentials().setBadge(bench.mechanic, QStringLiteral("7F3A")) ||
            !store->credentials().setBadge(bench.painter, QStringLiteral("0042")))
            qFatal("the story cannot be told");
        m_rows[kind] = rowsOf(*database);
        return *database;
    }

    static QString rowsOf(TestDatabase& database)
    {
        return database.dump(QStringLiteral("SELECT * FROM car ORDER BY site, car")) +
               database.dump(QStringLiteral("SELECT * FROM work_segment"
                                            " ORDER BY site, car, segment")) +
               database.dump(QStringLiteral("SELECT * FROM badge ORDER BY site, code"));
    }

    std::map<StoreKind, std::unique_ptr<TestDatabase>> m_databases;
    std::map<StoreKind, QString> m_rows;
};

RAMPLIGHT_TEST(QCoreApplication, TestUniqueness)
#include "tst_uniqueness.moc"
