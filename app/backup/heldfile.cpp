// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "backup/heldfile.h"

#include <QFile>

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

namespace ramplight {

tl::expected<HeldFile, int> HeldFile::take(const QString& path, How how)
{
    // On a stick somebody may have put a link there, to have a file made elsewhere.
    const int file = ::open(QFile::encodeName(path).constData(),
                            O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW, S_IRUSR | S_IWUSR);
    if (file < 0)
        return tl::unexpected(errno);
    HeldFile taken(file);
    if (::flock(file, (how == How::Alone ? LOCK_EX : LOCK_SH) | LOCK_NB) != 0)
        return tl::unexpected(errno);
    return taken;
}

HeldFile::~HeldFile()
{
    if (m_file >= 0)
        ::close(m_file);
}

} // namespace ramplight
