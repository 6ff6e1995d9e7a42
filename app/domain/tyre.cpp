// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/tyre.h"

#include "domain/say.h"

#include <QRegularExpression>
#include <QStringList>

#include <array>
#include <utility>

namespace ramplight {

namespace {

constexpr int lowestLoadIndex = 60;
/// Kilograms from load index 60 on, one each.
constexpr std::array loads{250,  257,  265,  272,  280,  290,  300,  307,  315,  325,  335,  345,
                           355,  365,  375,  387,  400,  412,  425,  437,  450,  462,  475,  487,
                           500,  515,  530,  545,  560,  580,  600,  615,  630,  650,  670,  690,
                           710,  730,  750,  775,  800,  825,  850,  875,  900,  925,  950,  975,
                           1000, 1030, 1060, 1090, 1120, 1150, 1180, 1215, 1250, 1285, 1320, 1360,
                           1400, 1450, 1500, 1550, 1600, 1650, 1700, 1750, 1800, 1850, 1900};

/// H stands between U and V: the letters are not in the order of the speeds.
constexpr std::array speeds{
    std::pair{"J", 100}, std::pair{"K", 110}, std::pair{"L", 120}, std::pair{"M", 130},
    std::pair{"N", 140}, std::pair{"P", 150}, std::pair{"Q", 160}, std::pair{"R", 170},
    std::pair{"S", 180}, std::pair{"T", 190}, std::pair{"U", 200}, std::pair{"H", 210},
    std::pair{"V", 240}, std::pair{"W", 270}, std::pair{"Y", 300},
};

int yearOfCentury(int twoDigits)
{
    return 2000 + twoDigits;
}

} // namespace

QDate DateCode::monday() const
{
    // 4 January is in the first week, whatever day it is.
    const QDate inFirst(year, 1, 4);
    return inFirst.addDays(1 - inFirst.dayOfWeek() + (week - 1) * 7);
}

int DateCode::yearsOn(QDate day) const
{
    const QDate made = monday();
    int years = day.year() - made.year();
    if (made.addYears(years) > day)
        --years;
    return std::max(years, 0);
}

tl::expected<DateCode, QString> readDateCode(const QString& typed, QDate today)
{
    const QString code = typed.simplified().section(QLatin1Char(' '), -1);
    const bool digits = !code.isEmpty() && std::ranges::all_of(code, [](QChar c) {
        return c >= QLatin1Char('0') && c <= QLatin1Char('9');
    });
    if (digits && code.size() == 3)
        return tl::unexpected(
            say("%1 has three digits, which is how tyres were marked before 2000: such a tyre is "
                "too old, and a code of this century has four")
                .arg(code));
    if (!digits || code.size() != 4)
        return tl::unexpected(
            say("the date code is the last four digits after DOT, week and year like 2319"));
    const DateCode read{code.left(2).toInt(), yearOfCentury(code.right(2).toInt())};
    if (read.week < 1 || read.week > 53)
        return tl::unexpected(
            say("%1 begins with week %2; a year has weeks 01 to 53").arg(code, code.left(2)));
    if (read.monday() > today)
        return tl::unexpected(say("%1 would be week %2 of %3, which is still to come")
                                  .arg(code, code.left(2), QString::number(read.year)));
    return read;
}

std::optional<TyreSize> readTyreSize(const QString& typed)
{
    static const QRegularExpression form(
        QStringLiteral("^P?(\\d{3})(?:/(\\d{2,3}))?(Z?R|[DB-])F?(\\d{2})(C?)"
                       "(?:(\\d{2,3})(?:/\\d{2,3})?([A-Z]|\\(Y\\)))?(?:XL)?$"));
    QString text = typed.toUpper();
    text.removeIf([](QChar c) { return c.isSpace(); });
    const QRegularExpressionMatch match = form.match(text);
    if (!match.hasMatch())
        return std::nullopt;
    TyreSize size;
    size.width = match.captured(1).toInt();
    size.aspect = match.captured(2).toInt();
    // ZR is a radial; the Z says no more than the speed symbol does.
    size.construction = match.captured(3).back();
    size.rim = match.captured(4).toInt();
    size.commercial = !match.captured(5).isEmpty();
    QString spelt = QString::number(size.width);
    if (size.aspect > 0)
        spelt += QStringLiteral("/%1").arg(size.aspect);
    spelt += QStringLiteral(" %1%2%3").arg(size.construction).arg(size.rim).arg(match.captured(5));
    size.fitment.size = spelt;
    if (!match.captured(6).isEmpty()) {
        size.fitment.loadIndex = match.captured(6).toInt();
        size.fitment.speedSymbol = match.captured(7);
    }
    return size;
}

std::optional<int> loadOfIndex(int loadIndex)
{
    if (loadIndex < lowestLoadIndex || loadIndex >= lowestLoadIndex + int(loads.size()))
        return std::nullopt;
    return loads.at(static_cast<std::size_t>(loadIndex - lowestLoadIndex));
}

std::optional<int> speedOfSymbol(const QString& symbol)
{
    // In brackets it is for more than 300; what more, only the tyre maker says.
    const QString letter = symbol == QLatin1StringView("(Y)") ? QStringLiteral("Y") : symbol;
    const auto it = std::ranges::find_if(
        speeds, [&](const auto& pair) { return letter == QLatin1StringView(pair.first); });
    return it == speeds.end() ? std::nullopt : std::optional(it->second);
}

tl::expected<TyreFitment, QString> tidied(const TyreFitment& typed)
{
    TyreFitment fitment = typed;
    fitment.size = typed.size.simplified().toUpper();
    fitment.speedSymbol = typed.speedSymbol.trimmed().toUpper();
    if (fitment.size.size() > 30)
        return tl::unexpected(say("a tyre size is shorter than that"));
    if (const std::optional<TyreSize> size = readTyreSize(typed.size)) {
        fitment.size = size->fitment.size;
        if (!fitment.loadIndex)
            fitment.loadIndex = size->fitment.loadIndex;
        if (fitment.speedSymbol.isEmpty())
            fitment.speedSymbol = size->fitment.speedSymbol;
    }
    if (fitment.loadIndex && !loadOfIndex(*fitment.loadIndex))
        return tl::unexpected(
            say("load index %1; those of cars and vans are 60 to 130").arg(*fitment.loadIndex));
    if (!fitment.speedSymbol.isEmpty() && !speedOfSymbol(fitment.speedSymbol))
        return tl::unexpected(
            say("speed symbol %1; those of cars are J to N, P to U, H, V, W and Y")
                .arg(fitment.speedSymbol));
    return fitment;
}

QString fitmentWords(const TyreFitment& fitment)
{
    QStringList parts;
    if (!fitment.size.isEmpty())
        parts.append(fitment.size);
    const QString service =
        (fitment.loadIndex ? QString::number(*fitment.loadIndex) : QString()) + fitment.speedSymbol;
    if (!service.isEmpty())
        parts.append(service);
    return parts.join(QLatin1Char(' '));
}

} // namespace ramplight
