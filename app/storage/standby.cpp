// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/standby.h"

#include "log/log.h"
#include "storage/privatefile.h"
#include "storage/readtables.h"
#include "storage/staffseal.h"
#include "storage/storecopy.h"

#include <QDir>
#include <QFile>

#include <utility>

namespace ramplight {

namespace {

// Taken over between two requests of the screens.
constexpr int carsAtOnce = 8;
// A mirror with this many times the cars of the wall is made anew.
constexpr int mostOfWall = 3;
constexpr int fewCars = 100;
// So long the moment on the disk may lag behind.
constexpr qint64 knownEveryMs = 60'000;
constexpr const char* outboxName = "outbox.sqlite";

} // namespace

Standby::Standby(QString folder, HeadKeeper keeper, const Clock& clock, const Catalogue& catalogue)
    : m_folder(std::move(folder))
    , m_keeper(std::move(keeper))
    , m_clock(clock)
    , m_catalogue(catalogue)
{
}

Standby::~Standby() = default;

QString Standby::path(const char* name) const
{
    return m_folder + QLatin1Char('/') + QLatin1StringView(name);
}

tl::expected<std::vector<KeptRequest>, StoreError> Standby::keptIn(const QString& folder,
                                                                   const SiteId& site)
{
    const QString file = folder + QLatin1Char('/') + QLatin1StringView(outboxName);
    if (!QFile::exists(file))
        return std::vector<KeptRequest>{};
    const auto outbox = Outbox::open(file, site);
    if (!outbox)
        return tl::unexpected(outbox.error());
    return (*outbox)->kept();
}

tl::expected<void, StoreError> Standby::open(const SiteId& site)
{
    if (isOpen() && (site.isEmpty() || m_mirror->siteId() == site))
        return {};
    const QString file = path("mirror.sqlite");
    if (site.isEmpty() && !QFile::exists(file))
        return tl::unexpected(StoreError{
            StoreErrorKind::Unavailable,
            QStringLiteral("The workshop's server does not answer, and this kiosk knows nothing of "
                           "the workshop yet. It goes on trying; check the server and the line.")});
    m_mirror.reset();
    QDir().mkpath(m_folder);
    QFile::setPermissions(m_folder, QFile::ReadOwner | QFile::WriteOwner | QFile::ExeOwner);
    auto mirror = Mirror::open(file, m_keeper, site);
    if (!mirror && !site.isEmpty()) {
        // It holds nothing that the server has not.
        log::warn(QStringLiteral("mirror: %1; it is made anew").arg(mirror.error().words));
        removeDatabase(file);
        mirror = Mirror::open(file, m_keeper, site);
    }
    if (!mirror)
        return tl::unexpected(mirror.error());
    auto outbox = Outbox::open(path(outboxName), (*mirror)->siteId());
    if (!outbox)
        return tl::unexpected(outbox.error());
    const auto known = (*outbox)->knownAt();
    if (!known)
        return tl::unexpected(known.error());
    m_mirror = std::move(*mirror);
    m_outbox = std::move(*outbox);
    m_knownAt = m_keptKnownAt = *known;
    return {};
}

void Standby::want(const QStringList& cars)
{
    if (cars.isEmpty())
        m_allWanted = true;
    for (const QString& car : cars)
        if (!m_wanted.contains(car))
            m_wanted.append(car);
}

void Standby::follow(Store& server)
{
    if (!isOpen())
        return;
    const auto done = [&]() -> tl::expected<void, StoreError> {
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
            m_allWanted = false;
            if (here->size() > mostOfWall * wall->size() + fewCars) {
                const SiteId site = m_mirror->siteId();
                m_mirror.reset();
                removeDatabase(path("mirror.sqlite"));
                m_allWanted = m_siteWanted = true;
                return open(site);
            }
            want(*wall);
            if (!here->isEmpty())
                want(*here);
        }
        const QStringList cars = m_together ? m_wanted : m_wanted.mid(0, carsAtOnce);
        if (cars.isEmpty())
            return {};
        if (auto taken = m_mirror->takeCars(server.ledger(), cars); !taken)
            return taken;
        m_wanted = m_wanted.mid(cars.size());
        m_together = false;
        return {};
    }();
    if (done || server.ledger().connection().isLost())
        return;
    log::warn(QStringLiteral("mirror: %1").arg(done.error().words));
    if (m_together) {
        // The next change tries again.
        m_wanted.clear();
        m_together = false;
    } else {
        m_together = m_allWanted = true;
    }
}

void Standby::markKnown(Moment now)
{
    m_knownAt = now;
    if (!isOpen() || now.ms - m_keptKnownAt.ms < knownEveryMs)
        return;
    if (m_outbox->setKnownAt(now))
        m_keptKnownAt = now;
}

tl::expected<void, StoreError> Standby::makeWorkingCopy()
{
    const QString file = path("working.sqlite");
    if (!QFile::exists(file)) {
        const QString fresh = path("working.new.sqlite");
        removeDatabase(fresh);
        StoreSettings mirror;
        mirror.file = m_mirror->file();
        if (auto made = makePrivateFile(fresh); !made)
            return made;
        if (auto copied = snapshot(mirror, fresh); !copied)
            return copied;
        removeDatabase(file);
        if (!QFile::rename(fresh, file))
            return tl::unexpected(StoreError{StoreErrorKind::Unavailable,
                                             QStringLiteral("%1 cannot be written.").arg(file)});
    }
    StoreSettings settings;
    settings.file = file;
    settings.site = m_mirror->siteId();
    auto store = Store::open(settings, m_keeper);
    if (!store) {
        removeDatabase(file);
        return tl::unexpected(store.error());
    }
    m_working = std::move(*store);
    m_working->setCopy(staffIsSealed(m_working->ledger().connection(), settings.site, m_keeper));
    return {};
}

tl::expected<void, StoreError> Standby::takeOver()
{
    if (isWorking())
        return {};
    if (!isOpen() || m_knownAt.isNull())
        return tl::unexpected(StoreError{
            StoreErrorKind::Unavailable,
            QStringLiteral("The workshop's server does not answer, and this kiosk does not know "
                           "the whole workshop yet. It goes on trying; check the server and the "
                           "line.")});
    if (auto noted = m_outbox->setKnownAt(m_knownAt); noted)
        m_keptKnownAt = m_knownAt;
    if (auto made = makeWorkingCopy(); !made)
        return made;
    playKept();
    m_ledger = std::make_unique<OutboxLedger>(m_working->ledger(), *m_outbox, m_clock);
    m_workshop = std::make_unique<Workshop>(*m_ledger, m_clock, m_catalogue);
    return {};
}

void Standby::playKept()
{
    const auto all = m_outbox->kept();
    if (!all)
        return;
    for (const KeptRequest& request : *all) {
        if (!request.waits())
            continue;
        const auto played = sendKept(request, m_working->ledger(), m_catalogue);
        if (!played || *played)
            log::warn(
                QStringLiteral("outbox: %1 does not fit what is known here").arg(request.number));
    }
}

tl::expected<void, StoreError> Standby::send(Store& server, Ledger& door)
{
    const auto all = m_outbox->kept();
    if (!all)
        return tl::unexpected(all.error());
    QStringList cars;
    std::vector<qint64> taken;
    for (const KeptRequest& request : *all) {
        if (!request.waits())
            continue;
        const auto sent = sendKept(request, door, m_catalogue);
        if (!sent)
            return tl::unexpected(sent.error());
        for (const KeptWork& work : request.works)
            if (!cars.contains(work.car.text))
                cars.append(work.car.text);
        if (!*sent) {
            taken.push_back(request.number);
            continue;
        }
        log::warn(QStringLiteral("outbox: %1 was refused").arg(request.number));
        if (auto noted = m_outbox->refuse(request.number, **sent, m_clock.now()); !noted)
            return tl::unexpected(noted.error());
    }
    // What goes out of the outbox stands in the mirror: were the server away again at once, nothing
    // of it would be missing here.
    if (!cars.isEmpty()) {
        auto followed = m_mirror->takeCars(server.ledger(), cars);
        if (!followed && !server.ledger().connection().isLost())
            if (const auto here = m_mirror->cars())
                followed = m_mirror->takeCars(server.ledger(), *here);
        if (!followed)
            return tl::unexpected(followed.error());
    }
    for (const qint64 number : taken)
        if (auto removed = m_outbox->remove(number); !removed)
            return tl::unexpected(removed.error());
    if (!taken.empty())
        log::info(
            QStringLiteral("outbox: %1 requests are in the server's ledger now").arg(taken.size()));
    return {};
}

tl::expected<void, StoreError> Standby::sendMarks(Store& server)
{
    if (!m_working)
        return {};
    const auto site = m_working->ledger().site();
    if (!site)
        return {};
    for (const auto& [person, about] : site->people) {
        const auto before = m_mirror->store().failures().marks(person);
        const auto marks = m_working->failures().marks(person);
        if (!before || !marks)
            continue;
        for (std::size_t i = before->size(); i < marks->size(); ++i) {
            const SignInMark& mark = marks->at(i);
            if (!server.failures().add(person, mark))
                return tl::unexpected(
                    StoreError{StoreErrorKind::Unavailable, QStringLiteral("no marks taken")});
            if (mark.kind != SignInMark::Kind::Lock)
                continue;
            Workshop house(server.ledger(), m_clock, m_catalogue);
            const CommandId id{QStringLiteral("pin-alarm/%1/%2").arg(person.value).arg(mark.at.ms)};
            if (const auto told = house.run(
                    SiteRequest{id, {}, site::RaisePinAlarm{person, static_cast<int>(i)}, {}});
                !told)
                log::warn(QStringLiteral("pin alarm: %1").arg(words(told.error())));
        }
    }
    return {};
}

tl::expected<void, StoreError> Standby::handBack(Store& server, Ledger& door)
{
    if (!isOpen())
        return {};
    // Left by a kiosk that ended while the server was away: wrong PINs are counted in it.
    if (!m_working && QFile::exists(path("working.sqlite")))
        if (auto made = makeWorkingCopy(); !made)
            log::warn(QStringLiteral("working copy: %1").arg(made.error().words));
    if (auto sent = send(server, door); !sent)
        return sent;
    if (auto marks = sendMarks(server); !marks)
        return marks;
    dropWorkingCopy();
    return {};
}

void Standby::dropWorkingCopy()
{
    m_workshop.reset();
    m_ledger.reset();
    m_working.reset();
    removeDatabase(path("working.sqlite"));
}

tl::expected<std::vector<KeptRequest>, StoreError> Standby::kept()
{
    return m_outbox ? m_outbox->kept() : std::vector<KeptRequest>();
}

tl::expected<void, StoreError> Standby::note(qint64 number, PersonId by)
{
    if (!m_outbox)
        return {};
    return m_outbox->note(number, by, m_clock.now());
}

} // namespace ramplight
