// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Theme

// What a sign-off still misses, one line each.
DialogSheet {
    id: root

    property list<string> missing

    title: qsTr("Not yet")
    onDismissed: root.shown = false

    Column {
        width: parent.width
        spacing: Theme.half

        Repeater {
            model: root.missing

            delegate: Label {
                required property string modelData

                width: parent.width
                text: modelData
                wrapMode: Text.WordWrap
            }
        }
    }

    actions: [
        ActionButton {
            paper: true
            kind: ActionButton.Accent
            text: qsTr("Close")
            onTapped: root.shown = false
        }
    ]
}
