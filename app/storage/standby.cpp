// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/standby.h"

#include "domain/say.h"
#include "log/log.h"
#include "storage/outboxrescue.h"
#include "storage/privatefile.h"
#include "storage/staffseal.h"
#include "storage/standbyfiles.h"
#include "storage/storecopy.h"
#include "storage/verifier.h"

#include <QDir>
#include <QFile>
#include <QFileInfo>

#include <utility>

namespace ramplight {

namespace {

tl::unexpected<StoreError> knowsNothingYet()
{
    return tl::unexpected(StoreError{
        StoreErrorKind::Unavailable,
        QStringLiteral("The workshop's server does not answer, and this kiosk knows nothing of "
                       "the workshop yet. It goes on trying; check the server and the line.")});
}

/// The only site that a database answers with; empty: with none, or with several.
SiteId onlySite(Connection& connection, const char* sql)
{
    auto rows = connection.run(sql);
    if (!rows || !rows->next())
        return {};
    const SiteId site{rows->text(0)};
    return rows->next() ? SiteId{} : site;
}

SiteId onlySite(const QString& file, const char* sql)
{
    // An empty one, or none, would be made a database.
    if (QFileInfo(file).size() == 0)
        return {};
    StoreSettings settings;
    settings.file = file;
    const auto connection = Connection::open(settings);
    return connection ? onlySite(**connection, sql) : SiteId{};
}

} // namespace

Standby::Standby(QString folder, HeadKeeper keeper, const Clock& clock, const Catalogue& catalogue,
                 std::shared_ptr<StartedTimers> timers)
    : m_folder(std::move(folder))
    , m_keeper(std::move(keeper))
    , m_clock(clock)
    , m_catalogue(catalogue)
    , m_timers(std::move(timers))
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
    const QString file = folder + QLatin1Char('/') + QLatin1StringView(standbyfiles::outbox);
    if (!QFile::exists(file))
        return std::vector<KeptRequest>{};
    const auto outbox = Outbox::open(file, site);
    if (!outbox)
        return tl::unexpected(outbox.error());
    return (*outbox)->kept();
}

tl::expected<void, StoreError> Standby::open(const SiteId& site)
{
    return openFor(site, false);
}

tl::expected<void, StoreError> Standby::open(Store& server)
{
    auto opened = openFor(server.ledger().siteId(), true);
    // No copy could be made of the mirror while the server was away.
    if (opened && !m_fault.isEmpty())
        opened = renewMirror(server);
    return opened;
}

SiteId Standby::siteHere() const
{
    // A copy of a server where nobody had set anything up yet is nobody's.
    const char* ofCopy = "SELECT site FROM site WHERE EXISTS"
                         " (SELECT 1 FROM ledger WHERE ledger.site = site.site)";
    const SiteId site = m_mirror ? onlySite(m_mirror->store().ledger().connection(), ofCopy)
                                 : onlySite(path(standbyfiles::mirror), ofCopy);
    if (!site.isEmpty() || m_outbox)
        return site;
    return onlySite(path(standbyfiles::outbox),
                    "SELECT DISTINCT site FROM kept WHERE site <> '' AND seen_at = 0");
}

void Standby::closeMirror()
{
    m_mirror.reset();
    m_knownAt = m_keptKnownAt = {};
    m_checked = m_followed = m_renewed = m_fellBehind = false;
    m_fault.clear();
}

tl::expected<void, StoreError> Standby::openFor(const SiteId& site, bool serverAnswers)
{
    if (isOpen() && (site.isEmpty() || m_mirror->siteId() == site))
        return {};
    closeMirror();
    if (site.isEmpty() && !QFile::exists(path(standbyfiles::mirror)) &&
        !QFile::exists(path(standbyfiles::outbox)))
        return knowsNothingYet();
    QDir().mkpath(m_folder);
    QFile::setPermissions(m_folder, QFile::ReadOwner | QFile::WriteOwner | QFile::ExeOwner);
    auto mirror = openMirror(site, serverAnswers);
    if (mirror) {
        m_mirror = std::move(*mirror);
        m_knownAt = m_keptKnownAt = m_mirror->knownAt();
    }
    // What is kept is shown and sent whatever became of the copy.
    const auto outbox = openOutbox(m_mirror ? m_mirror->siteId() : site);
    if (isOpen())
        return {};
    const StoreError& error = m_mirror ? outbox.error() : mirror.error();
    if (m_mirror || QFile::exists(path(standbyfiles::mirror)))
        m_fault = error.words;
    return tl::unexpected(error);
}

Standby::Mirrored Standby::openMirror(const SiteId& site, bool serverAnswers)
{
    const QString file = path(standbyfiles::mirror);
    if (site.isEmpty() && !QFile::exists(file))
        return knowsNothingYet();
    // An empty one would become that of a new site.
    if (site.isEmpty() && QFileInfo(file).size() == 0)
        return tl::unexpected(StoreError{StoreErrorKind::Damaged,
                                         say("%1 is empty. It was left as it is.").arg(file)});
    auto mirror = Mirror::open(file, m_keeper, site);
    if (mirror || !serverAnswers ||
        (mirror.error().kind != StoreErrorKind::Damaged &&
         mirror.error().kind != StoreErrorKind::WrongKeys))
        return mirror;
    // It holds nothing that the server has not.
    log::warn(QStringLiteral("mirror: %1; it is made anew").arg(mirror.error().words));
    removeDatabase(file);
    return Mirror::open(file, m_keeper, site);
}

tl::expected<void, StoreError> Standby::openOutbox(const SiteId& site)
{
    // What works with it goes on.
    if (m_outbox) {
        m_outbox->setSite(site);
        return {};
    }
    const QString file = path(standbyfiles::outbox);
    finishRescue(file);
    // Both are made together: where a copy was whole once, there was a file of what is kept.
    const bool isGone = !m_knownAt.isNull() && QFileInfo(file).size() == 0;
    auto outbox =
        isGone ? tl::unexpected(StoreError{StoreErrorKind::Damaged, {}}) : Outbox::open(file, site);
    if (!outbox && outbox.error().kind == StoreErrorKind::Damaged)
        outbox = rescueOutbox(file, site, m_clock.now());
    if (!outbox) {
        log::error(QStringLiteral("outbox: %1").arg(outbox.error().words));
        return tl::unexpected(outbox.error());
    }
    m_outbox = std::move(*outbox);
    takeKnownAtOver();
    return {};
}

// An older program kept it in the outbox.
void Standby::takeKnownAtOver()
{
    const Moment at = m_mirror ? m_outbox->formerKnownAt() : Moment{};
    if (at.isNull())
        return;
    const auto site = m_mirror->store().ledger().siteView();
    if (m_knownAt.isNull() && site && site->state.isSetUp() && m_mirror->setKnownAt(at))
        m_knownAt = m_keptKnownAt = at;
    m_outbox->forgetKnownAt();
}

tl::expected<std::vector<KeptRequest>, StoreError> Standby::keptOrRescued()
{
    auto all = m_outbox->kept();
    if (all || all.error().kind != StoreErrorKind::Damaged)
        return all;
    // It was damaged while the kiosk ran.
    const bool isInUse = isWorking();
    m_workshop.reset();
    m_ledger.reset();
    m_outbox.reset();
    if (auto opened = openOutbox(m_mirror->siteId()); !opened) {
        m_fault = opened.error().words;
        return tl::unexpected(opened.error());
    }
    if (isInUse)
        openDoor();
    return m_outbox->kept();
}

tl::expected<std::unique_ptr<Store>, StoreError> Standby::openCopy(const QString& file)
{
    StoreSettings settings;
    settings.file = file;
    settings.site = m_mirror->siteId();
    const auto lacksSeal = lacksStaffSeal(settings);
    if (!lacksSeal)
        return tl::unexpected(lacksSeal.error());
    if (*lacksSeal)
        return tl::unexpected(storeError({SqlFault::Kind::Corrupt, {}}));
    auto store = Store::open(settings, m_keeper);
    if (store)
        (*store)->setCopy(staffIsSealed((*store)->ledger().connection(), settings.site, m_keeper));
    return store;
}

// Out of the mirror; with the wrong PINs of a copy that a kiosk left which ended while its server
// was away.
tl::expected<void, StoreError> Standby::prepareCopy(const QString& file)
{
    if (!m_followed) {
        // An index that lacks an entry would hide it: somebody who left could still sign in.
        if (auto whole = checkMirror(); !whole)
            return whole;
        if (auto whole = m_mirror->checkHeads(); !whole)
            return whole;
    }
    StoreSettings mirror;
    mirror.file = m_mirror->file();
    if (auto made = makePrivateFile(file); !made)
        return made;
    if (auto copied = snapshot(mirror, file); !copied)
        return copied;
    const auto copy = openCopy(file);
    if (!copy)
        return tl::unexpected(copy.error());
    SqlLedger& ledger = (*copy)->ledger();
    // The cards of the wall have no hash: what lay on the disk is made again from the entries.
    if (!m_followed)
        if (const auto rebuilt = rebuildReadTables(ledger); !rebuilt)
            return tl::unexpected(rebuilt.error());
    // Those that the server has: what is counted from here on is to be told it.
    if (auto noted = ledger.connection().plain(
            QStringLiteral("CREATE TABLE known_mark AS SELECT person, number FROM pin_failure"));
        !noted)
        return tl::unexpected(storeError(noted.error()));
    const auto site = ledger.site();
    if (!site || !openLeftCopy())
        return {};
    std::vector<PersonId> marked{PersonId()}; // what is marked about several people
    for (const auto& [person, about] : site->people)
        marked.push_back(person);
    for (const PersonId person : marked) {
        const Marks marks = marksIn(*m_working, person);
        for (std::size_t i = marks.known; i < marks.all.size(); ++i)
            if (!(*copy)->failures().add(person, marks.all[i]))
                log::error(QStringLiteral("working copy: a wrong PIN could not be taken over"));
    }
    return {};
}

tl::expected<void, StoreError> Standby::makeWorkingCopy()
{
    const QString file = path(standbyfiles::working);
    const QString fresh = path(standbyfiles::freshWorking);
    removeDatabase(fresh);
    auto prepared = prepareCopy(fresh);
    m_working.reset();
    if (!prepared) {
        removeDatabase(fresh);
        return prepared;
    }
    removeDatabase(file);
    if (!QFile::rename(fresh, file))
        return tl::unexpected(StoreError{StoreErrorKind::Unavailable,
                                         QStringLiteral("%1 cannot be written.").arg(file)});
    auto opened = openCopy(file);
    if (!opened)
        return tl::unexpected(opened.error());
    m_working = std::move(*opened);
    return {};
}

tl::expected<void, StoreError> Standby::takeOver()
{
    if (isWorking())
        return {};
    const auto cannot = [](const QString& why) {
        return tl::unexpected(StoreError{
            StoreErrorKind::Unavailable,
            say("The workshop's server does not answer, and what this kiosk has for that time "
                "cannot be used: it knows no staff and no cars until the server is back. What was "
                "kept here is left as it is. It goes on trying; check the server and the line. %1")
                .arg(why)});
    };
    if (!m_fault.isEmpty())
        return cannot(m_fault);
    if (!isOpen() || m_knownAt.isNull())
        return tl::unexpected(StoreError{
            StoreErrorKind::Unavailable,
            QStringLiteral("The workshop's server does not answer, and this kiosk does not know "
                           "the whole workshop yet. It goes on trying; check the server and the "
                           "line.")});
    if (m_mirror->setKnownAt(m_knownAt))
        m_keptKnownAt = m_knownAt;
    if (auto made = makeWorkingCopy(); !made) {
        if (made.error().kind == StoreErrorKind::Damaged)
            m_fault = made.error().words;
        return cannot(made.error().words);
    }
    if (auto played = playKept(); !played)
        return cannot(played.error().words);
    openDoor();
    return {};
}

tl::expected<void, StoreError> Standby::playKept()
{
    const auto all = keptOrRescued();
    if (!all)
        return tl::unexpected(all.error());
    std::set<CommandId> before;
    for (const KeptRequest& request : *all) {
        if (!request.waits())
            continue;
        const auto played = sendKept(request, m_working->ledger(), m_catalogue, before);
        before.insert(idOf(request.asked));
        if (!played || *played)
            log::warn(
                QStringLiteral("outbox: %1 does not fit what is known here").arg(request.number));
    }
    return {};
}

void Standby::openDoor()
{
    m_ledger = std::make_unique<OutboxLedger>(m_working->ledger(), *m_outbox, m_clock, *m_timers);
    m_workshop = std::make_unique<Workshop>(*m_ledger, m_clock, m_catalogue, m_timers);
}

// Wrong PINs are counted in its file: that goes when they are sent.
void Standby::rest()
{
    m_workshop.reset();
    m_ledger.reset();
    m_working.reset();
}

void Standby::dropWorkingCopy()
{
    rest();
    removeDatabase(path(standbyfiles::working));
}

tl::expected<std::vector<KeptRequest>, StoreError> Standby::kept()
{
    return m_outbox ? m_outbox->kept() : std::vector<KeptRequest>();
}

tl::expected<std::vector<KeptRequest>, StoreError> Standby::seen()
{
    return m_outbox ? m_outbox->seen() : std::vector<KeptRequest>();
}

tl::expected<void, StoreError> Standby::note(qint64 number, PersonId by)
{
    if (!m_outbox)
        return {};
    return m_outbox->note(number, by, m_clock.now());
}

} // namespace ramplight
