// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// To whom work is handed.  signal said(int personId)
AskedSheet {
    id: root

    required property Choices colleagues

    signal said(int personId)

    title: qsTr("Hand it over to")
    sheetWidth: Math.min(Theme.mm(220), width - 2 * Theme.margin)
    asks: "handOver"

    Flow {
        width: parent.width
        spacing: Theme.gap

        Repeater {
            model: root.colleagues

            delegate: ChoiceChip {
                required property string choiceId
                required property string title

                text: title
                onTapped: root.said(Number(choiceId))
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
