// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Theme

// One key of a pad or of the keyboard. Answers every touch: no guard against double taps here,
// typing "11" is two quick taps.
//   text, symbol, strong (the key that ends it), paper, available;  signal struck()
Item {
    id: root

    property string text: ""
    property int symbol: Icon.NoSymbol
    property bool strong: false
    property bool paper: true
    property bool available: true
    property int textSize: Theme.titleSize

    signal struck

    readonly property color wordColour: strong && available ? Theme.accentInk
        : !available ? (paper ? Theme.inkMuted : Theme.groundInkMuted)
        : paper ? Theme.ink : Theme.groundInk

    implicitWidth: Theme.touch
    implicitHeight: Theme.touch
    Accessible.role: Accessible.Button
    Accessible.name: text

    Rectangle {
        anchors.fill: parent
        radius: Theme.radius
        color: root.strong && root.available ? (area.pressed ? Theme.accentPressed : Theme.accent)
            : !root.available ? "transparent"
            : root.paper ? (area.pressed ? Theme.rule : Theme.sunk)
            : (area.pressed ? Theme.groundLine : Theme.raised)
        border.width: root.available ? 0 : Theme.line
        border.color: root.paper ? Theme.paperLine : Theme.groundLine
    }

    Label {
        anchors.centerIn: parent
        text: root.text
        color: root.wordColour
        font.pixelSize: root.textSize
    }

    Icon {
        anchors.centerIn: parent
        visible: root.symbol !== Icon.NoSymbol
        symbol: root.symbol
        colour: root.wordColour
        width: Theme.mm(9)
        height: Theme.mm(9)
    }

    MouseArea {
        id: area

        anchors.fill: parent
        enabled: root.available
        onPressed: root.struck()
    }
}
