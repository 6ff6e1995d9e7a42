// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Theme

// "Do not move / drive / power" across a card, in the largest type that the card has room for.
//   text
Rectangle {
    id: root

    property string text: ""

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
