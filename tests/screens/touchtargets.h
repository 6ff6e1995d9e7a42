// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kioskbench.h"

#include <QQuickItem>
#include <QQuickWindow>

#include <algorithm>
#include <cmath>

// What can be touched on the screen that is shown, and whether a glove hits it.
namespace ramplight::test {

/// Gloves want 20 mm, and 3 mm to the next (MIL-STD-1472 asks 19 mm for mittens). Whole pixels:
/// rounded down.
inline double targetPixels(KioskBench& bench)
{
    return std::floor(20 * bench.window()->property("pxPerMm").toDouble()) - 1;
}

inline bool areTooNear(KioskBench& bench, const QRectF& one, const QRectF& other)
{
    const double gap = std::floor(3 * bench.window()->property("pxPerMm").toDouble()) - 1;
    return one.adjusted(-gap, -gap, gap, gap).intersects(other);
}

struct TouchTarget
{
    const QQuickItem* screen = nullptr; ///< the one that it is on: the wall lies below the others
    QString type;
    QString words;
    QRectF box; ///< in the window
};

inline QString typeOf(const QQuickItem* item)
{
    return QString::fromLatin1(item->metaObject()->className()).section(QLatin1Char('_'), 0, 0);
}

inline bool isTouchable(const QQuickItem* item)
{
    for (const QMetaObject* type = item->metaObject(); type != nullptr; type = type->superClass())
        if (QByteArray(type->className()).startsWith("Touchable_QML"))
            return true;
    return false;
}

inline void addTouchTargets(std::vector<TouchTarget>& targets, const QQuickItem* item,
                            const QQuickItem* screen = nullptr)
{
    if (!item->isVisible())
        return;
    if (typeOf(item).endsWith(QLatin1StringView("Screen")))
        screen = item;
    if (isTouchable(item) && item->isEnabled() && isInSight(item))
        targets.push_back(
            {screen, typeOf(item),
             QStringLiteral("%1 \"%2\"").arg(typeOf(item), item->property("spoken").toString()),
             item->mapRectToScene(item->boundingRect())});
    for (const QQuickItem* child : item->childItems())
        addTouchTargets(targets, child, screen);
}

/// Lines of a list and tiles of a table touch each other: each is as large as several fingers.
inline bool standsApart(const TouchTarget& target)
{
    static const QStringList types{QStringLiteral("ActionButton"),  QStringLiteral("ChoiceChip"),
                                   QStringLiteral("FilterTab"),     QStringLiteral("KeyCap"),
                                   QStringLiteral("ShutterButton"), QStringLiteral("PersonChip")};
    return types.contains(target.type);
}

/// A line for each that is too small, or too near to another one.
inline QStringList hardToHit(KioskBench& bench)
{
    QStringList faults;
    std::vector<TouchTarget> all;
    addTouchTargets(all, bench.window()->contentItem());
    if (all.empty())
        return {QStringLiteral("nothing can be touched")};
    for (auto one = all.begin(); one != all.end(); ++one) {
        const QRectF& box = one->box;
        if (std::min(box.width(), box.height()) < targetPixels(bench))
            faults.append(QStringLiteral("%1 is %2 by %3 pixels")
                              .arg(one->words)
                              .arg(box.width(), 0, 'f', 0)
                              .arg(box.height(), 0, 'f', 0));
        for (auto other = one + 1; other != all.end(); ++other) {
            // What lies on top of another is a thing of its own in it.
            if (one->screen == other->screen && standsApart(*one) && standsApart(*other) &&
                areTooNear(bench, box, other->box) && !box.contains(other->box) &&
                !other->box.contains(box))
                faults.append(
                    QStringLiteral("%1 and %2 are too near").arg(one->words, other->words));
        }
    }
    return faults;
}

} // namespace ramplight::test
