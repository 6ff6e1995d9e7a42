// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// One bay: the number on the floor, its name, what it is for.
TellingSheet {
    id: root

    required property StaffView view

    ask: view.ask
    title: view.bayId === 0 ? qsTr("A new bay") : qsTr("Bay %1").arg(view.bayNumber)
    sheetWidth: Math.min(Theme.mm(260), width - 2 * Theme.margin)
    onDismissed: root.shown = false

    Column {
        width: parent.width
        spacing: Theme.module

        Row {
            width: parent.width
            spacing: Theme.gap

            Field {
                width: Theme.mm(50)
                label: qsTr("Number")
                text: root.view.bayNumber
                onEdited: text => root.view.bayNumber = text
            }

            Field {
                width: parent.width - Theme.mm(50) - Theme.gap
                label: qsTr("Name")
                text: root.view.bayName
                onEdited: text => root.view.bayName = text
            }
        }

        ChoiceChips {
            width: parent.width
            choices: root.view.bayKinds
        }

        ChoiceChip {
            visible: root.view.bayId !== 0
            text: qsTr("In use")
            selected: root.view.bayActive
            onTapped: root.view.bayActive = !root.view.bayActive
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
            text: qsTr("Save")
            available: root.view.bayName.trim().length > 0 && root.view.bayNumber.length > 0 && !root.view.ask.busy
            reason: qsTr("number and name")
            onTapped: root.view.saveBay()
        }
    ]
}
