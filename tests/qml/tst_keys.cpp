// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "controlbench.h"
#include "support/testmain.h"

#include <QSignalSpy>
#include <QTest>

using namespace ramplight::test;

/// What is typed: on number pad, PIN pad and touch keyboard, and by a keyboard.
class KeysTest : public QObject
{
    Q_OBJECT

private slots:
    void init()
    {
        m_bench = std::make_unique<ControlBench>();
        QVERIFY(m_bench->theme());
    }
    void cleanup() { m_bench.reset(); }

    void keysKeepTheirSize_data()
    {
        QTest::addColumn<QString>("qml");
        QTest::newRow("numbers") << QStringLiteral("NumberPad {}");
        QTest::newRow("pin") << QStringLiteral("PinPad {}");
        QTest::newRow("letters") << QStringLiteral(
            "Item { width: 1080; height: 1920\n"
            "  Field { width: 400; Component.onCompleted: edit() } TouchKeyboard {} }");
    }
    void keysKeepTheirSize()
    {
        QFETCH(QString, qml);
        const auto item = m_bench->show(qml);
        QVERIFY(item);
        QList<QQuickItem*> keys;
        const std::function<void(QQuickItem*)> collect = [&](const QQuickItem* from) {
            for (QQuickItem* child : from->childItems()) {
                if (QLatin1String(child->metaObject()->className())
                        .startsWith(QLatin1String("KeyCap")))
                    keys.append(child);
                collect(child);
            }
        };
        QTRY_VERIFY((keys.clear(), collect(item.get()), keys.size() >= 12));
        for (const QQuickItem* key : keys)
            QVERIFY2(key->width() >= 72 && key->height() >= 72,
                     qPrintable(key->property("text").toString()));
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
            m_bench->show(QStringLiteral("NumberPad { title: 'Depth'; unit: 'mm'; %1 }").arg(set));
        QVERIFY(pad);
        QSignalSpy done(pad.get(), SIGNAL(done(QString)));
        for (const QString& key : keys.split(u' ')) {
            QQuickItem* cap = itemWith(pad.get(), "KeyCap", "text", key);
            QVERIFY2(cap, qPrintable(key));
            m_bench->tap(cap);
        }
        QCOMPARE(pad->property("text").toString(), text);
        m_bench->tap(itemWith(pad.get(), "KeyCap", "text", QStringLiteral("Done")));
        QCOMPARE(done.count(), 1);
        QCOMPARE(done.first().first().toString(), text);
    }

    void numbersComeFromAKeyboardToo()
    {
        const auto pad = m_bench->show(QStringLiteral("NumberPad { decimals: 1; focus: true }"));
        QVERIFY(pad);
        pad->forceActiveFocus();
        QSignalSpy done(pad.get(), SIGNAL(done(QString)));
        QTest::keyClick(&m_bench->window(), Qt::Key_Return);
        QCOMPARE(done.count(), 0); // nothing typed yet
        for (const char key : {'1', ',', '7'})
            QTest::keyClick(&m_bench->window(), key);
        QTest::keyClick(&m_bench->window(), Qt::Key_Backspace);
        QTest::keyClick(&m_bench->window(), '6');
        QTest::keyClick(&m_bench->window(), Qt::Key_Return);
        QCOMPARE(done.count(), 1);
        QCOMPARE(done.first().first().toString(), QStringLiteral("1.6"));
    }

    void aPinIsGivenAwayOnceAndForgotten()
    {
        const auto pad = m_bench->show(QStringLiteral("PinPad {}"));
        QVERIFY(pad);
        QSignalSpy entered(pad.get(), SIGNAL(entered(QString)));
        for (const char* digit : {"4", "0", "0", "7", "1"})
            m_bench->tap(itemWith(pad.get(), "KeyCap", "text", QLatin1String(digit)));
        QCOMPARE(entered.count(), 0);
        QCOMPARE(pad->property("count").toInt(), 5);
        m_bench->tap(itemWith(pad.get(), "KeyCap", "text", QStringLiteral("2")));
        QCOMPARE(entered.count(), 1);
        QCOMPARE(entered.first().first().toString(), QStringLiteral("400712"));
        QCOMPARE(pad->property("count").toInt(), 0);
        // While it is checked, nothing is taken.
        pad->setProperty("busy", true);
        m_bench->tap(itemWith(pad.get(), "KeyCap", "text", QStringLiteral("2")));
        QCOMPARE(pad->property("count").toInt(), 0);
    }

    void theKeyboardTypesIntoTheFieldAndKeepsItInSight()
    {
        const auto page = m_bench->show(QStringLiteral(
            "Item { width: 1920; height: 1080\n"
            "  property alias field: line\n  property alias keys: board\n"
            "  Item { id: content; width: parent.width; height: parent.height; y: -board.shift\n"
            "    Field { id: line; y: 900; width: 400; label: 'Name' } }\n"
            "  TouchKeyboard { id: board; page: content } }"));
        QVERIFY(page);
        auto* field = page->property("field").value<QQuickItem*>();
        auto* keys = page->property("keys").value<QQuickItem*>();
        QVERIFY(!keys->isVisible());
        // Nobody has asked for them.
        QVERIFY(itemWith(keys, "KeyCap", "text", QStringLiteral("2")) == nullptr);
        QVERIFY(QMetaObject::invokeMethod(field, "edit"));
        QTRY_VERIFY(keys->property("shown").toBool());
        QTRY_VERIFY(keys->isVisible());
        QTRY_COMPARE(keys->y(), 1080 - keys->height());
        const double foot = field->mapToItem(page.get(), QPointF(0, field->height())).y();
        QVERIFY(foot <= keys->y());
        const auto strike = [&](const char* property, const QVariant& value) {
            QQuickItem* cap = itemWith(keys, "KeyCap", property, value);
            QVERIFY2(cap, qPrintable(value.toString()));
            m_bench->tap(cap);
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

private:
    std::unique_ptr<ControlBench> m_bench;
};

RAMPLIGHT_TEST(QGuiApplication, KeysTest)
#include "tst_keys.moc"
