// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "backup/backupmanifest.h"

#include <QJsonDocument>

namespace ramplight {

QByteArray toFile(const BackupManifest& manifest)
{
    return QJsonDocument(toJson(manifest)).toJson(QJsonDocument::Indented);
}

tl::expected<BackupManifest, QString> manifestFrom(const QByteArray& file)
{
    QJsonParseError fault;
    const QJsonDocument document = QJsonDocument::fromJson(file, &fault);
    if (!document.isObject())
        return tl::unexpected(fault.error == QJsonParseError::NoError
                                  ? QStringLiteral("a list of what is in it was expected")
                                  : fault.errorString());
    BackupManifest manifest;
    if (const CodecError error = fromJson(document.object(), manifest); !error.isEmpty())
        return tl::unexpected(error.words());
    if (manifest.version > BackupManifest::currentVersion)
        return tl::unexpected(QStringLiteral("a newer version of this program made it"));
    if (manifest.site.isEmpty() || manifest.files.empty() || manifest.madeAt.isNull())
        return tl::unexpected(QStringLiteral("it names no site, no file or no time"));
    return manifest;
}

} // namespace ramplight
