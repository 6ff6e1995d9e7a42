// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "randomworkshop.h"
#include "rightsmatrix.h"
#include "support/testmain.h"

#include <QTest>

#include <algorithm>
#include <map>

using namespace ramplight;
using namespace ramplight::test;

namespace {

bool isForWantOfARight(const Refusal& refusal)
{
    return refusal.id == RefusalId::NotAllowed || refusal.id == RefusalId::WrongSkill;
}

/// What a right opens depends on the work in some commands: each case has a row of its own.
QString workCase(const CarState& car, OperationId id, bool skilled)
{
    switch (car.operation(id)->spec->skill) {
    case Skill::Checks:
        return QStringLiteral(", a check");
    case Skill::Office:
        return QStringLiteral(", in the office");
    default:
        return skilled ? QStringLiteral(", in the bays")
                       : QStringLiteral(", in the bays without the skill");
    }
}

QString ownCase(bool own)
{
    return own ? QStringLiteral(", one's own") : QStringLiteral(", somebody's");
}

/// Whether who has the operation in hand.
bool isAt(const Operation& operation, PersonId who)
{
    return operation.assigned == who ||
           std::ranges::any_of(operation.segments, [who](const Segment& segment) {
               return segment.running() && segment.person == who;
           });
}

QString rowOf(const CarState& car, const CarCommand& command, PersonId who, bool skilled)
{
    const QString name = QString::fromLatin1(commandNames()[command.index()]);
    if (const auto* start = std::get_if<car::StartWork>(&command))
        return name + workCase(car, start->operation, skilled);
    if (const auto* reading = std::get_if<car::TakeReading>(&command))
        return name + workCase(car, reading->operation, skilled);
    if (const auto* sign = std::get_if<car::SignOff>(&command))
        return name + workCase(car, sign->operation, skilled);
    if (const auto* correct = std::get_if<car::CorrectMinutes>(&command)) {
        const std::vector<Segment>& segments = car.operation(correct->operation)->segments;
        return name +
               ownCase(std::ranges::find(segments, correct->segment, &Segment::id)->person == who);
    }
    if (const auto* pause = std::get_if<car::PauseWork>(&command))
        return name + ownCase(pause->person.isNull() || pause->person == who);
    if (const auto* over = std::get_if<car::HandOver>(&command))
        return name + ownCase(isAt(*car.operation(over->operation), who));
    if (const auto* failed = std::get_if<car::FailCheck>(&command)) {
        const Operation& check = *car.operation(failed->operation);
        const bool received = check.state == OperationState::AwaitingCheck && !check.isSigned();
        return received ? name + QStringLiteral(", of a firm's work") : name;
    }
    if (const auto* lift = std::get_if<car::LiftIsolation>(&command)) {
        const QString whose = name + ownCase(car.isolation->by == who);
        return car.isolation->by == who || lift->procedure.isEmpty()
                   ? whose
                   : whose + QStringLiteral(" in writing");
    }
    return name;
}

/// nobody, appraise, work, check, manage, release; x may, - may not
const std::map<QString, QString>& expectedRows()
{
    static const std::map<QString, QString> rows{
        {QStringLiteral("BringIn"), QStringLiteral("-x--x-")},
        {QStringLiteral("CorrectIdentity"), QStringLiteral("-x--x-")},
        {QStringLiteral("CorrectFacts"), QStringLiteral("-x-xx-")},
        {QStringLiteral("ChangePromise"), QStringLiteral("----x-")},
        {QStringLiteral("RecordFinding"), QStringLiteral("-xxxx-")},
        {QStringLiteral("FindSound"), QStringLiteral("-x----")},
        {QStringLiteral("RecordTread"), QStringLiteral("-xx---")},
        {QStringLiteral("FinishAppraisal"), QStringLiteral("-x----")},
        {QStringLiteral("CorrectFinding"), QStringLiteral("-x-xx-")},
        {QStringLiteral("OpenOperation"), QStringLiteral("-xx-x-")},
        {QStringLiteral("WithdrawOperation"), QStringLiteral("----x-")},
        {QStringLiteral("ReadCautions"), QStringLiteral("xxxxxx")},
        {QStringLiteral("StartWork, in the bays"), QStringLiteral("--x---")},
        {QStringLiteral("StartWork, in the bays without the skill"), QStringLiteral("------")},
        {QStringLiteral("StartWork, in the office"), QStringLiteral("-x--x-")},
        {QStringLiteral("StartWork, a check"), QStringLiteral("---x--")},
        {QStringLiteral("PauseWork, one's own"), QStringLiteral("xxxxxx")},
        {QStringLiteral("PauseWork, somebody's"), QStringLiteral("----x-")},
        {QStringLiteral("CorrectMinutes, one's own"), QStringLiteral("xxxxxx")},
        {QStringLiteral("CorrectMinutes, somebody's"), QStringLiteral("----x-")},
        {QStringLiteral("HandOver, one's own"), QStringLiteral("xxxxxx")},
        {QStringLiteral("HandOver, somebody's"), QStringLiteral("----x-")},
        {QStringLiteral("SetFigure"), QStringLiteral("---xx-")},
        {QStringLiteral("CorrectFigure"), QStringLiteral("---xx-")},
        {QStringLiteral("TakeReading, in the bays"), QStringLiteral("--x---")},
        {QStringLiteral("TakeReading, in the bays without the skill"), QStringLiteral("------")},
        {QStringLiteral("TakeReading, in the office"), QStringLiteral("-x--x-")},
        {QStringLiteral("TakeReading, a check"), QStringLiteral("---x--")},
        {QStringLiteral("CorrectReading"), QStringLiteral("--xxx-")},
        {QStringLiteral("AttachPhoto"), QStringLiteral("xxxxxx")},
        {QStringLiteral("SignOff, in the bays"), QStringLiteral("--x---")},
        {QStringLiteral("SignOff, in the bays without the skill"), QStringLiteral("------")},
        {QStringLiteral("SignOff, in the office"), QStringLiteral("-x--x-")},
        {QStringLiteral("SignOff, a check"), QStringLiteral("---x--")},
        {QStringLiteral("Countersign"), QStringLiteral("---x--")},
        {QStringLiteral("FailCheck"), QStringLiteral("---x--")},
        {QStringLiteral("FailCheck, of a firm's work"), QStringLiteral("--xxx-")},
        {QStringLiteral("Reopen"), QStringLiteral("---xx-")},
        {QStringLiteral("LeaveAsIs"), QStringLiteral("----x-")},
        {QStringLiteral("BlockForPart"), QStringLiteral("-xx-x-")},
        {QStringLiteral("Unblock"), QStringLiteral("-xx-x-")},
        {QStringLiteral("SendOut"), QStringLiteral("--x-x-")},
        {QStringLiteral("ReceiveBack"), QStringLiteral("--xxx-")},
        {QStringLiteral("SetIsolation"), QStringLiteral("--x---")},
        {QStringLiteral("LiftIsolation, one's own"), QStringLiteral("xxxxxx")},
        // Refused to everybody, and not for want of a right.
        {QStringLiteral("LiftIsolation, somebody's"), QStringLiteral("xxxxxx")},
        // To work and to check or manage: no right alone does.
        {QStringLiteral("LiftIsolation, somebody's in writing"), QStringLiteral("------")},
        {QStringLiteral("MoveCar"), QStringLiteral("xxxxxx")},
        {QStringLiteral("Release"), QStringLiteral("-----x")},
        {QStringLiteral("LeaveUnreleased"), QStringLiteral("----x-")},
        {QStringLiteral("BringBack"), QStringLiteral("----x-")},
        // Alone neither is carried out: merging asks both, see below.
        {QStringLiteral("LinkDuplicate"), QStringLiteral("      ")},
        {QStringLiteral("CloseDuplicate"), QStringLiteral("      ")},
        {QStringLiteral("RecordTyre"), QStringLiteral("-xx---")},
        {QStringLiteral("RecordPaintDepth"), QStringLiteral("-xx---")},
        {QStringLiteral("ConfirmRepair"), QStringLiteral("-xxxx-")},
        {QStringLiteral("ReadOdometer"), QStringLiteral("-xxxxx")},
        {QStringLiteral("TakeOut"), QStringLiteral("-x----")},
        {QStringLiteral("PlanWork"), QStringLiteral("----x-")},
        {QStringLiteral("TakeSpeech"), QStringLiteral("-x----")},
        {QStringLiteral("DropDraft"), QStringLiteral("-x----")},
        {QStringLiteral("RemovePhotos"), QStringLiteral("----x-")},
        {QStringLiteral("ChangeDue"), QStringLiteral("--x-x-")},
    };
    return rows;
}

} // namespace

// Rights against commands, every cell: whoever holds one right alone tries each command that
// somebody else could carry out at that moment.
class TestRights : public QObject
{
    Q_OBJECT

private slots:
    void initTestCase()
    {
        rare();
        own();
        // What people come to depends on the compiler's order of evaluation: on until all was seen.
        for (quint64 seed = 1; seed <= 8 || (!isSeen() && seed <= 200); ++seed) {
            Tally tally;
            RandomWorkshop random(seed, tally);
            const Probes probes(random.bench());
            random.probe(
                [&](const MemoryLedger& before, const CarId& car, const CarCommand& command) {
                    look(before, random.bench(), probes, car, command);
                });
            QVERIFY2(random.run(60), qPrintable(random.what()));
        }
    }

    void everyCell_data()
    {
        QTest::addColumn<QString>("row");
        QTest::addColumn<QString>("cells");
        for (const auto& [row, cells] : expectedRows())
            QTest::newRow(qPrintable(row)) << row << cells;
    }

    void everyCell()
    {
        QFETCH(QString, row);
        QFETCH(QString, cells);
        QCOMPARE(cellText(m_seen[row]), cells);
    }

    void everyCommand_andEveryCaseThatWasSeen_hasARow()
    {
        for (const char* name : commandNames())
            QVERIFY2(std::ranges::any_of(expectedRows(),
                                         [name](const auto& row) {
                                             return row.first.section(QLatin1Char(','), 0, 0) ==
                                                    QLatin1StringView(name);
                                         }),
                     name);
        for (const auto& [row, cells] : m_seen)
            QVERIFY2(expectedRows().contains(row), qPrintable(row));
    }

    void merging_isTheAppraisersAndTheManagers()
    {
        Workbench bench;
        const Holders people = hireHolders(bench);
        const CarId keep = bench.appraised();
        const CarId second = bench.appraised();
        RightsRow seen{};
        for (std::size_t i = 0; i < holderCount; ++i) {
            MemoryLedger ledger = bench.ledger;
            ledger.takeNothing();
            Workshop workshop(ledger, bench.clock, bench.catalogue);
            const auto outcome = workshop.mergeDuplicate({QStringLiteral("probe")}, people[i], keep,
                                                         second, QStringLiteral("entered twice"));
            const Refusal* refusal = outcome ? nullptr : std::get_if<Refusal>(&outcome.error());
            seen[i] = seenTo(seen[i], refusal == nullptr || !isForWantOfARight(*refusal));
        }
        QCOMPARE(cellText(seen), QStringLiteral("-x--x-"));
    }

private:
    /// Both for those who can do all work and for those who can do none.
    struct Probes
    {
        explicit Probes(Workbench& bench)
            : skilled(hireHolders(bench))
            , unskilled(hireHolders(bench, {}))
        {
        }

        Holders skilled;
        Holders unskilled;
    };

    void look(const MemoryLedger& before, const Workbench& bench, const Probes& probes,
              const CarId& car, const CarCommand& command)
    {
        MemoryLedger ledger = before;
        ledger.takeNothing();
        Workshop workshop(ledger, bench.clock, bench.catalogue);
        const CarState state = ledger.car(car).value_or(CarState{});
        const bool asksForSkill = std::holds_alternative<car::StartWork>(command) ||
                                  std::holds_alternative<car::TakeReading>(command) ||
                                  std::holds_alternative<car::SignOff>(command);
        for (std::size_t i = 0; i < holderCount; ++i) {
            tryAs(workshop, {probes.skilled[i], i, true}, state, car, command);
            if (asksForSkill)
                tryAs(workshop, {probes.unskilled[i], i, false}, state, car, command);
        }
    }

    struct Holder
    {
        PersonId person;
        std::size_t cell;
        bool skilled;
    };

    /// Its ledger takes nothing: what nobody refuses has failed there, and is as before.
    void tryAs(Workshop& workshop, const Holder& who, const CarState& state, const CarId& car,
               const CarCommand& command)
    {
        const auto outcome =
            workshop.run(CarRequest{{QStringLiteral("probe")}, who.person, car, {command}, true});
        const Refusal* refusal = outcome ? nullptr : std::get_if<Refusal>(&outcome.error());
        RightsCell& cell = m_seen[rowOf(state, command, who.person, who.skilled)][who.cell];
        cell = seenTo(cell, refusal == nullptr || !isForWantOfARight(*refusal));
    }

    /// Every row but the two commands that are only carried out together.
    [[nodiscard]] bool isSeen() const
    {
        return std::ranges::all_of(expectedRows(), [this](const auto& row) {
            const auto seen = m_seen.find(row.first);
            return row.second.trimmed().isEmpty() ||
                   (seen != m_seen.end() &&
                    std::ranges::find(seen->second, RightsCell::Unseen) == seen->second.end());
        });
    }

    /// What is one's own is so whatever right one has left: whoever began it with the right to.
    void own()
    {
        for (std::size_t i = 0; i < holderCount; ++i) {
            Workbench bench;
            const PersonId who = bench.hire(QStringLiteral("Wenna"), allSkills, {Right::Work});
            const auto may = [&](const std::vector<Right>& held) {
                QCOMPARE(bench.ask(bench.manager, site::ChangePerson{who, allSkills, held, true}),
                         done);
            };
            const auto does = [&](const CarId& car, const CarCommand& command) {
                MemoryLedger ledger = bench.ledger;
                ledger.takeNothing();
                Workshop workshop(ledger, bench.clock, bench.catalogue);
                tryAs(workshop, {who, i, true}, ledger.car(car).value_or(CarState{}), car, command);
            };
            const CarId car = bench.appraised();
            const OperationId work = bench.open(car, "inspection");
            bench.start(car, work, who);
            bench.clock.pass(30);
            may(rightsOf(i));
            does(car, car::PauseWork{work, {}, StopKind::Paused});
            does(car, car::HandOver{work, bench.technician});
            bench.must(who, car, car::PauseWork{work, {}, StopKind::Paused});
            does(car, car::CorrectMinutes{work, bench.operation(car, work).segments.front().id, 20,
                                          QStringLiteral("forgot to pause")});
            may({Right::Work});
            const CarId other = isolated(bench, who);
            may(rightsOf(i));
            does(other, car::LiftIsolation{bench.car(other).isolation->operation, {}});
        }
    }

    /// A car that who has isolated.
    static CarId isolated(Workbench& bench, PersonId who)
    {
        const CarId car = bench.bringIn(carWith({Fact::CombustionEngine, Fact::TractionBattery}));
        bench.found(car, "traction-battery", Condition::Broken);
        const OperationId work = bench.open(car, "high-voltage-repair");
        bench.start(car, work, who);
        bench.must(who, car, car::SetIsolation{work, QStringLiteral("key safe")});
        return car;
    }

    /// What random people hardly ever come to.
    void rare()
    {
        Workbench bench;
        const Probes probes(bench);
        const auto does = [&](PersonId who, const CarId& car, const CarCommand& command) {
            const MemoryLedger before = bench.ledger;
            bench.must(who, car, command);
            look(before, bench, probes, car, command);
        };
        const CarId coming = bench.bringIn();
        SpokenRound round;
        round.transcript = {QStringLiteral("words")};
        round.drafts.resize(1);
        round.drafts.front().data = finding("roof", Condition::Worn);
        round.facts.keys = bench.car(coming).facts.keys;
        does(bench.appraiser, coming, car::TakeSpeech{round});
        does(bench.appraiser, coming, car::DropDraft{{round.transcript, 0}});
        bench.found(coming, "wheel-front-left", Condition::Kerbed);
        does(bench.appraiser, coming,
             car::TakeOut{bench.open(coming, "wheel-refurb"), QStringLiteral("sold as seen")});

        const CarId id = bench.appraised();
        const OperationId inspection = bench.open(id, "inspection");
        bench.start(id, inspection, bench.mechanic);
        bench.clock.pass(30);
        does(bench.manager, id, car::PauseWork{inspection, bench.mechanic, StopKind::Paused});
        does(bench.mechanic, id,
             car::CorrectMinutes{inspection, bench.operation(id, inspection).segments.front().id,
                                 20, QStringLiteral("forgot to pause")});
        bench.must(bench.mechanic, id, car::StartWork{inspection});
        bench.must(bench.manager, id,
                   car::SetFigure{inspection, QStringLiteral("disc"), at("brakes-front"), 2250,
                                  QStringLiteral("data book")});
        does(bench.checker, id,
             car::CorrectFigure{inspection, QStringLiteral("disc"), at("brakes-front"), 225,
                                QStringLiteral("data book"), QStringLiteral("a nought too many"),
                                bench.photo()});
        bench.must(
            bench.painter, id,
            car::OpenOperation{QStringLiteral("touch-in"), at("bonnet"), QStringLiteral("chips")});
        does(bench.manager, id,
             car::WithdrawOperation{bench.open(id, "touch-in"), QStringLiteral("not worth it")});
        does(bench.mechanic, id, car::HandOver{inspection, bench.technician});
        bench.found(id, "wheel-front-left", Condition::Kerbed);
        does(bench.manager, id,
             car::LeaveAsIs{bench.open(id, "wheel-refurb"), QStringLiteral("one wheel marked")});
        does(bench.manager, id, car::ChangePromise{QDate(2031, 3, 28), {}});
        does(bench.manager, id, car::PlanWork{inspection, bench.technician});
        const OperationId blocked = bench.open(id, "valet");
        bench.must(bench.manager, id,
                   car::SendOut{blocked, {"Cove Works", QDate(2031, 3, 25), 1, {}, false, {}}});
        does(bench.manager, id,
             car::ChangeDue{blocked, QDate(2031, 3, 26), QStringLiteral("they say so")});
        bench.must(bench.manager, id, car::ReceiveBack{blocked, {}, 1});
        does(bench.manager, id, car::FailCheck{blocked, QStringLiteral("not clean"), {}});
        does(bench.manager, id,
             car::LeaveUnreleased{LeavingHow::Trade, QStringLiteral("rust in the sills")});
        does(bench.manager, id, car::BringBack{QStringLiteral("wanted after all")});

        const CarId live = isolated(bench, bench.mechanic);
        const OperationId high = bench.car(live).isolation->operation;
        const MemoryLedger before = bench.ledger;
        look(before, bench, probes, live, car::LiftIsolation{high, {}});
        does(bench.technician, live, car::LiftIsolation{high, QStringLiteral("his key is lost")});
    }

    std::map<QString, RightsRow> m_seen;
};

RAMPLIGHT_TEST(QCoreApplication, TestRights)
#include "tst_rights.moc"
