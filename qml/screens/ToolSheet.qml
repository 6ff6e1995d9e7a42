// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// One tool: the number as engraved, its kind, the day of its next calibration.
//   view;  signal dayWanted(): the day is to be chosen
TellingSheet {
    id: root

    required property ToolsView view

    signal dayWanted

    ask: view.ask
    title: view.toolId === 0 ? qsTr("A new tool") : qsTr("Tool %1").arg(view.number)
    sheetWidth: Math.min(Theme.mm(280), width - 2 * Theme.margin)
    onDismissed: root.shown = false

    Column {
        width: parent.width
        spacing: Theme.module

        Field {
            width: Theme.mm(90)
            label: qsTr("Number, as engraved")
            text: root.view.number
            maximumLength: 20
            onEdited: text => root.view.number = text
        }

        ChoiceChips {
            width: parent.width
            choices: root.view.kinds
        }

        SettingLine {
            title: qsTr("Next calibration")
            detail: qsTr("The last day on which it may be used")
            value: root.view.dueWords.length > 0 ? root.view.dueWords : qsTr("choose")
            onTapped: root.dayWanted()
        }

        ChoiceChip {
            visible: root.view.toolId !== 0
            text: qsTr("In the house")
            selected: root.view.active
            onTapped: root.view.active = !root.view.active
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
            available: root.view.number.trim().length > 0 && root.view.due.length > 0 && !root.view.ask.busy
            reason: qsTr("number and day")
            onTapped: root.view.save()
        }
    ]
}
