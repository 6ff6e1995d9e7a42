// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/openstore.h"

#include "log/log.h"
#include "storage/serverrights.h"

#include <chrono>
#include <utility>

namespace ramplight {

namespace {

// With the patience of a kiosk (3 s) a server that is away is known within five.
constexpr std::chrono::milliseconds beatEvery{1000};

/// A server that may be another one is none: what waits for the right one waits on.
bool isAway(const StoreError& error)
{
    return error.kind == StoreErrorKind::Unavailable || error.kind == StoreErrorKind::NotTrusted;
}

/// What can come right by itself: it is looked for again and again.
bool mayComeBack(const StoreError& error)
{
    return isAway(error) || error.kind == StoreErrorKind::Moved;
}

} // namespace

OpenStore::OpenStore(const StoreSettings& settings, const HeadKeeper& keeper, const Clock& clock,
                     const Catalogue& catalogue)
    : m_settings(settings)
    , m_keeper(keeper)
    , m_clock(clock)
    , m_catalogue(catalogue)
    , m_tries(QRandomGenerator::global()->generate())
{
    m_beat.setInterval(beatEvery);
    connect(&m_beat, &QTimer::timeout, this, &OpenStore::beat);
    m_follow.setSingleShot(true);
    connect(&m_follow, &QTimer::timeout, this, &OpenStore::follow);
    m_looking.setMaxThreadCount(1);
    // Emitted by the thread that looked.
    connect(
        this, &OpenStore::sending, this,
        [this] {
            m_sending = m_away;
            tell();
        },
        Qt::QueuedConnection);
    connect(
        this, &OpenStore::looked, this,
        [this](bool answers, const QString& objection, bool crowded) {
            m_looks = false;
            if (answers) {
                comeBack();
                return;
            }
            leaveInPeace(crowded);
            const bool wasSending = std::exchange(m_sending, false);
            const bool news = m_away && !m_moved && m_hindrance != objection;
            if (news)
                m_hindrance = objection;
            if (wasSending || news)
                tell();
        },
        Qt::QueuedConnection);
    connect(
        this, &OpenStore::foundDamage, this,
        [this] {
            const StoreError error = storeError({SqlFault::Kind::Corrupt, {}});
            tellDamage(&error);
        },
        Qt::QueuedConnection);
    m_error = {StoreErrorKind::Unavailable,
               QStringLiteral("The database was not opened yet. Nothing was changed.")};
    if (settings.kind == StoreKind::PostgreSql && !settings.standby.isEmpty())
        m_standby = std::make_unique<Standby>(settings.standby, keeper, clock, catalogue, m_timers);
    if (m_standby && !settings.keptPhotos.isEmpty())
        m_photos = std::make_unique<PhotoOutbox>(settings.keptPhotos);
}

OpenStore::~OpenStore()
{
    m_ends = true;
    m_looking.waitForDone();
}

Workshop* OpenStore::workshop(bool askedBefore)
{
    if (m_away)
        return m_standby && m_standby->isWorking() ? &m_standby->workshop(askedBefore) : nullptr;
    return m_workshop.get();
}

Store& OpenStore::store()
{
    return m_away ? m_standby->store() : *m_server;
}

// From here on somebody waits for it at the wall.
tl::expected<std::unique_ptr<Store>, StoreError> OpenStore::openedStore() const
{
    StoreSettings settings = m_settings;
    // One that was made anew and is still empty would be given a site of its own, and the wall
    // would be empty, with all that is kept here out of sight.
    const auto remembered = m_standby && settings.site.isEmpty() ? m_standby->siteHere() : SiteId{};
    if (!remembered.isEmpty()) {
        settings.site = remembered;
        settings.siteIsRemembered = true;
    }
    auto store = Store::open(settings, m_keeper);
    if (store)
        (*store)->ledger().connection().addUpWaits();
    return store;
}

tl::expected<void, StoreError> OpenStore::listen(Store& store)
{
    connect(&store.feed(), &ChangeFeed::changed, this, &OpenStore::changed);
    connect(&store.feed(), &ChangeFeed::siteChanged, this, &OpenStore::siteChanged);
    return store.feed().start();
}

std::unique_ptr<Ledger> OpenStore::doorOf(Store& server)
{
    if (m_photos)
        return std::make_unique<PhotosFirstLedger>(server.ledger(), *m_photos);
    return std::make_unique<ForwardingLedger>(server.ledger());
}

tl::expected<void, StoreError> OpenStore::use(std::unique_ptr<Store> server)
{
    if (auto listening = listen(*server); !listening)
        return listening;
    m_server = std::move(server);
    // It was closed meanwhile, and is what it was.
    if (m_isDamageTold)
        m_server->ledger().connection().markDamaged();
    if (const QString rights = warningOfRights(m_server->ledger().connection()); !rights.isEmpty())
        log::warn(rights);
    m_door = doorOf(*m_server);
    m_workshop = std::make_unique<Workshop>(*m_door, m_clock, m_catalogue, m_timers);
    m_away = false;
    m_moved = false;
    m_sending = false;
    m_error = {};
    m_hindrance.clear();
    m_tries.reset();
    if (m_standby && m_standby->isOpen())
        followFromNowOn();
    lookOverFileSoon();
    return {};
}

void OpenStore::followFromNowOn()
{
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

tl::expected<MigrationOutcome, StoreError> OpenStore::open()
{
    if (!m_settings.hindrance.isEmpty()) {
        m_error = {StoreErrorKind::Unavailable, m_settings.hindrance};
        return tl::unexpected(m_error);
    }
    const bool isServer = m_settings.kind == StoreKind::PostgreSql;
    if (isServer)
        m_beat.start();
    auto store = openedStore();
    if (!store && (!isServer || !mayComeBack(store.error()))) {
        m_error = store.error();
        if (mayOpenLater())
            m_beat.start();
        else
            m_beat.stop();
        return tl::unexpected(m_error);
    }
    if (store) {
        const MigrationOutcome outcome = (*store)->ledger().opening();
        const bool isUsable = openStandby(**store);
        // Photos take their time, and work goes on with the copy meanwhile.
        m_sending =
            isUsable && !m_standby->knownAt().isNull() && m_photos && !m_photos->waiting().empty();
        const auto sent = isUsable && !m_sending ? handBack(**store) : Done();
        if (m_sending || !sent) {
            m_hindrance = sent ? QString() : sent.error().words;
            goAway({StoreErrorKind::Unavailable,
                    QStringLiteral("What was kept here is on its way to the server.")});
            return outcome;
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
        const auto known = m_standby ? m_standby->open(m_settings.site) : Done();
        // Sealed with other keys than this kiosk has: those may be the server's new ones, which is
        // known once it answers.
        if (!known)
            log::warn(QStringLiteral("standby: %1").arg(known.error().words));
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
    log::warn(QStringLiteral("the server is away: %1").arg(why.words));
    m_away = true;
    m_awaySince = m_clock.now();
    m_error = why;
    m_moved = why.kind == StoreErrorKind::Moved;
    // Somebody has to see to it, and what comes of that goes before.
    if (why.isToBeSeenTo || m_moved)
        m_hindrance = why.words;
    m_workshop.reset();
    m_door.reset();
    m_server.reset();
    // What would be done on the copy belongs to where the site is now.
    if (m_standby && m_moved)
        m_standby->rest();
    else if (m_standby)
        if (const auto working = workWithCopy(); !working) {
            log::error(QStringLiteral("standby: %1").arg(working.error().words));
            if (!why.isToBeSeenTo)
                m_error = working.error();
        }
    tellEverything();
}

tl::expected<void, StoreError> OpenStore::workWithCopy()
{
    auto working = m_standby->takeOver();
    if (working)
        working = listen(m_standby->store());
    if (working)
        connect(&m_standby->store().feed(), &ChangeFeed::changed, this, &OpenStore::tell);
    return working;
}

void OpenStore::tryCopyAgain()
{
    if (m_moved || !m_standby || !m_standby->isOpen() || m_standby->isWorking() ||
        m_standby->knownAt().isNull() || !workWithCopy())
        return;
    log::info(QStringLiteral("standby: the copy can be worked with now"));
    tellEverything();
}

bool OpenStore::mayOpenLater() const
{
    return m_settings.kind == StoreKind::Sqlite && m_error.kind == StoreErrorKind::Unavailable;
}

// Its disk may not have been there yet, or was full for a while.
void OpenStore::openLater()
{
    auto store = openedStore();
    const auto used = store ? use(std::move(*store)) : tl::unexpected(store.error());
    if (!used) {
        m_error = used.error();
        return;
    }
    m_beat.stop();
    log::info(QStringLiteral("the database could be opened now"));
    tellEverything();
}

void OpenStore::follow()
{
    if (m_away || !m_server || !m_standby)
        return;
    const bool isToBeTold = m_standby->follow(*m_server);
    if (lostMeanwhile())
        return;
    if (isToBeTold)
        tell();
    goOnFollowing();
}

void OpenStore::goOnFollowing()
{
    if (m_standby->isInStep())
        markKnown();
    else if (m_standby->hasToFollow())
        m_follow.start();
}

void OpenStore::markKnown()
{
    const bool first = m_standby->knownAt().isNull();
    m_standby->markKnown(m_clock.now());
    if (first)
        tell();
}

void OpenStore::tellEverything()
{
    tell();
    emit siteChanged();
    emit changed({});
}

void OpenStore::tell()
{
    ServerStanding standing;
    standing.shared = m_settings.kind == StoreKind::PostgreSql;
    if (m_server)
        standing.site = m_server->ledger().siteId();
    else if (m_standby && m_standby->isOpen())
        standing.site = m_standby->siteId();
    standing.away = m_away;
    standing.sending = m_sending;
    standing.hindrance = m_away || !m_standby ? m_hindrance : m_standby->owedWhy();
    standing.moved = m_moved;
    standing.awaySince = m_awaySince;
    if (m_standby) {
        standing.knownAt = m_standby->knownAt();
        standing.fault = m_standby->fault();
        if (auto kept = m_standby->kept())
            standing.kept = std::move(*kept);
        else
            standing.fault = kept.error().words;
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

tl::expected<std::vector<KeptRequest>, StoreError> OpenStore::noted()
{
    return m_standby ? m_standby->seen() : std::vector<KeptRequest>();
}

} // namespace ramplight
