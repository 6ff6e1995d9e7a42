// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "../storage/storagebench.h"

#include "backup/backup.h"
#include "backup/restore.h"
#include "evidence/photostore.h"
#include "evidence/transcriptstore.h"

#include <QCryptographicHash>
#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <QTemporaryDir>

namespace ramplight::test {

inline const Moment evening{
    QDateTime(QDate(2031, 3, 8), QTime(12, 0), Qt::UTC).toMSecsSinceEpoch()}; // a Saturday

inline Moment evenings(int later)
{
    return {evening.ms + later * qint64{24 * 60 * 60 * 1000}};
}

HeadKeeper keeper(const QByteArray& key = "a key of the bench")
{
    HeadKeeper made = keeperWith(key);
    made.keyId = QString::fromLatin1(key);
    return made;
}

bool write(const QString& path, const QByteArray& bytes)
{
    QFile file(path);
    return file.open(QIODevice::WriteOnly) && file.write(bytes) == bytes.size();
}

QByteArray bytesOf(const QString& path)
{
    QFile file(path);
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
}

/// Turns one bit in the middle.
bool spoil(const QString& path)
{
    QByteArray bytes = bytesOf(path);
    if (bytes.isEmpty())
        return false;
    const qsizetype middle = bytes.size() / 2;
    bytes[middle] = static_cast<char>(bytes[middle] ^ 4);
    QFile::setPermissions(path, QFile::ReadOwner | QFile::WriteOwner);
    return write(path, bytes);
}

inline QImage picture(int seed)
{
    QImage image(64, 48, QImage::Format_RGB32);
    for (int y = 0; y < image.height(); ++y)
        for (int x = 0; x < image.width(); ++x)
            image.setPixel(x, y, qRgb(x * 4, y * 5, (x * y * seed) & 255));
    return image;
}

/// A workshop's folder as the program lays it out, with photos and words that are really there.
class House
{
public:
    explicit House(StoreKind kind, HeadKeeper own = keeper())
        : m_keeper(std::move(own))
        , m_database(kind)
        , m_photos(root() + QStringLiteral("/photos"))
    {
        if (!QDir().mkpath(root()))
            qFatal("no folder");
        const CarId first = bench.appraised();
        const FindingId worn = bench.found(first, "brakes-front", Condition::Worn);
        for (int i = 0; i < 3; ++i) {
            const auto photo = m_photos.keep(picture(i + 1));
            bench.must(bench.appraiser, first,
                       car::AttachPhoto{photo.value().id,
                                        PhotoMoment::Before,
                                        {QStringLiteral("brakes-front")},
                                        {},
                                        worn});
        }
        bench.appraised();
        m_store = m_database.open(m_keeper);
        writeOn();
        const QByteArray said = "the near side front tyre is down to two millimetres";
        const TranscriptId id{QString::fromLatin1(
            QCryptographicHash::hash(said, QCryptographicHash::Sha256).toHex())};
        if (!TranscriptStore(transcripts()).keep(id, said) ||
            !write(corrections(), "{\"draft\":1}\n"))
            qFatal("no words");
    }

    [[nodiscard]] QString root() const { return m_folder.filePath(QStringLiteral("house")); }
    [[nodiscard]] QString transcripts() const { return root() + QStringLiteral("/transcripts"); }
    [[nodiscard]] QString corrections() const
    {
        return root() + QStringLiteral("/corrections.jsonl");
    }
    [[nodiscard]] QString backups() const { return m_folder.filePath(QStringLiteral("stick")); }
    [[nodiscard]] SqlLedger& ledger() { return m_store->ledger(); }
    [[nodiscard]] TestDatabase& database() { return m_database; }
    [[nodiscard]] PhotoStore& photos() { return m_photos; }
    [[nodiscard]] QString inFolder(const QString& name) const { return m_folder.filePath(name); }

    [[nodiscard]] BackupSource source(const KnownCatalogues& known = {}) const
    {
        return {m_database.settings(),
                m_keeper,
                m_photos,
                transcripts(),
                corrections(),
                QStringLiteral("test"),
                [known] { return known; }};
    }
    [[nodiscard]] tl::expected<Backup, QString> backUp(Moment now = evening,
                                                       const KnownCatalogues& known = {})
    {
        return makeBackup(source(known), backups(), now);
    }
    [[nodiscard]] std::vector<Backup> kept() const { return backupsIn(backups()).value(); }
    /// Writes what the bench did since the last time.
    void writeOn()
    {
        const std::vector<Append> all = bench.ledger.accepted();
        if (!replay({all.begin() + m_written, all.end()}, m_store->ledger()))
            qFatal("the story cannot be written");
        m_written = static_cast<std::ptrdiff_t>(all.size());
    }
    [[nodiscard]] Store& store() { return *m_store; }
    void takePhotoAway(const PhotoId& id) { QFile::remove(m_photos.pathOf(id)); }

    Workbench bench;

private:
    QTemporaryDir m_folder;
    HeadKeeper m_keeper;
    TestDatabase m_database;
    PhotoStore m_photos;
    std::unique_ptr<Store> m_store;
    std::ptrdiff_t m_written = 0;
};

inline HouseNames names()
{
    return {QStringLiteral("workshop.sqlite"),
            QStringLiteral("site.keys"),
            QStringLiteral("photos"),
            QStringLiteral("transcripts"),
            QStringLiteral("corrections.jsonl"),
            QStringLiteral("settings.ini")};
}

/// The backup brought back into a folder beside the house.
struct Target
{
    Target(const House& house, Backup backup)
        : request{std::move(backup), house.inFolder(QStringLiteral("target")),
                  names(),           house.inFolder(QStringLiteral("key")),
                  keeper(),          evenings(1)}
    {
        if (!write(request.keyFile, "the key file"))
            qFatal("no key file");
    }
    [[nodiscard]] QString path(const QString& name) const
    {
        return request.house + QLatin1Char('/') + name;
    }
    [[nodiscard]] QStringList beside() const
    {
        return QDir(QFileInfo(request.house).absolutePath())
            .entryList({QStringLiteral("target*")}, QDir::AllEntries | QDir::Hidden, QDir::Name);
    }
    RestoreRequest request;
};

} // namespace ramplight::test
