// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Theme

// A button with words.
//   text, symbol (Icon.*), kind: ActionButton.Plain | Accent | Safety (25 mm high, bold)
//   available, reason: what is missing, shown under the words while it is not available
//   paper: which ground it stands on
//   signals tapped(), refused() (touched while not available)
Touchable {
    id: root

    enum Kind {
        Plain,
        Accent,
        Safety
    }

    property string text: ""
    property string reason: ""
    property int kind: ActionButton.Plain
    property int symbol: Icon.NoSymbol
    property bool paper: false

    readonly property bool filled: available && kind !== ActionButton.Plain
    readonly property color wordColour: filled ? Theme.accentInk
        : paper ? (available ? Theme.accent : Theme.inkMuted)
        : (available ? Theme.groundInk : Theme.groundInkMuted)

    spoken: text
    implicitHeight: Math.max(kind === ActionButton.Safety ? Theme.touchSafety : Theme.touch, row.height + Theme.half)
    implicitWidth: Math.max(Theme.mm(26), row.implicitWidth + 2 * Theme.mm(6))

    Rectangle {
        anchors.fill: parent
        radius: Theme.radius
        color: root.filled ? (root.pressed ? Theme.accentPressed : Theme.accent)
            : !root.available ? "transparent"
            : root.paper ? (root.pressed ? Theme.rule : Theme.paper)
            : (root.pressed ? Theme.groundLine : Theme.raised)
        border.width: root.activeFocus ? Theme.thickLine
            : root.kind === ActionButton.Safety && root.available ? Theme.thickLine : Theme.line
        border.color: root.activeFocus ? (root.paper ? Theme.ink : Theme.groundInk)
            : root.paper ? (root.available ? Theme.accent : Theme.paperLine)
            : (root.filled ? Theme.groundAccent : Theme.groundLine)
    }

    Row {
        id: row

        anchors.centerIn: parent
        spacing: Theme.half + Theme.line

        Icon {
            anchors.verticalCenter: parent.verticalCenter
            visible: root.symbol !== Icon.NoSymbol
            width: visible ? Theme.mm(8) : 0
            height: Theme.mm(8)
            symbol: root.symbol
            colour: root.wordColour
        }

        Column {
            anchors.verticalCenter: parent.verticalCenter

            Label {
                text: root.text
                color: root.wordColour
                strong: root.kind === ActionButton.Safety
                width: Math.min(implicitWidth, root.width > 0 ? root.width - 2 * Theme.module : implicitWidth)
                elide: Text.ElideRight
            }

            Label {
                visible: !root.available && root.reason.length > 0
                text: root.reason
                role: Label.Detail
                paper: root.paper
                muted: true
                width: Math.min(implicitWidth, Theme.mm(84))
                wrapMode: Text.WordWrap
                maximumLineCount: 2
                elide: Text.ElideRight
            }
        }
    }
}
