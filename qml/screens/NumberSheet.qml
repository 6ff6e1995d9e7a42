// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Theme

// One number on the pad.
//   ask(key, title, unit, decimals, hint, text): shows it;  emptyText: words of the button that
//   takes the number away, empty: there is none
//   signal entered(string key, string text): text is empty when it was taken away
DialogSheet {
    id: root

    property string key: ""
    property string emptyText: ""
    property string hint: ""

    signal entered(string key, string text)

    function ask(key: string, title: string, unit: string, decimals: int, hint: string, text: string): void {
        root.key = key
        root.title = title
        root.hint = hint
        pad.unit = unit
        pad.decimals = decimals
        pad.text = ""
        now.text = text.length > 0 ? qsTr("Now %1 %2").arg(text).arg(unit) : ""
        root.shown = true
        pad.forceActiveFocus()
    }

    function take(text: string): void {
        root.shown = false
        root.entered(root.key, text)
    }

    low: true
    sheetWidth: Math.min(Theme.mm(130), width - 2 * Theme.margin)
    onDismissed: root.shown = false

    Column {
        width: parent.width
        spacing: Theme.module

        Label {
            width: parent.width
            visible: text.length > 0
            text: root.hint
            role: Label.Detail
            muted: true
            wrapMode: Text.WordWrap
        }

        Label {
            id: now

            visible: text.length > 0
        }

        NumberPad {
            id: pad

            anchors.horizontalCenter: parent.horizontalCenter
            doneText: qsTr("Set")
            onDone: text => root.take(text)
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
            visible: root.emptyText.length > 0
            text: root.emptyText
            onTapped: root.take("")
        }
    ]
}
