// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
// What hangs in or on a car.
#include "access/scanreader.h"
#include "cli/commandline.h"
#include "record/doorsheet.h"

#include <QSaveFile>

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
    const auto id = ledger.carByStockNumber(arguments.first());
    if (!id)
        return failed(terminal, id.error().words, Unavailable);
    if (!*id)
        return failed(
            terminal,
            QStringLiteral("There is no car with stock number %1.").arg(arguments.first()),
            BadData);
    const auto car = ledger.car(**id);
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
    QSaveFile file(out);
    if (!file.open(QIODevice::WriteOnly) || file.write(*pdf) != pdf->size() || !file.commit())
        return failed(terminal,
                      QStringLiteral("%1 cannot be written: %2.").arg(out, file.errorString()),
                      Unavailable);
    terminal.out << out << ": "
                 << (code.isEmpty()
                         ? QStringLiteral("no code: the stock number cannot stand in one")
                         : code)
                 << Qt::endl;
    return Ok;
}

} // namespace ramplight::cli
