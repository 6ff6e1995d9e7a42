// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/codec.h"
#include "domain/ids.h"
#include "domain/moment.h"
#include "storage/entry.h"
#include "storage/storesettings.h"

#include <QByteArray>
#include <QFileDevice>
#include <QString>
#include <QStringList>

#include <tl/expected.hpp>

#include <vector>

// What a backup says of itself. Pure.
namespace ramplight {

/// Files of a backup, and what comes back from it, are for the program's own account.
inline constexpr QFileDevice::Permissions ownOnly =
    QFileDevice::ReadOwner | QFileDevice::WriteOwner;

struct BackupFile
{
    QString name;
    qint64 bytes = 0;
    QString sha256; ///< lower-case hex

    static constexpr auto fields =
        fieldList(field("name", &BackupFile::name), field("bytes", &BackupFile::bytes),
                  field("sha256", &BackupFile::sha256));
    friend bool operator==(const BackupFile&, const BackupFile&) = default;
};

struct BackupManifest
{
    static constexpr int currentVersion = 1;

    int version = currentVersion;
    QString program; ///< version of Ramplight that made it
    Moment madeAt;
    SiteId site;
    QString keyId; ///< of the site's key file, which is not in the backup
    qint64 entries = 0;
    int cars = 0;
    Head head; ///< where the stream of heads stands, and with it the ledger
    /// Of its site in its folder, one above the highest that was there: clocks are set wrongly, and
    /// a ledger that was brought back from a backup is shorter than it was. 0: of an older program.
    qint64 number = 0;
    std::vector<BackupFile> files;    ///< beside the manifest
    std::vector<PhotoId> photos;      ///< in the folder that all backups share
    std::vector<QString> transcripts; ///< the same; names are hashes of what they hold
    QStringList faults; ///< what the check found when the backup was made; empty: all was whole
    QString seal; ///< by the key keyId, over all the rest; empty: of an older program, or keyless
    QByteArray sealedText = {}; ///< what was read and the seal is over; not written

    static constexpr auto fields = fieldList(
        field("version", &BackupManifest::version), field("program", &BackupManifest::program),
        field("madeAt", &BackupManifest::madeAt), field("site", &BackupManifest::site),
        field("keyId", &BackupManifest::keyId), field("entries", &BackupManifest::entries),
        field("cars", &BackupManifest::cars), field("head", &BackupManifest::head),
        field("number", &BackupManifest::number), field("files", &BackupManifest::files),
        field("photos", &BackupManifest::photos),
        field("transcripts", &BackupManifest::transcripts),
        field("faults", &BackupManifest::faults), field("seal", &BackupManifest::seal));
};

/// Whether the list is the site's own word: a sum alone can be made anew by whoever has the stick.
enum class ManifestSeal {
    None,
    Fits,
    Wrong, ///< it was changed since, or made with a key that is not known here
};

/// Sealed where the keeper can.
[[nodiscard]] QByteArray toFile(const BackupManifest& manifest, const HeadKeeper& keeper = {});
/// Of one that was read.
[[nodiscard]] ManifestSeal sealOf(const BackupManifest& manifest, const HeadKeeper& keeper);
/// Error: words.
[[nodiscard]] tl::expected<BackupManifest, QString> manifestFrom(const QByteArray& file);

} // namespace ramplight
