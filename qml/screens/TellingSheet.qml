// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk

// A sheet that says at its head, where it does not scroll away, what came in the way of what it asked.
//   ask: through what it asks the workshop
DialogSheet {
    id: root

    required property Ask ask

    trouble: ask.refused && !ask.busy ? ask.words : ""
    fault: ask.canRetry
    onRetried: root.ask.retry()
    onTroubleRead: root.ask.dismiss()
}
