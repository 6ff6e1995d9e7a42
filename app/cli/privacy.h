// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "cli/house.h"

#include <QString>

#include <tl/expected.hpp>

// What other accounts of this machine, and what is left after a crash, must not show of a workshop.
namespace ramplight {

/// Another account of this machine may read or change the file.
[[nodiscard]] bool isOpenToOthers(const QString& file);

/// Files that this process makes are for this account only, until the object goes.
class PrivateFiles
{
public:
    PrivateFiles();
    ~PrivateFiles();
    PrivateFiles(const PrivateFiles&) = delete;
    PrivateFiles& operator=(const PrivateFiles&) = delete;

private:
    unsigned m_before; ///< the file mode mask
};

/// Database and settings can be read by this account only, whatever the file mode mask made of
/// them; what was open to others is closed, and the log says so. Error: words, when it cannot be.
[[nodiscard]] tl::expected<void, QString> closeToOthers(const HousePaths& paths);

/// This process leaves no core file: the site's keys would be in it.
void leaveNoCoreFile();

} // namespace ramplight
