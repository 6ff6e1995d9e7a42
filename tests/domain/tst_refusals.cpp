// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "workbench.h"

#include <QSet>
#include <QTest>

#include <functional>

using namespace ramplight;
using namespace ramplight::test;

namespace {

/// A car, and what to ask of it so that the refusal comes. Answers what ask() said.
using Scene = std::function<QString(Workbench&)>;

struct Row
{
    RefusalId id;
    Scene scene;
};

const OutsideWork cove{"Cove Works", QDate(2031, 3, 19), 1, {}, false, {}};

OperationId started(Workbench& bench, const CarId& id, const char* kind, PersonId who)
{
    const OperationId op = bench.open(id, kind);
    bench.start(id, op, who);
    return op;
}

std::vector<Row> siteRows()
{
    return {
        {RefusalId::NotAllowed,
         [](Workbench& b) { return b.ask(b.painter, site::SetHouseRules{}); }},
        {RefusalId::PersonUnknown,
         [](Workbench& b) {
             return b.ask(b.manager, site::ChangePerson{PersonId{99}, {}, {}, true});
         }},
        {RefusalId::SiteNotSetUp,
         [](Workbench&) {
             const auto events = decide(SiteState{}, SiteContext{}, site::AddPerson{});
             return events ? done : idText(events.error().id);
         }},
        {RefusalId::AlreadySetUp,
         [](Workbench& b) {
             return b.ask(b.manager, site::SetUp{"Again", false, {}, {}}, "Al");
         }},
        {RefusalId::LastManager,
         [](Workbench& b) {
             b.ask(b.manager, site::ChangePerson{b.checker, {}, {Right::Check}, true});
             return b.ask(b.manager, site::ChangePerson{b.manager, {}, {}, true});
         }},
        {RefusalId::NameMissing,
         [](Workbench& b) { return b.ask(b.manager, site::AddPerson{}, "  "); }},
        {RefusalId::BayUnknown,
         [](Workbench& b) {
             return b.ask(b.manager, b.appraised(), car::MoveCar{BayId{99}, {}});
         }},
        {RefusalId::BayTaken,
         [](Workbench& b) {
             b.must(b.manager, b.appraised(), car::MoveCar{b.lift, {}});
             return b.ask(b.manager, b.appraised(), car::MoveCar{b.lift, {}});
         }},
        {RefusalId::BayNumberTaken,
         [](Workbench& b) {
             return b.ask(b.manager, site::SetBay{{{}, 1, "Twice", BayKind::Any, true}});
         }},
        {RefusalId::PersonIsWorking,
         [](Workbench& b) {
             started(b, b.appraised(), "valet", b.painter);
             return b.ask(b.manager, site::ChangePerson{b.painter, {}, {}, false});
         }},
        {RefusalId::RuleOutOfRange,
         [](Workbench& b) {
             HouseRules rules;
             rules.lockSeconds = 1;
             return b.ask(b.manager, site::SetHouseRules{rules});
         }},
    };
}

std::vector<Row> carRows()
{
    return {
        {RefusalId::CarExists,
         [](Workbench& b) { return b.ask(b.manager, b.bringIn(), car::BringIn{}); }},
        {RefusalId::CarMissing,
         [](Workbench& b) { return b.ask(b.manager, CarId{"nowhere"}, car::FinishAppraisal{}); }},
        {RefusalId::StockNumberTaken,
         [](Workbench& b) {
             const Identity first = b.car(b.bringIn()).identity;
             return b.ask(b.appraiser, b.bringIn(), car::CorrectIdentity{first, "misread"});
         }},
        {RefusalId::VinMalformed,
         [](Workbench& b) {
             Identity identity{"K9", {}, "SHORT", "Halden", "Skerry", {}, {}, {}};
             return b.ask(b.appraiser, CarId{"new"},
                          car::BringIn{identity, {}, QDate(2031, 3, 20), {}});
         }},
        {RefusalId::FieldMissing,
         [](Workbench& b) {
             return b.ask(b.appraiser, CarId{"new"}, car::BringIn{{}, {}, QDate(2031, 3, 20), {}});
         }},
        {RefusalId::ValueOutOfRange,
         [](Workbench& b) {
             return b.ask(b.appraiser, b.bringIn(),
                          car::RecordTread{at("tyre-front-left"), {999, 70, 70}});
         }},
        {RefusalId::PlaceUnknown,
         [](Workbench& b) {
             return b.ask(b.appraiser, b.bringIn(),
                          car::RecordFinding{finding("flux-capacitor", Condition::Worn), {}});
         }},
        {RefusalId::ReasonMissing,
         [](Workbench& b) {
             return b.ask(b.manager, b.bringIn(), car::LeaveUnreleased{LeavingHow::Scrap, {}});
         }},
        {RefusalId::EvidenceMissing,
         [](Workbench& b) {
             const CarId id = b.bringIn();
             const FindingId cut = b.found(id, "tyre-front-left", Condition::Cut);
             return b.ask(b.checker, id, car::CorrectFinding{cut, {}, false, "a mark", {}});
         }},
        {RefusalId::SecondPersonNeeded,
         [](Workbench& b) {
             const CarId id = b.bringIn();
             const FindingId cut = b.found(id, "tyre-front-left", Condition::Cut);
             return b.ask(b.appraiser, id,
                          car::CorrectFinding{cut, {}, false, "a mark", b.photo()});
         }},
        {RefusalId::AlreadyAppraised,
         [](Workbench& b) { return b.ask(b.appraiser, b.appraised(), car::FinishAppraisal{}); }},
        {RefusalId::FindingUnknown,
         [](Workbench& b) {
             return b.ask(b.appraiser, b.bringIn(),
                          car::CorrectFinding{FindingId{99}, {}, false, "no", {}});
         }},
        {RefusalId::OperationUnknown,
         [](Workbench& b) {
             return b.ask(b.mechanic, b.bringIn(), car::StartWork{OperationId{99}});
         }},
        {RefusalId::KindUnknown,
         [](Workbench& b) {
             return b.ask(b.manager, b.bringIn(),
                          car::OpenOperation{"gold-plating", at("bonnet"), "why not"});
         }},
        {RefusalId::SameCar,
         [](Workbench& b) {
             const CarId id = b.bringIn();
             return b.ask(b.manager, id, car::LinkDuplicate{id});
         }},
        {RefusalId::PhotoUnknown,
         [](Workbench& b) { return b.ask(b.manager, b.bringIn(), car::AttachPhoto{}); }},
        {RefusalId::CarHeld,
         [](Workbench& b) { return b.ask(b.seller, b.appraised(), car::Release{}, true); }},
        {RefusalId::PinNotFresh,
         [](Workbench& b) {
             const CarId id = b.appraised();
             b.closeAll(id);
             return b.ask(b.seller, id, car::Release{}, false);
         }},
        {RefusalId::ReleaserAlone,
         [](Workbench& b) {
             const CarId id = b.appraised();
             b.closeAll(id);
             CarState state = b.car(id);
             for (auto& [number, operation] : state.operations)
                 for (Signature& signature : operation.signatures)
                     signature.by = b.seller;
             const SiteState site = b.ledger.site().value();
             CarContext context;
             context.actor = b.seller;
             context.now = b.clock.now();
             context.catalogue = &b.catalogue;
             context.site = &site;
             context.pinFresh = true;
             const auto events = decide(state, context, car::Release{});
             return events ? done : idText(events.error().id);
         }},
        {RefusalId::AlreadyReleased,
         [](Workbench& b) {
             const CarId id = b.appraised();
             b.release(id);
             return b.ask(b.seller, id, car::Release{}, true);
         }},
        {RefusalId::CarGone,
         [](Workbench& b) {
             const CarId id = b.bringIn();
             b.must(b.manager, id, car::LeaveUnreleased{LeavingHow::Scrap, "rust"});
             return b.ask(b.manager, id, car::FinishAppraisal{});
         }},
        {RefusalId::NotGone,
         [](Workbench& b) { return b.ask(b.manager, b.bringIn(), car::BringBack{"why"}); }},
    };
}

std::vector<Row> workRows()
{
    return {
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
             b.must(b.painter, id, car::SendOut{op, cove});
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

std::vector<Row> proofRows()
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

std::vector<Row> rows()
{
    std::vector<Row> all;
    for (const auto& part : {siteRows(), carRows(), workRows(), proofRows()})
        all.insert(all.end(), part.begin(), part.end());
    return all;
}

} // namespace

// Every refusal can be reached by a person at the wall, and says what is missing.
class TestRefusals : public QObject
{
    Q_OBJECT

private slots:
    void refusal_ofEveryKind_isReachedAndSaysWhy_data()
    {
        QTest::addColumn<int>("index");
        const std::vector<Row> all = rows();
        for (std::size_t i = 0; i < all.size(); ++i)
            QTest::newRow(qPrintable(idText(all[i].id))) << int(i);
    }

    void refusal_ofEveryKind_isReachedAndSaysWhy()
    {
        QFETCH(int, index);
        const Row row = rows().at(std::size_t(index));
        Workbench bench;
        QCOMPARE(row.scene(bench), no(row.id));
        if (bench.lastRefusal().id != row.id)
            return; // decided on a bare state; its words are tested below
        const QString said = bench.lastWords();
        QVERIFY(!said.isEmpty());
        QVERIFY2(!said.contains('%'), qPrintable(said));
        QVERIFY2(!said.contains(": ."), qPrintable(said));
        QVERIFY2(said.endsWith('.') || row.id == RefusalId::CarHeld, qPrintable(said));
        QVERIFY2(!said.contains(".."), qPrintable(said));
    }

    void refusals_allOfThem_haveARow()
    {
        QSet<RefusalId> reached;
        for (const Row& row : rows())
            reached.insert(row.id);
        QStringList missing;
        for (const RefusalId id : allRefusals())
            if (!reached.contains(id))
                missing.append(idText(id));
        QCOMPARE(missing, QStringList());
    }

    void ids_allOfThem_areStableTextsAndDifferent()
    {
        QSet<QString> texts;
        for (const RefusalId id : allRefusals()) {
            QVERIFY(!idText(id).isEmpty());
            texts.insert(idText(id));
            QVERIFY(!words(Refusal{id, {"one", "two"}}).isEmpty());
            QVERIFY2(!words(Refusal{id, {"one", "two"}}).contains('%'), qPrintable(idText(id)));
        }
        QCOMPARE(texts.size(), qsizetype(allRefusals().size()));
        // Counted from 0 without a gap: none was forgotten in the list.
        QSet<int> values;
        for (const RefusalId id : allRefusals())
            values.insert(int(id));
        for (int i = 0; i < int(allRefusals().size()); ++i)
            QVERIFY(values.contains(i));
        QVERIFY(idText(RefusalId(allRefusals().size())).isEmpty());
    }

    void words_withASignOfPercent_areKept()
    {
        // What a person typed is no place holder.
        const QString said = words(Refusal{RefusalId::LimitMissing, {"water %2", "maker"}});
        QVERIFY2(said.contains("water %2"), qPrintable(said));
        QVERIFY2(said.contains("from the maker"), qPrintable(said));
    }

    void blockedOrSigned_askedForMore_saysWhatItWaitsFor_data()
    {
        QTest::addColumn<QString>("how");
        QTest::addColumn<QString>("said");
        QTest::newRow("part") << "part"
                              << "rod end";
        QTest::newRow("outside") << "outside"
                                 << "Cove Works";
        QTest::newRow("second signature") << "signed"
                                          << "second signature";
    }

    void blockedOrSigned_askedForMore_saysWhatItWaitsFor()
    {
        QFETCH(QString, how);
        QFETCH(QString, said);
        Workbench bench;
        const CarId id = bench.appraised();
        bench.found(id, "steering", Condition::Loose);
        const OperationId op = bench.open(id, "steering-part");
        const car::BlockForPart part{op, {"rod end", "Harbour Parts", QDate(2031, 3, 22)}};
        if (how == "part") {
            bench.must(bench.mechanic, id, part);
        } else if (how == "outside") {
            bench.must(bench.mechanic, id, car::SendOut{op, cove});
        } else {
            bench.start(id, op, bench.mechanic);
            bench.prove(id, op, bench.mechanic);
            bench.must(bench.mechanic, id, car::SignOff{op, {}});
        }
        QCOMPARE(bench.ask(bench.mechanic, id, part), no(RefusalId::Blocked));
        QVERIFY2(bench.lastWords().contains(said), qPrintable(bench.lastWords()));
        QCOMPARE(bench.ask(bench.mechanic, id, car::SendOut{op, cove}), no(RefusalId::Blocked));
        QVERIFY2(bench.lastWords().contains(said), qPrintable(bench.lastWords()));
    }
};

QTEST_GUILESS_MAIN(TestRefusals)
#include "tst_refusals.moc"
