// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "evidence/photostore.h"

#include "evidence/durablefile.h"

#include <QDateTime>
#include <QDir>
#include <QFile>
#include <QFileInfo>

#include <algorithm>
#include <utility>

namespace ramplight {
namespace {

/// A file that grew to no photo of ours is not taken into memory; its hash will not fit.
tl::expected<QByteArray, EvidenceError> readFile(const QString& path)
{
    return readAtMost(path, mostShelvedBytes + 1);
}

QString ending(PhotoForm form)
{
    switch (form) {
    case PhotoForm::Panel:
        return QStringLiteral(".640.jpg");
    case PhotoForm::Card:
        return QStringLiteral(".160.jpg");
    case PhotoForm::Full:
        break;
    }
    return QStringLiteral(".jpg");
}

EvidenceError writeErrorOf(const QFileDevice& file)
{
    return file.error() == QFileDevice::PermissionsError ? EvidenceError::NotPermitted
                                                         : EvidenceError::CannotWrite;
}

} // namespace

FolderShelf::FolderShelf(QString root)
    : m_root(std::move(root))
{
}

tl::expected<QByteArray, EvidenceError> FolderShelf::read(const PhotoId& id, PhotoForm form) const
{
    return readFile(pathOf(id, form));
}

tl::expected<void, EvidenceError> FolderShelf::write(const PhotoId& id,
                                                     const std::vector<ShelvedBytes>& forms)
{
    if (std::ranges::any_of(
            forms, [](const ShelvedBytes& one) { return one.bytes.size() > mostShelvedBytes; }))
        return tl::unexpected(EvidenceError::TooManyBytes);
    for (const QString& folder :
         {m_root, draftFolder(), QFileInfo(pathOf(id, PhotoForm::Full)).absolutePath()})
        if (const auto made = makeFolderDurably(folder); !made)
            return tl::unexpected(made.error());
    for (const ShelvedBytes& one : forms) {
        // A thumbnail that a power cut spoils is made again; waiting for the disk costs more.
        const auto write = one.form == PhotoForm::Full ? writeFileDurably : writeFileWhole;
        if (const auto kept = write(pathOf(id, one.form), draftFolder(), one.bytes); !kept)
            return kept;
    }
    return {};
}

tl::expected<void, EvidenceError> FolderShelf::touch(const PhotoId& id)
{
    QFile file(pathOf(id, PhotoForm::Full));
    if (!file.open(QIODevice::ReadWrite | QIODevice::ExistingOnly) ||
        !file.setFileTime(QDateTime::currentDateTimeUtc(), QFileDevice::FileModificationTime))
        return tl::unexpected(writeErrorOf(file));
    return {};
}

tl::expected<bool, EvidenceError> FolderShelf::remove(const PhotoId& id, Moment keptBefore)
{
    const QFileInfo full(pathOf(id, PhotoForm::Full));
    if (!full.exists() || full.lastModified().toMSecsSinceEpoch() >= keptBefore.ms)
        return false;
    for (const PhotoForm form : {PhotoForm::Card, PhotoForm::Panel, PhotoForm::Full}) {
        QFile file(pathOf(id, form));
        if (file.exists() && !file.remove())
            return tl::unexpected(writeErrorOf(file));
    }
    if (const auto synced = bringToDisk(full.absolutePath()); !synced)
        return tl::unexpected(synced.error());
    return true;
}

tl::expected<std::vector<PhotoId>, EvidenceError> FolderShelf::list() const
{
    const QDir root(m_root);
    if (!root.exists())
        return tl::unexpected(EvidenceError::FolderMissing);
    if (!root.isReadable())
        return tl::unexpected(EvidenceError::NotPermitted);
    std::vector<PhotoId> present;
    for (const QString& folder : root.entryList(QDir::Dirs | QDir::NoDotAndDotDot, QDir::Name))
        for (const QString& name :
             QDir(root.filePath(folder))
                 .entryList({QStringLiteral("*.jpg")}, QDir::Files, QDir::Name))
            // Else a thumbnail, or somebody's own.
            if (const PhotoId id{folder + name.chopped(4)}; folder.size() == 2 && isPhotoId(id))
                present.push_back(id);
    std::sort(present.begin(), present.end());
    return present;
}

QStringList FolderShelf::unfinished() const
{
    return QDir(draftFolder()).entryList(QDir::Files | QDir::Hidden, QDir::Name);
}

QString FolderShelf::pathOf(const PhotoId& id, PhotoForm form) const
{
    if (!isPhotoId(id))
        return {};
    return QStringLiteral("%1/%2/%3").arg(m_root, id.text.left(2), id.text.mid(2)) + ending(form);
}

QString FolderShelf::draftFolder() const
{
    return m_root + QStringLiteral("/drafts");
}

PhotoStore::PhotoStore(QString root)
    : PhotoKeeper(std::make_unique<FolderShelf>(root))
    , m_root(std::move(root))
{
}

QString PhotoStore::pathOf(const PhotoId& id) const
{
    return FolderShelf(m_root).pathOf(id, PhotoForm::Full);
}

} // namespace ramplight
