// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/storesettings.h"

#include <map>

namespace ramplight {
namespace {

using Keywords = std::map<QString, QString>;

/// libpq's own form: spaces between pairs, values in single quotes when they hold spaces,
/// backslash escapes.
tl::expected<Keywords, QString> keywordsOf(const QString& text)
{
    Keywords keywords;
    qsizetype i = 0;
    const auto skipSpaces = [&] {
        while (i < text.size() && text.at(i).isSpace())
            ++i;
    };
    for (skipSpaces(); i < text.size(); skipSpaces()) {
        const qsizetype equals = text.indexOf(QLatin1Char('='), i);
        if (equals < 0)
            return tl::unexpected(
                QStringLiteral("\"%1\" is no keyword=value.").arg(text.mid(i).trimmed()));
        const QString name = text.mid(i, equals - i).trimmed();
        i = equals + 1;
        skipSpaces();
        const bool quoted = i < text.size() && text.at(i) == QLatin1Char('\'');
        if (quoted)
            ++i;
        QString value;
        bool ended = !quoted;
        for (; i < text.size(); ++i) {
            QChar letter = text.at(i);
            if (quoted ? letter == QLatin1Char('\'') : letter.isSpace()) {
                ended = true;
                ++i;
                break;
            }
            if (letter == QLatin1Char('\\') && i + 1 < text.size())
                letter = text.at(++i);
            value.append(letter);
        }
        if (!ended)
            return tl::unexpected(
                QStringLiteral("The value of %1 has no closing quote.").arg(name));
        keywords[name] = value;
    }
    return keywords;
}

} // namespace

tl::expected<PostgresAddress, QString> PostgresAddress::parse(const QString& text)
{
    tl::expected<Keywords, QString> keywords = keywordsOf(text);
    if (!keywords)
        return tl::unexpected(keywords.error());

    PostgresAddress address;
    QStringList rest;
    for (const auto& [name, value] : *keywords) {
        if (name == QLatin1StringView("host") || name == QLatin1StringView("hostaddr")) {
            address.host = value;
        } else if (name == QLatin1StringView("port")) {
            bool isNumber = false;
            address.port = value.toInt(&isNumber);
            if (!isNumber || address.port < 1 || address.port > 65535)
                return tl::unexpected(QStringLiteral("\"%1\" is no port.").arg(value));
        } else if (name == QLatin1StringView("dbname")) {
            address.database = value;
        } else if (name == QLatin1StringView("user")) {
            address.user = value;
        } else if (name == QLatin1StringView("password")) {
            address.password = value;
        } else {
            rest.append(name + QLatin1Char('=') + value);
        }
    }
    address.options = rest.join(QLatin1Char(';'));
    return address;
}

} // namespace ramplight
