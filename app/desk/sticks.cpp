// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "desk/sticks.h"

#include <QDir>
#include <QFileInfo>

#include <algorithm>
#include <iterator>

namespace ramplight {

namespace {

bool isOnlyMountedIn(const QString& root)
{
    static const QStringList parents{QStringLiteral("/media"), QStringLiteral("/run/media"),
                                     QStringLiteral("/mnt")};
    return parents.contains(QDir::cleanPath(root));
}

} // namespace

std::vector<Stick> sticksToWriteOn(const QStringList& roots)
{
    std::vector<Stick> sticks;
    for (const QString& root : roots) {
        const QFileInfo folder(root);
        if (!folder.isDir())
            continue;
        std::ranges::copy_if(mountedBelow(root), std::back_inserter(sticks),
                             [](const Stick& stick) { return !stick.readOnly; });
        if (!isOnlyMountedIn(root) && folder.isWritable())
            sticks.push_back({root, folder.fileName()});
    }
    return sticks;
}

} // namespace ramplight
