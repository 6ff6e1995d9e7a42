// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QString>
#include <QStringList>

#include <vector>

namespace ramplight {

/// A folder that is looked through for what people bring.
struct BroughtFolder
{
    QString path;
    QString name; ///< of the stick; empty: it is the drop folder

    [[nodiscard]] bool isStick() const { return !name.isEmpty(); }
    friend bool operator==(const BroughtFolder&, const BroughtFolder&) = default;
};

/// The drop folder, then the sticks that are mounted under the folders given, and those folders
/// themselves, so that one may stand for a stick. Asks the disk; any thread.
[[nodiscard]] std::vector<BroughtFolder> broughtFolders(const QString& dropFolder,
                                                        const QStringList& sticks);
/// Where a camera leaves photos on its card: the folder itself, DCIM, and the folders in that.
/// Source: the design rule for camera file systems, JEITA CP-3461.
[[nodiscard]] QStringList cameraFolders(const QString& stick);

} // namespace ramplight
