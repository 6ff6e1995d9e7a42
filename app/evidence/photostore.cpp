// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "evidence/photostore.h"

#include "evidence/durablefile.h"
#include "evidence/photodecoder.h"

#include <QCryptographicHash>
#include <QDir>
#include <QFile>
#include <QFileInfo>

#include <spdlog/spdlog.h>

#include <algorithm>
#include <array>
#include <utility>

namespace ramplight {
namespace {

constexpr qsizetype idLength = 64;
constexpr std::array thumbnailSizes{ThumbnailSize::Card, ThumbnailSize::Panel};

bool isHex(QStringView text)
{
    return std::all_of(text.begin(), text.end(), [](QChar c) {
        return (c >= u'0' && c <= u'9') || (c >= u'a' && c <= u'f');
    });
}

/// Nothing else becomes a path.
bool isId(const PhotoId& id)
{
    return id.text.size() == idLength && isHex(id.text);
}

tl::expected<QByteArray, EvidenceError> readFile(const QString& path)
{
    QFile file(path);
    if (!file.exists())
        return tl::unexpected(EvidenceError::NoSuchPhoto);
    if (!file.open(QIODevice::ReadOnly))
        return tl::unexpected(file.error() == QFileDevice::PermissionsError
                                  ? EvidenceError::NotPermitted
                                  : EvidenceError::CannotRead);
    QByteArray bytes = file.readAll();
    if (file.error() != QFileDevice::NoError)
        return tl::unexpected(EvidenceError::CannotRead);
    return bytes;
}

tl::expected<QByteArray, EvidenceError> shrunk(const QImage& image, ThumbnailSize size)
{
    const int longSide = static_cast<int>(size);
    if (std::max(image.width(), image.height()) <= longSide)
        return encodePhoto(image);
    const QSize target = image.size().scaled(longSide, longSide, Qt::KeepAspectRatio);
    return encodePhoto(image.scaled(target.expandedTo(QSize(1, 1)), Qt::IgnoreAspectRatio,
                                    Qt::SmoothTransformation));
}

} // namespace

PhotoId photoIdOf(QByteArrayView bytes)
{
    QCryptographicHash hash(QCryptographicHash::Sha256);
    hash.addData(bytes);
    return {QString::fromLatin1(hash.result().toHex())};
}

PhotoStore::PhotoStore(QString root)
    : m_root(std::move(root))
{
}

tl::expected<StoredPhoto, EvidenceError> PhotoStore::keep(const QImage& image)
{
    const auto bytes = encodePhoto(image);
    if (!bytes)
        return tl::unexpected(bytes.error());
    const StoredPhoto photo{photoIdOf(*bytes), image.size(), bytes->size()};
    if (open(photo.id))
        return photo;

    for (const QString& folder :
         {m_root, draftFolder(), QFileInfo(pathOf(photo.id)).absolutePath()})
        if (const auto made = makeFolderDurably(folder); !made)
            return tl::unexpected(made.error());
    // Thumbnails first: where the photo is, they are.
    for (const ThumbnailSize size : thumbnailSizes) {
        const auto small = shrunk(image, size);
        if (!small)
            return tl::unexpected(small.error());
        if (const auto kept = keepThumbnail(photo.id, *small, size); !kept)
            return tl::unexpected(kept.error());
    }
    if (const auto kept = writeFileDurably(pathOf(photo.id), draftFolder(), *bytes); !kept)
        return tl::unexpected(kept.error());
    return photo;
}

tl::expected<QByteArray, EvidenceError> PhotoStore::open(const PhotoId& id) const
{
    if (!isId(id))
        return tl::unexpected(EvidenceError::NoSuchPhoto);
    auto bytes = readFile(pathOf(id));
    if (bytes && photoIdOf(*bytes) != id)
        return tl::unexpected(EvidenceError::KeptDamaged);
    return bytes;
}

tl::expected<QByteArray, EvidenceError> PhotoStore::thumbnail(const PhotoId& id,
                                                              ThumbnailSize size) const
{
    if (!isId(id))
        return tl::unexpected(EvidenceError::NoSuchPhoto);
    // A thumbnail has no hash of its own, so it must at least be a whole picture.
    if (auto kept = readFile(thumbnailPath(id, size)); kept && decodePhoto(*kept))
        return kept;
    const auto photo = open(id);
    if (!photo)
        return tl::unexpected(photo.error());
    const auto image = decodePhoto(*photo);
    if (!image)
        return tl::unexpected(EvidenceError::KeptDamaged);
    auto again = shrunk(*image, size);
    if (!again)
        return tl::unexpected(again.error());
    // It can be shown without being kept, for example on a disk that is full.
    if (!keepThumbnail(id, *again, size))
        spdlog::warn("thumbnail of photo {} could not be kept", id.text.toStdString());
    return again;
}

tl::expected<VaultReport, EvidenceError> PhotoStore::verify(const std::set<PhotoId>& known) const
{
    const QDir root(m_root);
    VaultReport report;
    if (!root.exists()) {
        // Nothing was ever kept here, or the whole folder is away: the two must not look alike.
        if (!known.empty())
            return tl::unexpected(EvidenceError::FolderMissing);
        return report;
    }
    if (!root.isReadable())
        return tl::unexpected(EvidenceError::NotPermitted);

    std::set<PhotoId> present;
    for (const QString& folder : root.entryList(QDir::Dirs | QDir::NoDotAndDotDot, QDir::Name)) {
        if (folder.size() != 2 || !isHex(folder))
            continue;
        for (const QString& name :
             QDir(root.filePath(folder))
                 .entryList({QStringLiteral("*.jpg")}, QDir::Files, QDir::Name)) {
            const PhotoId id{folder + name.chopped(4)};
            if (!isId(id)) // a thumbnail
                continue;
            present.insert(id);
            const auto bytes = open(id);
            if (!bytes && bytes.error() != EvidenceError::KeptDamaged)
                return tl::unexpected(bytes.error());
            if (!bytes)
                report.damaged.push_back(id);
            else if (!known.contains(id))
                report.orphans.push_back(id);
        }
    }
    std::set_difference(known.begin(), known.end(), present.begin(), present.end(),
                        std::back_inserter(report.missing));
    report.unfinished = QDir(draftFolder()).entryList(QDir::Files | QDir::Hidden, QDir::Name);
    return report;
}

QString PhotoStore::pathOf(const PhotoId& id) const
{
    if (!isId(id))
        return {};
    return QStringLiteral("%1/%2/%3.jpg").arg(m_root, id.text.left(2), id.text.mid(2));
}

QString PhotoStore::draftFolder() const
{
    return m_root + QStringLiteral("/drafts");
}

QString PhotoStore::thumbnailPath(const PhotoId& id, ThumbnailSize size) const
{
    return QStringLiteral("%1/%2/%3.%4.jpg")
        .arg(m_root, id.text.left(2), id.text.mid(2), QString::number(static_cast<int>(size)));
}

tl::expected<void, EvidenceError>
PhotoStore::keepThumbnail(const PhotoId& id, const QByteArray& bytes, ThumbnailSize size) const
{
    return writeFileDurably(thumbnailPath(id, size), draftFolder(), bytes);
}

} // namespace ramplight
