// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "workbench.h"

#include "domain/keptrequest.h"
#include "support/testmain.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

/// A pause that waited for the server is sent to a workshop that went on meanwhile.
class TestSentLater : public QObject
{
    Q_OBJECT

private:
    struct Scene
    {
        Scene()
            : car(bench.appraised())
            , work(bench.open(car, "inspection"))
        {
            bench.start(car, work, bench.mechanic);
            bench.clock.pass(30);
        }

        /// What a kiosk keeps that is asked for it now.
        [[nodiscard]] KeptRequest kept(PersonId actor, const CarCommand& command)
        {
            const CarRequest asked{bench.command(), actor, car, {command}, false};
            return {1, asked, bench.clock.now(), worksOf(asked, bench.ledger).value()};
        }
        /// "sent", or why not.
        [[nodiscard]] QString send(const KeptRequest& kept)
        {
            return sendKept(kept, bench.ledger, bench.catalogue)
                .value()
                .value_or(QStringLiteral("sent"));
        }
        [[nodiscard]] const std::vector<Segment>& segments()
        {
            return bench.operation(car, work).segments;
        }

        Workbench bench;
        CarId car;
        OperationId work;
    };

private slots:
    void ownPause_stopsItsTimer()
    {
        Scene scene;
        const Moment asked = scene.bench.clock.now();
        const KeptRequest kept =
            scene.kept(scene.bench.mechanic, car::PauseWork{scene.work, {}, StopKind::Paused, {}});
        scene.bench.clock.pass(600);
        QCOMPARE(scene.send(kept), QStringLiteral("sent"));
        QCOMPARE(scene.segments().back().end, asked);
        QCOMPARE(scene.segments().back().minutes(), 30);
    }

    void whatIsNoPause_isSentAsItWas()
    {
        Scene scene;
        const KeptRequest kept = scene.kept(scene.bench.technician, car::StartWork{scene.work});
        scene.bench.must(scene.bench.technician, scene.car, car::ReadCautions{scene.work});
        QCOMPARE(scene.send(kept), QStringLiteral("sent"));
        QCOMPARE(scene.segments().back().person, scene.bench.technician);
    }

    void ownPause_leavesALaterTimerAlone_andSaysSo()
    {
        Scene scene;
        const KeptRequest kept =
            scene.kept(scene.bench.mechanic, car::PauseWork{scene.work, {}, StopKind::Paused, {}});
        // At another kiosk.
        scene.bench.must(scene.bench.mechanic, scene.car,
                         car::PauseWork{scene.work, {}, StopKind::Paused});
        scene.bench.clock.pass(14 * 60);
        scene.bench.must(scene.bench.mechanic, scene.car, car::StartWork{scene.work});
        scene.bench.clock.pass(30);
        QVERIFY(scene.send(kept).contains(QStringLiteral("started later")));
        QCOMPARE(scene.segments().size(), std::size_t{2});
        QVERIFY(scene.segments().back().running());
    }

    void ownPause_ofWhatWasStoppedElsewhere_isRefused()
    {
        Scene scene;
        const KeptRequest kept =
            scene.kept(scene.bench.mechanic, car::PauseWork{scene.work, {}, StopKind::Paused, {}});
        scene.bench.must(scene.bench.mechanic, scene.car,
                         car::PauseWork{scene.work, {}, StopKind::Paused});
        QCOMPARE(scene.send(kept), words(Refusal{RefusalId::NotRunning, {}}));
    }

    void endOfShift_isAskedByEveryKiosk_andStopsOnce()
    {
        Scene scene;
        const Moment end = scene.bench.clock.now();
        scene.bench.clock.pass(5);
        const car::PauseWork pause{scene.work, scene.bench.mechanic, StopKind::ShiftEnd, end};
        const KeptRequest first = scene.kept({}, pause);
        const KeptRequest second = scene.kept({}, pause);
        scene.bench.clock.pass(600);
        QCOMPARE(scene.send(first), QStringLiteral("sent"));
        QCOMPARE(scene.send(second), QStringLiteral("sent"));
        QCOMPARE(scene.segments().size(), std::size_t{1});
        QCOMPARE(scene.segments().back().end, end);
    }

    void endOfShift_leavesTheNextMorningAlone()
    {
        Scene scene;
        const Moment end = scene.bench.clock.now();
        const car::PauseWork pause{scene.work, scene.bench.mechanic, StopKind::ShiftEnd, end};
        const KeptRequest kept = scene.kept({}, pause);
        QCOMPARE(scene.bench.workshop.stopAllWork(scene.bench.command()).value(), 1);
        scene.bench.clock.pass(14 * 60);
        scene.bench.must(scene.bench.mechanic, scene.car, car::StartWork{scene.work});
        scene.bench.clock.pass(30);
        QCOMPARE(scene.send(kept), QStringLiteral("sent"));
        QVERIFY(scene.segments().back().running());
        // Nor is it stopped by whoever asks for the end of that shift now.
        const CarRequest again{scene.bench.command(), {}, scene.car, {pause}, false};
        QVERIFY(!scene.bench.workshop.run(again));
        QVERIFY(scene.segments().back().running());
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestSentLater)
#include "tst_sentlater.moc"
