// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "evidence/durablefile.h"

#include "domain/say.h"

#include <QDateTime>
#include <QFile>
#include <QFileInfo>

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <optional>
#include <tuple>

namespace ramplight {
namespace {

tl::unexpected<EvidenceError> writeError(int problem)
{
    return tl::unexpected(writingErrorOf(problem));
}

int writeAll(int fd, QByteArrayView bytes)
{
    while (!bytes.isEmpty()) {
        const ssize_t wrote = ::write(fd, bytes.data(), static_cast<std::size_t>(bytes.size()));
        if (wrote < 0 && errno == EINTR)
            continue;
        if (wrote <= 0)
            return wrote < 0 ? errno : EIO;
        bytes = bytes.sliced(wrote);
    }
    return 0;
}

/// To the medium, and out of memory, so that whoever reads it next reads what the medium kept: a
/// stick of false size takes every byte. The kernel is asked to forget, which is advice: it
/// promises nothing.
int syncAndForget(int fd)
{
    if (::fsync(fd) != 0)
        return errno;
    ::posix_fadvise(fd, 0, 0, POSIX_FADV_DONTNEED);
    return 0;
}

/// To a draft, then under its name.
tl::expected<void, EvidenceError> writeFile(const QString& path, const QString& draftFolder,
                                            QByteArrayView bytes, bool toDisk,
                                            std::optional<mode_t> mode = {})
{
    QByteArray draft = QFile::encodeName(draftFolder) + "/photo.XXXXXX";
    const int fd = ::mkostemp(draft.data(), O_CLOEXEC);
    if (fd < 0)
        return writeError(errno);
    // A file system without modes, as most sticks have one, refuses.
    if (mode)
        std::ignore = ::fchmod(fd, *mode);
    int problem = writeAll(fd, bytes);
    if (problem == 0 && toDisk)
        problem = syncAndForget(fd);
    if (::close(fd) != 0 && problem == 0)
        problem = errno;
    if (problem == 0 && ::rename(draft.constData(), QFile::encodeName(path).constData()) != 0)
        problem = errno;
    if (problem != 0) {
        ::unlink(draft.constData());
        return writeError(problem);
    }
    return {};
}

} // namespace

EvidenceError writingErrorOf(int problem)
{
    switch (problem) {
    case EACCES:
    case EPERM:
    case EROFS:
        return EvidenceError::NotPermitted;
    case ENOSPC:
    case EDQUOT:
        return EvidenceError::DiskFull;
    default:
        return EvidenceError::CannotWrite;
    }
}

QString whyNotWritten(EvidenceError error)
{
    switch (error) {
    case EvidenceError::NotPermitted:
        return say("the system does not let the program write there, or the disk can only be read");
    case EvidenceError::DiskFull:
        return say("the disk is full");
    default:
        return say("the folder is not there, or its disk does not take it");
    }
}

tl::expected<void, EvidenceError> bringToDisk(const QString& path)
{
    const int fd = ::open(QFile::encodeName(path).constData(), O_RDONLY | O_CLOEXEC);
    if (fd < 0)
        return writeError(errno);
    const int problem = syncAndForget(fd);
    ::close(fd);
    if (problem != 0)
        return writeError(problem);
    return {};
}

tl::expected<void, EvidenceError> makeFolderDurably(const QString& folder)
{
    if (::mkdir(QFile::encodeName(folder).constData(), S_IRWXU) == 0)
        return bringToDisk(QFileInfo(folder).absolutePath());
    const int problem = errno;
    if (problem == EEXIST && QFileInfo(folder).isDir())
        return {};
    return writeError(problem);
}

tl::expected<void, EvidenceError> writeFileDurably(const QString& path, const QString& draftFolder,
                                                   QByteArrayView bytes)
{
    return writeFile(path, draftFolder, bytes, true).and_then([&] {
        return bringToDisk(QFileInfo(path).absolutePath());
    });
}

tl::expected<void, EvidenceError> writeFileForOthers(const QString& path, QByteArrayView bytes,
                                                     mode_t mode)
{
    const QString folder = QFileInfo(path).absolutePath();
    return writeFile(path, folder, bytes, true, mode).and_then([&] { return bringToDisk(folder); });
}

tl::expected<void, EvidenceError> writeFileWhole(const QString& path, const QString& draftFolder,
                                                 QByteArrayView bytes)
{
    return writeFile(path, draftFolder, bytes, false);
}

tl::expected<void, EvidenceError> appendDurably(const QString& path, QByteArrayView bytes)
{
    const int fd = ::open(QFile::encodeName(path).constData(),
                          O_WRONLY | O_APPEND | O_CREAT | O_CLOEXEC, S_IRUSR | S_IWUSR);
    if (fd < 0)
        return writeError(errno);
    int problem = writeAll(fd, bytes);
    if (problem == 0 && ::fsync(fd) != 0)
        problem = errno;
    if (::close(fd) != 0 && problem == 0)
        problem = errno;
    if (problem != 0)
        return writeError(problem);
    return bringToDisk(QFileInfo(path).absolutePath());
}

QString asideName(const QString& path, const QString& why, Moment now, const QString& suffix)
{
    const QString name = QStringLiteral("%1.%2-%3")
                             .arg(path, why,
                                  QDateTime::fromMSecsSinceEpoch(now.ms, Qt::UTC)
                                      .toString(QStringLiteral("yyyyMMdd-HHmmss")));
    QString free = name + suffix;
    for (int i = 2; QFileInfo::exists(free); ++i)
        free = QStringLiteral("%1-%2%3").arg(name).arg(i).arg(suffix);
    return free;
}

tl::expected<QByteArray, EvidenceError> readAtMost(const QString& path, qint64 bytes)
{
    QFile file(path);
    if (!file.exists())
        return tl::unexpected(EvidenceError::NoSuchPhoto);
    if (!file.open(QIODevice::ReadOnly))
        return tl::unexpected(file.error() == QFileDevice::PermissionsError
                                  ? EvidenceError::NotPermitted
                                  : EvidenceError::CannotRead);
    QByteArray read = file.read(bytes);
    if (file.error() != QFileDevice::NoError)
        return tl::unexpected(EvidenceError::CannotRead);
    read.squeeze(); // read() sets all aside that may come
    return read;
}

} // namespace ramplight
