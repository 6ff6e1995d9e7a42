// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/typednumber.h"

#include "domain/say.h"

#include <limits>

namespace ramplight {

namespace {

QString wanted(int decimals)
{
    switch (decimals) {
    case 0:
        return say("A whole number is needed, such as 120.");
    case 1:
        return say("A number with at most one decimal is needed, such as 1.9.");
    default:
        return say("A number with at most %1 decimals is needed, such as 0.25.").arg(decimals);
    }
}

} // namespace

tl::expected<int, QString> typedNumber(QStringView text, int decimals)
{
    text = text.trimmed();
    const bool negative = text.startsWith(QLatin1Char('-')) || text.startsWith(QChar(0x2212));
    if (negative)
        text = text.mid(1);
    qint64 number = 0;
    int after = -1; // digits behind the mark; -1 before it
    bool digits = false;
    for (const QChar c : text) {
        if (c == QLatin1Char('.') || c == QLatin1Char(',')) {
            if (after >= 0 || decimals == 0)
                return tl::unexpected(wanted(decimals));
            after = 0;
            continue;
        }
        const int digit = c.digitValue();
        if (digit < 0 || (after >= 0 && ++after > decimals))
            return tl::unexpected(wanted(decimals));
        digits = true;
        number = number * 10 + digit;
        if (number > std::numeric_limits<int>::max())
            return tl::unexpected(say("This number is too large."));
    }
    if (!digits || after == 0)
        return tl::unexpected(wanted(decimals));
    for (int missing = decimals - std::max(after, 0); missing > 0; --missing)
        number *= 10;
    if (number > std::numeric_limits<int>::max())
        return tl::unexpected(say("This number is too large."));
    return static_cast<int>(negative ? -number : number);
}

QString typedText(int number, int decimals)
{
    if (decimals <= 0)
        return QString::number(number);
    const bool negative = number < 0;
    QString digits = QString::number(negative ? -qint64{number} : qint64{number});
    digits = digits.rightJustified(decimals + 1, QLatin1Char('0'));
    digits.insert(digits.size() - decimals, QLatin1Char('.'));
    return negative ? QLatin1Char('-') + digits : digits;
}

} // namespace ramplight
