// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// A field beside the drawing for a place that is narrower there than a finger. Its lower edge says
// how it stands as the drawing does: filled, hollow, or broken where nobody has looked yet.
//   text, mark (Wall.Mark), selected;  signal tapped()
Touchable {
    id: root

    property string text: ""
    property int mark: 0
    property bool selected: false

    readonly property bool full: mark === Wall.Outstanding

    spoken: text

    Rectangle {
        anchors.fill: parent
        radius: Theme.radius
        color: root.full ? Theme.ink : root.pressed ? Theme.rule : Theme.sunk
        border.width: root.selected ? Theme.thickLine : root.mark === Wall.Done ? Theme.thickLine : 0
        border.color: Theme.accent
    }

    Label {
        anchors { left: parent.left; right: parent.right; verticalCenter: parent.verticalCenter; margins: Theme.half; verticalCenterOffset: -Theme.mm(1) }
        text: root.text
        role: Label.Detail
        color: root.full ? Theme.paper : Theme.ink
        horizontalAlignment: Text.AlignHCenter
        wrapMode: Text.WordWrap
        maximumLineCount: 2
        elide: Text.ElideRight
    }

    Row {
        anchors { horizontalCenter: parent.horizontalCenter; bottom: parent.bottom; bottomMargin: Theme.mm(2) }
        visible: root.mark === Wall.NotLookedAt
        spacing: Theme.mm(1.6)

        Repeater {
            model: 5

            delegate: Rectangle {
                width: Theme.mm(1.2)
                height: width
                radius: width / 2
                color: Theme.inkMuted
            }
        }
    }
}
