// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "evidence/dropfolder.h"

#include "evidence/durablefile.h"
#include "evidence/photofacts.h"

#include <QDateTime>
#include <QDir>
#include <QFile>
#include <QFileInfo>

#include <algorithm>
#include <utility>

namespace ramplight {

DropFolder::DropFolder(QString folder, int most)
    : m_folder(std::move(folder))
    , m_most(most)
{
}

tl::expected<std::vector<DropCandidate>, EvidenceError> DropFolder::list() const
{
    const QDir folder(m_folder);
    if (m_folder.isEmpty() || !folder.exists())
        return tl::unexpected(EvidenceError::FolderMissing);
    if (!folder.isReadable())
        return tl::unexpected(EvidenceError::NotPermitted);

    std::vector<DropCandidate> all;
    for (const QFileInfo& file : folder.entryInfoList(QDir::Files | QDir::NoSymLinks))
        all.push_back({file.absoluteFilePath(), file.fileName(), file.size(),
                       Moment{file.lastModified().toMSecsSinceEpoch()}});
    std::sort(all.begin(), all.end(), [](const DropCandidate& a, const DropCandidate& b) {
        return a.modified == b.modified ? a.name < b.name : a.modified > b.modified;
    });

    std::vector<DropCandidate> photos;
    for (DropCandidate& candidate : all) {
        if (static_cast<int>(photos.size()) >= m_most)
            break;
        QFile file(candidate.path);
        if (file.open(QIODevice::ReadOnly) && looksLikePhoto(file.read(8)))
            photos.push_back(std::move(candidate));
    }
    return photos;
}

tl::expected<QByteArray, EvidenceError> DropFolder::read(const DropCandidate& candidate,
                                                         qint64 mostBytes)
{
    // One byte more than allowed: the file may have grown since it was listed.
    auto bytes = readAtMost(candidate.path, mostBytes + 1);
    if (bytes && bytes->size() > mostBytes)
        return tl::unexpected(EvidenceError::TooManyBytes);
    return bytes;
}

} // namespace ramplight
