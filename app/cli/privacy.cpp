// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "cli/privacy.h"

#include "log/log.h"

#include <QFile>

#include <sys/resource.h>
#include <sys/stat.h>

namespace ramplight {

namespace {

constexpr QFileDevice::Permissions ours = QFileDevice::ReadOwner | QFileDevice::WriteOwner;
constexpr QFileDevice::Permissions others = QFileDevice::ReadGroup | QFileDevice::WriteGroup |
                                            QFileDevice::ExeGroup | QFileDevice::ReadOther |
                                            QFileDevice::WriteOther | QFileDevice::ExeOther;

} // namespace

bool isOpenToOthers(const QString& file)
{
    return QFile::permissions(file).testAnyFlags(others);
}

PrivateFiles::PrivateFiles()
    : m_before(::umask(S_IRWXG | S_IRWXO))
{
}

PrivateFiles::~PrivateFiles()
{
    ::umask(m_before);
}

tl::expected<void, QString> closeToOthers(const HousePaths& paths)
{
    for (const QString& file : {paths.database(), paths.database() + QStringLiteral("-wal"),
                                paths.database() + QStringLiteral("-shm"), paths.settings()}) {
        if (!QFile::exists(file) || !isOpenToOthers(file))
            continue;
        if (!QFile::setPermissions(file, ours))
            return tl::unexpected(
                QStringLiteral("Other accounts of this machine can read %1, and that cannot be "
                               "changed from here. Nothing was opened; give the file to this "
                               "account.")
                    .arg(file));
        log::warn(QStringLiteral(
                      "%1 could be read by other accounts of this machine; it was closed to them")
                      .arg(file));
    }
    return {};
}

void leaveNoCoreFile()
{
    const rlimit none{0, 0};
    ::setrlimit(RLIMIT_CORE, &none);
}

} // namespace ramplight
