// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/carcard.h"

#include "domain/words.h"
#include "domain/worktotals.h"

#include <algorithm>

namespace ramplight {

namespace {

CardLine lineOf(const CarState& car, const Operation& operation, const HouseRules& rules)
{
    CardLine line;
    line.operation = operation.id;
    line.kind = operation.spec->id;
    line.title = operationTitle(operation.spec, operation.place, rules);
    line.place = operation.place;
    line.skill = operation.spec->skill;
    line.state = operation.state;
    line.safety = operation.spec->safety;
    line.check = operation.spec->secondPerson == SecondPerson::Check || operation.awaitsSecond();
    line.assigned = operation.assigned;
    line.usual = minutesOf(car, operation);
    line.minutesBefore = operation.minutes();
    line.sentBack = !operation.sentBackWhy.isEmpty();
    line.stateSince = std::max(operation.openedAt, operation.reopenedAt);
    for (const Segment& segment : operation.segments) {
        line.stateSince =
            std::max(line.stateSince, segment.running() ? segment.start : segment.end);
        if (!segment.running())
            continue;
        line.people.push_back(segment.person);
        if (line.runningSince.isNull() || segment.start < line.runningSince)
            line.runningSince = segment.start;
    }
    for (const Signature& signature : operation.signatures)
        line.stateSince = std::max(line.stateSince, signature.at);
    if (operation.part) {
        line.due = operation.part->due;
        line.waitsFor = operation.part->part;
    } else if (operation.outside) {
        line.due = operation.outside->dueBack;
        line.waitsFor = operation.outside->firm;
    }
    return line;
}

std::vector<MarkedPlace> marksOf(const CarState& car, const std::vector<Hold>& held)
{
    std::map<PlaceId, PlaceMark> marks;
    const auto mark = [&](const PlaceId& place, PlaceMark value) {
        if (place.isEmpty() || place == wholeCar())
            return;
        const auto [it, added] = marks.emplace(place, value);
        if (!added && value == PlaceMark::Outstanding)
            it->second = value;
    };
    for (const auto& [id, operation] : car.operations) {
        if (operation.state == OperationState::Withdrawn)
            continue;
        const PlaceMark value = operation.isOpen() ? PlaceMark::Outstanding : PlaceMark::Closed;
        mark(operation.place, value);
        for (const FindingId finding : operation.findings)
            if (const Finding* f = car.finding(finding); f != nullptr && f->stands())
                mark(f->data().place, value);
    }
    for (const Hold& hold : held)
        if (hold.kind == HoldKind::SafetyPlaceNotSeen)
            marks.emplace(hold.place, PlaceMark::NotLookedAt);
    std::vector<MarkedPlace> list;
    list.reserve(marks.size());
    for (const auto& [place, value] : marks)
        list.push_back({place, value});
    return list;
}

} // namespace

CarCard cardOf(const CarState& car, const HouseRules& rules)
{
    CarCard card;
    card.car = car.id;
    card.seq = car.seq;
    card.identity = car.identity;
    card.promised = car.promised;
    card.bay = car.bay;
    card.parking = car.parking;
    card.arrivedAt = car.arrivedAt;
    card.lastAt = car.lastAt;
    const std::vector<Hold> held = holdsWithoutWords(car, rules, car.lastAt);
    card.status = statusOf(car, held);
    card.heldAgainWhy = car.heldAgainWhy;
    card.openDrafts = car.openDrafts();
    for (const auto& [id, operation] : car.operations) {
        if (operation.isOpen())
            card.outstanding.push_back(lineOf(car, operation, rules));
        else if (operation.state == OperationState::Closed)
            ++card.closedCount;
        if (operation.state == OperationState::Closed)
            card.curingUntil = std::max(card.curingUntil, operation.waitUntil);
    }
    if (card.curingUntil <= car.lastAt)
        card.curingUntil = {};
    card.statusAfterCuring =
        card.curingUntil.isNull() ? card.status : statusOf(car, rules, card.curingUntil);
    if (const QDate day = freshUntil(car, rules); day.isValid()) {
        card.freshUntil = startOf(day.addDays(1), rules);
        card.statusOnceOld =
            statusOf(car, rules, std::max({card.freshUntil, card.curingUntil, car.lastAt}));
        QStringList titles;
        for (const OperationId id : tooOld(car, rules, card.freshUntil))
            titles.append(operationTitle(car.operation(id)->spec, car.operation(id)->place, rules));
        card.oldTitles = titles.join(QStringLiteral(", "));
    }
    // A waiting time ends by itself: only what other work holds up is not yet to be begun.
    const Moment dry = std::max(card.curingUntil, car.lastAt);
    for (CardLine& line : card.outstanding)
        line.notYet = line.state == OperationState::Waiting &&
                      isNotYet(car, *car.operation(line.operation), rules, dry);
    std::ranges::stable_sort(card.outstanding, {}, [](const CardLine& line) {
        return std::pair(!line.safety, line.notYet);
    });
    for (const Hold& hold : held) {
        card.safetyHolds += hold.safety ? 1 : 0;
        card.notLookedAtCount += hold.kind == HoldKind::SafetyPlaceNotSeen ? 1 : 0;
    }
    card.marks = marksOf(car, held);
    for (const RestraintReason& reason : restraints(car, car.lastAt))
        card.restraints.push_back({reason.what, reason.words, reason.until});
    return card;
}

std::vector<Restraint> CarCard::restraintsAt(Moment now) const
{
    std::vector<Restraint> there;
    for (const CardRestraint& restraint : restraints)
        if (restraint.holdsAt(now) && std::ranges::find(there, restraint.what) == there.end())
            there.push_back(restraint.what);
    return there;
}

QString CarCard::restraintWordsAt(Moment now) const
{
    QStringList why;
    for (const CardRestraint& restraint : restraints)
        if (restraint.holdsAt(now) && !why.contains(restraint.words))
            why.append(restraint.words);
    return why.join(QStringLiteral(", "));
}

CarStatus CarCard::statusAt(Moment now) const
{
    // Only time itself changes these.
    if (!freshUntil.isNull() && now >= freshUntil)
        return statusOnceOld;
    if (!curingUntil.isNull() && now >= curingUntil)
        return statusAfterCuring;
    return status;
}

bool CarCard::isHeldBySafety(Moment now) const
{
    if (statusAt(now) != CarStatus::Held)
        return false;
    if (notLookedAtCount > 0 || openDrafts > 0 || (!freshUntil.isNull() && now >= freshUntil))
        return true;
    const bool onlyChecks = std::ranges::any_of(outstanding, &CardLine::safety) &&
                            std::ranges::none_of(outstanding, [](const CardLine& line) {
                                return line.safety && !line.check;
                            });
    // Holds that are no open work: adhesive that cures, a finding that nobody decided about. Paint
    // that dries is none. They were counted at lastAt; what has cured since then holds no longer.
    const bool isCured = !curingUntil.isNull() && now >= curingUntil;
    const auto open = std::ranges::count_if(outstanding, &CardLine::safety);
    return !onlyChecks || (!isCured && safetyHolds > open);
}

} // namespace ramplight
