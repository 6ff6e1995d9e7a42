// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "backup/restore.h"

#include "backup/houselock.h"
#include "evidence/durablefile.h"
#include "evidence/photostore.h"
#include "evidence/transcriptstore.h"
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
        , m_draft(request.house + QStringLiteral(".restoring"))
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
            .and_then([this] { return check(); })
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
        if (const QStringList faults = faultsOf(m_request.backup);
            !faults.isEmpty() && m_request.backup.manifest.faults.isEmpty())
            return tl::unexpected(QStringLiteral("The backup is damaged. Nothing was changed; try "
                                                 "an older one. %1")
                                      .arg(faults.join(QLatin1Char('\n'))));
        QDir(m_draft).removeRecursively();
        if (!QDir().mkpath(QFileInfo(m_draft).absolutePath()))
            return tl::unexpected(cannotWrite(QFileInfo(m_draft).absolutePath()));
        for (const QString& folder :
             {m_draft, inDraft(m_request.names.photos), inDraft(draftsName())})
            if (!makeFolderDurably(folder))
                return tl::unexpected(cannotWrite(folder));
        return {};
    }

    static QString draftsName() { return QStringLiteral(".drafts"); }
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
        const PhotoStore from(m_shared + QStringLiteral("/photos"));
        const PhotoStore to(inDraft(m_request.names.photos));
        for (const PhotoId& id : m_request.backup.manifest.photos) {
            // Missing when the backup was made: the check tells, and compares with that time.
            const auto bytes = from.open(id);
            if (!bytes)
                continue;
            const QString path = to.pathOf(id);
            if (!makeFolderDurably(QFileInfo(path).absolutePath()) ||
                !writeFileDurably(path, inDraft(draftsName()), *bytes))
                return tl::unexpected(cannotWrite(path));
            ++m_restored.photos;
        }
        return {};
    }

    Done copyTranscripts()
    {
        const TranscriptStore from(m_shared + QStringLiteral("/transcripts"));
        const TranscriptStore to(inDraft(m_request.names.transcripts));
        for (const QString& id : m_request.backup.manifest.transcripts) {
            const auto bytes = from.open({id});
            if (!bytes)
                return tl::unexpected(bytes.error());
            if (const auto kept = to.keep({id}, *bytes); !kept)
                return kept;
        }
        return {};
    }

    Done check()
    {
        StoreSettings settings;
        settings.file = inDraft(m_request.names.database);
        settings.site = m_request.backup.manifest.site;
        const QString& sealedBy = m_request.backup.manifest.keyId;
        auto opened = SqlLedger::open(settings, m_request.keeper.with(sealedBy));
        if (!opened)
            return tl::unexpected(opened.error().words);
        const PhotoStore photos(inDraft(m_request.names.photos));
        const VerifyReport report = Verifier(**opened, photoCheck(photos), m_request.known).run();
        QStringList faults;
        for (const LedgerFault& fault : report.faults)
            if (!wasSo(fault))
                (fault.kind != FaultKind::AgainstRules ? faults : m_restored.againstRules)
                    .append(fault.told());
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
        m_restored.entries = report.entries;
        m_restored.cars = report.cars;
        return {};
    }

    /// Whether the house had it when the backup was made. A photo that was damaged then is missing
    /// now.
    [[nodiscard]] bool wasSo(const LedgerFault& fault) const
    {
        const QStringList& then = m_request.backup.manifest.faults;
        return then.contains(fault.told()) ||
               (fault.where.startsWith(QLatin1String("photo ")) &&
                std::ranges::any_of(then, [&](const QString& told) {
                    return told.startsWith(fault.where + QLatin1Char(':'));
                }));
    }

    tl::expected<Restored, QString> change()
    {
        QDir(inDraft(draftsName())).removeRecursively();
        const QString above = QFileInfo(m_request.house).absolutePath();
        std::optional<HouseLock> lock;
        if (QFileInfo::exists(m_request.house)) {
            auto alone = HouseLock::alone(m_request.house);
            if (!alone)
                return tl::unexpected(alone.error());
            lock.emplace(std::move(*alone));
            m_restored.setAside =
                QStringLiteral("%1.before-%2")
                    .arg(m_request.house, QDateTime::fromMSecsSinceEpoch(m_request.now.ms, Qt::UTC)
                                              .toString(QStringLiteral("yyyyMMdd-HHmmss")));
            if (!QDir().rename(m_request.house, m_restored.setAside))
                return tl::unexpected(cannotWrite(above));
        }
        if (!QDir().rename(m_draft, m_request.house)) {
            if (lock)
                QDir().rename(m_restored.setAside, m_request.house);
            return tl::unexpected(cannotWrite(above));
        }
        if (!bringToDisk(above))
            return tl::unexpected(
                QStringLiteral("The workshop is back, but the disk did not confirm it. Look at the "
                               "disk before you go on."));
        return m_restored;
    }

    const RestoreRequest& m_request;
    QString m_shared; ///< what all backups of the folder share lies here
    QString m_draft;
    Restored m_restored;
};

} // namespace

tl::expected<Restored, QString> restore(const RestoreRequest& request)
{
    return Restoring(request).run();
}

} // namespace ramplight
