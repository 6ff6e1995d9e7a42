// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "evidence/photoquality.h"
#include "kiosk/kioskenums.h"
#include "kiosk/operationwords.h"
#include "kiosk/photourl.h"
#include "operationscene.h"
#include "support/testmain.h"

#include <QSignalSpy>
#include <QTest>

namespace ramplight::test {

/// The evidence of an operation on the screen: readings, figures, photos.
class TestOperationEvidence : public QObject
{
    Q_OBJECT

private slots:
    void readings_haveARowPerPlace();
    void typedReading_isTakenAndJudged_data();
    void typedReading_isTakenAndJudged();
    void typedNonsense_isRefusedBeforeItIsAsked();
    void measuredAgain_keepsTheEarlierValue();
    void reading_isCorrected();
    void choice_saysWhatItOpens();
    void photoNeeds_areFilledInOrder();
    void samePictureAgain_isTold_ofTheSameWorkOnly();
    void photo_goesToTheWorkItWasTakenFor();
    void beforeAndAfter_areOfOneWork();
    void beforeAndAfter_sayHowTheyFit_data();
    void beforeAndAfter_sayHowTheyFit();
    void severalPhotos_areOneCommand();
    void guide_isThePictureBeforeOfTheSameThing();
    void fileDate_isToldBesideTheWork_data();
    void fileDate_isToldBesideTheWork();
};

void TestOperationEvidence::readings_haveARowPerPlace()
{
    OperationScene scene("inspection");
    QCOMPARE(column(*scene.view->readings(), "rowId"),
             (QStringList{"lining@brakes-front", "lining@brakes-rear", "disc@brakes-front",
                          "play@steering", "note"}));
    QCOMPARE(scene.reading("lining@brakes-front", "placeWords").toString(),
             QStringLiteral("front brakes"));
    QCOMPARE(scene.reading("lining@brakes-front", "limitWords").toString(),
             QStringLiteral("at least 3.0 mm (house); at least 1.5 mm (annual test)"));
    QCOMPARE(scene.reading("lining@brakes-front", "unitWords").toString(), QStringLiteral("mm"));
    QCOMPARE(scene.reading("lining@brakes-front", "input").toInt(), int(ReadingKinds::Limit));
    QCOMPARE(scene.reading("note", "input").toInt(), int(ReadingKinds::Text));
    QVERIFY(scene.reading("note", "optional").toBool());
    QVERIFY(!scene.reading("note", "hasValue").toBool());
}

void TestOperationEvidence::typedReading_isTakenAndJudged_data()
{
    QTest::addColumn<QString>("row");
    QTest::addColumn<QString>("typed");
    QTest::addColumn<QString>("value");
    QTest::addColumn<int>("outcome");
    QTest::addColumn<QString>("said");
    QTest::newRow("inside") << "lining@brakes-front"
                            << "4.2"
                            << "4.2 mm" << int(ReadingKinds::Inside) << "inside";
    QTest::newRow("a comma") << "lining@brakes-front"
                             << " 4,2 "
                             << "4.2 mm" << int(ReadingKinds::Inside) << "inside";
    QTest::newRow("just inside") << "lining@brakes-front"
                                 << "3"
                                 << "3.0 mm" << int(ReadingKinds::Inside) << "inside";
    QTest::newRow("outside") << "lining@brakes-rear"
                             << "2.9"
                             << "2.9 mm" << int(ReadingKinds::Outside)
                             << "outside its limit: measure again after the work";
    QTest::newRow("an answer") << "play@steering"
                               << "sound"
                               << "sound" << int(ReadingKinds::Inside) << "inside";
    QTest::newRow("words") << "note"
                           << " hums "
                           << "hums" << int(ReadingKinds::Recorded) << "";
}

void TestOperationEvidence::typedReading_isTakenAndJudged()
{
    QFETCH(const QString, row);
    QFETCH(const QString, typed);
    const QByteArray rowId = row.toLatin1();
    OperationScene scene("inspection");
    scene.kiosk.signIn(scene.kiosk.bench.mechanic);
    scene.view->readAndStart();
    QCOMPARE(scene.answer(), done);
    scene.view->takeReading(row, typed);
    QCOMPARE(scene.answer(), done);
    scene.kiosk.settle();
    QVERIFY(scene.reading(rowId, "hasValue").toBool());
    QTEST(scene.reading(rowId, "valueWords").toString(), "value");
    QTEST(scene.reading(rowId, "outcome").toInt(), "outcome");
    QTEST(scene.reading(rowId, "outcomeWords").toString(), "said");
    QCOMPARE(scene.reading(rowId, "byWords").toString(), QStringLiteral("Bram, 23:06"));
}

void TestOperationEvidence::typedNonsense_isRefusedBeforeItIsAsked()
{
    OperationScene scene("inspection");
    scene.kiosk.signIn(scene.kiosk.bench.mechanic);
    scene.view->readAndStart();
    QCOMPARE(scene.answer(), done);
    const std::size_t before = scene.kiosk.desk.asked.size();
    scene.view->takeReading(QStringLiteral("lining@brakes-front"), QStringLiteral("thick"));
    QCOMPARE(scene.answer(), QStringLiteral("reading-malformed"));
    QVERIFY2(scene.view->ask()->words().startsWith(QStringLiteral("lining: ")),
             qPrintable(scene.view->ask()->words()));
    scene.view->takeReading(QStringLiteral("no such row"), QStringLiteral("3"));
    QCOMPARE(scene.kiosk.desk.asked.size(), before);
}

void TestOperationEvidence::measuredAgain_keepsTheEarlierValue()
{
    OperationScene scene("inspection");
    scene.kiosk.signIn(scene.kiosk.bench.mechanic);
    scene.view->readAndStart();
    QCOMPARE(scene.answer(), done);
    for (const char* typed : {"4.2", "4.0", "3.8"}) {
        scene.view->takeReading(QStringLiteral("lining@brakes-front"), QString::fromLatin1(typed));
        QCOMPARE(scene.answer(), done);
    }
    scene.kiosk.settle();
    QCOMPARE(scene.reading("lining@brakes-front", "valueWords").toString(),
             QStringLiteral("3.8 mm"));
    QCOMPARE(scene.reading("lining@brakes-front", "earlierWords").toString(),
             QStringLiteral("before: 4.2 mm, 4.0 mm"));
    QCOMPARE(scene.reading("lining@brakes-rear", "earlierWords").toString(), QString());
}

void TestOperationEvidence::reading_isCorrected()
{
    OperationScene scene("inspection");
    scene.kiosk.signIn(scene.kiosk.bench.mechanic);
    scene.view->readAndStart();
    QCOMPARE(scene.answer(), done);
    scene.view->takeReading(QStringLiteral("lining@brakes-front"), QStringLiteral("2.1"));
    QCOMPARE(scene.answer(), done);
    scene.kiosk.settle();
    const int id = scene.reading("lining@brakes-front", "readingId").toInt();
    scene.view->correctReading(id, QStringLiteral("no"), QStringLiteral("swapped"), {});
    QCOMPARE(scene.answer(), QStringLiteral("reading-malformed"));
    // At a safety item somebody else corrects, with a photo.
    scene.view->correctReading(id, QStringLiteral("12"), QStringLiteral("swapped"),
                               scene.kiosk.bench.photo().text);
    QCOMPARE(scene.answer(), no(RefusalId::SecondPersonNeeded));
    scene.kiosk.signIn(scene.kiosk.bench.technician);
    scene.view->correctReading(id, QStringLiteral("12"), QStringLiteral(" swapped "),
                               scene.kiosk.bench.photo().text);
    QCOMPARE(scene.answer(), done);
    scene.kiosk.settle();
    QCOMPARE(scene.reading("lining@brakes-front", "valueWords").toString(),
             QStringLiteral("12.0 mm"));
    QVERIFY(scene.reading("lining@brakes-front", "readingId").toInt() != id);
}

void TestOperationEvidence::choice_saysWhatItOpens()
{
    OperationScene scene("inspection");
    QCOMPARE(scene.reading("play@steering", "optionIds").toStringList(),
             (QStringList{"sound", "noted", "unsafe"}));
    QCOMPARE(scene.reading("play@steering", "optionWords").toStringList(),
             (QStringList{"", "", "opens: Steering part"}));
    OperationScene drive("inspection");
    drive.kiosk.bench.spec("road-test").readings.front().options.back().remediedBy =
        RemediedBy::SameWork;
    drive.kiosk.bench.hire(QStringLiteral("Wyn"), {}, {}); // the catalogue is made anew
    drive.kiosk.bench.must(drive.kiosk.bench.manager, drive.car,
                           car::OpenOperation{"road-test", test::at("car"), "noise"});
    drive.id = drive.kiosk.bench.open(drive.car, "road-test");
    drive.view->open(drive.car.text, drive.id.value);
    drive.kiosk.settle();
    QCOMPARE(drive.reading("result", "optionWords").toStringList(),
             (QStringList{"", "stays open until it is put right"}));
    OperationScene last("final-check");
    QCOMPARE(last.reading("overall", "optionWords").toStringList(),
             (QStringList{"", "stays open"}));
}

void TestOperationEvidence::photoNeeds_areFilledInOrder()
{
    OperationScene scene("wheel-refurb", "wheel-front-left", Condition::Kerbed);
    OperationView* view = scene.view;
    Workbench& bench = scene.kiosk.bench;
    QCOMPARE(column(*view->photoNeeds(), "moment"), (QStringList{"before", "after"}));
    QCOMPARE(column(*view->photoNeeds(), "present"), (QStringList{"false", "false"}));
    // A picture of the finding is the one before the work.
    const FindingId kerbed = scene.operation().findings.front();
    bench.must(bench.appraiser, scene.car,
               car::AttachPhoto{bench.photo(), PhotoMoment::Before, {}, {}, kerbed});
    scene.kiosk.settle();
    QCOMPARE(column(*view->photoNeeds(), "present"), (QStringList{"true", "false"}));
    QCOMPARE(view->photos()->rowCount(), 1);
    scene.kiosk.signIn(bench.wheels);
    scene.kiosk.desk.photoWarnings = {QStringLiteral("blurred")};
    QSignalSpy warned(view, &OperationView::photoWarnings);
    view->attachFiles({QStringLiteral("/drop/a.jpg")}, QStringLiteral("after"));
    QTRY_COMPARE(warned.count(), 1);
    QCOMPARE(warned.at(0).at(0).toStringList(), QStringList{"blurred"});
    scene.kiosk.settle();
    QCOMPARE(column(*view->photoNeeds(), "present"), (QStringList{"true", "true"}));
    QCOMPARE(view->photos()->rowCount(), 2);
    // Of other work, or of the car: not of this.
    bench.must(bench.appraiser, scene.car,
               car::AttachPhoto{bench.photo(), PhotoMoment::Before, {}, {}, {}});
    scene.kiosk.settle();
    QCOMPARE(view->photos()->rowCount(), 2);
    scene.kiosk.desk.photoFault = EvidenceError::NotAPhoto;
    view->attachFrame({}, QStringLiteral("after"));
    QCOMPARE(scene.answer(), QStringLiteral("photo"));
    QVERIFY(view->ask()->canRetry());
    view->attachFiles({QStringLiteral("/drop/a.jpg")}, QStringLiteral("someday"));
    QCOMPARE(view->photos()->rowCount(), 2);
}

void TestOperationEvidence::samePictureAgain_isTold_ofTheSameWorkOnly()
{
    OperationScene scene("wheel-refurb", "wheel-front-left", Condition::Kerbed);
    OperationView* view = scene.view;
    Workbench& bench = scene.kiosk.bench;
    BenchDesk& desk = scene.kiosk.desk;
    const FindingId kerbed = scene.operation().findings.front();
    const auto attach = [&](const char* place, OperationId work, FindingId finding) {
        const PhotoId photo = bench.photo();
        bench.must(bench.appraiser, scene.car,
                   car::AttachPhoto{
                       photo, PhotoMoment::Before, {QString::fromLatin1(place)}, work, finding});
        return photo;
    };
    const PhotoId found = attach("wheel-front-left", {}, kerbed);
    attach("wheel-front-right", {}, {});
    attach("wheel-front-left", {}, {});
    const PhotoId own = attach("wheel-front-left", scene.id, {});
    scene.kiosk.settle();
    scene.kiosk.signIn(bench.wheels);
    QSignalSpy warned(view, &OperationView::photoWarnings);
    view->attachFiles({QStringLiteral("/drop/a.jpg"), QStringLiteral("/drop/b.jpg")},
                      QStringLiteral("after"));
    QTRY_COMPARE(warned.count(), 1);
    QCOMPARE(warned.at(0).at(0).toStringList(), QStringList());
    desk.seenBefore = true;
    view->attachFrame({}, QStringLiteral("after"));
    QTRY_COMPARE(warned.count(), 2);
    QCOMPARE(warned.at(1).at(0).toStringList(), QStringList{words(PhotoWarning::AlmostSame)});
    const auto photos = bench.car(scene.car).photos;
    QCOMPARE(photos.size(), std::size_t{7});
    QCOMPARE(desk.compared.size(), std::size_t{2});
    QCOMPARE(desk.compared[0].first, (std::vector{photos[4].photo, photos[5].photo}));
    QCOMPARE(desk.compared[0].second, (std::vector{found, own}));
    QCOMPARE(desk.compared[1].first, std::vector{photos[6].photo});
    QCOMPARE(desk.compared[1].second, (std::vector{found, own, photos[4].photo, photos[5].photo}));
}

void TestOperationEvidence::photo_goesToTheWorkItWasTakenFor()
{
    OperationScene scene("valet");
    Workbench& bench = scene.kiosk.bench;
    const CarId other = bench.appraised();
    scene.kiosk.settle();
    scene.kiosk.signIn(bench.painter);
    scene.view->attachFiles({QStringLiteral("/drop/a.jpg")}, QStringLiteral("after"));
    // A label is scanned before the picture is kept.
    scene.kiosk.shell.car()->open(other.text);
    QTRY_COMPARE(bench.car(scene.car).photos.size(), std::size_t{1});
    QCOMPARE(bench.car(scene.car).photos.front().operation, scene.id);
    scene.kiosk.settle();
    QVERIFY(bench.car(other).photos.empty());
}

namespace {

void attach(OperationScene& scene, PhotoMoment moment, OperationId work, FindingId of = {})
{
    scene.kiosk.bench.must(
        scene.kiosk.bench.mechanic, scene.car,
        car::AttachPhoto{scene.kiosk.bench.photo(), moment, scene.operation().place, work, of});
}

} // namespace

void TestOperationEvidence::beforeAndAfter_areOfOneWork()
{
    OperationScene scene("wheel-refurb", "wheel-front-left", Condition::Kerbed);
    BeforeAfter& pair = *scene.kiosk.shell.beforeAfter();
    attach(scene, PhotoMoment::After, scene.id);
    attach(scene, PhotoMoment::During, scene.id);
    scene.kiosk.settle();
    QCOMPARE(pair.operations(), QList<int>{}); // no photo before
    const FindingId found = scene.operation().findings.front();
    attach(scene, PhotoMoment::Before, {}, found);
    attach(scene, PhotoMoment::Before, scene.id);
    attach(scene, PhotoMoment::After, scene.id);
    scene.kiosk.settle();
    QCOMPARE(pair.operations(), QList<int>{scene.id.value});
    QVERIFY(pair.title().isEmpty()); // nobody asked yet
    QVERIFY(scene.kiosk.desk.laid.empty());

    pair.openWork(scene.id.value);
    QCOMPARE(column(*pair.befores(), "moment"), (QStringList{"before", "before"}));
    QCOMPARE(column(*pair.afters(), "moment"), (QStringList{"after", "after"}));
    const QStringList befores = column(*pair.befores(), "photoKey");
    const QStringList afters = column(*pair.afters(), "photoKey");
    QCOMPARE(pair.beforeKey(), befores.front());
    QCOMPARE(pair.afterKey(), afters.back());
    pair.choose(befores.back());
    pair.choose(afters.front());
    QCOMPARE(pair.beforeKey(), befores.back());
    QCOMPARE(pair.afterKey(), afters.front());
    QCOMPARE(scene.kiosk.desk.laid.size(), std::size_t{3});
    // What else happens to the car does not choose again.
    attach(scene, PhotoMoment::After, scene.id);
    scene.kiosk.settle();
    QCOMPARE(pair.afterKey(), afters.front());
    QCOMPARE(scene.kiosk.desk.laid.size(), std::size_t{3});
    pair.close();
    QVERIFY(pair.title().isEmpty());
    QCOMPARE(pair.fit(), BeforeAfter::Nothing);
    pair.openPhoto(afters.front());
    QCOMPARE(pair.afterKey(), afters.front());
    QVERIFY(pair.compares(befores.front()));
    QVERIFY(!pair.compares(QStringLiteral("9/none")));
}

void TestOperationEvidence::beforeAndAfter_sayHowTheyFit_data()
{
    QTest::addColumn<double>("correlation");
    QTest::addColumn<bool>("readable");
    QTest::addColumn<BeforeAfter::Fit>("fit");
    QTest::newRow("close") << 0.9 << true << BeforeAfter::Close;
    QTest::newRow("somewhere else") << 0.2 << true << BeforeAfter::Apart;
    QTest::newRow("gone") << 0.9 << false << BeforeAfter::Fault;
}

void TestOperationEvidence::beforeAndAfter_sayHowTheyFit()
{
    QFETCH(const double, correlation);
    QFETCH(const bool, readable);
    QFETCH(const BeforeAfter::Fit, fit);
    OperationScene scene("wheel-refurb", "wheel-front-left", Condition::Kerbed);
    attach(scene, PhotoMoment::Before, scene.id);
    attach(scene, PhotoMoment::After, scene.id);
    scene.kiosk.settle();
    scene.kiosk.desk.aligned = {{{1, 0, 0.25, 0}, correlation, 0.75}, {640, 480}, {640, 480}};
    if (!readable)
        scene.kiosk.desk.photoFault = EvidenceError::NoSuchPhoto;
    BeforeAfter& pair = *scene.kiosk.shell.beforeAfter();
    pair.open();
    QCOMPARE(pair.fit(), BeforeAfter::Looking);
    QTRY_COMPARE(pair.fit(), fit);
    QVERIFY(!pair.fitWords().isEmpty());
    QCOMPARE(pair.beforeLaidUrl().isEmpty(), fit != BeforeAfter::Close);
    if (fit != BeforeAfter::Close)
        return;
    // A quarter further right: three quarters of the earlier picture are left of both.
    QCOMPARE(pair.proportion(), 1.0);
    const QString address = QStringLiteral("image://photo/laid/");
    const auto before = laidPhoto(pair.beforeLaidUrl().mid(address.size()));
    const auto after = laidPhoto(pair.afterLaidUrl().mid(address.size()));
    QVERIFY(before && after);
    QCOMPARE(before->part, QRectF(-0.5, -0.375, 0.75, 0.75));
    QCOMPARE(before->part, after->part);
    QCOMPARE(before->fromBefore, Similarity{});
    QCOMPARE(after->fromBefore, (Similarity{1, 0, 0.25, 0}));
}

void TestOperationEvidence::severalPhotos_areOneCommand()
{
    OperationScene scene("wheel-refurb", "wheel-front-left", Condition::Kerbed);
    OperationView* view = scene.view;
    scene.kiosk.signIn(scene.kiosk.bench.wheels);
    const std::size_t before = scene.kiosk.desk.asked.size();
    view->attachFiles({QStringLiteral("/drop/a.jpg"), QStringLiteral("/drop/b.jpg"),
                       QStringLiteral("/drop/c.jpg")},
                      QStringLiteral("after"));
    QTRY_COMPARE(scene.kiosk.bench.car(scene.car).photos.size(), std::size_t{3});
    QCOMPARE(scene.kiosk.desk.asked.size(), before + 1);
    scene.kiosk.settle();
    // One answers what is asked for; the others are there besides.
    QCOMPARE(column(*view->photoNeeds(), "present"), (QStringList{"false", "true"}));
    QCOMPARE(view->photos()->rowCount(), 3);
    QCOMPARE(view->morePhotos()->rowCount(), 2);
}

void TestOperationEvidence::guide_isThePictureBeforeOfTheSameThing()
{
    OperationScene scene("wheel-refurb", "wheel-front-left", Condition::Kerbed);
    OperationView* view = scene.view;
    Workbench& bench = scene.kiosk.bench;
    const QString after = QStringLiteral("after");
    const auto attach = [&](PhotoMoment moment, const char* place, OperationId work,
                            FindingId finding) {
        const PhotoId photo = bench.photo();
        bench.must(bench.appraiser, scene.car,
                   car::AttachPhoto{photo, moment, {QString::fromLatin1(place)}, work, finding});
        scene.kiosk.settle();
        return QStringLiteral("image://photo/fitted/") + photo.text;
    };
    QCOMPARE(view->guideFor(after, 0), QString());
    (void)attach(PhotoMoment::Before, "wheel-rear-left", {}, {});
    (void)attach(PhotoMoment::During, "wheel-front-left", scene.id, {});
    QCOMPARE(view->guideFor(after, 0), QString());
    // Of the same place, taken for whatever; better is its own, or its finding's.
    const QString ofPlace = attach(PhotoMoment::Before, "wheel-front-left", {}, {});
    QCOMPARE(view->guideFor(after, 0), ofPlace);
    const QString first =
        attach(PhotoMoment::Before, "wheel-front-left", {}, scene.operation().findings.front());
    QCOMPARE(view->guideFor(after, 0), first);
    const QString second = attach(PhotoMoment::Before, "wheel-front-left", scene.id, {});
    QCOMPARE(view->guideFor(after, 0), first);
    QCOMPARE(view->guideFor(after, 1), second);
    QCOMPARE(view->guideFor(after, 7), second);
    QCOMPARE(view->guideFor(QStringLiteral("during"), 0), first);
    QCOMPARE(view->guideFor(QStringLiteral("before"), 0), QString());
}

void TestOperationEvidence::fileDate_isToldBesideTheWork_data()
{
    QTest::addColumn<int>("minute"); // since the work began
    QTest::addColumn<QString>("said");
    QTest::newRow("days before") << -2 * 24 * 60 - 100 << "2 days before the work began";
    QTest::newRow("a day before") << -24 * 60 - 5 << "a day before the work began";
    QTest::newRow("hours before") << -3 * 60 - 10 << "3 h before the work began";
    QTest::newRow("just before") << -25 << "25 min before the work began";
    QTest::newRow("at its begin") << 0 << "while the work ran";
    QTest::newRow("in the break") << 45 << "while the work rested";
    QTest::newRow("in its second part") << 70 << "while the work ran";
    QTest::newRow("after it") << 90 << "10 min after the work";
    QTest::newRow("of tomorrow") << 10'000 << "later than this kiosk's clock";
}

void TestOperationEvidence::fileDate_isToldBesideTheWork()
{
    QFETCH(const int, minute);
    Operation operation;
    const Moment begin{1'936'000'000'000};
    const Moment now = begin.plusMinutes(120);
    QCOMPARE(besideWork(begin, operation, now), QString());
    const auto segment = [&](int from, int to) {
        Segment one;
        one.start = begin.plusMinutes(from);
        one.end = begin.plusMinutes(to);
        operation.segments.push_back(one);
    };
    segment(0, 30);
    segment(60, 80);
    QTEST(besideWork(begin.plusMinutes(minute), operation, now), "said");
    // One that still runs ends now.
    segment(100, 0);
    operation.segments.back().end = {};
    QCOMPARE(besideWork(begin.plusMinutes(110), operation, now),
             QStringLiteral("while the work ran"));
}

} // namespace ramplight::test

RAMPLIGHT_TEST(QGuiApplication, ramplight::test::TestOperationEvidence)
#include "tst_operationevidence.moc"
