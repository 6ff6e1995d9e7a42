// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "cli/privacy.h"

#include "log/log.h"
#include "storage/privatefile.h"

#include <QDir>
#include <QDirIterator>
#include <QFile>
#include <QFileInfo>
#include <QStringList>

#include <sys/prctl.h>
#include <sys/resource.h>
#include <sys/stat.h>

namespace ramplight {

namespace {

constexpr QFileDevice::Permissions ours = QFileDevice::ReadOwner | QFileDevice::WriteOwner;
constexpr mode_t closedMask = S_IRWXG | S_IRWXO;

/// As the account has it; the program has not begun yet.
const mode_t accountMask = [] {
    const mode_t mask = ::umask(closedMask);
    ::umask(mask);
    return mask;
}();

/// What there is of all that the program itself keeps.
QStringList ownFiles(const HousePaths& paths)
{
    const QDir root(paths.root());
    const auto all = [](const QString& file) -> QString {
        return QFileInfo(file).fileName() + QLatin1Char('*');
    };
    const QFileInfo log(paths.log());
    QStringList files;
    // With what SQLite, a move and the log's turning over put beside them.
    for (const QString& name : root.entryList(
             {all(paths.database()), all(paths.settings()), all(paths.backupNote()),
              all(paths.keyCopyNote()), all(paths.restoreNote()), all(paths.corrections()),
              all(paths.place()), log.completeBaseName() + QStringLiteral("*.") + log.suffix()},
             QDir::Files | QDir::Hidden))
        files.append(root.filePath(name));
    for (const QString& folder : {paths.standby(), paths.transcripts()}) {
        if (!QFileInfo(folder).isDir())
            continue;
        files.append(folder);
        QDirIterator inside(
            folder, QDir::AllEntries | QDir::Hidden | QDir::NoDotAndDotDot | QDir::NoSymLinks,
            QDirIterator::Subdirectories);
        while (inside.hasNext())
            files.append(inside.next());
    }
    return files;
}

} // namespace

void makePrivateFiles()
{
    ::umask(closedMask);
}

FilesForOthers::FilesForOthers()
    : m_before(::umask(accountMask))
{
}

FilesForOthers::~FilesForOthers()
{
    ::umask(m_before);
}

unsigned modeForOthers()
{
    return (S_IRUSR | S_IWUSR | S_IRGRP | S_IWGRP | S_IROTH | S_IWOTH) & ~accountMask;
}

tl::expected<void, QString> closeToOthers(const HousePaths& paths)
{
    QStringList closed;
    for (const QString& path : ownFiles(paths)) {
        if (!isOpenToOthers(path))
            continue;
        if (!QFile::setPermissions(path,
                                   QFileInfo(path).isDir() ? ours | QFileDevice::ExeOwner : ours))
            return tl::unexpected(
                QStringLiteral("Other accounts of this machine can read %1, and that cannot be "
                               "changed from here. Nothing was opened; give the file to this "
                               "account.")
                    .arg(path));
        closed.append(path);
    }
    if (!closed.isEmpty())
        log::warn(QStringLiteral("these could be read by other accounts of this machine; they "
                                 "were closed to them: %1")
                      .arg(closed.join(QStringLiteral(", "))));
    return {};
}

void leaveNoCoreFile()
{
    const rlimit none{0, 0};
    ::setrlimit(RLIMIT_CORE, &none);
    // The kernel does not ask for that limit where it pipes cores to a program (core(5)).
    ::prctl(PR_SET_DUMPABLE, 0, 0, 0, 0);
}

} // namespace ramplight
