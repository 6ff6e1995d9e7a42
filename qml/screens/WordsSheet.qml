// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Theme

// Asks for a few words before something is done: a reason, what the buyer is told.
//   title, hint, label, confirm (words of the button), safety: draws it as a safety action
//   needed: false where it is done without words, too
//   most: as many characters are taken; 0: any number
//   signal said(string words)
AskedSheet {
    id: root

    property string hint: ""
    property string label: qsTr("Why")
    property string confirm: qsTr("Do it")
    property bool safety: false
    property bool needed: true
    property int most: 0
    readonly property int length: field.text.trim().length
    readonly property bool tooLong: most > 0 && length > most

    signal said(string words)

    onOpened: {
        field.text = ""
        if (root.needed)
            field.edit()
    }

    Column {
        width: parent.width
        spacing: Theme.module

        Label {
            width: parent.width
            visible: root.hint.length > 0
            text: root.hint
            wrapMode: Text.WordWrap
        }

        NoteField {
            id: field

            width: parent.width
            label: root.label
            lines: 3

            // Beside the label: below the field the keyboard would push the buttons out of sight.
            Label {
                anchors.right: parent.right
                visible: root.most > 0
                text: qsTr("%1 of %2 characters").arg(root.length).arg(root.most)
                role: Label.Detail
                muted: !root.tooLong
                strong: root.tooLong
            }
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
            kind: root.safety ? ActionButton.Safety : ActionButton.Accent
            text: root.confirm
            available: (!root.needed || root.length > 0) && !root.tooLong && root.free
            reason: !root.free ? "" : root.tooLong ? qsTr("fewer words") : qsTr("a few words first")
            onTapped: root.said(field.text.trim())
        }
    ]
}
