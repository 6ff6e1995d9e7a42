// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// Whose work the wall is to show: names with the cars that each has in hand or was handed.
//   wall;  signal said(int person): that name was touched
DialogSheet {
    id: root

    required property WallModel wall

    signal said(int person)

    title: qsTr("Whose work?")
    low: true
    sheetWidth: Math.min(Theme.mm(300), width - 2 * Theme.margin)
    onDismissed: root.shown = false

    // Nobody chose: the wall is there to be seen from across the shop.
    Timer {
        interval: 60000
        running: root.shown
        onTriggered: root.shown = false
    }

    Flow {
        width: parent.width
        spacing: Theme.gap

        Repeater {
            model: root.wall.people

            delegate: ChoiceChip {
                required property int personId
                required property string name
                required property string carsWords

                text: name
                note: carsWords
                selected: root.wall.person === personId
                onTapped: {
                    root.shown = false
                    root.said(personId)
                }
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
