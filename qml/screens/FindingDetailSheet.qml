// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// A finding at a closer look: photograph it, correct it, say that it is not there.
//   finding: the line that was touched;  car;  photoId: the evidence of a correction
//   signals photoWanted(): a photo of the finding;  evidenceWanted(): one that proves the
//   correction;  changeWanted(): put other words together
DialogSheet {
    id: root

    required property CarView car
    property int findingId: 0
    property string words: ""
    property string quote: ""
    property string byWords: ""
    property string answerWords: ""
    property bool stands: true
    property string photoId: ""
    // The reason is asked for: 0 no, 1 it is not there, 2 it is something else (car.finding has it).
    property int correcting: 0

    signal photoWanted
    signal evidenceWanted
    signal changeWanted

    title: words
    sheetWidth: Math.min(Theme.mm(240), width - 2 * Theme.margin)
    onShownChanged: {
        if (root.shown)
            why.text = ""
    }

    Column {
        width: parent.width
        spacing: Theme.module

        Label {
            width: parent.width
            visible: root.quote.length > 0
            text: "\u201c" + root.quote + "\u201d"
            wrapMode: Text.WordWrap
        }

        Label {
            width: parent.width
            text: root.answerWords.length > 0 ? root.byWords + " · " + root.answerWords : root.byWords
            muted: true
            wrapMode: Text.WordWrap
        }

        Label {
            width: parent.width
            visible: root.stands && root.car.leave.shown && text.length > 0
            text: root.car.correctionWaits
            strong: true
            wrapMode: Text.WordWrap
        }

        Flow {
            width: parent.width
            spacing: Theme.gap
            visible: root.correcting === 0 && root.car.leave.shown

            ActionButton {
                paper: true
                symbol: Icon.Camera
                text: qsTr("Photograph it")
                onTapped: root.photoWanted()
            }

            ActionButton {
                paper: true
                text: qsTr("It is something else")
                visible: root.stands && root.car.correctionWaits.length === 0
                onTapped: root.changeWanted()
            }

            ActionButton {
                paper: true
                text: qsTr("It is not there")
                visible: root.stands && root.car.correctionWaits.length === 0
                onTapped: root.correcting = 1
            }
        }

        Label {
            width: parent.width
            visible: root.correcting > 0
            text: root.correcting === 1 ? qsTr("It is not there. The first finding stays on record; work that rested only on it is withdrawn.")
                : qsTr("Becomes: %1. The first finding stays on record.").arg(root.car.finding.words)
            wrapMode: Text.WordWrap
        }

        NoteField {
            id: why

            width: parent.width
            visible: root.correcting > 0
            label: qsTr("Why")
            lines: 2
        }

        ActionButton {
            visible: root.correcting > 0
            paper: true
            symbol: root.photoId.length > 0 ? Icon.Tick : Icon.Camera
            text: root.photoId.length > 0 ? qsTr("The photo is there") : qsTr("A photo that shows it")
            onTapped: root.evidenceWanted()
        }
    }

    actions: [
        ActionButton {
            paper: true
            text: root.correcting > 0 ? qsTr("Cancel") : qsTr("Close")
            onTapped: root.dismissed()
        },
        ActionButton {
            // Somebody's own slip of the walk-round that goes on needs no photo, unless it is not there.
            readonly property string missing: root.car.correctionWaits.length > 0 ? qsTr("the server is away")
                : why.text.trim().length === 0 ? qsTr("why")
                : (root.correcting === 1 || root.car.appraised) && root.photoId.length === 0 ? qsTr("the photo") : ""

            visible: root.correcting > 0
            paper: true
            kind: ActionButton.Accent
            text: qsTr("Correct it")
            available: missing.length === 0 && !root.car.ask.busy
            reason: missing
            onTapped: root.car.correctFinding(root.findingId, root.correcting === 2, why.text, root.photoId)
        }
    ]
}
