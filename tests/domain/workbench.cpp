// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "workbench.h"

#include "domain/audit.h"

#include <QTest>

namespace ramplight::test {

FindingData finding(const char* place, Condition condition)
{
    FindingData data;
    data.place = at(place);
    data.condition = condition;
    return data;
}

SpokenRound spokenRound(int dents)
{
    SpokenRound round;
    round.transcript = {QStringLiteral("words")};
    round.drafts.resize(static_cast<std::size_t>(dents));
    for (SpokenDraft& draft : round.drafts)
        draft.data = finding("roof", Condition::Dent);
    return round;
}

CarFacts carWith(std::vector<Fact> facts)
{
    CarFacts made;
    made.has = std::move(facts);
    made.odometer = 48'000;
    made.keys = 2;
    return made;
}

ToolId toolInDate(const SiteState& site, const ReadingSpec& spec, QDate day)
{
    if (spec.tool)
        for (const Tool* tool : site.toolsOf(*spec.tool))
            if (tool->isInDate(day))
                return tool->id;
    return {};
}

Workbench::Workbench(const HouseRules& rules)
{
    const auto outcome =
        workshop.run(SiteRequest{command(),
                                 {},
                                 site::SetUp{QStringLiteral("Kestrel Quay"), false, rules, {}},
                                 QStringLiteral("Orla")});
    if (!outcome)
        qFatal("the bench cannot be set up: %s", qPrintable(words(outcome.error())));
    manager = outcome->person;
    appraiser = hire(QStringLiteral("Tamsin"), {}, {Right::Appraise});
    mechanic = hire(QStringLiteral("Bram"), {Skill::Mechanical}, {Right::Work});
    technician = hire(QStringLiteral("Ines"), {Skill::Mechanical}, {Right::Work, Right::Check});
    wheels = hire(QStringLiteral("Caspar"), {Skill::Wheels}, {Right::Work});
    painter = hire(QStringLiteral("Noor"), {Skill::SmartRepair, Skill::Valet}, {Right::Work});
    glazier = hire(QStringLiteral("Piet"), {Skill::Glass}, {Right::Work});
    checker = hire(QStringLiteral("Wanda"), {}, {Right::Check, Right::Manage});
    seller = hire(QStringLiteral("Joss"), {}, {Right::Release});
    ask(manager, site::SetBay{{{}, 1, QStringLiteral("Lift"), BayKind::Lift, true}});
    ask(manager, site::SetBay{{{}, 2, QStringLiteral("Paint"), BayKind::Paint, true}});
    // Who works here is qualified for whatever the catalogue asks; a test takes it away.
    for (const PersonId person : {mechanic, technician, wheels, painter, glazier}) {
        site::SetCompetence all{person, {}, {}};
        for (const auto& [qualification, name] : Names<Qualification>::table)
            all.qualifications.push_back({qualification, QDate(2099, 12, 31)});
        ask(manager, all);
    }
    lift = BayId{1};
    paintBay = BayId{2};
}

void Workbench::fail(const QString& what, Where where) const
{
    QTest::qFail(qPrintable(what), where.file_name(), static_cast<int>(where.line()));
}

QString Workbench::noted(const Failure& failure)
{
    m_lastWords = words(failure);
    const Refusal* refusal = std::get_if<Refusal>(&failure);
    m_lastRefusal = refusal == nullptr ? Refusal{} : *refusal;
    return refusal == nullptr ? m_lastWords : idText(refusal->id);
}

QString Workbench::ask(PersonId who, const CarId& id, const CarCommand& command_, bool pinFresh)
{
    const auto outcome = workshop.run(CarRequest{command(), who, id, {command_}, pinFresh});
    return outcome ? done : noted(outcome.error());
}

QString Workbench::askTogether(PersonId who, const std::vector<TogetherRequest::Item>& items)
{
    const auto outcome = workshop.signTogether({command(), who, items});
    return outcome ? done : noted(outcome.error());
}

QString Workbench::askToJoin(PersonId who, const CarId& keep, const CarId& second)
{
    const auto outcome =
        workshop.mergeDuplicate(command(), who, keep, second, QStringLiteral("typed in twice"));
    return outcome ? done : noted(outcome.error());
}

QString Workbench::ask(PersonId who, const SiteCommand& command_, const QString& name)
{
    const auto outcome = workshop.run(SiteRequest{command(), who, command_, name});
    return outcome ? done : noted(outcome.error());
}

std::vector<CarEvent> Workbench::must(PersonId who, const CarId& id, const CarCommand& command_,
                                      Where where)
{
    const auto outcome = workshop.run(CarRequest{command(), who, id, {command_}, true});
    if (outcome)
        return outcome->events;
    fail(QStringLiteral("refused: %1").arg(words(outcome.error())), where);
    return {};
}

PersonId Workbench::hire(const QString& name, std::vector<Skill> skills, std::vector<Right> rights,
                         Where where)
{
    const auto outcome = workshop.run(SiteRequest{
        command(), manager, site::AddPerson{std::move(skills), std::move(rights)}, name});
    if (outcome)
        return outcome->person;
    fail(QStringLiteral("not hired: %1").arg(words(outcome.error())), where);
    return {};
}

CarId Workbench::bringIn(const CarFacts& facts, Where where)
{
    const CarId id{QStringLiteral("car-%1").arg(++m_cars)};
    Identity identity;
    identity.stockNumber = QStringLiteral("K%1").arg(m_cars);
    identity.make = QStringLiteral("Halden");
    identity.model = QStringLiteral("Skerry");
    must(appraiser, id, car::BringIn{identity, facts, QDate(2031, 3, 20), QStringLiteral("yard")},
         where);
    return id;
}

CarId Workbench::appraised(const CarFacts& facts, Where where)
{
    const CarId id = bringIn(facts, where);
    std::vector<PlaceId> places;
    for (const SafetyPlace& safety : car(id).safetyPlaces)
        places.push_back(safety.place);
    must(appraiser, id, car::FindSound{places}, where);
    must(appraiser, id, car::FinishAppraisal{}, where);
    return id;
}

FindingId Workbench::found(const CarId& id, const char* place, Condition condition, Where where)
{
    const FindingId made{car(id).nextFinding};
    must(appraiser, id, car::RecordFinding{finding(place, condition), {}}, where);
    return made;
}

QStringList Workbench::broken(const CarId& id)
{
    CarState car;
    car.id = id;
    QStringList broken;
    const std::vector<CarEnvelope> history = ledger.history(id).value();
    for (auto begin = history.begin(); begin != history.end();) {
        const auto end = std::find_if(begin, history.end(), [&](const CarEnvelope& entry) {
            return entry.command != begin->command;
        });
        const std::vector<CarEnvelope> group(begin, end);
        broken += rulesBroken(car, group, ledger.site().value());
        for (const CarEnvelope& entry : group)
            apply(car, entry);
        begin = end;
    }
    return broken;
}

CarState Workbench::car(const CarId& id)
{
    return ledger.car(id).value_or(CarState{});
}

OperationId Workbench::open(const CarId& id, const char* kind, const char* place)
{
    OperationId newest;
    for (const auto& [number, operation] : car(id).operations)
        if (operation.isOpen() && operation.spec->id == QLatin1StringView(kind) &&
            (place == nullptr || operation.place == at(place)))
            newest = number;
    return newest;
}

OperationId Workbench::newest(const CarId& id, const char* kind)
{
    OperationId newest;
    for (const auto& [number, operation] : car(id).operations)
        if (operation.spec->id == QLatin1StringView(kind))
            newest = number;
    return newest;
}

const Operation& Workbench::operation(const CarId& id, OperationId number)
{
    const CarState state = car(id);
    const Operation* found = state.operation(number);
    m_shown = found == nullptr ? Operation{} : *found;
    return m_shown;
}

OperationState Workbench::state(const CarId& id, OperationId number)
{
    return operation(id, number).state;
}

std::vector<Hold> Workbench::holds(const CarId& id)
{
    return ramplight::holds(car(id), ledger.site().value().rules, clock.now());
}

CarStatus Workbench::status(const CarId& id)
{
    return statusOf(car(id), ledger.site().value().rules, clock.now());
}

PhotoId Workbench::photo()
{
    if (m_kept)
        return m_kept();
    return PhotoId{QStringLiteral("%1").arg(++m_photos, 64, 16, QLatin1Char('0'))};
}

CommandId Workbench::command()
{
    return CommandId{QStringLiteral("command-%1").arg(++m_commands)};
}

OperationSpec& Workbench::spec(const char* kind)
{
    const auto found =
        std::ranges::find(catalogue.operations, QString::fromLatin1(kind), &OperationSpec::id);
    if (found == catalogue.operations.end())
        qFatal("the small catalogue has no %s", kind);
    return *found;
}

ToolId Workbench::tool(const char* number, ToolKind kind, QDate due, Where where)
{
    const auto outcome = workshop.run(SiteRequest{
        command(), manager, site::SetTool{{{}, QString::fromLatin1(number), kind, due, true}}, {}});
    if (outcome)
        return outcome->site.tools.rbegin()->first;
    fail(QStringLiteral("no tool: %1").arg(words(outcome.error())), where);
    return {};
}

PersonId Workbench::whoFor(const Operation& operation) const
{
    switch (operation.spec->skill) {
    case Skill::Mechanical:
        return mechanic;
    case Skill::Wheels:
        return wheels;
    case Skill::Glass:
        return glazier;
    case Skill::SmartRepair:
    case Skill::Valet:
    case Skill::Trim:
        return painter;
    case Skill::Checks:
        return checker;
    case Skill::Office:
        return appraiser;
    }
    return {};
}

void Workbench::start(const CarId& id, OperationId number, PersonId who, Where where)
{
    if (!operation(id, number).spec->cautions.isEmpty())
        must(who, id, car::ReadCautions{number}, where);
    must(who, id, car::StartWork{number}, where);
}

ReadingValue Workbench::goodValue(const Operation& operation, const ReadingSpec& spec,
                                  const PlaceId& place)
{
    switch (spec.kind) {
    case ReadingKind::Choice:
        for (const ChoiceOption& option : spec.options)
            if (option.closes)
                return {std::nullopt, option.id};
        return {};
    case ReadingKind::Text:
        // A date code is one of a tyre made in the year before.
        return {std::nullopt, spec.key == QLatin1String("date-code")
                                  ? QStringLiteral("2330")
                                  : QStringLiteral("as it says")};
    case ReadingKind::Record:
        return {30, {}};
    case ReadingKind::Figure:
    case ReadingKind::Limit:
        break;
    }
    int value = 0;
    for (const Limit& limit : spec.limits)
        value = std::max(value, limit.min.value_or(0));
    if (const Figure* figure = operation.figure(spec.key, place))
        value = std::max(value, figure->value);
    return {value, {}};
}

void Workbench::prove(const CarId& id, OperationId number, PersonId who, Where where)
{
    const Operation now = operation(id, number);
    const PersonId entitled = who == manager ? checker : manager; // checkers countersign
    for (const ReadingSpec& spec : now.spec->readings) {
        const std::vector<PlaceId> places =
            spec.places.empty() ? std::vector<PlaceId>{PlaceId{}} : spec.places;
        for (const PlaceId& place : places) {
            const Reading* taken = now.reading(spec.key, place);
            if (spec.optional || (taken != nullptr && taken->outcome != ReadingOutcome::Outside))
                continue;
            if (spec.neededFrom && now.figure(spec.key, place) == nullptr)
                must(entitled, id,
                     car::SetFigure{number, spec.key, place, 120, QStringLiteral("data book")},
                     where);
            must(who, id,
                 car::TakeReading{number, spec.key, place,
                                  goodValue(operation(id, number), spec, place),
                                  toolInDate(ledger.site().value(), spec, today())},
                 where);
        }
    }
    for (const PhotoSpec& spec : now.spec->photos)
        must(who, id, car::AttachPhoto{photo(), spec.moment, now.place, number, {}}, where);
}

void Workbench::close(const CarId& id, OperationId number, PersonId who, Where where)
{
    const Operation before = operation(id, number);
    if (who.isNull())
        who = whoFor(before);
    const CarState state = car(id);
    if (state.runningSegment(who, nullptr) == nullptr)
        start(id, number, who, where);
    if (before.spec->highVoltageIsolation && !car(id).isolation)
        must(who, id, car::SetIsolation{number, QStringLiteral("key safe")}, where);
    clock.pass(10);
    prove(id, number, who, where);
    if (car(id).isolation)
        must(car(id).isolation->by, id, car::LiftIsolation{number, {}}, where);
    must(who, id, car::SignOff{number, {}}, where);
    if (before.spec->secondPerson == SecondPerson::Countersign)
        must(who == checker ? technician : checker, id, car::Countersign{number}, where);
}

void Workbench::closeAll(const CarId& id, Where where)
{
    for (int round = 0; round < 60; ++round) {
        const CarState state = car(id);
        if (state.openOperations().empty())
            return;
        OperationId next;
        for (const Operation* operation : state.openOperations())
            if (next.isNull() &&
                whyNotYet(state, *operation, ledger.site().value().rules, clock.now()).isEmpty())
                next = operation->id;
        if (next.isNull())
            clock.pass(60);
        else
            close(id, next, {}, where);
    }
    fail(QStringLiteral("the car does not come to an end"), where);
}

void Workbench::release(const CarId& id, Where where)
{
    closeAll(id, where);
    clock.pass(120);
    must(seller, id, car::Release{}, where);
}

} // namespace ramplight::test
