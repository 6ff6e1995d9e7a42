// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kioskbench.h"

#include "support/testmain.h"

#include <QDir>
#include <QFile>

using namespace ramplight;
using namespace ramplight::test;

namespace {

const PlaceId frontLeft{"tyre-front-left"};
const PlaceId bonnet{"bonnet"};

/// A kiosk whose server is away, and which knows the whole workshop.
struct Alone
{
    Alone(House& of, const QString& folder)
        : house(of)
        , kiosk(of, folder)
    {
    }
    bool isCutOff()
    {
        if (!resultOf(kiosk.opening) || !QTest::qWaitFor([this] { return isKnown(); }, patientMs))
            return false;
        house.wire.cut();
        return QTest::qWaitFor([this] { return kiosk.standing().away; }, patientMs);
    }
    [[nodiscard]] bool isKnown() const { return !kiosk.standing().knownAt.isNull(); }
    bool isBack()
    {
        house.wire.heal();
        return QTest::qWaitFor([this] { return !kiosk.standing().away; }, patientMs);
    }
    /// Another kiosk, whose line is whole.
    QString elsewhere(PersonId who, const CarId& car, std::vector<CarCommand> commands) const
    {
        static int count = 0;
        const auto store = house.database.open();
        Workshop workshop(store->ledger(), house.clock, house.bench.catalogue);
        const auto outcome =
            workshop.run(CarRequest{CommandId{QStringLiteral("elsewhere-%1").arg(++count)}, who,
                                    car, std::move(commands), true});
        return outcome ? done : words(outcome.error());
    }
    /// What the server refused: "deed: words", a line each.
    [[nodiscard]] QStringList refused() const
    {
        QStringList all;
        for (const KeptRequest& request : kiosk.standing().kept)
            if (!request.waits())
                all.append(deedWords(request.asked) + QStringLiteral(": ") + request.refusal);
        return all;
    }

    House& house;
    Kiosk kiosk;
};

} // namespace

// Where a car stands, what is measured on it and that its walk-round is over, while the server is
// away.
class TestKeptMoves : public QObject
{
    Q_OBJECT

private slots:
    void initTestCase()
    {
        if (qEnvironmentVariableIsEmpty("RAMPLIGHT_TEST_PG"))
            QSKIP("RAMPLIGHT_TEST_PG names no server (tests/run starts one)");
    }

    void init() { m_folder = std::make_unique<QTemporaryDir>(); }

    // A car is driven into a bay whether a server knows of it or not.
    void moveMeasurementsAndEnd_areKept_andArriveOnce_afterAKill()
    {
        House house;
        CarId fresh;
        house.onBench([&] { fresh = house.bench.bringIn(); });
        const QString copy = m_folder->filePath(QStringLiteral("as-it-lay"));
        const QString folder = m_folder->filePath(QStringLiteral("standby"));
        const std::vector<int> depths{112, 118, 121};
        const auto holds = [&](Kiosk& kiosk) {
            const CarState moved = kiosk.car(house.car);
            const CarState walked = kiosk.car(fresh);
            return moved.bay == house.bench.lift && walked.parking == QStringLiteral("row 2") &&
                   walked.treads.at(frontLeft) == Tread{31, 30, 29} &&
                   walked.tyres.at(frontLeft).dateCode == QStringLiteral("2228") &&
                   walked.paint.at(bonnet) == depths && walked.lastOdometer()->value == 90'200 &&
                   walked.appraised;
        };
        {
            Alone alone(house, folder);
            QVERIFY(alone.isCutOff());
            Kiosk& kiosk = alone.kiosk;
            const PersonId appraiser = house.bench.appraiser;
            QCOMPARE(kiosk.ask(house.who, house.car, {car::MoveCar{house.bench.lift, {}}}), done);
            QCOMPARE(kiosk.ask(appraiser, fresh, {car::MoveCar{{}, "row 2"}}), done);
            QCOMPARE(kiosk.ask(appraiser, fresh, {car::RecordTread{frontLeft, {31, 30, 29}}}),
                     done);
            QCOMPARE(kiosk.ask(appraiser, fresh, {car::RecordTyre{frontLeft, {}, "2228"}}), done);
            QCOMPARE(kiosk.ask(appraiser, fresh, {car::RecordPaintDepth{bonnet, depths}}), done);
            QCOMPARE(kiosk.ask(appraiser, fresh, {car::ReadOdometer{90'200, DistanceUnit::Miles}}),
                     done);
            QCOMPARE(kiosk.ask(appraiser, fresh, {car::FinishAppraisal{}}), done);
            QVERIFY(holds(kiosk));
            QTRY_COMPARE(kiosk.standing().kept.size(), std::size_t(7));
            QStringList deeds;
            for (const KeptRequest& request : kiosk.standing().kept) {
                QCOMPARE(request.works.size(), std::size_t(1));
                deeds.append(request.works.front().title + QStringLiteral(": ") +
                             deedWords(request.asked));
            }
            QVERIFY2(deeds.at(0).startsWith("Bay 1 "), qPrintable(deeds.at(0)));
            QVERIFY2(deeds.at(0).endsWith(": Moved there"), qPrintable(deeds.at(0)));
            QCOMPARE(deeds.at(1), QStringLiteral("Row 2: Moved there"));
            QVERIFY2(deeds.at(2).contains("tyre: Tread measured"), qPrintable(deeds.at(2)));
            QVERIFY2(deeds.at(3).contains("tyre: Tyre read"), qPrintable(deeds.at(3)));
            QCOMPARE(deeds.at(4), QStringLiteral("Bonnet: Paint measured"));
            QCOMPARE(deeds.at(5), QStringLiteral("Odometer: Read: 90200 mi"));
            QCOMPARE(deeds.at(6), QStringLiteral("Walk-round: Finished"));
            QVERIFY(QDir().mkpath(copy));
            for (const QString& name : QDir(folder).entryList(QDir::Files))
                QVERIFY(QFile::copy(folder + '/' + name, copy + '/' + name));
        }
        {
            Kiosk kiosk(house, copy);
            QVERIFY(resultOf(kiosk.opening));
            QTRY_COMPARE(kiosk.standing().kept.size(), std::size_t(7));
            QVERIFY(holds(kiosk));
            house.wire.heal();
            QTRY_VERIFY_WITH_TIMEOUT(!kiosk.standing().away, patientMs);
            QCOMPARE(kiosk.standing().kept.size(), std::size_t(0));
            QVERIFY(holds(kiosk));
        }
        const QString once = house.entries(fresh) + house.entries(house.car);
        Kiosk kiosk(house, folder);
        QVERIFY(resultOf(kiosk.opening));
        QTRY_VERIFY_WITH_TIMEOUT(kiosk.standing().shared && !kiosk.standing().away, patientMs);
        QCOMPARE(kiosk.standing().kept.size(), std::size_t(0));
        QCOMPARE(house.entries(fresh) + house.entries(house.car), once);
        const auto store = house.database.open();
        QCOMPARE(
            told(Verifier(store->ledger(), [](const std::set<PhotoId>&) { return VaultReport{}; })
                     .run()),
            QString());
    }

    // The bay is one for all kiosks.
    void bayThatWasTakenMeanwhile_isTold_withBothStories()
    {
        House house;
        Alone alone(house, m_folder->path());
        QVERIFY(alone.isCutOff());
        const BayId lift = house.bench.lift;
        QCOMPARE(alone.kiosk.ask(house.who, house.car, {car::MoveCar{lift, {}}}), done);
        QCOMPARE(alone.elsewhere(house.who, house.other, {car::MoveCar{lift, {}}}), done);
        QVERIFY(alone.isBack());
        QCOMPARE(alone.refused().size(), 1);
        const QString other = alone.kiosk.car(house.other).identity.stockNumber;
        QVERIFY2(alone.refused().front().contains(other), qPrintable(alone.refused().front()));
        QVERIFY(alone.kiosk.car(house.car).bay.isNull());
        QCOMPARE(alone.kiosk.car(house.other).bay, lift);
    }

    // Else a car that was moved this morning would stand where it stood last night.
    void carThatWasMovedLater_staysThere()
    {
        House house;
        Alone alone(house, m_folder->path());
        QVERIFY(alone.isCutOff());
        QCOMPARE(alone.kiosk.ask(house.who, house.car, {car::MoveCar{{}, "yard, row 2"}}), done);
        house.clock.pass(30);
        QCOMPARE(alone.elsewhere(house.who, house.car, {car::MoveCar{house.bench.lift, {}}}), done);
        QVERIFY(alone.isBack());
        QCOMPARE(alone.refused(), QStringList{QStringLiteral(
                                      "Moved there: The car was moved again later. "
                                      "Look where it stands, and move it if that is wrong.")});
        QCOMPARE(alone.kiosk.car(house.car).bay, house.bench.lift);
    }

    // Moved before it, and told after it: the last move is the last one.
    void carThatWasMovedBefore_isMoved()
    {
        House house;
        Alone alone(house, m_folder->path());
        QVERIFY(alone.isCutOff());
        QCOMPARE(alone.elsewhere(house.who, house.car, {car::MoveCar{{}, "yard, row 2"}}), done);
        house.clock.pass(30);
        QCOMPARE(alone.kiosk.ask(house.who, house.car, {car::MoveCar{house.bench.lift, {}}}), done);
        QVERIFY(alone.isBack());
        QCOMPARE(alone.refused(), QStringList());
        QCOMPARE(alone.kiosk.car(house.car).bay, house.bench.lift);
    }

    void olderMeasurement_neverStandsForALaterOne()
    {
        House house;
        CarId fresh;
        house.onBench([&] { fresh = house.bench.bringIn(); });
        Alone alone(house, m_folder->path());
        QVERIFY(alone.isCutOff());
        const PersonId who = house.bench.appraiser;
        const PlaceId rear{"tyre-rear-left"};
        QCOMPARE(alone.kiosk.ask(who, fresh, {car::RecordTyre{frontLeft, Tread{60, 60, 60}}}),
                 done);
        QCOMPARE(alone.kiosk.ask(who, fresh, {car::RecordTread{rear, {60, 60, 60}}}), done);
        QCOMPARE(alone.kiosk.ask(who, fresh, {car::RecordPaintDepth{bonnet, {112, 118, 121}}}),
                 done);
        QCOMPARE(alone.kiosk.ask(who, fresh, {car::ReadOdometer{90'200, DistanceUnit::Miles}}),
                 done);
        house.clock.pass(30);
        QCOMPARE(alone.elsewhere(who, fresh,
                                 {car::RecordTread{frontLeft, {31, 30, 29}},
                                  car::RecordPaintDepth{bonnet, {240, 251, 262}},
                                  car::ReadOdometer{90'204, DistanceUnit::Miles}}),
                 done);
        QVERIFY(alone.isBack());
        const QString later = QStringLiteral("This was measured again later. Look at the car; "
                                             "measure it once more if that is wrong.");
        QCOMPARE(alone.refused(), (QStringList{QStringLiteral("Tread measured: ") + later,
                                               QStringLiteral("Paint measured: ") + later,
                                               QStringLiteral("Read: 90200 mi: ") + later}));
        const CarState now = alone.kiosk.car(fresh);
        QCOMPARE(now.treads.at(frontLeft), (Tread{31, 30, 29}));
        QCOMPARE(now.treads.at(rear), (Tread{60, 60, 60})); // that nobody measured since
        QCOMPARE(now.paint.at(bonnet), (std::vector<int>{240, 251, 262}));
        QCOMPARE(now.lastOdometer()->value, 90'204);
    }

    // An entry is dated no earlier than the car's last, whoever made that: what this kiosk kept
    // itself is no later work for what it kept next.
    void whatWasKeptHere_standsInNoWayOfWhatWasKeptNext()
    {
        House house;
        CarId fresh;
        house.onBench([&] { fresh = house.bench.bringIn(); });
        Alone alone(house, m_folder->path());
        QVERIFY(alone.isCutOff());
        const PersonId who = house.bench.appraiser;
        QCOMPARE(alone.kiosk.ask(house.who, house.car, {car::StartWork{house.work}}), done);
        QCOMPARE(alone.kiosk.ask(who, fresh, {car::MoveCar{{}, "yard, row 1"}}), done);
        QCOMPARE(alone.kiosk.ask(who, fresh, {car::RecordTread{frontLeft, {60, 60, 60}}}), done);
        house.clock.pass(10);
        QCOMPARE(alone.kiosk.ask(house.who, house.car, {car::PauseWork{house.work, house.who}}),
                 done);
        QCOMPARE(alone.kiosk.ask(who, fresh, {car::MoveCar{{}, "yard, row 2"}}), done);
        QCOMPARE(alone.kiosk.ask(who, fresh, {car::RecordTread{frontLeft, {58, 58, 58}}}), done);
        house.clock.pass(20);
        for (const CarId& car : {house.car, fresh})
            QCOMPARE(alone.elsewhere(house.bench.manager, car,
                                     {car::ChangePromise{QDate(2031, 7, 1), "asked for"}}),
                     done);
        QVERIFY(alone.isBack());
        QCOMPARE(alone.refused(), QStringList());
        QVERIFY(!alone.kiosk.car(house.car).operation(house.work)->isRunning());
        QCOMPARE(alone.kiosk.car(fresh).parking, QStringLiteral("yard, row 2"));
        QCOMPARE(alone.kiosk.car(fresh).treads.at(frontLeft), (Tread{58, 58, 58}));
    }

    // What this kiosk kept before has the numbers in its copy that others' entries have at the
    // server.
    void signature_behindOtherKeptWork_isMeasuredByWhatTheServerHad()
    {
        House house;
        Alone alone(house, m_folder->path());
        QVERIFY(alone.isCutOff());
        const PersonId who = house.who;
        const auto startThere = [&](PersonId other) {
            return alone.elsewhere(other, house.car, {car::StartWork{house.work}});
        };
        QCOMPARE(alone.kiosk.ask(who, house.car, {car::StartWork{house.work}}), done);
        QCOMPARE(alone.kiosk.ask(who, house.car, {car::MoveCar{house.bench.lift, {}}}), done);
        const Operation work = *alone.kiosk.car(house.car).operation(house.work);
        for (const ReadingSpec& spec : work.spec->readings)
            QCOMPARE(alone.kiosk.ask(
                         who, house.car,
                         {car::TakeReading{
                             house.work, spec.key, {}, Workbench::goodValue(work, spec, {})}}),
                     done);
        QCOMPARE(alone.kiosk.ask(who, house.car, {car::SignOff{house.work, {}}}), done);
        QCOMPARE(startThere(house.bench.manager), done);
        QVERIFY(alone.isBack());
        QCOMPARE(alone.refused().size(), 1);
        QVERIFY2(alone.refused().front().contains("Others were at this work since"),
                 qPrintable(alone.refused().front()));
        QVERIFY(alone.kiosk.car(house.car).operation(house.work)->isRunning());
    }

    // What stands in the ledger, and who signed it, only the server knows.
    void corrections_waitForTheServer()
    {
        House house;
        Alone alone(house, m_folder->path());
        QVERIFY(alone.isCutOff());
        QCOMPARE(alone.kiosk.ask(house.bench.manager, house.car,
                                 {car::CorrectFacts{carWith({}), "misread", house.bench.photo()}}),
                 notKeptWords());
        Identity other = alone.kiosk.car(house.car).identity;
        other.model = QStringLiteral("Tarn 1.4");
        QCOMPARE(alone.kiosk.ask(house.bench.manager, house.car,
                                 {car::CorrectIdentity{other, "misread"}}),
                 notKeptWords());
    }

private:
    std::unique_ptr<QTemporaryDir> m_folder;
};

RAMPLIGHT_TEST(QCoreApplication, TestKeptMoves)
#include "tst_keptmoves.moc"
