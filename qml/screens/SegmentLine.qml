// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Theme

// One stretch of work; touching it corrects its minutes. A row of SegmentsModel.
Touchable {
    id: root

    required property int segmentId
    required property string who
    required property string spanWords
    required property int minutes
    required property string minutesWords
    required property bool running
    required property bool corrected
    required property string correctedWords
    required property string clockWords
    required property bool overlong

    available: !running
    spoken: qsTr("%1, %2").arg(who).arg(minutesWords)
    implicitHeight: Math.max(Theme.touch, words.implicitHeight + Theme.module)

    Rectangle {
        width: parent.width
        height: Theme.line
        color: Theme.rule
    }

    Column {
        id: words

        anchors { left: parent.left; right: time.left; rightMargin: Theme.module; verticalCenter: parent.verticalCenter }

        Label {
            width: parent.width
            text: qsTr("%1 · %2").arg(root.who).arg(root.spanWords)
            wrapMode: Text.WordWrap
        }

        Label {
            width: parent.width
            visible: root.corrected
            text: root.correctedWords
            role: Label.Detail
            muted: true
            wrapMode: Text.WordWrap
        }

        Label {
            width: parent.width
            visible: root.overlong && !root.running
            text: qsTr("far longer than usual: touch it if it was not all worked")
            role: Label.Detail
            strong: true
            wrapMode: Text.WordWrap
        }

        Label {
            width: parent.width
            visible: text.length > 0
            text: root.clockWords
            role: Label.Detail
            muted: true
        }
    }

    Label {
        id: time

        anchors { right: parent.right; verticalCenter: parent.verticalCenter }
        text: root.running ? qsTr("running") : root.minutesWords
        strong: root.running
    }
}
