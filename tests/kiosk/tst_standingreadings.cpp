// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "operationscene.h"
#include "support/testmain.h"

#include <QTest>

namespace ramplight::test {

/// What the screen says of readings that are not typed over.
class TestStandingReadings : public QObject
{
    Q_OBJECT

private slots:
    void readingThatStands_saysWhatToDo();
};

void TestStandingReadings::readingThatStands_saysWhatToDo()
{
    OperationScene scene("inspection");
    Workbench& bench = scene.kiosk.bench;
    scene.kiosk.signIn(bench.mechanic);
    scene.view->readAndStart();
    QCOMPARE(scene.answer(), done);
    QVERIFY(scene.reading("lining@brakes-front", "standsWords").toString().isEmpty());
    for (const auto& [row, typed] :
         {std::pair{"lining@brakes-front", "4.2"}, std::pair{"lining@brakes-rear", "2.1"}}) {
        scene.view->takeReading(QString::fromLatin1(row), QString::fromLatin1(typed));
        QCOMPARE(scene.answer(), done);
    }
    scene.kiosk.settle();
    // One's own inside its limit may be typed over; what opened a follow-up waits for that.
    const auto stands = [&](const char* row) {
        return scene.reading(row, "standsWords").toString();
    };
    QCOMPARE(stands("lining@brakes-front"), QString());
    QVERIFY(scene.reading("lining@brakes-front", "another").toBool());
    QVERIFY2(stands("lining@brakes-rear")
                 .contains(QStringLiteral("first finish “Rear brakes: brake pads”")),
             qPrintable(stands("lining@brakes-rear")));
    // What is refused says the same.
    scene.view->takeReading(QStringLiteral("lining@brakes-rear"), QStringLiteral("5"));
    QCOMPARE(scene.answer(), no(RefusalId::NotYet));
    QCOMPARE(scene.view->ask()->words(), stands("lining@brakes-rear"));
    // Somebody else does not type over it.
    scene.kiosk.signIn(bench.technician);
    QTRY_VERIFY(stands("lining@brakes-front").contains(QStringLiteral("somebody else read it")));
    scene.view->takeReading(QStringLiteral("lining@brakes-front"), QStringLiteral("5"));
    QCOMPARE(scene.answer(), no(RefusalId::ReadingStands));
    QCOMPARE(scene.view->ask()->words(), stands("lining@brakes-front"));
    // Of closed work nothing is taken at all.
    bench.must(bench.mechanic, scene.car, car::PauseWork{scene.id, {}, StopKind::Paused});
    bench.close(scene.car, bench.open(scene.car, "brake-pads"));
    bench.close(scene.car, scene.id);
    scene.kiosk.settle();
    QVERIFY2(stands("lining@brakes-front").contains(QStringLiteral("is not open any more")),
             qPrintable(stands("lining@brakes-front")));
}

} // namespace ramplight::test

RAMPLIGHT_TEST(QGuiApplication, ramplight::test::TestStandingReadings)
#include "tst_standingreadings.moc"
