// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Theme

// Takes the picture: a ring as large as a thumb in a thick glove, with its words below.
//   text, available;  signals tapped(), refused()
Touchable {
    id: root

    property string text: ""

    spoken: text
    implicitWidth: Math.max(Theme.mm(34), words.implicitWidth)
    implicitHeight: ring.height + words.height + Theme.half

    Rectangle {
        id: ring

        anchors.horizontalCenter: parent.horizontalCenter
        width: Theme.mm(34)
        height: width
        radius: width / 2
        color: "transparent"
        border.width: Theme.mm(1.6)
        border.color: root.available ? Theme.accent : Theme.paperLine

        Rectangle {
            anchors { fill: parent; margins: Theme.mm(3.2) }
            radius: width / 2
            color: !root.available ? Theme.sunk : root.pressed ? Theme.accentPressed : Theme.accent

            Icon {
                anchors.centerIn: parent
                width: Theme.mm(12)
                height: Theme.mm(12)
                symbol: Icon.Camera
                colour: root.available ? Theme.accentInk : Theme.inkMuted
            }
        }
    }

    Label {
        id: words

        anchors { horizontalCenter: parent.horizontalCenter; bottom: parent.bottom }
        text: root.text
        color: root.available ? Theme.accent : Theme.inkMuted
        strong: true
    }

    Rectangle {
        anchors.fill: parent
        visible: root.activeFocus
        color: "transparent"
        radius: Theme.radius
        border.width: Theme.thickLine
        border.color: Theme.ink
    }
}
