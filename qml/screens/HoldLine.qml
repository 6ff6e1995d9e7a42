// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Theme

// One thing that keeps a car from being sold, in plain words, and the way to it.
//   required: roles of HoldsModel;  signal tapped() when it leads somewhere
Touchable {
    id: root

    required property string kind
    required property string words
    required property bool safety
    required property int operationId
    required property int findingId
    required property string placeId
    required property string opensKind
    required property string wayWords

    readonly property bool leads: wayWords.length > 0

    spoken: words
    available: leads
    implicitHeight: Math.max(Theme.touch, text.height + 2 * Theme.half)

    Rectangle {
        anchors.fill: parent
        color: root.pressed && root.leads ? Theme.sunk : "transparent"
        border.width: root.activeFocus ? Theme.thickLine : 0
        border.color: Theme.accent
    }

    Icon {
        y: text.y + (holdWords.font.pixelSize * 1.25 - height) / 2
        width: Theme.mm(4.2)
        height: Theme.mm(4.2)
        symbol: root.safety ? Icon.HatchMark : Icon.RingMark
    }

    Column {
        id: text

        anchors { left: parent.left; leftMargin: Theme.mm(7); right: parent.right; verticalCenter: parent.verticalCenter }

        Label {
            id: holdWords

            width: parent.width
            text: root.words
            strong: root.safety
            wrapMode: Text.Wrap
            maximumLineCount: 4
            elide: Text.ElideRight
        }

        Label {
            width: parent.width
            visible: root.leads
            text: root.wayWords
            role: Label.Detail
            color: Theme.accent
            font.underline: true
            elide: Text.ElideRight
        }
    }

    Rectangle {
        anchors { left: parent.left; right: parent.right; bottom: parent.bottom }
        height: Theme.line
        color: Theme.rule
    }
}
