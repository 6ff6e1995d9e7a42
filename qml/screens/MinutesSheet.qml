// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// Corrects the minutes of one stretch, with the reason; the measured ones stay on record. It stays,
// with what was typed, until they are written.
//   ask: what the correction is asked through, as "correctMinutes"
//   openFor(segmentId, minutes);  signal said(int segmentId, int minutes, string reason)
DialogSheet {
    id: root

    required property Ask ask
    property int segmentId: 0

    signal said(int segmentId, int minutes, string reason)

    function openFor(segmentId: int, minutes: int): void {
        root.ask.dismiss()
        root.segmentId = segmentId
        pad.text = String(minutes)
        why.text = ""
        root.shown = true
    }

    title: qsTr("Minutes really worked")
    sheetWidth: Math.min(Theme.mm(230), width - 2 * Theme.margin)
    onDismissed: root.shown = false

    Connections {
        target: root.ask

        function onDone(what: string): void {
            if (what === "correctMinutes")
                root.shown = false
        }
    }

    Flow {
        width: parent.width
        spacing: Theme.module

        Banner {
            width: parent.width
            visible: root.ask.refused
            kind: root.ask.canRetry ? Banner.Fault : Banner.Refusal
            what: root.ask.words
            action: root.ask.canRetry ? qsTr("Try again") : ""
            onActed: root.ask.retry()
            onClosed: root.ask.dismiss()
        }

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
            available: pad.text.length > 0 && why.text.trim().length > 0 && !root.ask.busy
            reason: root.ask.busy ? "" : qsTr("minutes and the reason")
            onTapped: root.said(root.segmentId, Number(pad.text), why.text.trim())
        }
    ]
}
