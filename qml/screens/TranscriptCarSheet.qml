// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// Whose a transcript is: the cars on the wall, found by stock number, registration or name. A touch
// on one reads it.
//   view, path, name;  open()
DialogSheet {
    id: root

    required property TranscriptsView view
    property string path: ""
    property string name: ""

    function open(): void {
        root.view.search = ""
        words.text = ""
        root.shown = true
    }

    title: qsTr("Which car is this of?")
    sheetWidth: Math.min(Theme.mm(220), width - 2 * Theme.margin)
    onDismissed: root.shown = false

    Column {
        width: parent.width
        spacing: Theme.module

        Label {
            width: parent.width
            text: root.name
            muted: true
            elide: Text.ElideMiddle
        }

        Field {
            id: words

            width: parent.width
            placeholder: qsTr("Stock number, registration, car")
            onEdited: text => root.view.search = text
            onAccepted: input.focus = false
        }

        Item {
            width: parent.width
            height: Math.min(Theme.mm(150), root.height - Theme.mm(130))

            ListView {
                id: list

                anchors.fill: parent
                clip: true
                boundsBehavior: Flickable.StopAtBounds
                model: root.view.cars

                delegate: SettingLine {
                    required property string carId
                    required property string stockNumber
                    required property string registration
                    required property string makeModel
                    required property string whereWords

                    width: list.width
                    implicitHeight: Theme.mm(23)
                    title: registration.length > 0 ? stockNumber + " · " + registration : stockNumber
                    detail: whereWords.length > 0 ? makeModel + " · " + whereWords : makeModel
                    value: qsTr("Read it")
                    onTapped: {
                        words.input.focus = false
                        root.shown = false
                        root.view.read(root.path, carId)
                    }
                }
            }

            EmptyState {
                anchors.centerIn: parent
                visible: list.count === 0
                paper: true
                title: root.view.search.length > 0 ? qsTr("No car on the wall answers to this") : qsTr("No car is on the wall")
                hint: qsTr("Bring the car in first; the file waits.")
            }
        }
    }

    actions: [
        ActionButton {
            paper: true
            text: qsTr("Cancel")
            onTapped: root.shown = false
        }
    ]
}
