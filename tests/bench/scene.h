// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QString>

#include <functional>
#include <vector>

class QQuickItem;

// What is drawn in a window, seen from outside. GUI thread.
namespace ramplight::test {

/// item and everything in it that is visible, in no particular order.
void forEachVisible(QQuickItem* item, const std::function<void(QQuickItem*)>& look);
/// The visible items of a type, C++ or QML, below an item.
[[nodiscard]] std::vector<QQuickItem*> visibleOfType(QQuickItem* item, const char* type);

struct Drawn
{
    int rectangles = 0; ///< whatever draws and is no text
    int texts = 0;
};
[[nodiscard]] Drawn drawnIn(QQuickItem* item);

} // namespace ramplight::test
