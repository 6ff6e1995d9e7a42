// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "support/testmain.h"
#include "workbench.h"

#include <QTest>

#include <functional>

using namespace ramplight;
using namespace ramplight::test;

// A refusal that several commands give, or one command for several reasons: each where it is given.
// (tst_refusals has every refusal once.)
class TestRefusedCommands : public QObject
{
    Q_OBJECT

    using Scene = std::function<QString(Workbench&, const CarId&)>;

private slots:
    void command_isRefused_andNothingIsWritten_data()
    {
        QTest::addColumn<Scene>("scene");
        QTest::addColumn<RefusalId>("expected");
        const auto row = [](const char* name, RefusalId expected, Scene scene) {
            QTest::newRow(name) << std::move(scene) << expected;
        };
        using B = Workbench;
        using C = CarId;
        row("left as entered twice", RefusalId::FieldMissing, [](B& b, const C& car) {
            return b.ask(b.manager, car, car::LeaveUnreleased{LeavingHow::EnteredTwice, "twice"},
                         true);
        });
        row("brought back without a reason", RefusalId::ReasonMissing, [](B& b, const C& car) {
            b.must(b.manager, car, car::LeaveUnreleased{LeavingHow::Trade, "old"});
            return b.ask(b.manager, car, car::BringBack{" "});
        });
        row("closed as another that is gone", RefusalId::CarGone, [](B& b, const C& car) {
            const C other = b.bringIn();
            b.must(b.manager, other, car::LeaveUnreleased{LeavingHow::Scrap, "rust"});
            const auto merged =
                b.workshop.mergeDuplicate(b.command(), b.manager, other, car, "twice");
            const auto* refusal = merged ? nullptr : std::get_if<Refusal>(&merged.error());
            return refusal == nullptr ? done : no(refusal->id);
        });
        row("sound after the appraisal", RefusalId::AlreadyAppraised, [](B& b, const C& car) {
            return b.ask(b.appraiser, car, car::FindSound{{PlaceId{"roof"}}});
        });
        row("sound, no such place", RefusalId::PlaceUnknown, [](B& b, const C&) {
            return b.ask(b.appraiser, b.bringIn(), car::FindSound{{PlaceId{"flux"}}});
        });
        row("sound where something was found", RefusalId::ValueOutOfRange, [](B& b, const C&) {
            const C fresh = b.bringIn();
            b.found(fresh, "bonnet", Condition::Scratch);
            return b.ask(b.appraiser, fresh, car::FindSound{{PlaceId{"bonnet"}}});
        });
        row("photo of no work", RefusalId::OperationUnknown, [](B& b, const C& car) {
            return b.ask(b.mechanic, car,
                         car::AttachPhoto{b.photo(), PhotoMoment::After, {}, OperationId{99}, {}});
        });
        row("photo of no finding", RefusalId::FindingUnknown, [](B& b, const C& car) {
            return b.ask(b.mechanic, car,
                         car::AttachPhoto{b.photo(), PhotoMoment::Before, {}, {}, FindingId{99}});
        });
        row("photo of no place", RefusalId::PlaceUnknown, [](B& b, const C& car) {
            return b.ask(b.mechanic, car,
                         car::AttachPhoto{b.photo(), PhotoMoment::Before, PlaceId{"flux"}, {}, {}});
        });
        row("reading while it waits for a part", RefusalId::Blocked, [](B& b, const C& car) {
            const OperationId work = b.open(car, "inspection");
            b.start(car, work, b.mechanic);
            b.must(b.mechanic, car,
                   car::BlockForPart{work, {"hose", "Kelmer Parts", b.today().addDays(2)}});
            const ReadingSpec spec = b.operation(car, work).spec->readings.front();
            return b.ask(b.mechanic, car, car::TakeReading{work, spec.key, {}, number(1), {}});
        });
        row("left for the buyer though it is closed", RefusalId::OperationNotOpen,
            [](B& b, const C& car) {
                const OperationId work = b.open(car, "valet");
                b.close(car, work);
                return b.ask(b.manager, car, car::LeaveAsIs{work, "the buyer knows"});
            });
        row("isolated before it was begun", RefusalId::NotStarted, [](B& b, const C&) {
            const C electric = b.appraised(carWith({Fact::TractionBattery}));
            b.found(electric, "traction-battery", Condition::Broken);
            return b.ask(b.mechanic, electric,
                         car::SetIsolation{b.open(electric, "high-voltage-repair"), "box 4"});
        });
        row("isolated, nobody says where the lock is", RefusalId::FieldMissing, [](B& b, const C&) {
            const C electric = b.appraised(carWith({Fact::TractionBattery}));
            b.found(electric, "traction-battery", Condition::Broken);
            const OperationId work = b.open(electric, "high-voltage-repair");
            b.start(electric, work, b.mechanic);
            return b.ask(b.mechanic, electric, car::SetIsolation{work, "  "});
        });
    }

    void command_isRefused_andNothingIsWritten()
    {
        QFETCH(Scene, scene);
        QFETCH(RefusalId, expected);
        Workbench bench;
        const CarId car = bench.appraised();
        const QString said = scene(bench, car);
        QCOMPARE(said, no(expected));
        // The last command that was asked left nothing behind.
        const int next = bench.command().text.section(QLatin1Char('-'), -1).toInt();
        const CommandId refused{QStringLiteral("command-%1").arg(next - 1)};
        QVERIFY(!bench.ledger.isKnown(refused).value());
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestRefusedCommands)
#include "tst_refusedcommands.moc"
