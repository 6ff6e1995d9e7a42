// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "evidence/sticks.h"

#include <QStorageInfo>

namespace ramplight {

std::vector<Stick> mountedBelow(const QString& folder)
{
    std::vector<Stick> sticks;
    for (const QStorageInfo& volume : QStorageInfo::mountedVolumes())
        if (volume.isReady() && volume.rootPath().startsWith(folder + QLatin1Char('/')))
            sticks.push_back({volume.rootPath(), volume.displayName(), volume.isReadOnly()});
    return sticks;
}

} // namespace ramplight
