// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Theme

// "Do not move / drive / power" across a card, in the largest type that the card has room for.
//   text;  acrossHeight(): with that, its words go from side to side on one line
Rectangle {
    id: root

    property string text: ""

    function acrossHeight(): real {
        const share = Math.min(1, words.width / Math.max(1, words.implicitWidth))
        return Math.ceil(words.font.pixelSize * share * 1.36) + Theme.line * 10
    }

    implicitHeight: words.font.pixelSize * 1.3
    implicitWidth: words.implicitWidth
    color: Theme.hazardInk
    Accessible.role: Accessible.AlertMessage
    Accessible.name: text

    Rectangle {
        anchors { left: parent.left; right: parent.right; top: parent.top; topMargin: Theme.line * 2 }
        height: Theme.line * 2
        color: Theme.hazard
    }

    Rectangle {
        anchors { left: parent.left; right: parent.right; bottom: parent.bottom; bottomMargin: Theme.line * 2 }
        height: Theme.line * 2
        color: Theme.hazard
    }

    Label {
        id: words

        anchors.fill: parent
        anchors.leftMargin: Theme.module
        anchors.rightMargin: Theme.module
        anchors.topMargin: Theme.line * 5
        anchors.bottomMargin: Theme.line * 5
        text: root.text
        role: Label.Distance
        strong: true
        color: Theme.paper
        fontSizeMode: Text.Fit
        wrapMode: Text.WordWrap
        minimumPixelSize: Theme.readingSize
        horizontalAlignment: Text.AlignHCenter
        verticalAlignment: Text.AlignVCenter
    }
}
