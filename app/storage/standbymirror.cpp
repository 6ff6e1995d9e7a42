// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/say.h"
#include "evidence/durablefile.h"
#include "log/log.h"
#include "storage/privatefile.h"
#include "storage/readtables.h"
#include "storage/standby.h"
#include "storage/standbyfiles.h"

#include <QDateTime>
#include <QFile>
#include <QJsonDocument>
#include <QJsonObject>

#include <algorithm>
#include <map>
#include <utility>

// While the server answers: the mirror follows it, and is begun anew where it is not what the
// server has.
namespace ramplight {

namespace {

// Taken over between two requests of the screens.
constexpr int carsAtOnce = 8;
// A mirror with this many times the cars of the wall is made anew.
constexpr int mostOfWall = 3;
constexpr int fewCars = 100;
// So long the moment on the disk may lag behind.
constexpr qint64 knownEveryMs = 60'000;

/// One entry as the ledger has it, in a line.
QByteArray lineOf(const Entry& entry)
{
    const QJsonObject json{
        {QLatin1StringView("stream"), entry.stream},
        {QLatin1StringView("seq"), entry.seq},
        {QLatin1StringView("at"), entry.at.ms},
        {QLatin1StringView("actor"), entry.actor.value},
        {QLatin1StringView("command"), entry.command.text},
        {QLatin1StringView("type"), entry.type},
        {QLatin1StringView("version"), entry.version},
        {QLatin1StringView("body"), QString::fromUtf8(entry.body)},
        {QLatin1StringView("prev_hash"), entry.prevHash},
        {QLatin1StringView("hash"), entry.hash},
    };
    return QJsonDocument(json).toJson(QJsonDocument::Compact) + '\n';
}

} // namespace

void Standby::want(const QStringList& cars)
{
    if (cars.isEmpty())
        m_allWanted = true;
    if (m_fellBehind)
        m_allWanted = m_siteWanted = true;
    for (const QString& car : cars)
        if (!m_wanted.contains(car))
            m_wanted.append(car);
}

void Standby::wantSite()
{
    m_siteWanted = true;
    m_allWanted = m_allWanted || m_fellBehind;
}

tl::expected<void, StoreError> Standby::checkMirror()
{
    if (!m_checked)
        if (auto whole = m_mirror->check(); !whole)
            return whole;
    m_checked = true;
    return {};
}

tl::expected<void, StoreError> Standby::takeWanted(Store& server)
{
    if (auto whole = checkMirror(); !whole)
        return whole;
    if (m_siteWanted) {
        if (auto taken = m_mirror->takeSite(server.ledger()); !taken)
            return taken;
        m_siteWanted = false;
    }
    if (m_allWanted) {
        const auto wall = carsOnWall(server.ledger().connection(), server.ledger().siteId());
        const auto here = m_mirror->cars();
        if (!wall || !here)
            return tl::unexpected(wall ? here.error() : storeError(wall.error()));
        m_allWanted = m_fellBehind = false;
        if (here->size() > mostOfWall * wall->size() + fewCars)
            return renewMirror(server);
        // An empty list would mean all of them.
        for (const QStringList& some : {*wall, *here})
            if (!some.isEmpty())
                want(some);
    }
    const QStringList cars = m_together ? m_wanted : m_wanted.mid(0, carsAtOnce);
    if (cars.isEmpty())
        return {};
    if (auto taken = m_mirror->takeCars(server.ledger(), cars); !taken)
        return taken;
    m_wanted = m_wanted.mid(cars.size());
    m_together = false;
    return {};
}

bool Standby::follow(Store& server)
{
    if (!isOpen())
        return false;
    const bool wasUntold = std::exchange(m_untold, false);
    const auto taken = takeWanted(server);
    // The server has again what it lacked.
    if (taken && wasUntold)
        m_fault.clear();
    if (taken || server.ledger().connection().isLost())
        return false;
    log::warn(QStringLiteral("mirror: %1").arg(taken.error().words));
    if (m_untold)
        return true;
    if (isOpen() && taken.error().kind == StoreErrorKind::Damaged && !m_renewed) {
        if (const auto renewed = renewMirror(server); !renewed)
            log::error(QStringLiteral("mirror: %1").arg(renewed.error().words));
        return true;
    }
    if (m_together || taken.error().kind == StoreErrorKind::Damaged ||
        taken.error().kind == StoreErrorKind::TooNew) {
        fallBehind();
    } else {
        m_together = m_allWanted = true;
    }
    return !isOpen();
}

// Until the next change it is not as the server is, and does not say so.
void Standby::fallBehind()
{
    m_wanted.clear();
    m_allWanted = m_siteWanted = m_together = false;
    m_fellBehind = true;
}

tl::expected<void, StoreError> Standby::tellMissing(const std::vector<Entry>& missing)
{
    const auto cannotTell = [&](const QString& why) {
        return tl::unexpected(StoreError{
            StoreErrorKind::Unavailable,
            say("The server does not have %1 entries any more that this kiosk knows, as after it "
                "was brought back from an older backup, and the list of them cannot be written "
                "here. They stay in this kiosk's copy, which is not used until they are told: see "
                "to this machine's disk. %2")
                .arg(missing.size())
                .arg(why)});
    };
    KeptTrouble trouble;
    trouble.kind = TroubleKind::ServerOlder;
    std::map<CarId, KeptTrouble::Missing> cars;
    QByteArray lines;
    for (const Entry& entry : missing) {
        lines += lineOf(entry);
        log::error(
            QStringLiteral("the server does not have entry %1 of %2 any more: %3 by %4 at %5")
                .arg(entry.seq)
                .arg(entry.stream, entry.type)
                .arg(entry.actor.value)
                .arg(QDateTime::fromMSecsSinceEpoch(entry.at.ms, Qt::UTC).toString(Qt::ISODate)));
        KeptTrouble::Missing& car = cars[carOfStream(entry.stream)];
        ++car.entries;
        car.until = std::max(car.until, entry.at);
    }
    for (auto& [id, car] : cars) {
        car.car = id;
        if (const auto state = m_mirror->store().ledger().car(id); state && !id.isEmpty())
            car.stockNumber = state->identity.stockNumber;
        trouble.missing.push_back(car);
    }
    const Moment now = m_clock.now();
    const QString name =
        QDateTime::fromMSecsSinceEpoch(now.ms, Qt::UTC)
            .toString(QStringLiteral("'missing-on-server-'yyyyMMdd-HHmmss'.jsonl'"));
    const QString file = m_folder + QLatin1Char('/') + name;
    if (const auto kept = writeFileDurably(file, m_folder, lines); !kept)
        return cannotTell(QStringLiteral("%1: %2").arg(file, words(kept.error())));
    QFile::setPermissions(file, QFile::ReadOwner | QFile::WriteOwner);
    trouble.file = name;
    if (const auto told = m_outbox->tell(trouble, now); !told) {
        QFile::remove(file);
        return cannotTell(told.error().words);
    }
    return {};
}

tl::expected<void, StoreError> Standby::renewMirror(Store& server)
{
    const auto missing = m_mirror->missingOn(server.ledger());
    if (!missing && server.ledger().connection().isLost())
        return tl::unexpected(missing.error());
    if (!missing)
        log::error(QStringLiteral("mirror: %1").arg(missing.error().words));
    else if (!missing->empty())
        if (auto told = tellMissing(*missing); !told) {
            m_untold = true;
            fallBehind();
            m_knownAt = m_keptKnownAt = {};
            m_fault = told.error().words;
            return told;
        }
    m_untold = false;
    m_renewed = true;
    return beginMirror();
}

tl::expected<void, StoreError> Standby::beginMirror()
{
    log::warn(QStringLiteral("mirror: it is made anew"));
    const SiteId site = m_mirror->siteId();
    m_mirror.reset();
    m_knownAt = m_keptKnownAt = {};
    removeDatabase(path(standbyfiles::mirror));
    m_wanted.clear();
    m_allWanted = m_siteWanted = true;
    m_together = m_fellBehind = false;
    auto mirror = Mirror::open(path(standbyfiles::mirror), m_keeper, site);
    if (!mirror) {
        m_fault = mirror.error().words;
        return tl::unexpected(mirror.error());
    }
    m_mirror = std::move(*mirror);
    m_fault.clear();
    return {};
}

void Standby::markKnown(Moment now)
{
    m_knownAt = now;
    m_followed = true;
    m_renewed = false;
    if (!isOpen() || now.ms - m_keptKnownAt.ms < knownEveryMs)
        return;
    if (m_mirror->setKnownAt(now))
        m_keptKnownAt = now;
}

} // namespace ramplight
