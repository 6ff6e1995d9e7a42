// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/say.h"

#include <QCoreApplication>

namespace ramplight {

QString say(const char* text)
{
    return QCoreApplication::translate("ramplight", text);
}

} // namespace ramplight
