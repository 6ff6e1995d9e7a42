// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// Another promised day, with the reason.
//   car, today
DialogSheet {
    id: root

    required property CarView car
    required property string today

    title: qsTr("When is %1 promised?").arg(car.stockNumber)
    sheetWidth: Math.min(Theme.mm(240), width - 2 * Theme.margin)
    onShownChanged: {
        if (root.shown) {
            why.text = ""
        }
    }

    Column {
        width: parent.width
        spacing: Theme.module

        DayPicker {
            id: days

            width: parent.width
            today: root.today
            day: root.car.promised
        }

        NoteField {
            id: why

            width: parent.width
            label: qsTr("Why")
            lines: 2
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
            text: qsTr("Change the promise")
            available: days.day !== root.car.promised && days.day.length > 0 && why.text.trim().length > 0 && !root.car.ask.busy
            reason: qsTr("another day, and why")
            onTapped: root.car.changePromise(days.day, why.text)
        }
    ]
}
