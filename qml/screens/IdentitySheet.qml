// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// What was written down wrong about the car: who it is, and (with a photo as evidence) what it has.
//   car, facts: the second half;  photoId: the photo that proves it, taken before
//   signal photoWanted()
DialogSheet {
    id: root

    required property CarView car
    property bool facts: false
    property string photoId: ""

    signal photoWanted

    readonly property IdentityDraft draft: car.identity
    // What was said otherwise is shown; what nobody had entered contradicts nothing.
    readonly property string missing: draft.fault.length > 0 ? draft.fault
        : why.text.trim().length === 0 ? qsTr("why it is corrected")
        : facts && car.appraised && draft.contradicts && photoId.length === 0 ? qsTr("the photo") : ""

    title: facts ? qsTr("What %1 has").arg(car.stockNumber) : qsTr("Who %1 is").arg(car.stockNumber)
    sheetWidth: Math.min(Theme.mm(340), width - 2 * Theme.margin)
    waits: car.correctionWaits
    onShownChanged: {
        if (root.shown) {
            why.text = ""
            unit.index = root.draft.kilometres ? 1 : 0
        }
    }

    Column {
        id: form

        readonly property real half: (width - Theme.gap) / 2
        readonly property real quarter: (width - 3 * Theme.gap) / 4

        width: parent.width
        spacing: Theme.module

        Flow {
            width: parent.width
            spacing: Theme.gap
            visible: !root.facts

            Field {
                width: form.half
                label: qsTr("Stock number")
                text: root.draft.stockNumber
                onEdited: text => root.draft.stockNumber = text
            }

            Field {
                width: form.half
                label: qsTr("Registration")
                text: root.draft.registration
                onEdited: text => root.draft.registration = text
            }

            Field {
                width: form.half
                label: qsTr("VIN")
                text: root.draft.vin
                problem: root.draft.vinFault
                onEdited: text => root.draft.vin = text
            }

            Field {
                width: form.half
                label: qsTr("Colour")
                text: root.draft.colour
                onEdited: text => root.draft.colour = text
            }

            Field {
                width: form.half
                label: qsTr("Make")
                text: root.draft.make
                onEdited: text => root.draft.make = text
            }

            Field {
                width: form.half
                label: qsTr("Model")
                text: root.draft.model
                onEdited: text => root.draft.model = text
            }

            Field {
                width: form.half
                label: qsTr("Paint code")
                text: root.draft.paintCode
                onEdited: text => root.draft.paintCode = text
            }
        }

        Label {
            width: parent.width
            visible: !root.facts && text.length > 0
            text: root.draft.vinNote
            role: Label.Detail
            wrapMode: Text.WordWrap
        }

        Label {
            visible: !root.facts
            text: qsTr("Body")
            role: Label.Detail
            muted: true
        }

        ChoiceChips {
            width: parent.width
            visible: !root.facts
            choices: root.draft.shapes
        }

        ChoiceChips {
            width: parent.width
            visible: root.facts
            choices: root.draft.facts
        }

        Flow {
            width: parent.width
            spacing: Theme.gap
            visible: root.facts

            Field {
                width: form.quarter
                label: qsTr("Odometer, %1").arg(root.draft.kilometres ? qsTr("km") : qsTr("miles"))
                text: root.draft.odometer
                onEdited: text => root.draft.odometer = text
            }

            Column {
                width: form.quarter
                spacing: Theme.line * 2

                Label {
                    text: qsTr("Odometer counts")
                    role: Label.Detail
                    muted: true
                }

                ChoiceRow {
                    id: unit

                    width: parent.width
                    options: [qsTr("miles"), qsTr("km")]
                    onChosen: index => root.draft.kilometres = index === 1
                }
            }

            Field {
                width: form.quarter
                label: qsTr("Keys")
                text: root.draft.keys
                onEdited: text => root.draft.keys = text
            }

            Field {
                width: form.quarter
                label: qsTr("Test certificate, months left")
                text: root.draft.testMonths
                onEdited: text => root.draft.testMonths = text
            }

            Field {
                width: form.half
                label: qsTr("Tyres that it asks for, as 205/55 R16 91V")
                text: root.draft.frontTyre
                onEdited: text => root.draft.frontTyre = text
            }

            Field {
                width: form.half
                label: qsTr("At the rear, where they differ")
                text: root.draft.rearTyre
                onEdited: text => root.draft.rearTyre = text
            }
        }

        NoteField {
            id: why

            width: parent.width
            label: qsTr("Why it is corrected")
            lines: 2
        }

        ActionButton {
            visible: root.facts
            paper: true
            symbol: root.photoId.length > 0 ? Icon.Tick : Icon.Camera
            text: root.photoId.length > 0 ? qsTr("The photo is there") : qsTr("A photo that shows it")
            onTapped: root.photoWanted()
        }

        Label {
            width: parent.width
            visible: root.draft.fault.length > 0
            text: root.draft.fault
            wrapMode: Text.WordWrap
        }
    }

    actions: [
        ActionButton {
            paper: true
            text: qsTr("Cancel")
            onTapped: root.dismissed()
        },
        ActionButton {
            paper: true
            kind: ActionButton.Accent
            text: qsTr("Correct it")
            visible: root.waits.length === 0
            available: root.missing.length === 0 && !root.car.ask.busy
            reason: root.missing
            onTapped: {
                if (root.facts)
                    root.car.correctFacts(why.text, root.photoId)
                else
                    root.car.correctIdentity(why.text)
            }
        }
    ]
}
