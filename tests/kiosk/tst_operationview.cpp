// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/kioskenums.h"
#include "operationscene.h"
#include "support/testmain.h"

#include <QSignalSpy>
#include <QTest>

namespace ramplight::test {

/// One operation on the screen: what it says, what can be done with it, and what that does.
class TestOperationView : public QObject
{
    Q_OBJECT

private slots:
    void operation_saysWhatItIs();
    void nothingOpen_saysNothingAndOffersNothing();
    void cautions_areReadAndWorkStartsInOneTouch();
    void time_countsEverybodysMinutes();
    void note_belongsToItsOperation();
    void signOff_writesTheNote_andLeaves();
    void check_isSignedOrSentBack();
    void check_ofTwoWorks_asksWhichGoesBack();
    void secondSignature_isOfferedToSomebodyElse();
    void firmWork_isSignedHereOnce_andThenByASecond();
    void colleagues_areThoseWithTheSkill();
    void buttons_belongToTheState_data();
    void buttons_belongToTheState();
    void partAndFirm_areSaid();
    void minutes_areCorrected();
    void foundMeanwhile_isRecordedDuringTheWork();
    void whenToReferIt_isSaidBeforeWorkStarts();
    void halfDoneOvernight_isWarnedOf_andNotForbidden();
};

void TestOperationView::operation_saysWhatItIs()
{
    OperationScene scene("wheel-refurb", "wheel-front-left", Condition::Kerbed);
    OperationView* view = scene.view;
    QVERIFY(view->loaded());
    QCOMPARE(view->title(), QStringLiteral("Near side front wheel: refurbish"));
    QCOMPARE(view->placeId(), QStringLiteral("wheel-front-left"));
    QCOMPARE(view->whyWords(),
             QStringLiteral("from the appraisal: Near side front wheel: scuffed on a kerb"));
    QCOMPARE(view->stateWord(), QStringLiteral("waiting"));
    QCOMPARE(view->band(), int(Wall::Waiting));
    QCOMPARE(view->skillWords(), QStringLiteral("wheels"));
    QVERIFY(!view->safety());
    QVERIFY(!view->check());
    QCOMPARE(view->opensWords(), QStringList{"Wheel runs true"});
    QCOMPARE(view->usualWords(), QStringLiteral("10 min to 40 min"));
    QCOMPARE(view->usualMinutes(), 20);
    QCOMPARE(view->timer(), QStringLiteral("0:00"));
    QCOMPARE(view->missing(),
             (QStringList{"metal", "photo before: the work", "photo after: the work"}));
    scene.kiosk.bench.close(scene.car, scene.id);
    scene.kiosk.settle();
    QCOMPARE(view->stateWord(), QStringLiteral("closed"));
    QVERIFY(view->opensWords().isEmpty());
    QVERIFY(view->missing().isEmpty());
    QCOMPARE(view->signatureWords(), QStringList{"Did the work: Caspar, today 23:16"});
    QCOMPARE(view->situationWords(), QStringLiteral("bakes and cools, 1 h more"));
}

void TestOperationView::nothingOpen_saysNothingAndOffersNothing()
{
    OperationScene scene("valet");
    scene.view->close();
    QVERIFY(!scene.view->loaded());
    QCOMPARE(scene.view->title(), QString());
    QCOMPARE(scene.view->readings()->rowCount(), 0);
    QCOMPARE(scene.view->photos()->rowCount(), 0);
    QCOMPARE(scene.view->colleagues()->rowCount(), 0);
    QVERIFY(!scene.view->startOffer().shown);
    QVERIFY(!scene.view->cautionsRead());
    scene.view->open(scene.car.text, 999);
    QVERIFY(!scene.view->loaded());
    QVERIFY(!scene.view->startOffer().shown);
}

void TestOperationView::cautions_areReadAndWorkStartsInOneTouch()
{
    OperationScene scene("inspection");
    OperationView* view = scene.view;
    scene.kiosk.signIn(scene.kiosk.bench.mechanic);
    QCOMPARE(column(*view->cautions(), "words"), QStringList{"Stands under the car."});
    QVERIFY(!view->cautionsRead());
    QVERIFY2(view->startOffer().can, qPrintable(view->startOffer().why));
    view->start();
    QCOMPARE(scene.answer(), no(RefusalId::CautionsUnread));
    view->readAndStart();
    QCOMPARE(scene.answer(), done);
    scene.kiosk.settle();
    QVERIFY(view->cautionsRead());
    QVERIFY(view->myRunning());
    QTRY_COMPARE(view->cautionsReadWords(), QStringLiteral("read by Bram 23:06"));
    // They are read by a person, not by the house.
    scene.kiosk.signIn(scene.kiosk.bench.technician);
    QVERIFY(!view->cautionsRead());
    QVERIFY(!view->myRunning());
    QVERIFY(view->running());
    // Without cautions the same touch starts as well.
    OperationScene valet("valet");
    valet.kiosk.signIn(valet.kiosk.bench.painter);
    QVERIFY(valet.view->cautionsRead());
    valet.view->readAndStart();
    QCOMPARE(valet.answer(), done);
    QVERIFY(valet.operation().isRunning());
}

void TestOperationView::whenToReferIt_isSaidBeforeWorkStarts()
{
    OperationScene scene("valet");
    QVERIFY(scene.view->referWords().isEmpty());
    Workbench& bench = scene.kiosk.bench;
    bench.must(bench.manager, scene.car, car::OpenOperation{"touch-in", at("bonnet"), "chips"});
    const OperationId id = bench.open(scene.car, "touch-in");
    scene.view->open(scene.car.text, id.value);
    scene.kiosk.settle();
    QCOMPARE(scene.view->referWords(), QStringList{"Rust at an edge: painted."});
    bench.start(scene.car, id, bench.painter);
    scene.kiosk.settle();
    QVERIFY(scene.view->referWords().isEmpty());
}

void TestOperationView::halfDoneOvernight_isWarnedOf_andNotForbidden()
{
    OperationScene scene("valet");
    Workbench& bench = scene.kiosk.bench;
    HouseRules rules;
    rules.shiftEndMinute = 12 * 60;
    QCOMPARE(bench.ask(bench.manager, site::SetHouseRules{rules}), done);
    // Left half done, a valet harms nothing.
    QVERIFY(scene.view->overnightWords().isEmpty());
    bench.spec("touch-in").overnight = false;
    bench.must(bench.manager, scene.car, car::OpenOperation{"touch-in", at("bonnet"), "chips"});
    scene.view->open(scene.car.text, bench.open(scene.car, "touch-in").value);
    scene.kiosk.signIn(bench.painter);
    scene.kiosk.settle();
    QTRY_VERIFY2(scene.view->overnightWords().endsWith(QStringLiteral("the shift ends at 12:00.")),
                 qPrintable(scene.view->overnightWords()));
    QVERIFY2(scene.view->startOffer().can, qPrintable(scene.view->startOffer().why));
    rules.shiftEndMinute = 23 * 60 + 59;
    QCOMPARE(bench.ask(bench.manager, site::SetHouseRules{rules}), done);
    scene.kiosk.settle();
    QTRY_COMPARE(scene.view->overnightWords(), QString());
}

void TestOperationView::time_countsEverybodysMinutes()
{
    OperationScene scene("inspection");
    OperationView* view = scene.view;
    Workbench& bench = scene.kiosk.bench;
    bench.start(scene.car, scene.id, bench.mechanic);
    bench.clock.pass(30);
    bench.start(scene.car, scene.id, bench.technician);
    bench.clock.pass(8);
    scene.kiosk.signIn(bench.technician);
    scene.kiosk.settle();
    QSignalSpy ticked(view, &OperationView::ticked);
    scene.kiosk.shell.ticker().pulse();
    QVERIFY(ticked.count() > 0);
    QCOMPARE(view->timer(), QStringLiteral("0:46"));
    QCOMPARE(view->myMinutes(), 8);
    QCOMPARE(view->startedWords(), QStringLiteral("started 23:06"));
    QCOMPARE(view->peopleWords(), QStringLiteral("Bram, Ines"));
    QCOMPARE(column(*view->segments(), "who"), (QStringList{"Bram", "Ines"}));
    QCOMPARE(column(*view->segments(), "minutesWords"), (QStringList{"38 min", "8 min"}));
    view->pause();
    QCOMPARE(scene.answer(), done);
    scene.kiosk.settle();
    QCOMPARE(view->peopleWords(), QStringLiteral("Bram"));
    QCOMPARE(at(*view->segments(), 1, "spanWords").toString(),
             QStringLiteral("today 23:36 to 23:44"));
    QVERIFY(!at(*view->segments(), 1, "running").toBool());
}

void TestOperationView::note_belongsToItsOperation()
{
    OperationScene scene("valet");
    OperationView* view = scene.view;
    const CarId other = scene.kiosk.bench.appraised();
    QSignalSpy changed(view, &OperationView::noteChanged);
    view->setNote(QStringLiteral("left wing waxed twice"));
    QCOMPARE(changed.count(), 1);
    view->open(scene.car.text, scene.id.value);
    QCOMPARE(view->note(), QStringLiteral("left wing waxed twice"));
    // Another car is looked at in between, and its operation of the same number is opened.
    scene.kiosk.open(other);
    QVERIFY(!view->loaded());
    view->open(other.text, scene.id.value);
    scene.kiosk.settle();
    QCOMPARE(view->note(), QString());
    QVERIFY(view->loaded());
    view->setNote(QStringLiteral("other"));
    view->open(other.text, scene.id.value + 1);
    QCOMPARE(view->note(), QString());
}

void TestOperationView::signOff_writesTheNote_andLeaves()
{
    OperationScene scene("valet");
    OperationView* view = scene.view;
    QSignalSpy signedOff(view, &OperationView::signedOff);
    scene.kiosk.signIn(scene.kiosk.bench.painter);
    view->setNote(QStringLiteral(" smells of pine "));
    view->signOff();
    QCOMPARE(scene.answer(), no(RefusalId::NotStarted));
    QCOMPARE(view->note(), QStringLiteral(" smells of pine "));
    QCOMPARE(signedOff.count(), 0);
    view->start();
    QCOMPARE(scene.answer(), done);
    view->signOff();
    QCOMPARE(scene.answer(), done);
    QCOMPARE(signedOff.count(), 1);
    QCOMPARE(view->note(), QString());
    QCOMPARE(scene.operation().signatures.front().note, QStringLiteral("smells of pine"));
    scene.kiosk.settle();
    QCOMPARE(view->signatureWords(),
             QStringList{"Did the work: Noor, today 23:06 (smells of pine)"});
    scene.kiosk.signIn(scene.kiosk.bench.checker);
    view->reopen(QStringLiteral("streaks"));
    QCOMPARE(scene.answer(), done);
    scene.kiosk.settle();
    QCOMPARE(view->signatureWords(),
             QStringList{"Did the work: Noor, today 23:06 (smells of pine), void: opened again"});
}

void TestOperationView::check_isSignedOrSentBack()
{
    OperationScene scene("wheel-refurb", "wheel-front-left", Condition::Kerbed);
    OperationView* view = scene.view;
    Workbench& bench = scene.kiosk.bench;
    QVERIFY(view->checkedWork()->rows().empty());
    bench.close(scene.car, scene.id);
    const OperationId check = bench.open(scene.car, "wheel-true-check");
    scene.kiosk.signIn(bench.checker);
    view->open(scene.car.text, check.value);
    scene.kiosk.settle();
    QVERIFY(view->check());
    QVERIFY(view->safety());
    QCOMPARE(column(*view->checkedWork(), "title"),
             QStringList{"Near side front wheel: refurbish"});
    QVERIFY(!view->mustNameWork());
    QVERIFY(view->failOffer().shown);
    QVERIFY2(view->failOffer().can, qPrintable(view->failOffer().why));
    view->failCheck(QStringLiteral("wobbles"));
    QCOMPARE(scene.answer(), done);
    QVERIFY(scene.operation().isOpen());
    view->open(scene.car.text, scene.id.value);
    scene.kiosk.settle();
    QCOMPARE(view->situationWords(), QStringLiteral("sent back: wobbles"));
}

void TestOperationView::check_ofTwoWorks_asksWhichGoesBack()
{
    OperationScene scene("final-check");
    OperationView* view = scene.view;
    Workbench& bench = scene.kiosk.bench;
    const OperationId valet = bench.open(scene.car, "valet");
    const OperationId survey = bench.open(scene.car, "tyre-survey");
    bench.close(scene.car, valet);
    bench.close(scene.car, survey);
    scene.kiosk.signIn(bench.checker);
    scene.kiosk.settle();
    const QStringList covered = column(*view->checkedWork(), "choiceId");
    QVERIFY(covered.contains(QString::number(valet.value)));
    QVERIFY(covered.contains(QString::number(survey.value)));
    QVERIFY(view->mustNameWork());
    QVERIFY2(view->failOffer().can, qPrintable(view->failOffer().why));
    view->failCheckOf(valet.value, QStringLiteral("streaks"));
    QCOMPARE(scene.answer(), done);
    QVERIFY(bench.operation(scene.car, valet).isOpen());
    QVERIFY(!bench.operation(scene.car, survey).isOpen());
}

void TestOperationView::secondSignature_isOfferedToSomebodyElse()
{
    OperationScene scene("steering-part", "steering", Condition::Loose);
    OperationView* view = scene.view;
    Workbench& bench = scene.kiosk.bench;
    QSignalSpy signedOff(view, &OperationView::signedOff);
    QVERIFY(view->countersigned());
    QVERIFY(!view->countersignOffer().shown);
    bench.start(scene.car, scene.id, bench.technician);
    bench.prove(scene.car, scene.id, bench.technician);
    bench.must(bench.technician, scene.car, car::SignOff{scene.id, {}});
    scene.kiosk.signIn(bench.technician);
    scene.kiosk.settle();
    QVERIFY(view->countersignOffer().shown);
    QVERIFY(!view->countersignOffer().can);
    QVERIFY(!view->countersignOffer().why.isEmpty());
    QVERIFY(!view->finishOffer().shown);
    scene.kiosk.signIn(bench.checker);
    QVERIFY(view->countersignOffer().can);
    view->countersign();
    QCOMPARE(scene.answer(), done);
    QCOMPARE(signedOff.count(), 1);
    QCOMPARE(scene.operation().state, OperationState::Closed);
}

void TestOperationView::firmWork_isSignedHereOnce_andThenByASecond()
{
    OperationScene scene("steering-part", "steering", Condition::Loose);
    Workbench& bench = scene.kiosk.bench;
    OperationView* view = scene.view;
    bench.must(
        bench.mechanic, scene.car,
        car::SendOut{scene.id, {QStringLiteral("Cove"), QDate(2031, 3, 19), 1, {}, false, {}}});
    scene.kiosk.signIn(bench.mechanic);
    scene.kiosk.settle();
    QVERIFY(!view->awaitsReceipt());
    bench.must(bench.mechanic, scene.car, car::ReceiveBack{scene.id, {}, 1});
    scene.kiosk.settle();
    QVERIFY(view->awaitsReceipt());
    QVERIFY(view->finishOffer().shown);
    QVERIFY(!view->countersignOffer().shown);
    bench.prove(scene.car, scene.id, bench.mechanic);
    scene.kiosk.settle();
    QVERIFY(view->finishOffer().can);
    bench.must(bench.mechanic, scene.car, car::SignOff{scene.id, {}});
    scene.kiosk.settle();
    QVERIFY(!view->awaitsReceipt());
    QVERIFY(!view->finishOffer().shown);
    QVERIFY(view->countersignOffer().shown);
}

void TestOperationView::colleagues_areThoseWithTheSkill()
{
    OperationScene scene("inspection");
    Workbench& bench = scene.kiosk.bench;
    scene.kiosk.signIn(bench.mechanic);
    QCOMPARE(column(*scene.view->colleagues(), "title"), QStringList{"Ines"});
    scene.view->readAndStart();
    QCOMPARE(scene.answer(), done);
    scene.view->handOver(bench.technician.value);
    QCOMPARE(scene.answer(), done);
    QCOMPARE(scene.operation().assigned, bench.technician);
    bench.ask(bench.manager,
              site::ChangePerson{bench.technician, {Skill::Mechanical}, {Right::Work}, false});
    scene.kiosk.settle();
    QCOMPARE(scene.view->colleagues()->rowCount(), 0);
}

void TestOperationView::buttons_belongToTheState_data()
{
    QTest::addColumn<QString>("state");
    QTest::addColumn<QStringList>("shown");
    QTest::newRow("waiting") << "waiting"
                             << QStringList{"start", "finish", "leave", "block", "sendOut"};
    QTest::newRow("running") << "running"
                             << QStringList{"pause", "finish", "leave", "block", "sendOut"};
    QTest::newRow("waits for a part")
        << "part" << QStringList{"start", "finish", "leave", "unblock", "changeDue"};
    QTest::newRow("at a firm") << "out"
                               << QStringList{"start", "finish", "leave", "receive", "changeDue"};
    QTest::newRow("closed") << "closed" << QStringList{"reopen"};
    QTest::newRow("left as it is") << "left" << QStringList{"reopen"};
}

void TestOperationView::buttons_belongToTheState()
{
    QFETCH(const QString, state);
    OperationScene scene("valet");
    Workbench& bench = scene.kiosk.bench;
    scene.kiosk.signIn(bench.painter);
    const QDate day(2031, 3, 12);
    if (state == QLatin1String("running"))
        bench.start(scene.car, scene.id, bench.painter);
    else if (state == QLatin1String("part"))
        bench.must(
            bench.painter, scene.car,
            car::BlockForPart{scene.id, {QStringLiteral("wax"), QStringLiteral("Cove"), day}});
    else if (state == QLatin1String("out"))
        bench.must(bench.painter, scene.car,
                   car::SendOut{scene.id, {QStringLiteral("Cove"), day, 1, {}, false, {}}});
    else if (state == QLatin1String("closed"))
        bench.close(scene.car, scene.id);
    else if (state == QLatin1String("left"))
        bench.must(bench.manager, scene.car, car::LeaveAsIs{scene.id, QStringLiteral("dusty")});
    scene.kiosk.settle();
    const OperationView& view = *scene.view;
    const std::pair<const char*, Offer> offers[] = {
        {"start", view.startOffer()},       {"pause", view.pauseOffer()},
        {"finish", view.finishOffer()},     {"countersign", view.countersignOffer()},
        {"fail", view.failOffer()},         {"reopen", view.reopenOffer()},
        {"leave", view.leaveOffer()},       {"withdraw", view.withdrawOffer()},
        {"handOver", view.handOverOffer()}, {"block", view.blockOffer()},
        {"unblock", view.unblockOffer()},   {"sendOut", view.sendOutOffer()},
        {"receive", view.receiveOffer()},   {"changeDue", view.changeDueOffer()},
        {"isolate", view.isolateOffer()},   {"lift", view.liftOffer()}};
    QStringList shown;
    for (const auto& [name, offer] : offers)
        if (offer.shown)
            shown.append(QString::fromLatin1(name));
    QTEST(shown, "shown");
}

void TestOperationView::partAndFirm_areSaid()
{
    OperationScene scene("valet");
    OperationView* view = scene.view;
    scene.kiosk.signIn(scene.kiosk.bench.painter);
    view->blockForPart(QStringLiteral(" wax "), QStringLiteral("Cove"),
                       QStringLiteral("2031-02-28"));
    QCOMPARE(scene.answer(), done);
    scene.kiosk.settle();
    QCOMPARE(view->situationWords(),
             QStringLiteral("waits for a part: wax, ordered with Cove, due tomorrow"));
    QCOMPARE(view->dueDay(), QStringLiteral("2031-02-28"));
    view->changeDue(QStringLiteral("2031-03-05"), QStringLiteral("the supplier says so"));
    QCOMPARE(scene.answer(), done);
    scene.kiosk.settle();
    QCOMPARE(view->dueDay(), QStringLiteral("2031-03-05"));
    view->unblock();
    QCOMPARE(scene.answer(), done);
    scene.kiosk.settle();
    QCOMPARE(view->dueDay(), QString());
    view->sendOut(QStringLiteral("Cove Works"), QStringLiteral("2031-02-28"), 2,
                  QStringLiteral("note 7"));
    QCOMPARE(scene.answer(), done);
    scene.kiosk.settle();
    QCOMPARE(view->situationWords(),
             QStringLiteral("with Cove Works, due back tomorrow, keys given along: 2, note 7"));
    QCOMPARE(view->keysOut(), 2);
    view->receiveBack(QStringLiteral("note 8"), 1);
    QCOMPARE(scene.answer(), done);
    scene.kiosk.settle();
    QVERIFY(!view->receiveOffer().shown);
    QCOMPARE(view->keysOut(), 0);
    QCOMPARE(view->situationWords(), QStringLiteral("keys still with Cove Works: 1"));
}

void TestOperationView::minutes_areCorrected()
{
    OperationScene scene("valet");
    Workbench& bench = scene.kiosk.bench;
    bench.start(scene.car, scene.id, bench.painter);
    bench.clock.pass(40);
    bench.must(bench.painter, scene.car, car::PauseWork{scene.id, {}, StopKind::Paused});
    scene.kiosk.signIn(bench.painter);
    scene.kiosk.settle();
    const int segment = at(*scene.view->segments(), 0, "segmentId").toInt();
    scene.view->correctMinutes(segment, 15, QStringLiteral(" forgot to stop "));
    QCOMPARE(scene.answer(), done);
    scene.kiosk.settle();
    QCOMPARE(at(*scene.view->segments(), 0, "minutes").toInt(), 15);
    QCOMPARE(at(*scene.view->segments(), 0, "measured").toInt(), 40);
    QCOMPARE(at(*scene.view->segments(), 0, "correctedWords").toString(),
             QStringLiteral("measured 40 min; corrected by Noor: forgot to stop"));
    QCOMPARE(scene.view->timer(), QStringLiteral("0:15"));
}

void TestOperationView::foundMeanwhile_isRecordedDuringTheWork()
{
    OperationScene scene("valet");
    scene.kiosk.signIn(scene.kiosk.bench.painter);
    WalkRound* walk = scene.kiosk.shell.walkRound();
    walk->begin(scene.car.text, scene.view->operationId());
    walk->touch(QStringLiteral("roof"));
    walk->sayCondition(nameOf(Condition::Dent));
    walk->record(nameOf(Remedy::DentRepair));
    QCOMPARE(scene.kiosk.outcome(walk->ask()), done);
    const CarState car = scene.kiosk.bench.car(scene.car);
    QCOMPARE(car.findings.size(), std::size_t{1});
    QCOMPARE(car.findings.begin()->second.data().place, test::at("roof"));
    QCOMPARE(car.findings.begin()->second.during,
             std::optional(OperationId{scene.view->operationId()}));
}

} // namespace ramplight::test

RAMPLIGHT_TEST(QGuiApplication, ramplight::test::TestOperationView)
#include "tst_operationview.moc"
