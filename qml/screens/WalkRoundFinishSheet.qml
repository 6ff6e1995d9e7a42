// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// The end of a walk-round while places are left: which, and what becomes of them.
//   walk
DialogSheet {
    id: root

    required property WalkRound walk

    title: qsTr("%1 places were not looked at").arg(root.walk.left)
    sheetWidth: Math.min(Theme.mm(280), width - 2 * Theme.margin)
    onDismissed: root.shown = false

    Column {
        width: parent.width
        spacing: Theme.module

        Repeater {
            model: root.walk.leftLines

            delegate: Label {
                required property string modelData

                width: parent?.width ?? 0
                text: modelData
                wrapMode: Text.WordWrap
            }
        }

        Row {
            width: parent.width
            visible: root.walk.holdWords.length > 0
            spacing: Theme.half

            Icon {
                id: sign

                y: Theme.mm(1)
                symbol: Icon.HatchMark
            }

            Label {
                width: parent.width - sign.width - Theme.half
                text: qsTr("Safety places, each holds the car until somebody has looked: %1.").arg(root.walk.holdWords)
                wrapMode: Text.WordWrap
                strong: true
            }
        }

        Label {
            width: parent.width
            text: qsTr("The record says of every one of them that nobody looked at it.")
            wrapMode: Text.WordWrap
            muted: true
        }
    }

    actions: [
        ActionButton {
            paper: true
            text: qsTr("Finish all the same")
            available: root.walk.finishOffer.can
            reason: root.walk.finishOffer.why
            onTapped: {
                root.shown = false
                root.walk.finish()
            }
        },
        ActionButton {
            paper: true
            kind: ActionButton.Accent
            text: qsTr("Go on looking")
            onTapped: root.shown = false
        }
    ]
}
