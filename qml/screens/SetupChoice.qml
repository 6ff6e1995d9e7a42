// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Theme

// One of the two ways to begin, as a large sheet to touch.
//   title, words, strong;  signal tapped()
Touchable {
    id: root

    property string title: ""
    property string words: ""
    property bool strong: false

    spoken: title
    implicitHeight: Theme.mm(64)

    Rectangle {
        anchors.fill: parent
        radius: Theme.radius
        color: root.pressed ? (root.strong ? Theme.accentPressed : Theme.rule) : root.strong ? Theme.accent : Theme.paper
        border.width: root.activeFocus ? Theme.thickLine : 0
        border.color: Theme.groundAccent
    }

    Column {
        anchors { left: parent.left; right: parent.right; margins: Theme.margin; verticalCenter: parent.verticalCenter }
        spacing: Theme.half

        Label {
            width: parent.width
            text: root.title
            role: Label.Title
            color: root.strong ? Theme.accentInk : Theme.ink
            wrapMode: Text.WordWrap
        }

        Label {
            width: parent.width
            text: root.words
            color: root.strong ? Theme.accentInk : Theme.inkMuted
            wrapMode: Text.WordWrap
        }
    }
}
