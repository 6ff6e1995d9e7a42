// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QString>

#include <vector>

// Code 128 (ISO/IEC 15417), code set B: what every bar code reader reads. Pure.
namespace ramplight {

/// Widths in modules, a bar first, then a space, and so on; with start, check character and stop,
/// without the quiet zones (ten modules on either side are the caller's). Empty when the text is
/// empty or has a character outside ASCII 32 to 126.
[[nodiscard]] std::vector<int> code128(const QString& text);

/// Quiet zone on either side, in modules.
constexpr int code128Quiet = 10;

} // namespace ramplight
