// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
// What hangs in or on a car.
#include "access/scanreader.h"
#include "cli/commandline.h"
#include "record/doorsheet.h"

namespace ramplight::cli {

int doorSheet(const QStringList& given, Terminal& terminal)
{
    QStringList arguments = given;
    const QString out = takeOption(arguments, QStringLiteral("--out"));
    if (arguments.size() != 1 || out.isEmpty())
        return usage(terminal, *find(QStringLiteral("doorsheet")));
    const auto house = openOrSay(terminal);
    if (!house)
        return Unavailable;
    SqlLedger& ledger = house->store().ledger();
    const auto id = carCalled(arguments.first(), *house, terminal);
    if (!id)
        return id.error();
    const auto car = ledger.car(*id);
    const auto site = ledger.site();
    if (!car || !site)
        return failed(terminal, QStringLiteral("The ledger cannot be read."), Unavailable);
    const QString code = carLabelCode({}, car->identity.stockNumber, car->identity.vin);
    const auto sheet = doorSheetOf(*car, *site, code, terminal.clock.now());
    if (!sheet)
        return failed(terminal, sheet.error(), BadData);
    const auto pdf = renderDoorSheetPdf(*sheet);
    if (!pdf)
        return failed(terminal, pdf.error(), Unavailable);
    if (const int ended = writeWhole(out, *pdf, terminal); ended != Ok)
        return ended;
    terminal.out << out << ": "
                 << (code.isEmpty()
                         ? QStringLiteral("no code: the stock number cannot stand in one")
                         : code)
                 << Qt::endl;
    return Ok;
}

} // namespace ramplight::cli
