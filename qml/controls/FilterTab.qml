// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Theme

// A filter of the wall, with how many it would show.
//   text, count (-1 shows none), note (words instead of a count), stacked (the count stands below
//   the words), selected
//   compact: where many stand beside each other: small words over a large count
//   mostWidth: longer words are cut; 0: never
//   fullWidth: what it takes when it is not compact (read only)
//   signal tapped()
Touchable {
    id: root

    property string text: ""
    property int count: -1
    property string note: ""
    property bool stacked: false
    property bool selected: false
    property bool compact: false
    property real mostWidth: 0

    readonly property real padding: Theme.mm(stacked ? 3 : 5)
    readonly property real fullWidth: root.bounded(Math.ceil(metrics.advanceWidth) + 1 + 2 * padding)
    readonly property string second: note.length > 0 ? note : count >= 0 ? count : ""

    spoken: second.length > 0 ? text + " " + second : text
    implicitWidth: root.bounded(row.implicitWidth + 2 * padding)

    function bounded(wanted: real): real {
        return Math.max(Theme.touch, root.mostWidth > 0 ? Math.min(root.mostWidth, wanted) : wanted)
    }

    TextMetrics {
        id: metrics

        font.family: Theme.family
        font.pixelSize: Theme.readingSize
        text: root.text
    }

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
            width: root.mostWidth > 0 ? Math.min(implicitWidth, root.mostWidth - 2 * root.padding) : implicitWidth
            text: root.text
            role: root.compact ? Label.Detail : Label.Reading
            color: root.selected ? (Theme.dark ? Theme.ink : Theme.paper) : Theme.groundInk
            elide: Text.ElideRight
        }

        Label {
            visible: root.second.length > 0
            text: root.second
            role: root.stacked && !root.compact ? Label.Detail : Label.Reading
            color: root.selected ? (Theme.dark ? Theme.inkMuted : Theme.paper) : Theme.groundInkMuted
        }
    }
}
