// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// An appraisal by touch: the drawing at the left, what comes out above at the right, and below it,
// at the thumb, what is said of the place that was touched. Also for something else that is found
// during an operation (operationId above 0).
ScreenFrame {
    id: root

    required property string carId
    property int operationId: 0
    readonly property WalkRound walk: shell.walkRound
    readonly property CarView car: shell.car
    readonly property bool ready: car.loaded && car.carId === root.carId

    lead: ready ? car.stockNumber : ""
    rest: ready ? car.makeModel : ""
    second: !ready ? "" : root.car.status === "released" ? qsTr("Released: a finding holds it again") : root.operationId > 0 ? qsTr("Found during the work: touch where it is")
        : root.walk.left > 0 ? qsTr("%1 places not looked at yet").arg(root.walk.left) : qsTr("Every place was looked at")

    Component.onCompleted: root.walk.begin(root.carId, root.operationId)

    Connections {
        target: root.walk

        function onFinished(): void {
            root.navigator.back()
        }
    }

    Connections {
        target: root.car.ask

        function onDone(what: string): void {
            if (what === "openOperation")
                addWork.shown = false
        }
    }

    Waiting {
        anchors.centerIn: parent
        visible: !root.ready && root.car.fault.length === 0
        text: qsTr("Reading the car")
    }

    EmptyState {
        anchors.centerIn: parent
        visible: !root.ready && root.car.fault.length > 0
        title: qsTr("This car cannot be shown")
        hint: root.car.fault
        action: qsTr("Try again")
        onActed: root.car.reload()
    }

    WalkRoundDrawing {
        id: drawing

        anchors { left: parent.left; top: parent.top }
        visible: root.ready
        width: root.tall ? parent.width : Math.round(parent.width * 0.54)
        height: root.tall ? parent.height - panel.height - work.height - 2 * Theme.gap : parent.height
        walk: root.walk
    }

    WalkRoundWork {
        id: work

        anchors { right: parent.right; top: root.tall ? drawing.bottom : parent.top; topMargin: root.tall ? Theme.gap : 0 }
        visible: root.ready
        width: root.tall ? parent.width : parent.width - drawing.width - Theme.gap
        height: root.tall ? Theme.mm(60) : parent.height - panel.height - Theme.gap
        walk: root.walk
        addable: root.car.release.shown
        onWorkTouched: (operationId, title, place, why) => workSheet.openFor(operationId, title, place, why)
        onAddWanted: addWork.openAt(root.walk.place, "")
    }

    WalkRoundPanel {
        id: panel

        anchors { right: parent.right; bottom: parent.bottom }
        visible: root.ready
        width: work.width
        height: Theme.mm(156)
        walk: root.walk
        onPhotoWanted: (findingId, words) => {
            photo.findingId = findingId
            photo.prompt = words
            photo.open()
        }
    }

    ways: [
        Repeater {
            model: root.walk.views

            delegate: FilterTab {
                required property string viewId
                required property string title
                required property int unseen
                required property bool chosen

                text: title
                count: unseen
                stacked: true
                selected: chosen
                onTapped: root.walk.view = viewId
            }
        }
    ]

    actions: [
        ActionButton {
            visible: root.ready && root.walk.finishOffer.shown
            text: root.car.openDrafts > 0 ? qsTr("Review what was said: %1").arg(root.car.openDrafts) : qsTr("It was spoken")
            onTapped: {
                if (root.car.openDrafts > 0)
                    root.navigator.openReview(root.carId)
                else
                    root.navigator.openTranscripts(root.carId)
            }
        },
        ActionButton {
            visible: root.ready && root.walk.finishOffer.shown
            kind: ActionButton.Accent
            text: qsTr("Finish the walk-round")
            available: root.walk.finishOffer.can && !root.walk.ask.busy
            reason: root.walk.finishOffer.why
            onTapped: {
                if (root.walk.left > 0)
                    finishSheet.shown = true
                else
                    root.walk.finish()
            }
        }
    ]

    sheets: [
        WalkRoundWorkSheet {
            id: workSheet

            walk: root.walk
            onInsteadWanted: place => addWork.openAt(place, "")
        },
        AddWorkSheet {
            id: addWork

            car: root.car
            onDismissed: shown = false
        },
        WalkRoundFinishSheet {
            id: finishSheet

            walk: root.walk
        },
        PhotoSheet {
            id: photo

            property int findingId: 0

            shell: root.shell
            whereWords: root.car.stockNumber
            onFilesChosen: paths => root.car.attachFiles(paths, photo.findingId)
            onFrameTaken: image => root.car.attachFrame(image, photo.findingId)
            onPhoneWanted: root.shell.phone.inviteForFinding(photo.findingId, photo.prompt)
        },
        AskBanner {
            anchors { bottom: parent ? parent.bottom : undefined; bottomMargin: Theme.touchSafety + 2 * Theme.module }
            ask: root.walk.ask
        },
        AskBanner {
            anchors { bottom: parent ? parent.bottom : undefined; bottomMargin: Theme.touchSafety + 2 * Theme.module }
            ask: root.car.ask
        }
    ]
}
