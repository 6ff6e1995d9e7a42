// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// A check that fails: what goes back to its doer, and why.
//   work: the work that can go back, named: whether one of it must be chosen
//   signal said(int operationId, string words): 0 where nothing was chosen
AskedSheet {
    id: root

    required property Choices work
    required property bool named
    readonly property bool choosable: named || chips.count > 1
    readonly property bool missing: named && work.current.length === 0

    signal said(int operationId, string words)

    title: qsTr("The check fails")
    sheetWidth: Math.min(Theme.mm(choosable ? 340 : 220), width - 2 * Theme.margin)
    asks: "failCheck"
    onOpened: {
        why.text = ""
        root.work.clear()
        if (root.named)
            root.work.chooseOnly()
    }

    Column {
        width: parent.width
        spacing: Theme.module

        Label {
            visible: root.choosable
            text: root.named ? qsTr("What goes back") : qsTr("What goes back; all that this check was opened for where nothing is chosen")
            role: Label.Detail
            muted: true
        }

        Flow {
            id: list

            width: parent.width
            visible: root.choosable
            spacing: Theme.gap

            Repeater {
                id: chips

                model: root.work

                delegate: ChoiceChip {
                    required property string choiceId
                    required property string title
                    required property bool chosen

                    text: title
                    widest: list.width
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
            available: !root.missing && why.text.trim().length > 0 && root.free
            reason: !root.free ? "" : root.missing ? qsTr("choose what goes back") : qsTr("say why first")
            onTapped: root.said(root.work.current.length > 0 ? Number(root.work.current) : 0, why.text.trim())
        }
    ]
}
