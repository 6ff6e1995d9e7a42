// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// The review of a spoken walk-round: the words with what was understood in them, the car with the
// drafts on it, and at the thumb the draft that is looked at, or what one touch settles together.
ScreenFrame {
    id: root

    required property string carId
    readonly property SpeechReview review: shell.review
    readonly property WalkRound walk: review.walk
    readonly property CarView car: shell.car
    readonly property bool read: car.loaded && car.carId === root.carId
    readonly property bool ready: read && review.ready

    lead: read ? car.stockNumber : ""
    rest: read ? car.makeModel : ""
    second: ready ? root.dotted(root.review.whichWords, root.review.aboutWords) : ""

    Component.onCompleted: root.review.begin(root.carId)

    function measure(place: string, title: string, said: string): void {
        root.walk.tyres.goTo(place)
        tyre.place = place
        tyre.tyreTitle = title
        tyre.said = said
        tyre.shown = true
    }

    function lookAt(place: string): void {
        root.walk.wantPlace(place)
        root.navigator.openWalkRound(root.carId, 0)
    }

    Waiting {
        anchors.centerIn: parent
        visible: !root.read && root.car.fault.length === 0
        text: qsTr("Reading the car")
    }

    EmptyState {
        anchors.centerIn: parent
        visible: !root.read && root.car.fault.length > 0
        title: qsTr("This car cannot be shown")
        hint: root.car.fault
        action: qsTr("Try again")
        onActed: root.car.reload()
    }

    EmptyState {
        anchors.centerIn: parent
        visible: root.read && !root.review.ready
        title: qsTr("No spoken walk-round was read for this car")
        hint: qsTr("A transcript in the drop folder or on a stick becomes findings to review.")
        action: qsTr("Show what waits")
        onActed: root.navigator.openTranscripts(root.carId)
    }

    ReviewWords {
        id: words

        anchors { left: parent.left; top: parent.top }
        visible: root.ready
        width: root.tall ? parent.width : Math.round(parent.width * 0.32)
        height: root.tall ? Math.round(parent.height * 0.37) : parent.height
        review: root.review
    }

    ReviewDrawing {
        id: drawing

        anchors {
            left: root.tall ? parent.left : words.right
            leftMargin: root.tall ? 0 : Theme.gap
            top: root.tall ? words.bottom : parent.top
            topMargin: root.tall ? Theme.gap : 0
        }
        visible: root.ready
        width: root.tall ? Math.round(parent.width * 0.52) : Math.round(parent.width * 0.3)
        height: root.tall ? parent.height - words.height - Theme.gap : parent.height
        review: root.review
    }

    ReviewPanel {
        id: panel

        anchors { left: drawing.right; leftMargin: Theme.gap; right: parent.right; top: drawing.top; bottom: drawing.bottom }
        visible: root.ready
        review: root.review
        onChangeWanted: {
            root.review.startChange()
            change.shown = true
        }
        onMeasureWanted: (place, title, said) => root.measure(place, title, said)
        onLookWanted: place => root.lookAt(place)
        onRestWanted: root.navigator.openWalkRound(root.carId, 0)
        onOdometerWanted: odometer.shown = true
        onHearWanted: hear.play(root.review.placeWords, root.review.quote, root.review.moment, root.review.moment)
    }

    ways: [
        Repeater {
            model: root.ready ? root.review.stages : null

            delegate: FilterTab {
                required property int stage
                required property string title
                required property int open
                required property bool chosen

                text: title
                count: open
                stacked: true
                selected: chosen
                onTapped: root.review.stage = stage
            }
        }
    ]

    actions: [
        ActionButton {
            visible: root.ready && root.review.whichWords.length > 0
            text: qsTr("Another one")
            onTapped: root.review.showOtherRound()
        },
        ActionButton {
            visible: root.ready
            text: qsTr("Walk round it")
            onTapped: root.navigator.openWalkRound(root.carId, 0)
        }
    ]

    sheets: [
        FindingSheet {
            id: change

            shell: root.shell
            draft: root.review.change
            shape: root.car.shape
            title: qsTr("What it really is")
            onConfirmed: root.review.recordChange()
        },
        ReviewTyreSheet {
            id: tyre

            walk: root.walk
        },
        HearItSheet {
            id: hear

            recording: root.review.recording
            mayTake: root.review.takesPicture
            takeWords: root.review.chosenOpen ? qsTr("Keep it with this photo") : qsTr("Take as photo before")
            onFrameTaken: image => root.review.takePicture(image)
        },
        OdometerSheet {
            id: odometer

            car: root.car
            onDismissed: shown = false
        },
        AskBanner {
            anchors { bottom: parent ? parent.bottom : undefined; bottomMargin: Theme.touchSafety + 2 * Theme.module }
            ask: root.review.ask
        },
        AskBanner {
            anchors { bottom: parent ? parent.bottom : undefined; bottomMargin: Theme.touchSafety + 2 * Theme.module }
            ask: root.car.ask
        }
    ]

    Connections {
        target: root.car

        function onPhotoKept(): void {
            hear.pictureKept()
        }
    }

    Connections {
        target: root.car.ask

        function onDone(what: string): void {
            if (what === "readOdometer")
                odometer.shown = false
        }
    }
}
