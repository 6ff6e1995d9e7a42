// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "appraisal/filefault.h"

#include <QStringList>

namespace ramplight {

QString pathInWords(const QString& pointer)
{
    QStringList parts;
    const QStringList tokens = pointer.split(QLatin1Char('/'), Qt::SkipEmptyParts);
    for (QString token : tokens) {
        bool isIndex = false;
        const int index = token.toInt(&isIndex);
        token.replace(QLatin1StringView("~1"), QLatin1StringView("/"));
        token.replace(QLatin1StringView("~0"), QLatin1StringView("~"));
        parts.append(isIndex ? QStringLiteral("entry %1").arg(index + 1) : token);
    }
    return parts.join(QStringLiteral(", "));
}

QString faultInWords(const FileFault& fault)
{
    QStringList parts;
    if (fault.line > 0)
        parts.append(QStringLiteral("line %1, column %2").arg(fault.line).arg(fault.column));
    if (!fault.path.isEmpty())
        parts.append(pathInWords(fault.path));
    parts.append(fault.expected);
    return parts.join(QStringLiteral(": "));
}

} // namespace ramplight
