// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "storage/storesettings.h"

#include <QString>
#include <QStringList>

#include <tl/expected.hpp>

#include <memory>

class QSqlDatabase;
class QSqlError;

// What differs between the databases, and nothing else: everything that is not here is the same SQL
// on both. Stateless; used on the thread that owns the connection.
namespace ramplight {

/// What a database said no to.
struct SqlFault
{
    enum class Kind {
        EntryTaken,   ///< the stream has an entry of that number
        ChainBroken,  ///< the entry does not follow the one before it
        CommandKnown, ///< the command was carried out before
        PersonBusy,   ///< a second running segment of one person
        BayTaken,     ///< a second car in one bay
        StockTaken,   ///< a second car of the house with one stock number
        AppendOnly,   ///< an attempt to change or remove what stays
        Locked,       ///< somebody else kept the database locked for too long
        ReadOnly,     ///< the database or its disk can be read only
        Full,         ///< no room
        InputOutput,  ///< the disk failed
        NotADatabase, ///< the file is something else
        Corrupt,      ///< the file is damaged
        CannotOpen,   ///< no such folder, no permission, wrong name or password
        Lost,         ///< the server went away
        Crowded,      ///< it answers and takes no connection now: too many, starts or ends
        Refused,      ///< it answers and takes no connection, for whatever reason
        Unencrypted,  ///< the server offers no encryption, and it has to be
        NoRoot,       ///< nothing to check the server's certificate with
        OtherRoot,    ///< its certificate was signed by somebody else
        OtherName,    ///< its certificate is another machine's
        NotAllowed,   ///< this account may not do that
        KeyRenewed,   ///< somebody has renewed the site's keys; the text is for a person
        Moved,        ///< the site was moved to another database; the text is for a person
        Other,        ///< a fault of the program or of the schema
    };
    Kind kind = Kind::Other;
    QString text; ///< the driver's words, for the log
};

/// For a person: what happened, what was kept, what to do.
[[nodiscard]] StoreError storeError(const SqlFault& fault);
/// What does not go away by itself, in words for a person.
[[nodiscard]] StoreError toBeSeenTo(const QString& words,
                                    StoreErrorKind kind = StoreErrorKind::Unavailable);
/// The same; what the database said of a fault that is none of the known ones goes to the log.
[[nodiscard]] StoreError loggedError(const SqlFault& fault);

class Dialect
{
public:
    Dialect() = default;
    Dialect(const Dialect&) = delete;
    Dialect& operator=(const Dialect&) = delete;
    virtual ~Dialect() = default;

    [[nodiscard]] static std::unique_ptr<Dialect> of(StoreKind kind);

    [[nodiscard]] virtual QString driver() const = 0;
    /// Folder of the migrations inside the resources.
    [[nodiscard]] virtual QString migrations() const = 0;
    virtual void address(QSqlDatabase& database, const StoreSettings& settings) const = 0;
    /// Before anything is changed: refuses what is not ours. Error: Damaged or Unavailable.
    [[nodiscard]] virtual tl::expected<void, StoreError> inspect(QSqlDatabase& database) const = 0;
    /// Settings of the connection, read back. Error: Unavailable.
    [[nodiscard]] virtual tl::expected<void, StoreError>
    configure(QSqlDatabase& database, const StoreSettings& settings) const = 0;

    [[nodiscard]] virtual const char* beginRead() const = 0;
    [[nodiscard]] virtual const char* beginWrite() const = 0;
    /// After beginWrite: orders the writers of one site, so that positions follow commits. Null
    /// when the beginning did that already. Its only value is the site.
    [[nodiscard]] virtual const char* lockSite() const = 0;
    /// Answers 1 when the account could change or remove what is in the ledger, else 0; null where
    /// there are no accounts.
    [[nodiscard]] virtual const char* couldChangeLedger() const = 0;
    /// Answers 1 when the table schema_version is there, else 0.
    [[nodiscard]] virtual const char* versionTable() const = 0;
    /// Taken while migrating; null when the beginning is enough.
    [[nodiscard]] virtual const char* lockSchema() const = 0;
    /// In the writing transaction: tells other programs. Null when they see it by themselves. Its
    /// values are the channel and the site.
    [[nodiscard]] virtual const char* notify() const = 0;
    /// A number that changes when another connection wrote; null when the database tells.
    [[nodiscard]] virtual const char* changeCounter() const = 0;
    [[nodiscard]] virtual bool readsForwardOnly() const = 0;
    /// Beginnings and ends of transactions are statements that can be prepared like any other.
    [[nodiscard]] virtual bool preparesTransactions() const = 0;

    /// The socket to the server of an open connection; -1 where there is none.
    [[nodiscard]] virtual int socketOf(const QSqlDatabase& database) const = 0;

    [[nodiscard]] virtual SqlFault classify(const QSqlError& error) const = 0;
    /// What the database finds wrong with itself.
    [[nodiscard]] virtual QStringList ownCheck(QSqlDatabase& database) const = 0;
    /// What of its tables, indexes and guards is not as this program's migrations make it.
    [[nodiscard]] virtual QStringList foreignSchema(QSqlDatabase& database) const = 0;
};

} // namespace ramplight
