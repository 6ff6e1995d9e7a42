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
    : RandomWorkshop(seed, tally, RandomScope::small())
{
}

RandomWorkshop::RandomWorkshop(quint64 seed, Tally& tally, const Catalogue& whole)
    : RandomWorkshop(seed, tally, RandomScope::whole())
{
    m_bench.catalogue = whole;
    m_people.push_back(m_bench.hire(QStringLiteral("Edda"), {Skill::Trim}, {Right::Work}));
    QStringList specialities;
    for (const OperationSpec& spec : whole.operations)
        if (!spec.speciality.isEmpty())
            specialities.append(spec.speciality);
    for (const PersonId person : {m_bench.painter, m_bench.wheels}) {
        const auto held = m_bench.ledger.site().value().person(person)->qualifications;
        m_bench.ask(m_bench.manager, site::SetCompetence{person, held, specialities});
    }
}

RandomWorkshop::RandomWorkshop(quint64 seed, Tally& tally, RandomScope scope)
    : m_bench(rulesFor(seed))
    , m_names{m_bench.manager, m_bench.appraiser, m_bench.technician, m_bench.checker,
              m_bench.seller,  m_bench.lift,      m_bench.paintBay,   QDate(2031, 3, 25)}
    , m_dice(seed)
    , m_tally(tally)
    , m_crew(*this, m_dice, m_people, m_cars, std::move(scope))
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
        return m_crew.anything(id);
    if (car.left) {
        ask(m_bench.manager, id, car::BringBack{QStringLiteral("wanted after all")});
        return;
    }
    if (!car.appraised)
        return m_crew.appraise(id);
    std::vector<OperationId> ready;
    std::vector<OperationId> open;
    for (const Operation* operation : car.openOperations()) {
        open.push_back(operation->id);
        if (whyNotYet(car, *operation, {}, m_bench.clock.now()).isEmpty())
            ready.push_back(operation->id);
    }
    if (!ready.empty() && !m_dice.oneIn(15))
        return m_crew.workOn(id, m_dice.any(ready));
    if (!open.empty()) {
        m_bench.clock.pass(30);
        return m_crew.workOn(id, m_dice.any(open));
    }
    m_bench.clock.pass(60);
    m_crew.letGo(id);
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
        ask(m_bench.appraiser, id, car::BringIn{identity, m_crew.facts(), QDate(2031, 3, 20), {}}))
        m_cars.push_back(id);
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
        if (m_broken.isEmpty())
            m_broken = brokenInJoin(m_bench.car(keep), secondBefore);
        if (m_broken.isEmpty())
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
    const PersonId who = m_crew.anybody();
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
