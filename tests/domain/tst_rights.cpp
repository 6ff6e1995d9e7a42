// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "randomworkshop.h"
#include "support/testmain.h"

#include <QTest>

#include <algorithm>
#include <array>
#include <map>

using namespace ramplight;
using namespace ramplight::test;

namespace {

constexpr std::array rights{Right::Appraise, Right::Work, Right::Check, Right::Manage,
                            Right::Release};

/// Whether a right alone opens a command: never seen refused for want of a right, always, or
/// according to what is asked.
enum class Cell { Unseen, May, MayNot, Depends };

Cell with(Cell cell, bool may)
{
    const Cell seen = may ? Cell::May : Cell::MayNot;
    return cell == Cell::Unseen || cell == seen ? seen : Cell::Depends;
}

QChar letter(Cell cell)
{
    switch (cell) {
    case Cell::May:
        return QLatin1Char('x');
    case Cell::MayNot:
        return QLatin1Char('-');
    case Cell::Depends:
        return QLatin1Char('~');
    case Cell::Unseen:
        break;
    }
    return QLatin1Char(' ');
}

/// A row for each command of a car: nobody's right, then those above in their order.
using Matrix = std::array<std::array<Cell, rights.size() + 1>, commandKinds>;

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
        // What people come to depends on the compiler's order of evaluation: on until all was seen.
        for (quint64 seed = 1; seed <= 8 || (!isSeen() && seed <= 200); ++seed) {
            Tally tally;
            RandomWorkshop random(seed, tally);
            const People people = hire(random.bench());
            random.probe(
                [&](const MemoryLedger& before, const CarId& car, const CarCommand& command) {
                    look(before, random.bench(), people, car, command);
                });
            QVERIFY2(random.run(60), qPrintable(random.what()));
        }
    }

    void everyCell_data()
    {
        QTest::addColumn<int>("kind");
        QTest::addColumn<QString>("cells");
        // nobody, appraise, work, check, manage, release; x may, - may not, ~ according to the work
        const std::map<QString, QString> expected{
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
            {QStringLiteral("StartWork"), QStringLiteral("-~~~~-")},
            {QStringLiteral("PauseWork"), QStringLiteral("xxxxxx")},
            // One's own stretches, whatever work they were on.
            {QStringLiteral("CorrectMinutes"), QStringLiteral("-~~~x-")},
            {QStringLiteral("HandOver"), QStringLiteral("----x-")},
            {QStringLiteral("SetFigure"), QStringLiteral("---xx-")},
            {QStringLiteral("TakeReading"), QStringLiteral("-~~~~-")},
            {QStringLiteral("CorrectReading"), QStringLiteral("--xxx-")},
            {QStringLiteral("AttachPhoto"), QStringLiteral("xxxxxx")},
            {QStringLiteral("SignOff"), QStringLiteral("-~~~~-")},
            {QStringLiteral("Countersign"), QStringLiteral("---x--")},
            {QStringLiteral("FailCheck"), QStringLiteral("---x--")},
            {QStringLiteral("Reopen"), QStringLiteral("---xx-")},
            {QStringLiteral("LeaveAsIs"), QStringLiteral("----x-")},
            {QStringLiteral("BlockForPart"), QStringLiteral("-xx-x-")},
            {QStringLiteral("Unblock"), QStringLiteral("-xx-x-")},
            {QStringLiteral("SendOut"), QStringLiteral("--x-x-")},
            {QStringLiteral("ReceiveBack"), QStringLiteral("--xxx-")},
            {QStringLiteral("SetIsolation"), QStringLiteral("--x---")},
            {QStringLiteral("LiftIsolation"), QStringLiteral("xxxxxx")},
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
        for (std::size_t kind = 0; kind < commandKinds; ++kind) {
            const QString name = QString::fromLatin1(commandNames()[kind]);
            const auto it = expected.find(name);

            if (it == expected.end())
                qFatal("%s has no row", qPrintable(name));
            QTest::addRow("%s", qPrintable(name)) << static_cast<int>(kind) << it->second;
        }
    }

    void everyCell()
    {
        QFETCH(int, kind);
        QFETCH(QString, cells);
        QString seen;
        for (const Cell cell : m_matrix[static_cast<std::size_t>(kind)])
            seen.append(letter(cell));
        // What depends on the work may show either side of it.
        for (qsizetype i = 0; i < seen.size(); ++i)
            if (cells.at(i) == letter(Cell::Depends) && seen.at(i) != letter(Cell::Unseen))
                seen[i] = cells.at(i);
        QCOMPARE(seen, cells);
    }

    void merging_isTheAppraisersAndTheManagers()
    {
        Workbench bench;
        const People people = hire(bench);
        const CarId keep = bench.appraised();
        const CarId second = bench.appraised();
        QString seen;
        for (const PersonId who : people) {
            MemoryLedger ledger = bench.ledger;
            Workshop workshop(ledger, bench.clock, bench.catalogue);
            const auto outcome = workshop.mergeDuplicate({QStringLiteral("probe")}, who, keep,
                                                         second, QStringLiteral("entered twice"));
            const Refusal* refusal = outcome ? nullptr : std::get_if<Refusal>(&outcome.error());
            seen.append(letter(refusal != nullptr && refusal->id == RefusalId::NotAllowed
                                   ? Cell::MayNot
                                   : Cell::May));
        }
        QCOMPARE(seen, QStringLiteral("-x--x-"));
    }

private:
    /// Nobody's right, then each of the rights above alone; all of them with every skill.
    using People = std::array<PersonId, rights.size() + 1>;

    static People hire(Workbench& bench)
    {
        const std::vector<Skill> skills{Skill::Mechanical, Skill::Wheels, Skill::SmartRepair,
                                        Skill::Glass,      Skill::Trim,   Skill::Valet,
                                        Skill::Checks,     Skill::Office};
        People people;
        people[0] = bench.hire(QStringLiteral("Nobody"), skills, {});
        for (std::size_t i = 0; i < rights.size(); ++i)
            people[i + 1] = bench.hire(QStringLiteral("Holder %1").arg(i), skills, {rights[i]});
        return people;
    }

    void look(const MemoryLedger& before, const Workbench& bench, const People& people,
              const CarId& car, const CarCommand& command)
    {
        MemoryLedger ledger = before;
        for (std::size_t i = 0; i < people.size(); ++i) {
            if (ledger.appends() != before.appends())
                ledger = before;
            Workshop workshop(ledger, bench.clock, bench.catalogue);
            const auto outcome = workshop.run(
                CarRequest{{QStringLiteral("probe")}, people[i], car, {command}, true});
            const Refusal* refusal = outcome ? nullptr : std::get_if<Refusal>(&outcome.error());
            Cell& cell = m_matrix[command.index()][i];
            cell = with(cell, refusal == nullptr || refusal->id != RefusalId::NotAllowed);
        }
    }

    /// Every command but the two that are only carried out together.
    [[nodiscard]] bool isSeen() const
    {
        return std::ranges::count_if(
                   m_matrix, [](const auto& row) { return row.front() == Cell::Unseen; }) == 2;
    }

    /// What random people hardly ever come to.
    void rare()
    {
        Workbench bench;
        const People people = hire(bench);
        const auto does = [&](PersonId who, const CarId& car, const CarCommand& command) {
            const MemoryLedger before = bench.ledger;
            bench.must(who, car, command);
            look(before, bench, people, car, command);
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
        bench.must(bench.mechanic, id, car::PauseWork{inspection, {}, StopKind::Paused});
        does(bench.mechanic, id,
             car::CorrectMinutes{inspection, bench.operation(id, inspection).segments.front().id,
                                 20, QStringLiteral("forgot to pause")});
        bench.must(bench.mechanic, id, car::StartWork{inspection});
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
        bench.must(bench.manager, id, car::ReceiveBack{blocked, {}});
        does(bench.manager, id,
             car::LeaveUnreleased{LeavingHow::Trade, QStringLiteral("rust in the sills")});
        does(bench.manager, id, car::BringBack{QStringLiteral("wanted after all")});
    }

    Matrix m_matrix{};
};

RAMPLIGHT_TEST(QCoreApplication, TestRights)
#include "tst_rights.moc"
