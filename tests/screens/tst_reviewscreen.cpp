// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "recordings.h"
#include "support/testmain.h"
#include "walkhands.h"

#include "appraisal/corrections.h"

#include <QFile>
#include <QQuickItem>
#include <QTest>

#include <algorithm>

using namespace ramplight;
using namespace ramplight::test;

/// The review of a spoken walk-round by touch: what becomes of drafts, tyres, sound places and the
/// rest, and that nothing of it is lost.
class tst_ReviewScreen : public QObject
{
    Q_OBJECT

private slots:
    void init() { failOnQmlWarnings(); }
    void thirtyFindings_takeFewTouches_data() { sizes(); }
    void thirtyFindings_takeFewTouches();
    void wordsAndDrawing_chooseDrafts();
    void powerCut_goesOnWhereItWas();
    void undo_opensThemAgain_oneAndAll();
    void draftDecidedElsewhere_isRefusedInWords();
    void depth_waitsForTheFindingOnItsTyre();
    void placeNotMentioned_isLookedAtNow();
    void wordsThatAreGone_leaveTheDrafts();
    void momentOfTheRecording_isSeen_andItsPictureKept_data() { sizes(); }
    void momentOfTheRecording_isSeen_andItsPictureKept();
};

namespace {

/// Odo at the review of K-7, of which a spoken walk-round was read.
struct Reviewing
{
    explicit Reviewing(KioskBench& kiosk,
                       const QByteArray& words = BenchHouse::spoken(QStringLiteral("K-7 walk.vtt")))
        : bench(kiosk)
        , car(kiosk)
    {
        kiosk.house().putTranscript(QStringLiteral("K-7 walk.vtt"), words);
        const auto read =
            kiosk.house()
                .desk()
                .readTranscript(kiosk.house().dropFolder() + QStringLiteral("/K-7 walk.vtt"),
                                car.id, kiosk.house().person(QStringLiteral("Odo")))
                .result();
        if (!read)
            qFatal("%s", qPrintable(read.error()));
    }

    bool open(QSize size = {1920, 1080})
    {
        bench.show(size);
        return bench.tap(QStringLiteral("Who are you?")) &&
               bench.signIn(QStringLiteral("Odo Farlane")) && goThere();
    }
    /// From the wall.
    bool goThere()
    {
        return bench.tap(QStringLiteral("Spoken walk-round of K-7: %1 to review")
                             .arg(now().openDrafts())) &&
               bench.tap(QStringLiteral("%1 to review · Orrel Tarn 1.2").arg(now().openDrafts())) &&
               ready();
    }
    bool ready()
    {
        return bench.until(
            [&] {
                return !bench.ofType("ReviewScreen").empty() && review().ready() &&
                       (review().words()->count() > 0 || !review().wordsFault().isEmpty());
            },
            QStringLiteral("the review"));
    }
    /// A touch that settles as many drafts.
    bool settle(const QString& words, int drafts,
                std::source_location where = std::source_location::current())
    {
        const int before = now().openDrafts();
        return car.hands.tap(words, where) &&
               bench.until([&] { return bench.shell().car()->openDrafts() == before - drafts; },
                           words, where);
    }
    [[nodiscard]] SpeechReview& review() const { return *bench.shell().review(); }
    [[nodiscard]] CarState now() { return car.now(); }
    [[nodiscard]] SpokenReview read() { return now().spoken.front(); }
    [[nodiscard]] DraftEnd endOf(int draft)
    {
        return read().decisions[static_cast<std::size_t>(draft)].end;
    }
    [[nodiscard]] int left(SpeechReview::Stage stage) const
    {
        for (QQuickItem* tab : bench.ofType("FilterTab"))
            if (tab->property("stage").toInt() == stage)
                return tab->property("count").toInt();
        return -1;
    }
    bool goTo(SpeechReview::Stage stage,
              std::source_location where = std::source_location::current())
    {
        return bench.tap(bench.ofType("FilterTab", "stage", QString::number(stage)), where) &&
               bench.until([&] { return review().stage() == stage; }, QStringLiteral("the stage"),
                           where);
    }

    KioskBench& bench;
    Arrived car;
};

std::vector<Correction> correctionsIn(const QString& path)
{
    QFile file(path);
    return file.open(QIODevice::ReadOnly) ? readCorrections(file.readAll())
                                          : std::vector<Correction>();
}

} // namespace

void tst_ReviewScreen::thirtyFindings_takeFewTouches()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    Reviewing at(bench);
    QVERIFY(at.open(size));
    const int drafts = at.now().openDrafts();
    const int doubtful = at.left(SpeechReview::Doubtful);
    const int sure = at.left(SpeechReview::Sure);
    QVERIFY(drafts >= 30);
    QCOMPARE(doubtful + sure, drafts);
    QVERIFY(doubtful >= 4 && sure >= 20);
    bench.shoot(QStringLiteral("review-doubtful"));

    // The first is no finding, the second is something else, the others are as they were said.
    const int dropped = at.review().chosen();
    QVERIFY(at.settle(QStringLiteral("Drop"), 1));
    const int changed = at.review().chosen();
    QVERIFY(changed != dropped);
    QVERIFY(at.car.hands.tap(QStringLiteral("Change")));
    QVERIFY(bench.untilSays(QStringLiteral("What it really is")));
    bench.shoot(QStringLiteral("review-change"));
    QVERIFY(at.car.hands.tap(
        KioskBench::titleOf(at.review().change()->conditions(), nameOf(Condition::Burn))));
    QVERIFY(at.settle(QStringLiteral("Record it"), 1));
    for (int i = 2; i < doubtful; ++i)
        QVERIFY(at.settle(QStringLiteral("Keep"), 1));

    QCOMPARE(at.review().stage(), SpeechReview::Sure);
    bench.shoot(QStringLiteral("review-sure"));
    QVERIFY(at.settle(QStringLiteral("Keep all %1 sure ones").arg(sure), sure));

    QCOMPARE(at.review().stage(), SpeechReview::Tyres);
    bench.shoot(QStringLiteral("review-tyres"));
    QVERIFY(at.car.hands.tap(QStringLiteral("Keep 3 depths")));
    QVERIFY(bench.until([&] { return at.now().treads.size() == 3; }, QStringLiteral("the depths")));
    QVERIFY(at.car.hands.tap(QStringLiteral("Near side rear tyre")));
    QVERIFY(bench.until([&] { return !bench.ofType("WalkRoundTyrePad").empty(); },
                        QStringLiteral("the pad")));
    bench.shoot(QStringLiteral("review-measure"));
    QVERIFY(at.car.hands.digits(QStringLiteral("424044")));
    QVERIFY(bench.until([&] { return at.now().treads.size() == 4; }, QStringLiteral("the tyre")));

    QVERIFY(bench.until([&] { return at.review().stage() == SpeechReview::Sound; },
                        QStringLiteral("what is sound")));
    const int sound = at.left(SpeechReview::Sound);
    bench.shoot(QStringLiteral("review-sound"));
    QVERIFY(at.car.hands.tap(QStringLiteral("All %1 are sound").arg(sound)));
    QVERIFY(bench.until([&] { return at.review().stage() == SpeechReview::Car; },
                        QStringLiteral("the car's facts")));
    bench.shoot(QStringLiteral("review-car"));
    QVERIFY(at.car.hands.tap(QStringLiteral("Take it as it was said")));
    QVERIFY(bench.until([&] { return at.review().stage() == SpeechReview::NotMentioned; },
                        QStringLiteral("the rest")));
    bench.shoot(QStringLiteral("review-rest"));

    // A touch for each doubtful one, two more for what was changed, and twelve for all the rest.
    QVERIFY2(at.car.hands.touches() <= doubtful + 2 + 12,
             qPrintable(QStringLiteral("%1 touches").arg(at.car.hands.touches())));
    qInfo("%d findings, %d of them doubtful: %d touches", drafts, doubtful, at.car.hands.touches());

    const CarState now = at.now();
    QCOMPARE(now.openDrafts(), 0);
    QCOMPARE(at.endOf(dropped), DraftEnd::Dropped);
    QCOMPARE(at.endOf(changed), DraftEnd::Changed);
    // Each with the words and the moment that it rests on; what a depth shows has none.
    QCOMPARE(std::ranges::count_if(now.findings,
                                   [](const auto& entry) {
                                       const FindingData& data = entry.second.data();
                                       return !data.quote.isEmpty() && data.atSeconds;
                                   }),
             drafts - 1);
    QCOMPARE(now.treads.at({QStringLiteral("tyre-front-left")}), (Tread{50, 50, 50}));
    QCOMPARE(now.treads.at({QStringLiteral("tyre-rear-left")}), (Tread{42, 40, 44}));
    QCOMPARE(now.treads.at({QStringLiteral("tyre-rear-right")}), (Tread{20, 20, 20}));
    QCOMPARE(now.lastOdometer()->value, 41600);
    QVERIFY(now.seen.value({QStringLiteral("roof")}).sound);
    QVERIFY(!bench.house().open(at.car.id, "wheel-refurb", "wheel-front-left").isNull());
    // For whoever looks after the reader.
    QVERIFY(bench.until([&] { return correctionsIn(bench.house().correctionsFile()).size() == 2; },
                        QStringLiteral("the corrections")));
    const auto corrections = correctionsIn(bench.house().correctionsFile());
    QVERIFY(!corrections.front().corrected.has_value());
    QCOMPARE(corrections.back().corrected->condition, Condition::Burn);
}

void tst_ReviewScreen::wordsAndDrawing_chooseDrafts()
{
    KioskBench bench(BenchHouse::Start::House);
    Reviewing at(bench);
    QVERIFY(at.open());
    const SpokenReview read = at.read();
    const auto draftAt = [&](const char* place) {
        for (std::size_t i = 0; i < read.round.drafts.size(); ++i)
            if (read.round.drafts[i].data.place.text == QLatin1StringView(place))
                return static_cast<int>(i);
        return -1;
    };
    // A row of the words that is in sight.
    const int seat = draftAt("driver-seat");
    QVERIFY(seat >= 0);
    const int row = at.review().words()->rowOf(seat);
    QQuickItem* line = nullptr;
    QVERIFY(bench.until(
        [&] {
            for (QQuickItem* label : bench.ofType("Label"))
                if (label->parentItem() != nullptr &&
                    label->parentItem()->property("markup").isValid() &&
                    label->parentItem()->property("index").toInt() == row)
                    line = label;
            return line != nullptr;
        },
        QStringLiteral("the row")));
    at.review().choose(-1);
    QVERIFY(at.goTo(SpeechReview::Sure));
    QCOMPARE(at.review().chosen(), -1);
    bench.shoot(QStringLiteral("review-words"));
    QVERIFY(bench.tap(line));
    QVERIFY(
        bench.until([&] { return at.review().wordsRow() == row; }, QStringLiteral("its draft")));
    // The roof box of the drawing: a place on the car laid open.
    at.review().choose(draftAt("bonnet"));
    QQuickItem* outline = bench.ofType("CarOutline").back();
    QVERIFY(bench.until(
        [&] { return outline->property("shape").toString() == QStringLiteral("hatch"); },
        QStringLiteral("the car laid open")));
    QPointF spot;
    QMetaObject::invokeMethod(outline, "spotOf", Q_RETURN_ARG(QPointF, spot),
                              Q_ARG(QString, QStringLiteral("tailgate")));
    bench.tapAt(outline->mapToScene(spot));
    QVERIFY(bench.until([&] { return at.review().place() == QStringLiteral("tailgate"); },
                        QStringLiteral("the tailgate")));
    bench.shoot(QStringLiteral("review-chosen"));
    QVERIFY(at.settle(QStringLiteral("Keep"), 1));
    QCOMPARE(at.endOf(draftAt("tailgate")), DraftEnd::Kept);
    // One that is decided can be looked at, and opened again.
    bench.tapAt(outline->mapToScene(spot));
    QVERIFY(bench.untilSays(QStringLiteral("Kept by Odo Farlane")));
    bench.shoot(QStringLiteral("review-decided"));
    QVERIFY(at.settle(QStringLiteral("Decide once more"), -1));
    QVERIFY(at.review().chosenOpen());
}

void tst_ReviewScreen::powerCut_goesOnWhereItWas()
{
    KioskBench bench(BenchHouse::Start::House);
    Reviewing at(bench);
    QVERIFY(at.open());
    QVERIFY(at.settle(QStringLiteral("Keep"), 1));
    QVERIFY(at.settle(QStringLiteral("Drop"), 1));
    const SpokenReview before = at.read();
    const int next = at.review().chosen();
    const QString words = at.review().quote();
    bench.cutPower();
    QVERIFY(at.read() == before);
    QVERIFY(bench.tap(QStringLiteral("Who are you?")));
    QVERIFY(bench.signIn(QStringLiteral("Odo Farlane")));
    QVERIFY(at.goThere());
    QCOMPARE(at.review().chosen(), next);
    QCOMPARE(at.review().quote(), words);
    QVERIFY(at.review().words()->count() > 0);
    QVERIFY(at.settle(QStringLiteral("Keep"), 1));
}

void tst_ReviewScreen::undo_opensThemAgain_oneAndAll()
{
    KioskBench bench(BenchHouse::Start::House);
    Reviewing at(bench);
    QVERIFY(at.open());
    const int first = at.review().chosen();
    QVERIFY(at.settle(QStringLiteral("Drop"), 1));
    QVERIFY(at.settle(QStringLiteral("Undo"), -1));
    QCOMPARE(at.endOf(first), DraftEnd::Open);
    QCOMPARE(at.review().chosen(), first);
    QVERIFY(at.settle(QStringLiteral("Keep"), 1));
    QVERIFY(at.settle(QStringLiteral("Undo"), -1));
    QCOMPARE(at.endOf(first), DraftEnd::Open);
    QVERIFY(at.goTo(SpeechReview::Sure));
    const int sure = at.left(SpeechReview::Sure);
    QVERIFY(at.settle(QStringLiteral("Keep all %1 sure ones").arg(sure), sure));
    QVERIFY(at.settle(QStringLiteral("Undo"), -sure));
    for (const auto& [id, finding] : at.now().findings)
        QVERIFY(!finding.stands());
    // Nothing is left that somebody would take for a fault of the reader.
    QVERIFY(bench.until([&] { return correctionsIn(bench.house().correctionsFile()).size() == 2; },
                        QStringLiteral("both lines")));
    QVERIFY(standingCorrections(correctionsIn(bench.house().correctionsFile())).empty());
}

void tst_ReviewScreen::draftDecidedElsewhere_isRefusedInWords()
{
    KioskBench bench(BenchHouse::Start::House);
    Reviewing at(bench);
    QVERIFY(at.open());
    const int chosen = at.review().chosen();
    QVERIFY(bench.tap(QStringLiteral("Change")));
    QVERIFY(bench.untilSays(QStringLiteral("What it really is")));
    // Meanwhile at another kiosk.
    BenchHouse& house = bench.house();
    house.must(house.person(QStringLiteral("Runa")), at.car.id,
               {car::DropDraft{{at.read().round.transcript, chosen}}});
    QVERIFY(bench.tap(QStringLiteral("Record it")));
    QVERIFY(bench.until([&] { return at.review().ask()->refused(); }, QStringLiteral("why not")));
    QCOMPARE(at.review().ask()->refusalId(), QStringLiteral("draft-decided-already"));
    QVERIFY(bench.says(at.review().ask()->words()));
    bench.shoot(QStringLiteral("review-refused"));
    QVERIFY(at.now().findings.empty());
    QVERIFY(bench.tap(QStringLiteral("Close")));
    QVERIFY(at.review().chosen() != chosen);
    QVERIFY(at.settle(QStringLiteral("Keep"), 1));
}

void tst_ReviewScreen::depth_waitsForTheFindingOnItsTyre()
{
    KioskBench bench(BenchHouse::Start::House);
    Reviewing at(bench, "Off side rear tyre is on two millimetres, it's worn out, replace that "
                        "tyre. Near side rear tyre five millimetres.\n");
    QVERIFY(at.open());
    QVERIFY(at.goTo(SpeechReview::Tyres));
    QVERIFY(bench.says(QStringLiteral("first decide what was found on it")));
    QVERIFY(bench.tap(QStringLiteral("Keep this depth")));
    QVERIFY(bench.until([&] { return at.now().treads.size() == 1; }, QStringLiteral("the other")));
    QVERIFY(at.goTo(SpeechReview::Sure));
    QVERIFY(at.settle(QStringLiteral("Keep the one that is sure"), 1));
    QVERIFY(bench.tap(QStringLiteral("Keep this depth")));
    QVERIFY(bench.until([&] { return at.now().treads.size() == 2; }, QStringLiteral("both")));
    // One tyre to fit, one finding that says so: the depth found nothing new.
    const CarState now = at.now();
    QCOMPARE(std::ranges::count_if(now.findings,
                                   [](const auto& entry) {
                                       const FindingData& data = entry.second.data();
                                       return data.place.text == u"tyre-rear-right" &&
                                              data.condition == Condition::Worn;
                                   }),
             1);
}

void tst_ReviewScreen::placeNotMentioned_isLookedAtNow()
{
    KioskBench bench(BenchHouse::Start::House);
    Reviewing at(bench);
    QVERIFY(at.open());
    QVERIFY(at.goTo(SpeechReview::NotMentioned));
    QVERIFY(bench.tap(QStringLiteral("Front brakes")));
    QVERIFY(at.car.hands.ready());
    QCOMPARE(at.car.hands.walk().place(), QStringLiteral("brakes-front"));
    bench.shoot(QStringLiteral("review-look"));
    QVERIFY(bench.tap(QStringLiteral("Sound")));
    QVERIFY(bench.until([&] { return at.now().seen.contains({QStringLiteral("brakes-front")}); },
                        QStringLiteral("the brakes")));
    QVERIFY(bench.tap(QStringLiteral("Back")));
    QVERIFY(at.ready());
    QVERIFY(at.goTo(SpeechReview::NotMentioned));
    QVERIFY(!bench.says(QStringLiteral("Front brakes")));
}

void tst_ReviewScreen::wordsThatAreGone_leaveTheDrafts()
{
    KioskBench bench(BenchHouse::Start::House);
    Reviewing at(bench);
    bench.house().loseTranscripts();
    QVERIFY(at.open());
    QVERIFY(bench.untilSays(QStringLiteral("The words cannot be shown")));
    bench.shoot(QStringLiteral("review-wordless"));
    QVERIFY(at.settle(QStringLiteral("Keep"), 1));
}

void tst_ReviewScreen::momentOfTheRecording_isSeen_andItsPictureKept()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    Reviewing at(bench, "WEBVTT\n\n00:09.000 --> 00:12.000\n"
                        "Near side front door has a dent, pull that out.\n\n"
                        "00:13.000 --> 00:15.000\nBonnet is scratched, polish it.\n");
    QVERIFY(writeFilm(bench.house().dropFolder() + QStringLiteral("/K-7 walk.MOV")));
    QVERIFY(at.open(size));
    QVERIFY(at.goTo(SpeechReview::Sure));
    QVERIFY(bench.tap(QStringLiteral("Near side front door")));
    QVERIFY(bench.until([&] { return at.review().chosen() == 0; }, QStringLiteral("the door")));
    QVERIFY(bench.tap(QStringLiteral("Hear it")));
    QVERIFY(bench.untilSays(QStringLiteral("Keep it with this photo")));
    bench.shoot(QStringLiteral("review-hear"));
    QVERIFY(bench.tap(QStringLiteral("Keep it with this photo")));
    QVERIFY(bench.until([&] { return at.now().photos.size() == 1; }, QStringLiteral("the photo")));
    QVERIFY(bench.untilSays(QStringLiteral("Kept as photo before")));
    QCOMPARE(at.endOf(0), DraftEnd::Kept);
    const AttachedPhoto photo = at.now().photos.front();
    QCOMPARE(photo.finding, at.read().decisions[0].finding);
    QCOMPARE(photo.place.text, QStringLiteral("front-door-left"));
    QVERIFY(photo.moment == PhotoMoment::Before);
    QVERIFY(bench.tap(QStringLiteral("Close")));
    QCOMPARE(at.endOf(1), DraftEnd::Open);
}

RAMPLIGHT_TEST(QGuiApplication, tst_ReviewScreen)
#include "tst_reviewscreen.moc"
