// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "evidence/broughtfolders.h"

#include "evidence/sticks.h"

#include <QDir>
#include <QFileInfo>

namespace ramplight {

namespace {

/// A card that was used for years has some tens of them; the newest are those that are wanted.
constexpr qsizetype mostCameraFolders = 24;

} // namespace

std::vector<BroughtFolder> broughtFolders(const QString& dropFolder, const QStringList& sticks)
{
    std::vector<BroughtFolder> all{{dropFolder, {}}};
    for (const QString& stick : sticks) {
        if (!QFileInfo(stick).isDir())
            continue;
        all.push_back({stick, QFileInfo(stick).fileName()});
        for (const Stick& mounted : mountedBelow(stick))
            all.push_back({mounted.path, mounted.name});
    }
    return all;
}

QStringList cameraFolders(const QString& stick)
{
    QStringList all{stick};
    const QDir pictures(stick + QStringLiteral("/DCIM"));
    if (!pictures.exists())
        return all;
    all.append(pictures.absolutePath());
    for (const QFileInfo& folder :
         pictures.entryInfoList(QDir::Dirs | QDir::NoDotAndDotDot | QDir::NoSymLinks, QDir::Time)) {
        if (all.size() > mostCameraFolders)
            break;
        all.append(folder.absoluteFilePath());
    }
    return all;
}

} // namespace ramplight
