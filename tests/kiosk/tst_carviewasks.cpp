// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "carscene.h"
#include "support/testmain.h"

#include <QSignalSpy>
#include <QTest>

namespace ramplight::test {

/// What the invokables of the car's view ask for, and what they do with the answer.
class TestCarViewAsks : public QObject
{
    Q_OBJECT

private slots:
    void release_wantsThePinAgain();
    void release_ofAHeldCar_listsTheHolds();
    void move_goesToABayOrAPlace();
    void leaving_needsToKnowWhere();
    void finding_isRecordedAndCorrected();
    void allTheRest_isWhatIsLeftWhenItsTurnComes();
    void appraisal_isFinishedWithWhatIsSound();
    void work_isOpenedAndWithdrawn();
    void promiseAndIdentity_areCorrected();
    void tyresThatTheCarAsksFor_areEntered_andStayWhereAnotherFactIsCorrected();
    void enteredTwice_isJoined();
    void enteredTwice_ofNoCar_isRefused();
    void photo_isOfTheCarOrItsFinding();
    void photo_goesToTheCarItWasTakenOf();
    void keptPhoto_isAnsweredToItsCarAlone();
};

void TestCarViewAsks::release_wantsThePinAgain()
{
    CarScene scene;
    scene.bench.closeAll(scene.car);
    scene.bench.clock.pass(120);
    scene.kiosk.settle();
    QSignalSpy released(scene.view, &CarView::released);
    scene.kiosk.signIn(scene.bench.seller);
    QVERIFY2(scene.view->releaseOffer().can, qPrintable(scene.view->releaseOffer().why));
    scene.view->releaseToSale();
    QVERIFY(scene.kiosk.shell.session()->again());
    QVERIFY(!scene.now().released);
    scene.kiosk.typePin(scene.bench.seller);
    QTRY_COMPARE(released.count(), 1);
    QVERIFY(scene.now().released);
    scene.kiosk.settle();
    QVERIFY2(scene.view->outcomeWords().startsWith(QStringLiteral("Released by Joss, ")),
             qPrintable(scene.view->outcomeWords()));
    QCOMPARE(scene.view->holds()->rowCount(), 0);
}

void TestCarViewAsks::release_ofAHeldCar_listsTheHolds()
{
    CarScene scene;
    QSignalSpy released(scene.view, &CarView::released);
    scene.kiosk.signIn(scene.bench.seller);
    scene.view->releaseToSale();
    scene.kiosk.typePin(scene.bench.seller);
    QTRY_COMPARE(scene.view->ask()->refusalId(), no(RefusalId::CarHeld));
    QCOMPARE(scene.view->ask()->details().size(), scene.view->holds()->rowCount());
    QCOMPARE(released.count(), 0);
}

void TestCarViewAsks::move_goesToABayOrAPlace()
{
    CarScene scene;
    scene.kiosk.signIn(scene.bench.painter);
    scene.view->moveToBay(scene.bench.lift.value);
    QCOMPARE(scene.answer(), done);
    QCOMPARE(scene.view->bayId(), scene.bench.lift.value);
    scene.view->moveToParking(QStringLiteral(" row 4 "));
    QCOMPARE(scene.answer(), done);
    QCOMPARE(scene.view->placeWord(), QStringLiteral("row 4"));
    QCOMPARE(scene.now().parking, QStringLiteral("row 4"));
    const CarId other = scene.bench.appraised();
    scene.bench.must(scene.bench.manager, other, car::MoveCar{scene.bench.lift, {}});
    scene.view->moveToBay(scene.bench.lift.value);
    QCOMPARE(scene.answer(), no(RefusalId::BayTaken));
}

void TestCarViewAsks::leaving_needsToKnowWhere()
{
    CarScene scene;
    QSignalSpy left(scene.view, &CarView::left);
    scene.kiosk.signIn(scene.bench.manager);
    scene.view->leaveUnreleased(QStringLiteral("by sea"), QStringLiteral("rust"));
    QCOMPARE(scene.answer(), QStringLiteral("field-missing"));
    scene.view->leaveUnreleased(QStringLiteral("trade"), QStringLiteral(" rust "));
    scene.kiosk.typePin(scene.bench.manager);
    QTRY_COMPARE(left.count(), 1);
    QCOMPARE(scene.view->outcomeWords(), QStringLiteral("To the trade · rust"));
    scene.view->bringBack(QStringLiteral("sold after all"));
    QCOMPARE(scene.answer(), done);
    QCOMPARE(scene.view->outcomeWords(), QString());
    QVERIFY(scene.view->releaseOffer().shown);
}

void TestCarViewAsks::finding_isRecordedAndCorrected()
{
    CarScene scene;
    FindingDraft* draft = scene.view->finding();
    scene.kiosk.signIn(scene.bench.appraiser);
    WalkRound* walk = scene.kiosk.shell.walkRound();
    walk->begin(scene.view->carId(), 0);
    walk->record(nameOf(Remedy::TouchIn));
    QCOMPARE(scene.kiosk.outcome(walk->ask()), QStringLiteral("field-missing"));
    walk->touch(QStringLiteral("bonnet"));
    walk->sayCondition(nameOf(Condition::Scratch));
    walk->record(nameOf(Remedy::TouchIn));
    QCOMPARE(scene.kiosk.outcome(walk->ask()), done);
    QVERIFY(!walk->draft()->isComplete());
    const int id = scene.now().findings.begin()->first.value;
    scene.view->editFinding(id);
    QCOMPARE(draft->conditions()->current(), nameOf(Condition::Scratch));
    draft->conditions()->choose(nameOf(Condition::Chip));
    scene.view->correctFinding(id, true, QStringLiteral(" looked again "),
                               scene.bench.photo().text);
    QCOMPARE(scene.answer(), done);
    QCOMPARE(scene.now().findings.begin()->second.data().condition, Condition::Chip);
    // Not there at all: what was recorded is kept, whatever the form holds.
    scene.view->correctFinding(id, false, QStringLiteral("dirt"), {});
    QCOMPARE(scene.answer(), QStringLiteral("evidence-missing"));
    scene.view->correctFinding(id, false, QStringLiteral("dirt"), scene.bench.photo().text);
    QCOMPARE(scene.answer(), done);
    QVERIFY(!scene.now().findings.begin()->second.stands());
    scene.view->correctFinding(99, false, QStringLiteral("dirt"), {});
    QCOMPARE(scene.answer(), QStringLiteral("field-missing"));
}

void TestCarViewAsks::allTheRest_isWhatIsLeftWhenItsTurnComes()
{
    CarScene scene(false);
    scene.kiosk.signIn(scene.bench.appraiser);
    WalkRound* walk = scene.kiosk.shell.walkRound();
    walk->begin(scene.view->carId(), 0);
    walk->touch(QStringLiteral("bonnet"));
    walk->sayCondition(nameOf(Condition::Scratch));
    walk->record(nameOf(Remedy::TouchIn));
    // Touched while the finding is on its way to the disk.
    walk->foundViewSound();
    scene.kiosk.settle();
    QVERIFY2(!walk->ask()->refused(), qPrintable(walk->ask()->words()));
    const CarState car = scene.now();
    QCOMPARE(car.findings.size(), 1u);
    QVERIFY(car.seen.contains(at("roof")));
    QCOMPARE(walk->leftHere(), 0);
}

void TestCarViewAsks::appraisal_isFinishedWithWhatIsSound()
{
    CarScene scene(false);
    scene.kiosk.signIn(scene.bench.appraiser);
    WalkRound* walk = scene.kiosk.shell.walkRound();
    walk->begin(scene.view->carId(), 0);
    // Quicker than the store: nothing that was touched is lost.
    walk->touch(QStringLiteral("steering"));
    walk->foundSound();
    walk->touch(QStringLiteral("brakes-front"));
    walk->foundSound();
    walk->finish();
    QTRY_VERIFY(scene.view->appraised());
    QVERIFY(!walk->ask()->refused());
    QVERIFY(scene.view->appraised());
    QVERIFY2(scene.view->appraisalWords().startsWith(
                 QStringLiteral("Looked at 2 places; not looked at: rear brakes, ")),
             qPrintable(scene.view->appraisalWords()));
    QVERIFY(!scene.view->finishAppraisalOffer().shown);
    CarScene whole;
    QVERIFY2(whole.view->appraisalWords().endsWith(QStringLiteral("no safety place is left.")),
             qPrintable(whole.view->appraisalWords()));
}

void TestCarViewAsks::work_isOpenedAndWithdrawn()
{
    CarScene scene;
    scene.kiosk.signIn(scene.bench.manager);
    const QStringList kinds = column(*scene.view->kinds(), "choiceId");
    QCOMPARE(kinds.size(), qsizetype(scene.bench.catalogue.operations.size()));
    scene.view->offerKinds(QStringLiteral("windscreen"));
    QVERIFY(!column(*scene.view->kinds(), "choiceId").contains(QStringLiteral("touch-in")));
    scene.view->offerKinds(QStringLiteral("bonnet"));
    QVERIFY(column(*scene.view->kinds(), "choiceId").contains(QStringLiteral("touch-in")));
    scene.view->openOperation(QStringLiteral("touch-in"), QStringLiteral("bonnet"),
                              QStringLiteral("buyer asked"));
    QCOMPARE(scene.answer(), done);
    const OperationId id = scene.bench.open(scene.car, "touch-in");
    QVERIFY(!id.isNull());
    scene.view->withdrawOperation(id.value, QStringLiteral("buyer is gone"));
    QCOMPARE(scene.answer(), done);
    QCOMPARE(scene.bench.state(scene.car, id), OperationState::Withdrawn);
}

void TestCarViewAsks::promiseAndIdentity_areCorrected()
{
    CarScene scene;
    scene.kiosk.signIn(scene.bench.manager);
    scene.view->changePromise(QStringLiteral("2031-03-01"), QStringLiteral("must-be-kept"),
                              QStringLiteral("parts came"));
    QCOMPARE(scene.answer(), done);
    QCOMPARE(scene.view->promised(), QStringLiteral("2031-03-01"));
    QCOMPARE(scene.view->promisedWord(), QStringLiteral("Sat"));
    QCOMPARE(scene.view->importance(), QStringLiteral("must-be-kept"));
    QCOMPARE(scene.view->importanceWord(), QStringLiteral("must be kept"));
    scene.view->editIdentity();
    IdentityDraft* form = scene.view->identity();
    QCOMPARE(form->property("stockNumber").toString(), QStringLiteral("K1"));
    form->setProperty("colour", QStringLiteral("slate"));
    form->setProperty("keys", QStringLiteral("1"));
    scene.view->correctIdentity(QStringLiteral("looked again"));
    QCOMPARE(scene.answer(), done);
    QCOMPARE(scene.view->aboutWords(), QStringLiteral("Halden Skerry · hatch · slate · yard"));
    scene.view->correctFacts(QStringLiteral("one is lost"), scene.bench.photo().text);
    QCOMPARE(scene.answer(), done);
    QVERIFY2(scene.view->factWords().contains(QStringLiteral("1 key ")),
             qPrintable(scene.view->factWords()));
}

void TestCarViewAsks::tyresThatTheCarAsksFor_areEntered_andStayWhereAnotherFactIsCorrected()
{
    CarScene scene;
    scene.kiosk.signIn(scene.bench.manager);
    IdentityDraft* form = scene.view->identity();
    scene.view->editIdentity();
    form->setProperty("frontTyre", QStringLiteral("205/55r16 191v"));
    QVERIFY(form->fault().contains(QStringLiteral("load index 191")));
    form->setProperty("frontTyre", QStringLiteral("205/55r16 91v"));
    form->setProperty("rearTyre", QStringLiteral("225/50 R16"));
    QVERIFY(!form->contradicts());
    scene.view->correctFacts(QStringLiteral("off the door pillar"), {});
    QCOMPARE(scene.answer(), done);
    const TyreFitment front{QStringLiteral("205/55 R16"), 91, QStringLiteral("V")};
    QCOMPARE(scene.now().facts.frontTyre, front);
    QCOMPARE(scene.now().facts.rearTyre.size, QStringLiteral("225/50 R16"));
    QVERIFY2(scene.view->factWords().contains(
                 QStringLiteral("tyres 205/55 R16 91V front, 225/50 R16 rear")),
             qPrintable(scene.view->factWords()));

    scene.view->editIdentity();
    QCOMPARE(form->property("frontTyre").toString(), QStringLiteral("205/55 R16 91V"));
    form->setProperty("keys", QStringLiteral("1"));
    QVERIFY(form->contradicts());
    scene.view->correctFacts(QStringLiteral("one is lost"), scene.bench.photo().text);
    QCOMPARE(scene.answer(), done);
    QCOMPARE(scene.now().facts.keys, 1);
    QCOMPARE(scene.now().facts.frontTyre, front);
    QCOMPARE(scene.now().facts.rearTyre.size, QStringLiteral("225/50 R16"));
}

void TestCarViewAsks::enteredTwice_isJoined()
{
    CarScene scene;
    const CarId other = scene.bench.bringIn(); // K2
    scene.bench.found(other, "bonnet", Condition::Scratch);
    scene.kiosk.signIn(scene.bench.manager);
    scene.view->linkDuplicate(QStringLiteral(" k2 "), QStringLiteral("entered twice"));
    QTRY_VERIFY(scene.bench.car(other).left.has_value());
    QCOMPARE(scene.answer(), done);
    QCOMPARE(scene.now().findings.size(), std::size_t{1});
    QCOMPARE(scene.view->findings()->rowCount(), 1);
}

void TestCarViewAsks::enteredTwice_ofNoCar_isRefused()
{
    CarScene scene;
    scene.kiosk.signIn(scene.bench.manager);
    scene.view->linkDuplicate(QStringLiteral("K9"), QStringLiteral("entered twice"));
    QTRY_COMPARE(scene.view->ask()->refusalId(), QStringLiteral("car-missing"));
    QCOMPARE(scene.view->ask()->what(), QStringLiteral("linkDuplicate"));
}

void TestCarViewAsks::photo_isOfTheCarOrItsFinding()
{
    CarScene scene;
    const FindingId scratch = scene.bench.found(scene.car, "bonnet", Condition::Scratch);
    scene.kiosk.settle();
    scene.kiosk.signIn(scene.bench.painter);
    QSignalSpy kept(scene.view, &CarView::photoKept);
    scene.view->attachFiles({QStringLiteral("/drop/a.jpg")}, 0);
    QTRY_COMPARE(kept.count(), 1);
    QCOMPARE(scene.answer(), done);
    scene.view->attachFrame({}, scratch.value);
    QTRY_COMPARE(kept.count(), 2);
    scene.kiosk.settle();
    // Newest first.
    QCOMPARE(column(*scene.view->photos(), "findingId"),
             (QStringList{QString::number(scratch.value), "0"}));
    QCOMPARE(column(*scene.view->photos(), "placeWords"), (QStringList{"bonnet", ""}));
    QCOMPARE(column(*scene.view->photos(), "momentWords"), (QStringList{"before", "before"}));
    scene.kiosk.desk.photoFault = EvidenceError::DiskFull;
    scene.view->attachFiles({QStringLiteral("/drop/b.jpg")}, 0);
    QCOMPARE(scene.answer(), QStringLiteral("photo"));
    scene.kiosk.desk.photoFault.reset();
    scene.view->ask()->retry();
    QTRY_COMPARE(kept.count(), 3);
}

void TestCarViewAsks::photo_goesToTheCarItWasTakenOf()
{
    CarScene scene;
    const FindingId scratch = scene.bench.found(scene.car, "bonnet", Condition::Scratch);
    const CarId other = scene.bench.appraised();
    scene.bench.found(other, "roof", Condition::Dent);
    scene.kiosk.settle();
    scene.kiosk.signIn(scene.bench.painter);
    QSignalSpy kept(scene.view, &CarView::photoKept);
    scene.view->attachFiles({QStringLiteral("/drop/a.jpg")}, scratch.value);
    // A label is scanned before the picture is kept.
    scene.view->open(other.text);
    QTRY_COMPARE(scene.now().photos.size(), std::size_t{1});
    QCOMPARE(scene.now().photos.front().place, test::at("bonnet"));
    scene.kiosk.settle();
    QVERIFY(scene.bench.car(other).photos.empty());
    QCOMPARE(kept.count(), 0); // the other car's forms want none
}

void TestCarViewAsks::keptPhoto_isAnsweredToItsCarAlone()
{
    CarScene scene;
    const CarId other = scene.bench.appraised();
    QSignalSpy kept(scene.view, &CarView::photoKept);
    scene.view->keepFile(QStringLiteral("/drop/a.jpg"));
    QTRY_COMPARE(kept.count(), 1);
    QVERIFY(!kept.at(0).at(0).toString().isEmpty());
    scene.view->keepFrame({});
    scene.kiosk.open(other);
    QCOMPARE(scene.answer(), done);
    QCOMPARE(kept.count(), 1);
}

} // namespace ramplight::test

RAMPLIGHT_TEST(QGuiApplication, ramplight::test::TestCarViewAsks)
#include "tst_carviewasks.moc"
