// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/salvage.h"

#include "domain/jsontext.h"
#include "domain/retention.h"
#include "domain/say.h"
#include "storage/entrytable.h"
#include "storage/headcover.h"
#include "storage/laterentries.h"
#include "storage/ledgerrest.h"
#include "storage/readrows.h"
#include "storage/sitemove.h"
#include "storage/sqlledger.h"
#include "storage/staffseal.h"
#include "storage/storecopy.h"
#include "storage/verifier.h"

#include <algorithm>
#include <map>
#include <utility>

namespace ramplight {
namespace {

tl::unexpected<StoreError> backupFailed(const SqlFault& fault)
{
    return tl::unexpected(storeError(fault));
}

class Salvaging
{
public:
    Salvaging(Connection& damaged, SqlLedger& backup)
        : m_damaged(damaged)
        , m_backup(backup)
        , m_site(backup.siteId())
    {
    }

    tl::expected<Salvaged, StoreError> run()
    {
        if (auto read = readBackup(); !read)
            return tl::unexpected(read.error());
        m_rest = restOfLedger(m_damaged, m_site, m_known);
        m_inTable = carsInDamagedTable(m_damaged, m_site);
        sortOut();
        if (const QString newer = whatIsNewer(); !newer.isEmpty())
            return tl::unexpected(newerEntry(newer));
        auto hindrance = hindered();
        if (!hindrance)
            return tl::unexpected(hindrance.error());
        m_salvaged.hindrance = std::move(*hindrance);
        if (m_salvaged.hindrance.isEmpty())
            if (auto taken = take(); !taken)
                return tl::unexpected(taken.error());
        for (auto& [name, stream] : m_streams)
            stream.isLeft = stream.isLeft || !m_salvaged.hindrance.isEmpty();
        if (auto told = tellWhatIsLeft(); !told)
            return tl::unexpected(told.error());
        return std::move(m_salvaged);
    }

private:
    using Done = tl::expected<void, StoreError>;

    [[nodiscard]] Head knownHead(const QString& stream) const
    {
        const auto found = m_known.find(stream);
        return found == m_known.end() ? Head{stream, 0, {}} : found->second;
    }

    Done readBackup()
    {
        const auto streams = streamsOf(m_backup.connection(), m_site);
        if (!streams)
            return backupFailed(streams.error());
        for (const QString& stream : *streams) {
            auto head = headOf(m_backup.connection(), m_site, stream);
            if (!head)
                return backupFailed(head.error());
            m_known[stream] = std::move(*head);
        }
        return {};
    }

    /// By stream and by command.
    void sortOut()
    {
        for (const Entry& entry : m_rest.entries) {
            LaterCommand& command = m_commands[entry.command.text];
            if (entry.stream == headsStream()) {
                m_heads.push_back(&entry);
                command.heads = command.heads == nullptr ? &entry : nullptr;
                continue;
            }
            command.entries.push_back(&entry);
            LaterStream& stream = m_streams[entry.stream];
            stream.firstAt = stream.entries.empty() ? entry.position : stream.firstAt;
            stream.entries.push_back(&entry);
            stream.last = std::max(stream.last, entry.seq);
        }
        for (const auto& [name, lost] : m_rest.lost) {
            if (name == headsStream())
                continue;
            LaterStream& stream = m_streams[name];
            stream.isLeft = true;
            stream.firstAt =
                stream.entries.empty() ? lost.firstAt : std::min(stream.firstAt, lost.firstAt);
            stream.last = std::max(stream.last, *lost.seqs.rbegin());
        }
        // A car that its table knows further than the ledger does.
        for (const CarInTable& car : m_inTable) {
            const QString name = carStream(car.car);
            const auto found = m_streams.find(name);
            const qint64 last = found == m_streams.end() ? knownHead(name).seq : found->second.last;
            if (car.seq > last)
                m_streams[name].isLeft = true;
        }
        for (auto& [id, command] : m_commands)
            command.isWhole = isWhole(command);
        for (auto& [name, stream] : m_streams)
            stream.isLeft = stream.isLeft || !follows(name, stream);
    }

    [[nodiscard]] bool isSealed(const Entry& entry, const Heads& heads) const
    {
        return isSealedBy(m_backup.keeper(), m_site, entry, heads);
    }

    /// Its heads are sealed, and name just the entries that are there.
    [[nodiscard]] bool isWhole(LaterCommand& command) const
    {
        if (command.heads == nullptr)
            return false;
        const auto heads = headsOf(*command.heads);
        if (!heads || !isSealed(*command.heads, *heads))
            return false;
        std::map<QString, const Entry*> last;
        for (const Entry* entry : command.entries) {
            const Entry*& one = last[entry->stream];
            one = one == nullptr || one->seq < entry->seq ? entry : one;
        }
        command.sealed = *heads;
        return last.size() == heads->heads.size() &&
               std::ranges::all_of(heads->heads, [&](const Head& head) {
                   const auto found = last.find(head.stream);
                   return found != last.end() && found->second->seq == head.seq &&
                          found->second->hash == head.hash;
               });
    }

    /// Its entries follow the backup's last one, and can be read by this program.
    [[nodiscard]] bool follows(const QString& name, const LaterStream& stream) const
    {
        Head head = knownHead(name);
        return std::ranges::all_of(stream.entries, [&](const Entry* entry) {
            return faultOf(*entry).words.isEmpty() && follow(m_site, head, {*entry});
        });
    }

    /// The first entry that is whole and of a newer program: without it what was done since would
    /// seem lost. Empty: there is none.
    [[nodiscard]] QString whatIsNewer() const
    {
        for (const auto& [id, command] : m_commands)
            for (const Entry* entry : command.entries)
                if (const EventFault fault = faultOf(*entry);
                    fault.isNewer && command.isWhole && entry->hash == hashOf(m_site, *entry))
                    return QStringLiteral("entry %1 of %2: %3")
                        .arg(entry->seq)
                        .arg(entry->stream, fault.words);
        return {};
    }

    /// Why nothing can come; empty: something may.
    [[nodiscard]] tl::expected<QString, StoreError> hindered() const
    {
        if (auto sites = m_damaged.run("SELECT site FROM site")) {
            QStringList there;
            while (sites->next())
                there.append(sites->text(0));
            if (!there.isEmpty() && !there.contains(m_site.text))
                return say("The file is of another workshop.");
        }
        if (const auto away = movedAway(m_damaged, m_site); away && *away)
            return say("The workshop was moved away from that file; what it has of it is old.");
        const auto parted = hasParted();
        if (!parted)
            return tl::unexpected(parted.error());
        if (*parted)
            return say("The backup and the file have parted: what is in the file was not entered "
                       "after what is in the backup.");
        const auto isOurs = [this](const Entry* entry) {
            const auto heads = headsOf(*entry);
            return heads && isSealed(*entry, *heads);
        };
        if (!m_heads.empty() && std::ranges::none_of(m_heads, isOurs))
            return say("What is in the file was not sealed with the keys that are here.");
        if (!m_rest.isAccounted)
            return say("So much of the file is damaged that nobody can tell what is missing.");
        return QString();
    }

    /// The heads of the damaged file do not go on from the backup's.
    [[nodiscard]] tl::expected<bool, StoreError> hasParted() const
    {
        const Head known = knownHead(headsStream());
        if (m_rest.lastKnownHeads) {
            const Head& last = *m_rest.lastKnownHeads;
            auto rows = m_backup.connection().run(
                "SELECT hash FROM ledger WHERE site = ? AND stream = ? AND seq = ?",
                {m_site.text, headsStream(), last.seq});
            if (!rows)
                return backupFailed(rows.error());
            if (!rows->next() || rows->text(0) != last.hash)
                return true;
        }
        Head before = known;
        for (const Entry* entry : m_heads) {
            if (entry->seq <= before.seq ||
                (entry->seq == before.seq + 1 && entry->prevHash != before.hash))
                return true;
            before = {entry->stream, entry->seq, entry->hash};
        }
        return false;
    }

    Done take()
    {
        do
            leaveHalfCommands();
        while (leaveWhatRestsOnTheSite() || leaveRivals());
        if (m_fault)
            return backupFailed(*m_fault);
        if (auto written = write(); !written)
            return written;
        if (auto staff = takeStaff(); !staff)
            return staff;
        if (!m_salvaged.staffCame)
            if (auto sealed = sealEarlierStaff(m_backup.connection(), m_site, m_backup.keeper());
                !sealed)
                return backupFailed(sealed.error());
        return rebuildReadTables(m_backup).map([](int) {});
    }

    [[nodiscard]] bool isTaken(const LaterCommand& command) const
    {
        return command.isWhole && std::ranges::none_of(command.entries, [this](const Entry* entry) {
                   return m_streams.at(entry->stream).isLeft;
               });
    }

    void leaveHalfCommands()
    {
        for (bool isMore = true; isMore;) {
            isMore = false;
            for (const auto& [id, command] : m_commands) {
                if (isTaken(command))
                    continue;
                for (const Entry* entry : command.entries) {
                    bool& isLeft = m_streams.at(entry->stream).isLeft;
                    isMore = isMore || !isLeft;
                    isLeft = true;
                }
            }
        }
    }

    /// People, rights, rules: what was decided after they were changed rests on that.
    bool leaveWhatRestsOnTheSite()
    {
        const auto site = m_streams.find(siteStream());
        if (site == m_streams.end() || !site->second.isLeft)
            return false;
        bool isMore = false;
        for (auto& [name, stream] : m_streams)
            if (!stream.isLeft && stream.entries.back()->position > site->second.firstAt)
                isMore = stream.isLeft = true;
        return isMore;
    }

    /// A bay has one car, and a person one timer that runs: where the one that had it before is as
    /// it was in the backup, the other cannot come.
    bool leaveRivals()
    {
        bool isMore = false;
        for (auto& [name, stream] : m_streams)
            if (const CarId car = carOfStream(name); !stream.isLeft && !car.isEmpty())
                if (hasRival(stateOf(car, stream)))
                    isMore = stream.isLeft = true;
        return isMore;
    }

    [[nodiscard]] CarState stateOf(const CarId& car, const LaterStream& stream)
    {
        const auto known = m_backup.car(car);
        CarState state = known ? *known : CarState();
        state.id = car;
        for (const Entry* entry : stream.entries)
            apply(state, *carEnvelopeOf(*entry));
        return state;
    }

    [[nodiscard]] bool hasRival(const CarState& car)
    {
        const CarRow row = carRowOf(car, {}, 0);
        if (row.bay != 0 && isHeld("SELECT car FROM car WHERE site = ? AND bay = ?", row.bay))
            return true;
        if (!row.gone && isHeld("SELECT car FROM car WHERE site = ? AND stock_number = ?"
                                " AND gone = 0",
                                row.stockNumber))
            return true;
        return std::ranges::any_of(segmentRowsOf(car), [this](const SegmentRow& segment) {
            return segment.endAt == 0 && isHeld("SELECT car FROM work_segment WHERE site = ?"
                                                " AND person = ? AND end_at IS NULL",
                                                segment.person);
        });
    }

    /// By a car that stays as the backup has it.
    [[nodiscard]] bool isHeld(const char* sql, const QVariant& value)
    {
        auto rows = m_backup.connection().run(sql, {m_site.text, value});
        if (!rows) {
            m_fault = rows.error();
            return false;
        }
        if (!rows->next())
            return false;
        const auto holder = m_streams.find(carStream({rows->text(0)}));
        return holder == m_streams.end() || holder->second.isLeft;
    }

    Done write()
    {
        std::vector<const LaterCommand*> taken;
        for (const auto& [id, command] : m_commands)
            if (isTaken(command))
                taken.push_back(&command);
        std::ranges::sort(taken, {}, [](const LaterCommand* one) { return one->heads->position; });
        auto transaction = Transaction::write(m_backup.connection(), m_site);
        if (!transaction)
            return backupFailed(transaction.error());
        Writer writer(m_backup.connection());
        Head heads = knownHead(headsStream());
        for (const LaterCommand* command : taken) {
            const Entry& first = *command->entries.front();
            writer.run("INSERT INTO command (site, command, at, actor, entries)"
                       " VALUES (?, ?, ?, ?, ?)",
                       {m_site.text, first.command.text, first.at.ms, first.actor.value,
                        static_cast<qint64>(command->entries.size()) + 1});
            for (const Entry* entry : command->entries)
                insertEntry(writer, m_site, *entry);
            const Entry sealed = sealedAfter(heads, *command);
            insertEntry(writer, m_site, sealed);
            heads = {sealed.stream, sealed.seq, sealed.hash};
            m_salvaged.entries += static_cast<qint64>(command->entries.size());
        }
        if (!writer.good())
            return backupFailed(writer.fault());
        if (auto committed = transaction->commit(); !committed)
            return backupFailed(committed.error());
        for (const auto& [name, stream] : m_streams)
            if (const CarId car = carOfStream(name); !stream.isLeft && !car.isEmpty())
                remember(car, stream);
        return {};
    }

    /// As it was written, or in the place of the ones before it that did not come.
    [[nodiscard]] Entry sealedAfter(const Head& head, const LaterCommand& command) const
    {
        Entry entry = *command.heads;
        if (entry.seq == head.seq + 1 && entry.prevHash == head.hash)
            return entry;
        entry.seq = head.seq + 1;
        entry.prevHash = head.hash;
        entry.body = jsonText(
            sealHeads(m_backup.keeper(), m_site, entry.seq, entry.prevHash, command.sealed));
        entry.hash = hashOf(m_site, entry);
        return entry;
    }

    /// What its entries name that lies beside the ledger.
    void remember(const CarId& car, const LaterStream& stream)
    {
        m_salvaged.cars.push_back(car);
        for (const Entry* entry : stream.entries) {
            const CarEvent event = carEnvelopeOf(*entry)->event;
            if (const PhotoId photo = photoOf(event); !photo.isEmpty())
                m_salvaged.photos.insert(photo);
            if (const auto* removed = std::get_if<PhotosRemoved>(&event))
                m_salvaged.removedPhotos.insert(removed->photos.begin(), removed->photos.end());
            if (const auto* read = std::get_if<WalkRoundRead>(&event))
                m_salvaged.transcripts.insert(read->round.transcript);
        }
    }

    /// The file is known to be of the backup's time or later.
    [[nodiscard]] bool isNoOlder() const
    {
        return !m_heads.empty() || (m_rest.lastKnownHeads &&
                                    m_rest.lastKnownHeads->seq == knownHead(headsStream()).seq);
    }

    /// They go with the people of the site's stream.
    Done takeStaff()
    {
        const auto site = m_streams.find(siteStream());
        if ((site != m_streams.end() && site->second.isLeft) || !isNoOlder())
            return {};
        const auto kept = keptStaffSeal(m_damaged, m_site);
        if (!kept || !needsKey(*kept) ||
            !staffFitsItsSeal(m_damaged, m_site, m_backup.keeper()).value_or(false))
            return {};
        // What stands on a damaged page need not be read the same twice; and it may be of an
        // earlier time than the ledger.
        const auto copied = copySealedStaff(m_damaged, m_backup);
        if (!copied && copied.error().kind == StoreErrorKind::Unavailable)
            return tl::unexpected(copied.error());
        m_salvaged.staffCame = copied.value_or(false);
        return {};
    }

    Done tellWhatIsLeft()
    {
        m_salvaged.perhapsMore = !m_rest.isAccounted && !m_salvaged.hindrance.isEmpty();
        for (const auto& [name, stream] : m_streams) {
            if (!stream.isLeft)
                continue;
            const CarId car = carOfStream(name);
            if (car.isEmpty()) {
                m_salvaged.siteLeftBehind = m_salvaged.siteLeftBehind || name == siteStream();
                continue;
            }
            const auto known = m_backup.car(car);
            if (!known)
                return tl::unexpected(known.error());
            m_salvaged.leftBehind.push_back(
                {car, known->exists() ? known->identity.stockNumber : stockNumberOf(car, stream),
                 !known->exists()});
        }
        return {};
    }

    /// Of a car that the backup does not know: as it arrived, or as its table has it.
    [[nodiscard]] QString stockNumberOf(const CarId& car, const LaterStream& stream) const
    {
        CarState state;
        for (const Entry* entry : stream.entries)
            if (const auto envelope = carEnvelopeOf(*entry); envelope && entry->seq == 1)
                apply(state, *envelope);
        if (state.exists())
            return state.identity.stockNumber;
        const auto found = std::ranges::find(m_inTable, car, &CarInTable::car);
        return found == m_inTable.end() ? QString() : found->stockNumber;
    }

    Connection& m_damaged;
    SqlLedger& m_backup;
    const SiteId m_site;
    std::map<QString, Head> m_known; ///< where each stream of the backup stands
    LedgerRest m_rest;
    std::vector<CarInTable> m_inTable;
    std::map<QString, LaterStream> m_streams; ///< but the heads
    std::map<QString, LaterCommand> m_commands;
    std::vector<const Entry*> m_heads;
    std::optional<SqlFault> m_fault; ///< of the backup's side
    Salvaged m_salvaged;
};

} // namespace

tl::expected<Salvaged, StoreError> salvage(const QString& file, SqlLedger& backup)
{
    StoreSettings settings;
    settings.file = file;
    const auto damaged = Connection::open(settings);
    if (!damaged) {
        Salvaged nothing;
        nothing.hindrance = damaged.error().words;
        nothing.perhapsMore = true;
        return nothing;
    }
    return Salvaging(**damaged, backup).run();
}

} // namespace ramplight
