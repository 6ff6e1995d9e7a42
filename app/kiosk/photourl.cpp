// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/photourl.h"

#include <QUrl>

namespace ramplight {

QString photoUrl(const PhotoId& photo, PhotoSize size)
{
    if (photo.isEmpty())
        return {};
    QString name;
    switch (size) {
    case PhotoSize::Card:
        name = QStringLiteral("card");
        break;
    case PhotoSize::Panel:
        name = QStringLiteral("panel");
        break;
    case PhotoSize::Full:
        name = QStringLiteral("full");
        break;
    }
    return QStringLiteral("image://photo/%1/%2").arg(name, photo.text);
}

QString droppedUrl(const QString& path)
{
    return QStringLiteral("image://photo/drop/%1")
        .arg(QString::fromLatin1(QUrl::toPercentEncoding(path)));
}

QString pageUrl(int edition, int page)
{
    return QStringLiteral("image://record/%1/%2").arg(edition).arg(page);
}

QString paperUrl(int edition)
{
    return QStringLiteral("image://paper/%1/0").arg(edition);
}

} // namespace ramplight
