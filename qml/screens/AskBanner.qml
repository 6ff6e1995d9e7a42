// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// What came of a question to the workshop, while there is something to say: the refusal with its
// list, or the failed write that can be tried again. Place it over everything, low.
//   ask
Item {
    id: root

    required property Ask ask

    anchors { left: parent ? parent.left : undefined; right: parent ? parent.right : undefined; margins: Theme.margin }
    implicitHeight: banner.height

    function lines(): string {
        let all = ""
        for (let at = 0; at < root.ask.details.length; ++at)
            all += (at > 0 ? "\n" : "") + root.ask.details[at]
        return all
    }

    visible: ask.refused && !ask.busy

    Banner {
        id: banner

        width: parent.width
        kind: root.ask.canRetry ? Banner.Fault : Banner.Refusal
        what: root.ask.words
        todo: root.lines()
        action: root.ask.canRetry ? qsTr("Try again") : ""
        onActed: root.ask.retry()
        onClosed: root.ask.dismiss()
    }
}
