// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "tour/visitor.h"

#include <QImage>
#include <QPointer>
#include <QQmlEngine>
#include <QQmlIncubationController>
#include <QQuickItem>
#include <QQuickWindow>
#include <QTest>

#include <algorithm>
#include <cmath>

namespace ramplight {

namespace {

constexpr int patienceMs = 60'000; // a slow machine with other work takes half of it for the demo
constexpr int heldStillMs = 120;   // Flickable throws what was moved within the last 100 ms
constexpr int shiftSymbol = 7;     // Icon.Shift
constexpr int hideKeysSymbol = 10; // Icon.HideKeys

/// Every move of it counts: Qt Quick would join those that come within one frame into one jump.
QPointingDevice* finger()
{
    static QPointingDevice* const device = [] {
        qputenv("QML_NO_TOUCH_COMPRESSION", "1");
        return QTest::createTouchDevice();
    }();
    return device;
}

QString spokenBy(const QQuickItem* item)
{
    for (const char* name : {"spoken", "text"}) {
        const QVariant value = item->property(name);
        if (value.typeId() == QMetaType::QString && !value.toString().isEmpty())
            return value.toString();
    }
    return {};
}

/// In painting order; what lies on top comes last.
void walk(QQuickItem* item, const std::function<void(QQuickItem*)>& look)
{
    if (!item->isVisible() || item->opacity() <= 0)
        return;
    look(item);
    QList<QQuickItem*> children = item->childItems();
    std::ranges::stable_sort(children, {}, &QQuickItem::z);
    for (QQuickItem* child : children)
        walk(child, look);
}

QPointF middleOf(const QQuickItem* item)
{
    return item->mapToScene({item->width() / 2, item->height() / 2});
}

/// A finger at the very edge of a list may miss it by a pixel.
constexpr qreal edge = 1;

bool holds(const QQuickItem* area, QPointF scenePoint)
{
    return QRectF(0, 0, area->width(), area->height())
        .adjusted(edge, edge, -edge, -edge)
        .contains(area->mapFromScene(scenePoint));
}

QQuickItem* scrollerOf(QQuickItem* item)
{
    for (QQuickItem* at = item->parentItem(); at != nullptr; at = at->parentItem())
        if (at->inherits("QQuickFlickable"))
            return at;
    return nullptr;
}

/// What takes the touch of an item counts no second one so soon after the first.
bool isResting(const QQuickItem* item)
{
    for (; item != nullptr; item = item->parentItem())
        if (item->property("resting").toBool())
            return true;
    return false;
}

bool inSight(QQuickItem* item)
{
    const QPointF middle = middleOf(item);
    const QQuickWindow* window = item->window();
    if (window == nullptr || !QRectF(QPointF(), QSizeF(window->size())).contains(middle))
        return false;
    for (QQuickItem* at = item->parentItem(); at != nullptr; at = at->parentItem())
        if (at->clip() && !holds(at, middle))
            return false;
    return true;
}

} // namespace

bool Visitor::fail(const QString& what)
{
    if (m_fault.isEmpty())
        m_fault = what;
    return false;
}

void Visitor::settle()
{
    QCoreApplication::processEvents();
    (void)m_window->grabWindow();
    QCoreApplication::processEvents();
    // A list makes what lies beyond its edges when there is time: nothing is left half made.
    const QQmlEngine* engine = qmlEngine(m_window);
    if (engine != nullptr && engine->incubationController() != nullptr)
        (void)QTest::qWaitFor(
            [engine] { return engine->incubationController()->incubatingObjectCount() == 0; });
}

QQuickItem* Visitor::find(const QString& words) const
{
    QQuickItem* found = nullptr;
    walk(m_window->contentItem(), [&](QQuickItem* item) {
        if (spokenBy(item) == words)
            found = item;
    });
    return found;
}

std::vector<QQuickItem*> Visitor::ofType(const char* type) const
{
    const QByteArray wanted(type);
    std::vector<QQuickItem*> found;
    walk(m_window->contentItem(), [&](QQuickItem* item) {
        const QByteArray name = item->metaObject()->className();
        if (name == wanted || name.startsWith(wanted + "_QML"))
            found.push_back(item);
    });
    return found;
}

QString Visitor::allWords() const
{
    QStringList words;
    walk(m_window->contentItem(), [&](QQuickItem* item) {
        if (const QString said = spokenBy(item); !said.isEmpty() && !words.contains(said))
            words.append(said);
    });
    return words.join(QLatin1Char('\n'));
}

bool Visitor::until(const std::function<bool()>& comesTrue, const QString& what)
{
    if (QTest::qWaitFor(comesTrue, patienceMs))
        return true;
    return fail(QStringLiteral("did not come: %1. On the screen:\n%2").arg(what, allWords()));
}

bool Visitor::untilSays(const QString& words)
{
    return until([&] { return says(words); }, words);
}

bool Visitor::tap(const QString& words)
{
    constexpr int mostTries = 5;
    if (!untilSays(words))
        return false;
    // A list that is read anew makes its lines anew.
    for (int i = 1; i < mostTries; ++i) {
        const QPointer<QQuickItem> found(find(words));
        settle();
        if (!found.isNull() && found == find(words))
            return touch(found);
    }
    return untilSays(words) && tap(find(words));
}

bool Visitor::tap(QQuickItem* item)
{
    if (item == nullptr)
        return fail(QStringLiteral("nothing to be touched"));
    const QPointer<QQuickItem> there(item);
    settle();
    return there.isNull() ? fail(QStringLiteral("went away before it was touched")) : touch(item);
}

bool Visitor::touch(QQuickItem* item)
{
    const QPointer<QQuickItem> there(item);
    // A finger drags what lies outside into sight, half a view at a time.
    for (int i = 0; i < 60 && !there.isNull() && !inSight(item); ++i) {
        QQuickItem* scroller = scrollerOf(item);
        while (scroller != nullptr && holds(scroller, middleOf(item)))
            scroller = scrollerOf(scroller);
        if (scroller == nullptr)
            break;
        const QPointF at = middleOf(scroller);
        const QPointF off = scroller->mapFromScene(middleOf(item)) -
                            QPointF(scroller->width() / 2, scroller->height() / 2);
        const bool tall = std::abs(off.y()) > scroller->height() / 2 - edge;
        // Never so little that it would be a touch of what lies under the finger.
        const qreal view = tall ? scroller->height() : scroller->width();
        const qreal wanted = tall ? off.y() : off.x();
        const qreal way =
            std::copysign(std::clamp(std::abs(wanted), view * 0.2, view * 0.4), wanted);
        if (!dragToRest(scroller, at, at - (tall ? QPointF(0, way) : QPointF(way, 0))))
            return false;
    }
    if (there.isNull())
        return fail(QStringLiteral("went away while it was brought into sight"));
    if (!inSight(item))
        return fail(QStringLiteral("cannot be touched: %1").arg(spokenBy(item)));
    if (!until([&] { return there.isNull() || !isResting(there); }, spokenBy(item)))
        return false;
    if (there.isNull())
        return fail(QStringLiteral("went away while it was touched"));
    tapAt(middleOf(item));
    return true;
}

QQuickItem* Visitor::largestList() const
{
    QQuickItem* largest = nullptr;
    walk(m_window->contentItem(), [&](QQuickItem* item) {
        if (item->inherits("QQuickFlickable") &&
            item->property("contentHeight").toReal() > item->height() &&
            (largest == nullptr ||
             item->width() * item->height() >= largest->width() * largest->height()))
            largest = item;
    });
    return largest;
}

bool Visitor::dragToRest(QQuickItem* list, QPointF from, QPointF to)
{
    drag(from, to);
    settle();
    // A list that still moves only stops under a finger.
    return until([list] { return !list->property("moving").toBool(); },
                 QStringLiteral("the list to come to rest"));
}

bool Visitor::dragOn(QQuickItem* list, bool down)
{
    const QPointF at = middleOf(list);
    const QPointF way(0, list->height() * (down ? 0.35 : -0.35));
    return dragToRest(list, at + way, at - way);
}

bool Visitor::tapInList(const std::function<QQuickItem*()>& look, const QString& what)
{
    settle();
    // Down to its end, then up again.
    for (const bool down : {true, false})
        for (QQuickItem* list = largestList();
             look() == nullptr && list != nullptr &&
             !list->property(down ? "atYEnd" : "atYBeginning").toBool();)
            if (!dragOn(list, down))
                return false;
    return until([&] { return look() != nullptr; }, what) && tap(look());
}

bool Visitor::toBeginning()
{
    settle();
    QQuickItem* list = largestList();
    while (list != nullptr && !list->property("atYBeginning").toBool())
        if (!dragOn(list, false))
            return false;
    return true;
}

void Visitor::tapAt(QPointF point)
{
    QTest::touchEvent(m_window, finger()).press(0, point.toPoint(), m_window);
    QTest::touchEvent(m_window, finger()).release(0, point.toPoint(), m_window);
    QCoreApplication::processEvents();
}

void Visitor::drag(QPointF from, QPointF to)
{
    constexpr int steps = 12;
    QTest::touchEvent(m_window, finger()).press(0, from.toPoint(), m_window);
    for (int i = 1; i <= steps; ++i) {
        const QPointF at = from + (to - from) * i / steps;
        QTest::touchEvent(m_window, finger()).move(0, at.toPoint(), m_window);
    }
    // Held still before it lets go, so that nothing flies on.
    QTest::qWait(heldStillMs);
    QTest::touchEvent(m_window, finger()).release(0, to.toPoint(), m_window);
    QCoreApplication::processEvents();
}

bool Visitor::type(const QString& text)
{
    const auto key = [this](const QString& sign) -> QQuickItem* {
        QQuickItem* found = nullptr;
        for (QQuickItem* cap : ofType("KeyCap"))
            if (cap->property("text").toString().compare(sign, Qt::CaseInsensitive) == 0)
                found = cap;
        return found;
    };
    for (const QChar sign : text) {
        const QString wanted = sign == QLatin1Char(' ') ? QStringLiteral("space") : QString(sign);
        // Letters and marks share the keyboard.
        for (const char* other : {"marks", "abc"})
            if (key(wanted) == nullptr && key(QString::fromLatin1(other)) != nullptr &&
                !tap(key(QString::fromLatin1(other))))
                return false;
        if (!until([&] { return key(wanted) != nullptr; },
                   QStringLiteral("the key %1").arg(wanted)))
            return false;
        if (sign.isLetter() && sign.isUpper() && key(wanted)->property("text") != wanted)
            for (QQuickItem* cap : ofType("KeyCap"))
                if (cap->property("symbol").toInt() == shiftSymbol && !tap(cap))
                    return false;
        settle();
        if (!inSight(key(wanted)))
            return fail(QStringLiteral("the key %1 cannot be touched").arg(wanted));
        tapAt(middleOf(key(wanted)));
    }
    return true;
}

bool Visitor::hideKeyboard()
{
    const auto hides = [this]() -> QQuickItem* {
        for (QQuickItem* cap : ofType("KeyCap"))
            if (cap->property("symbol").toInt() == hideKeysSymbol)
                return cap;
        return nullptr;
    };
    QQuickItem* cap = hides();
    return cap == nullptr || (tap(cap) && until([&] { return hides() == nullptr; },
                                                QStringLiteral("the end of the keyboard")));
}

bool Visitor::shoot(const QString& path)
{
    settle();
    return m_window->grabWindow().save(path) ||
           fail(QStringLiteral("%1 cannot be written").arg(path));
}

} // namespace ramplight
