// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/historywords.h"

#include "support/testmain.h"
#include "viewbench.h"

#include <QTest>

#include <utility>

namespace ramplight::test {

/// What the entries of a car's history say to a person.
class TestHistoryWords : public QObject
{
    Q_OBJECT

private slots:
    void initTestCase();
    void entry_saysWhatAndDetail_data();
    void entry_saysWhatAndDetail();
    void everyKind_saysSomething();
    void unknownOperation_isStillTold();

private:
    ViewBench m_kiosk;
    SiteBook m_book{m_kiosk.desk, m_kiosk.bench.catalogue};
    CarState m_car;
    OperationId m_valet;
    OperationId m_survey;
    OperationId m_fixing;
};

void TestHistoryWords::initTestCase()
{
    Workbench& bench = m_kiosk.bench;
    m_book.take(*bench.ledger.site());
    const CarId id = bench.appraised();
    bench.found(id, "tyre-front-left", Condition::Cut);
    m_valet = bench.open(id, "valet");
    m_survey = bench.open(id, "tyre-survey");
    bench.start(id, m_valet, bench.painter);
    bench.clock.pass(38);
    bench.must(bench.painter, id, car::PauseWork{m_valet, {}, StopKind::Paused});
    bench.start(id, m_survey, bench.wheels);
    bench.must(bench.wheels, id,
               car::TakeReading{m_survey, QStringLiteral("tread"), test::at("tyre-rear-left"),
                                number(62)});
    bench.close(id, bench.open(id, "tyre-fit"),
                bench.hire(QStringLiteral("Lowri"), {Skill::Wheels}, {Right::Work}));
    m_fixing = bench.open(id, "wheel-fixing-check");
    m_car = bench.car(id);
}

void TestHistoryWords::entry_saysWhatAndDetail_data()
{
    QTest::addColumn<CarEvent>("event");
    QTest::addColumn<QString>("what");
    QTest::addColumn<QString>("detail");
    const auto row = [](const char* name, const CarEvent& event, const char* what,
                        const char* detail) {
        QTest::newRow(name) << event << QString::fromUtf8(what) << QString::fromUtf8(detail);
    };
    const Bay lift = *m_book.site().bay(m_kiosk.bench.lift);
    const QDate day(2031, 3, 12);
    const PlaceId tyre = test::at("tyre-front-left");
    Identity identity;
    identity.stockNumber = QStringLiteral("K1");
    identity.make = QStringLiteral("Halden");
    identity.registration = QStringLiteral("QX 71");
    row("came in", CarArrived{identity, {}, day, {}, {}}, "Came in",
        "K1 · Halden · QX 71 · promised Wed 12 Mar 2031");
    row("came in, nothing promised", CarArrived{identity, {}, {}, {}, {}}, "Came in",
        "K1 · Halden · QX 71");
    row("promise", PromiseChanged{day, QStringLiteral("parts"), {}}, "Promise changed",
        "promised Wed 12 Mar 2031 · parts");
    row("what a promise counts for",
        PromiseChanged{day, QStringLiteral("sold"), PromiseImportance::MustBeKept},
        "Promise changed", "promised Wed 12 Mar 2031 · must be kept · sold");
    FindingRecorded found;
    found.data = finding("bonnet", Condition::Scratch);
    row("found", found, "Found", "Bonnet: scratch");
    found.disclosed = true;
    row("found and disclosed", found, "Found", "Bonnet: scratch · left and disclosed");
    found.disclosed = false;
    found.undecided = true;
    found.carriedFrom = CarId{QStringLiteral("other")};
    row("carried over, undecided", found, "Found, carried over",
        "Bonnet: scratch · nobody has decided yet");
    FindingCorrected corrected;
    corrected.data = finding("bonnet", Condition::Chip);
    corrected.reason = QStringLiteral("misread");
    row("finding corrected", corrected, "Finding corrected", "Bonnet: chip · misread");
    corrected.stands = false;
    row("finding is not there", corrected, "Finding is not there", "Bonnet: chip · misread");
    row("carried over, whose",
        PlacesFoundSound{{test::at("roof")},
                         {CarId{QStringLiteral("other")}, m_kiosk.bench.wheels, Moment{1}}},
        "Found sound", "roof · carried over from Caspar");
    FindingAnswered answered;
    answered.finding = FindingId{1};
    answered.why = QStringLiteral("a radar is behind it");
    row("answered anew", answered, "Answered anew, as the car's facts were others",
        "Near side front tyre: cut · a radar is behind it");
    row("sound", PlacesFoundSound{{test::at("roof"), test::at("tyre-rear-left")}}, "Found sound",
        "roof, near side rear tyre");
    WalkRoundRead heard;
    heard.round.name = QStringLiteral("K7.vtt");
    heard.round.drafts.resize(3);
    row("speech read", heard, "Walk-round read", "K7.vtt · 3 drafts");
    row("draft kept", DraftDecided{{}, 0, DraftEnd::Kept, {}}, "Draft kept", "");
    row("draft changed", DraftDecided{{}, 0, DraftEnd::Changed, {}}, "Draft changed", "");
    row("draft dropped", DraftDecided{{}, 0, DraftEnd::Dropped, {}}, "Draft dropped", "");
    row("draft open", DraftDecided{{}, 0, DraftEnd::Open, {}}, "Draft looked at again", "");
    row("tread", TreadRecorded{tyre, {16, 40, 50}}, "Tread measured: near side front tyre",
        "inner 1.6 mm, centre 4.0 mm, outer 5.0 mm");
    TyreRecorded read;
    read.place = tyre;
    read.marking = {QStringLiteral("2319"), {QStringLiteral("205/55 R16"), 91, {}}};
    row("tyre read", read, "Tyre read: near side front tyre", "205/55 R16 91 · date code 2319");
    read.tread = Tread{16, 40, 50};
    read.marking = {};
    row("tyre measured", read, "Tread measured: near side front tyre",
        "inner 1.6 mm, centre 4.0 mm, outer 5.0 mm");
    read.tread.reset();
    read.fitted = true;
    row("tyre fitted", read, "Another tyre fitted: near side front tyre", "");
    row("paint", PaintDepthRecorded{test::at("bonnet"), {104, 110, 98}},
        "Paint depth measured: bonnet", "104, 110, 98 µm");
    row("odometer", OdometerRead{41'209, DistanceUnit::Miles, {}, {}}, "Odometer read", "41209 mi");
    row("odometer lower", OdometerRead{12, DistanceUnit::Kilometres, {}, "cluster changed"},
        "Odometer read", "12 km · less than before: cluster changed");
    row("appraised", AppraisalFinished{}, "Appraisal finished", "");
    row("appraised but for a place", AppraisalFinished{{test::at("steering")}},
        "Appraisal finished", "not looked at: steering");
    row("started", WorkStarted{m_valet, {}, {}, {}, false}, "Started: Valet", "");
    row("started, clock set back", WorkStarted{m_valet, {}, {}, {}, true}, "Started: Valet",
        "the clock had been set back");
    const SegmentId segment = m_car.operation(m_valet)->segments.front().id;
    row("paused", WorkStopped{m_valet, segment, {}, StopKind::Paused}, "Paused: Valet", "38 min");
    row("paused, clock set back", WorkStopped{m_valet, segment, {}, StopKind::Paused, true},
        "Paused: Valet", "38 min · the clock had been set back");
    row("paused, clock put forward",
        WorkStopped{m_valet, segment, {}, StopKind::Paused, false, 38 * 60'000}, "Paused: Valet",
        "38 min · the clock had been put forward");
    row("end of shift", WorkStopped{m_valet, segment, {}, StopKind::ShiftEnd},
        "Paused at the end of the shift: Valet", "38 min");
    row("handed over", HandedOver{m_valet, m_kiosk.bench.painter}, "Handed to Noor: Valet", "");
    row("planned",
        WorkPlanned{m_valet, m_kiosk.bench.painter, m_kiosk.bench.lift, Moment{1'931'594'400'000}},
        "Planned by the manager: Valet", "Noor · bay 1 · not before Tue 18 Mar 2031, 10:00");
    row("left to the planner again", WorkPlanned{m_valet, {}, {}, {}},
        "Planned by the manager: Valet", "");
    row("minutes", MinutesCorrected{m_valet, segment, 65, QStringLiteral("forgot to stop")},
        "Minutes corrected: Valet", "1 h 05 · forgot to stop");
    row("measured",
        ReadingTaken{
            m_survey, {}, QStringLiteral("tread"), tyre, number(62), ReadingOutcome::Inside, {}},
        "Measured: Tyre survey", "tread · near side front tyre · 6.2 mm");
    row("measured outside",
        ReadingTaken{
            m_survey, {}, QStringLiteral("tread"), tyre, number(9), ReadingOutcome::Outside, {}},
        "Measured: Tyre survey", "tread · near side front tyre · 0.9 mm · outside its limit");
    ReadingCorrected reading;
    reading.operation = m_survey;
    reading.original = m_car.operation(m_survey)->readings.front().id;
    reading.value = number(26);
    reading.outcome = ReadingOutcome::Outside;
    reading.reason = QStringLiteral("figures swapped");
    row("reading corrected", reading, "Reading corrected: Tyre survey",
        "tread · near side rear tyre · 2.6 mm · outside its limit · figures swapped");
    row("figure", FigureSet{m_fixing, QStringLiteral("torque"), {}, 120, QStringLiteral("book")},
        "This car's figure entered: Wheel fixings", "torque · 120 N·m · book");
    row("figure corrected",
        FigureCorrected{m_fixing,
                        QStringLiteral("torque"),
                        {},
                        120,
                        QStringLiteral("book"),
                        QStringLiteral("a nought left out"),
                        {}},
        "This car's figure corrected: Wheel fixings",
        "torque · 120 N·m · book · a nought left out");
    row("photo of the car", PhotoAttached{{}, PhotoMoment::Before, test::at("roof"), {}, {}},
        "Photo", "before · roof");
    row("photo of work", PhotoAttached{{}, PhotoMoment::After, {}, m_valet, {}},
        "Photo after: Valet", "");
    row("signed",
        OperationSigned{m_valet, SignatureMeaning::DidTheWork, 38, QStringLiteral("clean")},
        "Signed, did the work: Valet", "38 min · clean");
    row("countersigned", OperationSigned{m_valet, SignatureMeaning::Countersigned, 0, {}},
        "Signed, countersigned: Valet", "");
    row("a part", OperationBlocked{m_valet, {QStringLiteral("wax"), QStringLiteral("Cove"), day}},
        "Waits for a part: Valet", "wax · Cove · due Wed 12 Mar 2031");
    row("outside", SentOut{m_valet, {QStringLiteral("Cove Works"), {}, 1, {}, false, {}}},
        "Sent out: Valet", "Cove Works · keys given along: 1");
    row("back from outside", ReceivedBack{m_valet, QStringLiteral("D 78"), 1},
        "Received back: Valet", "keys back: 1 · D 78");
    row("isolated", IsolationSet{m_valet, QStringLiteral("key safe")},
        "High voltage isolated: Valet", "lock kept at: key safe");
    row("into a bay", CarMoved{lift.id, {}}, "Moved", "bay 1 Lift");
    row("parked", CarMoved{{}, QStringLiteral("row 2")}, "Moved", "row 2");
    row("left", CarLeft{LeavingHow::Trade, QStringLiteral("rust"), {}}, "Left sale preparation",
        "to the trade · rust");
    row("photos removed", PhotosRemoved{{PhotoId{"a"}, PhotoId{"b"}}, 6}, "Photos removed: 2",
        "kept for 6 years, as the house asked");
    row("twice", DuplicateLinked{{}, QStringLiteral("K8")},
        "Entered twice: evidence of K8 carried over", "");
}

void TestHistoryWords::entry_saysWhatAndDetail()
{
    QFETCH(const CarEvent, event);
    const HistoryWords told = historyWords(event, m_car, m_book);
    QTEST(told.what, "what");
    QTEST(told.detail, "detail");
}

void TestHistoryWords::everyKind_saysSomething()
{
    QStringList said;
    const auto tell = [&]<std::size_t... Kind>(std::index_sequence<Kind...>)
    {
        (said.append(historyWords(CarEvent(CarEvent::Kind<Kind>()), m_car, m_book).what), ...);
    };
    tell(std::make_index_sequence<CarEvent::kinds>());
    QCOMPARE(said.size(), static_cast<qsizetype>(CarEvent::kinds));
    QVERIFY(!said.contains(QString()));
    // No two kinds are told alike.
    QCOMPARE(QSet<QString>(said.begin(), said.end()).size(), said.size());
}

void TestHistoryWords::unknownOperation_isStillTold()
{
    const HistoryWords told = historyWords(OperationClosed{OperationId{999}, {}}, m_car, m_book);
    QCOMPARE(told.what, QStringLiteral("Closed"));
    QCOMPARE(told.operation, OperationId{999});
    QCOMPARE(historyWords(FigureSet{OperationId{999}, QStringLiteral("torque"), {}, 120, {}}, m_car,
                          m_book)
                 .detail,
             QStringLiteral("torque · 120"));
}

} // namespace ramplight::test

RAMPLIGHT_TEST(QGuiApplication, ramplight::test::TestHistoryWords)
#include "tst_historywords.moc"
