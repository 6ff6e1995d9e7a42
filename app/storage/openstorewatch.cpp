// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
// Whether the server answers, and what becomes of it.
#include "log/log.h"
#include "storage/openstore.h"
#include "storage/sitekeycheck.h"
#include "storage/sitemove.h"
#include "storage/staffseal.h"

#include <chrono>
#include <optional>
#include <utility>

namespace ramplight {

namespace {

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

} // namespace

void OpenStore::beat()
{
    if (m_away) {
        // Its disk may have been full for a while.
        tryCopyAgain();
        if (m_tries.isDue(m_clock.steadyMs()))
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
        if (m_standby && m_standby->isUntold())
            m_standby->want({});
        bringPhotos();
        if (m_owes && m_standby->isOpen())
            sendOwed();
    }
    Connection& server = m_server->ledger().connection();
    const SiteId site = m_server->ledger().siteId();
    if (const auto here = checkIsHere(server, site);
        !here && here.error().kind == SqlFault::Kind::Moved) {
        goAway(storeError(here.error()));
        return;
    }
    const auto seal = keptStaffSeal(server, site);
    if (lostMeanwhile() || !seal || !m_standby || !m_standby->isOpen())
        return;
    if (*seal != m_staffSeal) {
        const auto current = isCurrent(server, site, m_keeper);
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
        const bool says = !server && server.error().isToBeSeenTo;
        emit looked(answers, says ? server.error().words : QString(),
                    !server && server.error().crowded, {});
    });
}

void OpenStore::leaveInPeace(bool crowded)
{
    if (crowded)
        m_tries.refused(m_clock.steadyMs());
    else
        m_tries.reset();
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
        emit looked(false, {}, false, {});
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
    m_owes = !sent || !m_standby->owedWhy().isEmpty();
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
    auto server = openedStore();
    auto back = server ? Done() : tl::unexpected(server.error());
    if (back && openStandby(**server))
        back = handBack(**server);
    else if (back && m_standby && m_standby->isWorking())
        back = tl::unexpected(StoreError{StoreErrorKind::Unavailable, m_standby->fault()});
    leaveInPeace(!server && server.error().crowded);
    const bool lost = server && (*server)->ledger().connection().isLost();
    if (back)
        back = use(std::move(*server));
    if (!back && back.error().kind == StoreErrorKind::Moved) {
        if (!m_moved)
            goAway(back.error());
        return;
    }
    if (!back) {
        // It is tried each second.
        if (m_hindrance != back.error().words)
            log::warn(QStringLiteral("the server is not back: %1").arg(back.error().words));
        m_sending = false;
        const bool answers = !lost && (server || server.error().isToBeSeenTo ||
                                       server.error().kind != StoreErrorKind::Unavailable);
        m_moved = m_moved && !answers;
        if (!m_moved)
            m_hindrance = answers ? back.error().words : QString();
        tell();
        return;
    }
    log::info(QStringLiteral("the server is back"));
    tellEverything();
}

} // namespace ramplight
