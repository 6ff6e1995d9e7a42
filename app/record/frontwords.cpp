// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "record/frontwords.h"

#include "domain/say.h"
#include "domain/words.h"
#include "record/recordwords.h"

#include <algorithm>

namespace ramplight::paper {

namespace {

constexpr qsizetype holdsInFront = 5;

QString odometerWords(const CarFacts& facts)
{
    if (facts.odometer == 0)
        return say("not entered");
    return QStringLiteral("%1 %2").arg(recordLocale().toString(facts.odometer),
                                       facts.odometerUnit == DistanceUnit::Miles ? say("miles")
                                                                                 : say("km"));
}

} // namespace

QString frontTitle()
{
    return say("Handover record");
}

QString frontMade(const RecordModel& model)
{
    return QStringLiteral("%1 · %2").arg(
        model.site, say("made %1").arg(RecordTimes(model.rules.timeZone).full(model.madeAt)));
}

QString frontDemo(const RecordModel& model)
{
    return model.demo ? say("Demo workshop: car, people and everything in this record are made up.")
                      : QString();
}

QString frontName(const RecordModel& model)
{
    const QString name = carName(model.identity);
    return model.identity.registration.isEmpty()
               ? name
               : QStringLiteral("%1 · %2").arg(name, model.identity.registration);
}

QStringList frontHolds(const RecordModel& model)
{
    QStringList lines;
    for (const RecordHold& hold : model.holds) {
        if (lines.size() == holdsInFront) {
            lines.append(
                say("and %1 more, listed below").arg(qsizetype(model.holds.size()) - holdsInFront));
            break;
        }
        lines.append(QStringLiteral("– %1").arg(hold.words));
    }
    return lines;
}

std::vector<FrontCount> countsOf(const RecordModel& model)
{
    const auto with = [&](FindingOutcome outcome) {
        return std::ranges::count_if(model.findings, [&](const RecordFinding& finding) {
            return outcomeOf(model, finding) == outcome;
        });
    };
    const auto done = with(FindingOutcome::Done);
    const auto left = with(FindingOutcome::Left);
    const auto open = with(FindingOutcome::Open);
    qsizetype safety = 0;
    qsizetype closed = 0;
    for (const RecordOperation& operation : model.operations)
        if (operation.safety && operation.state != OperationState::Withdrawn) {
            ++safety;
            closed += operation.state == OperationState::Closed ? 1 : 0;
        }
    std::vector<FrontCount> counts{{QString::number(done + left + open), say("found")},
                                   {QString::number(done), say("dealt with")},
                                   {QString::number(left), say("left as it is")}};
    if (open > 0)
        counts.push_back({QString::number(open), say("not finished")});
    counts.push_back(
        {closed == safety ? QString::number(closed) : say("%1 of %2").arg(closed).arg(safety),
         say("safety items closed")});
    return counts;
}

std::vector<std::pair<QString, QString>> factsOf(const RecordModel& model)
{
    const RecordTimes times(model.rules.timeZone);
    const Identity& car = model.identity;
    std::vector<std::pair<QString, QString>> facts;
    const auto add = [&](const QString& label, const QString& value) {
        if (!value.isEmpty())
            facts.emplace_back(label, value);
    };
    add(say("VIN"), car.vin);
    QString body = words(car.shape);
    if (!car.colour.isEmpty())
        body += QStringLiteral(", %1").arg(car.colour);
    if (!car.paintCode.isEmpty())
        body += say(", paint code %1").arg(car.paintCode);
    add(say("Body and colour"), capital(body));
    add(say("Odometer on arrival"), odometerWords(model.facts));
    add(say("Keys"),
        model.facts.keys == 0 ? say("not entered") : QString::number(model.facts.keys));
    QStringList has;
    for (const Fact fact : model.facts.has)
        has.append(words(fact));
    add(say("Drive and equipment"), capital(has.join(QStringLiteral(", "))));
    if (model.facts.testCertificateMonths)
        add(say("Test certificate on arrival"),
            *model.facts.testCertificateMonths == 1
                ? say("1 month left")
                : say("%1 months left").arg(*model.facts.testCertificateMonths));
    add(say("Came in"), times.full(model.arrivedAt));
    if (model.status != CarStatus::Released && model.promised.isValid())
        add(say("Promised for"), RecordTimes::date(model.promised));
    return facts;
}

std::vector<std::pair<OutlineMark, QString>> frontLegend()
{
    return {{OutlineMark::Hollow, say("dealt with")},
            {OutlineMark::Filled, say("still there")},
            {OutlineMark::Stippled, say("not looked at")}};
}

QString frontTyreWords()
{
    return say("beside the wheels: lowest tread");
}

QString frontCodeWords()
{
    return say("The workshop can hold this record, on paper by this code or as a file, against its "
               "ledger at any time.");
}

} // namespace ramplight::paper
