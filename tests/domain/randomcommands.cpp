// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "randomcommands.h"

#include <numeric>

namespace ramplight::test {

namespace {

template <class E>
std::vector<E> all()
{
    std::vector<E> values;
    for (const auto& [value, name] : Names<E>::table)
        values.push_back(value);
    return values;
}

} // namespace

std::size_t Deck::next(Dice& dice)
{
    if (m_left.empty()) {
        m_left.resize(m_size);
        std::iota(m_left.begin(), m_left.end(), std::size_t(0));
        for (std::size_t i = m_size - 1; i > 0; --i)
            std::swap(m_left[i], m_left[std::size_t(dice.below(int(i) + 1))]);
    }
    const std::size_t next = m_left.back();
    m_left.pop_back();
    return next;
}

RandomScope RandomScope::small()
{
    return {{at("wheel-front-left"), at("wheel-rear-left"), at("tyre-front-left"),
             at("tyre-rear-right"), at("brakes-front"), at("brakes-rear"), at("steering"),
             at("windscreen"), at("bonnet"), at("tailgate"), at("traction-battery")},
            {Condition::Kerbed, Condition::Cut, Condition::Worn, Condition::Loose, Condition::Crack,
             Condition::Noise, Condition::Scratch, Condition::Broken},
            {Remedy::Leave},
            {Fact::TractionBattery, Fact::ScreenCamera}};
}

RandomScope RandomScope::whole()
{
    RandomScope scope{{}, all<Condition>(), all<Remedy>(), all<Fact>()};
    for (const PlaceInfo& place : allPlaces())
        scope.places.push_back(place.id);
    return scope;
}

const std::array<const char*, commandKinds>& commandNames()
{
    static const std::array<const char*, commandKinds> names{
        "BringIn",        "CorrectIdentity", "CorrectFacts",      "ChangePromise",
        "RecordFinding",  "FindSound",       "RecordTread",       "FinishAppraisal",
        "CorrectFinding", "OpenOperation",   "WithdrawOperation", "ReadCautions",
        "StartWork",      "PauseWork",       "CorrectMinutes",    "HandOver",
        "SetFigure",      "TakeReading",     "CorrectReading",    "AttachPhoto",
        "SignOff",        "Countersign",     "FailCheck",         "Reopen",
        "LeaveAsIs",      "BlockForPart",    "Unblock",           "SendOut",
        "ReceiveBack",    "SetIsolation",    "LiftIsolation",     "MoveCar",
        "Release",        "LeaveUnreleased", "BringBack",         "LinkDuplicate",
        "CloseDuplicate", "RecordTyre",      "RecordPaintDepth",  "ConfirmRepair",
        "ReadOdometer",   "TakeOut",         "PlanWork",          "TakeSpeech",
        "DropDraft",      "RemovePhotos",    "ChangeDue",         "CorrectFigure"};
    static_assert(kindOf<car::CorrectFigure>() == commandKinds - 1);
    static_assert(kindOf<car::SignOff>() == 20 && kindOf<car::Release>() == 32);
    return names;
}

RandomCommands::RandomCommands(RandomHouse& house, Dice& dice, const std::vector<PersonId>& people,
                               const std::vector<CarId>& cars, RandomScope scope)
    : m_house(house)
    , m_dice(dice)
    , m_people(people)
    , m_cars(cars)
    , m_scope(std::move(scope))
{
}

OperationId RandomCommands::operation(const CarState& car)
{
    std::vector<OperationId> ids;
    for (const auto& [id, operation] : car.operations) {
        ids.push_back(id);
        if (operation.isOpen())
            ids.insert(ids.end(), 2, id);
    }
    return ids.empty() || m_dice.oneIn(40) ? OperationId{999} : m_dice.any(ids);
}

ReadingValue RandomCommands::value(const ReadingSpec& spec)
{
    if (spec.kind == ReadingKind::Choice && !m_dice.oneIn(5))
        return {{}, m_dice.any(spec.options).id};
    return {m_dice.oneIn(8) ? std::nullopt : std::optional(m_dice.below(140) - 5), {}};
}

FindingData RandomCommands::finding()
{
    FindingData data;
    data.place = m_dice.any(m_scope.places);
    data.condition = m_dice.any(m_scope.conditions);
    if (m_dice.oneIn(4))
        data.severity = Severity::Heavy;
    if (m_dice.oneIn(6))
        data.remedies = {m_dice.any(m_scope.remedies)};
    return data;
}

CarFacts RandomCommands::facts()
{
    std::vector<Fact> facts{Fact::CombustionEngine};
    for (const Fact fact : m_scope.facts)
        if (fact != Fact::CombustionEngine && m_dice.oneIn(fact == Fact::TractionBattery ? 3 : 2))
            facts.push_back(fact);
    CarFacts made = carWith(facts);
    made.keys = m_dice.below(3);
    if (m_dice.oneIn(2))
        made.frontTyre.size =
            m_dice.oneIn(2) ? QStringLiteral("205/55 R16") : QStringLiteral("195/65 R15");
    return made;
}

CarCommand RandomCommands::command(const CarState& car, std::size_t kind)
{
    const QString why = m_dice.oneIn(10) ? QString() : QStringLiteral("because");
    const PhotoId photo = m_dice.oneIn(4) ? PhotoId{} : m_house.photo();
    const FindingId number =
        car.findings.empty() ? FindingId{1} : FindingId{1 + m_dice.below(int(car.findings.size()))};
    switch (kind) {
    case kindOf<car::BringIn>():
        return car::BringIn{car.identity, car.facts, car.promised, {}};
    case kindOf<car::CorrectIdentity>(): {
        Identity identity = car.identity;
        identity.colour = QStringLiteral("colour %1").arg(m_dice.below(5));
        return car::CorrectIdentity{identity, why};
    }
    case kindOf<car::CorrectFacts>():
        return car::CorrectFacts{facts(), why, photo};
    case kindOf<car::ChangePromise>():
        return car::ChangePromise{m_house.names().day.addDays(7 + m_dice.below(20)), why,
                                  static_cast<PromiseImportance>(m_dice.below(3))};
    case kindOf<car::RecordFinding>():
        // Of a draft, where there is one.
        if (!car.spoken.empty() && m_dice.oneIn(3)) {
            const SpokenRound& round = car.spoken.back().round;
            const int draft = m_dice.below(int(round.drafts.size()) + 1);
            return car::RecordFinding{finding(), {}, {round.transcript, draft}};
        }
        return car::RecordFinding{finding(), {}};
    case kindOf<car::TakeSpeech>(): {
        SpokenRound round;
        round.transcript = {QStringLiteral("words-%1").arg(m_dice.below(4))};
        for (int i = m_dice.below(4); i >= 0; --i)
            round.drafts.push_back({finding(), 50 + 10 * i, 0, 0});
        round.sound = {m_dice.any(m_scope.places)};
        return car::TakeSpeech{round};
    }
    case kindOf<car::DropDraft>(): {
        if (car.spoken.empty() || m_dice.oneIn(9))
            return car::DropDraft{{{QStringLiteral("none")}, 0}};
        const SpokenRound& round = m_dice.any(car.spoken).round;
        const int draft = m_dice.below(int(round.drafts.size()) + 1);
        return car::DropDraft{{round.transcript, draft}, !m_dice.oneIn(3)};
    }
    case kindOf<car::FindSound>():
        return car::FindSound{{m_dice.any(m_scope.places)}};
    case kindOf<car::RecordTread>():
        return car::RecordTread{at("tyre-front-left"), {m_dice.below(90), 40, 50}};
    case kindOf<car::RecordTyre>(): {
        car::RecordTyre tyre;
        tyre.place = at(m_dice.oneIn(2) ? "tyre-front-left" : "tyre-front-right");
        if (!m_dice.oneIn(4))
            tyre.tread = Tread{m_dice.below(90), m_dice.below(90), 50};
        if (m_dice.oneIn(2))
            tyre.dateCode = QStringLiteral("%1%2")
                                .arg(1 + m_dice.below(53), 2, 10, QChar('0'))
                                .arg(10 + m_dice.below(23));
        if (m_dice.oneIn(2))
            tyre.size = m_dice.oneIn(2) ? QStringLiteral("205/55R16 91V")
                                        : QStringLiteral("195/65 R15 88T");
        return tyre;
    }
    case kindOf<car::RecordPaintDepth>(): {
        static const std::vector<const char*> panels{"bonnet",    "roof",       "tailgate",
                                                     "wing-left", "wing-right", "sill-left"};
        const int depth = m_dice.oneIn(4) ? 400 : 100 + m_dice.below(20);
        return car::RecordPaintDepth{at(m_dice.any(panels)),
                                     {depth, depth + m_dice.below(9), depth}};
    }
    case kindOf<car::ConfirmRepair>(): {
        // One that was measured, mostly.
        if (car.paint.empty() || m_dice.oneIn(9))
            return car::ConfirmRepair{at("bonnet"), why};
        std::vector<PlaceId> measured;
        for (const auto& [panel, depths] : car.paint)
            measured.push_back(panel);
        return car::ConfirmRepair{m_dice.any(measured), why};
    }
    case kindOf<car::ReadOdometer>():
        return car::ReadOdometer{m_dice.below(90'000), DistanceUnit(m_dice.below(2)), {}, why};
    case kindOf<car::FinishAppraisal>():
        return car::FinishAppraisal{};
    case kindOf<car::CorrectFinding>(): {
        const bool stands = m_dice.oneIn(2);
        const Finding* known = car.finding(number);
        FindingData data = known != nullptr && m_dice.oneIn(3) ? known->data() : finding();
        data.note = QStringLiteral("note %1").arg(m_dice.below(9));
        return car::CorrectFinding{number, data, stands, why, photo};
    }
    case kindOf<car::OpenOperation>():
        return car::OpenOperation{m_dice.oneIn(2) ? QStringLiteral("touch-in")
                                                  : m_dice.any(m_house.catalogue().operations).id,
                                  m_dice.any(m_scope.places), why};
    case kindOf<car::MoveCar>():
        return car::MoveCar{m_dice.oneIn(3)   ? BayId{}
                            : m_dice.oneIn(2) ? m_house.names().lift
                                              : m_house.names().paintBay,
                            QStringLiteral("row %1").arg(m_dice.below(3))};
    case kindOf<car::Release>():
        return car::Release{};
    case kindOf<car::LeaveUnreleased>():
        return car::LeaveUnreleased{LeavingHow(m_dice.below(4)), why};
    case kindOf<car::BringBack>():
        return car::BringBack{why};
    case kindOf<car::LinkDuplicate>():
        return car::LinkDuplicate{m_dice.any(m_cars)};
    case kindOf<car::CloseDuplicate>():
        return car::CloseDuplicate{m_dice.any(m_cars), why};
    case kindOf<car::RemovePhotos>():
        return car::RemovePhotos{};
    default:
        return work(car, kind);
    }
}

CarCommand RandomCommands::work(const CarState& car, std::size_t kind)
{
    const QString why = m_dice.oneIn(10) ? QString() : QStringLiteral("because");
    OperationId id = operation(car);
    if (kind == kindOf<car::LiftIsolation>())
        return car::LiftIsolation{id, m_dice.oneIn(2) ? why : QString()};
    const Operation* chosen = car.operation(id);
    const ReadingSpec* spec = chosen == nullptr || chosen->spec->readings.empty()
                                  ? nullptr
                                  : &m_dice.any(chosen->spec->readings);
    const QString key = spec == nullptr ? QStringLiteral("none") : spec->key;
    const PlaceId place =
        spec == nullptr || spec->places.empty() ? PlaceId{} : m_dice.any(spec->places);
    const QDate day = m_house.names().day;
    switch (kind) {
    case kindOf<car::WithdrawOperation>():
        for (const auto& [number, other] : car.operations)
            if (other.isOpen() && other.origin == Origin::ByHand && !other.spec->safety)
                id = number;
        return car::WithdrawOperation{id, why};
    case kindOf<car::TakeOut>():
        for (const auto& [number, other] : car.operations)
            if (other.isOpen() && other.origin == Origin::Finding && !other.spec->safety)
                id = number;
        return car::TakeOut{id, why};
    case kindOf<car::ReadCautions>():
        return car::ReadCautions{id};
    case kindOf<car::StartWork>():
        return car::StartWork{id};
    case kindOf<car::PauseWork>():
        return car::PauseWork{id, m_dice.oneIn(2) ? PersonId{} : m_dice.any(m_people),
                              StopKind::Paused};
    case kindOf<car::CorrectMinutes>(): {
        // Of work that was done, mostly.
        std::vector<std::pair<OperationId, SegmentId>> worked;
        for (const auto& [number, other] : car.operations)
            for (const Segment& segment : other.segments)
                worked.emplace_back(number, segment.id);
        if (worked.empty() || m_dice.oneIn(9))
            return car::CorrectMinutes{id, SegmentId{1}, m_dice.below(60) - 2, why};
        const auto& [number, segment] = m_dice.any(worked);
        return car::CorrectMinutes{number, segment, m_dice.below(60) - 2, why};
    }
    case kindOf<car::HandOver>():
        return car::HandOver{id, m_dice.any(m_people)};
    case kindOf<car::PlanWork>():
        return car::PlanWork{id,
                             m_dice.oneIn(2) ? PersonId{} : m_dice.any(m_people),
                             m_dice.oneIn(2) ? BayId{} : m_house.names().lift,
                             {}};
    case kindOf<car::SetFigure>():
        return car::SetFigure{id, key, place, 100 + m_dice.below(40), why};
    case kindOf<car::CorrectFigure>():
        return car::CorrectFigure{id,
                                  key,
                                  place,
                                  100 + m_dice.below(40),
                                  QStringLiteral("book"),
                                  why,
                                  m_dice.oneIn(4) ? PhotoId{} : m_house.photo()};
    case kindOf<car::TakeReading>():
        return car::TakeReading{id, key, place, spec == nullptr ? ReadingValue{} : value(*spec)};
    case kindOf<car::CorrectReading>(): {
        if (chosen == nullptr || chosen->readings.empty())
            return car::CorrectReading{id, ReadingId{1}, number(50), why, m_house.photo()};
        const Reading& reading = m_dice.any(chosen->readings);
        const auto its = std::ranges::find(chosen->spec->readings, reading.key, &ReadingSpec::key);
        return car::CorrectReading{id, reading.id, value(*its), why,
                                   m_dice.oneIn(4) ? PhotoId{} : m_house.photo()};
    }
    case kindOf<car::AttachPhoto>():
        return car::AttachPhoto{m_house.photo(), PhotoMoment(m_dice.below(3)), {}, id, {}};
    case kindOf<car::SignOff>():
        return car::SignOff{id, {}};
    case kindOf<car::Countersign>():
        return car::Countersign{id};
    case kindOf<car::FailCheck>():
        return car::FailCheck{id, why, m_dice.oneIn(2) ? OperationId{} : operation(car)};
    case kindOf<car::Reopen>():
        return car::Reopen{id, why};
    case kindOf<car::LeaveAsIs>():
        return car::LeaveAsIs{id, why};
    case kindOf<car::BlockForPart>():
        return car::BlockForPart{id, {QStringLiteral("part"), QStringLiteral("shop"), day}};
    case kindOf<car::Unblock>():
        return car::Unblock{id};
    case kindOf<car::SendOut>():
        return car::SendOut{id, {QStringLiteral("Cove Works"), day, 1, {}, false, {}}};
    case kindOf<car::ReceiveBack>():
        return car::ReceiveBack{id, why, m_dice.below(3)};
    case kindOf<car::ChangeDue>():
        return car::ChangeDue{id, day.addDays(m_dice.below(3)), why};
    default:
        return car::SetIsolation{id, QStringLiteral("key safe")};
    }
}

} // namespace ramplight::test
