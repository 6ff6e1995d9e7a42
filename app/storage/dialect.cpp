// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/dialect.h"

#include "log/log.h"
#include "storage/postgresqldialect.h"
#include "storage/sqlitedialect.h"

namespace ramplight {

std::unique_ptr<Dialect> Dialect::of(StoreKind kind)
{
    switch (kind) {
    case StoreKind::Sqlite:
        return std::make_unique<SqliteDialect>();
    case StoreKind::PostgreSql:
        return std::make_unique<PostgresqlDialect>();
    }
    return nullptr;
}

namespace {

constexpr const char* cannotOpen =
    "The database cannot be opened. Nothing was changed; check that the folder or server exists "
    "and that this account may use it.";

} // namespace

StoreError toBeSeenTo(const QString& words, StoreErrorKind kind)
{
    StoreError error{kind, words};
    error.isToBeSeenTo = true;
    return error;
}

StoreError storeError(const SqlFault& fault)
{
    using Kind = SqlFault::Kind;
    const auto unavailable = [](const char* words) {
        return StoreError{StoreErrorKind::Unavailable, QString::fromUtf8(words)};
    };
    const auto notTrusted = [](const char* words) {
        return toBeSeenTo(QString::fromUtf8(words), StoreErrorKind::NotTrusted);
    };
    switch (fault.kind) {
    case Kind::EntryTaken:
    case Kind::StockTaken:
    case Kind::CommandKnown:
        return {StoreErrorKind::Conflict,
                QStringLiteral("Somebody else changed this at the same moment. Nothing of yours "
                               "was kept; look at it again and repeat.")};
    case Kind::PersonBusy:
        return {StoreErrorKind::Busy,
                QStringLiteral("This person's timer already runs on other work. Nothing was "
                               "kept; stop the other timer first.")};
    case Kind::BayTaken:
        return {StoreErrorKind::Busy,
                QStringLiteral("Another car was put into this bay just now. Nothing was kept; "
                               "choose another place.")};
    case Kind::ChainBroken:
    case Kind::AppendOnly:
        return {StoreErrorKind::Damaged,
                QStringLiteral("The ledger refused an entry that does not follow the one before "
                               "it. Nothing was kept; run a check of the ledger.")};
    case Kind::KeyRenewed:
        return {StoreErrorKind::WrongKeys, fault.text};
    case Kind::Moved:
        return {StoreErrorKind::Moved, fault.text};
    case Kind::Locked:
        return unavailable("Another program kept the database busy for too long. Nothing was kept; "
                           "try again.");
    case Kind::ReadOnly:
        return unavailable("The database cannot be written: the file or its disk is read-only. "
                           "Nothing was kept; make it writable and try again.");
    case Kind::Full:
        return unavailable("The disk is full. Nothing was kept; make room and try again.");
    case Kind::InputOutput:
        return unavailable("The disk reported a fault. Nothing was kept; check the disk and its "
                           "cables, then try again.");
    case Kind::CannotOpen:
        return unavailable(cannotOpen);
    case Kind::Refused: {
        // In its own language, and about the account or the database.
        StoreError error = toBeSeenTo(
            QStringLiteral("The database server answers and does not let this kiosk in: "
                           "\"%1\". Nothing was changed; check the account, its password "
                           "and the database's name in the server's address.")
                .arg(fault.text.trimmed().section(QLatin1Char('\n'), 0, 0)));
        error.crowded = true;
        return error;
    }
    case Kind::Crowded: {
        StoreError error = unavailable("The database server answers, but takes no connection now: "
                                       "it has too many, or is just starting or ending. Nothing "
                                       "was changed; trying again helps once it has room.");
        error.crowded = true;
        return error;
    }
    case Kind::Lost:
        return unavailable("The database server does not answer. Whether the last change was kept "
                           "is not known; trying again is safe and keeps it only once.");
    case Kind::Unencrypted:
        return notTrusted("The server offers no encrypted connection, and on the way to another "
                          "machine it has to be one. Nothing was sent; have it set up there (ssl = "
                          "on), or where nobody can listen on the line add sslmode=disable to the "
                          "server's address.");
    case Kind::NoRoot:
        return notTrusted("The root certificate that the server's own is checked with cannot be "
                          "read. Nothing was sent; name its file in the server's address "
                          "(sslrootcert=FILE).");
    case Kind::OtherRoot:
        return notTrusted("The server's certificate was not signed by the root certificate of this "
                          "kiosk, or has expired: it may be another server. Nothing was sent; ask "
                          "whoever looks after the server which root certificate is the right one "
                          "(sslrootcert=FILE in the server's address).");
    case Kind::OtherName:
        return notTrusted("The server's certificate is made out to another name than that in the "
                          "server's address, so that it may be another server. Nothing was sent; "
                          "write the name of the certificate into the address (host=NAME), or have "
                          "one made for it.");
    case Kind::NotAllowed:
        return toBeSeenTo(
            QStringLiteral("The server does not allow this account to do that. Nothing "
                           "was kept; have the database's owner look at its rights "
                           "(prepare-server)."));
    case Kind::NotADatabase:
        return {StoreErrorKind::Damaged,
                QStringLiteral("The file is no database. It was left as it is; choose another "
                               "file or bring back a backup.")};
    case Kind::Corrupt:
        return {StoreErrorKind::Damaged,
                QStringLiteral("The database is damaged. It was left as it is; keep a copy of it "
                               "and bring back a backup.")};
    case Kind::Other:
        return unavailable("The database refused this. Nothing was kept; the log has its words.");
    }
    return {};
}

StoreError loggedError(const SqlFault& fault)
{
    if (fault.kind == SqlFault::Kind::Other)
        log::error(QStringLiteral("database: %1").arg(fault.text));
    return storeError(fault);
}

} // namespace ramplight
