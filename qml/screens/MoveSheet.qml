// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// Where the car goes: a bay that is free, or words for a parking place.
//   car, bays;  dismissed() and the answer in car.ask close it
DialogSheet {
    id: root

    required property CarView car
    required property BaysModel bays

    title: qsTr("Where does %1 go?").arg(car.stockNumber)
    sheetWidth: Math.min(Theme.mm(240), width - 2 * Theme.margin)

    Column {
        width: parent.width
        spacing: Theme.module

        Label {
            width: parent.width
            visible: !root.car.move.can
            text: root.car.move.why
            strong: true
            wrapMode: Text.WordWrap
        }

        Flow {
            width: parent.width
            spacing: Theme.gap

            Repeater {
                model: root.bays

                delegate: ChoiceChip {
                    required property int bayId
                    required property int number
                    required property string name
                    required property bool free
                    required property string stockNumber

                    text: number + " " + name
                    note: bayId === root.car.bayId ? qsTr("stands here") : free ? qsTr("free") : stockNumber
                    selected: bayId === root.car.bayId
                    available: free
                    opacity: free || selected ? 1 : 0.55
                    onTapped: root.car.moveToBay(bayId)
                }
            }
        }

        Row {
            width: parent.width
            spacing: Theme.gap

            Field {
                id: parking

                width: parent.width - go.width - parent.spacing
                label: qsTr("Or a parking place")
                placeholder: qsTr("yard, row 2")
                maximumLength: 40
            }

            ActionButton {
                id: go

                anchors.bottom: parent.bottom
                paper: true
                kind: ActionButton.Accent
                text: qsTr("Park it there")
                available: parking.text.trim().length > 0 && !root.car.ask.busy
                onTapped: root.car.moveToParking(parking.text)
            }
        }
    }

    actions: [
        ActionButton {
            paper: true
            text: qsTr("Cancel")
            onTapped: root.dismissed()
        }
    ]
}
