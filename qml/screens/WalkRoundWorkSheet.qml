// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// One operation that came out: why, and taking it out again with a reason. Stays until that is
// done, with the reason in it when it is refused.
//   walk;  openFor(operationId, title, place, why)
//   signal insteadWanted(string place): it is out, and other work takes its place
DialogSheet {
    id: root

    required property WalkRound walk
    property int operationId: 0
    property string place: ""
    property string why: ""
    property bool instead: false

    signal insteadWanted(string place)

    function openFor(operationId: int, title: string, place: string, why: string): void {
        root.operationId = operationId
        root.place = place
        root.title = title
        root.why = why
        root.instead = false
        reasons.clear()
        root.shown = true
    }

    function takeOut(instead: bool): void {
        root.instead = instead
        root.walk.takeOut(root.operationId, reasons.reason)
    }

    low: true
    sheetWidth: Math.min(Theme.mm(220), width - 2 * Theme.margin)
    onDismissed: root.shown = false

    Connections {
        target: root.walk.ask

        function onDone(what: string): void {
            if (what !== "takeOut" || !root.shown)
                return
            root.shown = false
            if (root.instead)
                root.insteadWanted(root.place)
        }
    }

    Column {
        width: parent.width
        spacing: Theme.module

        Label {
            width: parent.width
            text: root.why
            wrapMode: Text.WordWrap
            muted: true
        }

        Label {
            text: qsTr("Take it out, because")
        }

        ReasonChips {
            id: reasons

            width: parent.width
            reasons: [qsTr("part of other work"), qsTr("done already"), qsTr("not worth it on this car"), qsTr("other work instead")]
        }
    }

    actions: [
        ActionButton {
            paper: true
            text: qsTr("Leave it in")
            onTapped: root.shown = false
        },
        ActionButton {
            paper: true
            text: qsTr("Other work instead")
            available: reasons.reason.length > 0 && !root.walk.ask.busy
            reason: reasons.reason.length > 0 ? "" : qsTr("a reason")
            onTapped: root.takeOut(true)
        },
        ActionButton {
            paper: true
            kind: ActionButton.Accent
            text: qsTr("Take it out")
            available: reasons.reason.length > 0 && !root.walk.ask.busy
            reason: reasons.reason.length > 0 ? "" : qsTr("a reason")
            onTapped: root.takeOut(false)
        }
    ]
}
