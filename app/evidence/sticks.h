// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QString>

#include <vector>

namespace ramplight {

/// A stick that is in the kiosk.
struct Stick
{
    QString path;
    QString name; ///< its label, as the system shows it
    bool readOnly = false;
};

/// What is mounted below a folder ("/media"), ready to be read. Blocks while it asks the system;
/// any thread.
[[nodiscard]] std::vector<Stick> mountedBelow(const QString& folder);

} // namespace ramplight
