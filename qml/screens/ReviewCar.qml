// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// What was said of the car itself and is not known of it yet.
//   review;  signal odometerWanted()
Item {
    id: root

    required property SpeechReview review

    signal odometerWanted

    Column {
        width: parent.width
        spacing: Theme.module

        Label {
            width: parent.width
            text: root.review.factLines.length > 0 ? qsTr("Said of the car") : qsTr("Nothing else was said of the car.")
            muted: true
        }

        Repeater {
            model: root.review.factLines

            delegate: Label {
                required property string modelData

                width: parent?.width ?? 0
                text: modelData
                role: Label.Title
                wrapMode: Text.WordWrap
            }
        }

        Label {
            width: parent.width
            visible: text.length > 0
            text: root.review.odometerWords
            wrapMode: Text.WordWrap
        }

        ActionButton {
            visible: root.review.odometerWords.length > 0
            paper: true
            text: qsTr("Read the odometer")
            onTapped: root.odometerWanted()
        }
    }

    ActionButton {
        anchors { left: parent.left; right: parent.right; bottom: parent.bottom }
        implicitHeight: Theme.touchSafety
        visible: root.review.factsCanBeTaken
        paper: true
        kind: ActionButton.Accent
        symbol: Icon.Tick
        text: qsTr("Take it as it was said")
        onTapped: root.review.takeFacts()
    }
}
