// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Theme

// Nothing to show, and the next step.
//   title, hint, action (words of the button, may be empty), paper;  signal acted()
Column {
    id: root

    property string title: ""
    property string hint: ""
    property string action: ""
    property bool paper: false

    signal acted

    // Words that nobody sees are not laid out.
    function seen(words: string): string {
        return root.visible ? words : ""
    }

    spacing: Theme.module
    width: Math.min(Theme.mm(180), parent ? parent.width : Theme.mm(180))

    Label {
        width: parent.width
        text: root.seen(root.title)
        role: Label.Title
        paper: root.paper
        horizontalAlignment: Text.AlignHCenter
        wrapMode: Text.WordWrap
    }

    Label {
        width: parent.width
        visible: root.hint.length > 0
        text: root.seen(root.hint)
        muted: true
        paper: root.paper
        horizontalAlignment: Text.AlignHCenter
        wrapMode: Text.WordWrap
    }

    ActionButton {
        anchors.horizontalCenter: parent.horizontalCenter
        visible: root.action.length > 0
        kind: ActionButton.Accent
        paper: root.paper
        text: root.seen(root.action)
        onTapped: root.acted()
    }
}
