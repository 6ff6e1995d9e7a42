// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "record/paper.h"

#include <QFont>
#include <QStringList>

// The typeface of the record and how its text breaks into lines. Needs a QGuiApplication; any
// thread.
namespace ramplight::paper {

[[nodiscard]] QFont fontOf(Type type);
/// From one line's baseline to the next.
[[nodiscard]] double lineHeight(Type type);
/// From the top of a line to its baseline.
[[nodiscard]] double ascent(Type type);
[[nodiscard]] double widthOf(const QString& text, Type type);
/// Breaks at words, within a word only where it is longer than the line. Never empty.
[[nodiscard]] QStringList linesOf(const QString& text, Type type, double width);

} // namespace ramplight::paper
