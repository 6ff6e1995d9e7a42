// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "evidence/transcriptstore.h"

#include "domain/say.h"
#include "evidence/durablefile.h"

#include <QCryptographicHash>
#include <QDir>
#include <QFile>
#include <QFileInfo>

#include <utility>

namespace ramplight {

TranscriptStore::TranscriptStore(QString root)
    : m_root(std::move(root))
{
}

QString TranscriptStore::pathOf(const TranscriptId& id) const
{
    // Nothing but a hash becomes a path.
    for (const QChar c : id.text)
        if (!c.isLetterOrNumber())
            return {};
    return QStringLiteral("%1/%2.txt").arg(m_root, id.text);
}

tl::expected<void, QString> TranscriptStore::keep(const TranscriptId& id,
                                                  const QByteArray& file) const
{
    if (open(id))
        return {};
    if (makeFolderDurably(m_root) && writeFileDurably(pathOf(id), m_root, file))
        return {};
    return tl::unexpected(say("The words cannot be kept in the workshop's folder. Nothing was "
                              "changed; make room on the disk and try again."));
}

tl::expected<QByteArray, QString> TranscriptStore::open(const TranscriptId& id) const
{
    QFile file(pathOf(id));
    if (id.isEmpty() || !file.open(QIODevice::ReadOnly))
        return tl::unexpected(say("The words of this walk-round are not on this kiosk. The drafts "
                                  "are all here; look for the words in the backup."));
    QByteArray bytes = file.readAll();
    const QByteArray hash = QCryptographicHash::hash(bytes, QCryptographicHash::Sha256).toHex();
    if (QString::fromLatin1(hash) != id.text)
        return tl::unexpected(say("The words of this walk-round are no longer what was kept, so "
                                  "they are not shown. Put the file back from the backup."));
    return bytes;
}

std::vector<TranscriptId> TranscriptStore::damaged() const
{
    std::vector<TranscriptId> damaged;
    for (const QFileInfo& file :
         QDir(m_root).entryInfoList({QStringLiteral("*.txt")}, QDir::Files, QDir::Name))
        if (const TranscriptId id{file.completeBaseName()}; !open(id))
            damaged.push_back(id);
    return damaged;
}

} // namespace ramplight
