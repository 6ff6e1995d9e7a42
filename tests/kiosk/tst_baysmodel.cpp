// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "support/testmain.h"
#include "viewbench.h"

#include <QTest>

namespace ramplight::test {

/// The strip of bays: who is on the car in each, as short as tells people apart.
class TestBaysModel : public QObject
{
    Q_OBJECT

private slots:
    void firstName_standsAlone_whereNobodyElseOnACarHasIt();
};

void TestBaysModel::firstName_standsAlone_whereNobodyElseOnACarHasIt()
{
    ViewBench kiosk;
    Workbench& bench = kiosk.bench;
    const PersonId orr = bench.hire(QStringLiteral("Tamsin Orr"), {Skill::Valet}, {Right::Work});
    const PersonId other = bench.hire(QStringLiteral("Tamsin Vale"), {Skill::Valet}, {Right::Work});
    const CarId first = bench.appraised();
    const CarId second = bench.appraised();
    bench.must(bench.manager, first, car::MoveCar{bench.lift, {}});
    const BaysModel& bays = *kiosk.shell.bays();
    const auto taken = [&](const char* role) {
        for (int row = 0; row < bays.rowCount(); ++row)
            if (!at(bays, row, "free").toBool())
                return at(bays, row, role).toString();
        return QStringLiteral("every bay is free");
    };
    kiosk.settle();
    QTRY_COMPARE(taken("who"), QString());
    QCOMPARE(taken("whoShort"), QString());

    bench.start(first, bench.open(first, "valet"), orr);
    kiosk.settle();
    QTRY_COMPARE(taken("who"), QStringLiteral("Tamsin Orr"));
    QCOMPARE(taken("whoShort"), QStringLiteral("Tamsin"));

    // In the yard, but seen from the same place.
    bench.start(second, bench.open(second, "valet"), other);
    kiosk.settle();
    QTRY_COMPARE(taken("whoShort"), QStringLiteral("Tamsin Orr"));
    QCOMPARE(taken("who"), QStringLiteral("Tamsin Orr"));
}

} // namespace ramplight::test

RAMPLIGHT_TEST(QGuiApplication, ramplight::test::TestBaysModel)
#include "tst_baysmodel.moc"
