// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "backup/restore.h"

#include "backup/backupfolder.h"
#include "backup/besidehouse.h"
#include "backup/carryover.h"
#include "backup/houselock.h"
#include "domain/say.h"
#include "evidence/durablefile.h"
#include "evidence/exchange.h"
#include "evidence/photostore.h"
#include "evidence/transcriptstore.h"
#include "log/log.h"
#include "storage/privatefile.h"
#include "storage/readtables.h"
#include "storage/remake.h"
#include "storage/salvage.h"
#include "storage/sitekeycheck.h"
#include "storage/sqlledger.h"
#include "storage/verifier.h"

#include <QDir>
#include <QFile>
#include <QFileInfo>

#include <algorithm>
#include <optional>

namespace ramplight {
namespace {

class Restoring
{
public:
    explicit Restoring(const RestoreRequest& request)
        : m_request(request)
        , m_shared(QFileInfo(request.backup.path).absolutePath())
        , m_draft(restoreDraftOf(request.house))
    {
    }
    Restoring(const Restoring&) = delete;
    Restoring& operator=(const Restoring&) = delete;
    ~Restoring() { QDir(m_draft).removeRecursively(); }

    tl::expected<Restored, QString> run()
    {
        return begin()
            .and_then([this] { return copyFiles(); })
            .and_then([this] { return copyPhotos(); })
            .and_then([this] { return copyTranscripts(); })
            .and_then([this] { return checkBackup(); })
            .and_then([this] { return bringAlong(); })
            .and_then([this] { return takeTheRest(); })
            .and_then([this] { return keepNote(); })
            .and_then([this] { return change(); });
    }

private:
    using Done = tl::expected<void, QString>;

    [[nodiscard]] QString inDraft(const QString& name) const
    {
        return m_draft + QLatin1Char('/') + name;
    }
    [[nodiscard]] QString inHouse(const QString& name) const
    {
        return m_request.house + QLatin1Char('/') + name;
    }

    Done begin()
    {
        if (m_request.keeper.ageOf(m_request.backup.manifest.keyId) < 0)
            return tl::unexpected(
                QStringLiteral("The key file %1 is of another workshop than this backup. Nothing "
                               "was changed; name the one that belongs to it.")
                    .arg(m_request.keyFile));
        // Everything else is read again where it is copied to.
        for (const BackupFile& file : m_request.backup.manifest.files)
            if (file.name.contains(QLatin1Char('/')))
                return tl::unexpected(QStringLiteral("The backup's list of files is not one of "
                                                     "ours. Nothing was changed."));
        const ManifestSeal seal = sealOf(m_request.backup.manifest, m_request.keeper);
        if (seal == ManifestSeal::Wrong)
            return tl::unexpected(
                QStringLiteral("The backup's list of what is in it was changed after it was made: "
                               "the site's seal does not fit. Nothing was changed; try an older "
                               "one, and ask who had the disk with the backups."));
        m_restored.isSealed = seal == ManifestSeal::Fits;
        // Photos and words are told once it is known what the house has of them.
        if (const QStringList faults = fileFaultsOf(m_request.backup); !faults.isEmpty())
            return tl::unexpected(QStringLiteral("The backup is damaged. Nothing was changed; try "
                                                 "an older one. %1")
                                      .arg(faults.join(QLatin1Char('\n'))));
        // From here on nobody enters anything there: it would be lost.
        if (QFileInfo::exists(m_request.house)) {
            auto alone = HouseLock::alone(m_request.house);
            if (!alone)
                return tl::unexpected(alone.error());
            m_lock.emplace(std::move(*alone));
        }
        QDir(m_draft).removeRecursively();
        if (!QDir().mkpath(QFileInfo(m_draft).absolutePath()))
            return tl::unexpected(cannotWrite(QFileInfo(m_draft).absolutePath()));
        for (const QString& folder :
             {m_draft, inDraft(m_request.names.photos), inDraft(restoreDraftsName())})
            if (!makeFolderDurably(folder))
                return tl::unexpected(cannotWrite(folder));
        return {};
    }

    static QString cannotWrite(const QString& path)
    {
        return QStringLiteral("%1 cannot be written. Nothing was changed; look at the disk and at "
                              "the folder's owner.")
            .arg(path);
    }

    Done copyFile(const QString& from, const QString& to, bool mayBeMissing = false)
    {
        if (mayBeMissing && !QFile::exists(from))
            return {};
        if (!QFile::copy(from, to) || !QFile::setPermissions(to, ownOnly) || !bringToDisk(to))
            return tl::unexpected(cannotWrite(to));
        return {};
    }

    Done copyFiles()
    {
        const HouseNames& names = m_request.names;
        const QString& from = m_request.backup.path;
        return copyFile(from + QStringLiteral("/ledger.sqlite"), inDraft(names.database))
            .and_then([&] {
                return copyFile(from + QStringLiteral("/corrections.jsonl"),
                                inDraft(names.corrections), true);
            })
            .and_then([&] { return copyFile(m_request.keyFile, inDraft(names.keys)); })
            .and_then(
                [&] { return copyFile(inHouse(names.settings), inDraft(names.settings), true); });
    }

    Done copyPhotos()
    {
        const PhotoStore from(sharedPhotos(m_shared));
        const PhotoStore house(inHouse(m_request.names.photos));
        for (const PhotoId& id : m_request.backup.manifest.photos) {
            // One that is in neither is for the check to tell.
            const auto bytes = from.open(id).or_else([&](EvidenceError) { return house.open(id); });
            if (!bytes)
                continue;
            if (auto kept = keepPhoto(id, *bytes); !kept)
                return kept;
        }
        return {};
    }

    Done keepPhoto(const PhotoId& id, const QByteArray& bytes)
    {
        const QString path = PhotoStore(inDraft(m_request.names.photos)).pathOf(id);
        if (!makeFolderDurably(QFileInfo(path).absolutePath()) ||
            !writeFileDurably(path, inDraft(restoreDraftsName()), bytes))
            return tl::unexpected(cannotWrite(path));
        ++m_restored.photos;
        return {};
    }

    Done copyTranscripts()
    {
        const TranscriptStore from(sharedTranscripts(m_shared));
        const TranscriptStore house(inHouse(m_request.names.transcripts));
        const TranscriptStore to(inDraft(m_request.names.transcripts));
        for (const QString& id : m_request.backup.manifest.transcripts) {
            const auto bytes =
                from.open({id}).or_else([&](const QString&) { return house.open({id}); });
            if (!bytes) {
                ++m_restored.lacking.walkRounds;
                continue;
            }
            if (const auto kept = to.keep({id}, *bytes); !kept)
                return kept;
        }
        return {};
    }

    [[nodiscard]] StoreSettings draftStore() const
    {
        StoreSettings settings;
        settings.file = inDraft(m_request.names.database);
        settings.site = m_request.backup.manifest.site;
        return settings;
    }

    /// What the check finds in the draft that was not so when the backup was made. Single photos
    /// are counted, and no damage.
    std::vector<LedgerFault> damageOf(SqlLedger& ledger)
    {
        const PhotoStore photos(inDraft(m_request.names.photos));
        const VerifyReport report = Verifier(ledger, photoCheck(photos), m_request.known).run();
        std::vector<LedgerFault> damage;
        m_restored.againstRules.clear();
        m_restored.wasSo.clear();
        m_restored.lacking.photos = 0;
        for (const LedgerFault& fault : report.faults)
            if (wasSo(fault))
                m_restored.wasSo.append(fault.told());
            else if (isOfPhoto(fault))
                m_restored.lacking.photos += isMissingSince(fault) ? 0 : 1;
            else if (fault.kind == FaultKind::AgainstRules)
                m_restored.againstRules.append(fault.told());
            else
                damage.push_back(fault);
        m_restored.entries = report.entries;
        m_restored.cars = report.cars;
        return damage;
    }

    Done checkBackup()
    {
        const QString& sealedBy = m_request.backup.manifest.keyId;
        auto opened = SqlLedger::open(draftStore(), m_request.keeper.with(sealedBy));
        if (!opened)
            return tl::unexpected(opened.error().words);
        QStringList faults;
        for (const LedgerFault& fault : damageOf(**opened)) {
            if (fault.kind == FaultKind::Newer)
                return tl::unexpected(newerEntry(fault.told()).words);
            faults.append(fault.told());
        }
        if (!faults.isEmpty())
            return tl::unexpected(QStringLiteral("What would be brought back is not whole. Nothing "
                                                 "was changed; try an older backup. %1")
                                      .arg(faults.join(QLatin1Char('\n'))));
        if (sealedBy != m_request.keeper.keyId) {
            // The keys were renewed since: its PINs are worth nothing with the new ones.
            if (const auto renewed =
                    renewKeys((*opened)->connection(), (*opened)->siteId(), m_request.keeper);
                !renewed)
                return tl::unexpected(renewed.error().words);
            m_restored.pinsGone = true;
        }
        return {};
    }

    /// What was done since the backup, where the house's own file is damaged.
    Done bringAlong()
    {
        const QString file = inHouse(m_request.names.database);
        if (!QFile::exists(file))
            return {};
        // SQLite writes into what it opens.
        StoreSettings copy = draftStore();
        copy.file = inDraft(QStringLiteral(".damaged.sqlite"));
        copy.siteMustBeThere = true;
        if (auto copied = copyDamagedDatabase(file, copy.file); !copied)
            return tl::unexpected(copied.error().words);
        if (!m_request.isFoundDamaged && hurtIn(copy, m_request.keeper) == Hurt::Nothing) {
            m_restored.note.told.push_back(
                say("The workshop's file was whole. The workshop is now as it was when the backup "
                    "was made; what was done since is in what was set aside."));
            removeDatabase(copy.file);
            return {};
        }
        auto done = salvageFrom(copy.file);
        removeDatabase(copy.file);
        return done;
    }

    Done salvageFrom(const QString& copy)
    {
        const Restored ofBackup = m_restored;
        const auto misfit = addFrom(copy);
        if (!misfit)
            return tl::unexpected(misfit.error());
        if (misfit->isEmpty()) {
            m_restored.pinsGone = m_restored.pinsGone && !m_restored.since.staffCame;
            m_restored.note = noteOf(m_restored.since, m_missingPhotos);
            return takeCorrections();
        }
        log::error(
            QStringLiteral("what was read out of the damaged file does not fit: %1").arg(*misfit));
        m_restored = ofBackup;
        m_restored.since.hindrance =
            say("What was read out of the damaged file does not fit together: %1").arg(*misfit);
        m_restored.since.perhapsMore = true;
        m_restored.note = noteOf(m_restored.since, 0);
        const QString database = inDraft(m_request.names.database);
        removeDatabase(database);
        for (const PhotoId& photo : m_taken)
            QFile::remove(PhotoStore(inDraft(m_request.names.photos)).pathOf(photo));
        return copyFile(m_request.backup.path + QStringLiteral("/ledger.sqlite"), database)
            .and_then([this] { return checkBackup(); });
    }

    /// Words: what of the damaged file does not fit; empty: all that came does.
    tl::expected<QString, QString> addFrom(const QString& copy)
    {
        auto opened = SqlLedger::open(draftStore(), m_request.keeper);
        if (!opened)
            return tl::unexpected(opened.error().words);
        auto salvaged = salvage(copy, **opened);
        if (!salvaged && (salvaged.error().kind == StoreErrorKind::Unavailable ||
                          salvaged.error().kind == StoreErrorKind::TooNew))
            return tl::unexpected(salvaged.error().words);
        if (!salvaged)
            return salvaged.error().words;
        m_restored.since = std::move(*salvaged);
        const auto kept = keptPhotos((*opened)->connection(), (*opened)->siteId());
        if (!kept)
            return tl::unexpected(storeError(kept.error()).words);
        if (auto taken = takePhotos(*kept).and_then([this] { return takeTranscripts(); }); !taken)
            return tl::unexpected(taken.error());
        if (const auto damage = damageOf(**opened); !damage.empty())
            return damage.front().told();
        // The retention removed them before the damage.
        for (const PhotoId& photo : m_restored.since.removedPhotos)
            if (!kept->contains(photo))
                QFile::remove(PhotoStore(inDraft(m_request.names.photos)).pathOf(photo));
        return QString();
    }

    /// Those that the backup lacks.
    Done takePhotos(const std::set<PhotoId>& kept)
    {
        const PhotoStore from(inHouse(m_request.names.photos));
        const PhotoStore to(inDraft(m_request.names.photos));
        for (const PhotoId& photo : kept) {
            const QString path = to.pathOf(photo);
            if (QFile::exists(path))
                continue;
            const auto bytes =
                path.isEmpty() ? tl::unexpected(EvidenceError::NoSuchPhoto) : from.open(photo);
            if (!bytes) {
                m_missingPhotos += m_restored.since.photos.contains(photo) ? 1 : 0;
                continue;
            }
            if (auto written = keepPhoto(photo, *bytes); !written)
                return written;
            m_taken.push_back(photo);
        }
        return {};
    }

    /// What a walk-round says stands in its entries, too: without its words it can be gone on with.
    Done takeTranscripts()
    {
        const TranscriptStore from(inHouse(m_request.names.transcripts));
        const TranscriptStore to(inDraft(m_request.names.transcripts));
        for (const TranscriptId& id : m_restored.since.transcripts)
            if (const auto bytes = from.open(id))
                if (auto kept = to.keep(id, *bytes); !kept)
                    return kept;
        return {};
    }

    /// A file that is only added to: the house's, where it begins with the backup's.
    Done takeCorrections()
    {
        const QString path = inDraft(m_request.names.corrections);
        const auto bytesOf = [](const QString& name) {
            QFile file(name);
            return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
        };
        const QByteArray later = bytesOf(inHouse(m_request.names.corrections));
        const QByteArray former = bytesOf(path);
        if (later.size() > former.size() && later.startsWith(former) &&
            !writeFileDurably(path, inDraft(restoreDraftsName()), later))
            return tl::unexpected(cannotWrite(path));
        return {};
    }

    /// What no backup has: the kiosk's own, and what was put into its folders.
    Done takeTheRest()
    {
        if (!m_lock)
            return {};
        const HouseNames& names = m_request.names;
        const QStringList replaced{names.photos,       names.transcripts, names.corrections,
                                   names.settings,     names.restoreNote, names.backupNote,
                                   HouseLock::fileName};
        const auto staysBehind = [&](const QString& name) {
            // With what belongs to them: the database's log, keys on their way.
            return replaced.contains(name) || name.startsWith(names.database) ||
                   name.startsWith(names.keys);
        };
        const auto unread = carryOver(m_request.house, m_draft, staysBehind);
        if (!unread)
            return tl::unexpected(cannotWrite(unread.error()));
        for (const QString& path : *unread)
            m_restored.note.told.push_back(
                say("%1 cannot be read and did not come along. It is in what was set aside.")
                    .arg(path));
        return {};
    }

    static bool isOfPhoto(const LedgerFault& fault)
    {
        return fault.where.startsWith(QLatin1String("photo "));
    }

    /// It was taken after the backup, and did not come along.
    [[nodiscard]] bool isMissingSince(const LedgerFault& fault) const
    {
        return std::ranges::any_of(m_restored.since.photos, [&](const PhotoId& photo) {
            return fault.where == QStringLiteral("photo %1").arg(photo.text);
        });
    }

    Done keepNote()
    {
        RestoreNote& note = m_restored.note;
        tellWhatWasSo(note, m_restored.wasSo);
        tellWhatLacks(note, m_restored.lacking);
        if (note.told.empty())
            return {};
        note.at = m_request.now;
        note.madeAt = m_request.backup.manifest.madeAt;
        if (m_request.names.restoreNote.isEmpty())
            return {};
        return keepRestoreNote(inDraft(m_request.names.restoreNote), note);
    }

    /// Whether the house had it when the backup was made. A photo that was damaged then is missing
    /// now. A list without a seal is anybody's: whoever put an entry in would write into it what
    /// the check says of that.
    [[nodiscard]] bool wasSo(const LedgerFault& fault) const
    {
        // What somebody built into the file would go on there.
        if (fault.where == schemaFaults())
            return false;
        const QStringList& then = m_request.backup.manifest.faults;
        const bool isPhoto = isOfPhoto(fault);
        if (!isPhoto && !m_restored.isSealed)
            return false;
        return then.contains(fault.told()) ||
               (isPhoto && std::ranges::any_of(then, [&](const QString& told) {
                    return told.startsWith(fault.where + QLatin1Char(':'));
                }));
    }

    tl::expected<Restored, QString> change()
    {
        // What is whole has none: finishRestore() goes by that.
        if (!bringToDisk(m_draft) || !QDir(inDraft(restoreDraftsName())).removeRecursively())
            return tl::unexpected(cannotWrite(m_draft));
        const QString above = QFileInfo(m_request.house).absolutePath();
        if (m_lock)
            m_restored.setAside = houseAsideOf(m_request.house, m_request.now);
        if (m_lock ? !putInPlaceOf(m_request.house, m_draft, m_restored.setAside)
                   : !QDir().rename(m_draft, m_request.house))
            return tl::unexpected(cannotWrite(above));
        if (!bringToDisk(above))
            return tl::unexpected(
                QStringLiteral("The workshop is back, but the disk did not confirm it. Look at the "
                               "disk before you go on, and do not bring it back once more: what "
                               "was done since the backup would then be left out."));
        return m_restored;
    }

    const RestoreRequest& m_request;
    QString m_shared; ///< what all backups of the folder share lies here
    QString m_draft;
    std::optional<HouseLock> m_lock; ///< where there was a house
    std::vector<PhotoId> m_taken;    ///< out of the damaged house
    int m_missingPhotos = 0;         ///< of what came along
    Restored m_restored;
};

} // namespace

tl::expected<Restored, QString> restore(const RestoreRequest& request)
{
    return Restoring(request).run();
}

} // namespace ramplight
