// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Theme

// A filter of the wall, with how many it would show.
//   text, count (-1 shows none), note (words instead of a count), stacked (the count stands below
//   the words), selected
//   signal tapped()
Touchable {
    id: root

    property string text: ""
    property int count: -1
    property string note: ""
    property bool stacked: false
    property bool selected: false

    readonly property string second: note.length > 0 ? note : count >= 0 ? count : ""

    spoken: second.length > 0 ? text + " " + second : text
    implicitWidth: Math.max(Theme.touch, row.implicitWidth + 2 * (stacked ? Theme.module : Theme.mm(5)))

    Rectangle {
        anchors.fill: parent
        radius: Theme.radius
        color: root.selected ? (Theme.dark ? Theme.paper : Theme.ink)
            : root.pressed ? Theme.groundLine : Theme.raised
        border.width: root.activeFocus ? Theme.thickLine : 0
        border.color: Theme.groundAccent
    }

    Grid {
        id: row

        anchors.centerIn: parent
        columns: root.stacked ? 1 : 2
        columnSpacing: Theme.half
        horizontalItemAlignment: Grid.AlignHCenter

        Label {
            text: root.text
            color: root.selected ? (Theme.dark ? Theme.ink : Theme.paper) : Theme.groundInk
        }

        Label {
            visible: root.second.length > 0
            text: root.second
            role: root.stacked ? Label.Detail : Label.Reading
            color: root.selected ? (Theme.dark ? Theme.inkMuted : Theme.paper) : Theme.groundInkMuted
        }
    }
}
