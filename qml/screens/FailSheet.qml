// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// A check that fails: what goes back to its doer, and why.
//   work: the work that can go back;  signal said(int operationId, string words)
AskedSheet {
    id: root

    required property Choices work

    signal said(int operationId, string words)

    title: qsTr("The check fails")
    sheetWidth: Math.min(Theme.mm(220), width - 2 * Theme.margin)
    asks: "failCheck"
    onOpened: {
        why.text = ""
        root.work.clear()
    }

    Column {
        width: parent.width
        spacing: Theme.module

        Label {
            visible: chips.count > 1
            text: qsTr("What goes back; all of it where nothing is chosen")
            role: Label.Detail
            muted: true
        }

        Flow {
            width: parent.width
            visible: chips.count > 1
            spacing: Theme.gap

            Repeater {
                id: chips

                model: root.work

                delegate: ChoiceChip {
                    required property string choiceId
                    required property string title
                    required property bool chosen

                    text: title
                    selected: chosen
                    onTapped: root.work.choose(choiceId)
                }
            }
        }

        NoteField {
            id: why

            width: parent.width
            label: qsTr("What is to be put right")
            lines: 3
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
            kind: ActionButton.Safety
            text: qsTr("Back to its doer")
            available: why.text.trim().length > 0 && root.free
            reason: root.free ? qsTr("say why first") : ""
            onTapped: root.said(root.work.current.length > 0 ? Number(root.work.current) : 0, why.text.trim())
        }
    ]
}
