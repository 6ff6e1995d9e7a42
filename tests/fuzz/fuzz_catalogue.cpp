// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
//
// Catalogues and house files: what reads well is written and read again, and a workshop works by
// it.
#include "fuzzing.h"

#include "../domain/workbench.h"

#include "domain/cataloguechecks.h"
#include "domain/housecatalogue.h"
#include "domain/housefile.h"

using namespace ramplight;
using fuzz::must;

namespace {

void lookAtFaults(const QStringList& faults)
{
    for (const QString& fault : faults)
        must(!fault.isEmpty(), "a fault has words");
}

/// A car comes, is looked at and worked on, under this catalogue.
void work(const Catalogue& catalogue)
{
    test::Workbench bench;
    Workshop workshop(bench.ledger, bench.clock, catalogue);
    const CarId id{QStringLiteral("fuzzed")};
    int count = 0;
    const auto ask = [&](PersonId who, const CarCommand& command) {
        const auto asked = workshop.run(CarRequest{
            CommandId{QStringLiteral("fuzzed-%1").arg(++count)}, who, id, {command}, true});
        if (!asked)
            must(std::holds_alternative<Refusal>(asked.error()) && !words(asked.error()).isEmpty(),
                 "the rules decide, in words");
        return asked.has_value();
    };
    Identity identity;
    identity.stockNumber = QStringLiteral("F-1");
    identity.make = QStringLiteral("Aurel");
    identity.model = QStringLiteral("Kestin");
    if (!ask(bench.appraiser,
             car::BringIn{
                 identity, test::carWith({Fact::CombustionEngine}), QDate(2099, 3, 20), {}}))
        return;
    ask(bench.appraiser, car::RecordFinding{test::finding("brakes-front", Condition::Worn), {}});
    ask(bench.appraiser,
        car::RecordFinding{test::finding("wheel-front-left", Condition::Kerbed), {}});
    ask(bench.appraiser, car::RecordFinding{test::finding("bonnet", Condition::Scratch), {}});
    std::vector<PlaceId> sound;
    for (const SafetyPlace& place : bench.ledger.car(id).value().safetyPlaces)
        sound.push_back(place.place);
    ask(bench.appraiser, car::FindSound{sound});
    ask(bench.appraiser, car::FinishAppraisal{});
    // Closing work opens other work: not for ever.
    for (int rounds = 0; rounds < 12; ++rounds) {
        const CarState car = bench.ledger.car(id).value();
        const auto open = car.openOperations();
        if (open.empty())
            break;
        const OperationId number = open[static_cast<std::size_t>(rounds) % open.size()]->id;
        const PersonId who = bench.whoFor(*car.operation(number));
        if (who.isNull())
            continue;
        ask(who, car::ReadCautions{number});
        ask(who, car::StartWork{number});
        bench.clock.pass(10);
        ask(who, car::SignOff{number, {}});
        ask(who, car::PauseWork{number, {}, StopKind::Paused});
    }
}

void lookAtCatalogue(const QByteArray& bytes)
{
    const CatalogueReading read = readCatalogue(bytes);
    if (!read.faults.isEmpty()) {
        lookAtFaults(read.faults);
        return;
    }
    must(!read.catalogue.operations.empty(), "a catalogue has operations");
    const CatalogueReading again = readCatalogue(writeCatalogue(read.catalogue));
    must(again.faults.isEmpty(), "what was written can be read");
    Catalogue same = again.catalogue;
    same.hash = read.catalogue.hash;
    must(same == read.catalogue, "what was written is the same");
    for (const OperationSpec& operation : read.catalogue.operations)
        must(!waitsFor(read.catalogue, operation).contains(operation.id),
             "nothing waits for itself");
    work(read.catalogue);
}

void lookAtHouse(const QByteArray& bytes)
{
    test::Workbench bench;
    const auto read = readHouse(bytes, bench.ledger.site().value());
    if (!read) {
        must(!read.error().isEmpty(), "a refusal has its reasons");
        lookAtFaults(read.error());
        return;
    }
    const auto taken =
        takeHouse(bench.workshop, bench.manager, CommandId{QStringLiteral("house")}, *read);
    if (!taken) {
        must(std::holds_alternative<Refusal>(taken.error()) && !words(taken.error()).isEmpty(),
             "the rules decide, in words");
        return;
    }
    const SiteState site = bench.ledger.site().value();
    must(takeHouse(bench.workshop, bench.manager, CommandId{QStringLiteral("again")}, *read)
             .has_value(),
         "what was taken is taken again");
    must(bench.ledger.site().value() == site, "it is so now");
    must(readHouse(writeHouse(site), site).has_value(), "what was written can be read");
    std::ignore = houseCatalogue(bench.catalogue, site);
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size)
{
    const QByteArray bytes(reinterpret_cast<const char*>(data), static_cast<qsizetype>(size));
    lookAtCatalogue(bytes);
    lookAtHouse(bytes);
    return 0;
}
