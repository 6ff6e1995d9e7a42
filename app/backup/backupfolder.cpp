// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "backup/backupfolder.h"

#include "evidence/durablefile.h"

#include <QCryptographicHash>
#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <QStorageInfo>

namespace ramplight {

namespace {

tl::unexpected<QString> isLink(const QString& path)
{
    return tl::unexpected(QStringLiteral("%1 is a link to somewhere else. No backup was made; "
                                         "remove it, or name the folder itself.")
                              .arg(path));
}

} // namespace

tl::expected<BackupFolder, QString> BackupFolder::alone(const QString& folder)
{
    if (const auto made = makeOwnFolder(folder); !made)
        return tl::unexpected(made.error());
    const QString path = folder + QStringLiteral("/.in-use");
    auto file = HeldFile::take(path, HeldFile::How::Alone);
    if (file)
        return BackupFolder(std::move(*file));
    switch (file.error()) {
    case HeldFile::held:
        return tl::unexpected(QStringLiteral("Another backup into %1 is being made. Nothing was "
                                             "changed.")
                                  .arg(folder));
    case ELOOP:
        return isLink(path);
    case ENOLCK:
    case EOPNOTSUPP:
        // A share that knows no locks still takes a backup.
        return BackupFolder(std::nullopt);
    default:
        return tl::unexpected(notWritten(path, writingErrorOf(file.error())));
    }
}

tl::expected<void, QString> makeOwnFolder(const QString& folder)
{
    if (QFileInfo(folder).isSymLink())
        return isLink(folder);
    if (const auto made = makeFolderDurably(folder); !made)
        return tl::unexpected(notWritten(folder, made.error()));
    return {};
}

bool removeFolder(const QString& folder)
{
    return QFileInfo(folder).isSymLink() ? QFile::remove(folder) : QDir(folder).removeRecursively();
}

QString sharedPhotos(const QString& folder)
{
    return folder + QStringLiteral("/photos");
}

QString sharedTranscripts(const QString& folder)
{
    return folder + QStringLiteral("/transcripts");
}

tl::expected<BackupFile, QString> fileAt(const QString& path)
{
    QFile file(path);
    QCryptographicHash hash(QCryptographicHash::Sha256);
    if (!file.open(QIODevice::ReadOnly) || !hash.addData(&file))
        return tl::unexpected(
            QStringLiteral("%1 cannot be read: %2.").arg(path, file.errorString()));
    return BackupFile{QFileInfo(path).fileName(), file.size(),
                      QString::fromLatin1(hash.result().toHex())};
}

QString notWritten(const QString& path, EvidenceError error)
{
    if (error == EvidenceError::DiskFull)
        return QStringLiteral("The disk with %1 is full. No backup was made; make room there, or "
                              "name a folder on another disk.")
            .arg(path);
    const QString above = QFileInfo(path).absolutePath();
    if (error == EvidenceError::NotPermitted && QStorageInfo(above).isReadOnly())
        return QStringLiteral("The disk with %1 can only be read. No backup was made; look whether "
                              "the stick is write-protected, or have it checked if it was pulled "
                              "out while it was written to.")
            .arg(path);
    if (error == EvidenceError::NotPermitted)
        return QStringLiteral("%1 cannot be written. %2").arg(path, words(error));
    return QStringLiteral("%1 cannot be written. No backup was made; look at the disk and try "
                          "again.")
        .arg(path);
}

QString notKept(const QString& path)
{
    return QStringLiteral("%1 was written, and what is read back is something else: that disk does "
                          "not keep what it is given. No backup was made; name a folder on another "
                          "stick or disk.")
        .arg(path);
}

} // namespace ramplight
