// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "access/accesserror.h"
#include "access/secret.h"

#include <QByteArray>
#include <QByteArrayView>
#include <QString>

#include <tl/expected.hpp>

namespace ramplight {

/// The site's two keys and the name by which records say which keys sealed them. Move-only.
/// Immutable: may be read from several threads at once.
class SiteKeys
{
public:
    static constexpr std::size_t keyBytes = 32;

    /// Both keys have keyBytes bytes.
    SiteKeys(QString id, Secret pepper, Secret digestKey);

    /// 16 lower-case hex digits; not secret.
    [[nodiscard]] const QString& id() const { return m_id; }
    /// For PinHasher.
    [[nodiscard]] const Secret& pepper() const { return m_pepper; }
    /// For SiteKeyFile only.
    [[nodiscard]] const Secret& digestKey() const { return m_digestKey; }

    /// HMAC-SHA-256 with the digest key, 32 bytes: seals the heads of the car streams.
    [[nodiscard]] QByteArray keyedDigest(QByteArrayView bytes) const;
    /// Compared in constant time.
    [[nodiscard]] bool matches(QByteArrayView digest, QByteArrayView bytes) const;

private:
    QString m_id;
    Secret m_pepper;
    Secret m_digestKey;
};

/// The site's key file: a few lines of text, mode 0600, outside the database and its backups.
/// Synchronous, no state, any thread.
///
///     ramplight-site-keys 1
///     id <16 hex>
///     pepper <64 hex>
///     digest <64 hex>
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
    /// Errors: KeyFileMissing, KeyFileTooOpen, KeyFileDamaged, KeyFileNewer, KeyFileNoReading.
    [[nodiscard]] tl::expected<SiteKeys, AccessError> read() const;

private:
    QString m_path;
};

} // namespace ramplight
