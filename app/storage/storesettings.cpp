// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/storesettings.h"

#include <algorithm>
#include <array>
#include <map>
#include <utility>

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

/// As libpq reads it back: quoted where it holds more than plain letters.
QString quoted(const QString& value)
{
    const bool plain = !value.isEmpty() && std::ranges::all_of(value, [](QChar c) {
        return !c.isSpace() && c != QLatin1Char('\'') && c != QLatin1Char('\\');
    });
    if (plain)
        return value;
    QString escaped = value;
    escaped.replace(QLatin1Char('\\'), QStringLiteral("\\\\"));
    escaped.replace(QLatin1Char('\''), QStringLiteral("\\'"));
    return QLatin1Char('\'') + escaped + QLatin1Char('\'');
}

} // namespace

QString PostgresAddress::connectOptions() const
{
    // Two seconds of silence, two probes a second apart: a dead line is known after four.
    static constexpr std::array defaults{
        std::pair{"connect_timeout", "3"},  std::pair{"tcp_user_timeout", "3000"},
        std::pair{"keepalives_idle", "2"},  std::pair{"keepalives_interval", "1"},
        std::pair{"keepalives_count", "2"},
    };
    QStringList all = options.split(QLatin1Char(';'), Qt::SkipEmptyParts);
    for (const auto& [name, value] : defaults) {
        const QString start = QLatin1StringView(name) + QLatin1Char('=');
        if (std::ranges::none_of(all, [&](const QString& one) { return one.startsWith(start); }))
            all.append(start + QLatin1StringView(value));
    }
    return all.join(QLatin1Char(';'));
}

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
        } else if (value.contains(QLatin1Char(';'))) {
            // Qt takes it for the end of the value.
            return tl::unexpected(
                QStringLiteral("The value of %1 cannot have a semicolon in it.").arg(name));
        } else {
            rest.append(name + QLatin1Char('=') + quoted(value));
        }
    }
    address.options = rest.join(QLatin1Char(';'));
    return address;
}

int HeadKeeper::ageOf(const QString& id) const
{
    if (id == keyId)
        return static_cast<int>(past.size());
    const auto found = std::ranges::find(past, id, &Past::keyId);
    return found == past.end() ? -1 : static_cast<int>(found - past.begin());
}

HeadKeeper HeadKeeper::with(const QString& id) const
{
    const int age = ageOf(id);
    if (id == keyId || age < 0)
        return age < 0 ? HeadKeeper{id, {}, {}, keyFile} : *this;
    return {id,
            past[static_cast<std::size_t>(age)].digest,
            {past.begin(), past.begin() + age},
            keyFile};
}

} // namespace ramplight
