// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "houseworker.h"

#include "domain/keptrequest.h"

#include <QDateTime>
#include <QThread>
#include <QUuid>

namespace ramplight::test {

namespace {

// As the bench hires them.
constexpr PersonId manager{1};
constexpr PersonId appraiser{2};
constexpr PersonId mechanic{3};
constexpr PersonId technician{4};
constexpr PersonId wheels{5};
constexpr PersonId painter{6};
constexpr PersonId glazier{7};
constexpr PersonId checker{8};
constexpr PersonId seller{9};

QString words(const char* text)
{
    return QString::fromLatin1(text);
}

} // namespace

void setUpHouse(const StoreSettings& settings)
{
    Workbench bench;
    // Yesterday at the bench: the machine's clock goes on from there.
    bench.clock.set({QDateTime::currentMSecsSinceEpoch() - 86'400'000});
    for (int i = 0; i < 2; ++i)
        bench.found(bench.appraised(), "brakes-front", Condition::Worn);
    auto store = Store::open(settings, keeperWith());
    if (!store || !replay(bench.ledger.accepted(), (*store)->ledger()))
        qFatal("the workshop cannot be set up");
}

HouseWorker::HouseWorker(HouseDoor& door, quint64 seed, Told told)
    : m_door(door)
    , m_dice(seed)
    , m_told(std::move(told))
    , m_name(QUuid::createUuid().toString(QUuid::Id128))
{
}

bool HouseWorker::reopen()
{
    m_lost = m_lost || !m_door.open();
    return !m_lost;
}

bool HouseWorker::work(int commands, const std::function<bool()>& goesOn)
{
    if (!reopen())
        return false;
    while (m_answered < commands && !m_lost && (!goesOn || goesOn()))
        step();
    return !m_lost;
}

bool HouseWorker::ask(PersonId who, const CarId& car, const CarCommand& command)
{
    const CommandId id{QStringLiteral("%1-%2").arg(m_name).arg(++m_commands)};
    while (!m_lost) {
        const auto outcome = m_door.run(CarRequest{id, who, car, {command}, true});
        const StoreError* error = outcome ? nullptr : std::get_if<StoreError>(&outcome.error());
        const bool unavailable = error != nullptr && error->kind == StoreErrorKind::Unavailable;
        if (unavailable && !m_door.goesOnAlone()) {
            // Whether it was kept is not known: the same again, and it is kept once.
            QThread::msleep(5);
            if (!reopen())
                return false;
            continue;
        }
        ++m_answered;
        if (unavailable)
            m_told(QStringLiteral("%1 %2").arg(
                error->words == notKeptWords() ? words("refused") : words("unsure"), id.text));
        m_alone = unavailable;
        if (!outcome)
            return false;
        // Nothing to write, or written before its answer was lost.
        if (outcome->events.empty() && !isKnown(id))
            return true;
        if (const auto* read = std::get_if<car::ReadCautions>(&command))
            m_told(QStringLiteral("cautions %1 %2 %3 %4")
                       .arg(car.text)
                       .arg(read->operation.value)
                       .arg(who.value)
                       .arg(id.text));
        else if (const auto* sound = std::get_if<car::FindSound>(&command))
            m_told(QStringLiteral("sound %1 %2 %3")
                       .arg(car.text, sound->places.front().text, id.text));
        else if (const auto* move = std::get_if<car::MoveCar>(&command))
            m_told(QStringLiteral("moved %1 %2 %3 %4")
                       .arg(car.text)
                       .arg(move->bay.value)
                       .arg(move->parking, id.text));
        else if (const auto* sign = std::get_if<car::SignOff>(&command))
            m_told(QStringLiteral("signed %1 %2 %3")
                       .arg(car.text)
                       .arg(sign->operation.value)
                       .arg(id.text));
        else
            m_told(QStringLiteral("kept %1").arg(id.text));
        return true;
    }
    return false;
}

bool HouseWorker::isKnown(const CommandId& id)
{
    while (!m_lost) {
        if (const auto known = m_door.isKnown(id))
            return *known;
        reopenWhereItHasTo();
    }
    return false;
}

std::optional<CarState> HouseWorker::load(const CarId& id)
{
    while (!m_lost) {
        if (auto car = m_door.car(id))
            return *car;
        reopenWhereItHasTo();
    }
    return std::nullopt;
}

void HouseWorker::reopenWhereItHasTo()
{
    if (m_door.goesOnAlone())
        QThread::msleep(5);
    else
        reopen();
}

void HouseWorker::step()
{
    const auto wall = m_door.wall();
    if (!wall) {
        reopenWhereItHasTo();
        return;
    }
    // What waits for the server is asked for now and then only; work goes on.
    const bool maybe = !m_alone || wall->empty() || m_dice.oneIn(20);
    if (maybe &&
        (wall->size() < m_leastCars || (wall->size() < 3 * m_leastCars && m_dice.oneIn(30))))
        return bringIn();
    const auto car = load(m_dice.any(*wall).car);
    if (!car)
        return;
    if (m_dice.oneIn(8))
        return somethingElse(*car);
    if (!car->appraised)
        return appraise(car->id);
    std::vector<OperationId> ready;
    for (const Operation* operation : car->openOperations())
        if (whyNotYet(*car, *operation, HouseRules{}, car->lastAt).isEmpty())
            ready.push_back(operation->id);
    if (!ready.empty()) {
        workOn(*car, *car->operation(m_dice.any(ready)));
        return;
    }
    ask(m_dice.oneIn(4) ? checker : seller, car->id, car::Release{});
}

void HouseWorker::bringIn()
{
    const QString mark = QStringLiteral("%1-%2").arg(m_name.left(6)).arg(m_commands);
    const CarId id{QStringLiteral("car-") + mark};
    Identity identity;
    identity.stockNumber = mark;
    identity.make = words("Halden");
    identity.model = words("Skerry");
    ask(appraiser, id,
        car::BringIn{identity, carWith({Fact::CombustionEngine}), QDate(2099, 3, 20), {}});
}

void HouseWorker::appraise(const CarId& id)
{
    const auto car = load(id);
    if (!car)
        return;
    std::vector<PlaceId> sound;
    for (const SafetyPlace& place : car->safetyPlaces)
        if (!car->seen.contains(place.place))
            sound.push_back(place.place);
    ask(appraiser, id, car::FindSound{sound});
    ask(appraiser, id, car::FinishAppraisal{});
}

void HouseWorker::somethingElse(const CarState& car)
{
    static const std::vector<std::pair<const char*, Condition>> finds{
        {"brakes-rear", Condition::Worn},        {"steering", Condition::Loose},
        {"tyre-front-left", Condition::Cut},     {"tyre-rear-right", Condition::Worn},
        {"wing-front-left", Condition::Scratch}, {"bonnet", Condition::Chip},
    };
    static const std::vector<PersonId> people{manager, appraiser, mechanic, technician, wheels,
                                              painter, glazier,   checker,  seller};
    const PersonId anybody = m_dice.any(people);
    const std::vector<const Operation*> open = car.openOperations();
    const OperationId any = open.empty() ? OperationId{1} : m_dice.any(open)->id;
    switch (m_dice.below(8)) {
    case 0:
    case 1: {
        const auto& [place, condition] = m_dice.any(finds);
        ask(m_dice.oneIn(2) ? appraiser : anybody, car.id,
            car::RecordFinding{finding(place, condition), {}});
        return;
    }
    case 2:
        ask(anybody, car.id, car::MoveCar{BayId{1 + m_dice.below(2)}, {}});
        return;
    case 3:
        ask(anybody, car.id, car::MoveCar{{}, words("yard")});
        return;
    case 4:
        ask(anybody, car.id, car::LeaveAsIs{any, words("as seen")});
        return;
    case 5:
        ask(anybody, car.id, car::Release{});
        return;
    case 6:
        ask(anybody, car.id, car::Reopen{any, words("not good")});
        return;
    default:
        ask(anybody, car.id, car::StartWork{any});
        return;
    }
}

PersonId HouseWorker::somebodyFor(Skill skill)
{
    switch (skill) {
    case Skill::Mechanical:
        return m_dice.oneIn(2) ? mechanic : technician;
    case Skill::Wheels:
        return wheels;
    case Skill::Glass:
        return glazier;
    case Skill::Checks:
        return checker;
    case Skill::Office:
        return appraiser;
    default:
        return painter;
    }
}

void HouseWorker::pauseElsewhere(PersonId who, const CarId& car, OperationId operation)
{
    const auto running = m_door.runningWork(who);
    if (running && *running && ((*running)->car != car || (*running)->operation != operation))
        ask(who, (*running)->car, car::PauseWork{(*running)->operation, {}, StopKind::Paused});
}

void HouseWorker::workOn(const CarState& car, const Operation& operation)
{
    const OperationId number = operation.id;
    if (operation.state == OperationState::AwaitingCheck && operation.isSigned()) {
        ask(checker, car.id, car::Countersign{number});
        return;
    }
    const PersonId who = somebodyFor(operation.spec->skill);
    pauseElsewhere(who, car.id, number);
    if (!operation.spec->cautions.isEmpty() && !operation.cautionsReadBy.contains(who))
        ask(who, car.id, car::ReadCautions{number});
    ask(who, car.id, car::StartWork{number});
    prove(car.id, number, who);
    if (!m_dice.oneIn(12))
        ask(who, car.id, car::SignOff{number, {}});
}

void HouseWorker::prove(const CarId& id, OperationId number, PersonId who)
{
    const auto car = load(id);
    const Operation* operation = car ? car->operation(number) : nullptr;
    if (operation == nullptr)
        return;
    for (const ReadingSpec& spec : operation->spec->readings) {
        const std::vector<PlaceId> places =
            spec.places.empty() ? std::vector<PlaceId>{PlaceId{}} : spec.places;
        for (const PlaceId& place : places) {
            if (spec.optional || operation->reading(spec.key, place) != nullptr)
                continue;
            if (spec.neededFrom && operation->figure(spec.key, place) == nullptr)
                ask(who == checker ? manager : checker, id,
                    car::SetFigure{number, spec.key, place, 120, words("data book")});
            const ReadingValue good =
                spec.kind == ReadingKind::Choice ? ReadingValue{{}, spec.options.front().id}
                : spec.kind == ReadingKind::Text ? ReadingValue{{}, words("as it says")}
                                                 : ReadingValue{120, {}};
            ask(who, id, car::TakeReading{number, spec.key, place, good});
        }
    }
    for (const PhotoSpec& spec : operation->spec->photos)
        ask(who, id,
            car::AttachPhoto{PhotoId{QStringLiteral("%1").arg(m_dice.below(1'000'000'000), 64, 16,
                                                              QLatin1Char('0'))},
                             spec.moment,
                             operation->place,
                             number,
                             {}});
}

} // namespace ramplight::test
