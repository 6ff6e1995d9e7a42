// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/connection.h"

#include "storage/privatefile.h"

#include <QSqlError>

#include <atomic>
#include <locale.h> // NOLINT(modernize-deprecated-headers): newlocale() is POSIX
#include <utility>

namespace ramplight {
namespace {

QString freshName()
{
    static std::atomic<int> count = 0;
    return QStringLiteral("ramplight-%1").arg(++count);
}

std::atomic<quint64>*& statementCount()
{
    thread_local std::atomic<quint64>* count = nullptr;
    return count;
}

/// A statement that ends with it.
struct CountedStatement
{
    CountedStatement() = default;
    CountedStatement(const CountedStatement&) = delete;
    CountedStatement& operator=(const CountedStatement&) = delete;
    ~CountedStatement()
    {
        if (std::atomic<quint64>* count = statementCount())
            ++*count;
    }
};

/// While it lives, this thread's libraries speak English: why a server is not trusted is only to be
/// had in words.
class InEnglish
{
public:
    InEnglish()
        : m_english(::newlocale(LC_MESSAGES_MASK, "C", ::duplocale(::uselocale(nullptr))))
        , m_before(m_english != nullptr ? ::uselocale(m_english) : nullptr)
    {
    }
    ~InEnglish()
    {
        if (m_english == nullptr)
            return;
        ::uselocale(m_before);
        ::freelocale(m_english);
    }
    InEnglish(const InEnglish&) = delete;
    InEnglish& operator=(const InEnglish&) = delete;

private:
    locale_t m_english;
    locale_t m_before;
};

bool tellsDamage(const SqlFault& fault)
{
    return fault.kind == SqlFault::Kind::Corrupt || fault.kind == SqlFault::Kind::NotADatabase;
}

SqlFault lostFault()
{
    return {SqlFault::Kind::Lost, QStringLiteral("the connection to the server was lost")};
}

} // namespace

void countStatements(std::atomic<quint64>& into)
{
    statementCount() = &into;
}

Rows::~Rows()
{
    if (m_query != nullptr)
        m_query->finish();
}

bool Rows::next()
{
    if (m_query->next())
        return true;
    if (brokeOff())
        m_damaged = m_damaged || tellsDamage(m_dialect.classify(m_query->lastError()));
    return false;
}

bool Rows::brokeOff() const
{
    return m_query->lastError().isValid();
}

Connection::Connection(std::unique_ptr<Dialect> dialect, StoreSettings settings)
    : m_dialect(std::move(dialect))
    , m_settings(std::move(settings))
    , m_name(freshName())
    , m_database(QSqlDatabase::addDatabase(m_dialect->driver(), m_name))
{
    m_database.setNumericalPrecisionPolicy(QSql::LowPrecisionInt64);
}

tl::expected<std::unique_ptr<Connection>, StoreError>
Connection::open(const StoreSettings& settings)
{
    std::unique_ptr<Connection> connection(new Connection(Dialect::of(settings.kind), settings));
    if (!connection->m_database.isValid())
        return tl::unexpected(
            StoreError{StoreErrorKind::Unavailable,
                       QStringLiteral("Qt's database driver %1 is not installed. Nothing was "
                                      "changed. Install it and start again.")
                           .arg(connection->m_dialect->driver())});
    StoreSettings address = settings;
    if (!settings.server.passwordFile.isEmpty()) {
        auto password = passwordIn(settings.server.passwordFile);
        if (!password)
            return tl::unexpected(toBeSeenTo(password.error()));
        address.server.password = std::move(*password);
    }
    connection->m_dialect->address(connection->m_database, address);
    if (auto opened = connection->openDatabase(); !opened)
        return tl::unexpected(opened.error());
    return connection;
}

tl::expected<void, StoreError> Connection::openDatabase()
{
    const bool isOpen = [this] {
        const InEnglish english;
        return m_database.open();
    }();
    if (!isOpen) {
        SqlFault fault = m_dialect->classify(m_database.lastError());
        if (fault.kind == SqlFault::Kind::Other || fault.kind == SqlFault::Kind::Lost)
            fault.kind = SqlFault::Kind::CannotOpen;
        return tl::unexpected(storeError(fault));
    }
    waitAsTheSettingsSay();
    const auto watched = watch();
    if (auto ours = m_dialect->inspect(m_database); !ours)
        return ours;
    return m_dialect->configure(m_database, m_settings);
}

void Connection::waitAsTheSettingsSay()
{
    if (m_settings.patience.count() > 0 && !m_guard)
        m_guard = std::make_unique<HangGuard>(m_settings.patience);
}

void Connection::waitFor(std::chrono::milliseconds patience)
{
    if (m_guard)
        m_guard = std::make_unique<HangGuard>(patience);
}

void Connection::addUpWaits()
{
    if (m_guard)
        m_guard->addUp();
}

HangGuard::Watch Connection::watch(std::chrono::milliseconds more)
{
    return m_guard ? HangGuard::Watch(*m_guard, m_dialect->socketOf(m_database), more)
                   : HangGuard::Watch();
}

HangGuard::Watch Connection::watchLock()
{
    return m_guard ? HangGuard::Watch(*m_guard, m_dialect->socketOf(m_database), {},
                                      HangGuard::Wait::ForLock)
                   : HangGuard::Watch();
}

Connection::~Connection()
{
    {
        // The server is told of each prepared statement that goes.
        const auto watched = watch();
        qDeleteAll(m_prepared);
        m_prepared.clear();
    }
    m_database.close();
    m_database = QSqlDatabase();
    QSqlDatabase::removeDatabase(m_name);
}

SqlFault Connection::faultOf(const QSqlQuery& query)
{
    SqlFault fault = m_dialect->classify(query.lastError());
    m_lost = m_lost || fault.kind == SqlFault::Kind::Lost;
    m_damaged = m_damaged || tellsDamage(fault);
    return fault;
}

tl::expected<Rows, SqlFault> Connection::run(const char* sql, const QVariantList& values)
{
    if (m_lost)
        return tl::unexpected(lostFault());
    const CountedStatement counted;
    const auto watched = watch();
    QSqlQuery*& query = m_prepared[sql];
    if (query == nullptr) {
        auto fresh = std::make_unique<QSqlQuery>(m_database);
        fresh->setForwardOnly(m_dialect->readsForwardOnly());
        if (!fresh->prepare(QString::fromLatin1(sql))) {
            m_prepared.remove(sql);
            return tl::unexpected(faultOf(*fresh));
        }
        query = fresh.release();
    }
    int position = 0;
    for (const QVariant& value : values)
        query->bindValue(position++,
                         value.typeId() == QMetaType::QString && value.toString().isNull()
                             ? QVariant(QStringLiteral(""))
                             : value);
    if (!query->exec()) {
        SqlFault fault = faultOf(*query);
        query->finish();
        return tl::unexpected(std::move(fault));
    }
    return Rows(query, *m_dialect, m_damaged);
}

tl::expected<std::optional<qint64>, SqlFault> Connection::writesOfOthers()
{
    const char* counter = m_dialect->changeCounter();
    if (counter == nullptr)
        return std::optional<qint64>();
    auto rows = run(counter);
    if (!rows)
        return tl::unexpected(rows.error());
    return rows->next() ? rows->number(0) : 0;
}

tl::expected<void, SqlFault> Connection::plain(const QString& sql)
{
    if (m_lost)
        return tl::unexpected(lostFault());
    const CountedStatement counted;
    const auto watched = watch();
    QSqlQuery query(m_database);
    if (!query.exec(sql))
        return tl::unexpected(faultOf(query));
    return {};
}

tl::expected<void, SqlFault> Connection::begin(const char* how)
{
    return turn(how);
}

tl::expected<void, SqlFault> Connection::commit()
{
    auto done = turn("COMMIT");
    if (done)
        ++m_commits;
    return done;
}

tl::expected<void, SqlFault> Connection::turn(const char* sql)
{
    if (!m_dialect->preparesTransactions())
        return plain(QString::fromLatin1(sql));
    if (auto done = run(sql); !done)
        return tl::unexpected(done.error());
    return {};
}

void Connection::rollBack()
{
    // Fails when the database has rolled back by itself: then nothing is left to do.
    [[maybe_unused]] const auto done = plain(QStringLiteral("ROLLBACK"));
}

tl::expected<Transaction, SqlFault> Transaction::read(Connection& connection)
{
    if (auto begun = connection.begin(connection.dialect().beginRead()); !begun)
        return tl::unexpected(begun.error());
    return Transaction(connection);
}

tl::expected<Transaction, SqlFault> Transaction::writeAside(Connection& connection)
{
    if (auto begun = connection.begin(connection.dialect().beginWrite()); !begun)
        return tl::unexpected(begun.error());
    return Transaction(connection);
}

tl::expected<Transaction, SqlFault> Transaction::write(Connection& connection, const SiteId& site)
{
    auto transaction = writeAside(connection);
    if (!transaction)
        return transaction;
    if (const char* lock = connection.dialect().lockSite()) {
        const auto watched = connection.watchLock();
        if (auto locked = connection.run(lock, {site.text}); !locked)
            return tl::unexpected(locked.error());
    }
    return transaction;
}

Transaction::~Transaction()
{
    if (m_connection != nullptr)
        m_connection->rollBack();
}

tl::expected<void, SqlFault> Transaction::commit()
{
    auto done = m_connection->commit();
    if (done)
        m_connection = nullptr;
    return done;
}

bool Writer::run(const char* sql, const QVariantList& values)
{
    [[maybe_unused]] const int changed = change(sql, values);
    return good();
}

int Writer::change(const char* sql, const QVariantList& values)
{
    if (m_fault)
        return 0;
    const auto rows = m_connection.run(sql, values);
    if (!rows) {
        m_fault = rows.error();
        return 0;
    }
    return rows->changed();
}

} // namespace ramplight
