// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// A car comes in by hand: identity, facts, promised day. Its walk-round follows.
ScreenFrame {
    id: root

    readonly property ArrivalView view: shell.arrival
    readonly property IdentityDraft who: view.identity

    /// What the last appraisal file brought.
    property string takenIn: ""
    property bool tookIn: false
    /// Its stock number, where it was a single car.
    property string takenOne: ""

    /// The first of what an import found wrong.
    function faultLines(): string {
        const most = 6
        const all = root.view.importFaults
        let lines = all.length > most ? "\n" + qsTr("and %1 more").arg(all.length - most) : ""
        for (let at = Math.min(all.length, most) - 1; at >= 0; --at)
            lines = (at > 0 ? "\n" : "") + all[at] + lines
        return lines
    }

    function openTaken(): void {
        const car = root.view.carOf(root.takenOne)
        if (car.length > 0)
            root.navigator.openCar(car)
    }

    title: qsTr("Bring a car in")
    second: who.stockNumber.length > 0 ? who.stockNumber + " " + who.make + " " + who.model : ""

    Component.onCompleted: {
        root.shell.arrivalOpen = true
        if (!root.view.begun)
            root.view.begin(root.who.vin)
    }
    Component.onDestruction: root.shell.arrivalOpen = false

    Connections {
        target: root.view

        function onImported(stockNumbers: list<string>, alreadyKnown: bool): void {
            root.takenIn = alreadyKnown ? qsTr("%1 was taken in before; nothing changed.").arg(stockNumbers.join(", "))
                : qsTr("Taken in: %1").arg(stockNumbers.join(", "))
            root.tookIn = !alreadyKnown
            root.takenOne = stockNumbers.length === 1 ? stockNumbers[0] : ""
        }
    }

    Flickable {
        id: scroll

        anchors.fill: parent
        contentHeight: sheets.height
        clip: true
        boundsBehavior: Flickable.DragOverBounds

        Flow {
            id: sheets

            readonly property real column: root.tall ? width : (width - Theme.module) / 2

            width: scroll.width
            spacing: Theme.module

            Sheet {
                width: sheets.column
                title: qsTr("The car")

                Column {
                    width: parent.width
                    spacing: Theme.module

                    Grid {
                        id: fields

                        readonly property real cell: (width - Theme.gap) / 2

                        width: parent.width
                        columns: 2
                        spacing: Theme.gap

                        Field {
                            width: fields.cell
                            label: qsTr("Stock number")
                            text: root.who.stockNumber
                            onEdited: text => root.who.stockNumber = text
                        }

                        Field {
                            width: fields.cell
                            label: qsTr("Registration")
                            text: root.who.registration
                            onEdited: text => root.who.registration = text
                        }

                        Field {
                            width: fields.cell
                            label: qsTr("Make")
                            text: root.who.make
                            onEdited: text => root.who.make = text
                        }

                        Field {
                            width: fields.cell
                            label: qsTr("Model")
                            text: root.who.model
                            onEdited: text => root.who.model = text
                        }
                    }

                    Field {
                        width: parent.width
                        label: qsTr("Vehicle identification number")
                        text: root.who.vin
                        problem: root.who.vinFault
                        onEdited: text => root.who.vin = text
                    }

                    Label {
                        width: parent.width
                        visible: text.length > 0
                        text: root.who.vinNote
                        role: Label.Detail
                        wrapMode: Text.WordWrap
                    }

                    Label {
                        width: parent.width
                        visible: text.length > 0
                        text: root.view.sameVinWords
                        strong: true
                        wrapMode: Text.WordWrap
                    }

                    Grid {
                        width: parent.width
                        columns: 2
                        spacing: Theme.gap

                        Field {
                            width: fields.cell
                            label: qsTr("Colour")
                            text: root.who.colour
                            onEdited: text => root.who.colour = text
                        }

                        Field {
                            width: fields.cell
                            label: qsTr("Paint code")
                            text: root.who.paintCode
                            onEdited: text => root.who.paintCode = text
                        }

                        Field {
                            width: fields.cell
                            label: root.who.kilometres ? qsTr("Odometer, km") : qsTr("Odometer, miles")
                            text: root.who.odometer
                            onEdited: text => root.who.odometer = text
                        }

                        Field {
                            width: fields.cell
                            label: qsTr("Keys")
                            text: root.who.keys
                            onEdited: text => root.who.keys = text
                        }

                        Field {
                            width: fields.cell
                            label: qsTr("Months left on the test certificate")
                            text: root.who.testMonths
                            onEdited: text => root.who.testMonths = text
                        }

                        Field {
                            width: fields.cell
                            label: qsTr("Tyres, as 205/55 R16 91V")
                            text: root.who.frontTyre
                            onEdited: text => root.who.frontTyre = text
                        }

                        Field {
                            width: fields.cell
                            label: qsTr("Tyres at the rear, if others")
                            text: root.who.rearTyre
                            onEdited: text => root.who.rearTyre = text
                        }
                    }

                    Label {
                        text: qsTr("Odometer counts")
                        role: Label.Detail
                        muted: true
                    }

                    ChoiceRow {
                        width: parent.width
                        options: [qsTr("miles"), qsTr("km")]
                        index: root.who.kilometres ? 1 : 0
                        onChosen: index => root.who.kilometres = index === 1
                    }
                }
            }

            Sheet {
                width: sheets.column
                title: qsTr("Body and facts")

                Column {
                    width: parent.width
                    spacing: Theme.module

                    ChoiceChips {
                        width: parent.width
                        choices: root.who.shapes
                    }

                    Label {
                        text: qsTr("It has")
                        role: Label.Detail
                        muted: true
                    }

                    ChoiceChips {
                        width: parent.width
                        choices: root.who.facts
                    }

                    Label {
                        text: qsTr("Promised for")
                        role: Label.Detail
                        muted: true
                    }

                    ChoiceChips {
                        width: parent.width
                        choices: root.view.days
                    }

                    Field {
                        width: parent.width
                        label: qsTr("Where it stands")
                        text: root.view.parking
                        onEdited: text => root.view.parking = text
                    }
                }
            }
        }
    }

    MoreBelow {
        list: scroll
        paper: false
    }

    Banner {
        anchors { left: parent.left; right: parent.right; bottom: parent.bottom }
        visible: root.view.ask.refused || root.takenIn.length > 0
        kind: !root.view.ask.refused ? Banner.Note : root.view.ask.canRetry ? Banner.Fault : Banner.Refusal
        what: root.view.ask.refused ? root.view.ask.words : root.takenIn
        kept: root.view.ask.refused && root.view.importFaults.length === 0 ? qsTr("What was typed is still here.") : ""
        todo: root.view.ask.refused ? root.faultLines() : ""
        done: !root.view.ask.refused && root.tookIn
        action: root.view.ask.refused ? (root.view.ask.canRetry ? qsTr("Try again") : "")
            : root.takenOne.length > 0 ? qsTr("Open %1").arg(root.takenOne) : ""
        onActed: {
            if (root.view.ask.refused)
                root.view.ask.retry()
            else
                root.openTaken()
        }
        onClosed: {
            root.takenIn = ""
            root.view.ask.dismiss()
        }
    }

    ways: [
        ActionButton {
            text: qsTr("From an appraisal file")
            onTapped: {
                root.takenIn = ""
                fileSheet.open()
            }
        },
        ActionButton {
            text: qsTr("Spoken walk-rounds")
            onTapped: root.navigator.openTranscripts("")
        }
    ]

    actions: [
        ActionButton {
            kind: ActionButton.Accent
            text: qsTr("Bring it in and walk round")
            available: root.view.canSave && !root.view.ask.busy
            reason: root.who.fault
            onTapped: root.view.save()
        }
    ]

    sheets: [
        AppraisalFileSheet {
            id: fileSheet

            view: root.view
        }
    ]
}
