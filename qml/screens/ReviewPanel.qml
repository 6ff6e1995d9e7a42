// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// The thumb's corner of a review: the draft that is looked at, or what a stage settles together.
// Below it what was decided last, with the way back.
//   review;  signals changeWanted(), hearWanted(), measureWanted(place, title, said), lookWanted(place),
//   restWanted(), odometerWanted()
Rectangle {
    id: root

    required property SpeechReview review
    readonly property bool single: review.chosen >= 0
    readonly property int stage: review.stage

    signal changeWanted
    signal hearWanted
    signal measureWanted(string place, string title, string said)
    signal lookWanted(string place)
    signal restWanted
    signal odometerWanted

    radius: Theme.radius
    color: Theme.paper

    Item {
        id: body

        anchors { left: parent.left; right: parent.right; top: parent.top; bottom: last.top; margins: Theme.mm(6); bottomMargin: Theme.gap }

        ReviewDraft {
            anchors.fill: parent
            visible: root.single
            review: root.review
            onChangeWanted: root.changeWanted()
            onHearWanted: root.hearWanted()
        }

        ReviewSure {
            anchors.fill: parent
            visible: !root.single && root.stage === SpeechReview.Sure
            review: root.review
        }

        ReviewTyres {
            anchors.fill: parent
            visible: !root.single && root.stage === SpeechReview.Tyres
            review: root.review
            onMeasureWanted: (place, title, said) => root.measureWanted(place, title, said)
        }

        ReviewPlacesList {
            anchors.fill: parent
            visible: !root.single && root.stage === SpeechReview.Sound
            model: root.review.sound
            title: qsTr("Said to be sound")
            none: qsTr("Nothing is left that was said to be sound.")
            action: qsTr("All %1 are sound").arg(count)
            onActed: root.review.keepSound()
        }

        ReviewPlacesList {
            anchors.fill: parent
            visible: !root.single && root.stage === SpeechReview.NotMentioned
            model: root.review.notMentioned
            title: qsTr("Not mentioned, and not looked at. Touch one to look at it now.")
            hint: qsTr("What is left open is named at the end of the walk-round.")
            none: qsTr("Every place was mentioned or looked at.")
            action: qsTr("Walk round the rest")
            touchable: true
            onPlaceTouched: place => root.lookWanted(place)
            onActed: root.restWanted()
        }

        ReviewCar {
            anchors.fill: parent
            visible: !root.single && root.stage === SpeechReview.Car
            review: root.review
            onOdometerWanted: root.odometerWanted()
        }

        EmptyState {
            anchors.centerIn: parent
            width: parent.width
            visible: !root.single && (root.stage === SpeechReview.Done || root.stage === SpeechReview.Doubtful)
            paper: true
            title: root.stage === SpeechReview.Done ? qsTr("All that was said is decided") : qsTr("Nothing doubtful is left")
            hint: root.stage === SpeechReview.Done ? qsTr("Every finding is in the car's ledger, with the words that it rests on.") : ""
            action: root.stage === SpeechReview.Done ? qsTr("Walk round it") : ""
            onActed: root.restWanted()
        }
    }

    Item {
        id: last

        anchors { left: parent.left; right: parent.right; bottom: parent.bottom; leftMargin: Theme.mm(6); rightMargin: Theme.mm(6); bottomMargin: Theme.module }
        height: root.review.lastWords.length > 0 ? Theme.touch + Theme.gap : 0
        visible: height > 0

        Rectangle {
            width: parent.width
            height: Theme.line
            color: Theme.rule
        }

        Label {
            anchors { left: parent.left; right: back.left; rightMargin: Theme.half; verticalCenter: back.verticalCenter }
            text: root.review.lastWords
            role: Label.Detail
            wrapMode: Text.WordWrap
            maximumLineCount: 3
            elide: Text.ElideRight
        }

        ActionButton {
            id: back

            anchors { right: parent.right; bottom: parent.bottom }
            paper: true
            text: qsTr("Undo")
            onTapped: root.review.undo()
        }
    }
}
