// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "carscene.h"
#include "kiosk/kioskenums.h"
#include "support/testmain.h"

#include <QSignalSpy>
#include <QTest>

namespace ramplight::test {

/// The car on the screen: what it says, its lists, and what is offered.
class TestCarView : public QObject
{
    Q_OBJECT

private slots:
    void car_saysWhatItIs();
    void carThatIsNotThere_isAFault_untilItCanBeRead();
    void openedInAHurry_showsTheLastOne();
    void changeFromElsewhere_isShown();
    void operations_openFirst_byPlace_safetyFirst();
    void operations_sayWhoAndHowLong();
    void findings_sayWhoAndWhatAnswersThem();
    void signature_isForAllThatIsLeft_byARuleToo();
    void factCorrected_saysWhatItWas_andShowsItsPhoto();
    void holds_sayTheWay_data();
    void holds_sayTheWay();
    void history_isNewestFirst();
    void history_isReadAgainWhenItCouldNotBe();
    void photos_removedUnderTheRetention_saySo();
    void factsThatNobodyEntered_areLeftOut();
    void offers_followTheState_data();
    void offers_followTheState();
    void findingOnAReleasedCar_isForWhoMayRecordOne();
    void nobodySignedIn_seesWhatSomebodyCouldDo();
};

void TestCarView::car_saysWhatItIs()
{
    CarScene scene(false);
    CarView* view = scene.view;
    QVERIFY(view->loaded());
    QCOMPARE(view->stockNumber(), QStringLiteral("K1"));
    QCOMPARE(view->makeModel(), QStringLiteral("Halden Skerry"));
    QCOMPARE(view->shape(), QStringLiteral("hatch"));
    QCOMPARE(view->aboutWords(), QStringLiteral("Halden Skerry · hatch · yard"));
    QCOMPARE(view->factWords(), QStringLiteral("48,000 miles · 2 keys · engine"));
    QCOMPARE(view->promised(), QStringLiteral("2031-03-20"));
    QCOMPARE(view->promisedWord(), QStringLiteral("20 Mar"));
    QVERIFY(!view->late());
    QCOMPARE(view->arrivedWords(), QStringLiteral("today 23:06"));
    QCOMPARE(view->status(), QStringLiteral("arriving"));
    QCOMPARE(view->appraisalWords(), QStringLiteral("The appraisal is not finished."));
    QCOMPARE(view->outcomeWords(), QString());
    scene.bench.clock.set({1'932'000'000'000}); // 2031-03-23
    scene.kiosk.shell.ticker().pulse();
    QVERIFY(view->late());
    view->close();
    QVERIFY(!view->loaded());
    QCOMPARE(view->stockNumber(), QString());
    QCOMPARE(view->band(), int(Wall::NoBand));
    QCOMPARE(view->operations()->rowCount(), 0);
}

void TestCarView::carThatIsNotThere_isAFault_untilItCanBeRead()
{
    CarScene scene;
    CarView* view = scene.view;
    view->open(QStringLiteral("nowhere"));
    QTRY_VERIFY(!view->fault().isEmpty());
    QVERIFY(!view->loaded());
    scene.bench.ledger.failWith(StoreErrorKind::Unavailable);
    view->open(scene.car.text);
    QVERIFY(view->fault().isEmpty());
    QTRY_VERIFY(!view->fault().isEmpty());
    scene.bench.ledger.failWith({});
    view->reload();
    QTRY_VERIFY(view->loaded());
    QVERIFY(view->fault().isEmpty());
}

void TestCarView::openedInAHurry_showsTheLastOne()
{
    CarScene scene;
    const CarId other = scene.bench.appraised();
    scene.view->open(other.text);
    scene.view->open(scene.car.text);
    scene.view->open(other.text);
    QTRY_COMPARE(scene.view->stockNumber(), QStringLiteral("K2"));
    scene.kiosk.settle();
    QCOMPARE(scene.view->stockNumber(), QStringLiteral("K2"));
    QCOMPARE(scene.view->history()->rowCount(), static_cast<int>(scene.bench.car(other).seq));
}

void TestCarView::changeFromElsewhere_isShown()
{
    CarScene scene;
    QSignalSpy changed(scene.view, &CarView::changed);
    scene.bench.must(scene.bench.manager, scene.car, car::MoveCar{scene.bench.lift, {}});
    emit scene.kiosk.desk.carsChanged();
    QTRY_COMPARE(scene.view->placeWord(), QStringLiteral("bay 1 Lift"));
    QVERIFY(changed.count() > 0);
    QCOMPARE(scene.view->bayId(), scene.bench.lift.value);
}

void TestCarView::operations_openFirst_byPlace_safetyFirst()
{
    CarScene scene;
    scene.bench.found(scene.car, "tyre-front-left", Condition::Cut);
    scene.bench.found(scene.car, "bonnet", Condition::Scratch);
    scene.bench.close(scene.car, scene.bench.open(scene.car, "arrival-check"));
    scene.kiosk.settle();
    const QStringList titles = column(*scene.view->operations(), "title");
    QCOMPARE(titles.value(0), QStringLiteral("Bonnet: touch in"));
    QCOMPARE(titles.value(1), QStringLiteral("Near side front tyre: fit a tyre"));
    QCOMPARE(titles.last(), QStringLiteral("Arrival"));
    // On the whole car: what safety hangs on before the rest.
    QVERIFY(titles.indexOf(QStringLiteral("Final check")) <
            titles.indexOf(QStringLiteral("Valet")));
    QCOMPARE(column(*scene.view->operations(), "open").last(), QStringLiteral("false"));
}

void TestCarView::operations_sayWhoAndHowLong()
{
    CarScene scene;
    Workbench& bench = scene.bench;
    const OperationId valet = bench.open(scene.car, "valet");
    const auto valetRow = [&](const char* role) {
        const qsizetype row =
            column(*scene.view->operations(), "title").indexOf(QStringLiteral("Valet"));
        return at(*scene.view->operations(), static_cast<int>(row), role).toString();
    };
    QCOMPARE(valetRow("minutesWords"), QStringLiteral("usually 20 min"));
    QCOMPARE(valetRow("who"), QString());
    QCOMPARE(valetRow("whyWords"), QStringLiteral("every car gets it"));
    bench.must(bench.manager, scene.car, car::HandOver{valet, bench.painter});
    scene.kiosk.settle();
    QCOMPARE(valetRow("who"), QStringLiteral("Noor"));
    bench.start(scene.car, valet, bench.painter);
    bench.clock.pass(65);
    scene.kiosk.settle();
    QCOMPARE(valetRow("minutesWords"), QStringLiteral("1 h 05 of usually 20 min"));
    QCOMPARE(valetRow("stateWord"), QStringLiteral("in hand"));
    QCOMPARE(scene.view->minutesWords(), QStringLiteral("1 h 05"));
    bench.must(bench.painter, scene.car, car::SignOff{valet, {}});
    scene.kiosk.settle();
    QCOMPARE(valetRow("who"), QString());
    QCOMPARE(valetRow("signedWords"), QStringLiteral("Did the work: Noor, today 00:11"));
}

void TestCarView::findings_sayWhoAndWhatAnswersThem()
{
    CarScene scene;
    Workbench& bench = scene.bench;
    const FindingId scratch = bench.found(scene.car, "bonnet", Condition::Scratch);
    FindingData left = finding("roof", Condition::Dent);
    left.remedies = {Remedy::Leave};
    bench.must(bench.appraiser, scene.car, car::RecordFinding{left, {}});
    bench.found(scene.car, "brakes-front", Condition::Noise);
    bench.must(bench.appraiser, scene.car,
               car::AttachPhoto{bench.photo(), PhotoMoment::Before, {}, {}, scratch});
    scene.kiosk.settle();
    const FindingsModel& findings = *scene.view->findings();
    QCOMPARE(column(findings, "words"),
             (QStringList{"Bonnet: scratch", "Roof: dent", "Front brakes: noise"}));
    QCOMPARE(column(findings, "answerWords"),
             (QStringList{"Bonnet: touch in", "left and disclosed", "nobody has decided yet"}));
    QCOMPARE(column(findings, "byWords").first(), QStringLiteral("Tamsin, today 23:06"));
    QCOMPARE(at(findings, 0, "photoUrls").toStringList().size(), 1);
    QCOMPARE(at(findings, 1, "photoUrls").toStringList().size(), 0);
    bench.must(bench.checker, scene.car,
               car::CorrectFinding{scratch, finding("bonnet", Condition::Scratch), false,
                                   QStringLiteral("a hair"), bench.photo()});
    scene.kiosk.settle();
    QVERIFY(!at(findings, 0, "stands").toBool());
    QVERIFY(at(findings, 0, "corrected").toBool());
    QCOMPARE(at(findings, 0, "correctedWords").toString(),
             QStringLiteral("corrected by Wanda, today 23:06: a hair; before: Bonnet: scratch"));
    QCOMPARE(at(findings, 0, "photoUrls").toStringList().size(), 2); // and the one that shows it
    QCOMPARE(at(findings, 0, "answerWords").toString(), QString());
}

void TestCarView::signature_isForAllThatIsLeft_byARuleToo()
{
    CarScene scene;
    Workbench& bench = scene.bench;
    const auto says = [&](const char* words) {
        scene.kiosk.settle();
        return scene.view->signedForWords().contains(QString::fromLatin1(words));
    };
    QVERIFY(says("Nothing is left as it is."));
    FindingData left = finding("roof", Condition::Dent);
    left.remedies = {Remedy::Leave};
    bench.must(bench.appraiser, scene.car, car::RecordFinding{left, {}});
    QVERIFY(says("One thing is left as it is; the buyer reads it in the record."));
    bench.must(bench.manager, scene.car,
               car::LeaveAsIs{bench.open(scene.car, "valet"), QStringLiteral("dusty")});
    QVERIFY(says("2 things are left as they are; the buyer reads them in the record."));
}

void TestCarView::factCorrected_saysWhatItWas_andShowsItsPhoto()
{
    CarScene scene;
    CarFacts facts = scene.bench.car(scene.car).facts;
    const int keys = facts.keys;
    facts.keys = keys + 1;
    facts.has.push_back(Fact::LeatherTrim);
    const PhotoId shows = scene.bench.photo();
    scene.bench.must(scene.bench.manager, scene.car,
                     car::CorrectFacts{facts, QStringLiteral("counted again"), shows});
    scene.kiosk.settle();
    QCOMPARE(at(*scene.view->history(), 0, "detail").toString(),
             QStringLiteral("keys %1 instead of %2 · leather trim · counted again")
                 .arg(keys + 1)
                 .arg(keys));
    QCOMPARE(at(*scene.view->photos(), 0, "photoId").toString(), shows.text);
    QCOMPARE(at(*scene.view->photos(), 0, "momentWords").toString(),
             QStringLiteral("shows a correction"));
}

void TestCarView::holds_sayTheWay_data()
{
    QTest::addColumn<bool>("appraised");
    QTest::addColumn<QString>("finding");
    QTest::addColumn<QString>("kind");
    QTest::addColumn<QString>("place");
    QTest::addColumn<QString>("way");
    QTest::newRow("appraisal") << false << ""
                               << "not-appraised"
                               << ""
                               << "Finish the appraisal";
    QTest::newRow("safety work") << true << ""
                                 << "safety-operation"
                                 << "car"
                                 << "Open it";
    QTest::newRow("open work") << true << ""
                               << "open-operation"
                               << "car"
                               << "Open it";
    QTest::newRow("undecided") << true << "brakes-front"
                               << "undecided-finding"
                               << "brakes-front"
                               << "Open an operation";
    QTest::newRow("spoken") << true << "spoken"
                            << "spoken-not-reviewed"
                            << ""
                            << "Review what was said";
}

void TestCarView::holds_sayTheWay()
{
    QFETCH(const bool, appraised);
    QFETCH(const QString, finding);
    QFETCH(const QString, kind);
    CarScene scene(appraised);
    if (finding == QStringLiteral("spoken"))
        scene.bench.must(scene.bench.appraiser, scene.car, car::TakeSpeech{spokenRound(1)});
    else if (!finding.isEmpty())
        scene.bench.found(scene.car, finding.toLatin1().constData(), Condition::Noise);
    scene.kiosk.settle();
    const HoldsModel& holds = *scene.view->holds();
    const qsizetype row = column(holds, "kind").indexOf(kind);
    QVERIFY2(row >= 0, qPrintable(column(holds, "kind").join(u' ')));
    QTEST(at(holds, static_cast<int>(row), "wayWords").toString(), "way");
    QTEST(at(holds, static_cast<int>(row), "placeId").toString(), "place");
    QVERIFY(!at(holds, static_cast<int>(row), "words").toString().isEmpty());
    // Every hold is a row of its own.
    const QStringList ids = column(holds, "holdId");
    QCOMPARE(QSet<QString>(ids.begin(), ids.end()).size(), ids.size());
    scene.bench.must(scene.bench.manager, scene.car,
                     car::LeaveUnreleased{LeavingHow::Scrap, QStringLiteral("rust")});
    scene.kiosk.settle();
    QCOMPARE(holds.rowCount(), 0);
}

void TestCarView::history_isNewestFirst()
{
    CarScene scene(false);
    scene.bench.clock.pass(24 * 60);
    scene.bench.must(scene.bench.manager, scene.car, car::MoveCar{scene.bench.lift, {}});
    scene.kiosk.settle();
    const HistoryModel& history = *scene.view->history();
    QTRY_COMPARE(history.rowCount(), static_cast<int>(scene.now().seq));
    QCOMPARE(at(history, 0, "what").toString(), QStringLiteral("Moved"));
    QCOMPARE(at(history, 0, "who").toString(), QStringLiteral("Orla"));
    QCOMPARE(at(history, 0, "dayWords").toString(), QStringLiteral("Today"));
    QCOMPARE(at(history, 0, "timeWords").toString(), QStringLiteral("23:06"));
    QCOMPARE(column(history, "what").last(), QStringLiteral("Came in"));
    QCOMPARE(column(history, "dayWords").last(), QStringLiteral("Yesterday"));
}

void TestCarView::history_isReadAgainWhenItCouldNotBe()
{
    CarScene scene;
    const CarId other = scene.bench.appraised();
    // The store falls silent between the car and its history.
    scene.kiosk.desk.historyFails = true;
    scene.view->open(other.text);
    QTRY_VERIFY(scene.view->loaded());
    scene.kiosk.settle();
    QCOMPARE(scene.view->history()->rowCount(), 0);
    scene.kiosk.desk.historyFails = false;
    scene.view->reload();
    QTRY_COMPARE(scene.view->history()->rowCount(), static_cast<int>(scene.bench.car(other).seq));
}

void TestCarView::photos_removedUnderTheRetention_saySo()
{
    CarScene scene;
    Workbench& bench = scene.bench;
    HouseRules rules = bench.ledger.site()->rules;
    rules.photoYears = 6;
    QCOMPARE(bench.ask(bench.manager, site::SetHouseRules{rules}), done);
    const FindingId mark = bench.found(scene.car, "bonnet", Condition::Scratch);
    bench.must(bench.appraiser, scene.car,
               car::AttachPhoto{bench.photo(), PhotoMoment::Before, at("bonnet"), {}, mark});
    bench.release(scene.car);
    scene.kiosk.settle();
    const int photos = scene.view->photos()->rowCount();
    QVERIFY(photos > 0);
    QVERIFY(at(*scene.view->photos(), 0, "goneWords").toString().isEmpty());
    QVERIFY(!at(*scene.view->photos(), 0, "url").toString().isEmpty());
    bench.clock.pass(7 * 366 * 24 * 60);
    bench.must(bench.manager, scene.car, car::RemovePhotos{});
    scene.kiosk.settle();
    QTRY_COMPARE(column(*scene.view->photos(), "goneWords"),
                 QStringList(photos, QStringLiteral("removed after 6 years")));
    QCOMPARE(column(*scene.view->photos(), "url"), QStringList(photos, QString()));
    QVERIFY(at(*scene.view->history(), 0, "what").toString().startsWith("Photos removed"));
}

void TestCarView::factsThatNobodyEntered_areLeftOut()
{
    CarScene scene(false);
    CarFacts facts = scene.now().facts;
    facts.odometer = 0;
    facts.keys = 0;
    scene.bench.must(scene.bench.manager, scene.car,
                     car::CorrectFacts{facts, QStringLiteral("of another car"), {}});
    scene.kiosk.settle();
    QCOMPARE(scene.view->factWords(), QStringLiteral("engine"));
}

void TestCarView::offers_followTheState_data()
{
    QTest::addColumn<QString>("state");
    QTest::addColumn<QString>("shown");
    QTest::newRow("arriving") << "arriving"
                              << "release move find leave finishAppraisal";
    QTest::newRow("in prep") << "prep"
                             << "release move find leave";
    QTest::newRow("released") << "released"
                              << "move find leave record";
    QTest::newRow("left") << "left"
                          << "bringBack record";
}

void TestCarView::offers_followTheState()
{
    QFETCH(const QString, state);
    CarScene scene(state != QLatin1String("arriving"));
    if (state == QLatin1String("released"))
        scene.bench.release(scene.car);
    else if (state == QLatin1String("left"))
        scene.bench.must(scene.bench.manager, scene.car,
                         car::LeaveUnreleased{LeavingHow::Trade, QStringLiteral("rust")});
    scene.kiosk.settle();
    const CarView& view = *scene.view;
    const std::pair<const char*, Offer> offers[] = {
        {"release", view.releaseOffer()},
        {"move", view.moveOffer()},
        {"find", view.findOffer()},
        {"leave", view.leaveOffer()},
        {"bringBack", view.bringBackOffer()},
        {"record", view.recordOffer()},
        {"finishAppraisal", view.finishAppraisalOffer()}};
    QStringList shown;
    for (const auto& [name, offer] : offers)
        if (offer.shown)
            shown.append(QString::fromLatin1(name));
    QTEST(shown.join(u' '), "shown");
}

void TestCarView::findingOnAReleasedCar_isForWhoMayRecordOne()
{
    CarScene scene;
    scene.bench.release(scene.car);
    scene.kiosk.settle();
    scene.kiosk.signIn(scene.bench.painter);
    QVERIFY(scene.view->findOffer().can);
    QVERIFY(!scene.view->leaveOffer().can);
    scene.kiosk.signIn(scene.bench.manager);
    QVERIFY(scene.view->findOffer().can);
    QVERIFY(scene.view->moveOffer().can);
    QVERIFY(scene.view->leaveOffer().can);
}

void TestCarView::nobodySignedIn_seesWhatSomebodyCouldDo()
{
    CarScene scene(false);
    QVERIFY(scene.view->moveOffer().can);
    QVERIFY(scene.view->leaveOffer().can);
    QVERIFY(!scene.view->releaseOffer().can);
    QVERIFY(!scene.view->releaseOffer().why.isEmpty());
    scene.kiosk.signIn(scene.bench.painter);
    QVERIFY(!scene.view->leaveOffer().can);
    QVERIFY2(scene.view->leaveOffer().why.contains(QStringLiteral("manage")),
             qPrintable(scene.view->leaveOffer().why));
    scene.kiosk.signIn(scene.bench.manager);
    QVERIFY(scene.view->leaveOffer().can);
}

} // namespace ramplight::test

RAMPLIGHT_TEST(QGuiApplication, ramplight::test::TestCarView)
#include "tst_carview.moc"
