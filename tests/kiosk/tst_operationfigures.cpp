// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "operationscene.h"
#include "support/testmain.h"

#include <QTest>

namespace ramplight::test {

/// Figures of this car on the screen of an operation: needed first, typed over, corrected.
class TestOperationFigures : public QObject
{
    Q_OBJECT

private slots:
    void figure_isNeededFirst_andSaysWhoEnteredIt();
    void figure_isTypedOver_thenCorrected();
};

void TestOperationFigures::figure_isNeededFirst_andSaysWhoEnteredIt()
{
    OperationScene scene("inspection");
    const QString disc = QStringLiteral("disc@brakes-front");
    QVERIFY(scene.reading("disc@brakes-front", "figureNeeded").toBool());
    QVERIFY(scene.reading("disc@brakes-front", "figureMissing").toBool());
    QCOMPARE(scene.reading("disc@brakes-front", "figureFrom").toString(),
             QStringLiteral("vehicle maker's data"));
    QCOMPARE(scene.reading("disc@brakes-front", "limitWords").toString(),
             QStringLiteral("to be entered from: vehicle maker's data"));
    scene.kiosk.signIn(scene.kiosk.bench.checker);
    scene.view->setFigure(disc, QStringLiteral("22.5"), QStringLiteral(" data sheet "));
    QCOMPARE(scene.answer(), done);
    scene.kiosk.settle();
    QVERIFY(!scene.reading("disc@brakes-front", "figureMissing").toBool());
    QCOMPARE(scene.reading("disc@brakes-front", "figureWords").toString(),
             QStringLiteral("22.5 mm, data sheet, Wanda"));
    QCOMPARE(scene.reading("disc@brakes-front", "limitWords").toString(),
             QStringLiteral("at least 22.5 mm (vehicle maker's data)"));
    QVERIFY(!scene.reading("lining@brakes-front", "figureNeeded").toBool());
    scene.view->setFigure(disc, QStringLiteral("much"), QStringLiteral("data sheet"));
    QCOMPARE(scene.answer(), QStringLiteral("reading-malformed"));
}

void TestOperationFigures::figure_isTypedOver_thenCorrected()
{
    OperationScene scene("inspection");
    Workbench& bench = scene.kiosk.bench;
    const QString disc = QStringLiteral("disc@brakes-front");
    const auto shown = [&](const char* what) { return scene.reading("disc@brakes-front", what); };
    QVERIFY(!shown("figureOpen").toBool());
    scene.kiosk.signIn(bench.checker);
    scene.view->setFigure(disc, QStringLiteral("2.25"), QStringLiteral("data sheet"));
    scene.view->setFigure(disc, QStringLiteral("225"), QStringLiteral("data sheet"));
    QCOMPARE(scene.answer(), done);
    scene.kiosk.settle();
    QVERIFY(shown("figureOpen").toBool());
    QVERIFY(!shown("figureInUse").toBool());
    QCOMPARE(shown("figureSource").toString(), QStringLiteral("data sheet"));
    bench.start(scene.car, scene.id, bench.mechanic);
    bench.must(bench.mechanic, scene.car,
               car::TakeReading{scene.id, "disc", test::at("brakes-front"), number(230)});
    scene.kiosk.settle();
    QVERIFY(shown("figureInUse").toBool());
    QVERIFY(shown("figureAnother").toBool());
    const auto correct = [&](const char* typed) {
        scene.view->correctFigure(disc, QString::fromLatin1(typed), QStringLiteral(" page 7 "),
                                  QStringLiteral(" a nought too many "), bench.photo().text);
        return scene.answer();
    };
    QCOMPARE(correct("22.5"), no(RefusalId::SecondPersonNeeded));
    scene.kiosk.signIn(bench.technician);
    QCOMPARE(correct("much"), QStringLiteral("reading-malformed"));
    QCOMPARE(correct("22.5"), done);
    scene.kiosk.settle();
    QCOMPARE(shown("figureWords").toString().section(QLatin1Char(','), 0, 1),
             QStringLiteral("22.5 mm, page 7"));
    QVERIFY(!shown("hasValue").toBool());
}

} // namespace ramplight::test

RAMPLIGHT_TEST(QGuiApplication, ramplight::test::TestOperationFigures)
#include "tst_operationfigures.moc"
