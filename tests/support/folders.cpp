// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "support/folders.h"

#include <QDir>
#include <QDirIterator>
#include <QFile>
#include <QFileInfo>
#include <QLockFile>

namespace ramplight::test {

namespace {

constexpr int patienceMs = 100'000;

} // namespace

bool copyFolder(const QString& from, const QString& to)
{
    if (!QDir().mkpath(to))
        return false;
    const QDir source(from);
    QDirIterator entries(from, QDir::AllEntries | QDir::Hidden | QDir::NoDotAndDotDot,
                         QDirIterator::Subdirectories);
    while (entries.hasNext()) {
        const QString path = entries.next();
        const QString target = to + QLatin1Char('/') + source.relativeFilePath(path);
        const bool copied =
            entries.fileInfo().isDir()
                ? QDir().mkpath(target) &&
                      QFile::setPermissions(target, entries.fileInfo().permissions())
                : QFile::copy(path, target);
        if (!copied)
            return false;
    }
    return QFile::setPermissions(to, QFile::permissions(from));
}

bool copyOfShared(const QString& name, const QString& to,
                  const std::function<bool(const QString& folder)>& make)
{
    const QString shared = qEnvironmentVariable("RAMPLIGHT_SHARED");
    if (shared.isEmpty())
        return make(to);
    const QString whole = QDir(shared).filePath(name);
    QLockFile making(whole + QStringLiteral(".lock"));
    making.setStaleLockTime(0); // however long it takes
    if (!making.tryLock(patienceMs))
        return false;
    if (!QFileInfo::exists(whole)) {
        const QString draft = whole + QStringLiteral(".draft");
        QDir(draft).removeRecursively(); // of a program that was stopped over it
        if (!make(draft) || !QDir().rename(draft, whole))
            return false;
    }
    making.unlock();
    return copyFolder(whole, to);
}

} // namespace ramplight::test
