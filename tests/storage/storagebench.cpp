// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storagebench.h"

#include <QMessageAuthenticationCode>
#include <QSqlError>
#include <QSqlQuery>
#include <QSqlRecord>
#include <QUuid>

namespace ramplight::test {
namespace {

QString postgres()
{
    return qEnvironmentVariable("RAMPLIGHT_TEST_PG");
}

QString freshName()
{
    return QUuid::createUuid().toString(QUuid::Id128);
}

} // namespace

void forEachKind(const std::function<void(const char* prefix, StoreKind kind)>& add)
{
    add("SQLite", StoreKind::Sqlite);
    if (!postgres().isEmpty()) {
        add("PostgreSQL", StoreKind::PostgreSql);
        return;
    }
    static bool told = false;
    if (!told)
        qInfo("RAMPLIGHT_TEST_PG names no server: PostgreSQL is left out (tests/run starts one).");
    told = true;
}

void addKinds()
{
    QTest::addColumn<StoreKind>("kind");
    forEachKind([](const char* prefix, StoreKind kind) { QTest::newRow(prefix) << kind; });
}

bool aPartIsEnough()
{
    const int sequences = qEnvironmentVariableIntValue("RAMPLIGHT_SEQUENCES");
    return sequences > 0 && sequences < 100;
}

HeadKeeper keeperWith(const QByteArray& key)
{
    return {QStringLiteral("bench"), [key](const QByteArray& bytes) {
                return QMessageAuthenticationCode::hash(bytes, key, QCryptographicHash::Sha256);
            }};
}

TestDatabase::TestDatabase(StoreKind kind)
    : m_name(QStringLiteral("raw-") + freshName())
{
    m_settings.kind = kind;
    m_settings.file = m_folder.filePath(QStringLiteral("workshop.db"));
    if (kind == StoreKind::Sqlite) {
        m_raw = QSqlDatabase::addDatabase(QStringLiteral("QSQLITE"), m_name);
        m_raw.setDatabaseName(m_settings.file);
        return;
    }
    const auto server = PostgresAddress::parse(postgres());
    if (!server)
        qFatal("RAMPLIGHT_TEST_PG: %s", qPrintable(server.error()));
    m_settings.server = *server;
    m_settings.server.schema = QStringLiteral("t_") + freshName();
    m_raw = QSqlDatabase::addDatabase(QStringLiteral("QPSQL"), m_name);
    m_raw.setHostName(server->host);
    m_raw.setPort(server->port);
    m_raw.setDatabaseName(server->database);
    m_raw.setUserName(server->user);
    m_raw.setPassword(server->password);
    m_raw.setConnectOptions(server->options);
    sql(QStringLiteral("CREATE SCHEMA %1").arg(m_settings.server.schema));
    sql(QStringLiteral("SET search_path TO %1").arg(m_settings.server.schema));
}

TestDatabase::~TestDatabase()
{
    if (kind() == StoreKind::PostgreSql)
        sql(QStringLiteral("DROP SCHEMA %1 CASCADE").arg(m_settings.server.schema));
    m_raw.close();
    m_raw = QSqlDatabase();
    QSqlDatabase::removeDatabase(m_name);
}

std::unique_ptr<Store> TestDatabase::open(const HeadKeeper& keeper) const
{
    auto store = Store::open(m_settings, keeper);
    if (!store)
        qFatal("the test's database cannot be opened: %s", qPrintable(store.error().words));
    return std::move(*store);
}

QString TestDatabase::sql(const QString& statement)
{
    if (!m_raw.isOpen() && !m_raw.open())
        return m_raw.lastError().text();
    QSqlQuery query(m_raw);
    return query.exec(statement) ? QString() : query.lastError().databaseText();
}

QVariant TestDatabase::ask(const QString& query)
{
    if (!m_raw.isOpen() && !m_raw.open())
        return m_raw.lastError().text();
    QSqlQuery answer(m_raw);
    if (!answer.exec(query) || !answer.next())
        return answer.lastError().text();
    return answer.value(0);
}

QString TestDatabase::dump(const QString& query)
{
    if (!m_raw.isOpen() && !m_raw.open())
        return m_raw.lastError().text();
    QSqlQuery answer(m_raw);
    if (!answer.exec(query))
        return answer.lastError().text();
    QStringList rows;
    while (answer.next()) {
        QStringList columns;
        for (int i = 0; i < answer.record().count(); ++i)
            columns.append(answer.value(i).toString());
        rows.append(columns.join(QLatin1Char('|')));
    }
    return rows.join(QLatin1Char('\n'));
}

QString TestDatabase::forge(const QString& statement)
{
    if (kind() == StoreKind::PostgreSql) {
        for (const char* table : {"ledger", "command"})
            sql(QStringLiteral("ALTER TABLE %1 DISABLE TRIGGER USER").arg(QLatin1String(table)));
        const QString words = sql(statement);
        for (const char* table : {"ledger", "command"})
            sql(QStringLiteral("ALTER TABLE %1 ENABLE TRIGGER USER").arg(QLatin1String(table)));
        return words;
    }
    if (!m_raw.isOpen() && !m_raw.open())
        return m_raw.lastError().text();
    QStringList names;
    QStringList guards;
    {
        QSqlQuery query(m_raw);
        query.exec(QStringLiteral("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'"));
        while (query.next()) {
            names.append(query.value(0).toString());
            guards.append(query.value(1).toString());
        }
    }
    for (const QString& name : names)
        sql(QStringLiteral("DROP TRIGGER %1").arg(name));
    const QString words = sql(statement);
    for (const QString& guard : guards)
        sql(guard);
    return words;
}

tl::expected<void, StoreError> replay(const std::vector<Append>& appends, Ledger& ledger)
{
    for (Append append : appends) {
        for (CarAppend& part : append.cars) {
            auto car = ledger.car(part.car);
            if (!car)
                return tl::unexpected(car.error());
            part.after = std::move(*car);
            for (const CarEvent& event : part.events)
                apply(part.after,
                      {part.after.seq + 1, append.at, append.by, append.command, event});
        }
        if (auto appended = ledger.append(append); !appended)
            return appended;
    }
    return {};
}

Append Hand::blank()
{
    Append append;
    append.command = {QStringLiteral("hand-%1").arg(++m_commands)};
    append.by = by;
    append.at = now;
    return append;
}

Append Hand::with(const CarId& car, std::vector<CarEvent> events)
{
    return with({{car, std::move(events)}});
}

Append Hand::with(std::vector<std::pair<CarId, std::vector<CarEvent>>> cars)
{
    Append append = blank();
    for (auto& [id, events] : cars) {
        CarAppend part;
        part.car = id;
        part.after = m_ledger.car(id).value();
        part.afterSeq = part.after.seq;
        for (const CarEvent& event : events)
            apply(part.after, {part.after.seq + 1, append.at, append.by, append.command, event});
        part.events = std::move(events);
        append.cars.push_back(std::move(part));
    }
    return append;
}

Append Hand::withSite(std::vector<SiteEvent> events)
{
    Append append = blank();
    append.site = SiteAppend{m_ledger.site().value().seq, std::move(events)};
    return append;
}

CarEvent Hand::arrival(const QString& stockNumber, const QString& registration)
{
    CarArrived arrived;
    arrived.identity.stockNumber = stockNumber;
    arrived.identity.registration = registration;
    arrived.identity.make = QStringLiteral("Halden");
    arrived.identity.model = QStringLiteral("Skerry");
    arrived.promised = QDate(2031, 3, 20);
    return arrived;
}

CarEvent Hand::opened(int operation)
{
    OperationOpened opened;
    opened.operation = OperationId{operation};
    OperationSpec valet;
    valet.id = QStringLiteral("valet");
    valet.title = QStringLiteral("Valet");
    opened.spec = std::move(valet);
    opened.place = wholeCar();
    return opened;
}

CarEvent Hand::started(int operation, int segment, PersonId person, Moment at)
{
    WorkStarted started;
    started.operation = OperationId{operation};
    started.segment = SegmentId{segment};
    started.person = person;
    started.at = at;
    return started;
}

CarEvent Hand::stopped(int operation, int segment, Moment at)
{
    WorkStopped stopped;
    stopped.operation = OperationId{operation};
    stopped.segment = SegmentId{segment};
    stopped.at = at;
    return stopped;
}

void tellStory(Workbench& bench)
{
    const CarId sold = bench.appraised();
    bench.found(sold, "wheel-front-left", Condition::Kerbed);
    bench.release(sold);

    const CarId gone = bench.appraised();
    bench.must(bench.manager, gone,
               car::LeaveUnreleased{LeavingHow::Trade, QStringLiteral("rust in the sills")});

    const CarId inWork = bench.appraised();
    bench.must(bench.mechanic, inWork, car::MoveCar{bench.lift, {}});
    bench.start(inWork, bench.open(inWork, "inspection"), bench.mechanic);
    bench.clock.pass(12);

    const CarId waiting = bench.appraised();
    const FindingId worn = bench.found(waiting, "brakes-front", Condition::Worn);
    bench.must(bench.appraiser, waiting,
               car::AttachPhoto{bench.photo(), PhotoMoment::Before, at("brakes-front"), {}, worn});
    bench.must(bench.mechanic, waiting,
               car::BlockForPart{bench.open(waiting, "brake-pads"),
                                 {QStringLiteral("front pads"), QStringLiteral("Harbour Parts"),
                                  QDate(2031, 3, 22)}});
    bench.ask(bench.manager,
              site::SetBay{{{}, 3, QStringLiteral("Wheels"), BayKind::Wheels, true}});
    bench.bringIn(carWith({Fact::TractionBattery}));
}

std::unique_ptr<Store> storyIn(const TestDatabase& database)
{
    Workbench bench;
    tellStory(bench);
    auto store = database.open();
    if (!replay(bench.ledger.accepted(), store->ledger()))
        qFatal("the story cannot be written");
    return store;
}

QString told(const VerifyReport& report)
{
    QStringList lines;
    for (const LedgerFault& fault : report.faults)
        lines.append(fault.told());
    return lines.join(QLatin1Char('\n'));
}

QString outcome(const tl::expected<void, StoreError>& result)
{
    if (result)
        return QStringLiteral("ok");
    switch (result.error().kind) {
    case StoreErrorKind::Conflict:
        return QStringLiteral("conflict");
    case StoreErrorKind::Busy:
        return QStringLiteral("busy");
    case StoreErrorKind::Unavailable:
        return QStringLiteral("unavailable");
    case StoreErrorKind::Damaged:
        return QStringLiteral("damaged");
    case StoreErrorKind::WrongKeys:
        return QStringLiteral("wrong keys");
    case StoreErrorKind::NotTrusted:
        return QStringLiteral("not trusted");
    case StoreErrorKind::PhotoGone:
        return QStringLiteral("photo gone");
    case StoreErrorKind::TooNew:
        return QStringLiteral("too new");
    case StoreErrorKind::Moved:
        return QStringLiteral("moved");
    }
    return {};
}

} // namespace ramplight::test
