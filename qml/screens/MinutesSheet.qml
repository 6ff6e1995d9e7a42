// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Theme

// Corrects the minutes of one stretch, with the reason; the measured ones stay on record.
//   openFor(segmentId, minutes);  signal said(int segmentId, int minutes, string reason)
AskedSheet {
    id: root

    property int segmentId: 0

    signal said(int segmentId, int minutes, string reason)

    function openFor(segmentId: int, minutes: int): void {
        root.segmentId = segmentId
        pad.text = String(minutes)
        why.text = ""
        root.shown = true
    }

    title: qsTr("Minutes really worked")
    sheetWidth: Math.min(Theme.mm(230), width - 2 * Theme.margin)
    asks: "correctMinutes"

    Flow {
        width: parent.width
        spacing: Theme.module

        NumberPad {
            id: pad

            unit: qsTr("min")
            digits: 4
            doneText: qsTr("Done")
            onDone: why.edit()
        }

        NoteField {
            id: why

            width: Math.max(Theme.mm(80), Math.min(Theme.mm(110), parent.width - pad.width - Theme.module))
            label: qsTr("Why; the measured minutes stay beside it")
            lines: 3
        }
    }

    actions: [
        ActionButton {
            paper: true
            text: qsTr("Cancel")
            onTapped: root.shown = false
        },
        ActionButton {
            paper: true
            kind: ActionButton.Accent
            text: qsTr("Correct")
            visible: root.waits.length === 0
            available: pad.text.length > 0 && why.text.trim().length > 0 && root.free
            reason: root.free ? qsTr("minutes and the reason") : ""
            onTapped: root.said(root.segmentId, Number(pad.text), why.text.trim())
        }
    ]
}
