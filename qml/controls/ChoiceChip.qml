// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Theme

// One choice among several; chosen shows a tick and turns over.
//   text, note (small second line), selected, paper;  signal tapped()
//   widest: longer words wrap (0: as wide as they are)
Touchable {
    id: root

    property string text: ""
    property string note: ""
    property bool selected: false
    property bool paper: true
    property real widest: 0

    readonly property color face: !selected ? "transparent" : paper ? Theme.ink : Theme.paper
    readonly property color wordColour: selected ? (paper ? Theme.paper : Theme.ink)
        : (paper ? Theme.ink : Theme.groundInk)

    spoken: text
    readonly property real room: widest - 2 * Theme.mm(5) - (selected ? Theme.mm(5) + Theme.half : 0)

    implicitWidth: Math.max(Theme.mm(26), row.implicitWidth + 2 * Theme.mm(5))
    implicitHeight: widest > 0 ? Math.max(Theme.touch, row.implicitHeight + Theme.module) : Theme.touch
    Accessible.checkable: true
    Accessible.checked: selected

    Rectangle {
        anchors.fill: parent
        radius: Theme.radius
        color: root.pressed && !root.selected ? (root.paper ? Theme.rule : Theme.raised) : root.face
        border.width: root.activeFocus ? Theme.thickLine : root.selected ? 0 : Theme.line
        border.color: root.activeFocus ? Theme.accent : root.paper ? Theme.paperLine : Theme.groundLine
    }

    Row {
        id: row

        anchors.centerIn: parent
        spacing: Theme.half

        Icon {
            anchors.verticalCenter: parent.verticalCenter
            visible: root.selected
            symbol: Icon.Tick
            colour: root.wordColour
            width: Theme.mm(5)
            height: Theme.mm(5)
        }

        Column {
            anchors.verticalCenter: parent.verticalCenter

            Label {
                width: root.widest > 0 ? Math.min(implicitWidth, root.room) : implicitWidth
                text: root.text
                color: root.wordColour
                wrapMode: width < implicitWidth ? Text.WordWrap : Text.NoWrap
            }

            Label {
                visible: root.note.length > 0
                text: root.note
                role: Label.Detail
                color: root.wordColour
            }
        }
    }
}
