// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// What was refused when it was sent and somebody has read: for the one whose work it was, and for
// whoever may manage, with both stories.
//   server
DialogSheet {
    id: root

    required property ServerView server

    title: qsTr("Sent later, and refused")
    sheetWidth: Math.min(Theme.mm(230), width - 2 * Theme.margin)
    onDismissed: root.shown = false
    onShownChanged: {
        if (root.shown)
            root.server.refreshRead()
    }

    Column {
        width: parent.width
        spacing: Theme.half

        Label {
            width: parent.width
            text: rows.count === 0 ? qsTr("Nothing of yours was refused.")
                : qsTr("The workshop's ledger does not have these. Look at the car, and enter again what is missing. They stay here for a year.")
            muted: true
            wrapMode: Text.WordWrap
        }

        Repeater {
            id: rows

            model: root.server.readRows

            delegate: KeptLine {
                width: parent.width
            }
        }
    }

    actions: [
        ActionButton {
            paper: true
            text: qsTr("Close")
            onTapped: root.shown = false
        }
    ]
}
