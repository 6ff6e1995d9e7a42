// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/openstore.h"

#include "storage/staffseal.h"

#include <spdlog/spdlog.h>

#include <chrono>
#include <utility>

namespace ramplight {

namespace {

// With the patience of a kiosk (3 s) a server that is away is known within five.
constexpr std::chrono::milliseconds beatEvery{1000};

} // namespace

OpenStore::OpenStore(const StoreSettings& settings, const HeadKeeper& keeper, const Clock& clock,
                     const Catalogue& catalogue)
    : m_settings(settings)
    , m_keeper(keeper)
    , m_clock(clock)
    , m_catalogue(catalogue)
{
    m_beat.setInterval(beatEvery);
    connect(&m_beat, &QTimer::timeout, this, &OpenStore::beat);
    m_follow.setSingleShot(true);
    connect(&m_follow, &QTimer::timeout, this, &OpenStore::follow);
    m_looking.setMaxThreadCount(1);
    // Emitted by the thread that looked.
    connect(
        this, &OpenStore::looked, this,
        [this](bool answers) {
            m_looks = false;
            if (answers)
                comeBack();
        },
        Qt::QueuedConnection);
    m_error = {StoreErrorKind::Unavailable,
               QStringLiteral("The database was not opened yet. Nothing was changed.")};
    if (settings.kind == StoreKind::PostgreSql && !settings.standby.isEmpty())
        m_standby = std::make_unique<Standby>(settings.standby, keeper, clock, catalogue);
}

OpenStore::~OpenStore()
{
    m_looking.waitForDone();
}

Workshop* OpenStore::workshop()
{
    if (m_away)
        return m_standby && m_standby->isWorking() ? &m_standby->workshop() : nullptr;
    return m_workshop.get();
}

Store& OpenStore::store()
{
    return m_away ? m_standby->store() : *m_server;
}

tl::expected<void, StoreError> OpenStore::listen(Store& store)
{
    connect(&store.feed(), &ChangeFeed::changed, this, &OpenStore::changed);
    connect(&store.feed(), &ChangeFeed::siteChanged, this, &OpenStore::siteChanged);
    return store.feed().start();
}

tl::expected<void, StoreError> OpenStore::use(std::unique_ptr<Store> server)
{
    if (auto listening = listen(*server); !listening)
        return listening;
    m_server = std::move(server);
    m_workshop = std::make_unique<Workshop>(m_server->ledger(), m_clock, m_catalogue);
    m_away = false;
    m_error = {};
    if (m_standby && m_standby->isOpen()) {
        connect(&m_server->feed(), &ChangeFeed::changed, this, [this](const QStringList& cars) {
            m_standby->want(cars);
            m_follow.start();
        });
        connect(&m_server->feed(), &ChangeFeed::siteChanged, this, [this] {
            m_standby->wantSite();
            m_follow.start();
        });
        m_staffSeal.clear();
        m_standby->want({});
        m_standby->wantSite();
        m_follow.start();
    }
    return {};
}

tl::expected<MigrationOutcome, StoreError> OpenStore::open()
{
    const bool isServer = m_settings.kind == StoreKind::PostgreSql;
    if (isServer)
        m_beat.start();
    auto store = Store::open(m_settings, m_keeper);
    if (!store && (!isServer || store.error().kind != StoreErrorKind::Unavailable)) {
        m_beat.stop();
        m_error = store.error();
        return tl::unexpected(m_error);
    }
    if (store) {
        const MigrationOutcome outcome = (*store)->ledger().opening();
        if (m_standby) {
            auto ready = m_standby->open((*store)->ledger().siteId());
            if (ready)
                ready = m_standby->handBack(**store);
            if (!ready)
                spdlog::error("standby: {}", ready.error().words.toStdString());
        }
        const auto used = use(std::move(*store));
        if (used) {
            tell();
            return outcome;
        }
        if (!isServer) {
            m_error = used.error();
            return tl::unexpected(m_error);
        }
        goAway(used.error());
    } else {
        if (m_standby)
            if (const auto known = m_standby->open(m_settings.site); !known)
                spdlog::warn("standby: {}", known.error().words.toStdString());
        goAway(store.error());
    }
    if (workshop() == nullptr)
        return tl::unexpected(m_error);
    return MigrationOutcome::UpToDate;
}

bool OpenStore::lostMeanwhile()
{
    if (m_away || !m_server || !m_server->ledger().connection().isLost())
        return false;
    goAway({StoreErrorKind::Unavailable,
            QStringLiteral("The workshop's server does not answer. This kiosk goes on trying; "
                           "check the server and the line.")});
    return true;
}

void OpenStore::goAway(const StoreError& why)
{
    spdlog::warn("the server is away: {}", why.words.toStdString());
    m_away = true;
    m_awaySince = m_clock.now();
    m_error = why;
    m_workshop.reset();
    m_server.reset();
    if (m_standby) {
        auto working = m_standby->takeOver();
        if (working)
            working = listen(m_standby->store());
        if (working)
            connect(&m_standby->store().feed(), &ChangeFeed::changed, this, &OpenStore::tell);
        if (!working) {
            spdlog::error("standby: {}", working.error().words.toStdString());
            m_error = working.error();
        }
    }
    tell();
    emit siteChanged();
    emit changed({});
}

void OpenStore::beat()
{
    if (m_away) {
        look();
        return;
    }
    if (!m_server)
        return;
    const auto seal = keptStaffSeal(m_server->ledger().connection(), m_server->ledger().siteId());
    if (lostMeanwhile() || !seal || !m_standby || !m_standby->isOpen())
        return;
    if (*seal != m_staffSeal) {
        m_staffSeal = *seal;
        m_standby->wantSite();
    }
    if (m_standby->isInStep())
        markKnown();
    else
        m_follow.start();
}

void OpenStore::follow()
{
    if (m_away || !m_server || !m_standby)
        return;
    m_standby->follow(*m_server);
    if (lostMeanwhile())
        return;
    if (m_standby->isInStep())
        markKnown();
    else
        m_follow.start();
}

void OpenStore::markKnown()
{
    const bool first = m_standby->knownAt().isNull();
    m_standby->markKnown(m_clock.now());
    if (first)
        tell();
}

void OpenStore::look()
{
    if (std::exchange(m_looks, true))
        return;
    // A server that hangs takes the whole limit to say nothing: nobody here waits for that.
    m_looking.start(
        [this, settings = m_settings] { emit looked(Connection::open(settings).has_value(), {}); });
}

void OpenStore::comeBack()
{
    if (!m_away)
        return;
    auto server = Store::open(m_settings, m_keeper);
    auto back = server ? tl::expected<void, StoreError>() : tl::unexpected(server.error());
    if (back && m_standby)
        back = m_standby->open((*server)->ledger().siteId());
    if (back && m_standby)
        back = m_standby->handBack(**server);
    if (back)
        back = use(std::move(*server));
    if (!back) {
        spdlog::warn("the server is not back: {}", back.error().words.toStdString());
        tell();
        return;
    }
    spdlog::info("the server is back");
    tell();
    emit siteChanged();
    emit changed({});
}

void OpenStore::tell()
{
    ServerStanding standing;
    standing.shared = m_settings.kind == StoreKind::PostgreSql;
    standing.away = m_away;
    standing.awaySince = m_awaySince;
    if (m_standby) {
        standing.knownAt = m_standby->knownAt();
        if (auto kept = m_standby->kept())
            standing.kept = std::move(*kept);
    }
    emit standingChanged(standing);
}

tl::expected<void, StoreError> OpenStore::note(qint64 kept, PersonId by)
{
    if (!m_standby)
        return {};
    auto noted = m_standby->note(kept, by);
    tell();
    return noted;
}

} // namespace ramplight
