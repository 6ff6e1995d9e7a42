// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "randomworkshop.h"

#include "invariants.h"

#include "domain/audit.h"

namespace ramplight::test {

namespace {

constexpr int photoYears = 2;

HouseRules rulesFor(quint64 seed)
{
    HouseRules rules;
    rules.finalCheckByWorker = seed % 8 == 0;
    rules.photoYears = photoYears;
    return rules;
}

} // namespace

RandomWorkshop::RandomWorkshop(quint64 seed, Tally& tally)
    : m_bench(rulesFor(seed))
    , m_dice(seed)
    , m_tally(tally)
    , m_commands(m_bench, m_dice, m_people, m_cars)
{
    const PersonId allRound =
        m_bench.hire(QStringLiteral("Ferro"), {Skill::Wheels, Skill::Mechanical, Skill::Glass},
                     {Right::Work, Right::Check, Right::Release});
    const PersonId wheels = m_bench.hire(QStringLiteral("Lowri"), {Skill::Wheels, Skill::Valet},
                                         {Right::Work, Right::Appraise});
    m_people = {
        m_bench.manager, m_bench.appraiser, m_bench.mechanic, m_bench.technician, m_bench.wheels,
        m_bench.painter, m_bench.glazier,   m_bench.checker,  m_bench.seller,     allRound,
        wheels};
}

bool RandomWorkshop::run(int steps)
{
    bringIn();
    if (m_dice.oneIn(3))
        bringIn();
    for (int i = 0; i < steps && m_broken.isEmpty(); ++i)
        step();
    tidyYearsLater();
    for (const CarId& id : m_cars)
        if (m_broken.isEmpty())
            m_broken = brokenInStream(m_bench.car(id), m_bench.ledger.history(id).value());
    ++m_tally.sequences;
    m_tally.released += m_released;
    m_tally.heldAgain += m_heldAgain;
    m_tally.releasedAgain += m_releasedAgain;
    m_tally.reopened += m_reopened;
    m_tally.checksVoided += m_checkVoided;
    m_tally.followUps += m_followUp;
    return m_broken.isEmpty();
}

void RandomWorkshop::step()
{
    const CarId id = m_dice.any(m_cars);
    const CarState& car = m_bench.ledger.cars().at(id);
    const int dice = m_dice.below(100);
    if (dice < 8)
        return passTime();
    if (dice < 10)
        return changePeople();
    if (dice < 11)
        return merge();
    if (dice < 12)
        return bringIn();
    if (dice < 50 || car.released)
        return anything(id);
    if (car.left) {
        ask(m_bench.manager, id, car::BringBack{QStringLiteral("wanted after all")});
        return;
    }
    if (!car.appraised)
        return appraise(id);
    std::vector<OperationId> ready;
    std::vector<OperationId> open;
    for (const Operation* operation : car.openOperations()) {
        open.push_back(operation->id);
        if (whyNotYet(car, *operation, {}, m_bench.clock.now()).isEmpty())
            ready.push_back(operation->id);
    }
    if (!ready.empty() && !m_dice.oneIn(15))
        return workOn(id, m_dice.any(ready));
    if (!open.empty()) {
        m_bench.clock.pass(30);
        return workOn(id, m_dice.any(open));
    }
    m_bench.clock.pass(60);
    for (const Hold& hold : m_bench.holds(id))
        if (hold.kind == HoldKind::UndecidedFinding)
            ask(m_bench.manager, id,
                car::OpenOperation{QStringLiteral("steering-part"), hold.place,
                                   QStringLiteral("decided")});
    ask(m_dice.oneIn(3) ? anybody() : m_bench.seller, id, car::Release{});
}

void RandomWorkshop::bringIn()
{
    const CarId id{QStringLiteral("car %1").arg(m_cars.size() + 1)};
    const Identity identity{QStringLiteral("R%1").arg(m_cars.size() + 1),
                            {},
                            {},
                            QStringLiteral("Halden"),
                            QStringLiteral("Skerry"),
                            {},
                            {},
                            {}};
    if (m_cars.size() < 4 &&
        ask(m_bench.appraiser, id,
            car::BringIn{identity, m_commands.facts(), QDate(2031, 3, 20), {}}))
        m_cars.push_back(id);
}

void RandomWorkshop::appraise(const CarId& id)
{
    for (int i = m_dice.below(4); i > 0; --i)
        ask(m_bench.appraiser, id, car::RecordFinding{m_commands.finding(), {}});
    if (m_dice.oneIn(3))
        ask(m_bench.appraiser, id,
            car::RecordTread{at("tyre-front-right"),
                             {m_dice.below(60), 20 + m_dice.below(60), 60}});
    std::vector<PlaceId> sound;
    for (const SafetyPlace& place : m_bench.car(id).safetyPlaces)
        if (!m_dice.oneIn(5) && !m_bench.car(id).seen.contains(place.place))
            sound.push_back(place.place);
    ask(m_bench.appraiser, id, car::FindSound{sound});
    if (m_dice.oneIn(4))
        ask(m_bench.appraiser, id, m_commands.command(m_bench.car(id), kindOf<car::TakeOut>()));
    ask(m_bench.appraiser, id, car::FinishAppraisal{});
}

PersonId RandomWorkshop::somebodyFor(const Operation& operation)
{
    if (!operation.assigned.isNull() && !m_dice.oneIn(4))
        return operation.assigned;
    std::vector<PersonId> able;
    const SiteState site = m_bench.ledger.site().value();
    for (const auto& [id, person] : site.people) {
        if (!whyNotAble(person, operation.spec))
            able.push_back(id);
    }
    return able.empty() || m_dice.oneIn(30) ? anybody() : m_dice.any(able);
}

void RandomWorkshop::workOn(const CarId& id, OperationId number)
{
    const Operation operation = m_bench.operation(id, number);
    if (operation.state == OperationState::Blocked) {
        if (const auto due = operation.due(); due && m_dice.oneIn(4))
            ask(m_bench.manager, id,
                car::ChangeDue{number, due->addDays(1), QStringLiteral("the firm says so")});
        if (operation.part)
            ask(m_bench.manager, id, car::Unblock{number});
        else
            ask(m_bench.manager, id, car::ReceiveBack{number, QStringLiteral("note")});
        return;
    }
    if (operation.state == OperationState::AwaitingCheck && operation.isSigned()) {
        if (m_dice.oneIn(5))
            ask(m_bench.checker, id, car::FailCheck{number, QStringLiteral("not good"), {}});
        else
            ask(m_dice.oneIn(2) ? m_bench.checker : m_bench.technician, id,
                car::Countersign{number});
        return;
    }
    const PersonId who = somebodyFor(operation);
    if (operation.state != OperationState::AwaitingCheck) {
        if (const auto running = m_bench.ledger.runningWork(who).value();
            running && (running->car != id || running->operation != number))
            ask(who, running->car, car::PauseWork{running->operation, {}, StopKind::Paused});
        ask(who, id, car::ReadCautions{number});
        if (m_bench.car(id).runningSegment(who, nullptr) == nullptr &&
            !ask(who, id, car::StartWork{number}))
            return;
        if (operation.spec->highVoltageIsolation && !m_dice.oneIn(4))
            ask(who, id, car::SetIsolation{number, QStringLiteral("key safe")});
    }
    m_bench.clock.pass(m_dice.below(25));
    if (operation.spec->secondPerson == SecondPerson::Check && m_dice.oneIn(8)) {
        std::vector<OperationId> closed;
        for (const auto& [other, work] : m_bench.car(id).operations)
            if (work.state == OperationState::Closed)
                closed.push_back(other);
        ask(who, id,
            car::FailCheck{number, QStringLiteral("not good"),
                           closed.empty() || m_dice.oneIn(2) ? OperationId{} : m_dice.any(closed)});
        return;
    }
    // What holds the car is read again after the work was begun again.
    if (std::ranges::any_of(m_bench.operation(id, number).readings, [](const Reading& reading) {
            return !reading.superseded && reading.outcome == ReadingOutcome::Outside;
        })) {
        ask(who, id, car::PauseWork{number, {}, StopKind::Paused});
        ask(who, id, car::StartWork{number});
    }
    prove(id, number, who);
    if (m_bench.car(id).isolation && !m_dice.oneIn(4))
        ask(m_bench.car(id).isolation->by, id, car::LiftIsolation{number, {}});
    ask(who, id, car::SignOff{number, {}});
}

void RandomWorkshop::prove(const CarId& id, OperationId number, PersonId who)
{
    const Operation operation = m_bench.operation(id, number);
    for (const ReadingSpec& spec : operation.spec->readings) {
        const std::vector<PlaceId> where =
            spec.places.empty() ? std::vector<PlaceId>{PlaceId{}} : spec.places;
        for (const PlaceId& place : where) {
            const Reading* taken = operation.reading(spec.key, place);
            if (spec.optional || m_dice.oneIn(60) ||
                (taken != nullptr && taken->outcome != ReadingOutcome::Outside))
                continue;
            if (spec.neededFrom && operation.figure(spec.key, place) == nullptr)
                ask(m_dice.oneIn(6)          ? who
                    : who == m_bench.checker ? m_bench.manager
                                             : m_bench.checker,
                    id, car::SetFigure{number, spec.key, place, 120, QStringLiteral("data book")});
            const ReadingValue good =
                spec.kind == ReadingKind::Choice ? ReadingValue{{}, spec.options.front().id}
                : spec.kind == ReadingKind::Text ? ReadingValue{{}, QStringLiteral("as it says")}
                : spec.unit == Unit::Volt        ? test::number(0)
                : spec.key == QLatin1String("run-out") ? test::number(5)
                                                       : test::number(120);
            const auto read = [&] {
                ask(who, id,
                    car::TakeReading{number, spec.key, place,
                                     m_dice.oneIn(12) ? m_commands.value(spec) : good});
            };
            read();
            if (!spec.neededFrom || !m_dice.oneIn(6))
                continue;
            ask(m_dice.oneIn(3)   ? m_bench.manager
                : m_dice.oneIn(2) ? m_bench.checker
                                  : m_bench.technician,
                id,
                car::CorrectFigure{number, spec.key, place, 120, QStringLiteral("data book"),
                                   QStringLiteral("another line"), m_bench.photo()});
            read();
        }
    }
    for (const PhotoSpec& spec : operation.spec->photos)
        if (!m_dice.oneIn(40))
            ask(who, id,
                car::AttachPhoto{m_bench.photo(), spec.moment, operation.place, number, {}});
}

void RandomWorkshop::anything(const CarId& id)
{
    const CarState car = m_bench.car(id);
    // Kinds that end a car's story come seldom.
    std::size_t kind = std::size_t(m_dice.below(int(commandKinds)));
    if (kind == kindOf<car::LeaveUnreleased>() && !m_dice.oneIn(4))
        kind = kindOf<car::RecordFinding>();
    // One after the other, so that a seed throws the same whatever the compiler.
    const PersonId who = m_dice.oneIn(3) ? m_bench.manager : anybody();
    const bool carriedOut = ask(who, id, m_commands.command(car, kind));
    // Paint is compared across panels: one alone says nothing.
    if (carriedOut && kind == kindOf<car::RecordPaintDepth>() && m_dice.oneIn(2)) {
        for (const char* panel : {"quarter-left", "quarter-right", "sill-right", "roof"})
            ask(m_bench.appraiser, id, car::RecordPaintDepth{at(panel), {104, 107, 109}});
        ask(m_bench.appraiser, id, car::RecordPaintDepth{at("bonnet"), {400, 410, 420}});
        ask(m_bench.appraiser, id, car::ConfirmRepair{at("bonnet")});
    }
    // Whoever listens to a round drops some of it at once.
    if (carriedOut && kind == kindOf<car::TakeSpeech>() && m_dice.oneIn(2))
        ask(m_bench.appraiser, id, m_commands.command(m_bench.car(id), kindOf<car::DropDraft>()));
    // Opened by hand, and thought better of at once.
    if (carriedOut && kind == kindOf<car::OpenOperation>() && m_dice.oneIn(3))
        ask(m_bench.manager, id,
            m_commands.command(m_bench.car(id), kindOf<car::WithdrawOperation>()));
}

void RandomWorkshop::merge()
{
    const CarId keep = m_dice.any(m_cars);
    const CarId second = m_dice.any(m_cars);
    const CarState keepBefore = m_bench.car(keep);
    const CarState secondBefore = m_bench.car(second);
    const auto outcome = m_bench.workshop.mergeDuplicate(m_bench.command(), m_bench.manager, keep,
                                                         second, QStringLiteral("twice"));
    const std::array kinds{kindOf<car::LinkDuplicate>(), kindOf<car::CloseDuplicate>()};
    for (const std::size_t kind : kinds) {
        ++m_tally.asked[kind];
        m_tally.carriedOut[kind] += outcome ? 1 : 0;
    }
    m_story.append(QStringLiteral("merge %1 into %2: %3")
                       .arg(second.text, keep.text, outcome ? done : words(outcome.error())));
    if (outcome) {
        look(keep, keepBefore, int(keepBefore.seq));
        look(second, secondBefore, int(secondBefore.seq));
    }
}

void RandomWorkshop::passTime()
{
    const int minutes = m_dice.oneIn(8) ? -m_dice.below(90) : m_dice.below(240);
    if (minutes < 0)
        m_bench.clock.putBy(minutes);
    else
        m_bench.clock.pass(minutes);
    m_story.append(QStringLiteral("%1 minutes pass").arg(minutes));
    if (!m_dice.oneIn(3))
        return;
    const auto stopped = m_bench.workshop.stopAllWork(m_bench.command());
    m_story.append(QStringLiteral("end of shift"));
    if (!stopped)
        m_broken = words(stopped.error());
    else if (!m_bench.ledger.allRunningWork().value().empty())
        m_broken = QStringLiteral("a timer runs on after the end of the shift");
}

void RandomWorkshop::tidyYearsLater()
{
    m_bench.clock.pass((photoYears + 1) * 366 * 24 * 60);
    m_story.append(QStringLiteral("years pass"));
    for (const CarId& id : m_cars)
        ask(m_bench.manager, id, car::RemovePhotos{});
}

void RandomWorkshop::changePeople()
{
    const PersonId who = anybody();
    const Person person = *m_bench.ledger.site().value().person(who);
    // Whoever is away comes back; few go, and who changes people stays.
    const bool active = who == m_bench.manager || !person.active || !m_dice.oneIn(6);
    const QString said =
        m_bench.ask(m_bench.manager, site::ChangePerson{who, person.skills, person.rights, active});
    m_story.append(QStringLiteral("person %1 changed: %2").arg(who.value).arg(said));
}

bool RandomWorkshop::ask(PersonId who, const CarId& id, const CarCommand& command)
{
    if (!m_broken.isEmpty())
        return false;
    const auto it = m_bench.ledger.cars().find(id);
    const CarState before = it == m_bench.ledger.cars().end() ? CarState{} : it->second;
    const int appends = m_bench.ledger.appends();
    const auto ledgerBefore = m_probe ? std::make_unique<MemoryLedger>(m_bench.ledger) : nullptr;
    const auto outcome =
        m_bench.workshop.run(CarRequest{m_bench.command(), who, id, {command}, !m_dice.oneIn(5)});
    ++m_tally.asked[command.index()];
    m_tally.carriedOut[command.index()] += outcome ? 1 : 0;
    m_story.append(QStringLiteral("%1: person %2, %3: %4")
                       .arg(id.text)
                       .arg(who.value)
                       .arg(QLatin1StringView(commandNames()[command.index()]),
                            outcome ? done : words(outcome.error())));
    if (outcome) {
        if (m_probe)
            m_probe(*ledgerBefore, id, command);
        look(id, before, int(before.seq));
        return m_broken.isEmpty();
    }
    if (std::holds_alternative<StoreError>(outcome.error()))
        m_broken = QStringLiteral("only the store refused it: %1").arg(words(outcome.error()));
    else if (m_bench.ledger.appends() != appends ||
             (before.exists() && m_bench.ledger.cars().at(id) != before))
        m_broken = QStringLiteral("refused, and something changed");
    return false;
}

void RandomWorkshop::look(const CarId& id, const CarState& before, int entriesBefore)
{
    const CarState& car = m_bench.ledger.cars().at(id);
    const std::vector<CarEnvelope> history = m_bench.ledger.history(id).value();
    const std::vector<CarEnvelope> entries(history.begin() + entriesBefore, history.end());
    const SiteState site = m_bench.ledger.site().value();
    m_broken = brokenInState(car);
    if (m_broken.isEmpty())
        m_broken = brokenInStep(before, entries, site);
    if (m_broken.isEmpty())
        m_broken = brokenInTimers(m_bench.ledger.cars());
    if (m_broken.isEmpty())
        m_broken = rulesBroken(before, entries, site).join(QLatin1Char(' '));
    for (const CarEnvelope& entry : entries) {
        if (std::holds_alternative<CarReleased>(entry.event)) {
            m_releasedAgain = m_releasedAgain || m_heldAgain;
            m_released = true;
        }
        m_heldAgain = m_heldAgain || std::holds_alternative<CarHeldAgain>(entry.event);
        m_reopened = m_reopened || std::holds_alternative<OperationReopened>(entry.event);
        if (const auto* withdrawn = std::get_if<OperationWithdrawn>(&entry.event))
            m_checkVoided =
                m_checkVoided ||
                car.operation(withdrawn->operation)->spec->secondPerson == SecondPerson::Check;
        if (const auto* opened = std::get_if<OperationOpened>(&entry.event))
            m_followUp = m_followUp || opened->origin == Origin::Reading;
    }
}

} // namespace ramplight::test
