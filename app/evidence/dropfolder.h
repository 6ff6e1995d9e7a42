// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/moment.h"
#include "evidence/evidenceerror.h"

#include <QByteArray>
#include <QString>

#include <tl/expected.hpp>

#include <vector>

namespace ramplight {

/// A file that may be a photo.
struct DropCandidate
{
    QString path;
    QString name; ///< for people; says nothing about the content
    qint64 bytes = 0;
    Moment modified;

    friend bool operator==(const DropCandidate&, const DropCandidate&) = default;
};

/// A folder in which a camera, a telephone or a share leaves photos. Only looked at, never changed.
/// Synchronous, immutable, any thread.
class DropFolder
{
public:
    explicit DropFolder(QString folder, int most = 60);

    /// Files that begin like a JPEG or PNG, whatever they are called: newest first, then by name,
    /// at most as many as the constructor says. Hidden files, links and sub-folders are left out.
    /// Errors: FolderMissing, NotPermitted.
    [[nodiscard]] tl::expected<std::vector<DropCandidate>, EvidenceError> list() const;
    /// The bytes for decodePhoto(). Errors: NoSuchPhoto (taken away meanwhile), TooManyBytes,
    /// NotPermitted, CannotRead.
    [[nodiscard]] static tl::expected<QByteArray, EvidenceError>
    read(const DropCandidate& candidate, qint64 mostBytes);

private:
    QString m_folder;
    int m_most;
};

} // namespace ramplight
