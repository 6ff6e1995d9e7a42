// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// On which printer this kiosk prints.
//   printer;  open() shows it
TellingSheet {
    id: root

    required property PrinterView printer

    function open(): void {
        root.printer.ask.dismiss()
        root.printer.refresh()
        root.shown = true
    }

    ask: printer.ask
    title: qsTr("Printer of this kiosk")
    sheetWidth: Math.min(Theme.mm(230), width - 2 * Theme.margin)
    onDismissed: root.shown = false

    Column {
        width: parent.width
        spacing: Theme.module

        Label {
            width: parent.width
            text: qsTr("Records, door sheets and wheel tags are printed here. The printers are those of this machine's printing system (CUPS).")
            wrapMode: Text.WordWrap
        }

        Flow {
            width: parent.width
            spacing: Theme.gap

            Repeater {
                model: root.printer.queues

                delegate: ChoiceChip {
                    required property string choiceId
                    required property string title
                    required property bool chosen

                    text: title
                    selected: chosen
                    onTapped: root.printer.setQueue(choiceId)
                }
            }
        }

        Label {
            width: parent.width
            visible: root.printer.looking || root.printer.fault.length > 0
            text: root.printer.looking ? qsTr("Looking for printers") : root.printer.fault
            muted: root.printer.looking
            wrapMode: Text.WordWrap
        }
    }

    actions: [
        ActionButton {
            paper: true
            visible: root.printer.queue.length > 0
            text: qsTr("Print nothing")
            onTapped: root.printer.setQueue("")
        },
        ActionButton {
            paper: true
            text: qsTr("Look again")
            available: !root.printer.looking
            onTapped: root.printer.refresh()
        },
        ActionButton {
            paper: true
            kind: ActionButton.Accent
            text: qsTr("Close")
            onTapped: root.shown = false
        }
    ]
}
