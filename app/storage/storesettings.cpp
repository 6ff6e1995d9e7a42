// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/storesettings.h"

#include <algorithm>
#include <array>
#include <map>
#include <optional>
#include <utility>

namespace ramplight {
namespace {

using Keywords = std::map<QString, QString>;

/// Repeats nothing of what was written: anything there may be a password.
tl::unexpected<QString> noAddress()
{
    return tl::unexpected(
        QStringLiteral("The server's address is written as keyword=value, with spaces between: "
                       "host=NAME dbname=NAME user=NAME. One that begins with postgresql:// is not "
                       "taken."));
}

bool isKeyword(const QString& name)
{
    return !name.isEmpty() && std::ranges::all_of(name, [](QChar c) {
        return (c >= QLatin1Char('a') && c <= QLatin1Char('z')) || c == QLatin1Char('_');
    });
}

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
        const QString name = text.mid(i, equals - i).trimmed();
        if (equals < 0 || !isKeyword(name))
            return noAddress();
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

/// Nobody else's machine lies on the way: a socket's folder, or the loopback.
bool isOnThisMachine(const QString& host)
{
    return host.isEmpty() || host.startsWith(QLatin1Char('/')) ||
           host.startsWith(QLatin1Char('@')) || host == QLatin1StringView("localhost") ||
           host == QLatin1StringView("::1") ||
           (host.startsWith(QLatin1StringView("127.")) && std::ranges::all_of(host, [](QChar c) {
                return c.isDigit() || c == QLatin1Char('.');
            }));
}

/// The value of a keyword among Qt's options; nothing: it is not there.
std::optional<QString> optionOf(const QStringList& options, const char* name)
{
    const QString start = QLatin1StringView(name) + QLatin1Char('=');
    for (const QString& one : options)
        if (one.startsWith(start))
            return one.mid(start.size());
    return std::nullopt;
}

} // namespace

bool PostgresAddress::isElsewhere() const
{
    // Several may be named, by commas: each is tried.
    const QStringList hosts =
        (host.isEmpty() ? qEnvironmentVariable("PGHOST") : host).split(QLatin1Char(','));
    const QStringList addresses = optionOf(options.split(QLatin1Char(';')), "hostaddr")
                                      .value_or(QString())
                                      .split(QLatin1Char(','));
    return !std::ranges::all_of(hosts + addresses, isOnThisMachine);
}

QString PostgresAddress::connectOptions() const
{
    // Two seconds of silence, two probes a second apart: a dead line is known after four.
    static constexpr std::array defaults{
        std::pair{"connect_timeout", "3"},  std::pair{"tcp_user_timeout", "3000"},
        std::pair{"keepalives_idle", "2"},  std::pair{"keepalives_interval", "1"},
        std::pair{"keepalives_count", "2"},
    };
    QStringList all = options.split(QLatin1Char(';'), Qt::SkipEmptyParts);
    for (const auto& [name, value] : defaults)
        if (!optionOf(all, name))
            all.append(QLatin1StringView(name) + QLatin1Char('=') + QLatin1StringView(value));
    // By itself libpq takes what it gets, and says nothing where that is plain text.
    const bool isSaid = optionOf(all, "sslmode") || optionOf(all, "service") ||
                        qEnvironmentVariableIsSet("PGSSLMODE");
    if (!isSaid && isElsewhere())
        all.append(QStringLiteral("sslmode=require"));
    return all.join(QLatin1Char(';'));
}

tl::expected<PostgresAddress, QString> PostgresAddress::parse(const QString& text)
{
    tl::expected<Keywords, QString> keywords = keywordsOf(text);
    if (!keywords)
        return tl::unexpected(keywords.error());

    PostgresAddress address;
    QStringList rest;
    const bool hasHost = keywords->contains(QStringLiteral("host"));
    for (const auto& [name, value] : *keywords) {
        // Beside a name the number only says where that is: certificates are made out to names.
        if (name == QLatin1StringView("host") ||
            (name == QLatin1StringView("hostaddr") && !hasHost)) {
            address.host = value;
        } else if (name == QLatin1StringView("port")) {
            bool isNumber = false;
            address.port = value.toInt(&isNumber);
            if (!isNumber || address.port < 1 || address.port > 65535)
                return tl::unexpected(QStringLiteral("\"%1\" is no port.").arg(value));
        } else if (name == QLatin1StringView("dbname")) {
            // libpq takes a whole address for a database's name, too.
            if (value.contains(QLatin1StringView("://")))
                return noAddress();
            address.database = value;
        } else if (name == QLatin1StringView("user")) {
            address.user = value;
        } else if (name == QLatin1StringView("password")) {
            address.password = value;
        } else if (name == QLatin1StringView("sslpassword")) {
            return tl::unexpected(QStringLiteral(
                "The password of a certificate's key (sslpassword) does not belong here, where "
                "others can read it. Name a key without one, in a file of mode 0600 "
                "(sslkey=FILE)."));
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
