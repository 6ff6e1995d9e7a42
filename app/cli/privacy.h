// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "cli/house.h"

#include <QString>

#include <tl/expected.hpp>

// What other accounts of this machine, and what is left after a crash, must not show of a workshop.
namespace ramplight {

/// Whatever this process makes from now on is for this account only.
void makePrivateFiles();

/// What is made for others to have is for them to read, as far as the account's own file mode mask
/// lets them, until the object goes. For a command that writes nothing else meanwhile.
class FilesForOthers
{
public:
    FilesForOthers();
    ~FilesForOthers();
    FilesForOthers(const FilesForOthers&) = delete;
    FilesForOthers& operator=(const FilesForOthers&) = delete;

private:
    unsigned m_before; ///< the file mode mask
};

/// Of such a file.
[[nodiscard]] unsigned modeForOthers();

/// What the program keeps in the house's folder can be read by this account only, whatever made it;
/// what was open to others is closed, and the log says so. Of photos, records and what is dropped
/// the folder is closed, which make() sees to. The key file is left to who reads it: one that
/// others could read is refused. Error: words, when something cannot be closed.
[[nodiscard]] tl::expected<void, QString> closeToOthers(const HousePaths& paths);

/// This process leaves no core, as a file or to a program that collects them, and no other process
/// of its account reads its memory: the site's keys would be in it.
void leaveNoCoreFile();

} // namespace ramplight
