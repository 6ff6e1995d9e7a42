// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "record/htmltext.h"

#include <QList>

namespace ramplight {

namespace {

/// Control characters, and those that turn the direction of the text around them.
bool isDropped(QChar c)
{
    const char16_t code = c.unicode();
    return (code < 0x20 && code != u'\n') || (code >= 0x7f && code < 0xa0) ||
           (code >= 0x202a && code <= 0x202e) || (code >= 0x2066 && code <= 0x2069) ||
           code == 0x200e || code == 0x200f || code == 0xfffe || code == 0xffff;
}

} // namespace

QString htmlText(const QString& words)
{
    QString clean;
    clean.reserve(words.size());
    for (qsizetype i = 0; i < words.size(); ++i) {
        const QChar c = words.at(i);
        const bool pair =
            c.isHighSurrogate() && i + 1 < words.size() && words.at(i + 1).isLowSurrogate();
        if (pair) {
            clean += c;
            clean += words.at(++i);
        } else if (c.isSurrogate()) {
            clean += QChar(QChar::ReplacementCharacter);
        } else if (!isDropped(c)) {
            clean += c;
        }
    }
    return clean.toHtmlEscaped().replace(QLatin1Char('\''), QStringLiteral("&#39;"));
}

QString cssText(const QString& words)
{
    QString safe;
    for (const char32_t c : words.toUcs4()) {
        const bool plain = (c >= U'0' && c <= U'9') || (c >= U'A' && c <= U'Z') ||
                           (c >= U'a' && c <= U'z') || c == U' ' || c == U',' || c == U'-';
        if (plain)
            safe += QChar(static_cast<char16_t>(c));
        else if (c >= 0x20 && !(c >= 0x7f && c < 0xa0) && !(c >= 0xd800 && c <= 0xdfff))
            safe += QStringLiteral("\\%1 ").arg(static_cast<uint>(c), 0, 16);
    }
    return safe;
}

} // namespace ramplight
