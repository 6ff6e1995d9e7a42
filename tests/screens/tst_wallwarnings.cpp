// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kioskbench.h"

#include "support/testmain.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

/// What the wall says of the house before it is late; of backups: tst_backupwarnings.
class tst_WallWarnings : public QObject
{
    Q_OBJECT

private slots:
    void init() { failOnQmlWarnings(); }
    void peopleWhoLeaveNobodyToCheck_areWarnedOf_data();
    void peopleWhoLeaveNobodyToCheck_areWarnedOf();
    void clock_setBack_isTold_data();
    void clock_setBack_isTold();
};

void tst_WallWarnings::peopleWhoLeaveNobodyToCheck_areWarnedOf_data()
{
    sizes();
}

void tst_WallWarnings::peopleWhoLeaveNobodyToCheck_areWarnedOf()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const PersonId runa = house.person(QStringLiteral("Runa"));
    const PersonId bram = house.person(QStringLiteral("Bram"));
    // She has every right, and the mechanical work to herself; he may not check.
    const SiteState before = house.site();
    for (const auto& [id, person] : before.people)
        if (id != runa)
            house.must(
                runa,
                site::ChangePerson{id, {Skill::Wheels, Skill::Valet}, {Right::Work}, id == bram},
                person.name);
    bench.show(size);
    const auto kept = [&] {
        return bench.shell().houseWarnings().filter(
            QStringLiteral("so nobody is left to check any car: final check."));
    };
    QVERIFY(bench.until([&] { return kept().size() == 1; }, QStringLiteral("the warning")));
    QVERIFY2(kept().front().startsWith(QStringLiteral("Nobody but Runa Talbeck may do: ")),
             qPrintable(kept().front()));
    const QStringList warnings = bench.shell().houseWarnings();
    const QString line = QStringLiteral("%1 kinds of work cannot be finished with the people "
                                        "here: see Staff and bays")
                             .arg(warnings.size());
    QVERIFY(bench.untilSays(line));
    bench.shoot(QStringLiteral("wall-nobody-to-check"));
    QVERIFY(bench.tap(line));
    QVERIFY(bench.untilSays(warnings.front()));
    bench.shoot(QStringLiteral("staff-nobody-to-check"));
    // It goes once somebody else does the mechanical work.
    const PersonId tamsin = house.person(QStringLiteral("Tamsin"));
    house.must(runa, site::ChangePerson{tamsin, {Skill::Mechanical}, {Right::Work}, true},
               QStringLiteral("Tamsin Orr"));
    QVERIFY(bench.until([&] { return kept().isEmpty(); }, QStringLiteral("no warning")));
}

void tst_WallWarnings::clock_setBack_isTold_data()
{
    sizes();
}

void tst_WallWarnings::clock_setBack_isTold()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::Demo);
    bench.show(size);
    bench.house().clock.goOn(-90);
    QVERIFY(bench.until(
        [&] {
            return bench.shell().clockWarning().contains(QStringLiteral("behind what was written"));
        },
        QStringLiteral("the warning")));
    QVERIFY(bench.untilSays(bench.shell().clockWarning()));
    bench.shoot(QStringLiteral("wall-clock-behind"));
}

RAMPLIGHT_TEST(QGuiApplication, tst_WallWarnings)
#include "tst_wallwarnings.moc"
