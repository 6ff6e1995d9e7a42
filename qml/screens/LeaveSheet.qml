// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// The car goes without being sold from here. It is said and signed, too.
//   car
DialogSheet {
    id: root

    required property CarView car
    readonly property list<string> ways: ["trade", "scrap", "back-to-owner"]

    title: (car.release.shown ? qsTr("%1 goes unreleased") : qsTr("%1 goes another way")).arg(car.stockNumber)
    sheetWidth: Math.min(Theme.mm(200), width - 2 * Theme.margin)
    onShownChanged: {
        if (root.shown) {
            how.index = -1
            why.text = ""
        }
    }

    Column {
        width: parent.width
        spacing: Theme.module

        ChoiceRow {
            id: how

            width: parent.width
            options: [qsTr("To the trade"), qsTr("To be scrapped"), qsTr("Back to its owner")]
        }

        NoteField {
            id: why

            width: parent.width
            label: qsTr("Why")
            lines: 3
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
            kind: ActionButton.Safety
            text: qsTr("Sign it out")
            available: how.index >= 0 && why.text.trim().length > 0 && !root.car.ask.busy
            reason: how.index < 0 ? qsTr("where it goes") : qsTr("why")
            onTapped: root.car.leaveUnreleased(root.ways[how.index], why.text)
        }
    ]
}
