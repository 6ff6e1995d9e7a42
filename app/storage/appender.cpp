// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/appender.h"

#include "domain/eventcodec.h"
#include "domain/jsontext.h"
#include "domain/retention.h"
#include "log/log.h"
#include "storage/entrytable.h"
#include "storage/readtables.h"
#include "storage/sitekeycheck.h"
#include "storage/sitemove.h"
#include "storage/staffseal.h"
#include "storage/stafftables.h"

#include <algorithm>
#include <utility>

namespace ramplight {
namespace {

StoreError inconsistent(const QString& what)
{
    return {StoreErrorKind::Damaged,
            QStringLiteral("The program handed over a change that does not fit together (%1). "
                           "Nothing was kept; report this.")
                .arg(what)};
}

} // namespace

Appender::Appender(Connection& connection, const SiteId& site, const HeadKeeper& keeper,
                   const Append& append, const SiteView& before)
    : m_connection(connection)
    , m_writer(connection)
    , m_site(site)
    , m_keeper(keeper)
    , m_append(append)
    , m_before(before)
{
}

bool Appender::changesRules() const
{
    return siteView().rulesSeq != m_before.rulesSeq;
}

QString Appender::hashOfCar(const CarId& car) const
{
    const QString stream = carStream(car);
    const auto it = std::find_if(m_heads.begin(), m_heads.end(),
                                 [&](const Head& head) { return head.stream == stream; });
    return it == m_heads.end() ? QString() : it->hash;
}

qint64 Appender::entryCount() const
{
    std::size_t count = m_append.site ? m_append.site->events.size() : 0;
    for (const CarAppend& car : m_append.cars)
        count += car.events.size();
    return count == 0 ? 0 : static_cast<qint64>(count) + 1; // and the heads
}

tl::expected<void, StoreError> Appender::write()
{
    if (m_append.command.isEmpty())
        return tl::unexpected(inconsistent(QStringLiteral("no command id")));
    if (auto stands = checkBasis(); !stands)
        return stands;
    m_writer.run(
        "INSERT INTO command (site, command, at, actor, entries) VALUES (?, ?, ?, ?, ?)",
        {m_site.text, m_append.command.text, m_append.at.ms, m_append.by.value, entryCount()});
    if (m_writer.good())
        if (auto written = writeEntries(); !written)
            return written;
    if (m_writer.good() && !m_heads.empty())
        if (auto written = writeHeads(); !written)
            return written;
    if (auto written = writeStaff(); !written)
        return written;
    writeReadTables();
    if (const char* notify = m_connection.dialect().notify(); notify != nullptr && !m_heads.empty())
        m_writer.run(notify, {QString::fromLatin1(changeChannel), m_site.text});
    if (!m_writer.good()) {
        log::warn(QStringLiteral("append: %1").arg(m_writer.fault().text));
        return tl::unexpected(storeError(m_writer.fault()));
    }
    return {};
}

tl::expected<Basis, StoreError> Appender::readBasis() const
{
    const auto seals = sealsNow(m_connection, m_site, m_keeper);
    if (!seals)
        return tl::unexpected(storeError(seals.error()));
    if (!seals->isCurrent)
        return tl::unexpected(wrongKeys(m_keeper));
    if (const auto here = checkIsHere(m_connection, m_site); !here)
        return tl::unexpected(storeError(here.error()));
    const auto heads = standingOf(m_connection, m_site, headsStream());
    if (!heads)
        return tl::unexpected(storeError(heads.error()));
    return Basis{seals->staffNumber, *heads};
}

tl::expected<void, StoreError> Appender::checkBasis()
{
    const auto conflict = tl::unexpected(storeError({SqlFault::Kind::EntryTaken, {}}));
    if (!m_basis) {
        auto basis = readBasis();
        if (!basis)
            return tl::unexpected(basis.error());
        m_basis = std::move(*basis);
    }
    if (m_append.siteSeq && *m_append.siteSeq != m_before.state.seq)
        return conflict;
    // The timers of a person lie in several streams: another kiosk may have let one run and stop
    // since this one was decided, and no two may overlap, nor begin at once.
    for (const CarAppend& car : m_append.cars)
        for (const CarEvent& event : car.events)
            if (const auto* started = std::get_if<WorkStarted>(&event)) {
                auto later = m_connection.run("SELECT 1 FROM work_segment WHERE site = ?"
                                              " AND person = ? AND end_at >= ? LIMIT 1",
                                              {m_site.text, started->person.value, started->at.ms});
                if (!later)
                    return tl::unexpected(storeError(later.error()));
                if (later->next())
                    return conflict;
            }
    return {};
}

Entry Appender::entryAfter(const Head& head, EncodedEvent event, Moment notBefore) const
{
    Entry entry;
    entry.stream = head.stream;
    entry.seq = head.seq + 1;
    entry.at = std::max(m_append.at, notBefore);
    entry.actor = m_append.by;
    entry.command = m_append.command;
    entry.type = std::move(event.type);
    entry.version = event.version;
    entry.body = std::move(event.body);
    entry.prevHash = head.hash;
    entry.hash = hashOf(m_site, entry);
    return entry;
}

tl::expected<Head, SqlFault> Appender::headBefore(const QString& stream, qint64 afterSeq) const
{
    const auto known = std::ranges::find(m_known, stream, &Head::stream);
    if (known != m_known.end() && known->seq == afterSeq)
        return *known;
    return headOf(m_connection, m_site, stream);
}

tl::expected<void, StoreError> Appender::writeStream(const QString& stream, qint64 afterSeq,
                                                     std::vector<EncodedEvent> events)
{
    auto found = headBefore(stream, afterSeq);
    if (!found)
        return tl::unexpected(storeError(found.error()));
    Head& head = *found;
    if (head.seq != afterSeq)
        return tl::unexpected(storeError({SqlFault::Kind::EntryTaken, {}}));
    for (EncodedEvent& event : events) {
        const Entry entry = entryAfter(head, std::move(event));
        if (!insertEntry(m_writer, m_site, entry))
            return {};
        head.seq = entry.seq;
        head.hash = entry.hash;
    }
    if (!events.empty())
        m_heads.push_back(std::move(head));
    return {};
}

tl::expected<void, StoreError> Appender::writeEntries()
{
    for (const CarAppend& car : m_append.cars) {
        if (car.after.id != car.car ||
            car.after.seq != car.afterSeq + static_cast<qint64>(car.events.size()))
            return tl::unexpected(
                inconsistent(QStringLiteral("state of car %1").arg(car.car.text)));
        std::vector<EncodedEvent> encoded;
        encoded.reserve(car.events.size());
        for (const CarEvent& event : car.events)
            encoded.push_back(encode(event));
        if (auto written = writeStream(carStream(car.car), car.afterSeq, std::move(encoded));
            !written)
            return written;
    }
    if (!m_append.site)
        return {};
    m_after = m_before;
    std::vector<EncodedEvent> encoded;
    qint64 seq = m_append.site->afterSeq;
    for (const SiteEvent& event : m_append.site->events) {
        encoded.push_back(encode(event));
        apply(m_after->state, {++seq, m_append.at, m_append.by, m_append.command, event});
        if (setsRules(event))
            m_after->rulesSeq = seq;
    }
    return writeStream(siteStream(), m_append.site->afterSeq, std::move(encoded));
}

tl::expected<void, StoreError> Appender::writeHeads()
{
    auto& [head, lastAt] = m_basis->heads;
    const Heads heads = sealHeads(m_keeper, m_site, head.seq + 1, head.hash,
                                  {m_heads, {}, {}, m_staffSealed, m_basis->staffNumber});
    // Each car is dated by its own last entry; where the clock was set back, a car that was written
    // later can be dated earlier. The heads of all cars are one stream and never go back.
    const Entry entry = entryAfter(
        head, {QString::fromLatin1(Heads::type), Heads::version, jsonText(heads)}, lastAt);
    insertEntry(m_writer, m_site, entry);
    head.seq = entry.seq;
    head.hash = entry.hash;
    lastAt = entry.at;
    const auto site = std::find_if(m_heads.begin(), m_heads.end(), [](const Head& written) {
        return written.stream == siteStream();
    });
    if (m_after && site != m_heads.end())
        m_after->hash = site->hash;
    return {};
}

tl::expected<void, StoreError> Appender::writeStaff()
{
    if ((m_append.names.empty() && !m_append.access) || !m_writer.good())
        return {};
    const auto isWhole = maySealStaffAgain(m_connection, m_site, m_keeper);
    if (!isWhole)
        return tl::unexpected(storeError(isWhole.error()));
    for (const Append::PersonName& name : m_append.names)
        m_writer.run("INSERT INTO person_name (site, person, name) VALUES (?, ?, ?)"
                     " ON CONFLICT (site, person) DO UPDATE SET name = excluded.name",
                     {m_site.text, name.person.value, name.name});
    if (m_append.access)
        writeAccess(m_writer, m_site, *m_append.access);
    if (!m_writer.good())
        return {};
    if (auto sealed = sealStaff(m_connection, m_site, m_keeper, *isWhole); !sealed)
        return tl::unexpected(storeError(sealed.error()));
    return {};
}

void Appender::writeReadTables()
{
    struct Work
    {
        QString car;
        SegmentRow row;
    };
    std::vector<CarRow> cars;
    std::vector<Work> work;
    for (const CarAppend& car : m_append.cars) {
        if (car.events.empty())
            continue;
        cars.push_back(carRowOf(car.after, siteView().state.rules, siteView().rulesSeq));
        for (const SegmentRow& row : segmentRowsOf(car.after, car.events))
            work.push_back({car.car.text, row});
        for (const CarEvent& event : car.events) {
            if (const PhotoId photo = photoOf(event); !photo.isEmpty())
                writePhoto(m_writer, m_site, car.car.text, photo);
            if (const auto* removed = std::get_if<PhotosRemoved>(&event))
                for (const PhotoId& photo : removed->photos)
                    erasePhoto(m_writer, m_site, car.car.text, photo);
        }
    }
    // What makes room comes first: cars that leave, places that change, timers that stop.
    std::stable_partition(cars.begin(), cars.end(), [](const CarRow& row) { return row.gone; });
    std::stable_partition(work.begin(), work.end(),
                          [](const Work& stretch) { return stretch.row.endAt != 0; });
    if (cars.size() > 1)
        for (const CarRow& row : cars)
            clearBay(m_writer, m_site, row.car);
    for (const CarRow& row : cars)
        writeCar(m_writer, m_site, row);
    for (const Work& stretch : work)
        writeSegment(m_writer, m_site, stretch.car, stretch.row);
}

} // namespace ramplight
