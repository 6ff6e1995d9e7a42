// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "support/scratchdatabase.h"

#include <QProcess>
#include <QUuid>

namespace ramplight::test {

ScratchDatabase::ScratchDatabase(const QString& server, const QString& how)
    : m_server(server)
    , m_name(QStringLiteral("scratch_") + QUuid::createUuid().toString(QUuid::Id128))
    , m_there(tell(QStringLiteral("create database %1 %2").arg(m_name, how)))
{
}

ScratchDatabase::~ScratchDatabase()
{
    if (m_there && !tell(QStringLiteral("drop database %1").arg(m_name)))
        qWarning("the database %s could not be removed", qPrintable(m_name));
}

QString ScratchDatabase::address() const
{
    QString address = m_server;
    return address.replace(QStringLiteral("ramplight_test"), m_name);
}

bool ScratchDatabase::tell(const QString& statement) const
{
    return QProcess::execute(QStringLiteral("psql"),
                             {QStringLiteral("--quiet"), QStringLiteral("--no-psqlrc"),
                              QStringLiteral("--dbname"), m_server, QStringLiteral("--command"),
                              statement}) == 0;
}

} // namespace ramplight::test
