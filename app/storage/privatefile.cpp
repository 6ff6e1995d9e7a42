// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/privatefile.h"

#include <QFile>

namespace ramplight {

bool makePrivateFile(const QString& path)
{
    QFile file(path);
    return file.open(QIODevice::ReadWrite) &&
           file.setPermissions(QFile::ReadOwner | QFile::WriteOwner);
}

void removeDatabase(const QString& path)
{
    for (const char* part : {"-wal", "-shm", ""})
        QFile::remove(path + QLatin1StringView(part));
}

} // namespace ramplight
