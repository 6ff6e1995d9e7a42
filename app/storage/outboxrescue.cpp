// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/outboxrescue.h"

#include "evidence/durablefile.h"
#include "log/log.h"
#include "storage/privatefile.h"

#include <QDir>
#include <QFile>
#include <QFileInfo>

#include <array>
#include <map>
#include <optional>
#include <utility>

namespace ramplight {

namespace {

constexpr QLatin1StringView suffix(".sqlite");
/// What SQLite lays beside a database.
constexpr std::array besideDatabase{"-wal", "-shm"};

struct ReadOut
{
    std::vector<OutboxRow> rows;
    int lost = 0;             ///< it has a number, and no more of it can be read
    bool perhapsMore = false; ///< no list of the numbers could be read to its end
};

/// "outbox.sqlite" -> "outbox.new.sqlite"
QString variantOf(const QString& file, const QString& what)
{
    return file.chopped(suffix.size()) + QLatin1Char('.') + what + suffix;
}

QString freshNameOf(const QString& file)
{
    return variantOf(file, QStringLiteral("new"));
}

tl::unexpected<StoreError> cannotRescue(const QString& file)
{
    return tl::unexpected(
        StoreError{StoreErrorKind::Unavailable,
                   QStringLiteral("%1 is damaged, and no other can be begun beside it. It was left "
                                  "as it is; check folder and disk, and start again.")
                       .arg(file)});
}

/// Notes each number with what the list says of it. Whether the list could be read to its end.
bool listNumbers(Connection& connection, const char* sql, std::map<qint64, QString>& numbers)
{
    auto rows = connection.run(sql);
    if (!rows)
        return false;
    while (rows->next())
        numbers.try_emplace(rows->number(0), rows->text(1));
    return !rows->brokeOff();
}

/// By its number, so that one page that cannot be read hides none of the others.
std::optional<OutboxRow> rowAt(Connection& connection, qint64 number)
{
    for (const char* sql : {"SELECT number, site, command, at, request, works, refusal, refused_at,"
                            " seen_by, seen_at, seal FROM kept NOT INDEXED WHERE number = ?",
                            // Of the time before the seals: it can be shown.
                            "SELECT number, site, command, at, request, works, refusal, refused_at,"
                            " seen_by, seen_at, '' FROM kept NOT INDEXED WHERE number = ?"}) {
        auto rows = connection.run(sql, {number});
        if (rows && rows->next())
            return outboxRowOf(*rows);
    }
    return {};
}

/// copy: of the damaged file; it is written to as SQLite does with any file that it opens.
ReadOut readOutOf(const QString& copy)
{
    StoreSettings settings;
    settings.file = copy;
    const auto connection = Connection::open(settings);
    if (!connection) {
        log::error(QStringLiteral("outbox: %1").arg(connection.error().words));
        return {{}, 0, true};
    }
    // The table and the index each know all of them; a list that breaks off is begun at its end.
    std::map<qint64, QString> numbers;
    bool isAll = false;
    for (const char* list : {"SELECT number, command FROM kept INDEXED BY sqlite_autoindex_kept_1"
                             " ORDER BY site, command",
                             "SELECT number, command FROM kept INDEXED BY sqlite_autoindex_kept_1"
                             " ORDER BY site DESC, command DESC",
                             "SELECT number, command FROM kept NOT INDEXED ORDER BY number",
                             "SELECT number, command FROM kept NOT INDEXED ORDER BY number DESC"})
        isAll = listNumbers(**connection, list, numbers) || isAll;
    ReadOut out;
    out.perhapsMore = !isAll;
    for (const auto& [number, command] : numbers) {
        if (auto row = rowAt(**connection, number)) {
            out.rows.push_back(std::move(*row));
        } else {
            log::error(
                QStringLiteral("outbox: request %1 (%2) cannot be read").arg(number).arg(command));
            ++out.lost;
        }
    }
    return out;
}

/// With its log, without which it would lack what was written last.
bool copyDatabase(const QString& from, const QString& to)
{
    removeDatabase(to);
    const QString log = from + QLatin1StringView(besideDatabase.front());
    return (!QFile::exists(log) ||
            QFile::copy(log, to + QLatin1StringView(besideDatabase.front()))) &&
           QFile::copy(from, to);
}

/// The old file is not in its place any more. Whether the new one is.
bool takeItsPlace(const QString& file, const QString& aside)
{
    for (const char* part : besideDatabase) {
        const QString beside = file + QLatin1StringView(part);
        // Else SQLite would take it for the new file's.
        if (QFile::exists(beside) && !QFile::rename(beside, aside + QLatin1StringView(part)))
            return false;
    }
    if (!QFile::rename(freshNameOf(file), file))
        return false;
    if (const auto done = bringToDisk(QFileInfo(file).absolutePath()); !done)
        log::warn(QStringLiteral("outbox: %1").arg(words(done.error())));
    return true;
}

/// The new file, whole and closed.
tl::expected<void, StoreError> makeFresh(const QString& file, const SiteId& site,
                                         const ReadOut& out, KeptTrouble trouble, Moment now)
{
    removeDatabase(file);
    {
        auto outbox = Outbox::open(file, site);
        if (!outbox)
            return tl::unexpected(outbox.error());
        const auto left = (*outbox)->takeOver(out.rows);
        if (!left)
            return tl::unexpected(left.error());
        trouble.lost = out.lost + *left;
        trouble.perhapsMore = out.perhapsMore;
        const auto taken = (*outbox)->kept();
        if (!taken)
            return tl::unexpected(taken.error());
        for (const KeptRequest& request : *taken) {
            trouble.readOut += request.waits() ? 1 : 0;
            trouble.changed += request.damaged ? 1 : 0;
        }
        if (auto told = (*outbox)->tell(trouble, now); !told)
            return tl::unexpected(told.error());
    }
    // Its name is all that will be changed: what stood in its log would be left behind.
    if (QFile::exists(file + QLatin1StringView(besideDatabase.front())))
        return cannotRescue(file);
    return {};
}

} // namespace

tl::expected<std::unique_ptr<Outbox>, StoreError> rescueOutbox(const QString& file,
                                                               const SiteId& site, Moment now)
{
    const QString aside =
        asideName(file.chopped(suffix.size()), QStringLiteral("damaged"), now, suffix);
    const bool isThere = QFile::exists(file);
    ReadOut out{{}, 0, true};
    if (QFileInfo(file).size() > 0) {
        const QString copy = variantOf(file, QStringLiteral("copy"));
        const bool copied = copyDatabase(file, copy);
        if (copied)
            out = readOutOf(copy);
        removeDatabase(copy);
        if (!copied)
            return cannotRescue(file);
    }
    KeptTrouble trouble;
    trouble.kind = TroubleKind::FileDamaged;
    trouble.file = isThere ? QFileInfo(aside).fileName() : QString();
    if (auto made = makeFresh(freshNameOf(file), site, out, std::move(trouble), now); !made) {
        removeDatabase(freshNameOf(file));
        return tl::unexpected(made.error());
    }
    if ((isThere && !QFile::rename(file, aside)) || !takeItsPlace(file, aside))
        return cannotRescue(file);
    log::error(QStringLiteral("outbox: %1 is damaged; it is kept as %2").arg(file, aside));
    return Outbox::open(file, site);
}

void finishRescue(const QString& file)
{
    const QString fresh = freshNameOf(file);
    if (QFile::exists(file))
        removeDatabase(fresh); // it was not finished, and is made again
    if (!QFile::exists(fresh))
        return;
    // The one that was set aside last: names tell the time.
    const QFileInfo place(variantOf(file, QStringLiteral("damaged-*")));
    const QStringList all =
        place.dir().entryList({place.fileName()}, QDir::Files, QDir::Name | QDir::Reversed);
    const QString aside = all.isEmpty() ? variantOf(file, QStringLiteral("damaged"))
                                        : place.dir().filePath(all.front());
    if (!takeItsPlace(file, aside))
        log::error(QStringLiteral("outbox: %1 cannot be put in its place").arg(fresh));
}

} // namespace ramplight
