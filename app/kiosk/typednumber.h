// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QString>
#include <QStringView>

#include <tl/expected.hpp>

namespace ramplight {

/// Digits as a person types them ("1.9", "1,9", " 120 ") as a whole count of 10^-decimals. The
/// error is words: what was expected.
[[nodiscard]] tl::expected<int, QString> typedNumber(QStringView text, int decimals);
/// The other way round: 19 with one decimal is "1.9".
[[nodiscard]] QString typedText(int number, int decimals);

} // namespace ramplight
