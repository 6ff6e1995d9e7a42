// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/vin.h"

#include <array>

namespace ramplight {

namespace {

constexpr int vinLength = 17;

/// The number that a character stands for in the sum; -1 when it may not stand in the number.
int valueOf(QChar character)
{
    // A to Z; I, O and Q have none.
    constexpr std::array<int, 26> letters{1, 2,  3, 4,  5, 6, 7, 8, -1, 1, 2, 3, 4,
                                          5, -1, 7, -1, 9, 2, 3, 4, 5,  6, 7, 8, 9};
    const char16_t c = character.unicode();
    if (c >= u'0' && c <= u'9')
        return c - u'0';
    if (c >= u'A' && c <= u'Z')
        return letters.at(static_cast<std::size_t>(c - u'A'));
    return -1;
}

QChar checkDigitOf(const QString& vin)
{
    // Place 9 itself weighs nothing.
    constexpr std::array<int, vinLength> weights{8, 7, 6, 5, 4, 3, 2, 10, 0,
                                                 9, 8, 7, 6, 5, 4, 3, 2};
    int sum = 0;
    for (int i = 0; i < vinLength; ++i)
        sum += valueOf(vin.at(i)) * weights.at(static_cast<std::size_t>(i));
    const int rest = sum % 11;
    return rest == 10 ? QLatin1Char('X') : QLatin1Char(static_cast<char>('0' + rest));
}

} // namespace

bool Vin::fromWhereItIsARule() const
{
    const QChar first = text.at(0);
    return (first >= QLatin1Char('1') && first <= QLatin1Char('5')) || first == QLatin1Char('L');
}

tl::expected<Vin, VinError> readVin(const QString& typed)
{
    QString text = typed.toUpper();
    text.removeIf([](QChar c) { return c.isSpace() || c == QLatin1Char('-'); });
    if (text.isEmpty())
        return tl::unexpected(VinError{VinProblem::Empty, 0, {}});
    for (qsizetype i = 0; i < text.size(); ++i)
        if (valueOf(text.at(i)) < 0)
            return tl::unexpected(
                VinError{VinProblem::Character, static_cast<int>(i) + 1, text.at(i)});
    if (text.size() != vinLength)
        return tl::unexpected(VinError{VinProblem::Length, static_cast<int>(text.size()), {}});
    for (int i = vinLength - 4; i < vinLength; ++i)
        if (!text.at(i).isDigit())
            return tl::unexpected(VinError{VinProblem::SerialEnd, i + 1, text.at(i)});
    return Vin{text, checkDigitOf(text)};
}

QString oneSpelling(const QString& vin)
{
    const auto read = readVin(vin);
    return read ? read->text : vin.trimmed().toUpper();
}

QString words(const VinError& error)
{
    switch (error.problem) {
    case VinProblem::Empty:
        return QStringLiteral("The identification number is missing.");
    case VinProblem::Length:
        return QStringLiteral("An identification number has 17 characters; this one has %1.")
            .arg(error.position);
    case VinProblem::Character:
        return QStringLiteral("Character %1 is \"%2\"; an identification number has digits and "
                              "the letters A to Z without I, O and Q.")
            .arg(error.position)
            .arg(error.found);
    case VinProblem::SerialEnd:
        return QStringLiteral("The last four characters are digits; character %1 is \"%2\".")
            .arg(error.position)
            .arg(error.found);
    }
    return {};
}

QString checkDigitNote(const Vin& vin)
{
    if (vin.checkDigitAgrees())
        return {};
    const QString what =
        QStringLiteral("Character 9 is %1 and would be %2 where a check digit is in use. ")
            .arg(vin.text.at(8))
            .arg(vin.checkDigit);
    return what +
           (vin.fromWhereItIsARule()
                ? QStringLiteral("Where this number was given out it mostly is: it may be misread. "
                                 "Compare it with the car.")
                : QStringLiteral(
                      "Many markets use none: compare the number with the car once more."));
}

} // namespace ramplight
