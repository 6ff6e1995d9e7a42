// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// A tyre of which a span of depths was said: its three readings on the walk-round's pad. It closes
// once they are there.
//   walk, place, tyreTitle, said;
DialogSheet {
    id: root

    required property WalkRound walk
    property string place: ""
    property string tyreTitle: ""
    property string said: ""

    title: root.tyreTitle
    sheetWidth: Math.min(Theme.mm(230), width - 2 * Theme.margin)
    onDismissed: root.shown = false

    Connections {
        target: root.walk.tyres

        function onComplete(): void {
            root.shown = false
        }
    }

    Column {
        width: parent.width
        spacing: Theme.module

        Label {
            width: parent.width
            text: qsTr("It was said: %1. Measure it inside, in the middle and outside.").arg(root.said)
            wrapMode: Text.WordWrap
        }

        WalkRoundTyrePad {
            width: parent.width
            height: Theme.mm(118)
            walk: root.walk
        }
    }

    actions: [
        ActionButton {
            paper: true
            text: qsTr("Leave it")
            onTapped: root.shown = false
        }
    ]
}
