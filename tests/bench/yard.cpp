// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "bench/yard.h"

#include "demo/demofile.h"
#include "demo/demopictures.h"
#include "demo/plausible.h"
#include "domain/holds.h"

#include <QFile>

namespace ramplight::test {

namespace {

/// More than any work asks for.
constexpr int mostPhotos = 8;

demo::WorkshopFile people()
{
    QFile file(QStringLiteral(":/ramplight/demo/workshop.json"));
    if (!file.open(QIODevice::ReadOnly))
        qFatal("the demo workshop is not in this program");
    const auto read = demo::readWorkshop(file.readAll());
    if (!read)
        qFatal("%s", qPrintable(read.error()));
    return *read;
}

FindingData finding(const char* place, Condition condition, Remedy remedy)
{
    FindingData data;
    data.place = PlaceId{QString::fromLatin1(place)};
    data.condition = condition;
    data.severity = Severity::Moderate;
    data.remedies = {remedy};
    return data;
}

std::vector<PlaceId> placesOf(const ReadingSpec& spec)
{
    return spec.places.empty() ? std::vector<PlaceId>{PlaceId{}} : spec.places;
}

} // namespace

Yard::Yard()
{
    auto house = OpenHouse::open(HousePaths(m_folder.path()), m_clock, true);
    if (!house)
        qFatal("%s", qPrintable(house.error()));
    m_house = std::move(*house);
    openHouse();
    bringIn();
}

CommandId Yard::command()
{
    return CommandId{QStringLiteral("yard-%1").arg(++m_commands)};
}

void Yard::openHouse()
{
    const demo::WorkshopFile file = people();
    site::SetUp setUp;
    setUp.name = file.site;
    setUp.firstPersonsSkills = file.people.front().skills;
    const auto ask = [this](PersonId by, const SiteCommand& what, const QString& name) {
        auto done = workshop().run(SiteRequest{command(), by, what, name});
        if (!done)
            qFatal("%s", qPrintable(words(done.error())));
        m_site = std::move(done->site);
    };
    ask({}, setUp, file.people.front().name);
    for (std::size_t i = 1; i < file.people.size(); ++i)
        ask(PersonId{1}, site::AddPerson{file.people[i].skills, file.people[i].rights},
            file.people[i].name);
    for (const Bay& bay : file.bays)
        ask(PersonId{1}, site::SetBay{bay}, {});
    for (int i = 1; i <= mostPhotos; ++i) {
        const auto kept = m_house->photos().keep(
            demo::drawPicture(wholeCar(), PhotoMoment::After, QStringLiteral("Y-%1").arg(i)));
        if (!kept)
            qFatal("a picture cannot be kept");
        m_photos.push_back(kept->id);
    }
}

bool Yard::run(PersonId who, std::vector<CarCommand> commands)
{
    auto done = workshop().run(CarRequest{command(), who, m_car.id, std::move(commands), true});
    if (done)
        m_car = std::move(done->car);
    return done.has_value();
}

void Yard::bringIn()
{
    static const std::vector<FindingData> findings{
        finding("wheel-rear-right", Condition::Kerbed, Remedy::Refurbish),
        finding("front-door-left", Condition::Dent, Remedy::DentRepair),
        finding("bonnet", Condition::Chip, Remedy::TouchIn),
        finding("tyre-front-left", Condition::Worn, Remedy::Replace)};
    m_car = {};
    m_car.id = CarId{QStringLiteral("yard-%1").arg(++m_cars)};
    m_givenUp.clear();
    car::BringIn bring;
    bring.identity.stockNumber = QStringLiteral("Y-%1").arg(1000 + m_cars);
    bring.identity.registration = QStringLiteral("QX %1 K").arg(1000 + m_cars);
    bring.identity.make = QStringLiteral("Orrel");
    bring.identity.model = QStringLiteral("Tarn 1.2");
    bring.facts.has = {Fact::CombustionEngine};
    bring.facts.odometer = 41'200;
    bring.facts.keys = 2;
    bring.promised = QDate(2031, 6, 20);
    std::vector<CarCommand> commands{bring};
    car::FindSound sound;
    for (const PlaceInfo& place : allPlaces())
        if (place.id != wholeCar() && std::ranges::none_of(findings, [&](const FindingData& found) {
                return found.place == place.id;
            }))
            sound.places.push_back(place.id);
    for (const FindingData& found : findings)
        commands.emplace_back(car::RecordFinding{found, {}});
    commands.emplace_back(sound);
    commands.emplace_back(car::FinishAppraisal{});
    auto done = workshop().run(CarRequest{command(), PersonId{2}, m_car.id, commands, false});
    if (!done)
        qFatal("no car can be brought in: %s", qPrintable(words(done.error())));
    m_car = std::move(done->car);
}

PersonId Yard::whoDoes(const Operation& operation) const
{
    std::set<PersonId> hands;
    for (const auto& [id, other] : m_car.operations)
        hands.merge(other.doers());
    for (const auto& [id, person] : m_site.people) {
        const Skill skill = operation.spec->skill;
        const bool able = skill == Skill::Checks ? person.can(Right::Check) && !hands.contains(id)
                          : skill == Skill::Office
                              ? person.can(Right::Manage)
                              : person.can(Right::Work) && person.has(skill) && id != PersonId{1};
        if (able)
            return id;
    }
    return {};
}

void Yard::enterFigures(const Operation& operation, PersonId doer)
{
    std::vector<CarCommand> commands;
    for (const ReadingSpec& spec : operation.spec->readings)
        if (spec.neededFrom || spec.kind == ReadingKind::Figure)
            for (const PlaceId& place : placesOf(spec))
                if (operation.figure(spec.key, place) == nullptr)
                    commands.emplace_back(car::SetFigure{operation.id, spec.key, place,
                                                         demo::plausibleFigure(spec),
                                                         QStringLiteral("workshop data")});
    if (!commands.empty())
        run(doer == PersonId{1} ? PersonId{2} : PersonId{1}, std::move(commands));
}

std::optional<CarRequest> Yard::prepare(const Operation& operation)
{
    const OperationId id = operation.id;
    const PersonId doer = whoDoes(operation);
    if (doer.isNull())
        return {};
    std::vector<CarCommand> commands;
    if (!operation.spec->cautions.isEmpty())
        commands.emplace_back(car::ReadCautions{id});
    commands.emplace_back(car::StartWork{id});
    if (!run(doer, commands))
        return {};
    m_clock.goOn(std::max(1, operation.spec->minutes.usual));
    enterFigures(*m_car.operation(id), doer);
    const Operation begun = *m_car.operation(id);
    commands.clear();
    for (const ReadingSpec& spec : begun.spec->readings)
        if (!spec.optional)
            for (const PlaceId& place : placesOf(spec))
                commands.emplace_back(car::TakeReading{
                    id, spec.key, place, demo::plausibleReading(begun, spec, place, m_random)});
    // One picture shows one thing: those of a moment are different ones.
    for (std::size_t i = 0; i < begun.spec->photos.size(); ++i)
        commands.emplace_back(
            car::AttachPhoto{m_photos.at(i), begun.spec->photos.at(i).moment, begun.place, id, {}});
    if (!commands.empty() && !run(doer, commands))
        run(doer, {car::PauseWork{id, doer, StopKind::Paused}});
    return CarRequest{command(), doer, m_car.id, {car::SignOff{id, {}}}, false};
}

CarRequest Yard::nextSignOff()
{
    for (;;) {
        std::vector<OperationId> open;
        for (const auto& [id, operation] : m_car.operations)
            if (operation.isOpen() && operation.state != OperationState::AwaitingCheck &&
                !m_givenUp.contains(id) &&
                whyNotYet(m_car, operation, m_site.rules, m_clock.now()).isEmpty())
                open.push_back(id);
        for (const OperationId id : open) {
            if (auto request = prepare(*m_car.operation(id)))
                return *request;
            m_givenUp.insert(id);
        }
        bringIn();
    }
}

void Yard::refused(const CarRequest& request)
{
    const OperationId id = std::get<car::SignOff>(request.commands.front()).operation;
    m_givenUp.insert(id);
    run(request.actor, {car::PauseWork{id, request.actor, StopKind::Paused}});
}

} // namespace ramplight::test
