// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "demo/demofile.h"

#include <QJsonDocument>

namespace ramplight::demo {

tl::expected<WorkshopFile, QString> readWorkshop(const QByteArray& json)
{
    QJsonParseError error;
    const QJsonDocument document = QJsonDocument::fromJson(json, &error);
    if (!document.isObject())
        return tl::unexpected(QStringLiteral("The demo workshop cannot be read: %1 at byte %2.")
                                  .arg(error.errorString())
                                  .arg(error.offset));
    WorkshopFile file;
    if (const CodecError fault = fromJson(document.object(), file); !fault.isEmpty())
        return tl::unexpected(
            QStringLiteral("The demo workshop cannot be read: %1.").arg(fault.words()));
    return file;
}

} // namespace ramplight::demo
