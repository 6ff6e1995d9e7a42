// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "flipbench.h"

#include <QFile>
#include <QSqlDatabase>
#include <QSqlError>
#include <QSqlQuery>
#include <QSqlRecord>
#include <QVariant>

#include <algorithm>
#include <functional>
#include <map>

namespace ramplight::test {

namespace {

/// What may change without a word, and why.
const std::map<QString, const char*> withoutEffect{
    {"site.made_at", "it is for whoever reads the file; no rule asks for it"},
    {"schema_version.name", "it is for whoever reads the file"},
    {"schema_version.applied_at", "it is for whoever reads the file"},
    {"schema_version.version of the first", "how many there are, and the last one's, decide"},
    {"setting of who filled the read tables",
     "where it is not there they are filled, and it is written, when the house is opened"},
    {"site_move.number", "of a site that is here: that it is not is found"},
    {"site_move.at", "it is for whoever reads where it went"},
    {"site_move.place", "it is for whoever reads where it went"},
    {"photo_bytes.kept_at", "only what no car needs is ever removed by it"},
    {"photo_bytes of a thumbnail", "it is made anew from the photo where it is no whole picture, "
                                   "and what counts is the photo itself"},
};

/// The name under which a value is compared.
QString nameOf(const QString& table, const QSqlQuery& row, int column)
{
    const QString name = table + QLatin1Char('.') + row.record().fieldName(column);
    if (table == QLatin1StringView("photo_bytes") &&
        row.value(QStringLiteral("form")).toString() != QLatin1StringView("full"))
        return QStringLiteral("photo_bytes of a thumbnail");
    if (table == QLatin1StringView("setting") &&
        row.value(QStringLiteral("name")).toString() == QLatin1StringView("read-tables-version"))
        return QStringLiteral("setting of who filled the read tables");
    // In their order: the first of them only.
    if (name == QLatin1StringView("schema_version.version") && row.at() == 0)
        return QStringLiteral("schema_version.version of the first");
    return name;
}

/// Reads a file with no program of ours in between. False: it cannot be opened.
bool with(const QString& file, const std::function<bool(QSqlQuery&)>& read)
{
    static const QString name = QStringLiteral("behind the program's back");
    bool done = false;
    {
        QSqlDatabase database = QSqlDatabase::addDatabase(QStringLiteral("QSQLITE"), name);
        database.setDatabaseName(file);
        QSqlQuery query(database);
        done = database.open() && read(query);
    }
    QSqlDatabase::removeDatabase(name);
    return done;
}

/// A database's file as its format describes it (sqlite.org/fileformat2.html).
class Pages
{
public:
    explicit Pages(const QByteArray& bytes)
        : m_bytes(bytes)
        , m_size(number(16, 2) == 1 ? 65'536 : number(16, 2))
    {
    }

    void collect(qint64 page, std::vector<RowPlace>& rows) const
    {
        const qint64 start = (page - 1) * m_size;
        const qint64 header = start + (page == 1 ? 100 : 0);
        const int type = static_cast<int>(number(header, 1));
        const bool isInner = type == InnerTable || type == InnerIndex;
        const qint64 cells = number(header + 3, 2);
        for (qint64 i = 0; i < cells; ++i) {
            qint64 at = start + number(header + (isInner ? 12 : 8) + 2 * i, 2);
            if (isInner) {
                collect(number(at, 4), rows);
                at += 4;
            }
            if (type == InnerTable)
                continue;
            const qint64 length = varint(at);
            if (type == LeafTable)
                varint(at);
            rows.push_back({at, here(length, type)});
        }
        if (isInner)
            collect(number(header + 8, 4), rows);
    }

private:
    enum Type { InnerIndex = 2, InnerTable = 5, LeafTable = 13 };

    [[nodiscard]] qint64 number(qint64 at, int bytes) const
    {
        qint64 value = 0;
        for (int i = 0; i < bytes; ++i)
            value = value * 256 + static_cast<quint8>(m_bytes.at(at + i));
        return value;
    }
    /// Moves behind it.
    qint64 varint(qint64& at) const
    {
        qint64 value = 0;
        for (int i = 0; i < 8; ++i) {
            const auto byte = static_cast<quint8>(m_bytes.at(at++));
            value = value * 128 + (byte & 0x7f);
            if (byte < 0x80)
                return value;
        }
        return value * 256 + static_cast<quint8>(m_bytes.at(at++));
    }
    /// So much of a long row is not on pages of its own.
    [[nodiscard]] qint64 here(qint64 length, int type) const
    {
        const qint64 most = type == LeafTable ? m_size - 35 : (m_size - 12) * 64 / 255 - 23;
        if (length <= most)
            return length;
        const qint64 least = (m_size - 12) * 32 / 255 - 23;
        const qint64 rest = least + (length - least) % (m_size - 4);
        return rest <= most ? rest : least;
    }

    const QByteArray& m_bytes;
    qint64 m_size;
};

} // namespace

QStringList tablesOf(const QString& file)
{
    QStringList tables;
    with(file, [&](QSqlQuery& query) {
        if (!query.exec(
                QStringLiteral("SELECT name FROM sqlite_master WHERE type = 'table'"
                               " AND name NOT LIKE 'sqlite\\_%' ESCAPE '\\' ORDER BY name")))
            return false;
        while (query.next())
            tables.append(query.value(0).toString());
        return true;
    });
    return tables;
}

Content contentOf(const QString& file)
{
    Content content;
    const QStringList tables = tablesOf(file);
    const bool isRead = with(file, [&](QSqlQuery& query) {
        for (const QString& table : tables) {
            if (!query.exec(QStringLiteral("SELECT * FROM %1 ORDER BY 1, 2").arg(table)))
                return false;
            while (query.next())
                for (int i = 0; i < query.record().count(); ++i)
                    content[nameOf(table, query, i)].append(query.value(i).toByteArray());
            if (query.lastError().isValid())
                return false;
        }
        return true;
    });
    return isRead ? content : Content();
}

QString firstDifference(const Content& was, const Content& is)
{
    QStringList columns;
    for (const QString& column : was.keys() + is.keys())
        if (was.value(column) != is.value(column) && !columns.contains(column) &&
            !withoutEffect.contains(column))
            columns.append(column);
    if (columns.isEmpty())
        return {};
    const QByteArrayList& before = was.value(columns.front());
    const QByteArrayList& now = is.value(columns.front());
    for (qsizetype row = 0; row < std::max(before.size(), now.size()); ++row)
        if (before.value(row) != now.value(row))
            return QStringLiteral("%1 was: %2; is: %3")
                .arg(columns.join(QStringLiteral(", ")),
                     QString::fromLatin1(before.value(row).left(80).toPercentEncoding()),
                     QString::fromLatin1(now.value(row).left(80).toPercentEncoding()));
    return columns.front();
}

std::vector<RowPlace> rowsOf(const QString& file, const QByteArray& bytes, const QString& table)
{
    qint64 first = 0;
    with(file, [&](QSqlQuery& query) {
        query.prepare(QStringLiteral("SELECT rootpage FROM sqlite_master WHERE name = ?"));
        query.addBindValue(table);
        if (query.exec() && query.next())
            first = query.value(0).toLongLong();
        return first > 0;
    });
    std::vector<RowPlace> rows;
    if (first > 0)
        Pages(bytes).collect(first, rows);
    return rows;
}

QByteArray withBitTurned(QByteArray bytes, qint64 bit)
{
    bytes[bit / 8] = static_cast<char>(bytes[bit / 8] ^ (1 << (bit % 8)));
    return bytes;
}

bool putDatabase(const QString& path, const QByteArray& bytes)
{
    for (const char* beside : {"-wal", "-shm"})
        QFile::remove(path + QLatin1StringView(beside));
    QFile file(path);
    return file.open(QIODevice::WriteOnly | QIODevice::Truncate) &&
           file.write(bytes) == bytes.size();
}

} // namespace ramplight::test
