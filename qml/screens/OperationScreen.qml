// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// One operation in hand: read the cautions, start, measure, photograph, finish and sign.
ScreenFrame {
    id: root

    required property string carId
    required property int operationId
    readonly property OperationView view: shell.operation

    lead: view.car.stockNumber
    rest: view.car.aboutWords
    readonly property bool kept: shell.server.waiting > 0 && shell.server.keepsWork(carId, operationId)
    second: kept ? qsTr("kept here, not yet on the wall") : view.car.registration

    // Counted again whenever the operation changes: the rows are there by then.
    property bool readingsLeft: false
    property bool photosLeft: false

    function lookForGaps(): void {
        root.readingsLeft = readingSheet.nextEmpty(0) >= 0
        root.photosLeft = careSheet.firstMissing() !== null
    }

    // One after the other, until none is missing or the sheet is closed without one.
    function photosInTurn(): void {
        const need = careSheet.firstMissing()
        photoSheet.inTurn = need !== null
        if (need !== null)
            photoSheet.openFor(need)
    }

    Component.onCompleted: {
        root.view.open(root.carId, root.operationId)
        root.lookForGaps()
    }

    Connections {
        target: root.view.ask

        function onDone(what: string): void {
            if (what === "attach" && photoSheet.inTurn)
                root.photosInTurn()
        }

        // Whoever signed at the end of a long page sees why it did not come about.
        function onRefusedWith(): void {
            scroll.contentY = Math.min(scroll.contentY, outcome.y)
        }
    }

    Connections {
        target: root.shell.car

        // Nothing that is touched here goes to other work that has this number now.
        function onRenumbered(findings: var, operations: var): void {
            const now = operations[root.operationId]
            if (now === undefined)
                return
            // This screen goes meanwhile.
            const navigator = root.navigator
            const car = root.carId
            navigator.back()
            if (now > 0)
                navigator.openOperation(car, now)
        }
    }

    function missingWords(count: int): string {
        return count === 1 ? qsTr("one thing missing") : qsTr("%1 things missing").arg(count)
    }

    Connections {
        target: root.view

        function onChanged(): void {
            root.lookForGaps()
        }

        function onSignedOff(): void {
            Chime.play(Chime.Signed)
            root.navigator.openCar(root.carId)
        }

        function onPhotoWarnings(warnings: list<string>): void {
            careSheet.photoNote = warnings.join(" ")
        }
    }

    // The three sheets stand beside each other, or under each other on a tall screen.
    Item {
        id: stage

        anchors.fill: parent
        visible: root.view.loaded

        readonly property real side: root.tall ? width : Theme.mm(146)
        readonly property real carWidth: root.tall ? 0 : Theme.mm(96)

        Sheet {
            id: carSheet

            visible: !root.tall
            width: stage.carWidth
            height: parent.height

            CarOutline {
                id: outline

                anchors { horizontalCenter: parent.horizontalCenter; top: parent.top }
                height: Math.min(parent.height * 0.52, parent.width / aspect)
                width: height * aspect
                shape: root.view.car.shape
                marks: root.view.car.marks
            }

            OperationFollows {
                anchors { left: parent.left; right: parent.right; top: outline.bottom; topMargin: Theme.module }
                view: root.view
            }
        }

        Sheet {
            id: workSheet

            x: root.tall ? 0 : carSheet.width + Theme.module
            width: root.tall ? stage.width : stage.width - carSheet.width - stage.side - 2 * Theme.module
            height: root.tall ? stage.height - careSheet.height - Theme.module : stage.height

            StateBand {
                id: edge

                anchors { left: parent.left; top: parent.top; bottom: parent.bottom; leftMargin: -workSheet.padding; topMargin: -workSheet.padding; bottomMargin: -workSheet.padding }
                visible: root.view.band !== Wall.NoBand
                band: root.view.band
            }

            CarStraps {
                id: straps

                anchors { left: edge.right; right: parent.right; top: parent.top; topMargin: -workSheet.padding; rightMargin: -workSheet.padding }
                car: root.view.car
            }

            Flickable {
                id: scroll

                anchors { fill: parent; leftMargin: Theme.module; topMargin: Math.max(0, straps.height + Theme.module - workSheet.padding) }
                contentHeight: column.height
                clip: true
                boundsBehavior: Flickable.DragOverBounds

                Column {
                    id: column

                    width: scroll.width
                    spacing: Theme.module

                    OperationHeading {
                        width: parent.width
                        view: root.view
                        why: root.dotted(root.view.whyWords, root.view.stateWord)
                    }

                    Banner {
                        id: outcome

                        width: parent.width
                        visible: root.view.ask.refused && !readingSheet.shown && !correction.shown && !minutesSheet.shown
                        kind: root.view.ask.canRetry ? Banner.Fault : Banner.Refusal
                        what: root.view.ask.words
                        action: root.view.ask.canRetry ? qsTr("Try again") : ""
                        onActed: root.view.ask.retry()
                        onClosed: root.view.ask.dismiss()
                    }

                    Banner {
                        width: parent.width
                        visible: what.length > 0
                        kind: Banner.Note
                        what: root.view.forgottenWords
                        todo: qsTr("If not, pause it and put the minutes right below. What was measured stays on record.")
                        action: root.view.pauseForgottenOffer.can ? qsTr("Pause it") : ""
                        closable: false
                        onActed: root.view.pauseForgotten()
                    }

                    BigTimer {
                        width: parent.width
                        minutes: root.view.minutes
                        usual: root.view.usualMinutes
                        usualTo: root.view.highMinutes
                        running: root.view.running
                        begun: root.view.startedWords !== ""
                        startedText: root.dotted(root.view.startedWords, root.view.peopleWords)
                    }

                    Label {
                        visible: readings.count > 0
                        text: qsTr("Readings")
                        muted: true
                    }

                    Column {
                        width: parent.width

                        Repeater {
                            id: readings

                            model: root.view.readings

                            delegate: ReadingLine {
                                required property int index

                                width: column.width
                                active: readingSheet.at === index
                                editable: root.view.running || root.view.awaitsReceipt
                                onTapped: readingSheet.startAt(index)
                            }
                        }
                    }

                    NoteField {
                        width: parent.width
                        visible: root.view.finishOffer.shown
                        label: qsTr("Note, for the record")
                        lines: 2
                        text: root.view.note
                        onEdited: text => root.view.note = text
                    }

                    TimeSoFar {
                        width: parent.width
                        segments: root.view.segments
                        onTapped: (segmentId, minutes) => minutesSheet.openFor(segmentId, minutes)
                    }
                }
            }

            MoreBelow {
                list: scroll
            }
        }

        OperationCare {
            id: careSheet

            x: root.tall ? 0 : stage.width - width
            y: root.tall ? stage.height - height : 0
            width: stage.side
            height: root.tall ? Math.min(wanted, stage.height * 0.42) : stage.height
            shell: root.shell
            view: root.view
            onCompareWanted: beforeAfter.openWork(root.operationId)
            onPhotoTapped: need => {
                photoSheet.inTurn = false
                photoSheet.openFor(need)
            }
            onMorePhotosWanted: photoSheet.openForMore()
        }
    }

    Waiting {
        anchors.centerIn: parent
        visible: !root.view.loaded
        text: qsTr("Opening the operation")
    }

    ways: [
        ActionButton {
            visible: root.view.car.find.shown
            text: qsTr("Found something else")
            available: root.view.car.find.can
            reason: root.view.car.find.why
            onTapped: root.navigator.openWalkRound(root.carId, root.operationId)
        },
        ActionButton {
            visible: root.shell.together.possible && root.view.finishOffer.shown && !root.readingsLeft
            text: qsTr("Sign off with others")
            onTapped: togetherSheet.open()
        },
        ActionButton {
            visible: root.view.blockOffer.shown || root.view.sendOutOffer.shown || root.view.handOverOffer.shown
                || root.view.reopenOffer.shown || root.view.leaveOffer.shown || root.view.failOffer.shown
                || root.view.withdrawOffer.shown
            text: qsTr("Something in the way")
            onTapped: moreSheet.shown = true
        }
    ]

    actions: [
        ActionButton {
            readonly property var offer: root.view.liftOffer.shown ? root.view.liftOffer : root.view.isolateOffer

            visible: offer.shown
            text: root.view.liftOffer.shown ? qsTr("Lift the isolation") : qsTr("High voltage is isolated")
            available: offer.can && !root.view.ask.busy
            reason: offer.why
            onTapped: moreSheet.askIsolation()
        },
        ActionButton {
            visible: root.view.changeDueOffer.shown
            text: qsTr("Another day")
            available: root.view.changeDueOffer.can && !root.view.ask.busy
            reason: root.view.changeDueOffer.why
            onTapped: dueSheet.shown = true
        },
        ActionButton {
            visible: root.view.unblockOffer.shown
            text: qsTr("The part is here")
            available: root.view.unblockOffer.can && !root.view.ask.busy
            reason: root.view.unblockOffer.why
            kind: ActionButton.Accent
            onTapped: root.view.unblock()
        },
        ActionButton {
            visible: root.view.receiveOffer.shown
            text: qsTr("It is back")
            available: root.view.receiveOffer.can && !root.view.ask.busy
            reason: root.view.receiveOffer.why
            kind: ActionButton.Accent
            onTapped: receiveSheet.shown = true
        },
        ActionButton {
            visible: root.view.pauseOffer.shown
            text: qsTr("Pause")
            available: root.view.pauseOffer.can && !root.view.ask.busy
            reason: root.view.pauseOffer.why
            onTapped: root.view.pause()
        },
        ActionButton {
            visible: root.view.startOffer.shown && !root.view.myRunning
            text: root.view.minutes > 0 ? qsTr("Go on with it") : root.view.cautionsRead ? qsTr("Start") : qsTr("I have read this: start")
            available: root.view.startOffer.can && !root.view.ask.busy
            reason: root.view.startOffer.why
            kind: ActionButton.Accent
            onTapped: root.view.readAndStart()
        },
        ActionButton {
            visible: (root.view.myRunning || root.view.awaitsReceipt) && (root.readingsLeft || root.photosLeft)
            text: root.readingsLeft ? qsTr("Next reading") : qsTr("Next photo")
            kind: ActionButton.Accent
            onTapped: {
                if (root.readingsLeft)
                    readingSheet.startAt(-1)
                else
                    root.photosInTurn()
            }
        },
        ActionButton {
            visible: root.view.countersignOffer.shown
            text: qsTr("Second signature")
            available: root.view.countersignOffer.can && !root.view.ask.busy
            reason: root.view.countersignOffer.why
            kind: ActionButton.Safety
            onTapped: root.view.countersign()
        },
        ActionButton {
            visible: root.view.finishOffer.shown
            text: root.view.check ? qsTr("Checked, sign") : qsTr("Finish and sign")
            available: root.view.finishOffer.can && !root.view.ask.busy
            reason: root.view.missing.length > 0 ? root.missingWords(root.view.missing.length) : root.view.finishOffer.why
            kind: root.view.safety ? ActionButton.Safety : ActionButton.Accent
            onTapped: root.view.signOff()
            onRefused: missingSheet.shown = true
        }
    ]

    sheets: [
        ReadingSheet {
            id: readingSheet

            operation: root.view
            rows: readings
            onCompleted: root.photosInTurn()
            onCorrectionWanted: line => correction.openFor(line)
            onFigureWrong: line => correction.openForFigure(line)
        },
        ReadingCorrection {
            id: correction

            shell: root.shell
        },
        PhotoSheet {
            id: photoSheet

            property bool inTurn: false

            property int rank: 0

            function openFor(need: PhotoNeed): void {
                photoSheet.momentAsked = false
                photoSheet.moment = need.moment
                photoSheet.rank = need.rank
                photoSheet.prompt = need.prompt
                photoSheet.open()
            }

            // One more than the work asks for.
            function openForMore(): void {
                photoSheet.momentAsked = true
                photoSheet.moment = root.view.likelyMoment
                photoSheet.rank = 0
                photoSheet.prompt = qsTr("Another photo: %1").arg(root.view.title)
                photoSheet.inTurn = false
                photoSheet.open()
            }

            shell: root.shell
            operationId: root.view.operationId
            whereWords: root.dotted(root.view.placeWords, root.view.car.stockNumber)
            // Read again with each change of the operation: the picture before may just have come.
            guide: shown && root.view.loaded ? root.view.guideFor(moment, rank) : ""
            onFilesChosen: paths => root.view.attachFiles(paths, photoSheet.moment)
            onFrameTaken: image => root.view.attachFrame(image, photoSheet.moment)
            onPhoneWanted: root.shell.phone.inviteForWork(photoSheet.moment, photoSheet.prompt)
            onPhoneDone: came => {
                if (came > 0 && photoSheet.inTurn)
                    root.photosInTurn()
            }
        },
        BeforeAfterPage {
            id: beforeAfter

            pair: root.shell.beforeAfter
        },
        MissingSheet {
            id: missingSheet

            missing: root.view.missing.length > 0 ? root.view.missing : [root.view.finishOffer.why]
        },
        TogetherSheet {
            id: togetherSheet

            view: root.shell.together
        },
        MinutesSheet {
            id: minutesSheet

            waits: root.shell.car.correctionWaits
            ask: root.view.ask
            onSaid: (segmentId, minutes, reason) => root.view.correctMinutes(segmentId, minutes, reason)
        },
        OperationMoreSheet {
            id: moreSheet

            shell: root.shell
            view: root.view
        },
        DueSheet {
            id: dueSheet

            ask: root.view.ask
            today: root.shell.today
            due: root.view.dueDay
            part: root.view.unblockOffer.shown
            onSaid: (due, reason) => root.view.changeDue(due, reason)
        },
        ReceiveSheet {
            id: receiveSheet

            ask: root.view.ask
            keysOut: root.view.keysOut
            onSaid: (document, keys) => root.view.receiveBack(document, keys)
        }
    ]
}
