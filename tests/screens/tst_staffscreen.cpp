// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "managerhands.h"
#include "support/testmain.h"

#include <QLocale>
#include <QQuickItem>
#include <QSignalSpy>
#include <QTest>

#include <algorithm>

using namespace ramplight;
using namespace ramplight::test;

/// People and bays by touch; every change is signed with the PIN again.
class tst_StaffScreen : public QObject
{
    Q_OBJECT

private slots:
    void init() { failOnQmlWarnings(); }
    void newPerson_isAdded_andCanSignIn_data();
    void newPerson_isAdded_andCanSignIn();
    void skillsAndRights_areChanged();
    void daysAway_areEntered_andTakenBack_data();
    void daysAway_areEntered_andTakenBack();
    void ownWeek_isSetByTouch_data();
    void ownWeek_isSetByTouch();
    void extraHours_areEntered_andTakenBack_data();
    void extraHours_areEntered_andTakenBack();
    void newPin_replacesTheOldOne();
    void lockedName_isToldToTheManagers_alsoAfterTheNextStart();
    void whoLeft_isNotOfferedAnyMore();
    void lastManager_cannotBeLockedOut();
    void technician_changesNobody();
    void newBay_standsOnTheWall();
    void endOfShift_pausesAll();
};

namespace {

const auto otherPin = QStringLiteral("161803");

/// What the person's sheet has buttons for that do not lie on its paper.
QStringList besideTheirSheet(const KioskBench& bench)
{
    QStringList beside;
    for (const QQuickItem* sheet : bench.ofType("PersonSheet"))
        for (const QQuickItem* button : bench.ofType("ActionButton")) {
            const QQuickItem* paper = button;
            while (paper != nullptr && paper->parentItem() != sheet)
                paper = paper->parentItem();
            if (paper != nullptr && !liesWithin(button, paper))
                beside.append(button->property("text").toString());
        }
    return beside;
}

/// A time's button for a step; null when it is not shown.
QQuickItem* stepOf(const KioskBench& bench, const QString& title, const QString& words)
{
    QQuickItem* step = bench.ofType("TimeStep", "title", title);
    for (QQuickItem* button : bench.ofType("ActionButton"))
        if (step != nullptr && step->isAncestorOf(button) &&
            button->property("text").toString() == words)
            return button;
    return nullptr;
}

/// The same new PIN twice on the form's pad.
bool choosePin(KioskBench& bench, const QString& pin)
{
    NewPin& chosen = *bench.shell().staff()->newPin();
    return bench.enterPin(pin) &&
           bench.until([&] { return chosen.again(); }, QStringLiteral("once more")) &&
           bench.enterPin(pin) &&
           bench.until([&] { return chosen.isReady(); }, QStringLiteral("both the same"));
}

bool accepts(BenchHouse& house, PersonId person, const QString& pin)
{
    auto tried = house.desk().tryPin(person, Secret(pin.toLatin1()), {});
    tried.waitForFinished();
    const auto answer = tried.result();
    return answer && answer->outcome == SignInAnswer::Outcome::SignedIn;
}

/// As if the kiosk were killed after the last wrong PIN, before anybody was told.
void markLocked(BenchHouse& house, PersonId person)
{
    auto marked = house.store().run([person, now = house.clock.now()](Workshop&, Store& store) {
        return store.failures().add(person, {SignInMark::Kind::Lock, now});
    });
    marked.waitForFinished();
    QVERIFY(marked.result());
}

/// Whose locked names stand in the ledger.
std::vector<PersonId> alarms(BenchHouse& house)
{
    std::vector<PersonId> people;
    auto history = house.desk().siteHistory();
    history.waitForFinished();
    const auto entries = history.result();
    for (const SiteEnvelope& entry : entries.value())
        if (const auto* alarm = std::get_if<PinAlarm>(&entry.event))
            people.push_back(alarm->person);
    return people;
}

} // namespace

void tst_StaffScreen::newPerson_isAdded_andCanSignIn_data()
{
    QTest::addColumn<QSize>("size");
    QTest::newRow("wide") << QSize(1920, 1080);
    QTest::newRow("tall") << QSize(1080, 1920);
}

void tst_StaffScreen::newPerson_isAdded_andCanSignIn()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    bench.show(size);
    QVERIFY(goToStaff(bench, QStringLiteral("Runa Talbeck")));
    bench.shoot(QStringLiteral("staff"));
    StaffView& view = *bench.shell().staff();
    QVERIFY(bench.tap(QStringLiteral("Add a person")));
    QVERIFY(bench.write(QStringLiteral("Name"), QStringLiteral("Wyn")));
    QVERIFY(bench.tap(bench.titleOf(view.skills(), QStringLiteral("glass"))));
    QVERIFY(bench.tap(bench.titleOf(view.rights(), QStringLiteral("check"))));
    QVERIFY(choosePin(bench, otherPin));
    bench.shoot(QStringLiteral("staff-new"));
    QVERIFY(bench.tap(QStringLiteral("Add")));
    QVERIFY(signAgain(bench));
    QVERIFY(bench.until([&] { return !house.person(QStringLiteral("Wyn")).isNull(); },
                        QStringLiteral("the person")));
    const PersonId wyn = house.person(QStringLiteral("Wyn"));
    const Person person = *house.site().person(wyn);
    QVERIFY(person.active);
    QCOMPARE(person.skills, std::vector<Skill>{Skill::Glass});
    QVERIFY(person.can(Right::Work) && person.can(Right::Check) && !person.can(Right::Manage));
    QVERIFY(bench.until(
        [&] { return view.ask()->what() == QLatin1StringView("pin") && !view.ask()->busy(); },
        QStringLiteral("the PIN is kept")));
    QVERIFY2(!view.ask()->refused(), qPrintable(view.ask()->words()));
    QVERIFY(accepts(house, wyn, otherPin));
    QVERIFY(!accepts(house, wyn, BenchHouse::pin()));
    QVERIFY(bench.untilSays(QStringLiteral("Wyn")));
}

void tst_StaffScreen::skillsAndRights_areChanged()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const PersonId nell = house.person(QStringLiteral("Nell"));
    bench.show();
    QVERIFY(goToStaff(bench, QStringLiteral("Runa Talbeck")));
    StaffView& view = *bench.shell().staff();
    QVERIFY(bench.tap(QStringLiteral("Nell Quarrie")));
    QVERIFY(bench.tap(bench.titleOf(view.skills(), QStringLiteral("trim")))); // off
    QVERIFY(bench.tap(bench.titleOf(view.skills(), QStringLiteral("valet"))));
    QVERIFY(bench.tap(bench.titleOf(view.rights(), QStringLiteral("appraise"))));
    QVERIFY(bench.tap(QStringLiteral("Save")));
    QVERIFY(signAgain(bench));
    QVERIFY(bench.until([&] { return house.site().person(nell)->can(Right::Appraise); },
                        QStringLiteral("the right")));
    QVERIFY(house.site().person(nell)->has(Skill::SmartRepair));
    QVERIFY(house.site().person(nell)->has(Skill::Valet));
    QVERIFY(!house.site().person(nell)->has(Skill::Trim));
    QVERIFY(accepts(house, nell, BenchHouse::pin())); // the PIN is not touched
}

void tst_StaffScreen::daysAway_areEntered_andTakenBack_data()
{
    QTest::addColumn<QSize>("size");
    QTest::newRow("wide") << QSize(1920, 1080);
    QTest::newRow("tall") << QSize(1080, 1920);
}

void tst_StaffScreen::daysAway_areEntered_andTakenBack()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const PersonId nell = house.person(QStringLiteral("Nell"));
    const auto away = [&] { return house.site().person(nell)->times.away; };
    bench.show(size);
    QVERIFY(goToStaff(bench, QStringLiteral("Runa Talbeck")));
    QVERIFY(bench.tap(QStringLiteral("Nell Quarrie")));
    QCOMPARE(besideTheirSheet(bench), QStringList());
    bench.shoot(QStringLiteral("staff-person"));
    QVERIFY(bench.tap(QStringLiteral("Days away")));
    QVERIFY(bench.untilSays(QStringLiteral("Here on every day on which the house works.")));
    QVERIFY(bench.tap(QStringLiteral("tomorrow")));
    const QDate first = dayOf(house.clock.now(), house.site().rules).addDays(1);
    const auto chip = [](QDate day) {
        return QLocale().toString(day, QStringLiteral("ddd d MMM"));
    };
    QVERIFY(bench.tap(chip(first.addDays(4))));
    // A day that is further off than the pickers show.
    QVERIFY(bench.tap(QStringLiteral("A later day")));
    const QDate far = first.addDays(-1).addMonths(3);
    QVERIFY(bench.tap(QStringLiteral("in 3 months")));
    bench.shoot(QStringLiteral("staff-away-until"));
    QVERIFY(bench.tap(chip(far.addDays(1))));
    bench.shoot(QStringLiteral("staff-away"));
    QVERIFY(bench.tap(QStringLiteral("Save")));
    QVERIFY(signAgain(bench));
    const std::vector<DaysAway> expected{{first, first.addDays(4)}, {far, far.addDays(1)}};
    QVERIFY(bench.until([&] { return away() == expected; }, QStringLiteral("the days away")));
    // Taken back by touch.
    QVERIFY(bench.tap(QStringLiteral("Nell Quarrie")));
    QVERIFY(bench.tap(QStringLiteral("Days away")));
    QVERIFY(bench.untilSays(QStringLiteral("5 days")));
    QVERIFY(bench.tap(dayWords(first) + QStringLiteral(" to ") + dayWords(first.addDays(4))));
    QVERIFY(bench.tap(QStringLiteral("Save")));
    QVERIFY(signAgain(bench));
    QVERIFY(bench.until([&] { return away().size() == 1; }, QStringLiteral("one is left")));
}

void tst_StaffScreen::ownWeek_isSetByTouch_data()
{
    daysAway_areEntered_andTakenBack_data();
}

void tst_StaffScreen::ownWeek_isSetByTouch()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const PersonId nell = house.person(QStringLiteral("Nell"));
    const auto week = [&] { return house.site().person(nell)->times.week; };
    const WeekHours usual = house.site().rules.week;
    const auto hours = [](int from, int to) {
        return QStringLiteral("%1 to %2").arg(hourWords(from), hourWords(to));
    };
    bench.show(size);
    QVERIFY(goToStaff(bench, QStringLiteral("Runa Talbeck")));
    QVERIFY(bench.tap(QStringLiteral("Nell Quarrie")));
    QVERIFY(bench.tap(QStringLiteral("Own week")));
    QVERIFY(bench.untilSays(QLocale().dayName(3)));
    bench.shoot(QStringLiteral("staff-week-house"));
    // Wednesdays are off; the others begin half an hour earlier and have no break.
    QVERIFY(bench.tap(QStringLiteral("Hours of their own")));
    QVERIFY(bench.tap(QLocale().dayName(3)));
    QVERIFY(bench.tap(QStringLiteral("Off")));
    QVERIFY(bench.tap(QLocale().dayName(1)));
    QVERIFY(bench.tap(stepOf(bench, QStringLiteral("Begins"), QStringLiteral("earlier"))));
    QVERIFY(bench.untilSays(
        QStringLiteral("%1, break 12:00 to 12:30").arg(hours(7 * 60 + 30, 17 * 60))));
    bench.shoot(QStringLiteral("staff-week-day"));
    QVERIFY(bench.tap(QStringLiteral("No break")));
    QVERIFY(bench.tap(QStringLiteral("All working days so")));
    QVERIFY(bench.untilSays(hours(7 * 60 + 30, 17 * 60)));
    bench.shoot(QStringLiteral("staff-week"));
    QVERIFY(bench.tap(QStringLiteral("Save")));
    QVERIFY(signAgain(bench));
    WeekHours expected = usual;
    for (DayHours& day : expected)
        if (!day.isOff())
            day = {7 * 60 + 30, 17 * 60, 0, 0};
    expected[2] = {};
    QVERIFY(bench.until([&] { return week() == expected; }, QStringLiteral("the week")));
    // A week without a day of work is said to be none.
    QVERIFY(bench.tap(QStringLiteral("Nell Quarrie")));
    QVERIFY(bench.tap(QStringLiteral("Own week")));
    for (const int day : {1, 2, 4, 5}) {
        QVERIFY(bench.tap(QLocale().dayName(day)));
        QVERIFY(bench.tap(QStringLiteral("Off")));
    }
    QVERIFY(bench.untilSays(QStringLiteral("So it cannot be: work is done on one day of the week "
                                           "at least.")));
    // As the house again.
    QVERIFY(bench.tap(QStringLiteral("As the house")));
    QVERIFY(bench.tap(QStringLiteral("Save")));
    QVERIFY(signAgain(bench));
    QVERIFY(bench.until([&] { return week().empty(); }, QStringLiteral("the house's week")));
}

void tst_StaffScreen::extraHours_areEntered_andTakenBack_data()
{
    daysAway_areEntered_andTakenBack_data();
}

void tst_StaffScreen::extraHours_areEntered_andTakenBack()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const PersonId nell = house.person(QStringLiteral("Nell"));
    const auto extra = [&] { return house.site().person(nell)->times.extra; };
    bench.show(size);
    QVERIFY(goToStaff(bench, QStringLiteral("Runa Talbeck")));
    QVERIFY(bench.tap(QStringLiteral("Nell Quarrie")));
    QVERIFY(bench.tap(QStringLiteral("Extra hours")));
    QVERIFY(bench.untilSays(QStringLiteral("None beside the usual hours.")));
    const QDate today = dayOf(house.clock.now(), house.site().rules);
    const QDate saturday = today.addDays(6 - today.dayOfWeek());
    QVERIFY(today < saturday);
    QVERIFY(bench.tap(QStringLiteral("tomorrow")));
    QVERIFY(bench.untilSays(QStringLiteral("17:00")));
    QVERIFY(bench.untilSays(QStringLiteral("19:00")));
    bench.shoot(QStringLiteral("staff-extra-hours"));
    QVERIFY(bench.tap(QStringLiteral("Add these hours")));
    QVERIFY(bench.tap(QLocale().toString(saturday, QStringLiteral("ddd d MMM"))));
    QVERIFY(bench.untilSays(QStringLiteral("12:00")));
    QVERIFY(bench.tap(QStringLiteral("Add these hours")));
    bench.shoot(QStringLiteral("staff-extra"));
    QVERIFY(bench.tap(QStringLiteral("Save")));
    QVERIFY(signAgain(bench));
    const std::vector<ExtraHours> expected{{today.addDays(1), 17 * 60, 19 * 60},
                                           {saturday, 8 * 60, 12 * 60}};
    QVERIFY(bench.until([&] { return extra() == expected; }, QStringLiteral("the hours")));
    QVERIFY(bench.tap(QStringLiteral("Nell Quarrie")));
    QVERIFY(bench.tap(QStringLiteral("Extra hours")));
    QVERIFY(bench.tap(dayWords(saturday)));
    QVERIFY(bench.tap(QStringLiteral("Save")));
    QVERIFY(signAgain(bench));
    QVERIFY(bench.until([&] { return extra().size() == 1; }, QStringLiteral("one is left")));
}

void tst_StaffScreen::newPin_replacesTheOldOne()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const PersonId nell = house.person(QStringLiteral("Nell"));
    bench.show();
    QVERIFY(goToStaff(bench, QStringLiteral("Runa Talbeck")));
    StaffView& view = *bench.shell().staff();
    QVERIFY(bench.tap(QStringLiteral("Nell Quarrie")));
    QVERIFY(bench.tap(QStringLiteral("New PIN")));
    QVERIFY(choosePin(bench, otherPin));
    QVERIFY(bench.tap(QStringLiteral("Set this PIN")));
    QVERIFY(signAgain(bench));
    QVERIFY(bench.until(
        [&] { return view.ask()->what() == QLatin1StringView("pin") && !view.ask()->busy(); },
        QStringLiteral("the PIN is kept")));
    QVERIFY2(!view.ask()->refused(), qPrintable(view.ask()->words()));
    QVERIFY(accepts(house, nell, otherPin));
    QVERIFY(!accepts(house, nell, BenchHouse::pin()));
}

void tst_StaffScreen::lockedName_isToldToTheManagers_alsoAfterTheNextStart()
{
    BenchHouse house(BenchHouse::Start::House);
    const PersonId nell = house.person(QStringLiteral("Nell"));
    const PersonId bram = house.person(QStringLiteral("Bram"));
    markLocked(house, nell);
    QVERIFY(alarms(house).empty());
    auto standing = house.desk().signInStanding(nell);
    standing.waitForFinished();
    QCOMPARE(standing.result()->outcome, SignInAnswer::Outcome::Locked);
    QVERIFY(alarms(house) == std::vector{nell});
    markLocked(house, bram);
    for (int start = 0; start < 2; ++start) {
        house.cutPower();
        // The desk asks the store before it tells that it is there.
        const QSignalSpy there(&house.desk(), &Desk::standingChanged);
        QTRY_VERIFY(!there.isEmpty());
        QVERIFY(alarms(house) == (std::vector{nell, bram}));
    }
}

void tst_StaffScreen::whoLeft_isNotOfferedAnyMore()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const PersonId nell = house.person(QStringLiteral("Nell"));
    bench.show();
    QVERIFY(goToStaff(bench, QStringLiteral("Runa Talbeck")));
    QVERIFY(bench.tap(QStringLiteral("Nell Quarrie")));
    QVERIFY(bench.tap(QStringLiteral("Works here")));
    QVERIFY(bench.tap(QStringLiteral("Save")));
    QVERIFY(signAgain(bench));
    QVERIFY(
        bench.until([&] { return !house.site().person(nell)->active; }, QStringLiteral("left")));
    QVERIFY(bench.untilSays(QStringLiteral("left")));
    QVERIFY(bench.tap(QStringLiteral("Back to the wall")));
    bench.shell().session()->signOut();
    QVERIFY(bench.tap(QStringLiteral("Who are you?")));
    QVERIFY(bench.untilSays(QStringLiteral("Sefton Ayre")));
    QVERIFY(!bench.says(QStringLiteral("Nell Quarrie")));
}

void tst_StaffScreen::lastManager_cannotBeLockedOut()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const PersonId runa = house.person(QStringLiteral("Runa"));
    const PersonId odo = house.person(QStringLiteral("Odo"));
    house.must(runa,
               site::ChangePerson{
                   odo, house.site().person(odo)->skills, {Right::Appraise, Right::Release}, true},
               QStringLiteral("Odo Farlane"));
    bench.show();
    QVERIFY(goToStaff(bench, QStringLiteral("Runa Talbeck")));
    StaffView& view = *bench.shell().staff();
    for (const QString& change :
         {QStringLiteral("Works here"), bench.titleOf(view.rights(), QStringLiteral("manage"))}) {
        // The list lies over the sign-out button, which says the name, too.
        QVERIFY(bench.tap(QStringLiteral("Runa Talbeck")));
        QVERIFY(bench.tap(change));
        QVERIFY(bench.tap(QStringLiteral("Save")));
        QVERIFY(signAgain(bench));
        QVERIFY(bench.until([&] { return view.ask()->refused(); }, QStringLiteral("refusal")));
        QCOMPARE(view.ask()->refusalId(), QStringLiteral("last-manager"));
        QVERIFY(bench.untilSays(view.ask()->words()));
        bench.shoot(QStringLiteral("staff-last-manager"));
        QVERIFY(house.site().person(runa)->active);
        QVERIFY(house.site().person(runa)->can(Right::Manage));
        QVERIFY(bench.tap(QStringLiteral("Cancel")));
        QVERIFY(bench.untilGone(QStringLiteral("Cancel")));
    }
}

void tst_StaffScreen::technician_changesNobody()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const PersonId nell = house.person(QStringLiteral("Nell"));
    bench.show();
    QVERIFY(goToStaff(bench, QStringLiteral("Bram Holloway")));
    StaffView& view = *bench.shell().staff();
    const qint64 seq = house.site().seq;
    QVERIFY(bench.tap(QStringLiteral("Nell Quarrie")));
    QVERIFY(bench.tap(QStringLiteral("Works here")));
    QVERIFY(bench.tap(QStringLiteral("Save")));
    QVERIFY(signAgain(bench));
    QVERIFY(bench.until([&] { return view.ask()->refused(); }, QStringLiteral("refusal")));
    QVERIFY(bench.untilSays(view.ask()->words()));
    QCOMPARE(house.site().seq, seq);
    QVERIFY(house.site().person(nell)->active);
}

void tst_StaffScreen::newBay_standsOnTheWall()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    bench.show();
    QVERIFY(goToStaff(bench, QStringLiteral("Runa Talbeck")));
    StaffView& view = *bench.shell().staff();
    QVERIFY(bench.tap(QStringLiteral("Add a bay")));
    QVERIFY(bench.write(QStringLiteral("Number"), QStringLiteral("7")));
    QVERIFY(bench.write(QStringLiteral("Name"), QStringLiteral("tents")));
    QVERIFY(bench.tap(bench.titleOf(view.bayKinds(), QStringLiteral("valet"))));
    bench.shoot(QStringLiteral("staff-bay"));
    QVERIFY(bench.tap(QStringLiteral("Save")));
    QVERIFY(signAgain(bench));
    QVERIFY(bench.until([&] { return house.site().bays.size() == 7; }, QStringLiteral("the bay")));
    const Bay bay = house.site().bays.rbegin()->second;
    QCOMPARE(bay.number, 7);
    QCOMPARE(bay.name, QStringLiteral("tents"));
    QCOMPARE(bay.kind, BayKind::Valet);
    QVERIFY(bench.tap(QStringLiteral("Back to the wall")));
    QVERIFY(bench.until([&] { return bench.ofType("BayTile").size() == 7; },
                        QStringLiteral("its tile")));
}

void tst_StaffScreen::endOfShift_pausesAll()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const CarId car = house.bringIn(QStringLiteral("K-7"));
    const OperationId work = house.open(car, "arrival-check");
    const PersonId odo = house.person(QStringLiteral("Odo"));
    house.must(odo, car, {car::ReadCautions{work}, car::StartWork{work}});
    house.clock.goOn(20);
    bench.show();
    QVERIFY(goToStaff(bench, QStringLiteral("Runa Talbeck")));
    QVERIFY(bench.tap(QStringLiteral("End of the shift: pause all")));
    QVERIFY(signAgain(bench));
    QVERIFY(bench.until([&] { return !house.car(car).operation(work)->isRunning(); },
                        QStringLiteral("paused")));
    const Segment segment = house.car(car).operation(work)->segments.back();
    QCOMPARE(segment.stop, StopKind::ShiftEnd);
    QCOMPARE(segment.measuredMinutes(), 20);
}

RAMPLIGHT_TEST(QGuiApplication, tst_StaffScreen)
#include "tst_staffscreen.moc"
