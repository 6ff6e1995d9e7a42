// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// What somebody is qualified for, until when, and their specialities.
//   view;  signal dayWanted(string qualificationId, string title)
TellingSheet {
    id: root

    required property CompetenceView view

    signal dayWanted(string qualificationId, string title)

    ask: view.ask
    title: qsTr("%1: qualifications").arg(view.name)
    sheetWidth: Math.min(Theme.mm(240), width - 2 * Theme.margin)
    onDismissed: root.shown = false

    Column {
        width: parent.width
        spacing: Theme.module

        Column {
            width: parent.width

            Repeater {
                model: root.view.qualifications

                delegate: SettingLine {
                    required property string qualificationId
                    required property string untilWords
                    required property string until
                    required property bool over
                    required title

                    width: parent ? parent.width : 0
                    value: untilWords
                    mark: over ? SettingLine.Overdue : SettingLine.Plain
                    onTapped: root.dayWanted(qualificationId, title)
                }
            }
        }

        Label {
            visible: chips.count > 0
            text: qsTr("Specialities within a skill")
            role: Label.Detail
            muted: true
        }

        ChoiceChips {
            id: chips

            width: parent.width
            choices: root.view.specialities
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
            available: !root.view.ask.busy
            onTapped: root.view.save()
        }
    ]
}
