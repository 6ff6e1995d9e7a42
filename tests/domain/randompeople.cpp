// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "randompeople.h"

#include "workbench.h"

namespace ramplight::test {

namespace {

QString words(const char* text)
{
    return QString::fromLatin1(text);
}

} // namespace

RandomPeople::RandomPeople(RandomHouse& house, Dice& dice, const std::vector<PersonId>& people,
                           const std::vector<CarId>& cars, RandomScope scope)
    : m_house(house)
    , m_dice(dice)
    , m_people(people)
    , m_commands(house, dice, people, cars, std::move(scope))
{
}

void RandomPeople::appraise(const CarId& id)
{
    const PersonId appraiser = m_house.names().appraiser;
    for (int i = m_dice.below(4); i > 0; --i)
        m_house.ask(appraiser, id, car::RecordFinding{m_commands.finding(), {}});
    if (m_dice.oneIn(3))
        m_house.ask(appraiser, id,
                    car::RecordTread{at("tyre-front-right"),
                                     {m_dice.below(60), 20 + m_dice.below(60), 60}});
    const CarState car = m_house.car(id);
    std::vector<PlaceId> sound;
    for (const SafetyPlace& place : car.safetyPlaces)
        if (!m_dice.oneIn(5) && !car.seen.contains(place.place))
            sound.push_back(place.place);
    m_house.ask(appraiser, id, car::FindSound{sound});
    if (m_dice.oneIn(4))
        m_house.ask(appraiser, id, m_commands.command(m_house.car(id), kindOf<car::TakeOut>()));
    m_house.ask(appraiser, id, car::FinishAppraisal{});
}

std::optional<Operation> RandomPeople::load(const CarId& car, OperationId number)
{
    const CarState state = m_house.car(car);
    const Operation* operation = state.operation(number);
    return operation == nullptr ? std::nullopt : std::optional(*operation);
}

PersonId RandomPeople::somebodyFor(const Operation& operation)
{
    if (!operation.assigned.isNull() && !m_dice.oneIn(4))
        return operation.assigned;
    std::vector<PersonId> able;
    const SiteState site = m_house.site();
    for (const auto& [id, person] : site.people) {
        if (!whyNotAble(person, operation.spec))
            able.push_back(id);
    }
    return able.empty() || m_dice.oneIn(30) ? anybody() : m_dice.any(able);
}

void RandomPeople::goOn(const CarId& id, const Operation& blocked)
{
    const PersonId manager = m_house.names().manager;
    if (const auto due = blocked.due(); due && m_dice.oneIn(4))
        m_house.ask(manager, id,
                    car::ChangeDue{blocked.id, due->addDays(1), words("the firm says so")});
    if (blocked.part)
        m_house.ask(manager, id, car::Unblock{blocked.id});
    else
        m_house.ask(manager, id, car::ReceiveBack{blocked.id, words("note"), m_dice.below(2)});
}

bool RandomPeople::isSecondPersons(const CarId& id, const Operation& operation)
{
    if (operation.state != OperationState::AwaitingCheck || !operation.isSigned())
        return false;
    const HouseNames& names = m_house.names();
    if (m_dice.oneIn(5))
        m_house.ask(names.checker, id, car::FailCheck{operation.id, words("not good"), {}});
    else
        m_house.ask(m_dice.oneIn(2) ? names.checker : names.technician, id,
                    car::Countersign{operation.id});
    return true;
}

bool RandomPeople::begin(const CarId& id, const Operation& operation, PersonId who)
{
    const OperationId number = operation.id;
    if (const auto running = m_house.runningWork(who);
        running && (running->car != id || running->operation != number))
        m_house.ask(who, running->car, car::PauseWork{running->operation, {}, StopKind::Paused});
    m_house.ask(who, id, car::ReadCautions{number});
    if (m_house.car(id).runningSegment(who, nullptr) == nullptr &&
        !m_house.ask(who, id, car::StartWork{number}))
        return false;
    if (operation.spec->highVoltageIsolation && !m_dice.oneIn(4))
        m_house.ask(who, id, car::SetIsolation{number, words("key safe")});
    return true;
}

bool RandomPeople::failsCheck(const CarId& id, const Operation& operation, PersonId who)
{
    if (operation.spec->secondPerson != SecondPerson::Check || !m_dice.oneIn(8))
        return false;
    std::vector<OperationId> closed;
    for (const auto& [other, work] : m_house.car(id).operations)
        if (work.state == OperationState::Closed)
            closed.push_back(other);
    m_house.ask(
        who, id,
        car::FailCheck{operation.id, words("not good"),
                       closed.empty() || m_dice.oneIn(2) ? OperationId{} : m_dice.any(closed)});
    return true;
}

void RandomPeople::workOn(const CarId& id, OperationId number)
{
    const auto operation = load(id, number);
    if (!operation)
        return;
    if (operation->state == OperationState::Blocked)
        return goOn(id, *operation);
    if (isSecondPersons(id, *operation))
        return;
    const PersonId who = somebodyFor(*operation);
    if (operation->state != OperationState::AwaitingCheck && !begin(id, *operation, who))
        return;
    m_house.pass(m_dice.below(25));
    if (failsCheck(id, *operation, who))
        return;
    // What holds the car is read again after the work was begun again.
    const auto begun = load(id, number);
    if (begun && std::ranges::any_of(begun->readings, [](const Reading& reading) {
            return !reading.superseded && reading.outcome == ReadingOutcome::Outside;
        })) {
        m_house.ask(who, id, car::PauseWork{number, {}, StopKind::Paused});
        m_house.ask(who, id, car::StartWork{number});
    }
    prove(id, number, who);
    if (const auto isolation = m_house.car(id).isolation; isolation && !m_dice.oneIn(4))
        m_house.ask(isolation->by, id, car::LiftIsolation{number, {}});
    m_house.ask(who, id, car::SignOff{number, {}});
}

void RandomPeople::prove(const CarId& id, OperationId number, PersonId who)
{
    const auto operation = load(id, number);
    if (!operation)
        return;
    for (const ReadingSpec& spec : operation->spec->readings) {
        const std::vector<PlaceId> where =
            spec.places.empty() ? std::vector<PlaceId>{PlaceId{}} : spec.places;
        for (const PlaceId& place : where) {
            const Reading* taken = operation->reading(spec.key, place);
            if (spec.optional || m_dice.oneIn(60) ||
                (taken != nullptr && taken->outcome != ReadingOutcome::Outside))
                continue;
            read(id, number, spec, place, who);
        }
    }
    for (const PhotoSpec& spec : operation->spec->photos)
        if (!m_dice.oneIn(40))
            m_house.ask(
                who, id,
                car::AttachPhoto{m_house.photo(), spec.moment, operation->place, number, {}});
}

void RandomPeople::read(const CarId& id, OperationId number, const ReadingSpec& spec,
                        const PlaceId& place, PersonId who)
{
    const HouseNames& names = m_house.names();
    const auto operation = load(id, number);
    if (!operation)
        return;
    if (spec.neededFrom && operation->figure(spec.key, place) == nullptr)
        m_house.ask(m_dice.oneIn(6)        ? who
                    : who == names.checker ? names.manager
                                           : names.checker,
                    id, car::SetFigure{number, spec.key, place, 120, words("data book")});
    const auto take = [&] {
        const auto now = load(id, number);
        if (!now)
            return;
        const ReadingValue good = Workbench::goodValue(*now, spec, place);
        m_house.ask(who, id,
                    car::TakeReading{
                        number, spec.key, place, m_dice.oneIn(12) ? m_commands.value(spec) : good,
                        toolInDate(m_house.site(), spec, dayOf(m_house.now(), HouseRules{}))});
    };
    take();
    if (!spec.neededFrom || !m_dice.oneIn(6))
        return;
    const PersonId corrector = m_dice.oneIn(3)   ? names.manager
                               : m_dice.oneIn(2) ? names.checker
                                                 : names.technician;
    m_house.ask(corrector, id,
                car::CorrectFigure{number, spec.key, place, 120, words("data book"),
                                   words("another line"), m_house.photo()});
    take();
}

void RandomPeople::letGo(const CarId& id)
{
    const HouseNames& names = m_house.names();
    for (const Hold& hold : holds(m_house.car(id), m_house.site().rules, m_house.now()))
        if (hold.kind == HoldKind::UndecidedFinding)
            m_house.ask(names.manager, id,
                        car::OpenOperation{words("steering-part"), hold.place, words("decided")});
    const CarState car = m_house.car(id);
    for (const SpokenReview& review : car.spoken)
        for (std::size_t i = 0; i < review.decisions.size(); ++i)
            if (review.decisions[i].end == DraftEnd::Open)
                m_house.ask(names.appraiser, id,
                            car::DropDraft{{review.round.transcript, static_cast<int>(i)}});
    m_house.ask(m_dice.oneIn(3) ? anybody() : names.seller, id, car::Release{});
}

void RandomPeople::anything(const CarId& id)
{
    std::size_t kind = std::size_t(m_dice.below(int(commandKinds)));
    // Kinds that end a car's story come seldom.
    if (kind == kindOf<car::LeaveUnreleased>() && !m_dice.oneIn(4))
        kind = kindOf<car::RecordFinding>();
    // One after the other, so that a seed throws the same whatever the compiler.
    const PersonId who = m_dice.oneIn(3) ? m_house.names().manager : anybody();
    anything(who, id, kind);
}

void RandomPeople::anything(PersonId who, const CarId& id, std::size_t kind)
{
    const HouseNames& names = m_house.names();
    const CarState car = m_house.car(id);
    const bool carriedOut = m_house.ask(who, id, m_commands.command(car, kind));
    // Paint is compared across panels: one alone says nothing.
    if (carriedOut && kind == kindOf<car::RecordPaintDepth>() && m_dice.oneIn(2)) {
        for (const char* panel : {"quarter-left", "quarter-right", "sill-right", "roof"})
            m_house.ask(names.appraiser, id, car::RecordPaintDepth{at(panel), {104, 107, 109}});
        m_house.ask(names.appraiser, id, car::RecordPaintDepth{at("bonnet"), {400, 410, 420}});
        m_house.ask(names.appraiser, id, car::ConfirmRepair{at("bonnet")});
    }
    // Whoever listens to a round drops some of it at once.
    if (carriedOut && kind == kindOf<car::TakeSpeech>() && m_dice.oneIn(2))
        m_house.ask(names.appraiser, id,
                    m_commands.command(m_house.car(id), kindOf<car::DropDraft>()));
    // Opened by hand, and thought better of at once.
    if (carriedOut && kind == kindOf<car::OpenOperation>() && m_dice.oneIn(3))
        m_house.ask(names.manager, id,
                    m_commands.command(m_house.car(id), kindOf<car::WithdrawOperation>()));
}

} // namespace ramplight::test
