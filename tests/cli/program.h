// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "support/folders.h"

#include <QByteArray>
#include <QProcessEnvironment>
#include <QString>
#include <QStringList>

// The built program in a process of its own.
namespace ramplight::test {

struct Ran
{
    int code = -1; ///< its exit code; -1 when it did not end by itself
    QString out;
    QString err;
};

/// The one of this build, or what RAMPLIGHT_PROGRAM in the environment names.
[[nodiscard]] QString programPath();
/// This process's, without what would lead the program to another workshop or to a screen.
[[nodiscard]] QProcessEnvironment programEnvironment();
/// Runs the program to its end. With a home, on the workshop there. input: what it reads.
[[nodiscard]] Ran runProgram(const QString& home, const QStringList& arguments,
                             const QByteArray& input = {});
/// The demo workshop as "demo" makes it, in a home that is not there yet; shared by the programs of
/// a run of tests. Another one has keys of its own. The fault, or nothing.
enum class DemoWorkshop { One, Another };
[[nodiscard]] QString makeDemo(const QString& home, DemoWorkshop which = DemoWorkshop::One);
/// Empty when it cannot be read.
[[nodiscard]] QByteArray bytesOf(const QString& path);
[[nodiscard]] bool write(const QString& path, const QByteArray& bytes);

/// Where the demo's appraisal files are, with the slash.
[[nodiscard]] QString demoAppraisals();
/// "24 cars", as "verify" counts them in a demo workshop; 22 or 23 before the two of its last day
/// came in the morning. Empty when it counts others.
[[nodiscard]] QString demoCars(const QString& verified);

} // namespace ramplight::test
