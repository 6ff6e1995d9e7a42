// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "recordbench.h"

#include "domain/openings.h"
#include "record/frontwords.h"
#include "record/recordwords.h"
#include "support/testmain.h"

#include <QTest>

#include <algorithm>

using namespace ramplight;
using namespace ramplight::test;

// What the record says about a car: all that happened, in words, with who and when.
class TestRecordModel : public QObject
{
    Q_OBJECT

private slots:
    void reading_whoseNameSaysItsPlace_isCalledByItOnce()
    {
        RecordReading reading;
        reading.name = QStringLiteral("Horn");
        reading.placeWords = QStringLiteral("horn");
        QCOMPARE(reading.title(), QStringLiteral("Horn"));
        reading.placeWords = QStringLiteral("off side front tyre");
        reading.name = QStringLiteral("Tread");
        QCOMPARE(reading.title(), QStringLiteral("Tread, off side front tyre"));
        reading.placeWords.clear();
        QCOMPARE(reading.title(), QStringLiteral("Tread"));
    }

    void factsThatNobodyEntered_areSaidToBeSo_data()
    {
        QTest::addColumn<int>("odometer");
        QTest::addColumn<int>("keys");
        QTest::addColumn<QString>("odometerWords");
        QTest::addColumn<QString>("keyWords");
        QTest::newRow("entered") << 48'000 << 2 << "48,000 miles"
                                 << "2";
        QTest::newRow("not entered") << 0 << 0 << "not entered"
                                     << "not entered";
    }

    void factsThatNobodyEntered_areSaidToBeSo()
    {
        QFETCH(int, odometer);
        QFETCH(int, keys);
        RecordModel record;
        record.facts.odometer = odometer;
        record.facts.keys = keys;
        const auto facts = paper::factsOf(record);
        const auto said = [&](const char* label) {
            const auto fact = std::ranges::find(facts, QString::fromLatin1(label),
                                                &std::pair<QString, QString>::first);
            return fact == facts.end() ? QString() : fact->second;
        };
        QTEST(said("Odometer on arrival"), "odometerWords");
        QTEST(said("Keys"), "keyWords");
    }

    void minutes_corrected_showBoth()
    {
        RecordBench bench;
        const RecordModel record = bench.record(bench.worked());
        const RecordOperation* refurb = record.operation(bench.refurb);
        QVERIFY(refurb != nullptr);
        const RecordStretch& first = refurb->stretches.front();
        QCOMPARE(first.measuredMinutes, 95);
        QCOMPARE(first.correctedMinutes, std::optional(40));
        QCOMPARE(first.correctedBy, bench.manager);
        QCOMPARE(stretchWords(record, first),
                 QStringLiteral("40 min; the timer said 1 h 35 min, corrected by Orla: forgot to "
                                "stop at lunch"));
        QCOMPARE(refurb->minutes, bench.operation(CarId{"car-1"}, bench.refurb).minutes());
    }

    void left_isDisclosedWithWordsForTheBuyerAndWhoDecided()
    {
        RecordBench bench;
        const CarId id = bench.worked();
        const RecordModel record = bench.record(id);
        const RecordOperation* chip = record.operation(bench.chip);
        QCOMPARE(chip->state, OperationState::LeftAsIs);
        QCOMPARE(chip->leftWords, QStringLiteral("two small chips on the bonnet"));
        QCOMPARE(chip->ended.by, bench.manager);
        QVERIFY(!chip->ended.at.isNull());
    }

    void left_isAsMuchAsIsSignedFor()
    {
        RecordBench bench;
        const CarId id = bench.worked();
        const auto counts = paper::countsOf(bench.record(id));
        const auto left =
            std::ranges::find(counts, QStringLiteral("left as it is"), &paper::FrontCount::label);
        QVERIFY(left != counts.end());
        QCOMPARE(left->number, QStringLiteral("2"));
        QCOMPARE(thingsLeft(bench.car(id)), 2);
    }

    void findings_comeOut_data()
    {
        QTest::addColumn<int>("number");
        QTest::addColumn<int>("outcome");
        QTest::addColumn<QString>("words");
        QTest::newRow("measured by the appraiser")
            << 1 << int(FindingOutcome::Done) << "done: fit a tyre";
        QTest::newRow("done") << 2 << int(FindingOutcome::Done) << "done: refurbish";
        QTest::newRow("left by a manager")
            << 3 << int(FindingOutcome::Left) << "left as it is: touch in";
        QTest::newRow("left by a rule") << 4 << int(FindingOutcome::Left) << "left as it is";
        QTest::newRow("was not there")
            << 5 << int(FindingOutcome::NotThere) << "not there: it was dirt";
    }

    void findings_comeOut()
    {
        QFETCH(int, number);
        QFETCH(int, outcome);
        QFETCH(QString, words);
        RecordBench bench;
        const RecordModel record = bench.record(bench.worked());
        const RecordFinding& finding = record.findings.at(std::size_t(number) - 1);
        QCOMPARE(finding.id.value, number);
        QCOMPARE(int(outcomeOf(record, finding)), outcome);
        QCOMPARE(outcomeWords(record, finding), words);
    }

    void finding_open_isNotFinished()
    {
        RecordBench bench;
        const CarId id = bench.appraised();
        bench.found(id, "bonnet", Condition::Chip);
        const RecordModel record = bench.record(id);
        QCOMPARE(outcomeOf(record, record.findings.front()), FindingOutcome::Open);
        QCOMPARE(outcomeWords(record, record.findings.front()),
                 QStringLiteral("not finished: touch in"));
    }

    void finding_corrected_keepsBothWithWhoAndWhy()
    {
        RecordBench bench;
        const RecordModel record = bench.record(bench.worked());
        const RecordFinding& dirt = record.findings.at(4);
        QCOMPARE(dirt.versions.size(), 2u);
        QCOMPARE(dirt.versions.front().words, QStringLiteral("Near side wing: scratch, moderate"));
        QVERIFY(dirt.versions.front().stands);
        QVERIFY(!dirt.now().stands);
        QCOMPARE(dirt.now().by, bench.appraiser);
        QCOMPARE(dirt.now().reason, QStringLiteral("it was dirt"));
        QCOMPARE(dirt.photos.size(), 1u);
        QCOMPARE(dirt.photos.front().photo, dirt.now().evidence);
    }

    void figure_corrected_standsBesideTheWrongOne()
    {
        RecordBench bench;
        const CarId id = bench.appraised();
        const OperationId op = bench.open(id, "inspection");
        const PhotoId shows = bench.photo();
        bench.start(id, op, bench.mechanic);
        bench.must(bench.manager, id,
                   car::SetFigure{op, "disc", at("brakes-front"), 2250, "data book"});
        bench.must(bench.mechanic, id,
                   car::TakeReading{op, "disc", at("brakes-front"), number(230)});
        bench.must(bench.checker, id,
                   car::CorrectFigure{op, "disc", at("brakes-front"), 225, "page 7",
                                      "a nought too many", shows});
        bench.prove(id, op, bench.mechanic);
        bench.must(bench.mechanic, id, car::SignOff{op, {}});
        const RecordModel record = bench.record(id);
        const std::vector<RecordFigure>& figures = record.operation(op)->figures;
        QCOMPARE(figures.size(), 2u);
        QCOMPARE(figures.front().valueWords, QStringLiteral("225.0 mm"));
        QVERIFY(!figures.front().counts);
        QVERIFY(figures.back().counts);
        QCOMPARE(figures.back().by, bench.checker);
        QCOMPARE(figures.back().correction, QStringLiteral("a nought too many"));
        QVERIFY(record.operation(op)->readings.front().superseded);
        QCOMPARE(record.operation(op)->photos.back().photo, shows);
        QCOMPARE(record.operation(op)->photos.back().words,
                 QStringLiteral("evidence of the correction"));
    }

    void facts_corrected_nameOldAndNew_andTheirPhoto()
    {
        RecordBench bench;
        const CarId id = bench.appraised();
        CarFacts facts = bench.car(id).facts;
        facts.odometer = 20'000;
        bench.must(bench.manager, id, car::CorrectFacts{facts, "a nought too many", bench.photo()});
        const PhotoId shows = bench.photo();
        facts.keys = 0;
        facts.odometer = 21'000;
        bench.must(bench.manager, id, car::CorrectFacts{facts, "none came", shows});
        const RecordModel record = bench.record(id);
        const QString told = record.steps.back().words;
        QVERIFY2(told.contains("odometer 21000 mi instead of 20000 mi") &&
                     told.contains("keys not entered instead of 2") && told.endsWith("(none came)"),
                 qPrintable(told));
        QCOMPARE(record.photos.size(), std::size_t{2});
        QCOMPARE(record.photos.back().photo, shows);
    }

    void readings_carryTheirLimitAndWhoSetIt()
    {
        RecordBench bench;
        const CarId id = bench.appraised();
        bench.close(id, bench.open(id, "inspection"));
        const RecordModel record = bench.record(id);
        const RecordOperation* inspection = record.operation(bench.newest(id, "inspection"));
        const auto lining =
            std::ranges::find(inspection->readings, QStringLiteral("lining"), &RecordReading::key);
        QCOMPARE(lining->title(), QStringLiteral("Lining, front brakes"));
        QCOMPARE(lining->valueWords, QStringLiteral("3.0 mm"));
        QCOMPARE(lining->limitWords, QStringLiteral("at least 3.0 mm (house); at least 1.5 mm "
                                                    "(annual test)"));
        QCOMPARE(lining->by, bench.mechanic);
        QCOMPARE(inspection->figures.size(), 1u);
        QCOMPARE(inspection->figures.front().title, QStringLiteral("Disc, front brakes"));
        QCOMPARE(inspection->figures.front().source, QStringLiteral("data book"));
        QCOMPARE(inspection->figures.front().by, bench.manager);
        QCOMPARE(inspection->names(), std::vector{bench.mechanic});
        QCOMPARE(inspection->cautionsRead.size(), 1u);
        QCOMPARE(inspection->cautionsRead.front().by, bench.mechanic);
    }

    void signatures_beforeAReopening_areVoid()
    {
        RecordBench bench;
        const RecordModel record = bench.record(bench.worked());
        const RecordOperation* refurb = record.operation(bench.refurb);
        QCOMPARE(refurb->signatures.size(), 2u);
        QVERIFY(refurb->signatures.front().voided);
        QVERIFY(!refurb->signatures.back().voided);
        QCOMPARE(refurb->names(), std::vector{bench.wheels});
        QVERIFY(std::ranges::any_of(refurb->steps, [&](const RecordStep& step) {
            return step.words == QStringLiteral("Opened again: lacquer has a run") &&
                   step.by == bench.checker;
        }));
        QVERIFY(refurb->readings.front().superseded);
    }

    void photo_ofAFinding_isTheBeforeOfItsWork()
    {
        RecordBench bench;
        const RecordModel record = bench.record(bench.worked());
        const RecordOperation* refurb = record.operation(bench.refurb);
        QCOMPARE(refurb->photos.front().moment, PhotoMoment::Before);
        QCOMPARE(refurb->photos.front().by, bench.appraiser);
        QCOMPARE(refurb->photos.back().moment, PhotoMoment::After);
        QVERIFY(record.findings.at(1).photos.empty());
    }

    void withdrawn_keepsItsReason()
    {
        RecordBench bench;
        const RecordModel record = bench.record(bench.worked());
        const auto withdrawn = std::ranges::find(record.operations, OperationState::Withdrawn,
                                                 &RecordOperation::state);
        QVERIFY(withdrawn != record.operations.end());
        QCOMPARE(withdrawn->withdrawnWhy, QStringLiteral("it was dirt"));
        QVERIFY(!withdrawn->ended.at.isNull());
    }

    void way_blockedAndSentOut_isTold()
    {
        RecordBench bench;
        const CarId id = bench.appraised();
        bench.found(id, "bonnet", Condition::Chip);
        const OperationId touch = bench.open(id, "touch-in");
        bench.must(bench.painter, id,
                   car::BlockForPart{touch,
                                     {QStringLiteral("paint S-118"), QStringLiteral("Lark & Sons"),
                                      QDate(2031, 3, 12)}});
        bench.must(bench.painter, id,
                   car::ChangeDue{touch, QDate(2031, 3, 14), QStringLiteral("they say so")});
        bench.must(bench.painter, id, car::Unblock{touch});
        const RecordModel record = bench.record(id);
        const RecordOperation* operation = record.operation(touch);
        QCOMPARE(operation->steps.size(), 3u);
        QCOMPARE(operation->steps.at(1).words,
                 QStringLiteral("Due on Fri 14 Mar 2031 instead: they say so"));
        QCOMPARE(operation->steps.front().words,
                 QStringLiteral("Waited for a part: paint S-118, ordered with Lark & Sons, due "
                                "Wed 12 Mar 2031"));
    }

    void identity_corrected_namesOldAndNew()
    {
        RecordBench bench;
        const RecordModel record = bench.record(bench.worked());
        QCOMPARE(record.steps.front().words,
                 QStringLiteral("Identity corrected: QK 4471, slate blue, S-118 (read off the "
                                "plate)"));
    }

    void draft_saysThatTheCarIsNotReleased()
    {
        RecordBench bench;
        const CarId id = bench.appraised();
        const RecordModel record = bench.record(id);
        QCOMPARE(record.holds.size(), bench.holds(id).size());
        QVERIFY(!record.holds.empty());
        QVERIFY(!record.released);
        QCOMPARE(statusTitle(record), QStringLiteral("Not released yet"));
        QVERIFY(statusSentence(record).contains(QStringLiteral("must not be handed over")));
    }

    void complete_butUnsigned_isNotReleasedEither()
    {
        RecordBench bench;
        const RecordModel record = bench.record(bench.worked());
        QVERIFY(record.holds.empty());
        QCOMPARE(statusTitle(record), QStringLiteral("Not released yet"));
        QVERIFY(statusSentence(record).contains(QStringLiteral("nobody has signed")));
    }

    void released_namesTheSigner()
    {
        RecordBench bench;
        const CarId id = bench.worked();
        bench.release(id);
        const RecordModel record = bench.record(id);
        QCOMPARE(statusTitle(record), QStringLiteral("Released to sale"));
        QVERIFY(statusSentence(record).startsWith(QStringLiteral("Signed by Joss on ")));
        QCOMPARE(record.released->by, bench.seller);
    }

    void heldAgain_saysWhy()
    {
        RecordBench bench;
        const CarId id = bench.worked();
        bench.release(id);
        bench.found(id, "tyre-front-left", Condition::Cut);
        const RecordModel record = bench.record(id);
        QCOMPARE(statusTitle(record), QStringLiteral("Not released yet"));
        QVERIFY(statusSentence(record).startsWith(
            QStringLiteral("It had been released and is held again: ")));
        QCOMPARE(record.steps.back().kind, QStringLiteral("car-held-again"));
    }

    void withdrawn_car_saysHow()
    {
        RecordBench bench;
        const CarId id = bench.appraised();
        bench.must(bench.manager, id,
                   car::LeaveUnreleased{LeavingHow::Trade, QStringLiteral("Too much rust.")});
        const RecordModel record = bench.record(id);
        QCOMPARE(statusTitle(record), QStringLiteral("Withdrawn, not for sale"));
        QCOMPARE(statusSentence(record), QStringLiteral("This car left the workshop unreleased, "
                                                        "to the trade. Too much rust."));
        QVERIFY(record.holds.empty());
    }

    void withdrawn_car_thatWasReleased_saysByWhom()
    {
        RecordBench bench;
        const CarId id = bench.appraised();
        bench.closeAll(id);
        bench.release(id);
        bench.must(bench.manager, id,
                   car::LeaveUnreleased{LeavingHow::Trade, QStringLiteral("Nobody wants it.")});
        const RecordModel record = bench.record(id);
        QCOMPARE(statusTitle(record), QStringLiteral("Withdrawn, not for sale"));
        const RecordTimes times(record.rules.timeZone);
        QCOMPARE(statusSentence(record),
                 QStringLiteral("It had been released by %1 on %2 and left another way, to the "
                                "trade. Nobody wants it.")
                     .arg(record.nameOf(record.released->by), times.full(record.released->at)));
    }

    void name_erased_isANumber()
    {
        RecordBench bench;
        const CarId id = bench.worked();
        SiteState site = bench.site();
        site.people.at(bench.wheels).name.clear();
        const RecordModel record = buildRecord(bench.car(id), bench.history(id), site,
                                               bench.head(id), bench.line, bench.clock.now());
        QCOMPARE(record.nameOf(bench.wheels), QStringLiteral("person %1").arg(bench.wheels.value));
        QCOMPARE(record.nameOf(bench.manager), QStringLiteral("Orla"));
        QCOMPARE(record.nameOf({}), QStringLiteral("the house"));
    }

    void notLookedAt_isNamedUntilSomebodyLooks()
    {
        RecordBench bench;
        const CarId id = bench.bringIn();
        bench.must(bench.appraiser, id, car::FinishAppraisal{});
        QCOMPARE(bench.record(id).notLookedAt.size(), 11u);
        bench.close(id, bench.open(id, "inspection"));
        const RecordModel record = bench.record(id);
        QCOMPARE(record.notLookedAt.size(), 8u);
        QCOMPARE(record.sound,
                 (std::vector{at("brakes-front"), at("brakes-rear"), at("steering")}));
    }

    void placeWithAFindingLeft_isNotInGoodOrder()
    {
        RecordBench bench;
        const CarId id = bench.bringIn();
        const FindingId scratch = bench.found(id, "bonnet", Condition::Scratch);
        const FindingId dent = bench.found(id, "bonnet", Condition::Dent);
        const auto isNotThere = [&](FindingId finding) {
            bench.must(bench.checker, id,
                       car::CorrectFinding{finding, {}, false, "dirt", bench.photo()});
        };
        isNotThere(dent);
        QCOMPARE(bench.record(id).sound, std::vector<PlaceId>{});
        // So it was said in a ledger of before.
        CarState car = bench.car(id);
        QVERIFY(!car.seen.value(at("bonnet")).sound);
        car.seen[at("bonnet")].sound = true;
        QCOMPARE(buildRecord(car, bench.history(id), bench.site(), bench.head(id), bench.line,
                             bench.clock.now())
                     .sound,
                 std::vector<PlaceId>{});
        isNotThere(scratch);
        QCOMPARE(bench.record(id).sound, std::vector{at("bonnet")});
    }

    void fingerprint_isTheHeadForPeople()
    {
        RecordBench bench;
        const CarId id = bench.bringIn();
        const RecordModel record = buildRecord(
            bench.car(id), bench.history(id), bench.site(),
            {1, QStringLiteral("0123456789abcdef0123456789abcdef")}, bench.line, Moment{1});
        QCOMPARE(record.fingerprint, QStringLiteral("0123 4567 89ab cdef, entry 1"));
    }

    void digest_dependsOnEntriesAlone()
    {
        RecordBench bench;
        const CarId id = bench.worked();
        const RecordModel record = bench.record(id);
        SiteState other = bench.site();
        other.rules.sideWords = SideWords::LeftRight;
        other.rules.timeZone = QStringLiteral("UTC");
        other.name = QStringLiteral("Another name");
        for (auto& [number, person] : other.people)
            person.name.clear();
        const RecordModel same =
            buildRecord(bench.car(id), bench.history(id), other, {1, {}}, {}, bench.clock.now());
        QVERIFY(same.findings.front().now().words != record.findings.front().now().words);
        QCOMPARE(same.digest(), record.digest());
        bench.must(bench.manager, id,
                   car::ChangePromise{QDate(2031, 4, 1), QStringLiteral("paint is late")});
        QVERIFY(bench.record(id).digest() != record.digest());
    }

    void json_readBack_hasTheSameDigest()
    {
        RecordBench bench;
        const RecordModel record = bench.record(bench.worked());
        RecordModel again;
        const CodecError error = fromJson(toJson(record), again);
        QCOMPARE(error.words(), QString());
        QCOMPARE(again.digest(), record.digest());
        QCOMPARE(again.operations.size(), record.operations.size());
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestRecordModel)
#include "tst_recordmodel.moc"
