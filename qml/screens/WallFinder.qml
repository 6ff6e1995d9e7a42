// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// What is searched for on the wall, and what it finds that is no longer in prep.
//   shell, navigator;  edit(): calls up the keys;  signal ended()
Column {
    id: root

    required property Shell shell
    required property Navigator navigator

    signal ended

    function edit(): void {
        words.edit()
    }

    spacing: Theme.gap

    Row {
        width: parent.width
        spacing: Theme.gap

        Rectangle {
            width: parent.width - end.width - parent.spacing
            height: words.implicitHeight
            radius: Theme.radius
            color: Theme.paper

            Field {
                id: words

                width: parent.width
                placeholder: qsTr("Stock number, registration, car")
                onEdited: text => root.shell.wall.text = text
                onAccepted: input.focus = false
            }
        }

        ActionButton {
            id: end

            text: qsTr("End search")
            onTapped: root.ended()
        }
    }

    Flow {
        width: parent.width
        spacing: Theme.gap
        visible: formerCars.count > 0

        Repeater {
            id: formerCars

            model: root.shell.former

            delegate: FilterTab {
                required property string carId
                required property string stockNumber
                required property string carWords
                required property string leftWords

                stacked: true
                text: stockNumber + "  " + carWords
                note: leftWords
                onTapped: root.navigator.openCar(carId)
            }
        }
    }
}
