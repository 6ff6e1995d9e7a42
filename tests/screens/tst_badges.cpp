// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "managerhands.h"
#include "support/testmain.h"

#include <QQuickWindow>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

/// A badge is given by holding it to the reader at the wall, and taken away when it is lost.
class tst_Badges : public QObject
{
    Q_OBJECT

private slots:
    void init() { failOnQmlWarnings(); }
    void badge_isGivenWithTheReader_andTakenAway_data() { sizes(); }
    void badge_isGivenWithTheReader_andTakenAway();
    void badge_ofSomebodyElse_isToldBeforeItIsTaken_data() { sizes(); }
    void badge_ofSomebodyElse_isToldBeforeItIsTaken();
    void badge_signsTheChangeOfThePersonBehind();
    void badge_withNoFormOpen_namesItsOwner();
    void typedChanges_stayWhenTheBadgeIsGiven_andWhenThePinIsNew();
};

namespace {

const auto badge = QStringLiteral("7F3A");

/// The reader is a keyboard that types faster than anybody.
void holdToTheReader(KioskBench& bench, const QString& code)
{
    for (const QChar c : QStringLiteral("RLB-") + code)
        QTest::keyClick(bench.window(), c.toLatin1());
    QTest::keyClick(bench.window(), Qt::Key_Return);
}

bool isGiven(BenchHouse& house, PersonId person)
{
    return house.giveBadge(person, badge);
}

PersonId ownerOf(BenchHouse& house, const QString& code)
{
    auto owner = house.desk().personOfBadge(code);
    owner.waitForFinished();
    return owner.result().value().value_or(PersonId{});
}

bool isAsked(KioskBench& bench, PersonId person)
{
    return bench.until([&] { return bench.shell().session()->askedId() == person.value; },
                       QStringLiteral("the badge's person"));
}

} // namespace

void tst_Badges::badge_isGivenWithTheReader_andTakenAway()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const PersonId nell = house.person(QStringLiteral("Nell"));
    bench.show(size);
    QVERIFY(goToStaff(bench, QStringLiteral("Runa Talbeck")));
    StaffView& view = *bench.shell().staff();
    const auto isDone = [&](const QString& what) {
        return bench.until([&] { return view.ask()->what() == what && !view.ask()->busy(); }, what);
    };
    QVERIFY(bench.tap(QStringLiteral("Nell Quarrie")));
    holdToTheReader(bench, badge);
    QVERIFY(bench.untilSays(QStringLiteral("A badge was read. Give it to Nell Quarrie?")));
    bench.shoot(QStringLiteral("badge-read"));
    QVERIFY(bench.tap(QStringLiteral("Give the badge")));
    QVERIFY(signAgain(bench));
    QVERIFY(isDone(QStringLiteral("badge")));
    QVERIFY2(!view.ask()->refused(), qPrintable(view.ask()->words()));
    const auto last = [&] {
        auto history = house.desk().siteHistory().result();
        return std::get<AccessChanged>(history.value().back().event);
    };
    QCOMPARE(last(), (AccessChanged{nell, QStringLiteral("badge")}));
    QVERIFY(bench.tap(QStringLiteral("Cancel")));

    // Away from the staff it names her, and signs nobody in.
    QVERIFY(bench.tap(QStringLiteral("Back to the wall")));
    QVERIFY(bench.tap(QStringLiteral("sign out")));
    QVERIFY(bench.untilSays(QStringLiteral("Who are you?")));
    holdToTheReader(bench, badge);
    QVERIFY(isAsked(bench, nell));
    QVERIFY(bench.enterPin());
    QVERIFY(bench.until([&] { return bench.shell().session()->personId() == nell.value; },
                        QStringLiteral("signed in")));
    QVERIFY(bench.tap(QStringLiteral("sign out")));

    // Lost: nobody is named by it any more.
    QVERIFY(goToStaff(bench, QStringLiteral("Runa Talbeck")));
    QVERIFY(bench.tap(QStringLiteral("Nell Quarrie")));
    QVERIFY(bench.tap(QStringLiteral("Take the badge away")));
    QVERIFY(signAgain(bench));
    QVERIFY(isDone(QStringLiteral("badge")));
    QVERIFY2(!view.ask()->refused(), qPrintable(view.ask()->words()));
    bench.shoot(QStringLiteral("badge-taken"));
    QVERIFY(bench.tap(QStringLiteral("Cancel")));
    QVERIFY(bench.tap(QStringLiteral("Back to the wall")));
    QVERIFY(bench.tap(QStringLiteral("sign out")));
    QVERIFY(bench.untilSays(QStringLiteral("Who are you?")));
    holdToTheReader(bench, badge);
    QVERIFY(bench.until([&] { return !bench.shell().note().isEmpty(); },
                        QStringLiteral("that nobody has it")));
    QVERIFY(bench.shell().session()->askedId() == 0);
    bench.shoot(QStringLiteral("badge-of-nobody"));
}

void tst_Badges::badge_ofSomebodyElse_isToldBeforeItIsTaken()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    QVERIFY(isGiven(house, house.person(QStringLiteral("Runa"))));
    bench.show(size);
    QVERIFY(goToStaff(bench, QStringLiteral("Runa Talbeck")));
    QVERIFY(bench.tap(QStringLiteral("Odo Farlane")));
    holdToTheReader(bench, badge);
    QVERIFY(
        bench.untilSays(QStringLiteral("This is the badge of Runa Talbeck, who would be without "
                                       "one. Give it to Odo Farlane instead?")));
    bench.shoot(QStringLiteral("badge-of-another"));
    QVERIFY(bench.tap(QStringLiteral("Take it from Runa Talbeck")));
    QVERIFY(signAgain(bench));
    QVERIFY(
        bench.until([&] { return ownerOf(house, badge) == house.person(QStringLiteral("Odo")); },
                    QStringLiteral("given")));
}

void tst_Badges::badge_signsTheChangeOfThePersonBehind()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const PersonId runa = house.person(QStringLiteral("Runa"));
    const PersonId odo = house.person(QStringLiteral("Odo"));
    QVERIFY(isGiven(house, runa));
    bench.show();
    QVERIFY(goToStaff(bench, QStringLiteral("Runa Talbeck")));
    QVERIFY(bench.tap(QStringLiteral("sign out")));
    QVERIFY(bench.tap(QStringLiteral("Odo Farlane")));
    QVERIFY(bench.tap(QStringLiteral("Works here")));
    QVERIFY(bench.tap(QStringLiteral("Save")));
    QVERIFY(bench.until([&] { return !bench.ofType("PersonScreen").empty(); },
                        QStringLiteral("who it is")));
    holdToTheReader(bench, badge);
    QVERIFY(isAsked(bench, runa));
    QVERIFY(bench.enterPin());
    QVERIFY(
        bench.until([&] { return !house.site().person(odo)->active; }, QStringLiteral("saved")));
    QCOMPARE(bench.shell().staff()->scannedBadge(), QString());
    QVERIFY(ownerOf(house, badge) == runa);
}

void tst_Badges::badge_withNoFormOpen_namesItsOwner()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const PersonId odo = house.person(QStringLiteral("Odo"));
    QVERIFY(isGiven(house, odo));
    bench.show();
    QVERIFY(goToStaff(bench, QStringLiteral("Runa Talbeck")));
    QVERIFY(bench.tap(QStringLiteral("Nell Quarrie")));
    QVERIFY(bench.tap(QStringLiteral("Cancel")));
    QVERIFY(bench.untilGone(QStringLiteral("Cancel")));
    QVERIFY(bench.tap(QStringLiteral("sign out")));
    holdToTheReader(bench, badge);
    QVERIFY(isAsked(bench, odo));
    QVERIFY(bench.enterPin());
    QVERIFY(bench.until([&] { return bench.shell().session()->personId() == odo.value; },
                        QStringLiteral("signed in")));
    QVERIFY(ownerOf(house, badge) == odo);
}

void tst_Badges::typedChanges_stayWhenTheBadgeIsGiven_andWhenThePinIsNew()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const PersonId odo = house.person(QStringLiteral("Odo"));
    bench.show();
    QVERIFY(goToStaff(bench, QStringLiteral("Runa Talbeck")));
    StaffView& view = *bench.shell().staff();
    QVERIFY(bench.tap(QStringLiteral("Odo Farlane")));
    QVERIFY(bench.tap(QStringLiteral("Works here")));
    holdToTheReader(bench, badge);
    QVERIFY(bench.tap(QStringLiteral("Give the badge")));
    QVERIFY(signAgain(bench));
    QVERIFY(bench.untilSays(QStringLiteral("Odo Farlane has this badge now.")));
    bench.shoot(QStringLiteral("badge-given"));
    QVERIFY(ownerOf(house, badge) == odo);
    QVERIFY(bench.tap(QStringLiteral("Take the badge away")));
    QVERIFY(signAgain(bench));
    QVERIFY(bench.untilSays(QStringLiteral("Odo Farlane has no badge now.")));
    QVERIFY(bench.tap(QStringLiteral("New PIN")));
    NewPin& chosen = *view.newPin();
    QVERIFY(bench.enterPin(QStringLiteral("161803")));
    QVERIFY(bench.until([&] { return chosen.again(); }, QStringLiteral("once more")));
    QVERIFY(bench.enterPin(QStringLiteral("161803")));
    QVERIFY(bench.until([&] { return chosen.isReady(); }, QStringLiteral("both the same")));
    QVERIFY(bench.tap(QStringLiteral("Set this PIN")));
    QVERIFY(signAgain(bench));
    QVERIFY(bench.untilSays(QStringLiteral("Save")));
    QVERIFY(!view.active());
    QVERIFY(house.site().person(odo)->active);
    QVERIFY(bench.tap(QStringLiteral("Save")));
    QVERIFY(signAgain(bench));
    QVERIFY(
        bench.until([&] { return !house.site().person(odo)->active; }, QStringLiteral("saved")));
    QVERIFY(bench.untilGone(QStringLiteral("Save")));
}

RAMPLIGHT_TEST(QGuiApplication, tst_Badges)
#include "tst_badges.moc"
