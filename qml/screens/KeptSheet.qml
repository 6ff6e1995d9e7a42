// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// What this kiosk keeps while the server is away, and what the server's state refused when it was
// sent: there with both stories, until somebody who may manage has read them. So with what befell
// the files of this kiosk.
//   server
TellingSheet {
    id: root

    required property ServerView server

    ask: server.ask
    title: root.server.refused > 0 ? qsTr("Refused, and kept here")
        : root.server.notices > 0 ? qsTr("To be read") : qsTr("Kept here, not yet on the wall")
    sheetWidth: Math.min(Theme.mm(230), width - 2 * Theme.margin)
    onDismissed: root.shown = false

    Column {
        width: parent.width
        spacing: Theme.half

        Label {
            width: parent.width
            visible: rows.count === 0
            text: qsTr("Nothing is kept here. All of it is in the workshop's ledger.")
            wrapMode: Text.WordWrap
        }

        Repeater {
            id: rows

            model: root.server.rows

            delegate: KeptLine {
                width: parent.width
                onNoted: root.server.note(number)
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
