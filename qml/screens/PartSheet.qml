// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Theme

// A part that is on order.  signal said(string part, string supplier, string due)
AskedSheet {
    id: root

    property string today: ""

    signal said(string part, string supplier, string due)

    title: qsTr("Waiting for a part")
    sheetWidth: Math.min(Theme.mm(220), width - 2 * Theme.margin)
    asks: "blockForPart"
    onOpened: {
        part.text = ""
        supplier.text = ""
        due.day = ""
        part.edit()
    }

    Column {
        width: parent.width
        spacing: Theme.module

        Field {
            id: part

            width: parent.width
            label: qsTr("Which part")
        }

        Field {
            id: supplier

            width: parent.width
            label: qsTr("Ordered with")
        }

        DayPicker {
            id: due

            width: parent.width
            label: qsTr("Due")
            today: root.today
        }
    }

    actions: [
        ActionButton {
            paper: true
            text: qsTr("Cancel")
            onTapped: root.shown = false
        },
        ActionButton {
            paper: true
            kind: ActionButton.Accent
            text: qsTr("It waits for this")
            available: part.text.trim().length > 0 && supplier.text.trim().length > 0
                && due.day.length > 0 && root.free
            reason: root.free ? qsTr("part, with whom, day") : ""
            onTapped: root.said(part.text.trim(), supplier.text.trim(), due.day)
        }
    ]
}
