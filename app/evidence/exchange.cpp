// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "evidence/exchange.h"

#include <QFile>

#include <cstdio>
#include <fcntl.h>

namespace ramplight {
namespace {

bool rename(const QString& from, const QString& to)
{
    return std::rename(QFile::encodeName(from).constData(), QFile::encodeName(to).constData()) == 0;
}

bool exchange(const QString& one, const QString& other)
{
    return ::renameat2(AT_FDCWD, QFile::encodeName(one).constData(), AT_FDCWD,
                       QFile::encodeName(other).constData(), RENAME_EXCHANGE) == 0;
}

} // namespace

bool putInPlaceOf(const QString& path, const QString& fresh, const QString& aside,
                  bool mayBeOneStep)
{
    if (mayBeOneStep) {
        // Under the name that the other is to have: the exchange is the last step then.
        if (!rename(fresh, aside))
            return false;
        if (exchange(aside, path))
            return true;
        if (!rename(aside, fresh))
            return false;
    }
    if (!rename(path, aside))
        return false;
    if (rename(fresh, path))
        return true;
    rename(aside, path);
    return false;
}

} // namespace ramplight
