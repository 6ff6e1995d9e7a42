// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Theme

// Something about the house that somebody has to see to, said before it is late.
//   text;  signal tapped()
Touchable {
    id: root

    property string text: ""

    width: parent ? parent.width : implicitWidth
    visible: text.length > 0
    implicitHeight: Math.max(Theme.touch, words.height + Theme.module)
    spoken: text

    Rectangle {
        anchors.fill: parent
        radius: Theme.radius
        color: root.pressed ? Theme.groundLine : Theme.raised
    }

    Label {
        id: words

        anchors { left: parent.left; right: parent.right; margins: Theme.mm(6); verticalCenter: parent.verticalCenter }
        text: root.text
        paper: false
        wrapMode: Text.WordWrap
        maximumLineCount: 2
        elide: Text.ElideRight
    }
}
