// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/sqlledger.h"

#include "domain/presence.h"
#include "domain/words.h"
#include "log/log.h"
#include "storage/appender.h"
#include "storage/entrytable.h"
#include "storage/readtables.h"
#include "storage/sitemove.h"
#include "storage/staffseal.h"

#include <QDateTime>
#include <QUuid>

#include <algorithm>
#include <utility>

namespace ramplight {
namespace {

// Cars in prep whose state is remembered: a full wall, and as many again.
constexpr int rememberedCars = 512;

tl::unexpected<StoreError> failed(const SqlFault& fault)
{
    return tl::unexpected(loggedError(fault));
}

tl::unexpected<StoreError> damaged(const QString& what)
{
    log::error(QStringLiteral("ledger: %1").arg(what));
    return tl::unexpected(
        StoreError{StoreErrorKind::Damaged,
                   QStringLiteral("The ledger is not what was written: %1. Nothing was changed; "
                                  "run a check of the ledger and bring back a backup.")
                       .arg(what)});
}

} // namespace

StoreError newerEntry(const QString& what)
{
    log::error(QStringLiteral("ledger: %1").arg(what));
    return {StoreErrorKind::TooNew,
            QStringLiteral("A newer version of the program wrote into this workshop's ledger (%1). "
                           "It was left as it is; install the newer version.")
                .arg(what)};
}

namespace {

/// What a stream holds after a head, which goes along with it: each entry's hash is held against
/// the one before.
template <class Envelope>
tl::expected<std::vector<Envelope>, StoreError>
envelopesAfter(Connection& connection, const SiteId& site, Head& head,
               tl::expected<Envelope, EventFault> (*envelopeOf)(const Entry&))
{
    // There is hardly ever anything new, and Qt describes each column that is asked for, every
    // time.
    if (head.seq > 0) {
        const auto isMore = hasEntriesAfter(connection, site, head.stream, head.seq);
        if (!isMore)
            return failed(isMore.error());
        if (!*isMore)
            return std::vector<Envelope>();
    }
    const auto entries = entriesAfter(connection, site, head.stream, head.seq);
    if (!entries)
        return failed(entries.error());
    if (auto whole = follow(site, head, *entries); !whole)
        return damaged(whole.error());
    std::vector<Envelope> envelopes;
    envelopes.reserve(entries->size());
    for (const Entry& entry : *entries) {
        auto envelope = envelopeOf(entry);
        if (!envelope) {
            const QString what = QStringLiteral("entry %1 of %2: %3")
                                     .arg(entry.seq)
                                     .arg(entry.stream, envelope.error().words);
            // Its hash fits: it is what was written.
            return envelope.error().isNewer ? tl::unexpected(newerEntry(what)) : damaged(what);
        }
        envelopes.push_back(std::move(*envelope));
    }
    return envelopes;
}

} // namespace

SqlLedger::SqlLedger(std::unique_ptr<Connection> connection, HeadKeeper keeper,
                     MigrationOutcome opening)
    : m_connection(std::move(connection))
    , m_keeper(std::move(keeper))
    , m_opening(opening)
    , m_cars(rememberedCars)
{
}

SqlLedger::~SqlLedger() = default;

tl::expected<std::unique_ptr<SqlLedger>, StoreError> SqlLedger::open(const StoreSettings& settings,
                                                                     HeadKeeper keeper)
{
    auto connection = Connection::open(settings);
    if (!connection)
        return tl::unexpected(connection.error());
    const MigrationResult migrated =
        migrate(**connection, migrationsIn((*connection)->dialect().migrations()));
    if (const auto fault = migrationError(migrated))
        return tl::unexpected(*fault);
    std::unique_ptr<SqlLedger> ledger(
        new SqlLedger(std::move(*connection), std::move(keeper), migrated.outcome));
    if (auto found = ledger->findSite(settings); !found)
        return tl::unexpected(found.error());
    if (!settings.mayBeMoved)
        if (auto here = checkIsHere(ledger->connection(), ledger->siteId()); !here)
            return failed(here.error());
    return ledger;
}

tl::expected<void, StoreError> SqlLedger::findSite(const StoreSettings& settings)
{
    const SiteId& wanted = settings.site;
    QStringList known;
    {
        auto rows = m_connection->run("SELECT site FROM site ORDER BY site");
        if (!rows)
            return failed(rows.error());
        while (rows->next())
            known.append(rows->text(0));
    }
    if (wanted.isEmpty() && known.size() > 1)
        return tl::unexpected(
            toBeSeenTo(QStringLiteral("This database holds several sites. Nothing was changed; "
                                      "name the site in the settings: %1.")
                           .arg(known.join(QStringLiteral(", ")))));
    if (!wanted.isEmpty())
        m_site = wanted;
    else
        m_site = {known.isEmpty() ? QUuid::createUuid().toString(QUuid::WithoutBraces)
                                  : known.front()};
    if (known.contains(m_site.text))
        return {};
    const QString holds =
        known.isEmpty() ? QStringLiteral("It holds none yet.")
                        : QStringLiteral("It holds: %1.").arg(known.join(QStringLiteral(", ")));
    if (settings.siteIsRemembered)
        return tl::unexpected(
            toBeSeenTo(QStringLiteral("This kiosk worked for the site %1, and it is not in this "
                                      "database. Nothing was changed. %2 Bring the site there "
                                      "first (ramplight migrate-store --to-server), or, where "
                                      "this kiosk is to work for another one, name that in its "
                                      "settings ([storage] site=).")
                           .arg(m_site.text, holds)));
    if (settings.siteMustBeThere && wanted.isEmpty())
        return tl::unexpected(toBeSeenTo(
            QStringLiteral("There is no site in this database. Nothing was changed. Look "
                           "whether it is the right one; where it was made anew, bring "
                           "the site there first (ramplight migrate-store "
                           "--to-server).")));
    if (settings.siteMustBeThere)
        return tl::unexpected(
            toBeSeenTo(QStringLiteral("There is no site %1 in this database. Nothing was changed; "
                                      "look at [storage] site= in the settings. %2")
                           .arg(m_site.text, holds)));
    if (auto added = m_connection->run("INSERT INTO site (site, made_at) VALUES (?, ?)"
                                       " ON CONFLICT (site) DO NOTHING",
                                       {m_site.text, QDateTime::currentMSecsSinceEpoch()});
        !added)
        return failed(added.error());
    return {};
}

void SqlLedger::forget()
{
    m_cars.clear();
    m_gone.reset();
    m_siteView = {};
    m_siteSealed = 0;
    m_named = {};
    m_namedAt.reset();
    m_appendedAt.reset();
}

tl::expected<const CarState*, StoreError> SqlLedger::load(const CarId& id,
                                                          const std::optional<Written>& now)
{
    CachedCar* cached = m_cars.object(id.text);
    if (cached == nullptr && m_gone != nullptr && m_gone->state.id == id)
        cached = m_gone.get();
    if (cached != nullptr && now && cached->at == now)
        return &cached->state;
    Head head{carStream(id), 0, {}};
    if (cached != nullptr) {
        head.seq = cached->state.seq;
        head.hash = cached->hash;
    }
    const auto envelopes = envelopesAfter(*m_connection, m_site, head, carEnvelopeOf);
    if (!envelopes)
        return tl::unexpected(envelopes.error());
    if (cached != nullptr && envelopes->empty()) {
        cached->at = now;
        return &cached->state;
    }

    auto fresh =
        cached == nullptr ? std::make_unique<CachedCar>() : std::make_unique<CachedCar>(*cached);
    fresh->state.id = id;
    fresh->hash = head.hash;
    fresh->isSealed = false;
    fresh->at = now;
    for (const CarEnvelope& envelope : *envelopes)
        apply(fresh->state, envelope);
    if (!isInPrep(fresh->state)) {
        m_cars.remove(id.text);
        m_gone = std::move(fresh);
        return &m_gone->state;
    }
    m_cars.insert(id.text, fresh.release());
    return &m_cars.object(id.text)->state;
}

tl::expected<const SiteView*, StoreError> SqlLedger::loadSite()
{
    Head head{siteStream(), m_siteView.state.seq, m_siteView.hash};
    const auto envelopes = envelopesAfter(*m_connection, m_site, head, siteEnvelopeOf);
    if (!envelopes)
        return tl::unexpected(envelopes.error());
    if (envelopes->empty())
        return &m_siteView;
    SiteView fresh = m_siteView;
    fresh.hash = head.hash;
    for (const SiteEnvelope& envelope : *envelopes) {
        apply(fresh.state, envelope);
        if (setsRules(envelope.event))
            fresh.rulesSeq = envelope.seq;
    }
    m_siteView = std::move(fresh);
    return &m_siteView;
}

tl::expected<SiteView, StoreError> SqlLedger::siteView()
{
    return loadSite().map([](const SiteView* view) { return *view; });
}

tl::expected<CarState, StoreError> SqlLedger::car(const CarId& id)
{
    return load(id).map([](const CarState* state) { return *state; });
}

tl::expected<std::vector<CarEnvelope>, StoreError> SqlLedger::history(const CarId& id)
{
    Head head{carStream(id), 0, {}};
    return envelopesAfter(*m_connection, m_site, head, carEnvelopeOf);
}

tl::expected<std::vector<SiteEnvelope>, StoreError> SqlLedger::siteHistory()
{
    Head head{siteStream(), 0, {}};
    return envelopesAfter(*m_connection, m_site, head, siteEnvelopeOf);
}

tl::expected<std::optional<SqlLedger::Written>, StoreError> SqlLedger::writtenSoFar()
{
    const auto others = m_connection->writesOfOthers();
    if (!others)
        return failed(others.error());
    return *others ? std::optional(Written{**others, m_connection->commits()}) : std::nullopt;
}

tl::expected<const SiteState*, StoreError> SqlLedger::currentSite()
{
    return writtenSoFar().and_then([this](const auto& now) { return loadNamed(now); });
}

tl::expected<Ledger::SiteAndCar, StoreError> SqlLedger::siteAndCar(const CarId& id)
{
    // Asked with each command, and mostly both are as they were.
    const auto now = writtenSoFar();
    if (!now)
        return tl::unexpected(now.error());
    const auto site = loadNamed(*now);
    if (!site)
        return tl::unexpected(site.error());
    return load(id, *now).map([&](const CarState* car) { return SiteAndCar{*site, *car}; });
}

tl::expected<const SiteState*, StoreError> SqlLedger::loadNamed(const std::optional<Written>& now)
{
    if (now && m_namedAt == now)
        return &m_named;
    const auto view = loadSite();
    if (!view)
        return tl::unexpected(view.error());
    if (m_named.seq != (*view)->state.seq)
        m_named = (*view)->state;
    // Names stand beside the ledger: they change without an entry.
    auto rows =
        m_connection->run("SELECT person, name FROM person_name WHERE site = ?", {m_site.text});
    if (!rows)
        return failed(rows.error());
    std::map<PersonId, QString> names;
    while (rows->next())
        names.emplace(PersonId{rows->whole(0)}, rows->text(1));
    for (auto& [id, person] : m_named.people) {
        const auto name = names.find(id);
        person.name = name == names.end() ? QString() : name->second;
    }
    m_namedAt = now;
    return &m_named;
}

tl::expected<bool, StoreError> SqlLedger::isKnown(const CommandId& command)
{
    auto rows = m_connection->run("SELECT 1 FROM command WHERE site = ? AND command = ?",
                                  {m_site.text, command.text});
    if (!rows)
        return failed(rows.error());
    return rows->next();
}

tl::expected<void, StoreError> SqlLedger::append(const Append& append)
{
    auto transaction = Transaction::write(*m_connection, m_site);
    if (!transaction)
        return failed(transaction.error());
    const auto before = writtenSoFar();
    if (!before)
        return tl::unexpected(before.error());
    const bool asLeft = *before && m_appendedAt == *before;
    if (!asLeft)
        if (const auto site = loadSite(); !site)
            return tl::unexpected(site.error());
    if (!m_isCopy)
        if (auto sealed = checkTips(append); !sealed)
            return sealed;
    Appender appender(*m_connection, m_site, m_keeper, append, m_siteView);
    if (asLeft)
        appender.know(m_basis);
    for (const CarAppend& car : append.cars)
        if (const CachedCar* cached = m_cars.object(car.car.text))
            appender.know({carStream(car.car), cached->state.seq, cached->hash});
    if (!m_staffSealed) {
        const auto sealed = wasStaffSealed(*m_connection, m_site);
        if (!sealed)
            return failed(sealed.error());
        m_staffSealed = *sealed;
    }
    if (m_staffSealed)
        appender.knowStaffSealed();
    if (auto written = appender.write(); !written) {
        if (written.error().kind == StoreErrorKind::Damaged)
            log::error(QStringLiteral("append: %1").arg(written.error().words));
        return written;
    }
    if (appender.changesRules()) {
        if (auto worded = rewordWall(appender.siteView(), append); !worded)
            return worded;
    }
    if (auto committed = transaction->commit(); !committed)
        return failed(committed.error());

    noteAppended(append, *before, appender.basis());
    if (append.site) {
        m_siteView = SiteView(appender.siteView());
        m_siteSealed = m_siteView.state.seq;
    }
    for (const CarAppend& car : append.cars)
        if (!car.events.empty())
            remember(car, append, appender.hashOfCar(car.car));
    if (m_told)
        m_told();
    return {};
}

void SqlLedger::noteAppended(const Append& append, std::optional<Written> before, Basis basis)
{
    const std::optional<Written> asBefore = before;
    if (before)
        before->here = m_connection->commits();
    m_namedAt =
        m_namedAt == asBefore && !append.site && append.names.empty() ? before : std::nullopt;
    // New names move the seal over the staff on.
    m_appendedAt = append.names.empty() ? before : std::nullopt;
    m_basis = std::move(basis);
}

void SqlLedger::remember(const CarAppend& car, const Append& append, const QString& hash)
{
    // A car that has left is hardly asked for again.
    if (!isInPrep(car.after)) {
        m_cars.remove(car.car.text);
        return;
    }
    CachedCar* cached = m_cars.object(car.car.text);
    if (cached == nullptr || cached->state.seq != car.afterSeq) {
        m_cars.insert(car.car.text, new CachedCar{car.after, hash, true, m_appendedAt});
        return;
    }
    // To go along costs a small part of what a copy does.
    for (const CarEvent& event : car.events)
        apply(cached->state, {cached->state.seq + 1, append.at, append.by, append.command, event});
    cached->hash = hash;
    cached->isSealed = true;
    cached->at = m_appendedAt;
}

tl::expected<void, StoreError> SqlLedger::rewordWall(const SiteView& site, const Append& append)
{
    const auto cars = carsOnWall(*m_connection, m_site);
    if (!cars)
        return failed(cars.error());
    Writer writer(*m_connection);
    for (const QString& car : *cars) {
        const bool written =
            std::any_of(append.cars.begin(), append.cars.end(),
                        [&](const CarAppend& other) { return other.car.text == car; });
        if (written)
            continue;
        const auto state = load(CarId{car});
        if (!state)
            return tl::unexpected(state.error());
        writeCar(writer, m_site, carRowOf(**state, site.state.rules, site.rulesSeq));
    }
    if (!writer.good())
        return failed(writer.fault());
    return {};
}

} // namespace ramplight
