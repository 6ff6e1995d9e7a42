// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "backup/backupmanifest.h"

#include "backup/summedjson.h"
#include "storage/lengthprefixed.h"

#include <QJsonDocument>

namespace ramplight {

namespace {

constexpr QLatin1StringView sealKey{"seal"};

/// All fields that stand there, also those that only a later program knows.
QByteArray withoutSeal(QJsonObject object)
{
    object.remove(sealKey);
    return QJsonDocument(object).toJson(QJsonDocument::Compact);
}

QString sealOver(const QByteArray& text, const HeadKeeper& keeper)
{
    // Named, so that no other seal of the site can stand for it.
    return QString::fromLatin1(
        keeper.digest(LengthPrefixed("ramplight-backup-1").add(text).bytes()).toHex());
}

} // namespace

QByteArray toFile(const BackupManifest& manifest, const HeadKeeper& keeper)
{
    QJsonObject object = toJson(manifest);
    object.remove(sealKey);
    if (keeper.canSeal())
        object.insert(sealKey, sealOver(withoutSeal(object), keeper));
    return summed(object);
}

ManifestSeal sealOf(const BackupManifest& manifest, const HeadKeeper& keeper)
{
    if (manifest.seal.isEmpty())
        return ManifestSeal::None;
    const HeadKeeper sealer = keeper.with(manifest.keyId);
    return sealer.canSeal() && manifest.seal == sealOver(manifest.sealedText, sealer)
               ? ManifestSeal::Fits
               : ManifestSeal::Wrong;
}

tl::expected<BackupManifest, QString> manifestFrom(const QByteArray& file)
{
    const auto object = wholeObject(file);
    if (!object)
        return tl::unexpected(object.error());
    BackupManifest manifest;
    if (const CodecError error = fromJson(*object, manifest); !error.isEmpty())
        return tl::unexpected(error.words());
    if (manifest.version > BackupManifest::currentVersion)
        return tl::unexpected(QStringLiteral("a newer version of this program made it"));
    if (manifest.site.isEmpty() || manifest.files.empty() || manifest.madeAt.isNull())
        return tl::unexpected(QStringLiteral("it names no site, no file or no time"));
    manifest.sealedText = withoutSeal(*object);
    return manifest;
}

} // namespace ramplight
