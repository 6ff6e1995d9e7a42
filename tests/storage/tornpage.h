// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "storage/connection.h"

#include <QFile>

namespace ramplight::test {

/// Overwrites the page at which a table or an index of a SQLite file that nobody has open begins.
inline void tearPageOf(const QString& path, const char* name)
{
    qint64 page = 0;
    {
        StoreSettings settings;
        settings.file = path;
        const auto connection = Connection::open(settings);
        if (!connection)
            qFatal("%s", qPrintable(connection.error().words));
        auto rows = (*connection)
                        ->run("SELECT rootpage FROM sqlite_master WHERE name = ?",
                              {QString::fromLatin1(name)});
        if (!rows || !rows->next())
            qFatal("%s has no %s", qPrintable(path), name);
        page = rows->number(0);
    }
    QFile file(path);
    if (!file.open(QIODevice::ReadWrite))
        qFatal("%s", qPrintable(file.errorString()));
    // Where the format has the size of a page (sqlite.org/fileformat2.html).
    const qint64 size = qint64{static_cast<quint8>(file.peek(18).at(16))} * 256;
    if (!file.seek((page - 1) * size) || file.write(QByteArray(size, '\x5a')) != size)
        qFatal("%s", qPrintable(file.errorString()));
}

} // namespace ramplight::test
