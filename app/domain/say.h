// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QString>

// Words for people outside a QObject, in the language of the kiosk: tr() for functions. lupdate
// finds them with -tr-function-alias tr+=say, in the context of the namespace that they stand in.
namespace ramplight {

[[nodiscard]] QString say(const char* text);

} // namespace ramplight
