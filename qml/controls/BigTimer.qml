// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Theme

// Time on a job against what it usually takes.
//   minutes (elapsed), usual, usualFrom, usualTo (minutes; 0 when not known), running
//   begun: somebody was on it, be it for less than a minute
//   startedText (such as "started 13:22"), paper
Item {
    id: root

    property int minutes: 0
    property int usual: 0
    property int usualFrom: 0
    property int usualTo: 0
    property bool running: true
    property bool begun: minutes > 0
    property string startedText: ""
    property bool paper: true

    readonly property int scaleEnd: Math.max(usual * 1.5, usualTo * 1.1, minutes, 1)
    readonly property int over: usualTo > 0 ? minutes - usualTo : usual > 0 ? minutes - usual : 0

    function clock(total: int): string {
        const rest = total % 60
        return Math.floor(total / 60) + ":" + (rest < 10 ? "0" : "") + rest
    }

    function spoken(total: int): string {
        const hours = Math.floor(total / 60)
        const rest = total % 60
        if (hours === 0)
            return qsTr("%1 min").arg(rest)
        return rest === 0 ? qsTr("%1 h").arg(hours) : qsTr("%1 h %2").arg(hours).arg(rest < 10 ? "0" + rest : rest)
    }

    implicitWidth: Theme.mm(150)
    implicitHeight: foot.y + foot.height

    Label {
        id: figure

        text: root.clock(root.minutes)
        role: Label.Distance
        paper: root.paper
        font.pixelSize: Theme.distanceSize * 1.25
    }

    Column {
        anchors { left: figure.right; leftMargin: Theme.mm(6); right: parent.right }
        // The last line stands on the foot of the figures.
        y: figure.y + figure.baselineOffset - last.y - last.baselineOffset

        Label {
            visible: !root.running
            text: root.begun ? qsTr("paused") : qsTr("not begun")
            strong: true
            paper: root.paper
        }

        Label {
            id: last

            width: parent.width
            text: root.over > 0 ? qsTr("over by %1").arg(root.spoken(root.over))
                : root.usualFrom > 0 && root.usualTo > root.usualFrom
                ? qsTr("usually %1 to %2").arg(root.spoken(root.usualFrom)).arg(root.spoken(root.usualTo))
                : root.usual > 0 ? qsTr("usually %1").arg(root.spoken(root.usual)) : qsTr("no usual time known")
            muted: root.over <= 0
            strong: root.over > 0
            paper: root.paper
            elide: Text.ElideRight
        }
    }

    Rectangle {
        id: track

        anchors { top: figure.bottom; left: parent.left; right: parent.right }
        height: Theme.mm(4)
        radius: height / 2
        color: root.paper ? Theme.rule : Theme.raised

        // Where the usual range lies.
        Rectangle {
            visible: root.usualTo > root.usualFrom && root.usualFrom > 0
            x: parent.width * root.usualFrom / root.scaleEnd
            y: parent.height + Theme.line * 2
            width: parent.width * (root.usualTo - root.usualFrom) / root.scaleEnd
            height: Theme.thickLine
            color: root.paper ? Theme.paperLine : Theme.groundLine
        }

        Rectangle {
            width: Math.max(height, parent.width * root.minutes / root.scaleEnd)
            height: parent.height
            radius: height / 2
            color: root.running ? (root.paper ? Theme.accent : Theme.groundAccent) : "transparent"
            border.width: root.running ? 0 : Theme.thickLine
            border.color: root.paper ? Theme.accent : Theme.groundAccent
        }

        Rectangle {
            visible: root.usual > 0
            x: parent.width * root.usual / root.scaleEnd - width / 2
            y: -Theme.mm(1.6)
            width: Theme.thickLine
            height: parent.height + 2 * Theme.mm(1.6)
            color: root.paper ? Theme.ink : Theme.groundInk
        }
    }

    Item {
        id: foot

        anchors { top: track.bottom; topMargin: Theme.half; left: parent.left; right: parent.right }
        height: started.height

        Label {
            id: started

            text: root.startedText
            role: Label.Detail
            muted: true
            paper: root.paper
        }

        Label {
            visible: root.usual > 0
            x: Math.min(parent.width - width, Math.max(started.width + Theme.module,
                parent.width * root.usual / root.scaleEnd - width / 2))
            text: qsTr("usual %1").arg(root.spoken(root.usual))
            role: Label.Detail
            muted: true
            paper: root.paper
        }
    }
}
