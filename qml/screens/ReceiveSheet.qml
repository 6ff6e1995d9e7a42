// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Theme

// Work that an outside firm brought back: the paper that came with it, and the keys, where some
// were given along (keysOut), counted.  signal said(string document, int keys)
AskedSheet {
    id: root

    property int keysOut: 0

    readonly property bool counted: keysOut === 0 || keys.index >= 0

    signal said(string document, int keys)

    title: qsTr("It is back from the outside firm")
    asks: "receiveBack"
    onOpened: {
        document.text = ""
        keys.index = -1
        keys.options = Array.from({
            length: root.keysOut + 1
        }, (_, count) => String(count))
        document.edit()
    }

    Column {
        width: parent.width
        spacing: Theme.module

        Label {
            width: parent.width
            text: qsTr("Our own person checks and signs it next.")
            wrapMode: Text.WordWrap
        }

        Field {
            id: document

            width: parent.width
            label: qsTr("Document that came with it")
        }

        Label {
            width: parent.width
            visible: root.keysOut > 0
            text: qsTr("Keys back, of %1 given along").arg(root.keysOut)
            role: Label.Detail
            muted: true
            wrapMode: Text.WordWrap
        }

        ChoiceRow {
            id: keys

            width: parent.width
            visible: root.keysOut > 0
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
            text: qsTr("It is back")
            available: document.text.trim().length > 0 && root.counted && root.free
            reason: root.free ? (root.counted ? qsTr("a few words first") : qsTr("count the keys"))
                              : ""
            onTapped: root.said(document.text.trim(), Math.max(keys.index, 0))
        }
    ]
}
