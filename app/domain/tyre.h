// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/codec.h"

#include <QDate>
#include <QString>

#include <tl/expected.hpp>

#include <algorithm>
#include <optional>

// What can be read off a tyre: its tread, and what stands on its sidewall. Pure; no threads, no
// I/O.
namespace ramplight {

/// Tenths of a millimetre at three points across a tyre; the lowest counts.
struct Tread
{
    int inner = 0;
    int centre = 0;
    int outer = 0;

    [[nodiscard]] int lowest() const { return std::min({inner, centre, outer}); }
    /// Between the deepest and the lowest point.
    [[nodiscard]] int spread() const { return std::max({inner, centre, outer}) - lowest(); }
    static constexpr auto fields =
        fieldList(field("inner", &Tread::inner), field("centre", &Tread::centre),
                  field("outer", &Tread::outer));
    friend bool operator==(const Tread&, const Tread&) = default;
};

/// Size and service description, as a tyre carries them or as a car asks for them. Empty fields are
/// not known.
struct TyreFitment
{
    QString size; ///< "205/55 R16"
    std::optional<int> loadIndex = {};
    QString speedSymbol = {}; ///< "V"

    [[nodiscard]] bool isEmpty() const
    {
        return size.isEmpty() && !loadIndex && speedSymbol.isEmpty();
    }
    static constexpr auto fields =
        fieldList(field("size", &TyreFitment::size), field("loadIndex", &TyreFitment::loadIndex),
                  field("speedSymbol", &TyreFitment::speedSymbol));
    friend bool operator==(const TyreFitment&, const TyreFitment&) = default;
};

/// What stands on a tyre.
struct TyreMarking
{
    QString dateCode; ///< week and year of making, "2319"
    TyreFitment fitment = {};

    [[nodiscard]] bool isEmpty() const { return dateCode.isEmpty() && fitment.isEmpty(); }
    static constexpr auto fields = fieldList(field("dateCode", &TyreMarking::dateCode),
                                             field("fitment", &TyreMarking::fitment));
    friend bool operator==(const TyreMarking&, const TyreMarking&) = default;
};

struct DateCode
{
    int week = 0; ///< 1 to 53
    int year = 0; ///< 2000 and later

    /// The Monday of that week (ISO 8601).
    [[nodiscard]] QDate monday() const;
    /// Whole years on a day; never negative.
    [[nodiscard]] int yearsOn(QDate day) const;
    friend bool operator==(const DateCode&, const DateCode&) = default;
};

/// The last group of the code that begins with DOT (the sidewall code of 49 CFR 574.5, used the
/// world over): two digits of the week, two of the year. Takes the whole code or its end. Three
/// digits are of a tyre made before 2000. What is wrong comes back in words.
[[nodiscard]] tl::expected<DateCode, QString> readDateCode(const QString& typed, QDate today);

/// How a size is built, where it is one of the usual metric ones.
struct TyreSize
{
    int width = 0;      ///< millimetres
    int aspect = 0;     ///< percent; 0 when the size has none ("185 R14 C")
    QChar construction; ///< R radial, D or - diagonal, B bias-belted
    int rim = 0;        ///< inches
    bool commercial = false;
    TyreFitment fitment; ///< the size in one spelling, and the service description when it follows

    friend bool operator==(const TyreSize&, const TyreSize&) = default;
};

/// "205/55R16", "205/55 ZR 16 91V", "185 R14C 102/100 Q"; empty when it is none of these.
[[nodiscard]] std::optional<TyreSize> readTyreSize(const QString& typed);

/// Kilograms that a tyre of a load index carries, 60 to 130; empty outside. The correlation is that
/// of ISO 4000-1 and of UN Regulation No. 30, annex 4.
[[nodiscard]] std::optional<int> loadOfIndex(int loadIndex);
/// Kilometres per hour of a speed symbol; empty when it is none. From the same regulation, 2.29.3.
[[nodiscard]] std::optional<int> speedOfSymbol(const QString& symbol);

/// One spelling of everything that was typed: "205/55r16 91v" gives size, load index and symbol.
/// A load index or symbol that cannot be comes back in words.
[[nodiscard]] tl::expected<TyreFitment, QString> tidied(const TyreFitment& typed);
/// "205/55 R16 91V"
[[nodiscard]] QString fitmentWords(const TyreFitment& fitment);

} // namespace ramplight
