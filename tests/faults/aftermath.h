// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QString>
#include <QStringList>

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

/// Out of the whole lines "signed CAR OPERATION COMMAND"; other lines are left out, and so is a
/// line that the kill cut off.
[[nodiscard]] std::vector<Acknowledged> acknowledgedIn(const QByteArray& output);

/// Opens the store in the folder and compares its ledger with what was acknowledged; then as
/// wholeAfterKill(). Every difference in words; empty: nothing was lost and nothing is twofold.
/// Blocks.
[[nodiscard]] QStringList aftermath(const QString& home,
                                    const std::vector<Acknowledged>& acknowledged);

/// Has the real program verify the workshop in the folder and rebuild its read tables, which are
/// then what they were. Blocks.
[[nodiscard]] QStringList wholeAfterKill(const QString& home);

} // namespace ramplight::test
