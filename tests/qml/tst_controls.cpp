// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include <QDirIterator>
#include <QFontDatabase>
#include <QFontMetricsF>
#include <QQmlComponent>
#include <QQmlEngine>
#include <QQuickItem>
#include <QQuickWindow>
#include <QRawFont>
#include <QRegularExpression>
#include <QSignalSpy>
#include <QTest>

#include <cmath>
#include <memory>

namespace {

double luminance(const QColor& colour)
{
    const auto linear = [](double part) {
        return part <= 0.04045 ? part / 12.92 : std::pow((part + 0.055) / 1.055, 2.4);
    };
    return 0.2126 * linear(colour.redF()) + 0.7152 * linear(colour.greenF()) +
           0.0722 * linear(colour.blueF());
}

/// Contrast ratio as WCAG 2 defines it, 1 to 21.
double contrast(const QColor& one, const QColor& other)
{
    const double a = luminance(one);
    const double b = luminance(other);
    return (std::max(a, b) + 0.05) / (std::min(a, b) + 0.05);
}

/// The visible item below `root` with this text (or accessible name in `property`).
QQuickItem* itemWith(QQuickItem* root, const char* type, const char* property,
                     const QVariant& value)
{
    for (QQuickItem* child : root->childItems()) {
        if (child->isVisible() &&
            QLatin1String(child->metaObject()->className()).startsWith(QLatin1String(type)) &&
            child->property(property) == value)
            return child;
        if (QQuickItem* found = itemWith(child, type, property, value))
            return found;
    }
    return nullptr;
}

} // namespace

class ControlsTest : public QObject
{
    Q_OBJECT

private slots:
    void init()
    {
        QTest::failOnWarning(QRegularExpression(QStringLiteral(".")));
        m_engine = std::make_unique<QQmlEngine>();
        m_engine->addImportPath(QStringLiteral("qrc:/qt/qml"));
        m_window = std::make_unique<QQuickWindow>();
        m_window->resize(1920, 1080);
        m_themeHolder = make("import Ramplight.Theme\nimport QtQml\n"
                             "QtObject { property QtObject look: Theme }");
        QVERIFY(m_themeHolder);
        m_theme = m_themeHolder->property("look").value<QObject*>();
        QVERIFY(m_theme);
        m_theme->setProperty("lessMotion", true);
    }
    void cleanup()
    {
        m_themeHolder.reset();
        m_window.reset();
        m_engine.reset();
    }

    void everyControlLoads_data() { filesOf(QStringLiteral("Controls")); }
    void everyControlLoads() { loads(); }

    void everyGalleryPageLoads_data() { filesOf(QStringLiteral("Gallery")); }
    void everyGalleryPageLoads() { loads(); }

    void coloursStandOut_data()
    {
        QTest::addColumn<bool>("dark");
        QTest::newRow("dark") << true;
        QTest::newRow("light") << false;
    }
    void coloursStandOut()
    {
        QFETCH(bool, dark);
        m_theme->setProperty("dark", dark);
        struct Row
        {
            const char* front;
            const char* back;
            double least;
        };
        // Words 7:1, parts 3:1 (WCAG 1.4.6 and 1.4.11).
        const Row rows[] = {
            {"groundInk", "ground", 7},
            {"groundInk", "raised", 7},
            {"groundInkMuted", "ground", 7},
            {"groundInkMuted", "raised", 7},
            {"groundAccent", "ground", 7},
            {"ink", "paper", 7},
            {"ink", "sunk", 7},
            {"inkMuted", "paper", 7},
            {"inkMuted", "sunk", 7},
            {"accentInk", "accent", 7},
            {"accentInk", "accentPressed", 7},
            {"accent", "paper", 7},
            {"paper", "ink", 7},
            {"paper", "hazardInk", 7},
            {"hazardInk", "hazard", 7},
            {"groundLine", "ground", 3},
            {"paperLine", "paper", 3},
            {"paperLine", "sunk", 3},
            {"seam", "paper", 3},
            {"seam", "rule", 3},
        };
        for (const Row& row : rows) {
            const QColor front = m_theme->property(row.front).value<QColor>();
            const QColor back = m_theme->property(row.back).value<QColor>();
            QVERIFY2(front.isValid() && back.isValid(), row.front);
            const double ratio = contrast(front, back);
            QVERIFY2(ratio >= row.least,
                     qPrintable(QStringLiteral("%1 on %2: %3")
                                    .arg(QLatin1String(row.front), QLatin1String(row.back))
                                    .arg(ratio)));
        }
    }

    void sizesFollowTheScreen()
    {
        m_theme->setProperty("pxPerMm", 2.7); // 32 inch, 1920 pixels wide
        QCOMPARE(m_theme->property("touch").toDouble(), 54.0);
        m_theme->setProperty("pxPerMm", 3.6);
        QCOMPARE(m_theme->property("touch").toDouble(), 72.0);
        QCOMPARE(m_theme->property("touchSafety").toDouble(), 90.0);
        QCOMPARE(m_theme->property("gap").toDouble(), 11.0);
    }

    void figuresAreTabularAndCapitalsAsHighAsPromised()
    {
        const QString family = m_theme->property("family").toString();
        QCOMPARE(family, QStringLiteral("B612 Ramplight"));
        const double px = 3.6;
        const struct
        {
            const char* size;
            double capital; // mm
        } rows[] = {
            {"distanceSize", 17.5}, {"titleSize", 7}, {"readingSize", 5}, {"detailSize", 3.2}};
        for (const auto& row : rows) {
            QFont font(family);
            font.setPixelSize(m_theme->property(row.size).toInt());
            const QRawFont raw = QRawFont::fromFont(font);
            QVERIFY2(raw.capHeight() >= row.capital * px - 0.5, row.size);
            const QFontMetricsF metrics(font);
            for (const QChar digit : QStringLiteral("123456789"))
                QCOMPARE(metrics.horizontalAdvance(digit), metrics.horizontalAdvance(u'0'));
        }
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
        QTest::newRow("key") << QStringLiteral("KeyCap { text: 'A' }") << 20.0;
    }
    void targetsAreLargeEnough()
    {
        QFETCH(QString, qml);
        QFETCH(double, least);
        const auto item = show(qml);
        QVERIFY(item);
        QVERIFY(item->width() >= std::round(least * 3.6));
        QVERIFY(item->height() >= std::round(least * 3.6));
    }

    void keysKeepTheirSize_data()
    {
        QTest::addColumn<QString>("qml");
        QTest::newRow("numbers") << QStringLiteral("NumberPad {}");
        QTest::newRow("pin") << QStringLiteral("PinPad {}");
        QTest::newRow("letters") << QStringLiteral(
            "Item { width: 1080; height: 1920; TouchKeyboard {} }");
    }
    void keysKeepTheirSize()
    {
        QFETCH(QString, qml);
        const auto item = show(qml);
        QVERIFY(item);
        QList<QQuickItem*> keys;
        const std::function<void(QQuickItem*)> collect = [&](QQuickItem* from) {
            for (QQuickItem* child : from->childItems()) {
                if (QLatin1String(child->metaObject()->className())
                        .startsWith(QLatin1String("KeyCap")))
                    keys.append(child);
                collect(child);
            }
        };
        collect(item.get());
        QVERIFY(keys.size() >= 12);
        for (const QQuickItem* key : keys)
            QVERIFY2(key->width() >= 72 && key->height() >= 72,
                     qPrintable(key->property("text").toString()));
    }

    void aSecondTapAtOnceCountsOnce()
    {
        const auto button = show(QStringLiteral("ActionButton { text: 'Sign' }"));
        QVERIFY(button);
        QSignalSpy tapped(button.get(), SIGNAL(tapped()));
        tap(button.get());
        tap(button.get());
        QCOMPARE(tapped.count(), 1);
        // Once the guard is over the next tap counts again.
        QTRY_COMPARE((tap(button.get()), tapped.count()), 2);
    }

    void aDisabledButtonSaysWhyAndDoesNothing()
    {
        const auto button = show(QStringLiteral(
            "ActionButton { text: 'Release'; available: false; reason: '3 holds' }"));
        QVERIFY(button);
        QVERIFY(itemWith(button.get(), "Label", "text", QStringLiteral("3 holds")));
        QSignalSpy tapped(button.get(), SIGNAL(tapped()));
        QSignalSpy refused(button.get(), SIGNAL(refused()));
        tap(button.get());
        QCOMPARE(tapped.count(), 0);
        QCOMPARE(refused.count(), 1);
    }

    void oneChoiceAtATime()
    {
        const auto row = show(QStringLiteral("ChoiceRow { width: 900; options: ['one', 'two'] }"));
        QVERIFY(row);
        QSignalSpy chosen(row.get(), SIGNAL(chosen(int)));
        tap(itemWith(row.get(), "ChoiceChip", "text", QStringLiteral("two")));
        QCOMPARE(chosen.count(), 1);
        QCOMPARE(row->property("index").toInt(), 1);
        tap(itemWith(row.get(), "ChoiceChip", "text", QStringLiteral("one")));
        QCOMPARE(row->property("index").toInt(), 0);
        QVERIFY(!itemWith(row.get(), "ChoiceChip", "text", QStringLiteral("two"))
                     ->property("selected")
                     .toBool());
    }

    void numbersAreTyped_data()
    {
        QTest::addColumn<QString>("set");
        QTest::addColumn<QString>("keys");
        QTest::addColumn<QString>("text");
        QTest::newRow("whole") << QString() << QStringLiteral("1 2 0") << QStringLiteral("120");
        QTest::newRow("no point among whole numbers")
            << QString() << QStringLiteral("1 . 5") << QStringLiteral("15");
        QTest::newRow("decimals end")
            << QStringLiteral("decimals: 1") << QStringLiteral("1 . 6 5") << QStringLiteral("1.6");
        QTest::newRow("point first")
            << QStringLiteral("decimals: 2") << QStringLiteral(". 4") << QStringLiteral("0.4");
        QTest::newRow("one point")
            << QStringLiteral("decimals: 2") << QStringLiteral("3 . . 1") << QStringLiteral("3.1");
        QTest::newRow("no leading noughts")
            << QString() << QStringLiteral("0 0 7") << QStringLiteral("7");
        QTest::newRow("sign turns round")
            << QStringLiteral("signed: true") << QStringLiteral("5 \u2212") << QStringLiteral("-5");
        QTest::newRow("sign twice") << QStringLiteral("signed: true")
                                    << QStringLiteral("5 \u2212 \u2212") << QStringLiteral("5");
        QTest::newRow("no sign where none belongs")
            << QString() << QStringLiteral("5 \u2212") << QStringLiteral("5");
        QTest::newRow("not too many")
            << QStringLiteral("digits: 3") << QStringLiteral("1 2 3 4") << QStringLiteral("123");
        QTest::newRow("clear") << QString() << QStringLiteral("1 2 clear 4") << QStringLiteral("4");
    }
    void numbersAreTyped()
    {
        QFETCH(QString, set);
        QFETCH(QString, keys);
        QFETCH(QString, text);
        const auto pad =
            show(QStringLiteral("NumberPad { title: 'Depth'; unit: 'mm'; %1 }").arg(set));
        QVERIFY(pad);
        QSignalSpy done(pad.get(), SIGNAL(done(QString)));
        for (const QString& key : keys.split(u' ')) {
            QQuickItem* cap = itemWith(pad.get(), "KeyCap", "text", key);
            QVERIFY2(cap, qPrintable(key));
            tap(cap);
        }
        QCOMPARE(pad->property("text").toString(), text);
        tap(itemWith(pad.get(), "KeyCap", "text", QStringLiteral("Done")));
        QCOMPARE(done.count(), 1);
        QCOMPARE(done.first().first().toString(), text);
    }

    void numbersComeFromAKeyboardToo()
    {
        const auto pad = show(QStringLiteral("NumberPad { decimals: 1; focus: true }"));
        QVERIFY(pad);
        pad->forceActiveFocus();
        QSignalSpy done(pad.get(), SIGNAL(done(QString)));
        QTest::keyClick(m_window.get(), Qt::Key_Return);
        QCOMPARE(done.count(), 0); // nothing typed yet
        for (const char key : {'1', ',', '7'})
            QTest::keyClick(m_window.get(), key);
        QTest::keyClick(m_window.get(), Qt::Key_Backspace);
        QTest::keyClick(m_window.get(), '6');
        QTest::keyClick(m_window.get(), Qt::Key_Return);
        QCOMPARE(done.count(), 1);
        QCOMPARE(done.first().first().toString(), QStringLiteral("1.6"));
    }

    void aPinIsGivenAwayOnceAndForgotten()
    {
        const auto pad = show(QStringLiteral("PinPad {}"));
        QVERIFY(pad);
        QSignalSpy entered(pad.get(), SIGNAL(entered(QString)));
        for (const char* digit : {"4", "0", "0", "7", "1"})
            tap(itemWith(pad.get(), "KeyCap", "text", QLatin1String(digit)));
        QCOMPARE(entered.count(), 0);
        QCOMPARE(pad->property("count").toInt(), 5);
        tap(itemWith(pad.get(), "KeyCap", "text", QStringLiteral("2")));
        QCOMPARE(entered.count(), 1);
        QCOMPARE(entered.first().first().toString(), QStringLiteral("400712"));
        QCOMPARE(pad->property("count").toInt(), 0);
        // While it is checked, nothing is taken.
        pad->setProperty("busy", true);
        tap(itemWith(pad.get(), "KeyCap", "text", QStringLiteral("2")));
        QCOMPARE(pad->property("count").toInt(), 0);
    }

    void theKeyboardTypesIntoTheFieldAndKeepsItInSight()
    {
        const auto page = show(QStringLiteral(
            "Item { width: 1920; height: 1080\n"
            "  property alias field: line\n  property alias keys: board\n"
            "  Item { id: content; width: parent.width; height: parent.height; y: -board.shift\n"
            "    Field { id: line; y: 900; width: 400; label: 'Name' } }\n"
            "  TouchKeyboard { id: board; page: content } }"));
        QVERIFY(page);
        auto* field = page->property("field").value<QQuickItem*>();
        auto* keys = page->property("keys").value<QQuickItem*>();
        QVERIFY(!keys->isVisible());
        QVERIFY(QMetaObject::invokeMethod(field, "edit"));
        QTRY_VERIFY(keys->property("shown").toBool());
        QTRY_VERIFY(keys->isVisible());
        QTRY_COMPARE(keys->y(), 1080 - keys->height());
        const double foot = field->mapToItem(page.get(), QPointF(0, field->height())).y();
        QVERIFY(foot <= keys->y());
        const auto strike = [&](const char* property, const QVariant& value) {
            QQuickItem* cap = itemWith(keys, "KeyCap", property, value);
            QVERIFY2(cap, qPrintable(value.toString()));
            tap(cap);
        };
        constexpr int shift = 7; // Icon.Shift
        constexpr int erase = 6;
        strike("symbol", shift);
        strike("text", QStringLiteral("I"));
        strike("text", QStringLiteral("n"));
        strike("text", QStringLiteral("x"));
        strike("symbol", erase);
        strike("text", QStringLiteral("e"));
        strike("text", QStringLiteral("space"));
        strike("text", QStringLiteral("2"));
        QCOMPARE(field->property("text").toString(), QStringLiteral("Ine 2"));
        // Two touches on the capitals key keep them until a third.
        strike("symbol", shift);
        strike("symbol", shift);
        strike("text", QStringLiteral("A"));
        strike("text", QStringLiteral("B"));
        strike("symbol", shift);
        strike("text", QStringLiteral("c"));
        QCOMPARE(field->property("text").toString(), QStringLiteral("Ine 2ABc"));
        QSignalSpy accepted(field, SIGNAL(accepted()));
        strike("text", QStringLiteral("enter"));
        QCOMPARE(accepted.count(), 1);
        constexpr int hide = 10;
        strike("symbol", hide);
        QTRY_VERIFY(!keys->property("shown").toBool());
        QTRY_COMPARE(keys->property("shift").toDouble(), 0.0);
    }

    void aDialogTakesEveryTouch()
    {
        const auto page = show(QStringLiteral(
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
        tap(below); // the sheet lies over it
        QCOMPARE(belowTapped.count(), 0);
        QCOMPARE(dismissed.count(), 0);
        touchAt({10, 10});
        QCOMPARE(dismissed.count(), 1);
        dialog->setProperty("dismissable", false);
        touchAt({10, 10});
        QCOMPARE(dismissed.count(), 1);
        dialog->setProperty("shown", false);
        QTRY_VERIFY(!dialog->isVisible());
        tap(below);
        QCOMPARE(belowTapped.count(), 1);
    }

    void aPlaceIsTouchedOnTheCar()
    {
        const auto car = show(QStringLiteral(
            "CarOutline { shape: 'suv'; width: 500; height: 900; interactive: true }"));
        QVERIFY(car);
        QSignalSpy touched(car.get(), SIGNAL(placeTouched(QString)));
        for (const char* place : {"bonnet", "tyre-rear-right", "windscreen", "rear-door-left"}) {
            QPointF middle;
            QVERIFY(QMetaObject::invokeMethod(car.get(), "centreOf", Q_RETURN_ARG(QPointF, middle),
                                              Q_ARG(QString, QLatin1String(place))));
            touched.clear();
            touchAt(car->mapToScene(middle).toPoint());
            QCOMPARE(touched.count(), 1);
            QCOMPARE(touched.first().first().toString(), QLatin1String(place));
        }
        car->setProperty("interactive", false);
        touched.clear();
        touchAt({250, 450});
        QCOMPARE(touched.count(), 0);
    }

    void statesDifferInShape()
    {
        // In greyscale and at the same size, no two bands are alike.
        QList<QImage> pictures;
        for (int band = 0; band <= 8; ++band) {
            const auto item =
                show(QStringLiteral("Rectangle { width: 40; height: 300; color: 'white'\n"
                                    "StateBand { height: 300; band: %1 } }")
                         .arg(band));
            QVERIFY(item);
            const QImage picture = grab()
                                       .copy(0, 0, 18, 300)
                                       .convertToFormat(QImage::Format_Mono, Qt::ThresholdDither);
            QVERIFY2(!pictures.contains(picture), qPrintable(QString::number(band)));
            pictures.append(picture);
        }
    }

private:
    std::unique_ptr<QObject> make(const QByteArray& qml)
    {
        QQmlComponent component(m_engine.get());
        component.setData(qml, QUrl());
        std::unique_ptr<QObject> made(component.create());
        if (!made)
            qCritical().noquote() << component.errorString();
        return made;
    }

    std::unique_ptr<QQuickItem> show(const QString& qml)
    {
        auto made = make(
            ("import QtQuick\nimport Ramplight.Theme\nimport Ramplight.Controls\n" + qml.toUtf8()));
        auto* item = qobject_cast<QQuickItem*>(made.get());
        if (!item)
            return nullptr;
        (void)made.release();
        item->setParentItem(m_window->contentItem());
        m_window->show();
        if (!QTest::qWaitForWindowExposed(m_window.get()))
            return nullptr;
        m_window->requestActivate();
        (void)QTest::qWaitForWindowActive(m_window.get());
        (void)grab();
        return std::unique_ptr<QQuickItem>(item);
    }

    QImage grab() { return m_window->grabWindow(); }

    void touchAt(QPoint point)
    {
        QTest::touchEvent(m_window.get(), m_screen.get()).press(0, point);
        QTest::touchEvent(m_window.get(), m_screen.get()).release(0, point);
    }

    void tap(const QQuickItem* item)
    {
        QVERIFY(item);
        touchAt(item->mapToScene(QPointF(item->width() / 2, item->height() / 2)).toPoint());
    }

    static void filesOf(const QString& module)
    {
        QTest::addColumn<QString>("file");
        QDirIterator files(QStringLiteral(":/qt/qml/Ramplight/") + module,
                           {QStringLiteral("*.qml")});
        int count = 0;
        while (files.hasNext()) {
            const QString file = files.next();
            QTest::newRow(qPrintable(file.section(u'/', -1))) << QStringLiteral("qrc") + file;
            ++count;
        }
        QVERIFY(count >= 9);
    }

    void loads()
    {
        QFETCH(QString, file);
        QQmlComponent component(m_engine.get(), QUrl(file));
        const std::unique_ptr<QObject> made(component.createWithInitialProperties(
            {{QStringLiteral("width"), 1920}, {QStringLiteral("height"), 1080}}));
        QVERIFY2(made, qPrintable(component.errorString()));
        auto* item = qobject_cast<QQuickItem*>(made.get());
        QVERIFY(item);
        item->setParentItem(m_window->contentItem());
        m_window->show();
        QVERIFY(QTest::qWaitForWindowExposed(m_window.get()));
        QVERIFY(!grab().isNull());
    }

    std::unique_ptr<QPointingDevice> m_screen{QTest::createTouchDevice()};
    std::unique_ptr<QQmlEngine> m_engine;
    std::unique_ptr<QQuickWindow> m_window;
    std::unique_ptr<QObject> m_themeHolder;
    QObject* m_theme = nullptr;
};

QTEST_MAIN(ControlsTest)
#include "tst_controls.moc"
