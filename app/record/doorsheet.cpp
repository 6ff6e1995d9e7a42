// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "record/doorsheet.h"

#include "domain/carcard.h"
#include "domain/restraintwords.h"
#include "domain/say.h"
#include "domain/words.h"
#include "record/recordwords.h"

namespace ramplight {

namespace {

QString noteOf(const CardLine& line)
{
    // What a firm brought back is due no more.
    if (line.state == OperationState::AwaitingCheck)
        return line.check || line.waitsFor.isEmpty() ? say("awaits its check")
                                                     : say("is back from %1").arg(line.waitsFor);
    QStringList parts;
    if (!line.waitsFor.isEmpty())
        parts.append(line.waitsFor);
    if (line.due.isValid())
        parts.append(say("due %1").arg(RecordTimes::date(line.due)));
    return parts.join(QStringLiteral(", "));
}

QString carWordsOf(const Identity& identity)
{
    QStringList parts{carName(identity)};
    // Many models have their shape in the name.
    if (!identity.model.contains(words(identity.shape), Qt::CaseInsensitive))
        parts.append(words(identity.shape));
    if (!identity.colour.isEmpty())
        parts.append(identity.colour);
    return parts.join(QStringLiteral(", "));
}

/// Why a car with no work left is still no car for sale.
QString statusWordsOf(CarStatus status, const CarState& car, const HouseRules& rules, Moment now)
{
    if (status == CarStatus::ReadyForRelease)
        return say("All work is done. It waits for the signature that releases it to sale.");
    const std::vector<Hold> held = holds(car, rules, now);
    return held.empty() ? QString() : held.front().words;
}

} // namespace

tl::expected<DoorSheetModel, QString> doorSheetOf(const CarState& car, const SiteState& site,
                                                  const QString& code, Moment now)
{
    const CarCard card = cardOf(car, site.rules);
    const CarStatus status = card.statusAt(now);
    if (status == CarStatus::Released)
        return tl::unexpected(say("%1 is released to sale: no door sheet says otherwise.")
                                  .arg(car.identity.stockNumber));
    if (status == CarStatus::Withdrawn)
        return tl::unexpected(
            say("%1 has left the workshop: it needs no door sheet.").arg(car.identity.stockNumber));
    DoorSheetModel model;
    model.stockNumber = car.identity.stockNumber;
    model.registration = car.identity.registration;
    model.carWords = carWordsOf(car.identity);
    if (car.promised.isValid())
        model.promisedWords = say("Promised for %1").arg(RecordTimes::date(car.promised));
    model.restraints = restraintLines(restraints(car, now));
    for (const CardLine& line : card.outstanding) {
        model.lines.push_back({capital(line.title), noteOf(line), line.safety});
        model.safetyCount += line.safety ? 1 : 0;
    }
    if (model.lines.empty())
        model.statusWords = statusWordsOf(status, car, site.rules, now);
    model.code = code;
    model.madeWords = RecordTimes(site.rules.timeZone).full(now);
    model.site = site.name;
    model.demo = site.demo;
    return model;
}

} // namespace ramplight
