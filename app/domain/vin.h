// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QString>

#include <tl/expected.hpp>

// Vehicle identification numbers as ISO 3779 has them: 17 characters, capital letters without
// I, O and Q, and digits; places 1 to 3 name the maker (ISO 3780), 4 to 9 describe the car, 10 to
// 17 tell it from others. The check digit in place 9 is a rule of North America (49 CFR 565.15) and
// China (GB 16735) only; elsewhere any character may stand there, so a digit that disagrees is a
// note, never an error.
// Pure; no threads, no I/O.
namespace ramplight {

enum class VinProblem {
    Empty,     ///< nothing was typed or read
    Length,    ///< not 17 characters
    Character, ///< a character that no identification number holds, or I, O or Q
    SerialEnd, ///< the last four are not all digits
};

struct VinError
{
    VinProblem problem = VinProblem::Empty;
    int position = 0; ///< counted from 1; the length found, when that is the problem
    QChar found;
    friend bool operator==(const VinError&, const VinError&) = default;
};

struct Vin
{
    QString text; ///< capital letters, no blanks
    /// What place 9 would be where a check digit is in use: 0 to 9 or X.
    QChar checkDigit;

    [[nodiscard]] bool checkDigitAgrees() const { return text.at(8) == checkDigit; }
    [[nodiscard]] QString maker() const { return text.left(3); }
    [[nodiscard]] QString description() const { return text.mid(3, 6); }
    [[nodiscard]] QString indicator() const { return text.mid(9); }
    /// Its maker's number was given out where the check digit is a rule: North America (1 to 5) or
    /// China (L). No more than a hint: cars are also built there for elsewhere.
    [[nodiscard]] bool fromWhereItIsARule() const;
    friend bool operator==(const Vin&, const Vin&) = default;
};

/// Takes small letters, blanks and hyphens as people type them. Nothing is guessed: a letter O
/// is refused and said to be one, for it may have been a 0 or a D.
[[nodiscard]] tl::expected<Vin, VinError> readVin(const QString& typed);

/// As it is kept and compared: readVin's text, or what is none as it was typed.
[[nodiscard]] QString oneSpelling(const QString& vin);

/// What is wrong, for whoever typed it.
[[nodiscard]] QString words(const VinError& error);
/// A note for whoever typed it; empty when place 9 agrees.
[[nodiscard]] QString checkDigitNote(const Vin& vin);

} // namespace ramplight
