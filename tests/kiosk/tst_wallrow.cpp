// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/wallrow.h"

#include "kiosk/kioskenums.h"
#include "support/testmain.h"
#include "viewbench.h"

#include <QTest>

namespace ramplight::test {

namespace {

CardLine line(const char* title, Skill skill, OperationState state, bool safety = false)
{
    CardLine made;
    made.title = QString::fromLatin1(title);
    made.skill = skill;
    made.state = state;
    made.safety = safety;
    made.usual = {10, 20, 40};
    return made;
}

CarCard card(CarStatus status, std::vector<CardLine> lines)
{
    CarCard made;
    made.car = CarId{QStringLiteral("c")};
    made.identity.stockNumber = QStringLiteral("R-208");
    made.identity.make = QStringLiteral("Pellew");
    made.identity.model = QStringLiteral("Anda 1.4");
    made.identity.colour = QStringLiteral("slate");
    made.status = status;
    made.outstanding = std::move(lines);
    return made;
}

} // namespace

class TestWallRow : public QObject
{
    Q_OBJECT

private slots:
    void band_tellsTheWholeCard_data();
    void band_tellsTheWholeCard();
    void foot_saysWhoAndWhat_data();
    void foot_saysWhoAndWhat();
    void forgottenTimer_isAskedAbout();
    void forgottenTimer_standsForTheCar();
    void lines_fitTheRoomAndTheRestIsCounted();
    void lines_ofTheFilteredSkill_lead();
    void lines_sayTheirState_data();
    void lines_sayTheirState();
    void notLookedAt_isASafetyLine();
    void spokenFindings_areASafetyLine_andHatched();
    void workThatCountsNoMore_isNamed();
    void promise_thatIsOver_isLate_data();
    void promise_thatIsOver_isLate();
    void restraints_becomeAStrap();
    void held_isSaidOfWhatTheWallHatches();
    void skill_waitsFor_data();
    void skill_waitsFor();
    void stockNumbers_areOrderedNaturally_data();
    void stockNumbers_areOrderedNaturally();

private:
    ViewBench m_kiosk;
    SiteBook m_book{m_kiosk.desk, m_kiosk.bench.catalogue};
    Moment m_now;

private slots:
    void initTestCase()
    {
        m_book.take(*m_kiosk.bench.ledger.site());
        m_now = m_kiosk.bench.clock.now();
    }
};

void TestWallRow::band_tellsTheWholeCard_data()
{
    using S = OperationState;
    QTest::addColumn<CarCard>("card");
    QTest::addColumn<int>("band");
    const CardLine waits = line("a", Skill::Trim, S::Waiting);
    const CardLine runs = line("a", Skill::Trim, S::InHand);
    const CardLine blocked = line("a", Skill::Trim, S::Blocked);
    const CardLine paused = line("a", Skill::Trim, S::Paused);
    const CardLine awaits = line("a", Skill::Trim, S::AwaitingCheck);
    const CardLine safety = line("a", Skill::Wheels, S::Waiting, true);
    CardLine check = line("a", Skill::Checks, S::Waiting, true);
    check.check = true;
    const auto row = [](const char* name, CarStatus status, std::vector<CardLine> lines, int band) {
        QTest::newRow(name) << card(status, std::move(lines)) << band;
    };
    row("arriving", CarStatus::Arriving, {waits}, Wall::Waiting);
    row("waiting", CarStatus::InPrep, {waits, blocked}, Wall::Waiting);
    row("in hand", CarStatus::InPrep, {waits, runs}, Wall::InHand);
    row("paused", CarStatus::InPrep, {waits, paused}, Wall::Paused);
    row("awaits a second signature", CarStatus::InPrep, {awaits, waits}, Wall::AwaitingCheck);
    row("nothing can go on", CarStatus::InPrep, {blocked}, Wall::Blocked);
    row("held", CarStatus::Held, {safety, runs}, Wall::Held);
    row("held by a check alone", CarStatus::Held, {check, waits}, Wall::AwaitingCheck);
    row("held by a check and by work", CarStatus::Held, {check, safety}, Wall::Held);
    row("held without a line: high voltage", CarStatus::Held, {waits}, Wall::Held);
    row("ready", CarStatus::ReadyForRelease, {}, Wall::Ready);
    row("released", CarStatus::Released, {}, Wall::NoBand);
    row("withdrawn", CarStatus::Withdrawn, {waits}, Wall::NoBand);
    CarCard unseen = card(CarStatus::Held, {check});
    unseen.notLookedAtCount = 1;
    QTest::newRow("a check, and places not looked at") << unseen << int(Wall::Held);
    // Paint that dries holds nothing by safety; adhesive that cures does.
    CarCard dries = card(CarStatus::Held, {check});
    dries.safetyHolds = 1;
    dries.curingUntil = m_now.plusMinutes(40);
    dries.statusAfterCuring = CarStatus::Held;
    QTest::newRow("a check, and paint that dries") << dries << int(Wall::AwaitingCheck);
    dries.safetyHolds = 2;
    QTest::newRow("a check, and adhesive that cures") << dries << int(Wall::Held);
    dries.curingUntil = m_now;
    QTest::newRow("a check, and adhesive that has cured") << dries << int(Wall::AwaitingCheck);
    CarCard undecided = card(CarStatus::Held, {check});
    undecided.safetyHolds = 2;
    QTest::newRow("a check, and a finding nobody decided about") << undecided << int(Wall::Held);
    CarCard old = card(CarStatus::Held, {check});
    old.safetyHolds = 1;
    old.freshUntil = m_now;
    old.statusOnceOld = CarStatus::Held;
    QTest::newRow("a check, and work that counts no more") << old << int(Wall::Held);
}

void TestWallRow::band_tellsTheWholeCard()
{
    QFETCH(CarCard, card);
    QTEST(bandOf(card, m_now), "band");
}

void TestWallRow::foot_saysWhoAndWhat_data()
{
    using S = OperationState;
    QTest::addColumn<CarCard>("card");
    QTest::addColumn<QString>("who");
    QTest::addColumn<QString>("what");
    const Moment now = m_now;
    CardLine runs = line("a", Skill::Wheels, S::InHand);
    runs.people = {m_kiosk.bench.wheels};
    runs.runningSince = {now.ms - 30 * 60'000};
    runs.minutesBefore = 8;
    CarCard running = card(CarStatus::InPrep, {line("x", Skill::Glass, S::Waiting), runs});
    QTest::newRow("in hand") << running << "Caspar · wheels"
                             << "38 min";
    running.restraints = {{Restraint::Move, {}, {}}, {Restraint::Drive, {}, {}}};
    QTest::newRow("in hand, not to be moved") << running << "Caspar · wheels"
                                              << "38 min";
    running.outstanding.back().people.push_back(m_kiosk.bench.painter);
    running.restraints.clear();
    QTest::newRow("two people") << running << "Caspar, Noor · wheels"
                                << "38 min";
    QTest::newRow("ready") << card(CarStatus::ReadyForRelease, {}) << "ready for release"
                           << "wants a signature";
    QTest::newRow("next") << card(CarStatus::InPrep, {line("a", Skill::Glass, S::Waiting)})
                          << "waits for glass"
                          << "";
    CardLine back = line("a", Skill::Glass, S::Waiting);
    back.sentBack = true;
    QTest::newRow("sent back") << card(CarStatus::InPrep, {back}) << "sent back: glass"
                               << "";
    CardLine paused = line("a", Skill::Glass, S::Paused);
    paused.stateSince = {now.ms - 15 * 60'000};
    QTest::newRow("paused") << card(CarStatus::InPrep, {paused}) << "paused: glass"
                            << "for 15 min";
    CardLine awaits = line("a", Skill::Wheels, S::AwaitingCheck, true);
    awaits.stateSince = {now.ms - 12 * 60'000};
    awaits.waitsFor = QStringLiteral("Cove Wheels");
    QTest::newRow("back from a firm") << card(CarStatus::Held, {awaits}) << "to look over: wheels"
                                      << "back from Cove Wheels";
    awaits.check = true;
    QTest::newRow("awaiting check") << card(CarStatus::Held, {awaits}) << "awaiting check"
                                    << "for 12 min";
    CardLine part = line("a", Skill::Trim, S::Blocked);
    part.waitsFor = QStringLiteral("mirror glass");
    part.due = m_book.times().dateOf(now).addDays(1);
    QTest::newRow("a part") << card(CarStatus::InPrep, {part}) << "waits: mirror glass"
                            << "due Fri";
    part.due = m_book.times().dateOf(now).addDays(-2);
    QTest::newRow("a part that should be here")
        << card(CarStatus::InPrep, {part}) << "waits: mirror glass"
        << "was due 25 Feb";
    CarCard curing = card(CarStatus::Held, {});
    curing.curingUntil = now.plusMinutes(40);
    QTest::newRow("curing") << curing << "curing"
                            << "40 min more";
    QTest::newRow("arriving") << card(CarStatus::Arriving, {line("a", Skill::Trim, S::Waiting)})
                              << "appraisal not finished"
                              << "";
}

void TestWallRow::foot_saysWhoAndWhat()
{
    QFETCH(CarCard, card);
    const WallRow row = wallRow(card, m_book, m_now, {});
    QTEST(row.footWho, "who");
    QTEST(row.footWhat, "what");
    QCOMPARE(row.pastDue, row.footWhat.startsWith(QStringLiteral("was due")));
}

void TestWallRow::forgottenTimer_isAskedAbout()
{
    CardLine runs = line("a", Skill::Wheels, OperationState::InHand); // usually 20 min
    runs.people = {m_kiosk.bench.wheels};
    runs.runningSince = {m_now.ms - 120 * 60'000};
    runs.minutesBefore = 300; // earlier stretches were ended
    const WallRow lasting = wallRow(card(CarStatus::InPrep, {runs}), m_book, m_now, {});
    QVERIFY(!lasting.forgotten);
    QCOMPARE(lasting.footWhat, QStringLiteral("7 h"));
    runs.runningSince = {m_now.ms - 121 * 60'000};
    const WallRow forgotten = wallRow(card(CarStatus::InPrep, {runs}), m_book, m_now, {});
    QVERIFY(forgotten.forgotten);
    QCOMPARE(forgotten.footWho, QStringLiteral("Caspar · wheels"));
    QCOMPARE(forgotten.footWhat, QStringLiteral("runs since %1: still working?")
                                     .arg(m_book.times().clock(runs.runningSince)));
}

void TestWallRow::forgottenTimer_standsForTheCar()
{
    CardLine longest = line("a", Skill::SmartRepair, OperationState::InHand);
    longest.usual = {60, 150, 240};
    longest.people = {m_kiosk.bench.painter};
    longest.runningSince = {m_now.ms - 200 * 60'000};
    CardLine forgotten = line("b", Skill::Wheels, OperationState::InHand);
    forgotten.people = {m_kiosk.bench.wheels};
    forgotten.runningSince = {m_now.ms - 130 * 60'000};
    const CarCard both = card(CarStatus::InPrep, {longest, forgotten});
    QCOMPARE(inHandOn(both, m_book.rules(), m_now)->title, QStringLiteral("b"));
    QCOMPARE(whoWorksOn(both), (std::vector{m_kiosk.bench.painter, m_kiosk.bench.wheels}));
    // An hour earlier nobody was asked, and the longest stood for it.
    const Moment earlier{m_now.ms - 60 * 60'000};
    QCOMPARE(inHandOn(both, m_book.rules(), earlier)->title, QStringLiteral("a"));
    QVERIFY(inHandOn(card(CarStatus::InPrep, {}), m_book.rules(), m_now) == nullptr);
}

void TestWallRow::lines_fitTheRoomAndTheRestIsCounted()
{
    std::vector<CardLine> lines;
    for (const char* title : {"a", "b", "c", "d", "e"})
        lines.push_back(line(title, Skill::Trim, OperationState::Waiting, *title == 'a'));
    const WallRow row = wallRow(card(CarStatus::Held, lines), m_book, m_now, {{}, 3});
    QCOMPARE(row.lineTitles.join(u' '), QStringLiteral("a b c"));
    QCOMPARE(row.lineSigns, (QList<int>{Wall::Safety, Wall::Ordinary, Wall::Ordinary}));
    QCOMPARE(row.lineBands.size(), 3);
    QCOMPARE(row.lineWords.size(), 3);
    QCOMPARE(row.moreCount, 2);
}

void TestWallRow::lines_ofTheFilteredSkill_lead()
{
    const std::vector<CardLine> lines{line("a", Skill::Trim, OperationState::Waiting, true),
                                      line("b", Skill::Glass, OperationState::Waiting),
                                      line("c", Skill::Glass, OperationState::Waiting)};
    const WallRow row = wallRow(card(CarStatus::Held, lines), m_book, m_now, {Skill::Glass, 2});
    QCOMPARE(row.lineTitles.join(u' '), QStringLiteral("b c"));
    QCOMPARE(row.moreCount, 1);
}

void TestWallRow::lines_sayTheirState_data()
{
    using S = OperationState;
    QTest::addColumn<CardLine>("shown");
    QTest::addColumn<QString>("words");
    QTest::newRow("waiting") << line("a", Skill::Trim, S::Waiting) << "";
    CardLine handed = line("a", Skill::Trim, S::Waiting);
    handed.assigned = m_kiosk.bench.painter;
    QTest::newRow("handed to somebody") << handed << "for Noor";
    CardLine paused = line("a", Skill::Trim, S::Paused);
    paused.minutesBefore = 65;
    QTest::newRow("paused") << paused << "paused after 1 h 05";
    QTest::newRow("awaiting check") << line("a", Skill::Trim, S::AwaitingCheck) << "awaiting check";
    CardLine part = line("a", Skill::Trim, S::Blocked);
    QTest::newRow("blocked, no more known") << part << "blocked";
    part.waitsFor = QStringLiteral("mirror glass");
    QTest::newRow("blocked for a part") << part << "waits: mirror glass";
    part.due = m_book.times().dateOf(m_now);
    QTest::newRow("blocked, with its day") << part << "waits: mirror glass, due today";
}

void TestWallRow::lines_sayTheirState()
{
    QFETCH(CardLine, shown);
    const WallRow row = wallRow(card(CarStatus::InPrep, {shown}), m_book, m_now, {});
    QTEST(row.lineWords.value(0), "words");
}

void TestWallRow::notLookedAt_isASafetyLine()
{
    CarCard unseen = card(CarStatus::Held, {line("a", Skill::Trim, OperationState::Waiting),
                                            line("b", Skill::Trim, OperationState::Waiting)});
    unseen.marks = {{at("tyre-rear-left"), PlaceMark::NotLookedAt}};
    unseen.notLookedAtCount = 1;
    const WallRow one = wallRow(unseen, m_book, m_now, {{}, 2});
    QCOMPARE(one.lineTitles.size(), 2);
    QCOMPARE(
        one.lineTitles.last(),
        QStringLiteral("Not looked at: %1").arg(placeWords(at("tyre-rear-left"), m_book.rules())));
    QCOMPARE(one.lineSigns.last(), int(Wall::Safety));
    QCOMPARE(one.moreCount, 1);
    QCOMPARE(one.marks.value(QStringLiteral("tyre-rear-left")).toInt(), int(Wall::NotLookedAt));
    unseen.notLookedAtCount = 9;
    unseen.marks.clear();
    QCOMPARE(wallRow(unseen, m_book, m_now, {{}, 2}).lineTitles.last(),
             QStringLiteral("Not looked at: 9 safety places"));
}

void TestWallRow::spokenFindings_areASafetyLine_andHatched()
{
    CardLine check = line("a", Skill::Checks, OperationState::Waiting, true);
    check.check = true;
    CarCard spoken = card(CarStatus::Held, {check});
    spoken.openDrafts = 3;
    spoken.safetyHolds = 2;
    // What cures by itself says nothing about them.
    spoken.curingUntil = {m_now.ms - 60'000};
    spoken.statusAfterCuring = CarStatus::Held;
    const WallRow row = wallRow(spoken, m_book, m_now, {});
    QCOMPARE(row.band, int(Wall::Held));
    QCOMPARE(row.lineTitles, (QStringList{"a", "Spoken, not reviewed: 3"}));
    QCOMPARE(row.lineSigns, (QList<int>{Wall::Safety, Wall::Safety}));
    // Released long ago with them, it is held by nothing.
    spoken.status = spoken.statusAfterCuring = CarStatus::Released;
    QCOMPARE(wallRow(spoken, m_book, m_now, {}).lineTitles, QStringList{"a"});
}

void TestWallRow::workThatCountsNoMore_isNamed()
{
    CarCard held = card(CarStatus::ReadyForRelease, {});
    held.freshUntil = m_now;
    held.statusOnceOld = CarStatus::Held;
    held.oldTitles = QStringLiteral("Recalls looked up");
    const WallRow old = wallRow(held, m_book, m_now, {});
    QCOMPARE(old.lineTitles, QStringList{QStringLiteral("Too old: Recalls looked up")});
    QCOMPARE(old.lineSigns, QList<int>{Wall::Safety});
    QCOMPARE(old.statusWord, QStringLiteral("held by safety"));
    QCOMPARE(wallRow(held, m_book, {m_now.ms - 1}, {}).lineTitles, QStringList());
}

void TestWallRow::held_isSaidOfWhatTheWallHatches()
{
    CardLine check = line("a", Skill::Checks, OperationState::Waiting);
    check.safety = check.check = true;
    CarCard owed = card(CarStatus::Held, {check});
    owed.safetyHolds = 1;
    const WallRow onlyChecks = wallRow(owed, m_book, m_now, {});
    QVERIFY(onlyChecks.band != Wall::Held);
    QCOMPARE(onlyChecks.statusWord, QStringLiteral("in prep"));
    CardLine work = line("b", Skill::Wheels, OperationState::Waiting);
    work.safety = true;
    CarCard open = card(CarStatus::Held, {work, check});
    open.safetyHolds = 2;
    const WallRow held = wallRow(open, m_book, m_now, {});
    QCOMPARE(held.band, int(Wall::Held));
    QCOMPARE(held.statusWord, QStringLiteral("held by safety"));
}

void TestWallRow::promise_thatIsOver_isLate_data()
{
    QTest::addColumn<int>("days");
    QTest::addColumn<bool>("late");
    QTest::addColumn<QString>("words");
    QTest::newRow("yesterday") << -1 << true << "yesterday";
    QTest::newRow("today") << 0 << false << "today";
    QTest::newRow("tomorrow") << 1 << false << "tomorrow";
}

void TestWallRow::promise_thatIsOver_isLate()
{
    QFETCH(int, days);
    CarCard promised = card(CarStatus::InPrep, {});
    QVERIFY(!wallRow(promised, m_book, m_now, {}).late);
    QCOMPARE(wallRow(promised, m_book, m_now, {}).promisedWord, QString());
    promised.promised = m_book.times().dateOf(m_now).addDays(days);
    const WallRow row = wallRow(promised, m_book, m_now, {});
    QTEST(row.late, "late");
    QTEST(row.promisedWord, "words");
}

void TestWallRow::restraints_becomeAStrap()
{
    CarCard strapped = card(CarStatus::Held, {});
    QCOMPARE(wallRow(strapped, m_book, m_now, {}).restraintWords, QString());
    const QString off = QStringLiteral("wheels are off");
    const Moment cured = m_now.plusMinutes(60);
    strapped.restraints = {{Restraint::Move, off, {}},
                           {Restraint::Drive, off, {}},
                           {Restraint::Drive, QStringLiteral("adhesive cures"), cured}};
    QCOMPARE(wallRow(strapped, m_book, m_now, {}).restraintWords,
             QStringLiteral("Do not move or drive: wheels are off, adhesive cures"));
    QCOMPARE(wallRow(strapped, m_book, cured, {}).restraintWords,
             QStringLiteral("Do not move or drive: wheels are off"));
    strapped.restraints.erase(strapped.restraints.begin(), strapped.restraints.begin() + 2);
    QCOMPARE(wallRow(strapped, m_book, m_now, {}).restraintShort, QStringLiteral("Do not drive"));
    QCOMPARE(wallRow(strapped, m_book, cured, {}).restraintShort, QString());
}

void TestWallRow::skill_waitsFor_data()
{
    using S = OperationState;
    QTest::addColumn<CardLine>("shown");
    QTest::addColumn<bool>("wheels");
    QTest::addColumn<bool>("checks");
    QTest::newRow("waiting") << line("a", Skill::Wheels, S::Waiting) << true << false;
    QTest::newRow("paused") << line("a", Skill::Wheels, S::Paused) << true << false;
    QTest::newRow("in hand") << line("a", Skill::Wheels, S::InHand) << false << false;
    QTest::newRow("blocked") << line("a", Skill::Wheels, S::Blocked) << false << false;
    CardLine second = line("a", Skill::Wheels, S::AwaitingCheck);
    second.check = true;
    QTest::newRow("awaits a second signature") << second << false << true;
    QTest::newRow("back from a firm")
        << line("a", Skill::Wheels, S::AwaitingCheck) << true << false;
    CardLine check = line("a", Skill::Wheels, S::Waiting);
    check.check = true;
    QTest::newRow("a check of this skill") << check << true << true;
    QTest::newRow("another skill") << line("a", Skill::Trim, S::Waiting) << false << false;
}

void TestWallRow::skill_waitsFor()
{
    QFETCH(CardLine, shown);
    QTEST(waitsFor(shown, Skill::Wheels), "wheels");
    QTEST(waitsFor(shown, Skill::Checks), "checks");
}

void TestWallRow::stockNumbers_areOrderedNaturally_data()
{
    QTest::addColumn<QString>("first");
    QTest::addColumn<QString>("second");
    QTest::newRow("by number") << "R-9"
                               << "R-10";
    QTest::newRow("by letter") << "Q-10"
                               << "R-9";
    QTest::newRow("case aside") << "a2"
                                << "B1";
    QTest::newRow("shorter first") << "R-9"
                                   << "R-9a";
    QTest::newRow("second number") << "R-9-2"
                                   << "R-9-11";
}

void TestWallRow::stockNumbers_areOrderedNaturally()
{
    QFETCH(QString, first);
    QFETCH(QString, second);
    QVERIFY(naturallyLess(first, second));
    QVERIFY(!naturallyLess(second, first));
    QVERIFY(!naturallyLess(first, first));
}

} // namespace ramplight::test

RAMPLIGHT_TEST(QGuiApplication, ramplight::test::TestWallRow)
#include "tst_wallrow.moc"
