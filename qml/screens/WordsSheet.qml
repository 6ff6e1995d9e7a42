// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Theme

// Asks for a few words before something is done: a reason, what the buyer is told.
//   title, hint, label, confirm (words of the button), safety: draws it as a safety action
//   needed: false where it is done without words, too
//   signal said(string words)
AskedSheet {
    id: root

    property string hint: ""
    property string label: qsTr("Why")
    property string confirm: qsTr("Do it")
    property bool safety: false
    property bool needed: true

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
            available: (!root.needed || field.text.trim().length > 0) && root.free
            reason: root.free ? qsTr("a few words first") : ""
            onTapped: root.said(field.text.trim())
        }
    ]
}
