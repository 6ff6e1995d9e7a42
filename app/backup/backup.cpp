// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "backup/backup.h"

#include "backup/backupfolder.h"
#include "evidence/durablefile.h"
#include "evidence/photostore.h"
#include "evidence/transcriptstore.h"
#include "log/log.h"
#include "storage/entrytable.h"
#include "storage/sitekeycheck.h"
#include "storage/storecopy.h"
#include "storage/verifier.h"

#include <QDir>
#include <QDirIterator>
#include <QFile>
#include <QFileInfo>

#include <algorithm>
#include <functional>
#include <memory>
#include <set>
#include <tuple>

namespace ramplight {
namespace {

const QString ledgerName = QStringLiteral("ledger.sqlite");
const QString correctionsName = QStringLiteral("corrections.jsonl");
const QString manifestName = QStringLiteral("manifest.json");
const QString nameFormat = QStringLiteral("yyyyMMdd-HHmmss");
constexpr int daysBetweenReadings = 7;

QString draftOf(const QString& folder)
{
    return folder + QStringLiteral("/.unfinished");
}

/// Of the folders that are named as backups are.
QStringList backupNames(const QString& folder)
{
    QStringList names =
        QDir(folder).entryList(QDir::Dirs | QDir::NoDotAndDotDot | QDir::NoSymLinks, QDir::Name);
    names.removeIf(
        [](const QString& name) { return !QDateTime::fromString(name, nameFormat).isValid(); });
    return names;
}

tl::expected<QByteArray, QString> bytesOf(const QString& path)
{
    QFile file(path);
    if (!file.open(QIODevice::ReadOnly))
        return tl::unexpected(
            QStringLiteral("%1 cannot be read: %2.").arg(path, file.errorString()));
    return file.readAll();
}

/// The latest made first.
tl::expected<std::vector<Backup>, QString> backupsOf(const QString& folder, const SiteId& site)
{
    auto backups = backupsIn(folder);
    if (backups)
        std::erase_if(*backups, [&](const Backup& backup) { return backup.manifest.site != site; });
    return backups;
}

/// One backup on its way.
class Making
{
public:
    Making(const BackupSource& source, const QString& folder, Moment now)
        : m_source(source)
        , m_folder(folder)
        , m_draft(draftOf(folder))
        , m_pool(sharedPhotos(folder))
    {
        m_manifest.program = source.program;
        m_manifest.madeAt = now;
        m_manifest.keyId = source.keeper.keyId;
    }
    Making(const Making&) = delete;
    Making& operator=(const Making&) = delete;
    ~Making() { removeFolder(m_draft); }

    tl::expected<Backup, QString> make()
    {
        return begin()
            .and_then([this] { return takeLedger(); })
            .and_then([this] { return takeTranscripts(); })
            .and_then([this] { return takeCorrections(); })
            .and_then([this] { return finish(); });
    }

private:
    using Done = tl::expected<void, QString>;

    Done begin()
    {
        // What a break left behind.
        removeFolder(m_draft);
        return makeOwnFolder(m_draft)
            .and_then([this] { return makeOwnFolder(sharedPhotos(m_folder)); })
            .and_then([this] { return makeOwnFolder(sharedTranscripts(m_folder)); });
    }

    Done takeLedger()
    {
        const QString path = m_draft + QLatin1Char('/') + ledgerName;
        QFile file(path);
        if (!file.open(QIODevice::WriteOnly) || !file.setPermissions(ownOnly))
            return tl::unexpected(
                QStringLiteral("%1 cannot be written: %2.").arg(path, file.errorString()));
        file.close();
        if (const auto taken = snapshot(m_source.asItIs(), path); !taken)
            return tl::unexpected(QStringLiteral("The ledger could not be copied to %1. %2")
                                      .arg(m_folder, taken.error().words));
        StoreSettings copy;
        copy.file = path;
        copy.site = m_source.store.site;
        copy.siteMustBeThere = true;
        auto opened = SqlLedger::open(copy, m_source.keeper);
        if (!opened)
            return tl::unexpected(opened.error().words);
        if (const auto fits =
                checkKeys((*opened)->connection(), (*opened)->siteId(), m_source.keeper);
            !fits)
            return tl::unexpected(fits.error().words);
        return takePhotos(**opened).and_then([&] { return check(**opened); });
    }

    Done takePhotos(SqlLedger& ledger)
    {
        const auto kept = keptPhotos(ledger.connection(), ledger.siteId());
        if (!kept)
            return tl::unexpected(storeError(kept.error()).words);
        const auto before = backupsOf(m_folder, ledger.siteId());
        if (!before)
            return tl::unexpected(before.error());
        // What was told once stays told until it is mended, not on its day of the week only.
        const QString toldLast =
            before->empty() ? QString() : before->front().manifest.faults.join(QLatin1Char('\n'));
        for (const PhotoId& id : *kept) {
            const QString path = m_pool.pathOf(id);
            const bool isThere = QFile::exists(path);
            const bool isRead = isReadToday(id) || toldLast.contains(id.text);
            if (path.isEmpty() || (isThere && (!isRead || m_pool.open(id))))
                continue;
            // One that is in neither is for the check to tell.
            const auto bytes = m_source.photos.open(id);
            if (!bytes) {
                // Says nothing of the photo: as when the ledger breaks off, the next try goes on.
                if (bytes.error() == EvidenceError::DatabaseAway)
                    return tl::unexpected(words(bytes.error()));
                if (isThere || bytes.error() != EvidenceError::NoSuchPhoto)
                    m_unread.insert(id);
                continue;
            }
            if (const auto put = putPhoto(m_folder, id, *bytes); !put)
                return put;
            // A stick that says yes and keeps something else is found out now; what it has made of
            // the photo is not to be passed over by the next try.
            if (!m_pool.open(id)) {
                QFile::remove(path);
                return tl::unexpected(notKept(path));
            }
        }
        m_manifest.photos.assign(kept->begin(), kept->end());
        return {};
    }

    /// Each photo has its day of the week, by its hash.
    [[nodiscard]] bool isReadToday(const PhotoId& id) const
    {
        const qint64 day = m_manifest.madeAt.ms / (24 * 60 * 60 * 1000);
        return id.text.left(4).toInt(nullptr, 16) % daysBetweenReadings ==
               day % daysBetweenReadings;
    }

    static Done putPhoto(const QString& folder, const PhotoId& id, const QByteArray& bytes)
    {
        const QString path = PhotoStore(sharedPhotos(folder)).pathOf(id);
        const QString shelf = QFileInfo(path).absolutePath();
        if (auto made = makeOwnFolder(shelf); !made)
            return made;
        if (const auto kept = writeFileDurably(path, draftOf(folder), bytes); !kept)
            return tl::unexpected(notWritten(path, kept.error()));
        return {};
    }

    Done check(SqlLedger& ledger)
    {
        const auto head = headOf(ledger.connection(), ledger.siteId(), headsStream());
        if (!head)
            return tl::unexpected(storeError(head.error()).words);
        // Those that are here were read when they came, or when it was their day.
        const auto looked =
            [this](const std::set<PhotoId>& kept) -> tl::expected<VaultReport, EvidenceError> {
            VaultReport found;
            for (const PhotoId& id : kept)
                if (m_unread.contains(id))
                    found.damaged.push_back(id);
                else if (!QFile::exists(m_pool.pathOf(id)))
                    found.missing.push_back(id);
            return found;
        };
        auto known = m_source.known ? m_source.known() : KnownCatalogues();
        if (!known)
            return tl::unexpected(known.error());
        const VerifyReport report = Verifier(ledger, looked, std::move(*known)).run();
        m_manifest.site = ledger.siteId();
        m_manifest.head = *head;
        m_manifest.entries = report.entries;
        m_manifest.cars = report.cars;
        for (const LedgerFault& fault : report.faults)
            m_manifest.faults.append(fault.told());
        return {};
    }

    Done takeTranscripts()
    {
        const TranscriptStore pool(sharedTranscripts(m_folder));
        const TranscriptStore house(m_source.transcripts);
        for (const QFileInfo& file :
             QDir(m_source.transcripts)
                 .entryInfoList({QStringLiteral("*.txt")}, QDir::Files, QDir::Name)) {
            const TranscriptId id{file.completeBaseName()};
            const auto bytes = house.open(id);
            if (!bytes) {
                m_manifest.faults.append(
                    QStringLiteral("%1: %2").arg(file.fileName(), bytes.error()));
                continue;
            }
            if (const auto kept = pool.keep(id, *bytes); !kept)
                return tl::unexpected(kept.error());
            if (!pool.open(id)) {
                const QString path =
                    sharedTranscripts(m_folder) + QLatin1Char('/') + file.fileName();
                QFile::remove(path);
                return tl::unexpected(notKept(path));
            }
            m_manifest.transcripts.push_back(id.text);
        }
        return {};
    }

    Done takeCorrections()
    {
        if (!QFile::exists(m_source.corrections))
            return {};
        const QString path = m_draft + QLatin1Char('/') + correctionsName;
        const auto bytes = bytesOf(m_source.corrections);
        if (!bytes)
            return tl::unexpected(bytes.error());
        return putInDraft(path, *bytes);
    }

    /// And reads it again.
    Done putInDraft(const QString& path, const QByteArray& bytes)
    {
        if (const auto kept = writeFileDurably(path, m_draft, bytes); !kept)
            return tl::unexpected(notWritten(path, kept.error()));
        if (bytesOf(path) != bytes)
            return tl::unexpected(notKept(path));
        return {};
    }

    tl::expected<Backup, QString> finish()
    {
        for (const QString& name : QDir(m_draft).entryList(QDir::Files, QDir::Name)) {
            const QString path = m_draft + QLatin1Char('/') + name;
            // What was checked lies in memory until then.
            auto file = fileAt(path);
            if (!file)
                return tl::unexpected(file.error());
            if (const auto synced = bringToDisk(path); !synced)
                return tl::unexpected(notWritten(path, synced.error()));
            if (fileAt(path) != *file)
                return tl::unexpected(notKept(path));
            m_manifest.files.push_back(std::move(*file));
        }
        const auto before = backupsOf(m_folder, m_manifest.site);
        if (!before)
            return tl::unexpected(before.error());
        m_manifest.number = before->empty() ? 1 : before->front().manifest.number + 1;
        if (auto listed = putInDraft(m_draft + QLatin1Char('/') + manifestName,
                                     toFile(m_manifest, m_source.keeper));
            !listed)
            return tl::unexpected(listed.error());
        const QString path =
            m_folder + QLatin1Char('/') +
            QDateTime::fromMSecsSinceEpoch(m_manifest.madeAt.ms, Qt::UTC).toString(nameFormat);
        if (QFileInfo::exists(path))
            return tl::unexpected(
                QStringLiteral("There is a backup of this second already. Nothing was changed."));
        if (!QDir().rename(m_draft, path))
            return tl::unexpected(
                QStringLiteral("The backup cannot be given its name in %1. It was "
                               "not kept; look at the disk and try again.")
                    .arg(m_folder));
        if (const auto synced = bringToDisk(m_folder); !synced)
            return tl::unexpected(notWritten(m_folder, synced.error()));
        // As others will read it, with its seal.
        return backupAt(path);
    }

    const BackupSource& m_source;
    QString m_folder;
    QString m_draft;
    PhotoStore m_pool;
    std::set<PhotoId> m_unread; ///< are there, and cannot be read or are damaged
    BackupManifest m_manifest;
};

/// The newest that found nothing wrong stays, whatever its age. Each site counts its own: a folder
/// may hold those of several.
void removeSuperfluous(const QString& folder, const SiteId& site, const KeepCounts& counts)
{
    const auto all = backupsOf(folder, site);
    if (!all)
        return;
    std::vector<QDateTime> times;
    for (const Backup& backup : *all)
        times.push_back(backup.madeAt());
    const std::vector<QDateTime> gone = superfluous(std::move(times), counts);
    const auto faultless = std::ranges::find_if(
        *all, [](const Backup& backup) { return backup.manifest.faults.isEmpty(); });
    for (const Backup& backup : *all)
        if (std::ranges::find(gone, backup.madeAt()) != gone.end() &&
            (faultless == all->end() || backup.path != faultless->path) &&
            !removeFolder(backup.path))
            log::warn(QStringLiteral("backup %1 could not be removed").arg(backup.path));
    if (!gone.empty())
        removeUnnamed(folder);
}

} // namespace

tl::expected<Backup, QString> backupAt(const QString& path)
{
    const auto file = bytesOf(path + QLatin1Char('/') + manifestName);
    if (!file)
        return tl::unexpected(QStringLiteral("%1 is no backup: %2").arg(path, file.error()));
    auto manifest = manifestFrom(*file);
    if (!manifest)
        return tl::unexpected(
            QStringLiteral("%1 is no backup that can be read: %2.").arg(path, manifest.error()));
    return Backup{path, std::move(*manifest)};
}

tl::expected<std::vector<Backup>, QString> backupsIn(const QString& folder)
{
    if (!QDir(folder).exists())
        return tl::unexpected(
            QStringLiteral("The folder %1 is not there. Put the stick in, or name "
                           "another folder for the backups.")
                .arg(folder));
    std::vector<Backup> backups;
    for (const QString& name : backupNames(folder)) {
        if (auto backup = backupAt(folder + QLatin1Char('/') + name))
            backups.push_back(std::move(*backup));
        else
            log::warn(backup.error());
    }
    std::ranges::sort(backups, std::greater(), [](const Backup& backup) {
        const BackupManifest& list = backup.manifest;
        return std::tuple(list.site, list.number, list.head.seq, list.madeAt);
    });
    return backups;
}

tl::expected<Backup, QString> makeBackup(const BackupSource& source, const QString& folder,
                                         Moment now, const KeepCounts& counts)
{
    if (source.store.kind == StoreKind::Sqlite && !QFile::exists(source.store.file))
        return tl::unexpected(QStringLiteral("There is no workshop to keep a backup of."));
    const auto alone = BackupFolder::alone(folder);
    if (!alone)
        return tl::unexpected(alone.error());
    auto backup = Making(source, folder, now).make();
    if (backup)
        removeSuperfluous(folder, backup->manifest.site, counts);
    return backup;
}

void removeUnnamed(const QString& folder)
{
    std::set<QString> photos;
    std::set<QString> transcripts;
    for (const QString& name : backupNames(folder)) {
        const auto backup = backupAt(folder + QLatin1Char('/') + name);
        // What it needs is not known: everything stays.
        if (!backup)
            return;
        for (const PhotoId& id : backup->manifest.photos)
            photos.insert(id.text);
        transcripts.insert(backup->manifest.transcripts.begin(),
                           backup->manifest.transcripts.end());
    }
    // What a link leads to is not the folder's.
    if (QFileInfo(folder).isSymLink() || QFileInfo(sharedPhotos(folder)).isSymLink() ||
        QFileInfo(sharedTranscripts(folder)).isSymLink())
        return;
    QDirIterator shelves(sharedPhotos(folder), {QStringLiteral("*.jpg")}, QDir::Files,
                         QDirIterator::Subdirectories);
    while (shelves.hasNext()) {
        const QFileInfo file(shelves.next());
        if (!photos.contains(file.dir().dirName() + file.completeBaseName()))
            QFile::remove(file.absoluteFilePath());
    }
    QDirIterator words(sharedTranscripts(folder), {QStringLiteral("*.txt")}, QDir::Files);
    while (words.hasNext()) {
        const QFileInfo file(words.next());
        if (!transcripts.contains(file.completeBaseName()))
            QFile::remove(file.absoluteFilePath());
    }
}

} // namespace ramplight
