// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "controlbench.h"
#include "support/testmain.h"

#include <QDirIterator>
#include <QQmlComponent>
#include <QSignalSpy>
#include <QTest>

#include <cmath>

using namespace ramplight::test;

/// The controls: they load, are large enough, and answer touches as they say.
class ControlsTest : public QObject
{
    Q_OBJECT

private slots:
    void init()
    {
        m_bench = std::make_unique<ControlBench>();
        QVERIFY(m_bench->theme());
    }
    void cleanup() { m_bench.reset(); }

    void everyControlLoads_data() { filesOf(QStringLiteral("Controls")); }
    void everyControlLoads() { loads(); }

    void everyGalleryPageLoads_data() { filesOf(QStringLiteral("Gallery")); }
    void everyGalleryPageLoads() { loads(); }

    /// Front and rear brakes have readings of the same title.
    void aReadingNamesItsPlace()
    {
        const auto row = m_bench->show(
            QStringLiteral("ReadingRow { title: 'Thinnest point'; place: 'rear brakes' }"));
        QVERIFY(itemWith(row.get(), "Label", "text", QStringLiteral("Rear brakes")));
        QVERIFY(itemWith(row.get(), "Label", "text", QStringLiteral("Thinnest point")));
    }

    void targetsAreLargeEnough_data()
    {
        QTest::addColumn<QString>("qml");
        QTest::addColumn<double>("least"); // mm
        QTest::newRow("button") << QStringLiteral("ActionButton { text: 'A' }") << 20.0;
        QTest::newRow("safety") << QStringLiteral(
                                       "ActionButton { text: 'A'; kind: ActionButton.Safety }")
                                << 25.0;
        QTest::newRow("chip") << QStringLiteral("ChoiceChip { text: 'A' }") << 20.0;
        QTest::newRow("tab") << QStringLiteral("FilterTab { text: 'A' }") << 20.0;
        QTest::newRow("reading") << QStringLiteral("ReadingRow { title: 'A' }") << 20.0;
        QTest::newRow("photo") << QStringLiteral("PhotoTile { prompt: 'A' }") << 20.0;
        QTest::newRow("shutter") << QStringLiteral("ShutterButton { text: 'A' }") << 30.0;
        QTest::newRow("key") << QStringLiteral("KeyCap { text: 'A' }") << 20.0;
    }
    void targetsAreLargeEnough()
    {
        QFETCH(QString, qml);
        QFETCH(double, least);
        const auto item = m_bench->show(qml);
        QVERIFY(item);
        QVERIFY(item->width() >= std::round(least * 3.6));
        QVERIFY(item->height() >= std::round(least * 3.6));
    }

    void aSecondTapAtOnceCountsOnce()
    {
        const auto button = m_bench->show(QStringLiteral("ActionButton { text: 'Sign' }"));
        QVERIFY(button);
        QSignalSpy tapped(button.get(), SIGNAL(tapped()));
        m_bench->tap(button.get());
        m_bench->tap(button.get());
        QCOMPARE(tapped.count(), 1);
        // Once the guard is over the next tap counts again.
        QTRY_COMPARE((m_bench->tap(button.get()), tapped.count()), 2);
    }

    void aDisabledButtonSaysWhyAndDoesNothing()
    {
        const auto button = m_bench->show(QStringLiteral(
            "ActionButton { text: 'Release'; available: false; reason: '3 holds' }"));
        QVERIFY(button);
        QVERIFY(itemWith(button.get(), "Label", "text", QStringLiteral("3 holds")));
        QSignalSpy tapped(button.get(), SIGNAL(tapped()));
        QSignalSpy refused(button.get(), SIGNAL(refused()));
        m_bench->tap(button.get());
        QCOMPARE(tapped.count(), 0);
        QCOMPARE(refused.count(), 1);
    }

    void oneChoiceAtATime()
    {
        const auto row =
            m_bench->show(QStringLiteral("ChoiceRow { width: 900; options: ['one', 'two'] }"));
        QVERIFY(row);
        QSignalSpy chosen(row.get(), SIGNAL(chosen(int)));
        m_bench->tap(itemWith(row.get(), "ChoiceChip", "text", QStringLiteral("two")));
        QCOMPARE(chosen.count(), 1);
        QCOMPARE(row->property("index").toInt(), 1);
        m_bench->tap(itemWith(row.get(), "ChoiceChip", "text", QStringLiteral("one")));
        QCOMPARE(row->property("index").toInt(), 0);
        QVERIFY(!itemWith(row.get(), "ChoiceChip", "text", QStringLiteral("two"))
                     ->property("selected")
                     .toBool());
    }

    void aDialogTakesEveryTouch()
    {
        const auto page = m_bench->show(QStringLiteral(
            "Item { width: 1000; height: 800\n"
            "  property alias dialog: sheet\n  property alias below: button\n"
            "  ActionButton { id: button; text: 'below'; anchors.centerIn: parent; width: 400 }\n"
            "  DialogSheet { id: sheet; title: 'Sure?'; shown: true\n"
            "    actions: ActionButton { text: 'Yes' } } }"));
        QVERIFY(page);
        auto* dialog = page->property("dialog").value<QQuickItem*>();
        auto* below = page->property("below").value<QQuickItem*>();
        QSignalSpy belowTapped(below, SIGNAL(tapped()));
        QSignalSpy dismissed(dialog, SIGNAL(dismissed()));
        QTRY_VERIFY(dialog->isVisible());
        m_bench->tap(below); // the sheet lies over it
        QCOMPARE(belowTapped.count(), 0);
        QCOMPARE(dismissed.count(), 0);
        m_bench->touchAt({10, 10});
        QCOMPARE(dismissed.count(), 1);
        dialog->setProperty("dismissable", false);
        m_bench->touchAt({10, 10});
        QCOMPARE(dismissed.count(), 1);
        dialog->setProperty("shown", false);
        QTRY_VERIFY(!dialog->isVisible());
        m_bench->tap(below);
        QCOMPARE(belowTapped.count(), 1);
    }

    void aPlaceIsTouchedOnTheCar()
    {
        const auto car = m_bench->show(QStringLiteral(
            "CarOutline { shape: 'suv'; width: 500; height: 900; interactive: true }"));
        QVERIFY(car);
        QSignalSpy touched(car.get(), SIGNAL(placeTouched(QString)));
        for (const char* place : {"bonnet", "tyre-rear-right", "windscreen", "rear-door-left"}) {
            QPointF middle;
            QVERIFY(QMetaObject::invokeMethod(car.get(), "centreOf", Q_RETURN_ARG(QPointF, middle),
                                              Q_ARG(QString, QLatin1String(place))));
            touched.clear();
            m_bench->touchAt(car->mapToScene(middle).toPoint());
            QCOMPARE(touched.count(), 1);
            QCOMPARE(touched.first().first().toString(), QLatin1String(place));
        }
        car->setProperty("interactive", false);
        touched.clear();
        m_bench->touchAt({250, 450});
        QCOMPARE(touched.count(), 0);
    }

    void statesDifferInShape()
    {
        // In greyscale and at the same size, no two bands are alike.
        QList<QImage> pictures;
        for (int band = 0; band <= 8; ++band) {
            const auto item =
                m_bench->show(QStringLiteral("Rectangle { width: 40; height: 300; color: 'white'\n"
                                             "StateBand { height: 300; band: %1 } }")
                                  .arg(band));
            QVERIFY(item);
            const QImage picture = m_bench->grab()
                                       .copy(0, 0, 18, 300)
                                       .convertToFormat(QImage::Format_Mono, Qt::ThresholdDither);
            QVERIFY2(!pictures.contains(picture), qPrintable(QString::number(band)));
            pictures.append(picture);
        }
    }

private:
    static void filesOf(const QString& module)
    {
        QTest::addColumn<QString>("file");
        QDirIterator files(QStringLiteral(":/qt/qml/Ramplight/") + module,
                           {QStringLiteral("*.qml")});
        int count = 0;
        while (files.hasNext()) {
            const QString file = files.next();
            // A singleton is not made like a control; the screens' tests hear it.
            if (file.endsWith(QLatin1String("/Notices.qml")))
                continue;
            QTest::newRow(qPrintable(file.section(u'/', -1))) << QStringLiteral("qrc") + file;
            ++count;
        }
        QVERIFY(count >= 9);
    }

    void loads()
    {
        QFETCH(QString, file);
        QQmlComponent component(&m_bench->engine(), QUrl(file));
        const std::unique_ptr<QObject> made(component.createWithInitialProperties(
            {{QStringLiteral("width"), 1920}, {QStringLiteral("height"), 1080}}));
        QVERIFY2(made, qPrintable(component.errorString()));
        auto* item = qobject_cast<QQuickItem*>(made.get());
        QVERIFY(item);
        item->setParentItem(m_bench->window().contentItem());
        m_bench->window().show();
        QVERIFY(QTest::qWaitForWindowExposed(&m_bench->window()));
        QVERIFY(!m_bench->grab().isNull());
    }

    std::unique_ptr<ControlBench> m_bench;
};

RAMPLIGHT_TEST(QGuiApplication, ControlsTest)
#include "tst_controls.moc"
