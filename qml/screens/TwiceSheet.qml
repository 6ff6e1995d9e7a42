// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// The same car stands on the wall a second time: the other entry ends, its evidence comes here.
//   car
DialogSheet {
    id: root

    required property CarView car

    title: qsTr("%1 was entered twice").arg(car.stockNumber)
    sheetWidth: Math.min(Theme.mm(200), width - 2 * Theme.margin)
    onShownChanged: {
        if (root.shown) {
            other.text = root.car.sameVinStock
            why.text = ""
        }
    }

    Column {
        width: parent.width
        spacing: Theme.module

        Label {
            width: parent.width
            text: qsTr("This entry stays. What was found, measured and photographed under the other one comes over to it. Work, with its readings and signatures, stays with the other one, which ends: safety work that only it owes is finished there first.")
            wrapMode: Text.WordWrap
        }

        Field {
            id: other

            width: parent.width
            label: qsTr("Stock number of the other entry")
            maximumLength: 20
        }

        NoteField {
            id: why

            width: parent.width
            label: qsTr("How it came about")
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
            text: qsTr("Join the two")
            available: other.text.trim().length > 0 && why.text.trim().length > 0 && !root.car.ask.busy
            reason: qsTr("the other number, and how it came about")
            onTapped: root.car.linkDuplicate(other.text, why.text)
        }
    ]
}
