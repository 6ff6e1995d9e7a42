// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QByteArray>
#include <QString>
#include <QStringList>

#include <optional>
#include <vector>

// What a workshop's folder holds after the program that worked in it was killed.
namespace ramplight::test {

/// A signature that the killed program had called kept.
struct Acknowledged
{
    QString car;
    int operation = 0;
    QString command;

    friend bool operator==(const Acknowledged&, const Acknowledged&) = default;
};

/// A signature that the screen of the killed program had shown as taken.
struct Shown
{
    QString car;
    int operation = 0;
    int by = 0;
    qint64 at = 0;

    friend bool operator==(const Shown&, const Shown&) = default;
};

/// What the tour told (runTour()).
struct ToldTour
{
    std::optional<qint64> from; ///< the workshop's time when it began; nothing: it did not
    std::vector<Shown> shown;
};
[[nodiscard]] ToldTour toldTourIn(const QByteArray& output);

/// What the screen showed, held against the ledger. Every difference in words.
[[nodiscard]] QStringList signaturesAgainst(const QString& home, const ToldTour& told);
/// As aftermath(), with what the screen showed.
[[nodiscard]] QStringList aftermathOfTour(const QString& home, const ToldTour& told);

/// Out of the whole lines "signed CAR OPERATION COMMAND"; other lines are left out, and so is a
/// line that the kill cut off.
[[nodiscard]] std::vector<Acknowledged> acknowledgedIn(const QByteArray& output);

/// Opens the store in the folder and compares its ledger with what was acknowledged; then as
/// wholeAfterKill(). Every difference in words; empty: nothing was lost and nothing is twofold.
/// Blocks.
[[nodiscard]] QStringList aftermath(const QString& home,
                                    const std::vector<Acknowledged>& acknowledged);

/// The longest that aftermath() took to open a store after what was done to it, in milliseconds:
/// what the next start waits for.
[[nodiscard]] qint64 slowestOpening();

/// Has the real program verify the workshop in the folder and rebuild its read tables, which are
/// then what they were. Blocks.
[[nodiscard]] QStringList wholeAfterKill(const QString& home);

/// All rows of a query on the workshop's database, read behind the program's back; columns are
/// joined by "|". Empty, too, when it cannot be read.
[[nodiscard]] QStringList rowsIn(const QString& home, const QString& statement);

} // namespace ramplight::test
