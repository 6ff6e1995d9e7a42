// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
//
// Appraisal files: read, and what is read is asked of a workshop.
#include "fuzzing.h"

#include "../domain/workbench.h"

#include "appraisal/importing.h"

#include <QFile>

using namespace ramplight;
using fuzz::must;

namespace {

QByteArray schema()
{
    QFile file(QStringLiteral(RAMPLIGHT_SOURCE_DIR "/db/schema/appraisal.schema.json"));
    must(file.open(QIODevice::ReadOnly), "the schema is there");
    return file.readAll();
}

void lookAtFaults(const std::vector<FileFault>& faults, const QByteArray& bytes)
{
    must(!faults.empty() && faults.size() <= maxAppraisalFaults, "a refusal has its reasons");
    const auto lines = bytes.count('\n') + bytes.count('\r') + 1;
    for (const FileFault& fault : faults) {
        must(!fault.words.isEmpty() && fault.words.size() < 2000, "a fault has words");
        must(fault.line >= 0 && fault.line <= lines, "a fault is in the file");
        must((fault.line == 0) == (fault.column == 0), "a line has a column");
    }
}

void lookAtFile(const AppraisalFile& file)
{
    must(!file.identity.stockNumber.isEmpty(), "a car has a stock number");
    must(file.date.isValid(), "a day of the calendar");
    for (const FindingData& finding : file.findings)
        must(placeInfo(finding.place) != nullptr, "a finding is somewhere");
    for (const PlaceId& place : file.sound)
        must(placeInfo(place) != nullptr, "what is sound is somewhere");
    for (const TyreReading& tyre : file.tyres)
        must(placeInfo(tyre.place) != nullptr, "a tyre is somewhere");
    for (const Fact fact : factsOf(file.drive))
        must(file.facts.is(fact), "facts follow from the drive");
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size)
{
    static const QByteArray schemaBytes = schema();
    const QByteArray bytes(reinterpret_cast<const char*>(data), static_cast<qsizetype>(size));
    const auto read = readAppraisal(bytes, schemaBytes);
    if (!read) {
        lookAtFaults(read.error(), bytes);
        return 0;
    }
    lookAtFile(*read);
    must(*readAppraisal(bytes, schemaBytes) == *read, "the same file is read alike");
    test::Workbench bench;
    const auto asked = bench.workshop.run(requestFrom(*read, bench.appraiser));
    if (!asked) {
        must(std::holds_alternative<Refusal>(asked.error()), "the rules decide");
        must(!words(asked.error()).isEmpty(), "a refusal has words");
        return 0;
    }
    const CarState car = bench.ledger.car(asked->car.id).value();
    must(car.appraised, "the appraisal is finished");
    must(car.findings.size() >= read->findings.size(), "every finding stands on the car");
    const auto again = bench.workshop.run(requestFrom(*read, bench.appraiser));
    must(again && again->events.empty(), "the same file changes nothing the second time");
    return 0;
}
