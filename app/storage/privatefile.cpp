// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/privatefile.h"

#include <QFile>

#include <algorithm>

namespace ramplight {
namespace {

/// The least that a disk gives or does not.
constexpr qint64 blockBytes = 4096;

tl::expected<void, StoreError> copyBlocks(const QString& from, const QString& to)
{
    const auto cannotWrite = [&to] {
        return tl::unexpected(StoreError{
            StoreErrorKind::Unavailable,
            QStringLiteral("%1 cannot be written. Nothing was changed; look at the disk.")
                .arg(to)});
    };
    if (auto made = makePrivateFile(to); !made)
        return made;
    QFile source(from);
    QFile copy(to);
    if (!copy.open(QIODevice::WriteOnly))
        return cannotWrite();
    if (!source.open(QIODevice::ReadOnly | QIODevice::Unbuffered))
        return {};
    for (qint64 at = 0; at < source.size(); at += blockBytes) {
        const qint64 wanted = std::min(blockBytes, source.size() - at);
        QByteArray block = source.seek(at) ? source.read(wanted) : QByteArray();
        block.resize(wanted, '\0');
        if (copy.write(block) != wanted)
            return cannotWrite();
    }
    return copy.flush() ? tl::expected<void, StoreError>() : cannotWrite();
}

} // namespace

tl::expected<void, StoreError> makePrivateFile(const QString& path)
{
    QFile file(path);
    if (!file.open(QIODevice::ReadWrite) ||
        !file.setPermissions(QFile::ReadOwner | QFile::WriteOwner))
        return tl::unexpected(StoreError{
            StoreErrorKind::Unavailable,
            QStringLiteral("%1 cannot be written. Nothing was changed; check folder and disk.")
                .arg(path)});
    return {};
}

bool isOpenToOthers(const QString& path)
{
    constexpr QFileDevice::Permissions others = QFileDevice::ReadGroup | QFileDevice::WriteGroup |
                                                QFileDevice::ExeGroup | QFileDevice::ReadOther |
                                                QFileDevice::WriteOther | QFileDevice::ExeOther;
    return QFile::permissions(path).testAnyFlags(others);
}

tl::expected<QString, QString> passwordIn(const QString& path)
{
    QFile file(path);
    if (!file.open(QIODevice::ReadOnly))
        return tl::unexpected(QStringLiteral("The password file %1 cannot be read: %2.")
                                  .arg(path, file.errorString()));
    if (isOpenToOthers(path))
        return tl::unexpected(
            QStringLiteral("Others can read the password file %1. Give it the mode 0600.")
                .arg(path));
    const QString password = QString::fromUtf8(file.readLine()).trimmed();
    if (password.isEmpty())
        return tl::unexpected(QStringLiteral("The password file %1 is empty.").arg(path));
    return password;
}

void removeDatabase(const QString& path)
{
    for (const char* part : {"-wal", "-shm", ""})
        QFile::remove(path + QLatin1StringView(part));
}

tl::expected<void, StoreError> copyDamagedDatabase(const QString& from, const QString& to)
{
    static const QString log = QStringLiteral("-wal");
    return copyBlocks(from, to).and_then([&] {
        return QFile::exists(from + log) ? copyBlocks(from + log, to + log)
                                         : tl::expected<void, StoreError>();
    });
}

} // namespace ramplight
