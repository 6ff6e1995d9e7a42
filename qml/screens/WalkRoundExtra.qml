// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Theme

// One optional figure of a finding: what it is, and its value so far.
//   title, value;  signal tapped()
Touchable {
    id: root

    property string title: ""
    property string value: ""

    spoken: title
    implicitWidth: Math.max(Theme.touch, name.implicitWidth + Theme.module)

    Rectangle {
        anchors.fill: parent
        radius: Theme.radius
        color: root.pressed ? Theme.rule : Theme.paper
        border.width: Theme.line
        border.color: root.value.length > 0 ? Theme.ink : Theme.paperLine
    }

    Column {
        anchors.centerIn: parent

        Label {
            id: name

            anchors.horizontalCenter: parent.horizontalCenter
            text: root.title
            role: Label.Detail
            muted: true
        }

        Label {
            anchors.horizontalCenter: parent.horizontalCenter
            text: root.value.length > 0 ? root.value : "–"
            strong: root.value.length > 0
            muted: root.value.length === 0
        }
    }
}
