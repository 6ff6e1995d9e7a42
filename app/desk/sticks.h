// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QString>
#include <QStringList>

#include <vector>

// Sticks that are in the kiosk. Blocks while it asks the system; any thread.
namespace ramplight {

struct Stick
{
    QString path;
    QString name; ///< its label, as the system shows it
};

/// What is mounted below the roots, and roots that stand for a stick themselves. None of the
/// folders in which systems only mount sticks ("/media").
[[nodiscard]] std::vector<Stick> sticksToWriteOn(const QStringList& roots);

} // namespace ramplight
