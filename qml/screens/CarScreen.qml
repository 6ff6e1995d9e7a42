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

    enum Page {
        Work,
        Findings,
        Photos,
        History
    }

    required property string carId
    readonly property CarView car: shell.car
    readonly property Component heading: Qt.createComponent("ListHeading.qml")
    property int page: CarScreen.Work
    property string place: ""
    property string placeWords: ""

    // A photo that was asked for: 0 none, 1 of the car or of a finding, 2 evidence for facts,
    // 3 evidence for a finding's correction.
    property int photoFor: 0
    property int photoFinding: 0

    readonly property bool ready: car.loaded && car.carId === root.carId

    lead: ready ? car.stockNumber : ""
    rest: ready ? car.aboutWords : ""
    second: ready ? secondWords() : ""

    function secondWords(): string {
        const now = root.car.outcomeWords.length > 0 ? root.car.outcomeWords : root.car.statusWord
        const promised = root.car.promisedWord.length === 0 || !root.car.release.shown ? ""
            : root.car.late ? qsTr("late, promised %1").arg(root.car.promisedWord) : qsTr("promised %1").arg(root.car.promisedWord)
        return root.joined(root.joined(root.car.registration, now), promised)
    }

    function joined(one: string, other: string): string {
        return one.length > 0 && other.length > 0 ? one + " · " + other : one + other
    }

    function choosePlace(place: string): void {
        if (root.place === place || place.length === 0) {
            root.place = ""
            root.placeWords = ""
            return
        }
        root.place = place
        root.car.places.choose(place)
        root.placeWords = root.car.places.currentTitle
        if (root.page !== CarScreen.Findings)
            root.page = CarScreen.Work
    }

    // What the drawing shows: everything, or the chosen place alone among the others.
    function showHold(operationId: int, findingId: int, placeId: string): void {
        if (operationId > 0) {
            root.navigator.openOperation(root.carId, operationId)
        } else if (findingId > 0) {
            root.place = ""
            root.page = CarScreen.Findings
            addWork.openAt(placeId)
        } else if (placeId.length > 0) {
            addWork.openAt(placeId)
        } else {
            more.shown = true
        }
    }

    Component.onCompleted: root.car.open(root.carId)

    Connections {
        target: root.car.ask

        function onDone(what: string): void {
            switch (what) {
            case "moveToBay":
            case "moveToParking":
                move.shown = false
                break
            case "changePromise":
                promise.shown = false
                break
            case "correctIdentity":
            case "correctFacts":
                identity.shown = false
                break
            case "openOperation":
                addWork.shown = false
                root.page = CarScreen.Work
                break
            case "leaveUnreleased":
                leave.shown = false
                break
            case "linkDuplicate":
                twice.shown = false
                break
            case "correctFinding":
                detail.shown = false
                break
            }
        }
    }

    Connections {
        target: root.car

        function onLeft(): void {
            root.navigator.home()
        }

        function onPhotoKept(photoId: string, warnings: list<string>): void {
            if (root.photoFor === 2)
                identity.photoId = photoId
            else if (root.photoFor === 3)
                detail.photoId = photoId
            root.photoFor = 0
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

    // ---- the map

    Rectangle {
        id: map

        anchors { left: parent.left; top: parent.top }
        width: root.tall ? Theme.mm(118) : Math.min(Theme.mm(128), parent.width * 0.26)
        height: root.tall ? Theme.mm(190) : parent.height
        visible: root.ready
        radius: Theme.radius
        color: Theme.paper

        Column {
            id: straps

            anchors { left: parent.left; right: parent.right; top: parent.top }

            Repeater {
                model: root.car.restraintWords

                delegate: Strap {
                    required property string modelData

                    width: straps.width
                    text: modelData
                }
            }
        }

        CarOutline {
            id: outline

            anchors.centerIn: room
            height: Math.min(room.height, room.width / aspect)
            width: height * aspect
            shape: root.car.shape
            marks: root.car.marks
            interactive: true
            onPlaceTouched: place => root.choosePlace(place)
        }

        // Where the finger was.
        Rectangle {
            readonly property point middle: root.place.length > 0 ? outline.centreOf(root.place) : Qt.point(-1, -1)

            visible: middle.x >= 0
            x: outline.x + middle.x - width / 2
            y: outline.y + middle.y - height / 2
            width: Theme.mm(15)
            height: width
            radius: width / 2
            color: "transparent"
            border.width: Theme.thickLine
            border.color: Theme.accent
        }

        Item {
            id: room

            anchors { left: parent.left; right: parent.right; top: straps.bottom; bottom: placeRow.top; margins: Theme.module }
        }

        Item {
            id: placeRow

            anchors { left: parent.left; right: parent.right; bottom: parent.bottom; margins: Theme.module }
            height: Theme.touch

            Label {
                anchors { left: parent.left; right: allPlaces.visible ? allPlaces.left : parent.right; rightMargin: Theme.half; verticalCenter: parent.verticalCenter }
                text: root.place.length > 0 ? root.placeWords : qsTr("Touch a place to see its work.")
                role: root.place.length > 0 ? Label.Reading : Label.Detail
                muted: root.place.length === 0
                strong: root.place.length > 0
                wrapMode: Text.WordWrap
                maximumLineCount: 2
                elide: Text.ElideRight
            }

            ActionButton {
                id: allPlaces

                anchors.right: parent.right
                visible: root.place.length > 0
                paper: true
                text: qsTr("All places")
                onTapped: root.choosePlace("")
            }
        }
    }

    // ---- what holds the release

    Rectangle {
        id: gate

        anchors { right: parent.right; top: parent.top }
        width: root.tall ? parent.width - map.width - Theme.module : Math.min(Theme.mm(150), parent.width * 0.3)
        height: root.tall ? map.height : parent.height
        visible: root.ready
        radius: Theme.radius
        color: Theme.paper

        Label {
            id: gateTitle

            anchors { left: parent.left; right: parent.right; top: parent.top; margins: Theme.mm(6) }
            text: !root.car.release.shown ? root.car.outcomeWords
                : holds.count === 0 ? qsTr("Nothing holds it") : qsTr("Holds the release: %1").arg(holds.count)
            role: Label.Reading
            muted: holds.count > 0
            wrapMode: Text.WordWrap
        }

        ListView {
            id: holds

            anchors { left: parent.left; right: parent.right; top: gateTitle.bottom; bottom: parent.bottom; leftMargin: Theme.mm(6); rightMargin: Theme.mm(6); topMargin: Theme.half; bottomMargin: Theme.half }
            clip: true
            boundsBehavior: Flickable.DragOverBounds
            model: root.car.holds

            delegate: HoldLine {
                width: holds.width
                onTapped: root.showHold(operationId, findingId, placeId)
            }
        }

        EmptyState {
            anchors.centerIn: holds
            paper: true
            visible: holds.count === 0 && root.car.release.shown
            title: qsTr("Ready for release")
            hint: qsTr("It wants the signature of somebody who may release.")
        }
    }

    // ---- the lists

    Rectangle {
        id: lists

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
        radius: Theme.radius
        color: Theme.paper

        ListView {
            id: work

            anchors { fill: parent; margins: Theme.mm(4); topMargin: Theme.half }
            visible: root.page === CarScreen.Work
            clip: true
            boundsBehavior: Flickable.DragOverBounds
            model: root.car.operations
            section.property: root.place.length > 0 ? "" : "placeWords"
            section.delegate: root.heading

            delegate: OperationLine {
                width: work.width
                height: root.place.length === 0 || placeId === root.place ? implicitHeight : 0
                visible: height > 0
                onTapped: root.navigator.openOperation(root.carId, operationId)
            }
        }

        ListView {
            id: findings

            anchors { fill: parent; margins: Theme.mm(6); topMargin: Theme.half }
            visible: root.page === CarScreen.Findings
            clip: true
            boundsBehavior: Flickable.DragOverBounds
            model: root.car.findings

            delegate: FindingLine {
                width: findings.width
                height: root.place.length === 0 || placeId === root.place ? implicitHeight : 0
                visible: height > 0
                onTapped: {
                    detail.findingId = findingId
                    detail.words = words
                    detail.quote = quote
                    detail.byWords = byWords
                    detail.answerWords = answerWords
                    detail.stands = stands
                    detail.photoId = ""
                    detail.correcting = 0
                    detail.shown = true
                }
            }
        }

        GridView {
            id: photos

            readonly property int across: Math.max(1, Math.floor(width / Theme.mm(56)))

            anchors { fill: parent; margins: Theme.mm(6) }
            visible: root.page === CarScreen.Photos
            clip: true
            boundsBehavior: Flickable.DragOverBounds
            cellWidth: Math.floor(width / across)
            cellHeight: Theme.mm(48)
            model: root.car.photos

            delegate: Item {
                id: cell

                required property string url
                required property string fullUrl
                required property string momentWords
                required property string placeWords
                required property string byWords

                width: photos.cellWidth
                height: photos.cellHeight

                PhotoTile {
                    anchors { fill: parent; margins: Theme.gap / 2 }
                    source: cell.url
                    caption: cell.momentWords + " · " + cell.byWords
                    onTapped: {
                        view.source = cell.fullUrl
                        view.caption = root.joined(root.joined(cell.placeWords, cell.momentWords), cell.byWords)
                        view.visible = true
                        view.forceActiveFocus()
                    }
                }
            }
        }

        ListView {
            id: history

            anchors { fill: parent; margins: Theme.mm(6); topMargin: Theme.half }
            visible: root.page === CarScreen.History
            clip: true
            boundsBehavior: Flickable.DragOverBounds
            model: root.car.history
            section.property: "dayWords"
            section.delegate: root.heading

            delegate: HistoryLine {
                width: history.width
                onTapped: root.navigator.openOperation(root.carId, operationId)
            }
        }

        EmptyState {
            anchors.centerIn: parent
            paper: true
            visible: root.page === CarScreen.Findings ? findings.count === 0
                : root.page === CarScreen.Photos ? photos.count === 0
                : root.page === CarScreen.Work ? work.contentHeight < Theme.touch : false
            title: root.page === CarScreen.Findings ? qsTr("No findings")
                : root.page === CarScreen.Photos ? qsTr("No photos yet") : qsTr("No work here")
            hint: root.page === CarScreen.Work && root.place.length > 0 ? root.placeWords : ""
            action: root.page === CarScreen.Work && root.place.length > 0 ? qsTr("Add work here") : ""
            onActed: addWork.openAt(root.place)
        }
    }

    Row {
        id: tabs

        anchors { left: lists.left; bottom: parent.bottom }
        spacing: Theme.gap
        visible: root.ready

        FilterTab {
            text: qsTr("Work")
            count: work.count
            selected: root.page === CarScreen.Work
            onTapped: root.page = CarScreen.Work
        }

        FilterTab {
            text: qsTr("Findings")
            count: findings.count
            selected: root.page === CarScreen.Findings
            onTapped: root.page = CarScreen.Findings
        }

        FilterTab {
            text: qsTr("Photos")
            count: photos.count
            selected: root.page === CarScreen.Photos
            onTapped: root.page = CarScreen.Photos
        }

        FilterTab {
            text: qsTr("History")
            selected: root.page === CarScreen.History
            onTapped: root.page = CarScreen.History
        }
    }

    // ---- what can be done

    ways: [
        ActionButton {
            visible: root.ready && root.car.move.shown
            text: qsTr("Move it")
            available: root.car.move.can
            reason: root.car.move.why
            onTapped: move.shown = true
            onRefused: move.shown = true
        },
        ActionButton {
            visible: root.ready && root.car.move.shown
            text: qsTr("Found something")
            onTapped: {
                found.open()
                if (root.place.length > 0)
                    root.car.finding.choosePlace(root.place)
            }
        },
        ActionButton {
            visible: root.ready && root.car.move.shown
            text: qsTr("Add work")
            onTapped: addWork.openAt(root.place)
        },
        ActionButton {
            visible: root.ready
            text: qsTr("More")
            onTapped: more.shown = true
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
            reason: holds.count > 0 ? qsTr("%1 things hold it").arg(holds.count) : root.car.release.why
            onTapped: root.navigator.openRelease(root.carId)
            onRefused: root.navigator.openRelease(root.carId)
        }
    ]

    sheets: [
        CarMoreSheet {
            id: more

            car: root.car
            onDismissed: shown = false
            onPromiseWanted: {
                more.shown = false
                promise.shown = true
            }
            onIdentityWanted: {
                more.shown = false
                root.car.editIdentity()
                identity.facts = false
                identity.shown = true
            }
            onFactsWanted: {
                more.shown = false
                root.car.editIdentity()
                identity.photoId = ""
                identity.facts = true
                identity.shown = true
            }
            onPhotoWanted: {
                more.shown = false
                root.photoFinding = 0
                root.photoFor = 1
                photo.prompt = qsTr("A photo of %1").arg(root.car.stockNumber)
                photo.open()
            }
            onAppraisalDone: {
                more.shown = false
                root.car.finishAppraisal()
            }
            onLeaveWanted: {
                more.shown = false
                leave.shown = true
            }
            onTwiceWanted: {
                more.shown = false
                twice.shown = true
            }
            onBringBackWanted: {
                more.shown = false
                bringBack.open()
            }
        },
        MoveSheet {
            id: move

            car: root.car
            bays: root.shell.bays
            onDismissed: shown = false
        },
        PromiseSheet {
            id: promise

            car: root.car
            nowMs: root.shell.nowMs
            onDismissed: shown = false
        },
        IdentitySheet {
            id: identity

            car: root.car
            onDismissed: shown = false
            onPhotoWanted: {
                root.photoFor = 2
                photo.prompt = qsTr("A photo that shows what %1 has").arg(root.car.stockNumber)
                photo.open()
            }
        },
        AddWorkSheet {
            id: addWork

            car: root.car
            onDismissed: shown = false
        },
        LeaveSheet {
            id: leave

            car: root.car
            onDismissed: shown = false
        },
        TwiceSheet {
            id: twice

            car: root.car
            onDismissed: shown = false
        },
        FindingDetailSheet {
            id: detail

            car: root.car
            onDismissed: shown = false
            onPhotoWanted: {
                detail.shown = false
                root.photoFinding = detail.findingId
                root.photoFor = 1
                photo.prompt = detail.words
                photo.open()
            }
            onEvidenceWanted: {
                root.photoFor = 3
                photo.prompt = qsTr("A photo that shows it")
                photo.open()
            }
            onChangeWanted: {
                root.car.editFinding(detail.findingId)
                changed.shown = true
            }
        },
        FindingSheet {
            id: found

            shell: root.shell
            draft: root.car.finding
            shape: root.car.shape
            onConfirmed: root.car.recordFinding()
        },
        FindingSheet {
            id: changed

            shell: root.shell
            draft: root.car.finding
            shape: root.car.shape
            title: qsTr("What it really is")
            confirm: qsTr("That is it")
            onConfirmed: detail.correcting = 2
        },
        WordsSheet {
            id: bringBack

            title: qsTr("%1 comes back into prep").arg(root.car.stockNumber)
            confirm: qsTr("Bring it back")
            onSaid: words => root.car.bringBack(words)
        },
        PhotoSheet {
            id: photo

            shell: root.shell
            onFileChosen: path => {
                if (root.photoFor > 1)
                    root.car.keepFile(path)
                else
                    root.car.attachFile(path, root.photoFinding)
            }
            onFrameTaken: image => {
                if (root.photoFor > 1)
                    root.car.keepFrame(image)
                else
                    root.car.attachFrame(image, root.photoFinding)
            }
        },
        PhotoView {
            id: view

            visible: false
            onDismissed: visible = false
        },
        AskBanner {
            anchors { bottom: parent ? parent.bottom : undefined; bottomMargin: Theme.touchSafety + 2 * Theme.module }
            ask: root.car.ask
        }
    ]
}
