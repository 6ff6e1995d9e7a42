// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "desk/backupdesk.h"

#include "backup/backupnote.h"
#include "backup/keycopynote.h"
#include "backup/restorenote.h"
#include "domain/say.h"
#include "evidence/durablefile.h"
#include "evidence/sticks.h"

#include <QDir>
#include <QFileInfo>
#include <QStorageInfo>
#include <QTemporaryFile>
#include <QTimeZone>

namespace ramplight {

namespace {

const QString placeName = QStringLiteral("ramplight-backups");

BackupState stateOf(BackupHealth health)
{
    switch (health) {
    case BackupHealth::NotSetUp:
        return BackupState::NotSetUp;
    case BackupHealth::Waiting:
        return BackupState::Waiting;
    case BackupHealth::Good:
        return BackupState::Good;
    case BackupHealth::Faulty:
        return BackupState::Faulty;
    case BackupHealth::Stale:
        return BackupState::Stale;
    case BackupHealth::Failed:
        break;
    }
    return BackupState::Failed;
}

bool onOneDisk(const QString& folder, const QString& house)
{
    const QStorageInfo one(folder);
    const QStorageInfo other(house);
    return one.isValid() && other.isValid() && one.device() == other.device();
}

} // namespace

BackupDesk::BackupDesk(BackupSource source, BackupPlan plan, const Clock& clock)
    : m_source(std::move(source))
    , m_plan(std::move(plan))
    , m_clock(clock)
    , m_namedAt(clock.now())
{
    m_looking.setMaxThreadCount(1);
}

BackupDesk::~BackupDesk()
{
    m_looking.waitForDone();
    m_making.waitForDone();
}

QString BackupDesk::folder() const
{
    const std::lock_guard guard(m_guard);
    return m_plan.folder;
}

BackupStatus BackupDesk::now(const std::optional<QTimeZone>& zone) const
{
    const QString to = folder();
    BackupNote note = readNote(m_plan.note);
    const Moment now = m_clock.now();
    if (note.since.isNull()) {
        // Nothing was begun, or it could not be noted.
        const std::lock_guard guard(m_guard);
        note.since = m_namedAt;
    }
    BackupStatus status;
    status.state = stateOf(healthOf(note, !to.isEmpty(), now));
    status.due = zone && isDue(note, !to.isEmpty(), m_plan.at,
                               QDateTime::fromMSecsSinceEpoch(now.ms, *zone));
    status.folder = to;
    status.at = m_plan.at.toString(QStringLiteral("HH:mm"));
    status.goodAt = note.goodAt;
    status.since = note.since;
    status.words = note.words;
    status.faults = note.faults;
    status.sameDisk = !to.isEmpty() && onOneDisk(to, QFileInfo(m_plan.note).absolutePath());
    status.keyCopiedAt = keyCopiedAt(m_plan.keyCopyNote, m_source.keeper.keyId);
    const RestoreNote restored = readRestoreNote(m_plan.restoreNote);
    status.broughtBack = {restored.at,
                          restored.madeAt,
                          {restored.told.begin(), restored.told.end()},
                          {restored.cars.begin(), restored.cars.end()},
                          restored.isLeftBehind};
    return status;
}

QFuture<BackupStatus> BackupDesk::status(const QTimeZone& zone)
{
    return onPool(m_looking, [this, zone] { return now(zone); });
}

QFuture<BackupStatus> BackupDesk::backUp()
{
    return onPool(m_making, [this] {
        if (const QString to = folder(); !to.isEmpty())
            backUpAndNote(m_source, to, m_plan.note, m_clock.now());
        return now();
    });
}

tl::expected<BackupStatus, QString> BackupDesk::take(const QString& folder)
{
    if (!folder.isEmpty()) {
        if (!QDir::isAbsolutePath(folder))
            return tl::unexpected(
                QStringLiteral("A whole path is needed, like /media/stick/backups. "
                               "Nothing was changed."));
        // As the backup would say at night.
        if (QFileInfo(folder).isSymLink())
            return tl::unexpected(QStringLiteral("%1 is a link to somewhere else. Nothing was "
                                                 "changed; name the folder itself.")
                                      .arg(folder));
        QTemporaryFile probe(folder + QStringLiteral("/.probe-XXXXXX"));
        if (!makeFolderDurably(folder) || !probe.open())
            return tl::unexpected(
                QStringLiteral(
                    "The folder %1 cannot be written. Nothing was changed; put the stick "
                    "in, or name another folder.")
                    .arg(folder));
    }
    if (const QString fault = m_plan.keepFolder ? m_plan.keepFolder(folder) : QString();
        !fault.isEmpty())
        return tl::unexpected(fault);
    {
        const std::lock_guard guard(m_guard);
        m_plan.folder = folder;
        m_namedAt = m_clock.now();
    }
    return now();
}

QFuture<tl::expected<BackupStatus, QString>> BackupDesk::setFolder(const QString& folder)
{
    return onPool(m_looking, [this, folder] { return take(folder); });
}

QFuture<QStringList> BackupDesk::places()
{
    return onPool(m_looking, [this] {
        QStringList found;
        for (const QString& root : m_plan.sticks)
            for (const Stick& stick : mountedBelow(root))
                if (!stick.readOnly)
                    found.append(stick.path + QLatin1Char('/') + placeName);
        return found;
    });
}

QFuture<std::optional<BackupOffer>> BackupDesk::lastWhole()
{
    return onPool(m_looking, [this]() -> std::optional<BackupOffer> {
        if (!m_plan.bringBack)
            return {};
        const auto backup = newestWhole(folder(), m_source.keeper);
        if (!backup)
            return {};
        const Lacking lacking = lackingIn(*backup, m_source.photos, m_source.transcripts);
        return BackupOffer{backup->path,          backup->manifest.madeAt,
                           backup->manifest.cars, backup->manifest.faults,
                           lacking.photos,        lacking.walkRounds};
    });
}

QFuture<tl::expected<void, QString>> BackupDesk::bringBack(const BackupOffer& offer)
{
    return onPool(m_making, [this, offer]() -> tl::expected<void, QString> {
        return backupAt(offer.path).and_then([this](const Backup& backup) {
            return mended([&] { return m_plan.bringBack(backup); });
        });
    });
}

QFuture<bool> BackupDesk::canRemake()
{
    return onPool(m_looking, [this] { return m_plan.canRemake && m_plan.canRemake(); });
}

QFuture<tl::expected<void, QString>> BackupDesk::remake()
{
    return onPool(m_making, [this] { return mended(m_plan.remake); });
}

tl::expected<void, QString>
BackupDesk::mended(const std::function<tl::expected<void, QString>()>& mend) const
{
    if (m_plan.closeHouse)
        m_plan.closeHouse(say("The workshop's file is being mended. Nothing was kept; wait until "
                              "that is done."));
    auto done = mend();
    if (!done && m_plan.openHouse)
        m_plan.openHouse();
    return done;
}

} // namespace ramplight
