// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kioskbench.h"
#include "support/testmain.h"

#include <QQuickItem>
#include <QQuickWindow>
#include <QSignalSpy>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

/// Who are you? By touch, by badge, and with the wrong PIN.
class tst_PersonScreen : public QObject
{
    Q_OBJECT

private slots:
    void init() { failOnQmlWarnings(); }
    void nameAndPin_signIn_andChipSignsOut_data();
    void nameAndPin_signIn_andChipSignsOut();
    void names_standUnderTheirSkill_allInSight_data();
    void names_standUnderTheirSkill_allInSight();
    void wrongPin_isSaid_andTheRightOneStillWorks();
    void fifthWrongPin_makesThePadWait();
    void back_leavesNobodySignedIn();
    void badge_asksForThePinOfItsOwner();
    void keyboardPin_signsIn();
};

void tst_PersonScreen::nameAndPin_signIn_andChipSignsOut_data()
{
    QTest::addColumn<QSize>("size");
    QTest::newRow("wide") << QSize(1920, 1080);
    QTest::newRow("tall") << QSize(1080, 1920);
}

void tst_PersonScreen::nameAndPin_signIn_andChipSignsOut()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    bench.show(size);
    QVERIFY(bench.tap(QStringLiteral("Who are you?")));
    QVERIFY(bench.untilSays(QStringLiteral("Bram Holloway")));
    bench.shoot(QStringLiteral("signin-names"));
    QVERIFY(bench.tap(QStringLiteral("Bram Holloway")));
    QVERIFY(bench.until([&] { return !bench.ofType("PinPad").empty(); }, QStringLiteral("pad")));
    QVERIFY(bench.type(QStringLiteral("27")));
    bench.shoot(QStringLiteral("signin-pin"));
    QVERIFY(bench.type(QStringLiteral("1828")));
    QVERIFY(bench.until([&] { return bench.shell().session()->signedIn(); }, QStringLiteral("in")));
    QCOMPARE(bench.shell().session()->name(), QStringLiteral("Bram Holloway"));
    QVERIFY(bench.until([&] { return bench.ofType("PersonScreen").empty(); },
                        QStringLiteral("the wall")));
    // The same button as "Who are you?": a second tap within 300 ms does not count.
    QVERIFY(bench.until(
        [&] {
            QQuickItem* chip = bench.find(QStringLiteral("Bram Holloway"));
            if (chip != nullptr && bench.shell().session()->signedIn())
                bench.tapAt(chip->mapToScene({chip->width() / 2, chip->height() / 2}));
            return !bench.shell().session()->signedIn();
        },
        QStringLiteral("out")));
}

void tst_PersonScreen::names_standUnderTheirSkill_allInSight_data()
{
    QTest::addColumn<QSize>("size");
    QTest::addColumn<int>("people");
    for (const int people : {9, 40}) {
        QTest::addRow("%d, wide", people) << QSize(1920, 1080) << people;
        QTest::addRow("%d, tall", people) << QSize(1080, 1920) << people;
    }
}

void tst_PersonScreen::names_standUnderTheirSkill_allInSight()
{
    QFETCH(const QSize, size);
    QFETCH(const int, people);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const PersonId manager = house.person(QStringLiteral("Odo"));
    const auto& skills = Names<Skill>::table;
    for (int at = static_cast<int>(house.site().people.size()); at < people; ++at)
        house.must(
            manager,
            site::AddPerson{{skills.at(static_cast<std::size_t>(at * at) % skills.size()).first},
                            {Right::Work}},
            QStringLiteral("Corin Helm %1").arg(at));
    bench.show(size);
    QVERIFY(bench.tap(QStringLiteral("Who are you?")));
    QVERIFY(bench.until(
        [&] { return bench.ofType("PersonTile").size() == static_cast<std::size_t>(people); },
        QStringLiteral("everybody")));
    bench.shoot(QStringLiteral("signin-%1").arg(people));
    for (QQuickItem* tile : bench.ofType("PersonTile")) {
        const QString name = tile->property("name").toString();
        QVERIFY2(isInSight(tile), qPrintable(name));
        // The nearest heading above it is that of its first skill.
        const QQuickItem* over = nullptr;
        for (const QQuickItem* label : bench.ofType("Label"))
            if (label->parentItem() == tile->parentItem() &&
                qFuzzyCompare(label->x() + 1, tile->x() + 1) && label->y() < tile->y() &&
                (over == nullptr || over->y() < label->y()))
                over = label;
        QVERIFY2(over != nullptr, qPrintable(name));
        QCOMPARE(over->property("text").toString(), tile->property("skillSection").toString());
    }
    // Whoever has several is named once, with all of them.
    QVERIFY(bench.says(QStringLiteral("office, mechanical, checks")));
}

void tst_PersonScreen::wrongPin_isSaid_andTheRightOneStillWorks()
{
    KioskBench bench(BenchHouse::Start::House);
    bench.show();
    QVERIFY(bench.tap(QStringLiteral("Who are you?")));
    QVERIFY(bench.tap(QStringLiteral("Nell Quarrie")));
    QVERIFY(bench.enterPin(QStringLiteral("161803")));
    QVERIFY(bench.until([&] { return !bench.shell().session()->words().isEmpty(); },
                        QStringLiteral("words")));
    QVERIFY(bench.says(bench.shell().session()->words()));
    QVERIFY(!bench.shell().session()->signedIn());
    bench.shoot(QStringLiteral("signin-wrong"));
    QVERIFY(bench.enterPin());
    QVERIFY(bench.until([&] { return bench.shell().session()->signedIn(); }, QStringLiteral("in")));
}

void tst_PersonScreen::fifthWrongPin_makesThePadWait()
{
    KioskBench bench(BenchHouse::Start::House);
    bench.show();
    QVERIFY(bench.tap(QStringLiteral("Who are you?")));
    QVERIFY(bench.tap(QStringLiteral("Nell Quarrie")));
    for (int i = 0; i < 8 && bench.shell().session()->waitSeconds() == 0; ++i) {
        QSignalSpy answered(bench.shell().session(), &Session::answerChanged);
        QVERIFY(bench.enterPin(QStringLiteral("161803")));
        QVERIFY(bench.until([&] { return !bench.shell().session()->busy() && !answered.empty(); },
                            QStringLiteral("an answer")));
    }
    QVERIFY(bench.shell().session()->waitSeconds() > 0);
    bench.shoot(QStringLiteral("signin-wait"));
    // The pad takes nothing now.
    QVERIFY(bench.enterPin());
    QVERIFY(!bench.shell().session()->busy());
    QVERIFY(!bench.shell().session()->signedIn());
}

void tst_PersonScreen::back_leavesNobodySignedIn()
{
    KioskBench bench(BenchHouse::Start::House);
    bench.show();
    QVERIFY(bench.tap(QStringLiteral("Who are you?")));
    QVERIFY(bench.tap(QStringLiteral("Nell Quarrie")));
    QVERIFY(bench.tap(QStringLiteral("Back")));
    QVERIFY(bench.until([&] { return bench.shell().session()->stage() != Session::Pin; },
                        QStringLiteral("back")));
    QVERIFY(!bench.shell().session()->signedIn());
}

void tst_PersonScreen::badge_asksForThePinOfItsOwner()
{
    KioskBench bench(BenchHouse::Start::House);
    const PersonId dilys = bench.house().person(QStringLiteral("Dilys"));
    QVERIFY(bench.house().giveBadge(dilys, QStringLiteral("4711")));
    bench.show();
    bench.shell().session()->badge(QStringLiteral("4711"));
    QVERIFY(bench.untilSays(QStringLiteral("Dilys Marne")));
    QVERIFY(bench.until([&] { return bench.shell().session()->askedId() == dilys.value; },
                        QStringLiteral("the pad")));
    QVERIFY(bench.enterPin());
    QVERIFY(bench.until([&] { return bench.shell().session()->signedIn(); }, QStringLiteral("in")));
    QCOMPARE(bench.shell().session()->personId(), dilys.value);
}

void tst_PersonScreen::keyboardPin_signsIn()
{
    KioskBench bench(BenchHouse::Start::House);
    bench.show();
    QVERIFY(bench.tap(QStringLiteral("Who are you?")));
    QVERIFY(bench.tap(QStringLiteral("Nell Quarrie")));
    QVERIFY(bench.until([&] { return !bench.ofType("PinPad").empty(); }, QStringLiteral("pad")));
    for (const QChar digit : BenchHouse::pin())
        QTest::keyClick(static_cast<QWindow*>(bench.window()), digit.toLatin1());
    QVERIFY(bench.until([&] { return bench.shell().session()->signedIn(); }, QStringLiteral("in")));
}

RAMPLIGHT_TEST(QGuiApplication, tst_PersonScreen)
#include "tst_personscreen.moc"
