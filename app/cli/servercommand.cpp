// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "cli/commandline.h"
#include "storage/serverrights.h"

namespace ramplight::cli {

int prepareServer(const QStringList& given, Terminal& terminal)
{
    QStringList arguments = given;
    const QString kiosk = takeOption(arguments, QStringLiteral("--kiosk"));
    const QString passwordFile = takeOption(arguments, QStringLiteral("--password-file"));
    if (arguments.size() != 1 || kiosk.isEmpty())
        return usage(terminal, *find(QStringLiteral("prepare-server")));
    const auto owner = serverStore(arguments.front(), passwordFile);
    if (!owner)
        return failed(terminal, owner.error(), BadUsage);
    const auto prepared = ramplight::prepareServer(*owner, kiosk);
    if (!prepared)
        return failed(terminal, prepared.error().words, Unavailable);
    terminal.out << "The database has schema " << prepared->to << ". " << kiosk
                 << " may add to the ledger and read it, and neither change nor remove an entry."
                 << Qt::endl;
    return Ok;
}

} // namespace ramplight::cli
