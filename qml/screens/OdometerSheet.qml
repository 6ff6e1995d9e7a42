// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// What the odometer shows now, and in which unit; where it is less than before, why.
//   car
DialogSheet {
    id: root

    required property CarView car
    readonly property bool less: pad.text.length > 0 && root.car.showsLess(Number(pad.text), unit.kilometres)

    function keep(): void {
        root.car.readOdometer(Number(pad.text), unit.kilometres, root.less ? why.text : "")
    }

    title: qsTr("What does the odometer of %1 show?").arg(root.car.stockNumber)
    sheetWidth: Math.min(Theme.mm(230), width - 2 * Theme.margin)
    onShownChanged: {
        if (root.shown) {
            pad.text = ""
            why.text = ""
            unit.index = root.car.odometerKilometres ? 1 : 0
        }
    }

    Flow {
        width: parent.width
        spacing: Theme.module

        NumberPad {
            id: pad

            unit: unit.options[unit.index] ?? ""
            digits: 7
            doneText: qsTr("Done")
            onDone: {
                if (root.less)
                    why.edit()
                else if (pad.text.length > 0)
                    root.keep()
            }
        }

        Column {
            width: Math.max(Theme.mm(80), Math.min(Theme.mm(110), parent.width - pad.width - Theme.module))
            spacing: Theme.module

            Label {
                width: parent.width
                visible: root.car.odometerWords.length > 0
                text: qsTr("Last read: %1").arg(root.car.odometerWords)
                wrapMode: Text.WordWrap
            }

            Column {
                width: parent.width
                spacing: Theme.line * 2

                Label {
                    text: qsTr("Odometer counts")
                    role: Label.Detail
                    muted: true
                }

                ChoiceRow {
                    id: unit

                    readonly property bool kilometres: index === 1

                    width: parent.width
                    options: [qsTr("miles"), qsTr("km")]
                }
            }

            NoteField {
                id: why

                width: parent.width
                visible: root.less
                label: qsTr("Why it shows less than before")
                lines: 3
            }
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
            text: qsTr("Keep it")
            available: pad.text.length > 0 && (!root.less || why.text.trim().length > 0) && !root.car.ask.busy
            reason: root.less ? qsTr("why it shows less") : qsTr("what it shows")
            onTapped: root.keep()
        }
    ]
}
