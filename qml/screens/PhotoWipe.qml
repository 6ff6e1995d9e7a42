// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Theme

// Two pictures on top of each other and a line between them that a finger moves: left of it the
// earlier one is seen, right of it the later one. Touch anywhere, or drag the handle.
//   beforeUrl, afterUrl (equal sizes), proportion (their width by height), beforeText, afterText
//   line: where it stands, 0 (all of the later one) to 1 (all of the earlier one)
FocusScope {
    id: root

    property url beforeUrl
    property url afterUrl
    property real proportion: 1
    property string beforeText: ""
    property string afterText: ""
    property real line: 0.5

    function moveTo(x: real): void {
        root.line = Math.max(0, Math.min(1, x / frame.width))
    }

    Keys.onLeftPressed: root.moveTo((root.line - 0.05) * frame.width)
    Keys.onRightPressed: root.moveTo((root.line + 0.05) * frame.width)
    Accessible.role: Accessible.Slider
    Accessible.name: qsTr("Line between before and after")

    Item {
        id: frame

        readonly property int at: Math.round(root.line * width)

        // On a tall screen at the lower end, where a hand reaches the line.
        x: Math.floor((root.width - width) / 2)
        y: root.height > root.width ? root.height - height : Math.floor((root.height - height) / 2)
        width: Math.floor(Math.min(root.width, root.height * root.proportion))
        height: Math.floor(Math.min(root.height, root.width / root.proportion))

        Item {
            width: frame.at
            height: frame.height
            clip: true

            Image {
                id: before

                width: frame.width
                height: frame.height
                source: root.beforeUrl
                sourceSize.width: frame.width
                sourceSize.height: frame.height
                asynchronous: true
            }

            PhotoCaption {
                anchors { left: parent.left; top: parent.top; margins: Theme.half }
                text: root.beforeText
            }
        }

        Item {
            x: frame.at
            width: frame.width - frame.at
            height: frame.height
            clip: true

            Image {
                id: after

                x: -frame.at
                width: frame.width
                height: frame.height
                source: root.afterUrl
                sourceSize.width: frame.width
                sourceSize.height: frame.height
                asynchronous: true
            }

            PhotoCaption {
                anchors { right: parent.right; top: parent.top; margins: Theme.half }
                text: root.afterText
            }
        }

        Rectangle {
            x: frame.at - width / 2
            width: 2 * Theme.thickLine
            height: frame.height
            color: Theme.paper
        }

        // Low, within reach. It may stand half beside the picture, but never leaves the screen.
        Rectangle {
            id: handle

            x: Math.max(-frame.x, Math.min(root.width - frame.x - width, frame.at - width / 2))
            y: frame.height - height - Theme.module
            width: Theme.touchSafety
            height: Theme.touchSafety
            radius: width / 2
            color: area.pressed ? Theme.accentPressed : Theme.accent
            border.width: Theme.thickLine
            border.color: Theme.paper

            Row {
                anchors.centerIn: parent
                spacing: Theme.half

                Repeater {
                    model: 3

                    delegate: Rectangle {
                        width: Theme.thickLine
                        height: Theme.mm(9)
                        color: Theme.accentInk
                    }
                }
            }
        }

        MouseArea {
            id: area

            // A finger that holds the handle beside its middle does not make the line jump.
            property real beside: 0

            anchors { fill: parent; leftMargin: -handle.width / 2; rightMargin: -handle.width / 2 }
            preventStealing: true
            onPressed: mouse => {
                const x = mouse.x + area.x
                area.beside = Math.abs(x - frame.at) < handle.width / 2 ? x - frame.at : 0
                root.moveTo(x - area.beside)
            }
            onPositionChanged: mouse => root.moveTo(mouse.x + area.x - area.beside)
        }
    }

    Waiting {
        anchors.centerIn: parent
        visible: before.status === Image.Loading || after.status === Image.Loading
        text: qsTr("Laying the photos on each other")
    }

    Label {
        anchors.centerIn: parent
        visible: before.status === Image.Error || after.status === Image.Error
        width: Math.min(implicitWidth, root.width)
        text: qsTr("One of these photos cannot be shown. Tell whoever looks after the kiosk.")
        wrapMode: Text.WordWrap
        paper: false
    }
}
