// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/openstore.h"

#include "log/log.h"
#include "storage/sitekeycheck.h"
#include "storage/staffseal.h"

#include <chrono>
#include <optional>
#include <utility>

namespace ramplight {

namespace {

// With the patience of a kiosk (3 s) a server that is away is known within five.
constexpr std::chrono::milliseconds beatEvery{1000};
// Photos that wait although the server answers are looked for every so many beats.
constexpr int photosEvery = 10;
// Nobody waits for a photo on its way to the server, and lines are slow.
constexpr std::chrono::milliseconds photoPatience{10'000};

/// Through the connection of the thread that looks.
tl::expected<void, SqlFault> brought(PhotoOutbox& photos, Connection& server, const SiteId& site,
                                     const std::atomic<bool>& ends)
{
    server.waitFor(photoPatience);
    return photos.bringAll(server, site, [&ends] { return !ends; });
}

/// A server that may be another one is none: what waits for the right one waits on.
bool isAway(const StoreError& error)
{
    return error.kind == StoreErrorKind::Unavailable || error.kind == StoreErrorKind::NotTrusted;
}

/// From here on somebody waits for it at the wall.
tl::expected<std::unique_ptr<Store>, StoreError> openedStore(const StoreSettings& settings,
                                                             const HeadKeeper& keeper)
{
    auto store = Store::open(settings, keeper);
    if (store)
        (*store)->ledger().connection().addUpWaits();
    return store;
}

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
        this, &OpenStore::sending, this,
        [this] {
            m_sending = m_away;
            tell();
        },
        Qt::QueuedConnection);
    connect(
        this, &OpenStore::looked, this,
        [this](bool answers, const QString& distrust) {
            m_looks = false;
            if (answers) {
                comeBack();
                return;
            }
            const bool wasSending = std::exchange(m_sending, false);
            const bool news = m_away && m_hindrance != distrust;
            if (news)
                m_hindrance = distrust;
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
        m_standby = std::make_unique<Standby>(settings.standby, keeper, clock, catalogue);
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
    m_door = doorOf(*m_server);
    m_workshop = std::make_unique<Workshop>(*m_door, m_clock, m_catalogue);
    m_away = false;
    m_sending = false;
    m_error = {};
    m_hindrance.clear();
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
    auto store = openedStore(m_settings, m_keeper);
    if (!store && (!isServer || !isAway(store.error()))) {
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
        if (!known && known.error().kind == StoreErrorKind::WrongKeys) {
            m_beat.stop();
            m_error = known.error();
            return tl::unexpected(m_error);
        }
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
    if (why.kind == StoreErrorKind::NotTrusted)
        m_hindrance = why.words;
    m_workshop.reset();
    m_door.reset();
    m_server.reset();
    if (m_standby)
        if (const auto working = workWithCopy(); !working) {
            log::error(QStringLiteral("standby: %1").arg(working.error().words));
            // That the server is not trusted has to be seen to first.
            if (why.kind != StoreErrorKind::NotTrusted)
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
    if (!m_standby || !m_standby->isOpen() || m_standby->isWorking() ||
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
    auto store = openedStore(m_settings, m_keeper);
    const auto used = store ? use(std::move(*store)) : tl::unexpected(store.error());
    if (!used) {
        m_error = used.error();
        return;
    }
    m_beat.stop();
    log::info(QStringLiteral("the database could be opened now"));
    tellEverything();
}

void OpenStore::beat()
{
    if (m_away) {
        // Its disk may have been full for a while.
        tryCopyAgain();
        look();
        return;
    }
    if (!m_server) {
        if (mayOpenLater())
            openLater();
        return;
    }
    if (++m_beats % photosEvery == 0) {
        // Its disk may have been full for a while.
        if (m_standby && !m_standby->isOpen() && openStandby(*m_server)) {
            followFromNowOn();
            sendOwed();
        }
        bringPhotos();
        if (m_owes && m_standby->isOpen())
            sendOwed();
    }
    const auto seal = keptStaffSeal(m_server->ledger().connection(), m_server->ledger().siteId());
    if (lostMeanwhile() || !seal || !m_standby || !m_standby->isOpen())
        return;
    if (*seal != m_staffSeal) {
        const auto current =
            isCurrent(m_server->ledger().connection(), m_server->ledger().siteId(), m_keeper);
        if (current && !*current) {
            // Nothing more is sealed here; what is done meanwhile waits for the new key file.
            m_hindrance = wrongKeys(m_keeper).words;
            goAway({StoreErrorKind::WrongKeys, m_hindrance});
            return;
        }
        m_staffSeal = *seal;
        m_standby->wantSite();
    }
    goOnFollowing();
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

void OpenStore::look()
{
    if (std::exchange(m_looks, true))
        return;
    // A server that hangs takes the whole limit to say nothing: nobody here waits for that. Photos
    // go first and from that thread, because each takes its time: until they are there, work goes
    // on with the copy.
    const std::optional<SiteId> site =
        m_photos && m_standby->isOpen() ? std::optional(m_standby->siteId()) : std::nullopt;
    m_looking.start([this, site] {
        const auto server = Connection::open(m_settings);
        bool answers = server.has_value();
        if (answers && site && !m_photos->waiting().empty()) {
            emit sending({});
            // What the server refuses is told by who asks it for the entries that name them.
            if (const auto sent = brought(*m_photos, **server, *site, m_ends); !sent)
                answers = sent.error().kind != SqlFault::Kind::Lost;
        }
        const bool isDistrusted = !server && server.error().kind == StoreErrorKind::NotTrusted;
        emit looked(answers, isDistrusted ? server.error().words : QString(), {});
    });
}

void OpenStore::bringPhotos()
{
    // Kept while only their own connection was away, and named by nobody yet.
    if (!m_photos || !m_standby->isOpen() || std::exchange(m_looks, true))
        return;
    m_looking.start([this, site = m_standby->siteId()] {
        if (!m_photos->waiting().empty())
            if (const auto server = Connection::open(m_settings))
                if (const auto sent = brought(*m_photos, **server, site, m_ends); !sent)
                    log::warn(QStringLiteral("photos kept here: %1").arg(sent.error().text));
        emit looked(false, {}, {});
    });
}

bool OpenStore::openStandby(Store& server)
{
    if (!m_standby)
        return false;
    const auto opened = m_standby->open(server);
    // Work goes on, as long as the server answers; what is wrong is told.
    if (!opened)
        log::error(QStringLiteral("standby: %1").arg(opened.error().words));
    return opened.has_value();
}

tl::expected<void, StoreError> OpenStore::handBack(Store& server)
{
    const std::unique_ptr<Ledger> door = doorOf(server);
    auto sent = m_standby->handBack(server, *door);
    m_owes = !sent;
    if (sent || !m_standby->knownAt().isNull() || m_standby->isWorking())
        return sent;
    // There is no copy to go on with: it is shown as waiting, and sent again from time to time.
    log::error(QStringLiteral("standby: %1").arg(sent.error().words));
    return {};
}

void OpenStore::sendOwed()
{
    if (const auto sent = handBack(*m_server); !sent)
        log::warn(QStringLiteral("standby: %1").arg(sent.error().words));
    tell();
}

void OpenStore::comeBack()
{
    if (!m_away)
        return;
    auto server = openedStore(m_settings, m_keeper);
    auto back = server ? Done() : tl::unexpected(server.error());
    if (back && openStandby(**server))
        back = handBack(**server);
    else if (back && m_standby && m_standby->isWorking())
        back = tl::unexpected(StoreError{StoreErrorKind::Unavailable, m_standby->fault()});
    const bool lost = server && (*server)->ledger().connection().isLost();
    if (back)
        back = use(std::move(*server));
    if (!back) {
        log::warn(QStringLiteral("the server is not back: %1").arg(back.error().words));
        m_sending = false;
        const bool answers = server || server.error().kind != StoreErrorKind::Unavailable;
        m_hindrance = answers && !lost ? back.error().words : QString();
        tell();
        return;
    }
    log::info(QStringLiteral("the server is back"));
    tellEverything();
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
    standing.hindrance = m_hindrance;
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
