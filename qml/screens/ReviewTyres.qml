// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// Tyre depths as they were said: single ones are kept together, a span is measured on the pad.
//   review;  signal measureWanted(string place, string title, string said)
Item {
    id: root

    required property SpeechReview review

    signal measureWanted(string place, string title, string said)

    Label {
        id: heading

        width: parent.width
        text: qsTr("Depths that were said. Touch one to measure it instead.")
        muted: true
        wrapMode: Text.WordWrap
    }

    ListView {
        id: list

        anchors { left: parent.left; right: parent.right; top: heading.bottom; topMargin: Theme.half; bottom: all.top; bottomMargin: Theme.gap }
        clip: true
        boundsBehavior: Flickable.StopAtBounds
        model: root.review.depths

        delegate: SettingLine {
            required property string placeId
            required property string saidWords
            required property bool whole
            required property bool waits
            required title

            width: list.width
            implicitHeight: Theme.mm(24)
            value: saidWords
            detail: waits ? qsTr("first decide what was found on it") : whole ? "" : qsTr("a span: measure it")
            editable: !waits
            onTapped: root.measureWanted(placeId, title, saidWords)
        }
    }

    Label {
        anchors.centerIn: parent
        visible: list.count === 0
        text: qsTr("Every tyre that was spoken of is measured.")
        muted: true
    }

    ActionButton {
        id: all

        anchors { left: parent.left; right: parent.right; bottom: parent.bottom }
        implicitHeight: Theme.touchSafety
        visible: root.review.depthsToKeep > 0
        paper: true
        kind: ActionButton.Accent
        symbol: Icon.Tick
        text: root.review.depthsToKeep === 1 ? qsTr("Keep this depth") : qsTr("Keep %1 depths").arg(root.review.depthsToKeep)
        onTapped: root.review.keepDepths()
    }
}
