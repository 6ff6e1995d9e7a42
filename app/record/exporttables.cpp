// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "record/exporttables.h"

#include "record/recordwords.h"

#include <QDateTime>
#include <QTimeZone>

#include <algorithm>

namespace ramplight {

namespace {

/// How every table begins: which car.
const QStringList& carHeader()
{
    static const QStringList header{QStringLiteral("stockNumber"), QStringLiteral("registration"),
                                    QStringLiteral("make"), QStringLiteral("model")};
    return header;
}

std::vector<CsvCell> carCells(const RecordModel& car)
{
    return {car.identity.stockNumber, car.identity.registration, car.identity.make,
            car.identity.model};
}

QString local(const RecordModel& car, Moment at)
{
    if (at.isNull())
        return {};
    return QDateTime::fromMSecsSinceEpoch(at.ms, zoneOf(car.rules))
        .toString(QStringLiteral("yyyy-MM-dd HH:mm"));
}

QString yesNo(bool yes)
{
    return yes ? QStringLiteral("yes") : QStringLiteral("no");
}

QString nameOr(const RecordModel& car, PersonId person)
{
    return person.isNull() ? QString() : car.nameOf(person);
}

template <class T>
QString idsOf(const std::vector<T>& ids)
{
    QStringList all;
    for (const T& id : ids)
        all.append(QString::number(id.value));
    return all.join(QLatin1Char(' '));
}

QString outcomeId(FindingOutcome outcome)
{
    switch (outcome) {
    case FindingOutcome::Done:
        return QStringLiteral("done");
    case FindingOutcome::Left:
        return QStringLiteral("left");
    case FindingOutcome::Open:
        return QStringLiteral("open");
    case FindingOutcome::NotThere:
        return QStringLiteral("not-there");
    }
    return {};
}

} // namespace

ExportTables::ExportTables()
    : m_operations(carHeader() + QStringList{"operation", "kind", "title", "place", "safety",
                                             "state", "minutes", "workedBy", "signedBy", "signedAt",
                                             "checkedBy", "checkedAt", "endedAt", "findings",
                                             "leftWords"})
    , m_minutes(carHeader() + QStringList{"operation", "title", "safety", "person", "start", "end",
                                          "measuredMinutes", "minutes", "correctedBy",
                                          "correctionReason"})
    , m_findings(carHeader() + QStringList{"finding", "place", "condition", "severity", "remedies",
                                           "words", "note", "foundBy", "foundAt", "outcome",
                                           "operations", "corrections"})
{
}

void ExportTables::add(const RecordModel& car)
{
    for (const RecordOperation& operation : car.operations)
        addOperation(car, operation);
    for (const RecordFinding& finding : car.findings)
        addFinding(car, finding);
}

void ExportTables::addOperation(const RecordModel& car, const RecordOperation& operation)
{
    const RecordSignature* work = nullptr;
    const RecordSignature* check = nullptr;
    for (const RecordSignature& signature : operation.signatures) {
        if (signature.voided)
            continue;
        const bool checks = signature.meaning == SignatureMeaning::CheckedTheWork ||
                            signature.meaning == SignatureMeaning::Countersigned;
        (checks ? check : work) = &signature;
    }
    std::vector<PersonId> workers;
    for (const RecordStretch& stretch : operation.stretches) {
        if (std::ranges::find(workers, stretch.person) == workers.end())
            workers.push_back(stretch.person);
        std::vector<CsvCell> row = carCells(car);
        for (const CsvCell& cell :
             std::vector<CsvCell>{operation.id.value, operation.title, yesNo(operation.safety),
                                  nameOr(car, stretch.person), local(car, stretch.start),
                                  local(car, stretch.end), stretch.measuredMinutes,
                                  stretch.correctedMinutes.value_or(stretch.measuredMinutes),
                                  nameOr(car, stretch.correctedBy), stretch.correctionReason})
            row.push_back(cell);
        m_minutes.add(row);
    }
    std::vector<CsvCell> row = carCells(car);
    for (const CsvCell& cell : std::vector<CsvCell>{
             operation.id.value, operation.kind, operation.title, operation.place.text,
             yesNo(operation.safety), nameOf(operation.state), operation.minutes,
             namesOf(car, workers), work == nullptr ? QString() : nameOr(car, work->by),
             work == nullptr ? QString() : local(car, work->at),
             check == nullptr ? QString() : nameOr(car, check->by),
             check == nullptr ? QString() : local(car, check->at), local(car, operation.ended.at),
             idsOf(operation.findings), operation.leftWords})
        row.push_back(cell);
    m_operations.add(row);
}

void ExportTables::addFinding(const RecordModel& car, const RecordFinding& finding)
{
    const RecordFindingVersion& now = finding.now();
    const RecordFindingVersion& first = finding.versions.front();
    QStringList remedies;
    for (const Remedy remedy : now.data.remedies)
        remedies.append(nameOf(remedy));
    std::vector<CsvCell> row = carCells(car);
    for (const CsvCell& cell : std::vector<CsvCell>{
             finding.id.value, now.data.place.text, nameOf(now.data.condition),
             now.data.severity ? nameOf(*now.data.severity) : QString(),
             remedies.join(QLatin1Char(' ')), now.words, now.data.note, nameOr(car, first.by),
             local(car, first.at), outcomeId(outcomeOf(car, finding)), idsOf(finding.answeredBy),
             static_cast<int>(finding.versions.size()) - 1})
        row.push_back(cell);
    m_findings.add(row);
}

} // namespace ramplight
