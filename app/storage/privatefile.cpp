// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/privatefile.h"

#include <QFile>

namespace ramplight {

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

void removeDatabase(const QString& path)
{
    for (const char* part : {"-wal", "-shm", ""})
        QFile::remove(path + QLatin1StringView(part));
}

} // namespace ramplight
