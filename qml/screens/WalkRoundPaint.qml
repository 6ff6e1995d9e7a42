// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// Paint depth of one panel: readings on the pad, what was typed and what the comparison says beside
// it. A panel that stands out can be said to be repaired.
//   walk;  signal closed()
Item {
    id: root

    required property WalkRound walk
    readonly property PaintPad paint: walk.paint

    signal closed

    implicitHeight: pad.height
    onVisibleChanged: {
        if (visible)
            pad.text = ""
    }

    Column {
        anchors { left: parent.left; right: pad.left; rightMargin: Theme.module; top: parent.top }
        spacing: Theme.half

        Label {
            width: parent.width
            text: qsTr("Paint depth")
            strong: true
            wrapMode: Text.WordWrap
        }

        Label {
            width: parent.width
            text: root.paint.typed ? root.paint.typedWords : qsTr("At three points of the panel or more")
            muted: !root.paint.typed
            wrapMode: Text.WordWrap
        }

        Label {
            width: parent.width
            visible: text.length > 0
            text: root.paint.comparedWords
            role: Label.Detail
            wrapMode: Text.WordWrap
        }
    }

    Column {
        anchors { left: parent.left; right: pad.left; rightMargin: Theme.module; bottom: parent.bottom }
        spacing: Theme.gap

        ActionButton {
            width: parent.width
            visible: root.paint.typed
            paper: true
            kind: ActionButton.Accent
            text: qsTr("Record them")
            available: root.paint.enough
            reason: qsTr("%1 more").arg(root.paint.missing)
            onTapped: root.walk.recordPaint()
        }

        ActionButton {
            width: parent.width
            visible: root.paint.canConfirm && !root.paint.typed
            paper: true
            text: qsTr("Repaired before")
            onTapped: root.walk.confirmRepair()
        }

        ActionButton {
            width: parent.width
            paper: true
            text: root.paint.typed ? qsTr("Take the last back") : qsTr("Close")
            onTapped: {
                if (root.paint.typed)
                    root.paint.goBack()
                else
                    root.closed()
            }
        }
    }

    NumberPad {
        id: pad

        anchors { right: parent.right; top: parent.top }
        key: Theme.mm(20)
        digits: 4
        unit: qsTr("µm")
        doneText: qsTr("Next")
        onDone: text => {
            root.paint.take(text)
            pad.text = ""
        }
    }
}
