// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "bench/scene.h"

#include <QQuickItem>

namespace ramplight::test {

void forEachVisible(QQuickItem* item, const std::function<void(QQuickItem*)>& look)
{
    if (!item->isVisible())
        return;
    look(item);
    for (QQuickItem* child : item->childItems())
        forEachVisible(child, look);
}

std::vector<QQuickItem*> visibleOfType(QQuickItem* item, const char* type)
{
    std::vector<QQuickItem*> found;
    const QByteArray qml = QByteArray(type) + "_QML";
    forEachVisible(item, [&](QQuickItem* at) {
        if (at->inherits(type) || QByteArray(at->metaObject()->className()).startsWith(qml))
            found.push_back(at);
    });
    return found;
}

Drawn drawnIn(QQuickItem* item)
{
    Drawn drawn;
    forEachVisible(item, [&](QQuickItem* at) {
        if (at->inherits("QQuickText"))
            ++drawn.texts;
        else if (at->flags() & QQuickItem::ItemHasContents)
            ++drawn.rectangles;
    });
    return drawn;
}

} // namespace ramplight::test
