// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Theme

// Work given to an outside firm.  signal said(string firm, string due, int keys, string document)
AskedSheet {
    id: root

    property string today: ""
    property int keys: 0

    signal said(string firm, string due, int keys, string document)

    title: qsTr("Send it out")
    sheetWidth: Math.min(Theme.mm(220), width - 2 * Theme.margin)
    asks: "sendOut"
    onOpened: {
        firm.text = ""
        document.text = ""
        due.day = ""
        root.keys = 0
        firm.edit()
    }

    Column {
        width: parent.width
        spacing: Theme.module

        Field {
            id: firm

            width: parent.width
            label: qsTr("Firm")
        }

        Field {
            id: document

            width: parent.width
            label: qsTr("Order or delivery note")
        }

        Label {
            text: qsTr("Keys given along")
            role: Label.Detail
            muted: true
        }

        ChoiceRow {
            width: parent.width
            options: ["0", "1", "2", "3"]
            index: root.keys
            onChosen: index => root.keys = index
        }

        DayPicker {
            id: due

            width: parent.width
            label: qsTr("Due back")
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
            text: qsTr("It is out")
            available: firm.text.trim().length > 0 && due.day.length > 0 && root.free
            reason: root.free ? qsTr("firm and day") : ""
            onTapped: root.said(firm.text.trim(), due.day, root.keys, document.text.trim())
        }
    ]
}
