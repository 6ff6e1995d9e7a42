// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "access/accesserror.h"
#include "access/secret.h"

#include <QByteArray>
#include <QByteArrayView>
#include <QString>

#include <tl/expected.hpp>

#include <vector>

namespace ramplight {

/// The site's two keys and the name by which records say which keys sealed them; and the digest
/// keys that the site had before, for what they sealed. Move-only. Immutable: may be read from
/// several threads at once.
class SiteKeys
{
public:
    static constexpr std::size_t keyBytes = 32;
    /// So often can keys be renewed.
    static constexpr std::size_t mostPast = 32;

    /// A digest key that seals nothing any more.
    struct Past
    {
        QString id;
        Secret digestKey;
    };

    /// All keys have keyBytes bytes; past ones in the order of their time.
    SiteKeys(QString id, Secret pepper, Secret digestKey, std::vector<Past> past = {});
    /// Fresh ones.
    [[nodiscard]] static SiteKeys fresh();
    /// Fresh ones, with these among the past. Empty past mostPast.
    [[nodiscard]] SiteKeys renewed() const;

    /// 16 lower-case hex digits; not secret.
    [[nodiscard]] const QString& id() const { return m_id; }
    /// For PinHasher.
    [[nodiscard]] const Secret& pepper() const { return m_pepper; }
    /// For SiteKeyFile only.
    [[nodiscard]] const Secret& digestKey() const { return m_digestKey; }
    [[nodiscard]] const std::vector<Past>& past() const { return m_past; }

    /// HMAC-SHA-256 with the digest key, 32 bytes: seals the heads of the car streams.
    [[nodiscard]] QByteArray keyedDigest(QByteArrayView bytes) const;
    /// The same with a past key; empty where there is none of that id.
    [[nodiscard]] QByteArray pastDigest(const QString& id, QByteArrayView bytes) const;
    /// Compared in constant time.
    [[nodiscard]] bool matches(QByteArrayView digest, QByteArrayView bytes) const;

private:
    QString m_id;
    Secret m_pepper;
    Secret m_digestKey;
    std::vector<Past> m_past;
};

/// The site's key file: a few lines of text, mode 0600, outside the database and its backups.
/// Synchronous, no state, any thread.
///
///     ramplight-site-keys 1
///     id <16 hex>
///     pepper <64 hex>
///     digest <64 hex>
///     past <16 hex> <64 hex>      (a line for each time that the keys were renewed; version 2)
///     check <32 hex: BLAKE2b of the lines above, tells damage apart, keeps nobody out>
class SiteKeyFile
{
public:
    explicit SiteKeyFile(QString path);

    [[nodiscard]] const QString& path() const { return m_path; }

    /// Makes keys and the file. Whole or not at all, and never over an existing file, whoever else
    /// tries at the same moment. The folder must exist. On return the file is on the disk.
    /// Errors: KeyFileExists, KeyFileNoWriting.
    [[nodiscard]] tl::expected<SiteKeys, AccessError> create() const;
    /// The same with keys that there are.
    [[nodiscard]] tl::expected<void, AccessError> write(const SiteKeys& keys) const;
    /// The same onto a stick, whose file system knows neither modes nor two names for one file: a
    /// break in between leaves a part, which is damaged for every reader.
    [[nodiscard]] tl::expected<void, AccessError> writeOnStick(const SiteKeys& keys) const;
    /// Errors: KeyFileMissing, KeyFileTooOpen, KeyFileDamaged, KeyFileNewer, KeyFileNoReading.
    [[nodiscard]] tl::expected<SiteKeys, AccessError> read() const;
    /// The same, whoever else may read it: a copy on its way.
    [[nodiscard]] tl::expected<SiteKeys, AccessError> readFromStick() const;

private:
    [[nodiscard]] tl::expected<SiteKeys, AccessError> read(bool mayBeOpen) const;

    QString m_path;
};

} // namespace ramplight
