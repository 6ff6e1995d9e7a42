// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "cli/settingsfile.h"

#include "evidence/durablefile.h"

#include <QFile>
#include <QFileInfo>
#include <QSettings>
#include <QTemporaryDir>

#include <optional>

namespace ramplight {

namespace {

/// The file's bytes; an empty file where there is none. Nothing: it cannot be read.
std::optional<QByteArray> bytesIn(const QString& path)
{
    QFile file(path);
    if (!file.exists())
        return QByteArray();
    if (!file.open(QIODevice::ReadOnly))
        return std::nullopt;
    return file.readAll();
}

/// What the file would be. QSettings keeps what it could not write and tries again when it is asked
/// for something else, or ends: so it only ever writes to a file that nobody else knows.
std::optional<QByteArray> changed(const QByteArray& before,
                                  const std::vector<SettingChange>& changes)
{
    const QTemporaryDir folder;
    const QString path = folder.filePath(QStringLiteral("settings.ini"));
    QFile draft(path);
    if (!draft.open(QIODevice::WriteOnly) || draft.write(before) != before.size() || !draft.flush())
        return std::nullopt;
    draft.close();
    QSettings settings(path, QSettings::IniFormat);
    for (const auto& [key, value] : changes)
        if (value.isValid())
            settings.setValue(key, value);
        else
            settings.remove(key);
    settings.sync();
    if (settings.status() != QSettings::NoError)
        return std::nullopt;
    return bytesIn(path);
}

} // namespace

QString keepSettings(const QString& named, const std::vector<SettingChange>& changes)
{
    const QFileInfo info(named);
    const QString path = info.isSymLink() ? info.symLinkTarget() : named;
    const auto before = bytesIn(path);
    const auto after = before ? changed(*before, changes) : std::nullopt;
    if (after && writeFileDurably(path, QFileInfo(path).absolutePath(), *after))
        return {};
    // It may have its name already, and only the disk has not said so.
    if (after && *after != *before && bytesIn(path) == after)
        return QStringLiteral("The settings in %1 were written, but the disk did not confirm it. "
                              "Look at the disk before you go on.")
            .arg(path);
    return QStringLiteral("The settings in %1 cannot be written. Nothing was changed.").arg(path);
}

} // namespace ramplight
