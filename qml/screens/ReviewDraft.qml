// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// The draft that is looked at: where, what, what to do, and the words that it rests on. Keep, change
// or drop it; one that is decided can be opened again.
//   review;  signals changeWanted(), hearWanted(): its moment of the recording
Item {
    id: root

    required property SpeechReview review

    signal changeWanted
    signal hearWanted

    Flickable {
        id: scroll

        anchors { left: parent.left; right: parent.right; top: parent.top; bottom: steps.top; bottomMargin: Theme.gap }
        contentHeight: facts.height
        clip: true
        boundsBehavior: Flickable.StopAtBounds
        interactive: contentHeight > height

        Column {
            id: facts

            width: scroll.width
            spacing: Theme.half

            Label {
                width: parent.width
                text: root.review.placeWords
                role: Label.Title
                wrapMode: Text.WordWrap
            }

            Label {
                width: parent.width
                text: root.review.whatWords
                role: Label.Title
                strong: true
                wrapMode: Text.WordWrap
            }

            Label {
                width: parent.width
                text: root.review.todoWords.length > 0 ? qsTr("To do: %1").arg(root.review.todoWords) : qsTr("Nothing was said of what to do")
                muted: root.review.todoWords.length === 0
                wrapMode: Text.WordWrap
            }

            Item {
                width: parent.width
                height: Math.max(quote.height, hear.visible ? hear.height : 0)

                Label {
                    id: quote

                    anchors { left: parent.left; right: hear.visible ? hear.left : parent.right; rightMargin: hear.visible ? Theme.gap : 0; verticalCenter: parent.verticalCenter }
                    text: root.review.momentWords.length > 0 ? root.review.momentWords + "  “" + root.review.quote + "”" : "“" + root.review.quote + "”"
                    wrapMode: Text.WordWrap
                    maximumLineCount: 4
                    elide: Text.ElideRight
                }

                ActionButton {
                    id: hear

                    anchors { right: parent.right; verticalCenter: parent.verticalCenter }
                    visible: root.review.recording.length > 0 && root.review.moment >= 0
                    paper: true
                    text: qsTr("Hear it")
                    onTapped: root.hearWanted()
                }
            }

            Label {
                width: parent.width
                visible: root.review.chosenOpen
                text: root.review.likelyWords
                role: Label.Detail
                muted: true
                wrapMode: Text.WordWrap
            }

            Label {
                width: parent.width
                visible: !root.review.chosenOpen
                text: root.review.decidedWords
                strong: true
                wrapMode: Text.WordWrap
            }
        }
    }

    // Without deciding: to the one before, to the list, to the next.
    Row {
        id: steps

        anchors { left: parent.left; right: parent.right; bottom: decide.top; bottomMargin: Theme.gap }
        spacing: Theme.gap

        ActionButton {
            paper: true
            implicitWidth: Theme.touch
            text: ""
            symbol: Icon.Back
            spoken: qsTr("The one before")
            visible: root.review.chosenOpen
            onTapped: root.review.step(-1)
        }

        ActionButton {
            paper: true
            visible: root.review.chosenOpen
            text: qsTr("Later")
            onTapped: root.review.step(1)
        }

        ActionButton {
            paper: true
            visible: root.review.stage !== SpeechReview.Doubtful || !root.review.chosenOpen
            text: root.review.stage === SpeechReview.Sure ? qsTr("All sure ones") : qsTr("Go on")
            onTapped: root.review.choose(-1)
        }
    }

    Item {
        id: decide

        anchors { left: parent.left; right: parent.right; bottom: parent.bottom }
        height: Theme.touchSafety

        // Half of it keeps; the others take more where their words want it.
        readonly property real part: Math.max((width - 2 * Theme.gap) / 4, drop.implicitWidth, changed.implicitWidth)

        ActionButton {
            id: drop

            visible: root.review.chosenOpen
            width: decide.part
            height: parent.height
            paper: true
            text: qsTr("Drop")
            onTapped: root.review.drop()
        }

        ActionButton {
            id: changed

            x: drop.width + Theme.gap
            visible: root.review.chosenOpen
            width: decide.part
            height: parent.height
            paper: true
            text: qsTr("Change")
            onTapped: root.changeWanted()
        }

        ActionButton {
            x: 2 * (decide.part + Theme.gap)
            visible: root.review.chosenOpen
            width: parent.width - x
            height: parent.height
            paper: true
            kind: ActionButton.Accent
            symbol: Icon.Tick
            text: qsTr("Keep")
            onTapped: root.review.keep()
        }

        ActionButton {
            visible: !root.review.chosenOpen
            anchors.right: parent.right
            height: parent.height
            paper: true
            text: qsTr("Decide once more")
            onTapped: root.review.reopen()
        }
    }
}
