// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/verifier.h"

#include "domain/audit.h"
#include "storage/staffseal.h"

#include <algorithm>
#include <utility>

namespace ramplight {
namespace {

QString entryName(const QString& stream, qint64 seq)
{
    return QStringLiteral("%1, entry %2").arg(stream).arg(seq);
}

/// Corrected minutes are whole ones.
constexpr qint64 halfAMinuteMs = 30'000;

} // namespace

Verifier::Verifier(SqlLedger& ledger, PhotoCheck photoCheck, KnownCatalogues known)
    : m_ledger(ledger)
    , m_photoCheck(std::move(photoCheck))
    , m_known(std::move(known))
{
}

const LedgerFault* VerifyReport::damage() const
{
    const auto found = std::ranges::find_if(faults, [](const LedgerFault& fault) {
        return fault.kind != FaultKind::AgainstRules && fault.kind != FaultKind::Newer;
    });
    return found == faults.end() ? nullptr : &*found;
}

const LedgerFault* VerifyReport::newer() const
{
    const auto found = std::ranges::find(faults, FaultKind::Newer, &LedgerFault::kind);
    return found == faults.end() ? nullptr : &*found;
}

QString databaseFaults()
{
    return QStringLiteral("database");
}

QString schemaFaults()
{
    return QStringLiteral("schema");
}

void Verifier::fault(const QString& where, const QString& words, FaultKind kind)
{
    m_report.faults.push_back({where, words, kind});
}

void Verifier::againstRules(const QString& where, const QString& words)
{
    fault(where, words, FaultKind::AgainstRules);
}

void Verifier::unread(const Entry& entry, const EventFault& why)
{
    fault(entryName(entry.stream, entry.seq), why.words,
          why.isNewer ? FaultKind::Newer : FaultKind::Damage);
}

VerifyReport Verifier::run()
{
    m_report = {};
    m_named.clear();
    m_staffNumber = 0;
    m_sites.clear();
    m_rules.clear();
    m_photos.clear();
    m_stretches.clear();
    m_bays.clear();
    m_stockNumbers.clear();
    m_closedAs.clear();
    m_joined.clear();
    m_removed.clear();
    Connection& connection = m_ledger.connection();
    const auto view = Transaction::read(connection);
    if (!view) {
        fault(databaseFaults(), storeError(view.error()).words);
        return m_report;
    }
    for (const QString& words : connection.dialect().ownCheck(connection.database()))
        fault(databaseFaults(), words);
    for (const QString& words : connection.dialect().foreignSchema(connection.database()))
        fault(schemaFaults(), words);

    const auto streams = streamsOf(connection, m_ledger.siteId());
    if (!streams) {
        fault(QStringLiteral("ledger"), storeError(streams.error()).words);
        return m_report;
    }
    checkHeadsStream();
    checkSiteStream();
    // All else rests on the two.
    if (m_report.newer() != nullptr)
        return m_report;
    std::set<QString> cars;
    for (const QString& stream : *streams) {
        if (const CarId car = carOfStream(stream); !car.isEmpty()) {
            checkCar(stream);
            cars.insert(car.text);
        } else if (stream != siteStream() && stream != headsStream()) {
            fault(stream, QStringLiteral("no stream of that name belongs to a site"));
        }
    }
    m_report.cars = static_cast<int>(cars.size());
    for (const auto& [stream, heads] : m_named)
        if (!streams->contains(stream))
            fault(stream, QStringLiteral("the whole stream is missing: the heads know %1 entries")
                              .arg(heads.rbegin()->first));
    checkLeftOverRows(cars);
    checkAcrossCars();
    checkTwins();
    checkCommands();
    checkStaff();
    checkPhotos();
    return m_report;
}

std::vector<Entry> Verifier::entriesOf(const QString& stream)
{
    auto entries = entriesAfter(m_ledger.connection(), m_ledger.siteId(), stream, 0);
    if (!entries) {
        fault(stream, storeError(entries.error()).words);
        return {};
    }
    m_report.entries += static_cast<qint64>(entries->size());
    return std::move(*entries);
}

void Verifier::checkChain(const std::vector<Entry>& entries)
{
    Head head;
    Moment lastAt;
    qint64 position = 0;
    for (const Entry& entry : entries) {
        const QString where = entryName(entry.stream, entry.seq);
        if (auto follows = follow(m_ledger.siteId(), head, {entry}); !follows)
            fault(where, follows.error());
        if (entry.at < lastAt)
            fault(where, QStringLiteral("it is dated before the one in front of it"));
        if (entry.position <= position)
            fault(where, QStringLiteral("it was put in front of an earlier one"));
        // Each entry is judged against the one before it as it is, so that one fault is told once.
        head = {entry.stream, entry.seq, entry.hash};
        lastAt = entry.at;
        position = entry.position;
    }
}

void Verifier::checkHeadsStream()
{
    const std::vector<Entry> entries = entriesOf(headsStream());
    checkChain(entries);
    const HeadKeeper& keeper = m_ledger.keeper();
    if (!keeper.canSeal())
        m_report.notChecked.append(QStringLiteral(
            "the seals of the heads: the site's key file is not here, so a ledger that was "
            "written again as a whole would not be noticed"));
    qint64 before = 0;
    int age = 0;
    for (const Entry& entry : entries) {
        const QString where = entryName(entry.stream, entry.seq);
        const auto heads = headsOf(entry);
        if (!heads) {
            unread(entry, heads.error());
            continue;
        }
        if (keeper.canSeal()) {
            const Heads sealed = sealHeads(keeper.with(heads->key), m_ledger.siteId(), entry.seq,
                                           entry.prevHash, *heads);
            if (heads->seal.isEmpty())
                fault(where, QStringLiteral("it carries no seal"));
            else if (keeper.ageOf(heads->key) < 0)
                fault(where, QStringLiteral("it was sealed with another key (%1)").arg(heads->key));
            else if (heads->seal != sealed.seal)
                fault(where, QStringLiteral("its seal was not made with the site's key"));
            else if (keeper.ageOf(heads->key) < age)
                fault(where, QStringLiteral("it was sealed with a key (%1) that was renewed before")
                                 .arg(heads->key));
            age = std::max(age, keeper.ageOf(heads->key));
        }
        if (heads->staffNumber < m_staffNumber)
            fault(where, QStringLiteral("names, PINs, badges and settings were put back to an "
                                        "earlier time before it: they had their seal number %1, "
                                        "and number %2 by then")
                             .arg(heads->staffNumber)
                             .arg(m_staffNumber));
        m_staffNumber = heads->staffNumber;
        for (const Head& head : heads->heads)
            m_named[head.stream][head.seq] = {head.hash, entry.command, before, entry.position};
        before = entry.position;
    }
}

void Verifier::checkAgainstHeads(const QString& stream, const std::vector<Entry>& entries)
{
    const auto found = m_named.find(stream);
    const std::map<qint64, NamedHead> named =
        found == m_named.end() ? std::map<qint64, NamedHead>{} : found->second;
    const qint64 last = entries.empty() ? 0 : entries.back().seq;
    for (const auto& [seq, head] : named)
        if (seq > last)
            fault(entryName(stream, seq),
                  QStringLiteral("the heads name it, but it is not in the ledger"));
    for (const Entry& entry : entries) {
        const QString where = entryName(stream, entry.seq);
        const auto head = named.lower_bound(entry.seq);
        if (head == named.end()) {
            fault(where, QStringLiteral("no head covers it: it was not written by the program"));
            continue;
        }
        if (head->first == entry.seq && head->second.hash != entry.hash)
            fault(where, QStringLiteral("the heads name another hash for it"));
        // Each command of the program writes its own heads, in the same transaction.
        if (head->second.command != entry.command)
            fault(where, QStringLiteral("the head that covers it is another command's: it was not "
                                        "written by the program"));
        if (entry.position <= head->second.after || entry.position >= head->second.before)
            fault(where, QStringLiteral("it does not stand where the heads have it"));
    }
}

void Verifier::checkSiteStream()
{
    const std::vector<Entry> entries = entriesOf(siteStream());
    checkChain(entries);
    checkAgainstHeads(siteStream(), entries);
    SiteState state;
    SiteState before;
    std::vector<SiteEnvelope> group;
    const auto judge = [&] {
        if (!group.empty())
            checkSiteRules(before, group);
        group.clear();
    };
    m_rules[0] = state.rules;
    for (const Entry& entry : entries) {
        const auto envelope = siteEnvelopeOf(entry);
        if (!envelope) {
            unread(entry, envelope.error());
            if (envelope.error().isNewer)
                return; // what follows rests on it
            continue;
        }
        if (!group.empty() && group.back().command != envelope->command)
            judge();
        if (group.empty())
            before = state;
        group.push_back(*envelope);
        apply(state, *envelope);
        if (setsRules(envelope->event))
            m_rules[entry.seq] = state.rules;
        m_sites.push_back({entry.position, state});
    }
    judge();
}

void Verifier::checkSiteRules(const SiteState& before, const std::vector<SiteEnvelope>& group)
{
    for (const QString& words : siteRulesBroken(before, group))
        againstRules(entryName(siteStream(), group.front().seq), words);
}

const SiteState& Verifier::siteAt(qint64 position) const
{
    static const SiteState nothing;
    const auto after =
        std::lower_bound(m_sites.begin(), m_sites.end(), position,
                         [](const SiteAt& site, qint64 p) { return site.position < p; });
    return after == m_sites.begin() ? nothing : std::prev(after)->state;
}

void Verifier::checkCar(const QString& stream)
{
    const std::vector<Entry> entries = entriesOf(stream);
    checkChain(entries);
    checkAgainstHeads(stream, entries);
    CarState car;
    car.id = carOfStream(stream);
    CarState before = car;
    std::vector<CarEnvelope> group;
    qint64 groupPosition = 0;
    const auto judge = [&] {
        if (!group.empty())
            checkRules(stream, before, group, groupPosition);
        group.clear();
    };
    for (const Entry& entry : entries) {
        const auto envelope = carEnvelopeOf(entry);
        if (!envelope) {
            unread(entry, envelope.error());
            if (envelope.error().isNewer)
                return; // what follows rests on it, and so do the read tables
            continue;
        }
        if (!group.empty() && group.back().command != envelope->command)
            judge();
        if (group.empty()) {
            before = car;
            groupPosition = entry.position;
        }
        group.push_back(*envelope);
        apply(car, *envelope);
        if (const auto* left = std::get_if<CarLeft>(&envelope->event);
            left != nullptr && left->how == LeavingHow::EnteredTwice)
            m_closedAs.insert({car.id.text, left->sameAs.text});
        else if (const auto* joined = std::get_if<DuplicateLinked>(&envelope->event))
            m_joined.insert({joined->other.text, car.id.text});
    }
    judge();
    checkReadTables(car);
    remember(car);
    for (const auto& [photo, fate] : car.photoFates)
        (fate.isRemoved() ? m_removed : m_photos).insert(photo);
}

void Verifier::remember(const CarState& car)
{
    for (const auto& [id, operation] : car.operations)
        for (const Segment& segment : operation.segments)
            m_stretches[segment.person].push_back(
                {segment.start.ms, segment.end.ms,
                 segment.start.plusMinutes(segment.correctedMinutes.value_or(0)).ms, car.id.text});
    const auto alone = [&](auto& taken, const auto& key, const QString& words) {
        const auto [other, isFree] = taken.emplace(key, car.id.text);
        if (!isFree)
            againstRules(carStream(car.id), words.arg(other->second));
    };
    if (!car.bay.isNull())
        alone(m_bays, car.bay, QStringLiteral("it stands in one bay with car %1"));
    if (!car.left && car.exists())
        alone(m_stockNumbers, car.identity.stockNumber,
              QStringLiteral("it has one stock number with car %1"));
}

void Verifier::checkAcrossCars()
{
    for (auto& [person, stretches] : m_stretches) {
        std::ranges::sort(stretches, {}, &Stretch::start);
        for (std::size_t i = 1; i < stretches.size(); ++i) {
            const Stretch& earlier = stretches[i - 1];
            const qint64 next = stretches[i].start;
            if (earlier.end == 0 || earlier.end > next ||
                earlier.correctedEnd > next + halfAMinuteMs)
                againstRules(carStream(CarId{stretches[i].car}),
                             QStringLiteral("person %1 works on it and on car %2 at one time")
                                 .arg(person.value)
                                 .arg(earlier.car));
        }
    }
}

void Verifier::checkTwins()
{
    for (const auto& twins : m_closedAs)
        if (!m_joined.contains(twins))
            againstRules(carStream(CarId{twins.first}),
                         QStringLiteral("it was closed as car %1, which was never joined with it")
                             .arg(twins.second));
    for (const auto& twins : m_joined)
        if (!m_closedAs.contains(twins))
            againstRules(carStream(CarId{twins.second}),
                         QStringLiteral("it was joined with car %1, which was never closed as it")
                             .arg(twins.first));
}

void Verifier::checkRules(const QString& stream, const CarState& before,
                          const std::vector<CarEnvelope>& group, qint64 position)
{
    for (const QString& words : rulesBroken(before, group, siteAt(position), m_known))
        againstRules(entryName(stream, group.front().seq), words);
}

void Verifier::checkCommands()
{
    // The heads may be later: their time never goes back.
    auto rows = m_ledger.connection().run(
        "SELECT command.command, command.entries, coalesce(written.entries, 0)"
        " FROM command LEFT JOIN"
        " (SELECT command, count(*) AS entries, min(actor) AS one, max(actor) AS other,"
        " min(CASE WHEN stream <> ? THEN at END) AS earliest,"
        " max(CASE WHEN stream <> ? THEN at END) AS latest"
        " FROM ledger WHERE site = ? GROUP BY command) written"
        " ON written.command = command.command"
        " WHERE command.site = ? AND (command.entries <> coalesce(written.entries, 0)"
        " OR one <> command.actor OR other <> command.actor"
        " OR earliest <> command.at OR latest <> command.at)",
        {headsStream(), headsStream(), m_ledger.siteId().text, m_ledger.siteId().text});
    if (!rows) {
        fault(QStringLiteral("commands"), storeError(rows.error()).words);
        return;
    }
    while (rows->next())
        fault(QStringLiteral("command %1").arg(rows->text(0)),
              rows->number(1) == rows->number(2)
                  ? QStringLiteral("its person or time is not that of its entries")
                  : QStringLiteral("it wrote %1 entries, the ledger has %2")
                        .arg(rows->number(1))
                        .arg(rows->number(2)));
}

void Verifier::checkStaff()
{
    Connection& connection = m_ledger.connection();
    const auto kept = keptStaffSeal(connection, m_ledger.siteId());
    const auto is = staffSeal(connection, m_ledger.siteId(), m_ledger.keeper());
    const auto number = staffNumber(connection, m_ledger.siteId());
    if (!kept || !is || !number)
        fault(QStringLiteral("staff tables"),
              storeError(!kept ? kept.error() : (!is ? is.error() : number.error())).words);
    else if (lostStaffSeal(connection, m_ledger.siteId()).value_or(true))
        fault(QStringLiteral("staff tables"),
              QStringLiteral("the seal of names, PINs, badges and settings is not there any more"));
    else if (kept->isEmpty())
        m_report.notChecked.append(
            QStringLiteral("names, PINs, badges and settings: they were never sealed"));
    else if (needsKey(*kept) && !m_ledger.keeper().canSeal())
        m_report.notChecked.append(
            QStringLiteral("names, PINs, badges and settings: the site's key is not here"));
    else if (*kept != *is)
        fault(QStringLiteral("staff tables"),
              QStringLiteral("a name, PIN, badge, wrong PIN or setting is not what was written"));
    else if (*number < m_staffNumber)
        fault(QStringLiteral("staff tables"),
              QStringLiteral("names, PINs, badges and settings are those of an earlier time, with "
                             "the seal of that time: it is number %1, and the ledger knows of "
                             "number %2")
                  .arg(*number)
                  .arg(m_staffNumber));
}

void Verifier::checkPhotos()
{
    m_report.photos = static_cast<int>(m_photos.size());
    m_report.photosRemoved = static_cast<int>(std::ranges::count_if(
        m_removed, [&](const PhotoId& photo) { return !m_photos.contains(photo); }));
    if (!m_photoCheck) {
        if (!m_photos.empty())
            m_report.notChecked.append(QStringLiteral("the photos: their folder was not given"));
        return;
    }
    const auto found = m_photoCheck(m_photos);
    if (!found) {
        fault(QStringLiteral("photos"), ramplight::words(found.error()));
        return;
    }
    const auto photoName = [](const PhotoId& photo) {
        return QStringLiteral("photo %1").arg(photo.text);
    };
    for (const PhotoId& photo : found->missing)
        fault(photoName(photo), QStringLiteral("it is missing, and nobody removed it"));
    for (const PhotoId& photo : found->damaged) {
        if (m_photos.contains(photo))
            fault(photoName(photo), QStringLiteral("its bytes cannot be read, or are not those "
                                                   "that were signed for"));
        else
            m_report.remarks.append(
                QStringLiteral("%1: it is damaged; no car needs it").arg(photoName(photo)));
    }
    for (const PhotoId& photo : found->orphans)
        m_report.remarks.append(QStringLiteral("%1: %2").arg(
            photoName(photo), m_removed.contains(photo)
                                  ? QStringLiteral("it was removed under the retention, "
                                                   "but its bytes are still here")
                                  : QStringLiteral("no entry names it")));
    for (const QString& name : found->unfinished)
        m_report.remarks.append(
            QStringLiteral("%1: left by a break while a photo was written").arg(name));
}

Verifier::PhotoCheck photoCheck(const PhotoVault& photos)
{
    return [&photos](const std::set<PhotoId>& kept) { return photos.verify(kept); };
}

} // namespace ramplight
