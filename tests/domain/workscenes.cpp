// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "refusalscenes.h"

// Refusals of work on an operation, and of its proof.
namespace ramplight::test {

OperationId started(Workbench& bench, const CarId& id, const char* kind, PersonId who)
{
    const OperationId op = bench.open(id, kind);
    bench.start(id, op, who);
    return op;
}

OutsideWork cove()
{
    return {"Cove Works", QDate(2031, 3, 19), 1, {}, false, {}};
}

namespace {

/// Reads the torque of a tyre that was fitted, with this tool.
QString readTorque(Workbench& b, ToolId tool)
{
    b.spec("wheel-fixing-check").readings.front().tool = ToolKind::TorqueWrench;
    const CarId id = b.appraised();
    b.found(id, "tyre-front-left", Condition::Cut);
    b.close(id, b.open(id, "tyre-fit"));
    const OperationId op = started(b, id, "wheel-fixing-check", b.checker);
    b.must(b.manager, id, car::SetFigure{op, "torque", {}, 120, "data book"});
    return b.ask(b.checker, id, car::TakeReading{op, "torque", {}, number(120), tool});
}

} // namespace

std::vector<RefusalScene> workScenes()
{
    return {
        {RefusalId::SpecialityMissing,
         [](Workbench& b) {
             b.spec("valet").speciality = QStringLiteral("dry-ice");
             const CarId id = b.appraised();
             return b.ask(b.painter, id, car::StartWork{b.open(id, "valet")});
         }},
        {RefusalId::QualificationMissing,
         [](Workbench& b) {
             b.spec("valet").qualification = Qualification::Refrigerant;
             b.ask(b.manager, site::SetCompetence{b.painter, {}, {}});
             const CarId id = b.appraised();
             return b.ask(b.painter, id, car::StartWork{b.open(id, "valet")});
         }},
        {RefusalId::QualificationOver,
         [](Workbench& b) {
             b.spec("valet").qualification = Qualification::Refrigerant;
             const QDate over = b.today().addDays(-1);
             b.ask(b.manager,
                   site::SetCompetence{b.painter, {{Qualification::Refrigerant, over}}, {}});
             const CarId id = b.appraised();
             return b.ask(b.painter, id, car::StartWork{b.open(id, "valet")});
         }},
        {RefusalId::BayUnfit,
         [](Workbench& b) {
             b.spec("inspection").bay = BayKind::Lift;
             const CarId id = b.appraised();
             return b.ask(b.manager, id,
                          car::PlanWork{b.open(id, "inspection"), {}, b.paintBay, {}});
         }},
        {RefusalId::ToolNeeded,
         [](Workbench& b) {
             b.tool("T 7", ToolKind::TorqueWrench, b.today());
             return readTorque(b, {});
         }},
        {RefusalId::ToolOverdue,
         [](Workbench& b) {
             return readTorque(b, b.tool("T 7", ToolKind::TorqueWrench, b.today().addDays(-1)));
         }},
        {RefusalId::ToolUnknown,
         [](Workbench& b) {
             return readTorque(b, b.tool("G 1", ToolKind::TreadGauge, b.today()));
         }},
        {RefusalId::NotTogether,
         [](Workbench& b) {
             const CarId id = b.appraised();
             const OperationId op = b.open(id, "valet");
             return b.askTogether(b.painter, {{id, op}, {id, op}});
         }},
        {RefusalId::OneOfTogether,
         [](Workbench& b) {
             const CarId id = b.appraised();
             b.found(id, "wheel-front-left", Condition::Kerbed);
             b.found(id, "wheel-rear-left", Condition::Kerbed);
             const OperationId one = b.open(id, "wheel-refurb", "wheel-front-left");
             b.start(id, one, b.wheels);
             return b.askTogether(b.wheels,
                                  {{id, one}, {id, b.open(id, "wheel-refurb", "wheel-rear-left")}});
         }},
        {RefusalId::WrongSkill,
         [](Workbench& b) {
             const CarId id = b.appraised();
             return b.ask(b.painter, id, car::StartWork{b.open(id, "inspection")});
         }},
        {RefusalId::OperationNotOpen,
         [](Workbench& b) {
             const CarId id = b.appraised();
             const OperationId op = b.open(id, "valet");
             b.close(id, op);
             return b.ask(b.painter, id, car::StartWork{op});
         }},
        {RefusalId::OperationNotClosed,
         [](Workbench& b) {
             const CarId id = b.appraised();
             return b.ask(b.manager, id, car::Reopen{b.open(id, "valet"), "why"});
         }},
        {RefusalId::OperationRunning,
         [](Workbench& b) {
             const CarId id = b.appraised();
             const OperationId op = started(b, id, "valet", b.painter);
             return b.ask(b.manager, id, car::LeaveAsIs{op, "dusty"});
         }},
        {RefusalId::WordsTooLong,
         [](Workbench& b) {
             const CarId id = b.appraised();
             return b.ask(b.manager, id,
                          car::LeaveAsIs{b.open(id, "valet"), QString(601, QLatin1Char('d'))});
         }},
        {RefusalId::AlreadyRunning,
         [](Workbench& b) {
             const CarId id = b.appraised();
             return b.ask(b.painter, id, car::StartWork{started(b, id, "valet", b.painter)});
         }},
        {RefusalId::PersonBusy,
         [](Workbench& b) {
             started(b, b.appraised(), "valet", b.painter);
             const CarId id = b.appraised();
             return b.ask(b.painter, id, car::StartWork{b.open(id, "valet")});
         }},
        {RefusalId::NotRunning,
         [](Workbench& b) {
             const CarId id = b.appraised();
             return b.ask(b.painter, id, car::PauseWork{b.open(id, "valet"), {}, StopKind::Paused});
         }},
        {RefusalId::NotStarted,
         [](Workbench& b) {
             const CarId id = b.appraised();
             return b.ask(b.painter, id, car::SignOff{b.open(id, "valet"), {}});
         }},
        {RefusalId::CautionsUnread,
         [](Workbench& b) {
             const CarId id = b.appraised();
             return b.ask(b.mechanic, id, car::StartWork{b.open(id, "inspection")});
         }},
        {RefusalId::NotYet,
         [](Workbench& b) {
             const CarId id = b.appraised();
             return b.ask(b.checker, id, car::StartWork{b.open(id, "final-check")});
         }},
        {RefusalId::DoNotMove,
         [](Workbench& b) {
             const CarId id = b.appraised();
             b.found(id, "tyre-front-left", Condition::Cut);
             started(b, id, "tyre-fit", b.wheels);
             return b.ask(b.manager, id, car::MoveCar{b.lift, {}});
         }},
        {RefusalId::DoNotDrive,
         [](Workbench& b) {
             const CarId id = b.appraised();
             b.found(id, "tyre-front-left", Condition::Cut);
             b.close(id, b.open(id, "tyre-fit"));
             b.must(b.manager, id, car::OpenOperation{"road-test", at("car"), "noise"});
             return b.ask(b.mechanic, id, car::StartWork{b.open(id, "road-test")});
         }},
        {RefusalId::DoNotPower,
         [](Workbench& b) {
             const CarId id = b.appraised(carWith({Fact::TractionBattery}));
             b.found(id, "traction-battery", Condition::Broken);
             started(b, id, "high-voltage-repair", b.mechanic);
             return b.ask(b.technician, id, car::StartWork{b.open(id, "battery-check")});
         }},
        {RefusalId::Blocked,
         [](Workbench& b) {
             const CarId id = b.appraised();
             const OperationId op = b.open(id, "valet");
             b.must(b.painter, id, car::SendOut{op, cove()});
             return b.ask(b.painter, id, car::StartWork{op});
         }},
        {RefusalId::NotBlocked,
         [](Workbench& b) {
             const CarId id = b.appraised();
             return b.ask(b.manager, id, car::Unblock{b.open(id, "valet")});
         }},
        {RefusalId::NotOut,
         [](Workbench& b) {
             const CarId id = b.appraised();
             return b.ask(b.manager, id, car::ReceiveBack{b.open(id, "valet"), {}});
         }},
        {RefusalId::CheckStaysInHouse,
         [](Workbench& b) {
             const CarId id = b.appraised();
             return b.ask(b.manager, id, car::SendOut{b.open(id, "final-check"), cove()});
         }},
        {RefusalId::SafetyCannotBeLeft,
         [](Workbench& b) {
             const CarId id = b.appraised();
             return b.ask(b.manager, id, car::LeaveAsIs{b.open(id, "inspection"), "as seen"});
         }},
        {RefusalId::NotWithdrawable,
         [](Workbench& b) {
             const CarId id = b.appraised();
             return b.ask(b.manager, id, car::WithdrawOperation{b.open(id, "valet"), "no"});
         }},
        {RefusalId::Isolated,
         [](Workbench& b) {
             const CarId id = b.appraised(carWith({Fact::TractionBattery}));
             b.found(id, "traction-battery", Condition::Broken);
             const OperationId op = started(b, id, "high-voltage-repair", b.mechanic);
             b.must(b.mechanic, id, car::SetIsolation{op, "key safe"});
             return b.ask(b.mechanic, id, car::SetIsolation{op, "key safe"});
         }},
        {RefusalId::NotIsolated,
         [](Workbench& b) { return b.ask(b.mechanic, b.appraised(), car::LiftIsolation{}); }},
        {RefusalId::IsolatedBySomebody,
         [](Workbench& b) {
             const CarId id = b.appraised(carWith({Fact::TractionBattery}));
             b.found(id, "traction-battery", Condition::Broken);
             const OperationId op = started(b, id, "high-voltage-repair", b.mechanic);
             b.must(b.mechanic, id, car::SetIsolation{op, "key safe"});
             return b.ask(b.technician, id, car::LiftIsolation{});
         }},
        {RefusalId::NoIsolationHere,
         [](Workbench& b) {
             const CarId id = b.appraised();
             return b.ask(b.mechanic, id, car::SetIsolation{b.open(id, "inspection"), "key safe"});
         }},
        {RefusalId::MinutesOverlap,
         [](Workbench& b) {
             const CarId id = b.appraised();
             const OperationId op = started(b, id, "valet", b.painter);
             b.clock.pass(5);
             b.must(b.painter, id, car::PauseWork{op, {}, StopKind::Paused});
             return b.ask(b.painter, id, car::CorrectMinutes{op, SegmentId{1}, 60, "more"});
         }},
    };
}

std::vector<RefusalScene> proofScenes()
{
    const auto fixingCheck = [](Workbench& b, const CarId& id) {
        b.found(id, "tyre-front-left", Condition::Cut);
        b.close(id, b.open(id, "tyre-fit"));
        return started(b, id, "wheel-fixing-check", b.checker);
    };
    return {
        {RefusalId::ReadingUnknown,
         [](Workbench& b) {
             const CarId id = b.appraised();
             const OperationId op = started(b, id, "tyre-survey", b.wheels);
             return b.ask(b.wheels, id, car::TakeReading{op, "shine", {}, number(1)});
         }},
        {RefusalId::ReadingMalformed,
         [](Workbench& b) {
             const CarId id = b.appraised();
             const OperationId op = started(b, id, "tyre-survey", b.wheels);
             return b.ask(b.wheels, id,
                          car::TakeReading{op, "tread", at("tyre-front-left"), answer("thick")});
         }},
        {RefusalId::LimitMissing,
         [](Workbench& b) {
             const CarId id = b.appraised();
             const OperationId op = started(b, id, "inspection", b.mechanic);
             return b.ask(b.mechanic, id,
                          car::TakeReading{op, "disc", at("brakes-front"), number(230)});
         }},
        {RefusalId::FigureBySigner,
         [=](Workbench& b) {
             const CarId id = b.appraised();
             const OperationId op = fixingCheck(b, id);
             b.must(b.checker, id, car::SetFigure{op, "torque", {}, 120, "data book"});
             return b.ask(b.checker, id, car::TakeReading{op, "torque", {}, number(120)});
         }},
        {RefusalId::FigureDiffers,
         [=](Workbench& b) {
             const CarId id = b.appraised();
             const OperationId op = fixingCheck(b, id);
             b.must(b.manager, id, car::SetFigure{op, "torque", {}, 120, "data book"});
             return b.ask(b.checker, id, car::TakeReading{op, "torque", {}, number(110)});
         }},
        {RefusalId::FigureInUse,
         [=](Workbench& b) {
             const CarId id = b.appraised();
             const OperationId op = fixingCheck(b, id);
             b.must(b.manager, id, car::SetFigure{op, "torque", {}, 120, "data book"});
             b.must(b.checker, id, car::TakeReading{op, "torque", {}, number(120)});
             return b.ask(b.manager, id, car::SetFigure{op, "torque", {}, 110, "guess"});
         }},
        {RefusalId::ReadingStands,
         [](Workbench& b) {
             const CarId id = b.appraised(carWith({Fact::TractionBattery}));
             b.found(id, "traction-battery", Condition::Broken);
             const OperationId op = started(b, id, "high-voltage-repair", b.mechanic);
             b.must(b.mechanic, id, car::TakeReading{op, "proved", {}, number(2)});
             return b.ask(b.mechanic, id, car::TakeReading{op, "proved", {}, number(0)});
         }},
        {RefusalId::EvidenceOpen,
         [](Workbench& b) {
             const CarId id = b.appraised();
             return b.ask(b.wheels, id, car::SignOff{started(b, id, "tyre-survey", b.wheels), {}});
         }},
        {RefusalId::ReadingOutside,
         [](Workbench& b) {
             const CarId id = b.appraised();
             const OperationId op = started(b, id, "tyre-survey", b.wheels);
             b.must(b.wheels, id, car::TakeReading{op, "tread", at("tyre-front-left"), number(12)});
             for (const char* place : {"tyre-front-right", "tyre-rear-left", "tyre-rear-right"})
                 b.must(b.wheels, id, car::TakeReading{op, "tread", at(place), number(60)});
             return b.ask(b.wheels, id, car::SignOff{op, {}});
         }},
        {RefusalId::AnswerForbidsClosing,
         [](Workbench& b) {
             const CarId id = b.appraised();
             const OperationId op = started(b, id, "arrival-check", b.appraiser);
             b.must(b.appraiser, id, car::TakeReading{op, "papers", {}, answer("differ")});
             return b.ask(b.appraiser, id, car::SignOff{op, {}});
         }},
        {RefusalId::CheckByDoer,
         [](Workbench& b) {
             const CarId id = b.appraised();
             b.found(id, "steering", Condition::Loose);
             const OperationId op = started(b, id, "steering-part", b.technician);
             b.prove(id, op, b.technician);
             b.must(b.technician, id, car::SignOff{op, {}});
             return b.ask(b.technician, id, car::Countersign{op});
         }},
        {RefusalId::NothingToCountersign,
         [](Workbench& b) {
             const CarId id = b.appraised();
             return b.ask(b.checker, id, car::Countersign{b.open(id, "valet")});
         }},
        {RefusalId::NotACheck,
         [](Workbench& b) {
             const CarId id = b.appraised();
             return b.ask(b.checker, id, car::FailCheck{b.open(id, "valet"), "streaks", {}});
         }},
    };
}

} // namespace ramplight::test
