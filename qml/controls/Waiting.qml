// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Theme

// Something is being done, in words; a bar when it is known how far it has come.
//   text, progress (0..1, or -1 when unknown), paper
Column {
    id: root

    property string text: ""
    property real progress: -1
    property bool paper: false

    spacing: Theme.module
    width: Math.min(Theme.mm(110), parent ? parent.width : Theme.mm(110))

    Label {
        width: parent.width
        text: root.text
        paper: root.paper
        horizontalAlignment: Text.AlignHCenter
        wrapMode: Text.WordWrap
    }

    Rectangle {
        anchors.horizontalCenter: parent.horizontalCenter
        width: Theme.mm(60)
        height: Theme.mm(2.5)
        radius: height / 2
        color: root.paper ? Theme.rule : Theme.raised

        Rectangle {
            readonly property bool known: root.progress >= 0

            x: known || Theme.lessMotion ? 0 : pace.at * (parent.width - width)
            width: known ? parent.width * Math.min(1, root.progress) : parent.width * 0.2
            height: parent.height
            radius: height / 2
            color: root.paper ? Theme.accent : Theme.groundAccent
        }
    }

    QtObject {
        id: pace

        property real at: 0

        readonly property SequentialAnimation swing: SequentialAnimation {
            running: root.visible && root.progress < 0 && !Theme.lessMotion
            loops: Animation.Infinite

            NumberAnimation { target: pace; property: "at"; from: 0; to: 1; duration: 1200 }
            NumberAnimation { target: pace; property: "at"; from: 1; to: 0; duration: 1200 }
        }
    }
}
