// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/moment.h"
#include "evidence/evidenceerror.h"

#include <QByteArray>
#include <QByteArrayView>
#include <QString>

#include <tl/expected.hpp>

#include <sys/types.h>

// Files that are whole and on the disk, or not there; for this account only. Synchronous, no state,
// any thread.
namespace ramplight {

/// What an errno says of something that was to be written: NotPermitted, DiskFull, CannotWrite.
[[nodiscard]] EvidenceError writingErrorOf(int problem);

/// The same as part of a sentence: "the disk is full".
[[nodiscard]] QString whyNotWritten(EvidenceError error);

/// Makes one folder level if it is missing and brings its entry to the disk; the level above must
/// exist. Errors: NotPermitted, DiskFull, CannotWrite.
[[nodiscard]] tl::expected<void, EvidenceError> makeFolderDurably(const QString& folder);

/// Writes to a new file in draftFolder, brings it to the disk, gives it its name (over an older
/// file of that name, or a link) and brings the folder to the disk. Both folders exist and are on
/// one file system. After an error no file is left behind, and an older file of that name is
/// untouched. Who reads it then reads the disk, not what memory has of it, as far as the kernel
/// follows the advice. Errors: NotPermitted, DiskFull, CannotWrite.
[[nodiscard]] tl::expected<void, EvidenceError>
writeFileDurably(const QString& path, const QString& draftFolder, QByteArrayView bytes);

/// As writeFileDurably(), for others: of this mode, where the file system knows modes. The name may
/// lie where somebody else put things (a stick, a share): a link is replaced, never followed.
[[nodiscard]] tl::expected<void, EvidenceError>
writeFileForOthers(const QString& path, QByteArrayView bytes, mode_t mode);

/// The same as writeFileDurably() without the disk: a reader finds the whole file or none, but a
/// power cut may leave it empty or in part. For what can be made again.
[[nodiscard]] tl::expected<void, EvidenceError>
writeFileWhole(const QString& path, const QString& draftFolder, QByteArrayView bytes);

/// Adds bytes to the end of a file, which is made when it is missing, and brings them to the disk.
/// A break in between may leave a part of them. Errors: NotPermitted, DiskFull, CannotWrite.
[[nodiscard]] tl::expected<void, EvidenceError> appendDurably(const QString& path,
                                                              QByteArrayView bytes);

/// Brings to the disk what others wrote: a file's bytes, or the names in a folder. What is read of
/// it then comes from there, as with writeFileDurably(). Errors: NotPermitted, DiskFull,
/// CannotWrite.
[[nodiscard]] tl::expected<void, EvidenceError> bringToDisk(const QString& path);

/// A free name beside what is set aside: "site.keys.replaced-20310504-134000" (UTC), with "-2"
/// behind it where there is one of that second already. suffix ends the name: ".sqlite".
[[nodiscard]] QString asideName(const QString& path, const QString& why, Moment now,
                                const QString& suffix = {});

/// A file's bytes, at most so many from its beginning. Errors: NoSuchPhoto, NotPermitted,
/// CannotRead.
[[nodiscard]] tl::expected<QByteArray, EvidenceError> readAtMost(const QString& path, qint64 bytes);

} // namespace ramplight
