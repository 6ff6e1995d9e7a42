// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/jsontext.h"

#include <QJsonArray>
#include <QJsonDocument>

#include <algorithm>

namespace ramplight::codec {

void appendText(const QString& value, std::string& text)
{
    const bool asItIs = std::ranges::all_of(value, [](QChar letter) {
        return letter >= QLatin1Char(' ') && letter <= QLatin1Char('~') &&
               letter != QLatin1Char('"') && letter != QLatin1Char('\\');
    });
    if (asItIs) {
        text += '"';
        for (const QChar letter : value)
            text += static_cast<char>(letter.unicode());
        text += '"';
        return;
    }
    // What JSON escapes, and what no UTF-8 can say, is Qt's to know.
    const QByteArray list = QJsonDocument(QJsonArray{value}).toJson(QJsonDocument::Compact);
    text.append(list.constData() + 1, static_cast<std::size_t>(list.size()) - 2);
}

} // namespace ramplight::codec
