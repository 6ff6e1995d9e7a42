// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// One car: the drawing as the map, its work by place, what holds the release, findings, photos,
// history. A touch on the drawing narrows the lists to that place.
ScreenFrame {
    id: root

    required property string carId
    readonly property CarView car: shell.car
    property int page: CarLists.Work
    property string place: ""
    property string placeWords: ""

    readonly property bool ready: car.loaded && car.carId === root.carId

    lead: ready ? car.stockNumber : ""
    rest: ready ? car.aboutWords : ""
    second: ready ? secondWords() : ""

    function secondWords(): string {
        const now = root.car.outcomeWords.length > 0 ? root.car.outcomeWords : root.car.statusWord
        const promised = root.car.promisedWord.length === 0 || !root.car.release.shown ? ""
            : root.car.late ? qsTr("late, promised %1").arg(root.car.promisedWord) : qsTr("promised %1").arg(root.car.promisedWord)
        const weight = promised.length > 0 && root.car.importanceWord.length > 0 ? promised + ", " + root.car.importanceWord : promised
        return root.dotted(root.dotted(root.car.registration, weight), now)
    }

    // Narrows the lists to a place, or shows all again when it is touched once more.
    function choosePlace(place: string): void {
        if (root.place === place || place.length === 0) {
            root.place = ""
            root.placeWords = ""
            return
        }
        root.place = place
        root.car.places.choose(place)
        root.placeWords = root.car.places.currentTitle
        if (root.page !== CarLists.Findings)
            root.page = CarLists.Work
    }

    // The way to what holds the release.
    function showHold(kind: string, operationId: int, findingId: int, placeId: string, opensKind: string): void {
        if (operationId > 0) {
            root.navigator.openOperation(root.carId, operationId)
        } else if (kind === "spoken-not-reviewed") {
            root.navigator.openReview(root.carId)
        } else if (findingId > 0) {
            root.place = ""
            root.page = CarLists.Findings
            sheets.askWork(placeId, opensKind)
        } else if (placeId.length > 0) {
            sheets.askWork(placeId, opensKind)
        } else if (root.car.finishAppraisalOffer.shown) {
            root.navigator.openWalkRound(root.carId, 0)
        } else {
            sheets.showMore()
        }
    }

    Component.onCompleted: root.car.open(root.carId)

    Connections {
        target: root.car.ask

        function onDone(what: string): void {
            if (what === "openOperation")
                root.page = CarLists.Work
        }
    }

    Connections {
        target: root.car

        function onLeft(): void {
            root.navigator.home()
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

    CarMap {
        id: map

        anchors { left: parent.left; top: parent.top }
        width: root.tall ? Theme.mm(118) : Math.min(Theme.mm(128), parent.width * 0.26)
        height: root.tall ? Theme.mm(190) : parent.height
        visible: root.ready
        car: root.car
        place: root.place
        placeWords: root.placeWords
        onPlaceTouched: place => root.choosePlace(place)
        onAllWanted: root.choosePlace("")
    }

    CarGate {
        id: gate

        anchors { right: parent.right; top: parent.top }
        width: root.tall ? parent.width - map.width - Theme.module : Math.min(Theme.mm(150), parent.width * 0.3)
        height: root.tall ? map.height : parent.height
        visible: root.ready
        car: root.car
        onHoldTouched: (kind, operationId, findingId, placeId, opensKind) => root.showHold(kind, operationId, findingId, placeId, opensKind)
        onTwiceTouched: sheets.showTwice()
    }

    CarLists {
        id: lists

        server: root.shell.server

        anchors {
            left: root.tall ? parent.left : map.right
            leftMargin: root.tall ? 0 : Theme.module
            right: root.tall ? parent.right : gate.left
            rightMargin: root.tall ? 0 : Theme.module
            top: root.tall ? map.bottom : parent.top
            topMargin: root.tall ? Theme.module : 0
            bottom: tabs.top
            bottomMargin: Theme.gap
        }
        visible: root.ready
        car: root.car
        page: root.page
        place: root.place
        placeWords: root.placeWords
        onOperationTouched: operationId => root.navigator.openOperation(root.carId, operationId)
        onFindingTouched: finding => sheets.showFinding(finding)
        comparable: root.shell.beforeAfter.operations.length > 0
        onPhotoTouched: (photoKey, url, caption) => sheets.showPhoto(photoKey, url, caption)
        onCompareWanted: sheets.showPair()
        onWorkWanted: sheets.askWork(root.place, "")
    }

    Row {
        id: tabs

        anchors { left: lists.left; bottom: parent.bottom }
        spacing: Theme.gap
        visible: root.ready

        FilterTab {
            text: qsTr("Work")
            count: lists.workCount
            selected: root.page === CarLists.Work
            onTapped: root.page = CarLists.Work
        }

        FilterTab {
            text: qsTr("Findings")
            count: lists.findingCount
            selected: root.page === CarLists.Findings
            onTapped: root.page = CarLists.Findings
        }

        FilterTab {
            text: qsTr("Photos")
            count: lists.photoCount
            selected: root.page === CarLists.Photos
            onTapped: root.page = CarLists.Photos
        }

        FilterTab {
            text: qsTr("History")
            selected: root.page === CarLists.History
            onTapped: root.page = CarLists.History
        }
    }

    // ---- what can be done

    ways: [
        ActionButton {
            visible: root.ready && root.car.move.shown
            text: qsTr("Move it")
            available: root.car.move.can
            reason: root.car.move.why
            onTapped: sheets.askMove()
            onRefused: sheets.askMove()
        },
        ActionButton {
            visible: root.ready && root.car.find.shown
            text: root.car.finishAppraisalOffer.shown ? qsTr("Walk round it") : qsTr("Found something")
            kind: root.car.finishAppraisalOffer.shown ? ActionButton.Accent : ActionButton.Plain
            available: root.car.find.can
            reason: root.car.find.why
            onTapped: root.navigator.openWalkRound(root.carId, 0)
        },
        ActionButton {
            visible: root.ready && root.car.openDrafts > 0
            text: qsTr("Review what was said: %1").arg(root.car.openDrafts)
            onTapped: root.navigator.openReview(root.carId)
        },
        ActionButton {
            visible: root.ready && root.car.release.shown
            text: qsTr("Add work")
            onTapped: sheets.askWork(root.place, "")
        },
        ActionButton {
            visible: root.ready
            text: qsTr("More")
            onTapped: sheets.showMore()
        }
    ]
    actions: [
        ActionButton {
            visible: root.ready && root.car.recordOffer.shown
            kind: ActionButton.Accent
            text: qsTr("Handover record")
            onTapped: root.navigator.openRecord(root.carId)
        },
        ActionButton {
            visible: root.ready && root.car.release.shown
            kind: ActionButton.Safety
            text: qsTr("Release")
            available: root.car.release.can
            reason: gate.count === 1 ? qsTr("One thing holds it") : gate.count > 0 ? qsTr("%1 things hold it").arg(gate.count) : root.car.release.why
            onTapped: root.navigator.openRelease(root.carId)
            onRefused: root.navigator.openRelease(root.carId)
        }
    ]

    sheets: CarSheets {
        id: sheets

        shell: root.shell
        navigator: root.navigator
    }
}
