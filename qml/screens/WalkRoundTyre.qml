// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Theme

// One tyre of the tyre plan: its three readings across, as they lie on the car, its date code with
// its age, and what a low reading opens. Roles of TyrePad.tyres.
Item {
    id: root

    required property string placeId
    required property var readings
    required property int point
    required property bool askew
    required property string lowWords
    required property string codeWords
    required property string title

    Row {
        id: across

        anchors { left: parent.left; right: parent.right; verticalCenter: parent.verticalCenter; leftMargin: Theme.mm(1.5); rightMargin: Theme.mm(1.5) }
        layoutDirection: root.askew ? Qt.RightToLeft : Qt.LeftToRight

        Repeater {
            model: 3

            delegate: Rectangle {
                id: cell

                required property int index

                width: across.width / 3
                height: Theme.mm(17)
                radius: Theme.radius
                color: Theme.paper
                border.width: root.point === index ? Theme.thickLine : Theme.line
                border.color: root.point === index ? Theme.accent : Theme.rule

                Label {
                    anchors.centerIn: parent
                    text: root.readings[cell.index].length > 0 ? root.readings[cell.index] : "–"
                    muted: root.readings[cell.index].length === 0
                    strong: root.point === cell.index
                }
            }
        }
    }

    Rectangle {
        anchors { horizontalCenter: parent.horizontalCenter; top: across.bottom; topMargin: Theme.half }
        visible: root.lowWords.length > 0
        width: root.width - Theme.half
        height: low.height + Theme.half
        radius: Theme.radius
        color: Theme.ink

        Label {
            id: low

            anchors { left: parent.left; right: parent.right; verticalCenter: parent.verticalCenter; margins: Theme.half / 2 }
            text: root.lowWords
            role: Label.Detail
            color: Theme.paper
            horizontalAlignment: Text.AlignHCenter
            wrapMode: Text.WordWrap
            maximumLineCount: 4
            elide: Text.ElideRight
        }
    }

    Rectangle {
        anchors { horizontalCenter: parent.horizontalCenter; bottom: across.top; bottomMargin: Theme.half }
        width: name.width + Theme.half
        height: name.height
        radius: Theme.radius
        color: Theme.paper

        Label {
            id: name

            anchors.centerIn: parent
            text: root.codeWords.length > 0 ? root.codeWords : qsTr("Tyre")
            role: Label.Detail
        }
    }
}
