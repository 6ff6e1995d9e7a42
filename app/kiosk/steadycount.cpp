// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/steadycount.h"

#include <QElapsedTimer>

namespace ramplight {

std::function<qint64()> steadyCount()
{
    QElapsedTimer since;
    since.start();
    return [since] { return since.elapsed(); };
}

} // namespace ramplight
