// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QString>

namespace ramplight {

/// Words of people as text of an HTML or SVG document, or as an attribute's value: nothing in them
/// opens an element, ends a value, or turns the direction of what stands around them.
[[nodiscard]] QString htmlText(const QString& words);
/// The same between the quotes of a string in a style sheet.
[[nodiscard]] QString cssText(const QString& words);

} // namespace ramplight
